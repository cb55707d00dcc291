"""What people write for a number, read as threads or as a length: the one reader.

A bare number is in the unit that was asked for. A sum is worked out and its terms are kept, so that
whoever marks it can see which band is missing. Whatever can't be read gets one sentence.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from numbers import Rational, Real

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import (
    LONGEST_TEXT,
    MOST_THREADS,
    decimal_text,
    exact_number,
    leading_number,
    mixed_text,
)
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES, unit_named
from hemcalc.measure.words import so_many
from hemcalc.sums.facts import SIZES
from hemcalc.sums.working import ruler_unit

__all__ = ["Answer", "read_answer"]

_UNITS = "(?:" + "|".join(
    ("threads?|thrds?|thds?|thr|th|st|nd|rd|t", "in(?:ch(?:es)?|s)?", "cms?|mms?|(?:centi|milli)?met(?:re|er)s?")
    + ("f(?:oo|ee)?t|y(?:ar)?ds?|m", "\"|''|\N{DOUBLE PRIME}|\N{PRIME}\N{PRIME}|\N{RIGHT DOUBLE QUOTATION MARK}")
) + r")(?![^\W\d])"  # fmt: skip
_TOKEN = re.compile(
    r"\s*(?:(?P<number>\d+\s*/\s*\d+|\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+|\d+[.,]?\d*|[.,]\d+)"
    rf"|(?P<unit>{_UNITS})\.?"
    r"|(?P<sign>[-+×÷()]))"
)
_SIGNS = str.maketrans({"\N{MINUS SIGN}": "-", "–": "-", "—": "-", "*": "×", "·": "×", "⋅": "×", ":": "÷"})
_ROUND_ABOUT = re.compile(
    r"^(?:(?:it is|it's|i get|makes?|about|approx(?:\.|imately)?|around|roughly|nearly|circa|ca?\.|say|after|"
    r"on|at|no\.|nos?|number|thread|threads|thr\.|the)(?![\w])|[≈~=#≃≅@:])\s*"
)
_BEHIND = re.compile(r"\s*[.,;!?]+$|\s+(?:or so|wide|long|in all|altogether|each)$")
_ORDINAL = re.compile(r"(?<=\d)(?:st|nd|rd|th)(?=\s+threads?\b)|(?<=/\d)ths?\b|(?<=/16)ths?\b")
_SMALL = [
    "nought",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = dict(
    zip(
        ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"],
        range(20, 100, 10),
        strict=True,
    )
)
_WORDS = {word: value for value, word in enumerate(_SMALL)} | _TENS | {"zero": 0, "a": 1, "an": 1}
_PARTS = {"half": 2, "third": 3, "quarter": 4, "eighth": 8, "sixteenth": 16}


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

    Parameters
    ----------
    name : str
        The number's name, which says whether it may be below nothing (the slack) and which of two
        it is (a size across or down).
    answer : str, Length or number
        What was written, or reckoned by Python.
    unit : str
        What a bare number is in: ``"threads"``, ``"in"``, ``"cm"`` or ``"mm"``.

    Raises
    ------
    HemError
        If it can't be read as a whole number of threads or as a length.

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
        value, said, terms = _read_text(name, answer)
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
        raise HemError(
            f"{name} is {shown(answer)}, but threads are whole, so round it first, or give a length with "
            "its unit; for example 12, or '1/2 in'.",
            name,
        )
    if value < 0 and name != "slack":
        raise _below(name, answer)
    if abs(value) > MOST_THREADS:
        raise HemError(
            f"{name} is {shown(answer)}, but at most {MOST_THREADS:,} threads can be planned; for example 12.",
            name,
        )
    threads = so_many(str(abs(value)), "thread")
    return Answer(value, "threads", f"{'−' if value < 0 else ''}{threads}", terms)


def _length_said(value: Fraction, unit: str) -> str:
    figure = mixed_text(abs(value)) if unit in ("in", "ft", "yd") else decimal_text(abs(value))
    return f"{'−' if value < 0 else ''}{figure} {unit}"


def _below(name: str, answer: object) -> HemError:
    return HemError(
        f"{name} is {shown(answer)}, but must be 0 or more, in threads or as a length; for example 12, or '1/2 in'.",
        name,
    )


def _unreadable(name: str, answer: object) -> HemError:
    return HemError(
        f"{name} is {shown(answer)}, but must be a number of threads, or a length with its unit; "
        "for example 12, or '1/2 in'.",
        name,
    )


def _read_value(name: str, answer: object) -> Fraction:
    """A number that Python reckoned: 16/2 is 8.0, and counts as the 8 that it is."""
    try:
        if isinstance(answer, Real) and not isinstance(answer, Rational | bool):
            # A float as it is printed: 5.9 is meant, and not the nearest number of the computer's.
            return Fraction(repr(float(answer)))
        return exact_number(answer, name)
    except ValueError:  # nan and inf are no numbers either
        raise _unreadable(name, answer) from None


def _read_text(name: str, answer: str) -> tuple[Fraction, str | None, tuple[Fraction, ...]]:
    """The value, its unit if one is written, and the terms of a sum."""
    if len(answer) > LONGEST_TEXT:
        leading_number(answer, name)  # refuses it
    text = _plain(answer)
    if re.search(r"\d,\d{3}(?!\d)", text):
        leading_number(re.sub(r".*?(\d+,\d{3})(?!\d).*", r"\1", text), name)  # refuses thousands
    if name == "slack" and (
        match := re.fullmatch(r"(?:(?:too )?short(?: by)?\s*(.+)|(.+?)\s*(?:too )?short)", text)
    ):
        text = f"-{match[1] or match[2]}"
    if name == "slack":
        text = re.sub(r"\s*(?:to spare|over|left over|left)$", "", text)
    if name in SIZES and (pair := re.fullmatch(r"([^-+×÷()]+)(?:×|by)([^-+×÷()]+)", text)):
        across, down = pair[1].strip(), pair[2].strip()
        unit = re.search(rf"({_UNITS})\.?$", down)
        if unit and not re.search(rf"({_UNITS})\.?$", across):
            across = f"{across} {unit[1]}"
        text = across if name.endswith("across") else down
    *before, last = text.split("=")
    try:
        value, unit, terms = _Sum(text=last, name=name).read()
        for each in before:  # "7 + 2 = 9": what she says it makes, and what she added up
            _, _, terms = _Sum(text=each, name=name).read()
    except (_NotASumError, ZeroDivisionError):
        raise _unreadable(name, answer) from None
    if value < 0 and re.fullmatch(r"\d+\s*-\s*\d+", text) and name != "slack":
        raise HemError(
            f"{name} is {shown(answer)}, two numbers, but must be one, in threads or as a length; for example "
            f"{text.split('-')[0].strip()}.",
            name,
        )
    return value, unit, terms


def _plain(text: str) -> str:
    """The text with figures for words, one sign for each thing, and nothing said round about it."""
    spelt = re.sub(r"(?<=\d)(?=[⁰¹²³⁴-⁹½⅓⅔¼¾⅕-⅞⅟])", " ", text)
    spelt = (
        unicodedata.normalize("NFKC", spelt).replace("\N{FRACTION SLASH}", "/").casefold().translate(_SIGNS)
    )
    spelt = re.sub(r"(?<=[\d\s.)])x(?=[\s\d(.])", "×", spelt)
    spelt = " ".join(spelt.replace("'", "'").split())
    while (shorter := _BEHIND.sub("", _ROUND_ABOUT.sub("", spelt))) != spelt:
        spelt = shorter
    return _ORDINAL.sub("", _figures(spelt))


def _figures(text: str) -> str:
    """Words for numbers as figures: thirty-seven, a half, two and a quarter, three eighths of an inch."""
    text = re.sub(r"\bminus\b", "-", re.sub(r"\bplus\b", "+", re.sub(r"\btimes\b", "×", text)))
    text = re.sub(r"\b(an?|one) (inch|centimetre|yard|foot) and (an?|one|three) (half|third|quarter|eighth)s?\b",
                  lambda m: f"{_WORDS[m[1]]} {_WORDS[m[3]]}/{_PARTS[m[4]]} {m[2]}", text)  # fmt: skip
    tens = "|".join(_TENS)
    ones = "|".join(_SMALL[1:10])
    text = re.sub(rf"\b({tens})[- ]({ones})\b", lambda m: str(_TENS[m[1]] + _WORDS[m[2]]), text)
    text = re.sub(r"\b(?:an? )?half (?:an? )?(?=inch|in\b|cm|centi)", "1/2 ", text)
    parts = "|".join(_PARTS)
    text = re.sub(rf"(?:\b(\w+)[- ])?\b({parts})s?\b(?: of)?(?: an?)?",
                  lambda m: f"{m[1] if m[1] and m[1].isdigit() else _WORDS.get(m[1] or 'a', m[1])}/{_PARTS[m[2]]}"
                  if not m[1] or m[1] in _WORDS or m[1].isdigit() else f"{m[1]} 1/{_PARTS[m[2]]}", text)  # fmt: skip
    text = re.sub(r"\b(an?|[a-z]+)\b", lambda m: str(_WORDS[m[1]]) if m[1] in _WORDS else m[0], text)
    text = re.sub(
        r"\b(\d) hundred(?: and)?(?: (\d+))?\b", lambda m: str(100 * int(m[1]) + int(m[2] or 0)), text
    )
    text = re.sub(r"\b1 dozen\b|\bdozen\b", "12", text)
    # A fraction behind its whole number, however the two are joined.
    return re.sub(r"\b(\d+)\s*(?:and|&)\s*(\d+)\s*/\s*(\d+)", r"\1 \2/\3", text)


class _NotASumError(Exception):
    """What is written is no sum."""


@dataclass
class _Sum:
    """A sum of numbers with + − × ÷ and brackets; a unit stands behind each number, or behind the last."""

    text: str
    name: str

    def read(self) -> tuple[Fraction, str | None, tuple[Fraction, ...]]:
        self.tokens = [*self._tokens(), ("end", "")]
        self.units: list[str | None] = []
        self.terms: list[Fraction] = []
        value = self._added(outermost=True)
        if self.tokens[0][0] != "end":
            raise _NotASumError
        named = {unit for unit in self.units if unit}
        if len(named) > 1 or (None in self.units[:-1] and named and self.units[-1] is None):
            raise _NotASumError
        return value, next(iter(named), None), tuple(self.terms) if len(self.terms) > 1 else ()

    def _tokens(self) -> Iterator[tuple[str, str]]:
        at = 0
        text = self.text.strip()
        while at < len(text):
            match = _TOKEN.match(text, at)
            if match is None or match.lastgroup is None:
                raise _NotASumError
            yield match.lastgroup, match[match.lastgroup]
            at = match.end()

    def _next(self, *signs: str) -> str:
        kind, token = self.tokens[0]
        if kind == "sign" and token in signs:
            return self.tokens.pop(0)[1]
        return ""

    def _added(self, outermost: bool = False) -> Fraction:
        total, sign = Fraction(0), -1 if self._next("-", "+") == "-" else 1
        while True:
            term = sign * self._multiplied()
            total += term
            if outermost:
                self.terms.append(term)
            following = self._next("+", "-")
            if not following:
                return total
            sign = -1 if following == "-" else 1

    def _multiplied(self) -> Fraction:
        value = self._one()
        while sign := self._next("×", "÷"):
            value = value * self._one() if sign == "×" else value / self._one()
        return value

    def _one(self) -> Fraction:
        if self._next("("):
            value = self._added()
            if not self._next(")"):
                raise _NotASumError
        else:
            kind, token = self.tokens.pop(0)
            number = leading_number(token, self.name)[0] if kind == "number" else None
            if number is None:
                raise _NotASumError
            value = number
        self.units.append(self._unit())
        return value

    def _unit(self) -> str | None:
        if self.tokens[0][0] != "unit":
            return None
        token = self.tokens.pop(0)[1].rstrip(".")
        return unit_named(token) or unit_named(token.rstrip("s")) or "threads"
