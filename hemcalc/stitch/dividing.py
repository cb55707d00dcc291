"""Making a side divide before the first stitch: other clear bands, or another design.

A side of design + clear bands at both ends threads has no off-size group when the group
divides it. A thread or two more or less in the bands often brings that about, or a design a
little larger or smaller; this lists the ways, nearest first, in whole threads.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hemcalc.measure.errors import parts_of
from hemcalc.measure.exact import whole_threads
from hemcalc.stitch.groups import as_group

_FURTHEST = 50  # threads; beyond it a list of ways is no help


@dataclass(frozen=True, slots=True)
class Dividing:
    """One way to make a side divide: the design and its two clear bands, in threads.

    `left` and `right` are the bands at the side's two ends; for a side that runs down the
    piece they are those at the top and the bottom.
    """

    design: int
    left: int
    right: int
    #: Threads by which the side grows, and the finished piece with it; fewer than 0 if it shrinks.
    added: int
    #: What is changed: "nothing", "clear" or "design".
    changes: str

    @property
    def threads(self) -> int:
        """Threads between the open lines at the side's two ends."""
        return self.design + self.left + self.right

    @property
    def even(self) -> bool:
        """Whether the two clear bands are as wide as each other."""
        return self.left == self.right


@dataclass(frozen=True, slots=True)
class DividingBoth:
    """One way to make the sides of both directions divide."""

    #: The sides at the top and the bottom, which run across.
    across: Dividing
    #: The sides at the left and the right, which run down; its `left` is the top band.
    down: Dividing

    @property
    def design(self) -> tuple[int, int]:
        """Threads of the design, across and down."""
        return self.across.design, self.down.design

    @property
    def clear(self) -> tuple[int, int, int, int]:
        """Threads of the clear bands: left, right, top, bottom."""
        return self.across.left, self.across.right, self.down.left, self.down.right

    @property
    def added(self) -> tuple[int, int]:
        """Threads by which the finished piece grows, across and down."""
        return self.across.added, self.down.added

    @property
    def same_all_round(self) -> bool:
        """Whether all four clear bands are as wide as each other."""
        return len(set(self.clear)) == 1


def nearest_dividing(
    design: int, left: int, right: int, group: int = 4, within: int = 3, *, over: int = 1
) -> tuple[Dividing, ...]:
    """The ways to make one side divide by the group, nearest first.

    Either the clear bands change, both by as much or one by one thread more, or the design
    does. The odd thread goes where it leaves the bands most alike; where they were equal the
    right one comes out the wider, by that one thread.

    Nearest is what changes the side by the fewest threads; of these, other bands come before
    another design, for that is charted by now, and a larger side before a smaller.

    First the side as it is, if it divides already; none if nothing so near divides. Each band, or the design,
    changes by no more threads than `within`, a design by whole stitches `over` so many.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> [(way.design, way.left, way.right) for way in nearest_dividing(85, 8, 8)]
    [(85, 7, 8), (84, 8, 8), (85, 9, 10), (88, 8, 8), (85, 5, 6)]
    """
    design = whole_threads(design, "design", least=1, example=120)
    left, right = whole_threads(left, "clear"), whole_threads(right, "clear")
    group = as_group(group)
    within = whole_threads(within, "within", most=_FURTHEST, example=3)
    over = whole_threads(over, "over", least=1, most=_FURTHEST, example=2)
    ways = _ways(design, left, right, within, over)
    return tuple(sorted((way for way in ways if way.threads % group == 0), key=_farness))


def nearest_dividing_both(
    design: tuple[int, int],
    clear: tuple[int, int, int, int],
    group: int = 4,
    within: int = 3,
    *,
    over: int = 1,
) -> tuple[DividingBoth, ...]:
    """The ways to make the sides of both directions divide, nearest first.

    Every way of `nearest_dividing` across with every one down. Nearest is what changes the
    two by the fewest threads together; of these come first those with fewer designs changed,
    then with fewer unequal bands, then with the bands the same all round, then the larger.

    The clear bands are the left, right, top and bottom one; the rest is as for `nearest_dividing`.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> ways = nearest_dividing_both((122, 82), (8, 8, 8, 8))
    >>> [(way.design, way.clear, way.added) for way in ways][:2]
    [((122, 82), (9, 9, 9, 9), (2, 2)), ((122, 82), (7, 7, 7, 7), (-2, -2))]
    """
    across, down = parts_of(design, "design", 2, "2 numbers of threads", (120, 80))
    left, right, top, bottom = parts_of(clear, "clear", 4, "4 numbers of threads", (8, 8, 8, 8))
    both = (
        DividingBoth(one, other)
        for one in nearest_dividing(across, left, right, group, within, over=over)
        for other in nearest_dividing(down, top, bottom, group, within, over=over)
    )
    return tuple(sorted(both, key=_farness_of_both))


def _ways(design: int, left: int, right: int, within: int, over: int) -> Iterator[Dividing]:
    yield Dividing(design, left, right, 0, "nothing")
    for added in range(-2 * within, 2 * within + 1):
        low, high = added // 2, added - added // 2
        bands = [(left + low, right + high), (left + high, right + low)]
        first, last = min(bands, key=lambda ends: abs(ends[0] - ends[1]))
        if added and min(first, last) >= 0:
            yield Dividing(design, first, last, added, "clear")
    furthest = within // over * over
    for added in range(-furthest, furthest + 1, over):
        if added and design + added > 0:
            yield Dividing(design + added, left, right, added, "design")


def _farness(way: Dividing) -> tuple[int, bool, bool, bool]:
    return abs(way.added), way.changes == "design", not way.even, way.added < 0


def _farness_of_both(both: DividingBoth) -> tuple[int, int, int, bool, int]:
    """As for one direction, added up, and before the last the bands all round."""
    one, other = _farness(both.across), _farness(both.down)
    added, designs, uneven, smaller = (a + b for a, b in zip(one, other, strict=True))
    return added, designs, uneven, not both.same_all_round, smaller
