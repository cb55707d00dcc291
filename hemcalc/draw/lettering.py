"""Words that are set once and then laid down as a small picture, wherever they go.

Setting type is most of the work of a picture. A word that is moved, or comes back, is the
same little picture, so each is kept; and its size is known before it is placed.
"""

from __future__ import annotations

import math
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal

import matplotlib
import numpy as np
from matplotlib.colors import to_rgb
from matplotlib.text import Text
from matplotlib.transforms import Bbox
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from hemcalc.draw.look import INK

_AROUND = 2  # pixels of paper round a word that stands on it
#: How much of a text lies left of, or below, the place that it is aligned to.
SHARES = {"left": 0.0, "bottom": 0.0, "center": 0.5, "right": 1.0, "top": 1.0}


class Word(Text):
    """A text that is drawn by its kept picture; on paper, it covers what it stands on."""

    on_paper = False

    @property
    def _dpi(self) -> float:
        figure = self.get_figure(root=True)
        return figure.dpi if figure is not None else 100.0

    @property
    def _picture(self) -> NDArray[np.uint8]:
        bold = self.get_fontweight() == "bold"
        across = self.get_horizontalalignment()
        return lettering(self.get_text(), self.get_fontsize(), bold, across, self.on_paper, self._dpi)

    def get_window_extent(self, renderer: Any = None, dpi: float | None = None) -> Bbox:
        """Where it stands, in pixels, without the paper round it."""
        x, y = self.get_transform().transform(self.get_position())
        bold = self.get_fontweight() == "bold"
        width, height = extent(self.get_text(), self.get_fontsize(), bold, self._dpi)
        left = round(x - SHARES[self.get_horizontalalignment()] * width)
        bottom = round(y - SHARES[self.get_verticalalignment()] * height)
        return Bbox.from_bounds(left, bottom, width, height)

    def draw(self, renderer: Any) -> None:
        """Lay the picture down where the text stands."""
        if self.get_visible() and self.get_text():
            box = self.get_window_extent()
            # A figure's images are laid down from the bottom row up.
            picture = self._picture[::-1]
            renderer.draw_image(renderer.new_gc(), box.x0 - _AROUND, box.y0 - _AROUND, picture)


@lru_cache(maxsize=8192)
def extent(text: str, points: float, bold: bool, dpi: float) -> tuple[int, int]:
    """Width and height of a text in pixels, as its picture has them; nothing is painted for it.

    Examples
    --------
    >>> extent("cut", 9, False, 100) < extent("fold 1", 9, False, 100)
    True
    """
    font = _of_size(points, bold, dpi)
    lines = text.split("\n")
    return math.ceil(max(map(font.getlength, lines))), sum(font.getmetrics()) * len(lines)


@lru_cache(maxsize=512)  # so many words of a hall's size are some megabytes
def lettering(
    text: str,
    points: float,
    bold: bool,
    across: Literal["left", "center", "right"],
    on_paper: bool,
    dpi: float,
) -> NDArray[np.uint8]:
    """The picture of a word, in pixels (rows, columns, RGBA), with a little room round it.

    Examples
    --------
    >>> short, long = (lettering(text, 9, False, "left", False, 100) for text in ("cut", "fold 1"))
    >>> short.shape[1] < long.shape[1]
    True
    """
    font = _of_size(points, bold, dpi)
    width, height = extent(text, points, bold, dpi)
    lines = text.split("\n")
    step = height // len(lines)
    mask = Image.new("L", (width + 2 * _AROUND, height + 2 * _AROUND))
    pen = ImageDraw.Draw(mask)
    for i, line in enumerate(lines):
        left = round(SHARES[across] * (width - font.getlength(line)))
        pen.text((_AROUND + left, _AROUND + i * step), line, fill=255, font=font)
    ink = np.asarray(mask)[..., None]
    colour = np.array(to_rgb(INK)) * 255
    if on_paper:
        # On white: white less what the ink takes away.
        shade = 255 - ink / 255 * (255 - colour)
        return np.dstack([shade.round().astype(np.uint8), np.full_like(ink, 255)])
    return np.dstack([np.broadcast_to(colour.round().astype(np.uint8), (*ink.shape[:2], 3)), ink])


def _of_size(points: float, bold: bool, dpi: float) -> ImageFont.FreeTypeFont:
    """The type of that size in points."""
    return _font(math.floor(points * dpi / 72 + 0.5), bold)


@lru_cache
def _font(pixels: int, bold: bool) -> ImageFont.FreeTypeFont:
    """The type that comes with matplotlib, laid out the same wherever it runs."""
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    path = Path(matplotlib.get_data_path(), "fonts", "ttf", name)
    # The oldest pillow allowed gives it no type.
    font: ImageFont.FreeTypeFont = ImageFont.truetype(str(path), pixels, layout_engine=ImageFont.Layout.BASIC)
    return font
