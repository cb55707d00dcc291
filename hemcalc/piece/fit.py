"""What a cloth in hand has room for: the widest hem for a design, or the largest design.

Each side keeps the larger of the margin rule and what the ledger needs. A hem that is one
thread wider never needs less cloth, so the widest one each way is found by halving; a hem of
the same width all round is then the widest length whose nearest threads fit both ways.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from hemcalc.edge.ledger import Edge
from hemcalc.measure.counts import Count
from hemcalc.measure.errors import parts_of
from hemcalc.measure.exact import half_up
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.words import so_many

#: Two opposite edges of a piece.
Pair = tuple[Edge, Edge]


@dataclass(frozen=True, slots=True)
class Fit:
    """How a piece fits a cloth in hand; made by `Piece.fits`. Threads are (across, down)."""

    #: Whole threads that the cloth has.
    cloth: tuple[int, int]
    #: Threads that the piece asks.
    asked: tuple[int, int]
    design: tuple[int, int]
    pairs: tuple[Pair, Pair]
    #: The widest hem for this design, as threads across and down; None if there is room for none.
    widest_hem_threads: tuple[int, int] | None
    #: And as a length to ask for; with the same threads all round, the width it finishes at across.
    widest_hem: Length | None
    #: Which way the hem is limited: ``"across"``, ``"down"`` or ``"both"``.
    hem_limit: str

    def __repr__(self) -> str:
        across, down = self.spare
        return f"Fit({'fits' if self.fits else 'too small'}: {across} and {down} threads to spare)"

    @property
    def spare(self) -> tuple[int, int]:
        """Threads to spare each way; negative where the cloth is too small."""
        return self.cloth[0] - self.asked[0], self.cloth[1] - self.asked[1]

    @property
    def fits(self) -> bool:
        """Whether the piece fits as it is."""
        return min(self.spare) >= 0

    @property
    def largest_design(self) -> tuple[int, int] | None:
        """The largest design for this hem; None if there is room for none."""
        across, down = (
            room - sum(edge.rule.margin for edge in pair)
            for room, pair in zip(self.cloth, self.pairs, strict=True)
        )
        return (across, down) if min(across, down) >= 1 else None

    def text(self, unit: str | None = None) -> str:
        """What fits, in three sentences."""
        short = [
            f"{so_many(-spare, 'thread')} too small {way}"
            for spare, way in zip(self.spare, ("across", "down"), strict=True)
            if spare < 0
        ]
        first = f"The cloth is {' and '.join(short)}." if short else "The piece fits."
        second = "This design leaves room for no hem."
        if self.widest_hem:
            unit = self.pairs[0][0].count.unit_or(unit)
            limit = {"both": "both ways alike"}.get(self.hem_limit, self.hem_limit)
            second = f"The widest hem for this design is {self.widest_hem.text(unit)}, limited {limit}."
        third = "This hem leaves room for no design."
        if self.largest_design:
            third = "The largest design for this hem is {} × {} threads.".format(*self.largest_design)
        return f"{first} {second} {third}"


def whole_cloth(cloth: object, counts: tuple[Count, Count]) -> tuple[int, int]:
    """Whole threads that a piece of cloth has for sure, across and down; one length is a square's.

    Examples
    --------
    >>> whole_cloth(("8 in", "10.1 in"), (Count("28/in"), Count("27/in")))
    (224, 272)
    """
    sides = cloth if isinstance(cloth, tuple | list) else (cloth, cloth)
    across, down = parts_of(sides, "cloth", 2, "two lengths, across and down", ("12 in", "12 in"))
    return (
        math.floor(counts[0].sure_threads_in(as_length(across, "cloth"))),
        math.floor(counts[1].sure_threads_in(as_length(down, "cloth"))),
    )


def widest_hem(
    pairs: tuple[Pair, Pair], rooms: tuple[int, int], *, same: str, turn_is_half: bool
) -> tuple[tuple[int, int] | None, Length | None, str]:
    """The widest hem whose margins fit into so many threads each way, and which way limits it.

    Both margins may take `rooms` threads together, across and down; a turn that is half the hem
    follows it, another stays as it is.

    Examples
    --------
    >>> from hemcalc.edge.ledger import plan_edge
    >>> edge = plan_edge("28/in", 10, clear=4)
    >>> pairs = (edge, edge), (edge, edge)
    >>> widest_hem(pairs, (112, 130), same="width", turn_is_half=True)
    ((14, 14), Length('1/2 in'), 'across')
    """
    most = [_widest_one_way(pair, room, turn_is_half) for pair, room in zip(pairs, rooms, strict=True)]
    if None in most:
        return None, None, _tighter(*(Fraction(threads or 0) for threads in most))
    across, down = (threads or 0 for threads in most)
    pitches = [pair[0].count.pitch for pair in pairs]
    if same == "threads":
        threads, width = (min(across, down),) * 2, pitches[0] * min(across, down)
        limit = _tighter(Fraction(across), Fraction(down))
    else:
        threads, width, limit = _same_width((across, down), (pitches[0], pitches[1]))
    narrowest = [_narrowest(pair, turn_is_half) for pair in pairs]
    if any(n < least for n, least in zip(threads, narrowest, strict=True)):
        return None, None, "both"
    return threads, width, limit


def _same_width(most: tuple[int, int], pitches: tuple[Length, Length]) -> tuple[tuple[int, int], Length, str]:
    """The widest length that the nearest threads both ways have room for."""
    # A hem of half a thread more than the most is rounded up to one thread too many.
    too_wide = [(n + Fraction(1, 2)) * pitch for n, pitch in zip(most, pitches, strict=True)]
    across, down = (math.ceil(min(too_wide) / pitch - Fraction(1, 2)) for pitch in pitches)
    # Ask for the width that the narrower finishes at, unless that loses the other a thread.
    asked = min(across * pitches[0], down * pitches[1])
    if (half_up(asked / pitches[0]), half_up(asked / pitches[1])) != (across, down):
        asked = max((across - Fraction(1, 2)) * pitches[0], (down - Fraction(1, 2)) * pitches[1])
    return (across, down), asked, _tighter(*(width.mm for width in too_wide))


def _widest_one_way(pair: Pair, room: int, turn_is_half: bool) -> int | None:
    """The widest hem of two opposite edges, threads; None if not even the narrowest has room."""

    def asked(hem: int) -> int:
        turns = ((hem + 1) // 2 if turn_is_half else edge.turn for edge in pair)
        return sum(
            replace(edge, hem=hem, turn=turn).rule.margin for edge, turn in zip(pair, turns, strict=True)
        )

    narrowest = _narrowest(pair, turn_is_half)
    if asked(narrowest) > room:
        return None
    fits, too_wide = narrowest, room + 1
    while too_wide - fits > 1:
        middle = (fits + too_wide) // 2
        fits, too_wide = (middle, too_wide) if asked(middle) <= room else (fits, middle)
    return fits


def _narrowest(pair: Pair, turn_is_half: bool) -> int:
    """The narrowest hem that its turn allows."""
    return 1 if turn_is_half else max(1, *(edge.turn for edge in pair))


def _tighter(across: Fraction, down: Fraction) -> str:
    if across == down:
        return "both"
    return "across" if across < down else "down"
