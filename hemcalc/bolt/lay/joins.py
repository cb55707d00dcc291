"""The best block that a cloth yields, found by joining blocks, the most promising first.

Whatever straight cuts can cut out of a cloth is a block, and every block is two smaller ones
joined. So blocks are joined again and again, and one that can't become better than the best known
is left out; once none is left, the best is proven. Exact for what is small, and it says where it
stopped.

Source
------
The search by joins, with a bound on what still fits beside: K. V. Viswanathan and A. Bagchi,
"Best-first search methods for constrained two-dimensional cutting stock problems", Operations
Research 41, 1993 (from memory).
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from hemcalc.bolt.lay.guillotine import Block, below, beside


@dataclass(frozen=True, slots=True)
class Search:
    """What may be cut, from what, and what it is worth."""

    #: The sizes, one block for each way in which a piece may lie.
    singles: Sequence[Block]
    #: For each size, how many at most and what one is worth.
    limits: Sequence[int]
    worths: Sequence[int]
    #: Size of the cloth.
    across: int
    down: int
    #: For a block so much across and down in the cloth's corner, the most that can be cut
    #: beside and below it, in prices; never too little.
    rest: Callable[[int, int], int]
    #: What one of each size counts for in the bound, where that is not its worth. The prices of
    #: the pieces of a block and `rest` together are never less than what it can become worth.
    prices: Sequence[int] | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """What a search came to."""

    #: The best block of more worth than was known; None if none was found.
    block: Block | None
    worth: int
    #: Nothing that can be cut is worth more than this.
    bound: int
    #: How much of the effort it took.
    spent: int

    @property
    def proven(self) -> bool:
        """Whether nothing better can be cut."""
        return self.bound == self.worth


@dataclass(slots=True)
class _Node:
    """A block in the search, light: how it was joined, to be built only if it is the best."""

    across: int
    down: int
    #: How many of each size, in one number.
    packed: int
    worth: int
    #: What its pieces count for in the bound.
    price: int
    made: Block | tuple[str, _Node, _Node]

    def block(self) -> Block:
        if isinstance(self.made, Block):
            return self.made
        # A long row was joined piece by piece, so it is opened in a loop and not ever deeper.
        way, open_, parts = self.made[0], [self], list[Block]()
        while open_:
            node = open_.pop()
            if isinstance(node.made, Block) or node.made[0] != way:
                parts.append(node.block())
            else:
                open_ += (node.made[2], node.made[1])
        return (beside if way == "beside" else below)(*parts)


def best_block(search: Search, *, known: int = 0, enough: int | None = None, effort: int) -> Found:
    """The block worth most that can be cut from a cloth, each size at most so often.

    Only what is better than a worth `known` is looked for, and it stops at one that is `enough`. With that,
    blocks that waste little for their worth are taken first, which comes to one such block sooner; without
    it, those that could become worth most, which proves the best sooner. `effort` is the blocks and pairs of
    blocks to look at before it gives up, some million a second.

    Examples
    --------
    >>> from hemcalc.bolt.lay.guillotine import single
    >>> mats = [single(0, 2, 1), single(1, 1, 2)]
    >>> found = best_block(
    ...     Search(mats, (1, 1), (2, 2), 3, 2, rest=lambda across, down: 6 - across * down),
    ...     effort=1000,
    ... )
    >>> found.worth, found.proven, found.block
    (4, True, Block(across=3, down=2, kind=-1, turned=False, way='beside'))
    """
    table = _Joins(search, known, hurry=enough is not None)
    table.start()
    while table.spent < effort and not (enough is not None and table.worth >= enough):
        node = table.next()
        if node is None:
            break
        table.join(node)
    best = table.best
    return Found(best.block() if best else None, table.worth, table.bound(), table.spent)


class _Joins:
    """The blocks joined so far: those still to be taken up, and those that were."""

    def __init__(self, search: Search, known: int, *, hurry: bool) -> None:
        self.search = search
        self.worth = known
        self.hurry = hurry
        self.best: _Node | None = None
        self.closed: list[_Node] = []
        self._heap: list[tuple[float, int, int, _Node]] = []
        self._least: dict[int, list[tuple[int, int]]] = {}
        self.spent = 0
        self._prices = search.worths if search.prices is None else search.prices
        self._most = search.rest(0, 0)
        # Each size has a field of bits for its number, with a guard bit on top: taking numbers
        # off `_room` lowers a guard just when a limit is passed.
        self._at, self._room, self._guard, at = [], 0, 0, 0
        for limit in search.limits:
            guard = 1 << (at + limit.bit_length())
            self._at.append(at)
            self._room += (limit << at) + guard
            self._guard += guard
            at += limit.bit_length() + 1

    def start(self) -> None:
        """Take in the single pieces."""
        search = self.search
        for one in search.singles:
            if search.limits[one.kind] and one.across <= search.across and one.down <= search.down:
                packed = 1 << self._at[one.kind]
                worth, price = search.worths[one.kind], self._prices[one.kind]
                node = _Node(one.across, one.down, packed, worth, price, one)
                self.spent += 1
                if (could := self._could(node)) > self.worth:
                    self._take_in(node, could)

    def next(self) -> _Node | None:
        """The next block to take up; None if none could become better than the best."""
        while self._heap:
            node = heapq.heappop(self._heap)[-1]
            # A smaller block of the same pieces may have been found since, or a better best.
            still = (node.across, node.down) in self._least[node.packed]
            if still and self._could(node) > self.worth:
                return node
        return None

    def join(self, node: _Node) -> None:
        """Join this block with each one taken up before it, and with itself, both ways."""
        self.closed.append(node)
        self.spent += len(self.closed) // 4  # most pairs are soon seen not to go together
        across, down, worth, price = node.across, node.down, node.worth, node.price
        room, guard = self._room - node.packed, self._guard
        search, rest = self.search, self.search.rest
        spare_across, spare_down = search.across - across, search.down - down
        for other in self.closed:
            if (room - other.packed) & guard != guard:
                continue
            packed, both, prices = node.packed + other.packed, worth + other.worth, price + other.price
            # What can't become better than the best is never made: most joins end here.
            if other.across <= spare_across:
                width, deep = across + other.across, other.down if other.down > down else down
                self.spent += 1
                if (could := prices + rest(width, deep)) > self.worth:
                    self._take_in(_Node(width, deep, packed, both, prices, ("beside", node, other)), could)
            if other.down <= spare_down:
                width, deep = other.across if other.across > across else across, down + other.down
                self.spent += 1
                if (could := prices + rest(width, deep)) > self.worth:
                    self._take_in(_Node(width, deep, packed, both, prices, ("below", node, other)), could)

    def _take_in(self, node: _Node, could: int) -> None:
        """Keep a block that could become worth so much, unless a smaller one has the same pieces."""
        least = self._least.setdefault(node.packed, [])
        for across, down in least:
            if across <= node.across and down <= node.down:
                return
        least[:] = [(a, d) for a, d in least if a < node.across or d < node.down]
        least.append((node.across, node.down))
        if node.worth > self.worth:
            self.best, self.worth = node, node.worth
        rank = (self._most - could) / max(node.price, 1) if self.hurry else float(-could)
        heapq.heappush(self._heap, (rank, -node.worth, self.spent, node))

    def _could(self, node: _Node) -> int:
        """The most that a block can become worth."""
        return node.price + self.search.rest(node.across, node.down)

    def bound(self) -> int:
        """The most that any block not yet taken up could become worth."""
        return max([self.worth, *(self._could(node) for *_, node in self._heap)])
