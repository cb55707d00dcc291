"""How fine a yarn is: its linear density, in tex and in the older counts.

Linen is sold by the lea, cotton by the cotton count, wool by the metric count, silk by the
denier; in all but the last a larger number is a finer yarn. Each is defined by a length and
a mass, so each converts into the others exactly.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.exact import LONGEST_TEXT, exact_number, half_up, leading_number
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import MILLIMETRES

#: Grams in the international pound, exact, since 1 July 1959 ("International yard and pound",
#: web encyclopaedia, n.d., lead).
GRAMS_PER_POUND = Fraction(45359237, 100000)

#: Length of a hank of cotton and of a lea of linen: ASTM International, "Standard Tables of
#: Conversion Factors and Equivalent Yarn Numbers Measured in Various Numbering Systems
#: (D2260-03, reapproved 2013)", 2013, Table 1 (scope page).
YARDS_PER_HANK = 840
_YARDS_PER_LEA = 300

_YARD = MILLIMETRES["yd"] / 1000  # m

#: Tex in one unit of the systems in which a larger number is a coarser yarn.
_TEX_IN = {"tex": Fraction(1), "dtex": Fraction(1, 10), "den": Fraction(1, 9)}
#: Tex of the yarn that is number 1 in the others: each is divided by its number.
_TEX_OF_ONE = {
    "Ne": 1000 * GRAMS_PER_POUND / (YARDS_PER_HANK * _YARD),
    "Nm": Fraction(1000),
    "lea": 1000 * GRAMS_PER_POUND / (_YARDS_PER_LEA * _YARD),
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

_COARSEST, _FINEST = Fraction(100_000), Fraction(1, 1000)  # tex: a rope, and less than one fibre


@dataclass(frozen=True, slots=True)
class LinearDensity:
    """Mass of a length of yarn, exact.

    Parameters
    ----------
    tex : str, int, Fraction or Decimal
        Grams in a kilometre; or the yarn as text, a number and a system, either way round: ``20 tex``,
        ``180 den``, ``Ne 30``, ``60 Nm``, ``40 lea``. Folded yarns as the trade writes them: ``Ne 8/2``
        is two threads of Ne 8 (the twist's take-up left out), ``20 tex x 2`` two of 20 tex.

    Source
    ------
    ASTM International, "Standard Tables of Conversion Factors and Equivalent Yarn Numbers
    Measured in Various Numbering Systems (D2260-03, reapproved 2013)", 2013, Table 1 (scope
    page): den = 9 tex, 840 yd/lb to the cotton count, 300 yd/lb to the lea.

    Examples
    --------
    >>> sewing = LinearDensity("Ne 30")
    >>> sewing.text("tex"), sewing.text("lea"), sewing.cotton_count
    ('≈ 19.7 tex', '84 lea', Fraction(30, 1))
    >>> LinearDensity("27 tex x 5").tex, LinearDensity("Nm 60/2") == LinearDensity("30 Nm")
    (Fraction(135, 1), True)
    >>> LinearDensity("30")
    Traceback (most recent call last):
    hemcalc.HemError: The yarn '30' must be a number and its system, which is tex, dtex, ...
    """

    tex: Fraction

    def __init__(self, tex: object) -> None:
        value = _read(tex) if isinstance(tex, str) else exact_number(tex, "tex", "20, or '20 tex'")
        if not _FINEST <= value <= _COARSEST:
            raise HemError(
                f"A linear density of {shown(value)} tex is no yarn's: it must be from 0.001 to 100000 tex; "
                f"{YARN_EXAMPLE}"
            )
        object.__setattr__(self, "tex", value)

    @classmethod
    def weighed(cls, grams: object, length: Length | str) -> LinearDensity:
        """The linear density of a ball or skein whose mass and length are known.

        Formula: tex = 1000 g / m.

        Parameters
        ----------
        grams : int, Fraction or Decimal
            Mass, exact; as the ball's label or the kitchen scales say.
        length : Length or str
            Length of thread that weighs so much.

        Examples
        --------
        >>> LinearDensity.weighed(10, "80 m").tex
        Fraction(125, 1)
        """
        mass = exact_number(grams, "grams")
        if mass <= 0:
            raise HemError(
                f"grams is {shown(mass)}, but must be more than 0; for example 10 for a ball of 10 g.",
                "grams",
            )
        return cls(mass * 1_000_000 / as_length(length, "length").mm)

    @classmethod
    def from_number(cls, number: object, system: str) -> LinearDensity:
        """The linear density of a number in a system, both given apart, as a slider does.

        Examples
        --------
        >>> LinearDensity.from_number(60, "Nm").tex
        Fraction(50, 3)
        """
        value = exact_number(number, "a yarn's number")
        if value <= 0:
            raise HemError(f"A yarn's number is {shown(value)}, but must be more than 0; {YARN_EXAMPLE}")
        return cls(_tex(value, one_of(system, SYSTEMS, "system")))

    @property
    def cotton_count(self) -> Fraction:
        """Hanks of 840 yd in a pound."""
        return self.number("Ne")

    @property
    def yards_per_pound(self) -> Fraction:
        """Yards in a pound."""
        return self.cotton_count * YARDS_PER_HANK

    def number(self, system: str) -> Fraction:
        """The yarn's number in a system."""
        named = one_of(system, SYSTEMS, "system")
        return self.tex / _TEX_IN[named] if named in _TEX_IN else _TEX_OF_ONE[named] / self.tex

    def text(self, system: str = "tex") -> str:
        """The linear density in words: three figures, ≈ in front if that rounded it.

        Examples
        --------
        >>> LinearDensity(20).text("den"), LinearDensity(20).text("lea")
        ('180 den', '≈ 82.7 lea')
        """
        exact = self.number(system)
        step = Fraction(1)
        while exact < 100 * step:
            step /= 10
        while exact >= 1000 * step:
            step *= 10
        rounded = half_up(exact / step) * step
        return f"{'' if rounded == exact else '≈ '}{float(rounded):.10g} {system}"

    def __str__(self) -> str:
        return self.text("tex")

    def __repr__(self) -> str:
        return f"LinearDensity({self.text()})"


