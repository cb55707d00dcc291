"""What linen hemcalc buys for invented classes, against a shelf-by-shelf layout and a greedy packing library.

    python tests/bench/bolt.py [CLASSES]

It passes and fails nothing: bought lengths are printed as ratios to hemcalc's, in one run over the
same classes, a hundred unless another number is given, and the share that is proven shortest.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from collections.abc import Sequence
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "bolt")]

UNIT = 100  # the shop sells by 10 cm, here in mm


def shelves(across: int, pieces: Sequence[tuple[int, int]]) -> int:
    """Length by shelves: the longest first, each in the first shelf that has room, none on another."""
    found: list[tuple[int, int]] = []
    for wide, long in sorted(pieces, key=lambda piece: (-piece[1], -piece[0])):
        for at, (used, high) in enumerate(found):
            if used + wide <= across:
                found[at] = used + wide, high
                break
        else:
            found.append((wide, long))
    return sum(high for _, high in found)


def main(classes: int) -> None:
    """Lay out the classes, and print what each way buys."""
    from conftest import shortest

    from hemcalc.bolt import cut_from_bolt

    ratios: dict[str, list[float]] = {"shelf by shelf": [], "greedy library": []}
    proven, to_buy_proven, taken = 0, 0, []
    for seed in range(classes):
        chance = random.Random(seed)
        across, turn = chance.choice([900, 1400, 1500]), chance.random() < 0.5
        sizes = [
            (5 * chance.randint(12, 90), 5 * chance.randint(12, 110), chance.randint(2, 8))
            for _ in range(chance.randint(1, 4))
        ]
        wanted = [(f"size {n}", f"{a} mm", f"{d} mm", many) for n, (a, d, many) in enumerate(sizes)]
        before = time.process_time()
        layout = cut_from_bolt(wanted, f"{across} mm", grain="free" if turn else "fixed")
        taken.append(time.process_time() - before)
        proven += layout.proven
        to_buy_proven += layout.proven_to_buy
        pieces = [(a, d) for a, d, many in sizes for _ in range(many)]
        others = {"shelf by shelf": shelves(across, pieces), "greedy library": shortest(across, pieces, turn)}
        for name, length in others.items():
            ratios[name].append(-(-length // UNIT) * UNIT / float(layout.to_buy.mm))
    print(f"{classes} classes, proven shortest {proven}, proven that no less need be bought {to_buy_proven}")
    print(f"processor time: median {statistics.median(taken):.2f} s, longest {max(taken):.2f} s")
    for name, found in ratios.items():
        shorter = sum(ratio < 1 for ratio in found)
        mean, most = statistics.mean(found), max(found)
        print(f"{name}: buys {mean:.3f} times as much, {most:.2f} at most; less in {shorter}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
