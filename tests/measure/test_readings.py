"""Confidences, and Student's t held against another library."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from hemcalc.measure.errors import HemError
from hemcalc.measure.readings import SURE, as_confidence, students_t

CONFIDENCES = st.fractions(Fraction(1, 2), Fraction(999, 1000), max_denominator=1000)


@given(CONFIDENCES, st.integers(1, 400))
def test_students_t_is_what_another_library_gives(confidence, freedom):
    theirs = stats.t.ppf((1 + float(confidence)) / 2, freedom)
    assert students_t(confidence, freedom) == pytest.approx(theirs, rel=1e-9)


@given(CONFIDENCES, CONFIDENCES, st.integers(1, 100))
def test_surer_is_wider_and_more_freedom_is_narrower(one, other, freedom):
    assert students_t(min(one, other), freedom) <= students_t(max(one, other), freedom)
    assert students_t(one, freedom + 1) < students_t(one, freedom)


@pytest.mark.parametrize("given_as", ["95 %", "95%", "0.95", 0.95, Fraction(19, 20), "19/20"], ids=repr)
def test_a_confidence_may_be_written_as_any_share(given_as):
    assert as_confidence(given_as) == SURE


@pytest.mark.parametrize("given_as", ["100 %", 1, "49.9 %", 0, 95, "95", "sure", None, True, -0.95], ids=repr)
def test_what_is_no_confidence_is_told_why(given_as):
    with pytest.raises(
        HemError, match=r"^confidence is .*, but must be from 50 % to 99\.9 %, since no"
    ) as no:
        as_confidence(given_as)
    assert no.value.about == "confidence"
