"""What a learner gave: read as threads or as a length, and held against a number.

An answer is what it says, exactly, or what it says rounded as people round: to what is printed,
or to the nearest mark of the ruler, but never so far that another thread is nearer.
"""

from __future__ import annotations

import contextlib
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import exact_number, half_up, leading_number, whole_threads
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.sums.sums import Sums
from hemcalc.sums.working import Worked, ruler_unit

__all__ = ["Answer", "fits", "read_answer"]

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
    length = Length.parse(plain)
    unit = ruler_unit(rest)
    return Answer(sign * length.mm / MILLIMETRES[unit], unit, text)


def _counted(threads: int) -> str:
    return f"{'−' if threads < 0 else ''}{abs(threads)} thread{'' if abs(threads) == 1 else 's'}"


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
