"""A picture whose scale follows what it shows: in what frame, and how the scale is said."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from matplotlib.lines import Line2D

from hemcalc.draw.look import LINES
from hemcalc.draw.marks import Label, Labels, broken_line
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.errors import of_type

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: Inches of a picture of which two stand beside each other: its type is as large to the eye as ever.
NARROW = (5.4, 4.2)

_R20 = (1, 1.12, 1.25, 1.4, 1.6, 1.8, 2, 2.24, 2.5, 2.8, 3.15, 3.55, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10)


class ScaleBar:
    """How long something is in the picture: a short bar, its text right of it, at the upper right of axes."""

    def __init__(self, sheet: Sheet, axes: Axes) -> None:
        self._sheet, self._axes = sheet, axes
        self.bar = Line2D([], [], **LINES["edge"].line, solid_capstyle="butt")
        sheet.moving(axes, self.bar)
        self._labels = Labels(sheet, axes, 1)

    def show(self, long: float, text: str) -> None:
        """Show a bar so long in the measure of the axes, as they now look."""
        right, top = self._axes.get_xlim()[1], self._axes.get_ylim()[1]
        along, up = self._sheet.points(self._axes)
        label = Label(right, top, text, "right", "top", small=True)
        width, height = self._labels.size(label)
        end, y = right - width - 5 * along, top - height / 2
        tick = 3 * up
        ends = [[(x, y - tick), (x, y + tick)] for x in (end - long, end)]
        self.bar.set_data(*broken_line([[(end - long, y), (end, y)], *ends]))
        self._labels.show([label])


def inches(wide: float, high: float, *, narrow: bool) -> tuple[float, float]:
    """The size of a picture that stands alone on its page, or narrow beside another.

    Examples
    --------
    >>> inches(9, 5.5, narrow=False), inches(9, 5.5, narrow=True)
    ((9, 5.5), (5.4, 4.2))
    """
    return NARROW if of_type(narrow, bool, "narrow", "True") else (wide, high)


def framed(needed: float) -> float:
    """The size of frame for what is so large: a picture that follows keeps its scale for a while.

    Sizes go up by about an eighth, along the series R20 of preferred numbers.

    Source
    ------
    ISO 3, Preferred numbers: Series of preferred numbers, 1973 (from memory).

    Examples
    --------
    >>> framed(37), framed(40), framed(41)
    (40.0, 40.0, 45.0)
    """
    ten = 10.0 ** math.floor(math.log10(needed))
    return next(ten * size for size in _R20 if ten * size >= needed * (1 - 1e-9))


def bar_long(span: float) -> int:
    """A whole length, 1, 2 or 5 with noughts, for a bar on axes that span so much.

    Examples
    --------
    >>> bar_long(56), bar_long(130)
    (10, 20)
    """
    return max(n for n in (1, 2, 5, 10, 20, 50, 100) if n == 1 or n <= span / 5)
