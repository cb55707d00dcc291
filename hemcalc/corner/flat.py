"""The corner while it lies flat: where it is cut and where it will be folded.

Coordinates in millimetres, outward from the crossing of the two open lines' outer edges:
x across, y down. The cloth is looked at from its wrong side, toward which every fold turns.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from hemcalc.corner.plies import Fold, Ply, box
from hemcalc.corner.polygon import Line, Point, split
from hemcalc.edge.ledger import Edge
from hemcalc.measure.lengths import Length


@dataclass(frozen=True)
class FlatCorner:
    """A corner of the hem between two edges, before the first fold.

    `across` is the edge whose threads are counted across (a left or right side), `down` the
    one whose threads are counted down (top or bottom); `kind`, `order` and `allowance` are
    what `plan_corner` was asked for.
    """

    across: Edge
    down: Edge
    kind: str
    order: str
    allowance: Length | None

    def __repr__(self) -> str:
        hems = f"hems of {self.across.hem} × {self.down.hem} threads"
        left = f", {self.allowance:mm} left beyond the fold" if self.allowance else ""
        return f"{type(self).__name__}({self.kind}, {self.order}, {hems} at {self.angle:.4g}°{left})"

    @cached_property
    def hems(self) -> tuple[Fraction, Fraction]:
        """Widths of the two hems, mm: across, down."""
        return self.across.hem_width.mm, self.down.hem_width.mm

    @cached_property
    def raw_corner(self) -> Point:
        """Where the two cut lines cross, mm."""
        return self.across.draw_line.mm, self.down.draw_line.mm

    @property
    def equal_hems(self) -> bool:
        """Whether both hems finish at the same width, so that the mitre runs at 45°."""
        return self.hems[0] == self.hems[1]

    @property
    def is_mitred(self) -> bool:
        """Whether the corner is folded to a mitre, trimmed or not."""
        return self.kind in ("mitred", "untrimmed")

    @property
    def angle(self) -> float:
        """Degrees between the mitre seam and the x axis: atan(hy / hx), 45 for equal hems."""
        hx, hy = self.hems
        return 45.0 if self.equal_hems else math.degrees(math.atan2(hy, hx))

    @property
    def seam_mm(self) -> float:
        """Length of the mitre seam, from the finished edge's corner to the open square, mm."""
        return math.hypot(*self.hems)

    @cached_property
    def mitre(self) -> Line:
        """The corner fold as a line: x / hx + y / hy = 2."""
        hx, hy = self.hems
        return Line(1 / hx, 1 / hy, Fraction(2))

    @property
    def steepness(self) -> float:
        """√(1/hx² + 1/hy²) per mm: what a distance square to the mitre adds to x / hx + y / hy."""
        return math.hypot(self.mitre.a, self.mitre.b)

    @property
    def corner_fold(self) -> tuple[Point, Point] | None:
        """The corner fold from raw edge to raw edge, mm; None for a square corner."""
        if not self.is_mitred:
            return None
        x, y = self.raw_corner
        return self.mitre.at_y(y), self.mitre.at_x(x)

    @cached_property
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
        return Line(fold.a, fold.b, fold.c + self.allowance.mm * Fraction(self.steepness))

    @property
    def oblong(self) -> Point | None:
        """Inner corner of the oblong that a square corner cuts away, mm; None for the others."""
        if self.kind != "square" or self.allowance is None:
            return None
        hx, hy = self.hems
        return hx + self.allowance.mm, hy + self.allowance.mm

    @property
    def trim(self) -> tuple[Point, ...] | None:
        """The cut from raw edge to raw edge, mm.

        Two points for a mitre, three round the oblong of a square corner, None where
        nothing is cut away.
        """
        x, y = self.raw_corner
        if self.oblong:
            return (self.oblong[0], y), self.oblong, (x, self.oblong[1])
        return (self.trim_line.at_y(y), self.trim_line.at_x(x)) if self.trim_line else None

    @property
    def legs_mm(self) -> tuple[float, float]:
        """How much the cut takes off along the two raw edges, mm: in x, in y."""
        if self.trim is None:
            return 0.0, 0.0
        x, y = self.raw_corner
        return float(x - self.trim[0][0]), float(y - self.trim[-1][1])

    @property
    def allowance_mm(self) -> float | None:
        """Cloth left between trim and corner fold, square to it, mm; None if there is no trim line."""
        return float(self.trim_line.c - 2) / self.steepness if self.trim_line else None

    @property
    def trim_lands_mm(self) -> float | None:
        """How far short of the crossing the trimmed edge lands, mm, negative if past it.

        0 where it just touches; None if there is no trim line.
        """
        return float(4 - self.trim_line.c) / self.steepness if self.trim_line else None

    @cached_property
    def extent(self) -> Fraction:
        """How far inward from the crossing the corner's cloth is looked at, mm.

        Beyond every corner flap, so that the edges run straight from there on.
        """
        hx, hy = self.hems
        x, y = self.raw_corner
        return 2 * (x + y) + hx * y / hy + hy * x / hx

    @cached_property
    def cloth(self) -> tuple[Ply, ...]:
        """The flat cloth round the corner once it is trimmed."""
        x, y = self.raw_corner
        inward = -self.extent
        if self.oblong:
            # Two convex parts, which meet corner to corner so that no seam need be drawn.
            left, top = self.oblong
            above = ((inward, inward), (x, inward), (x, top), (left, top), (inward, top))
            return Ply(above), Ply(box(inward, top, left, y))
        whole = box(inward, inward, x, y)
        kept = split(whole, self.trim_line)[0] if self.trim_line else whole
        return (Ply(kept or whole),)

    @cached_property
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
