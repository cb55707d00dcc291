"""Sizes and sides: one thing for each side or corner of a piece, and how large something is.

A size is kept in threads, which the wash does not change, and in exact lengths before and
after it. What is to be cut is rounded up to a mark that a ruler has.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.lengths import RULER_MARK, UNITS, Length

__all__ = ["Corners", "Extent", "Sides", "Size", "across_and_down", "extent"]

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Sides(Generic[T]):
    """One thing for each side of the piece, as it lies before you.

    Examples
    --------
    >>> list(Sides(8, 9, 8, 8))
    [8, 9, 8, 8]
    """

    left: T
    right: T
    top: T
    bottom: T

    def __iter__(self) -> Iterator[T]:
        return iter((self.left, self.right, self.top, self.bottom))

    def __len__(self) -> int:
        return 4


@dataclass(frozen=True, slots=True)
class Corners(Generic[T]):
    """One thing for each corner of the piece, as it lies before you.

    Examples
    --------
    >>> list(Corners("a", "b", "c", "d"))
    ['a', 'b', 'c', 'd']
    """

    top_left: T
    top_right: T
    bottom_left: T
    bottom_right: T

    def __iter__(self) -> Iterator[T]:
        return iter((self.top_left, self.top_right, self.bottom_left, self.bottom_right))

    def __len__(self) -> int:
        return 4


@dataclass(frozen=True, slots=True)
class Extent:
    """How far something goes one way: threads, and its length before and after the wash."""

    threads: int
    before: Length
    after: Length


@dataclass(frozen=True, slots=True)
class Size:
    """How large something is, across and down."""

    across: Extent
    down: Extent
    #: Whether the cloth in hand has been washed, and is cut at its size after the wash.
    washed: bool

    @property
    def threads(self) -> tuple[int, int]:
        """Threads across and down."""
        return self.across.threads, self.down.threads

    @property
    def before(self) -> tuple[Length, Length]:
        """Exact size before the wash."""
        return self.across.before, self.down.before

    @property
    def after(self) -> tuple[Length, Length]:
        """Exact size after the wash."""
        return self.across.after, self.down.after

    @property
    def in_hand(self) -> tuple[Length, Length]:
        """Exact size on the cloth as it is in hand."""
        return self.after if self.washed else self.before

    def to_cut(self, unit: str = "in") -> tuple[Length, Length]:
        """The size in hand, rounded up to a mark that a ruler has: 1/8 in, 0.5 cm or 1 mm."""
        mark = RULER_MARK[one_of(unit, UNITS, "unit")]
        across, down = self.in_hand
        return across.rounded_up(mark), down.rounded_up(mark)

    def text(self, unit: str = "in") -> str:
        """What to cut, in words.

        Examples
        --------
        >>> side = Extent(312, Length.parse("11 1/7 in"), Length.parse("11 1/7 in"))
        >>> Size(side, side, washed=True).text("in")
        'cut 11 1/4 in across × 11 1/4 in down (312 × 312 threads, rounded up to 1/8 in)'
        """
        across, down = (side.text(unit) for side in self.to_cut(unit))
        mark = RULER_MARK[unit].text(unit)
        threads = f"{self.across.threads} × {self.down.threads} threads"
        return f"cut {across} across × {down} down ({threads}, rounded up to {mark})"


def across_and_down(
    value: object, about: str, kind: str, example: tuple[object, object]
) -> tuple[object, object]:
    """The two things of a pair, across first.

    Raises
    ------
    HemError
        If the value is no tuple or list of two.

    Examples
    --------
    >>> across_and_down([224, 168], "design", "whole numbers", (224, 168))
    (224, 168)
    >>> across_and_down(224, "design", "whole numbers", (224, 168))
    Traceback (most recent call last):
    hemcalc.HemError: design is 224, but must be two whole numbers, across and down; for example...
    """
    if not isinstance(value, tuple | list) or len(value) != 2:
        raise HemError(
            f"{about} is {shown(value)}, but must be two {kind}, across and down; for example {example}.",
            about,
        )
    return value[0], value[1]


def extent(threads: int, before: Count, after: Count) -> Extent:
    """How far so many threads go, on cloth of these counts before and after the wash."""
    return Extent(threads, before.width(threads), after.width(threads))
