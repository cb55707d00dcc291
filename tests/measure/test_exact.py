"""Whole threads, exact numbers and their rounding."""

import decimal
import math
from decimal import Decimal
from fractions import Fraction
from functools import partial

import numpy as np
import pytest
from cases import for_each, held_to_its_limit
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError, several
from hemcalc.measure.exact import (
    MAX_THREADS,
    decimal_text,
    exact_number,
    half_up,
    leading_number,
    round_up,
    whole_threads,
)
from hemcalc.measure.lengths import Length
from hemcalc.measure.measured import measured_mm
from hemcalc.measure.readings import as_confidence

NUMBERS = st.fractions(min_value=0, max_value=10**6, max_denominator=10**6)

# Whole threads

WHOLE = [0, 1, MAX_THREADS, np.int64(8), np.uint8(8), Fraction(16), Decimal(16), Decimal("16.0")]


@for_each("value", WHOLE)
def test_whole_threads_come_back_as_a_plain_int(value):
    threads = whole_threads(value, "clear")
    assert threads == value
    assert type(threads) is int


@for_each(
    ("value", "quoted"),
    [
        (8.0, "8.0, a float, which may hide a fraction"),
        (8.5, "8.5"),
        (True, "True"),
        ("8", "'8'"),
        (Fraction(17, 2), "17/2"),
        (-1, "-1"),
    ],
)
def test_what_is_no_whole_number_of_threads_is_refused(value, quoted):
    with pytest.raises(HemError) as caught:
        whole_threads(value, "clear")
    assert str(caught.value) == (
        f"clear is {quoted}, but must be a whole number of threads, 0 or more; for example 8."
    )
    assert caught.value.about == "clear"


def test_more_threads_than_can_be_planned_are_refused():
    with pytest.raises(
        HemError, match=r"^clear is 10000001, but at most 10,000,000 threads can be planned; "
    ):
        whole_threads(MAX_THREADS + 1, "clear")


@pytest.mark.parametrize("value", [1, 7], ids=str)
def test_threads_outside_a_span_are_told_the_span(value):
    with pytest.raises(
        HemError, match=r"^group is \d, but must be a whole number of threads, from 2 to 6; for"
    ):
        whole_threads(value, "group", least=2, most=6, example=4)


def test_the_caller_may_name_what_else_it_takes():
    with pytest.raises(HemError, match=r"threads, 0 or more, or a length such as '1/2 in'; for example 8\.$"):
        whole_threads(8.5, "turn", otherwise=", or a length such as '1/2 in'")


# Exact numbers


@pytest.mark.parametrize(
    ("value", "exact"),
    [
        pytest.param(3, Fraction(3), id="int"),
        pytest.param(Fraction(3, 8), Fraction(3, 8), id="fraction"),
        pytest.param(Decimal("9.5"), Fraction(19, 2), id="decimal"),
        pytest.param(Decimal("0e-9999999"), Fraction(0), id="nought of a huge exponent"),
        pytest.param(np.int64(3), Fraction(3), id="64-bit int"),
    ],
)
def test_exact_numbers_are_kept_as_they_are(value, exact):
    assert exact_number(value, "mm") == exact


def test_a_64_bit_number_does_not_wrap_round():
    assert exact_number(np.int64(2**62), "mm") * 4 == 2**64


@for_each("value", [0.1, math.nan, True, "3", None, Decimal("NaN"), Decimal("1e99")])
def test_an_inexact_number_is_refused(value):
    with pytest.raises(HemError) as caught:
        exact_number(value, "mm")
    assert str(caught.value).endswith(
        "but must be an exact number of ordinary size, an int, a Fraction or a Decimal; "
        "for example Fraction(3, 8)."
    )


# The number that a text begins with


@for_each(
    ("text", "number", "rest"),
    [
        ("3/8 in", Fraction(3, 8), "in"),
        ("3 / 8in", Fraction(3, 8), "in"),
        ("1 1/2 in", Fraction(3, 2), "in"),
        ("1-1/2 in", Fraction(3, 2), "in"),
        ("1 - 1/2 in", Fraction(3, 2), "in"),
        ("  12  ", Fraction(12), ""),
        ('0.375"', Fraction(3, 8), '"'),
        (".5 in", Fraction(1, 2), "in"),
        ("5. in", Fraction(5), "in"),
        ("9,5 mm", Fraction(19, 2), "mm"),
        (",5 mm", Fraction(1, 2), "mm"),
        ("0,125 in", Fraction(1, 8), "in"),
        ("1234,567 mm", Fraction(1234567, 1000), "mm"),
        ("1.500 mm", Fraction(3, 2), "mm"),
        ("½ in", Fraction(1, 2), "in"),
        ("1½in", Fraction(3, 2), "in"),
        ("1 ½ in", Fraction(3, 2), "in"),
        ("⅜ in", Fraction(3, 8), "in"),
        ("⅟8 in", Fraction(1, 8), "in"),
        ("3⁄8 in", Fraction(3, 8), "in"),
        ("1 3⁄8 in", Fraction(11, 8), "in"),
        ("½5 in", Fraction(1, 2), "5 in"),
        ("1/2½ in", Fraction(1, 2), "1/2  in"),
        ("0/5 in", Fraction(0), "in"),
        ("1e3 mm", Fraction(1), "e3 mm"),
        ("some cloth", None, "some cloth"),
        ("-3 mm", None, "-3 mm"),
        ("+3 mm", None, "+3 mm"),
        ("٣ cm", None, "٣ cm"),
        ("３ cm", None, "３ cm"),
        ("", None, ""),
    ],
)
def test_a_number_is_read_as_people_type_it(text, number, rest):
    assert leading_number(text, "hem") == (number, rest)


