"""The edge in section with its words and dimensions, to scale with the cloth's thickness."""

from __future__ import annotations

import math
from itertools import pairwise

from matplotlib.lines import Line2D

from hemcalc.draw.edge.strips import FOLDED_HIGH, SectionStrips, thickness_threads
from hemcalc.draw.look import LINES, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels, broken_line
from hemcalc.draw.scale import ScaleBar, bar_long
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.edge.section import Section, Strip
from hemcalc.measure.errors import of_type
from hemcalc.measure.measured import finite_number
from hemcalc.measure.words import so_many


class SectionProfile:
    """The cloth in section with its words and dimensions; takes what `SectionStrips` takes.

    `words_from` is where the words about the folded section begin, as a share of the width; with
    `scale`, a bar in the upper right corner says how large it is drawn.
    """

    def __init__(
        self,
        sheet: Sheet,
        box: tuple[float, float, float, float],
        across: tuple[float, float],
        up: tuple[float, float],
        words_from: float = 0.0,
        *,
        scale: bool = False,
    ) -> None:
        self.sheet = sheet
        self.strips = SectionStrips(sheet, box, across, up)
        self.axes = self.strips.axes
        self.words_from = words_from
        self.leaders = Line2D([], [], **LINES["hidden"].line)
        sheet.moving(self.axes, self.leaders)
        self._labels = Labels(sheet, self.axes, 8)
        self.dimensions = Dimensions(sheet, self.axes, 1)
        self.scale = ScaleBar(sheet, self.axes) if scale else None

    def update(self, section: Section, progress: float, unit: str, *, more: bool = True) -> None:
        """Show this section, folded so far, with lengths in this unit; and `more` of where it lands."""
        if self.scale:
            left, right = self.axes.get_xlim()
            bar = bar_long(right - left)
            self.scale.show(bar, f"{so_many(bar, 'thread')}, {section.edge.width(bar).text(unit)}")
        places = self._places(section)
        below = places[0].y - self._labels.size(places[0])[1]
        bend = below - 0.5 * self._line
        strips = self.strips.update(section, progress, bend)
        at = (section.edge.open_line, section.edge.fold_1)
        self.leaders.set_data(
            *broken_line([(x, bend), (label.x, below)] for x, label in zip(at, places, strict=True))
        )
        folded = progress >= 1
        words = self._words(section, more) if folded else self._names(strips, progress)
        self._labels.show([*places, *words])
        self.dimensions.show([self._width(section, unit)] if folded else [])

    @property
    def _line(self) -> float:
        """Height of a line of small type, threads."""
        return line_inches(self.sheet.type.small) * 72 * self.sheet.points(self.axes)[1]

    def _places(self, section: Section) -> list[Label]:
        top = self.axes.get_ylim()[1]
        lines = (("open line", section.edge.open_line), ("fold 1", section.edge.fold_1))
        labels = [Label(at, top, name, up="top", small=True) for name, at in lines]
        return self._labels.in_row(labels, *self.axes.get_xlim())

    def _words(self, section: Section, more: bool) -> list[Label]:
        """Where the folded section lands, in lines from the bottom up."""
        lines = section_words(section, more)
        (left, right), bottom = self.axes.get_xlim(), self.axes.get_ylim()[0]
        at = left + self.words_from * (right - left)
        return [
            Label(at, bottom + i * self._line, text, "left", "bottom", small=True, on_paper=True)
            for i, text in enumerate(reversed(lines))
        ]

    def _names(self, strips: dict[str, Strip], progress: float) -> list[Label]:
        """Names of the bands that have room for them, on their outer side, where no cloth folds."""
        right, top = self.axes.get_xlim()[1], self.axes.get_ylim()[1]
        # Once fold 1 is under way the turn lies inside.
        named = ("face", "back") if progress > 0.5 else ("face", "back", "turn")
        under = top - (1.1 * self._line if self.scale else 0)
        labels = [Label(right, under, "bold line:\nright side", "right", "top", small=True)]
        for name in named:
            label = Label(0, 0, name, small=True, on_paper=True)
            width, height = self._labels.size(label)
            if name in strips and _length(strips[name].right) > width:
                x, y = _beside(strips[name], width, height, 3 * self.sheet.points(self.axes)[1])
                labels.append(Label(x, y, name, small=True, on_paper=True))
        return labels

    def _width(self, section: Section, unit: str) -> Dimension:
        edge, point = section.edge, self.sheet.points(self.axes)[1]
        top = FOLDED_HIGH * thickness_threads(section)
        text = f"ledger: {edge.hem_width.text(unit)}"
        return Dimension(edge.open_line, edge.fold_1, top + 14 * point, top, text)


