"""Units of length: how long each is, and how people write it."""

from __future__ import annotations

import unicodedata
from fractions import Fraction

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import leading_number

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
