"""The open line: threads drawn between the corners, and darned back beyond them.

Thread c + 1 of each side is withdrawn to the raw edge. Thread c + 2 is cut at its middle and
withdrawn toward each corner as far as the line that crosses it; there its tail turns back and
is darned outward into the empty line of c + 1, so that the hem is whole cloth again.
"""

from __future__ import annotations

from collections.abc import Collection, Set
from dataclasses import dataclass
from functools import cached_property

from hemcalc.measure.errors import HemError, of_type, one_of, several, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.piece.piece import Piece
from hemcalc.weave.crossings import Cloth, Crossing, Fault
from hemcalc.weave.darning import Tail, darned, lay_planned, tails_at
from hemcalc.weave.open_lines import CORNERS, TURN_AT, End, Side, drawn_out, ends_of, woven_cloth
from hemcalc.weave.reach import Allowances

#: How a weave is had, to end a sentence that refuses something else.
WEAVE_EXAMPLE = "open_line(example('coaster'))"


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """A thread withdrawn: out to the raw edge at both ends, or only between the corners."""

    side: str
    thread: int
    to_raw_edge: bool


@dataclass(frozen=True)
class Weave:
    """The cloth with its open line drawn and its tails darned back; `open_line` makes it."""

    turn_at: str
    allowances: Allowances
    ends: tuple[End, ...]
    #: The cloth as it came from the loom, and as it is when all is done.
    woven: Cloth
    cloth: Cloth
    tails: tuple[Tail, ...]

    def __repr__(self) -> str:
        darned = [tail for tail in self.tails if tail.reach is not None]
        return (
            f"Weave({len(self.withdrawn)} threads withdrawn, tails turned at {self.turn_at!r}: {len(darned)} "
            f"darned back, {len(self.short)} too short, {len(self.faults)} faults)"
        )

    @property
    def withdrawn(self) -> tuple[Withdrawn, ...]:
        """The threads withdrawn, side by side and outward."""
        first_ends = [end for end in self.ends if not end.other.far]
        return tuple(
            Withdrawn(end.side.name, thread, end.darns and thread == end.side.edge.first_drawn)
            for end in first_ends
            for thread in end.side.drawn
        )

    def line(self, side: str, thread: int) -> int:
        """The row or column of a side's ledger thread; 1 is the first of the design."""
        sides: dict[str, Side] = {end.side.name: end.side for end in self.ends}
        return sides[one_of(side, tuple(sides), "side")].line(whole_threads(thread, "thread", example=9))

    def crossing(self, row: int, column: int) -> Crossing:
        """What lies at a place of the finished cloth."""
        return self.cloth.crossing(row, column)

    def ends_at(self, corner: str) -> tuple[End, End]:
        """The two ends that meet at a corner: the row's, then the column's."""
        one_of(corner, CORNERS, "corner")
        row_end, column_end = (end for end in self.ends if end.corner == corner)
        return row_end, column_end

    def tails_at(self, corner: str) -> tuple[Tail, ...]:
        """The tails at a corner: the row's, then the column's."""
        one_of(corner, CORNERS, "corner")
        return tuple(tail for tail in self.tails if tail.corner == corner)

    def open_square(self, corner: str) -> tuple[tuple[int, int], ...]:
        """The places (row, column) of a corner where neither thread lies.

        Examples
        --------
        >>> from hemcalc import Fabric, Piece
        >>> piece = Piece(Fabric("22/in"), (26, 26), hem=9, same="threads", clear=5)
        >>> weave = open_line(piece)
        >>> weave.open_square("top left"), weave.line("top", 6), weave.line("left", 6)
        (((-5, -5),), -5, -5)
        """
        row_end, column_end = self.ends_at(corner)
        places = (row_end.place(n, m) for n in row_end.side.drawn for m in column_end.side.drawn)
        return tuple(sorted(place for place in places if self.crossing(*place).open))

    def window(self, corner: str, inside: int = 3, hem: int | None = None) -> tuple[range, range]:
        """Rows and columns about a corner: some of the clear band, the drawn lines, and the hems.

        So many threads on the design's side of the drawn ones, and of the hem beyond them; out to the
        cut line if none are said.
        """
        row_end, column_end = self.ends_at(corner)
        inside = whole_threads(inside, "inside", example=3)
        beyond = None if hem is None else whole_threads(hem, "hem", example=16)
        return (
            _window(row_end.side, self.cloth.rows, inside, beyond),
            _window(column_end.side, self.cloth.columns, inside, beyond),
        )

    @property
    def short(self) -> tuple[Tail, ...]:
        """The darned tails that stop before the cut line."""
        return tuple(tail for tail in self.tails if tail.reach is not None and tail.reach.short)

    @cached_property
    def faults(self) -> tuple[Fault, ...]:
        """Where the finished cloth is not plain weave, gaps apart."""
        return self.cloth.faults

    @property
    def notes(self) -> tuple[str, ...]:
        """What was assumed, in sentences."""
        notes = [_TURN_NOTES[self.turn_at]]
        for drawn in sorted({end.side.edge.drawn for end in self.ends}):
            sides = dict.fromkeys(end.side.name for end in self.ends if end.side.edge.drawn == drawn)
            if drawn == 1:
                notes.append(_ONE_DRAWN.format(sides=" and ".join(sides)))
            if drawn > 2:
                notes.append(_MORE_DRAWN.format(drawn=drawn, sides=" and ".join(sides)))
        if any(end.darns for end in self.ends):
            notes.append(_COUNTED_AS_LAID)
        return tuple(notes)


