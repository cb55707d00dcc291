"""Sizes and sides: one thing for each side or corner of a piece, and how large something is.

A size is kept in threads, which the wash does not change, and in exact lengths before and
after it. What is to be cut is rounded up to a mark that a ruler has.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.lengths import RULER_MARK, Length
from hemcalc.measure.states import joint_state, said_of
from hemcalc.measure.units import UNITS

__all__ = ["Corners", "Extent", "Sides", "Size", "across_and_down", "extent", "size_text"]

T = TypeVar("T")
V = TypeVar("V")

_NAMES = ("left", "right", "top", "bottom")


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

    def map(self, of: Callable[[T], V]) -> Sides[V]:
        """What this gives of each side."""
        return Sides(*(of(side) for side in self))

    def kinds(self) -> tuple[tuple[str, T], ...]:
        """The things that differ, each under the names of its sides.

        Examples
        --------
        >>> Sides(8, 9, 8, 8).kinds(), Sides(8, 8, 8, 8).kinds()
        ((('left, top and bottom', 8), ('right', 9)), (('all sides', 8),))
        """
        found: list[tuple[list[str], T]] = []
        for name, thing in zip(_NAMES, self, strict=True):
            alike = next((names for names, known in found if known == thing), None)
            if alike is None:
                found.append(([name], thing))
            else:
                alike.append(name)
        return tuple((_listed(names), thing) for names, thing in found)

    def text(self) -> str:
        """The thing of all sides, or each with its sides behind it.

        Examples
        --------
        >>> Sides(8, 9, 8, 9).text(), Sides(8, 8, 8, 8).text()
        ('8 left and top, 9 right and bottom', '8')
        """
        kinds = self.kinds()
        if len(kinds) == 1:
            return str(kinds[0][1])
        return ", ".join(f"{thing} {names}" for names, thing in kinds)


def _listed(names: list[str]) -> str:
    if len(names) == len(_NAMES):
        return "all sides"
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


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
        cut = size_text(self.to_cut(unit), unit, "cut {} across × {} down")
        mark = RULER_MARK[unit].text(unit)
        threads = f"{self.across.threads} × {self.down.threads} threads"
        return f"{cut} ({threads}, rounded up to {mark})"


def size_text(size: tuple[Length, Length], unit: str, form: str = "{} × {}") -> str:
    """A size in words, its state said once, where no ruler reads it on the cloth in hand.

    Raises
    ------
    HemError
        If one length is for cloth before the wash and the other for cloth after it.

    Examples
    --------
    >>> from hemcalc.measure.fabric import Fabric
    >>> raw = Fabric("20/in", shrink_warp="20 %")
    >>> size_text((raw.across_washed.width(80), raw.down_washed.width(80)), "cm")
    '10.16 cm × ≈ 8.13 cm after the wash'
    """
    across, down = size
    said = said_of(joint_state(across.state, down.state))
    return form.format(Length(across.mm).text(unit), Length(down.mm).text(unit)) + said


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
