"""Checking a learner's own arithmetic: each number marked twice, and one cause for the sheet.

A number is held against the truth, and against her own numbers before it: what goes on rightly from
a wrong number is not wrong again. What remains is explained by one cause for all, or by none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.html import table_html
from hemcalc.piece.piece import Piece
from hemcalc.sums.diagnosis import AnswerSheet, Cause, Question, diagnose
from hemcalc.sums.facts import NAMES, QUESTIONS
from hemcalc.sums.reading import Answer, read_answer
from hemcalc.sums.slip import Slip
from hemcalc.sums.sums import Sums, sums_of
from hemcalc.sums.verdict import BLANK, FOLLOWS, NEAR, RIGHT, ROUNDED, UNREAD, WRONG, nearness
from hemcalc.sums.working import Working

if TYPE_CHECKING:
    from pandas import DataFrame


_COLUMNS = ["number", "yours", "verdict", "mark"]


@dataclass(frozen=True, slots=True)
class Mark:
    """What is said of one answer."""

    name: str
    entered: str
    #: ``"right"``, ``"right after rounding"``, ``"right as near as a ruler tells"``, ``"follows from
    #: another"``, ``"wrong"``, ``"not read"`` or ``"no answer"``.
    verdict: str
    #: The right number, in the unit of the answer, and its working.
    key: Working
    #: The answer, in that unit; None if it could not be read.
    value: Fraction | None
    #: What is said of it, without the working.
    remark: str
    #: What lies behind a wrong answer that follows from no other.
    cause: Cause | None = None
    #: The wrong numbers of hers that a wrong one follows from.
    follows: tuple[str, ...] = ()

    @property
    def right(self) -> bool:
        """Whether it is right, rounded or not."""
        return self.verdict in (RIGHT, ROUNDED)

    @property
    def slips(self) -> tuple[Slip, ...]:
        """The slips that are named for a wrong answer: one for certain, or one of these; none if not sure."""
        return (
            tuple(slip for slips in self.cause.slips for slip in slips)
            if self.cause and self.cause.sure
            else ()
        )

    @property
    def question(self) -> Question | None:
        """The question that tells apart what may lie behind it."""
        return self.cause.question if self.cause else None

    @property
    def working(self) -> str:
        """How the right number is worked, on one line."""
        return self.key.line

    def text(self) -> str:
        """The remark and, if the answer is wrong or was rounded, the working after it."""
        return f"{self.remark} It is {self.working}." if self.verdict in (ROUNDED, WRONG) else self.remark

    @property
    def nudge(self) -> str:
        """What is said first, before any hint: of a wrong answer only to which side it is off."""
        if self.verdict != WRONG or self.value is None:
            return self.remark
        return f"{_off(self.entered, self.value, self.key)}."

    @property
    def hints(self) -> tuple[str, str, str, str]:
        """Four hints that lead: a question, the step, the line with blanks, and only then the answer."""
        if self.question:
            ask = self.question.said
        elif self.slips:
            ask = self.slips[0].question
        else:
            ask = QUESTIONS[self.name]
        step = f"It is {NAMES[self.name]}."
        if self.cause and self.cause.slips:
            verb = "is what comes out" if self.cause.sure else "would come out"
            step = f"{self.entered} {verb} if {self.cause.clause}."
        return ask, step, self.key.blank, self.key.line

    def __repr__(self) -> str:
        return f"Mark({self.name}: {self.verdict})"

    def __str__(self) -> str:
        return f"{self.name}: {self.text()}"


@dataclass(frozen=True, slots=True, repr=False)
class Report:
    """The marks of a learner's answers, in the order in which she gave them, and their cause."""

    sums: Sums
    marks: tuple[Mark, ...]
    cause: Cause

    def __getitem__(self, name: str) -> Mark:
        """The mark of a number."""
        names = tuple(mark.name for mark in self.marks)
        return self.marks[names.index(one_of(name, names, "name"))]

    def __iter__(self) -> Iterator[Mark]:
        return iter(self.marks)

    def __len__(self) -> int:
        return len(self.marks)

    @property
    def all_right(self) -> bool:
        """Whether every number has an answer that is right."""
        return all(mark.right for mark in self.marks)

    @property
    def summary(self) -> str:
        """How many are right, and how many would be if another were."""
        right = sum(mark.right for mark in self.marks)
        said = f"{right} of {len(self.marks)} right"
        if near := sum(mark.verdict == NEAR for mark in self.marks):
            said += f", {near} as near as a ruler tells"
        if follow := sum(mark.verdict == FOLLOWS for mark in self.marks):
            said += f", {follow} right from a wrong one"
        return f"{said}."

    def __repr__(self) -> str:
        return f"Report({self.summary.removesuffix('.')})"

    def __str__(self) -> str:
        return self.text()

    def text(self) -> str:
        """All the marks, a line each, and how many are right."""
        return "\n".join([*map(str, self.marks), self.summary])

    def table(self) -> DataFrame:
        """A row for each answer, by the name of its number."""
        from pandas import DataFrame

        return DataFrame(self._rows(), columns=_COLUMNS).set_index(_COLUMNS[0])

    def _rows(self) -> list[list[str]]:
        return [[mark.name, mark.entered, mark.verdict, mark.text()] for mark in self.marks]

    def _repr_html_(self) -> str:
        return table_html(_COLUMNS, self._rows(), self.summary)


