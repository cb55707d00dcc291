"""The corner: where it is trimmed and folded, and how many layers of cloth lie on it.

Coordinates in millimetres, outward from the crossing of the two open lines' outer edges:
x across, y down. The cloth is looked at from its wrong side, toward which every fold turns.
The plies are folded one line after another, every ply across a line folding with it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from hemcalc.edge import Edge
from hemcalc.errors import HemError, one_of, shown
from hemcalc.landing import LINES, Landing, landing
from hemcalc.lengths import Length, as_length
from hemcalc.plies import DrawnPly, Fold, Ply, box, fold_over, part_folded
from hemcalc.polygon import Line, Point, Polygon, area, depth_at, overlay, split

__all__ = ["CORNERS", "ORDERS", "Corner", "Overhang", "plan_corner"]

#: Ways of making the corner: mitred and trimmed, mitred with nothing trimmed, folded square
#: with the under layer's oblong cut away, folded square with nothing cut away.
CORNERS = ("mitred", "untrimmed", "square", "uncut")
#: Whether the corner is folded before the turns are pressed, as it should be, or after.
ORDERS = ("corner first", "turns first")

#: Left under a square corner unless said otherwise; common practice, no published source.
SQUARE_ALLOWANCE = Length.parse("1/4 in")


@dataclass(frozen=True, slots=True)
class Overhang:
    """Cloth of the folded corner that reaches past the crossing of the open lines' outer edges.

    `reach_mm` is how far its tip lies from that crossing, `area_mm2` how much cloth it is;
    the `work` numbers count only what lies beyond the open lines' inner edges, on the work.
    """

    reach_mm: float
    area_mm2: float
    work_reach_mm: float
    work_area_mm2: float


@dataclass(frozen=True)
class Corner:
    """A corner of the hem between two edges; made by `plan_corner`.

    `across` is the edge whose threads are counted across (a left or right side), `down` the
    one whose threads are counted down (top or bottom).
    """

    across: Edge
    down: Edge
    kind: str
    order: str
    allowance: Length | None

    @property
    def hems(self) -> tuple[Fraction, Fraction]:
        """Widths of the two hems, mm: across, down."""
        return self.across.hem_width.mm, self.down.hem_width.mm

    @property
    def raw_corner(self) -> Point:
        """Where the two cut lines cross, mm."""
        return self.across.draw_line.mm, self.down.draw_line.mm

    @property
    def equal_hems(self) -> bool:
        """Whether both hems finish at the same width, so that the mitre runs at 45°."""
        return self.hems[0] == self.hems[1]

    @property
    def angle(self) -> float:
        """Degrees between the mitre seam and the x axis: atan(hy / hx), 45 for equal hems."""
        hx, hy = self.hems
        return 45.0 if self.equal_hems else math.degrees(math.atan2(hy, hx))

    @property
    def seam_mm(self) -> float:
        """Length of the mitre seam, from the finished edge's corner to the open square, mm."""
        return math.hypot(*self.hems)

    @property
    def mitre(self) -> Line:
        """The corner fold as a line: x / hx + y / hy = 2."""
        hx, hy = self.hems
        return Line(1 / hx, 1 / hy, Fraction(2))

    @property
    def corner_fold(self) -> tuple[Point, Point] | None:
        """The corner fold from raw edge to raw edge, mm; None for a square corner."""
        if not self.is_mitred:
            return None
        x, y = self.raw_corner
        return self.mitre.at_y(y), self.mitre.at_x(x)

    @property
    def is_mitred(self) -> bool:
        """Whether the corner is folded to a mitre, trimmed or not."""
        return self.kind in ("mitred", "untrimmed")

    @property
    def trim_line(self) -> Line | None:
        """The line of the diagonal cut, if there is one.

        Through the crossing of the fold 2 lines, x / hx + y / hy = 4, or at the allowance
        from the corner fold, measured square to it (then right to a float's precision).
        """
        if self.kind != "mitred":
            return None
        fold = self.mitre
        if self.allowance is None:
            return Line(fold.a, fold.b, Fraction(4))
        return Line(fold.a, fold.b, fold.c + self.allowance.mm * Fraction(self._steepness))

    @property
    def _steepness(self) -> float:
        """√(1/hx² + 1/hy²), which turns a distance square to the mitre into its measure."""
        return math.sqrt(self.mitre.a**2 + self.mitre.b**2)

    @property
    def trim(self) -> tuple[Point, ...] | None:
        """The cut from raw edge to raw edge, mm.

        Two points for a mitre, three round the oblong of a square corner, None where
        nothing is cut away.
        """
        x, y = self.raw_corner
        if self.kind == "square":
            inner_x, inner_y = self._oblong
            return (inner_x, y), (inner_x, inner_y), (x, inner_y)
        return (self.trim_line.at_y(y), self.trim_line.at_x(x)) if self.trim_line else None

    @property
    def _oblong(self) -> Point:
        left = self.allowance.mm if self.allowance else Fraction(0)
        return self.hems[0] + left, self.hems[1] + left

    @property
    def legs_mm(self) -> tuple[float, float]:
        """How much the cut takes off along the two raw edges, mm: in x, in y."""
        if self.trim is None:
            return 0.0, 0.0
        x, y = self.raw_corner
        return float(x - self.trim[0][0]), float(y - self.trim[-1][1])

    @property
    def allowance_mm(self) -> float | None:
        """Cloth left between trim and corner fold, square to it, mm; None if not trimmed."""
        return float(self.trim_line.c - 2) / self._steepness if self.trim_line else None

    @property
    def trim_lands_mm(self) -> float | None:
        """How far short of the crossing the trimmed edge lands, mm; 0 where it just touches."""
        return float(4 - self.trim_line.c) / self._steepness if self.trim_line else None

    @cached_property
    def cloth(self) -> tuple[Ply, ...]:
        """The flat cloth round the corner once it is trimmed."""
        x, y = self.raw_corner
        whole = box(-self.extent, -self.extent, x, y)
        if self.kind == "square":
            inner_x, inner_y = self._oblong
            # Kept in two convex parts, which meet corner to corner so that no seam need be drawn.
            far = -self.extent
            above = ((far, far), (x, far), (x, inner_y), (inner_x, inner_y), (far, inner_y))
            return Ply(above), Ply(box(far, inner_y, inner_x, y))
        kept = split(whole, self.trim_line)[0] if self.trim_line else whole
        return (Ply(kept or whole),)

    @cached_property
    def extent(self) -> Fraction:
        """How far inward from the crossing the corner's cloth is looked at, mm.

        Beyond every corner flap, so that the edges run straight from there on.
        """
        hx, hy = self.hems
        x, y = self.raw_corner
        return 2 * (x + y) + hx * y / hy + hy * x / hx

    @property
    def folds(self) -> tuple[Fold, ...]:
        """The folds in the order in which they are made."""
        hx, hy = self.hems
        one, none = Fraction(1), Fraction(0)
        turns = (
            Fold("turn across", Line(one, none, 2 * hx)),
            Fold("turn down", Line(none, one, 2 * hy)),
        )
        hems = (Fold("hem across", Line(one, none, hx)), Fold("hem down", Line(none, one, hy)))
        corner = (Fold("corner", self.mitre),) if self.is_mitred else ()
        return (*turns, *corner, *hems) if self.order == "turns first" else (*corner, *turns, *hems)

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
        made = min(max(float(progress), 0.0), 1.0) * len(self.folds)
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

        Raises
        ------
        HemError
            If x or y is no number.

        Examples
        --------
        >>> from hemcalc.edge import plan_edge
        >>> edge = plan_edge("28/in", 16, clear=8)
        >>> corner = plan_corner(edge, edge)
        >>> corner.layers(5, 5), corner.layers(-9, 5), corner.layers(-5, -5), corner.layers(20, 5)
        (4, 3, 1, 0)
        """
        at = tuple(max(_coordinate(value), -self.extent / 2) for value in (x, y))
        return depth_at((at[0], at[1]), [ply.shape for ply in self.plies])

    @cached_property
    def overhang(self) -> Overhang:
        """What of the folded-over cloth reaches past the crossing, and over the work.

        For equal hems, untrimmed: t·√2 at the tip and t² in area; (t - w)·√2 and (t - w)²
        of it over the work, w the width of the open line.
        """
        open_x, open_y = (edge.width(edge.drawn).mm for edge in (self.across, self.down))
        over = [ply.shape for ply in self.plies if ply.folds]
        none = Fraction(0)
        reach, spread = _within(over, (none, none))
        work_reach, work_spread = _within(over, (-open_x, -open_y))
        return Overhang(reach, spread, work_reach, work_spread)

    @property
    def landings(self) -> tuple[Landing, ...]:
        """Where each basted line lands against its partner: fold 1, fold 2, cut, both sides.

        None for a square corner, where no basted line is folded onto another.
        """
        if not self.is_mitred:
            return ()
        sides = (("across", self.across, self.down), ("down", self.down, self.across))
        return tuple(landing(line, side, own, other) for side, own, other in sides for line in LINES)


def plan_corner(
    across: Edge,
    down: Edge,
    *,
    corner: str = "mitred",
    allowance: Length | str | None = None,
    order: str = "corner first",
) -> Corner:
    """The corner that two edges make.

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

    Raises
    ------
    HemError
        If an edge is none, a word is unknown, or the allowance misses the cloth or has no
        cut to which it belongs.

    Source
    ------
    Trim through the crossing of the fold 2 lines: common practice of the trade, no
    published source. Allowance beyond the corner fold: School Needlework, Olive C. Hapgood,
    1893, "To Mitre the Corners of a Hem", steps 5-6 (1/4 in); School Sewing Based on Home
    Problems, I. R. and M. G. Burton, c.1916 (not seen), par. 146 (1/8 in).

    Examples
    --------
    >>> from hemcalc.edge import plan_edge
    >>> edge = plan_edge("32/in", "1/2 in", clear=8)
    >>> corner = plan_corner(edge, edge)
    >>> corner.angle, corner.legs_mm, corner.trim_lands_mm, round(corner.seam_mm, 2)
    (45.0, (12.7, 12.7), 0.0, 17.96)
    >>> corner.layer_shares
    {4: Fraction(1, 1)}
    """
    for about, edge in (("across", across), ("down", down)):
        if not isinstance(edge, Edge):
            raise HemError(
                f"{about} is {shown(edge)}, but must be an Edge; "
                "for example plan_edge('28/in', '3/8 in', clear=8).",
                about,
            )
    one_of(corner, CORNERS, "corner")
    one_of(order, ORDERS, "order")
    left = None if allowance is None else as_length(allowance, "allowance")
    if left is not None and corner in ("untrimmed", "uncut"):
        raise HemError(
            f"allowance is {left}, but a corner that is {corner} has no cut to leave it at; "
            "for example leave it out, or say corner='mitred'.",
            "allowance",
        )
    if corner == "square" and left is None:
        left = SQUARE_ALLOWANCE
    planned = Corner(across, down, corner, order, left)
    if left is not None:
        _refuse_a_miss(planned, left)
    return planned


def _refuse_a_miss(corner: Corner, allowance: Length) -> None:
    """Refuse a cut that would pass outside the cloth."""
    x, y = corner.raw_corner
    hx, hy = corner.hems
    if corner.kind == "square":
        most = float(min(x - hx, y - hy))
    else:
        most = float(corner.mitre.beyond((x, y))) / corner._steepness
    if float(allowance.mm) >= most:
        raise HemError(
            f"allowance is {allowance}, and the cut would miss the cloth, which ends {most:.1f} mm beyond; "
            f"it must be less than that, for example '{max(most / 2, 0.1):.1f} mm'.",
            "allowance",
        )


def _within(shapes: list[Polygon], crossing: Point) -> tuple[float, float]:
    """How far shapes reach inward past a crossing, both ways at once, and their area there."""
    reach, spread = 0.0, Fraction(0)
    for shape in shapes:
        part: Polygon | None = shape
        for line in (
            Line(Fraction(1), Fraction(0), crossing[0]),
            Line(Fraction(0), Fraction(1), crossing[1]),
        ):
            part = split(part, line)[0] if part else None
        if part:
            spread += area(part)
            reach = max(reach, *(math.hypot(x - crossing[0], y - crossing[1]) for x, y in part))
    return reach, float(spread)


def _coordinate(value: object) -> Fraction:
    if isinstance(value, Length):
        return value.mm
    if isinstance(value, int | float | Fraction) and not isinstance(value, bool) and math.isfinite(value):
        return Fraction(value)
    raise HemError(f"A place on the corner is {shown(value)}, but must be a number of mm; for example 5.")
