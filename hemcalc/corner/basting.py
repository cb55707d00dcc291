"""The basted lines at a corner, carried along as the cloth is folded.

They are what a stitcher looks at: once the corner is folded, each should lie on its partner.
A line is folded as a ply of no width, just as the cloth is.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from hemcalc.corner.mitre import CORNER_EXAMPLE, Corner
from hemcalc.corner.plies import Ply, edge_lines, fold_over, part_folded
from hemcalc.corner.polygon import Line, Polygon, split
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


def basted_lines(corner: Corner, progress: float = 1.0) -> tuple[Basted, ...]:
    """The fold 1 and fold 2 lines of both sides at a progress, every bit that is on the trimmed cloth.

    Flat it is at a progress of 0, finished at 1.

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
    lines = []
    for name, side, plies in _flat(corner):
        for fold in corner.folds[:step]:
            plies = fold_over(plies, fold.line)
        for seen in part_folded(plies, corner.folds[step].line, share):
            lines.append(Basted(name, side, min(seen.shape), max(seen.shape), seen.right_side_up))
    return tuple(lines)


def _flat(corner: Corner) -> Iterator[tuple[str, str, tuple[Ply, ...]]]:
    """Name and side of each line, and what of it is on the trimmed cloth: plies of no width."""
    hx, hy = corner.hems
    x, y = corner.raw_corner
    far = -corner.extent
    upright = [("across", n, ((n * hx, far), (n * hx, y))) for n in (1, 2)]
    level = [("down", n, ((far, n * hy), (x, n * hy))) for n in (1, 2)]
    for side, n, ends in upright + level:
        parts = [_within(ends, edge_lines(ply.shape)) for ply in corner.cloth]
        yield f"fold {n}", side, tuple(Ply(part) for part in parts if part)


def _within(line: Polygon, edges: Iterable[Line]) -> Polygon | None:
    part: Polygon | None = line
    for edge in edges:
        part = split(part, edge)[0] if part else None
    return part
