"""The autumn linen workshop of an invented guild: twelve learners, six kinds of piece, a leader.

Names, widths, packets and prices are invented, as an example to learn on.
"""

from __future__ import annotations

from functools import cache

from hemcalc.measure.errors import one_of
from hemcalc.measure.units import UNITS
from hemcalc.piece.examples import example
from hemcalc.workshop.goods import Goods
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.linen import Linen
from hemcalc.workshop.rests import Rest
from hemcalc.workshop.workshop import Workshop

#: Who works what, in which hand.
_CLASS = (
    ("Ada", "bread cloth", "right"),
    ("Bea", "bread cloth", "right"),
    ("Cora", "bread cloth", "left"),
    ("Dora", "tray cloth", "right"),
    ("Edda", "sampler", "right"),
    ("Flora", "lavender bag", "right"),
    ("Gerda", "sampler", "left"),
    ("Hilda", "bookmark", "right"),
    ("Ida", "bookmark", "left"),
    ("Jana", "tray cloth", "left"),
    ("Klara", "coaster", "right"),
    ("Lena", "coaster", "left"),
)

#: Thread and needle for each kind of piece, in the trade's numbers.
_COARSE = ("pearl cotton 8, white", "tapestry needle 24")
_FINE = ("pearl cotton 16, white", "tapestry needle 26")
_WORKED_WITH = {
    "bread cloth": _COARSE,
    "sampler": _FINE,
    "bookmark": _COARSE,
    "coaster": _COARSE,
    "tray cloth": _COARSE,
    "lavender bag": _FINE,
}


def example_workshop(unit: str = "in") -> Workshop:
    """The invented workshop, without the lengths of linen to buy.

    Examples
    --------
    >>> class_of_twelve = example_workshop()
    >>> len(class_of_twelve.kits), len(class_of_twelve.spares), class_of_twelve.counted_out[0].in_all
    (12, 2, 13)
    >>> [line.text() for line in class_of_twelve.shopping][6:8]
    ['1 × ball of 80 m', '1 × ball of 150 m']
    """
    return _workshop(one_of(unit, UNITS, "unit"))


@cache
def _workshop(unit: str) -> Workshop:
    linens = tuple(
        Linen(example(kind).fabric, width, Goods(f"linen for {kind}s", "10 cm", price))
        for kind, width, price in (
            ("bread cloth", "140 cm", "3.10"),
            ("sampler", "140 cm", "3.60"),
            ("bookmark", "140 cm", "2.80"),
            ("coaster", "140 cm", "2.40"),
            ("tray cloth", "150 cm", "2.60"),
            ("lavender bag", "140 cm", "4.90"),
        )
    )
    goods = (
        Goods("pearl cotton 8, white", "80 m", "4.20", "ball"),
        Goods("pearl cotton 16, white", "150 m", "4.80", "ball"),
        Goods("basting thread, blue", "100 m", "1.95", "reel"),
        Goods("tapestry needle 24", 6, "2.75", "packet"),
        Goods("tapestry needle 26", 6, "2.75", "packet"),
        Goods("sharp needle", 10, "2.20", "packet"),
        Goods("pins", 50, "1.60", "box"),
    )
    return Workshop(
        "Autumn linen workshop",
        tuple(_kit(*one) for one in _CLASS),
        linens,
        goods,
        spares=(_kit("Spare 1", "bread cloth", "right"), _kit("Spare 2", "coaster", "right")),
        spare_needles=2,
        currency="crowns",
        unit=unit,
        note="An invented guild: names, pieces and prices are examples.",
    )


def example_cupboard() -> tuple[Rest, ...]:
    """Rests in the invented guild's cupboard, one of them too small for anything.

    Examples
    --------
    >>> example_cupboard()[0]
    Rest(linen for coasters, 50 cm × 18 cm, washed)
    """
    return (
        Rest("linen for coasters", "50 cm", "18 cm", washed=True, name="blue box"),
        Rest("linen for bread cloths", "62 cm", "45 cm", washed=True, name="top shelf"),
        Rest("linen for tray cloths", "40 cm", "38 cm", washed=False, name="roll by the door"),
        Rest("linen for bookmarks", "8 cm", "40 cm", washed=True, name="scrap bag"),
    )


def example_offers(unit: str = "in") -> tuple[Linen, ...]:
    """What two more invented shops ask for linens of the workshop.

    Examples
    --------
    >>> example_offers()[0]
    Linen(linen for bread cloths, 90 cm wide, 10 cm at 1.60, the market stall)
    """
    linens = {linen.name: linen for linen in example_workshop(unit).linens}
    return tuple(
        linens[f"linen for {kind}s"].from_shop(shop, width, each, price)
        for kind, shop, width, each, price in (
            ("bread cloth", "the market stall", "90 cm", "10 cm", "1.60"),
            ("sampler", "the market stall", "90 cm", "10 cm", "2.60"),
            ("lavender bag", "the market stall", "50 cm", "10 cm", "1.90"),
            ("bread cloth", "the mill shop", "160 cm", "50 cm", "9.50"),
            ("sampler", "the mill shop", "160 cm", "50 cm", "11.00"),
            ("tray cloth", "the mill shop", "200 cm", "50 cm", "12.50"),
        )
    )


def _kit(learner: str, kind: str, hand: str) -> Kit:
    thread, needle = _WORKED_WITH[kind]
    return Kit(
        learner, example(kind), kind, hand=hand, thread=thread, needle=needle, basting="basting thread, blue"
    )
