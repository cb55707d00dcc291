"""The basted lines at a corner, carried along as the cloth is folded.

They are what a stitcher looks at: once the corner is folded, each should lie on its partner.
The lines are cut and reflected at every fold just as the cloth is.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.corner.mitre import CORNER_EXAMPLE, Corner
from hemcalc.corner.plies import edge_lines
from hemcalc.corner.polygon import Line, Point, reflected
from hemcalc.measure.errors import of_type


@dataclass(frozen=True, slots=True)
class Basted:
    """A straight bit of a line on the cloth, as it lies: its name, side, and two ends in mm."""

    name: str
    #: The side it belongs to: ``"across"`` or ``"down"``.
    side: str
    start: tuple[float, float]
    end: tuple[float, float]
    #: Whether it has been folded over, an odd number of times or not.
    folded: bool

    def __repr__(self) -> str:
        ends = " to ".join(f"({x:.1f}, {y:.1f})" for x, y in (self.start, self.end))
        return f"Basted({self.name} {self.side}, from {ends} mm{', folded over' if self.folded else ''})"


@dataclass(frozen=True, slots=True)
class _Bit:
    name: str
    side: str
    start: Point
    end: Point
    folds: int = 0


def basted_lines(corner: Corner, progress: float = 1.0) -> tuple[Basted, ...]:
    """The fold 1 and fold 2 lines of both sides, as they lie at a progress of the folding.

    Parameters
    ----------
    corner : Corner
        From `plan_corner`.
    progress : float
        0 is flat, 1 finished.

    Returns
    -------
    tuple of Basted
        Every bit of them that is on the trimmed cloth.

    Examples
    --------
    >>> from hemcalc import plan_corner, plan_edge
    >>> edge = plan_edge("28/in", "1/2 in", clear=6)
    >>> flat = basted_lines(plan_corner(edge, edge), 0)
    >>> [(line.name, line.side, line.end) for line in flat][:2]
    [('fold 1', 'across', (12.7, 31.75)), ('fold 2', 'across', (25.4, 25.4))]
    """
    of_type(corner, Corner, "corner", CORNER_EXAMPLE)
    step, share = corner.step(progress)
    bits = _flat(corner)
    for fold in corner.folds[:step]:
        bits = [part for bit in bits for part in _folded(bit, fold.line)]
    line = corner.folds[step].line
    if not share:
        return tuple(_seen(bit, line, 0.0) for bit in bits)
    return tuple(
        _seen(bit, line, share if outer else 0.0)
        for whole in bits
        for bit, outer in zip(_split(whole, line), (False, True), strict=True)
        if bit is not None
    )


def _flat(corner: Corner) -> list[_Bit]:
    hx, hy = corner.hems
    x, y = corner.raw_corner
    far = -corner.extent
    upright = [_Bit(f"fold {n}", "across", (n * hx, far), (n * hx, y)) for n in (1, 2)]
    level = [_Bit(f"fold {n}", "down", (far, n * hy), (x, n * hy)) for n in (1, 2)]
    outlines = [edge_lines(ply.shape) for ply in corner.cloth]
    return [part for bit in upright + level for edges in outlines if (part := _within(bit, edges))]


def _within(bit: _Bit, edges: Iterable[Line]) -> _Bit | None:
    part: _Bit | None = bit
    for edge in edges:
        part = _split(part, edge)[0] if part else None
    return part


def _split(bit: _Bit, line: Line) -> tuple[_Bit | None, _Bit | None]:
    first, last = line.beyond(bit.start), line.beyond(bit.end)
    if first <= 0 and last <= 0:
        return bit, None
    if first >= 0 and last >= 0:
        return None, bit
    share = first / (first - last)
    (x0, y0), (x1, y1) = bit.start, bit.end
    at = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
    head = _Bit(bit.name, bit.side, bit.start, at, bit.folds)
    tail = _Bit(bit.name, bit.side, at, bit.end, bit.folds)
    return (head, tail) if first < 0 else (tail, head)


def _folded(bit: _Bit, line: Line) -> list[_Bit]:
    inner, outer = _split(bit, line)
    parts = [inner] if inner else []
    if outer:
        start, end = reflected(outer.start, line), reflected(outer.end, line)
        parts.append(_Bit(outer.name, outer.side, start, end, outer.folds + 1))
    return parts


def _seen(bit: _Bit, line: Line, share: float) -> Basted:
    """The bit from above when the fold it moves with is made by a share of its half turn."""
    square = line.a * line.a + line.b * line.b
    step = Fraction(1 - math.cos(math.pi * share))

    def seen(point: Point) -> tuple[float, float]:
        away = line.beyond(point) / square * step
        return float(point[0] - away * line.a), float(point[1] - away * line.b)

    folds = bit.folds + (share >= 0.5)
    return Basted(bit.name, bit.side, seen(bit.start), seen(bit.end), folds % 2 == 1)
