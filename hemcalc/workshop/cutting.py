"""A class's linen: when it is washed, how each is cut up, and so how much of it to buy."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from types import MappingProxyType

from hemcalc.measure.errors import all_of, of_type, one_of
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.linen import Linen, fabric_for
from hemcalc.workshop.rests import Cutting, FromRest, Rest, cut_linen, left_whole
from hemcalc.workshop.workshop import Workshop


def cut_for_class(
    workshop: Workshop,
    *,
    grain: str = "fixed",
    rests: Sequence[Rest] = (),
    effort: object = 1,
    progress: Callable[[str], None] | None = None,
) -> Cutting:
    """How the pieces of a class are cut from each of its linens, spares among them.

    The rests come first, then the layout of each linen that is bought; `Workshop.with_lengths` takes it.
    Refused if a piece is wider than its bolt, or a rest is of none of the linens or in a state for which its
    pieces aren't planned.

    Parameters
    ----------
    workshop : Workshop
        The class.
    grain : str
        ``"fixed"``: each piece's down lies along the warp; ``"free"``: it may lie across.
    rests : sequence of Rest
        What the cupboard has: cut first, where that lets her buy less.
    effort, progress
        As for `cut_from_bolt`, each linen's sentences behind its name.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> class_of_twelve = example_workshop("cm")
    >>> cutting = cut_for_class(class_of_twelve)
    >>> cutting["linen for coasters"].to_buy.text("cm")
    '20 cm'
    >>> class_of_twelve.with_lengths(cutting).unpriced
    ()
    >>> rest = Rest("linen for coasters", "50 cm", "20 cm", washed=True)
    >>> with_rest = cut_for_class(class_of_twelve, rests=[rest])
    >>> print(*(each.text("cm") for each in with_rest.rests))
    From the rest of 50 cm across × 20 cm down: 3 of coaster. Left of it: 50 cm × 4.4 cm, ...
    >>> "linen for coasters" in with_rest
    False
    """
    linens = of_type(workshop, Workshop, "workshop", "example_workshop()").linens
    names = tuple(linen.name for linen in linens)
    cupboard = all_of(rests, Rest, "rests")
    for rest in cupboard:
        one_of(rest.linen, names, "rests")
    bolts, used, saved = [], list[FromRest](), []
    for linen in linens:
        pieces = workshop.pieces_of(linen)
        if pieces:
            # What can't be called is refused where it is called.
            tell = partial(_tell, progress, linen.name) if callable(progress) else progress
            mine = [rest for rest in cupboard if rest.linen == linen.name]
            layout, from_rests, less = cut_linen(linen, pieces, mine, grain, effort, tell)
            used += from_rests
            bolts += [(linen.name, layout)] if layout else []
            saved += [(linen.name, less)] if less else []
    return Cutting(tuple(bolts), tuple(used), left_whole(cupboard, used), tuple(saved))


def _tell(progress: Callable[[str], None], linen: str, sentence: str) -> None:
    progress(f"{linen}: {sentence}")


def washed_class(workshop: Workshop, wash: str) -> Workshop:
    """The same class with all its linen washed then, every piece planned anew for it.

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
        of_type(workshop, Workshop, "workshop", "example_workshop()"),
        kits=tuple(washed(kit) for kit in workshop.kits),
        spares=tuple(washed(kit) for kit in workshop.spares),
        linens=tuple(
            Linen(fabric_for(linen.fabric, wash), linen.width, linen.goods, wash, linen.allow)
            for linen in workshop.linens
        ),
        lengths=MappingProxyType({}),
    )
