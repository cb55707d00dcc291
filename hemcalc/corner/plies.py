"""Plies of cloth: folded over a line, how many lie over each other, and what reaches past the corner.

Everything beyond a fold line is turned over together and comes to lie on top, the highest
ply lowest. Every fold turns toward the wrong side, from which the cloth is looked at.

A window is cut into cells along the plies' edges and each cell counts its plies. A point on
a fold belongs to no one cell: there the deepest of the cells that meet at it is given.

A corner that is mitred but not trimmed keeps a flap whose tip lies over the open square and the
work behind it: what is cut away by the trim, seen once it is folded.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import combinations

from hemcalc.corner.polygon import Line, Point, Polygon, area, reflected, signed_area, split


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

    A point at a distance from the fold line is seen at the cosine of the angle turned; a share of 0
    is flat, 1 folded over.
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


#: A point nearer to an edge than this, mm, is on it: a float can't name most edges exactly.
HAIR = Fraction(1, 10**9)


def overlay(window: Polygon, plies: Iterable[Polygon]) -> list[tuple[Polygon, int]]:
    """The window cut into convex cells, each with the number of plies that lie on it.

    Examples
    --------
    >>> o, i, h = Fraction(0), Fraction(1), Fraction(1, 2)
    >>> cells = overlay(((o, o), (i, o), (i, i), (o, i)), [((o, o), (h, o), (h, i), (o, i))])
    >>> [(count, cell[0], cell[2]) for cell, count in cells]
    [(0, (Fraction(1, 2), Fraction(0, 1)), ...), (1, (Fraction(0, 1), Fraction(0, 1)), ...)]
    """
    cells: list[tuple[Polygon, int]] = [(window, 0)]
    for ply in plies:
        # Each edge as a line with the ply on its inner side.
        edges = edge_lines(ply)
        after: list[tuple[Polygon, int]] = []
        for cell, count in cells:
            rest: Polygon | None = cell
            apart: list[tuple[Polygon, int]] = []
            for edge in edges:
                if rest is None:
                    break
                rest, outside = split(rest, edge)
                if outside is not None:
                    apart.append((outside, count))
            # A cell that the ply does not reach stays whole: cutting it would only make crumbs.
            after += [(cell, count)] if rest is None else [*apart, (rest, count + 1)]
        cells = after
    return cells


def depth_at(point: Point, plies: Iterable[Polygon]) -> int:
    """How many plies lie over a point; on an edge, the most on any side of it.

    Plies with the point inside count whichever way one looks. Each of the others that the
    point touches fills a wedge of the directions round the point, and the most wedges that
    share a direction are added.

    Examples
    --------
    >>> o, i, h = Fraction(0), Fraction(1), Fraction(1, 2)
    >>> halves = [((o, o), (h, o), (h, i), (o, i)), ((h, o), (i, o), (i, i), (h, i))]
    >>> depth_at((h, h), halves), depth_at((i, h), halves), depth_at((i + i, h), halves)
    (1, 1, 0)
    """
    wedges = [wedge for ply in plies if (wedge := _wedge(point, ply)) is not None]
    lines = {_unit(edge) for wedge in wedges for edge in wedge}
    rays = lines | {(-x, -y) for x, y in lines}
    # Between any two neighbouring rays lies their sum, or a normal if all lie on one line.
    ways = [(a + c, b + d) for (a, b), (c, d) in combinations(rays, 2)] + [(-y, x) for x, y in rays]
    inside = sum(not wedge for wedge in wedges)
    return inside + max(
        (
            sum(bool(wedge) and all(_cross(edge, way) > 0 for edge in wedge) for wedge in wedges)
            for way in ways
        ),
        default=0,
    )


def _wedge(point: Point, ply: Polygon) -> list[Point] | None:
    """The edges of a ply that a point lies on: none if it is inside, None if it is outside."""
    touched = []
    for corner, edge in _walk(ply):
        x, y = edge
        beside = _cross(edge, (point[0] - corner[0], point[1] - corner[1]))
        if beside * beside <= HAIR * HAIR * (x * x + y * y):
            touched.append(edge)
        elif beside < 0:
            return None
    return touched


def edge_lines(ply: Polygon) -> list[Line]:
    """The edges of a convex ply as lines with the ply on their inner side."""
    return [Line(y, -x, y * corner[0] - x * corner[1]) for corner, (x, y) in _walk(ply)]


@lru_cache(maxsize=256)  # a corner is asked for at many points, and its plies stay
def _walk(ply: Polygon) -> tuple[tuple[Point, Point], ...]:
    """Each corner of a ply and the edge that leaves it, with the ply always on the same hand."""
    corners = ply if signed_area(ply) > 0 else ply[::-1]
    edges = (
        (start, (end[0] - start[0], end[1] - start[1]))
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    return tuple((start, edge) for start, edge in edges if any(edge))


def _cross(a: Point, b: Point) -> Fraction:
    """More than 0 if b points to the side of a on which the ply lies."""
    return a[0] * b[1] - a[1] * b[0]


def _unit(edge: Point) -> Point:
    """The edge's direction, one and the same for all edges that run alike."""
    size = max(abs(edge[0]), abs(edge[1]))
    return edge[0] / size, edge[1] / size


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

    The open lines are so wide, across and down, mm.

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
