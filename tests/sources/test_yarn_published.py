"""Yarn numbers, diameters and cloth against published figures.

Beside each figure stands its source; a figure is compared to half the last digit printed,
unless the row says otherwise.
"""

import math
from decimal import Decimal
from fractions import Fraction

import pytest

from hemcalc.cloth_yarn import cloth_yarn, measured_crimp
from hemcalc.counts import Count
from hemcalc.diameter import (
    FIBRES,
    PACKING,
    diameter_by_volume,
    peirce_diameter,
    specific_volume,
    threads_side_by_side,
    touching_diameter,
)
from hemcalc.lengths import Length
from hemcalc.yarn import LinearDensity
from hemcalc.yarn_systems import GRAMS_PER_POUND

D2260 = (
    "ASTM International, Standard Tables of Conversion Factors and Equivalent Yarn Numbers Measured in "
    "Various Numbering Systems (D2260-03, reapproved 2013), 2013, Table 1 (scope page)"
)


def printed(figure):
    """A printed figure, to half its last digit."""
    return pytest.approx(float(figure), abs=float(Decimal(1).scaleb(Decimal(figure).as_tuple().exponent)) / 2)


def number(text, system):
    return float(LinearDensity.parse(text).number(system))


# Source: D2260 above. Rows LD-01 to LD-04, LD-08 to LD-10.
@pytest.mark.parametrize(
    ("row", "text", "system", "factor"),
    [
        ("LD-01 denier from tex", "1 tex", "den", "9"),
        ("LD-02 cotton count from metric count", "1 Nm", "Ne", "0.590541"),
        ("LD-03 linen lea from metric count", "1 Nm", "lea", "1.65352"),
        ("LD-04 linen lea from cotton count", "1 Ne", "lea", "2.8"),
    ],
)
def test_conversion_factors_of_the_standard_tables(row, text, system, factor):
    assert number(text, system) == printed(factor), (row, D2260)


# Source: D2260 above.
def test_the_exact_factors_of_the_standard_tables_are_exact():
    one = LinearDensity.parse
    assert one("1 tex").denier == 9
    assert one("Ne 1").linen_lea == Fraction(28, 10)
    assert one("1 lea").yards_per_pound == 300
    assert one("1 Ne").yards_per_pound == 840


# Source: D2260 above, row LD-10.
def test_yards_per_pound_of_metric_count_one():
    assert float(LinearDensity.parse("1 Nm").yards_per_pound) == printed("496.055")


# Source: Wikipedia, "International yard and pound", n.d., lead (row UN-02); ASTM International,
# D2260-03, 2013, footnote of the table (row LD-14), for the yard.
def test_pound_and_yard_by_definition():
    assert Fraction("453.59237") == GRAMS_PER_POUND
    assert Length.parse("1 yd").mm == Fraction("914.4")


# Source: Shawl Weaving Artisan - Trade Theory, vocational trade-theory textbook (issuing body not
# shown in stored copy), n.d., p. 72 (row LD-18).
def test_tex_of_the_shawl_weavers_sixty_metric():
    assert number("60 Nm", "tex") == printed("16.67")


# Source: "Ring spinning: yarn count systems", educational topic map (web), n.d., topic page (row
# LD-21); 590.5 / 30.
def test_tex_of_thirties_cotton():
    assert number("Ne 30", "tex") == printed("19.7")
    assert number("Ne 1", "tex") == printed("590.5")


# Source: "Lea", Museum of Fine Arts, Boston (CAMEO materials database), n.d., entry (row LD-23); the
# definition also in "Lea", Encyclopedic Dictionary of Polymers (quoting Kadolph & Langford 2001),
# Springer, 2011 (per memory), entry 6824 (row LD-22).
def test_yards_in_a_pound_of_ten_lea_linen():
    assert LinearDensity.parse("10 lea").yards_per_pound == 3000


# Source: NEN / ISO TC 38, "NEN 22947 / ISO 2947 Tex System - conversion table for traditional yarn
# numbers", 1974, scope (row LD-26): a rounded tex within 2 % of the exact one.
@pytest.mark.parametrize("text", ["Ne 7", "Ne 30", "Ne 107", "Nm 13", "14 lea", "66 lea", "1000 den"])
def test_a_printed_tex_stays_within_the_rounding_allowed(text):
    yarn = LinearDensity.parse(text)
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


