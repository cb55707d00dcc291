"""A PDF in the making: words, lines and pictures, placed in mm from a page's top left corner.

The PDF holds its type once, however many pages it has, and each picture once, however often it
is laid down. It is the same to the byte each time: it carries no date.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass

from reportlab import rl_config
from reportlab.lib.colors import Color, HexColor
from reportlab.pdfgen.canvas import Canvas

from hemcalc.draw.look import INK, LINES
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.errors import one_of
from hemcalc.paper.artwork import draw_sheet, outline
from hemcalc.paper.letters import NARROW, typeface


@dataclass(frozen=True, slots=True)
class PaperSize:
    """A sheet of paper, mm."""

    name: str
    width: float
    height: float

    #: Left free all round: what printers can't reach, with room to spare.
    margin = 10.0
    #: Kept at the bottom for the bar to hold a ruler against.
    foot = 15.0

    @property
    def room(self) -> tuple[float, float]:
        """Width and height that a page's matter may take, mm."""
        return self.width - 2 * self.margin, self.height - 2 * self.margin - self.foot


#: ISO 216 for A4 (as in a summary, "ISO 216", 2007, table), which allows the sheet itself 2 mm more
#: or less: so nothing is measured from its edges. Letter is 8 1/2 by 11 in, from memory.
PAPERS = {"A4": PaperSize("A4", 210.0, 297.0), "Letter": PaperSize("Letter", 8.5 * 25.4, 11 * 25.4)}


def paper_size(name: str) -> PaperSize:
    """The sheet of this name.

    Examples
    --------
    >>> paper_size("A4").room
    (190.0, 262.0)
    """
    return PAPERS[one_of(name, tuple(PAPERS), "paper")]


_MM = 72 / 25.4  # points
rl_config.useA85 = 0  # bytes as they are: a quarter more of them as letters would serve nobody
_OVER = 36  # points about a picture that its words may take


def _grey(colour: Color) -> Color:
    """The grey that is as light, by the weights of ITU-R BT.709, as a browser's grayscale() has it."""
    share = 0.2126 * colour.red + 0.7152 * colour.green + 0.0722 * colour.blue
    return Color(share, share, share)


class Printer:
    """Sets pages, one after the other; in greys every colour is printed as the grey that is as light."""

    def __init__(self, title: str, paper: PaperSize, *, greys: bool = False) -> None:
        self.paper = paper
        self._out = io.BytesIO()
        self._canvas = Canvas(
            self._out,
            pagesize=(paper.width * _MM, paper.height * _MM),
            pageCompression=1,
            invariant=1,
            initialFontName=typeface().fontName,
            lang="en-GB",
            enforceColorSpace=_grey if greys else None,
        )
        self._canvas.setTitle(title)
        self._canvas.setSubject(f"Printed at true scale on {paper.name}")
        self._canvas.setAuthor("")
        self._canvas.setCreator("hemcalc")
        self._canvas.setDateFormatter(lambda *_: "")
        self._pictures: dict[Sheet, str] = {}

    def entry(self, title: str) -> None:
        """Have this page in the list by which a reader turns to it on the screen."""
        key = f"page {self._canvas.getPageNumber()}"
        self._canvas.bookmarkPage(key)
        self._canvas.addOutlineEntry(title, key)
        self._canvas.showOutline()

    def text(
        self, x: float, baseline: float, text: str, points: float, bold: bool, narrow: bool = False
    ) -> None:
        """One line of text that begins here."""
        self._canvas.setFillColor(HexColor(INK))
        if not narrow:
            self._canvas.setFont(typeface(bold).fontName, points)
            self._canvas.drawString(*self._at(x, baseline), text)
            return
        line = self._canvas.beginText(*self._at(x, baseline))
        line.setFont(typeface(bold).fontName, points)
        line.setHorizScale(100 * NARROW)
        line.textOut(text)
        line.setHorizScale(100)
        self._canvas.drawText(line)

    def line(self, points: Sequence[tuple[float, float]], kind: str) -> None:
        """A line through these places, in the look of its kind; closed, if it ends where it begins."""
        look = LINES[kind]
        self._canvas.setStrokeColor(HexColor(INK))
        self._canvas.setLineWidth(look.width)
        self._canvas.setDash([look.width * dash for dash in look.dashes])
        self._canvas.drawPath(outline(self._canvas, [self._at(*point) for point in points]))

    def picture(self, x: float, y: float, sheet: Sheet) -> None:
        """A figure at true size, its top left corner here."""
        width, height = (72 * float(side) for side in sheet.figure.get_size_inches())
        if sheet not in self._pictures:
            name = self._pictures[sheet] = f"picture{len(self._pictures) + 1}"
            self._canvas.beginForm(name, -_OVER, -_OVER, width + _OVER, height + _OVER)
            draw_sheet(self._canvas, sheet)
            self._canvas.endForm()
        left, top = self._at(x, y)
        self._canvas.saveState()
        self._canvas.translate(left, top - height)
        self._canvas.doForm(self._pictures[sheet])
        self._canvas.restoreState()

    def end_page(self) -> None:
        """Go on with the next page."""
        self._canvas.showPage()

    def pdf(self) -> bytes:
        """All pages, when the last is finished."""
        self._canvas.save()
        return self._out.getvalue()

    def _at(self, x: float, y: float) -> tuple[float, float]:
        return x * _MM, (self.paper.height - y) * _MM
