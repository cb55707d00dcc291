"""Something to do, with a box to tick: set in lines for a width, and printed where there is room."""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.paper.letters import high, wide, wrapped
from hemcalc.paper.page import Page

__all__ = ["TEXT", "ToDo", "in_two_columns", "to_do"]

TEXT = 9.0
_TICK = 6.0  # indent of what stands behind a box to tick, mm
_AFTER = 1.8  # from one to the next, mm


@dataclass(frozen=True, slots=True)
class ToDo:
    """One thing to do, in lines."""

    title: tuple[str, ...]
    lines: tuple[str, ...]
    #: What to mind, at the end of the title's first line, or under the title where that is full.
    mind: str
    room: float

    @property
    def _under(self) -> bool:
        if not self.mind:
            return False
        return not self.title or _bold(self.title[0]) + 4 + _bold(self.mind) > self.room - _TICK

    @property
    def height(self) -> float:
        """How high it is with the gap after it, mm."""
        return high(TEXT, len(self.title) + self._under + len(self.lines)) + _AFTER

    def print_on(self, page: Page, x: float, y: float) -> None:
        """Print it, its top left corner here."""
        page.box(x, y + 0.6, 3.2, 3.2)
        for line in self.title:
            page.text(x + _TICK, y, line, TEXT, bold=True)
            y += high(TEXT)
        if self._under:
            page.text(x + _TICK, y, self.mind, TEXT, bold=True)
            y += high(TEXT)
        elif self.mind:
            up = y - high(TEXT, len(self.title))
            page.text(x + self.room, up, self.mind, TEXT, bold=True, right=True)
        for line in self.lines:
            page.text(x + _TICK, y, line, TEXT)
            y += high(TEXT)


def to_do(room: float, *texts: str, title: str = "", mind: str = "") -> ToDo:
    """Something to do, set for a width in mm: a title, its texts, and what to mind."""
    across = room - _TICK
    lines = [line for text in texts if text for line in wrapped(text, across, TEXT)]
    titles = wrapped(title, across, TEXT, True) if title else []
    return ToDo(tuple(titles), tuple(lines), mind, room)


def in_two_columns(things: list[ToDo], height: float) -> tuple[list[ToDo], list[ToDo], list[ToDo]]:
    """What goes into the left column, into the right one, and what is left for the next page.

    Where all fits, the columns come out as short as they can.

    Examples
    --------
    >>> one = to_do(80, "Cut it.")
    >>> [len(part) for part in in_two_columns([one] * 5, 100)]
    [3, 2, 0]
    >>> [len(part) for part in in_two_columns([one] * 5, 2 * one.height)]
    [2, 2, 1]
    """

    def that_fit(of: list[ToDo]) -> int:
        taken, y = 0, 0.0
        while taken < len(of) and y + of[taken].height - _AFTER <= height:
            y += of[taken].height
            taken += 1
        return taken

    left = that_fit(things)
    right = that_fit(things[left:])
    if left + right == len(things):
        left = min(range(left + 1), key=lambda at: (max(_height(things[:at]), _height(things[at:])), -at))
        right = len(things) - left
    return things[:left], things[left : left + right], things[left + right :]


def _height(things: list[ToDo]) -> float:
    return sum(thing.height for thing in things)


def _bold(text: str) -> float:
    return wide(text, TEXT, True)
