"""How often a cloth cut by the ruler is too small, because its count was measured: before and after.

    python tests/bench/counting.py [CLOTHS]

It passes and fails nothing; tests/piece/test_count_error.py holds a smaller run. *Before* the count
was taken at its word; *after* the size to cut allows for its error, to a confidence of 95 %.

The model. A cloth is threads side by side at gaps of its own: a true count each way, 18 to 40
to the inch, which varies from place to place as said below. A piece is planned on the counts
that were measured, with a narrow hem and a wide clear band, so that the ledger needs more than
the rule of four. The reader lays a ruler down anywhere within the piece and counts: each end
is read to the nearest thread, so to half a thread. Then she cuts between two threads, lays the
ruler along, and cuts at the mark that hemcalc says. The cloth is too small if it has fewer
threads than the ledger needs, across or down.

The cloths: *even* is of one count; *by the inch* varies with a standard deviation of so much
from one inch to any other; *slowly* varies as much, but neighbouring inches are alike (they
forget each other over some 4 in). *Elsewhere* is a slow one that was counted beyond the piece.
"""

from __future__ import annotations

import math
import random
import sys
from bisect import bisect_right
from dataclasses import dataclass
from itertools import accumulate
from pathlib import Path

if __name__ == "__main__":
    # As a script it is started from its own folder; it is to measure the hemcalc beside it.
    sys.path.insert(0, str(Path(__file__).parents[2]))

from hemcalc import Count, Fabric, Piece
from hemcalc.measure.lengths import RULER_MARK

#: Kinds of cloth: how, and by what share, the count varies.
CLOTHS = {
    "even": ("even", 0.0),
    "1 % by the inch": ("inch", 0.01),
    "1 % slowly": ("slow", 0.01),
    "2 % by the inch": ("inch", 0.02),
    "2 % slowly": ("slow", 0.02),
    "1 % elsewhere": ("elsewhere", 0.01),
}
#: Ways to count: in how many places, over how many inches.
WAYS = ((1, 1), (2, 1), (4, 1), (1, 4), (2, 4), (4, 4))
_FORGETS = 4.0  # inches over which a slow cloth forgets
_BEYOND = 12.0  # inches from the piece to where it was counted, if that was elsewhere


@dataclass(frozen=True)
class Rates:
    """Shares of cloths that come out too small, across or down."""

    before: float
    after: float
    #: Threads that the worst cloth is short, before and after.
    short_before: int
    short_after: int
    #: Share that is added to the size, on the mean.
    added: float


def simulate(
    kind: str, share: float, places: int, inches: int, *, cloths: int, sure: str = "95 %", seed: int = 1
) -> Rates:
    """The rates for so many cloths of a kind, counted in so many places over so many inches."""
    dice = random.Random(f"{seed} {kind} {share} {places} {inches}")
    small, worst, added = [0, 0], [0, 0], 0.0
    for _ in range(cloths):
        design = dice.randint(120, 360), dice.randint(120, 360)
        hem, clear = dice.randint(3, 6), dice.randint(8, 14)
        needed = [threads + 2 * (clear + 2 + 2 * hem + (hem + 1) // 2) for threads in design]
        sides = [woven(dice, kind, share, threads) for threads in needed]
        counts = [
            Count.measured(
                [read(dice, side, kind, threads, inches) for _ in range(places)], f"{inches} in", sure
            )
            for side, threads in zip(sides, needed, strict=True)
        ]
        piece = Piece(Fabric(*counts, washed=True), design, hem=hem, same="threads", clear=clear)
        size = piece.cut_size
        assert size.threads == tuple(needed)
        assert not piece.edges.left.rule.holds
        unwidened = [length.rounded_up(RULER_MARK["in"]) for length in size.in_hand]
        added += sum(float(way.widening) for way in (size.across, size.down)) / 2 / cloths
        for when, cut in enumerate((unwidened, size.to_cut("in"))):
            short = max(
                need - whole_threads_in(side, float(length.inches))
                for need, side, length in zip(needed, sides, cut, strict=True)
            )
            small[when] += short > 0
            worst[when] = max(worst[when], short)
    return Rates(small[0] / cloths, small[1] / cloths, *worst, added)


def woven(dice: random.Random, kind: str, share: float, threads: int) -> list[float]:
    """Where the threads of a cloth lie one way, in inches from the first; more than so many of them."""
    count = dice.uniform(18, 40)
    many = int(1.4 * threads + (2 * _BEYOND if kind == "elsewhere" else 6) * count)
    gaps = [1 / count] * many
    if kind == "inch":
        # Gaps that know nothing of each other, so uneven that inches of them differ by the share.
        gaps = [gap * max(0.05, dice.gauss(1, share * math.sqrt(count))) for gap in gaps]
    elif share:
        alike, drift = math.exp(-1 / (_FORGETS * count)), dice.gauss(0, share)
        fresh = share * math.sqrt(1 - alike**2)
        for place in range(many):
            gaps[place] *= 1 + drift
            drift = alike * drift + dice.gauss(0, fresh)
    return list(accumulate(gaps, initial=0.0))


def read(dice: random.Random, poses: list[float], kind: str, threads: int, inches: int) -> int:
    """Threads counted along a ruler laid down anywhere within so many threads, or beyond them."""
    start = dice.uniform(0, max(poses[threads] - inches, 0)) + (_BEYOND if kind == "elsewhere" else 0)
    return nearest(poses, start + inches) - nearest(poses, start)


def nearest(poses: list[float], place: float) -> int:
    """The number of the thread nearest to a place."""
    after = bisect_right(poses, place)
    return after - 1 if place - poses[after - 1] < poses[after] - place else after


def whole_threads_in(poses: list[float], length: float) -> int:
    """Whole threads in a length that is cut off between two of them."""
    return bisect_right(poses, length + 1e-9) - 1


def main(cloths: int) -> None:
    """The table of every kind of cloth and every way to count."""
    print(f"{cloths} cloths a row; too small for the ledger, across or down")
    print(f"{'cloth':18}{'counted':22}{'before':>8}{'short':>7}{'after':>8}{'short':>7}{'added':>8}")
    for name, (kind, share) in CLOTHS.items():
        for places, inches in WAYS:
            found = simulate(kind, share, places, inches, cloths=cloths)
            way = f"{places} place{'s' if places > 1 else ''} over {inches} in"
            print(
                f"{name:18}{way:22}{found.before:8.1%}{found.short_before:7}{found.after:8.1%}"
                f"{found.short_after:7}{found.added:8.1%}"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
