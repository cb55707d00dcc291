"""What a cloth in hand has room for: the widest hem for a design, or the largest design.

Each side keeps the larger of the margin rule and what the ledger needs. A hem that is one
thread wider never needs less cloth, so the widest one is found by halving.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from hemcalc.edge import Edge
from hemcalc.exact import half_up
from hemcalc.lengths import Length

__all__ = ["Fit", "widest_hem"]

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
    #: The widest hem that each way alone would have room for, threads.
    widest_each_way: tuple[int | None, ...]
    same: str

    @property
    def spare(self) -> tuple[int, int]:
        """Threads to spare each way; negative where the cloth is too small."""
        return self.cloth[0] - self.asked[0], self.cloth[1] - self.asked[1]

    @property
    def fits(self) -> bool:
        """Whether the piece fits as it is."""
        return min(self.spare) >= 0

    @property
    def widest_hem(self) -> Length | None:
        """The widest finished hem for this design; None if there is room for none.

        With the same threads all round it is given as it finishes across.
        """
        across, down = self.widest_each_way
        if across is None or down is None:
            return None
        (left, _), (top, _) = self.pairs
        if self.same == "threads":
            return left.width(min(across, down))
        return min(left.width(across), top.width(down))

    @property
    def widest_hem_threads(self) -> tuple[int, int] | None:
        """The widest hem in threads, across and down; None if there is room for none."""
        across, down = self.widest_each_way
        if across is None or down is None or self.widest_hem is None:
            return None
        if self.same == "threads":
            return min(across, down), min(across, down)
        widest, ((left, _), (top, _)) = self.widest_hem, self.pairs
        return half_up(left.count.threads_in(widest)), half_up(top.count.threads_in(widest))

    @property
    def hem_limit(self) -> str:
        """Which way binds the hem: ``"across"``, ``"down"`` or ``"both"``."""
        across, down = self.widest_each_way
        if self.same == "width" and across is not None and down is not None:
            (left, _), (top, _) = self.pairs
            return _tighter(left.width(across).mm, top.width(down).mm)
        return _tighter(across or 0, down or 0)

    @property
    def largest_design(self) -> tuple[int, int] | None:
        """The largest design for this hem; None if there is room for none."""
        across, down = (
            room - sum(edge.rule.margin for edge in pair)
            for room, pair in zip(self.cloth, self.pairs, strict=True)
        )
        return (across, down) if min(across, down) >= 1 else None

    @property
    def margin_set_by(self) -> tuple[str, str]:
        """What sets the margin each way, with this hem: ``"rule"`` or ``"need"``."""
        across, down = ("rule" if all(e.rule.holds for e in pair) else "need" for pair in self.pairs)
        return across, down

    def text(self, unit: str = "in") -> str:
        """What fits, in a sentence or two."""
        short = [
            f"{-s} threads too small {way}"
            for s, way in zip(self.spare, ("across", "down"), strict=True)
            if s < 0
        ]
        first = f"The cloth is {' and '.join(short)}." if short else "The piece fits."
        if self.widest_hem is None:
            second = "This design leaves room for no hem."
        else:
            limit = {"both": "both ways alike", "across": "across", "down": "down"}[self.hem_limit]
            second = f"The widest hem for this design is {self.widest_hem.text(unit)}, limited {limit}."
        third = "This hem leaves room for no design."
        if self.largest_design is not None:
            third = "The largest design for this hem is {} × {} threads.".format(*self.largest_design)
        return f"{first} {second} {third}"


def widest_hem(pair: Pair, room: int, *, turn_is_half: bool) -> int | None:
    """The widest hem for which two opposite edges leave margins within so many threads.

    Parameters
    ----------
    pair : tuple of Edge
        Two opposite edges, for their clear bands, drawn threads, turn and handling.
    room : int
        Threads that both margins may take together.
    turn_is_half : bool
        Whether the turn follows the hem, or stays as it is.

    Returns
    -------
    int or None
        Threads; None if not even the narrowest hem has room.

    Examples
    --------
    >>> from hemcalc.edge import plan_edge
    >>> edge = plan_edge("28/in", 10, clear=4)
    >>> widest_hem((edge, edge), 112, turn_is_half=True)
    14
    """

    def asked(hem: int) -> int:
        return sum(
            replace(edge, hem=hem, turn=(hem + 1) // 2 if turn_is_half else edge.turn).rule.margin
            for edge in pair
        )

    narrowest = 1 if turn_is_half else max(1, *(edge.turn for edge in pair))
    if asked(narrowest) > room:
        return None
    fits, too_wide = narrowest, max(narrowest, room) + 1
    while too_wide - fits > 1:
        middle = (fits + too_wide) // 2
        fits, too_wide = (middle, too_wide) if asked(middle) <= room else (fits, middle)
    return fits


def _tighter(across: object, down: object) -> str:
    if across == down:
        return "both"
    return "across" if across < down else "down"  # type: ignore[operator]
