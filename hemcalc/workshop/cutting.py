"""A class's linen on the bolt: how each is cut up, and so how much of it to buy."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from hemcalc.bolt.buying import Layout, cut_from_bolt
from hemcalc.workshop.workshop import Workshop, as_workshop

__all__ = ["cut_for_class"]


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
