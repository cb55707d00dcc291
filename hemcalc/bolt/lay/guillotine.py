"""Straight cuts from edge to edge: how pieces join into a block, and how it is cut up again.

Cloth is cut straight along a thread, right through the bit that lies on the table. Whatever can
be cut out in this way is a block of pieces joined side by side or one below the other, again and
again. Everything here is in whole steps of one exact length; a bolt's width runs across, its
length down.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace


@dataclass(frozen=True, slots=True)
class Block:
    """Pieces that can be cut out of a rectangle by straight cuts, and that rectangle's size.

    A block is one piece, or a join of blocks: side by side or one below the other.

    Examples
    --------
    >>> mat, strip = single(0, 30, 20), single(1, 10, 25)
    >>> both = beside(mat, strip)
    >>> both.across, both.down, both.way, sorted(both.kinds.items())
    (40, 25, 'beside', [(0, 1), (1, 1)])
    """

    across: int
    down: int
    #: Which size the one piece is of; -1 for a join.
    kind: int = -1
    turned: bool = False
    #: "beside" or "below" for a join, "" for a piece.
    way: str = ""
    parts: tuple[Block, ...] = field(default=(), repr=False)

    @property
    def kinds(self) -> Counter[int]:
        """How many pieces of each size are in it."""
        quantities: Counter[int] = Counter()
        open_ = [self]
        while open_:
            block = open_.pop()
            if block.kind >= 0:
                quantities[block.kind] += 1
            else:
                open_ += reversed(block.parts)
        return quantities

    def scaled(self, times: int) -> Block:
        """The block in steps so many times as short."""
        return replace(
            self,
            across=self.across * times,
            down=self.down * times,
            parts=tuple(part.scaled(times) for part in self.parts),
        )

    def of_kinds(self, kinds: Sequence[int]) -> Block:
        """The block with each size under another number: the size at that place in `kinds`."""
        if self.kind >= 0:
            return replace(self, kind=kinds[self.kind])
        return replace(self, parts=tuple(part.of_kinds(kinds) for part in self.parts))

    def no_more_than(self, limits: list[int]) -> Block | None:
        """The block with only so many pieces of each size, counted down in `limits`; None if none is left.

        Examples
        --------
        >>> row = beside(single(0, 30, 20), single(0, 30, 20), single(1, 10, 25))
        >>> row.no_more_than([1, 1])
        Block(across=40, down=25, kind=-1, turned=False, way='beside')
        """
        if self.kind >= 0:
            limits[self.kind] -= 1
            return self if limits[self.kind] >= 0 else None
        kept = [part for part in (part.no_more_than(limits) for part in self.parts) if part is not None]
        return (beside if self.way == "beside" else below)(*kept) if kept else None


def single(kind: int, across: int, down: int, turned: bool = False) -> Block:
    """One piece; `across` and `down` as it lies, so exchanged where it is turned."""
    return Block(across, down, kind, turned)


def beside(*blocks: Block) -> Block:
    """The blocks side by side, from left to right."""
    parts = tuple(_flat(blocks, "beside"))
    if len(parts) == 1:
        return parts[0]
    return Block(sum(p.across for p in parts), max(p.down for p in parts), way="beside", parts=parts)


def below(*blocks: Block) -> Block:
    """The blocks one below the other, from the top.

    Examples
    --------
    >>> below(single(0, 30, 20), single(0, 30, 20)).down
    40
    """
    parts = tuple(_flat(blocks, "below"))
    if len(parts) == 1:
        return parts[0]
    return Block(max(p.across for p in parts), sum(p.down for p in parts), way="below", parts=parts)


def _flat(blocks: Iterable[Block], way: str) -> Iterator[Block]:
    """A join of the same way is opened, so that its parts are cut off one after the other."""
    for block in blocks:
        if block.way == way:
            yield from block.parts
        else:
            yield block


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle of cloth: its left edge, its top edge, and its size."""

    x: int
    y: int
    across: int
    down: int


