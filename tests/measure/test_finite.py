"""Numbers that become floats: which are taken, which are refused, and how."""

import math
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.measure.finite import finite_number

NUMBERS = [1, 1.5, Fraction(3, 2), Decimal("1.5"), np.float64(1.5), np.int64(1), -2, 0]
NONE = [
    True,
    False,
    np.True_,
    None,
    "1",
    "",
    1j,
    math.nan,
    math.inf,
    -math.inf,
    Decimal("sNaN"),
    10**400,
    [1],
]


@pytest.mark.parametrize("value", NUMBERS, ids=repr)
def test_any_kind_of_number_comes_back_as_a_float(value):
    number = finite_number(value, "angle")
    assert type(number) is float
    assert number == float(value)


@pytest.mark.parametrize("value", NONE, ids=lambda value: str(value)[:9])
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
    with pytest.raises(HemError, match=r"more than 0 and at most 1; for example 0\.5"):
        finite_number(0, "angle", least=0, most=1, above=True, example=0.5)
