"""The ways to make a side divide, against every change that could be made."""

import itertools
import re

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import HemError, space_stitches
from hemcalc.stitch.dividing import Dividing, nearest_dividing, nearest_dividing_both

designs = st.integers(1, 400)
bands = st.integers(0, 20)
groups = st.sampled_from([2, 3, 4, 5, 6])
withins = st.integers(0, 6)
stitches = st.integers(1, 3)


def every_change(design: int, left: int, right: int, within: int) -> set[tuple[int, int, int]]:
    """Every design and pair of bands that may be offered, dividing or not."""
    span = range(-within, within + 1)
    found = {(design + more, left, right) for more in span if design + more > 0}
    for one, other in itertools.product(span, span):
        if abs(one - other) <= 1 and left + one >= 0 and right + other >= 0:
            found.add((design, left + one, right + other))
    return found


@given(designs, bands, bands, groups, withins, stitches)
def test_every_way_offered_is_one_that_divides_and_is_near(
    design: int, left: int, right: int, group: int, within: int, over: int
) -> None:
    for way in nearest_dividing(design, left, right, group, within, over=over):
        assert (way.design, way.left, way.right) in every_change(design, left, right, within)
        assert space_stitches(way.threads, group).off_size == 0
        assert way.threads == way.design + way.left + way.right == design + left + right + way.added
        assert (way.design - design) % over == 0
        assert way.even == (way.left == way.right)
        assert way.changes == ("design" if way.design != design else "clear" if way.added else "nothing")


@given(designs, bands, bands, groups, withins)
def test_no_size_of_side_that_a_change_could_reach_is_left_out(
    design: int, left: int, right: int, group: int, within: int
) -> None:
    changes = every_change(design, left, right, within)
    offered = nearest_dividing(design, left, right, group, within)
    by_bands = {sum(change) for change in changes if change[0] == design and sum(change) % group == 0}
    by_design = {sum(change) for change in changes if change[1:] == (left, right)}
    assert {way.threads for way in offered if way.changes != "design"} == by_bands
    assert {way.threads for way in offered if way.changes != "clear"} == {
        n for n in by_design if n % group == 0
    }
    assert len(set(offered)) == len(offered)


@given(designs, bands, bands, groups, withins, stitches)
def test_the_nearest_stands_first(
    design: int, left: int, right: int, group: int, within: int, over: int
) -> None:
    ways = nearest_dividing(design, left, right, group, within, over=over)
    assert [abs(way.added) for way in ways] == sorted(abs(way.added) for way in ways)
    if (design + left + right) % group == 0:
        assert ways[0] == Dividing(design, left, right, 0, "nothing")
    else:
        assert all(way.added for way in ways)


@given(designs, bands, groups, withins)
def test_equal_bands_come_to_differ_by_a_thread_at_most_the_right_one_wider(
    design: int, clear: int, group: int, within: int
) -> None:
    for way in nearest_dividing(design, clear, clear, group, within):
        assert way.right - way.left in (0, 1)


@given(designs, bands, bands, groups, withins)
def test_unequal_bands_never_come_to_differ_by_more(
    design: int, left: int, right: int, group: int, within: int
) -> None:
    for way in nearest_dividing(design, left, right, group, within):
        assert abs(way.left - way.right) <= max(1, abs(left - right))


@given(designs, bands, bands, groups)
def test_within_three_there_is_always_a_way(design: int, left: int, right: int, group: int) -> None:
    assert nearest_dividing(design + 3, left, right, group, within=3)


def test_of_ways_as_near_other_bands_and_then_the_wider_come_first() -> None:
    ways = nearest_dividing(82, 8, 8, 4, 3)  # 98 threads: two over, or two short
    assert [(way.design, way.left, way.right, way.added) for way in ways] == [
        (82, 9, 9, 2),
        (82, 7, 7, -2),
        (84, 8, 8, 2),
        (80, 8, 8, -2),
        (82, 11, 11, 6),
        (82, 5, 5, -6),
    ]


def test_a_band_one_thread_wider_comes_before_another_design() -> None:
    ways = nearest_dividing(85, 8, 8)  # 101 threads: one over, or three short
    assert [(way.design, way.left, way.right) for way in ways] == [
        (85, 7, 8),
        (84, 8, 8),
        (85, 9, 10),
        (88, 8, 8),
        (85, 5, 6),
    ]


def test_a_design_over_two_threads_changes_by_whole_stitches() -> None:
    assert all(way.changes == "clear" for way in nearest_dividing(85, 8, 8, 4, 3, over=2))
    ways = nearest_dividing(85, 8, 8, 3, 3, over=2)  # 101 threads: two over, or one short
    assert [way.design for way in ways if way.changes == "design"] == [83]


