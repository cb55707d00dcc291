"""Plies of cloth, and folding them over a line.

Everything beyond a fold line is turned over together and comes to lie on top, the highest
ply lowest. Every fold turns toward the wrong side, from which the cloth is looked at.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.corner.polygon import Line, Polygon, reflected, split

__all__ = ["DrawnPly", "Fold", "Ply", "box", "fold_over", "part_folded"]


@dataclass(frozen=True, slots=True)
class Ply:
    """One flat part of the cloth: its shape, and how often it has been folded over."""

    shape: Polygon
    folds: int = 0

    @property
    def right_side_up(self) -> bool:
        """Whether its right side is seen; unfolded cloth lies wrong side up."""
        return self.folds % 2 == 1


@dataclass(frozen=True, slots=True)
class Fold:
    """A line along which everything outside it is folded over."""

    name: str
    line: Line


@dataclass(frozen=True, slots=True)
class DrawnPly:
    """A ply as it is seen from above, perhaps half-way through a fold; in floats, for drawing."""

    shape: tuple[tuple[float, float], ...]
    right_side_up: bool
    #: Whether it is being folded over just now.
    moving: bool


def box(left: Fraction, top: Fraction, right: Fraction, bottom: Fraction) -> Polygon:
    """An upright oblong."""
    return (left, top), (right, top), (right, bottom), (left, bottom)


def fold_over(plies: tuple[Ply, ...], line: Line) -> tuple[Ply, ...]:
    """The plies after everything beyond the line is turned over on top, highest to lowest."""
    stays: list[Ply] = []
    turns: list[Ply] = []
    for ply in plies:
        inner, outer = split(ply.shape, line)
        if inner is not None:
            stays.append(Ply(inner, ply.folds))
        if outer is not None:
            turns.append(Ply(tuple(reflected(point, line) for point in outer), ply.folds + 1))
    return (*stays, *reversed(turns))


def part_folded(plies: tuple[Ply, ...], line: Line, share: float) -> tuple[DrawnPly, ...]:
    """The plies as seen from above when a fold has been made by a share of its half turn.

    A point at a distance from the fold line is seen at the cosine of the angle turned.

    Parameters
    ----------
    plies : tuple of Ply
        The plies before the fold, lowest first.
    line : Line
        The fold line.
    share : float
        0 is flat, 1 folded over.
    """
    seen = math.cos(math.pi * share)
    a, b, c = float(line.a), float(line.b), float(line.c)
    square = a * a + b * b
    stays: list[DrawnPly] = []
    turns: list[DrawnPly] = []
    for ply in plies:
        inner, outer = split(ply.shape, line) if share > 0 else (ply.shape, None)
        if inner is not None:
            shape = tuple((float(x), float(y)) for x, y in inner)
            stays.append(DrawnPly(shape, ply.right_side_up, moving=False))
        if outer is not None:
            points = [(float(x), float(y), (a * x + b * y - c) / square * (1 - seen)) for x, y in outer]
            shape = tuple((x - step * a, y - step * b) for x, y, step in points)
            # Past the upright its other side is seen, and its plies in the opposite order.
            turns.append(DrawnPly(shape, ply.right_side_up == (share < 0.5), moving=True))
    return (*stays, *(turns if share < 0.5 else reversed(turns)))
