"""Lengths: what people type, exact sums, and what is printed."""

import copy
import pickle
from decimal import Decimal
from fractions import Fraction
from itertools import product

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st
from units_elsewhere import elsewhere

from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import FINEST_MARK, RULER_MARK, Length, as_length
from hemcalc.measure.states import State
from hemcalc.measure.units import MILLIMETRES, SPELLINGS, unit_named

EXAMPLE = "for example '3/8 in', '1 cm' or '9.5 mm'."
LENGTHS = st.fractions(min_value=0, max_value=10**6, max_denominator=10**4).map(Length)
SIZES = LENGTHS.filter(bool)
FACTORS = st.fractions(min_value=0, max_value=10**3, max_denominator=10**3)

# What people type


@for_each(
    ("text", "mm"),
    [
        ("3/8 in", Fraction(381, 40)),
        ("1 1/2 in", Fraction(381, 10)),
        ('0.375"', Fraction(381, 40)),
        ("½ inch", Fraction(127, 10)),
        ("½ in.", Fraction(127, 10)),
        ("1½ inches", Fraction(381, 10)),
        ("1-1/2 ins", Fraction(381, 10)),
        ("3/8''", Fraction(381, 40)),
        ("3/8″", Fraction(381, 40)),
        ("3/8 ′′", Fraction(381, 40)),
        ("3/8”", Fraction(381, 40)),
        ("3/8 IN", Fraction(381, 40)),
        ("1 cm", Fraction(10)),
        ("1cm.", Fraction(10)),
        ("2 centimetres", Fraction(20)),
        ("2 Centimeters", Fraction(20)),
        ("9.5 mm", Fraction(19, 2)),
        ("9,5mm", Fraction(19, 2)),
        ("10 millimetres", Fraction(10)),
        ("1.5 m", Fraction(1500)),
        ("1 metre", Fraction(1000)),
        ("1 ft", Fraction(3048, 10)),
        ("2 feet", Fraction(6096, 10)),
        ("1 yd", Fraction(9144, 10)),
        ("2 yards", Fraction(18288, 10)),
        ("  3/8\N{NO-BREAK SPACE}in \n", Fraction(381, 40)),
        ("0 mm", Fraction(0)),
    ],
)
def test_a_length_is_read_as_people_type_it(text, mm):
    assert Length(text).mm == mm


EMPTY = "The length is empty, but it needs a number and a unit;"
BEGINS = "must begin with a number, in the figures 0 to 9, and end in a unit;"
ONE_UNIT = "behind its number, but one unit must stand there, in, cm, mm, m, ft or yd;"


@for_each(
    ("text", "words"),
    [
        ("", EMPTY),
        (" \t\n", EMPTY),
        *(
            (f"{sign}3 mm", f"The length '{sign}3 mm' is negative, but it must be 0 or more;")
            for sign in "-−–－"
        ),
        ("3/8", "The length '3/8' has no unit, but it needs in, cm, mm, m, ft or yd;"),
        *((text, f"The length '{text}' {BEGINS}") for text in ("wide", "３ cm", "+3 mm")),
        ("3 ells", f"The length '3 ells' has 'ells' {ONE_UNIT}"),
        ("1 ft 3 in", f"The length '1 ft 3 in' has 'ft 3 in' {ONE_UNIT}"),
        ("5' 3\"", f"The length '5' 3\"' has '' 3\"' {ONE_UNIT}"),
        ("1e3 mm", f"The length '1e3 mm' has 'e3 mm' {ONE_UNIT}"),
        ("1 000 mm", f"The length '1 000 mm' has '000 mm' {ONE_UNIT}"),
    ],
)
def test_a_text_that_is_no_length_is_told_why(text, words):
    with pytest.raises(HemError) as caught:
        Length(text)
    assert str(caught.value) == f"{words} {EXAMPLE}"


def test_no_two_units_share_a_spelling():
    assert set(SPELLINGS) == set(MILLIMETRES)
    for unit, spellings in SPELLINGS.items():
        assert {unit_named(spelling) for spelling in (unit, *spellings)} == {unit}
    assert unit_named("ell") is None
    assert unit_named("m") != unit_named("mm")


