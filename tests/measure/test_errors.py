"""Errors: one kind, one sentence, short, and nothing else ever comes out of a public call."""

import math
import operator
import pickle
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each
from hostile import LONG_NAME, NAMELESS, Hostile, LyingWhole, any_text
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure import Count, HemError, Length
from hemcalc.measure.errors import one_of, parts_of, shown

# The error itself


def test_an_error_is_a_value_error_that_knows_its_input():
    error = HemError("The hem must be 1 thread or more; for example 16.", about="hem")
    assert isinstance(error, ValueError)
    assert (str(error), error.about) == ("The hem must be 1 thread or more; for example 16.", "hem")
    assert HemError("It is wrong.").about == ""


def test_an_error_survives_pickling_with_the_name_of_its_input():
    error = pickle.loads(pickle.dumps(HemError("The hem is wrong.", about="hem")))
    assert (str(error), error.about) == ("The hem is wrong.", "hem")


@pytest.mark.parametrize(
    ("value", "words"),
    [
        pytest.param("3/8", "'3/8'", id="text"),
        pytest.param('3/8"', "'3/8\"'", id="text with an inch sign"),
        pytest.param("5'", '"5\'"', id="text with a foot sign"),
        pytest.param("5' 3\"", "'5' 3\"'", id="text with both signs"),
        pytest.param("a\nb\tc", "'a b c'", id="text of several lines"),
        pytest.param("a\x00b\u202ec", "'a\N{REPLACEMENT CHARACTER}b\N{REPLACEMENT CHARACTER}c'", id="unseen"),
        pytest.param("\ud800", "'\N{REPLACEMENT CHARACTER}'", id="half a surrogate"),
        pytest.param("x" * 40, "'" + "x" * 40 + "'", id="text that just fits"),
        pytest.param("x" * 41, "'" + "x" * 39 + "…'", id="text that does not"),
        pytest.param("\x00" * 500, "'" + "\N{REPLACEMENT CHARACTER}" * 39 + "…'", id="long unseen text"),
        pytest.param(None, "None", id="None"),
        pytest.param(True, "True", id="True"),
        pytest.param(8.5, "8.5", id="float"),
        pytest.param(math.nan, "nan", id="nan"),
        pytest.param(-math.inf, "-inf", id="minus infinity"),
        pytest.param(8, "8", id="int"),
        pytest.param(LyingWhole(8), "8", id="int that won't print"),
        pytest.param(10**15 - 1, "999999999999999", id="15 digits"),
        pytest.param(10**15, "a number of about 16 digits", id="16 digits"),
        pytest.param(-(10**5000), "a negative number of about 5001 digits", id="huge negative int"),
        pytest.param(Fraction(3, 8), "3/8", id="fraction"),
        pytest.param(Fraction(8), "8", id="whole fraction"),
        pytest.param(Fraction(1, 10**5000), "a fraction of about 5001 digits", id="fine fraction"),
        pytest.param(
            Fraction(-(10**5000), 3), "a negative fraction of about 5001 digits", id="huge fraction"
        ),
        pytest.param(Decimal("9.5"), "9.5", id="decimal"),
        pytest.param(Decimal("1." + "3" * 99), "1." + "3" * 37 + "…", id="long decimal"),
        pytest.param([1, 2], "a list", id="list"),
        pytest.param({}, "a dict", id="dict"),
        pytest.param(object(), "an object", id="object"),
        pytest.param(b"3/8", "a bytes object", id="bytes"),
        pytest.param(Hostile(), "a Hostile", id="hostile"),
        pytest.param(NAMELESS, "a nameless object", id="nameless"),
        pytest.param(LONG_NAME, "a " + "Long" * 10, id="long name"),
    ],
)
def test_a_value_is_quoted_so_that_a_sentence_stays_short_and_on_one_line(value, words):
    assert shown(value) == words


@given(st.one_of(any_text(), st.integers(), st.floats(), st.decimals(), st.fractions(), st.binary()))
def test_a_quoted_value_is_never_longer_than_a_line(value):
    assert len(shown(value)) <= 42 + len("negative")
    assert shown(value).isprintable()


def test_one_of_gives_the_word_back():
    assert one_of("cm", ("in", "cm", "mm"), "unit") == "cm"


@for_each("value", ["CM", "", None, 3, ["cm"], Hostile()])
def test_one_of_names_the_words_that_it_takes(value):
    with pytest.raises(HemError) as caught:
        one_of(value, ("in", "cm", "mm"), "unit")
    assert str(caught.value) == (
        f"unit is {shown(value)}, but must be one of 'in', 'cm', 'mm'; for example 'in'."
    )
    assert caught.value.about == "unit"


@for_each("value", [224, "22", (1,), (1, 2, 3), {1, 2}, None])
def test_a_pair_that_is_none_is_refused_by_its_name(value):
    with pytest.raises(HemError, match="but must be two whole numbers, across and down; for example") as no:
        parts_of(value, "design", 2, "two whole numbers, across and down", (224, 168))
    assert no.value.about == "design"


@for_each("other", [5, "3/8 in", None, Fraction(381, 40), Hostile, Count("28/in")])
def test_a_length_equals_nothing_that_is_no_length(other):
    assert operator.ne(Length("3/8 in"), other)
    assert not operator.eq(Length("3/8 in"), other)
