"""Where to buy: what each shop asks for a class's linen, in its width and by its unit, side by side."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.cut_sizes import MAX_PIECES, CutSize
from hemcalc.bolt.layout import Layout
from hemcalc.measure.errors import HemError, all_of, of_type, one_of, shown
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length, in_unit
from hemcalc.measure.words import percent
from hemcalc.workshop.linen import Linen
from hemcalc.workshop.money import add_up, as_money, money_text, times
from hemcalc.workshop.rests import Cutting, FromRest, Rest, cut_linen, left_whole
from hemcalc.workshop.workshop import Workshop

if TYPE_CHECKING:
    from pandas import DataFrame

_QUICK = Fraction(1, 10)  # of the usual effort, for a layout that only says whether it can be done


@dataclass(frozen=True, slots=True)
class Offer:
    """A linen as one shop sells it, and what a class needs of it there. Made by `where_to_buy`."""

    linen: Linen
    #: None where nothing need be bought, or it can't be cut from this width.
    layout: Layout | None
    rests: tuple[FromRest, ...]
    saved: Length
    #: How many more of each size the bought length would give, by name, only that size being added.
    more: tuple[tuple[str, int], ...]
    #: Why the pieces can't be cut from it; empty if they can.
    refused: str

    @property
    def cost(self) -> Decimal | None:
        """What it costs; None if it has no price or is refused."""
        if self.refused or self.linen.goods.price is None:
            return None
        units = 0 if self.layout is None else int(self.layout.to_buy / self.linen.goods.each)
        return times(self.linen.goods.price, units)

    @property
    def buy_text(self) -> str:
        """What to ask for, in the shop's unit."""
        if self.refused:
            return "can't be cut from it"
        return self.linen.sold_by.text(self.layout.to_buy) if self.layout else "nothing"

    @property
    def more_text(self) -> str:
        """How many more learners what is bought serves, by what they work."""
        return " or ".join(f"{quantity} more of {name}" for name, quantity in self.more if quantity) or "none"

    def __repr__(self) -> str:
        cost = money_text(self.cost)
        return f"Offer({self.linen.name}, {self.linen.goods.shop or 'no shop'}: {self.buy_text}, {cost})"


@dataclass(frozen=True)
class WhereToBuy:
    """The shopping question answered: every offer, the cheapest of each linen first.

    Made by `where_to_buy`.
    """

    #: The class as it was asked about.
    asked: Workshop
    offers: tuple[Offer, ...]
    untouched: tuple[Rest, ...]
    budget: Decimal | None

    @cached_property
    def best(self) -> tuple[Offer, ...]:
        """The cheapest offer of each linen."""
        first = {offer.linen.name: offer for offer in reversed(self.offers)}
        return tuple(first[linen.name] for linen in self.asked.linens if linen.name in first)

    @cached_property
    def cutting(self) -> Cutting:
        """How the cheapest of each linen is cut."""
        return Cutting(
            tuple((offer.linen.name, offer.layout) for offer in self.best if offer.layout),
            tuple(each for offer in self.best for each in offer.rests),
            self.untouched,
            tuple((offer.linen.name, offer.saved) for offer in self.best if offer.saved),
        )

    @cached_property
    def workshop(self) -> Workshop:
        """The class with the cheapest of each linen, and so much of it: what the pages are made of."""
        bought = {offer.linen.name: offer.linen for offer in self.best}
        linens = tuple(bought.get(linen.name, linen) for linen in self.asked.linens)
        return replace(self.asked, linens=linens).with_lengths(self.cutting)

    @property
    def at_one_shop(self) -> tuple[tuple[str, Decimal], ...]:
        """What all the linen costs at each shop that has it all, cheapest first."""
        costs: dict[str, dict[str, Decimal]] = defaultdict(dict)
        for offer in self.offers:
            if offer.cost is not None:
                costs[offer.linen.goods.shop].setdefault(offer.linen.name, offer.cost)
        every = [(shop, add_up(had.values())) for shop, had in costs.items() if len(had) == len(self.best)]
        return tuple(sorted(every, key=lambda one: one[1]))

    @property
    def over(self) -> Decimal | None:
        """By how much the class costs more than the budget, or less if it is below 0; None without one."""
        return None if self.budget is None else self.workshop.cost - self.budget

    def __repr__(self) -> str:
        return f"WhereToBuy({len(self.offers)} offers for {len(self.best)} linens: {self.workshop.cost_text})"

    def text(self, unit: str = "in") -> str:
        """What to buy where, what it costs in all, and whether that is within the budget; a line each."""
        lines = []
        for offer in self.best:
            shop = offer.linen.goods.shop
            cost = f" for {self._money(offer.cost)}" if offer.layout else ""
            more = f" It would serve {offer.more_text}." if any(n for _, n in offer.more) else ""
            width = f", {offer.linen.width.text(unit)} wide" if offer.layout else ""
            lines.append(
                f"{offer.linen.name}{width}: buy {offer.buy_text}"
                f"{f' at {shop}' if shop and offer.layout else ''}{cost}.{more}"
            )
        lines.append(f"Each linen where it is cheapest, and all else: {self.workshop.cost_text}.")
        lines += [f"All the linen at {shop}: {self._money(cost)}." for shop, cost in self.at_one_shop if shop]
        if self.over is not None:
            by = f"{self._money(abs(self.over))} {'over' if self.over > 0 else 'left of'}"
            lines.append(f"That is {by} the budget of {self._money(self.budget)}.")
        return "\n".join(lines)

    def _money(self, amount: Decimal | None) -> str:
        return money_text(amount, self.asked.currency)

    def table(self, unit: str = "in") -> DataFrame:
        """A row for each offer: lengths in one unit, money in exact Decimals."""
        from pandas import DataFrame

        def number(length: Length | None) -> float | None:
            return None if length is None else float(length.number(unit))

        columns = [in_unit(name, unit) for name in ("width", "to buy", "slack")]
        rows = [
            {
                "linen": offer.linen.name,
                "shop": offer.linen.goods.shop,
                columns[0]: number(offer.linen.width),
                columns[1]: number(offer.layout.to_buy if offer.layout else None),
                columns[2]: number(offer.layout.slack if offer.layout else None),
                "waste": float(offer.layout.waste) if offer.layout else None,
                "cost": offer.cost,
                "more": offer.more_text,
            }
            for offer in self.offers
        ]
        return DataFrame(rows)

    def rows(self) -> list[list[str]]:
        """A row of text for each offer: linen, shop, width, buy, cost, waste, slack, whom it would serve."""
        unit = self.asked.unit
        return [
            [
                offer.linen.name,
                offer.linen.goods.shop,
                offer.linen.width.text(unit),
                offer.buy_text,
                money_text(offer.cost),
                percent(offer.layout.waste) if offer.layout else "–",
                offer.layout.slack.text(unit) if offer.layout else "–",
                offer.refused or offer.more_text,
            ]
            for offer in self.offers
        ]

    def _repr_html_(self) -> str:
        cost = f"cost, {self.asked.currency}" if self.asked.currency else "cost"
        columns = ["linen", "shop", "width", "buy", cost, "left over", "slack", "would serve"]
        return table_html(columns, self.rows(), "What each shop asks, the cheapest of each linen first")


