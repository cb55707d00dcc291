"""The key below a cloth that is cut up: its sizes, its lines, and what had no room."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from hemcalc.bolt.cutting import CutUp
from hemcalc.bolt.layout import Layout
from hemcalc.draw.bolt.parts import Part
from hemcalc.draw.bolt.stretches import right_across
from hemcalc.draw.bolt.words import TURNED, Written, letter_of
from hemcalc.draw.look import LINES, OFFCUT
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.words import so_many

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: What is drawn before the words, "cut", "cut within", "offcut" or nothing; and the words.
Entry = tuple[str, str]

_SAMPLE = 24.0  # length of what is drawn, points
_GAP = 4.0  # from there to the words
_BETWEEN = 14.0  # two entries
_MAX_ENTRIES = 48  # entries


class Key:
    """The view of a key: made once for axes that are measured in points, then updated."""

    def __init__(self, sheet: Sheet, axes: Axes) -> None:
        self.axes = axes
        self._sheet = sheet
        self._lines = {kind: LineCollection([], **LINES[kind].line) for kind in ("cut", "cut within")}
        self._offcut = PathPatch(Path([(0, 0)]), **OFFCUT.patch)
        sheet.moving(axes, *self._lines.values(), self._offcut)
        self._labels = Labels(sheet, axes, _MAX_ENTRIES)

    def height(self, entries: Sequence[Entry]) -> float:
        """How high it will be, points."""
        return len(self._flowed(entries)) * self._step

    def show(self, entries: Sequence[Entry], top: float) -> None:
        """Show these, from this level down."""
        drawn: dict[str, list[tuple[float, float]]] = {"cut": [], "cut within": [], "offcut": []}
        labels = []
        for i, line in enumerate(self._flowed(entries)):
            y = top - (i + 0.5) * self._step
            for x, (kind, text) in line:
                if kind:
                    drawn[kind].append((x, y))
                labels.append(Label(x + _before(kind), y, text, "left", small=True))
        for kind, lines in self._lines.items():
            lines.set_segments([[(x, y), (x + _SAMPLE, y)] for x, y in drawn[kind]])
        self._offcut.set_visible(bool(drawn["offcut"]))
        for x, y in drawn["offcut"]:
            half = 0.33 * self._step
            corners = [(x, y - half), (x + _SAMPLE, y - half), (x + _SAMPLE, y + half), (x, y + half)]
            self._offcut.set_path(Path([*corners, corners[0]], closed=True))
        self._labels.show(labels)

    @property
    def _step(self) -> float:
        return 1.35 * self._sheet.type.small

    def _flowed(self, entries: Sequence[Entry]) -> list[list[tuple[float, Entry]]]:
        """The entries in lines, each with where it begins."""
        lines: list[list[tuple[float, Entry]]] = [[]]
        at, room = 0.0, self.axes.get_xlim()[1]
        for kind, text in entries:
            width = _before(kind) + self._labels.size(Label(0, 0, text, small=True))[0]
            if lines[-1] and at + width > room:
                lines.append([])
                at = 0.0
            lines[-1].append((at, (kind, text)))
            at += width + _BETWEEN
        return lines


def _before(kind: str) -> float:
    """Room that is taken by what is drawn before the words."""
    return _SAMPLE + _GAP if kind else 0.0


def key_of(part: Part, unit: str, written: Written | None = None) -> list[Entry]:
    """What letters and lines mean, and what has no room; all that it may be while that is not known."""
    cut_up, which = part.cloth, part.text(unit)
    entries: list[Entry] = [("", f"{which}: {so_many(len(cut_up.pieces), 'piece')}")] if which else []
    for size in cut_up.sizes:
        if which and not cut_up.counts[size.name]:
            continue
        by_letter = written is None or size.name in written.by_letter
        letter = f"{letter_of(cut_up, size.name)} = " if by_letter else ""
        sides = f"{size.across.text(unit)} × {size.down.text(unit)}"
        entries.append(("", f"{letter}{size.name}, {sides}: {cut_up.counts[size.name]}"))
    if any(piece.turned for piece in cut_up.pieces):
        entries.append(("", f"{TURNED} turned by a quarter"))
    across = [right_across(cut, cut_up) for cut in cut_up.cuts]
    if any(across):
        entries.append(("cut", "cut right across"))
    if not all(across):
        entries.append(("cut within", "cut within a part"))
    if across:
        entries.append(("", "bold: number of a cut, and how far it is from the edge of its bit"))
    if cut_up.offcuts:
        entries.append(("offcut", "left over"))
    if isinstance(cut_up, Layout):
        entries.append(("", "double line: selvedge"))
    return entries + _left_out(cut_up, written)


def _left_out(cut_up: CutUp, written: Written | None) -> list[Entry]:
    cuts = len(cut_up.lines) if written is None else len(written.cuts_left_out)
    pieces = len(cut_up.pieces) if written is None else len(written.pieces_left_out)
    said = [so_many(quantity, what) for quantity, what in ((pieces, "piece"), (cuts, "cut")) if quantity]
    return [("", f"no room to number {' and '.join(said)}: see the list of cuts")] if said else []
