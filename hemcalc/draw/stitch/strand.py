"""The sewing thread in one view of a stitch: what is seen of it, what is hidden, and its tip."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matplotlib.collections import PolyCollection
from matplotlib.lines import Line2D

from hemcalc.draw.look import INK, LineLook
from hemcalc.draw.marks import broken_line
from hemcalc.draw.sheet import Sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_THREAD = "#a63c00"
_SEEN, _HIDDEN = LineLook(2.4, (), _THREAD), LineLook(1.6, (2.2, 1.6), _THREAD)
_NOW = 1.8  # how many times thicker the leg of this step is

Point = tuple[float, float]
Leg = tuple[Point, Point]


class Strand:
    """The sewing thread in one view: what is seen of it and what is hidden, and its tip."""

    def __init__(self, sheet: Sheet, axes: Axes) -> None:
        self._sheet, self._axes = sheet, axes
        self.lines = {
            (kind, now): Line2D(
                [],
                [],
                color=look.colour,
                linewidth=look.width * (_NOW if now else 1),
                linestyle=look.style,
                dash_capstyle="butt",
                solid_capstyle="round",
            )
            for now in (False, True)
            for kind, look in (("hidden", _HIDDEN), ("seen", _SEEN))
        }
        self.holes = Line2D([], [], color=_THREAD, linestyle="none", marker="o", markersize=7, mew=1.6)
        self.holes.set_markerfacecolor("white")
        self.tip = PolyCollection([], facecolors=INK, edgecolors="none")
        sheet.moving(axes, *self.lines.values(), self.holes, self.tip)

    def update(self, legs: Sequence[tuple[Leg, bool]], holes: Sequence[Point]) -> None:
        """Show these legs, each seen or hidden, the last as that of this step."""
        for (kind, now), line in self.lines.items():
            these = legs[-1:] if now else legs[:-1]
            line.set_data(*broken_line([leg for leg, seen in these if seen == (kind == "seen")]))
        self.holes.set_data([x for x, _ in holes], [y for _, y in holes])
        self.tip.set_verts([self._arrow(legs[-1][0])] if legs else [])

    def _arrow(self, leg: Leg) -> list[Point]:
        """A head at the end of a leg; a diamond where the leg runs straight at the reader."""
        (x, y), (to_x, to_y) = leg
        long = ((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5
        point = self._sheet.points(self._axes)[0]
        if long < 1e-9:
            half = 5 * point
            return [(to_x + half, to_y), (to_x, to_y + half), (to_x - half, to_y), (to_x, to_y - half)]
        along = ((to_x - x) / long, (to_y - y) / long)
        back = (to_x - 11 * point * along[0], to_y - 11 * point * along[1])
        aside = (-5 * point * along[1], 5 * point * along[0])
        return [
            (to_x, to_y),
            (back[0] + aside[0], back[1] + aside[1]),
            (back[0] - aside[0], back[1] - aside[1]),
        ]
