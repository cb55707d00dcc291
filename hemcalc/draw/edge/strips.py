"""The cloth of an edge in section, from flat to folded, and a lens on it.

Drawn in threads both ways, so that it stands under the ruler of threads at the same scale.
The bold line follows the right side of the cloth.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from hemcalc.draw.look import BANDS, LINES
from hemcalc.draw.marks import Label, Labels, broken_line
from hemcalc.draw.sheet import Sheet
from hemcalc.edge.section import Section, Strip

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: How high the folded hem is, in thicknesses above the middle of its face.
FOLDED_HIGH = 2.6
_SHOWN = ("clear", "drawn", "face", "back", "turn")
_MAX_TIMES = 4  # how much larger the lens draws


class SectionStrips:
    """The cloth alone: made once for a box of a sheet, then updated.

    The limits are in threads: across from the design, up from the middle of the cloth.
    """

    def __init__(
        self,
        sheet: Sheet,
        box: tuple[float, float, float, float],
        across: tuple[float, float],
        up: tuple[float, float],
    ) -> None:
        self.axes = sheet.axes(box, across, up, to_scale=True)
        self.guides = Line2D([], [], **LINES["hidden"].line)
        self.bands = {
            name: Polygon([(0, 0)], closed=True, **(BANDS[name].patch | {"linewidth": 0.5}))
            for name in _SHOWN
        }
        self.right_side = Line2D([], [], **LINES["edge"].line, solid_capstyle="round")
        self._artists = (self.guides, *self.bands.values(), self.right_side)
        sheet.moving(self.axes, *self._artists)

    def update(self, section: Section, progress: float, guides_to: float | None = None) -> dict[str, Strip]:
        """Show this section, folded so far; gives the strips in threads from the design.

        The guides at the open line and at fold 1 go up to a level, or to the top.
        """
        strips = {strip.band: _in_threads(strip, section) for strip in section.profile(progress)}
        for name, patch in self.bands.items():
            patch.set_visible(name in strips)
            if name in strips:
                patch.set_xy([*strips[name].right, *reversed(strips[name].wrong)])
        self.right_side.set_data(
            *broken_line(strips[name].right for name in self.bands if name in strips and name != "drawn")
        )
        ends = (self.axes.get_ylim()[0], self.axes.get_ylim()[1] if guides_to is None else guides_to)
        places = (section.edge.open_line, section.edge.fold_1)
        self.guides.set_data(*broken_line([(at, y) for y in ends] for at in places))
        self.guides.set_visible(True)
        self.right_side.set_visible(True)
        return strips

    def hide(self) -> None:
        """Show nothing."""
        for artist in self._artists:
            artist.set_visible(False)


class SectionLens:
    """The folded hem at the open line, drawn larger by a whole number of times.

    It shows itself only when the hem is folded, and where it tells more than the section.
    """

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float], beside: Axes) -> None:
        self.sheet = sheet
        self.beside = beside
        self.strips = SectionStrips(sheet, box, (0, 1), (0, 1))
        self.axes = self.strips.axes
        self._labels = Labels(sheet, self.axes, 1)

    def update(self, section: Section, progress: float) -> None:
        """Show this section, if it is folded."""
        self.strips.hide()
        self._labels.show([])
        thick = thickness_threads(section)
        times = min(_MAX_TIMES, int(self._room(1)[1] / (1.3 * (FOLDED_HIGH + 0.5) * thick)))
        if progress < 1 or times < 2:
            return
        across, up = self._room(times)
        start = section.edge.open_line - across / 3
        self.axes.set_xlim(start, start + across)
        self.axes.set_ylim(thick - up / 2, thick + up / 2)
        # The guides end short of the words above them.
        self.strips.update(section, progress, thick + up / 2 - 5 * self.sheet.points(self.axes)[1])
        word = f"at the open line, drawn {times} times as large"
        self._labels.show([Label(start, thick + up / 2, word, "left", "bottom", small=True)])

    def _room(self, times: int) -> tuple[float, float]:
        """Threads across and up that fit in, drawn so many times as large as in the section."""
        box, (width, height) = self.axes.get_position(), self.sheet.figure.get_size_inches()
        inch = 72 * self.sheet.points(self.beside)[0] / times
        return box.width * width * inch, box.height * height * inch


def thickness_threads(section: Section) -> float:
    """Of one layer, in threads."""
    return section.thickness_mm * float(section.edge.count.per_mm)


def _in_threads(strip: Strip, section: Section) -> Strip:
    """The strip in threads from the design."""
    pitch, start = float(section.edge.count.pitch.mm), section.edge.open_line
    right = tuple((start + x / pitch, y / pitch) for x, y in strip.right)
    wrong = tuple((start + x / pitch, y / pitch) for x, y in strip.wrong)
    return Strip(strip.band, right, wrong)
