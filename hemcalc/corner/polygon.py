"""Flat shapes of cloth, cut and folded over a line, exactly.

A ply of cloth is a convex polygon with corners in Fractions; a fold line cuts it in two and
reflects the outer part. Reflection in a line with a rational direction keeps corners
rational, so nothing here is ever rounded and no layer is miscounted at a seam.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

#: x and y, mm.
Point = tuple[Fraction, Fraction]
#: The corners of a shape, in order round it.
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
        # Most lines are upright or level, and a product of fractions is dear.
        if not self.b:
            return self.a * point[0] - self.c
        if not self.a:
            return self.b * point[1] - self.c
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
    return abs(signed_area(polygon))


def signed_area(polygon: Sequence[Point]) -> Fraction:
    """Area of a polygon; negative if its corners run from the y axis toward the x axis.

    Examples
    --------
    >>> o, h = Fraction(0), Fraction(1, 2)
    >>> signed_area(((o, o), (o, h), (h, h), (h, o)))
    Fraction(-1, 4)
    """
    twice = sum(
        (x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(polygon, (*polygon[1:], *polygon[:1]), strict=True)),
        Fraction(0),
    )
    return twice / 2
