"""Setting a leaflet: matter one under the other, a new page where one is full.

Nothing is shrunk to fit and nothing is cut off: what doesn't fit on what is left of a page goes
on the next, and what doesn't fit on any page is refused.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from hemcalc.measure.cautions import CAUTIONS, COMES_FIRST
from hemcalc.measure.errors import HemError
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import height_of, width_of, wrapped
from hemcalc.paper.page import Page
from hemcalc.paper.printer import PaperSize
from hemcalc.paper.step import StepSet, fill_pages

TEXT, HEAD, TITLE = 9.0, 11.0, 16.0
HEADING = height_of(HEAD) + 3.0  # height of a heading of one line, with what is left free about it, mm
_GAP = 1.6  # between two cells, mm
_BESIDE = 6.0  # between two tables, mm
_TICK = 6.0  # indent of what stands behind a box to tick, mm


class Flow:
    """A leaflet in the setting: its title stands at the head of each page, its note at the foot."""

    def __init__(self, paper: PaperSize, title: str, note: str = "") -> None:
        self.paper, self.title, self.note = paper, title, note
        self.pages: list[Page] = []
        self.new_page()

    def new_page(self, *, bar: bool = True) -> None:
        """Go on at the top of a new page, with the bar for a ruler or without."""
        self.page = Page(self.paper, self.title, self.note, bar=bar)
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
        """Have so much of one page, mm: a new one if this one hasn't it; refused if none has."""
        if self.has(height):
            return
        most = self.page.bottom - self.page.top
        if height > most:
            raise HemError(
                f"{what} would be {height:.0f} mm high, but {self.paper.name} has {most:.0f} mm of room at "
                "true size; for example choose a smaller one, or split it.",
                "paper",
            )
        self.new_page()

    def title_line(self, text: str, beside: str = "") -> None:
        """The leaflet's own title, large; at the end of its last line, what is to be filled in."""
        lines = wrapped(text, self.room, TITLE, True)
        self.lines(lines, TITLE, bold=True)
        if beside:
            across = width_of(beside, TEXT)
            if width_of(lines[-1], TITLE, True) + across + 4 > self.room:
                self.y += height_of(TEXT)
            self.page.text(self.left + self.room - across, self.y - height_of(TEXT) - 0.6, beside, TEXT)
        self.gap(1.5)

    def heading(self, text: str, followed_by: float = 12.0) -> None:
        """A heading, kept with so many mm of what follows it."""
        lines = wrapped(text, self.room, HEAD, True)
        self.gap(2.5)
        self.keep(height_of(HEAD, len(lines)) + 0.5 + followed_by, f"'{text}'")
        self.lines(lines, HEAD, bold=True)
        self.gap(0.5)

    def gap(self, height: float) -> None:
        """Leave so many mm free, unless a page begins here."""
        if self.y > self.page.top:
            self.y += height

    def lines(self, lines: Sequence[str], points: float = TEXT, *, bold: bool = False, at: float = 0) -> None:
        """Lines of text, indented by so many mm."""
        for line in lines:
            self.keep(height_of(points), "A line of text")
            self.page.text(self.left + at, self.y, line, points, bold=bold)
            self.y += height_of(points)

    def paragraph(self, text: str, *, bold: bool = False, at: float = 0) -> None:
        """A paragraph, indented by so many mm, all of it on one page."""
        lines = wrapped(text, self.room - at, TEXT, bold)
        self.keep(height_of(TEXT, len(lines)), "A paragraph")
        self.lines(lines, bold=bold, at=at)
        self.gap(0.8)

    def table(
        self,
        rows: Sequence[Sequence[str]],
        widths: Sequence[float],
        *,
        head: bool = True,
        figures: Collection[int] = (),
    ) -> None:
        """Rows of cells in columns of these shares of the width; the first row in bold.

        Columns of `figures`, by their place from 0, end at their right edge, so that they add up.
        """
        for i, row in enumerate(_set(rows, widths, self.room, head)):
            self.keep(row.height + (row.height if head and i == 0 else 0), "A row of a table")
            self._row(row, self.left, self.y, self.room, figures)
            self.y += row.height
        self.gap(1)

    def tables_beside(
        self, left: Sequence[Sequence[str]], right: Sequence[Sequence[str]], shares: tuple[float, float]
    ) -> None:
        """Two tables with heads side by side in these shares of the width, all of them on one page.

        The first column of each is as wide as its words, and the others share what is left.
        """
        room = self.room - _BESIDE
        sets = []
        for rows, share in ((left, shares[0]), (right, shares[1])):
            wide_as = room * share / sum(shares)
            sets.append((_set(rows, first_as_its_words(rows, wide_as), wide_as, True), wide_as))
        height = max(sum(row.height for row in table) for table, _ in sets)
        self.keep(height, "The table")
        x = self.left
        for table, wide_as in sets:
            y = self.y
            for row in table:
                self._row(row, x, y, wide_as)
                y += row.height
            x += wide_as + _BESIDE
        self.y += height
        self.gap(1)

    def _row(self, row: _Row, x: float, y: float, room: float, figures: Collection[int] = ()) -> None:
        for i, (cell, (at, end)) in enumerate(zip(row.cells, row.places, strict=True)):
            right = i in figures
            for j, line in enumerate(cell):
                place = x + (end - _GAP if right else at)
                self.page.text(place, y + height_of(TEXT, j) + 0.6, line, TEXT, bold=row.bold, right=right)
        self.page.line([(x, y + row.height), (x + room, y + row.height)], "thread")

    def ticked(self, text: str) -> None:
        """Something to do, with a box to tick, all on one page."""
        lines = wrapped(text, self.room - _TICK, TEXT)
        self.keep(height_of(TEXT, len(lines)) + 1.8, f"'{text[:40]}'")
        self.page.box(self.left, self.y + 0.6, 3.2, 3.2)
        self.lines(lines, at=_TICK)
        self.y += 1.8

    def steps(self, steps: Sequence[StepSet]) -> None:
        """Steps one below the other, each on one page, the pages filled alike; new ones without the bar."""
        self.gap(2.5)
        bare = Page(self.paper, self.title, bar=False)
        left, room = list(steps), bare.bottom - bare.top
        for kept in fill_pages([step.height for step in left], self.page.bottom - self.y, room):
            for step in left[:kept]:
                self.keep(step.height, f"'{step.title[0]}'")
                step.print_on(self.page, self.left, self.y)
                self.y += step.height
            left = left[kept:]
            if left:
                self.new_page(bar=False)

    def has(self, height: float) -> bool:
        """Whether so many mm are left of this page."""
        return self.y + height <= self.page.bottom

    def cautions(self, *tools: str, where: str = "") -> None:
        """The cautions for what is in the hand, in a box of their own, kept together.

        Where they hold may stand in their heading.
        """
        said = [f"{tool.capitalize()}: {CAUTIONS[tool]}" for tool in tools]
        texts = [wrapped(text, self.room - 6, TEXT) for text in (*said, COMES_FIRST)]
        height = height_of(HEAD) + sum(height_of(TEXT, len(text)) + 0.5 for text in texts) + 3
        self.gap(2)
        self.keep(height, "The cautions")
        self.page.box(self.left, self.y, self.room, height, kind="edge")
        self.y += 1
        self.lines([f"Cautions: {where}" if where else "Cautions"], HEAD, bold=True, at=3)
        for text in texts:
            self.lines(text, at=3)
            self.y += 0.5
        self.y += 2

    def place(self, height: float, what: str) -> tuple[Page, float, float]:
        """Room for something so many mm high: the page, and the place's top left corner on it."""
        self.keep(height, what)
        at = self.y
        self.y += height
        return self.page, self.left, at

    def leaflet(self, title: str, alt: str) -> Leaflet:
        """The finished leaflet; the alt text says what it shows, with its numbers."""
        for number, page in enumerate(self.pages, 1):
            page.number(number, len(self.pages))
            page.alt = f"{title}, page {number} of {len(self.pages)} on {self.paper.name}. {alt}"
        return Leaflet(title, self.pages)


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of a table: the lines of each cell, where each begins and ends, and its height, mm."""

    cells: tuple[list[str], ...]
    places: tuple[tuple[float, float], ...]
    height: float
    bold: bool


def _set(rows: Sequence[Sequence[str]], widths: Sequence[float], room: float, head: bool) -> list[_Row]:
    scale = room / sum(widths)
    ends = [scale * sum(widths[: i + 1]) for i in range(len(widths))]
    places = tuple(zip((0.0, *ends), ends, strict=False))
    found = []
    for i, row in enumerate(rows):
        bold = head and i == 0
        cells = tuple(
            wrapped(cell, end - start - _GAP, TEXT, bold)
            for cell, (start, end) in zip(row, places, strict=True)
        )
        found.append(_Row(cells, places, height_of(TEXT, max(map(len, cells))) + 1.2, bold))
    return found


def first_as_its_words(rows: Sequence[Sequence[str]], room: float) -> tuple[float, ...]:
    """Widths of columns, mm: the first one's of its words, the others' alike."""
    # The head's own words may break.
    first = max(width_of(name, TEXT) for name, *_ in rows[1:]) + 2 * _GAP
    others = len(rows[0]) - 1
    return first, *((room - first) / others for _ in range(others))
