"""The threads of a corner as they are drawn: woven ones, tails, loose ends, ends behind the cloth.

A thread is an outline with a lighter core; a tail is dark with a light dashed core, so that it
is told apart by lightness and pattern. What is to be drawn comes from `hemcalc.draw.weave.strands`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from matplotlib.collections import PolyCollection
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import INK, PAPER
from hemcalc.draw.marks import broken_line
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.weave.strands import strands, turns
from hemcalc.weave.crossings import COLUMN, ROW, Cloth
from hemcalc.weave.darning import Tail

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_THICK = 0.42  # width of a thread, pitches
_EDGE = 1.2  # its outline, both sides together, points
_TAIL = "#1f4e79"
_LOOKS = (ROW, COLUMN, "tail", "loose", "behind")
#: The lines of a look, one over the other: colour, width in pitches and in points, and dashes in
#: widths of the line. An end behind the cloth is a hidden line, drawn over what hides it.
_LINES: dict[str, tuple[tuple[str, float, float, tuple[float, float] | None], ...]] = {
    ROW: ((INK, _THICK, _EDGE, None), ("#dcd5c4", _THICK, 0.0, None)),
    COLUMN: ((INK, _THICK, _EDGE, None), ("#f4efe4", _THICK, 0.0, None)),
    "tail": ((INK, _THICK, _EDGE, None), (_TAIL, _THICK, 0.0, None), (PAPER, 0.16, 0.0, (1.5, 1.2))),
    "behind": ((INK, 0.14, 0.0, (1.6, 1.2)),),
}
_LINES["loose"] = _LINES["tail"]

Points = Sequence[tuple[float, float]]


class ThreadLines:
    """Threads of one look, woven ones by their direction: a few lines, each for all threads at once."""

    def __init__(self, axes: Axes, look: str) -> None:
        self.look = look
        ends: dict[str, Any] = {"solid_capstyle": "butt", "dash_capstyle": "butt", "solid_joinstyle": "round"}
        self.lines = [Line2D([], [], color=colour, **ends) for colour, *_ in _LINES[look]]
        for line in self.lines:
            axes.add_artist(line)

    def show(self, threads: Iterable[Points], pitch: float) -> None:
        """Show these threads, whose pitch is so many points."""
        xs, ys = broken_line(threads)
        for line, (_, share, points, dashes) in zip(self.lines, _LINES[self.look], strict=True):
            line.set_data(xs, ys)
            line.set_linewidth(share * pitch + points)
            if dashes is not None:
                line.set_linestyle((0.0, dashes))


class CornerThreads:
    """The threads of a corner alone: made once for some axes, then updated."""

    def __init__(self, sheet: Sheet, axes: Axes) -> None:
        self.sheet = sheet
        self.axes = axes
        self.threads = {look: ThreadLines(axes, look) for look in _LOOKS}
        self.open_places = open_squares()
        for threads in self.threads.values():
            sheet.moving(axes, *threads.lines)
        sheet.moving(axes, self.open_places)

    def look_at(self, rows: range, columns: range, least: float = 0.0) -> None:
        """Set the axes on a window: on a square round it, of so many threads at least."""
        half = max(len(rows), len(columns), least) / 2
        x, y = (columns[0] + columns[-1]) / 2, -(rows[0] + rows[-1]) / 2
        self.axes.set_xlim(x - half, x + half)
        self.axes.set_ylim(y - half, y + half)
        # A loose end hangs out of the cloth that is shown, but not over what stands beside it.
        cloth = Rectangle(
            (columns[0] - 0.5, -rows[-1] - 0.5), len(columns), len(rows), transform=self.axes.transData
        )
        for line in self.threads["loose"].lines:
            line.set_clip_path(cloth)

    def show(
        self,
        cloth: Cloth,
        window: tuple[range, range],
        turned: Sequence[Tail],
        loose: Iterable[Points] = (),
        opened: Iterable[tuple[int, int]] = (),
    ) -> None:
        """Show a window of a cloth, with the tails that have turned, loose ends and open places."""
        found: dict[str, list[Points]] = {look: [] for look in _LOOKS}
        for strand in (*strands(cloth, *window, turned), *turns(cloth, turned)):
            found[strand.direction if strand.look == "woven" else strand.look].append(_page(strand.points))
        found["loose"] = [_page(points) for points in loose]
        pitch = 1 / self.sheet.points(self.axes)[0]
        for look, threads in self.threads.items():
            threads.show(found[look], pitch)
        self.open_places.set_verts([_cell(row, column) for row, column in opened])


def open_squares() -> PolyCollection:
    """The outlines of open places, none yet."""
    dashes = [(0.0, (2.0, 1.0))]
    return PolyCollection([], facecolors="none", edgecolors=INK, linewidths=1.6, linestyles=dashes)


def _page(points: Points) -> Points:
    """Columns across and rows down, on a page where up is positive."""
    return [(x, -y) for x, y in points]


def _cell(row: int, column: int) -> Points:
    half = 0.42
    corners = ((-half, half), (half, half), (half, -half), (-half, -half))
    return [(column + x, -row + y) for x, y in corners]