def test_nothing_within_reach_is_an_empty_answer() -> None:
    assert nearest_dividing(85, 8, 8, 4, 0) == ()
    assert nearest_dividing_both((85, 84), (8, 8, 8, 8), 4, 0) == ()


@given(st.tuples(designs, designs), st.tuples(bands, bands, bands, bands), groups, st.integers(0, 3))
def test_both_directions_are_every_pair_of_their_ways(
    design: tuple[int, int], clear: tuple[int, int, int, int], group: int, within: int
) -> None:
    ways = nearest_dividing_both(design, clear, group, within)
    across = nearest_dividing(design[0], *clear[:2], group, within)
    down = nearest_dividing(design[1], *clear[2:], group, within)
    assert {(way.across, way.down) for way in ways} == set(itertools.product(across, down))
    assert len(ways) == len(across) * len(down)
    moved = [sum(abs(added) for added in way.added) for way in ways]
    assert moved == sorted(moved)
    for way in ways:
        left, right, top, bottom = way.clear
        assert (way.design[0] + left + right) % group == 0  # the open lines at top and bottom run across
        assert (way.design[1] + top + bottom) % group == 0
        assert way.added == (
            way.design[0] + left + right - design[0] - clear[0] - clear[1],
            way.design[1] + top + bottom - design[1] - clear[2] - clear[3],
        )
        assert way.same_all_round == (left == right == top == bottom)


def test_of_pairs_as_near_bands_the_same_all_round_come_first() -> None:
    ways = nearest_dividing_both((122, 82), (8, 8, 8, 8))
    assert [way.clear for way in ways[:4]] == [(9, 9, 9, 9), (7, 7, 7, 7), (9, 9, 7, 7), (7, 7, 9, 9)]
    assert [way.same_all_round for way in ways[:4]] == [True, True, False, False]
    assert all(way.design == (122, 82) for way in ways[:4])


def test_of_pairs_as_near_equal_bands_come_first() -> None:
    # 100 and 99 threads in threes: four more or fewer across leaves equal bands, one across and
    # three down does not.
    ways = [way for way in nearest_dividing_both((84, 83), (8, 8, 8, 8), 3) if way.design == (84, 83)]
    four = [way.clear for way in ways if sum(abs(added) for added in way.added) == 4]
    assert four == [(6, 6, 8, 8), (7, 8, 9, 10), (7, 8, 6, 7)]


@for_each(
    ("inputs", "about", "says"),
    [
        ((0, 8, 8), "design", "design is 0, but must be a whole number of threads, 1 or more"),
        ((120.5, 8, 8), "design", "design is 120.5, but must be"),
        ((120, -1, 8), "clear", "clear is -1, but must be a whole number of threads, 0 or more"),
        ((120, 8, "8"), "clear", "clear is '8', but must be"),
        ((120, 8, 8, 9), "group", "group is 9, but must be"),
        ((120, 8, 8, 4, -1), "within", "within is -1, but must be a whole number of threads, from 0 to 50"),
        ((120, 8, 8, 4, 51), "within", "within is 51, but must be"),
    ],
)
def test_bad_input_is_answered_in_one_sentence(inputs: tuple[int, ...], about: str, says: str) -> None:
    with pytest.raises(HemError, match=re.escape(says)) as refused:
        nearest_dividing(*inputs)
    assert refused.value.about == about
    assert "for example" in str(refused.value)


def test_a_stitch_over_no_threads_is_refused() -> None:
    with pytest.raises(HemError, match="over is 0, but must be a whole number of threads, from 1 to 50"):
        nearest_dividing(120, 8, 8, over=0)


@for_each(
    ("design", "clear", "about", "says"),
    [
        (120, (8, 8, 8, 8), "design", "design is 120, but must be 2 numbers of threads"),
        ((120, 80, 1), (8, 8, 8, 8), "design", "design is a tuple, but must be 2 numbers"),
        ((120, 80), 8, "clear", "clear is 8, but must be 4 numbers of threads; for example (8, 8, 8, 8)"),
        ((120, 80), (8, 8), "clear", "clear is a tuple, but must be 4 numbers"),
        ((120, "80"), (8, 8, 8, 8), "design", "design is '80', but must be"),
    ],
)
def test_too_few_numbers_for_both_directions_are_refused(
    design: object, clear: object, about: str, says: str
) -> None:
    with pytest.raises(HemError, match=re.escape(says)) as refused:
        nearest_dividing_both(design, clear)  # type: ignore[arg-type]
    assert refused.value.about == about
