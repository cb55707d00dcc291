"""How fine a yarn is: its linear density, in tex and in the older counts.

Linen is sold by the lea, cotton by the cotton count, wool by the metric count, silk by the
denier; in all but the last a larger number is a finer yarn. Each is defined by a length and
a mass, so each converts into the others exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.exact import exact_number, half_up
from hemcalc.measure.lengths import Length, as_length
from hemcalc.yarn.systems import (
    SYSTEMS,
    YARDS_PER_HANK,
    YARN_EXAMPLE,
    number_from_tex,
    read_yarn,
    tex_from_number,
)

__all__ = ["LinearDensity", "as_density"]

_COARSEST, _FINEST = Fraction(100_000), Fraction(1, 1000)  # tex: a rope, and less than one fibre


@dataclass(frozen=True, slots=True)
class LinearDensity:
    """Mass of a length of yarn, exact.

    Parameters
    ----------
    tex : str, int, Fraction or Decimal
        The yarn as text, such as ``"Ne 30"``, or grams in a kilometre.

    Raises
    ------
    HemError
        If `tex` is not exact, is nothing, or is beyond any yarn.

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
    >>> LinearDensity.parse("Nm 60/2") == LinearDensity.parse("30 Nm")
    True
    """

    tex: Fraction

    def __init__(self, tex: object) -> None:
        value = read_yarn(tex) if isinstance(tex, str) else exact_number(tex, "tex", "20, or '20 tex'")
        if not _FINEST <= value <= _COARSEST:
            raise HemError(
                f"A linear density of {shown(value)} tex is no yarn's: it must be from 0.001 to 100000 tex; "
                f"{YARN_EXAMPLE}"
            )
        object.__setattr__(self, "tex", value)

    @classmethod
    def parse(cls, text: object) -> LinearDensity:
        """The linear density that a text says.

        Parameters
        ----------
        text : str
            A number and a system, either way round: ``20 tex``, ``180 den``, ``Ne 30``,
            ``60 Nm``, ``40 lea``. Folded yarns as the trade writes them: ``Ne 8/2`` is two
            threads of Ne 8 (the twist's take-up left out), ``20 tex x 2`` two of 20 tex.

        Examples
        --------
        >>> LinearDensity.parse("27 tex x 5").tex, LinearDensity.parse("Ne 8/2").yards_per_pound
        (Fraction(135, 1), Fraction(3360, 1))
        >>> LinearDensity.parse("30")
        Traceback (most recent call last):
        hemcalc.HemError: The yarn '30' must be a number and its system, which is tex, dtex, ...
        """
        return cls(read_yarn(text))

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
        return cls(tex_from_number(value, one_of(system, SYSTEMS, "system")))

    @property
    def denier(self) -> Fraction:
        """Grams in 9000 m."""
        return self.number("den")

    @property
    def metric_count(self) -> Fraction:
        """Kilometres in a kilogram."""
        return self.number("Nm")

    @property
    def cotton_count(self) -> Fraction:
        """Hanks of 840 yd in a pound."""
        return self.number("Ne")

    @property
    def linen_lea(self) -> Fraction:
        """Leas of 300 yd in a pound."""
        return self.number("lea")

    @property
    def yards_per_pound(self) -> Fraction:
        """Yards in a pound."""
        return self.cotton_count * YARDS_PER_HANK

    def number(self, system: str) -> Fraction:
        """The yarn's number in a system."""
        return number_from_tex(self.tex, one_of(system, SYSTEMS, "system"))

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
    >>> as_density("20 tex").denier
    Fraction(180, 1)
    """
    if isinstance(value, LinearDensity):
        return value
    try:
        return LinearDensity.parse(value)
    except HemError as error:
        raise HemError(f"{about}: {error}", about) from None
