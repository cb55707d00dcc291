"""Cloth of a folded corner that reaches over the open square and the work behind it.

A corner that is mitred but not trimmed keeps a flap whose tip lies there: what is cut away
by the trim, seen once it is folded.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.corner.plies import Ply
from hemcalc.corner.polygon import Line, Point, Polygon, area, split

__all__ = ["Overhang", "overhang_past"]


@dataclass(frozen=True, slots=True)
class Overhang:
    """Cloth of the folded corner that reaches past the crossing of the open lines' outer edges.

    `reach_mm` is how far its tip lies from that crossing, `area_mm2` how much cloth it is;
    the `work` numbers are measured from the crossing of the open lines' inner edges, and
    count only what lies beyond it, over the work.
    """

    reach_mm: float
    area_mm2: float
    work_reach_mm: float
    work_area_mm2: float


def overhang_past(plies: Iterable[Ply], open_widths: Point) -> Overhang:
    """What of the folded-over plies reaches past the crossing at (0, 0), and over the work.

    Parameters
    ----------
    plies : iterable of Ply
        The plies of a folded corner, outward from the crossing of the open lines' outer edges.
    open_widths : tuple of Fraction
        How wide the open lines are, across and down, mm.

    Examples
    --------
    >>> nought, one = Fraction(0), Fraction(1)
    >>> flap = Ply(((-one, -one), (one, -one), (one, one), (-one, one)), folds=1)
    >>> overhang_past([flap], (one / 2, nought))
    Overhang(reach_mm=1.414..., area_mm2=1.0, work_reach_mm=1.118..., work_area_mm2=0.5)
    """
    over = [ply.shape for ply in plies if ply.folds]
    none = Fraction(0)
    return Overhang(*_past(over, (none, none)), *_past(over, (-open_widths[0], -open_widths[1])))


def _past(shapes: list[Polygon], crossing: Point) -> tuple[float, float]:
    """How far shapes reach inward past a crossing, both ways at once, and their area there."""
    one, none = Fraction(1), Fraction(0)
    reach, spread = 0.0, none
    for shape in shapes:
        part: Polygon | None = shape
        for line in (Line(one, none, crossing[0]), Line(none, one, crossing[1])):
            part = split(part, line)[0] if part else None
        if part:
            spread += area(part)
            reach = max(reach, *(math.hypot(x - crossing[0], y - crossing[1]) for x, y in part))
    return reach, float(spread)
