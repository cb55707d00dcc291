"""A page at true scale: a figure as large as the sheet, measured in mm from its top left corner.

Every page has a bar at its foot to hold a ruler against, since printers like to shrink what
they print and the sheet itself is only cut to 2 mm.
"""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
from matplotlib.text import Text

from hemcalc.draw.lettering import Word
from hemcalc.draw.look import INK, LINES, PAPER
from hemcalc.draw.sheet import Sheet
from hemcalc.paper.formats import PaperSize
from hemcalc.paper.letters import high, typeface, wide

__all__ = ["BAR_IN", "BAR_MM", "Page"]

BAR_MM, BAR_IN = 100, 4
_SMALL = 8.0
_BAR_WORDS = (
    f"The upper bar is {BAR_MM} mm long, the lower {BAR_IN} in.",
    "Hold a ruler against one. If it differs,",
    "print again at 100 %, not fitted to the page.",
)


class Page:
    """One page.

    Parameters
    ----------
    paper : PaperSize
        The sheet.
    title : str
        What stands small at its head.
    note : str
        A line that stands at its foot.
    """

    def __init__(self, paper: PaperSize, title: str, note: str = "") -> None:
        self.paper = paper
        self.title = title
        #: What it shows, with its numbers, for those who don't see it.
        self.alt = title
        self.sheet = Sheet(paper.width / 25.4, paper.height / 25.4, dpi=150)
        self.axes = self.sheet.axes((0, 0, 1, 1), (0, paper.width), (paper.height, 0))
        self.text(paper.margin, paper.margin - 4.5, title, _SMALL)
        self._foot(note)

    @property
    def top(self) -> float:
        """Where its matter may begin, mm."""
        return self.paper.margin + 3

    @property
    def bottom(self) -> float:
        """Where its matter must end, mm."""
        return self.paper.height - self.paper.margin - self.paper.foot

    def text(
        self, x: float, y: float, text: str, points: float = 9.0, *, bold: bool = False, right: bool = False
    ) -> float:
        """One line of text whose top left corner (or top right) is here; gives its width, mm."""
        across = wide(text, points, bold)
        # Letters hang from the line above by the type's own ascent, about 0.93 of its size.
        self._put(x - across if right else x, y + high(points) * 0.75, text, points, bold)
        return across

    def _put(self, x: float, baseline: float, text: str, points: float, bold: bool) -> None:
        letters = typeface(points, bold)
        self.axes.add_artist(
            Text(x, baseline, text, color=INK, fontproperties=letters, va="baseline", parse_math=False)
        )

    def line(self, points: Sequence[tuple[float, float]], kind: str = "dimension") -> None:
        """A line through these places, in the look of its kind."""
        look = LINES[kind]
        self.axes.add_line(
            Line2D(
                [x for x, _ in points],
                [y for _, y in points],
                color=INK,
                linewidth=look.width,
                linestyle=look.style,
                solid_capstyle="butt",
                dash_capstyle="butt",
                clip_on=False,
            )
        )

    def box(self, x: float, y: float, across: float, down: float, *, kind: str = "dimension") -> None:
        """A bare rectangle, its top left corner here."""
        look = LINES[kind]
        self.axes.add_patch(
            Rectangle(
                (x, y), across, down, fill=False, edgecolor=INK, linewidth=look.width, linestyle=look.style
            )
        )

    def share(self, x: float, y: float, across: float, down: float) -> tuple[float, float, float, float]:
        """A place on the page as the figures take it: left, bottom, width, height in shares."""
        wide, high = self.paper.width, self.paper.height
        return x / wide, 1 - (y + down) / high, across / wide, down / high

    def number(self, number: int, pages: int) -> None:
        """Write which page of how many it is."""
        paper = self.paper
        words = f"page {number} of {pages}"
        self.text(paper.width - paper.margin, paper.margin - 4.5, words, _SMALL, right=True)

    def set_letters(self) -> None:
        """Put letters where the figures have laid pictures of them, so that they can be read out."""
        for word in self.sheet.figure.findobj(Word):
            if isinstance(word, Word) and word.get_visible() and word.axes is not None:
                word.axes.add_artist(_letters(word))
                word.set_visible(False)

    def _foot(self, note: str) -> None:
        paper = self.paper
        left, y = paper.margin, paper.height - paper.margin - paper.foot + 3
        self._bar(left, y + 3, [10.0 * i for i in range(BAR_MM // 10 + 1)], -1)
        self._bar(left, y + 5, [25.4 / 2 * i for i in range(2 * BAR_IN + 1)], 1)
        beside = left + BAR_IN * 25.4 + 6
        for i, words in enumerate(_BAR_WORDS):
            self.text(beside, y - 0.5 + i * high(_SMALL), words, _SMALL)
        if note:
            self.text(left, y + 10, note, _SMALL)

    def _bar(self, left: float, y: float, marks: Sequence[float], way: int) -> None:
        self.line([(left, y), (left + marks[-1], y)], "edge")
        for i, mark in enumerate(marks):
            whole = i % 2 == 0 or way < 0
            self.line([(left + mark, y), (left + mark, y + way * (2.2 if whole else 1.4))])


def _letters(word: Word) -> Text:
    text = Text(
        *word.get_position(),
        word.get_text(),
        color=INK,
        fontproperties=typeface(float(word.get_fontsize()), word.get_fontweight() == "bold"),
        ha=word.get_horizontalalignment(),
        va=word.get_verticalalignment(),
        parse_math=False,
        clip_on=False,
        zorder=word.get_zorder(),
    )
    if word.on_paper:
        text.set_bbox({"facecolor": PAPER, "edgecolor": "none", "pad": 1.0})
    return text
