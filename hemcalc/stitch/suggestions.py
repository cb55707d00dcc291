"""Before the first stitch: how the sides of a piece fall into groups, and what would divide.

The four open lines of a piece are spaced one by one. Where they don't divide, other clear
bands or another design are offered, nearest first, each with the piece that it makes and
with what it costs in cloth.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from hemcalc.measure.errors import of_type
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import so_many
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.piece.sizes import Extent
from hemcalc.stitch.dividing import DividingBoth, nearest_dividing_both

_FURTHEST = 12  # threads; beyond it the piece is another one


@dataclass(frozen=True, slots=True)
class Cost:
    """Cloth that a change takes one way; fewer than 0 threads if it saves some."""

    threads: int
    #: How long so many threads are, on the cloth as it is in hand.
    length: Length

    def text(self, unit: str = "in") -> str:
        """The cost in words.

        Examples
        --------
        >>> Cost(-2, Length("1/16 in")).text("in"), Cost(0, Length(0)).text("in")
        ('2 threads (1/16 in) less', 'no more cloth')
        """
        if not self.threads:
            return "no more cloth"
        sense = "more" if self.threads > 0 else "less"
        return f"{so_many(abs(self.threads), 'thread')} ({self.length.text(unit)}) {sense}"


@dataclass(frozen=True)
class Suggestion:
    """A change with which the sides of both directions divide."""

    #: The piece as it was, and the change in threads.
    before: Piece
    way: DividingBoth

    def __repr__(self) -> str:
        return f"Suggestion({self._change()})"

    @cached_property
    def piece(self) -> Piece:
        """The piece with the change made."""
        return self.before.with_changes(design=self.way.design, clear=Sides(*self.way.clear))

    @property
    def added(self) -> tuple[int, int]:
        """Threads by which the finished piece grows, across and down."""
        return self.way.added

    @cached_property
    def cost(self) -> tuple[Cost, Cost]:
        """Cloth to cut, across and down, more or less than before.

        It may be nothing although the piece grows: where the rule of four has threads to spare,
        a wider clear band only takes some of them.
        """
        before, after = self.before.cut_size, self.piece.cut_size
        return _cost(before.across, after.across, before.washed), _cost(
            before.down, after.down, before.washed
        )

    def text(self, unit: str | None = None) -> str:
        """The change and its cost, in a sentence."""
        said = self.before.fabric.warp.unit_or(unit)
        across, down = (cost.text(said) for cost in self.cost)
        price = f"across {across}, down {down}"
        if across == down:
            price = across if not self.cost[0].threads else f"{across} each way"
        return f"{self._change()}: {price}."

    def _change(self) -> str:
        words = []
        if self.way.design != self.before.design:
            words.append(f"a design of {self.way.design[0]} × {self.way.design[1]} threads")
        clear = self.way.clear
        if clear != tuple(self.before.clear):
            if self.way.same_all_round:
                words.append(f"clear {clear[0]} all round")
            else:
                words.append("clear {} left, {} right, {} top, {} bottom".format(*clear))
        return (" and ".join(words) or "as it is").capitalize()


def suggest_clear(piece: Piece, within: int = 3, *, group: int = 4, over: int = 1) -> tuple[Suggestion, ...]:
    """The clear bands or designs with which both directions divide, nearest first.

    The bands of two opposite sides change by as much, or one of them by one thread more; or
    the design does. Nearest is what changes the two directions by the fewest threads together;
    `hemcalc.stitch.dividing.nearest_dividing_both` has the order among equals.

    First the piece as it is, if it divides already; none if nothing so near divides.

    Parameters
    ----------
    piece : Piece
        The piece as planned.
    within : int
        Threads by which each band, or the design, may change at most.
    group : int
        Threads to a group of stitches, 2 to 6.
    over : int
        Threads that a stitch of the design takes: the design changes by whole stitches.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc import Fabric
    >>> coaster = Piece(Fabric("25/in", washed=True), (75, 75), hem="3/8 in", clear=4)
    >>> nearest, *others = suggest_clear(coaster)
    >>> print(nearest.text("mm"))
    Clear 4 left, 5 right, 4 top, 5 bottom: no more cloth.
    >>> nearest.piece.finished_size.threads, nearest.cost[0].threads
    ((106, 106), 0)
    """
    of_type(piece, Piece, "piece", "example('coaster')")
    within = whole_threads(within, "within", most=_FURTHEST, example=3)
    left, right, top, bottom = piece.clear
    ways = nearest_dividing_both(piece.design, (left, right, top, bottom), group, within, over=over)
    return tuple(Suggestion(piece, way) for way in ways)


def _cost(before: Extent, after: Extent, washed: bool) -> Cost:
    lengths = sorted((extent.after if washed else extent.before) for extent in (before, after))
    return Cost(after.threads - before.threads, lengths[1] - lengths[0])
