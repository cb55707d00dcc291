"""How short the bolt can't be: a lower bound from what lies side by side.

Lay a line across the bolt anywhere: the pieces that it crosses lie side by side, a pattern, and
their widths add up to no more than the bolt's. So a layout is so much length of this pattern and
so much of that, and no layout is shorter than the least length of patterns that gives every piece
its own. That least is a linear programme. Its other face needs no trust: give the width of each
piece a worth a line crosses; what all pieces are worth, over the most that a pattern is worth, is
a bound, whatever the worths are. The programme only finds good ones; the bound is worked out from
them in whole numbers.

Source
------
Patterns: P. C. Gilmore and R. E. Gomory, "A linear programming approach to the cutting-stock
problem", Operations Research 9, 1961 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from operator import or_

from hemcalc.bolt.lay.guillotine import Block, single
from hemcalc.bolt.lay.side_by_side import Choice, Rows

_WAYS = 2_000  # to have pieces of one size lie both ways, above which their number is not looked at
_LONGEST = 4_000_000  # steps of length up to which every sum of lengths is kept


@dataclass(frozen=True, slots=True)
class Pose:
    """One way in which a piece may lie: its size across and down."""

    across: int
    down: int
    turned: bool = False

    def block(self, kind: int) -> Block:
        """One piece of that size, lying so."""
        return single(kind, self.across, self.down, self.turned)


@dataclass(frozen=True, slots=True)
class Demand:
    """So many pieces of one size, and the ways in which each may lie."""

    poses: tuple[Pose, ...]
    quantity: int

    @property
    def each(self) -> int:
        """Area of one piece."""
        return self.poses[0].across * self.poses[0].down


#: For each size and each way in which it may lie, what its width is worth to a line across.
Worths = Sequence[Sequence[int]]


def area_worths(demands: Sequence[Demand]) -> Worths:
    """Each width worth its own length: what a piece is worth is then its area."""
    return [[pose.across for pose in demand.poses] for demand in demands]


class Prices:
    """What each piece is worth, and the most that any line across so much width can cross.

    Examples
    --------
    Pieces more than half as wide as the bolt never lie side by side, whatever their area:

    >>> prices = Prices([[1]], [Demand((Pose(76, 50),), 24)], 150)
    >>> prices.pieces, prices.most(150), prices.shortest([24])
    ((50,), 1, 1200)
    """

    def __init__(self, worths: Worths, demands: Sequence[Demand], width: int) -> None:
        self.width = width
        #: A piece is worth its width's worth along all its length; lying the cheaper way.
        self.pieces = tuple(
            min(worth * pose.down for worth, pose in zip(row, demand.poses, strict=True))
            for row, demand in zip(worths, demands, strict=True)
        )
        self._rows = Rows(_groups(worths, demands, width), width)

    @property
    def best_pattern(self) -> tuple[tuple[int, int, int], ...]:
        """The pattern worth most: size, way of lying and number of what is in it."""
        return self._rows.best

    @property
    def ways(self) -> int:
        """How many patterns were looked at."""
        return self._rows.ways

    def most(self, across: int) -> int:
        """The most that pieces side by side within so much width are worth."""
        return self._rows.most(across)

    def of(self, quantities: Sequence[int]) -> int:
        """What so many pieces of each size are worth."""
        return sum(price * n for price, n in zip(self.pieces, quantities, strict=True))

    def shortest(self, quantities: Sequence[int]) -> int:
        """No layout of so many pieces of each size is shorter than this."""
        return -(-self.of(quantities) // self.most(self.width))


def _groups(worths: Worths, demands: Sequence[Demand], width: int) -> Iterator[list[Choice]]:
    """From each of these a pattern takes one: so many pieces of a size, no more than there are."""
    for kind, (row, demand) in enumerate(zip(worths, demands, strict=True)):
        most = [min(demand.quantity, width // pose.across) for pose in demand.poses]
        # Where there are very many ways, a pattern may have more than there are: a little less of a bound.
        if sum(most) <= demand.quantity or most[0] * most[-1] > _WAYS:
            for way, pose in enumerate(demand.poses):
                yield [Choice(n * pose.across, n * row[way], ((kind, way, n),)) for n in range(most[way] + 1)]
            continue
        # Few pieces that lie either way: what lies one way is not there to lie the other.
        together = [Choice(0, 0)]
        for way, pose in enumerate(demand.poses):
            together = [
                Choice(
                    done.across + n * pose.across, done.worth + n * row[way], (*done.contents, (kind, way, n))
                )
                for done in together
                for n in range(min(most[way], demand.quantity - sum(n for *_, n in done.contents)) + 1)
                if done.across + n * pose.across <= width
            ]
        yield together


def next_length(demands: Sequence[Demand], length: int) -> int:
    """The least length, this or longer, to which pieces one below the other add up.

    The shortest layout can be pushed together until a row of pieces, each touching the next,
    reaches from its top to its bottom, so it has such a length.

    Examples
    --------
    >>> next_length([Demand((Pose(76, 50),), 24)], 608)
    650
    """
    longest = sum(demand.quantity * max(pose.down for pose in demand.poses) for demand in demands)
    if not length <= longest <= _LONGEST:
        return length
    sums = 1  # a bit for each sum
    for demand in demands:
        for _ in range(demand.quantity):
            sums = reduce(or_, (sums << pose.down for pose in demand.poses), sums)
    above = sums >> length
    return length + (above & -above).bit_length() - 1
