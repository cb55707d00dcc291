"""The threads of a corner as they are drawn: woven ones, tails, loose ends, ends behind the cloth.

A thread is an outline with a lighter core; a tail is dark with a light dashed core, so that it
is told apart by lightness and pattern. What is to be drawn comes from `hemcalc.draw.strands`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from matplotlib.collections import LineCollection, PolyCollection

from hemcalc.crossings import COLUMN, ROW, Cloth
from hemcalc.darning import Tail
from hemcalc.draw.look import INK, PAPER
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.strands import strands, turns

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["CornerThreads", "open_squares", "set_width", "thread_layers", "thread_widths"]

_THICK = 0.42  # width of a thread, pitches
_EDGE = 1.2  # its outline, both sides together, points
_TAIL = "#1f4e79"
_FILL = {ROW: "#dcd5c4", COLUMN: "#f4efe4", "tail": _TAIL, "loose": _TAIL}

Points = list[tuple[float, float]]
Dashes = tuple[float, float]


class CornerThreads:
    """The threads of a corner alone: made once for some axes, then updated."""

    def __init__(self, sheet: Sheet, axes: Axes) -> None:
        self.sheet = sheet
        self.axes = axes
        self.layers = {look: thread_layers(look) for look in (ROW, COLUMN, "tail", "loose", "behind")}
        self.open_places = open_squares()
        for artist in (*(layer for layers in self.layers.values() for layer in layers), self.open_places):
            axes.add_collection(artist, autolim=False)
            sheet.moving(axes, artist)

    def look_at(self, rows: range, columns: range) -> None:
        """Set the axes on a window: on a square round it, so that threads lie as close both ways."""
        half = max(len(rows), len(columns)) / 2
        x, y = (columns[0] + columns[-1]) / 2, -(rows[0] + rows[-1]) / 2
        self.axes.set_xlim(x - half, x + half)
        self.axes.set_ylim(y - half, y + half)

    def show(
        self,
        cloth: Cloth,
        window: tuple[range, range],
        turned: Sequence[Tail],
        loose: Iterable[Sequence[tuple[float, float]]] = (),
        opened: Iterable[tuple[int, int]] = (),
    ) -> None:
        """Show a window of a cloth, with the tails that have turned, loose ends and open places."""
        segments: dict[str, list[Points]] = {look: [] for look in self.layers}
        for strand in (*strands(cloth, *window, turned), *turns(cloth, turned)):
            segments[strand.direction if strand.look == "woven" else strand.look].append(_page(strand.points))
        segments["loose"] = [_page(points) for points in loose]
        pitch = 1 / self.sheet.points(self.axes)[0]
        for look, layers in self.layers.items():
            for layer, (width, dashes) in zip(layers, thread_widths(look, pitch), strict=True):
                layer.set_segments(segments[look])
                set_width(layer, width, dashes)
        self.open_places.set_verts([_cell(row, column) for row, column in opened])


def thread_layers(look: str) -> list[LineCollection]:
    """The lines, one over the other, that a thread of this look is made of."""
    if look == "behind":
        colours = [INK]  # a hidden line, drawn over what hides it
    else:
        colours = [INK, _FILL[look], *([PAPER] if look in ("tail", "loose") else [])]
    return [LineCollection([], colors=colour, capstyle="butt", joinstyle="round") for colour in colours]


def thread_widths(look: str, pitch: float) -> list[tuple[float, tuple[float, float] | None]]:
    """Width in points and dashes of each of its layers, for threads so many points apart."""
    if look == "behind":
        return [(0.14 * pitch, (1.6, 1.2))]
    thread: list[tuple[float, tuple[float, float] | None]] = [
        (_THICK * pitch + _EDGE, None),
        (_THICK * pitch, None),
    ]
    return [*thread, (0.16 * pitch, (1.5, 1.2))] if look in ("tail", "loose") else thread


def set_width(layer: LineCollection, width: float, dashes: tuple[float, float] | None) -> None:
    layer.set_linewidth(width)
    if dashes is not None:
        layer.set_linestyle([(0.0, dashes)])  # in widths of the line


def open_squares() -> PolyCollection:
    return PolyCollection(
        [], facecolors="none", edgecolors=INK, linewidths=1.6, linestyles=[(0.0, (2.0, 1.0))]
    )


def _page(points: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    """Columns across and rows down, on a page where up is positive."""
    return [(x, -y) for x, y in points]


def _cell(row: int, column: int) -> list[tuple[float, float]]:
    half = 0.42
    corners = ((-half, half), (half, half), (half, -half), (-half, -half))
    return [(column + x, -row + y) for x, y in corners]
