"""Numbers that become floats: which are taken, what stays an exact share, what is refused."""

import math
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure import HemError, Length
from hemcalc.measure.measured import finite_number, measured_mm, share

NO_NUMBERS = [None, True, "8", [1], float("nan"), float("inf"), 10**400, Decimal("sNaN"), 1j, b"1"]


@for_each("value", [v for v in NO_NUMBERS if v != "8"])
def test_what_is_no_length_is_refused_in_one_sentence(value):
    with pytest.raises(HemError, match=r"thickness is .* mm; for example '0.5 mm'"):
        measured_mm(value, "thickness")


def test_a_bare_text_number_is_no_length():
    with pytest.raises(HemError, match="has no unit"):
        measured_mm("8", "thickness")


def test_a_length_its_text_and_its_millimetres_are_the_same():
    assert (
        measured_mm(Length(Fraction(1, 2)), "t") == measured_mm("0.5 mm", "t") == measured_mm(0.5, "t") == 0.5
    )


@for_each("zero", [0, 0.0, "0 mm", Length(0)])
def test_nothing_is_a_length_only_where_no_size_is_needed(zero):
    assert measured_mm(zero, "depth", size=False) == 0
    with pytest.raises(HemError, match="more than"):
        measured_mm(zero, "depth")


def test_no_measured_length_is_over_a_metre():
    assert measured_mm(1000, "pitch") == 1000
    with pytest.raises(HemError):
        measured_mm("1001 mm", "pitch")


@given(st.integers(0, 10000))
def test_a_share_reads_the_same_in_every_way_of_writing_it(hundredths):
    exact = Fraction(hundredths, 10000)
    decimal = Decimal(hundredths) / 10000
    assert share(exact, "s") == share(decimal, "s") == share(float(decimal), "s") == exact
    assert share(f"{decimal * 100:f} %", "s") == share(f"{decimal:f}", "s") == exact
    assert share(np.float64(decimal), "s") == exact
    for per_cent in ("%", "per cent", " Percent"):
        assert share(f"{decimal * 100:f}{per_cent}", "s") == exact


@for_each("value", [*NO_NUMBERS[:2], *NO_NUMBERS[3:], "8", "15 mm", "-1 %", -0.1, 1.01, "101 %", ""])
def test_what_is_no_share_is_refused_in_one_sentence(value):
    with pytest.raises(HemError, match=r"waste is .* must be a share from 0 % to 100 %; for example '15 %'"):
        share(value, "waste")


NUMBERS = [1, 1.5, Fraction(3, 2), Decimal("1.5"), np.float64(1.5), np.int64(1), -2, 0]


@for_each("value", NUMBERS)
def test_any_kind_of_number_comes_back_as_a_float(value):
    number = finite_number(value, "angle")
    assert type(number) is float
    assert number == float(value)


@for_each("value", [*NO_NUMBERS, False, np.True_, "", -math.inf])
def test_what_is_no_finite_number_is_refused(value):
    with pytest.raises(HemError, match=r"^angle is .*, but must be a number; for example 1\.$") as refused:
        finite_number(value, "angle")
    assert refused.value.about == "angle"


@given(st.floats(-5, 5), st.booleans())
def test_the_bounds_are_allowed_but_for_a_least_that_must_be_passed(value, above):
    inside = -1 < value <= 2 or (value == -1 and not above)
    if inside:
        assert finite_number(value, "turn", least=-1, most=2, above=above) == value
    else:
        with pytest.raises(HemError, match="more than -1 and at most 2" if above else "from -1 to 2"):
            finite_number(value, "turn", least=-1, most=2, above=above)


def test_the_least_itself_is_refused_only_if_it_must_be_passed():
    assert finite_number(0, "angle", least=0, most=1) == 0
    for value in (0, 1.0000001):
        with pytest.raises(HemError, match=r"more than 0 and at most 1; for example 0\.5"):
            finite_number(value, "angle", least=0, most=1, above=True, example=0.5)
