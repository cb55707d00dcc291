"""A step of the finish set for the page: its words, its check with a box to tick, its pictures beside them.

The pictures stand beside the words, which run on below them across the page, or all below the words:
whichever takes less of the page.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from hemcalc.draw.sheet import Sheet
from hemcalc.paper.letters import NARROW, width_of, wrapped
from hemcalc.paper.page import Page

STEP_TEXT = 10.5
_TITLE, _SMALL = 11.5, 9.0
_LEADING = 1.16  # from one line to the next, in sizes of type
_TICK = 6.0  # indent of what stands behind a box to tick, mm
_BESIDE, _AFTER, _PAD = 2.0, 1.2, 1.4  # about pictures, between steps, within a caution's box, mm
_CHECK = "Check:"


@dataclass(frozen=True, slots=True)
class StepSet:
    """A step in lines, with its pictures."""

    room: float
    title: tuple[str, ...]
    mind: str
    #: Cautions in full, where a tool is first in the hand.
    cautions: tuple[str, ...]
    task: tuple[str, ...]
    check: tuple[str, ...]
    pictures: tuple[Sheet, ...]
    #: How many pictures stand in a row, whether below the words or beside them, and then whether the
    #: title stands over both.
    in_row: int
    below: bool
    over: bool

    @property
    def _words(self) -> float:
        lines = len(self.task) + len(self.check)
        return self._head + _high(STEP_TEXT, lines) + 1.2

    @property
    def _head(self) -> float:
        """Height of what stands above the task."""
        return _high(_TITLE, len(self.title)) + self._box

    @property
    def lines_beside(self) -> int:
        """How many lines of the text are kept narrow by the pictures beside them."""
        down = self._above + self._shown + 0.5 - self._head
        return 0 if self.below else max(ceil(down / _high(STEP_TEXT)), 0)

    @property
    def _above(self) -> float:
        """Height of what stands over pictures that are beside the words."""
        return _high(_TITLE, len(self.title)) if self.over else 0.0

    @property
    def _box(self) -> float:
        """Height of the cautions' box, and what is left free below it."""
        return _high(_SMALL, len(self.cautions)) + 2 * _PAD + 1.0 if self.cautions else 0.0

    @property
    def _shown(self) -> float:
        rows = -(-len(self.pictures) // self.in_row) if self.pictures else 0
        return sum(_mm(picture)[1] for picture in self.pictures[:1]) * rows + _BESIDE * max(rows - 1, 0)

    @property
    def height(self) -> float:
        """How high it is with the gap after it, mm."""
        if self.below:
            return self._words + _BESIDE + self._shown + _AFTER
        return max(self._words, self._above + self._shown) + _AFTER

    def print_on(self, page: Page, x: float, y: float) -> None:
        """Print it, its top left corner here."""
        self._print_pictures(page, x, y)
        across = self.room if self.below else _beside(self.room, self.pictures, self.in_row)
        for line in self.title:
            page.text(x, y, line, _TITLE, bold=True, narrow=True)
            y += _high(_TITLE)
        if self.mind:
            up, end = y - _high(_TITLE) + 0.7, self.room if self.over else across
            page.text(x + end, up, self.mind, _SMALL, bold=True, right=True, narrow=True)
        if self.cautions:
            page.box(x, y + 0.4, across, self._box - 1.0, kind="edge")
            for i, line in enumerate(self.cautions):
                page.text(x + _PAD, y + _PAD + _high(_SMALL, i), line, _SMALL, narrow=True)
            y += self._box
        for line in self.task:
            page.text(x, y, line, STEP_TEXT, narrow=True)
            y += _high(STEP_TEXT)
        y += 0.6
        if self.check:
            page.box(x + 0.4, y + 0.5, 3.6, 3.6, kind="edge")
        for i, line in enumerate(self.check):
            at, rest = x + _TICK, line
            if i == 0:
                at += page.text(at, y, f"{_CHECK} ", STEP_TEXT, bold=True, narrow=True)
                rest = line.removeprefix(_CHECK).lstrip()
            page.text(at, y, rest, STEP_TEXT, narrow=True)
            y += _high(STEP_TEXT)

    def _print_pictures(self, page: Page, x: float, y: float) -> None:
        if not self.pictures:
            return
        across, down = (side + _BESIDE for side in _mm(self.pictures[0]))
        top = y + (self._words + _BESIDE if self.below else self._above)
        left = x if self.below else x + _beside(self.room, self.pictures, self.in_row) + _BESIDE
        for i, picture in enumerate(self.pictures):
            row, column = divmod(i, self.in_row)
            page.picture(left + column * across, top + row * down, picture)


def set_step(
    room: float,
    title: str,
    task: str,
    check: str,
    mind: str = "",
    cautions: Sequence[str] = (),
    pictures: Sequence[Sheet] = (),
) -> StepSet:
    """A step for a width in mm, its pictures where they leave it lowest.

    Pictures are all of one size.
    """
    ways = [(row, False, over) for row in (1, 2) if row <= max(len(pictures), 1) for over in (False, True)]
    if len(pictures) > 1:
        most = int((room + _BESIDE) / (_mm(pictures[0])[0] + _BESIDE))
        ways.append((min(len(pictures), most), True, False))
    made = []
    for in_row, below, over in ways:
        across = room if below else _beside(room, pictures, in_row)
        named = _wide(mind, _SMALL, True) + 3 if mind else 0.0
        head = StepSet(
            room,
            tuple(_wrapped(title, (room if over else across) - named, _TITLE, True)),
            mind,
            tuple(line for text in cautions for line in _wrapped(text, across - 2 * _PAD, _SMALL)),
            (),
            (),
            tuple(pictures),
            in_row,
            below,
            over,
        )
        lines = _round(task, across, room, head.lines_beside)
        left, indent = head.lines_beside - len(lines), _TICK + 2.5  # bold letters are wider
        checked = _round(f"{_CHECK} {check}", across - indent, room - indent, left) if check else ()
        made.append(replace(head, task=lines, check=checked))
    # A title that breaks beside a picture would be read out with the picture's words in it.
    return min(made, key=lambda each: (len(each.title), each.height))


def fill_pages(heights: Sequence[float], first: float, room: float) -> list[int]:
    """How many things go on each page: on as few as can be, and those then filled alike.

    The page begun has `first` left, and a new one `room`, as high as the highest at least.

    Examples
    --------
    >>> fill_pages([40, 40, 40, 40, 40], first=0, room=170)
    [0, 3, 2]
    >>> fill_pages([40, 40, 40, 40, 40], first=90, room=170)
    [2, 3]
    """
    best = _filled(heights, first, room)
    cap = room
    while cap > max(heights, default=0.0):
        cap -= 2.0
        tried = _filled(heights, first, cap)
        if len(tried) > len(best):
            break
        best = tried
    return best


def _filled(heights: Sequence[float], first: float, room: float) -> list[int]:
    pages, left = [0], first
    for height in heights:
        if height > left:
            pages.append(0)
            left = room
        pages[-1] += 1
        left -= height
    return pages


def _mm(sheet: Sheet) -> tuple[float, float]:
    across, down = sheet.figure.get_size_inches()
    return 25.4 * float(across), 25.4 * float(down)


def _beside(room: float, pictures: Sequence[Sheet], in_row: int) -> float:
    """Width that the words have beside so many pictures in a row."""
    return room - in_row * (_mm(pictures[0])[0] + _BESIDE) if pictures else room


def _high(points: float, lines: int = 1) -> float:
    return lines * points * _LEADING * 25.4 / 72


def _wide(text: str, points: float, bold: bool) -> float:
    return NARROW * width_of(text, points, bold)


def _round(text: str, across: float, room: float, beside: int) -> tuple[str, ...]:
    """The text in lines, so many of them beside pictures and the others across the page."""
    lines = _wrapped(text, across, STEP_TEXT)
    kept = max(beside, 0)
    below = _wrapped(" ".join(lines[kept:]), room, STEP_TEXT) if lines[kept:] else []
    return (*lines[:kept], *below)


def _wrapped(text: str, room: float, points: float, bold: bool = False) -> list[str]:
    return wrapped(text, room / NARROW, points, bold)
