"""Sums on paper: a worksheet for the class, and its key for the leader."""

from __future__ import annotations

from collections.abc import Sequence

from hemcalc.measure.errors import HemError
from hemcalc.paper.flow import Flow
from hemcalc.paper.formats import paper_size
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import high, wrapped
from hemcalc.sums.exercises import Exercise

__all__ = ["worksheet"]

_TEXT = 10.5  # points
_INDENT = 8.0  # of what stands behind an exercise's number, mm
_BLANK = 34.0  # the line that a number is written on, mm
_ROOM = 3.4  # left free above it, mm
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

    Raises
    ------
    HemError
        If the exercises or the paper are none, or one of them fits on no page.

    Examples
    --------
    >>> from hemcalc.sums import exercises_for_class
    >>> worksheet(exercises_for_class(3), paper="Letter", key=True).title
    'Hemstitched edges: sums: key for the leader'
    """
    if not isinstance(exercises, Sequence) or not all(isinstance(sums, Exercise) for sums in exercises):
        raise HemError(
            "exercises must be a list of exercises; for example exercises_for_class(3).", "exercises"
        )
    if not exercises:
        raise HemError(
            "exercises is empty, but must have one at least; for example exercises_for_class(3).", "exercises"
        )
    heading = f"{title}: key for the leader" if key else title
    flow = Flow(paper_size(paper), heading, _INVENTED)
    flow.title_line(heading, beside="" if key else "name: __________________")
    for number, sums in enumerate(exercises, 1):
        _set(flow, number, sums, key)
    return flow.leaflet(heading, f"{len(exercises)} exercises.")


def _set(flow: Flow, number: int, sums: Exercise, key: bool) -> None:
    """An exercise, all of it on one page."""
    across = flow.room - _INDENT
    told = wrapped(sums.text(), across, _TEXT)
    if key:
        worked = sums.key
        answers = [wrapped(f"{a.name}:  {worked[a.name].line}", across, _TEXT) for a in sums.asked]
    else:
        answers = [wrapped(asked.text(), across - _BLANK - 2, _TEXT) for asked in sums.asked]
    above = 0.0 if key else _ROOM
    flow.keep(
        high(_TEXT, len(told) + sum(map(len, answers))) + above * len(answers) + 1, f"Exercise {number}"
    )
    flow.page.text(flow.left, flow.y, f"{number}.", _TEXT)
    flow.lines(told, _TEXT, at=_INDENT)
    for lines in answers:
        flow.y += above
        flow.lines(lines, _TEXT, at=_INDENT)
        if not key:
            right = flow.left + flow.room
            flow.page.line([(right - _BLANK, flow.y), (right, flow.y)])
    flow.gap(_AFTER)
