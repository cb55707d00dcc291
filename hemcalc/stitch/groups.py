"""The groups of a side: so many threads to each stitch, in the order in which they are worked.

A `Spacing` is what the rule of `hemcalc.stitch.spacing` gives: runs of regular groups with the
off-size ones between them. It says them one by one, as they lie on the cloth, and in words.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from hemcalc.measure.errors import one_of
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.html import table_html
from hemcalc.measure.words import so_many

if TYPE_CHECKING:
    from pandas import DataFrame

#: Smallest and largest regular group that can be asked for. Common practice of the trade, no
#: published source.
GROUP_SIZES = (2, 6)

#: Threads to a group, by book: 2 to 5. Encyclopedia of Needlework, Therese de Dillmont,
#: Project Gutenberg 20776, fig. 56 (2 or 3); The New Dressmaker, author not named,
#: 1921, p. 120 (4 or 5).
BOOKS_GROUP = (2, 5)

#: Hands that hold the needle.
HANDS = ("right", "left")

#: Ways that the work may travel along a side, each the one that comes naturally to its hand.
#: The books have both, as School Needlework, Olive C. Hapgood, 1893, "Hem-Stitch".
WORKED = ("left to right", "right to left")


def way_of(hand: str, worked: str | None = None) -> str:
    """Which way the work travels along a side: as asked, or as comes naturally to the hand.

    A right-hander's needle goes behind a group from right to left, its point away from the hand
    that holds it, and the work then travels from left to right; a left-hander's is the mirror.

    Source
    ------
    Mechanics of the hand and common practice of the trade, no published source.

    Examples
    --------
    >>> way_of("right"), way_of("left"), way_of("right", "right to left")
    ('left to right', 'right to left', 'right to left')
    """
    natural = WORKED[HANDS.index(one_of(hand, HANDS, "hand"))]
    return natural if worked is None else one_of(worked, WORKED, "worked")


@dataclass(frozen=True, slots=True)
class Spacing:
    """The groups of one side, or of what is left of it.

    Made by `space_stitches` or `rest_of_side`, which check what they are given. Worked the other
    way the same groups begin from the other end, so that on the cloth they lie in the mirror:
    `groups` is the order of work, `left_to_right` what is seen.

    Examples
    --------
    >>> side = Spacing(threads=23, group=4, hand="right", off_group=3, runs=(3, 2))
    >>> side.groups, side.off_size, side.off_places
    ((4, 4, 4, 3, 4, 4), 1, (4,))
    >>> side.left_to_right
    (4, 4, 4, 3, 4, 4)
    >>> side.text()
    'Work 3 groups of 4, 1 of 3, 2 of 4, from left to right.'
    """

    threads: int
    #: Threads in a regular group.
    group: int
    hand: str
    #: Threads in an off-size group, one more or one fewer; `group` itself if there is none.
    off_group: int
    #: Regular groups before, between and after the off-size ones, in the order of work.
    runs: tuple[int, ...]
    #: One of `WORKED`; what comes naturally to the hand if left out.
    worked: str | None = None

    @property
    def way(self) -> str:
        """Which way the work travels along the side."""
        return way_of(self.hand, self.worked)

    @property
    def rightward(self) -> bool:
        """Whether it travels to the right."""
        return self.way == WORKED[0]

    @property
    def off_size(self) -> int:
        """How many groups differ from `group`."""
        return len(self.runs) - 1

    @property
    def count(self) -> int:
        """How many groups there are, and so how many stitches."""
        return sum(self.runs) + self.off_size

    @property
    def groups(self) -> tuple[int, ...]:
        """Threads in each group, in the order of work; they sum to `threads`."""
        worked = (self.group,) * self.runs[0]
        for run in self.runs[1:]:
            worked += (self.off_group,) + (self.group,) * run
        return worked

    @property
    def left_to_right(self) -> tuple[int, ...]:
        """Threads in each group as they lie on the cloth before the worker."""
        return self.groups if self.rightward else self.groups[::-1]

    @property
    def off_places(self) -> tuple[int, ...]:
        """Which groups are off-size: their numbers in the order of work, from 1."""
        places, done = [], 0
        for run in self.runs[:-1]:
            done += run + 1
            places.append(done)
        return tuple(places)

    @property
    def symmetric(self) -> bool:
        """Whether the side looks the same from both its ends."""
        return self.runs == self.runs[::-1]

    @property
    def zigzag(self) -> bool:
        """Whether every group halves, as the double or zigzag form of the stitch needs.

        Source
        ------
        Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776, fig. 58.
        """
        return all(size % 2 == 0 for _, size in self.stretches)

    @property
    def stretches(self) -> tuple[tuple[int, int], ...]:
        """Groups of one size in a row, in the order of work: how many, and threads in each."""
        pieces = [(self.runs[0], self.group)]
        for run in self.runs[1:]:
            pieces += [(1, self.off_group), (run, self.group)]
        rows = groupby((piece for piece in pieces if piece[0]), key=lambda piece: piece[1])
        return tuple((sum(groups for groups, _ in row), size) for size, row in rows)

    def __repr__(self) -> str:
        return f"Spacing({self.threads} threads: {', '.join(self._stretches_said())})"

    def text(self) -> str:
        """What to work, in a sentence."""
        return f"Work {self.order}."

    @property
    def order(self) -> str:
        """The groups as they are worked, and which way, without a verb."""
        return f"{', '.join(self._stretches_said())}, from {self.way}"

    def _stretches_said(self) -> list[str]:
        (groups, size), *others = self.stretches
        words = [f"{so_many(groups, 'group')} of {size}"]
        return words + [f"{groups} of {size}" for groups, size in others]

    def table(self) -> DataFrame:
        """A row for each stretch of groups of one size, in the order of work.

        Examples
        --------
        >>> Spacing(threads=23, group=4, hand="right", off_group=3, runs=(3, 2)).table()["groups"].tolist()
        [3, 1, 2]
        """
        from pandas import DataFrame

        rows = [(groups, size, groups * size) for groups, size in self.stretches]
        return DataFrame(rows, columns=["groups", "threads each", "threads"])

    def _repr_html_(self) -> str:
        rows = [[str(groups), str(size), str(groups * size)] for groups, size in self.stretches]
        return table_html(["groups", "threads each", "threads"], rows, self.text())

    @property
    def notes(self) -> tuple[str, ...]:
        """What the reader should know of this side, in sentences."""
        notes = []
        if self.off_size:
            are = "is" if self.off_size == 1 else "are"
            few = f"{so_many(self.off_size, 'group')} {are} of {self.off_group}"
            notes.append(f"{self.threads} threads do not divide by {self.group}, so {few}: no fewer will do.")
        if not self.symmetric:
            notes.append(
                "With an even number of groups none stands in the middle, so the longer run is worked first."
            )
        least, most = BOOKS_GROUP
        if not least <= self.group <= most:
            notes.append(f"The books take {least} to {most} threads to a group; this one takes {self.group}.")
        return tuple(notes)


def as_group(value: object) -> int:
    """The value as threads to a group: a whole number from 2 to 6.

    Examples
    --------
    >>> as_group(4)
    4
    >>> as_group(7)
    Traceback (most recent call last):
    hemcalc.HemError: group is 7, but must be a whole number of threads, from 2 to 6; for example 4.
    """
    least, most = GROUP_SIZES
    return whole_threads(value, "group", least=least, most=most, example=4)
