"""What computes ours for the published figures on cutting: each takes a row's inputs and picks one figure.

A size is a list of its name or number, across, down, and what else `have_from_remnant` and
`cut_from_bolt` take; the sheets of the published instances are in no unit, so theirs are
millimetres here.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.remnant import Yield, have_from_remnant
from hemcalc.measure.lengths import Length

#: Across, down, then how many at most and what one is worth, where they count.
Table = Sequence[Sequence[Any]]


def _pieces(table: Table) -> list[tuple[Any, ...]]:
    """The sizes of a published sheet, which are numbers without a unit, each with a name."""
    named = []
    for number, (across, down, *rest) in enumerate(table, 1):
        sides = (side if isinstance(side, str) else f"{side} mm" for side in (across, down))
        named.append((f"size {number}", *sides, *rest))
    return named


def _yield(cloth: Sequence[Any], sizes: Table, grain: str = "fixed") -> Yield:
    width, length = (side if isinstance(side, str) else f"{side} mm" for side in cloth)
    return have_from_remnant(width, length, _pieces(sizes), grain=grain)


def _worth(**remnant: Any) -> Fraction:
    """The worth of what is had, which must be proven to be the most."""
    had = _yield(**remnant)
    assert had.proven
    return had.worth


def _many(**remnant: Any) -> int:
    return len(_yield(**remnant).pieces)


def _used(width: Any, pieces: Table, grain: str = "fixed") -> Length:
    return cut_from_bolt(_pieces(pieces), f"{width} mm", grain=grain, unit="1 mm").used


#: The sums by the name that a row gives.
CUTTING_SUMS: dict[str, Callable[..., Any]] = {
    "Yield.worth": _worth,
    "Yield.counts": _many,
    "Layout.used": _used,
}
