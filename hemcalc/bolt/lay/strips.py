"""A good layout in short time: strips off the bolt, each filled as well as it goes.

A strip of some length is filled with columns, each a stack of one size; what stays free above a
column or beside the last one is filled with what still fits. The strip that wastes least is cut
first, and again while there are pieces for it. The strips that waste much come last, so the
pieces in them are worth more on the next try.
"""

from __future__ import annotations

from collections.abc import Sequence

from hemcalc.bolt.lay.guillotine import Block, below, beside
from hemcalc.bolt.lay.patterns import Demand
from hemcalc.bolt.lay.side_by_side import Choice, Rows

_KEEP = 150  # rows of columns kept while a strip is filled
_COLUMNS = 500  # ways for columns of one size to lie, roughly
_LENGTHS = 60  # of strips tried at a time
_SLOW = 200_000  # rows looked at for a layout, after which fewer lengths are tried


def length_of(strips: Sequence[Block]) -> int:
    """Length of the bolt that the strips take."""
    return sum(strip.down for strip in strips)


class StripCutter:
    """Fills strips off one bolt, and lays out pieces as strips; each lies no wider than the bolt.

    Examples
    --------
    >>> from hemcalc.bolt.lay.patterns import Pose
    >>> cutter = StripCutter([Demand((Pose(50, 76),), 7)], 150)
    >>> [strip.down for strip in cutter.layout([7], [3800])]
    [152, 76]
    """

    def __init__(self, demands: Sequence[Demand], width: int) -> None:
        self.demands = demands
        self.width = width
        #: Rows of columns that were looked at.
        self.spent = 0

    def layout(self, left: Sequence[int], worths: Sequence[int]) -> list[Block]:
        """So many pieces of each size as strips: always the strip of most worth for its length next."""
        now, strips, begun = list(left), list[Block](), self.spent
        while any(now):
            made = self.strips(now, worths, every=1 + (self.spent - begun) // _SLOW)
            best = max(made, key=lambda strip: (_worth(strip, worths) / strip.down, strip.down))
            kinds = best.kinds
            times = min(now[kind] // n for kind, n in kinds.items())
            strips += [best] * times
            for kind, n in kinds.items():
                now[kind] -= n * times
        return strips

    def learned(self, strips: Sequence[Block], worths: Sequence[int]) -> list[int]:
        """The worths, moved halfway to what the pieces cost: their strips' lengths, shared by worth."""
        whole, length = sum(_worth(strip, worths) for strip in strips), length_of(strips)
        costs, quantities = [0] * len(worths), [0] * len(worths)
        for strip in strips:
            worth = _worth(strip, worths)
            for kind, n in strip.kinds.items():
                costs[kind] += n * worths[kind] * strip.down * whole // (worth * length)
                quantities[kind] += n
        return [
            max(1, (worth + cost // n) // 2) if n else worth
            for worth, cost, n in zip(worths, costs, quantities, strict=True)
        ]

    def strips(self, left: Sequence[int], worths: Sequence[int], *, every: int = 1) -> list[Block]:
        """Strips of several lengths from these pieces, each filled with most worth.

        Of the lengths that are worth a try only each so many is tried, the longest at any rate.
        """
        lengths = _lengths(self.demands, left)
        every = max(every, -(-len(lengths) // _LENGTHS))
        return [self._strip(left, length, worths) for length in lengths[::-every]]

    def _strip(self, had: Sequence[int], length: int, worths: Sequence[int]) -> Block:
        """The strip of this length or less that is filled with most worth."""
        left = list(had)
        groups = [self._stacks(kind, n, length, worths[kind]) for kind, n in enumerate(had) if n]
        rows = Rows(groups, self.width, keep=_KEEP)
        self.spent += rows.ways
        stacks: list[list[Block]] = []
        for kind, way, quantity in rows.best:
            pose = self.demands[kind].poses[way]
            for _ in range(quantity):
                stacked = min(left[kind], length // pose.down)
                if stacked:
                    stacks.append([pose.block(kind)] * stacked)
                    left[kind] -= stacked
        stacks.sort(key=lambda stack: -stack[0].down * len(stack))
        parts = []
        for stack in stacks:
            over = fill(self.demands, left, stack[0].across, length - stack[0].down * len(stack))
            parts.append(below(*stack, *over))
        parts += fill(self.demands, left, self.width - sum(part.across for part in parts), length)
        return beside(*parts)

    def _stacks(self, kind: int, left: int, length: int, worth: int) -> list[Choice]:
        """Columns of one size: their width, worth and numbers, no more pieces than are left."""
        together = [Choice(0, 0)]
        for way, pose in enumerate(self.demands[kind].poses):
            stacked = length // pose.down
            if stacked:
                # Where there are very many ways for columns to lie, only so many are looked at.
                every = 1 + len(together) * (self.width // pose.across) // _COLUMNS
                together = [
                    Choice(
                        done.across + n * pose.across,
                        done.worth + min(left - done.worth, n * stacked),
                        (*done.contents, (kind, way, n)),
                    )
                    for done in together
                    for most in (
                        min((self.width - done.across) // pose.across, -(-(left - done.worth) // stacked)),
                    )
                    for n in range(0, most + 1, every)
                ]
        # So far the worth was the number of pieces.
        return [choice._replace(worth=choice.worth * worth) for choice in together]


def _worth(strip: Block, worths: Sequence[int]) -> int:
    return sum(worths[kind] * n for kind, n in strip.kinds.items())


def _lengths(demands: Sequence[Demand], left: Sequence[int]) -> list[int]:
    """Lengths of strips worth a try: stacks of one size, to four times the longest piece."""
    poses = [(pose, n) for demand, n in zip(demands, left, strict=True) if n for pose in demand.poses]
    longest = 4 * max(pose.down for pose, _ in poses)
    return sorted(
        {n * pose.down for pose, most in poses for n in range(1, min(most, longest // pose.down) + 1)}
    )


def fill(demands: Sequence[Demand], left: list[int], across: int, down: int) -> list[Block]:
    """A block of pieces that fit in a rectangle, in a list; an empty list if none does.

    Takes the largest piece that fits, as many rows of it as there are whole ones, and goes on
    beside and below them. The pieces are taken off `left`.
    """
    fits = [
        (pose.across * pose.down, min(left[kind], across // pose.across), kind, pose)
        for kind, demand in enumerate(demands)
        if left[kind]
        for pose in demand.poses
        if pose.across <= across and pose.down <= down
    ]
    if not fits:
        return []
    _, in_row, kind, pose = max(fits, key=lambda fit: (fit[0], fit[1] * fit[3].across))
    rows = max(1, min(left[kind] // in_row, down // pose.down)) if in_row == across // pose.across else 1
    left[kind] -= in_row * rows
    row = [pose.block(kind)] * in_row
    if rows > 1:  # in one go: a thousand narrow pieces would be a thousand calls
        deep = rows * pose.down
        grid = below(*[beside(*row)] * rows, *fill(demands, left, in_row * pose.across, down - deep))
        return [beside(grid, *fill(demands, left, across - in_row * pose.across, down))]
    filled = in_row * pose.across
    # The larger of the two rectangles that are left is kept whole.
    if (across - filled) * down > across * (down - pose.down):
        under = fill(demands, left, filled, down - pose.down)
        return [beside(below(beside(*row), *under), *fill(demands, left, across - filled, down))]
    right = fill(demands, left, across - filled, pose.down)
    return [below(beside(*row, *right), *fill(demands, left, across, down - pose.down))]
