"""Setting a leaflet: matter one under the other, a new page where one is full.

Nothing is shrunk to fit and nothing is cut off: what doesn't fit on what is left of a page goes
on the next, and what doesn't fit on any page is refused.
"""

from __future__ import annotations

from collections.abc import Sequence

from hemcalc.cautions import CAUTIONS, COMES_FIRST
from hemcalc.errors import HemError
from hemcalc.paper.formats import PaperSize
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import high, wrapped
from hemcalc.paper.page import Page

__all__ = ["Flow"]

TEXT, HEAD, TITLE = 9.0, 11.0, 16.0
_GAP = 1.6  # between two cells, mm
_TICK = 7.0  # indent of what stands behind a box to tick, mm


class Flow:
    """A leaflet in the setting.

    Parameters
    ----------
    paper : PaperSize
        Its sheets.
    title : str
        What stands at the head of each page.
    note : str
        What stands at the foot of each page.
    """

    def __init__(self, paper: PaperSize, title: str, note: str = "") -> None:
        self.paper, self.title, self.note = paper, title, note
        self.pages: list[Page] = []
        self.new_page()

    def new_page(self) -> None:
        """Go on at the top of a new page."""
        self.page = Page(self.paper, self.title, self.note)
        self.pages.append(self.page)
        self.y = self.page.top

    @property
    def left(self) -> float:
        """Where lines begin, mm."""
        return self.paper.margin

    @property
    def room(self) -> float:
        """How wide lines may be, mm."""
        return self.paper.room[0]

    def keep(self, height: float, what: str) -> None:
        """Have so much of one page, mm; a new one if this one hasn't it.

        Raises
        ------
        HemError
            If no page has it.
        """
        if self.y + height <= self.page.bottom:
            return
        most = self.page.bottom - self.page.top
        if height > most:
            raise HemError(
                f"{what} would be {height:.0f} mm high, but {self.paper.name} has {most:.0f} mm of room at "
                "true size; for example choose a smaller one, or split it.",
                "paper",
            )
        self.new_page()

    def title_line(self, text: str) -> None:
        """The leaflet's own title, large."""
        self.lines(wrapped(text, self.room, TITLE, True), TITLE, bold=True)
        self.gap(1.5)

    def heading(self, text: str, followed_by: float = 12.0) -> None:
        """A heading, kept with so many mm of what follows it."""
        self.gap(2.5)
        self.keep(high(HEAD) + followed_by, f"'{text}'")
        self.lines(wrapped(text, self.room, HEAD, True), HEAD, bold=True)
        self.gap(0.5)

    def gap(self, height: float) -> None:
        """Leave so many mm free, unless a page begins here."""
        if self.y > self.page.top:
            self.y += height

    def lines(self, lines: Sequence[str], points: float = TEXT, *, bold: bool = False, at: float = 0) -> None:
        """Lines of text, indented by so many mm."""
        for line in lines:
            self.keep(high(points), "A line of text")
            self.page.text(self.left + at, self.y, line, points, bold=bold)
            self.y += high(points)

    def paragraph(self, text: str, *, bold: bool = False, at: float = 0) -> None:
        """A paragraph, indented by so many mm, all of it on one page."""
        lines = wrapped(text, self.room - at, TEXT, bold)
        self.keep(high(TEXT, len(lines)), "A paragraph")
        self.lines(lines, bold=bold, at=at)
        self.gap(0.8)

    def table(self, rows: Sequence[Sequence[str]], widths: Sequence[float], *, head: bool = True) -> None:
        """Rows of cells in columns of these shares of the width; the first row in bold."""
        scale = self.room / sum(widths)
        places = [self.left + scale * sum(widths[:i]) for i in range(len(widths))]
        for i, row in enumerate(rows):
            bold = head and i == 0
            cells = [
                wrapped(cell, share * scale - _GAP, TEXT, bold)
                for cell, share in zip(row, widths, strict=True)
            ]
            height = high(TEXT, max(len(cell) for cell in cells)) + 1.2
            self.keep(height + (high(TEXT) + 1.2 if bold else 0), "A row of a table")
            for x, cell in zip(places, cells, strict=True):
                for j, line in enumerate(cell):
                    self.page.text(x, self.y + high(TEXT, j) + 0.6, line, TEXT, bold=bold)
            self.y += height
            self.page.line([(self.left, self.y), (self.left + self.room, self.y)], "thread")
        self.gap(1)

    def ticked(self, text: str, *more: str, title: str = "") -> None:
        """Something to do, with a box to tick; its texts below its title, all on one page."""
        texts = [wrapped(part, self.room - _TICK, TEXT) for part in (text, *more) if part]
        self.keep(high(TEXT, sum(map(len, texts)) + bool(title)) + 2, f"'{title or text[:40]}'")
        self.page.box(self.left, self.y + 0.6, 3.2, 3.2)
        if title:
            self.lines([title], bold=True, at=_TICK)
        for lines in texts:
            self.lines(lines, at=_TICK)
        self.gap(1.5)

    def cautions(self, *tools: str) -> None:
        """The cautions for what is in the hand, in a box of their own, kept together."""
        said = [f"{tool.capitalize()}: {CAUTIONS[tool]}" for tool in tools]
        texts = [wrapped(text, self.room - 6, TEXT) for text in (*said, COMES_FIRST)]
        height = high(HEAD) + sum(high(TEXT, len(text)) + 0.8 for text in texts) + 4
        self.gap(3)
        self.keep(height, "The cautions")
        self.page.box(self.left, self.y, self.room, height, kind="edge")
        self.y += 1.5
        self.lines(["Cautions"], HEAD, bold=True, at=3)
        for text in texts:
            self.lines(text, at=3)
            self.y += 0.8
        self.y += 2.5

    def place(self, height: float, what: str) -> tuple[Page, float, float]:
        """Room for a picture so many mm high: the page, and the place's top left corner on it."""
        self.keep(height, what)
        at = self.y
        self.y += height
        return self.page, self.left, at

    def leaflet(self, title: str, alt: str) -> Leaflet:
        """The finished leaflet; the alt text says what it shows, with its numbers."""
        for number, page in enumerate(self.pages, 1):
            page.number(number, len(self.pages))
            page.set_letters()
            page.alt = f"{title}, page {number} of {len(self.pages)} on {self.paper.name}. {alt}"
        return Leaflet(title, self.pages)
