"""Threads to a group as the handbooks print them, held against the groups hemcalc takes.

The books give ranges by cloth and are silent on a remainder, so what they can check is which
groups are allowed, which the library says they take, and that a side so grouped keeps to one
thread on either side of what is printed.
"""

from dataclasses import dataclass

import pytest

from hemcalc.groups import BOOKS_GROUP, GROUP_SIZES
from hemcalc.spacing import space_stitches


@dataclass(frozen=True)
class Printed:
    """Threads to a group, the fewest and the most that a book prints for a use."""

    use: str
    threads: tuple[int, int]
    title: str
    author: str
    year: str
    place: str


PRINTED = (
    Printed(
        "napkins, towels, handkerchiefs",
        threads=(3, 4),
        title="School Sewing Based on Home Problems",
        author="I. R. and M. G. Burton",
        year="c. 1916 (not seen)",
        place="par. 115",
    ),
    Printed(
        "school hemstitch",
        threads=(3, 4),
        title="Handicraft for Girls",
        author="Idabelle McGlauflin",
        year="1910",
        place="Hemstitching, c. The stitch",
    ),
    Printed(
        "linen crash",
        threads=(3, 4),
        title="School Needlework",
        author="Olive C. Hapgood",
        year="1893",
        place="Hem-Stitch, step 4",
    ),
    Printed(
        "cotton pillow-case model",
        threads=(4, 4),
        title="Hand Sewing Lessons",
        author="Sarah E. Krolik (from memory, not seen on the page)",
        year="c. 1901 (not seen)",
        place="Model 9",
    ),
    Printed(
        "rather coarse linen, 3 drawn",
        threads=(3, 3),
        title="Scientific Sewing and Garment Cutting",
        author="Wakeman and Heller (from memory, not seen on the page)",
        year="c. 1898 (not seen)",
        place="Fifth Grade, First Model",
    ),
    Printed(
        "canvas, beginners",
        threads=(2, 2),
        title="Scientific Sewing and Garment Cutting",
        author="Wakeman and Heller (from memory, not seen on the page)",
        year="c. 1898 (not seen)",
        place="Hemstitching",
    ),
    Printed(
        "single hem-stitch",
        threads=(3, 4),
        title="Encyclopedia of Needlework",
        author="Therese de Dillmont",
        year="Project Gutenberg 20776 (orig. c. 1886-90, not seen)",
        place="fig. 55",
    ),
    Printed(
        "second hem-stitch",
        threads=(2, 3),
        title="Encyclopedia of Needlework",
        author="Therese de Dillmont",
        year="Project Gutenberg 20776 (orig. c. 1886-90, not seen)",
        place="fig. 56",
    ),
    Printed(
        "ladder pattern",
        threads=(4, 4),
        title="Embroidery and Tapestry Weaving",
        author="Grace Christie",
        year="1912 printing (Project Gutenberg 20386)",
        place="fig. 116",
    ),
    Printed(
        "plain and double hemstitch",
        threads=(4, 5),
        title="The New Dressmaker",
        author="Butterick Publishing Company",
        year="1921",
        place="p. 120",
    ),
    Printed(
        "even linen",
        threads=(4, 5),
        title="Educational Needlecraft",
        author="Margaret Swanson and Ann Macbeth",
        year="1911",
        place="Hem Stitching, diag. 144",
    ),
    Printed(
        "plain hemstitch, 4 drawn",
        threads=(3, 3),
        title="Needle-Cult",
        author="not seen",
        year="not seen",
        place="fig. 1",
    ),
    Printed(
        "crash or butcher linen",
        threads=(4, 5),
        title="Embroidery and Fancy Work",
        author="not seen",
        year="not seen",
        place="p. 180",
    ),
    Printed(
        "school sampler",
        threads=(5, 5),
        title="Text-Book on Domestic Art",
        author="not shown in the copy seen",
        year="n.d.",
        place="Embroidery samplers",
    ),
)


def test_the_range_that_the_library_quotes_is_that_of_the_books() -> None:
    fewest, most = zip(*(row.threads for row in PRINTED), strict=True)
    assert (min(fewest), max(most)) == BOOKS_GROUP


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: f"{row.title}: {row.use}")
def test_every_printed_group_can_be_taken_and_a_side_keeps_to_it_within_a_thread(row: Printed) -> None:
    fewest, most = row.threads
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
