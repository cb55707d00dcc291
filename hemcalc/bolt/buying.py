"""Buying and cutting: how much of a bolt to buy, and how to cut it up.

Pieces of several sizes are laid out on a bolt so that straight cuts, each from edge to edge, set
every one free. Beside the length used stands one that no layout can better, and where the two are
the same the layout is proven best. What is bought is more: the shop's ends are squared, cuts cost
cloth, the wash takes its share; what is allowed for each is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from hemcalc.bolt.allowances import NOTHING, BoltAllowances
from hemcalc.bolt.cut_sizes import GRAINS, CutSize, as_cut_sizes, common_step, sides_of
from hemcalc.bolt.cutting import Placed, places_of
from hemcalc.bolt.lay.guillotine import Block, below, lay_out
from hemcalc.bolt.lay.patterns import Demand, Pose
from hemcalc.bolt.lay.shortest import Short, Work, short_layout
from hemcalc.bolt.lay.solver import solver_at_hand
from hemcalc.bolt.layout import Layout
from hemcalc.bolt.shop_unit import as_shop_unit
from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.exact import exact_number
from hemcalc.measure.lengths import Length, as_length


def cut_from_bolt(
    pieces: object,
    width: object,
    *,
    grain: str = "fixed",
    unit: object = "10 cm",
    allow: BoltAllowances = NOTHING,
    effort: object = 1,
    progress: Callable[[str], None] | None = None,
) -> Layout:
    """How to cut pieces from a bolt, and how much of it to buy.

    Refused if there are no pieces or too many, or one is wider than the bolt.

    Parameters
    ----------
    pieces : list of CutSize or tuple
        For each size its name, its size across and down as cut, and how many.
    width : str or Length
        Usable width of the bolt in the shop, between the selvedges.
    grain : str
        ``"fixed"``: each piece's down lies along the warp; ``"free"``: it may lie along the weft.
        A `cut_size_of` is then planned anew, of any other size the sides are exchanged.
    unit : str or Length
        What the shop sells by, such as ``"10 cm"``, ``"1/8 yd"``, ``"yard"`` or ``"metre"``.
    allow : BoltAllowances
        What is bought beside the pieces; nothing unless it is said.
    effort : int, Fraction or Decimal
        How many times as long to search as usual, 1/10 to 1000. Usual comes back in a second or
        two for a class of 24.
    progress : callable, optional
        Is told, in a sentence, what is had so far, before each stage: ``print``, for one. To stop
        a long search, interrupt it: it gives the best so far, and says so.

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
    >>> layout.used.text("cm"), layout.buy_text("cm")
    ('150 cm', '150 cm')
    >>> turned = cut_from_bolt([("table mat", "76 cm", "50 cm", 3)], "150 cm", grain="free", unit="metre")
    >>> turned.used.text("cm"), turned.buy_text("cm"), turned.proven
    ('76 cm', '1 m (100 cm)', True)
    >>> allow = BoltAllowances(ends="2 cm", each_cut="1 mm", off_length="8 %", off_width="3 %")
    >>> cut_from_bolt([("table mat", "46 cm", "50 cm", 3)], "150 cm", allow=allow).needed.text("cm")
    '≈ 58.7 cm'
    """
    sizes = as_cut_sizes(pieces)
    in_shop = as_length(width, "width")
    one_of(grain, GRAINS, "grain")
    sold_by = as_shop_unit(unit)
    of_type(allow, BoltAllowances, "allow", "BoltAllowances(ends='2 cm')")
    if progress is not None and not callable(progress):
        raise HemError(
            f"progress is {shown(progress)}, but must be a function that is told a sentence; "
            "for example print.",
            "progress",
        )
    bolt = allow.width(in_shop)
    for size in sizes:
        _must_fit(size, bolt, grain)
    step = common_step([bolt, *([allow.each_cut] if allow.each_cut else []), *sides_of(sizes, grain)])
    loss = int(allow.each_cut.mm / step)
    tell = None
    if progress is not None:
        tell = _teller(progress, step, allow.each_cut)
    asked = tuple(sizes), step, int(bolt.mm / step) + loss, grain, loss, _effort(effort)
    short = short_for(*asked, tell) if tell else short_kept(*asked)
    used, bound = (Length(length * step) - allow.each_cut for length in (short.length, short.bound))
    to_buy = sold_by.up(allow.to_have(used))
    length = allow.left_of(to_buy)
    # In steps in which the cloth is whole as well; a cut's cost lies beyond it as beyond each piece.
    fine = common_step([Length(step), length])
    block = below(*(strip.scaled(int(step / fine)) for strip in short.strips))
    loss = int(allow.each_cut.mm / fine)
    laid = lay_out(block, int(bolt.mm / fine) + loss, int(length.mm / fine) + loss)
    laid_pieces, cuts, offcuts = places_of(laid, sizes, fine, loss)
    return Layout(
        width=bolt,
        length=length,
        sizes=sizes,
        pieces=laid_pieces,
        cuts=cuts,
        offcuts=offcuts,
        grain=grain,
        sold_by=sold_by,
        bought_width=in_shop,
        allow=allow,
        used=used,
        bound=bound,
        bound_by=short.by,
        notes=(*_notes(short), *_exchanged(laid_pieces, sizes)),
    )


def _must_fit(size: CutSize, bolt: Length, grain: str) -> None:
    """Refuse what is wider than the bolt, with the way out if turning is one."""
    narrowest = min((across for across, _, _ in size.lays(grain)), key=lambda across: across.mm)
    if narrowest <= bolt:
        return
    way_out = "for example a wider bolt, or a size that is pieced"
    if any(across <= bolt for across, _, _ in size.lays("free")):
        way_out = "for example with grain='free', if it may lie across the warp"
    across = narrowest.text(_unit_of(bolt))
    raise HemError(
        f"{shown(size.name)} is {across} across, but must be no wider than the bolt, "
        f"{bolt.text(_unit_of(bolt))}; {way_out}.",
        "pieces",
    )


def _unit_of(length: Length) -> str:
    return "in" if (16 * length.inches).denominator == 1 else "cm"


def _demand(size: CutSize, step: Fraction, width: int, grain: str, loss: int) -> Demand:
    """The pieces of a size in whole steps, with the ways in which they may lie on the bolt."""
    assert size.quantity is not None
    poses = (Pose(*lay) for lay in size.in_steps(step, grain, loss))
    return Demand(tuple(pose for pose in poses if pose.across <= width), size.quantity)


def short_for(
    sizes: Sequence[CutSize],
    step: Fraction,
    width: int,
    grain: str,
    loss: int,
    effort: Fraction = Fraction(1),
    progress: Callable[[int, int], None] | None = None,
) -> Short:
    """A short layout on so many steps of width; with turning allowed it is no longer than without.

    Each size must fit the width in one way at least.
    """
    fixed = [_demand(size, step, width, "fixed", loss) for size in sizes]
    free = [_demand(size, step, width, grain, loss) for size in sizes]
    start: tuple[Block, ...] = ()
    if free != fixed and all(demand.poses for demand in fixed):
        first = short_layout(fixed, width, effort=effort, progress=progress)
        if first.stopped:
            # What bounds the pieces as they lie doesn't bound them turned; their area does.
            return replace(first, bound=min(first.length, Work(free, width).bound), by="area")
        start, effort = first.strips, effort / 3  # turned pieces better a layout that is found already
    return short_layout(free, width, start, effort=effort, progress=progress)


def short_kept(
    sizes: tuple[CutSize, ...],
    step: Fraction,
    width: int,
    grain: str,
    loss: int,
    effort: Fraction = Fraction(1),
) -> Short:
    """As `short_for`, kept for the last few: one class is laid out for its list, its shopping, its pages."""
    short = _kept(sizes, step, width, grain, loss, effort, solver_at_hand())
    if short.stopped:
        _kept.cache_clear()  # what was stopped by hand is to be searched for once more
    return short


@lru_cache(maxsize=256)
def _kept(
    sizes: tuple[CutSize, ...],
    step: Fraction,
    width: int,
    grain: str,
    loss: int,
    effort: Fraction,
    solver: bool,
) -> Short:
    return short_for(sizes, step, width, grain, loss, effort)


def _exchanged(pieces: Iterable[Placed], sizes: Iterable[CutSize]) -> tuple[str, ...]:
    """What to mind of pieces that were turned as bare lengths."""
    bare = {size.name for size in sizes if size.exchanged and size.across != size.down}
    names = sorted({piece.name for piece in pieces if piece.turned} & bare)
    if not names:
        return ()
    return (
        f"Turned as bare lengths: {', '.join(names)}. That keeps the threads only where both counts, and "
        "both shrinkages, are the same; otherwise give the piece itself, as cut_size_of.",
    )


def _effort(value: object) -> Fraction:
    effort = exact_number(value, "effort")
    if not Fraction(1, 10) <= effort <= 1000:
        raise HemError(
            f"effort is {shown(value)}, but must be from 1/10 to 1000 times the usual; for example 10.",
            "effort",
        )
    return effort


def _teller(progress: Callable[[str], None], step: Fraction, cut: Length) -> Callable[[int, int], None]:
    """Tells the leader what is had so far, in words."""

    def tell(length: int, bound: int) -> None:
        had, least = (Length(steps * step) - cut for steps in (length, bound))
        progress(f"So far {had.text('cm')}; none by straight cuts is shorter than {least.text('cm')}.")

    return tell


def _notes(short: Short) -> tuple[str, ...]:
    if short.stopped:
        return ("The search was stopped by hand: this is the best so far.",)
    if short.solver or short.length == short.bound:
        return ()
    return (
        "The bound is the area's, for the one by what fits side by side needs scipy, the extra "
        "hemcalc[workshop]; python3 -m hemcalc open installs it.",
    )
