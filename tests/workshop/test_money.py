"""Money stays exact: in what is read, in sums, and in shares."""

from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.workshop.money import add_up, as_money, each_pays, money_text, times

amounts = st.decimals(0, 10**6, places=2) | st.decimals(0, 10**6, places=4)


@given(st.lists(amounts, max_size=50))
def test_a_sum_is_the_sum_of_fractions_whatever_the_context(many):
    with localcontext() as careless:
        careless.prec = 2
        total = add_up(many)
    assert Fraction(total) == sum((Fraction(one) for one in many), Fraction(0))


@given(amounts, st.integers(0, 10**7))
def test_so_many_at_a_price_loses_nothing(price, many):
    with localcontext() as careless:
        careless.prec = 1
        cost = times(price, many)
    assert Fraction(cost) == Fraction(price) * many


@given(amounts, st.integers(1, 500))
def test_the_shares_bring_the_total_in_and_no_coin_less_would(total, among):
    share = each_pays(total, among)
    coin = Fraction(1, 10 ** -total.as_tuple().exponent)
    assert Fraction(share) * among >= Fraction(total)
    assert (Fraction(share) - coin) * among < Fraction(total) or share == 0
    assert (Fraction(share) / coin).denominator == 1


@pytest.mark.parametrize("text", ["12.50", " 12,50 ", Decimal("12.50")])
def test_a_price_is_read_with_the_places_it_is_written_with(text):
    assert str(as_money(text, "price")) == "12.50"


@for_each(
    "bad", [0.1, True, None, "", "-1", "1e3", "1.23456", "€ 3", "1.2.3", Decimal("NaN"), Decimal(-1),
            Decimal("1E+3"), -1, 10**9, "9999999999", Decimal("1e9"), Fraction(1, 2), "١٢"]
)  # fmt: skip
def test_what_is_no_exact_amount_is_refused_in_a_sentence(bad):
    with pytest.raises(
        HemError, match=r"price is .*, but must be an exact amount of money.*for example '12\.50'"
    ) as no:
        as_money(bad, "price")
    assert no.value.about == "price"


def test_money_is_said_with_all_its_places():
    assert money_text(Decimal("3.10"), "crowns") == "3.10 crowns"
    assert money_text(Decimal("0.00")) == "0.00"
    assert money_text(times(Decimal("0.10"), 10**7)) == "1000000.00"
