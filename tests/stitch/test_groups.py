"""The groups of a side: told one by one, as they lie, and in words."""

import itertools
import re

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import HemError, space_stitches
from hemcalc.stitch.groups import Spacing, as_group

GROUPS = (2, 3, 4, 5, 6)

spacings = st.tuples(
    st.sampled_from(GROUPS),
    st.sampled_from([-1, 1]),
    st.lists(st.integers(0, 30), min_size=1, max_size=4).filter(lambda runs: len(runs) > 1 or runs[0]),
    st.sampled_from(["right", "left"]),
).map(
    lambda parts: Spacing(
        parts[0] * sum(parts[2]) + (parts[0] + parts[1]) * (len(parts[2]) - 1),
        parts[0],
        parts[3],
        parts[0] + parts[1],
        tuple(parts[2]),
    )
)


@given(spacings)
def test_the_groups_sum_to_the_threads_and_the_off_size_ones_are_numbered(side: Spacing) -> None:
    assert sum(side.groups) == side.threads
    assert len(side.groups) == side.count
    off = [place for place, size in enumerate(side.groups, start=1) if size != side.group]
    assert side.off_places == tuple(off)
    assert side.off_size == len(off)
    assert side.symmetric == (side.groups == side.groups[::-1])
    assert side.left_to_right == (side.groups if side.way == "left to right" else side.groups[::-1])


@given(spacings)
def test_stretches_tell_the_same_groups(side: Spacing) -> None:
    told = tuple(itertools.chain.from_iterable((size,) * many for many, size in side.stretches))
    assert told == side.groups
    assert all(one[1] != other[1] for one, other in itertools.pairwise(side.stretches))
    numbers = [int(n) for n in re.findall(r"\d+", side.text())]
    assert numbers == [n for stretch in side.stretches for n in stretch]
    assert side.zigzag == all(size % 2 == 0 for size in side.groups)


def test_the_words_for_a_side_that_divides_and_for_one_that_does_not() -> None:
    assert space_stitches(104).text() == "Work 26 groups of 4, from left to right."
    assert space_stitches(104).notes == ()
    assert space_stitches(3).text() == "Work 1 group of 3, from left to right."
    side = space_stitches(23, hand="left")
    assert side.text() == "Work 3 groups of 4, 1 of 3, 2 of 4, from right to left."
    assert side.notes[0] == "23 threads do not divide by 4, so 1 group is of 3: no fewer will do."


def test_a_group_that_no_book_takes_is_said() -> None:
    assert space_stitches(24, 6).notes == ("The books take 2 to 5 threads to a group; this one takes 6.",)
    assert not any(space_stitches(60, group).notes for group in (2, 3, 4, 5))


def test_a_group_is_a_whole_number_from_2_to_6() -> None:
    assert [as_group(size) for size in GROUPS] == [2, 3, 4, 5, 6]


@for_each("value", [1, 7, 0, -4, 4.0, "4", True, None])
def test_any_other_group_is_refused(value: object) -> None:
    with pytest.raises(HemError, match="a whole number of threads, from 2 to 6; for example 4") as refused:
        as_group(value)
    assert refused.value.about == "group"
