"""Where the books conflict: what each prints for a turning, a group, or the threads drawn.

What they conflict in is an input here, never a constant. This gathers each book's least and
most, and says with which books a choice of one's own agrees.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.books.rows import Row, Source, read_rows
from hemcalc.measure.errors import HemError, of_type, one_of, several
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import MILLIMETRES

#: What the books conflict in: its name, the topic of its rows, and the unit to compare in.
SUBJECTS = {
    "threads drawn": ("threads drawn", "threads"),
    "threads to a group": ("group", "threads"),
    "first turning": ("turning", "in"),
    "cloth left beyond the mitre": ("mitre allowance", "in"),
}


@dataclass(frozen=True, slots=True)
class BookRange:
    """What one book prints, over all its uses: least and most, the same twice for one figure."""

    source: Source
    low: Fraction
    high: Fraction

    def takes(self, choice: Fraction) -> bool:
        """Whether a choice lies within what the book prints."""
        return self.low <= choice <= self.high


@dataclass(frozen=True, slots=True)
class BookRanges:
    """What the books print for one subject, and a choice of one's own.

    Made by `book_ranges`. Figures are threads or inches, as `unit` says.
    """

    subject: str
    unit: str
    #: One a book, those that print the least first.
    books: tuple[BookRange, ...]
    choice: Fraction | None = None

    @property
    def low(self) -> Fraction:
        """The least that any book prints."""
        return min(book.low for book in self.books)

    @property
    def high(self) -> Fraction:
        """The most that any book prints."""
        return max(book.high for book in self.books)

    @property
    def agreeing(self) -> tuple[BookRange, ...]:
        """The books within whose figures the choice lies; none if nothing is chosen."""
        choice = self.choice
        return () if choice is None else tuple(book for book in self.books if book.takes(choice))

    def __repr__(self) -> str:
        return f"BookRanges({self.subject}: {self.said(self.low)} to {self.said(self.high)} {self.unit})"

    def text(self) -> str:
        """What the books print, and with how many of them the choice agrees."""
        words = f"{len(self.books)} books print {self.said(self.low)} to {self.said(self.high)} {self.unit}."
        if self.choice is None:
            return words
        agree = len(self.agreeing)
        unit = self.unit.removesuffix("s") if self.choice == 1 else self.unit
        same = f"{agree} of them print{'s' if agree == 1 else ''}" if agree else "none of them prints"
        return f"{words} Yours, {self.said(self.choice)} {unit}, is what {same}."

    def said(self, number: Fraction) -> str:
        """A figure as it is said: whole threads, or inches to the nearest 1/16."""
        if self.unit == "threads":
            return f"{number}"
        return Length(number * MILLIMETRES["in"]).text("in").removesuffix(" in")


def book_ranges(
    subject: str, choice: int | str | Length | None = None, rows: Iterable[Row] | None = None
) -> BookRanges:
    """What the books print for a subject in which they conflict.

    Parameters
    ----------
    subject : str
        One of `SUBJECTS`.
    choice : int, str or Length, optional
        Your own: threads, or a length where the subject is one.
    rows : iterable of Row, optional
        The published figures; those of data/ if left out.

    Source
    ------
    Each book beside its figures. What is common practice only, or differs from hemcalc for
    another use, is left out.

    Examples
    --------
    >>> book_ranges("threads drawn", 2).text()
    '9 books print 2 to 10 threads. Yours, 2 threads, is what 2 of them print.'
    >>> book_ranges("first turning", "1/4 in").agreeing[0].source.title
    'Text-Book on Domestic Art'
    """
    topic, unit = SUBJECTS[one_of(subject, tuple(SUBJECTS), "subject")]
    found: dict[str, BookRange] = {}
    for row in read_rows() if rows is None else several(rows, "rows", "rows", "read_rows()"):
        of_type(row, Row, "rows", "read_rows()[0]")
        if row.topic != topic or not row.published or not row.agrees:
            continue
        low, high = (_converted(figure, row.unit, unit) for figure in row.span)
        book = found.get(row.source.title, BookRange(row.source, low, high))
        found[row.source.title] = BookRange(book.source, min(low, book.low), max(high, book.high))
    books = tuple(sorted(found.values(), key=lambda book: (book.low, book.high, book.source.title)))
    if not books:
        raise HemError(
            f"The rows have nothing on {subject}; give those of data/, for example rows=read_rows()."
        )
    return BookRanges(subject, unit, books, None if choice is None else _chosen(choice, unit))


def _converted(figure: Fraction, unit: str, into: str) -> Fraction:
    return figure if unit == into else figure * MILLIMETRES[unit] / MILLIMETRES[into]


def _chosen(choice: object, unit: str) -> Fraction:
    if unit != "threads":
        return as_length(choice, "choice", size=False).inches
    return Fraction(whole_threads(choice, "choice", least=1, example=4))