def draw_section(
    section: Section, progress: float = 1.0, unit: str | None = None, size: str = "page"
) -> Still:
    """The edge in section, as a finished figure.

    Flat it is at a progress of 0, folded at 1. Lengths are in ``"in"``, ``"cm"`` or ``"mm"``, and its type is
    for a ``"page"`` or a ``"projector"``.
    """
    of_type(section, Section, "section", "plan_section(plan_edge('28/in', '3/8 in', clear=8), '0.4 mm')")
    edge, look, thick = section.edge, type_size(size), thickness_threads(section)
    unit = edge.count.unit_or(unit)
    progress = finite_number(progress, "progress", least=0, most=1, example=0.5)
    folded = progress >= 1
    across = (-2.0, (edge.fold_1 if folded else edge.total) + 3.0)
    inch = (across[1] - across[0]) / (0.98 * 9)  # threads to an inch of the sheet
    line = line_inches(look.small)
    # The cloth, and the lines of words above and below it.
    up = (FOLDED_HIGH * thick if folded else edge.hem + thick) + 4 * line * inch
    down = thick / 2 + (0.5 + (len(section_words(section)) if folded else 2)) * line * inch
    sheet = Sheet(9, (up + down) / inch / 0.98, dpi=150, size=look)
    view = SectionProfile(sheet, (0.01, 0.01, 0.98, 0.98), across, (-down, up))
    view.update(section, progress, unit)
    return Still(sheet, section_alt(section, progress, unit))


def line_inches(points: float) -> float:
    """Height of a line of type, with the room between it and the next."""
    return 1.35 * points / 72


def section_words(section: Section, more: bool = True) -> tuple[str, ...]:
    """Where fold 2 lands, in lines short enough for a hall; with `more`, three numbers and their datum."""
    if not more:
        return (_lands(section), "bold line: right side of the cloth")
    arc, landing, past, off = _numbers(section)
    fold_2 = (
        f"fold 2: neutral line {landing} short,",
        f"outer face {past} past the line",
    )
    return (
        f"a sharp fold takes {arc}",
        *(fold_2 if section.edge.turn else ("no turn: the raw edge lands on the open line's edge",)),
        f"finished edge: {off}",
        "bold line: right side of the cloth",
    )


def _lands(section: Section) -> str:
    """How near to the open line fold 2 lands, to a tenth of a millimetre, rounded up."""
    if not section.edge.turn:
        return "no turn: the raw edge lands on the open line's edge"
    off = math.ceil(10 * max(abs(section.landing_mm), abs(section.landing_outer_mm)) - 1e-9) / 10
    return f"fold 2 lands on the open line's edge, within {off:.1f} mm"


def _numbers(section: Section) -> tuple[str, str, str, str]:
    """Arc, landing of the neutral line and of the outer face, and the finished edge."""
    off = section.finished_off_mm
    return (
        _both(section.arc_mm, section.arc_threads),
        _both(section.landing_mm, section.landing_threads),
        _both(section.landing_outer_mm, section.landing_outer_threads),
        f"{_both(abs(off), abs(section.finished_off_threads))} {'wider' if off > 0 else 'narrower'}",
    )


def section_alt(section: Section, progress: float, unit: str, more: bool = True) -> str:
    """The section in words, with its numbers; with `more`, those of where each face lands."""
    edge = section.edge
    threads = so_many(edge.hem, "thread")
    start = (
        f"Section of the edge, cloth {section.thickness.text('mm')} thick, hem of {threads} "
        f"({edge.hem_width.text(unit)}), turn of {edge.turn}"
    )
    if progress >= 1 and not more:
        return f"{start}, folded: {_lands(section)}."
    if progress >= 1:
        arc, landing, past, off = _numbers(section)
        lands = (
            f"fold 2 lands with its neutral line {landing} short of the open line's outer edge and its "
            f"outer face {past} past it"
            if edge.turn
            else "the raw edge lands on the open line's outer edge"
        )
        return (
            f"{start}, folded: a sharp fold takes {arc} of cloth; {lands}; the finished edge, at the outer "
            f"face of fold 1, is {off} than the ledger."
        )
    return f"{start}, {'flat' if progress <= 0 else f'folded {progress:.0%} of the way'}."


def _both(mm: float, threads: float) -> str:
    return f"{mm:.2f} mm ({threads:.2f} thread{'s' if threads > 1 else ''})"


def _beside(strip: Strip, width: float, height: float, gap: float) -> tuple[float, float]:
    """The middle of a text of this size that stands a gap away from a strip, on its right side."""
    (x_wrong, y_wrong), (x, y) = _midway(strip.wrong), _midway(strip.right)
    thick = math.hypot(x - x_wrong, y - y_wrong) or 1.0
    along, up = (x - x_wrong) / thick, (y - y_wrong) / thick
    away = gap + abs(along) * width / 2 + abs(up) * height / 2
    return x + along * away, y + up * away


def _length(points: tuple[tuple[float, float], ...]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(points))


def _midway(points: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    """The point half-way along a line."""
    half = _length(points) / 2
    for a, b in pairwise(points):
        step = math.dist(a, b)
        if half <= step and step:
            return a[0] + (b[0] - a[0]) * half / step, a[1] + (b[1] - a[1]) * half / step
        half -= step
    return points[-1]
