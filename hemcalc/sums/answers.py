"""A learner's answer: read as threads or as a length, held against a number, and judged.

An answer is what it says, exactly, or what it says rounded as people round: to what is printed,
or to the nearest mark of the ruler, but never so far that another thread is nearer. A wrong one is
held against what known slips would have given: if one fits, it is named; if several fit, all are;
if none fits, nothing is guessed.
"""

from __future__ import annotations

import contextlib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from numbers import Rational
from typing import Any

from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.exact import exact_number, half_up, leading_number, whole_threads
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.measure.words import so_many
from hemcalc.sums.sums import Sums
from hemcalc.sums.working import Worked, ruler_unit

__all__ = ["Answer", "Verdict", "fits", "judge", "read_answer"]

_THREADS = ("", "thread", "threads")
_PRINTED = {"in": 16, "cm": 100, "mm": 10}  # steps to the unit to which lengths are printed
_HALF_MARK = {"in": Fraction(254, 320), "cm": Fraction(1, 2), "mm": Fraction(1, 2)}  # mm: 1/32 in, 1/2 mm
_SHORT = {"in": Fraction(254, 2000), "cm": Fraction(1, 20), "mm": Fraction(1, 20)}  # mm, decimals left off
_CUT = ("cut across", "cut down")


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer that was read: in threads, or in a unit of length."""

    value: Fraction
    unit: str
    text: str


def read_answer(name: str, answer: object) -> Answer | None:
    """What was given for the number of this name; None for no answer.

    Raises
    ------
    HemError
        If it can't be read as a whole number of threads or as a length.

    Examples
    --------
    >>> read_answer("total", "37 threads").value, read_answer("slack", "-4").value
    (Fraction(37, 1), Fraction(-4, 1))
    >>> read_answer("cut across", "11 in")
    Answer(value=Fraction(11, 1), unit='in', text='11 in')
    >>> read_answer("total", "fifty")
    Traceback (most recent call last):
    hemcalc.HemError: total is 'fifty', but must be a number of threads, or a length with its unit; ...
    """
    if answer is None or (isinstance(answer, str) and not answer.strip()):
        return None
    read = _read_text(name, answer) if isinstance(answer, str) else _read_value(name, answer)
    if read.unit != "threads" and name == "first drawn":
        raise HemError(f"{name} is {shown(answer)}, but must be a thread's number; for example 12.", name)
    return read


def _read_value(name: str, answer: object) -> Answer:
    if isinstance(answer, Length):
        return Answer(answer.mm, "mm", answer.text("mm"))
    size, sign = answer, 1
    with contextlib.suppress(HemError):  # said by whole_threads, in threads
        number = exact_number(answer, name)
        if name == "slack" and number < 0 and number.denominator == 1:
            size, sign = -number, -1
    threads = sign * whole_threads(size, name, example=12, otherwise=", or a length such as '1/2 in'")
    return Answer(Fraction(threads), "threads", _counted(threads))


def _read_text(name: str, answer: str) -> Answer:
    text = " ".join(answer.split())
    if text.casefold().startswith("thread "):
        text = text[len("thread ") :]
    negative = text[0] in "-−–" and name == "slack"
    plain = text[1:].strip() if negative else text
    sign = -1 if negative else 1
    number, rest = leading_number(plain, name)
    if number is not None and rest.casefold() in _THREADS:
        whole = number.numerator if number.denominator == 1 else None
        if whole is None:
            raise HemError(
                f"{name} is {shown(text)}, but threads are whole, so round it first, or give a length with "
                "its unit; for example 12, or '1/2 in'.",
                name,
            )
        threads = sign * whole_threads(whole, name, example=12)
        return Answer(Fraction(threads), "threads", _counted(threads))
    if number is None:
        raise HemError(
            f"{name} is {shown(answer)}, but must be a number of threads, or a length with its unit; "
            "for example 12, or '1/2 in'.",
            name,
        )
    length = Length(plain)
    unit = ruler_unit(rest)
    return Answer(sign * length.mm / MILLIMETRES[unit], unit, text)


def _counted(threads: int) -> str:
    return f"{'−' if threads < 0 else ''}{so_many(abs(threads), 'thread')}"


def fits(sums: Sums, name: str, answer: Answer, worked: Worked) -> bool:
    """Whether the answer is this number, as it stands or rounded as people round.

    Parameters
    ----------
    sums : Sums
        The sums in which the number stands, for the threads of the cloth.
    name : str
        The number's name.
    answer : Answer
        What was given.
    worked : Worked
        The number, right or by a slip, in the unit of the answer.
    """
    exact = worked.value if worked.exact is None else worked.exact
    if answer.value == worked.value or answer.unit == "threads":
        return answer.value == worked.value
    to_mm = MILLIMETRES[answer.unit]
    if name in _CUT:
        if worked.value < exact:  # rounded the wrong way: only the mark itself tells
            return False
        # Anything from the exact size to the next mark of the ruler; decimals may be left off.
        return exact - _SHORT[answer.unit] / to_mm <= answer.value <= worked.value
    steps = _PRINTED[answer.unit]
    if Fraction(half_up(abs(exact) * steps), steps) == abs(answer.value) and exact * answer.value >= 0:
        return True
    # Half a mark of the ruler, but never so much that another thread is nearer.
    cloth = sums.down if sums.runs_down(name) else sums.across
    half_pitch = MILLIMETRES[cloth.per] / cloth.count / 2
    off = abs(answer.value - exact) * to_mm
    return off <= _HALF_MARK[answer.unit] and off < half_pitch


@dataclass(frozen=True, slots=True, repr=False)
class Verdict:
    """What is said of an answer."""

    #: Whether it is right; None if there is no answer that can be judged.
    right: bool | None
    said: str

    def __repr__(self) -> str:
        return self.said

    def text(self) -> str:
        """What is said, in a sentence."""
        return self.said


def judge(
    answer: object,
    right: int | Fraction | Length,
    slips: Mapping[str, int | Length] | None = None,
    *,
    of: str = "threads",
) -> Verdict:
    """Judge an answer in threads, in other things that are counted, or as a length.

    Parameters
    ----------
    answer : int, str, Length or None
        What was filled in; None if nothing yet.
    right : int, Fraction or Length
        The right answer; it decides whether threads or a length are wanted.
    slips : mapping of str to (int or Length), optional
        What each known slip would have given, by a clause that says it: "the turn was
        forgotten".
    of : str
        What is counted, in the plural.

    Returns
    -------
    Verdict
        Never an error for the answer: one that can't be read is told what is wanted.

    Raises
    ------
    HemError
        If `right`, `slips` or `of` is of another type.

    Examples
    --------
    >>> judge(None, 37)
    No answer yet: write yours in place of None and run the cell again.
    >>> judge(37, 37)
    Right: 37 threads.
    >>> judge(31, 37, {"the turn was forgotten": 31, "the hem was counted once": 26})
    Not yet: 31 threads is what comes out if the turn was forgotten.
    >>> judge("2 in", Length("2 in"))
    Right: 50.8 mm.
    >>> judge(22, 22, of="units of 10 cm")
    Right: 22 units of 10 cm.
    """
    if not isinstance(right, Rational | Length):
        raise HemError(f"right is {shown(right)}, but must be threads or a Length; for example 37.", "right")
    if not isinstance(slips, Mapping | None):
        raise HemError(
            f"slips is {shown(slips)}, but must give a number for each slip; for example "
            "{'the turn was forgotten': 31}.",
            "slips",
        )
    of_type(of, str, "of", "'threads'")
    if answer is None:
        return Verdict(None, "No answer yet: write yours in place of None and run the cell again.")
    given: int | Length
    try:
        if isinstance(right, Length):
            given = as_length(answer, "my answer", size=False)
        else:
            given = whole_threads(answer, "my answer", example=12, of=of)
    except HemError as error:
        return Verdict(None, str(error))
    said = _said(given, answer, of)
    if given == right:
        return Verdict(True, f"Right: {_said(right, None, of)}.")
    fitting = [clause for clause, value in (slips or {}).items() if value == given]
    if fitting:
        return Verdict(False, f"Not yet: {said} is what comes out if {', or if '.join(fitting)}.")
    return Verdict(False, f"Not yet: {said} is {_sense(given, right)}. Open the hint, then try once more.")


def _said(value: int | Fraction | Length, answer: object, of: str) -> str:
    if isinstance(value, Length):
        return answer.strip() if isinstance(answer, str) else value.text("mm")
    return f"{shown(value)} {'thread' if value == 1 and of == 'threads' else of}"


def _sense(given: Any, right: Any) -> str:
    if isinstance(right, Length):
        return "too long" if given > right else "too short"
    return "too many" if given > right else "too few"
