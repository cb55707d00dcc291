"""A cloth cut up: where each piece lies, every cut in order, and what falls off.

Lengths are exact. Places are measured from the top left corner of the cloth, across to the right
and down along the warp; each cut goes right through the bit of cloth that is then in hand, and is
measured from that bit's own edge. Bits that lie edge to edge are cut in one go, where the line is one.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import groupby
from types import MappingProxyType
from typing import TYPE_CHECKING

from hemcalc.bolt.cut_sizes import CutSize
from hemcalc.bolt.lay.guillotine import LaidOut, Rect, in_lines
from hemcalc.measure.errors import one_of
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length, in_unit
from hemcalc.measure.units import UNITS
from hemcalc.measure.words import numbers_listed

if TYPE_CHECKING:
    from pandas import DataFrame

_LINE = 60  # characters of what is had, in a line


@dataclass(frozen=True, slots=True)
class Bit:
    """A rectangle of cloth: its left edge, its top edge, and its size."""

    x: Length
    y: Length
    across: Length
    down: Length

    def __iter__(self) -> Iterator[Length]:
        return iter((self.x, self.y, self.across, self.down))

    @property
    def area_mm2(self) -> Fraction:
        """Area, square millimetres."""
        return self.across.mm * self.down.mm

    def text(self, unit: str = "in") -> str:
        """Its size in words.

        Examples
        --------
        >>> Bit(Length(0), Length(0), Length(300), Length(200)).text("cm")
        '30 cm × 20 cm'
        """
        return f"{self.across.text(unit)} × {self.down.text(unit)}"


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece on the cloth: which one it is, and where it lies."""

    name: str
    #: 1 for the first of its size to be cut off, and so on.
    number: int
    bit: Bit
    #: Whether it lies with its across along the warp.
    turned: bool

    @property
    def label(self) -> str:
        """Its name and number."""
        return f"{self.name} {self.number}"


@dataclass(frozen=True, slots=True)
class Cut:
    """One straight cut along a thread, right through the bit in hand.

    ``"across"`` runs along the weft, from the bit's left edge to its right edge; ``"along"``
    runs along the warp, from its top to its bottom.
    """

    #: Cuts on one line, made in one go, have one number.
    number: int
    way: str
    #: From the bit's top edge to a cut across, from its left edge to one along.
    at: Length
    bit: Bit
    #: What the cut itself costs, beyond its line: a drawn thread, or what frays.
    loss: Length

    @property
    def start(self) -> tuple[Length, Length]:
        """Where it begins on the cloth, across and down."""
        bit = self.bit
        return (bit.x, bit.y + self.at) if self.way == "across" else (bit.x + self.at, bit.y)

    @property
    def end(self) -> tuple[Length, Length]:
        """Where it ends on the cloth, across and down."""
        x, y = self.start
        return (x + self.bit.across, y) if self.way == "across" else (x, y + self.bit.down)

    @property
    def parts(self) -> tuple[Bit, Bit]:
        """The two bits that it leaves: upper and lower, or left and right; the second may be nothing."""
        bit, at = self.bit, self.at
        whole = bit.down if self.way == "across" else bit.across
        begins = min(at + self.loss, whole)
        if self.way == "across":
            return (
                Bit(bit.x, bit.y, bit.across, at),
                Bit(bit.x, bit.y + begins, bit.across, whole - begins),
            )
        return Bit(bit.x, bit.y, at, bit.down), Bit(bit.x + begins, bit.y, whole - begins, bit.down)


