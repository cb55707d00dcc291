"""The edge in section, to scale with the cloth's thickness, from flat to folded.

Drawn in threads both ways, so that it stands under the ruler of threads at the same scale.
The bold line follows the right side of the cloth.
"""

from __future__ import annotations

import math
from itertools import pairwise

from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from hemcalc.draw.look import BANDS, LINES, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.section import Section, Strip

__all__ = ["SectionProfile", "SectionStrips", "draw_section", "section_alt"]

_SHOWN = ("clear", "drawn", "face", "back", "turn")
_NAN = float("nan")


class SectionStrips:
    """The cloth alone: made once for some axes, then updated.

    Parameters
    ----------
    sheet : Sheet
        The figure.
    box : tuple
        Where on it, as shares: left, bottom, width, height.
    across, up : tuple of float
        Limits in threads: across from the design, up from the middle of the cloth.
    """

    def __init__(
        self,
        sheet: Sheet,
        box: tuple[float, float, float, float],
        across: tuple[float, float],
        up: tuple[float, float],
    ) -> None:
        self.axes = sheet.axes(box, across, up, to_scale=True)
        look, edge = LINES["hidden"], LINES["edge"]
        self._guides = Line2D([], [], color=look.colour, linewidth=look.width, linestyle=look.style)
        self._strips = {
            name: Polygon([(0, 0)], closed=True, **(BANDS[name].patch | {"linewidth": 0.5}))
            for name in _SHOWN
        }
        self._right = Line2D([], [], color=edge.colour, linewidth=edge.width, solid_capstyle="round")
        self._artists = (self._guides, *self._strips.values(), self._right)
        for artist in self._artists:
            self.axes.add_artist(artist)
        sheet.moving(self.axes, *self._artists)

    def update(self, section: Section, progress: float) -> dict[str, Strip]:
        """Show this section, folded so far; gives the strips in threads from the design."""
        strips = {strip.band: _in_threads(strip, section) for strip in section.profile(progress)}
        right: list[tuple[float, float]] = []
        for name, patch in self._strips.items():
            patch.set_visible(name in strips)
            if name in strips:
                patch.set_xy([*strips[name].right, *reversed(strips[name].wrong)])
                right += [] if name == "drawn" else strips[name].right
                right.append((_NAN, _NAN))
        self._right.set_data([x for x, _ in right], [y for _, y in right])
        bottom, top = self.axes.get_ylim()
        places = (section.edge.open_line, section.edge.fold_1)
        self._guides.set_data([x for at in places for x in (at, at, _NAN)], [bottom, top, _NAN] * 2)
        self._guides.set_visible(True)
        self._right.set_visible(True)
        return strips

    def hide(self) -> None:
        """Show nothing."""
        for artist in self._artists:
            artist.set_visible(False)


class SectionProfile:
    """The cloth in section with its words and dimensions; takes what `SectionStrips` takes.

    `words_from` is where the words about the folded section begin, as a share of the width.
    """

    def __init__(
        self,
        sheet: Sheet,
        box: tuple[float, float, float, float],
        across: tuple[float, float],
        up: tuple[float, float],
        words_from: float = 0.0,
    ) -> None:
        self.sheet = sheet
        self.strips = SectionStrips(sheet, box, across, up)
        self.axes = self.strips.axes
        self.words_from = words_from
        self._labels = Labels(sheet, self.axes, 8)
        self._dimensions = Dimensions(sheet, self.axes, 1)

    def update(self, section: Section, progress: float, unit: str) -> None:
        """Show this section, folded so far, with lengths in this unit."""
        strips = self.strips.update(section, progress)
        folded = progress >= 1
        self._labels.show(
            [*self._places(section), *(self._words(section) if folded else self._names(strips, progress))]
        )
        self._dimensions.show([self._finished(section, unit)] if folded else [])

    def _places(self, section: Section) -> list[Label]:
        x_point, top = self.sheet.points(self.axes)[0], self.axes.get_ylim()[1]
        return [
            Label(section.edge.open_line - 3 * x_point, top, "open line", "right", "top", small=True),
            Label(section.edge.fold_1 + 3 * x_point, top, "fold 1", "left", "top", small=True),
        ]

    def _words(self, section: Section) -> list[Label]:
        """The numbers of the folded section, in lines from the bottom up."""
        lines = section_words(section)
        left, right = self.axes.get_xlim()
        at = left + self.words_from * (right - left)
        return [
            Label(at, self._level(len(lines) - i), text, "left", "top", small=True, on_paper=True)
            for i, text in enumerate(lines)
        ]

    def _names(self, strips: dict[str, Strip], progress: float) -> list[Label]:
        away = 7 * self.sheet.points(self.axes)[1]
        # Once fold 1 is under way the turn lies inside and has no room for its name.
        wanted = ("face", "back") if progress > 0.5 else ("face", "back", "turn")
        names = (name for name in wanted if name in strips)
        left = self.axes.get_xlim()[0]
        side = Label(left, self._level(1), "bold line: right side of the cloth", "left", "top", small=True)
        return [side, *(_beside(strips[name], name, away) for name in names)]

    def _level(self, line: int) -> float:
        """How high a line of small type stands, counted from the bottom."""
        return self.axes.get_ylim()[0] + 1.35 * line * self.sheet.type.small * self.sheet.points(self.axes)[1]

    def _finished(self, section: Section, unit: str) -> Dimension:
        start, end = section.edge.open_line, section.edge.open_line + section.finished_edge_threads
        high = 2.6 * section.thickness_mm * float(section.edge.count.per_mm)
        point = self.sheet.points(self.axes)[1]
        return Dimension(start, end, high + 14 * point, high, f"ledger: {section.edge.hem_width.text(unit)}")