@dataclass(frozen=True, slots=True)
class Slit:
    """One straight cut right through a bit of cloth.

    ``"across"`` runs from its left edge to its right edge, `at` so far below its top;
    ``"along"`` from its top to its bottom, `at` so far from its left edge.
    """

    way: str
    at: int
    bit: Rect

    @property
    def place(self) -> int:
        """Where on the cloth it runs, across or down."""
        return self.at + (self.bit.y if self.way == "across" else self.bit.x)


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A block on its cloth: where each piece lies, every cut in order, and what falls off."""

    pieces: tuple[tuple[Rect, Block], ...]
    cuts: tuple[Slit, ...]
    offcuts: tuple[Rect, ...]


def lay_out(block: Block, across: int, down: int) -> LaidOut:
    """The block in the top left corner of a cloth, cut up to the last piece.

    What lies first is cut off and cut up before the rest is touched: one strip off the bolt,
    then its pieces, then the next strip.

    Examples
    --------
    >>> laid = lay_out(beside(single(0, 30, 20), single(1, 10, 25)), 50, 25)
    >>> [(cut.way, cut.at, cut.bit.across) for cut in laid.cuts]
    [('along', 40, 50), ('along', 30, 40), ('across', 20, 30)]
    >>> laid.offcuts
    (Rect(x=40, y=0, across=10, down=25), Rect(x=0, y=20, across=30, down=5))
    """
    if block.across > across or block.down > down:
        raise ValueError(f"a block of {block.across} x {block.down} on a cloth of {across} x {down}")
    table = _Table()
    table.cut_up(block, Rect(0, 0, across, down))
    return LaidOut(tuple(table.pieces), tuple(table.cuts), tuple(table.offcuts))


class _Table:
    """The cutting table: what has been cut so far."""

    def __init__(self) -> None:
        self.pieces: list[tuple[Rect, Block]] = []
        self.cuts: list[Slit] = []
        self.offcuts: list[Rect] = []

    def cut_up(self, block: Block, bit: Rect) -> None:
        """Cut this bit until each piece of the block lies by itself."""
        if block.way == "below":
            # A strip narrower than the bit is trimmed once it is cut off, and what is over at the
            # end is left for last: nobody slits a whole bolt first.
            self._cut_apart(block.parts, "across", bit)
            return
        # Both ways over: first the cut that leaves the larger bit whole.
        over = (bit.across - block.across) * bit.down, (bit.down - block.down) * bit.across
        for way in ("along", "across") if over[0] > over[1] else ("across", "along"):
            if way == "across" and bit.down > block.down:
                bit, off = self._cut(way, block.down, bit)
                self.offcuts.append(off)
            elif way == "along" and bit.across > block.across:
                bit, off = self._cut(way, block.across, bit)
                self.offcuts.append(off)
        if block.way == "beside":
            self._cut_apart(block.parts, "along", bit)
        else:
            self.pieces.append((bit, block))

    def _cut_apart(self, parts: tuple[Block, ...], way: str, bit: Rect) -> None:
        *first, last = parts
        for part in first:
            off, bit = self._cut(way, part.down if way == "across" else part.across, bit)
            self.cut_up(part, off)
        self.cut_up(last, bit)

    def _cut(self, way: str, at: int, bit: Rect) -> tuple[Rect, Rect]:
        self.cuts.append(Slit(way, at, bit))
        return parts_of(self.cuts[-1])


def in_lines(cuts: Sequence[Slit]) -> list[list[Slit]]:
    """The cuts anew, each line a list: bits that lie edge to edge are cut in one go, on one line.

    First come the cuts right across the cloth, then strip after strip. A cut comes after the one
    that makes its bit, and bits are cut on one line only if they are all on the table by then.

    Examples
    --------
    >>> row = beside(single(0, 3, 2), single(0, 3, 2))
    >>> [(len(line), line[0].way, line[0].at) for line in in_lines(lay_out(below(row, row), 6, 4).cuts)]
    [(1, 'across', 2), (2, 'along', 3)]
    """
    makes = {part: at for at, cut in enumerate(cuts) for part in parts_of(cut)}
    after: dict[int, list[int]] = {at: [] for at in range(len(cuts))}
    ready, depth, strip = set[int](), [0] * len(cuts), [0] * len(cuts)
    for at, cut in enumerate(cuts):
        maker = makes.get(cut.bit)
        if maker is None:
            ready.add(at)
            continue
        after[maker].append(at)
        depth[at] = depth[maker] + (cuts[maker].way != cut.way)
        strip[at] = strip[maker] if depth[maker] else cut.bit.y
    lines = []
    while ready:
        first = min(ready, key=lambda at: (depth[at] > 0, strip[at], depth[at], at))
        line = _on_the_line_of(first, cuts, ready)
        lines.append([cuts[at] for at in line])
        ready.difference_update(line)
        ready.update(then for at in line for then in after[at])
    return lines


def parts_of(cut: Slit) -> tuple[Rect, Rect]:
    """The two bits that a cut leaves: upper and lower, or left and right."""
    bit, at = cut.bit, cut.at
    if cut.way == "across":
        return Rect(bit.x, bit.y, bit.across, at), Rect(bit.x, bit.y + at, bit.across, bit.down - at)
    return Rect(bit.x, bit.y, at, bit.down), Rect(bit.x + at, bit.y, bit.across - at, bit.down)


def _on_the_line_of(first: int, cuts: Sequence[Slit], ready: Iterable[int]) -> list[int]:
    """Of the cuts that can be made now, those on one line with this one, bit beside bit."""
    one = cuts[first]
    run, reached = list[int](), 0
    for at in sorted(ready, key=lambda at: (cuts[at].bit.x, cuts[at].bit.y)):
        cut = cuts[at]
        if (cut.way, cut.at, cut.place) == (one.way, one.at, one.place):
            begins, long = (cut.bit.x, cut.bit.across) if cut.way == "across" else (cut.bit.y, cut.bit.down)
            if begins > reached and first in run:
                break
            run = [*run, at] if begins == reached else [at]
            reached = begins + long
    return run
