"""Thread and needle in the cloth's gaps, held against the ratios that are shown."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.patches import Circle

from hemcalc.draw.look import TYPE
from hemcalc.draw.stitch.thread_gap import MAX_GAPS, draw_gap, gap_alt
from hemcalc.measure.errors import HemError
from hemcalc.yarn.gap import gap_ratio


def circles(still):
    found = still.sheet.figure.findobj(Circle)
    return [(*circle.get_center(), circle.get_radius()) for circle in found]


@st.composite
def laid_in(draw):
    count, yarn = f"{draw(st.integers(14, 50))}/in", draw(st.floats(0.05, 0.45))
    many = draw(st.integers(1, MAX_GAPS))
    return [
        gap_ratio(draw(st.floats(0.05, 1.3)), count, yarn, what=draw(st.sampled_from(("thread", "needle"))))
        for _ in range(many)
    ]


@settings(max_examples=15)
@given(laid_in())
def test_all_is_to_scale_and_each_lies_in_the_middle_of_its_gap(ratios):
    pitch, yarn = ratios[0].pitch_mm, ratios[0].cloth_yarn_mm
    found = circles(draw_gap(*ratios))
    cloth, laid = found[: len(ratios) + 1], found[len(ratios) + 1 :]
    assert [radius for _, _, radius in cloth] == pytest.approx([yarn / 2] * len(cloth))
    assert [x for x, _, _ in cloth] == pytest.approx([n * pitch for n in range(len(cloth))])
    assert [radius for _, _, radius in laid] == pytest.approx([ratio.diameter_mm / 2 for ratio in ratios])
    assert [x for x, _, _ in laid] == pytest.approx([(n + 0.5) * pitch for n in range(len(laid))])
    assert {y for _, y, _ in found} == {0}


def test_the_alt_text_states_every_number():
    ratios = (
        gap_ratio("0.3 mm", "28/in", "0.4 mm"),
        gap_ratio("0.61 mm", "28/in", "0.4 mm", what="needle"),
    )
    assert gap_alt(*ratios) == (
        "Cut across and to scale. Pitch 0.91 mm less the cloth's own yarn of 0.40 mm leaves a gap of "
        "0.51 mm. The thread of 0.30 mm is 0.59 of the gap. The needle of 0.61 mm is 1.20 of the gap."
    )


@pytest.mark.parametrize("size", TYPE)
def test_its_words_stand_clear(size, troubles):
    thread = gap_ratio("0.34 mm", "25/in", "0.37 mm")
    needle = gap_ratio("0.61 mm", "25/in", "0.37 mm", what="needle")
    assert troubles(draw_gap(thread, needle, size=size).sheet) == []


@pytest.mark.parametrize("many", [0, MAX_GAPS + 1])
def test_too_few_or_too_many_are_refused(many):
    with pytest.raises(HemError, match=rf"one to {MAX_GAPS} threads or needles .* for example"):
        draw_gap(*[gap_ratio("0.3 mm", "28/in", "0.4 mm")] * many)


def test_two_cloths_are_refused():
    with pytest.raises(HemError, match="on one cloth"):
        draw_gap(gap_ratio("0.3 mm", "28/in", "0.4 mm"), gap_ratio("0.3 mm", "25/in", "0.4 mm"))
