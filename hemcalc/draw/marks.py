"""Labels and dimension lines, kept and moved rather than made anew.

A dimension line is drawn as in technical drawing: thin, arrowheads inside or, where space is
short, outside; its text above the middle; extension lines that leave a gap at the object and
run a little past.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from matplotlib.collections import LineCollection, PolyCollection

from hemcalc.draw.look import INK, LINES, PAPER
from hemcalc.draw.sheet import Sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes

__all__ = ["Dimension", "Dimensions", "Label", "Labels", "spread"]


@dataclass(frozen=True, slots=True)
class Label:
    """A text at a place of the axes."""

    x: float
    y: float
    text: str
    across: Literal["left", "center", "right"] = "center"
    up: Literal["bottom", "center", "top"] = "center"
    bold: bool = False
    small: bool = False
    #: Whether it stands on white, so that it can be read over a pattern.
    on_paper: bool = False


class Labels:
    """A fixed number of texts that are moved about; setting one that has not changed is free.

    Parameters
    ----------
    sheet : Sheet
        Whose type they follow.
    axes : Axes
        Where they stand.
    most : int
        How many are kept.
    """

    def __init__(self, sheet: Sheet, axes: Axes, most: int) -> None:
        self.sheet = sheet
        self._texts = [axes.text(0, 0, "", color=INK, clip_on=False) for _ in range(most)]
        self._shown: list[tuple[Label, float] | None] = [None] * most
        sheet.moving(axes, *self._texts)

    def show(self, labels: Iterable[Label]) -> None:
        """Show these, and hide the texts that are left over."""
        wanted = list(labels)
        if len(wanted) > len(self._texts):
            raise ValueError(f"{len(wanted)} labels, but only {len(self._texts)} are kept")
        for i, text in enumerate(self._texts):
            if i >= len(wanted):
                text.set_visible(False)
                self._shown[i] = None
                continue
            label = wanted[i]
            points = self.sheet.type.small if label.small else self.sheet.type.text
            if self._shown[i] == (label, points):
                continue
            self._shown[i] = (label, points)
            text.set_visible(True)
            text.set_text(label.text)
            text.set_position((label.x, label.y))
            text.set_horizontalalignment(label.across)
            text.set_verticalalignment(label.up)
            text.set_fontsize(points)
            text.set_fontweight("bold" if label.bold else "normal")
            text.set_bbox({"facecolor": PAPER, "edgecolor": "none", "pad": 1.0} if label.on_paper else None)


@dataclass(frozen=True, slots=True)
class Dimension:
    """The distance between two points, measured along x or, `upright`, along y.

    `line` is the level at which the dimension line runs, `at` the level of the object that
    the extension lines come from.
    """

    start: float
    end: float
    line: float
    at: float
    text: str
    upright: bool = False


class Dimensions:
    """Dimension lines of one axes.

    Parameters
    ----------
    sheet : Sheet
        Whose type they follow.
    axes : Axes
        Where they are drawn; its limits must be set already and stay.
    most : int
        How many are kept.
    """

    def __init__(self, sheet: Sheet, axes: Axes, most: int) -> None:
        look = LINES["dimension"]
        self.axes = axes
        self._lines = LineCollection([], colors=look.colour, linewidths=look.width)
        self._heads = PolyCollection([], facecolors=look.colour, edgecolors="none")
        axes.add_collection(self._lines, autolim=False)
        axes.add_collection(self._heads, autolim=False)
        sheet.moving(axes, self._lines, self._heads)
        self._labels = Labels(sheet, axes, most)
        self._sheet = sheet

    def show(self, dimensions: Sequence[Dimension]) -> None:
        """Show these and no others."""
        lines: list[list[tuple[float, float]]] = []
        heads: list[list[tuple[float, float]]] = []
        labels: list[Label] = []
        x_point, y_point = self._sheet.points(self.axes)
        for dimension in dimensions:
            along, aside = (y_point, x_point) if dimension.upright else (x_point, y_point)
            for line in _lines(dimension, along, aside):
                lines.append([_turned(point, dimension.upright) for point in line])
            for head in _heads(dimension, along, aside):
                heads.append([_turned(point, dimension.upright) for point in head])
            middle = self._within((dimension.start + dimension.end) / 2, dimension, along)
            place = _turned((middle, dimension.line + 2.5 * aside), dimension.upright)
            if dimension.upright:
                labels.append(Label(*place, dimension.text, "left", "center", on_paper=True))
            else:
                labels.append(Label(*place, dimension.text, "center", "bottom"))
        self._lines.set_segments(lines)
        self._heads.set_verts(heads)
        self._labels.show(labels)

    def _within(self, middle: float, dimension: Dimension, along: float) -> float:
        """Where the text's middle goes, so that a long text on a short line stays on the sheet."""
        if dimension.upright:
            return middle
        half = 0.3 * len(dimension.text) * self._sheet.type.text * along
        left, right = self.axes.get_xlim()
        return min(max(middle, left + half), right - half)


def _lines(dimension: Dimension, along: float, aside: float) -> list[list[tuple[float, float]]]:
    start, end, level = dimension.start, dimension.end, dimension.line
    sense = 1 if level >= dimension.at else -1
    gap, past = 2 * aside * sense, 3 * aside * sense
    out = 12 * along if _is_short(dimension, along) else 0.0
    lines = [[(min(start, end) - out, level), (max(start, end) + out, level)]]
    lines += [[(place, dimension.at + gap), (place, level + past)] for place in (start, end)]
    return lines


def _heads(dimension: Dimension, along: float, aside: float) -> list[list[tuple[float, float]]]:
    first, last = sorted((dimension.start, dimension.end))
    inward = -1 if _is_short(dimension, along) else 1
    long, half = 7 * along, 1.6 * aside
    return [
        [(tip, dimension.line), (back, dimension.line + half), (back, dimension.line - half)]
        for tip, back in ((first, first + inward * long), (last, last - inward * long))
    ]


def _is_short(dimension: Dimension, along: float) -> bool:
    return abs(dimension.end - dimension.start) < 18 * along


def _turned(point: tuple[float, float], upright: bool) -> tuple[float, float]:
    return (point[1], point[0]) if upright else point


def spread(places: Sequence[float], gap: float, first: float, last: float) -> list[float]:
    """Places moved apart until none is nearer to the next than `gap`, within first to last.

    Each stays as near to its own place as the order and the gaps allow.

    Examples
    --------
    >>> spread([5, 6, 20], gap=4, first=0, last=30)
    [3.5, 7.5, 20.0]
    """
    groups: list[tuple[float, int]] = []  # middle and number of places that touch
    for place in places:
        groups.append((float(place), 1))
        while len(groups) > 1:
            (left, m), (right, n) = groups[-2], groups[-1]
            if right - left >= gap * (m + n) / 2:
                break
            groups[-2:] = [((left * m + right * n) / (m + n), m + n)]
    out: list[float] = []
    for middle, many in groups:
        half = gap * (many - 1) / 2
        middle = min(max(middle, first + half), last - half)
        out += [middle - half + gap * i for i in range(many)]
    # Keeping within the limits may have pushed groups together again.
    for i in range(len(out) - 2, -1, -1):
        out[i] = min(out[i], out[i + 1] - gap)
    return out
