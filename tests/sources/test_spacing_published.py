"""Threads to a group as the handbooks print them, held against the groups hemcalc takes.

The figures themselves are rows of data/. The books give ranges by cloth and are silent on a
remainder, so what they can check besides is which groups are allowed, and that a side so
grouped keeps to one thread on either side of what is printed.
"""

from cases import for_each

from hemcalc.books.rows import Row, read_rows
from hemcalc.stitch.groups import GROUP_SIZES
from hemcalc.stitch.spacing import space_stitches

PRINTED = [row for row in read_rows() if row.topic == "group" and row.published]


@for_each("row", PRINTED)
def test_every_printed_group_can_be_taken_and_a_side_keeps_to_it_within_a_thread(row: Row) -> None:
    fewest, most = map(int, row.span)
    for group in range(fewest, most + 1):
        assert GROUP_SIZES[0] <= group <= GROUP_SIZES[1]
        for threads in range(10, 200):
            side = space_stitches(threads, group)
            assert fewest - 1 <= min(side.groups) <= max(side.groups) <= most + 1
            assert not any("The books take" in note for note in side.notes)


# The double, or zigzag, form passes half of each group to its neighbour, so a group is even.
# Source: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776, fig. 58.
def test_the_zigzag_form_needs_every_group_even() -> None:
    assert space_stitches(104, 4).zigzag
    assert not space_stitches(103, 4).zigzag
    assert not space_stitches(105, 5).zigzag
    assert space_stitches(8, 5).groups == (4, 4)
    assert space_stitches(8, 5).zigzag
