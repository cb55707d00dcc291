"""The most that can be cut from a cloth when each size may be cut as often as it goes.

Every straight cut can be moved until it lies at a sum of sizes, so only such places need trying.
What a cloth yields is one piece, or the best of all the ways to cut it in two; from small cloths
to large, each is worked out once.

Source
------
P. C. Gilmore and R. E. Gomory, "The theory and computation of knapsack functions", Operations
Research 14, 1966; the places: J. C. Herz, "Recursive computational procedure for two-dimensional
stock cutting", IBM Journal of Research and Development 16, 1972 (both from memory).
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from functools import cached_property
from operator import add, itemgetter

from hemcalc.bolt.lay.guillotine import Block, below, beside

_Row = list[int]
_Picker = Callable[[_Row], tuple[int, ...]]


def sums_within(sizes: Iterable[int], most: int, *, limit: int = 10_000) -> list[int]:
    """All sums of the sizes, each as often as it goes, up to `most`; 0 first.

    No more than a few above `limit` are worked out: whoever asks must look how many there are.

    Examples
    --------
    >>> sums_within([4, 6], 15)
    [0, 4, 6, 8, 10, 12, 14]
    """
    sums = {0}
    for size in set(sizes):
        for start in sorted(sums):
            place = start + size
            while place <= most and place not in sums and len(sums) <= limit:
                sums.add(place)
                place += size
    return sorted(sums)


class Plates:
    """What each cloth up to a size is worth, sizes being cut as often as they go.

    Of `singles` there is one for each way in which a piece may lie.

    Examples
    --------
    >>> from hemcalc.bolt.lay.guillotine import single
    >>> plates = Plates([single(0, 3, 2), single(1, 2, 2)], [6, 4], 7, 4)
    >>> plates.worth(7, 4), plates.worth(4, 3), sorted(plates.block().kinds.items())
    (28, 8, [(0, 2), (1, 4)])
    """

    def __init__(self, singles: Sequence[Block], worths: Sequence[int], across: int, down: int) -> None:
        self.singles = [one for one in singles if one.across <= across and one.down <= down]
        self.worths = worths
        self.across = across
        self.down = down
        self._xs = sums_within((one.across for one in self.singles), across)
        self._ys = sums_within((one.down for one in self.singles), down)

    @property
    def effort(self) -> int:
        """How many ways to cut a cloth in two must be looked at."""
        return len(self._xs) * len(self._ys) * (len(self._xs) + len(self._ys)) // 4

    def worth(self, across: int, down: int) -> int:
        """The most that a cloth so large yields."""
        return self._table[_at(self._ys, down)][_at(self._xs, across)]

    @cached_property
    def _table(self) -> list[_Row]:
        """By place down, then by place across."""
        cuts_along = [_cuts_in_two(self._xs, at) for at in range(len(self._xs))]
        fits: dict[tuple[int, int], int] = {}
        for one in self.singles:
            size = one.across, one.down
            fits[size] = max(fits.get(size, 0), self.worths[one.kind])
        rows: list[_Row] = []
        columns: list[_Row] = [[] for _ in self._xs]
        for j, y in enumerate(self._ys):
            few_down, rest_down = _cuts_in_two(self._ys, j)
            row: _Row = []
            for x, column, (few_along, rest_along) in zip(self._xs, columns, cuts_along, strict=True):
                # A piece just so large, or what a smaller cloth yields.
                best = max(fits.get((x, y), 0), row[-1] if row else 0, column[-1] if column else 0)
                if few_along > 1:
                    best = max(best, *map(add, row[1:few_along], rest_along(row)))
                if few_down > 1:
                    best = max(best, *map(add, column[1:few_down], rest_down(column)))
                row.append(best)
                column.append(best)
            rows.append(row)
        return rows

    def block(self) -> Block | None:
        """A block worth most that can be cut from the largest cloth; None if nothing fits."""
        return self._block(len(self._xs) - 1, len(self._ys) - 1)

    def _block(self, i: int, j: int) -> Block | None:
        table, xs, ys = self._table, self._xs, self._ys
        worth = table[j][i]
        if not worth:
            return None
        for one in self.singles:
            if self.worths[one.kind] == worth and one.across <= xs[i] and one.down <= ys[j]:
                return one
        # From the middle, so that a long row is halved and not taken off piece by piece.
        for i1 in reversed(range(1, _cuts_in_two(xs, i)[0])):
            i2 = _at(xs, xs[i] - xs[i1])
            if table[j][i1] + table[j][i2] == worth:
                return _joined("beside", self._block(i1, j), self._block(i2, j))
        for j1 in reversed(range(1, _cuts_in_two(ys, j)[0])):
            j2 = _at(ys, ys[j] - ys[j1])
            if table[j1][i] + table[j2][i] == worth:
                return _joined("below", self._block(i, j1), self._block(i, j2))
        raise AssertionError("a cloth of some worth is a piece or is cut in two")

    def beyond(self, across: int, down: int) -> int:
        """The most that can be cut beside and below a block in the corner of the largest cloth.

        The block's size must be a sum of sizes each way.
        """
        return self._beyond[_at(self._ys, down)][_at(self._xs, across)]

    @cached_property
    def _beyond(self) -> list[_Row]:
        """A block grows by what is cut beside it or below it until it is all of the cloth."""
        xs, ys, table = self._xs, self._ys, self._table
        columns = [list(column) for column in zip(*table, strict=True)]
        grown_across = [_growth(xs, at) for at in range(len(xs))]
        rows = [[0] * len(xs) for _ in ys]
        by_column = [[0] * len(ys) for _ in xs]
        for j in reversed(range(len(ys))):
            grown_down = _growth(ys, j)
            for i in reversed(range(len(xs))):
                best = 0
                if i < len(xs) - 1:
                    best = max(best, *map(add, rows[j][i + 1 :], grown_across[i](table[j])))
                if j < len(ys) - 1:
                    best = max(best, *map(add, by_column[i][j + 1 :], grown_down(columns[i])))
                rows[j][i] = by_column[i][j] = best
        return rows


def _at(places: Sequence[int], size: int) -> int:
    """Index of the last place that is no larger."""
    return bisect_right(places, size) - 1


def _cuts_in_two(places: Sequence[int], at: int) -> tuple[int, _Picker]:
    """Of a cloth so large: the smaller parts are the places from 1 to before this; its larger parts."""
    before = max(1, _at(places, places[at] // 2) + 1)
    return before, _picker([_at(places, places[at] - place) for place in places[1:before]])


def _growth(places: Sequence[int], at: int) -> _Picker:
    """What must be added to a block so large to come to each larger place."""
    return _picker([_at(places, place - places[at]) for place in places[at + 1 :]])


def _picker(indexes: Sequence[int]) -> _Picker:
    """What picks these from a line."""
    if len(indexes) == 1:
        (only,) = indexes
        return lambda line: (line[only],)
    return itemgetter(*indexes) if indexes else lambda line: ()


def _joined(way: str, one: Block | None, other: Block | None) -> Block:
    parts = [part for part in (one, other) if part is not None]
    return (beside if way == "beside" else below)(*parts)
