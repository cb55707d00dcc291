"""Units of length: how long each is, and how people write lengths and counts in them."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import LONGEST_TEXT, leading_number

#: How a count is written, to end a sentence that refuses one.
COUNT_EXAMPLE = "for example '28/in' or '11/cm'."

#: How a length is written, to end a sentence that refuses one.
LENGTH_EXAMPLE = "for example '3/8 in', '1 cm' or '9.5 mm'."


#: Millimetres in each unit. The inch is 25.4 mm exactly, the yard 0.9144 m exactly, since
#: 1 July 1959 ("International yard", web page, n.d., entry).
MILLIMETRES = {
    "in": Fraction(254, 10),
    "cm": Fraction(10),
    "mm": Fraction(1),
    "m": Fraction(1000),
    "ft": 12 * Fraction(254, 10),
    "yd": 36 * Fraction(254, 10),
}

#: Units that a reader may choose for what is printed.
UNITS = ("in", "cm", "mm")

_INCH_SIGNS = ("\N{DOUBLE PRIME}", "\N{PRIME}\N{PRIME}", "\N{RIGHT DOUBLE QUOTATION MARK}")
#: How each unit may be written.
SPELLINGS = {
    "in": ("in", "in.", "ins", "inch", "inches", '"', "''", *_INCH_SIGNS),
    "cm": ("cm", "cm.", "centimetre", "centimetres", "centimeter", "centimeters"),
    "mm": ("mm", "mm.", "millimetre", "millimetres", "millimeter", "millimeters"),
    "m": ("m", "m.", "metre", "metres", "meter", "meters"),
    "ft": ("ft", "ft.", "foot", "feet"),
    "yd": ("yd", "yd.", "yds", "yard", "yards"),
}
_UNIT_OF = {spelling: unit for unit, spellings in SPELLINGS.items() for spelling in spellings}


def unit_named(text: str) -> str | None:
    """The unit that a word or sign names, None if it names none.

    Examples
    --------
    >>> unit_named("inches"), unit_named('"'), unit_named("CM"), unit_named("ell")
    ('in', 'in', 'cm', None)
    """
    return _UNIT_OF.get(text.casefold())


def millimetres_read(text: str) -> Fraction:
    """Millimetres of the length that a text says: see `Length`.

    Examples
    --------
    >>> millimetres_read("3/8 in")
    Fraction(381, 40)
    """
    stripped = text.strip()
    if not stripped:
        raise HemError(f"The length is empty, but it needs a number and a unit; {LENGTH_EXAMPLE}")
    if stripped[0] == "\N{MINUS SIGN}" or unicodedata.category(stripped[0]) == "Pd":
        raise HemError(f"The length {shown(text)} is negative, but it must be 0 or more; {LENGTH_EXAMPLE}")
    number, rest = leading_number(text, "length")
    if number is None:
        raise HemError(
            f"The length {shown(text)} must begin with a number, in the figures 0 to 9, and end in a "
            f"unit; {LENGTH_EXAMPLE}"
        )
    if not rest:
        raise HemError(
            f"The length {shown(text)} has no unit, but it needs in, cm, mm, m, ft or yd; {LENGTH_EXAMPLE}"
        )
    unit = unit_named(rest)
    if unit is None:
        raise HemError(
            f"The length {shown(text)} has {shown(rest)} behind its number, but one unit must stand "
            f"there, in, cm, mm, m, ft or yd; {LENGTH_EXAMPLE}"
        )
    return number * MILLIMETRES[unit]


_PER = re.compile(r"/|(?<![a-z])(?:per|to\s+the)\b", re.IGNORECASE)


def threads_to_length(text: object) -> tuple[Fraction, Fraction]:
    """The threads that a text says, and the millimetres to which they go.

    Examples
    --------
    >>> threads_to_length("14 per 1/2 in")
    (Fraction(14, 1), Fraction(127, 10))
    """
    if not isinstance(text, str):
        raise HemError(f"A count is written as text, not as {shown(text)}; {COUNT_EXAMPLE}", "count")
    ways = _ways_to_read(text) if len(text) <= LONGEST_TEXT else set()
    if not ways:
        if leading_number(text, "count")[0] is None:
            raise HemError(
                f"The count {shown(text)} must begin with a number of threads; {COUNT_EXAMPLE}", "count"
            )
        raise HemError(
            f"The count {shown(text)} does not say to what length it goes; {COUNT_EXAMPLE}", "count"
        )
    if len(ways) > 1:
        raise HemError(
            f"The count {shown(text)} can be read in two ways, so write 'per' for one of its "
            "strokes; for example '28 per 1/2 in'.",
            "count",
        )
    return ways.pop()


def _ways_to_read(text: str) -> set[tuple[Fraction, Fraction]]:
    """The ways to read a text as threads to a length: a stroke may also be a fraction's."""
    ways = set()
    for per in _PER.finditer(text):
        try:
            threads, word = leading_number(text[: per.start()], "count")
            over = text[per.end() :].strip()
            unit = unit_named(over)
            mm = MILLIMETRES[unit] if unit else millimetres_read(over)
        except HemError:
            continue
        if threads is not None and word.casefold() in ("", "thread", "threads"):
            ways.add((threads, mm))
    return ways
