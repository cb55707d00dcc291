"""The shortest layout that can be found in reasonable time, and what no layout can better.

First strips, filled one after the other; then, for few pieces, a search that is exact, and strips
filled by that search; last, the worst strips are joined anew. It ends as soon as the layout is as
short as the bound.
Effort is counted in looks, never timed, so that the same pieces always come to the same layout; each
stage is given no more than is left of it. Of layouts of one length that which is easiest to cut is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from hemcalc.bolt.lay.full_strips import full_strips
from hemcalc.bolt.lay.guillotine import Block, below, in_lines, lay_out
from hemcalc.bolt.lay.patterns import Demand, Prices, area_worths, next_length
from hemcalc.bolt.lay.shorten import shorten, shortest_block
from hemcalc.bolt.lay.solver import best_prices, solver_at_hand
from hemcalc.bolt.lay.strips import StripCutter, length_of

#: Of search in all, at the usual effort; some half a million take a second, and a class is to wait no
#: more than two, with all that is not counted.
LOOKS = 1_000_000
_SIZES = 8  # of more, looks cost more and the exact search seldom ends: half the looks, and a part for it
_LAYOUTS = 6  # of strips
_WAYS = 300_000  # rows looked at, after which no further layout is begun
_A_WAY = 2  # looks for a row
_FEW = 100  # pieces for which searches by joins are worth a try
_OF_A_SIZE = 8  # pieces a size, on the average, up to which full strips are worth a try
_EXACT = 400_000  # its effort for one length; of many pieces, which it seldom helps, a part of it
_MANY = 40  # pieces
_FILL = 6_000  # effort for a full strip
_ANEW = 400_000  # effort for joining strips anew
_SOME = 30_000  # effort for some sizes alone
_EACH = 4  # sizes of which every few are looked at alone; of more, so many times the widest
_HALF = Fraction(1, 2)  # of what is left, at most for one stage
_TIDY = 4  # layouts among which the easiest to cut is looked for, if the first is the shortest


@dataclass(frozen=True, slots=True)
class Short:
    """A layout as strips, from the start of the bolt, and a bound on every layout."""

    strips: tuple[Block, ...]
    bound: int
    #: What says so: "area", "patterns" or "search".
    by: str
    #: Whether there was a solver to ask for the bound by patterns.
    solver: bool
    #: Whether it was stopped by hand before it was through.
    stopped: bool
    #: Looks that it took.
    looks: int

    @property
    def length(self) -> int:
        """Length of the bolt that it takes."""
        return length_of(self.strips)


def short_layout(
    demands: Sequence[Demand],
    width: int,
    start: Sequence[Block] = (),
    *,
    effort: Fraction = Fraction(1),
    progress: Callable[[int, int], None] | None = None,
) -> Short:
    """A short layout of all the pieces, and a bound; no longer than one that it can start from.

    The effort is how many times as long to search as usual. The length of the best layout and the bound are
    told before each stage; a KeyboardInterrupt, there or anywhere after the first layout, ends the search
    with the best so far.

    Examples
    --------
    >>> from hemcalc.bolt.lay.patterns import Pose
    >>> short = short_layout([Demand((Pose(2, 3),), 2), Demand((Pose(3, 2),), 2)], 5)
    >>> short.length, short.bound, short.by
    (6, 6, 'search')
    """
    work = Work(demands, width, effort)
    if start:
        work.keep(start)
    work.by_strips(1)
    work.first = work.looks
    try:
        for stage in work.stages():
            if not work.open:
                break
            if progress is not None:
                progress(work.keep(()), work.bound)
            stage()
        work.tidy()
    except KeyboardInterrupt:
        work.stopped = True
    return work.short()


class Work:
    """The layout so far, and the bound so far."""

    def __init__(self, demands: Sequence[Demand], width: int, effort: Fraction = Fraction(1)) -> None:
        self.demands = demands
        self.width = width
        self.effort = effort
        self.stopped = False
        self.quantity = [demand.quantity for demand in demands]
        self.few = len(demands) <= _SIZES
        self.prices = Prices(area_worths(demands), demands, width)
        self.bound, self.by = next_length(demands, self.prices.shortest(self.quantity)), "area"
        self.solver = False
        self.cutter = StripCutter(demands, width)
        #: Steps spent otherwise than by filling strips.
        self.spent = 0
        self._strips: list[Block] = []
        self._trouble = (0, 0)
        #: What the first layout took, which there must be.
        self.first = 0

    @property
    def looks(self) -> int:
        """Looks taken so far."""
        return self.spent + _A_WAY * self.cutter.spent

    def no_more_than(self, looks: int, share: Fraction = Fraction(1)) -> int:
        """So much effort, but no more than a share of what is left; the first layout is not counted."""
        left = self.effort * LOOKS * (1 if self.few else _HALF) - (self.looks - self.first)
        return max(0, int(min(self.effort * looks, share * left)))

    def stages(self) -> Iterator[Callable[[], None]]:
        """What is tried after the first layout, in order."""
        if solver_at_hand():
            yield self.ask_for_prices
        full = sum(self.quantity) <= min(_FEW, _OF_A_SIZE * len(self.demands))
        if full and not self.few:
            yield self.by_full_strips
        yield lambda: self.by_strips(_LAYOUTS)
        if sum(self.quantity) <= _FEW:
            yield self.by_some_sizes
            yield self.by_search
        if full and self.few:
            yield self.by_full_strips
        yield self.by_joining_anew

    @property
    def open(self) -> bool:
        """Whether a shorter layout is still possible."""
        return length_of(self._strips) > self.bound

    def by_strips(self, layouts: int, *, all_of_them: bool = False) -> None:
        """Lay all the pieces out as strips, a few times, learning from each, until it is the shortest."""
        most = self.cutter.spent + self.no_more_than(_A_WAY * _WAYS, _HALF) // _A_WAY
        # The scale leaves room for small changes of worth in whole numbers.
        scale = 10**6 * len(self.quantity) // (sum(self.prices.pieces) or 1) + 1
        worths = [price * scale + 1 for price in self.prices.pieces]
        for _ in range(layouts):
            strips = self.cutter.layout(self.quantity, worths)
            self.keep(strips)
            worths = self.cutter.learned(strips, worths)
            if self.cutter.spent > most or not (self.open or all_of_them):
                break

    def ask_for_prices(self) -> None:
        """Have the solver find better prices than the areas, if there are any."""
        self.solver = True
        prices = best_prices(self.demands, self.width)
        if prices.shortest(self.quantity) > self.prices.shortest(self.quantity):
            self.prices = prices
            self._raise_bound(next_length(self.demands, prices.shortest(self.quantity)), "patterns")

    def by_some_sizes(self) -> None:
        """A bound from some of the sizes alone: all the pieces take no less than a part of them."""
        kinds = sorted(
            range(len(self.quantity)), key=lambda kind: -min(pose.across for pose in self.demands[kind].poses)
        )
        some = [tuple(kinds[:most]) for most in range(1, len(kinds))][:_EACH]
        if len(kinds) <= _EACH:
            some = [few for most in range(1, len(kinds)) for few in combinations(kinds, most)]
        for few in some:
            effort = self.no_more_than(_SOME)
            if not effort or not self.open:
                break
            demands = [self.demands[kind] for kind in few]
            prices = (
                best_prices(demands, self.width)
                if self.solver
                else Prices(area_worths(demands), demands, self.width)
            )
            low = next_length(demands, prices.shortest([demand.quantity for demand in demands]))
            found = shortest_block(
                demands, self.width, prices, low, length_of(self._strips), effort=effort // 3
            )
            self.spent += found.spent + prices.ways
            self._raise_bound(next_length(self.demands, found.low), "search")

    def by_search(self) -> None:
        """Search for a shorter layout, or for a proof that there is none."""
        # It may take three times the effort for one length.
        likely = self.few and sum(self.quantity) <= _MANY
        effort = self.no_more_than(_EXACT if likely else _EXACT // 12, _HALF / 3)
        found = shortest_block(
            self.demands, self.width, self.prices, self.bound, length_of(self._strips), effort=effort
        )
        self.spent += found.spent
        if found.block is not None:
            self.keep(found.block.parts if found.block.way == "below" else [found.block])
        self._raise_bound(found.low, "search")

    def by_full_strips(self) -> None:
        """Lay all the pieces out as strips that the search by joins fills."""
        strips, spent = full_strips(
            self.demands, self.width, effort=_FILL, most=self.no_more_than(LOOKS, 1 - _HALF / 2)
        )
        self.spent += spent
        self.keep(strips)

    def by_joining_anew(self) -> None:
        """Join the worst strips anew."""
        effort = self.no_more_than(_ANEW)
        strips = shorten(
            self._strips, self.demands, self.width, self.prices, enough=self.bound, effort=effort
        )
        self.spent += effort
        self.keep(strips)

    def tidy(self) -> None:
        """Look for a layout of the same length that is easier to cut."""
        if sum(self.quantity) <= _FEW and self.no_more_than(1):
            self.by_strips(_TIDY, all_of_them=True)

    def short(self) -> Short:
        """The layout, its longest strips first, of those the fullest."""
        return Short(
            tuple(_in_order(self._strips)), self.bound, self.by, self.solver, self.stopped, self.looks
        )

    def keep(self, strips: Sequence[Block]) -> int:
        """Keep this layout if it is shorter, or as long and easier to cut; the length of the best."""
        if strips:
            had = length_of(self._strips) if self._strips else length_of(strips) + 1
            trouble = _trouble(strips, self.width) if length_of(strips) <= had else (0, 0)
            if (length_of(strips), trouble) < (had, self._trouble):
                self._strips, self._trouble = list(strips), trouble
        return length_of(self._strips)

    def _raise_bound(self, bound: int, by: str) -> None:
        if bound > self.bound:
            self.bound, self.by = bound, by


def _in_order(strips: Iterable[Block]) -> list[Block]:
    return sorted(strips, key=lambda strip: (-strip.down, -strip.across, sorted(strip.kinds.items())))


def _trouble(strips: Sequence[Block], width: int) -> tuple[int, int]:
    """How hard a layout is to cut: how many lines, and then how small the largest offcut is."""
    laid = lay_out(below(*_in_order(strips)), width, length_of(strips))
    largest = max((rect.across * rect.down for rect in laid.offcuts), default=0)
    return len(in_lines(laid.cuts)), -largest
