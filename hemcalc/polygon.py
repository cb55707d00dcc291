"""Flat shapes of cloth, folded and laid over each other, exactly.

A ply of cloth is a convex polygon with corners in Fractions; a fold line cuts it in two and
reflects the outer part. Reflection in a line with a rational direction keeps corners
rational, so nothing here is ever rounded and no layer is miscounted at a seam.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["Line", "Point", "Polygon", "area", "depth_at", "edges_of", "overlay", "reflected", "split"]

Point = tuple[Fraction, Fraction]
Polygon = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """The line a·x + b·y = c; the side where a·x + b·y is less is the inner one.

    Examples
    --------
    >>> fold = Line(Fraction(1), Fraction(1), Fraction(2))
    >>> fold.beyond((Fraction(3), Fraction(0)))
    Fraction(1, 1)
    """

    a: Fraction
    b: Fraction
    c: Fraction

    def beyond(self, point: Point) -> Fraction:
        """How far outside the line a point is, in the line's own measure; 0 on it."""
        return self.a * point[0] + self.b * point[1] - self.c

    def at_y(self, y: Fraction) -> Point:
        """Where the line crosses the level y."""
        return (self.c - self.b * y) / self.a, y

    def at_x(self, x: Fraction) -> Point:
        """Where the line crosses the upright x."""
        return x, (self.c - self.a * x) / self.b


def reflected(point: Point, line: Line) -> Point:
    """The point's mirror image in a line.

    Examples
    --------
    >>> corner_fold = Line(Fraction(1), Fraction(1), Fraction(2))
    >>> reflected((Fraction(2), Fraction(2)), corner_fold)
    (Fraction(0, 1), Fraction(0, 1))
    """
    step = 2 * line.beyond(point) / (line.a * line.a + line.b * line.b)
    return point[0] - step * line.a, point[1] - step * line.b


def split(polygon: Polygon, line: Line) -> tuple[Polygon | None, Polygon | None]:
    """The parts of a convex polygon inside and outside a line; None for a part of no area.

    Examples
    --------
    >>> o, i = Fraction(0), Fraction(1)
    >>> inner, outer = split(((o, o), (i, o), (i, i), (o, i)), Line(i, o, Fraction(1, 4)))
    >>> area(inner), area(outer)
    (Fraction(1, 4), Fraction(3, 4))
    """
    sides = [line.beyond(corner) for corner in polygon]
    if all(side <= 0 for side in sides):
        return polygon, None
    if all(side >= 0 for side in sides):
        return None, polygon
    inner: list[Point] = []
    outer: list[Point] = []
    for corner, side, before, side_before in zip(
        polygon, sides, (polygon[-1], *polygon), (sides[-1], *sides), strict=False
    ):
        if side * side_before < 0:
            share = side / (side - side_before)
            crossing = (
                corner[0] + share * (before[0] - corner[0]),
                corner[1] + share * (before[1] - corner[1]),
            )
            inner.append(crossing)
            outer.append(crossing)
        if side <= 0:
            inner.append(corner)
        if side >= 0:
            outer.append(corner)
    return tuple(inner), tuple(outer)


def area(polygon: Sequence[Point]) -> Fraction:
    """Area of a polygon, whichever way round its corners run.

    Examples
    --------
    >>> o, h = Fraction(0), Fraction(1, 2)
    >>> area(((o, o), (h, o), (h, h), (o, h)))
    Fraction(1, 4)
    """
    twice = sum(
        (x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(polygon, (*polygon[1:], polygon[0]), strict=True)),
        Fraction(0),
    )
    return abs(twice) / 2


def overlay(window: Polygon, plies: Iterable[Polygon]) -> list[tuple[Polygon, int]]:
    """The window cut into convex cells, each with the number of plies that lie on it.

    Examples
    --------
    >>> o, i, h = Fraction(0), Fraction(1), Fraction(1, 2)
    >>> cells = overlay(((o, o), (i, o), (i, i), (o, i)), [((o, o), (h, o), (h, i), (o, i))])
    >>> [(count, area(cell)) for cell, count in cells]
    [(0, Fraction(1, 2)), (1, Fraction(1, 2))]
    """
    cells: list[tuple[Polygon, int]] = [(window, 0)]
    for ply in plies:
        edges = edges_of(ply)
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


def depth_at(point: Point, shapes: Iterable[Polygon]) -> int:
    """How many convex shapes lie over a point; on an edge, the most on any side of it.

    A fold is a line without width, so the point is looked at from a hair's breadth away, once
    between each two of the edges that pass through it.

    Examples
    --------
    >>> o, i, h = Fraction(0), Fraction(1), Fraction(1, 2)
    >>> halves = [((o, o), (h, o), (h, i), (o, i)), ((h, o), (i, o), (i, i), (h, i))]
    >>> depth_at((h, h), halves), depth_at((i, h), halves), depth_at((i + i, h), halves)
    (1, 1, 0)
    """
    x, y = float(point[0]), float(point[1])
    hair = 1e-6
    near: list[list[tuple[float, float]]] = []
    directions: set[float] = set()
    for shape in shapes:
        corners = [(float(px), float(py)) for px, py in shape]
        near.append(corners)
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
            long = math.hypot(x1 - x0, y1 - y0)
            if not long:
                continue
            along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / long
            aside = abs((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)) / long
            if aside < hair / 100 and -hair < along < long + hair:
                heading = math.atan2(y1 - y0, x1 - x0)
                directions |= {heading % math.tau, (heading + math.pi) % math.tau}
    if not directions:
        return sum(_inside(x, y, corners) for corners in near)
    turns = sorted(directions)
    between = [(a + b) / 2 for a, b in zip(turns, (*turns[1:], turns[0] + math.tau), strict=True)]
    return max(
        sum(_inside(x + hair * math.cos(way), y + hair * math.sin(way), corners) for corners in near)
        for way in between
    )


def edges_of(polygon: Polygon) -> list[Line]:
    """The polygon's edges as lines with the polygon on their inner side."""
    lines = []
    for (x0, y0), (x1, y1) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if (x0, y0) != (x1, y1):
            a, b = y1 - y0, x0 - x1
            lines.append(Line(a, b, a * x0 + b * y0))
    many, none = len(polygon), Fraction(0)
    inside = sum((x for x, _ in polygon), none) / many, sum((y for _, y in polygon), none) / many
    return [line if line.beyond(inside) <= 0 else Line(-line.a, -line.b, -line.c) for line in lines]


def _inside(x: float, y: float, corners: list[tuple[float, float]]) -> bool:
    """Whether a point lies in a convex shape, whichever way round its corners run."""
    sides = [
        (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]
    return all(side >= 0 for side in sides) or all(side <= 0 for side in sides)