@given(number=st.integers(0, 10**5), sixteenths=st.integers(0, 15))
def test_an_inch_text_with_no_sign_of_rounding_reads_back_the_same(number, sixteenths):
    length = Length(MILLIMETRES["in"] * (number + Fraction(sixteenths, 16)))
    assert "≈" not in length.text("in")
    assert Length(length.text("in")) == length


@given(tenths=st.integers(0, 10**7), unit=st.sampled_from(["cm", "mm"]))
def test_a_metric_text_with_no_sign_of_rounding_reads_back_the_same(tenths, unit):
    length = Length(Fraction(tenths, 10))
    assert "≈" not in length.text(unit)
    assert Length(length.text(unit)) == length


@given(length=LENGTHS, unit=st.sampled_from(["in", "cm", "mm"]))
def test_a_rounded_text_says_so_and_is_off_by_half_a_step_at_most(length, unit):
    text = length.text(unit)
    read = Length(text.removeprefix("≈ "))
    step = {"in": MILLIMETRES["in"] / 16, "cm": Fraction(1, 10), "mm": Fraction(1, 10)}[unit]
    assert -step / 2 < read.mm - length.mm <= step / 2
    assert text.startswith("≈ ") == (read != length)


# An independent reference for the units

PINT_NAMES = {"in": "inch", "cm": "centimeter", "mm": "millimeter", "m": "meter", "ft": "foot", "yd": "yard"}


@for_each("unit", MILLIMETRES)
def test_a_unit_is_as_long_as_an_independent_library_says(unit):
    assert elsewhere(Fraction(1), PINT_NAMES[unit]).to("millimeter").magnitude == MILLIMETRES[unit]


@given(number=st.fractions(0, 1000, max_denominator=64), unit=st.sampled_from(list(MILLIMETRES)))
def test_a_length_converts_as_an_independent_library_does(number, unit):
    length = Length(f"{number} {unit}")
    reference = elsewhere(number, PINT_NAMES[unit])
    assert length.mm == reference.to("millimeter").magnitude
    assert length.cm == reference.to("centimeter").magnitude
    assert length.inches == reference.to("inch").magnitude


# Made from numbers


@pytest.mark.parametrize("mm", [381, Fraction(381), Decimal("381.0")], ids=repr)
def test_lengths_as_long_are_equal_and_hash_alike(mm):
    assert Length(mm) == Length("38.1 cm") == Length("15 in")
    assert len({Length(mm), Length("38.1 cm"), Length("15 in")}) == 1


FAR = "A length must be 10,000 km or less, and no finer than any ruler reads, but this one is, in mm, "


@for_each(
    ("mm", "words"),
    [
        (
            9.5,
            "mm is 9.5, but must be an exact number of ordinary size, an int, a Fraction or a Decimal; "
            "for example '3/8 in', or Fraction(3, 8) for 3/8 of a millimetre.",
        ),
        (-3, f"A length must be 0 or more, but this one is, in mm, -3; {EXAMPLE}"),
        (10**10 + 1, f"{FAR}10000000001; {EXAMPLE}"),
        (Fraction(1, 10**5000), f"{FAR}a fraction of about 5001 digits; {EXAMPLE}"),
    ],
)
def test_a_number_that_is_no_length_is_told_why(mm, words):
    with pytest.raises(HemError) as caught:
        Length(mm)
    assert str(caught.value) == words
    assert caught.value.about == "mm"


def test_the_longest_length_is_ten_thousand_kilometres():
    assert Length(10**10) == Length("10000000 m")


def test_a_length_cannot_be_changed():
    length = Length(3)
    with pytest.raises(AttributeError):
        length.mm = Fraction(4)
    assert length == Length(3)


@pytest.mark.parametrize("clone", [copy.copy, copy.deepcopy, lambda x: pickle.loads(pickle.dumps(x))])
def test_a_copy_is_the_same_length(clone):
    assert clone(Length("3/8 in")) == Length("3/8 in")


