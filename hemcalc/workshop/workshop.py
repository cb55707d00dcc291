"""A class: every learner's kit and the leader's spares, what it all takes, and what to buy.

Totals are exact; each is rounded up once, to the shop's unit. How long a bit of linen must be
bought is not worked out here: `pieces_of` says what is to come out of it, and the length, from
`cut_from_bolt` or the leader's own pencil, is handed back with `with_lengths`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import cached_property
from types import MappingProxyType
from typing import Any, Protocol, runtime_checkable

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import UNITS
from hemcalc.workshop.goods import Bought, Goods, as_name
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.money import add_up, money_text, share_up

__all__ = ["LaidOut", "Linen", "Workshop", "as_workshop"]

_MOST_KITS = 500
_MOST_SPARE_NEEDLES = 1000


@runtime_checkable
class LaidOut(Protocol):
    """A plan of cutting that says how much cloth it takes, and how much to buy for it."""

    @property
    def used(self) -> Length: ...
    @property
    def to_buy(self) -> Length: ...


@dataclass(frozen=True, slots=True)
class Linen:
    """A cloth off the bolt: which fabric, how wide it can be used, and how the shop sells it.

    Examples
    --------
    >>> linen = Linen(Fabric("28/in"), "140 cm", Goods("linen 28", "10 cm", "3.10"))
    >>> linen.name, linen.width.text("cm")
    ('linen 28', '140 cm')
    """

    fabric: Fabric
    #: Usable width, selvedges off.
    width: Length
    goods: Goods

    def __init__(self, fabric: Fabric, width: Length | str, goods: Goods) -> None:
        if not isinstance(fabric, Fabric):
            raise HemError(
                f"fabric is {shown(fabric)}, but must be a Fabric; for example Fabric('28/in').", "fabric"
            )
        if not isinstance(goods, Goods) or not isinstance(goods.each, Length):
            raise HemError(
                f"goods is {shown(goods)}, but linen is sold by length; "
                "for example Goods('linen 32', '10 cm', '3.10').",
                "goods",
            )
        object.__setattr__(self, "fabric", fabric)
        object.__setattr__(self, "width", as_length(width, "width"))
        object.__setattr__(self, "goods", goods)

    @property
    def name(self) -> str:
        """What it is called on the shopping list."""
        return self.goods.name


@dataclass(frozen=True)
class Workshop:
    """A class of learners, and what the leader buys for it.

    Parameters
    ----------
    title : str
        What stands over every page.
    kits : sequence of Kit
        One for each learner.
    linens : sequence of Linen
        The cloths, one for each fabric among the pieces.
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

    Raises
    ------
    HemError
        If an input is none, or a kit asks for what is not among the goods.

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
    >>> [(name, across.text("cm"), many) for name, across, _, many in pair.pieces_of(linen)]
    [('coaster', '15.5 cm', 2)]
    >>> bought = pair.with_lengths({"linen 25": "15.5 cm"})
    >>> [line.text for line in bought.shopping], bought.cost_text
    (['2 × 10 cm', '1 × ball of 80 m', '1 × 100 m', '1 × packet of 6'], '13.25 crowns')
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
            object.__setattr__(self, about, _all_of(getattr(self, about), kind, about))
        if not 1 <= len(self.kits) <= _MOST_KITS:
            raise HemError(
                f"kits has {len(self.kits)} in it, but must have one for each learner, 1 to {_MOST_KITS}; "
                "for example [Kit('Ada', example('coaster'))].",
                "kits",
            )
        spare = whole_threads(
            self.spare_needles, "spare_needles", most=_MOST_SPARE_NEEDLES, example=6, of="needles"
        )
        object.__setattr__(self, "spare_needles", spare)
        one_of(self.unit, UNITS, "unit")
        for about, like in (("currency", "crowns"), ("note", "Invented, as an example.")):
            if getattr(self, about) != "":
                object.__setattr__(self, about, as_name(getattr(self, about), about, like))
        self._refuse_what_is_not_for_sale()

    # A view on a dict, which keeps the lengths from being changed, is neither copied nor pickled.
    def __getstate__(self) -> dict[str, object]:
        return {**vars(self), "lengths": dict(self.lengths)}

    def __setstate__(self, state: dict[str, Any]) -> None:
        vars(self).update(state, lengths=MappingProxyType(state["lengths"]))

    def _refuse_what_is_not_for_sale(self) -> None:
        names = [linen.name for linen in self.linens] + [goods.name for goods in self.goods]
        for name, many in Counter(names).items():
            if many > 1:
                raise HemError(
                    f"goods has {shown(name)} {many} times, but each name must stand for one thing; "
                    "for example 'linen 32' and 'linen 28'.",
                    "goods",
                )
        sold = {goods.name: isinstance(goods.each, Length) for goods in self.goods}
        for kit in self.every_kit:
            if not any(linen.fabric == kit.piece.fabric for linen in self.linens):
                raise HemError(
                    f"linens has no cloth for {kit.learner}'s {kit.kind}, of {kit.piece.fabric.across}; "
                    "for example Linen(piece.fabric, '140 cm', Goods('linen 32', '10 cm')).",
                    "linens",
                )
            for name, by_length in ((kit.thread, True), (kit.basting, True), (kit.needle, False)):
                if sold.get(name) is not by_length:
                    wanted = f"Goods({name!r}, '80 m')" if by_length else f"Goods({name!r}, 6)"
                    raise HemError(
                        f"goods has no {shown(name)} sold by {'length' if by_length else 'number'} for "
                        f"{kit.learner}'s kit; for example add {wanted}.",
                        "goods",
                    )

    @property
    def every_kit(self) -> tuple[Kit, ...]:
        """The learners' kits, then the spares."""
        return self.kits + self.spares

    def with_lengths(self, lengths: Mapping[str, Length | str | LaidOut]) -> Workshop:
        """The workshop with so much of each linen to buy: a length, or a plan that says one.

        Raises
        ------
        HemError
            If a name is none of the linens, or a length is none.
        """
        names = tuple(linen.name for linen in self.linens)
        known = dict(self.lengths)
        for name, given in lengths.items():
            linen = self.linens[names.index(one_of(name, names, "linen"))]
            said = _need(linen.goods, given) if isinstance(given, LaidOut) else given
            known[name] = as_length(said, name)
        return replace(self, lengths=MappingProxyType(known))

    def pieces_of(self, linen: Linen) -> tuple[tuple[str, Length, Length, int], ...]:
        """What is to come out of a linen: name, across, down, how many; largest first.

        Sizes are as cut, up to the ruler's mark, and so ready for `cut_from_bolt`.
        """
        sizes = Counter(
            (kit.kind, *kit.to_cut(self.unit)) for kit in self.every_kit if kit.piece.fabric == linen.fabric
        )
        named: Counter[str] = Counter()
        pieces = []
        for (kind, across, down), many in sorted(sizes.items(), key=lambda size: _largest_first(*size[0])):
            named[kind] += 1
            name = kind if named[kind] == 1 else f"{kind} ({named[kind]})"
            pieces.append((name, across, down, many))
        return tuple(pieces)

    @cached_property
    def shopping(self) -> tuple[Bought, ...]:
        """The shopping list: linens that are used, then the other goods that are."""
        lines = []
        for linen in self.linens:
            if self.pieces_of(linen):
                length = self.lengths.get(linen.name)
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
        needles = sum(kit.needles for kit in kits if kit.needle == goods.name)
        return needles + self.spare_needles if needles else None

    @property
    def needles_out(self) -> int:
        """Needles handed out, and so to be counted in again."""
        return sum(kit.needles for kit in self.kits)

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
        """A learner's share of the cost, rounded up to the last place of the prices."""
        return share_up(self.cost, len(self.kits))

    @property
    def cost_text(self) -> str:
        """The cost in words, and what it is without."""
        said = money_text(self.cost, self.currency)
        return f"{said}, without {', '.join(self.unpriced)}" if self.unpriced else said


def _need(goods: Goods, plan: LaidOut) -> Length:
    """What a plan takes; what it says to buy, if that is rounded up to more than the goods' own unit."""
    same = goods.buy(plan.used).units == goods.buy(plan.to_buy).units
    return plan.used if same else plan.to_buy


def as_workshop(value: object) -> Workshop:
    """The value, if it is a Workshop.

    Raises
    ------
    HemError
        If it is none.
    """
    if isinstance(value, Workshop):
        return value
    raise HemError(
        f"workshop is {shown(value)}, but must be a Workshop; for example example_workshop().", "workshop"
    )


# Any kind of thing may be handed over as a sequence of another.
def _all_of(value: object, kind: type, about: str) -> tuple[object, ...]:
    if not isinstance(value, tuple | list) or not all(isinstance(one, kind) for one in value):
        raise HemError(
            f"{about} is {shown(value)}, but must be a list, each thing in it a {kind.__name__}; "
            f"for example {about}=[].",
            about,
        )
    return tuple(value)


def _largest_first(kind: str, across: Length, down: Length) -> tuple[object, ...]:
    return -across.mm * down.mm, kind, across.mm
