"""Labels and dimension lines, kept and moved rather than made anew.

A dimension line is drawn as in technical drawing: thin, arrowheads inside or, where space is
short, outside; its text above the middle; extension lines that leave a gap at the object and
run a little past.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING, Literal

from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.path import Path

from hemcalc.draw.lettering import SHARES, Word, extent
from hemcalc.draw.look import INK, LINES, BandLook
from hemcalc.draw.sheet import Sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.patches import PathPatch

_ARROW = 7  # length of an arrowhead, points
_OUT = 12  # length of the line behind an arrowhead outside, points
_NAN = float("nan")


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
    """A fixed number of texts, in the sheet's type, moved about; setting one that hasn't changed is free."""

    def __init__(self, sheet: Sheet, axes: Axes, most: int) -> None:
        self.sheet = sheet
        self.axes = axes
        self._texts = [Word(0, 0, "", color=INK, clip_on=False) for _ in range(most)]
        self._shown: list[tuple[Label, float] | None] = [None] * most
        sheet.moving(axes, *self._texts)

    def show(self, labels: Iterable[Label]) -> None:
        """Show these, and hide the texts that are left over."""
        shown = list(labels)
        if len(shown) > len(self._texts):
            raise ValueError(f"{len(shown)} labels, but only {len(self._texts)} are kept")
        for i, text in enumerate(self._texts):
            if i >= len(shown):
                text.set_visible(False)
                self._shown[i] = None
                continue
            label = shown[i]
            points = self._points(label)
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
            text.on_paper = label.on_paper

    def size(self, label: Label) -> tuple[float, float]:
        """Width and height of a label in the measure of the axes."""
        dpi = self.sheet.figure.dpi
        width, height = extent(label.text, self._points(label), label.bold, dpi)
        along, up = self.sheet.points(self.axes)
        return width * 72 / dpi * along, height * 72 / dpi * up

    def in_row(self, labels: Sequence[Label], first: float, last: float, gap: float = 6) -> list[Label]:
        """Centred labels in order, side by side, each as near to its own x as the others let it.

        They stay between the limits on the axes, with so many points between two of them.
        """
        places = self._spread([label.x for label in labels], labels, first, last, gap, 0)
        return [replace(label, x=x) for label, x in zip(labels, places, strict=True)]

    def in_column(self, labels: Sequence[Label], first: float, last: float, gap: float = 2) -> list[Label]:
        """Labels one above the other, from the lowest up; as `in_row`."""
        places = self._spread([label.y for label in labels], labels, first, last, gap, 1)
        return [replace(label, y=y) for label, y in zip(labels, places, strict=True)]

    def _spread(
        self, places: list[float], labels: Sequence[Label], first: float, last: float, gap: float, way: int
    ) -> list[float]:
        space = gap * self.sheet.points(self.axes)[way]
        sizes = [self.size(label)[way] + space for label in labels]
        return spread(places, sizes, first - space / 2, last + space / 2)

    def apart(self, labels: Iterable[Label], gap: float = 0) -> list[Label]:
        """Those labels so many points clear of every one before them; the others are left out."""
        along, up = (gap * point for point in self.sheet.points(self.axes))
        kept: list[Label] = []
        boxes: list[tuple[float, float, float, float]] = []
        for label in labels:
            left, bottom, right, top = self._box(label)
            if all(left >= r or right <= x or bottom >= t or top <= y for x, y, r, t in boxes):
                kept.append(label)
                boxes.append((left - along, bottom - up, right + along, top + up))
        return kept

    def _box(self, label: Label) -> tuple[float, float, float, float]:
        width, height = self.size(label)
        left = label.x - SHARES[label.across] * width
        bottom = label.y - SHARES[label.up] * height
        return left, bottom, left + width, bottom + height

    def _points(self, label: Label) -> float:
        return self.sheet.type.small if label.small else self.sheet.type.text


@dataclass(frozen=True, slots=True)
class Dimension:
    """The distance between two points, measured along x or, `upright`, along y.

    `line` is the level at which the dimension line runs, `at` the level of the object that
    the extension lines come from; over a band its text stands `on_paper`.
    """

    start: float
    end: float
    line: float
    at: float
    text: str
    upright: bool = False
    on_paper: bool = False


class Dimensions:
    """So many dimension lines of one axes, whose limits must be set already and stay."""

    def __init__(self, sheet: Sheet, axes: Axes, most: int) -> None:
        look = LINES["dimension"]
        self.axes = axes
        self.lines = LineCollection([], **look.line)
        self.heads = PolyCollection([], facecolors=look.colour, edgecolors="none")
        sheet.moving(axes, self.lines, self.heads)
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
            labels.append(self._words(dimension, along, aside))
        self.lines.set_segments(lines)
        self.heads.set_verts(heads)
        self._labels.show(labels)

    def _words(self, dimension: Dimension, along: float, aside: float) -> Label:
        """Its text: above the middle of the line, or past its end where it is too long for that."""
        middle = (dimension.start + dimension.end) / 2
        if dimension.upright:
            place = dimension.line + 2.5 * aside, middle
            return Label(*place, dimension.text, "left", "center", on_paper=True)
        text = Label(middle, dimension.line + 2.5 * aside, dimension.text, "center", "bottom")
        width = self._labels.size(text)[0]
        if not dimension.on_paper and width + 4 * along <= abs(dimension.end - dimension.start):
            return text
        left, right = self.axes.get_xlim()
        if dimension.line > dimension.at and left <= middle - width / 2 and middle + width / 2 <= right:
            # The object and the extension lines are below it: it may be wider than they are apart.
            return replace(text, y=dimension.line + 4 * aside, on_paper=True)
        out = _OUT + 4 if _is_short(dimension, along) else 4
        last = max(dimension.start, dimension.end) + out * along
        if last + width > right >= left + width:  # no room past its end: above it, as far as the edge allows
            return replace(text, x=min(max(middle, left + width / 2), right - width / 2), on_paper=True)
        return Label(last, dimension.line, dimension.text, "left", "center")


def broken_line(lines: Iterable[Sequence[tuple[float, float]]]) -> tuple[list[float], list[float]]:
    """Several lines as one artist takes them: all their x and all their y, with gaps between.

    Examples
    --------
    >>> broken_line([[(0, 1), (0, 2)], [(5, 1), (5, 2)]])
    ([0, 0, nan, 5, 5, nan], [1, 2, nan, 1, 2, nan])
    """
    points = [point for line in lines for point in (*line, (_NAN, _NAN))]
    return [x for x, _ in points], [y for _, y in points]


def _lines(dimension: Dimension, along: float, aside: float) -> list[list[tuple[float, float]]]:
    start, end, level = dimension.start, dimension.end, dimension.line
    sense = 1 if level >= dimension.at else -1
    gap, past = 2 * aside * sense, 3 * aside * sense
    out = _OUT * along if _is_short(dimension, along) else 0.0
    lines = [[(min(start, end) - out, level), (max(start, end) + out, level)]]
    lines += [[(place, dimension.at + gap), (place, level + past)] for place in (start, end)]
    return lines


def _heads(dimension: Dimension, along: float, aside: float) -> list[list[tuple[float, float]]]:
    first, last = sorted((dimension.start, dimension.end))
    inward = -1 if _is_short(dimension, along) else 1
    long, half = _ARROW * along, 1.6 * aside
    return [
        [(tip, dimension.line), (back, dimension.line + half), (back, dimension.line - half)]
        for tip, back in ((first, first + inward * long), (last, last - inward * long))
    ]


def _is_short(dimension: Dimension, along: float) -> bool:
    return abs(dimension.end - dimension.start) < 18 * along


def _turned(point: tuple[float, float], upright: bool) -> tuple[float, float]:
    return (point[1], point[0]) if upright else point


def spread(places: Sequence[float], sizes: Sequence[float], first: float, last: float) -> list[float]:
    """Middles of things of these sizes in a row, moved apart until they touch at most.

    They stay in order and between first and last, and together as near to their own places
    as that allows (least sum of squares). If there is no room for them all, they run past last.

    Examples
    --------
    >>> spread([5, 6, 20], sizes=[4, 4, 4], first=0, last=30)
    [3.5, 7.5, 20.0]
    >>> spread([1, 2, 29], sizes=[4, 4, 4], first=0, last=30)
    [2.0, 6.0, 28.0]
    """
    if not places:
        return []
    # Take away from each what must lie between it and the first: then they need only not fall.
    offsets = [0.0]
    for left, right in pairwise(sizes):
        offsets.append(offsets[-1] + (left + right) / 2)
    groups: list[tuple[float, int]] = []  # mean and number of places that touch
    for place, offset in zip(places, offsets, strict=True):
        groups.append((place - offset, 1))
        while len(groups) > 1 and groups[-2][0] > groups[-1][0]:
            (left, m), (right, n) = groups[-2:]
            groups[-2:] = [((left * m + right * n) / (m + n), m + n)]
    low, high = first + sizes[0] / 2, last - offsets[-1] - sizes[-1] / 2
    levels = [max(min(mean, high), low) for mean, members in groups for _ in range(members)]
    return [level + offset for level, offset in zip(levels, offsets, strict=True)]


def hatched(look: BandLook, *, edge: float = 0.8, ink: str = INK, clip_on: bool = True) -> PolyCollection:
    """Areas in the look of a band, none yet, with so wide an edge, and so dark a pattern."""
    areas = PolyCollection([], facecolors=look.fill, edgecolors=ink, linewidths=edge, clip_on=clip_on)
    areas.set_hatch(look.hatch)
    areas.set_hatch_linewidth(0.5)
    return areas


def show_shapes(patch: PathPatch, shapes: Sequence[Sequence[tuple[float, float]]]) -> None:
    """Have one patch be all of these shapes, each by its corners; hidden if there are none."""
    patch.set_visible(bool(shapes))
    if shapes:
        patch.set_path(Path.make_compound_path(*(Path([*s, s[0]], closed=True) for s in shapes)))