def _window(side: Side, on: tuple[int, int], inside: int, hem: int | None) -> range:
    edge = side.edge
    last = edge.cut if hem is None else edge.open_line + hem
    first, last = sorted((side.line(edge.first_drawn - inside), side.line(last)))
    return range(max(first, on[0]), min(last, on[1]) + 1)


_TURN_NOTES = {
    "line": "Each tail turns in the line c + 1 that crosses it; the hold of the two U-turns counts as "
    "the crossing with the other side's c + 2, and one cell stays open.",
    "outside": "Each tail turns outside the other side's drawn lines, and none of their crossings is left.",
    "inside": "Each tail turns at the inner edge of the line c + 1 that crosses it, and no cell stays open.",
}
_ONE_DRAWN = (
    "One thread is drawn at {sides}, so no empty line is left to darn into: it is cut at the middle, "
    "withdrawn only to the line that crosses it, and its ends are run in behind the hem; drawn right "
    "out it would leave a gap of one thread through the hem."
)
_MORE_DRAWN = (
    "{drawn} threads are drawn at {sides}, and the one empty line of c + 1 takes the tail of c + 2 only: "
    "the tails of the others come out across the other side's line c + 1, where its tail passes them "
    "as woven, and are run in behind the hem."
)
_COUNTED_AS_LAID = (
    "Threads are counted from cut line to cut line, and a tail passes the threads of the other side as "
    "if all tails were long enough: a short one leaves a gap, but changes no other's over and under."
)


def open_line(
    piece: Piece,
    *,
    turn_at: str = "line",
    allowances: Allowances | None = None,
    wrong_start: Collection[str] = (),
) -> Weave:
    """The open line of a piece: what is withdrawn, where each tail goes, and the cloth it leaves.

    Refused if a tail in `wrong_start` is not darned, or one would cross more than 100 000 threads.

    Parameters
    ----------
    piece : Piece
        The piece.
    turn_at : str
        Where the tails turn: "line" (in line c + 1; the open square is one cell), "outside"
        (outside the drawn lines; none of their crossings is left) or "inside" (at the inner
        edge of c + 1; all are left).
    allowances : Allowances, optional
        What a tail loses to its U-turn, the needle's eye and another crimp; the piece's own eye is
        reckoned with if it is left out.
    wrong_start : collection of str
        Names of tails to begin on the wrong side, to see what that does to the cloth; for
        example ``["top 7 left"]``.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc import Fabric, Piece
    >>> piece = Piece(Fabric("22/in"), (26, 26), hem=9, same="threads", clear=5)
    >>> weave = open_line(piece)
    >>> len(weave.tails), weave.faults
    (8, ())
    >>> tail = weave.tails[0]
    >>> tail.name, tail.length, tail.begins, tail.reach.covers, tail.reach.short
    ('top 7 left', 18, 'under', 24, 17)
    >>> open_line(piece, wrong_start=["top 7 left"]).faults[0]
    Fault(row=..., column=..., direction='...')
    """
    one_of(turn_at, TURN_AT, "turn_at")
    ends, woven = ends_of(piece), woven_cloth(piece)
    if allowances is None:
        allowances = Allowances(eye=piece.eye)
    of_type(allowances, Allowances, "allowances", "Allowances(crimp='8 %')")
    wrong = _wrong_names(wrong_start, ends)
    drawn = drawn_out(woven, ends, turn_at)
    planned = drawn
    for end in ends:
        planned = lay_planned(planned, end, turn_at)
    tails = tuple(tail for end in ends for tail in tails_at(end, turn_at, allowances, woven, planned, wrong))
    cloth = drawn
    for tail in tails:
        cloth = darned(cloth, tail)
    return Weave(turn_at, allowances, ends, woven, cloth, tails)


def _wrong_names(names: object, ends: Collection[End]) -> frozenset[str]:
    known = [end.tail_name(end.side.darned_thread) for end in ends if end.darns]
    example = known[0] if known else "none, for no tail is darned here"
    given = tuple(names) if isinstance(names, Set) else names  # in no order, but none is needed
    wrong = several(given, "wrong_start", "tails", f"[{example!r}]")
    for name in wrong:
        if not isinstance(name, str) or name not in known:
            raise HemError(
                f"wrong_start names {shown(name)}, but must name a tail that is darned; for example "
                f"{example!r}.",
                "wrong_start",
            )
    return frozenset(wrong)
