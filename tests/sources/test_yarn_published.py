"""Yarn numbers, diameters and cloth against published figures.

The figures themselves are rows of data/, each with a test in test_rows.py; here stands what
follows from them, or holds over many yarns.
"""

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each

from hemcalc.measure import Count, Length
from hemcalc.yarn import LinearDensity, cloth_yarn, diameter_by_volume, peirce_diameter
from hemcalc.yarn.diameter import FIBRES, threads_side_by_side


def printed(figure):
    """A printed figure, to half its last digit."""
    return pytest.approx(float(figure), abs=float(Decimal(1).scaleb(Decimal(figure).as_tuple().exponent)) / 2)


# Source: NEN / ISO TC 38, "NEN 22947 / ISO 2947 Tex System - conversion table for traditional yarn
# numbers", 1974, scope (row LD-26): a rounded tex within 2 % of the exact one.
@for_each("text", ["Ne 7", "Ne 30", "Ne 107", "Nm 13", "14 lea", "66 lea", "1000 den"])
def test_a_printed_tex_stays_within_the_rounding_allowed(text):
    yarn = LinearDensity(text)
    said = float(yarn.text("tex").removeprefix("≈ ").removesuffix(" tex"))
    assert abs(said / float(yarn.tex) - 1) <= 0.02


# Source: N. Balasubramanian, "Yarn and cloth (fabric geometry, after Peirce, J. Text. Inst. 1937,
# T45)", n.d., Fabric geometry section (row YD-04): 34.14 √(v/C) mil; with 1.1 cm3/g 1/(27.9 √C) in.
def test_diameter_from_specific_volume():
    density = FIBRES["cotton"].density

    def inches(volume):
        # A packing above 1 is no yarn, so v = 1 is reached by the root law from v = 2.
        return diameter_by_volume("Ne 1", fibre="cotton", packing=1 / (volume * density)).diameter_mm / 25.4

    assert 1000 * inches(2) / math.sqrt(2) == printed("34.14")
    assert 1 / inches(1.1) == printed("27.9")


# Source: F. T. Peirce, J. Text. Inst. 1937, T45, from memory; supported by the row above, whose 27.9
# rounds to Peirce's 28.
def test_peirces_diameter_is_the_one_of_specific_volume_rounded():
    by_volume = diameter_by_volume("Ne 30", fibre="cotton", packing=1 / (1.1 * FIBRES["cotton"].density))
    assert 25.4 / peirce_diameter("Ne 1").diameter_mm == pytest.approx(28)
    assert peirce_diameter("Ne 30").diameter_mm == pytest.approx(by_volume.diameter_mm, rel=0.5 / 28)


# Source: USSR/CIS interstate standard, "GOST 29250-91 Coarse linen and union fabrics", 1991, table,
# linen for painting No. 1 (row CG-11): 56 and 42 tex, 208 and 190 threads to 10 cm; its second copy
# (row CG-12): 196.3 g/m2 by the formula without crimp, inside 190 within 13.
def test_the_mean_yarn_of_the_painting_linen_lies_between_its_two():
    yarn = cloth_yarn("208 per 10 cm", "190 per 10 cm", Decimal("196.3"))
    mean = (208 * 56 + 190 * 42) / (208 + 190)
    assert float(yarn.tex) == pytest.approx(mean, rel=0.05 / 196.3)
    least, most = (float(cloth_yarn("208 per 10 cm", "190 per 10 cm", grams).tex) for grams in (177, 203))
    assert least <= mean <= most


# Source: N. Balasubramanian, "Useful conversion factors", n.d., Table I and miscellaneous (row CG-06):
# 23.25 times the sum of threads/in × (1 + crimp) / cotton count.
@pytest.mark.parametrize(
    ("sett", "count", "crimp"), [(1, 1, 0), (60, 20, Fraction(5, 100)), (28, 10, "12 %")]
)
def test_cloth_mass_from_sett_count_and_crimp(sett, count, crimp):
    share = Fraction(12, 100) if crimp == "12 %" else crimp
    grams = Fraction("23.25") * 2 * sett * (1 + share) / count
    yarn = cloth_yarn(Count(sett, Length("1 in")), f"{sett}/in", grams, crimp=crimp)
    assert float(yarn.cotton_count) == pytest.approx(count, rel=0.005 / 23.25)


# Source: John T. Taylor, Cotton Weaving and Designing, 6th ed., 1909 (per memory), stored page 453: a yarn
# of a quarter the count is twice as thick; the book halves its own rounded 213 (rows YD-09, YD-10).
def test_fifteens_are_twice_as_thick_as_sixties_by_taylor():
    assert threads_side_by_side("60 Ne") / threads_side_by_side("15 Ne") == pytest.approx(2)
    # Half of the tolerance of 213.
    assert threads_side_by_side("15 Ne") == pytest.approx(106.5, abs=0.25)
