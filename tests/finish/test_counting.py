"""The lines by which a blank cloth is counted: every thread of the design lies between two of them."""

import re
from itertools import pairwise

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import EXAMPLES, HemError
from hemcalc.finish.counting import PLACES, Border, Way, counting_plan, in_lines

BREAD = EXAMPLES["bread cloth"]  # 230 × 188 threads


@given(st.integers(1, 2000), st.integers(2, 100))
def test_no_count_is_longer_than_the_choice_and_the_middle_halves_it(threads, every):
    way = Way(threads, every, ("left", "right"))
    at = [0, *sorted({*way.lines, way.centre} - {0, threads}), threads]
    gaps = [b - a for a, b in pairwise(at)]
    assert sum(gaps) == threads
    assert all(0 < gap <= every for gap in gaps)
    # From the centre line outward only the last stretch, at the outline, may be shorter.
    assert set(gaps[1:-1]) <= {every}
    assert sum(way.halves) == threads
    assert way.halves[0] - way.halves[1] in (0, 1)


@given(st.integers(1, 500), st.integers(2, 50))
def test_a_long_count_is_said_in_lines_and_adds_up(threads, every):
    numbers = [int(word) for word in in_lines(threads, every).split() if word.isdigit()]
    if threads < every:
        assert numbers == [threads]
    else:
        lines, each, *more = numbers
        assert lines * each + sum(more) == threads
        assert each == every


@given(st.integers(1, 800), st.integers(1, 60), st.integers(0, 40))
def test_repeats_corners_and_what_is_left_fill_the_side(threads, repeat, corner):
    border = Border(threads, repeat, corner)
    if 2 * corner + repeat <= threads:
        assert border.repeats >= 1
        assert border.repeats * repeat + sum(border.corners) == threads
        assert 0 <= border.left < repeat
        assert min(border.corners) >= corner
        assert border.corners[0] - border.corners[1] in (0, 1)


@pytest.mark.parametrize(
    ("threads", "said"), [(76, "nothing is left"), (77, "9 at one end and 8 at the other"), (78, "9 each")]
)
def test_what_no_repeat_takes_goes_to_the_corners(threads, said):
    # 5 repeats of 12 and two corners of 8 are 76.
    assert said in Border(threads, 12, 8).text()


def test_without_a_word_a_border_has_no_corners_of_its_own_and_a_motif_stands_free():
    plan = counting_plan(BREAD, motif=(40, 50), place="top left", repeat=46)
    assert [border.corner for border in plan.borders] == [0, 0]
    assert (plan.motif.left, plan.motif.top) == (0, 0)


@for_each("place", PLACES)
def test_a_motif_stands_where_it_is_asked_to(place):
    motif = counting_plan(BREAD, motif=(40, 51), place=place, inset=(12, 9)).motif
    assert motif.left + 40 + motif.right == 230
    assert motif.top + 51 + motif.bottom == 188
    if place == "middle":
        assert (motif.left, motif.right, motif.top, motif.bottom) == (95, 95, 69, 68)
    else:
        down, across = place.split()
        assert getattr(motif, across) == 12
        assert getattr(motif, down) == 9


def test_the_plan_shows_itself():
    plan = counting_plan(BREAD, every=50, motif=(40, 50), repeat=22, corner=5)
    assert repr(plan) == "CountingPlan(230 × 188 threads, a line every 50, a motif, a border)"
    assert plan.across.lines == (15, 65, 165, 215)
    table = plan.table()
    places = table["threads from the outline"]
    assert places["counting line"].tolist() == [15, 65, 165, 215, 44, 144]
    assert places[["left", "right", "top", "bottom"]].tolist() == [0, 230, 0, 188]
    assert plan.text().startswith("From the centre line 115 threads to the left (2 lines of 50 and 15 more)")
    # 231 = 116 + 115, and 187 = 94 + 93.
    assert counting_plan(BREAD.with_changes(design=(231, 187)), every=50).text() == (
        "From the centre line 116 threads to the left (2 lines of 50 and 16 more) and 115 threads to the "
        "right (2 lines of 50 and 15 more). From the centre line 94 threads to the top (1 line of 50 and 44 "
        "more) and 93 threads to the bottom (1 line of 50 and 43 more)."
    )
    assert "<caption>Lines to count by</caption>" in plan._repr_html_()
    said = re.findall(r">(0|[+-]\d+)</td><td>(\d+)<", plan._repr_html_().replace("\n", ""))
    assert [(int(off), int(line)) for off, line in said] == list(
        plan.table().itertuples(index=False, name=None)
    )


@for_each(
    ("asked", "about"),
    [
        ({"every": 1}, "every"),
        ({"every": 10.0}, "every"),
        ({"motif": (231, 10)}, "motif"),
        ({"motif": 40}, "motif"),
        ({"motif": (0, 4)}, "motif"),
        ({"motif": (220, 10), "place": "top left", "inset": 11}, "motif"),
        ({"motif": (4, 4), "place": "centre"}, "place"),
        ({"motif": (4, 4), "inset": "1 in"}, "inset"),
        ({"repeat": 0}, "repeat"),
        ({"repeat": 100, "corner": 50}, "repeat"),
    ],
)
def test_what_cannot_be_counted_is_refused_in_a_sentence(asked, about):
    with pytest.raises(HemError) as caught:
        counting_plan(BREAD, **asked)
    assert caught.value.about == about


def test_the_smallest_motif_is_one_thread_and_the_example_of_a_refusal_will_do():
    assert counting_plan(BREAD, motif=(1, 1)).motif.left == 115
    with pytest.raises(HemError) as caught:
        counting_plan(BREAD, repeat=100, corner=50)
    fits = int(re.search(r"for example repeat=(\d+)", str(caught.value))[1])
    assert counting_plan(BREAD, repeat=fits, corner=50).borders


def test_a_motif_too_large_is_told_the_designs_size():
    with pytest.raises(HemError, match=r"motif is 231 × 10 threads at middle, .* of 230 × 188;"):
        counting_plan(BREAD, motif=(231, 10))


def test_a_plan_is_of_a_piece():
    with pytest.raises(HemError, match="piece"):
        counting_plan("bread cloth")