def where_to_buy(
    workshop: Workshop,
    offers: Sequence[Linen] = (),
    *,
    rests: Sequence[Rest] = (),
    grain: str = "fixed",
    budget: object = None,
) -> WhereToBuy:
    """What to buy for a class, and where: several widths, shops and prices side by side.

    Refused if an offer is of none of the linens or of another fabric, or no offer of a linen is wide enough.

    Parameters
    ----------
    workshop : Workshop
        The class; its own linens are offers too.
    offers : sequence of Linen
        The same linens as other shops sell them; as `Linen.from_shop` makes them.
    rests, grain
        As for `cut_for_class`.
    budget : str, int or Decimal, optional
        What all that is bought may cost.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> shop = example_workshop("cm")
    >>> (coasters,) = [linen for linen in shop.linens if linen.name == "linen for coasters"]
    >>> asked = where_to_buy(shop, [coasters.from_shop("market stall", "90 cm", "25 cm", "3.50")])
    >>> [offer for offer in asked.offers if offer.linen.name == coasters.name]
    [Offer(linen for coasters, market stall: 25 cm, 3.50), Offer(linen for coasters, no shop: 20 cm, 4.80)]
    """
    own = of_type(workshop, Workshop, "workshop", "example_workshop()").linens
    limit = None if budget is None else as_money(budget, "budget")
    named = {linen.name: linen for linen in own}
    for offer in all_of(offers, Linen, "offers"):
        like = named[one_of(offer.name, tuple(named), "offers")]
        if (offer.fabric, offer.wash) != (like.fabric, like.wash):
            raise HemError(
                f"offers has {shown(offer.name)} of another fabric, or washed at another time, than the "
                "class's own; for example linen.from_shop('market stall', '150 cm', '10 cm', '2.90').",
                "offers",
            )
    cupboard = all_of(rests, Rest, "rests")
    for rest in cupboard:
        one_of(rest.linen, tuple(named), "rests")
    found: list[Offer] = []
    for linen in own:
        pieces = workshop.pieces_of(linen)
        if not pieces:
            continue
        mine = [rest for rest in cupboard if rest.linen == linen.name]
        here = [
            _offer(offer, pieces, mine, grain)
            for offer in (linen, *(offer for offer in offers if offer.name == linen.name))
        ]
        if all(offer.refused for offer in here):
            raise HemError(here[0].refused, "offers")
        # What has no price comes behind what has one, and what can't be used last.
        found += sorted(here, key=lambda offer: (bool(offer.refused), offer.cost is None, offer.cost or 0))
    answer = WhereToBuy(workshop, tuple(found), (), limit)
    return replace(answer, untouched=left_whole(cupboard, answer.cutting.rests))


def _offer(linen: Linen, pieces: Sequence[CutSize], rests: Sequence[Rest], grain: str) -> Offer:
    try:
        layout, used, saved = cut_linen(linen, pieces, rests, grain)
    except HemError as error:
        if error.about != "pieces":
            raise
        return Offer(linen, None, (), Length(0), (), str(error))
    more = tuple((size.name, _more(linen, layout, size, grain)) for size in layout.sizes) if layout else ()
    return Offer(linen, layout, used, saved, more, "")


def _more(linen: Linen, layout: Layout, size: CutSize, grain: str) -> int:
    """How many more of a size come out of what is bought; as many as a quick search finds."""
    free = layout.width.mm * layout.length.mm * layout.waste
    few, too_many = 0, min(int(free / size.area_mm2), MAX_PIECES - len(layout.pieces)) + 1
    while too_many - few > 1:
        tried = (few + too_many) // 2
        sizes = [one.of((one.quantity or 0) + tried) if one == size else one for one in layout.sizes]
        needed = cut_from_bolt(
            sizes, linen.width, grain=grain, unit=linen.sold_by, allow=linen.allow, effort=_QUICK
        )
        few, too_many = (tried, too_many) if needed.to_buy <= layout.to_buy else (few, tried)
    return few
