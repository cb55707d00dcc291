"""Strips as full as the search by joins makes them, for pieces that are few and of many sizes.

Columns of one size suit a workshop of a few sizes. Where few pieces are of one size, a strip fills
better by joining whatever fits together; the fullest of some lengths is cut first.
"""

from __future__ import annotations

from collections.abc import Sequence

from hemcalc.bolt.lay.guillotine import Block
from hemcalc.bolt.lay.joins import Search, best_block
from hemcalc.bolt.lay.patterns import Demand

_LENGTHS = 10  # of strips tried at a time


def full_strips(demands: Sequence[Demand], width: int, *, effort: int, most: int) -> tuple[list[Block], int]:
    """All the pieces as strips: the fullest of some lengths next, each found by joining blocks.

    Each search may take so much effort. With the strips stands the effort that they took; there are none if
    that came to more than `most`.

    Examples
    --------
    >>> from hemcalc.bolt.lay.patterns import Pose
    >>> pieces = [Demand((Pose(2, 4),), 2), Demand((Pose(3, 2),), 4)]
    >>> [strip.down for strip in full_strips(pieces, 5, effort=1000, most=10_000)[0]]
    [4, 4]
    """
    left = [demand.quantity for demand in demands]
    strips, spent = list[Block](), 0
    while any(left):
        made = []
        for length in lengths_tried(demands, left):
            strip, took = _full(demands, left, width, length, effort)
            made.append(strip)
            spent += took
            if spent > most:
                return [], spent
        best = max(made, key=lambda strip: (_area(strip, demands) / strip.down, strip.down))
        strips.append(best)
        for kind, n in best.kinds.items():
            left[kind] -= n
    return strips, spent


def _full(
    demands: Sequence[Demand], left: Sequence[int], width: int, length: int, effort: int
) -> tuple[Block, int]:
    singles = [pose.block(kind) for kind, demand in enumerate(demands) if left[kind] for pose in demand.poses]
    areas = [demand.each for demand in demands]
    search = Search(singles, left, areas, width, length, lambda across, down: width * length - across * down)
    found = best_block(search, enough=width * length, effort=effort)
    assert found.block is not None
    return found.block, found.spent


def _area(strip: Block, demands: Sequence[Demand]) -> int:
    return sum(demands[kind].each * n for kind, n in strip.kinds.items())


def lengths_tried(demands: Sequence[Demand], left: Sequence[int]) -> list[int]:
    """Some of the lengths of one piece or two, none much shorter or longer than the longest piece."""
    downs = {pose.down for demand, n in zip(demands, left, strict=True) if n for pose in demand.poses}
    longest = max(downs)
    sums = downs | {one + other for one in downs for other in downs}
    lengths = sorted(length for length in sums if 3 * longest <= 5 * length <= 8 * longest)
    return lengths[:: -max(1, len(lengths) // _LENGTHS)]
