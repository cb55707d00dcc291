"""Making a layout shorter: the shortest block of all the pieces, or of some strips at a time.

The search by joins says whether pieces fit in a length, whether they can't, or that it gave up;
halving between what can't be and what is had comes to the shortest. Exact for few pieces. Of many,
the strips that waste most are taken up and joined anew.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from hemcalc.bolt.lay.guillotine import Block
from hemcalc.bolt.lay.joins import Search, best_block
from hemcalc.bolt.lay.patterns import Demand, Prices, next_length
from hemcalc.bolt.lay.strips import length_of

_AT_A_TIME = 40  # pieces joined anew at a time; more are too many to search through
_WORST = 7  # strips among which some are joined anew
_LENGTHS = 3  # times the effort for one length may be spent in all
_EFFORT = 30_000  # pairs of blocks looked at for one length of some strips


@dataclass(frozen=True, slots=True)
class Shortest:
    """What the search for a shorter block came to."""

    #: A shorter block; None if none was found.
    block: Block | None
    #: No block of the pieces is shorter than this.
    low: int
    #: Pairs of blocks looked at.
    spent: int


def shortest_block(
    demands: Sequence[Demand], width: int, prices: Prices, low: int, high: int, *, effort: int
) -> Shortest:
    """The shortest block of all the pieces, if it is shorter than what is had.

    Nothing is shorter than `low`, and a layout of length `high` is had. The effort is blocks and pairs of
    them to look at for one length; three times as many in all.

    Examples
    --------
    >>> from hemcalc.bolt.lay.patterns import Pose, area_worths
    >>> demands = [Demand((Pose(2, 3),), 2), Demand((Pose(3, 2),), 2)]
    >>> prices = Prices(area_worths(demands), demands, 5)
    >>> found = shortest_block(demands, 5, prices, low=5, high=10, effort=1000)
    >>> found.block.down, found.low
    (6, 6)
    """
    fit = _Fit(demands, width, prices)
    low = next_length(demands, low)
    best, down = None, low  # the bound itself first: often it can be had
    most = _LENGTHS * effort
    not_tried = low
    while not_tried < high and fit.spent < most:
        found, proven = fit.within(down, min(effort, most - fit.spent))
        if found is not None:
            best, high = found, found.down
        else:
            not_tried = next_length(demands, down + 1)
            low = not_tried if proven else low
        down = (not_tried + high - 1) // 2
    return Shortest(best, min(low, high), fit.spent)


class _Fit:
    """Whether pieces fit in one block of the bolt's width and some length."""

    def __init__(self, demands: Sequence[Demand], width: int, prices: Prices) -> None:
        self.singles = [
            pose.block(kind)
            for kind, demand in enumerate(demands)
            if demand.quantity
            for pose in demand.poses
        ]
        self.limits = [demand.quantity for demand in demands]
        self.width = width
        self.prices = prices
        self.spent = 0
        self._beside: dict[int, int] = {}

    def within(self, length: int, effort: int) -> tuple[Block | None, bool]:
        """A block of all the pieces in so much length, and whether the answer is certain."""
        most = self.prices.most(self.width)
        # A piece may have no price, so each is worth a little for itself: too little, even for all
        # of them, to make up for one step of price.
        pieces = sum(self.limits)
        scale = pieces + 1

        def rest(across: int, down: int) -> int:
            # A line across the bolt crosses what lies beside the block, or what lies below it.
            beside = self._beside.get(across)
            if beside is None:
                beside = self._beside[across] = self.prices.most(self.width - across)
            return (beside * down + most * (length - down)) * scale + pieces

        worths = [price * scale + 1 for price in self.prices.pieces]
        whole = self.prices.of(self.limits) * scale + pieces
        search = Search(self.singles, self.limits, worths, self.width, length, rest)
        found = best_block(search, known=whole - 1, enough=whole, effort=effort)
        self.spent += found.spent
        return found.block, found.block is not None or found.proven


def shorten(
    strips: Sequence[Block],
    demands: Sequence[Demand],
    width: int,
    prices: Prices,
    *,
    enough: int,
    effort: int,
) -> list[Block]:
    """The strips, some of them joined anew into shorter ones.

    It ends at a length that is short `enough`; the effort is all of it, in pairs of blocks.
    """
    now = list(strips)
    in_vain: set[tuple[int, tuple[int, ...]]] = set()
    better = True
    while better and effort > 0 and length_of(now) > enough:
        better = False
        for some in worst_first(now, prices):
            kinds = sum((now[at].kinds for at in some), Counter[int]())
            part = [replace(demand, quantity=kinds[kind]) for kind, demand in enumerate(demands)]
            had = sum(now[at].down for at in some)
            tried = had, tuple(demand.quantity for demand in part)
            if tried in in_vain:
                continue
            in_vain.add(tried)
            low = prices.shortest([demand.quantity for demand in part])
            found = shortest_block(part, width, prices, low, had, effort=min(effort, _EFFORT))
            effort -= found.spent
            if found.block is not None:
                block = found.block
                now = [strip for at, strip in enumerate(now) if at not in some]
                now += block.parts if block.way == "below" else (block,)
                better = True
                break
            if effort <= 0:
                break
    return now


def worst_first(strips: Sequence[Block], prices: Prices) -> Iterator[tuple[int, ...]]:
    """Some strips at a time, of those that waste most for what their pieces are worth."""
    waste = [
        strip.down * prices.most(prices.width)
        - sum(prices.pieces[kind] * n for kind, n in strip.kinds.items())
        for strip in strips
    ]
    quantities = [strip.kinds.total() for strip in strips]
    worst = sorted(range(len(strips)), key=lambda at: (-waste[at], at))[:_WORST]
    groups = (some for size in (1, 2, 3, 4) for some in combinations(worst, size))
    few = [some for some in groups if sum(quantities[at] for at in some) <= _AT_A_TIME]
    yield from sorted(few, key=lambda some: (-sum(waste[at] for at in some), some))
