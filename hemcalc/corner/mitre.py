"""The corner, folded: its plies, how many layers lie where, and where the lines land.

Coordinates are those of the flat corner: millimetres, outward from the crossing of the two
open lines' outer edges, x across, y down. The plies are folded one line after another, every
ply across a line folding with it. For equal hems each basted line lands exactly on its partner,
which is what a stitcher checks with her eyes; for unequal ones they lie apart at an angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from hemcalc.corner.flat import FlatCorner
from hemcalc.corner.plies import (
    DrawnPly,
    Overhang,
    Ply,
    box,
    depth_at,
    fold_over,
    overhang_past,
    overlay,
    part_folded,
)
from hemcalc.corner.polygon import Point, Polygon, area
from hemcalc.edge.ledger import EDGE_EXAMPLE, Edge
from hemcalc.measure.errors import HemError, of_type, one_of
from hemcalc.measure.lengths import Length, as_length, in_unit
from hemcalc.measure.measured import finite_number

if TYPE_CHECKING:
    import pandas as pd

#: Ways of making the corner: mitred and trimmed, mitred with nothing trimmed, folded square
#: with the under layer's oblong cut away, folded square with nothing cut away.
CORNER_KINDS = ("mitred", "untrimmed", "square", "uncut")
#: Whether the corner is folded before the turns are pressed, as it should be, or after.
ORDERS = ("corner first", "turns first")

#: How a corner is had, to end a sentence that refuses something else.
CORNER_EXAMPLE = "example('coaster').corners.top_left"

#: Left under a square corner unless said otherwise; common practice, no published source.
SQUARE_ALLOWANCE = Length("1/4 in")


#: The basted lines, outward.
LINES = ("fold 1", "fold 2", "cut")


@dataclass(frozen=True, slots=True)
class Landing:
    """Where a basted line comes to lie when the corner is folded, against its partner.

    Fold 1 should lie on fold 1 of the other side, fold 2 on the other side's open line, and
    the cut line as far beyond that as the other side's turn.
    """

    line: str
    #: The side whose line is folded over: ``"across"`` or ``"down"``.
    side: str
    #: Angle to the partner, degrees; 0 for equal hems.
    angle: float
    #: The point where the two meet, mm; None if they never do. Lines that lie upon each
    #: other all along are said to meet on the corner fold.
    meets: Point | None
    #: How far apart they are at the side's own open line.
    apart: Length
    #: The same in threads of the partner's count.
    apart_threads: Fraction

    def __repr__(self) -> str:
        return f"Landing({self.line}, {self.side}: {self.apart:.1f mm} apart, at {self.angle:.3g}°)"


@dataclass(frozen=True, repr=False)
class Corner(FlatCorner):
    """A corner of the hem between two edges, folded; made by `plan_corner`.

    Its cuts and fold lines are those of `FlatCorner`; here are its plies, fold by fold, and
    what a stitcher checks on them: layers, overhang, and where the basted lines land.
    """

    @cached_property
    def states(self) -> tuple[tuple[Ply, ...], ...]:
        """The plies, lowest first, before the first fold and after each."""
        states = [self.cloth]
        for fold in self.folds:
            states.append(fold_over(states[-1], fold.line))
        return tuple(states)

    @property
    def plies(self) -> tuple[Ply, ...]:
        """The plies of the finished corner, lowest first."""
        return self.states[-1]

    def folding(self, progress: float) -> str:
        """Name of the fold under way at a progress from 0, flat, to 1, finished."""
        return self.folds[self.step(progress)[0]].name

    def folded(self, progress: float) -> tuple[DrawnPly, ...]:
        """The plies as seen from the wrong side, lowest first, for drawing.

        Each fold takes an equal share of the progress from 0, flat, to 1, finished.
        """
        step, share = self.step(progress)
        return part_folded(self.states[step], self.folds[step].line, share)

    def step(self, progress: float) -> tuple[int, float]:
        """Number of the fold under way, and the share of it that is made, at a progress."""
        made = min(max(finite_number(progress, "progress"), 0.0), 1.0) * len(self.folds)
        step = min(int(made), len(self.folds) - 1)
        return step, made - step

    @cached_property
    def layer_cells(self) -> tuple[tuple[Polygon, int], ...]:
        """The corner's square, hx by hy, in convex cells, each with its number of layers."""
        hx, hy = self.hems
        square = box(Fraction(0), Fraction(0), hx, hy)
        return tuple(overlay(square, (ply.shape for ply in self.plies)))

    @cached_property
    def layer_areas(self) -> dict[int, Fraction]:
        """Area of the corner's square that lies so many layers deep, mm², fewest first."""
        areas: dict[int, Fraction] = {}
        for cell, count in self.layer_cells:
            areas[count] = areas.get(count, Fraction(0)) + area(cell)
        return dict(sorted(areas.items()))

    @property
    def layer_shares(self) -> dict[int, Fraction]:
        """The same as shares of the square."""
        square = self.hems[0] * self.hems[1]
        return {count: part / square for count, part in self.layer_areas.items()}

    def layers(self, x: object, y: object) -> int:
        """How many layers of cloth lie at a point, mm outward from the crossing.

        On a fold it is the greater number of its sides; off the cloth it is 0.

        Examples
        --------
        >>> from hemcalc.edge.ledger import plan_edge
        >>> edge = plan_edge("28/in", 16, clear=8)
        >>> corner = plan_corner(edge, edge)
        >>> corner.layers(5, 5), corner.layers(-9, 5), corner.layers(-5, -5), corner.layers(20, 5)
        (4, 3, 1, 0)
        """
        at = (self._looked_at(x, "x"), self._looked_at(y, "y"))
        return depth_at(at, (ply.shape for ply in self.plies))

    def _looked_at(self, value: object, about: str) -> Fraction:
        """The place asked for; far inward, where the edges run straight, one that is as good."""
        if isinstance(value, str | Length):
            mm = as_length(value, about, size=False).mm
        else:
            mm = Fraction(finite_number(value, about, example=5))
        return max(mm, -self.extent / 2)

    @cached_property
    def overhang(self) -> Overhang:
        """What of the folded-over cloth reaches past the crossing, and over the work.

        For equal hems, untrimmed: t·√2 at the tip and t² in area; (t - w)·√2 and (t - w)²
        of it over the work, w the width of the open line.
        """
        widths = (self.across.width(self.across.drawn).mm, self.down.width(self.down.drawn).mm)
        return overhang_past(self.plies, widths)

    @cached_property
    def landings(self) -> tuple[Landing, ...]:
        """Where each basted line lands against its partner: fold 1, fold 2, cut, both sides.

        Empty for a square corner, where no basted line is folded onto another.
        """
        if not self.is_mitred:
            return ()
        sides = (("across", self.across, self.down), ("down", self.down, self.across))
        return tuple(_landing(line, side, own, other) for side, own, other in sides for line in LINES)

    def landings_table(self, unit: str = "mm") -> pd.DataFrame:
        """Where the basted lines land, a row each: how far from its partner, and at what angle.

        Its columns are ``line``, ``side``, ``angle, degrees``, ``apart, mm`` and ``apart, threads``.

        Examples
        --------
        >>> from hemcalc.edge.ledger import plan_edge
        >>> corner = plan_corner(plan_edge("1/mm", 8, clear=4), plan_edge("1/mm", 6, clear=4))
        >>> corner.landings_table()["apart, mm"].tolist()[3:]
        [1.75, 3.5, 4.375]
        """
        import pandas as pd

        columns = ["line", "side", "angle, degrees", in_unit("apart", unit), "apart, threads"]
        rows = [
            (each.line, each.side, each.angle, float(each.apart.number(unit)), float(each.apart_threads))
            for each in self.landings
        ]
        return pd.DataFrame(rows, columns=columns)


