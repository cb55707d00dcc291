"""What a shop sells, and how many units a need comes to."""

from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import HemError, Length
from hemcalc.workshop.goods import Bought, Goods, as_name, long_text

lengths = st.fractions(Fraction(1, 100), 10**5, max_denominator=100).map(Length)


@given(lengths, lengths)
def test_length_bought_covers_the_need_and_one_unit_less_would_not(need, each):
    units = Goods("thread", each).buy(need).units
    assert each * units >= need
    assert each * (units - 1) < need


@given(st.integers(0, 10**6), st.integers(1, 10**4))
def test_a_number_bought_covers_the_need_and_one_unit_less_would_not(need, each):
    units = Goods("needles", each).buy(need).units
    assert units * each >= need > (units - 1) * each


def test_the_cost_is_units_times_price_and_unknown_without_either():
    assert str(Goods("thread", "80 m", "4.20").buy(Length("81 m")).cost) == "8.40"
    assert Goods("thread", "80 m").buy(Length("81 m")).cost is None
    line = Bought(Goods("linen", "10 cm", "3.10"), None, None)
    assert (line.cost, line.text(), line.need_text) == (None, "? × 10 cm", "not worked out yet")


def test_goods_by_length_and_by_number_are_not_mixed_up():
    with pytest.raises(HemError, match=r"thread is sold by length, in units of 80 m, but the need is 6"):
        Goods("thread", "80 m").buy(6)
    with pytest.raises(HemError, match=r"needles is sold by number, in units of 6, but the need is 10 mm"):
        Goods("needles", 6).buy(Length(10))


@for_each(
    ("make", "words"),
    [
        (lambda: Goods("", 6), "goods is '', but must be one line"),
        (lambda: Goods("a\nb", 6), "goods is 'a b', but must be one line"),
        (lambda: Goods("x" * 61, 6), "1 to 60 characters"),
        (
            lambda: Goods("needles", 0),
            "needles, each is 0, but must be a whole number of things, from 1 to 10000",
        ),
        (lambda: Goods("needles", 6.0), "needles, each is 6.0"),
        (lambda: Goods("thread", "0 m"), "thread, each is 0 mm"),
        (lambda: Goods("thread", "80 m", 4.2), "thread, price is 4.2"),
        (lambda: Goods("thread", "80 m", "4", 3), "sold_as is 3"),
    ],
)
def test_bad_goods_are_refused_in_a_sentence(make, words):
    with pytest.raises(HemError, match=words) as no:
        make()
    assert "for example" in str(no.value)


# A yard is 0.9144 m exactly ("International yard", web page, n.d., entry).
def test_long_lengths_are_said_in_yards_for_inches():
    assert long_text(Length("0.9144 m"), "in") == "1 yd"
    assert long_text(Length("1 mm")) == "≈ 0 m"
    assert long_text(Length("2.5 m"), "mm") == "2.5 m"


def test_a_name_is_kept_without_blanks_round_it():
    assert as_name("  O'Hara, Zoë ", "learner", "Ada") == "O'Hara, Zoë"