def as_density(value: object, about: str = "yarn") -> LinearDensity:
    """The value as a LinearDensity: one already, or the text of one.

    Examples
    --------
    >>> as_density("20 tex").number("den")
    Fraction(180, 1)
    """
    if isinstance(value, LinearDensity):
        return value
    try:
        return LinearDensity(_read(value))
    except HemError as error:
        raise HemError(f"{about}: {error}", about) from None


def _tex(number: Fraction, system: str) -> Fraction:
    """Tex of a yarn of this number, more than 0, in one of `SYSTEMS`."""
    return number * _TEX_IN[system] if system in _TEX_IN else _TEX_OF_ONE[system] / number


def _read(text: object) -> Fraction:
    """Tex of the yarn that a text names: a number and a system, either way round, folded or not."""
    if not isinstance(text, str):
        raise HemError(f"A yarn is written as text, not as {shown(text)}; {YARN_EXAMPLE}")
    if len(text) > LONGEST_TEXT:
        raise HemError(f"The yarn {shown(text)} is too long a text; {YARN_EXAMPLE}")
    plain, plies = text.strip(), 1
    if match := _TIMES.fullmatch(plain):
        plain, plies = match.group(1), int(match.group(2))
    system, figure = _system_and_figure(plain, text)
    if match := _FOLDED.fullmatch(figure):
        return _folded(match, system, text) * plies
    number, rest = leading_number(figure, "a yarn's number")
    if not number or rest:
        raise HemError(f"The yarn {shown(text)} must have a number, more than 0; {YARN_EXAMPLE}")
    return _tex(number, system) * plies


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
    return _tex(Fraction(single), system) * int(plies)
