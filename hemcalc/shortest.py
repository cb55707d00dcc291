"""The shortest layout that can be found in reasonable time, and what no layout can better.

First strips, filled one after the other; then, for few pieces, a search that is exact; then the
strips that the solver takes of all that were tried, with new ones for the pieces that are left;
last, the worst strips are joined anew. It ends as soon as the layout is as short as the bound.
Effort is counted, never timed, so that the same pieces always come to the same layout.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from hemcalc.guillotine import Block
from hemcalc.patterns import Demand, Prices, area_worths, next_length
from hemcalc.shorten import shorten, shortest_block
from hemcalc.solver import best_prices, solver_at_hand, strips_in_whole
from hemcalc.strips import StripCutter, length_of

__all__ = ["Short", "short_layout"]

Tried = dict[tuple[int, ...], Block]

_LAYOUTS = 6  # of strips
_LAYOUTS_LEFT = 3  # of what is left each time
_WAYS = 600_000  # to fill strips, after which no further layout is begun; for what is left, as many
_FEW = 100  # pieces for which the exact search is worth a try
_EXACT = 100_000  # its effort for one length
_ANEW = 300_000  # effort for joining strips anew


@dataclass(frozen=True, slots=True)
class Short:
    """A layout as strips, from the start of the bolt, and a bound on every layout."""

    strips: tuple[Block, ...]
    bound: int
    #: What says so: "area", "patterns" or "search".
    by: str
    #: Whether there was a solver to ask for the bound by patterns.
    solver: bool = True

    @property
    def length(self) -> int:
        """Length of the bolt that it takes."""
        return length_of(self.strips)


def short_layout(demands: Sequence[Demand], width: int, start: Sequence[Block] = ()) -> Short:
    """A short layout of all the pieces, and a bound.

    Parameters
    ----------
    demands : sequence of Demand
        The pieces; each lie no wider than the bolt.
    width : int
        Of the bolt.
    start : sequence of Block
        A layout that is had already, as strips; what comes out is no longer.

    Examples
    --------
    >>> from hemcalc.patterns import Lie
    >>> short = short_layout([Demand((Lie(2, 3),), 2), Demand((Lie(3, 2),), 2)], 5)
    >>> short.length, short.bound, short.by
    (7, 7, 'search')
    """
    work = _Work(demands, width)
    if start:
        work.keep(start)
    work.by_strips(1)
    if work.open and solver_at_hand():
        work.ask_for_prices()
    if work.open:
        work.by_strips(_LAYOUTS)
    if work.open and sum(work.many) <= _FEW:
        work.by_search()
    if work.open and work.solver:
        work.by_taking_in_whole()
    if work.open:
        work.by_joining_anew()
    return work.short()


class _Work:
    """The layout so far, and the bound so far."""

    def __init__(self, demands: Sequence[Demand], width: int) -> None:
        self.demands = demands
        self.width = width
        self.many = [demand.many for demand in demands]
        self.prices = Prices(area_worths(demands), demands, width)
        self.bound, self.by = next_length(demands, self.prices.shortest(self.many)), "area"
        self.solver = False
        self._ways = _WAYS
        self._tried: Tried = {}
        self._strips: list[Block] = []

    @property
    def open(self) -> bool:
        """Whether a shorter layout is still possible."""
        return length_of(self._strips) > self.bound

    def by_strips(self, layouts: int) -> None:
        """Lay all the pieces out as strips, a few times."""
        self._tried |= self._lay_out(self.demands, layouts, [])

    def _lay_out(self, demands: Sequence[Demand], layouts: int, before: list[Block]) -> Tried:
        """Lay out these pieces after strips that are settled; every strip that was tried for it."""
        cutter = StripCutter(demands, self.width, self.prices.pieces)
        for _ in range(layouts):
            self.keep(before + cutter.layout())
            if self._ways < cutter.spent or not self.open:
                break
        self._ways -= cutter.spent
        return cutter.tried

    def ask_for_prices(self) -> None:
        """Have the solver find better prices than the areas, if there are any."""
        self.solver = True
        prices = best_prices(self.demands, self.width)
        if prices.shortest(self.many) > self.prices.shortest(self.many):
            self.prices = prices
            self._raise_bound(next_length(self.demands, prices.shortest(self.many)), "patterns")

    def by_search(self) -> None:
        """Search for a shorter layout, or for a proof that there is none."""
        found = shortest_block(
            self.demands, self.width, self.prices, self.bound, length_of(self._strips), effort=_EXACT
        )
        if found.block is not None:
            self.keep(found.block.parts if found.block.way == "below" else [found.block])
        self._raise_bound(found.low, "search")

    def by_taking_in_whole(self) -> None:
        """Settle the strips that the solver takes in whole, lay out what is left, and so on."""
        tried, left, settled = self._tried, self.demands, list[Block]()
        self._ways = _WAYS
        while self.open and self._ways > 0:
            taken = strips_in_whole(tried, [demand.many for demand in left], self.prices)
            if not taken:
                return
            settled += [strip for _, strip in taken]
            left = [
                replace(demand, many=demand.many - sum(kinds[kind] for kinds, _ in taken))
                for kind, demand in enumerate(left)
            ]
            if not any(demand.many for demand in left):
                self.keep(settled)
                return
            tried = self._lay_out(left, _LAYOUTS_LEFT, settled)

    def by_joining_anew(self) -> None:
        """Join the worst strips anew."""
        self._strips = shorten(
            self._strips, self.demands, self.width, self.prices, enough=self.bound, effort=_ANEW
        )

    def short(self) -> Short:
        """The layout, its longest strips first."""
        strips = sorted(self._strips, key=lambda strip: (-strip.down, sorted(strip.kinds.items())))
        return Short(tuple(strips), self.bound, self.by, self.solver)

    def keep(self, strips: Sequence[Block]) -> None:
        """Keep this layout if it is shorter."""
        if not self._strips or length_of(strips) < length_of(self._strips):
            self._strips = list(strips)

    def _raise_bound(self, bound: int, by: str) -> None:
        if bound > self.bound:
            self.bound, self.by = bound, by
