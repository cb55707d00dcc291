"""How many plies lie over each other, area by area and at a point, exactly.

A window is cut into cells along the plies' edges and each cell counts its plies. A point on
a fold belongs to no one cell: there the deepest of the cells that meet at it is given.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import combinations

from hemcalc.corner.polygon import Line, Point, Polygon, signed_area, split

__all__ = ["depth_at", "edge_lines", "overlay"]

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


def _walk(ply: Polygon) -> list[tuple[Point, Point]]:
    """Each corner of a ply and the edge that leaves it, with the ply always on the same hand."""
    corners = ply if signed_area(ply) > 0 else ply[::-1]
    edges = (
        (start, (end[0] - start[0], end[1] - start[1]))
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    return [(start, edge) for start, edge in edges if any(edge)]


def _cross(a: Point, b: Point) -> Fraction:
    """More than 0 if b points to the side of a on which the ply lies."""
    return a[0] * b[1] - a[1] * b[0]


def _unit(edge: Point) -> Point:
    """The edge's direction, one and the same for all edges that run alike."""
    size = max(abs(edge[0]), abs(edge[1]))
    return edge[0] / size, edge[1] / size
