"""A long cloth laid out in stretches side by side, so that it can be drawn large enough to be read.

It is parted only where a cut runs right across it, so that no piece and no other cut is parted.
Places on the cloth are in mm from its top left corner, down along the warp; places on the drawing
in points from its bottom left corner.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from hemcalc.bolt.cutting import Bit, Cut, CutUp
from hemcalc.measure.lengths import Length

#: Into how many a cloth is parted at the most.
MAX_STRETCHES = 8
_WORTH = 1.1  # how much larger it must be drawn to be parted once more


@dataclass(frozen=True, slots=True)
class Stretches:
    """Where the cloth is parted, and where each stretch of it lies on the drawing."""

    #: Where they begin on the cloth and, last, where it ends, mm.
    ends: tuple[float, ...]
    #: Points to the mm.
    scale: float
    #: Left edge of each, and the top of them all, points.
    lefts: tuple[float, ...]
    top: float
    #: Width of each, points.
    width: float

    @property
    def boxes(self) -> tuple[tuple[float, float, float, float], ...]:
        """Of each stretch: left, bottom, width, height."""
        return tuple(
            (left, self.top - self.scale * (end - start), self.width, self.scale * (end - start))
            for left, (start, end) in zip(self.lefts, pairwise(self.ends), strict=True)
        )

    @property
    def bottom(self) -> float:
        """Lower end of the longest."""
        return min(bottom for _, bottom, _, _ in self.boxes)

    def down(self, mm: float) -> float | None:
        """Level on the drawing of a place in the last stretch; None if it lies in one before."""
        start = self.ends[-2]
        return None if mm < start else self.top - self.scale * (mm - start)

    def box(self, bit: Bit) -> tuple[float, float, float, float]:
        """A bit of the cloth: left, bottom, width, height."""
        x, y = float(bit.x.mm), float(bit.y.mm)
        at = min(bisect_right(self.ends, y) - 1, len(self.lefts) - 1)
        width, height = self.scale * float(bit.across.mm), self.scale * float(bit.down.mm)
        return (
            self.lefts[at] + self.scale * x,
            self.top - self.scale * (y - self.ends[at]) - height,
            width,
            height,
        )

    def line(self, cut: Cut) -> tuple[tuple[float, float], tuple[float, float]]:
        """A cut, from its start to its end; one where the cloth is parted lies above the parting."""
        (x, y), (last_x, last_y) = ((float(a.mm), float(b.mm)) for a, b in (cut.start, cut.end))
        at = bisect_left(self.ends, y) - 1 if cut.way == "across" else bisect_right(self.ends, y) - 1
        left, start = self.lefts[at], self.ends[at]
        return (
            (left + self.scale * x, self.top - self.scale * (y - start)),
            (left + self.scale * last_x, self.top - self.scale * (last_y - start)),
        )


def right_across(cut: Cut, cut_up: CutUp) -> bool:
    """Whether a cut runs from one edge of the whole cloth to the other."""
    return cut.way == "across" and cut.bit.across == cut_up.width


def breaks_of(cut_up: CutUp) -> list[Length]:
    """Where cuts run right across, down from the top of the cloth."""
    return sorted(cut.start[1] for cut in cut_up.cuts if right_across(cut, cut_up))


def lay_stretches(
    cut_up: CutUp,
    left: float,
    right: float,
    top: float,
    room: float,
    *,
    gap: float,
    least: float = 0.0,
    ends: tuple[Length, Length] | None = None,
    largest: float = math.inf,
) -> Stretches:
    """In as many stretches as let it be drawn largest; in fewer, if that costs little.

    They lie between `left` and `right`, down from `top` in so much room, all in points. So much of a gap is
    kept free left of each but the first, and several are no narrower than `least`; a mm is no larger than
    `largest` points.
    """
    first, last = (float(end.mm) for end in ends or (Length(0), cut_up.length))
    width, breaks = float(cut_up.width.mm), [float(at.mm) for at in breaks_of(cut_up)]
    best: tuple[float, tuple[float, ...]] = (0.0, ())
    for number in range(1, min(MAX_STRETCHES, len(breaks) + 1) + 1):
        beside = (right - left - (number - 1) * gap) / number
        if beside <= 0:
            break
        places = _parted((first, *breaks, last), number)
        scale = min(beside / width, room / max(after - before for before, after in pairwise(places)), largest)
        if number == 1 or (scale > _WORTH * best[0] and scale * width >= least):
            best = scale, places
    scale, places = best
    step = scale * width + gap
    return Stretches(
        places, scale, tuple(left + i * step for i in range(len(places) - 1)), top, scale * width
    )


def _parted(places: Sequence[float], number: int) -> tuple[float, ...]:
    """Ends of at most so many stretches, the longest as short as can be."""
    short = max(after - before for before, after in pairwise(places))
    long = places[-1]
    # Halve what lies between too short and long enough until nobody could see the difference.
    while long - short > 1e-6 * places[-1]:
        middle = (short + long) / 2
        if len(_filled(places, middle)) - 1 <= number:
            long = middle
        else:
            short = middle
    return _filled(places, long)


def _filled(places: Sequence[float], most: float) -> tuple[float, ...]:
    """Stretches as long as they may be, one after the other; none longer than `most`, if it can be."""
    ends = [places[0]]
    for before, after in pairwise(places):
        if after - ends[-1] > most * (1 + 1e-9) and not math.isclose(before, ends[-1]):
            ends.append(before)
    return (*ends, places[-1])
