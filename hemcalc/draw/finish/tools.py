"""What the hands hold, and which way they go: a needle, a blade, sewing thread, an arrow."""

from __future__ import annotations

import math

from hemcalc.draw.finish.scene import Area, Point, Stroke


def needle(point: Point, eye: Point) -> list[Area | Stroke]:
    """A needle from its point to the end behind its eye."""
    long = math.dist(point, eye)
    to = _Placing(point, eye)
    half = 0.7
    outline = [(0.0, 0.0), (0.3 * long, 0.8 * half), (long - 4, half), (long - 2, 1.3 * half)]
    outline += [(long - 0.5, half), (long, 0.0)]
    shape = [*outline, *((x, -y) for x, y in reversed(outline[1:-1]))]
    slot = [to(long - 3.6, 0.0), to(long - 1.0, 0.0)]
    return [Area("needle", tuple(to(*place) for place in shape)), Stroke("edge", (tuple(slot),))]


def threaded(point: Point, eye: Point, comes_from: Point, bend: float = 5.0) -> list[Area | Stroke]:
    """A needle with the thread that comes from a place."""
    slack = (eye[0] + bend, eye[1] - bend)
    return [Stroke("sewing", (curve(comes_from, slack, eye),)), *needle(point, eye)]


def scissors(tip: Point, away: Point, open_by: float = 16.0) -> list[Area | Stroke]:
    """Two blades that meet behind a tip, open by so many degrees; their handles lie outside the picture."""
    to = _Placing(tip, away)
    long, lean = math.dist(tip, away), math.radians(open_by / 2)
    found: list[Area | Stroke] = []
    for side in (1, -1):
        end = to(long * (1 - math.cos(lean)), long * math.sin(lean) * side)
        blade = _Placing(end, away)
        shape = ((0.0, 0.0), (0.5 * long, 1.1 * side), (long, 1.5 * side), (long, -0.5 * side))
        found.append(Area("blade", tuple(blade(*place) for place in shape)))
    return found


def arrow(*points: Point, head: float = 2.2) -> list[Area | Stroke]:
    """An arrow along a line, to its last point."""
    (x0, y0), (x1, y1) = points[-2:]
    long = math.dist((x0, y0), (x1, y1)) or 1.0
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    base = (x1 - head * ux, y1 - head * uy)
    half = 0.45 * head
    tip = ((x1, y1), (base[0] - half * uy, base[1] + half * ux), (base[0] + half * uy, base[1] - half * ux))
    return [Stroke("edge", ((*points[:-1], base),)), Area("ink", tip)]


def curve(start: Point, bend: Point, end: Point) -> tuple[Point, ...]:
    """A line from one point to another, drawn toward a third (a quadratic Bézier curve)."""
    found = []
    for t in (i / 16 for i in range(17)):
        a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t * t
        found.append(tuple(a * p + b * q + c * r for p, q, r in zip(start, bend, end, strict=True)))
    return tuple((x, y) for x, y in found)


def run(start: Point, end: Point, stitch: float = 2.4) -> list[tuple[Point, ...]]:
    """Running stitches along a line: those that lie on top."""
    long, to = math.dist(start, end), _Placing(start, end)
    stitches = max(int((long + 0.4 * stitch) / (1.4 * stitch)), 1)
    return [(to(1.4 * stitch * i, 0.0), to(1.4 * stitch * i + stitch, 0.0)) for i in range(stitches)]


def whip(start: Point, end: Point, half: float = 1.0, step: float = 1.8) -> list[tuple[Point, ...]]:
    """Slanting stitches over a line."""
    long, to = math.dist(start, end), _Placing(start, end)
    stitches = max(int(long / step), 1)
    at = [long * (i + 0.5) / stitches for i in range(stitches)]
    return [(to(x - 0.35 * step, -half), to(x + 0.35 * step, half)) for x in at]


class _Placing:
    """Places measured along a line from its start, and square to it."""

    def __init__(self, start: Point, end: Point) -> None:
        long = math.dist(start, end) or 1.0
        self.start = start
        self.unit = (end[0] - start[0]) / long, (end[1] - start[1]) / long

    def __call__(self, along: float, aside: float) -> Point:
        (x, y), (ux, uy) = self.start, self.unit
        return x + along * ux - aside * uy, y + along * uy + aside * ux
