"""Spacing, against an exact search that shares nothing with the module but its question."""

import itertools
import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure import HemError
from hemcalc.measure.exact import MAX_THREADS
from hemcalc.stitch import Spacing, rest_of_side, space_stitches, spacing

GROUPS = range(2, 7)
FURTHEST = 400  # longest side that the search goes through

#: Longest side of which simply every order of groups is written down, by group.
EVERY_ORDER = {2: 37, 3: 30, 4: 39, 5: 50, 6: 59}

IMPOSSIBLE = {2: (1,), 3: (1,), 4: (1, 2), 5: (1, 2, 3, 7), 6: (1, 2, 3, 4, 8, 9)}

sides = st.tuples(st.integers(1, 5000), st.sampled_from(GROUPS)).filter(
    lambda side: side[0] not in IMPOSSIBLE[side[1]]
)


# The search. It knows the sizes that are allowed and how a finished order of groups is judged.


def allowed(group: int) -> tuple[int, ...]:
    return tuple(size for size in (group - 1, group, group + 1) if size >= 2)


Order = tuple[tuple[int, ...], tuple[int, ...]]  # the runs of regular groups, and the off-size groups between


def written_out(order: Order, group: int) -> tuple[int, ...]:
    runs, off = order
    between = ((size,) + (group,) * run for size, run in zip(off, runs[1:], strict=True))
    return (group,) * runs[0] + tuple(itertools.chain.from_iterable(between))


def judged(order: Order) -> tuple[int, bool, int, int, int]:
    """What is preferred sorts first: off-size, symmetry, evenness, size, the run begun with."""
    runs, off = order
    squares = 0
    if off:
        # Squares about the mean, the end runs as halves of one; times 2 and len(off)² to be whole.
        mean = sum(runs)
        squares = sum(2 * (run * len(off) - mean) ** 2 for run in runs[1:-1])
        squares += sum((2 * run * len(off) - mean) ** 2 for run in (runs[0], runs[-1]))
    return len(off), (runs, off) != (runs[::-1], off[::-1]), squares, sum(off), -runs[0]


def fewest_off(group: int) -> list[int | None]:
    """For each side the fewest groups off size, one group put on at a time; None: impossible."""
    fewest: list[int | None] = [0]
    for threads in range(1, FURTHEST + 1):
        before = [
            fewest[threads - size] + (size != group)
            for size in allowed(group)
            if size <= threads and fewest[threads - size] is not None
        ]
        fewest.append(min(before, default=None))
    return fewest


def orders_with(off: int, threads: int, group: int) -> Iterator[Order]:
    """Every order of groups that has so many off-size ones, of either kind, in any place."""
    for sizes in itertools.product(sorted(set(allowed(group)) - {group}), repeat=off):
        regular, over = divmod(threads - sum(sizes), group)
        if over or regular < 0:
            continue
        for places in itertools.combinations(range(regular + off), off):
            ends = itertools.pairwise((-1, *places, regular + off))
            yield tuple(end - start - 1 for start, end in ends), sizes


@cache
def every_order(threads: int, group: int) -> tuple[Order, ...]:
    if threads == 0:
        return (((0,), ()),)
    return tuple(
        ((run + 1, *runs), off) if size == group else ((0, run, *runs), (size, *off))
        for size in allowed(group)
        if size <= threads
        for (run, *runs), off in every_order(threads - size, group)
    )


def the_best(orders: Iterable[Order], group: int) -> list[tuple[int, ...]]:
    """The orders that nothing is preferred to."""
    best, key = [], None
    for order in orders:
        this = judged(order)
        if key is None or this < key:
            best, key = [order], this
        elif this == key:
            best.append(order)
    return [written_out(order, group) for order in best]


@pytest.mark.parametrize("group", GROUPS)
def test_no_order_of_groups_whatever_is_preferred_to_the_one_given(group: int) -> None:
    for threads in range(1, EVERY_ORDER[group] + 1):
        best = the_best(every_order(threads, group), group)
        if not best:
            assert threads in IMPOSSIBLE[group]
            continue
        assert [space_stitches(threads, group).groups] == best, threads


@pytest.mark.parametrize("group", GROUPS)
def test_a_side_to_400_threads_has_the_one_spacing_that_an_exact_search_finds(group: int) -> None:
    for threads, off in enumerate(fewest_off(group)):
        # All sides to 150 threads, and each seventh of the longer: with every rest of a group among them.
        if threads and off is not None and (threads <= 150 or threads % 7 == 0):
            best = the_best(orders_with(off, threads, group), group)
            assert [space_stitches(threads, group).groups] == best, threads


