"""Exact numbers: what counts as a whole number of threads, and how a number is rounded.

Threads are integers and lengths are fractions; nothing in the core is ever a float that
stands for either. Where a number must be rounded it is rounded here, once.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Container
from decimal import Decimal
from fractions import Fraction
from numbers import Rational

from hemcalc.measure.errors import HemError, shown

#: Threads that may be planned: some 9 km of middling cloth, beyond it a slip of the keyboard.
MAX_THREADS = 10_000_000

#: Characters of a text that is read as a size.
LONGEST_TEXT = 80

_MOST_BITS = 4096  # of a number of ordinary size, above its line or below

_MIXED = re.compile(r"(?:([0-9]+)(?:\s+|\s*-\s*))?([0-9]+)\s*/\s*([0-9]+)")
_DECIMAL = re.compile(r"[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+")


def whole_threads(
    value: object,
    about: str,
    *,
    least: int = 0,
    most: int = MAX_THREADS,
    example: int = 8,
    otherwise: str = "",
    of: str = "threads",
) -> int:
    """The value as a whole number of threads, or `of` what else is counted; with `of` empty, a bare number.

    Any exact whole number counts, such as Fraction(8), Decimal(8) or numpy's. Text, floats and True
    are refused, even where they look whole: a float of 8 may have been 8.0000000000000001. The
    sentence says what the caller takes `otherwise`.

    Examples
    --------
    >>> whole_threads(8, "clear")
    8
    >>> whole_threads(8.5, "clear")
    Traceback (most recent call last):
    hemcalc.HemError: clear is 8.5, but must be a whole number of threads, 0 or more; for example 8.
    """
    # Asked first, since threads are counted thousands of times for one figure.
    number = value if type(value) is int else _exact(value)
    if number is not None and number.denominator == 1 and least <= number <= most:
        return int(number)
    counted = f"a whole number of {of}" if of else "a whole number"
    span = f"{least} or more" if most == MAX_THREADS else f"from {least} to {most}"
    allowed = f"but must be {counted}, {span}{otherwise}"
    if number is None or number.denominator != 1:
        hides = isinstance(value, float) and value % 1 == 0
        said = f"{shown(value)}{', a float, which may hide a fraction' if hides else ''}"
    else:
        said = shown(int(number))
        if number > MAX_THREADS and of == "threads":
            allowed = f"but at most {MAX_THREADS:,} threads can be planned"
    raise HemError(f"{about} is {said}, {allowed}; for example {example}.", about)


def whole_among(value: object, numbers: Container[int]) -> int | None:
    """The value as one of these whole numbers, None if it is none of them.

    Examples
    --------
    >>> whole_among(Fraction(24), (22, 24)), whole_among("24", (22, 24))
    (24, None)
    """
    number = _exact(value)
    return int(number) if number is not None and number in numbers else None


def exact_number(value: object, about: str, example: str = "Fraction(3, 8)") -> Fraction:
    """The value as a Fraction, if it is exact: an int, a Fraction or a finite Decimal.

    A float is refused: 0.1 is not a tenth to the computer.

    Examples
    --------
    >>> exact_number(Decimal("9.5"), "mm")
    Fraction(19, 2)
    """
    number = _exact(value)
    if number is None:
        raise HemError(
            f"{about} is {shown(value)}, but must be an exact number of ordinary size, "
            f"an int, a Fraction or a Decimal; for example {example}.",
            about,
        )
    return number


def _exact(value: object) -> Fraction | None:
    """The value as a Fraction; None if it is no exact number of ordinary size."""
    if type(value) is Fraction:
        return value
    if isinstance(value, Rational) and not isinstance(value, bool):
        # Whole numbers of other kinds may wrap round at 64 bits; Python's own do not.
        number = Fraction(int(value.numerator), int(value.denominator))
        return number if max(map(int.bit_length, number.as_integer_ratio())) <= _MOST_BITS else None
    if isinstance(value, Decimal) and value.is_finite():
        if not value:
            return Fraction(0)
        if abs(value.adjusted()) < LONGEST_TEXT:
            return Fraction(value)
    return None


def leading_number(text: str, about: str) -> tuple[Fraction | None, str]:
    """The number that a text begins with, None if it begins with none, and the rest of the text.

    Reads what people type: ``3/8``, ``1 1/2``, ``1-1/2``, ``0.375``, ``.5``, ``9,5``, ``1½``. Refused if the
    text is too long, its fraction has a bottom of 0 or is no proper one behind a whole number, or its comma
    may stand for thousands.

    Examples
    --------
    >>> leading_number("1½ in", "hem")
    (Fraction(3, 2), 'in')
    >>> leading_number("some cloth", "hem")
    (None, 'some cloth')
    """
    if len(text) > LONGEST_TEXT:
        raise HemError(
            f"A text of {len(text)} characters is too long, since {LONGEST_TEXT} are enough for any size; "
            "for example '3/8 in'.",
            about,
        )
    plain = _spell_fractions(text).strip()
    if match := _MIXED.match(plain):
        return _mixed(match, text, about), plain[match.end() :].strip()
    if match := _DECIMAL.match(plain):
        figure = match.group()
        if re.fullmatch(r"[1-9][0-9]{0,2},[0-9]{3}", figure):
            raise HemError(
                f"The comma in {shown(text)} may mean thousands or a decimal, so write a point or leave "
                "it out; for example '1.5' or '1500'.",
                about,
            )
        return Fraction("0" + figure.replace(",", ".")), plain[match.end() :].strip()
    return None, plain


def _spell_fractions(text: str) -> str:
    """Write ½ as 1/2, with spaces about it so that 1½ is not 11/2, nor ½5 one 25th."""
    if text.isascii():
        return text
    spelt = []
    for character in text:
        if unicodedata.decomposition(character).startswith("<fraction>"):
            fraction = unicodedata.normalize("NFKC", character)
            # ⅟ is only the upper part of a fraction, and its lower part follows.
            spelt.append(f" {fraction}" if fraction.endswith("\N{FRACTION SLASH}") else f" {fraction} ")
        else:
            spelt.append(character)
    return "".join(spelt).replace("\N{FRACTION SLASH}", "/")


def _mixed(match: re.Match[str], text: str, about: str) -> Fraction:
    whole, top, bottom = match.groups()
    if int(bottom) == 0:
        raise HemError(
            f"The fraction in {shown(text)} has 0 below its line, which no fraction can; for example '3/8'.",
            about,
        )
    part = Fraction(int(top), int(bottom))
    if whole is not None and part >= 1:
        raise HemError(
            f"The fraction in {shown(text)} must be less than 1, since it stands behind a whole number; "
            "for example '1 1/2'.",
            about,
        )
    return part + int(whole or 0)


def half_up(number: Fraction) -> int:
    """The nearest whole number, a half going up.

    Examples
    --------
    >>> half_up(Fraction(21, 2)), half_up(Fraction(52, 5))
    (11, 10)
    """
    # In whole numbers: an edge is planned thousands of times over for one figure.
    return (2 * number.numerator + number.denominator) // (2 * number.denominator)


def round_up(number: Fraction, step: Fraction = Fraction(1)) -> Fraction:
    """The smallest multiple of `step` that is not below the number.

    Examples
    --------
    >>> round_up(Fraction(21, 2))
    Fraction(11, 1)
    >>> round_up(Fraction(1, 3), Fraction(1, 8))
    Fraction(3, 8)
    """
    return math.ceil(number / step) * step


def mixed_text(number: Fraction) -> str:
    """The number as it is written by hand, a fraction behind its whole number.

    Examples
    --------
    >>> mixed_text(Fraction(3, 2)), mixed_text(Fraction(3, 8)), mixed_text(Fraction(28))
    ('1 1/2', '3/8', '28')
    """
    whole, part = divmod(number, 1)
    return " ".join(str(figure) for figure in (whole, part) if figure) or "0"


def decimal_text(number: Fraction) -> str:
    """The number to the nearest hundredth, half up, with no noughts at its end.

    Examples
    --------
    >>> decimal_text(Fraction(19, 2)), decimal_text(Fraction(225, 8)), decimal_text(Fraction(30))
    ('9.5', '28.13', '30')
    """
    whole, hundredths = divmod(half_up(number * 100), 100)
    return f"{whole}.{hundredths:02d}".rstrip("0").rstrip(".")
