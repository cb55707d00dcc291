"""The day of a class: what fits into it, what the leader prepares for that, and what is left for home.

It is reckoned with slow hands, so that nobody sits with half a hem when the room is closed; what
quick ones have over is theirs. Rests for eyes and back are in it, and the counting of needles.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hemcalc.finish.hours import Hours, Spell, clock_text, hours
from hemcalc.finish.pace import Pace
from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.html import table_html
from hemcalc.measure.measured import finite_number
from hemcalc.measure.words import so_many
from hemcalc.piece.piece import Piece
from hemcalc.workshop.workshop import Workshop

if TYPE_CHECKING:
    from pandas import DataFrame

#: How far the leader may prepare a piece, and the movement before which she stops; what is basted is
#: basted already. Common practice, no published source.
STAGES = {"nothing": "", "cut": "snip", "cut and drawn": "baste the lines", "cut, drawn and basted": "cut"}

#: Minutes for welcome, kits and needles counted out and in; and of rest in each hour. From memory, no source.
OPENING, REST = 20, 10

_HOURS = (1, 12)


@dataclass(frozen=True, slots=True)
class Day:
    """One kind of piece in the class: who works it, and how far the day goes for it."""

    kind: str
    learners: tuple[str, ...]
    hours: Hours
    #: What the leader prepares, one of `STAGES`, and how many steps that is.
    prepared: str
    steps_prepared: int
    #: Steps that are done when the day is over, prepared ones among them.
    steps_done: int
    #: Minutes of work that the day has.
    working: float

    def __repr__(self) -> str:
        end = "finished" if self.finished else "not finished in the day"
        return f"Day({self.kind}: {self.prepared} prepared, {end})"

    @property
    def finished(self) -> bool:
        """Whether it can be finished in the day."""
        return self.steps_done == len(self.hours.spells)

    @property
    def preparing(self) -> tuple[float, float]:
        """Minutes that the leader takes to prepare all pieces of this kind, least and most."""
        mine = self.hours.spells[: self.steps_prepared]
        learners = len(self.learners)
        return learners * sum(spell.least for spell in mine), learners * sum(spell.most for spell in mine)

    @property
    def left(self) -> float:
        """Minutes of work that are left for home by slow hands; 0 if it is finished."""
        in_class = sum(spell.most for spell in self.hours.spells[self.steps_prepared :])
        return max(in_class - self.working, 0.0)

    def text(self) -> str:
        """What becomes of this kind in the day, in sentences."""
        whole = (
            f"{self.kind} ({', '.join(self.learners)}): {_range(self.hours.least, self.hours.most)} of work."
        )
        prepare = "Nothing need be prepared."
        if self.steps_prepared:
            pieces = f" for {len(self.learners)} pieces" if len(self.learners) > 1 else ""
            prepare = f"Beforehand the leader has it {self.prepared}: {_range(*self.preparing)}{pieces}."
        if self.finished:
            return f"{whole} {prepare} Then it is finished in the day."
        step = self.hours.spells[self.steps_done].step
        return (
            f"{whole} {prepare} Even then it can't be finished in the day: it stops at step {step.number}, "
            f"{step.title[0].lower()}{step.title[1:]}, and slow hands have {clock_text(self.left)} hours "
            "left for home."
        )


@dataclass(frozen=True, slots=True)
class Timetable:
    """The day of a class. Made by `timetable`."""

    days: tuple[Day, ...]
    #: Minutes from the beginning to the end, and the clock at the beginning.
    length: float
    begins: float
    pace: Pace
    notes: tuple[str, ...]

    def __repr__(self) -> str:
        fits = sum(day.finished for day in self.days)
        return f"Timetable({clock_text(self.length)} hours: {fits} of {len(self.days)} kinds finished)"

    def text(self) -> str:
        """The day in sentences, a line for each kind of piece."""
        head = (
            f"{clock_text(self.length)} hours, of which {clock_text(self.days[0].working)} are work: "
            f"{OPENING} minutes go to kits and needles, and {REST} of each hour to eyes and back. Reckoned "
            f"with slow hands, the stitching of the design not in it. {self.pace.text()}"
        )
        return "\n".join((head, *(day.text() for day in self.days), *self.notes))

    def _rows(self) -> list[tuple[str, int, str, str, str, str]]:
        return [
            (day.kind, spell.step.number, spell.step.title, *when)
            for day in self.days
            for spell, when in zip(day.hours.spells, self._when(day), strict=True)
        ]

    def _when(self, day: Day) -> list[tuple[str, str, str]]:
        """Who does each step, from when till when."""
        found, done = [], 0.0
        for i, spell in enumerate(day.hours.spells):
            if i < day.steps_prepared:
                found.append(("leader, beforehand", "", ""))
                continue
            begin, done = done, done + spell.most
            begins, ends = self._clock(begin, over=False), self._clock(min(done, day.working), over=True)
            if done <= day.working + 1e-9:
                found.append(("class", begins, ends))
            elif begin < day.working - 1e-9:
                found.append(("class, then home", begins, ends))
            else:
                found.append(("home", "", ""))
        return found

    def _clock(self, worked: float, *, over: bool) -> str:
        """The clock when so many minutes are worked; over, before the rest that may follow."""
        stretch = 60 - REST
        rests = int(worked // stretch)
        if over and rests and worked % stretch < 1e-9:
            rests -= 1
        return clock_text(self.begins + OPENING + worked + REST * rests)

    def table(self, piece: str = "") -> DataFrame:
        """A row for each step of each kind: who does it, and from when till when by slow hands.

        Of one kind, if it is named, what is done on the day.
        """
        from pandas import DataFrame

        of_type(piece, str, "piece", "'coaster'")
        rows = [row for row in self._rows() if not piece or (row[0] == piece and row[4])]
        return DataFrame(rows, columns=list(_COLUMNS))

    def _repr_html_(self) -> str:
        rows = ([str(cell) for cell in row] for row in self._rows())
        return table_html(_COLUMNS, rows, f"A workshop of {clock_text(self.length)} hours, by slow hands")


_COLUMNS = ("piece", "step", "title", "who", "from", "to")


def timetable(
    workshop: Workshop, length: object, pace: Pace | None = None, *, begins: str = "0:00"
) -> Timetable:
    """What fits into a workshop of so many hours, and what must be prepared for it.

    Of each kind of piece as little is prepared as lets slow hands finish it: nothing, or it is cut, cut and
    drawn, or cut, drawn and basted. What does not fit even then is not finished in a day. Refused if the
    workshop is too short for any work.

    Parameters
    ----------
    workshop : Workshop
        The class; its spare kits are nobody's, and not in it.
    length : int, Fraction, Decimal or float
        Hours from the beginning to the end.
    pace : Pace, optional
        How quickly the learners work; a range from memory if left out.
    begins : str
        The clock at the beginning, ``"10:00"``.

    Source
    ------
    From memory and common practice, no published source.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> day = timetable(example_workshop(), 5, begins="10:00")
    >>> day
    Timetable(5:00 hours: 3 of 6 kinds finished)
    >>> print(day.days[0].text())
    bread cloth (Ada, Bea, Cora): 4:50 to 9:50 hours of work. Beforehand the leader has it cut, drawn and
    basted: 8:10 to 16:45 hours for 3 pieces. Even then it can't be finished in the day: it stops at ...
    """
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    minutes = 60 * finite_number(length, "length", least=_HOURS[0], most=_HOURS[1], example=5)
    full, over = divmod(minutes - OPENING, 60)
    working = full * (60 - REST) + min(over, 60 - REST)
    speed = Pace() if pace is None else of_type(pace, Pace, "pace", "Pace(15, 40)")
    kinds: dict[tuple[str, Piece, int, str], list[str]] = {}
    for kit in workshop.kits:
        kinds.setdefault((kit.kind, kit.piece, kit.group, kit.beginning), []).append(kit.learner)
    days = []
    for (kind, piece, group, beginning), learners in kinds.items():
        took = hours(piece, speed, group=group, beginning=beginning)
        days.append(_day(kind, tuple(learners), took, working))
    busy = [name for name in workshop.learners if sum(kit.learner == name for kit in workshop.kits) > 1]
    notes = tuple(
        f"{name} has {so_many(sum(kit.learner == name for kit in workshop.kits), 'piece')}: each is timed "
        "as if it were her only one."
        for name in busy
    )
    return Timetable(tuple(days), minutes, _minutes_of(begins), speed, notes)


def _day(kind: str, learners: tuple[str, ...], took: Hours, working: float) -> Day:
    """The least that is prepared for the day to be long enough, and how far it goes."""
    spells = took.spells
    for stage in STAGES:
        ready = _steps_before(spells, stage)
        if sum(spell.most for spell in spells[ready:]) <= working:
            return Day(kind, learners, took, stage, ready, len(spells), working)
    done, worked = ready, 0.0
    while worked + spells[done].most <= working:
        worked, done = worked + spells[done].most, done + 1
    return Day(kind, learners, took, stage, ready, done, working)


def _steps_before(spells: tuple[Spell, ...], stage: str) -> int:
    """How many steps are done when a piece is prepared so far."""
    if not STAGES[stage]:
        return 0
    begun = next(i for i, spell in enumerate(spells) if "snip" in spell.step.movements)
    if stage == "cut":
        return begun
    return next(i for i in range(begun, len(spells)) if STAGES[stage] in spells[i].step.movements)


def _range(least: float, most: float) -> str:
    return f"{clock_text(least)} to {clock_text(most)} hours"


def _minutes_of(clock: object) -> float:
    found = re.fullmatch(r"(\d{1,2}):([0-5]\d)", clock) if isinstance(clock, str) else None
    if not found or int(found[1]) > 23:
        raise HemError(
            f"begins is {shown(clock)}, but must be a time from '0:00' to '23:59'; for example '10:00'.",
            "begins",
        )
    return 60.0 * int(found[1]) + int(found[2])
