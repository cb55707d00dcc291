"""What one sheet shows of a cloth that is cut up: all of it, or what lies between two cuts right across."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise

from hemcalc.bolt.cutting import CutUp
from hemcalc.draw.bolt.stretches import breaks_of, right_across
from hemcalc.measure.lengths import Length


@dataclass(frozen=True)
class Part:
    """So much of a cloth's length, with the pieces, cuts and offcuts that lie in it."""

    cloth: CutUp
    start: Length
    end: Length
    number: int = 1
    of: int = 1

    def text(self, unit: str = "in") -> str:
        """Which sheet it is, and how far down the cloth it goes; nothing if it is all of it."""
        if self.of == 1:
            return ""
        return f"sheet {self.number} of {self.of}, from {self.start.text(unit)} to {self.end.text(unit)}"


def whole(cut_up: CutUp) -> Part:
    """All of a cloth."""
    return Part(cut_up, Length(0), cut_up.length)


def part_of(cut_up: CutUp, start: Length, end: Length, number: int = 1, of: int = 2) -> Part:
    """What lies between two cuts right across; one at which the cloth is parted belongs to what is above."""
    return Part(
        replace(
            cut_up,
            pieces=tuple(piece for piece in cut_up.pieces if start <= piece.bit.y < end),
            offcuts=tuple(bit for bit in cut_up.offcuts if start <= bit.y < end),
            cuts=tuple(
                cut
                for cut in cut_up.cuts
                if (start < cut.start[1] <= end if right_across(cut, cut_up) else start <= cut.bit.y < end)
            ),
        ),
        start,
        end,
        number,
        of,
    )


def parts_of(cut_up: CutUp, has_room: Callable[[Part], bool]) -> tuple[Part, ...]:
    """A cloth in parts, each as long as it may be and still have room; what can't be parted stays whole.

    Examples
    --------
    >>> from hemcalc.bolt.buying import cut_from_bolt
    >>> cloth = cut_from_bolt([("mat", "80 cm", "50 cm", 5)], "150 cm")
    >>> [part.text("cm") for part in parts_of(cloth, lambda part: len(part.cloth.pieces) < 4)]
    ['sheet 1 of 2, from 0 cm to 150 cm', 'sheet 2 of 2, from 150 cm to 250 cm']
    """
    if has_room(whole(cut_up)):
        return (whole(cut_up),)
    ends = sorted({Length(0), *breaks_of(cut_up), cut_up.length})
    at, last = [0], len(ends) - 1
    while at[-1] < last:
        end = at[-1] + 1
        while end < last and has_room(part_of(cut_up, ends[at[-1]], ends[end + 1])):
            end += 1
        at.append(end)
    of = len(at) - 1
    return tuple(
        part_of(cut_up, ends[start], ends[end], number, of)
        for number, (start, end) in enumerate(pairwise(at), 1)
    )
