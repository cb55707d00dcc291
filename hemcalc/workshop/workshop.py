"""A class: every learner's kit and the leader's spares, what it all takes, and what to buy.

Totals are exact; each is rounded up once, to the shop's unit. How long a bit of linen must be
bought is not worked out here: `pieces_of` says what is to come out of it, and the layout from
`cut_for_class`, or a length by the leader's own pencil, is handed back with `with_lengths`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import cached_property
from types import MappingProxyType
from typing import Any, TypeVar

from hemcalc.bolt.cut_sizes import CutSize
from hemcalc.bolt.cutting import Placed
from hemcalc.bolt.layout import Layout
from hemcalc.measure.errors import HemError, all_of, of_type, one_of, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import UNITS
from hemcalc.measure.words import so_many
from hemcalc.piece.piece import Piece
from hemcalc.workshop.goods import Bought, Goods, as_name
from hemcalc.workshop.kit import CountedOut, Kit, counted_out, cut_size_of
from hemcalc.workshop.linen import Linen, linen_for
from hemcalc.workshop.money import add_up, each_pays, money_text
from hemcalc.workshop.rests import Cutting

T = TypeVar("T")

_MAX_KITS = 500
_MAX_SPARE_NEEDLES = 1000


@dataclass(frozen=True)
class Workshop:
    """A class of learners, and what the leader buys for it.

    Refused if a kit asks for what is not among the goods, or its linen is none of these, or could be several.

    Parameters
    ----------
    title : str
        What stands over every page.
    kits : sequence of Kit
        One for each piece that a learner works: whoever has several pieces has several kits,
        under one name.
    linens : sequence of Linen
        The cloths. A kit names its own; where it doesn't, it is the one of its piece's fabric.
    goods : sequence of Goods
        Thread, basting thread and needles, under the names that the kits use.
    spares : sequence of Kit
        What the leader makes up beyond the learners' kits.
    spare_needles : int
        Needles beyond those in the kits, of each kind.
    currency : str
        The word or code that stands behind every price.
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"``: the ruler that the cloth is cut by.
    note : str
        A line that goes on every page, such as that the data are invented.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> coaster = example("coaster")
    >>> shop = [Goods("white thread", "80 m", "4.20", "ball"), Goods("basting thread", "100 m", "1.50"),
    ...         Goods("needle 24", 6, "2.75", "packet")]
    >>> linen = Linen(coaster.fabric, "140 cm", Goods("linen 25", "10 cm", "2.40"))
    >>> ada, bea = (Kit(name, coaster, "coaster", thread="white thread", needle="needle 24")
    ...             for name in ("Ada", "Bea"))
    >>> pair = Workshop("Coasters for two", [ada, bea], [linen], shop, currency="crowns", unit="cm")
    >>> [size.text("cm") for size in pair.pieces_of(linen)]
    ['2 of coaster, 15.5 cm across × 15.5 cm down']
    >>> bought = pair.with_lengths({"linen 25": "15.5 cm"})
    >>> [line.text() for line in bought.shopping], bought.cost_text
    (['2 × 10 cm = 20 cm', '1 × ball of 80 m', '1 × 100 m', '1 × packet of 6'], '13.25 crowns')
    """

    title: str
    kits: tuple[Kit, ...]
    linens: tuple[Linen, ...]
    goods: tuple[Goods, ...]
    spares: tuple[Kit, ...] = ()
    spare_needles: int = 0
    currency: str = ""
    unit: str = "in"
    note: str = ""
    #: Length of each linen to have, by name, where it is worked out.
    lengths: Mapping[str, Length] = field(default_factory=lambda: MappingProxyType({}), hash=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "title", as_name(self.title, "title", "Linen workshop"))
        for about, kind in (("kits", Kit), ("linens", Linen), ("goods", Goods), ("spares", Kit)):
            object.__setattr__(self, about, all_of(getattr(self, about), kind, about))
        if not 1 <= len(self.kits) <= _MAX_KITS:
            raise HemError(
                f"kits has {len(self.kits)} in it, but must have one for each piece, 1 to {_MAX_KITS}; "
                "for example [Kit('Ada', example('coaster'))].",
                "kits",
            )
        spare = whole_threads(
            self.spare_needles, "spare_needles", most=_MAX_SPARE_NEEDLES, example=6, of="needles"
        )
        object.__setattr__(self, "spare_needles", spare)
        one_of(self.unit, UNITS, "unit")
        for about, like in (("currency", "crowns"), ("note", "Invented, as an example.")):
            object.__setattr__(self, about, as_name(getattr(self, about), about, like, empty=True))
        of_type(self.lengths, Mapping, "lengths", "Workshop.with_lengths(cut_for_class(workshop)).lengths")  # type: ignore[type-abstract]
        for length in self.lengths.values():
            of_type(length, Length, "lengths", "Length('2 m')")
        self._refuse_what_is_not_for_sale()

    def __repr__(self) -> str:
        kits, learners = so_many(len(self.kits), "kit"), so_many(len(self.learners), "learner")
        return f"Workshop({self.title}: {kits} for {learners}, {so_many(len(self.spares), 'spare')})"

    def _repr_html_(self) -> str:
        rows = (
            (line.goods.name, line.need_text, line.text(), *map(money_text, (line.goods.price, line.cost)))
            for line in self.shopping
        )
        columns = ["goods", "needed", "buy", "price", f"cost, {self.currency}" if self.currency else "cost"]
        return table_html(columns, rows, f"{self.title}: to buy, {self.cost_text}")

    # A view on a dict, which keeps the lengths from being changed, is neither copied nor pickled.
    def __getstate__(self) -> dict[str, object]:
        return {**vars(self), "lengths": dict(self.lengths)}

    def __setstate__(self, state: dict[str, Any]) -> None:
        vars(self).update(state, lengths=MappingProxyType(state["lengths"]))

    def _refuse_what_is_not_for_sale(self) -> None:
        names = [linen.name for linen in self.linens] + [goods.name for goods in self.goods]
        for name, times in Counter(names).items():
            if times > 1:
                raise HemError(
                    f"goods has {shown(name)} {times} times, but each name must stand for one thing; "
                    "for example 'linen 32' and 'linen 28'.",
                    "goods",
                )
        sold = {goods.name: isinstance(goods.each, Length) for goods in self.goods}
        for kit in self.every_kit:
            self.linen_of(kit)
            for name, by_length in ((kit.thread, True), (kit.basting, True), (kit.needle, False)):
                if sold.get(name) is not by_length:
                    example = f"Goods({name!r}, '80 m')" if by_length else f"Goods({name!r}, 6)"
                    raise HemError(
                        f"goods has no {shown(name)} sold by {'length' if by_length else 'number'} for "
                        f"{kit.learner}'s kit; for example add {example}.",
                        "goods",
                    )

    @property
    def every_kit(self) -> tuple[Kit, ...]:
        """The learners' kits, then the spares."""
        return self.kits + self.spares

    @property
    def learners(self) -> tuple[str, ...]:
        """Everyone's name, once; whoever has several kits among them."""
        return tuple(dict.fromkeys(kit.learner for kit in self.kits))

    def linen_of(self, kit: Kit) -> Linen:
        """The linen that a kit is cut from; as `linen_for`."""
        return linen_for(of_type(kit, Kit, "kit", "Kit('Ada', example('coaster'))"), self.linens)

    def with_lengths(self, lengths: Mapping[str, Length | str | Layout]) -> Workshop:
        """The workshop with so much of each linen to buy: a length in the shop, or a layout.

        Kits that a layout turns are planned anew, the last of each size first: so no learner's sheet is for
        another way of the cloth than her piece was cut. Refused if a layout isn't this class's.
        """
        if not isinstance(lengths, Mapping):
            raise HemError(
                f"lengths is {shown(lengths)}, but must have a length or a layout for each linen; "
                "for example cut_for_class(workshop).",
                "lengths",
            )
        names = tuple(linen.name for linen in self.linens)
        rests = lengths.rests if isinstance(lengths, Cutting) else ()
        known, turned = dict(self.lengths), dict[int, Kit]()
        for name in dict.fromkeys([*lengths, *(each.rest.linen for each in rests)]):
            linen = self.linens[names.index(one_of(name, names, "linen"))]
            # What comes from the rests altogether is not bought.
            length = lengths.get(name, Length(0))
            if isinstance(length, Layout):
                known[name] = linen.need_of(length)
            else:
                known[name] = as_length(length, name, size=name in lengths)
            from_rests = [piece for each in rests if each.rest.linen == name for piece in each.had.pieces]
            if isinstance(length, Layout) or from_rests:
                bolt = length.pieces if isinstance(length, Layout) else ()
                turned |= self._laid(linen, [*from_rests, *bolt])
        every = [turned.get(at, kit) for at, kit in enumerate(self.every_kit)]
        return replace(
            self,
            kits=tuple(every[: len(self.kits)]),
            spares=tuple(every[len(self.kits) :]),
            lengths=MappingProxyType(known),
        )

    def _laid(self, linen: Linen, pieces: Sequence[Placed]) -> dict[int, Kit]:
        """The kits of a linen as they lie in its layouts, by their place among all."""
        laid = {}
        for size, places in self._sizes(linen):
            ways = sorted(piece.turned for piece in pieces if piece.name == size.name)
            if len(ways) != len(places):
                raise HemError(
                    f"The layout of {shown(linen.name)} has {len(ways)} of {shown(size.name)}, but the class "
                    f"has {len(places)}; for example lay it out anew with cut_for_class(workshop).",
                    "lengths",
                )
            for at, way in zip(places, ways, strict=True):
                kit = self.every_kit[at]
                laid[at] = kit if kit.turned == way else kit.turn()
        return laid

    def pieces_of(self, linen: Linen) -> tuple[CutSize, ...]:
        """What is to come out of a linen, largest first, and ready for `cut_from_bolt`.

        Sizes are as cut, up to the ruler's mark; turned, they are planned anew.
        """
        return tuple(size for size, _ in self._sizes(of_type(linen, Linen, "linen", "workshop.linens[0]")))

    def _sizes(self, linen: Linen) -> list[tuple[CutSize, list[int]]]:
        """The sizes of a linen, and the places of their kits among all."""
        places: dict[tuple[str, Piece], list[int]] = {}
        for at, kit in enumerate(self.every_kit):
            if self.linen_of(kit) == linen:
                places.setdefault((kit.kind, kit.upright), []).append(at)
        # Pieces that differ in what does not change their size are one size on the bolt.
        sizes: dict[tuple[str, Length, Length, tuple[Length, Length] | None], list[int]] = {}
        for (kind, piece), of_it in places.items():
            size = cut_size_of(kind, piece, len(of_it), self.unit)
            sizes.setdefault((kind, size.across, size.down, size.turned), []).extend(of_it)
        named: Counter[str] = Counter()
        pieces = []
        # The largest first.
        by_size = sorted(sizes.items(), key=lambda item: -item[0][1].mm * item[0][2].mm)
        for (kind, across, down, turned), of_it in by_size:
            named[kind] += 1
            name = kind if named[kind] == 1 else f"{kind} ({named[kind]})"
            pieces.append((CutSize(name, across, down, len(of_it), turned=turned), sorted(of_it)))
        return pieces

    @cached_property
    def shopping(self) -> tuple[Bought, ...]:
        """The shopping list: linens that are used, then the other goods that are."""
        lines = []
        for linen in self.linens:
            length = self.lengths.get(linen.name)
            # Of what the cupboard gives altogether there is nothing to buy.
            if self.pieces_of(linen) and (length is None or length):
                lines.append(Bought(linen.goods, None, None) if length is None else linen.goods.buy(length))
        for goods in self.goods:
            need = self._need(goods)
            if need is not None:
                lines.append(goods.buy(need))
        return tuple(lines)

    def _need(self, goods: Goods) -> Length | int | None:
        """How much of these goods all kits take; None if none takes any."""
        kits = self.every_kit
        lengths = [kit.thread_to_have for kit in kits if kit.thread == goods.name]
        lengths += [kit.basting_to_have for kit in kits if kit.basting == goods.name]
        if lengths:
            return Length(sum(length.mm for length in lengths))
        return next((out.in_all for out in self.counted_out if out.name == goods.name), None)

    @property
    def counted_out(self) -> tuple[CountedOut, ...]:
        """Needles and pins of each name: in the bags, among the spares, and in all."""
        return counted_out(self.kits, self.spares, self.spare_needles)

    @property
    def cost(self) -> Decimal:
        """What all that has a price costs, exact."""
        return add_up(line.cost for line in self.shopping if line.cost is not None)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """Goods that the cost is without: no price, or no length worked out yet."""
        return tuple(line.goods.name for line in self.shopping if line.cost is None)

    @property
    def cost_each(self) -> Decimal:
        """A learner's share of the cost, all her kits in it, rounded up to the last place of the prices."""
        return each_pays(self.cost, len(self.learners))

    @property
    def cost_text(self) -> str:
        """The cost in words, and what it is without."""
        said = money_text(self.cost, self.currency)
        return f"{said}, without {', '.join(self.unpriced)}" if self.unpriced else said