@for_each("group", GROUPS)
def test_the_sides_that_cannot_be_grouped_are_the_ones_the_search_finds(group: int) -> None:
    off = fewest_off(group)
    found = tuple(threads for threads in range(1, FURTHEST + 1) if off[threads] is None)
    assert found == IMPOSSIBLE[group]
    refused = []
    for threads in range(1, FURTHEST + 1):
        try:
            space_stitches(threads, group)
        except HemError:
            refused.append(threads)
    assert tuple(refused) == found


@for_each(("group", "threads"), [(g, n) for g, ns in IMPOSSIBLE.items() for n in ns])
def test_a_side_that_cannot_be_is_answered_with_the_nearest_that_can(group: int, threads: int) -> None:
    off = fewest_off(group)
    can = [side for side in range(1, FURTHEST + 1) if off[side] is not None]
    step = min(abs(side - threads) for side in can)
    nearest = [side for side in can if abs(side - threads) == step]
    with pytest.raises(HemError, match="can't be made of groups of") as refused:
        space_stitches(threads, group)
    said = re.search(r"for example (\d+)(?: or (\d+))?, the nearest", str(refused.value))
    assert said
    assert [int(side) for side in said.groups() if side] == nearest
    assert refused.value.about == "threads"


@for_each(("group", "threads"), [(g, n) for g, ns in IMPOSSIBLE.items() for n in ns])
def test_a_rest_that_cannot_be_says_how_many_groups_to_take_out(group: int, threads: int) -> None:
    off = fewest_off(group)
    taken = next(many for many in range(1, 9) if off[threads + many * group] is not None)
    with pytest.raises(HemError, match=f"^threads_left is {threads}, ") as refused:
        rest_of_side(threads, group, hand="left")
    last = f"the last group of {group} " if taken == 1 else f"the last {taken} groups of {group} "
    instead = space_stitches(threads + taken * group, group, hand="left").text()
    assert last in str(refused.value)
    assert str(refused.value).endswith("taken out: w" + instead[1:])
    assert refused.value.about == "threads_left"


# Common practice of the trade, no published source. By hand, in groups of four: 20 divide; one over is a
# five, and one missing a three in the middle; two over or missing are two, kept apart.
@for_each(
    ("left", "groups"),
    [(20, (4, 4, 4, 4, 4)), (17, (4, 4, 5, 4)), (19, (4, 4, 3, 4, 4)), (18, (4, 3, 4, 3, 4))],
)
def test_the_last_stretch_before_a_corner_as_the_trade_makes_it_up(
    left: int, groups: tuple[int, ...]
) -> None:
    assert rest_of_side(left).groups == groups


# Common practice of the trade, no published source: no group is more than a thread off.
def test_groups_of_five_are_made_up_by_fours_or_by_sixes_alone() -> None:
    for threads in range(8, FURTHEST + 1):
        sizes = set(space_stitches(threads, 5).groups)
        assert sizes <= {4, 5, 6}
        assert len(sizes) <= 2


# Common practice of the trade, no published source: more than one off-size group are spread
# apart. With two regular groups for two off-size ones both places are as even, and the rule
# begins with the longer run, which keeps them off the corners and side by side.
def test_off_size_groups_lie_apart_as_soon_as_there_are_regular_ones_to_part_them() -> None:
    touching = set()
    for group in GROUPS:
        for threads in range(10, FURTHEST + 1):
            side = space_stitches(threads, group)
            apart = [later - place for place, later in itertools.pairwise(side.off_places)]
            if any(step == 1 for step in apart) and len(set(side.groups)) > 1:
                touching.add((group, side.groups))
    assert touching == {
        (5, (5, 4, 4, 5)),
        (5, (5, 6, 6, 5)),
        (6, (6, 5, 5, 6)),
        (6, (6, 7, 7, 6)),
    }


def test_of_two_kinds_as_few_the_more_even_is_taken() -> None:
    # 14 = 5 + 4 + 5 with runs of 0, 1, 0; 3 + 4 + 4 + 3 and 4 + 3 + 3 + 4 are less even.
    assert space_stitches(14).groups == (5, 4, 5)
    assert space_stitches(18).groups == (4, 3, 4, 3, 4)


@given(sides, st.sampled_from(["right", "left"]))
def test_groups_sum_to_the_side_and_are_off_by_one_at_most(side: tuple[int, int], hand: str) -> None:
    threads, group = side
    spaced = space_stitches(threads, group, hand=hand)
    assert sum(spaced.groups) == threads == spaced.threads
    assert set(spaced.groups) <= set(allowed(group))
    assert len(spaced.groups) == spaced.count
    off = [place for place, size in enumerate(spaced.groups, start=1) if size != group]
    assert spaced.off_places == tuple(off)
    assert spaced.off_size == len(off)
    assert sorted(spaced.groups) == sorted(spaced.left_to_right)


