"""Money, exact: prices as Decimals with the places that the leader wrote, and sums that keep them.

No currency is known here: it is whatever word the leader uses for hers. Nothing is ever a float,
and nothing is rounded but a share of a total, upward, where it is asked for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import ROUND_CEILING, Context, Decimal, Inexact, InvalidOperation, Overflow

from hemcalc.measure.errors import HemError, shown

_MAX_PRICE = Decimal(10) ** 9
_PLACES = 4  # behind the point; some fuel and thread is priced in tenths of the smallest coin
_TEXT = re.compile(r"[0-9]{1,10}(?:[.,][0-9]{1,4})?")
# A sign before three figures may part thousands; behind a 0 it can't.
_AMBIGUOUS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")

#: A sum that would have to be rounded is a bug here, whatever the caller's own context says.
_EXACT = Context(prec=60, traps=[Inexact, InvalidOperation, Overflow])
_ROUNDING_UP = Context(prec=60, rounding=ROUND_CEILING, traps=[InvalidOperation, Overflow])


def as_money(value: object, about: str) -> Decimal:
    """The value as an exact amount of money, 0 or more.

    A float is refused: 0.1 is not a tenth to the computer. So is a sign that may part thousands.

    Examples
    --------
    >>> as_money("12,50", "price"), as_money(3, "price")
    (Decimal('12.50'), Decimal('3'))
    >>> as_money(12.5, "price")
    Traceback (most recent call last):
    hemcalc.HemError: price is 12.5, but must be an exact amount of money, 0 or more, written as...
    """
    amount = None
    if isinstance(value, str) and _AMBIGUOUS.fullmatch(value.strip()):
        whole, part = re.split("[.,]", value.strip())
        raise HemError(
            f"{about} is {shown(value)}, which may mean {whole}{part} or {whole} and a part; write it "
            f"without the sign, or with other places; for example '{whole}{part}' or '{whole}.{part}0'.",
            about,
        )
    if isinstance(value, str) and _TEXT.fullmatch(value.strip()):
        amount = Decimal(value.strip().replace(",", "."))
    elif isinstance(value, int) and not isinstance(value, bool):
        amount = Decimal(int.__index__(value))  # a subclass may compare by a rule of its own
    elif isinstance(value, Decimal) and value.is_finite() and value.as_tuple().exponent in range(-_PLACES, 1):
        amount = value
    if amount is None or amount.is_signed() or amount >= _MAX_PRICE:
        raise HemError(
            f"{about} is {shown(value)}, but must be an exact amount of money, 0 or more, written as text "
            f"with at most {_PLACES} places; for example '12.50'.",
            about,
        )
    return amount


def times(price: Decimal, quantity: int) -> Decimal:
    """So many at this price.

    Examples
    --------
    >>> times(Decimal("0.10"), 3)
    Decimal('0.30')
    """
    return _EXACT.multiply(price, Decimal(quantity))


def add_up(amounts: Iterable[Decimal]) -> Decimal:
    """The sum of amounts, with the places of the finest.

    Examples
    --------
    >>> add_up([Decimal("0.10"), Decimal("0.2"), Decimal(1)])
    Decimal('1.30')
    """
    total = Decimal(0)
    for amount in amounts:
        total = _EXACT.add(total, amount)
    return total


def each_pays(total: Decimal, among: int) -> Decimal:
    """What each of so many must pay so that the total comes in: rounded up to its last place.

    Examples
    --------
    >>> each_pays(Decimal("10.00"), 3)
    Decimal('3.34')
    """
    place = Decimal((0, (1,), int(total.as_tuple().exponent)))
    coins = int(total.scaleb(-int(total.as_tuple().exponent), _EXACT))
    return _ROUNDING_UP.multiply(Decimal(-(-coins // among)), place)


def money_text(amount: Decimal | None, currency: str = "") -> str:
    """The amount in words, with all its places; a dash if it is not known.

    Examples
    --------
    >>> money_text(Decimal("1234.50"), "crowns"), money_text(None)
    ('1234.50 crowns', '–')
    """
    if amount is None:
        return "–"
    return f"{amount:f} {currency}".rstrip()
