"""The rows of pieces side by side within a width that are worth most.

From each of some groups a row takes one choice, such as none, one or two pieces of a size. Of all
rows only those are kept that are worth more than every narrower one.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from typing import NamedTuple


class Choice(NamedTuple):
    """What a row may take: its width, its worth, and how many of each size it has, lying each way."""

    across: int
    worth: int
    #: Size, way of lying, number.
    contents: tuple[tuple[int, int, int], ...] = ()


class Rows:
    """The rows worth most, by width.

    A row takes one choice from each group. Only so many rows as `keep` says are kept after each, spread over
    the widths; all that are worth more than the narrower ones if it is left out, which is exact.

    Examples
    --------
    >>> one = [Choice(0, 0), Choice(3, 4, ((0, 0, 1),))]
    >>> other = [Choice(0, 0), Choice(2, 3, ((1, 0, 1),))]
    >>> rows = Rows([one, other], 6)
    >>> rows.most(6), rows.most(4), rows.most(1), rows.best
    (7, 4, 0, ((0, 0, 1), (1, 0, 1)))
    """

    def __init__(self, groups: Iterable[Sequence[Choice]], width: int, keep: int | None = None) -> None:
        self._across, self._worth = [0], [0]
        #: How many rows were looked at.
        self.ways = 0
        self._taken: list[tuple[Sequence[Choice], list[tuple[int, int]]]] = []
        for group in groups:
            choices = _worth_more(group)
            # Among rows of one width, that of most worth stands first.
            ranked = [(number, choice.across, choice.worth) for number, choice in enumerate(choices)]
            grown = [
                (across + span, -worth - dear, at, number)
                for at, (across, worth) in enumerate(zip(self._across, self._worth, strict=True))
                for number, span, dear in ranked
                if across + span <= width
            ]
            grown.sort()
            self.ways += len(grown)
            kept: list[tuple[int, int, int, int]] = []
            for row in grown:
                if not kept or row[1] < kept[-1][1]:
                    kept.append(row)
            if keep is not None and len(kept) > keep:
                kept = [kept[i * (len(kept) - 1) // (keep - 1)] for i in range(keep)]
            self._across = [row[0] for row in kept]
            self._worth = [-row[1] for row in kept]
            self._taken.append((choices, [(at, number) for *_, at, number in kept]))

    def most(self, across: int) -> int:
        """The most that a row no wider than this is worth."""
        return self._worth[bisect_right(self._across, across) - 1]

    @property
    def best(self) -> tuple[tuple[int, int, int], ...]:
        """The row worth most: size, way of lying and number of what it has."""
        at, contents = len(self._across) - 1, []
        for choices, reached in reversed(self._taken):
            at, number = reached[at]
            contents.append(choices[number].contents)
        return tuple(size for some in reversed(contents) for size in some)


def _worth_more(group: Sequence[Choice]) -> list[Choice]:
    """The choices that are worth more than every narrower one."""
    kept: list[Choice] = []
    for choice in sorted(group, key=lambda choice: (choice.across, -choice.worth)):
        if not kept or choice.worth > kept[-1].worth:
            kept.append(choice)
    return kept
