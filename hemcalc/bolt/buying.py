"""Buying and cutting: how much of a bolt to buy, and how to cut it up.

Pieces of several sizes are laid out on a bolt so that straight cuts, each from edge to edge, set
every one free. Beside the length used stands one that no layout can better, and where the two are
the same the layout is proven best.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.bolt.cutting import CutUp, percent, places_of
from hemcalc.bolt.lay.guillotine import below, lay_out
from hemcalc.bolt.lay.patterns import Demand, Lie
from hemcalc.bolt.lay.shortest import Short, short_layout
from hemcalc.bolt.wanted import TURNS, Wanted, as_wanted, common_step
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import MILLIMETRES

__all__ = ["Layout", "cut_from_bolt"]


@dataclass(frozen=True)
class Layout(CutUp):
    """Pieces laid out on a bolt, made by `cut_from_bolt`; its length is the length to buy."""

    turn: str
    #: The shop's unit, to a multiple of which the purchase is rounded up.
    unit: Length
    #: Length of the bolt that the pieces take.
    used: Length
    #: No layout takes less than this.
    bound: Length
    #: What says so: "area", "patterns" side by side, or a "search" that tried all that is shorter.
    bound_by: str
    #: What the reader should know of how it was found, in sentences.
    notes: tuple[str, ...]

    @property
    def to_buy(self) -> Length:
        """The length used, rounded up to the shop's unit."""
        return self.length

    @property
    def gap(self) -> Length:
        """How much longer the layout is than the bound."""
        return self.used - self.bound

    @property
    def gap_share(self) -> Fraction:
        """The gap as a share of the bound."""
        return Fraction(self.gap / self.bound)

    @property
    def proven(self) -> bool:
        """Whether no layout takes less of the bolt."""
        return self.used == self.bound

    @property
    def proven_to_buy(self) -> bool:
        """Whether no layout lets you buy less, in whole units of the shop."""
        return self.bound.rounded_up(self.unit) == self.to_buy

    def text(self, unit: str = "in") -> str:
        """What to buy, how good the layout is, and the notes, in a few sentences."""
        words = (
            f"Buy {self.to_buy.text(unit)}: the pieces take {self.used.text(unit)} of a bolt "
            f"{self.width.text(unit)} wide, and {percent(self.waste)} of what is bought is left over."
        )
        return " ".join([words, self._how_good(unit), *self.notes])

    def _how_good(self, unit: str) -> str:
        bound = f"No layout takes less than {self.bound.text(unit)} ({_REASONS[self.bound_by]})"
        if self.proven:
            return f"{bound}, so this is proven best."
        over = f"{bound}; this one takes {self.gap.text(unit)} more, {percent(self.gap_share)}."
        if self.proven_to_buy:
            return f"{over} No layout lets you buy less, in steps of {self.unit.text(unit)}."
        return f"{over} A shorter one may be possible."


_REASONS = {
    "area": "by area and width",
    "patterns": "by what fits side by side",
    "search": "all that is shorter than that was tried",
}


def cut_from_bolt(pieces: object, width: object, *, turn: str = "fixed", unit: object = "10 cm") -> Layout:
    """How to cut pieces from a bolt, and how much of it to buy.

    Parameters
    ----------
    pieces : list of Wanted or tuple
        For each size its name, its size across and down as cut, and how many.
    width : str or Length
        Usable width of the bolt, between the selvedges.
    turn : str
        ``"fixed"``: each piece's down lies along the warp; ``"free"``: it may lie across.
    unit : str or Length
        What the shop sells by, such as ``"10 cm"`` or ``"1/8 yd"``; a bare ``"m"`` is 1 m.

    Returns
    -------
    Layout
        Where every piece lies, every cut in order, the length used and to buy, a length that no
        layout can better, and what is left over.

    Raises
    ------
    HemError
        If there are no pieces or too many, one is wider than the bolt, or a length is none.

    Notes
    -----
    Exact for few pieces. For many it is a good layout beside a bound, and says what lies
    between. The bound by what fits side by side needs scipy, an extra of this library
    (``hemcalc[workshop]``); without it the bound is the area's, and a note says so. The same
    input gives the same layout.

    Source
    ------
    Common practice of the trade, no published source; for the bound see `hemcalc.bolt.lay.patterns`.

    Examples
    --------
    >>> layout = cut_from_bolt([("table mat", "76 cm", "50 cm", 3)], "150 cm")
    >>> layout.used.text("cm"), layout.to_buy.text("cm")
    ('150 cm', '150 cm')
    >>> turned = cut_from_bolt([("table mat", "76 cm", "50 cm", 3)], "150 cm", turn="free", unit="m")
    >>> turned.used.text("cm"), turned.to_buy.text("cm"), turned.proven
    ('76 cm', '100 cm', True)
    """
    wanted = as_wanted(pieces)
    bolt = as_length(width, "width")
    one_of(turn, TURNS, "turn")
    sold_by = _shop_unit(unit)
    for size in wanted:
        _must_fit(size, bolt, turn)
    step = common_step([bolt, *(side for size in wanted for side in (size.across, size.down))])
    across = int(bolt.mm / step)
    short = _short(wanted, step, across, turn)
    return _layout(wanted, short, step, bolt, turn, sold_by)


