"""A figure of matplotlib as lines, areas and letters of a PDF page: nothing in it is a picture of dots.

matplotlib works out what is to be drawn, and where; its own PDF pages would embed the type anew
with each figure, and set a text in some hundred times the time.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from functools import lru_cache
from typing import Any

import numpy as np
from matplotlib import style
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.path import Path
from matplotlib.transforms import Affine2D, Transform
from reportlab.lib.colors import Color, HexColor
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from hemcalc.draw.lettering import SHARES, Word
from hemcalc.draw.look import INK, PAPER
from hemcalc.draw.sheet import Sheet
from hemcalc.paper.letters import typeface

#: The box of what fills its picture.
WHOLE = (0.0, 0.0, 1.0, 1.0)

_NON_ZERO = 1  # a ring drawn back within a ring is a hole
_CELL = 72.0  # side of the square that a pattern repeats, points
_DOT = 0.1  # length of what is drawn as a dot, points: not every reader draws a dash of none
#: Of a line of the type, in sizes: how far it goes below its letters' feet, and its height.
_FALL, _LINE = 0.236, 1.164
#: How a PDF signs the parts of a path.
_SIGNS = {Path.MOVETO: "m", Path.LINETO: "l", Path.CURVE3: "c", Path.CURVE4: "c"}
_CAPS = {"butt": 0, "round": 1, "projecting": 2}
_JOINS = {"miter": 0, "round": 1, "bevel": 2}


@lru_cache(maxsize=512)  # a class has some two hundred
def drawn(show: Callable[..., None], across: float, down: float, *shown: Hashable) -> Sheet:
    """A picture so large in mm, as `show` puts what is shown on its sheet.

    Those that are alike are one, drawn once, whatever the reader's own settings are.
    """
    with style.context("default"):
        sheet = Sheet(across / 25.4, down / 25.4, dpi=150)
        show(sheet, *shown)
    return sheet


def outline(canvas: Canvas, points: Iterable[tuple[float, float]]) -> PDFPathObject:
    """A line through these points; closed, if it ends where it begins."""
    path = canvas.beginPath()
    first, *others = points
    path.moveTo(*first)
    for point in others[:-1]:
        path.lineTo(*point)
    if others[-1] == first:
        path.close()
    else:
        path.lineTo(*others[-1])
    return path


def draw_sheet(canvas: Canvas, sheet: Sheet) -> None:
    """Draw a sheet at true size, its lower left corner at 0, 0; its paper is the page's own."""
    vectors = _Vectors(canvas, sheet)
    for axes in sheet.figure.axes:
        axes.draw(vectors)
    for artist in sheet.moved:
        if isinstance(artist, Word):
            vectors.draw_word(artist)
        else:
            artist.draw(vectors)