@given(LENGTHS)
def test_what_python_prints_of_a_length_makes_it_again(length):
    assert eval(repr(length), {"Length": Length, "Fraction": Fraction}) == length


# Sums


@given(LENGTHS, LENGTHS, LENGTHS)
def test_lengths_add_in_any_order_and_grouping(a, b, c):
    assert a + b == b + a
    assert (a + b) + c == a + (b + c)
    assert a + Length(0) == a
    assert sum([a, b, c]) == sum([a, b, c], Length(0)) == a + b + c


@given(LENGTHS, LENGTHS)
def test_what_was_added_can_be_taken_away(a, b):
    assert (a + b) - b == a


@given(LENGTHS, LENGTHS, FACTORS)
def test_scaling_spreads_over_a_sum(a, b, factor):
    assert factor * (a + b) == a * factor + b * factor


@given(SIZES, SIZES)
def test_a_quotient_of_lengths_is_the_fraction_that_undoes_it(a, b):
    assert type(a / b) is Fraction
    assert b * (a / b) == a
    assert (a / b) * (b / a) == 1


@given(LENGTHS, FACTORS.filter(bool))
def test_dividing_by_a_number_undoes_scaling(a, factor):
    assert a * factor / factor == a
    assert isinstance(a / factor, Length)


@given(LENGTHS, LENGTHS)
def test_lengths_are_ordered_as_their_millimetres(a, b):
    assert (a < b, a <= b, a > b, a >= b) == (a.mm < b.mm, a.mm <= b.mm, a.mm > b.mm, a.mm >= b.mm)
    assert (a == b) == (a.mm == b.mm)
    assert sorted([a, b])[0] == min(a, b)
    if a == b:
        assert hash(a) == hash(b)


@given(LENGTHS, LENGTHS, LENGTHS)
def test_order_survives_adding(a, b, c):
    assert (a < b) == (a + c < b + c)


def test_a_decimal_scales_exactly():
    assert Length(3) * Decimal("0.1") == Length(Fraction(3, 10))


ONLY = "a length, not {}; for example Length('1 cm')."
NOTHING = "5 mm can't be divided by nothing; for example divide by 2 or by 1 mm."


@for_each(
    ("sum_of", "words"),
    [
        (lambda: Length(5) + 5, f"A length can only be added to {ONLY.format(5)}"),
        (lambda: 5 + Length(5), f"A length can only be added to {ONLY.format(5)}"),
        (lambda: 5 - Length(5), f"A length can only be subtracted from {ONLY.format(5)}"),
        (lambda: Length(5) < "6 mm", f"A length can only be compared with {ONLY.format(repr('6 mm'))}"),
        (
            lambda: Length(5) - Length(6),
            "A longer length (6 mm) can't be taken from a shorter one (5 mm); "
            "for example take 3 mm from 5 mm.",
        ),
        (
            lambda: Length(5) * 1.5,
            "factor is 1.5, but must be an exact number of ordinary size, an int, a Fraction or a Decimal; "
            "for example Fraction(3, 8).",
        ),
        (lambda: Length(5) * -1, f"A length must be 0 or more, but this one is, in mm, -5; {EXAMPLE}"),
        (lambda: Length(5) / 0, NOTHING),
        (lambda: Length(5) / Length(0), NOTHING),
        (
            lambda: 5 / Length(5),
            "Only a length can be divided by a length, not 5; for example Length('1 yd') / Length('1 in').",
        ),
    ],
)
def test_a_sum_that_gives_no_length_is_told_why(sum_of, words):
    with pytest.raises(HemError) as caught:
        sum_of()
    assert str(caught.value) == words


# What is printed


