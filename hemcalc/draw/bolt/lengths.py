"""Beside a cloth that is cut up: how long it is, measured from its top, and how the warp runs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.collections import LineCollection, PolyCollection

from hemcalc.bolt.layout import Layout
from hemcalc.draw.bolt.parts import Part
from hemcalc.draw.bolt.stretches import Stretches
from hemcalc.draw.bolt.words import SELVEDGE
from hemcalc.draw.look import INK, LINES
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.lengths import Length

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_MAX_LENGTHS = 3
_ARROW = 7.0  # length of an arrowhead, points
_TO_LINE = 8.0  # from the edge to the line with the arrowheads, points
_TO_WORDS = 24.0  # from the edge to the words
_TO_WARP = 10.0  # from there to the word at the arrow of the warp
_BETWEEN = 2.0  # two of them

_Line = list[tuple[float, float]]


class Lengths:
    """The view of the lengths: made once for axes that are measured in points, then updated."""

    def __init__(self, sheet: Sheet, axes: Axes) -> None:
        self.axes = axes
        self._lines = LineCollection([], **LINES["dimension"].line)
        self.heads = PolyCollection([], facecolors=INK, edgecolors="none")
        sheet.moving(axes, self._lines, self.heads)
        self._labels = Labels(sheet, axes, _MAX_LENGTHS + 1)

    def width(self, lengths: dict[Length, str]) -> float:
        """How much room they take right of the cloth, points."""
        words = [self._labels.size(Label(0, 0, text, small=True))[0] for text in ("warp", *lengths.values())]
        words[0] += _TO_WARP
        return SELVEDGE + _TO_WORDS + max(words) + 1

    def low(self, lengths: dict[Length, str], stretches: Stretches) -> float:
        """Where they end: with the cloth or, if it is short, below it."""
        sizes = [self._labels.size(Label(0, 0, text, small=True))[1] for text in lengths.values()]
        return min(stretches.boxes[-1][1], stretches.top - sum(sizes) - _BETWEEN * max(len(sizes) - 1, 0))

    def show(self, lengths: dict[Length, str], stretches: Stretches, warp: float) -> None:
        """Show these beside the last stretch; the arrow of the warp keeps right of a place."""
        left, bottom, width, _ = stretches.boxes[-1]
        top, edge = stretches.top, left + width + SELVEDGE
        line, words = edge + _TO_LINE, edge + _TO_WORDS
        lines: list[_Line] = [[(line, top), (line, bottom)]] if lengths else []
        if lengths and stretches.ends[-2] == 0:  # otherwise it begins at the top of the first
            lines.append([(edge + 2, top), (line + 3, top)])
        tips = [(line, y) for length in lengths if (y := stretches.down(float(length.mm))) is not None]
        # What ends in a stretch before is said all the same, first, with nothing to point at.
        levels = sorted(
            ((stretches.down(float(length.mm)), text) for length, text in lengths.items()),
            key=lambda level: top + 1 if level[0] is None else level[0],
        )
        labels = self._labels.in_column(
            [Label(words, top if y is None else y, text, "left", small=True) for y, text in levels],
            self.low(lengths, stretches),
            top,
            _BETWEEN,
        )
        for label, (y, _) in zip(labels, levels, strict=True):
            if y is not None:
                lines += [[(edge + 2, y), (line + 3, y)], [(line + 3, y), (words - 2, label.y)]]
        at, height = max(words + _TO_WARP - 6, warp), self.axes.get_ylim()[1]
        lines.append([(at, height - 2), (at, top + 4)])
        labels.append(Label(at + 6, (height + top) / 2, "warp", "left", small=True))
        self._lines.set_segments(lines)
        self.heads.set_verts(
            [[(x, y), (x - 2, y + _ARROW), (x + 2, y + _ARROW)] for x, y in (*tips, (at, top + 2))]
        )
        self._labels.show(labels)


def _end(layout: Layout, unit: str) -> str:
    """What the end of the cloth is: washed and squared, it is less than what is bought."""
    if layout.length == layout.to_buy:
        return "to buy"
    return f"to cut from,\nof {layout.to_buy.text(unit)}\nto buy"


def lengths_of(part: Part, unit: str) -> dict[Length, str]:
    """What is said beside a cloth: each length once, with all that it is; on the sheet where it ends."""
    cut_up = part.cloth
    if isinstance(cut_up, Layout):
        said = [
            (cut_up.used, "used"),
            (cut_up.bound, "no layout\nis shorter"),
            (cut_up.length, _end(cut_up, unit)),
        ]
    else:
        said = [(cut_up.length, "in all")]
    lengths: dict[Length, str] = {}
    for length, words in said:
        lengths[length] = (
            f"{lengths[length]},\n{words}" if length in lengths else f"{length.text(unit)}\n{words}"
        )
    return {length: words for length, words in lengths.items() if part.start < length <= part.end}