@given(sides)
def test_off_size_groups_are_the_threads_over_or_missing_whichever_is_less(side: tuple[int, int]) -> None:
    threads, group = side
    over, missing = threads % group, -threads % group
    fewest = over if group == 2 else min(over, missing)  # groups of two have no smaller ones
    assert space_stitches(threads, group).off_size == fewest


def test_a_million_threads_are_not_searched_through(monkeypatch: pytest.MonkeyPatch) -> None:
    looked_at = []
    monkeypatch.setattr(spacing, "Spacing", lambda *parts: looked_at.append(parts) or Spacing(*parts))
    side = space_stitches(1_000_002)
    assert len(looked_at) <= 2
    assert (side.off_group, side.runs) == (3, (62_500, 124_999, 62_500))
    assert sum(side.groups) == 1_000_002
    assert sum(space_stitches(MAX_THREADS - 1, 6).groups) == MAX_THREADS - 1


@given(sides)
def test_a_side_is_symmetric_unless_a_lone_off_size_group_has_no_middle(side: tuple[int, int]) -> None:
    spaced = space_stitches(*side)
    assert spaced.symmetric == (spaced.groups == spaced.groups[::-1])
    assert spaced.symmetric == (not (spaced.off_size % 2 == 1 and spaced.count % 2 == 0))
    assert any("none stands in the middle" in note for note in spaced.notes) == (not spaced.symmetric)


@given(sides)
def test_the_left_hand_works_the_same_groups_and_the_cloth_shows_the_mirror(side: tuple[int, int]) -> None:
    right, left = space_stitches(*side), space_stitches(*side, hand="left")
    assert left.groups == right.groups
    assert left.left_to_right == right.left_to_right[::-1]
    assert right.left_to_right == right.groups
    assert right.text() == left.text().replace("right to left", "left to right")
    assert left.text() != right.text()
    # The direction is a choice of its own, and says nothing of the hand.
    for hand, natural in (("right", right), ("left", left)):
        for way, like in (("left to right", right), ("right to left", left)):
            chosen = space_stitches(*side, hand=hand, worked=way)
            assert (chosen.left_to_right, chosen.text()) == (like.left_to_right, like.text())
            assert (chosen.way == natural.way) == (like is natural)


@given(sides)
def test_two_groups_more_add_nothing_off_size(side: tuple[int, int]) -> None:
    threads, group = side
    assert space_stitches(threads + 2 * group, group).off_size == space_stitches(threads, group).off_size


@given(sides)
def test_runs_are_as_equal_as_whole_groups_go(side: tuple[int, int]) -> None:
    spaced = space_stitches(*side)
    if spaced.off_size:
        mean = Fraction(sum(spaced.runs), spaced.off_size)
        assert all(abs(run - mean) <= 1 for run in spaced.runs[1:-1])
        assert all(abs(2 * run - mean) <= 1 for run in (spaced.runs[0], spaced.runs[-1]))


@given(sides)
def test_the_rest_of_a_side_is_spaced_as_a_side_of_its_own(side: tuple[int, int]) -> None:
    assert rest_of_side(*side) == space_stitches(*side)


@for_each("function", [space_stitches, rest_of_side])
@for_each(
    ("threads", "group", "hand", "about", "says"),
    [
        (0, 4, "right", "threads", "is 0, but must be a whole number of threads, 1 or more"),
        (-4, 4, "right", "threads", "is -4, but must be"),
        (24.0, 4, "right", "threads", "is 24.0, a float, which may hide a fraction"),
        ("24", 4, "right", "threads", "is '24', but must be a whole number"),
        (True, 4, "right", "threads", "is True, but must be a whole number"),
        (10**30, 4, "right", "threads", "at most 10,000,000 threads can be planned"),
        (24, 1, "right", "group", "group is 1, but must be a whole number of threads, from 2 to 6"),
        (24, 7, "right", "group", "group is 7, but must be"),
        (24, 4.0, "right", "group", "group is 4.0, a float, which may hide a fraction"),
        (24, None, "right", "group", "group is None, but must be"),
        (24, 4, "both", "hand", "hand is 'both', but must be one of 'right', 'left'"),
        (24, 4, None, "hand", "hand is None, but must be"),
    ],
)
def test_bad_input_is_answered_in_one_sentence(function, threads, group, hand, about, says) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(HemError, match=re.escape(says)) as refused:
        function(threads, group, hand=hand)
    named = "threads_left" if function is rest_of_side and about == "threads" else about
    assert refused.value.about == named
    assert str(refused.value).startswith(f"{named} is ")
    assert "for example" in str(refused.value)
