"""A small picture as a list of areas, lines and words, lowest first, which any sheet can show.

Places are mm from the picture's lower left corner. What lies over hides what was laid before, so a
needle that goes behind a group is laid before the group's threads. Nothing has a colour: kinds of
cloth and of line are told apart by pattern and lightness.
"""

from __future__ import annotations

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