@for_each(
    ("text", "unit", "printed"),
    [
        ("0 mm", "in", "0 in"),
        ("3/8 in", "in", "3/8 in"),
        ("1 1/2 in", "in", "1 1/2 in"),
        ("2 in", "in", "2 in"),
        ("1 cm", "in", "≈ 3/8 in"),
        ("1/32 in", "in", "≈ 1/16 in"),
        ("31/32 in", "in", "≈ 1 in"),
        ("1/2 in", "cm", "1.27 cm"),
        ("1/2 in", "mm", "12.7 mm"),
        ("3/8 in", "cm", "≈ 0.95 cm"),
        ("3/8 in", "mm", "≈ 9.5 mm"),
        ("0.05 mm", "mm", "≈ 0.1 mm"),
        ("0.049 mm", "mm", "≈ 0 mm"),
        ("0.15 mm", "mm", "≈ 0.2 mm"),
        ("0.25 mm", "mm", "≈ 0.3 mm"),
        ("1 m", "cm", "100 cm"),
    ],
)
def test_a_length_prints_to_a_sixteenth_or_a_tenth_half_up(text, unit, printed):
    assert Length(text).text(unit) == printed


def test_a_length_prints_in_millimetres_unless_told():
    assert str(Length("1/2 in")) == Length("1/2 in").text() == "12.7 mm"


@for_each(
    ("text", "spec", "printed"),
    [
        ("3/8 in", ".2f cm", "≈ 0.95 cm"),
        ("3/8 in", ".4fcm", "0.9525 cm"),
        ("3/8 in", ".3f in", "0.375 in"),
        ("2 in", ".0f in", "2 in"),
        ("0.25 mm", ".1f mm", "≈ 0.3 mm"),
        ("1 cm", "in", "≈ 3/8 in"),
        ("1/2 in", "", "12.7 mm"),
    ],
)
def test_a_length_is_formatted_in_a_unit_to_so_many_decimals(text, spec, printed):
    assert format(Length(text), spec) == printed


@given(LENGTHS, st.integers(0, 9), st.sampled_from(["in", "cm", "mm"]))
def test_a_formatted_length_is_off_by_half_a_step_at_most_and_says_so(length, decimals, unit):
    printed = f"{length:.{decimals}f {unit}}"
    off = abs(Length(printed.removeprefix("≈ ")).mm - length.mm) / MILLIMETRES[unit]
    assert off <= Fraction(1, 2 * 10**decimals)
    assert printed.startswith("≈") == (off > 0)


@for_each("spec", [">10", ".2f", ".2f ell", "d", ".12f mm"])
def test_a_format_that_is_none_of_a_length_is_refused(spec):
    with pytest.raises(HemError, match=r"for example f'\{length:\.2f cm\}'\.$"):
        format(Length(5), spec)


@for_each("text", ["3/8 in", "9.5 mm", "0 mm", "10 1/16 in", "7/15 mm"])
def test_a_length_prints_itself_as_people_type_it(text):
    assert repr(Length(text)) == f"Length('{text}')"


def test_an_unknown_unit_to_print_in_is_refused():
    with pytest.raises(HemError) as caught:
        Length(3).text("yd")
    assert str(caught.value) == "unit is 'yd', but must be one of 'in', 'cm', 'mm'; for example 'in'."
    assert caught.value.about == "unit"


# Ruler marks


@for_each(
    ("unit", "mark", "finest"),
    [("in", "1/8 in", "1/16 in"), ("cm", "0.5 cm", "1 mm"), ("mm", "1 mm", "1 mm")],
)
def test_a_ruler_has_these_marks(unit, mark, finest):
    assert (RULER_MARK[unit], FINEST_MARK[unit]) == (Length(mark), Length(finest))


@given(length=LENGTHS, unit=st.sampled_from(list(RULER_MARK)))
def test_a_size_is_rounded_up_to_the_next_mark_and_no_further(length, unit):
    rounded = length.rounded_up(RULER_MARK[unit])
    assert (rounded / RULER_MARK[unit]).denominator == 1
    assert length <= rounded < length + RULER_MARK[unit]
    assert rounded.rounded_up(RULER_MARK[unit]) == rounded


def test_marks_may_be_given_as_text_but_must_be_apart():
    assert Length(5).rounded_up("1/8 in") == Length("1/4 in")
    with pytest.raises(
        HemError, match=r"^mark is 0 mm, but must be more than nothing; for example '3/8 in'\.$"
    ):
        Length(5).rounded_up("0 mm")


# Where a size is wanted


