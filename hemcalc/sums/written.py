"""A sum as people write it: words and signs made plain, then worked out, with its terms and its unit.

It knows nothing of hems: "about 7 + 2 × 11 threads." is 29, of the terms 7 and 22, in threads.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.exact import leading_number
from hemcalc.measure.units import SPELLINGS, unit_named

_THREADS = ("thread", "threads", "thr", "thrds", "thds", "th", "st", "nd", "rd", "t")
_LENGTHS = {f"{spelling}s": spelling for spelling in ("cm", "mm")}  # as they are also written
_ALL = sorted({*_THREADS, *_LENGTHS, *(word for words in SPELLINGS.values() for word in words)}, key=len)
_UNIT = "(?:" + "|".join(map(re.escape, reversed(_ALL))) + r")(?![^\W\d])"
_TOKEN = re.compile(
    r"\s*(?:(?P<number>\d+\s*/\s*\d+|\d+(?:\s+|\s*-\s*)\d+\s*/\s*\d+|\d+[.,]?\d*|[.,]\d+)"
    rf"|(?P<unit>{_UNIT})\.?|(?P<sign>[-+×÷()]))"
)
_SIGNS = str.maketrans({"\N{MINUS SIGN}": "-", "–": "-", "—": "-", "*": "×", "·": "×", "⋅": "×", ":": "÷"})
_BEFORE = re.compile(
    r"^(?:(?:it is|it's|i get|makes?|about|approx(?:\.|imately)?|around|roughly|nearly|circa|ca?\.|say|after|"
    r"on|at|no\.|nos?|number|threads?|thr\.|the)(?!\w)|[≈~=#≃≅@:])\s*"
)
_BEHIND = re.compile(r"\s*[.,;!?]+$|\s+(?:or so|wide|long|in all|altogether|each)$")
_ORDINAL = re.compile(r"(?<=\d)(?:st|nd|rd|th)(?=\s+threads?\b)|(?<=/\d)ths?\b|(?<=/16)ths?\b")
_ONES = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
_TEENS = ["ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen"]
_TEENS += ["sixteen", "seventeen", "eighteen", "nineteen"]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_WORDS = {
    **{"nought": 0, "zero": 0, "a": 1, "an": 1, "dozen": 12},
    **{word: value for value, word in enumerate((*_ONES, *_TEENS), 1)},
    **{word: 10 * tens for tens, word in enumerate(_TENS, 2)},
}
_PARTS = {"half": 2, "third": 3, "quarter": 4, "eighth": 8, "sixteenth": 16}
_SAID = {"minus": "-", "plus": "+", "times": "×"}
_ANY_PART = "|".join(_PARTS)


class NotASumError(Exception):
    """What is written is no sum."""


@dataclass(frozen=True, slots=True)
class Read:
    """What a sum comes to, the unit that is written in it, and what is added up in it."""

    value: Fraction
    #: The unit's name, ``"threads"`` or None.
    unit: str | None
    #: None of them if it is a single number.
    terms: tuple[Fraction, ...]


def plain(text: str) -> str:
    """The text with figures for words, one sign for each thing, and nothing said round about it.

    Examples
    --------
    >>> plain("About thirty-seven threads!"), plain("2 x 16+8"), plain("an inch and a half")
    ('37 threads', '2 × 16+8', '1 1/2 inch')
    """
    spaced = re.sub(r"(?<=\d)(?=[⁰¹²³⁴-⁹½⅓⅔¼¾⅕-⅞⅟])", " ", text)
    spelt = unicodedata.normalize("NFKC", spaced).casefold().replace("\N{FRACTION SLASH}", "/")
    spelt = re.sub(r"(?<=[\d\s.)])x(?=[\s\d(.])", "×", spelt.translate(_SIGNS))
    spelt = " ".join(spelt.split())
    while (shorter := _BEHIND.sub("", _BEFORE.sub("", spelt))) != spelt:
        spelt = shorter
    return _ORDINAL.sub("", _figures(spelt))


def _figures(text: str) -> str:
    """Words for numbers as figures: thirty-seven, two and a quarter, three eighths of an inch."""
    text = re.sub(rf"\b({'|'.join(_SAID)})\b", lambda found: _SAID[found[1]], text)
    # "An inch and a half" says its unit in the middle.
    text = re.sub(rf"\b(\w+) (inch|yard|foot) and (\w+) ({_ANY_PART})s?\b", r"\1 and \3 \4 \2", text)
    text = re.sub(
        rf"\b({'|'.join(_TENS)})[- ]({'|'.join(_ONES)})\b",
        lambda found: str(_WORDS[found[1]] + _WORDS[found[2]]),
        text,
    )
    text = re.sub(rf"(?:\b(\w+)[- ])?\b({_ANY_PART})s?\b(?: of)?(?: an?\b)?", _part, text)
    text = re.sub(r"\b[a-z]+\b", lambda found: str(_WORDS.get(found[0], found[0])), text)
    text = re.sub(r"\b1 (?=12\b(?! ?/))", "", text)  # a dozen
    text = re.sub(
        r"\b(\d) hundred(?: and)?(?: (\d+))?\b", lambda m: str(100 * int(m[1]) + int(m[2] or 0)), text
    )
    # A fraction behind its whole number, however the two are joined.
    return re.sub(r"\b(\d+)\s*(?:and|&)\s*(\d+)\s*/\s*(\d+)", r"\1 \2/\3", text)


def _part(found: re.Match[str]) -> str:
    """Three eighths as 3/8; a half as 1/2, whatever else stands before it."""
    before, bottom = found[1], _PARTS[found[2]]
    if before is None or before in _WORDS or before.isdigit():
        return f"{before if before and before.isdigit() else _WORDS[before or 'a']}/{bottom} "
    return f"{before} 1/{bottom} "


def unit_behind(text: str) -> str:
    """The unit as it stands at the end of a text; nothing if there is none."""
    found = re.search(rf"{_UNIT}\.?$", text)
    return found[0] if found else ""


def read_sum(text: str, about: str) -> Read:
    """What a plain sum of numbers with + − × ÷ and brackets comes to.

    A unit stands behind each number, or behind the last for all.

    Raises
    ------
    NotASumError
        If it can't be read as a sum.
    HemError
        If one of its numbers may mean two things.

    Examples
    --------
    >>> read_sum("7 + 2 × 11 threads", "total")
    Read(value=Fraction(29, 1), unit='threads', terms=(Fraction(7, 1), Fraction(22, 1)))
    """
    sum_ = _Sum(_tokens(text.strip()), about)
    try:
        value, terms = sum_.added()
    except ZeroDivisionError:
        raise NotASumError from None
    named = {unit for unit in sum_.units if unit}
    if sum_.tokens[0][0] != "end" or len(named) > 1 or (named and sum_.units[-1] is None):
        raise NotASumError
    return Read(value, next(iter(named), None), tuple(terms) if len(terms) > 1 else ())


def _tokens(text: str) -> list[tuple[str, str]]:
    at, tokens = 0, []
    while at < len(text):
        found = _TOKEN.match(text, at)
        if found is None or found.lastgroup is None:
            raise NotASumError
        tokens.append((found.lastgroup, found[found.lastgroup]))
        at = found.end()
    return [*tokens, ("end", "")]


class _Sum:
    """A sum in the reading: a sum of products of numbers, or of sums in brackets."""

    def __init__(self, tokens: list[tuple[str, str]], about: str) -> None:
        self.tokens, self.about = tokens, about
        self.units: list[str | None] = []

    def added(self) -> tuple[Fraction, list[Fraction]]:
        terms, sign = [], -1 if self._next("-", "+") == "-" else 1
        while True:
            terms.append(sign * self._multiplied())
            following = self._next("+", "-")
            if not following:
                return sum(terms, Fraction(0)), terms
            sign = -1 if following == "-" else 1

    def _multiplied(self) -> Fraction:
        value = self._one()
        while sign := self._next("×", "÷"):
            value = value * self._one() if sign == "×" else value / self._one()
        return value

    def _one(self) -> Fraction:
        if self._next("("):
            value, _ = self.added()
            if not self._next(")"):
                raise NotASumError
        else:
            kind, token = self.tokens.pop(0)
            number = leading_number(token, self.about)[0] if kind == "number" else None
            if number is None:
                raise NotASumError
            value = number
        self.units.append(self._unit())
        return value

    def _unit(self) -> str | None:
        if self.tokens[0][0] != "unit":
            return None
        token = self.tokens.pop(0)[1]
        return unit_named(_LENGTHS.get(token, token)) or "threads"

    def _next(self, *signs: str) -> str:
        kind, token = self.tokens[0]
        if kind == "sign" and token in signs:
            return self.tokens.pop(0)[1]
        return ""