NO_MIXED = "must be less than 1, since it stands behind a whole number; for example '1 1/2'."


@for_each(
    ("text", "words"),
    [
        (
            "1,500 mm",
            "The comma in '1,500 mm' may mean thousands or a decimal, so write a point or leave it out; "
            "for example '1.5' or '1500'.",
        ),
        (
            "3/0 in",
            "The fraction in '3/0 in' has 0 below its line, which no fraction can; for example '3/8'.",
        ),
        ("1 9/8 in", f"The fraction in '1 9/8 in' {NO_MIXED}"),
        ("1 8/8 in", f"The fraction in '1 8/8 in' {NO_MIXED}"),
        (
            "x" * 81,
            "A text of 81 characters is too long, since 80 are enough for any size; for example '3/8 in'.",
        ),
    ],
)
def test_a_doubtful_number_is_refused_rather_than_guessed(text, words):
    with pytest.raises(HemError) as caught:
        leading_number(text, "hem")
    assert str(caught.value) == words
    assert caught.value.about == "hem"


def test_a_text_of_eighty_characters_is_still_read():
    assert leading_number("9" * 78 + "mm", "hem") == (10**78 - 1, "mm")


@given(whole=st.integers(0, 999), top=st.integers(1, 63), bottom=st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_a_mixed_number_is_the_sum_of_its_parts(whole, top, bottom):
    top %= bottom
    assert leading_number(f"{whole} {top}/{bottom} in", "hem") == (whole + Fraction(top, bottom), "in")


@given(st.decimals(min_value=0, max_value=10**9, places=4))
def test_a_decimal_number_is_read_exactly(number):
    assert leading_number(f"{number} cm", "hem") == (Fraction(number), "cm")


# Rounding


def by_decimal(number: Fraction, step: str, rounding: str) -> Decimal:
    """Round as the decimal module does: a reference with its own code."""
    with decimal.localcontext(prec=60):
        exact = Decimal(number.numerator) / Decimal(number.denominator)
        return exact.quantize(Decimal(step), rounding=rounding)


@for_each(
    ("number", "rounded"),
    [
        (Fraction(1, 2), 1),
        (Fraction(3, 2), 2),
        (Fraction(5, 2), 3),
        (Fraction(21, 2), 11),
        (Fraction(52, 5), 10),
    ],
)
def test_a_half_goes_up_whatever_stands_before_it(number, rounded):
    assert half_up(number) == rounded


@given(NUMBERS)
def test_rounding_half_up_agrees_with_the_decimal_module(number):
    assert half_up(number) == by_decimal(number, "1", decimal.ROUND_HALF_UP)


@given(NUMBERS)
def test_a_rounded_number_is_off_by_half_at_most(number):
    assert -Fraction(1, 2) <= number - half_up(number) < Fraction(1, 2)


@given(number=NUMBERS, step=st.sampled_from([Fraction(1), Fraction(1, 8), Fraction(1, 2), Fraction(127, 40)]))
def test_rounding_up_gives_the_smallest_multiple_that_is_not_below(number, step):
    rounded = round_up(number, step)
    assert (rounded / step).denominator == 1
    assert number <= rounded < number + step


@given(NUMBERS)
def test_a_number_in_words_is_its_nearest_hundredth(number):
    text = decimal_text(number)
    assert Decimal(text) == by_decimal(number, "0.01", decimal.ROUND_HALF_UP)
    assert "." not in text or text[-1] not in "0."


#: At the first a thing is taken, at the second no more; and what is said of that.
LIMITS = [
    (as_confidence, "50 %", "49.9 %", "from 50 % to 99.9 %"),
    (as_confidence, "99.9 %", "99.91 %", "from 50 % to 99.9 %"),
    (partial(whole_threads, about="clear"), 10**7, 10**7 + 1, "at most 10,000,000 threads can be planned"),
    (lambda signs: Length("4 mm".zfill(signs)), 80, 81, "A text of 81 characters is too long, since 80 "),
    (lambda signs: Count("28/in".zfill(signs)), 80, 81, "A text of 81 characters is too long, since 80 "),
    (
        lambda many: several(range(many), "hems", "numbers", "range(4, 17)"),
        *(10_000, 10_001, "hems has more than 10,000 numbers"),
    ),
    (partial(measured_mm, about="group"), 1000, 1000.01, "at most 1000 mm"),
    (Length, 10**10, 10**10 + 1, "10,000 km or less"),
    (Count, "1/in", "0.99/in", "of threads, from 1 to 1000 to the inch"),
    (Count, "1000/in", "1001/in", "of threads, from 1 to 1000 to the inch"),
]


@for_each(("make", "taken", "refused", "said"), LIMITS)
def test_at_a_limit_a_thing_is_taken_and_just_beyond_it_the_limit_is_said(make, taken, refused, said):
    held_to_its_limit(make, taken, refused, said)
