"""Where the open lines lie on the cloth, and at what thread their ends stop.

A side's drawn threads run along it and end at its two corners, where those of the next side
cross them: eight ends in all. Threads are numbered outward from the design, as in the ledger;
an `End` turns those numbers into rows and columns.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from hemcalc.edge.ledger import Edge
from hemcalc.measure.errors import of_type
from hemcalc.piece.piece import Piece
from hemcalc.weave.crossings import COLUMN, ROW, Cloth

#: The four corners, by their sides.
CORNERS = ("top left", "top right", "bottom left", "bottom right")

#: Where a tail makes its U-turn: in the empty line c + 1 that crosses it, so that one cell is
#: left open; outside all the drawn lines, so that none of their crossings is left; or at the
#: inner edge of line c + 1, so that all are.
TURN_AT = ("line", "outside", "inside")


@dataclass(frozen=True, slots=True)
class Side:
    """One side of the cloth.

    Examples
    --------
    >>> from hemcalc.edge.ledger import plan_edge
    >>> edge = plan_edge("28/in", 16, clear=8)
    >>> Side("top", ROW, 24, edge).line(9), Side("bottom", ROW, 24, edge).line(9)
    (-8, 33)
    """

    name: str
    #: Which way its threads run: "row" for top and bottom, "column" for left and right.
    direction: str
    #: Threads of the design that lie the same way.
    design: int
    edge: Edge

    @property
    def far(self) -> bool:
        """Whether its ledger counts the way that rows or columns do."""
        return self.name in ("bottom", "right")

    @property
    def drawn(self) -> range:
        """The threads drawn, outward."""
        return range(self.edge.first_drawn, self.edge.open_line + 1)

    @property
    def darned_thread(self) -> int:
        """Thread c + 2: the one whose tails are darned into the line of c + 1."""
        return self.edge.clear + 2

    def called(self, thread: int) -> str:
        """A thread in words, such as "thread 10 of the top side"."""
        return f"thread {thread} of the {self.name} side"

    def line(self, thread: int) -> int:
        """The row or column of its ledger's thread; 0 and less lie within the design."""
        return self.design + thread if self.far else 1 - thread


@dataclass(frozen=True, slots=True)
class End:
    """One end of a side's drawn threads: where the next side's cross them."""

    side: Side
    #: The side that crosses it here, and into whose hem it runs.
    other: Side
    #: Threads between the corners that fall to this end when the thread is cut at the middle.
    half: int

    @property
    def corner(self) -> str:
        """The corner's name, such as "top left"."""
        row, column = (self.side, self.other) if self.side.direction == ROW else (self.other, self.side)
        return f"{row.name} {column.name}"

    def tail_name(self, thread: int) -> str:
        """What the tail of a thread is called at this end, such as "top 10 left"."""
        return f"{self.side.name} {thread} {self.other.name}"

    @property
    def darns(self) -> bool:
        """Whether a tail is darned here: with one thread drawn there is no line to take it."""
        return self.side.edge.drawn >= 2

    def place(self, thread: int, crossed: int) -> tuple[int, int]:
        """Row and column at which a thread of this side crosses one of the other's."""
        here, there = self.side.line(thread), self.other.line(crossed)
        return (here, there) if self.side.direction == ROW else (there, here)

    def span(self, first: int, last: int) -> tuple[int, int]:
        """Places from the other side's thread `first` outward to `last`, smaller number first."""
        a, b = self.other.line(first), self.other.line(last)
        return (a, b) if self.other.far else (b, a)

    @property
    def middle(self) -> int:
        """The innermost thread of the other side's numbering that falls to this end."""
        return self.other.edge.clear - self.half + 1

    def beyond_turn(self, turn_at: str) -> int:
        """The other side's first thread beyond the U-turn: the one darned first."""
        edge = self.other.edge
        return {"line": edge.clear + 2, "outside": edge.open_line + 1, "inside": edge.clear + 1}[turn_at]

    def kept_from(self, thread: int, turn_at: str) -> int:
        """The other side's first thread in which a cut thread of this side stays as woven.

        Threads c + 3 and up turn no corner. Where a tail of the other side comes out along its
        own line c + 1, it needs them to lie across that line: the weave that it makes counts on
        them. So they come out one thread further in than the tail does.
        """
        first = self.other.edge.clear
        if turn_at == "outside":
            return self.beyond_turn(turn_at)
        if thread == self.side.darned_thread:
            # Turned at the inner edge, the tail also lies across line c + 1, but not as woven.
            return first + 2
        return first + 1 if thread > self.side.darned_thread or turn_at == "inside" else first + 2


def sides_of(piece: Piece) -> tuple[Side, Side, Side, Side]:
    """The four sides of a piece: top, bottom, left, right.

    Threads are drawn and darned before the first wash of cloth that isn't washed yet, so the
    edges are those of the cloth in hand.
    """
    across, down = of_type(piece, Piece, "piece", "example('coaster')").design
    edges = piece.edges_in_hand
    return (
        Side("top", ROW, down, edges.top),
        Side("bottom", ROW, down, edges.bottom),
        Side("left", COLUMN, across, edges.left),
        Side("right", COLUMN, across, edges.right),
    )


def ends_of(piece: Piece) -> tuple[End, ...]:
    """The eight ends of the open lines, side by side.

    Between the corners lie the design and both clear bands; an odd number of threads gives the
    upper or left end one more.
    """
    top, bottom, left, right = sides_of(piece)
    ends = []
    for side in (top, bottom, left, right):
        first, last = (left, right) if side.direction == ROW else (top, bottom)
        between = first.design + first.edge.clear + last.edge.clear
        ends += [End(side, first, between - between // 2), End(side, last, between // 2)]
    return tuple(ends)


def woven_cloth(piece: Piece) -> Cloth:
    """The cloth of a piece as it came from the loom, from cut line to cut line."""
    top, bottom, left, right = sides_of(piece)
    rows = top.line(top.edge.cut), bottom.line(bottom.edge.cut)
    return Cloth(rows, (left.line(left.edge.cut), right.line(right.edge.cut)))


def withdraw(cloth: Cloth, end: End, thread: int, kept: int | None) -> Cloth:
    """The cloth with a thread withdrawn at one end: from its middle to thread `kept` of the other side.

    With `kept` None it is withdrawn out to the raw edge.
    """
    outermost = end.other.edge.cut if kept is None else kept - 1
    places = end.span(end.middle, outermost)
    return cloth.withdraw(end.side.direction, end.side.line(thread), *places)


def thread_out(cloth: Cloth, end: End, thread: int, turn_at: str) -> Cloth:
    """The cloth when a drawn thread is out as far as it comes at this end."""
    whole = end.darns and thread == end.side.edge.first_drawn
    return withdraw(cloth, end, thread, None if whole else end.kept_from(thread, turn_at))


def drawn_out(cloth: Cloth, ends: Iterable[End], turn_at: str) -> Cloth:
    """The cloth when all drawn threads of these ends are out and nothing is darned yet."""
    for end in ends:
        for thread in end.side.drawn:
            cloth = thread_out(cloth, end, thread, turn_at)
    return cloth
