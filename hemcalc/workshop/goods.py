"""What a shop sells by the ball, the packet or off the bolt, and how many of it to buy.

A need is a length or a number; it is rounded up to the shop's unit, once, and priced exactly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

from hemcalc.bolt.shop_unit import ShopUnit, as_shop_unit
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.measure.words import about
from hemcalc.workshop.money import as_money, money_text, times

_LONGEST_NAME = 60
_MAX_IN_A_PACKET = 10_000


def as_name(value: object, about: str, example: str, *, empty: bool = False) -> str:
    """The value as a short line of text; `empty`, if it may be left out.

    Examples
    --------
    >>> as_name(" Ada ", "learner", "Ada")
    'Ada'
    """
    if not isinstance(value, str) or not value.isprintable() or len(value) > _LONGEST_NAME:
        wrong = True
    else:
        wrong = not value.strip() and not (empty and value == "")
    if wrong:
        raise HemError(
            f"{about} is {shown(value)}, but must be one line of 1 to {_LONGEST_NAME} characters; "
            f"for example {example!r}.",
            about,
        )
    return str(value).strip()


def long_text(length: Length, unit: str = "cm") -> str:
    """A length of cloth or thread in metres or, for inches, in yards, to a hundredth.

    Examples
    --------
    >>> long_text(Length("14.5 m")), long_text(Length("36 in"), "in")
    ('14.5 m', '1 yd')
    >>> long_text(Length("1 m"), "in")
    '≈ 1.09 yd'
    """
    name = "yd" if unit == "in" else "m"
    return f"{about(length.mm / MILLIMETRES[name])} {name}"


@dataclass(frozen=True, slots=True)
class Goods:
    """Something that a shop sells, in units of so much.

    Parameters
    ----------
    name : str
        What it is called on lists and labels.
    each : Length, str or int
        How much one unit holds: a length of thread or cloth, or a number of things.
    price : str, int or Decimal, optional
        Price of one unit, in the leader's own currency; not known if left out.
    sold_as : str
        What the unit is called; may be empty.
    shop : str
        Where it is sold; may be empty.

    Examples
    --------
    >>> ball = Goods("white thread", "80 m", "4.20", "ball")
    >>> ball.buy(Length("130 m")).text()
    '2 × ball of 80 m'
    """

    name: str
    each: Length | int
    price: Decimal | None
    sold_as: str
    shop: str
    #: The unit as the leader wrote it.
    each_text: str

    def __init__(
        self, name: str, each: Length | str | int, price: object = None, sold_as: str = "", shop: str = ""
    ) -> None:
        object.__setattr__(self, "name", as_name(name, "goods", "white thread"))
        about = f"{self.name}, each"
        amount: Length | int
        if isinstance(each, str | Length):
            amount = as_shop_unit(each, about).each
            said = each.strip() if isinstance(each, str) else each.text("cm")
        else:
            amount = whole_threads(each, about, least=1, most=_MAX_IN_A_PACKET, example=6, of="things")
            said = str(amount)
        object.__setattr__(self, "each", amount)
        object.__setattr__(self, "each_text", said)
        object.__setattr__(self, "price", None if price is None else as_money(price, f"{self.name}, price"))
        object.__setattr__(self, "sold_as", as_name(sold_as, "sold_as", "ball", empty=True))
        object.__setattr__(self, "shop", as_name(shop, "shop", "the market stall", empty=True))

    def __repr__(self) -> str:
        price = "" if self.price is None else f" at {money_text(self.price)}"
        return f"Goods({self.name}, {self.unit_text}{price}{self.shop and f', {self.shop}'})"

    @property
    def unit_text(self) -> str:
        """One unit in words.

        Examples
        --------
        >>> Goods("needles", 6, sold_as="packet").unit_text, Goods("linen", "10 cm").unit_text
        ('packet of 6', '10 cm')
        """
        return f"{self.sold_as} of {self.each_text}" if self.sold_as else self.each_text

    @property
    def sold_by(self) -> ShopUnit | None:
        """What a length of it is sold by; None of what is counted."""
        if not isinstance(self.each, Length):
            return None
        # What was given as a Length has been written rounded.
        return as_shop_unit(self.each if self.each_text.startswith("≈") else self.each_text)

    def buy(self, need: Length | int) -> Bought:
        """What to buy for a need, rounded up to whole units.

        Refused if the need is a length and the goods are counted, or the other way round.
        """
        if isinstance(need, Length) and isinstance(self.each, Length):
            return Bought(self, need, math.ceil(need.mm / self.each.mm))
        if isinstance(need, int) and not isinstance(need, bool) and isinstance(self.each, int):
            return Bought(self, need, -(-need // self.each))
        sold = "length" if isinstance(self.each, Length) else "number"
        said = need.text() if isinstance(need, Length) else shown(need)
        raise HemError(
            f"{self.name} is sold by {sold}, in units of {self.each_text}, but the need is {said}; "
            "for example 80 m of a thread, 6 of a needle.",
            "need",
        )


@dataclass(frozen=True, slots=True)
class Bought:
    """Goods on a shopping list: how much is needed, and how many units that is.

    Made by `Goods.buy`, or without a need where it is not worked out yet.
    """

    goods: Goods
    need: Length | int | None
    units: int | None

    @property
    def cost(self) -> Decimal | None:
        """Exact cost; None if there is no price or no number of units."""
        if self.goods.price is None or self.units is None:
            return None
        return times(self.goods.price, self.units)

    def text(self) -> str:
        """What to ask for; of what is cut off a bolt, the whole length as well.

        Examples
        --------
        >>> Goods("linen", "1/8 yd").buy(Length("1 m")).text()
        '9 × 1/8 yd = 1 1/8 yd'
        """
        asked = f"{'?' if self.units is None else self.units} × {self.goods.unit_text}"
        sold_by = self.goods.sold_by
        if sold_by is None or self.goods.sold_as or not self.units or self.units == 1:
            return asked
        return f"{asked} = {sold_by.text(self.units * sold_by.each)}"

    def __repr__(self) -> str:
        return f"Bought({self.goods.name}: {self.text()}, needed {self.need_text})"

    @property
    def need_text(self) -> str:
        """How much is needed, in the unit in which it is sold.

        Examples
        --------
        >>> Goods("linen", "1/8 yd").buy(Length("1 m")).need_text
        '≈ 1.09 yd'
        """
        sold_by = self.goods.sold_by
        if self.need is None:
            return "not worked out yet"
        return sold_by.text(self.need) if sold_by and isinstance(self.need, Length) else str(self.need)
