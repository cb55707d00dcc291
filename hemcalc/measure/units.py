"""Units of length: how long each is, and how people write it."""

from __future__ import annotations

from fractions import Fraction

__all__ = ["MILLIMETRES", "SPELLINGS", "UNITS", "unit_named"]

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
