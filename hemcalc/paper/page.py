"""A page at true scale: what stands on it, placed in mm from its top left corner.

A page has a bar at its foot to hold a ruler against, since printers like to shrink what they print
and the sheet itself is only cut to 2 mm; pages that go on with words, not to be measured, do without.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from hemcalc.draw.sheet import Sheet
from hemcalc.measure.errors import of_type
from hemcalc.paper.letters import NARROW, height_of, width_of
from hemcalc.paper.printer import PaperSize, Printer

BAR_MM, BAR_IN = 100, 4
_SMALL = 8.0
_BAR_WORDS = (
    f"The upper bar is {BAR_MM} mm long, the lower {BAR_IN} in.",
    "Hold a ruler against one. If it differs,",
    "print again at 100 %, not fitted to the page.",
)


class Page:
    """One page: its title stands small at its head, its note at its foot, and there the bar, if asked for."""

    def __init__(self, paper: PaperSize, title: str, note: str = "", *, bar: bool = True) -> None:
        self.paper = of_type(paper, PaperSize, "paper", "paper_size('A4')")
        self.title = of_type(title, str, "title", "'Hem sheet'")
        #: What it shows, with its numbers, for those who don't see it.
        self.alt = title
        #: Whether its leaflet begins with it.
        self.first = False
        #: Whether nothing may be printed on its back, for it is cut apart.
        self.one_sided = False
        self.bar = bar
        self._marks: list[Callable[[Printer], None]] = []
        self.text(paper.margin, paper.margin - 4.5, title, _SMALL)
        if bar:
            self._foot()
        if note := str.__str__(of_type(note, str, "note", "'Autumn workshop, first morning.'")):
            low = paper.height - paper.margin + (-2 if bar else 2)
            self.text(paper.margin, low, note, _SMALL)

    @property
    def top(self) -> float:
        """Where its matter may begin, mm."""
        return self.paper.margin + (3 if self.bar else 1.5)

    @property
    def bottom(self) -> float:
        """Where its matter must end, mm."""
        return self.paper.height - self.paper.margin - (self.paper.foot if self.bar else 0)

    def text(
        self,
        x: float,
        y: float,
        text: str,
        points: float = 9.0,
        *,
        bold: bool = False,
        right: bool = False,
        narrow: bool = False,
    ) -> float:
        """One line of text whose top left corner (or top right) is here; gives its width, mm."""
        across = width_of(text, points, bold) * (NARROW if narrow else 1)
        left = x - across if right else x
        # Letters hang from the line above by the type's own ascent, about 0.93 of its size.
        self._marks.append(lambda to: to.text(left, y + height_of(points) * 0.75, text, points, bold, narrow))
        return across

    def line(self, points: Sequence[tuple[float, float]], kind: str = "dimension") -> None:
        """A line through these places, in the look of its kind; closed, if it ends where it begins."""
        self._marks.append(lambda to: to.line(points, kind))

    def box(self, x: float, y: float, across: float, down: float, *, kind: str = "dimension") -> None:
        """A bare rectangle, its top left corner here."""
        right, low = x + across, y + down
        self.line([(x, y), (right, y), (right, low), (x, low), (x, y)], kind)

    def picture(self, x: float, y: float, sheet: Sheet) -> None:
        """A figure at true size, its top left corner here."""
        self._marks.append(lambda to: to.picture(x, y, sheet))

    def number(self, number: int, pages: int) -> None:
        """Write which page of how many it is."""
        paper = self.paper
        self.first = number == 1
        words = f"page {number} of {pages}"
        self.text(paper.width - paper.margin, paper.margin - 4.5, words, _SMALL, right=True)

    def print_on(self, printer: Printer) -> None:
        """Print it as the next page."""
        if self.first:
            printer.entry(self.title)
        for mark in self._marks:
            mark(printer)
        printer.end_page()

    def _foot(self) -> None:
        paper = self.paper
        left, y = paper.margin, paper.height - paper.margin - paper.foot + 3
        self._bar(left, y + 3, [10.0 * i for i in range(BAR_MM // 10 + 1)], -1)
        self._bar(left, y + 5, [25.4 / 2 * i for i in range(2 * BAR_IN + 1)], 1)
        beside = left + BAR_IN * 25.4 + 6
        for i, words in enumerate(_BAR_WORDS):
            self.text(beside, y - 0.5 + i * height_of(_SMALL), words, _SMALL)

    def _bar(self, left: float, y: float, marks: Sequence[float], way: int) -> None:
        self.line([(left, y), (left + marks[-1], y)], "edge")
        for i, mark in enumerate(marks):
            whole = i % 2 == 0 or way < 0
            self.line([(left + mark, y), (left + mark, y + way * (2.2 if whole else 1.4))])
