"""The systems in which yarns are numbered, and how the trade writes a yarn's number.

In tex, dtex and denier a larger number is a coarser yarn; in the cotton count, the metric
count and the linen lea it is a finer one. Each is defined by a length and a mass.
"""

from __future__ import annotations

import re
from fractions import Fraction

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import leading_number
from hemcalc.measure.units import MILLIMETRES

__all__ = [
    "GRAMS_PER_POUND",
    "SYSTEMS",
    "YARDS_PER_HANK",
    "YARN_EXAMPLE",
    "number_from_tex",
    "read_yarn",
    "tex_from_number",
]

#: Grams in the international pound, exact, since 1 July 1959 ("International yard and pound",
#: web encyclopaedia, n.d., lead).
GRAMS_PER_POUND = Fraction(45359237, 100000)

#: Length of a hank of cotton and of a lea of linen: ASTM International, "Standard Tables of
#: Conversion Factors and Equivalent Yarn Numbers Measured in Various Numbering Systems
#: (D2260-03, reapproved 2013)", 2013, Table 1 (scope page).
YARDS_PER_HANK = 840
YARDS_PER_LEA = 300

_YARD = MILLIMETRES["yd"] / 1000  # m

#: Tex in one unit of the systems in which a larger number is a coarser yarn.
_TEX_IN = {"tex": Fraction(1), "dtex": Fraction(1, 10), "den": Fraction(1, 9)}
#: Tex of the yarn that is number 1 in the others: each is divided by its number.
_TEX_OF_ONE = {
    "Ne": 1000 * GRAMS_PER_POUND / (YARDS_PER_HANK * _YARD),
    "Nm": Fraction(1000),
    "lea": 1000 * GRAMS_PER_POUND / (YARDS_PER_LEA * _YARD),
}

#: The systems, those in which a larger number is a coarser yarn first.
SYSTEMS = (*_TEX_IN, *_TEX_OF_ONE)

_SPELLINGS = {
    "tex": ("tex",),
    "dtex": ("dtex", "decitex"),
    "den": ("den", "denier"),
    "Ne": ("ne", "nec", "cotton count"),
    "Nm": ("nm", "metric count"),
    "lea": ("lea", "nel", "linen lea"),
}
_SYSTEM_OF = {spelling: system for system, spellings in _SPELLINGS.items() for spelling in spellings}

#: The end of every sentence that refuses a yarn.
YARN_EXAMPLE = "for example '20 tex', 'Ne 30', 'Nm 60/2' or '40 lea'."

_FOLDED = re.compile(r"\s*([0-9]{1,40}(?:\.[0-9]{1,40})?)\s*/\s*([0-9]{1,40})(.*)", re.DOTALL)
_TIMES = re.compile(r"(\S.*?)\s*(?:(?<![a-zA-Z])[xX]|×)\s*([1-9][0-9]?)\s*")


def tex_from_number(number: Fraction, system: str) -> Fraction:
    """Tex of a yarn of this number, more than 0, in one of `SYSTEMS`.

    Examples
    --------
    >>> tex_from_number(Fraction(180), "den"), tex_from_number(Fraction(60), "Nm")
    (Fraction(20, 1), Fraction(50, 3))
    """
    return number * _TEX_IN[system] if system in _TEX_IN else _TEX_OF_ONE[system] / number


def number_from_tex(value: Fraction, system: str) -> Fraction:
    """A yarn's number in one of `SYSTEMS`, from its tex, more than 0.

    Examples
    --------
    >>> number_from_tex(Fraction(20), "den"), number_from_tex(Fraction(50, 3), "Nm")
    (Fraction(180, 1), Fraction(60, 1))
    """
    return value / _TEX_IN[system] if system in _TEX_IN else _TEX_OF_ONE[system] / value


def read_yarn(text: object) -> Fraction:
    """Tex of the yarn that a text names: a number and a system, either way round, folded or not.

    Examples
    --------
    >>> read_yarn("180 den"), read_yarn("Nm 60/2") == read_yarn("30 Nm"), read_yarn("27 tex x 5")
    (Fraction(20, 1), True, Fraction(135, 1))
    """
    if not isinstance(text, str):
        raise HemError(f"A yarn is written as text, not as {shown(text)}; {YARN_EXAMPLE}")
    plain, plies = text.strip(), 1
    if match := _TIMES.fullmatch(plain):
        plain, plies = match.group(1), int(match.group(2))
    system, figure = _system_and_figure(plain, text)
    if match := _FOLDED.fullmatch(figure):
        return _folded(match, system, text) * plies
    number, rest = leading_number(figure, "a yarn's number")
    if not number or rest:
        raise HemError(f"The yarn {shown(text)} must have a number, more than 0; {YARN_EXAMPLE}")
    return tex_from_number(number, system) * plies


def _system_and_figure(plain: str, text: str) -> tuple[str, str]:
    """The system that stands before or after the figure, and the figure."""
    folded = plain.casefold()
    for spelling in sorted(_SYSTEM_OF, key=len, reverse=True):
        if folded.endswith(spelling):
            figure = plain[: -len(spelling)].strip()
        elif folded.startswith(spelling):
            figure = plain[len(spelling) :].strip()
        else:
            continue
        if figure and not figure[-1].isalpha() and not figure[0].isalpha():
            return _SYSTEM_OF[spelling], figure
    raise HemError(
        f"The yarn {shown(text)} must be a number and its system, which is {', '.join(SYSTEMS)}; "
        f"{YARN_EXAMPLE}"
    )


def _folded(match: re.Match[str], system: str, text: str) -> Fraction:
    """Tex of a yarn written single/plies, in a system where folding divides the number."""
    single, plies, rest = match.groups()
    if system in _TEX_IN:
        raise HemError(
            f"The yarn {shown(text)} is folded, which in {system} is written with a times sign; "
            f"for example '20 {system} x 2'."
        )
    if rest.strip() or not 1 <= int(plies) <= 99 or Fraction(single) < int(plies):
        raise HemError(
            f"The yarn {shown(text)} must give the count of the single thread, then the plies; "
            f"for example '{system} 60/2' for two threads of {system} 60."
        )
    return tex_from_number(Fraction(single), system) * int(plies)