@pytest.mark.parametrize("given_as", ["3/8 in", Length("3/8 in")], ids=["text", "Length"])
def test_a_size_may_be_text_or_a_length(given_as):
    assert as_length(given_as, "hem") == Length(Fraction(381, 40))


def test_zero_is_a_length_but_no_size():
    assert not Length(0)
    assert as_length("0 cm", "turn", size=False) == Length(0)
    with pytest.raises(HemError) as caught:
        as_length("0 cm", "hem")
    assert str(caught.value) == "hem is 0 mm, but must be more than nothing; for example '3/8 in'."
    assert caught.value.about == "hem"


@for_each(
    ("size", "words"),
    [
        ("3/8", "The length '3/8' has no unit, but it needs in, cm, mm, m, ft or yd;"),
        (None, "A length is written as text, not as None;"),
        (9.5, "A length is written as text, not as 9.5;"),
        (b"3 mm", "A length is written as text, not as a bytes object;"),
    ],
)
def test_a_wrong_size_is_named(size, words):
    with pytest.raises(HemError) as caught:
        as_length(size, "hem")
    assert str(caught.value) == f"hem: {words} {EXAMPLE}"
    assert caught.value.about == "hem"


# The state of the cloth that a length is for

BEFORE, AFTER = State(washed=False), State(washed=True, in_hand=False)
WAYS = {
    "added": lambda a, b: a + b,
    "subtracted": lambda a, b: a - b,
    "divided": lambda a, b: a / b,
    "rounded up": lambda a, b: a.rounded_up(b),
    "less": lambda a, b: a < b,
    "at most": lambda a, b: a <= b,
    "more": lambda a, b: a > b,
    "at least": lambda a, b: a >= b,
}


@given(mm=SIZES.map(lambda length: length.mm))
def test_a_length_before_the_wash_and_one_after_it_are_refused_together(mm):
    for way, (one, other) in product(WAYS, ((BEFORE, AFTER), (AFTER, BEFORE))):
        with pytest.raises(HemError, match="before the wash") as refused:
            WAYS[way](Length(mm, one), Length(mm, other))
        assert str(refused.value).count(". ") == 0
        assert "after the wash" in str(refused.value)


@given(mm=SIZES.map(lambda length: length.mm))
def test_a_length_without_a_state_goes_with_either_and_what_comes_out_has_the_state(mm):
    for way, (one, other) in product(WAYS, ((BEFORE, None), (None, BEFORE), (AFTER, AFTER))):
        made = WAYS[way](Length(mm, one), Length(mm, other))
        assert made == WAYS[way](Length(mm), Length(mm)), way
        if isinstance(made, Length):
            assert made.state == (one or other)


def test_a_scaled_length_keeps_its_state():
    length = Length(6, AFTER)
    assert [made.state for made in (2 * length, length * 2, length / 2)] == [AFTER] * 3


@given(mm=SIZES.map(lambda length: length.mm))
def test_lengths_are_equal_only_if_their_states_go_together(mm):
    assert Length(mm) == Length(mm, BEFORE)
    assert Length(mm) == Length(mm, AFTER)
    assert Length(mm, BEFORE) != Length(mm, AFTER)
    # Washed is washed, whoever has such cloth in hand.
    assert Length(mm, AFTER) == Length(mm, State(washed=True))
    assert len({hash(Length(mm, state)) for state in (None, BEFORE, AFTER)}) == 1
    assert Length(mm) != mm


def test_a_length_says_its_state_only_where_no_ruler_reads_it_on_the_cloth_in_hand():
    assert Length(5, BEFORE).text() == Length(5, State(washed=True)).text() == Length(5).text() == "5 mm"
    assert Length(5, AFTER).text() == "5 mm after the wash"
    assert Length(5, State(washed=False, in_hand=False)).text() == "5 mm before the wash"
    both = Length(5, State(washed=True)) + Length(5, AFTER)
    assert both.text() == "10 mm after the wash"


def test_a_state_is_given_once():
    assert Length(5).stated(AFTER).state == AFTER
    with pytest.raises(HemError, match="don't go together"):
        Length(5, BEFORE).stated(AFTER)