def check(
    piece: Piece,
    answers: Mapping[str, object],
    *,
    side: str = "left",
    units: dict[str, str] | None = None,
) -> Report:
    """Check the numbers that a learner worked out for a piece; one that can't be read is told what is wanted.

    Parameters
    ----------
    piece : Piece
        The piece.
    answers : mapping of str to (int, str, Length or None)
        Her answers by the names of `NAMES`: "first drawn", "hem", "turn", "fold 1", "fold 2",
        "cut", "total", "draw line", "rule", "need", "slack", "margin", "finished across",
        "finished down", "cut across", "cut down". Threads or a length, as people write them, a sum
        among them; None or empty for no answer.
    side : str
        The side whose edge is worked: ``"left"``, ``"right"``, ``"top"`` or ``"bottom"``.
    units : dict of str to str, optional
        What a bare number is in, by the name: ``"in"``, ``"cm"`` or ``"mm"``; threads if not said.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> bread = example("bread cloth")
    >>> print(check(bread, {"first drawn": 8, "draw line": 22, "total": 31, "cut across": "27.9 cm"}))
    first drawn: Right: thread 8.
    draw line: Not yet: 22 threads is what comes out if the turn was forgotten. It is 11 + 11 + 6 = 28
    threads.
    total: Not yet: 31 threads is what comes out if the turn was forgotten. It is 7 + 2 + 11 + 11 + 6 = 37
    threads.
    cut across: Right after rounding: 28 cm (318 threads). It is (230 + 44 + 44) threads ÷ 29 threads/in ×
    2.54 cm/in ≈ 27.85 cm, rounded up to 28 cm.
    2 of 4 right.
    >>> print(check(bread, {"fold 2": 30, "cut": 36})["cut"])
    cut: Right from your fold 2: mend that, and this comes right by itself.
    """
    of_type(piece, Piece, "piece", "example('bread cloth')")
    if not isinstance(answers, Mapping):
        raise HemError(
            f"answers is {shown(answers)}, but must give an answer for each name; "
            "for example {'first drawn': 8, 'total': 37}.",
            "answers",
        )
    sums = sums_of(piece, side)
    for name in answers:
        one_of(name, tuple(NAMES), "name")
    units = of_type({} if units is None else units, dict, "units", "{'cut across': 'in'}")
    for unit in units.values():
        one_of(unit, ("threads", "in", "cm", "mm"), "unit")
    read = {name: _read(name, answer, units.get(name, "threads")) for name, answer in answers.items()}
    sheet = AnswerSheet(sums, {name: answer for name, answer in read.items() if isinstance(answer, Answer)})
    cause = diagnose(sheet, tuple(name for name, answer in read.items() if answer is None))
    marks = (_mark(sheet, cause, name, answers[name], answer) for name, answer in read.items())
    return Report(sums, tuple(marks), cause)


def _read(name: str, answer: object, unit: str) -> Answer | str | None:
    """The answer, the sentence that refuses it, or None for none."""
    try:
        return read_answer(name, answer, unit)
    except HemError as error:
        return str(error)


def _mark(sheet: AnswerSheet, cause: Cause, name: str, entered: object, answer: Answer | str | None) -> Mark:
    if not isinstance(answer, Answer):
        working = sheet.sums.working(name)
        if answer is None:
            return Mark(name, "", BLANK, working, None, "No answer yet.")
        return Mark(name, shown(entered), UNREAD, working, None, answer)
    working = sheet.sums.working(name, answer.unit)
    said = f"thread {answer.value}" if name == "first drawn" else answer.text
    verdict = nearness(sheet.sums, name, answer, working)
    if verdict != WRONG:
        return Mark(name, said, verdict, working, answer.value, _praise(sheet.sums, name, verdict, working))
    if name in cause.follows:
        ours = " and ".join(cause.follows[name])
        mend = "that" if len(cause.follows[name]) == 1 else "those"
        remark = f"Right from your {ours}: mend {mend}, and this comes right by itself."
        return Mark(name, said, FOLLOWS, working, answer.value, remark, follows=cause.follows[name])
    return Mark(name, said, WRONG, working, answer.value, _blame(cause, said, answer, working), cause)


def _praise(sums: Sums, name: str, verdict: str, working: Working) -> str:
    """A right answer with its number; a length in threads too, since the key is in threads."""
    threads = "" if working.unit in ("threads", "thread") else f" ({sums.working(name).text()})"
    if verdict == NEAR:
        return "Right as near as a ruler tells, but another thread is as near: can you say it in threads?"
    return f"{verdict.capitalize()}: {working.text()}{threads}."


def _blame(cause: Cause, said: str, answer: Answer, working: Working) -> str:
    """What is said of a wrong answer: its cause if that is certain, a question if it is not."""
    if answer.terms and (comes_to := sum(answer.terms)) != answer.value:
        return f"Not yet: what you added up comes to {comes_to}, and not to {answer.value}."
    asked = f" {cause.question.said}" if cause.question else ""
    if cause.sure:
        return f"Not yet: {said} is what comes out if {cause.clause}.{asked}"
    if cause.slips:
        return f"Not yet: {said} would come out if {cause.clause}, but that is not certain.{asked}"
    return f"{_off(said, answer.value, working)}; no slip known here explains it."


def _off(entered: str, answer: Fraction, right: Working) -> str:
    """To which side a wrong answer is off, without a full stop."""
    return f"Not yet: {entered} is too {'much' if answer > right.value else 'little'}"
