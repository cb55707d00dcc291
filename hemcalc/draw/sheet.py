"""A sheet: one figure that is kept, and drawn again when what it shows has changed.

What never changes is drawn once and kept as a background; each picture lays the moving
artists over it. That is what lets a picture follow a slider.
"""

from __future__ import annotations

import base64
import html
import struct
import zlib
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.figure import Figure
from matplotlib.text import Text
from numpy.typing import NDArray

from hemcalc.draw.bare import BareAxes, QuickCanvas
from hemcalc.draw.look import PAPER, TYPE, TypeSize
from hemcalc.draw.shown import show
from hemcalc.measure.errors import of_type, several

if TYPE_CHECKING:
    from matplotlib.artist import Artist
    from matplotlib.axes import Axes


class Sheet:
    """One figure so many inches wide and high, its moving artists, and its type."""

    def __init__(self, width: float, height: float, *, dpi: int = 100, size: TypeSize = TYPE["page"]) -> None:
        self.figure = Figure(figsize=(width, height), dpi=dpi, facecolor=PAPER)
        self.canvas = QuickCanvas(self.figure)
        self.type = size
        self._moving: list[tuple[Axes, Artist]] = []
        self._background: object | None = None

    def axes(
        self,
        box: tuple[float, float, float, float],
        across: tuple[float, float],
        up: tuple[float, float],
        *,
        to_scale: bool = False,
    ) -> Axes:
        """Bare axes in a box (left, bottom, width, height, in shares of the sheet).

        Limits are fixed once, so that the picture does not jump. `to_scale` keeps one scale
        both ways, by widening whichever of the two limits has room.
        """
        axes = self.figure.add_axes(BareAxes(self.figure, box))
        if to_scale:
            across, up = self._one_scale(box, across, up)
        axes.set_xlim(*across)
        axes.set_ylim(*up)
        return axes

    def look(self, axes: Axes, across: tuple[float, float], up: tuple[float, float]) -> None:
        """Have axes that are to scale show this part, and what else their box has room for."""
        across, up = self._one_scale(axes.get_position().bounds, across, up)
        axes.set_xlim(*across)
        axes.set_ylim(*up)

    def _one_scale(
        self,
        box: tuple[float, float, float, float],
        across: tuple[float, float],
        up: tuple[float, float],
    ) -> tuple[tuple[float, float], tuple[float, float]]:
        width, height = self.figure.get_size_inches()
        per_inch = max((across[1] - across[0]) / (box[2] * width), (up[1] - up[0]) / (box[3] * height))
        return _about_middle(across, per_inch * box[2] * width), _about_middle(up, per_inch * box[3] * height)

    def points(self, axes: Axes) -> tuple[float, float]:
        """One point (1/72 in) in the measure of these axes, along x and along y."""
        point, box, view = self.figure.dpi / 72, axes.bbox, axes.viewLim
        return view.width * point / box.width, view.height * point / box.height

    def moving(self, axes: Axes, *artists: Artist) -> None:
        """Have these artists drawn anew in each picture, in the order given; on these axes, if on none."""
        for artist in artists:
            if artist.axes is None:
                axes.add_artist(artist)
            artist.set_animated(True)
            self._moving.append((axes, artist))

    @property
    def moved(self) -> tuple[Artist, ...]:
        """The artists that are drawn anew in each picture and now to be seen, in order."""
        return tuple(artist for _, artist in self._moving if artist.get_visible())

    def set_type(self, size: TypeSize) -> None:
        """Use another size of type from the next picture on."""
        if size != self.type:
            self.type = size
            self._background = None

    def set_dpi(self, dpi: float) -> None:
        """Use so many dots to the inch from the next picture on."""
        if dpi != self.figure.dpi:
            self.figure.set_dpi(dpi)
            self._background = None

    def release(self) -> None:
        """Let go of the pixels, which are many; the next picture makes them anew."""
        self._background = None
        self.canvas = QuickCanvas(self.figure)
        for text in self.figure.findobj(Text):
            vars(text)["_renderer"] = None  # each keeps what it was last drawn with, pixels and all

    def pixels(self) -> NDArray[np.uint8]:
        """The picture as it stands: rows, columns, RGBA; the next one is drawn over it."""
        if self._background is None:
            self.canvas.draw()
            self._background = self.canvas.copy_from_bbox(self.figure.bbox)
        self.canvas.restore_region(self._background)
        for axes, artist in self._moving:
            if artist.get_visible():
                axes.draw_artist(artist)
        return self.painted

    @property
    def painted(self) -> NDArray[np.uint8]:
        """The picture that was drawn last: rows, columns, RGBA."""
        return np.asarray(self.canvas.buffer_rgba())

    def png(self) -> bytes:
        """The picture as it stands, as PNG."""
        return png_of(self.pixels(), self.figure.dpi)

    def html(self, alt: str) -> str:
        """The picture as an HTML image with its alt text."""
        return picture_html(self.png(), alt, self.shown_wide)

    @property
    def shown_wide(self) -> int:
        """How wide it is shown, in pixels of a page."""
        return round(float(self.figure.get_size_inches()[0]) * 100)


