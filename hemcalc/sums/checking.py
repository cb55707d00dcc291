"""Checking a learner's own arithmetic: right, right after rounding, or which slip explains it.

An answer is held against the right number and against what every known slip would have given.
One fits: it is named. Several fit: all are named, with the one question that tells them apart.
None fits: nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.html import table_html
from hemcalc.piece.piece import Piece
from hemcalc.sums.answers import Answer, fits, read_answer
from hemcalc.sums.slips import SLIPS, Slip, number_that_tells, possible_slips
from hemcalc.sums.sums import NAMES, Sums, sums_of
from hemcalc.sums.working import Worked

if TYPE_CHECKING:
    from pandas import DataFrame

__all__ = ["Mark", "Report", "check"]

_COLUMNS = ["number", "yours", "verdict", "mark"]

RIGHT, ROUNDED, WRONG, UNREAD, BLANK = "right", "right after rounding", "wrong", "not read", "no answer"


@dataclass(frozen=True, slots=True)
class Mark:
    """What is said of one answer.

    Attributes
    ----------
    verdict : str
        ``"right"``, ``"right after rounding"``, ``"wrong"``, ``"not read"`` or ``"no answer"``.
    worked : Worked
        The right number, in the unit of the answer, and its working.
    value : Fraction or None
        The answer, in that unit; None if it could not be read.
    slips : tuple of Slip
        Every slip that explains a wrong answer.
    question : str
        The question that tells them apart, if there are several.
    tells : mapping of str to str
        What the answer to it says: by the slip's name, the number that it would have given.
    """

    name: str
    given: str
    verdict: str
    worked: Worked
    value: Fraction | None
    #: What is said of it, without the working.
    remark: str
    slips: tuple[Slip, ...] = ()
    question: str = ""
    tells: tuple[tuple[str, str], ...] = ()

    @property
    def right(self) -> bool:
        """Whether it is right, rounded or not."""
        return self.verdict in (RIGHT, ROUNDED)

    @property
    def working(self) -> str:
        """How the right number is worked, on one line."""
        return self.worked.line

    def text(self) -> str:
        """The remark and, if the answer is wrong or was rounded, the working after it."""
        return f"{self.remark} It is {self.working}." if self.verdict in (ROUNDED, WRONG) else self.remark

    @property
    def nudge(self) -> str:
        """What is said first, before any hint: of a wrong answer only to which side it is off."""
        if self.verdict != WRONG or self.value is None:
            return self.remark
        return f"{_off(self.given, self.value, self.worked)}."

    @property
    def hints(self) -> tuple[str, str, str]:
        """Three hints that lead before they tell: a question; the slip and the working; the answer."""
        if self.question:
            ask = self.question
        elif len(self.slips) == 1:
            ask = self.slips[0].question
        else:
            ask = f"What is it? It is {NAMES[self.name]}. Which bands of the edge lie in it?"
        clauses = ", or if ".join(slip.clause for slip in self.slips)
        slip = f"{self.given} is what comes out if {clauses}. " if clauses else ""
        return ask, f"{slip}{self.worked.blank}", self.worked.line

    def __repr__(self) -> str:
        return f"Mark({self.name}: {self.verdict})"

    def __str__(self) -> str:
        return f"{self.name}: {self.text()}"


@dataclass(frozen=True, slots=True, repr=False)
class Report:
    """The marks of a learner's answers, in the order in which she gave them."""

    sums: Sums
    marks: tuple[Mark, ...]

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
        """How many are right."""
        right = sum(mark.right for mark in self.marks)
        return f"{right} of {len(self.marks)} right."

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
        return [[mark.name, mark.given, mark.verdict, mark.text()] for mark in self.marks]

    def _repr_html_(self) -> str:
        return table_html(_COLUMNS, self._rows(), self.summary)


