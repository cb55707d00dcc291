"""Where the basted lines land when the corner is folded.

For equal hems each lies exactly on its partner, which is what a stitcher checks with her
eyes. For unequal hems the mitre is not at 45 degrees, and they lie apart at an angle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.corner.polygon import Point
from hemcalc.edge.ledger import Edge
from hemcalc.measure.lengths import Length

__all__ = ["LINES", "Landing", "landing"]

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


def landing(line: str, side: str, own: Edge, other: Edge) -> Landing:
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
