"""A class's linen: when it is washed, how each is cut up, and so how much of it to buy."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from hemcalc.bolt.buying import Layout, cut_from_bolt
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.linen import Linen, fabric_for
from hemcalc.workshop.workshop import Workshop, as_workshop

__all__ = ["cut_for_class", "washed_class"]


def cut_for_class(workshop: Workshop, *, grain: str = "fixed") -> Mapping[str, Layout]:
    """How the pieces of a class are cut from each of its linens, spares among them.

    Parameters
    ----------
    workshop : Workshop
        The class.
    grain : str
        ``"fixed"``: each piece's down lies along the warp; ``"free"``: it may lie across.

    Returns
    -------
    mapping of str to Layout
        A layout for each linen that is used, by its name; `Workshop.with_lengths` takes it.

    Raises
    ------
    HemError
        If it is no Workshop, or a piece is wider than its bolt.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> class_of_twelve = example_workshop("cm")
    >>> layouts = cut_for_class(class_of_twelve)
    >>> layouts["linen for coasters"].to_buy.text("cm")
    '20 cm'
    >>> class_of_twelve.with_lengths(layouts).unpriced
    ()
    """
    return MappingProxyType(
        {
            linen.name: cut_from_bolt(pieces, linen.width, grain=grain, unit=linen.sold_by, allow=linen.allow)
            for linen in as_workshop(workshop).linens
            if (pieces := workshop.pieces_of(linen))
        }
    )


def washed_class(workshop: Workshop, wash: str) -> Workshop:
    """The same class with all its linen washed then, every piece planned anew for it.

    Parameters
    ----------
    workshop : Workshop
        The class.
    wash : str
        ``"before cutting"``, ``"after finishing"`` or ``"never"``.

    Raises
    ------
    HemError
        If `workshop` is not a Workshop, or `wash` is another word.

    Examples
    --------
    >>> from hemcalc.measure.fabric import Fabric
    >>> from hemcalc.piece.examples import example
    >>> from hemcalc.workshop.goods import Goods
    >>> raw = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
    >>> shop = [Goods("working thread", "80 m"), Goods("basting thread", "100 m"),
    ...         Goods("tapestry needle", 6)]
    >>> kit = Kit("Ada", example("coaster").with_changes(fabric=raw))
    >>> one = Workshop("One", [kit], [Linen(raw, "140 cm", Goods("linen", "10 cm"))], shop)
    >>> for when in ("before cutting", "after finishing", "never"):
    ...     print(cut_for_class(washed_class(one, when))["linen"].needed.text("cm"))
    ≈ 19.53 cm
    ≈ 18.92 cm
    ≈ 18.92 cm
    """

    def washed(kit: Kit) -> Kit:
        return replace(kit, piece=kit.piece.with_changes(fabric=fabric_for(kit.piece.fabric, wash)))

    return replace(
        as_workshop(workshop),
        kits=tuple(washed(kit) for kit in workshop.kits),
        spares=tuple(washed(kit) for kit in workshop.spares),
        linens=tuple(
            Linen(fabric_for(linen.fabric, wash), linen.width, linen.goods, wash, linen.allow)
            for linen in workshop.linens
        ),
        lengths=MappingProxyType({}),
    )
