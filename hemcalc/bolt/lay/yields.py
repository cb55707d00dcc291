"""The best that a cloth of a set size yields, with or without limits on the sizes, and its proof.

Without limits the best is worked out from small cloths to large. With limits a toll is put on the
sizes that would pass theirs, which gives a bound and often the best; if not, the search by joins
takes over. Where the sizes make
too many places to try, they are rounded up to a coarser step for the answer and down for the
bound, and what lies between the two is said.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from hemcalc.bolt.lay.guillotine import Block, below, beside
from hemcalc.bolt.lay.joins import Search, best_block
from hemcalc.bolt.lay.plates import Plates

#: Ways to cut a cloth in two, beyond which the step is made coarser.
CUTS = 12_000_000
#: Times that the tolls are moved.
TOLLS = 60
#: Effort of each search by joins.
JOINS = 500_000
_FINE = 64  # steps of toll in one of worth
_SLOWER = 0.8  # when a move has not helped


@dataclass(frozen=True, slots=True)
class Kind:
    """A size that may be cut: the ways in which it may lie, what one is worth, how many at most."""

    poses: tuple[Block, ...]
    worth: int
    #: None for as many as it goes.
    limit: int | None = None


@dataclass(frozen=True, slots=True)
class Best:
    """The best block found; nothing that can be cut is worth more than `bound`."""

    block: Block | None
    worth: int
    bound: int


def best_yield(sizes: Sequence[Kind], across: int, down: int) -> Best:
    """The block worth most that can be cut from a cloth; the place of a size is the kind of its blocks.

    Examples
    --------
    >>> from hemcalc.bolt.lay.guillotine import single
    >>> mats = [Kind((single(0, 3, 2),), worth=6, limit=1), Kind((single(1, 2, 2),), worth=4)]
    >>> best = best_yield(mats, 7, 4)
    >>> best.worth, best.bound, sorted(best.block.kinds.items())
    (26, 26, [(0, 1), (1, 5)])
    """
    cloth = _Cloth(sizes, across, down)
    if not cloth.singles:
        return Best(None, 0, 0)
    best = _best(cloth) if cloth.plates.effort <= CUTS else _coarse(cloth)
    return replace(best, bound=max(best.worth, min(best.bound, cloth.most)))


class _Cloth:
    """A cloth, and the sizes that fit on it with their limits."""

    def __init__(self, sizes: Sequence[Kind], across: int, down: int) -> None:
        self.sizes = sizes
        self.across = across
        self.down = down
        self.singles = [
            pose for size in sizes for pose in size.poses if pose.across <= across and pose.down <= down
        ]
        self.worths = [size.worth for size in sizes]
        # Of what doesn't fit there is none, and in coarser steps it may have no area to divide by.
        fit = [
            max(
                (across * down // (pose.across * pose.down) for pose in self.singles if pose.kind == kind),
                default=0,
            )
            for kind in range(len(sizes))
        ]
        self.limits = [
            n if size.limit is None else min(n, size.limit) for n, size in zip(fit, sizes, strict=True)
        ]
        self.plates = Plates(self.singles, self.worths, across, down)

    @property
    def most(self) -> int:
        """What all that may be cut is worth, and what the whole cloth is at the best worth for its area."""
        kinds = {one.kind for one in self.singles}
        by_limits = sum(self.worths[kind] * self.limits[kind] for kind in kinds)
        by_area = max(
            self.across * self.down * self.worths[one.kind] // (one.across * one.down) for one in self.singles
        )
        return min(by_limits, by_area)

    def worth(self, block: Block) -> int:
        """What the pieces of a block are worth."""
        return sum(self.worths[kind] * n for kind, n in block.kinds.items())

    def coarser(self, step: int, *, up: bool) -> _Cloth:
        """The same in coarser steps: sizes rounded up, to cut from, or down, for a bound."""
        more = step - 1 if up else 0

        def coarse(pose: Block) -> Block:
            return replace(pose, across=(pose.across + more) // step, down=(pose.down + more) // step)

        sizes = [
            replace(size, poses=tuple(coarse(pose) for pose in size.poses), limit=limit)
            for size, limit in zip(self.sizes, self.limits, strict=True)
        ]
        return _Cloth(sizes, self.across // step, self.down // step)


def _best(cloth: _Cloth) -> Best:
    """The best block: worked up from small cloths, and, if that passes a limit, by joins."""
    tolled = _Tolled(cloth)
    tolled.settle()
    if tolled.worth == tolled.bound:
        return Best(tolled.block, tolled.worth, tolled.bound)
    search = Search(
        cloth.singles,
        cloth.limits,
        [worth * _FINE for worth in cloth.worths],
        cloth.across,
        cloth.down,
        rest=tolled.rest,
        prices=tolled.prices,
    )
    block, worth, bound = tolled.block, tolled.worth, min(tolled.bound, cloth.most)
    # Once for the proof; if that gives up, once more for a better block.
    for enough in (None, bound * _FINE):
        found = best_block(search, known=worth * _FINE, enough=enough, effort=JOINS)
        block, worth, bound = found.block or block, found.worth // _FINE, min(bound, found.bound // _FINE)
        if worth == bound:
            break
    return Best(block, worth, bound)


class _Tolled:
    """The best without limits, with a toll on each size so that it keeps to its limit by itself.

    Whatever the tolls, the most that the cloth yields at worths less tolls, and the tolls of all
    that the limits allow, are no less than the best within the limits; good tolls make that bound
    close.

    Source
    ------
    M. L. Fisher, "The Lagrangian relaxation method for solving integer programming problems",
    Management Science 27, 1981 (from memory).
    """

    def __init__(self, cloth: _Cloth) -> None:
        self.cloth = cloth
        self.block: Block | None = None
        self.worth = 0
        self._tolls = [0] * len(cloth.sizes)
        self._price()

    def _price(self) -> None:
        cloth = self.cloth
        self.prices = [
            max(0, worth * _FINE - toll) for worth, toll in zip(cloth.worths, self._tolls, strict=True)
        ]
        self.plates = Plates(cloth.singles, self.prices, cloth.across, cloth.down)
        self._fixed = sum(toll * n for toll, n in zip(self._tolls, cloth.limits, strict=True))
        self.bound = (self.plates.worth(cloth.across, cloth.down) + self._fixed) // _FINE

    def rest(self, across: int, down: int) -> int:
        """The most that can be cut beside and below a block, and all the tolls."""
        return self.plates.beyond(across, down) + self._fixed

    def settle(self) -> None:
        """Move the tolls toward the best bound, keeping the best block on the way."""
        best, pace = (self.bound, self._tolls), 1.0
        for _ in range(min(TOLLS, 1 + CUTS // self.plates.effort)):
            over = self._over()
            square = sum(n * n for n in over)
            if self.worth == best[0] or not square:
                break
            step = pace * (self.bound - self.worth) * _FINE / square
            self._tolls = [max(0, toll + round(step * n)) for toll, n in zip(self._tolls, over, strict=True)]
            self._price()
            if self.bound < best[0]:
                best = self.bound, self._tolls
            else:
                pace *= _SLOWER
        self._over()
        _, self._tolls = best
        self._price()

    def _over(self) -> list[int]:
        """By how many pieces the block passes each limit, or falls short where there is a toll."""
        limits = self.cloth.limits
        block = self.plates.block()
        if block is None:
            return [0 if not toll else -n for toll, n in zip(self._tolls, limits, strict=True)]
        kept = block.no_more_than(list(limits))
        if kept is not None and self.cloth.worth(kept) > self.worth:
            self.block, self.worth = kept, self.cloth.worth(kept)
        kinds = block.kinds
        over = [kinds[kind] - n for kind, n in enumerate(limits)]
        return [n if n > 0 or toll else 0 for n, toll in zip(over, self._tolls, strict=True)]


def _coarse(cloth: _Cloth) -> Best:
    """A good block in coarser steps, or one of a single size, with a bound in coarser steps."""
    step, finest = 2, min(min(one.across, one.down) for one in cloth.singles)
    while cloth.coarser(step, up=True).plates.effort > CUTS:
        step *= 2
    found = _best(cloth.coarser(step, up=True))
    true = {(one.kind, one.turned): one for one in cloth.singles}
    blocks = [_rows(one, cloth) for one in cloth.singles]
    if found.block is not None:
        blocks.append(_with_true_sizes(found.block, true))
    block = max(blocks, key=cloth.worth)
    # Rounded down to nothing, sizes would bound nothing.
    while step <= finest and cloth.coarser(step, up=False).plates.effort > CUTS:
        step *= 2
    below_all = cloth.coarser(step, up=False).plates if step <= finest else None
    bound = below_all.worth(below_all.across, below_all.down) if below_all else cloth.most
    return Best(block, cloth.worth(block), bound)


def _rows(one: Block, cloth: _Cloth) -> Block:
    """As many of one size as go into rows, no more than its limit."""
    quantity = min(cloth.limits[one.kind], (cloth.across // one.across) * (cloth.down // one.down))
    full, over = divmod(quantity, cloth.across // one.across)
    rows = [beside(*[one] * (cloth.across // one.across))] * full
    return below(*rows, *([beside(*[one] * over)] if over else []))


def _with_true_sizes(block: Block, true: Mapping[tuple[int, bool], Block]) -> Block:
    if block.kind >= 0:
        return true[block.kind, block.turned]
    join = beside if block.way == "beside" else below
    return join(*(_with_true_sizes(part, true) for part in block.parts))
