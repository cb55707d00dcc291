"""Linen off the bolt: how the shop sells it, in which state it is bought, and when it is washed.

When the wash comes decides what is bought. Washed *before cutting*, the linen shrinks on the bolt:
length and usable width are less, and pieces are cut at their size after the wash. Washed *after
finishing*, pieces are cut at their size before it. *Never*: nothing is reckoned.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from hemcalc.bolt.allowances import BoltAllowances, usual_allowances
from hemcalc.bolt.layout import Layout
from hemcalc.bolt.shop_unit import ShopUnit
from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.words import percent
from hemcalc.workshop.goods import Goods, as_name
from hemcalc.workshop.kit import Kit

#: When linen that is bought raw is washed.
WASHES = ("before cutting", "after finishing", "never")
_NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class Linen:
    """A cloth off the bolt: which fabric, how wide it can be used, and how the shop sells it.

    Refused if the wash and the fabric contradict each other.

    Parameters
    ----------
    fabric : Fabric
        The cloth as it is when it is cut: of linen that is washed before cutting, the washed one.
    width : str or Length
        Usable width in the shop, selvedges off.
    goods : Goods
        How the shop sells it, by length.
    wash : str, optional
        ``"before cutting"``, ``"after finishing"`` or ``"never"``. Left out: never, if the fabric
        gives no shrinkage; else before cutting, if its counts were taken after the wash, and after
        finishing, if before.
    allow : BoltAllowances, optional
        What is bought beside the pieces; the usual ones if left out. What the wash takes is added
        from the fabric's shrinkage.

    Examples
    --------
    >>> raw = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
    >>> linen = Linen(fabric_for(raw, "before cutting"), "150 cm", Goods("white linen", "10 cm", "3.10"))
    >>> linen.wash, linen.allow.width(linen.width).text("cm")
    ('before cutting', '145.5 cm')
    """

    fabric: Fabric
    width: Length
    goods: Goods
    wash: str
    allow: BoltAllowances

    def __init__(
        self,
        fabric: Fabric,
        width: Length | str,
        goods: Goods,
        wash: str | None = None,
        allow: BoltAllowances | None = None,
    ) -> None:
        of_type(fabric, Fabric, "fabric", "Fabric('28/in')")
        if not isinstance(goods, Goods) or not isinstance(goods.each, Length):
            raise HemError(
                f"goods is {shown(goods)}, but linen is sold by length; "
                "for example Goods('linen 32', '10 cm', '3.10').",
                "goods",
            )
        if allow is not None:
            of_type(allow, BoltAllowances, "allow", "BoltAllowances(ends='2 cm')")
        object.__setattr__(self, "fabric", fabric)
        object.__setattr__(self, "width", as_length(width, "width"))
        object.__setattr__(self, "goods", goods)
        object.__setattr__(self, "wash", _wash(fabric, goods.name, wash))
        object.__setattr__(self, "allow", self._allow(allow))

    def _allow(self, asked: BoltAllowances | None) -> BoltAllowances:
        allow = asked or usual_allowances(self.sold_by.ruler)
        if self.wash != "before cutting":
            return replace(allow, off_length=_NONE, off_width=_NONE)
        return replace(allow, off_length=self.fabric.shrink_down, off_width=self.fabric.shrink_across)

    @property
    def name(self) -> str:
        """What it is called on the shopping list."""
        return self.goods.name

    @property
    def sold_by(self) -> ShopUnit:
        """What the shop sells it by."""
        sold_by = self.goods.sold_by
        assert sold_by is not None  # linen is sold by length
        return sold_by

    def from_shop(self, shop: str, width: object, each: str, price: object = None) -> Linen:
        """The same linen as another shop sells it: in this width, by so much, at this price.

        Examples
        --------
        >>> linen = Linen(Fabric("28/in"), "140 cm", Goods("white linen", "10 cm", "3.10"))
        >>> linen.from_shop("market stall", "54 in", "1/4 yd", "6.80")
        Linen(white linen, 54 in wide, 1/4 yd at 6.80, market stall)
        """
        goods = Goods(self.name, each, price, self.goods.sold_as, as_name(shop, "shop", "market stall"))
        return Linen(self.fabric, as_length(width, "width"), goods, self.wash, self.allow)

    def __repr__(self) -> str:
        unit = "in" if self.width.text("in")[0] != "≈" else "cm"
        goods = repr(self.goods).partition(", ")[2][:-1]
        return f"Linen({self.name}, {self.width.text(unit)} wide, {goods})"

    def need_of(self, layout: Layout) -> Length:
        """What a layout needs; what it says to buy, if that is more than in the goods' own unit."""
        of_type(layout, Layout, "layout", "cut_from_bolt(workshop.pieces_of(linen), linen.width)")
        same = self.goods.buy(layout.needed).units == self.goods.buy(layout.to_buy).units
        return layout.needed if same else layout.to_buy

    @property
    def wash_text(self) -> str:
        """In which state it is bought, and when it is washed, in a sentence or two."""
        if self.wash == "before cutting":
            return (
                f"Bought raw. Wash first, before cutting: {percent(self.allow.off_length)} off the length "
                f"and {percent(self.allow.off_width)} off the usable width are allowed for it."
            )
        if self.wash == "after finishing":
            return "Bought raw and cut raw, at the sizes before the wash; the finished piece is washed."
        if self.fabric.washed:
            return (
                "Its lengths are those after the wash: buy it washed, or wash and dry it before it is "
                "measured, and then more of it, since nothing is allowed for what it loses."
            )
        return "Bought raw, cut raw and never washed: nothing is allowed for a wash."


