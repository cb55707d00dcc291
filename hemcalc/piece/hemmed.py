"""What the thread's sums read of a piece, so that they need not know how a piece is made."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol, TypeVar, runtime_checkable

from hemcalc.edge.ledger import Edge
from hemcalc.measure.fabric import Fabric

__all__ = ["SIDES", "FourSides", "HemmedPiece", "Seamed"]

#: Names of the sides, as a piece has them.
SIDES = ("left", "right", "top", "bottom")

T_co = TypeVar("T_co", covariant=True)


class FourSides(Protocol[T_co]):
    """One thing for each side of a piece."""

    @property
    def left(self) -> T_co: ...
    @property
    def right(self) -> T_co: ...
    @property
    def top(self) -> T_co: ...
    @property
    def bottom(self) -> T_co: ...


class Seamed(Protocol):
    """A corner with a seam to sew."""

    @property
    def seam_mm(self) -> float: ...


@runtime_checkable
class HemmedPiece(Protocol):
    """What the thread's sums read of a piece."""

    @property
    def fabric(self) -> Fabric: ...
    @property
    def design(self) -> tuple[int, int]: ...
    @property
    def clear(self) -> FourSides[int]: ...
    @property
    def edges(self) -> FourSides[Edge]: ...
    @property
    def corners(self) -> Iterable[Seamed]: ...