# Source: as the two rows above, and W. E. Morton & J. W. S. Hearle, Physical Properties of Textile
# Fibres, 4th ed., 2008, Table 5.1 (section 5.3) (row YD-01): cotton 1.52 g/cm3.
def test_the_default_packing_is_what_those_two_make_to_one_digit():
    assert FIBRES["cotton"].density == 1.52
    assert printed(str(PACKING)) == 1 / (1.1 * 1.52)


# Source: Nature portfolio, "Recent advances in biodegradable polymers for sustainable applications
# (npj Materials Degradation)", 2022, Table 3 (row YD-02): flax 1.4 to 1.5; 1.50 to 1.54 from memory.
def test_flax_is_as_dense_as_the_printed_range_allows():
    assert 1.4 <= FIBRES["flax"].density <= 1.5


# Source: "GATE Textile 2005 solutions, Q71", textile examination notes, 2005, worked solution (row
# YD-08): 20 tex, about 0.2 mm.
def test_specific_volume_of_the_examination_yarn():
    assert specific_volume("20 tex", "0.2 mm") == printed("1.57")


# Source: John T. Taylor, Cotton Weaving and Designing, 6th ed., 1909 (per memory), table of diameters
# (stored pages 453, 458) (rows YD-09, YD-11).
@pytest.mark.parametrize(("cotton", "threads"), [("60 Ne", "213"), ("32 Ne", "156")])
def test_threads_side_by_side_by_taylor(cotton, threads):
    assert threads_side_by_side(cotton) == printed(threads)
    assert 25.4 / touching_diameter(cotton).diameter_mm == printed(threads)


# Source: as above, stored page 453 (row YD-10). The book halves its own rounded 213 for a yarn of a
# quarter the count; unrounded it is 106.64. So half the tolerance of 213, not half of the last digit.
def test_fifteens_are_twice_as_thick_as_sixties_by_taylor():
    assert threads_side_by_side("15 Ne") == pytest.approx(106.5, abs=0.25)
    assert threads_side_by_side("60 Ne") / threads_side_by_side("15 Ne") == pytest.approx(2)


# Source: "Ashenhurst's formula", medieval-textiles study group notes, 1999, example (row YD-15): 8/2
# cotton, 3360 yd/lb, a tenth off the root.
def test_threads_side_by_side_by_ashenhurst():
    cotton = LinearDensity.parse("Ne 8/2")
    assert cotton.yards_per_pound == 3360
    assert threads_side_by_side(cotton, less="10 %") == printed("52")


# Source: USSR state standard, "GOST 737-69 Cotton cloth tiftik-VOD, technical conditions", 1969,
# indices 1-7 (row CG-13): 27 tex x 5 both ways, 0.8 mm within 0.1; a twill, so only indicative.
def test_two_diameters_are_that_cloths_thickness():
    yarn = diameter_by_volume("27 tex x 5", fibre="cotton", packing=1 / (1.1 * FIBRES["cotton"].density))
    assert 2 * yarn.diameter_mm == pytest.approx(0.8, abs=0.1)


# Source: as above (row CG-14): 522 g/m2, 200 ends and 154 picks to 10 cm; the mean crimp of 9.2 % is
# derived from it.
def test_the_yarn_of_that_cloth_from_its_mass_and_crimp():
    yarn = cloth_yarn("200 per 10 cm", "154 per 10 cm", 522, crimp="9.2 %")
    assert float(yarn.tex) == printed("135")


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
    yarn = cloth_yarn(Count(sett, Length.parse("1 in")), f"{sett}/in", grams, crimp=crimp)
    assert float(yarn.cotton_count) == pytest.approx(count, rel=0.005 / 23.25)


# Source: K. Vanderlip Carbonnel, "A study of French painting canvases, JAIC 20(1)", 1980, Part III
# (rows TC-07, TC-08); the mean threads of 82 and 109 tex, before crimp, are derived.
@pytest.mark.parametrize(
    ("across", "down", "grams", "tex"), [("20/cm", "20/cm", 328, "82"), ("28/cm", "22.5/cm", 550, "109")]
)
def test_mean_threads_of_old_canvases(across, down, grams, tex):
    assert float(cloth_yarn(across, down, grams).tex) == printed(tex)


# Source: N. Balasubramanian, "Yarn and cloth (fabric geometry, after Peirce, J. Text. Inst. 1937,
# T45)", n.d., Fabric geometry section (row CG-04): jammed square plain cloth, l/D 1.0472, p/D 0.866.
def test_crimp_of_the_jammed_square_cloth():
    assert float(measured_crimp("1.0472 m", "0.866 m")) == printed("0.2092")
