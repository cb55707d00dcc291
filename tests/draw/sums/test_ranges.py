"""The picture of where the books conflict, held against the ranges that it shows."""

from fractions import Fraction

import pytest
from cases import for_each
from matplotlib.colors import to_hex
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.books.ranges import SUBJECTS, book_ranges
from hemcalc.draw.look import BANDS, TYPE
from hemcalc.draw.sums.ranges import draw_ranges, ranges_alt

CHOICES = {
    "threads drawn": (None, 1, 2, 4, 12),
    "threads to a group": (None, 2, 4, 6),
    "first turning": (None, "0 in", "2 mm", "1/4 in", "5/8 in"),
    "cloth left beyond the mitre": (None, "1/8 in", "1/4 in", "3/4 in"),
}
EVERY = [(subject, choice) for subject, choices in CHOICES.items() for choice in choices]


def marks(still):
    """Row, least, most and fill of every book's mark, from the top."""
    (axes,) = still.sheet.figure.axes
    found = []
    for patch in axes.patches:
        assert isinstance(patch, Rectangle)
        middle = patch.get_y() + patch.get_height() / 2
        found.append((-middle, patch.get_x(), patch.get_x() + patch.get_width(), patch.get_facecolor()))
    for line in axes.lines:
        if line.get_marker() == "D":
            (x,), (y,) = line.get_data()
            found.append((-y, x, x, line.get_markerfacecolor()))
    return [
        (row, low, high, to_hex(fill)) for row, low, high, fill in sorted(found, key=lambda mark: mark[0])
    ]


@for_each(("subject", "choice"), EVERY)
def test_each_book_lies_from_its_least_to_its_most_and_is_filled_where_it_agrees(subject, choice):
    ranges = book_ranges(subject, choice)
    drawn = marks(draw_ranges(ranges))
    assert len(drawn) == len(ranges.books)
    for row, (book, mark) in enumerate(zip(ranges.books, drawn, strict=True)):
        assert mark[:3] == pytest.approx((row, float(book.low), float(book.high)))
        agrees = ranges.choice is not None and book.low <= ranges.choice <= book.high
        assert mark[3] == BANDS["face" if agrees else "drawn"].fill


@pytest.mark.parametrize(("subject", "choice"), EVERY)
def test_the_choice_is_a_dashed_line_past_every_book(subject, choice):
    ranges = book_ranges(subject, choice)
    (axes,) = draw_ranges(ranges).sheet.figure.axes
    dashed = [line for line in axes.lines if isinstance(line, Line2D) and line.is_dashed()]
    assert len(dashed) == (choice is not None)
    for line in dashed:
        assert set(line.get_xdata()) == {float(ranges.choice)}
        assert min(line.get_ydata()) < -len(ranges.books) + 0.5
        assert max(line.get_ydata()) > 0.5


@for_each("subject", SUBJECTS)
def test_the_scale_is_numbered_at_its_places(subject, words):
    ranges = book_ranges(subject)
    still = draw_ranges(ranges)
    under = {}
    name = subject if ranges.unit == "threads" else f"{subject}, in"
    assert [word.get_text() for word in words(still.sheet)].count(name) == 1
    for word in words(still.sheet):
        x, y = word.get_position()
        if y < -len(ranges.books) and word.get_text()[0].isdigit():
            under[sum(Fraction(part) for part in word.get_text().split())] = x
    assert len(under) >= 3
    assert 0 in under
    assert max(under) >= ranges.high
    assert all(float(number) == pytest.approx(x) for number, x in under.items())


@for_each("size", TYPE)
@for_each(("subject", "choice"), EVERY)
def test_words_stand_clear(subject, choice, size, troubles):
    assert troubles(draw_ranges(book_ranges(subject, choice), size).sheet) == []


def test_the_words_for_those_who_do_not_see_it_state_its_numbers():
    assert ranges_alt(book_ranges("cloth left beyond the mitre", "1/4 in")) == (
        "Cloth left beyond the mitre, in, by book: A Sewing Course for Teachers 1/8; School Sewing Based on "
        "Home Problems 1/8; Hand Sewing Lessons 1/4; School Needlework 1/4. 4 books print 1/8 to 1/4 in. "
        "Yours, 1/4 in, is what 2 of them print."
    )
    assert ranges_alt(book_ranges("threads drawn", 1)).endswith(
        "Yours, 1 thread, is what none of them prints."
    )