def draw_section(section: Section, progress: float = 1.0, unit: str = "in", size: str = "page") -> Still:
    """The edge in section, as a finished figure.

    Parameters
    ----------
    section : Section
        From `hemcalc.plan_section`.
    progress : float
        From 0, flat, to 1, folded.
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"`` for the lengths.
    size : str
        Type for a ``"page"`` or a ``"projector"``.
    """
    sheet = Sheet(9, 3.2, dpi=150, size=type_size(size))
    edge = section.edge
    wide, high = (edge.total, edge.hem + 2) if progress < 1 else (edge.fold_1, 2)
    view = SectionProfile(sheet, (0.01, 0.01, 0.98, 0.98), (-2, wide + 3), (-2, high))
    view.update(section, progress, unit)
    return Still(sheet, section_alt(section, progress, unit))


def section_words(section: Section) -> tuple[str, ...]:
    """The three numbers of the section, each with its datum, in lines short enough for a hall."""
    arc, landing, past, off = _numbers(section)
    return (
        f"a sharp fold takes {arc} of cloth",
        f"fold 2: neutral line {landing} short of,",
        f"outer face {past} past the open line's edge",
        f"finished edge, outer face: {off}",
    )


def _numbers(section: Section) -> tuple[str, str, str, str]:
    """Arc, landing of the neutral line and of the outer face, and the finished edge."""
    off = section.finished_off_mm
    return (
        _both(section.arc_mm, section.arc_threads),
        _both(section.landing_mm, section.landing_threads),
        _both(section.landing_outer_mm, section.landing_outer_threads),
        f"{_both(abs(off), abs(section.finished_off_threads))} {'wider' if off > 0 else 'narrower'}",
    )


def section_alt(section: Section, progress: float, unit: str) -> str:
    """The section in words, with its numbers."""
    edge = section.edge
    start = (
        f"Section of the edge, cloth {section.thickness.text('mm')} thick, hem of {edge.hem} threads "
        f"({edge.hem_width.text(unit)}), turn of {edge.turn}"
    )
    if progress >= 1:
        arc, landing, past, off = _numbers(section)
        return (
            f"{start}, folded: a sharp fold takes {arc} of cloth; fold 2 lands with its neutral line "
            f"{landing} short of the open line's outer edge and its outer face {past} past it; the finished "
            f"edge, at the outer face of fold 1, is {off} than the ledger."
        )
    return f"{start}, {'flat' if progress <= 0 else f'folded {progress:.0%} of the way'}."


def _both(mm: float, threads: float) -> str:
    return f"{mm:.2f} mm ({threads:.2f} thread{'s' if threads > 1 else ''})"


def _in_threads(strip: Strip, section: Section) -> Strip:
    """The strip in threads from the design."""
    pitch, start = float(section.edge.count.pitch.mm), section.edge.open_line
    right = tuple((start + x / pitch, y / pitch) for x, y in strip.right)
    wrong = tuple((start + x / pitch, y / pitch) for x, y in strip.wrong)
    return Strip(strip.band, right, wrong)


def _beside(strip: Strip, text: str, away: float) -> Label:
    """A label beside the middle of a strip, on its wrong side."""
    (x, y), (x_right, y_right) = _midway(strip.wrong), _midway(strip.right)
    thick = math.hypot(x - x_right, y - y_right) or 1.0
    return Label(x + (x - x_right) / thick * away, y + (y - y_right) / thick * away, text, small=True)


def _midway(points: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    """The point half-way along a line."""
    half = sum(math.dist(a, b) for a, b in pairwise(points)) / 2
    for a, b in pairwise(points):
        step = math.dist(a, b)
        if half <= step and step:
            return a[0] + (b[0] - a[0]) * half / step, a[1] + (b[1] - a[1]) * half / step
        half -= step
    return points[-1]