@dataclass(frozen=True)
class CutUp:
    """A cloth and how it is cut up."""

    #: The cloth, across.
    width: Length
    #: The cloth, down.
    length: Length
    sizes: tuple[CutSize, ...]
    pieces: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Bit, ...]

    @property
    def counts(self) -> Mapping[str, int]:
        """How many pieces of each size come out of it, by name."""
        had = Counter(piece.name for piece in self.pieces)
        return MappingProxyType({size.name: had[size.name] for size in self.sizes})

    @property
    def waste(self) -> Fraction:
        """Share of the cloth that becomes no piece; what is left at its end is counted in."""
        used = sum(piece.bit.area_mm2 for piece in self.pieces)
        return 1 - used / (self.width.mm * self.length.mm)

    @property
    def lines(self) -> tuple[tuple[Cut, ...], ...]:
        """The cuts in order, those on one line together."""
        return tuple(tuple(line) for _, line in groupby(self.cuts, key=lambda cut: cut.number))

    def _had(self) -> str:
        had = ", ".join(f"{quantity} of {name}" for name, quantity in self.counts.items() if quantity)
        return had if len(had) <= _LINE else f"{len(self.pieces)} pieces of {len(self.sizes)} sizes"

    def table(self, unit: str = "in") -> DataFrame:
        """A row for each piece: how it lies, and where its upper left corner is on the cloth."""
        from pandas import DataFrame

        rows = [
            (piece.name, piece.number, piece.turned, *(float(side.number(unit)) for side in piece.bit))
            for piece in self.pieces
        ]
        columns = [in_unit(name, unit) for name in ("from left", "from top", "across", "down")]
        return DataFrame(rows, columns=["piece", "number", "turned", *columns])

    def _repr_html_(self) -> str:
        rows = [
            (str(cut.number), cut.way, cut.at.text("in"), cut.at.text("cm"), str(1 + len(others)))
            for cut, *others in self.lines
        ]
        return table_html(["cut", "way", "at, in", "at, cm", "bits"], rows, repr(self))

    def steps(self, unit: str = "in") -> tuple[str, ...]:
        """Every line of cuts in order, in words."""
        one_of(unit, UNITS, "unit")
        names = {Bit(Length(0), Length(0), self.width, self.length): "the whole cloth"}
        made_by, told = dict[Bit, int](), []
        for line in self.lines:
            cut, s = line[0], "s" if len(line) > 1 else ""
            if cut.way == "across":
                where, edge, sides = "across", "below the top edge", ("upper", "lower")
            else:
                where, edge, sides = "along the warp", "from the left edge", ("left", "right")
            bits = f"{names[cut.bit]}, {cut.bit.text(unit)}"
            if s:
                made = sorted({made_by[each.bit] for each in line})
                bits = f"the {len(line)} bits from {_numbers('cut', made)}, laid edge to edge"
            parts = tuple(zip(*(each.parts for each in line), strict=True))
            for side, ours in zip(sides, parts, strict=True):
                names |= dict.fromkeys(ours, f"the {side} part{s} of cut {cut.number}")
                made_by |= dict.fromkeys(ours, cut.number)
            one, other = (", ".join(self._become(part for part in ours if part.area_mm2)) for ours in parts)
            told.append(
                f"Cut {cut.number}: {where}, {cut.at.text(unit)} {edge} of {bits}. "
                f"{sides[0].capitalize()} part{s}: {one}; {sides[1]} part{s}: {other or 'nothing'}."
            )
        return tuple(told)

    def _become(self, bits: Iterable[Bit]) -> Iterator[str]:
        """What becomes of some bits: pieces of a size together, and the cuts that go on with them."""
        numbers: dict[str, list[int]] = {}
        for bit in bits:
            what, number = self._becomes[bit]
            numbers.setdefault(what, []).append(number)
        for what, some in numbers.items():
            yield f"for {_numbers(what, sorted({*some}))}" if what == "cut" else _several(what, some)

    @cached_property
    def _becomes(self) -> dict[Bit, tuple[str, int]]:
        return (
            dict.fromkeys(self.offcuts, ("left over", 0))
            | {cut.bit: ("cut", cut.number) for cut in self.cuts}
            | {piece.bit: (piece.name, piece.number) for piece in self.pieces}
        )


def _several(what: str, numbers: Sequence[int]) -> str:
    return what if not any(numbers) else f"{what} {numbers_listed(numbers)}"


def _numbers(what: str, numbers: Sequence[int]) -> str:
    return f"{what}{'s' if len(numbers) > 1 else ''} {numbers_listed(numbers)}"


def places_of(
    laid: LaidOut, sizes: Sequence[CutSize], step: Fraction, loss: int = 0
) -> tuple[tuple[Placed, ...], tuple[Cut, ...], tuple[Bit, ...]]:
    """Pieces, cuts and offcuts of a block that was laid out in whole steps of so many mm.

    Where a cut costs so many steps, each piece and the cloth were laid out by so much larger both
    ways: so much lies beyond each piece, whether the cut after it or nothing.
    """

    def bit(rect: Rect) -> Bit:
        sides = rect.x, rect.y, max(rect.across - loss, 0), max(rect.down - loss, 0)
        return Bit(*(Length(side * step) for side in sides))

    pieces, had = [], Counter[str]()
    for rect, block in laid.pieces:
        name = sizes[block.kind].name
        had[name] += 1
        pieces.append(Placed(name, had[name], bit(rect), block.turned))
    cuts = tuple(
        Cut(number, slit.way, Length((slit.at - loss) * step), bit(slit.bit), Length(loss * step))
        for number, line in enumerate(in_lines(laid.cuts), 1)
        for slit in line
    )
    offcuts = (bit(rect) for rect in laid.offcuts)
    return tuple(pieces), cuts, tuple(offcut for offcut in offcuts if offcut.area_mm2)