def _landing(line: str, side: str, own: Edge, other: Edge) -> Landing:
    """Fold the line at x = X of the side `own` over the mitre, against its partner at y = P."""
    hx, hy = own.hem_width.mm, other.hem_width.mm
    where = {"fold 1": hx, "fold 2": 2 * hx, "cut": own.draw_line.mm}[line]
    partner = {"fold 1": hy, "fold 2": Fraction(0), "cut": -other.turn_width.mm}[line]
    steep = 1 / hx**2 + 1 / hy**2
    apart = abs(hy * (2 - where * hx * steep / 2) - partner)
    # The image meets y = P where x·(1 - 2/(hx²·steep)) = X + 2·(P/hy - 2)/(hx·steep).
    slant = 1 - 2 / (hx**2 * steep)
    meets: Fraction | None = None
    if slant:
        meets = (where + 2 * (partner / hy - 2) / (hx * steep)) / slant
    elif not apart:
        meets = hx * (2 - partner / hy)
    angle = 0.0 if hx == hy else abs(90 - 2 * math.degrees(math.atan2(hy, hx)))
    point = None if meets is None else ((meets, partner) if side == "across" else (partner, meets))
    return Landing(line, side, angle, point, Length(apart), apart * other.count.per_mm)


def plan_corner(
    across: Edge,
    down: Edge,
    *,
    corner: str = "mitred",
    allowance: Length | str | None = None,
    order: str = "corner first",
) -> Corner:
    """The corner that two edges make.

    Refused if the allowance misses the cloth or has no cut to which it belongs.

    Parameters
    ----------
    across, down : Edge
        The edge whose threads are counted across, and the one whose are counted down.
    corner : str
        ``"mitred"``, ``"untrimmed"`` (mitred, nothing cut away), ``"square"`` (the under
        layer's oblong cut away) or ``"uncut"`` (folded square, nothing cut away).
    allowance : Length or str, optional
        Cloth left beyond the corner fold, measured square to it; if left out, the cut runs
        through the crossing of the two fold 2 lines. For a square corner, what is left of
        the oblong beyond both fold 1 lines, 1/4 in if left out.
    order : str
        ``"corner first"``, or ``"turns first"`` to see what goes wrong.

    Source
    ------
    Trim through the crossing of the fold 2 lines: common practice of the trade, no
    published source. Allowance beyond the corner fold: School Needlework, Olive C. Hapgood,
    1893, "To Mitre the Corners of a Hem", steps 5-6 (1/4 in); School Sewing Based on Home
    Problems, I. R. and M. G. Burton, c.1916 (not seen), par. 146 (1/8 in).

    Examples
    --------
    >>> from hemcalc.edge.ledger import plan_edge
    >>> edge = plan_edge("28/in", "1/2 in", clear=6)
    >>> corner = plan_corner(edge, edge)
    >>> corner.angle, corner.legs_mm, corner.trim_lands_mm, round(corner.seam_mm, 2)
    (45.0, (12.7, 12.7), 0.0, 17.96)
    >>> corner.layer_shares
    {4: Fraction(1, 1)}
    """
    of_type(across, Edge, "across", EDGE_EXAMPLE)
    of_type(down, Edge, "down", EDGE_EXAMPLE)
    one_of(corner, CORNER_KINDS, "corner")
    one_of(order, ORDERS, "order")
    left = None if allowance is None else as_length(allowance, "allowance")
    if left is not None and corner in ("untrimmed", "uncut"):
        raise HemError(
            f"allowance is {left}, but a corner that is {corner} has no cut to leave it at; "
            "for example leave it out, or say corner='mitred'.",
            "allowance",
        )
    said = f"allowance is {left}"
    if corner == "square" and left is None:
        left, said = SQUARE_ALLOWANCE, "allowance is left out, so that a square corner keeps 1/4 in"
    planned = Corner(across, down, corner, order, left)
    if left is not None:
        _refuse_a_miss(planned, left, said)
    return planned


def _refuse_a_miss(corner: Corner, allowance: Length, said: str) -> None:
    """Refuse a cut that would pass outside the cloth."""
    x, y = corner.raw_corner
    hx, hy = corner.hems
    room = min(x - hx, y - hy) if corner.kind == "square" else corner.mitre.beyond((x, y))
    most = float(room) / (1 if corner.kind == "square" else corner.steepness)
    if float(allowance.mm) >= most:
        raise HemError(
            f"{said}, and the cut would miss the cloth, which ends {most:.2f} mm beyond "
            f"the fold; it must be less than that, for example '{most / 2:.2f} mm'.",
            "allowance",
        )
