"""Amounts as ranges, and the lengths to cut for them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import HemError, Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.stitch.amount import Amount, needlefuls

ranges = st.tuples(*[st.floats(0, 1e6)] * 3).map(sorted).map(lambda mm: Amount(*mm))


@given(ranges, st.sampled_from(sorted(MILLIMETRES)))
def test_the_printed_range_holds_the_whole_amount(amount, unit):
    words = amount.text(unit)
    assert words.endswith(f" {unit}")
    low, *rest = (float(word) for word in words.removesuffix(f" {unit}").split(" to "))
    high = rest[0] if rest else low
    size = float(MILLIMETRES[unit])
    assert low <= amount.low_mm / size * (1 + 1e-9)
    assert high >= amount.high_mm / size * (1 - 1e-9) - 1e-9
    # Two figures: never further out than a tenth.
    assert low >= 0.9 * amount.low_mm / size - 1e-9
    assert high <= 1.1 * amount.high_mm / size + 1e-9


@given(ranges, ranges)
def test_amounts_add_end_by_end(one, other):
    both = one + other
    assert both.low_mm == one.low_mm + other.low_mm
    assert both.middle_mm == one.middle_mm + other.middle_mm
    assert both.high_mm == one.high_mm + other.high_mm


@given(st.integers(1, 400), st.integers(1, 90), st.integers(0, 89), st.integers(0, 99))
def test_needlefuls_are_enough_and_one_fewer_is_not(full, working, ends, percent):
    if ends >= working:
        return
    each = (working - ends) * 10
    thread = each * (full - 1) + each * percent / 100
    cut = needlefuls(thread, Length(working * 10), Length(ends * 10))
    assert cut * each >= thread - 1e-6
    assert (cut - 1) * each < thread or cut == 0


def test_a_length_used_to_its_last_millimetre_needs_no_other():
    # 0.1 + 0.2 is a hair over 0.3 to the computer, not to the needle.
    assert needlefuls(10 * (0.1 + 0.2), Length(1), Length(0)) == 3
    assert needlefuls(0.0, Length(500), Length(100)) == 0
    assert needlefuls(math.nextafter(1200.0, 0), Length(500), Length(100)) == 3


def test_a_length_that_is_all_ends_is_refused():
    with pytest.raises(HemError, match="working is 13 cm, but must be longer than its start and end, 13 cm"):
        needlefuls(100.0, Length(130), Length(130))


def test_an_unknown_unit_is_refused():
    with pytest.raises(HemError, match="unit is 'ell'"):
        Amount(1.0, 2.0, 3.0).text("ell")


def test_one_figure_is_printed_where_both_ends_are_the_same():
    assert Amount(500.0, 500.0, 500.0).text("cm") == "50 cm"
    assert Amount(0.0, 0.0, 0.0).text("m") == "0 m"
