"""Where the books conflict: each book's least and most on one scale, with a choice of one's own."""

from __future__ import annotations

from fractions import Fraction

from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.books.ranges import BookRange, BookRanges
from hemcalc.draw.look import BANDS, INK, LINES, BandLook, type_size
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import of_type

_TITLES = 0.75  # room for the books' titles, as a share of the scale's length
_THICK = 0.5  # of a book's row, taken by its bar
_STEPS = {
    "threads": (Fraction(1), Fraction(2), Fraction(5)),
    "in": (Fraction(1, 8), Fraction(1, 4), Fraction(1)),
}
_MAX_STEPS = 12


def draw_ranges(ranges: BookRanges, size: str = "page") -> Still:
    """What each book prints, as a bar from its least to its most, as a finished figure.

    A book that prints one figure has a diamond. Books with which the choice agrees are filled;
    the others are empty. The choice is a dashed line through them all.

    The type is for a ``"page"`` or a ``"projector"``.
    """
    of_type(ranges, BookRanges, "ranges", "book_ranges('threads drawn')")
    type_ = type_size(size)
    rows = len(ranges.books)
    sheet = Sheet(9, (0.5 + rows / 4) * type_.text / 9 + 1, dpi=150, size=type_)
    longest = float(max(ranges.high, ranges.choice or 0)) * 1.15
    axes = sheet.axes((0.02, 0.0, 0.96, 1.0), (-_TITLES * longest, 1.12 * longest), (-rows - 2.2, 2.6))
    labels = [Label(-_TITLES * longest, 2, _headline(ranges), "left", "center", bold=True)]
    for row, book in enumerate(ranges.books):
        look = BANDS["face" if book in ranges.agreeing else "drawn"]
        axes.add_artist(_mark(book, -row, look))
        labels.append(Label(-0.03 * longest, -row, _title(book), "right", small=True))
        past = float(book.high) + 0.03 * longest
        labels.append(Label(past, -row, _figures(ranges, book), "left", small=True, on_paper=True))
    scale = _ticks(ranges, longest)
    bottom = -rows - 0.2
    rule = LINES["dimension"].line
    axes.add_line(Line2D([0, float(scale[-1])], [bottom, bottom], **rule))
    for tick in scale:
        at = float(tick)
        axes.add_line(Line2D([at, at], [bottom, bottom + 0.2], **rule))
        labels.append(Label(at, bottom - 0.6, ranges.said(tick), small=True))
    labels.append(Label(float(scale[-1]) / 2, bottom - 1.5, _scale_name(ranges)))
    if ranges.choice is not None:
        at = float(ranges.choice)
        axes.add_line(Line2D([at, at], [bottom, 0.8], **LINES["basted"].line, zorder=0.5))
        labels.append(Label(at, 1.15, f"yours: {ranges.said(ranges.choice)}", on_paper=True))
    Labels(sheet, axes, len(labels)).show(labels)
    return Still(sheet, ranges_alt(ranges))


def ranges_alt(ranges: BookRanges) -> str:
    """The figure in words, with its numbers."""
    books = "; ".join(f"{_title(book)} {_figures(ranges, book)}" for book in ranges.books)
    subject = _scale_name(ranges)
    return f"{subject[0].upper()}{subject[1:]}, by book: {books}. {ranges.text()}"


def _scale_name(ranges: BookRanges) -> str:
    return ranges.subject if ranges.unit == "threads" else f"{ranges.subject}, {ranges.unit}"


def _mark(book: BookRange, row: int, look: BandLook) -> Rectangle | Line2D:
    if book.low == book.high:
        return Line2D(
            [float(book.low)], [row], marker="D", markersize=7, markerfacecolor=look.fill, markeredgecolor=INK
        )
    corner = (float(book.low), row - _THICK / 2)
    return Rectangle(corner, float(book.high - book.low), _THICK, **look.patch)


def _headline(ranges: BookRanges) -> str:
    filled = "" if ranges.choice is None else f"; {len(ranges.agreeing)} agree with yours (filled)"
    reach = f"{ranges.said(ranges.low)} to {ranges.said(ranges.high)} {ranges.unit}"
    return f"{ranges.subject}: {len(ranges.books)} books, {reach}{filled}"


def _title(book: BookRange) -> str:
    return book.source.title.split(" (")[0].split(":")[0]


def _figures(ranges: BookRanges, book: BookRange) -> str:
    low, high = ranges.said(book.low), ranges.said(book.high)
    return low if low == high else f"{low} to {high}"


def _ticks(ranges: BookRanges, longest: float) -> list[Fraction]:
    steps = _STEPS[ranges.unit]
    step = next((step for step in steps if longest / step <= _MAX_STEPS), steps[-1])
    return [step * i for i in range(int(longest / step) + 1)]