class Still:
    """A finished figure, which a notebook shows: its sheet, and as `alt` a sentence that states its numbers.

    In `more` are the sheets that follow, of a figure that goes on over several.
    """

    #: Of a still whose figure was let go: its picture, and how wide it is shown.
    _kept: tuple[bytes, int] | None = None

    def __init__(self, sheet: Sheet, alt: str, more: tuple[Still, ...] = ()) -> None:
        self.sheet = sheet
        self.alt = alt
        every = several(more, "more", "stills", "(draw_edge(edge),)")
        self.more = tuple(of_type(still, Still, "more", "draw_edge(edge)") for still in every)

    def png(self) -> bytes:
        """The picture as PNG; its pixels aren't kept, since a notebook keeps every still it showed."""
        if self._kept is not None:
            return self._kept[0]
        png = self.sheet.png()
        self.sheet.release()
        return png

    def close(self) -> None:
        """Keep the picture alone, and let go of the figure."""
        if self._kept is None:
            self._kept = self.png(), self.sheet.shown_wide
            del self.sheet
            for still in self.more:
                still.close()

    def _repr_html_(self) -> str:
        show(self)
        return "\n".join(still._html for still in (self, *self.more))

    @property
    def _html(self) -> str:
        width = self._kept[1] if self._kept is not None else self.sheet.shown_wide
        return picture_html(self.png(), self.alt, width)

    def __repr__(self) -> str:
        return f"Still({self.alt!r})" if not self.more else f"Still({self.alt!r}, {len(self.more)} more)"


def png_of(pixels: NDArray[np.uint8], dpi: float) -> bytes:
    """Pixels (rows, columns, RGBA) as PNG.

    Rows without a filter and the quickest packing: for flat colours a third of the time of
    the usual way, which tries every filter on every row, for as many bytes.

    Source
    ------
    Portable Network Graphics (PNG) Specification, W3C, 3rd ed., 2025 (per memory), clauses 5
    and 11: signature, IHDR, pHYs, IDAT, IEND.
    """
    height, width, _ = pixels.shape
    rows = np.zeros((height, 1 + 4 * width), np.uint8)  # each begins with its filter: 0, none
    rows[:, 1:] = pixels.reshape(height, -1)
    metre = round(dpi / 0.0254)
    chunks = (
        (b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 6, 0, 0, 0)),
        (b"pHYs", struct.pack(">IIB", metre, metre, 1)),
        (b"IDAT", zlib.compress(rows.data, 1)),
        (b"IEND", b""),
    )
    packed = [
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in chunks
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(packed)


def picture_html(png: bytes, alt: str, width: int) -> str:
    """An HTML image that carries its picture with it.

    Examples
    --------
    >>> picture_html(b"", "A hem of 16 threads.", 700)
    '<img alt="A hem of 16 threads." width="700" src="data:image/png;base64,">'
    """
    data = base64.b64encode(png).decode("ascii")
    return f'<img alt="{html.escape(alt)}" width="{width}" src="data:image/png;base64,{data}">'


def _about_middle(limits: tuple[float, float], span: float) -> tuple[float, float]:
    middle = (limits[0] + limits[1]) / 2
    return middle - span / 2, middle + span / 2
