"""Sums by hand beside hemcalc's, over a whole range and not for one case only.

The hand's way is written here as the notebook says it, from the numbers given, and never through
what it is held against. So the two could differ.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Any

from hemcalc.bolt import cut_from_bolt
from hemcalc.corner import plan_corner
from hemcalc.edge import plan_edge
from hemcalc.finish import rescue
from hemcalc.measure import Count, Fabric, Length
from hemcalc.measure.errors import one_of
from hemcalc.piece import EXAMPLES, Piece, example
from hemcalc.stitch import hem_stitch, space_stitches
from hemcalc.sums import sums_of
from hemcalc.weave import open_line

_FLOAT = 1e-9  # what floats may stray; the sums by hand that take roots are floats


@dataclass(frozen=True, slots=True)
class Agreement:
    """How many cases were tried, and the first few in which hand and hemcalc differ."""

    over: str
    tried: int
    unlike: tuple[str, ...]

    def __repr__(self) -> str:
        return self.text()

    def text(self) -> str:
        """Whether they agree, and over what."""
        if not self.unlike:
            return f"By hand and by hemcalc it is the same, all {self.tried:,} times: {self.over}."
        return f"By hand and by hemcalc it is not the same: {'; '.join(self.unlike)}."


@dataclass(frozen=True, slots=True)
class Range:
    """A sum by hand, what it is held against, and the cases that both are tried on."""

    over: str
    cases: Iterable[tuple[Any, ...]]
    by_hand: Callable[..., Any]
    ours: Callable[..., Any]

    def held(self) -> Agreement:
        """One held against the other in every case; floats to the ninth decimal."""
        unlike, cases = [], tuple(self.cases)
        for case in cases:
            hand, ours = self.by_hand(*case), self.ours(*case)
            alike = abs(hand - ours) < _FLOAT if isinstance(ours, float) else hand == ours
            if not alike:
                unlike.append(f"{', '.join(map(str, case))} is {hand} by hand and {ours} by hemcalc")
        return Agreement(self.over, len(cases), tuple(unlike[:3]))


def _edge(hem: int, clear: int) -> Any:
    return plan_edge("28/in", hem, clear=clear)


def _corner(hem: int) -> Any:
    edge = _edge(hem, 6)
    return plan_corner(edge, edge)


def _pincushion(design: int) -> int:
    piece = Piece(Fabric("22/in"), (design, design), hem=9, same="threads", clear=5, eye="0 mm")
    return open_line(piece).tails[0].reach.short  # type: ignore[union-attr]  # a tail that is darned


def _tail_short(design: int) -> int:
    left = (design + 5 + 5 + 1) // 2 - 1.6
    return max(0, 1 + 9 + 9 + 5 - int(left))


def _stitch_by_hand(group: int, bite: int, tenths: int) -> float:
    thick = tenths / 10
    slant: float = (group**2 + (bite + 2 * thick) ** 2) ** 0.5
    return slant + 2 * group + bite + 6 * thick


def _bolt(cloths: int) -> Any:
    return cut_from_bolt([("cloth", "28 cm", "25.5 cm", cloths)], "140 cm").used.cm


def _mend(name: str) -> Any:
    return rescue(example(name), "wrong thread cut", side="top").replacement


def _mend_by_hand(name: str) -> Any:
    crosses = example(name).fabric.across
    return 40 * crosses.pitch + 2 * Length("2 in")


def _each(*numbers: Iterable[Any]) -> Iterable[tuple[Any, ...]]:
    return tuple(product(*numbers))


#: The sums by hand, by what is reckoned.
RANGES: Mapping[str, Range] = {
    "eighths of an inch": Range(
        "every eighth of an inch up to two inches",
        _each(range(1, 17)),
        lambda n: round(25.4 / 8 * n, 3),
        lambda n: float(Length(f"{n}/8 in").mm),
    ),
    "what a count keeps within": Range(
        "10 to 59 threads over one inch, for a size of 10 in",
        _each(range(10, 60)),
        lambda n: 254 * (1 / 6) ** 0.5 / n,
        lambda n: Count.measured([n], over="1 in").plus_minus_mm("10 in"),
    ),
    "when four hems are enough": Range(
        "hems of 1 to 40 threads, clear bands of 0 to 40",
        _each(range(1, 41), range(41)),
        lambda hem, clear: 3 * hem >= 2 * (clear + 2),
        lambda hem, clear: _edge(hem, clear).rule.holds,
    ),
    "where an equal mitre lands": Range(
        "equal hems of 2 to 32 threads: four layers everywhere, and nothing apart",
        _each(range(2, 33)),
        lambda hem: ({4: 1}, 0),
        lambda hem: (dict(_corner(hem).layer_shares), _corner(hem).trim_lands_mm),
    ),
    "whole cloth": Range(
        "the bread cloth with 2 to 12 threads clear and hems of 4, 6 and 8 sixteenths of an inch",
        _each(range(2, 13), (4, 6, 8)),
        lambda clear, n: 0,
        lambda clear, n: len(
            open_line(example("bread cloth").with_changes(clear=clear, hem=f"{n}/16 in")).faults
        ),
    ),
    "how far a tail reaches": Range(
        "square designs of 2 to 119 threads", _each(range(2, 120)), _tail_short, _pincushion
    ),
    "uneven groups": Range(
        "sides of 3 to 400 threads in groups of four",
        _each(range(3, 401)),
        lambda threads: min(threads % 4, -threads % 4),
        lambda threads: space_stitches(threads).off_size,
    ),
    "the thread of a stitch": Range(
        "groups of 2 to 8 mm, bites of 1 to 4 mm, cloth of 0.2 to 0.9 mm",
        _each(range(2, 9), range(1, 5), range(2, 10)),
        _stitch_by_hand,
        lambda group, bite, tenths: hem_stitch(group, bite, tenths / 10).length_mm,
    ),
    "rows on a bolt": Range(
        "one to twenty-four cloths",
        _each(range(1, 25)),
        lambda cloths: ((cloths + 4) // 5) * 25.5,
        _bolt,
    ),
    "the working and the ledger": Range(
        "the left side of every piece of the workshop",
        _each(EXAMPLES),
        lambda name: sums_of(example(name)).working("cut").value,
        lambda name: example(name).edges.left.cut,
    ),
    "the coaster's edge": Range(
        "hems of 3 to 20 threads",
        _each(range(3, 21)),
        lambda hem: 4 + 2 + hem + hem + (hem + 1) // 2,
        lambda hem: example("coaster").with_changes(hem=hem, same="threads").edges.left.total,
    ),
    "a thread woven in": Range(
        "the tops of four pieces of the workshop",
        _each(("bread cloth", "sampler", "coaster", "lavender bag")),
        _mend_by_hand,
        _mend,
    ),
}


def agreement(of: str) -> Agreement:
    """Whether a sum by hand and hemcalc's agree, over the range that a notebook names.

    Examples
    --------
    >>> agreement("when four hems are enough")
    By hand and by hemcalc it is the same, all 1,640 times: hems of 1 to 40 threads, clear bands of 0 to 40.
    """
    return RANGES[one_of(of, tuple(RANGES), "of")].held()
