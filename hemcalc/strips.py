"""A good layout in short time: strips off the bolt, each filled as well as it goes.

A strip of some length is filled with columns, each a stack of one size; what stays free above a
column or beside the last one is filled with what still fits. The strip that wastes least is cut
first, and again while there are pieces for it. The strips that waste much come last, so the
pieces in them are worth more on the next try.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hemcalc.guillotine import Block, below, beside
from hemcalc.patterns import Demand

__all__ = ["StripCutter", "fill", "length_of"]

Left = list[int]
Columns = tuple[tuple[int, int, int], ...]


def length_of(strips: Sequence[Block]) -> int:
    """Length of the bolt that the strips take."""
    return sum(strip.down for strip in strips)


class StripCutter:
    """Lays out all the pieces as strips, again and again, learning from each layout.

    Parameters
    ----------
    demands : sequence of Demand
        The pieces; each lie no wider than the bolt.
    width : int
        Of the bolt.
    worths : sequence of int
        What a piece of each size is worth at first, such as its area.

    Examples
    --------
    >>> from hemcalc.patterns import Lie
    >>> cutter = StripCutter([Demand((Lie(50, 76),), 7)], 150, [3800])
    >>> [strip.down for strip in cutter.layout()]
    [152, 76]
    """

    def __init__(self, demands: Sequence[Demand], width: int, worths: Sequence[int]) -> None:
        self.demands = demands
        self.width = width
        #: Every strip that was made, by how many pieces of each size it has.
        self.tried: dict[tuple[int, ...], Block] = {}
        #: Ways to fill a strip that were looked at.
        self.spent = 0
        # The scale leaves room for small changes of worth in whole numbers.
        scale = 10**6 * len(worths) // (sum(worths) or 1) + 1
        self._worths = [worth * scale + 1 for worth in worths]

    def layout(self) -> list[Block]:
        """The next layout."""
        left = [demand.many for demand in self.demands]
        strips: list[Block] = []
        while any(left):
            made = [self._strip(left, length) for length in _lengths(self.demands, left)]
            best = max(made, key=lambda strip: (self._worth(strip) / strip.down, strip.down))
            kinds = best.kinds
            times = min(left[kind] // n for kind, n in kinds.items())
            strips += [best] * times
            for kind, n in kinds.items():
                left[kind] -= n * times
        self._learn(strips)
        return strips

    def _learn(self, strips: Sequence[Block]) -> None:
        """Move the worths halfway to what the pieces cost: their strips' lengths, shared by worth."""
        whole = sum(self._worth(strip) for strip in strips)
        length = length_of(strips)
        costs = [0] * len(self.demands)
        for strip in strips:
            worth = self._worth(strip)
            for kind, n in strip.kinds.items():
                costs[kind] += n * self._worths[kind] * strip.down * whole // (worth * length)
        self._worths = [
            max(1, (worth + cost // max(1, demand.many)) // 2)
            for worth, cost, demand in zip(self._worths, costs, self.demands, strict=True)
        ]

    def _worth(self, strip: Block) -> int:
        return sum(self._worths[kind] * n for kind, n in strip.kinds.items())


    def _strip(self, left: Left, length: int) -> Block:
        """The strip of this length or less that is filled with most worth."""
        left, had = list(left), tuple(left)
        stacks: list[list[Block]] = []
        for kind, way, many in self._columns(left, length):
            lie = self.demands[kind].lies[way]
            for _ in range(many):
                high = min(left[kind], length // lie.down)
                if high:
                    stacks.append([lie.block(kind)] * high)
                    left[kind] -= high
        stacks.sort(key=lambda stack: -stack[0].down * len(stack))
        parts = []
        for stack in stacks:
            over = fill(self.demands, left, stack[0].across, length - stack[0].down * len(stack))
            parts.append(below(*stack, *over))
        parts += fill(self.demands, left, self.width - sum(part.across for part in parts), length)
        strip = beside(*parts)
        kinds = tuple(before - after for before, after in zip(had, left, strict=True))
        if kinds not in self.tried or self.tried[kinds].down > strip.down:
            self.tried[kinds] = strip
        return strip

    def _columns(self, left: Left, length: int) -> Columns:
        """How many columns of each size, lying each way, fill a strip with most worth."""
        front: list[tuple[int, int, Columns]] = [(0, 0, ())]
        for kind, many in enumerate(left):
            if not many:
                continue
            choices = list(self._stacks(kind, many, length))
            grown = [
                (across + wide, worth + more, (*done, *columns))
                for across, worth, done in front
                for wide, more, columns in choices
                if across + wide <= self.width
            ]
            self.spent += len(front) * len(choices)
            grown.sort(key=lambda state: (state[0], -state[1]))
            front = []
            for state in grown:
                if not front or state[1] > front[-1][1]:
                    front.append(state)
        return front[-1][2]

    def _stacks(self, kind: int, left: int, length: int) -> Iterator[tuple[int, int, Columns]]:
        """Columns of one size: their width, worth and numbers, no more pieces than are left."""
        worth = self._worths[kind]
        together: list[tuple[int, int, Columns]] = [(0, 0, ())]
        for way, lie in enumerate(self.demands[kind].lies):
            high = length // lie.down
            if high:
                together = [
                    (across + n * lie.across, had + min(left - had, n * high), (*done, (kind, way, n)))
                    for across, had, done in together
                    for n in range(min((self.width - across) // lie.across, -(-(left - had) // high)) + 1)
                ]
        for across, pieces, columns in together:
            yield across, pieces * worth, columns


def _lengths(demands: Sequence[Demand], left: Left) -> list[int]:
    """Lengths of strips worth a try: stacks of one size, to four times the longest piece."""
    lies = [(lie, n) for demand, n in zip(demands, left, strict=True) if n for lie in demand.lies]
    longest = 4 * max(lie.down for lie, _ in lies)
    return sorted({n * lie.down for lie, most in lies for n in range(1, min(most, longest // lie.down) + 1)})


def fill(demands: Sequence[Demand], left: Left, across: int, down: int) -> list[Block]:
    """A block of pieces that fit in a rectangle, in a list; an empty list if none does.

    Takes the largest piece that fits, as many of it as lie side by side, and goes on beside
    and below them. The pieces are taken off `left`.
    """
    fits = [
        (lie.across * lie.down, min(left[kind], across // lie.across), kind, lie)
        for kind, demand in enumerate(demands)
        if left[kind]
        for lie in demand.lies
        if lie.across <= across and lie.down <= down
    ]
    if not fits:
        return []
    _, many, kind, lie = max(fits, key=lambda fit: (fit[0], fit[1] * fit[3].across))
    left[kind] -= many
    row = [lie.block(kind)] * many
    taken = many * lie.across
    # The larger of the two rectangles that are left is kept whole.
    if (across - taken) * down > across * (down - lie.down):
        under = fill(demands, left, taken, down - lie.down)
        return [beside(below(beside(*row), *under), *fill(demands, left, across - taken, down))]
    right = fill(demands, left, across - taken, lie.down)
    return [below(beside(*row, *right), *fill(demands, left, across, down - lie.down))]
