"""Tails darned back: each followed along its own path, over and under, into its empty line.

A tail knows on which side it last lay as woven. From there it is led through its U-turn and
outward, and changes sides at each thread that it meets. Nothing here looks up on which side a
place of plain weave ought to be; whether the cloth comes out whole is for the cloth to show.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.errors import HemError
from hemcalc.measure.words import threads_said
from hemcalc.weave.crossings import ROW, Clasp, Cloth, Stretch, across
from hemcalc.weave.open_lines import End
from hemcalc.weave.reach import Allowances, Reach, reach_of

_MAX_PASSES = 100_000  # crossings of one tail; the deepest hem has some hundreds


@dataclass(frozen=True, slots=True)
class Pass:
    """One thread that a tail meets on its path, where, and on which side it passes it."""

    #: Number of the thread met, in the ledger of the side that it belongs to.
    thread: int
    #: A clasp lies between the lines, so at halves.
    row: Fraction
    column: Fraction
    #: True over, False under, None where the thread is not there to be met.
    over: bool | None
    #: "clasp" for the hold of the two U-turns, "before" for what comes before the U-turn.
    where: str = "line"

    def text(self) -> str:
        """How it passes: "over", "under" or "past" nothing."""
        return "past" if self.over is None else ("over" if self.over else "under")


@dataclass(frozen=True, slots=True)
class Tail:
    """One half of a cut thread, at its corner.

    `passes` follow a darned tail from its last woven crossing to where it ends. A tail for
    which there is no empty line is not darned but run in behind the hem.
    """

    end: End
    thread: int
    turn_at: str
    #: Threads that it lay across before it was withdrawn.
    length: int
    #: How far it gets; None if it is not darned.
    reach: Reach | None = None
    #: Whether it lay over at its last woven crossing.
    last_over: bool | None = None
    #: Whether it begins over, after its U-turn.
    begins_over: bool | None = None
    passes: tuple[Pass, ...] = ()
    #: Threads of the hem behind which it is run in, if it is not darned.
    run_in: int = 0

    @property
    def side(self) -> str:
        """The side whose thread it is."""
        return self.end.side.name

    @property
    def corner(self) -> str:
        """The corner at which it turns, such as "top left"."""
        return self.end.corner

    @property
    def name(self) -> str:
        """Its name on the cloth, such as "top 10 left"."""
        return self.end.tail_name(self.thread)

    @property
    def begins(self) -> str:
        """How it passes the first thread after its U-turn, "over" or "under"; "" if not darned."""
        return "" if self.begins_over is None else ("over" if self.begins_over else "under")

    @property
    def turn(self) -> tuple[Fraction, Fraction]:
        """Row and column of its U-turn: between the lines c + 1 and c + 2, where it turns back."""
        return _between(self.end, self.thread, self.end.beyond_turn(self.turn_at))

    def __repr__(self) -> str:
        return f"Tail({self.name}, {threads_said(self.length)} long)"

    def text(self) -> str:
        """What it is and how far it gets, in a sentence or two."""
        named = f"{self.end.side.called(self.thread)} at the {self.end.other.name}"
        start = f"The tail of {named} is {threads_said(self.length)} long"
        if self.reach is None:
            return f"{start} and is run in behind {self.run_in} of the hem."
        return f"{start} and begins {self.begins}. {self.reach.text()}"


def darned(cloth: Cloth, tail: Tail, passes: int | None = None) -> Cloth:
    """The cloth with a tail darned back, or only its first so many passes.

    A tail that is not darned is run in behind the hem.
    """
    side, direction, other = tail.end.side, tail.end.side.direction, tail.end.other
    if tail.reach is None:
        if not tail.run_in:
            return cloth
        hem = other.edge.open_line
        places = tail.end.span(hem + 1, hem + tail.run_in)
        return cloth.lay(direction, side.line(tail.thread), Stretch(tail.name, *places, kind="tucked"))
    done = tail.passes[:passes]
    for each in done:
        if each.where == "before":
            place = other.line(each.thread)
            stretch = Stretch(tail.name, place, place, "darned", (each.over,))
            cloth = cloth.lay(direction, side.line(tail.thread), stretch)
        elif each.where == "clasp":
            told = {"row_over" if direction == ROW else "column_over": each.over}
            cloth = cloth.clasp(Clasp(tail.corner, each.row, each.column, **told))
    back = [each for each in done if each.where != "before"]
    if not back:
        return cloth
    places = tail.end.span(back[0].thread, back[-1].thread)
    # At the place beside the clasp the tail lies alone: the thread it clasps is between the lines.
    sides = [None if each.where == "clasp" else each.over for each in back]
    stretch = Stretch(tail.name, *places, "darned", tuple(sides if other.far else sides[::-1]))
    return cloth.lay(direction, side.line(tail.thread - 1), stretch)


def tails_at(
    end: End,
    turn_at: str,
    allowances: Allowances,
    woven: Cloth,
    planned: Cloth,
    wrong_start: Collection[str] = (),
) -> Iterator[Tail]:
    """The tails at one end: that of c + 2, darned, and those of c + 3 and up, run in.

    `woven` is the cloth from the loom; in `planned` every tail lies as far as the cut line, without
    its sides: it tells which threads a tail meets. `wrong_start` names tails to begin on the wrong side.

    Refused if a tail would meet more than 100 000 threads.
    """
    for thread in end.side.drawn:
        if thread == end.side.darned_thread:
            wrong = end.tail_name(thread) in wrong_start
            yield _darned_tail(end, turn_at, allowances, woven, planned, wrong)
        elif thread > end.side.darned_thread or not end.darns:
            yield _run_in_tail(end, thread, turn_at, allowances)


def lay_planned(cloth: Cloth, end: End, turn_at: str) -> Cloth:
    """The cloth with the darned tail of an end lying out to the cut line, sides unknown."""
    if not end.darns:
        return cloth
    thread, direction = end.side.darned_thread, end.side.direction
    back = Stretch("", *end.span(end.beyond_turn(turn_at), end.other.edge.cut), kind="planned")
    cloth = cloth.lay(direction, end.side.line(thread - 1), back)
    for crossed in _before(end, turn_at):
        before = Stretch("", *end.span(crossed, crossed), kind="planned")
        cloth = cloth.lay(direction, end.side.line(thread), before)
    return cloth


def _darned_tail(
    end: End, turn_at: str, allowances: Allowances, woven: Cloth, planned: Cloth, wrong: bool
) -> Tail:
    thread, reach = end.side.darned_thread, reach_of(end, turn_at, allowances)
    if reach.crossed > _MAX_PASSES:
        raise HemError(
            f"A tail that crosses {reach.crossed:,} threads can't be followed thread by thread, but one "
            f"of at most {_MAX_PASSES:,} can; for example a hem of 16 threads.",
            "hem",
        )
    last = end.place(thread, end.kept_from(thread, turn_at))
    last_over = woven.crossing(*last).over == end.side.direction
    path = list(tail_path(end, turn_at, max(reach.crossed, 1)))
    passes, over = [], last_over != wrong
    for step in path:
        if step.where == "clasp" or _meets(planned, end, step):
            over = not over
            step = Pass(step.thread, step.row, step.column, over, step.where)
        passes.append(step)
    begins = next((p.over for p in passes if p.where != "before" and p.over is not None), None)
    kept = len(passes) if reach.crossed else len(passes) - 1
    return Tail(end, thread, turn_at, reach.length, reach, last_over, begins, tuple(passes[:kept]))


def _run_in_tail(end: End, thread: int, turn_at: str, allowances: Allowances) -> Tail:
    edge, kept = end.other.edge, end.kept_from(thread, turn_at)
    length = max(end.half + kept - (edge.clear + 2), 0)
    # From where it comes out it first passes behind the threads left in the drawn band.
    left_for_hem = math.floor(allowances.span(length, edge)) - (edge.open_line + 1 - kept)
    run_in = max(min(allowances.tucked_threads(edge), left_for_hem), 0)
    return Tail(end, thread, turn_at, length, run_in=run_in)


def tail_path(end: End, turn_at: str, crossed: int) -> Iterator[Pass]:
    """The places on a tail's way, its sides still unknown."""
    thread, first = end.side.darned_thread, end.beyond_turn(turn_at)
    for before in _before(end, turn_at):
        yield _pass(before, end.place(thread, before), "before")
    for met in range(first, first + crossed):
        if met == first and turn_at == "line" and end.other.edge.drawn >= 2:
            yield _pass(met, _between(end, thread, first), "clasp")
        else:
            yield _pass(met, end.place(thread - 1, met), "line")


def _before(end: End, turn_at: str) -> tuple[int, ...]:
    """Threads that a tail meets past its last woven crossing but before its U-turn."""
    return (end.other.edge.first_drawn,) if turn_at == "inside" else ()


def _between(end: End, thread: int, first: int) -> tuple[Fraction, Fraction]:
    """The middle of a U-turn from a thread's line to the next inner one, before `first`."""
    outer, inner = end.place(thread, first), end.place(thread - 1, first - 1)
    return Fraction(outer[0] + inner[0], 2), Fraction(outer[1] + inner[1], 2)


def _pass(met: int, place: tuple[int | Fraction, int | Fraction], where: str) -> Pass:
    return Pass(met, Fraction(place[0]), Fraction(place[1]), None, where)


def _meets(planned: Cloth, end: End, step: Pass) -> bool:
    own = step.row if end.side.direction == ROW else step.column
    return planned.lying(across(end.side.direction), end.other.line(step.thread), int(own)) is not None
