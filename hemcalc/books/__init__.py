"""Published figures, held against what hemcalc computes, and where the books conflict."""

from hemcalc.books.comparing import compare, comparisons, headline
from hemcalc.books.ranges import book_ranges
from hemcalc.books.rows import read_row, read_rows

__all__ = [
    "book_ranges",
    "compare",
    "comparisons",
    "headline",
    "read_row",
    "read_rows",
]
