"""How thick a yarn is, by each of the published ways, with what each one assumes.

A yarn is no rod: how thick it is depends on how tightly its fibres are packed, so every
diameter here carries its working, and two ways seldom agree to better than a tenth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.errors import one_of
from hemcalc.measure.lengths import Length
from hemcalc.measure.measured import finite_number, measured_mm, share
from hemcalc.measure.units import MILLIMETRES
from hemcalc.measure.words import percent
from hemcalc.yarn.density import LinearDensity, as_density

_INCH = float(MILLIMETRES["in"])

#: Share of a yarn's volume that is fibre, unless said: what a specific volume of 1.1 cm3/g
#: makes of cotton of 1.52 g/cm3, to one digit. N. Balasubramanian, "Yarn and cloth (fabric
#: geometry, after Peirce, J. Text. Inst. 1937, T45)", n.d., Fabric geometry section.
PACKING = 0.6

_SIDE_BY_SIDE = (
    "5 %: John T. Taylor, Cotton Weaving and Designing, 6th ed., 1909 (per memory), table of diameters; "
    "10 %: Ashenhurst's formula, medieval-textiles study group notes, 1999, example"
)


@dataclass(frozen=True, slots=True)
class Fibre:
    """A fibre, and how dense it is, g/cm³, without the air in the yarn."""

    name: str
    density: float
    source: str


#: Fibres of the threads and cloths of this work.
FIBRES = {
    "cotton": Fibre(
        "cotton",
        1.52,
        "W. E. Morton & J. W. S. Hearle, Physical Properties of Textile Fibres, 4th ed., 2008, "
        "Table 5.1 (section 5.3), at 65 % humidity",
    ),
    "flax": Fibre(
        "flax",
        1.5,
        "Recent advances in biodegradable polymers for sustainable applications (npj Materials "
        "Degradation), authors not seen, 2022, Table 3, upper end of 1.4 to 1.5; textile handbooks "
        "1.50 to 1.54, from memory",
    ),
}


@dataclass(frozen=True, slots=True)
class YarnDiameter:
    """A yarn's diameter, with the working that led to it.

    Made by the functions of this module.
    """

    diameter_mm: float
    #: One line: the formula with its numbers in it, and what is assumed.
    working: str
    #: Where the formula is from.
    source: str

    def __str__(self) -> str:
        return f"≈ {self.diameter_mm:.2f} mm"

    def __repr__(self) -> str:
        return f"YarnDiameter({self})"


def diameter_by_volume(
    yarn: LinearDensity | str, *, fibre: str = "flax", packing: object = PACKING
) -> YarnDiameter:
    """The diameter of a round yarn of this mass, fibre and packing.

        d = 2 √(tex / (1000 π ρ φ)), in mm, ρ in g/cm³, φ the share that is fibre

    Parameters
    ----------
    yarn : LinearDensity or str
        Such as ``"20 tex"``.
    fibre : str
        One of `FIBRES`.
    packing : Fraction, Decimal, float or str
        Share of the yarn's volume that is fibre; the working states it.

    Source
    ------
    Geometry: mass of a round rod. The packing: see `PACKING`.

    Examples
    --------
    >>> cloth = diameter_by_volume("56 tex", fibre="flax")
    >>> cloth.working
    'd = 2 √(56 / (1000 π × 1.5 × 0.6)) = 0.281 mm, flax of 1.5 g/cm³, 60 % of the yarn fibre'
    """
    density = as_density(yarn)
    kind = FIBRES[one_of(fibre, tuple(FIBRES), "fibre")]
    filled = finite_number(share(packing, "packing"), "packing", least=0, most=1, above=True, example=0.6)
    diameter = 2 * math.sqrt(float(density.tex) / (1000 * math.pi * kind.density * filled))
    working = (
        f"d = 2 √({float(density.tex):.4g} / (1000 π × {kind.density:g} × {filled:g})) = {diameter:.3f} mm, "
        f"{kind.name} of {kind.density:g} g/cm³, {filled * 100:g} % of the yarn fibre"
    )
    return YarnDiameter(diameter, working, f"geometry; fibre density: {kind.source}")


def specific_volume(yarn: LinearDensity | str, diameter: Length | str | float) -> float:
    """Volume of a gram of yarn, air and all, from its diameter, in cm³/g.

        v = 1000 π d² / (4 tex), d in mm; its packing is 1 / (v ρ)

    Examples
    --------
    >>> round(specific_volume("20 tex", "0.2 mm"), 2)
    1.57
    """
    thickness = measured_mm(diameter, "diameter", example="'0.2 mm'")
    return 1000 * math.pi * thickness**2 / (4 * float(as_density(yarn).tex))


def peirce_diameter(yarn: LinearDensity | str) -> YarnDiameter:
    """The diameter of a cotton yarn by Peirce's formula.

        d = 1 / (28 √Ne), in inches

    Other fibres than cotton are off by the root of the densities' ratio.

    Source
    ------
    F. T. Peirce, J. Text. Inst. 1937, T45, quoted from memory; the same follows, as
    1/(27.9 √Ne) with 1.1 cm³/g, from N. Balasubramanian, "Yarn and cloth (fabric geometry,
    after Peirce)", n.d., Fabric geometry section.

    Examples
    --------
    >>> peirce_diameter("Ne 30").working
    'd = 25.4 / (28 √30) = 0.166 mm, cotton'
    """
    count = float(as_density(yarn).cotton_count)
    diameter = _INCH / (28 * math.sqrt(count))
    working = f"d = 25.4 / (28 √{count:.4g}) = {diameter:.3f} mm, cotton"
    return YarnDiameter(diameter, working, "F. T. Peirce, J. Text. Inst. 1937, T45, from memory")


def threads_side_by_side(yarn: LinearDensity | str, *, less: object = Fraction(5, 100)) -> float:
    """Threads of this yarn that lie side by side, touching, in an inch.

        (1 - less) √(yards in a pound)

    Taken off the root is 5 % for cotton; 10 % by the other rule, for firm yarns.

    Source
    ------
    5 %: John T. Taylor, Cotton Weaving and Designing, 6th ed., 1909 (per memory), table of
    diameters. 10 %: Ashenhurst's formula, medieval-textiles study group notes, 1999, example.

    Examples
    --------
    >>> round(threads_side_by_side("Ne 60")), round(threads_side_by_side("Ne 8/2", less="10 %"))
    (213, 52)
    """
    kept = 1 - share(less, "less", most=Fraction(1, 2))
    return float(kept) * math.sqrt(float(as_density(yarn).yards_per_pound))


def touching_diameter(yarn: LinearDensity | str, *, less: object = Fraction(5, 100)) -> YarnDiameter:
    """The diameter of a yarn from how many lie side by side in an inch.

        d = 25.4 / ((1 - less) √(yards in a pound)), in mm

    Source
    ------
    As `threads_side_by_side`.

    Examples
    --------
    >>> touching_diameter("Ne 30").working
    'd = 25.4 / 150.8 threads side by side = 0.168 mm, 5 % taken off the root'
    """
    threads = threads_side_by_side(yarn, less=less)
    diameter = _INCH / threads
    off = f"{percent(share(less, 'less'))} taken off the root"
    working = f"d = 25.4 / {threads:.1f} threads side by side = {diameter:.3f} mm, {off}"
    return YarnDiameter(diameter, working, _SIDE_BY_SIDE)
