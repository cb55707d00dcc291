"""What people write for a number, read as threads or as a length: the one reader.

A bare number is in the unit that was asked for. A sum is worked out and its terms are kept, so that
whoever marks it can see which band is missing. Whatever can't be read gets one sentence.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from numbers import Rational, Real

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import (
    LONGEST_TEXT,
    MAX_THREADS,
    decimal_text,
    exact_number,
    leading_number,
    mixed_text,
)
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.measure.words import so_many
from hemcalc.sums.facts import SIZES
from hemcalc.sums.working import ruler_unit
from hemcalc.sums.written import NotASumError, Read, plain, read_sum, unit_behind

_EXAMPLE = "for example 12, or '1/2 in'."


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer that was read: in threads, or in a unit of length."""

    value: Fraction
    unit: str
    text: str
    #: The numbers that were added up, if the answer was written as a sum.
    terms: tuple[Fraction, ...] = ()

    @property
    def mm(self) -> Fraction:
        """Its length in mm; threads have none."""
        return self.value * MILLIMETRES[self.unit]


def read_answer(name: str, answer: object, unit: str = "threads") -> Answer | None:
    """What was given for the number of this name; None for no answer.

    The name says whether it may be below nothing (the slack) and which of two it is (a size across or down);
    the unit, what a bare number is in. Refused is what can't be read as a whole number of threads or as a
    length.

    Examples
    --------
    >>> [read_answer("total", text).value for text in ("37 threads", "about 37", "37th", "thirty-seven")]
    [Fraction(37, 1), Fraction(37, 1), Fraction(37, 1), Fraction(37, 1)]
    >>> read_answer("total", "7 + 2 + 2 × 11 + 6").terms
    (Fraction(7, 1), Fraction(2, 1), Fraction(22, 1), Fraction(6, 1))
    >>> read_answer("cut across", "11", "in").text, read_answer("cut down", "11 × 10 in").text
    ('11 in', '10 in')
    >>> read_answer("total", "a bundle")
    Traceback (most recent call last):
    hemcalc.HemError: total is 'a bundle', but must be a number of threads, or a length with its unit; ...
    """
    if answer is None or (isinstance(answer, str) and not answer.strip()):
        return None
    if isinstance(answer, Length):
        return Answer(answer.mm, "mm", answer.text("mm"))
    if isinstance(answer, str):
        read = _read_text(name, answer)
        value, said, terms = read.value, read.unit, read.terms
    else:
        value, said, terms = _read_value(name, answer), None, ()
    unit = said or unit
    if unit == "threads":
        return _threads(name, answer, value, terms)
    if name == "first drawn":
        raise HemError(f"{name} is {shown(answer)}, but must be a thread's number; for example 12.", name)
    if value < 0 and name != "slack":
        raise _below(name, answer)
    ruler = ruler_unit(unit)
    return Answer(value * MILLIMETRES[unit] / MILLIMETRES[ruler], ruler, _length_said(value, unit), terms)


def _threads(name: str, answer: object, value: Fraction, terms: tuple[Fraction, ...]) -> Answer:
    if value.denominator != 1:
        raise _refused(
            name, answer, "threads are whole, so round it first, or give a length with its unit", "but "
        )
    if value < 0 and name != "slack":
        raise _below(name, answer)
    if abs(value) > MAX_THREADS:
        raise _refused(name, answer, f"at most {MAX_THREADS:,} threads can be planned", "but ")
    threads = so_many(str(abs(value)), "thread")
    return Answer(value, "threads", f"{'−' if value < 0 else ''}{threads}", terms)


def _length_said(value: Fraction, unit: str) -> str:
    figure = mixed_text(abs(value)) if unit in ("in", "ft", "yd") else decimal_text(abs(value))
    return f"{'−' if value < 0 else ''}{figure} {unit}"


def _refused(name: str, answer: object, allowed: str, so: str = "but must be ") -> HemError:
    return HemError(f"{name} is {shown(answer)}, {so}{allowed}; {_EXAMPLE}", name)


def _below(name: str, answer: object) -> HemError:
    return _refused(name, answer, "0 or more, in threads or as a length")


def _unreadable(name: str, answer: object) -> HemError:
    return _refused(name, answer, "a number of threads, or a length with its unit")


def _read_value(name: str, answer: object) -> Fraction:
    """A number that Python reckoned: 16/2 is 8.0, and counts as the 8 that it is."""
    try:
        if isinstance(answer, Real) and not isinstance(answer, Rational | bool):
            # A float as it is printed: 5.9 is meant, and not the nearest number of the computer's.
            return Fraction(repr(float(answer)))
        return exact_number(answer, name)
    except ValueError:  # nan and inf are no numbers either
        raise _unreadable(name, answer) from None


def _read_text(name: str, answer: str) -> Read:
    """The sum that is written; behind an equals sign, what she says that it comes to."""
    if len(answer) > LONGEST_TEXT:
        leading_number(answer, name)  # refuses it
    text = plain(answer)
    if thousands := re.search(r"\d+,\d{3}(?!\d)", text):
        leading_number(thousands[0], name)  # refuses what may be a thousand
    if name == "slack":
        text = re.sub(r"^(?:too )?short(?: by)?\s*(.+)|^(.+?)\s*(?:too )?short$", r"-\1\2", text)
        text = re.sub(r"\s*(?:to spare|over|left over|left)$", "", text)
    if name in SIZES:
        text = _its_own(name, text)
    *before, last = text.split("=")
    try:
        read = read_sum(last, name)
        for each in before:
            read = Read(read.value, read.unit, read_sum(each, name).terms)
    except NotASumError:
        raise _unreadable(name, answer) from None
    if read.value < 0 and name != "slack" and re.fullmatch(r"\d+\s*-\s*\d+", text):
        raise _refused(name, answer, "one number and not two, in threads or as a length")
    return read


def _its_own(name: str, text: str) -> str:
    """Of 14 × 12 in the one across or the one down."""
    pair = re.fullmatch(r"([^-+×÷()]+)(?:×|by)([^-+×÷()]+)", text)
    if not pair:
        return text
    across, down = pair[1].strip(), pair[2].strip()
    if unit_behind(down) and not unit_behind(across):
        across = f"{across} {unit_behind(down)}"
    return across if name.endswith("across") else down
