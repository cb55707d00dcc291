"""A small picture as a list of areas, lines and words, lowest first, which any sheet can show.

Places are mm from the picture's lower left corner. What lies over hides what was laid before, so a
needle that goes behind a group is laid before the group's threads. Nothing has a colour: kinds of
cloth and of line are told apart by pattern and lightness. Below stand what the hands hold and which
way they go: a needle, blades, sewing thread, an arrow.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any, Literal

from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from hemcalc.draw.look import CLOTH_SIDES, INK, LINES, OFFCUT, PAPER
from hemcalc.draw.marks import Label, Labels, broken_line
from hemcalc.draw.sheet import Sheet

#: Size of a picture, mm: four of them fill a line of a page.
WIDE, HIGH = 45.0, 30.0

Point = tuple[float, float]
Across = Literal["left", "center", "right"]

_GREY = "#dcdcdc"
#: Fill, pattern and outline, in points, of an area.
_AREAS: dict[str, tuple[str, str, float]] = {
    "right": (_GREY, CLOTH_SIDES["right"].hatch, 0.8),
    "wrong": (PAPER, CLOTH_SIDES["wrong"].hatch, 0.8),
    "offcut": (PAPER, OFFCUT.hatch, 0.0),
    "gap": (PAPER, "", 0.6),
    "veil": (PAPER, "", 0.0),
    "holes": ("#a8a8a8", "", 0.0),
    "design": ("#8c8c8c", "", 0.6),
    "needle": (PAPER, "", 0.9),
    "blade": ("#b4b4b4", "", 0.9),
    "ink": (INK, "", 0.0),
}
#: The lines of a stroke, one over the other: colour, width in points (in shares of the stroke's own
#: width, where it has one), and dashes.
_STROKES: dict[str, tuple[tuple[str, float, Any], ...]] = {
    **{name: ((INK, look.width, look.style),) for name, look in LINES.items()},
    "sewing": ((INK, 2.2, "solid"),),
    "sewing hidden": ((INK, 1.5, (0.0, (1.6, 1.2))),),
    "cloth thread": (("#6e6e6e", 1.1, "solid"),),
}
_WOVEN: dict[str, tuple[tuple[str, float, float, Any], ...]] = {
    "row": ((INK, 1.0, 1.0, "solid"), (_GREY, 1.0, 0.0, "solid")),
    "column": ((INK, 1.0, 1.0, "solid"), (PAPER, 1.0, 0.0, "solid")),
    "tail": ((INK, 1.0, 1.0, "solid"), (PAPER, 0.35, 0.0, (0.0, (1.5, 1.2)))),
    "behind": ((INK, 0.3, 0.0, (0.0, (1.6, 1.2))),),
}


@dataclass(frozen=True, slots=True)
class Area:
    """A filled area, by its corners."""

    look: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Stroke:
    """Lines of one look; threads of the weave have a width, mm."""

    look: str
    lines: tuple[tuple[Point, ...], ...]
    width: float = 0.0


@dataclass(frozen=True, slots=True)
class Words:
    """Words on paper of their own, whose left, middle or right end stands at a place."""

    at: Point
    text: str
    across: Across = "left"


Thing = Area | Stroke | Words


@dataclass(frozen=True, slots=True)
class Scene:
    """A picture. Scenes that are alike are equal."""

    things: tuple[Thing, ...]
    width: float = WIDE
    height: float = HIGH

    @property
    def mirrored(self) -> Scene:
        """Left and right exchanged, its words still to be read."""
        things = (_moved(thing, lambda x, y: (round(self.width - x, 3), y)) for thing in self.things)
        return replace(self, things=tuple(map(_turned_about, things)))


def scene(things: Iterable[Thing], width: float = WIDE, height: float = HIGH) -> Scene:
    """The picture of these things, to a thousandth of a mm."""
    rounded = (_moved(thing, lambda x, y: (round(x, 3), round(y, 3))) for thing in things)
    return Scene(tuple(rounded), width, height)


def _moved(thing: Thing, to: Callable[[float, float], Point]) -> Thing:
    if isinstance(thing, Area):
        return Area(thing.look, tuple(to(*point) for point in thing.points))
    if isinstance(thing, Stroke):
        return Stroke(
            thing.look, tuple(tuple(to(*point) for point in line) for line in thing.lines), thing.width
        )
    return Words(to(*thing.at), thing.text, thing.across)


def _turned_about(thing: Thing) -> Thing:
    """Words that began at a place now end there."""
    ends: dict[Across, Across] = {"left": "right", "center": "center", "right": "left"}
    return replace(thing, across=ends[thing.across]) if isinstance(thing, Words) else thing


def show_scene(sheet: Sheet, shown: Scene) -> None:
    """Lay a scene out on a sheet that has nothing on it yet, with a line round it."""
    axes = sheet.axes((0.0, 0.0, 1.0, 1.0), (0.0, shown.width), (0.0, shown.height))
    for level, thing in enumerate(shown.things, 1):
        if isinstance(thing, Area):
            fill, hatch, edge = _AREAS[thing.look]
            axes.add_artist(
                Polygon(
                    thing.points,
                    facecolor=fill,
                    hatch=hatch,
                    edgecolor=INK,
                    linewidth=edge,
                    hatch_linewidth=0.5,
                    zorder=level,
                )
            )
        elif isinstance(thing, Stroke):
            for colour, width, style in _lines(thing, 1 / sheet.points(axes)[0]):
                xs, ys = broken_line(thing.lines)
                axes.add_artist(
                    Line2D(
                        xs,
                        ys,
                        color=colour,
                        linewidth=width,
                        linestyle=style,
                        solid_capstyle="butt",
                        dash_capstyle="butt",
                        solid_joinstyle="round",
                        zorder=level,
                    )
                )
    width, height = shown.width, shown.height
    frame = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height), (0.0, 0.0))
    axes.add_artist(Line2D(*zip(*frame, strict=True), color=INK, linewidth=1.2, zorder=1000))
    words = [thing for thing in shown.things if isinstance(thing, Words)]
    labels = Labels(sheet, axes, len(words))
    labels.show(
        Label(*word.at, word.text, word.across, "center", small=True, on_paper=True) for word in words
    )


def _lines(stroke: Stroke, points_a_mm: float) -> Iterable[tuple[str, float, Any]]:
    if not stroke.width:
        return _STROKES[stroke.look]
    points = stroke.width * points_a_mm
    return [(colour, share * points + more, style) for colour, share, more, style in _WOVEN[stroke.look]]


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
