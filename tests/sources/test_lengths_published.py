"""Lengths against published figures: inch, yard, and how others round.

Tolerance: half the last digit printed; where a figure is exact by definition, none.
"""

from decimal import Decimal
from fractions import Fraction

import pytest

from hemcalc.exact import half_up
from hemcalc.lengths import MILLIMETRES, Length

# The international yard is 0.9144 m, exact, since 1 July 1959.
# Source: International yard (citing Federal Register 1 July 1959 and UK Act 1963 c. 31), Sizes, Inc., n.d.,
# entry.
# Source: Standard Tables of Conversion Factors and Equivalent Yarn Numbers Measured in Various Numbering
# Systems (D2260-03, reapproved 2013), ASTM International, 2013, Table 1 (scope page).
YARD = Decimal("0.9144")


def test_a_yard_is_0_9144_of_a_metre_exactly():
    assert Length.parse("1 yd") == Length.parse(f"{YARD} m")


def test_an_inch_is_the_36th_part_of_that_yard_25_4_mm_exactly():
    assert Length.parse("1 in").mm == Fraction(YARD) * 1000 / 36 == Fraction("25.4")


# The yard of 1893 to 1959, 3600/3937 m (from memory), was about 2 parts in a million longer.
# Source of the difference: International yard, Sizes, Inc., n.d., entry.
def test_a_yard_is_about_2_millionths_shorter_than_the_one_of_1893():
    older = Fraction(3600, 3937) * 1000
    assert float(older / MILLIMETRES["yd"] - 1) == pytest.approx(2e-6, abs=0.5e-6)


# 36 ft = 10.9728 m, printed in full; rounded there to 11.0 m.
# Source: Guide for the Use of the SI, NIST SP 811 (2008), A. Thompson & B. N. Taylor, 2008, B.7.2.
def test_36_feet_are_10_9728_metres():
    assert Length.parse("36 ft") == Length.parse("10.9728 m")


def test_36_feet_round_to_11_0_metres():
    tenths_of_a_metre = Length.parse("36 ft") / Length.parse("0.1 m")
    assert half_up(tenths_of_a_metre) == 110


# Napkin sizes named as parts of a yard: 5/8, 3/4 and 7/8 yd are 22.5, 27 and 31.5 in (derived).
# Source: Clothing and Health, Helen Kinne and Anna M. Cooley, c.1916 (not seen), buying linen list, item 7.
@pytest.mark.parametrize(
    ("yards", "inches"), [("5/8 yd", "22.5 in"), ("3/4 yd", "27 in"), ("7/8 yd", "31.5 in")]
)
def test_a_napkin_named_by_its_part_of_a_yard_has_these_inches(yards, inches):
    assert Length.parse(yards) == Length.parse(inches)


# A working thread of 40 to 50 cm is 15.7 to 19.7 in (derived).
# Source: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776 (orig. c.1886-90, not
# seen), The Thread.
@pytest.mark.parametrize(("metric", "inches"), [("40 cm", "15.7"), ("50 cm", "19.7")])
def test_a_working_thread_has_these_inches(metric, inches):
    assert float(Length.parse(metric).inches) == pytest.approx(float(inches), abs=0.05)


# Rounding where no half is left over: everybody agrees.
# Source: Rounding off as per IS 2:1960, concrete-engineering notes quoting Bureau of Indian Standards, 1960,
# rules I, II; Rounding of test results, Surgical Materials Testing Laboratory, n.d., examples.
@pytest.mark.parametrize(
    ("number", "step", "printed"),
    [
        ("4.36", "1", "4"),
        ("2.355", "1", "2"),
        ("15.205", "0.1", "15.2"),
        ("3.967", "0.01", "3.97"),
        ("3.943", "0.01", "3.94"),
        ("3.955", "0.01", "3.96"),
    ],
)
def test_a_number_rounds_as_printed(number, step, printed):
    assert half_up(Fraction(number) / Fraction(step)) * Fraction(step) == Fraction(printed)


# A half left over: the published rules keep the even digit, 3.965 → 3.96; hemcalc rounds it up, 3.965 → 3.97.
# Half to even serves the mean of many readings. A stitcher rounds one hem, and needs a rule that she can do
# in her head, the same at 10 1/2 threads as at 11 1/2 (common practice of the trade, no published source).
# Source: Rounding of test results, Surgical Materials Testing Laboratory, n.d., examples;
# tie rule: IS 2:1960 Rules for rounding off numerical values (summary), Bureau of Indian Standards, 1960,
# rules 1-2.
def test_a_half_goes_up_where_the_published_rule_keeps_the_even_digit():
    number, step = Fraction("3.965"), Fraction("0.01")
    to_even = round(number / step) * step  # Python's round keeps the even digit, as the rule does
    assert to_even == Fraction("3.96")
    assert half_up(number / step) * step == Fraction("3.97")


# Binary floats break a tie before any rule sees it: 2.15 is stored as 2.14999...
# Source: Rounding of test results, Surgical Materials Testing Laboratory, n.d., examples.
def test_2_15_is_a_tie_for_a_fraction_and_none_for_a_float():
    assert Fraction(2.15) < Fraction("2.15")
    assert half_up(Fraction("2.15") * 10) == 22