def check(piece: Piece, answers: Mapping[str, object], *, side: str = "left") -> Report:
    """Check the numbers that a learner worked out for a piece.

    Parameters
    ----------
    piece : Piece
        The piece.
    answers : mapping of str to (int, str, Length or None)
        Her answers by the names of `NAMES`: "first drawn", "hem", "turn", "fold 1", "fold 2",
        "cut", "total", "draw line", "rule", "need", "slack", "margin", "finished across",
        "finished down", "cut across", "cut down". Threads as a number or as text, lengths with
        their unit; None or empty for no answer.
    side : str
        The side whose edge is worked: ``"left"``, ``"right"``, ``"top"`` or ``"bottom"``.

    Returns
    -------
    Report
        A mark for each. An answer that can't be read is told what is wanted.

    Raises
    ------
    HemError
        If `piece` is not a Piece, or a name or the side is not one of these.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> report = check(example("bread cloth"), {"first drawn": 8, "total": 31, "cut across": "27.9 cm"})
    >>> print(report)
    first drawn: Right: thread 8.
    total: Not yet: 31 threads is what comes out if the turn was forgotten. It is 7 + 2 + 11 + 11 + 6 = 37
    threads.
    cut across: Right after rounding: 28 cm. It is (230 + 44 + 44) threads ÷ 29 threads/in × 2.54 cm/in
    ≈ 27.85 cm, rounded up to 28 cm.
    2 of 3 right.
    >>> report["total"].slips[0].question
    "What lies beyond the hem's back, inside the fold?"
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
    read = {name: _read(name, answer) for name, answer in answers.items()}
    return Report(sums, tuple(_mark(sums, name, answers[name], read) for name in answers))


def _read(name: str, answer: object) -> Answer | str | None:
    """The answer, the sentence that refuses it, or None for none."""
    try:
        return read_answer(name, answer)
    except HemError as error:
        return str(error)


def _mark(sums: Sums, name: str, given: object, read: Mapping[str, Answer | str | None]) -> Mark:
    answer = read[name]
    if not isinstance(answer, Answer):
        worked = sums.worked(name)
        if answer is None:
            return Mark(name, "", BLANK, worked, None, "No answer yet.")
        return Mark(name, shown(given), UNREAD, worked, None, answer)
    worked = sums.worked(name, answer.unit)
    said = f"thread {answer.value}" if name == "first drawn" else answer.text
    if answer.value in (worked.value, worked.exact):
        # A size to cut that is exact but on no mark of the ruler is as right as it gets.
        return Mark(name, said, RIGHT, worked, answer.value, f"Right: {worked.text()}.")
    if fits(sums, name, answer, worked):
        return Mark(name, said, ROUNDED, worked, answer.value, f"Right after rounding: {worked.text()}.")
    fitting = [
        slip
        for slip, wrong in possible_slips(sums, name, answer.unit).items()
        if fits(sums, name, answer, wrong)
    ]
    return _explained(sums, Mark(name, said, WRONG, worked, answer.value, ""), answer.value, fitting, read)


def _off(given: str, answer: Fraction, right: Worked) -> str:
    """To which side a wrong answer is off, without a full stop."""
    return f"Not yet: {given} is too {'much' if answer > right.value else 'little'}"


def _explained(
    sums: Sums, mark: Mark, answer: Fraction, fitting: list[str], read: Mapping[str, Answer | str | None]
) -> Mark:
    """The mark of a wrong answer, with the slips that explain it, or the question that would tell."""
    telling = number_that_tells(sums, fitting, mark.name) if len(fitting) > 1 else None
    tells: tuple[tuple[str, str], ...] = ()
    question = ""
    if telling:
        asked, values = telling
        also = read.get(asked)
        if isinstance(also, Answer) and also.unit == "threads":
            # She has answered the question already.
            fitting = [slip for slip in fitting if values[slip].value == also.value] or fitting
        question = f"What did you get for {asked}, {NAMES[asked]}?"
        tells = tuple((slip, worked.text()) for slip, worked in values.items())
    slips = tuple(SLIPS[slip] for slip in fitting)
    clauses = [slip.clause for slip in slips]
    if not slips:
        off = _off(mark.given, answer, mark.worked)
        return replace(mark, remark=f"{off}; no slip known here explains it.")
    sentence = f"Not yet: {mark.given} is what comes out if {', or if '.join(clauses)}."
    if len(slips) == 1:
        return replace(mark, remark=sentence, slips=slips)
    question = question or f"Which was it: {', or '.join(clauses)}?"
    return replace(mark, remark=f"{sentence} {question}", slips=slips, question=question, tells=tells)
