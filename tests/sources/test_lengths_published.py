"""Lengths against published figures: what follows from the yard, and how others round.

The figures themselves are rows of data/, each with a test in test_rows.py.
"""

from fractions import Fraction

import pytest

from hemcalc.books.rows import read_rows
from hemcalc.measure.exact import half_up
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES

ROWS = {row.id: row for row in read_rows()}


# The yard, row UN-01, is exact.
def test_an_inch_is_the_36th_part_of_that_yard_25_4_mm_exactly():
    assert Length("1 in").mm == Fraction(ROWS["UN-01"].expected) * 1000 / 36 == Fraction("25.4")


# The yard of 1893 to 1959, 3600/3937 m (from memory), was about 2 parts in a million longer.
# Source of the difference: International yard, web page, author not named, n.d., entry.
def test_a_yard_is_about_2_millionths_shorter_than_the_one_of_1893():
    older = Fraction(3600, 3937) * 1000
    assert float(older / MILLIMETRES["yd"] - 1) == pytest.approx(2e-6, abs=0.5e-6)


# A half left over: the published rules keep the even digit, row UN-09-3.965, and hemcalc rounds it up.
# Half to even serves the mean of many readings. A stitcher rounds one hem, and needs a rule that she can do
# in her head, the same at 10 1/2 threads as at 11 1/2 (common practice of the trade, no published source).
# Source of the rule: IS 2:1960 Rules for rounding off numerical values (summary), Bureau of Indian
# Standards, 1960, rules 1-2.
def test_a_half_goes_up_where_the_published_rule_keeps_the_even_digit():
    row = ROWS["UN-09-3.965"]
    ties = Fraction(row.inputs["number"]) / Fraction(row.inputs["step"])
    # Python's round keeps the even digit, as the rule does.
    assert round(ties) * Fraction(row.inputs["step"]) == Fraction(row.expected)
    assert half_up(ties) == round(ties) + 1


# Binary floats break a tie before any rule sees it: 2.15 is stored as 2.14999...
# Source: Rounding of test results, Surgical Materials Testing Laboratory, n.d., examples.
def test_2_15_is_a_tie_for_a_fraction_and_none_for_a_float():
    assert Fraction(2.15) < Fraction("2.15")
    assert half_up(Fraction("2.15") * 10) == 22
