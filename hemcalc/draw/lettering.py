"""Words that are set once and then laid down as a small picture, wherever they go.

Setting type is most of the work of a picture. A word that is moved, or comes back, is the
same little picture, so each is kept; and its size is known before it is placed.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any, Literal

import numpy as np
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.figure import Figure
from matplotlib.text import Text
from matplotlib.transforms import IdentityTransform
from numpy.typing import NDArray

from hemcalc.draw.look import INK, PAPER

__all__ = ["SHARES", "Word", "lettering", "size_of"]

_ROUND = 2  # points kept free round a word, for the paper under it
#: How much of a text lies left of, or below, the place that it is aligned to.
SHARES = {"left": 0.0, "bottom": 0.0, "center": 0.5, "right": 1.0, "top": 1.0}


class Word(Text):
    """A text that is drawn by its kept picture; on paper, it covers what it stands on."""

    on_paper = False

    @property
    def picture(self) -> NDArray[np.uint8]:
        """What it looks like, without the room round it."""
        return lettering(
            self.get_text(),
            self.get_fontsize(),
            self.get_fontweight() == "bold",
            self.get_horizontalalignment(),
            self.on_paper,
            self._dpi,
        )

    @property
    def _dpi(self) -> float:
        figure = self.get_figure(root=True)
        return figure.dpi if figure is not None else 100.0

    def draw(self, renderer: Any) -> None:
        """Lay the picture down where the text stands."""
        if not self.get_visible() or not self.get_text():
            return
        picture, around = self.picture, _around(self._dpi)
        x, y = self.get_transform().transform(self.get_position())
        high, wide = (side - 2 * around for side in picture.shape[:2])
        left = x - SHARES[self.get_horizontalalignment()] * wide - around
        bottom = y - SHARES[self.get_verticalalignment()] * high - around
        renderer.draw_image(renderer.new_gc(), round(left), round(bottom), picture)


def size_of(picture: NDArray[np.uint8], dpi: float) -> tuple[float, float]:
    """Width and height in points of the word in a picture."""
    high, wide = (side - 2 * _around(dpi) for side in picture.shape[:2])
    return wide * 72 / dpi, high * 72 / dpi


@lru_cache(maxsize=4096)
def lettering(
    text: str,
    points: float,
    bold: bool,
    across: Literal["left", "center", "right"],
    on_paper: bool,
    dpi: float,
) -> NDArray[np.uint8]:
    """The picture of a word, in pixels, with a little room round it.

    Parameters
    ----------
    text : str
        One line or several.
    points : float
        Size of type.
    bold : bool
        Its weight.
    across : str
        How several lines stand to each other: ``"left"``, ``"center"`` or ``"right"``.
    on_paper : bool
        Whether it stands on white.
    dpi : float
        Dots to the inch.

    Examples
    --------
    >>> short, long = (lettering(text, 9, False, "left", False, 100) for text in ("cut", "fold 1"))
    >>> short.shape[1] < long.shape[1]
    True
    """
    word = Text(
        0,
        0,
        text,
        color=INK,
        fontsize=points,
        fontweight="bold" if bold else "normal",
        horizontalalignment=across,
        verticalalignment="bottom",
        transform=IdentityTransform(),
    )
    word.set_figure(_scratch(dpi))
    if on_paper:
        word.set_bbox({"facecolor": PAPER, "edgecolor": "none", "pad": 1.0})
    box = word.get_window_extent(RendererAgg(1, 1, dpi))
    around = _around(dpi)
    renderer = RendererAgg(math.ceil(box.width) + 2 * around, math.ceil(box.height) + 2 * around, dpi)
    word.set_position((around - box.x0, around - box.y0))
    word.draw(renderer)
    # A figure's images are laid down from the bottom row up.
    return np.ascontiguousarray(np.asarray(renderer.buffer_rgba())[::-1])


@lru_cache
def _scratch(dpi: float) -> Figure:
    return Figure(figsize=(1, 1), dpi=dpi)


def _around(dpi: float) -> int:
    return math.ceil(_ROUND * dpi / 72)
