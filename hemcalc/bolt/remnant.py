"""The way back: what can be had from a remnant.

A remnant is a cloth of a set width and length. Of the sizes that a leader could use, it yields the
best by area, or by what each is worth to her, with straight cuts from edge to edge.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from hemcalc.bolt.buying import short_kept
from hemcalc.bolt.cut_sizes import GRAINS, MAX_PIECES, CutSize, as_cut_sizes, common_step, sides_of
from hemcalc.bolt.cutting import CutUp, places_of
from hemcalc.bolt.lay.guillotine import LaidOut, Rect, below, lay_out, single
from hemcalc.bolt.lay.side_by_side import Choice, Rows
from hemcalc.bolt.lay.yields import Best, Kind, best_yield
from hemcalc.measure.errors import HemError, one_of
from hemcalc.measure.lengths import as_length
from hemcalc.measure.words import about, percent

_KEPT = 300  # choices of strips kept for each further one


@dataclass(frozen=True)
class Yield(CutUp):
    """What a remnant yields, made by `have_from_remnant`."""

    grain: str
    #: What is counted: "area", in square millimetres, or "worth", in the leader's own measure.
    by: str
    #: What the pieces are worth together.
    worth: Fraction
    #: Nothing that can be cut is worth more than this.
    bound: Fraction

    def __repr__(self) -> str:
        cloth = f"{self.width.text('cm')} × {self.length.text('cm')}"
        return f"Yield({cloth}: {self._had() if self.pieces else 'nothing'})"

    @property
    def gap(self) -> Fraction:
        """What may still be had beyond this, at most."""
        return self.bound - self.worth

    @property
    def proven(self) -> bool:
        """Whether nothing better can be cut."""
        return self.worth == self.bound

    def text(self, unit: str = "in") -> str:
        """What is had, in a few sentences."""
        cloth = f"A remnant of {self.width.text(unit)} across × {self.length.text(unit)} down"
        if not self.pieces:
            return f"{cloth} is too small for any of these sizes."
        had = ", ".join(f"{quantity} of {name}" for name, quantity in self.counts.items() if quantity)
        words = f"{cloth} yields {had}; {percent(self.waste)} of it is left over."
        if self.by == "worth":
            words = f"{words} They are worth {about(self.worth)} in all."
        if self.proven:
            return f"{words} Nothing that {_MORE[self.by]} can be cut from it, so this is proven best."
        over = percent(self.gap / self.worth)
        return f"{words} This is not proven best: what {_MORE[self.by]} may be possible, by at most {over}."


_MORE = {"area": "uses more of it", "worth": "is worth more"}


def have_from_remnant(
    width: object, length: object, sizes: object, *, grain: str = "fixed", each_cut: object = "0 mm"
) -> Yield:
    """The best that a remnant yields.

    Refused if there are no sizes or too many, some are given a worth and others not, or a size is so small
    that a thousand of it would not do.

    Parameters
    ----------
    width, length : str or Length
        The remnant, across and down.
    sizes : list of CutSize or tuple
        For each size its name, its size across and down as cut, then, if wished, how many at
        most (None for as many as it goes) and what one is worth. Without worths it is the area
        that counts.
    grain : str
        ``"fixed"``: each piece's down lies along the remnant's warp; ``"free"``: it may lie across.
    each_cut : str or Length
        What each cut costs: a drawn thread, or what the edge frays.

    Notes
    -----
    Exact for what is small, and for what is not a bound stands beside it.

    Source
    ------
    Common practice of the trade, no published source; for the sums see `hemcalc.bolt.lay.plates`.

    Examples
    --------
    >>> sizes = [("mat", "30 cm", "20 cm"), ("coaster", "10 cm", "10 cm", 4)]
    >>> had = have_from_remnant("50 cm", "40 cm", sizes)
    >>> dict(had.counts), had.proven
    ({'mat': 2, 'coaster': 4}, True)
    >>> had.steps("cm")[0]
    'Cut 1: along the warp, 40 cm from the left edge of the whole cloth, 50 cm × 40 cm. Left part: for...'
    """
    cut_sizes = as_cut_sizes(sizes, "sizes", counted=False)
    across, down = as_length(width, "width"), as_length(length, "length")
    one_of(grain, GRAINS, "grain")
    cut = as_length(each_cut, "each_cut", size=False)
    by = _counted_by(cut_sizes)
    for size in cut_sizes:
        if size.quantity is None and across.mm * down.mm > MAX_PIECES * size.area_mm2:
            raise HemError(
                f"{size.name} is so small that more than {MAX_PIECES} could be cut from the remnant, but it "
                f"must then say how many at most; for example ({size.name!r}, '2 in', '2 in', 50).",
                "sizes",
            )
    step = common_step([across, down, *([cut] if cut else []), *sides_of(cut_sizes, grain)])
    # What a cut costs lies beyond each piece, and so beyond the cloth.
    loss = int(cut.mm / step)
    cloth = int(across.mm / step) + loss, int(down.mm / step) + loss
    worths = [size.worth or size.area_mm2 for size in cut_sizes]
    scale = math.lcm(*(worth.denominator for worth in worths))
    best = _best(cut_sizes, [int(worth * scale) for worth in worths], step, cloth, grain, loss)
    pieces, cuts, offcuts = places_of(_laid(best, cloth), cut_sizes, step, loss)
    return Yield(
        width=across,
        length=down,
        sizes=cut_sizes,
        pieces=pieces,
        cuts=cuts,
        offcuts=offcuts,
        grain=grain,
        by=by,
        worth=Fraction(best.worth, scale),
        bound=Fraction(best.bound, scale),
    )


def _counted_by(cut_sizes: Sequence[CutSize]) -> str:
    with_worth = [size.worth is not None for size in cut_sizes]
    if any(with_worth) and not all(with_worth):
        (name, *_) = (size.name for size in cut_sizes if size.worth is None)
        raise HemError(
            f"{name} has no worth, but either every size has one or none has; "
            f"for example ({name!r}, '6 in', '6 in', None, 3).",
            "sizes",
        )
    return "worth" if any(with_worth) else "area"


def _best(
    cut_sizes: Sequence[CutSize],
    worths: Sequence[int],
    step: Fraction,
    cloth: tuple[int, int],
    grain: str,
    loss: int,
) -> Best:
    """The best yield; with turning allowed it is no worse than without."""

    def sizes(grain: str) -> tuple[Kind, ...]:
        return tuple(
            Kind(tuple(single(kind, *lay) for lay in size.in_steps(step, grain, loss)), worth, size.quantity)
            for kind, (size, worth) in enumerate(zip(cut_sizes, worths, strict=True))
        )

    fixed, free = sizes("fixed"), sizes(grain)
    strips = _from_strips(cut_sizes, worths, step, cloth, grain, loss)
    if strips is not None and strips.worth == strips.bound:
        return strips
    best = yield_kept(free, *cloth)
    if strips is not None and strips.worth > best.worth:
        best = Best(strips.block, strips.worth, best.bound)
    if best.worth < best.bound and free != fixed:
        unturned = yield_kept(fixed, *cloth)
        if unturned.worth > best.worth:
            return Best(unturned.block, unturned.worth, best.bound)
    return best


@lru_cache(maxsize=256)
def yield_kept(sizes: tuple[Kind, ...], across: int, down: int) -> Best:
    """What was found for the last few, as `short_kept` has it."""
    return best_yield(sizes, across, down)


def _from_strips(
    cut_sizes: Sequence[CutSize],
    worths: Sequence[int],
    step: Fraction,
    cloth: tuple[int, int],
    grain: str,
    loss: int,
) -> Best | None:
    """All that is wanted, laid out as on a bolt: what fits of it, strip by strip; None if that can't be.

    Where all of it fits, no more can be had; else the strips of most worth are taken.
    """
    across, down = cloth
    fits = [
        any(a <= across and d <= down for a, d, _ in size.in_steps(step, grain, loss)) for size in cut_sizes
    ]
    some = [at for at, size in enumerate(cut_sizes) if fits[at] and size.quantity is not None]
    if not some or len(some) < sum(fits) or sum(cut_sizes[at].quantity or 0 for at in some) > MAX_PIECES:
        return None
    strips = short_kept(tuple(cut_sizes[at] for at in some), step, across, grain, loss).strips
    worth = [sum(worths[some[kind]] * n for kind, n in strip.kinds.items()) for strip in strips]
    choices = [
        [Choice(0, 0), Choice(strip.down, worth[at], ((at, 0, 1),))] for at, strip in enumerate(strips)
    ]
    best = Rows(choices, down, keep=_KEPT)
    block = below(*(strips[at].of_kinds(some) for at, _, _ in best.best)) if best.best else None
    return Best(block, best.most(down), sum(worths[at] * (cut_sizes[at].quantity or 0) for at in some))


def _laid(best: Best, cloth: tuple[int, int]) -> LaidOut:
    if best.block is None:
        return LaidOut((), (), (Rect(0, 0, *cloth),))
    return lay_out(best.block, *cloth)