def _wash(fabric: Fabric, name: str, asked: str | None) -> str:
    shrinks = bool(fabric.shrink_across or fabric.shrink_down)
    if asked is None:
        if not shrinks:
            return "never"
        return "before cutting" if fabric.washed else "after finishing"
    wash = one_of(asked, WASHES, "wash")
    cut_washed = wash == "before cutting"
    if (cut_washed and not fabric.washed) or (wash == "after finishing" and fabric.washed):
        state = "after" if fabric.washed else "before"
        raise HemError(
            f"{shown(name)} is washed {wash}, but its fabric's counts were taken {state} the wash; "
            f"for example fabric_for(fabric, {wash!r}).",
            "wash",
        )
    if cut_washed and not shrinks:
        raise HemError(
            f"{shown(name)} is washed before cutting, but its fabric says no shrinkage, and too little would "
            "be bought; for example Fabric('28/in', shrink_warp='8 %', shrink_weft='3 %', washed=True).",
            "wash",
        )
    if wash == "never" and shrinks and not fabric.washed:
        raise HemError(
            f"{shown(name)} is never washed, but its fabric allows for a wash; "
            "for example fabric_for(fabric, 'never').",
            "wash",
        )
    return wash


def fabric_for(fabric: Fabric, wash: str) -> Fabric:
    """The same linen as it is cut if it is washed then: its counts taken after or before the wash.

    Never: raw, and no shrinkage is reckoned.

    Examples
    --------
    >>> raw = Fabric("46/in", shrink_warp="8 %")
    >>> fabric_for(raw, "before cutting").down.per_inch, fabric_for(raw, "never").shrink_warp
    (Fraction(50, 1), Fraction(0, 1))
    """
    if one_of(wash, WASHES, "wash") == "before cutting":
        return replace(fabric, warp=fabric.across_washed, weft=fabric.down_washed, washed=True)
    raw = replace(fabric, warp=fabric.across_unwashed, weft=fabric.down_unwashed, washed=False)
    return raw if wash == "after finishing" else replace(raw, shrink_warp=_NONE, shrink_weft=_NONE)


def linen_for(kit: Kit, linens: Sequence[Linen]) -> Linen:
    """The one of these linens that a kit is cut from.

    Refused if it names another fabric, or none of them, or names none and none or several are of its fabric.
    """
    whose, fabric = f"{kit.learner}'s {kit.kind}", kit.upright.fabric
    like = [linen for linen in linens if linen.fabric == fabric]
    if kit.linen:
        names = tuple(linen.name for linen in linens)
        if kit.linen not in names:
            raise HemError(
                f"linens has no {shown(kit.linen)} for {whose}; for example one of "
                f"{', '.join(map(shown, names[:4])) or 'none yet'}.",
                "linens",
            )
        linen = linens[names.index(kit.linen)]
        if linen not in like:
            raise HemError(
                f"{whose} is planned on another fabric than {shown(kit.linen)}: a count, a shrinkage, "
                "the thickness or the wash differs; for example plan the piece with linen.fabric.",
                "linens",
            )
        return linen
    if not like:
        raise HemError(
            f"linens has no cloth for {whose}, of {fabric.across}; "
            "for example Linen(piece.fabric, '140 cm', Goods('linen 32', '10 cm')).",
            "linens",
        )
    if len(like) > 1:
        raise HemError(
            f"{whose} could be cut from {' or '.join(shown(linen.name) for linen in like[:3])}, so its "
            f"kit must say which; for example Kit(..., linen={like[0].name!r}).",
            "linens",
        )
    return like[0]