class _Vectors(RendererBase):
    """What matplotlib's artists draw on: places in dots of the figure, widths of lines in points."""

    def __init__(self, canvas: Canvas, sheet: Sheet) -> None:
        super().__init__()
        self.canvas = canvas
        self.dots = sheet.figure.dpi / 72
        self.size = sheet.figure.bbox.width, sheet.figure.bbox.height
        self.to_points = Affine2D().scale(1 / self.dots)

    def flipy(self) -> bool:
        return False

    def get_canvas_width_height(self) -> tuple[float, float]:
        return self.size

    def points_to_pixels(self, points: Any) -> Any:
        return points * self.dots

    def draw_path(
        self, gc: GraphicsContextBase, path: Path, transform: Transform, rgbFace: Any = None
    ) -> None:
        canvas = self.canvas
        canvas.saveState()
        box = gc.get_clip_rectangle()
        if box is not None:
            canvas.clipPath(
                self._path(Path.unit_rectangle(), Affine2D().scale(*box.size).translate(*box.p0)), 0
            )
        within, how = gc.get_clip_path()  # None and None, or a path and how it lies
        if within is not None:
            canvas.clipPath(self._path(within, how), 0)
        shape = self._path(path, transform)
        if rgbFace is not None:
            canvas.setFillColor(Color(*rgbFace))
            canvas.drawPath(shape, stroke=0, fill=1, fillMode=_NON_ZERO)
        if gc.get_hatch():
            canvas.saveState()
            canvas.clipPath(shape, 0, 0, _NON_ZERO)
            self._pattern(gc, path.get_extents(transform + self.to_points))
            canvas.restoreState()
        if gc.get_linewidth() > 0:
            canvas.setStrokeColor(Color(*gc.get_rgb()))
            canvas.setLineWidth(gc.get_linewidth())
            canvas.setLineCap(_CAPS[gc.get_capstyle()])
            canvas.setLineJoin(_JOINS[gc.get_joinstyle()])
            start, dashes = gc.get_dashes()
            canvas.setDash([] if dashes is None else np.asarray(dashes).tolist(), start or 0)
            canvas.drawPath(shape)
        canvas.restoreState()

    def _path(self, path: Any, transform: Any) -> PDFPathObject:
        """A path in points, written as a PDF has it, to a 1000th: quicker than by the canvas."""
        code, at = [], np.zeros(2)
        for points, kind in path.iter_segments(transform + self.to_points, simplify=False, remove_nans=True):
            if kind == Path.CLOSEPOLY:
                code.append("h")
                continue
            if kind == Path.CURVE3:  # as a cubic one, which PDF knows
                pull, end = points[:2], points[2:]
                points = np.concatenate([at + (pull - at) * 2 / 3, end + (pull - end) * 2 / 3, end])
            at = points[-2:]
            code.append(f"{' '.join(map('{:.3f}'.format, points.tolist()))} {_SIGNS[kind]}")
        return PDFPathObject(code)

    def _pattern(self, gc: GraphicsContextBase, box: Any) -> None:
        """Fill what is clipped with a pattern that goes on from one area to the next."""
        canvas, name = self.canvas, f"pattern {gc.get_hatch()}".encode().hex()
        if not canvas.hasForm(name):
            canvas.beginForm(name, 0, 0, _CELL, _CELL)
            canvas.setStrokeColor(Color(*gc.get_hatch_color()))
            canvas.setFillColor(Color(*gc.get_hatch_color()))
            if set(gc.get_hatch() or "") == {"."}:
                self._dots(gc.get_hatch_path(), gc.get_hatch_linewidth())
            else:
                canvas.setLineWidth(gc.get_hatch_linewidth())
                cell = self._path(gc.get_hatch_path(), Affine2D().scale(_CELL * self.dots))
                canvas.drawPath(cell, stroke=1, fill=1, fillMode=_NON_ZERO)
            canvas.endForm()
        for i in range(int(box.x0 // _CELL), int(box.x1 // _CELL) + 1):
            for j in range(int(box.y0 // _CELL), int(box.y1 // _CELL) + 1):
                canvas.saveState()
                canvas.translate(i * _CELL, j * _CELL)
                canvas.doForm(name)
                canvas.restoreState()

    def _dots(self, rings: Path, edge: float) -> None:
        """Rows of dots, as broken lines with round ends: a ring for each would keep a printer busy."""
        starts = np.flatnonzero(rings.codes == Path.MOVETO)
        low, highest = (_CELL * of.reduceat(rings.vertices, starts) for of in (np.minimum, np.maximum))
        places = ((low + highest) / 2).round(6)
        rows = [places[places[:, 1] == y] for y in np.unique(places[:, 1])]
        step = rows[0][1, 0] - rows[0][0, 0]
        self.canvas.setLineCap(_CAPS["round"])
        self.canvas.setLineWidth(highest[0, 0] - low[0, 0] + edge)
        self.canvas.setDash([_DOT, step - _DOT])
        for row in rows:
            self.canvas.line(row[0, 0] - _DOT / 2, row[0, 1], row[-1, 0] + _DOT / 2, row[-1, 1])

    def draw_word(self, word: Word) -> None:
        """Letters where the figure on a screen has a picture of them."""
        if not word.get_visible() or not word.get_text():
            return
        canvas, font = self.canvas, typeface(word.get_fontweight() == "bold")
        size = float(word.get_fontsize())
        lines = word.get_text().split("\n")
        widths = [font.stringWidth(line, size) for line in lines]
        fall, step = _FALL * size, _LINE * size
        longest, share = max(widths), SHARES[word.get_horizontalalignment()]
        x, y = self.to_points.transform(word.get_transform().transform(word.get_position()))
        left = x - share * longest
        bottom = y - SHARES[word.get_verticalalignment()] * step * len(lines)
        if word.on_paper:
            canvas.setFillColor(HexColor(PAPER))
            canvas.rect(left - 1, bottom - 1, longest + 2, step * len(lines) + 2, stroke=0, fill=1)
        canvas.setFillColor(HexColor(INK))
        canvas.setFont(font.fontName, size)
        for i, (line, width) in enumerate(zip(lines, widths, strict=True)):
            canvas.drawString(
                left + share * (longest - width), bottom + fall + (len(lines) - 1 - i) * step, line
            )
