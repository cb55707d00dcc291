"""One thing for each side, or each corner, of a piece as it lies before you."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from hemcalc.measure.errors import HemError, one_of, shown

#: Names of the sides; left and right are counted across, the others down.
SIDES = ("left", "right", "top", "bottom")

_LINE = 100  # characters of a repr

T = TypeVar("T")
V = TypeVar("V")


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

    def __repr__(self) -> str:
        kinds = self.kinds()
        said = f"Sides({'; '.join(f'{names}: {thing}' for names, thing in kinds)})"
        if len(said) <= _LINE:
            return said
        return f"Sides({type(self.left).__name__}, {'; '.join(names for names, _ in kinds)})"

    def of(self, name: str) -> T:
        """The thing of the side of this name, one of `SIDES`."""
        return tuple(self)[SIDES.index(one_of(name, SIDES, "side"))]

    def map(self, of: Callable[[T], V]) -> Sides[V]:
        """What this gives of each side."""
        if not callable(of):
            raise HemError(f"of is {shown(of)}, but must be a function; for example sides.map(str).", "of")
        return Sides(*(of(side) for side in self))

    def kinds(self) -> tuple[tuple[str, T], ...]:
        """The things that differ, each under the names of its sides.

        Examples
        --------
        >>> Sides(8, 9, 8, 8).kinds(), Sides(8, 8, 8, 8).kinds()
        ((('left, top and bottom', 8), ('right', 9)), (('all sides', 8),))
        """
        found: list[tuple[list[str], T]] = []
        for name, thing in zip(SIDES, self, strict=True):
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
    if len(names) == len(SIDES):
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

    def __repr__(self) -> str:
        alike = "all alike" if all(other == self.top_left for other in self) else "not all alike"
        return f"Corners({type(self.top_left).__name__}, {alike})"

    def __iter__(self) -> Iterator[T]:
        return iter((self.top_left, self.top_right, self.bottom_left, self.bottom_right))

    def __len__(self) -> int:
        return 4