def _shop_unit(unit: object) -> Length:
    """The shop's unit; a unit without a number is one of it."""
    bare = unit.strip().casefold() if isinstance(unit, str) else unit
    return as_length(f"1 {bare}" if bare in MILLIMETRES else unit, "unit")


def _must_fit(size: Wanted, bolt: Length, turn: str) -> None:
    """Refuse what is wider than the bolt, with the way out if turning is one."""
    narrowest = min(size.across, size.down) if turn == "free" else size.across
    if narrowest <= bolt:
        return
    way_out = "for example a wider bolt, or a size that is pieced"
    if turn == "fixed" and size.down <= bolt:
        way_out = "for example with turn='free', if it may lie across the warp"
    across = narrowest.text(_unit_of(bolt))
    raise HemError(
        f"{shown(size.name)} is {across} across, but must be no wider than the bolt, "
        f"{bolt.text(_unit_of(bolt))}; {way_out}.",
        "pieces",
    )


def _unit_of(length: Length) -> str:
    return "in" if (16 * length.inches).denominator == 1 else "cm"


def _demand(size: Wanted, step: Fraction, width: int, turn: str) -> Demand:
    """The pieces of a size in whole steps, with the ways in which they may lie on the bolt."""
    assert size.many is not None
    lies = (Lie(*lie) for lie in size.lies(step, turn))
    return Demand(tuple(lie for lie in lies if lie.across <= width), size.many)


def _short(wanted: Sequence[Wanted], step: Fraction, width: int, turn: str) -> Short:
    """A short layout; with turning allowed it is no longer than without."""
    fixed = [_demand(size, step, width, "fixed") for size in wanted]
    free = [_demand(size, step, width, turn) for size in wanted]
    if free == fixed or not all(demand.lies for demand in fixed):
        return short_layout(free, width)
    return short_layout(free, width, start=short_layout(fixed, width).strips)


def _layout(
    wanted: tuple[Wanted, ...], short: Short, step: Fraction, bolt: Length, turn: str, unit: Length
) -> Layout:
    used = Length(short.length * step)
    to_buy = used.rounded_up(unit)
    # In steps in which the purchase is whole as well.
    fine = common_step([Length(step), to_buy])
    scale = int(step / fine)
    block = below(*(strip.scaled(scale) for strip in short.strips))
    laid = lay_out(block, int(bolt.mm / fine), int(to_buy.mm / fine))
    pieces, cuts, offcuts = places_of(laid, wanted, fine)
    return Layout(
        width=bolt,
        length=to_buy,
        wanted=wanted,
        pieces=pieces,
        cuts=cuts,
        offcuts=offcuts,
        turn=turn,
        unit=unit,
        used=used,
        bound=Length(short.bound * step),
        bound_by=short.by,
        notes=_notes(short),
    )


def _notes(short: Short) -> tuple[str, ...]:
    if short.solver or short.length == short.bound:
        return ()
    return (
        "The bound is the area's, for the one by what fits side by side needs scipy, the extra "
        "hemcalc[workshop]; python3 -m hemcalc open installs it.",
    )
