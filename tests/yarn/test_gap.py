"""A thread or needle against the cloth: the ratio, its working, and where there is no gap."""

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.yarn.diameter import diameter_by_volume
from hemcalc.yarn.gap import gap_ratio

sizes = st.floats(0.05, 3, allow_nan=False)


@given(st.integers(8, 60), st.floats(0.05, 0.95), sizes)
def test_the_ratio_times_the_gap_is_the_thread(per_inch, filled, thread):
    yarn = filled * 25.4 / per_inch
    result = gap_ratio(thread, f"{per_inch}/in", yarn)
    assert result.ratio * (25.4 / per_inch - yarn) == pytest.approx(thread, rel=1e-9)


def test_the_working_holds_every_number_of_the_sum():
    thread = diameter_by_volume("50 tex", fibre="cotton")
    yarn = diameter_by_volume("56 tex")
    result = gap_ratio(thread, "28/in", yarn)
    for number in (thread.diameter_mm, 25.4 / 28, yarn.diameter_mm, result.gap_mm):
        assert f"{number:.3f}" in result.working
    assert result.working.endswith(f"= {result.ratio:.2f}")
    assert gap_ratio("0.76 mm", "28/in", yarn, what="needle").working.startswith("needle 0.760 mm")


@given(st.integers(8, 60), sizes)
def test_a_finer_cloth_gives_the_same_thread_a_larger_ratio(per_inch, thread):
    def ratio(count):
        return gap_ratio(thread, f"{count}/in", 0.2).ratio

    assert ratio(per_inch + 1) > ratio(per_inch)


def test_a_yarn_that_fills_its_pitch_is_refused_with_a_finer_one():
    with pytest.raises(HemError, match=r"0.907 mm, so no gap is left.*for example '0.45 mm'") as caught:
        gap_ratio("0.3 mm", "28/in", "1 mm")
    assert caught.value.about == "cloth_yarn"
    with pytest.raises(HemError, match="so no gap is left"):
        gap_ratio("0.3 mm", "10/cm", "1 mm")  # as thick as the pitch: a gap of 0 has no ratio


@for_each(
    ("ask", "about"),
    [
        (lambda: gap_ratio(0, "28/in", 0.4), "thread"),
        (lambda: gap_ratio("0.3", "28/in", 0.4), "thread"),
        (lambda: gap_ratio(0.7, "28/in", None, what="needle"), "cloth_yarn"),
        (lambda: gap_ratio(None, "28/in", 0.4, what="needle"), "needle"),
        (lambda: gap_ratio(0.3, 28, 0.4), "count"),
        (lambda: gap_ratio(0.3, "28/in", 0.4, what="pin"), "what"),
    ],
)
def test_bad_input_gets_its_sentence(ask, about):
    with pytest.raises(HemError) as caught:
        ask()
    assert caught.value.about == about
