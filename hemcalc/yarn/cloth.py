"""The cloth's own yarn, when nobody says what it is: from the cloth's mass, and its crimp.

A cloth is sold by its count and its grams to the square metre; together they give the mean
linear density of its threads. A thread in cloth waves over and under the others, so it is
longer than the cloth that it crosses: by its crimp.
"""

from __future__ import annotations

from fractions import Fraction

from hemcalc.measure.counts import Count, as_count
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import exact_number
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import share
from hemcalc.yarn.density import LinearDensity, as_density

_HEAVIEST = 5000  # g/m²: far beyond sailcloth


def cloth_yarn(
    across: Count | str, down: Count | str, grams_per_m2: object, *, crimp: object = 0
) -> LinearDensity:
    """The mean linear density of a cloth's threads, from its mass.

        tex = 1000 g/m² / ((threads across + threads down in a metre) × (1 + crimp))

    Parameters
    ----------
    across, down : Count or str
        Counts of warp and weft.
    grams_per_m2 : int, Fraction or Decimal
        Mass of a square metre, as the seller states it or as weighed.
    crimp : Fraction, Decimal, float or str
        Mean crimp of the threads; with none the yarn comes out too heavy by that share.

    Source
    ------
    The published mass of a cloth, solved for its yarn: N. Balasubramanian, "Useful conversion
    factors", n.d., Table I and miscellaneous.

    Examples
    --------
    >>> cloth_yarn("20/cm", "20/cm", 328).text()
    '82 tex'
    """
    mass = exact_number(grams_per_m2, "grams_per_m2")
    if not 0 < mass <= _HEAVIEST:
        raise HemError(
            f"grams_per_m2 is {shown(mass)}, but must be more than 0 and at most {_HEAVIEST}; "
            "for example 190.",
            "grams_per_m2",
        )
    threads = 1000 * (as_count(across, "across").per_mm + as_count(down, "down").per_mm)
    return LinearDensity(1000 * mass / (threads * (1 + share(crimp, "crimp"))))


def measured_crimp(straight: Length | str, in_cloth: Length | str) -> Fraction:
    """How much longer a thread is than the cloth it came out of, as a share of the cloth.

        crimp = (straight - in cloth) / in cloth

    The thread is drawn out and straightened, not stretched; in the cloth, its ends lay so far apart.

    Refused if the thread is shorter than the cloth.

    Source
    ------
    Definition, as in N. Balasubramanian, "Yarn and cloth (fabric geometry, after Peirce,
    J. Text. Inst. 1937, T45)", n.d., Fabric geometry section. Straightening stretches too, so
    it tends to read somewhat high: ASTM International, "D3883-04(2020) Yarn crimp and yarn
    take-up in woven fabrics", 2020, 5.1.

    Examples
    --------
    >>> measured_crimp("21.6 cm", "20 cm")
    Fraction(2, 25)
    """
    drawn, cloth = as_length(straight, "straight"), as_length(in_cloth, "in_cloth")
    if drawn < cloth:
        raise HemError(
            f"straight is {drawn}, shorter than the {cloth} of cloth it came out of, but a thread is at "
            "least as long; for example '21.6 cm' from '20 cm'.",
            "straight",
        )
    return Fraction((drawn - cloth) / cloth)


def straightening_tension_cn(yarn: LinearDensity | str) -> float:
    """The pull that straightens a cotton or linen yarn for measuring its crimp, in cN.

    A gram hung on the thread pulls with 0.98 cN.

        0.75 tex up to 7 tex; 0.2 tex + 4 above

    Source
    ------
    ISO 7211-3:1984, ISO, 1984, table: from memory, not read.

    Examples
    --------
    >>> straightening_tension_cn("5 tex"), straightening_tension_cn("50 tex")
    (3.75, 14.0)
    """
    tex = as_density(yarn).tex
    return float(tex * Fraction(3, 4) if tex <= 7 else tex / 5 + 4)
