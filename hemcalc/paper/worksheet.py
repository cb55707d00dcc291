"""Sums on paper: a worksheet for the class, and its key for the leader.

Each sum has its seed and level, on the sheet and in the key, so that the two can be matched.
"""

from __future__ import annotations

from collections.abc import Sequence

from hemcalc.measure.errors import HemError, all_of, of_type, true_or_false
from hemcalc.paper.flow import Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import height_of, wrapped
from hemcalc.paper.printer import paper_size
from hemcalc.sums.exercises import Asked, Exercise
from hemcalc.sums.facts import LEDGER
from hemcalc.sums.practice import heard

_TEXT, _SMALL = 10.5, 9.0  # points
_INDENT = 8.0  # of what stands behind an exercise's number, mm
_BLANK = 34.0  # the line that a number is written on, mm
_ROOM = 3.4  # left free above it, mm
_WORKING = 7.5  # a line for the working, mm
_STRIP, _BAND = 9.0, 24.0  # height and width of a band of the ledger's strip, mm
WITH_LEDGER = {"fold 1", "fold 2", "cut", "total", "draw line", "need", "slack", "margin"}
_AFTER = 3.2  # from one exercise to the next, mm
_INVENTED = "The workshop, its guild and every number here are invented."


def worksheet(
    exercises: Sequence[Exercise],
    *,
    paper: str = "A4",
    key: bool = False,
    title: str = "Hemstitched edges: sums",
) -> Leaflet:
    """Exercises to print: the worksheet, or the leader's key with the working.

    Refused if one of them fits on no page.

    Parameters
    ----------
    exercises : sequence of Exercise
        From `hemcalc.exercise` or `hemcalc.exercises_for_class`.
    paper : str
        ``"A4"`` or ``"Letter"``.
    key : bool
        Whether the right numbers and their working are printed, for the leader.
    title : str
        Stands at the top of each page.

    Examples
    --------
    >>> from hemcalc.sums import exercises_for_class
    >>> worksheet(exercises_for_class(3), paper="Letter", key=True).title
    'Hemstitched edges: sums: key for the leader'
    """
    if not all_of(exercises, Exercise, "exercises", "exercises_for_class(3)"):
        raise HemError(
            "exercises is empty, but must have one at least; for example exercises_for_class(3).", "exercises"
        )
    true_or_false(key, "key")
    of_type(title, str, "title", "'Hemstitched edges: sums'")
    heading = f"{title}: key for the leader" if key else f"{title}"
    size = paper_size(paper)
    head, *more = wrapped(heading, size.room[0] - 4, _SMALL)
    flow = Flow(size, f"{head} …" if more else head, _INVENTED)
    flow.title_line(heading, beside="" if key else "name: __________________")
    for number, sums in enumerate(exercises, 1):
        _set(flow, number, sums, key)
    return flow.leaflet(heading, f"{len(exercises)} exercises.")


def _set(flow: Flow, number: int, sums: Exercise, key: bool) -> None:
    """An exercise, all of it on one page."""
    across = flow.room - _INDENT
    told = wrapped(f"{sums.title}. {sums.text()}", across, _TEXT)
    if key:
        said = [_key_lines(sums, asked, across) for asked in sums.asked]
        height = sum(height_of(_TEXT, len(lines)) + height_of(_SMALL, len(small)) for lines, small in said)
    else:
        said = [(wrapped(asked.text(), across - _BLANK - 2, _TEXT), []) for asked in sums.asked]
        height = sum(height_of(_TEXT, len(lines)) + _ROOM + _WORKING for lines, _ in said)
    strip = not key and any(asked.name in WITH_LEDGER for asked in sums.asked)
    height += height_of(_TEXT, len(told)) + strip * (_STRIP + height_of(_SMALL) + _ROOM) + 1
    flow.keep(height, f"Exercise {number}")
    flow.page.text(flow.left, flow.y, f"{number}.", _TEXT)
    flow.lines(told, _TEXT, at=_INDENT)
    if strip:
        _ledger_strip(flow)
    right = flow.left + flow.room
    for lines, small in said:
        flow.y += 0 if key else _ROOM
        flow.lines(lines, _TEXT, at=_INDENT)
        flow.lines(small, _SMALL, at=2 * _INDENT)
        if not key:
            flow.page.line([(right - _BLANK, flow.y), (right, flow.y)])
            flow.y += _WORKING
            flow.page.line([(flow.left + _INDENT, flow.y), (right - _BLANK - 4, flow.y)], "thread")
    flow.gap(_AFTER)


def _key_lines(sums: Exercise, asked: Asked, across: float) -> tuple[list[str], list[str]]:
    """A number's working, and what lies behind the wrong answers that are likeliest to be heard."""
    behind = (wrapped(each.text(), across - _INDENT, _SMALL) for each in heard(sums, asked, 2))
    working = wrapped(f"{asked.name}:  {sums.key[asked.name].line}", across, _TEXT)
    return working, [line for lines in behind for line in lines]


def _ledger_strip(flow: Flow) -> None:
    """The bands of one edge in a row, to be filled in."""
    flow.y += _ROOM
    for i, band in enumerate(LEDGER):
        x = flow.left + _INDENT + i * _BAND
        flow.page.text(x + 1, flow.y, band, _SMALL)
        flow.page.box(x, flow.y + height_of(_SMALL), _BAND, _STRIP)
    flow.y += height_of(_SMALL) + _STRIP
