"""The plan by which a blank cloth is counted: centre lines, outline, and a line every ten threads.

Long counts go wrong; lines basted every few threads make each of them a count of tens. A motif
that is smaller than the design has its own place, and a border that repeats its sum.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from hemcalc.measure.errors import HemError, of_type, one_of, parts_of
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.html import table_html
from hemcalc.measure.words import so_many, threads_said
from hemcalc.piece.piece import Piece

if TYPE_CHECKING:
    from pandas import DataFrame

#: Where in the design a motif may stand.
PLACES = ("middle", "top left", "top right", "bottom left", "bottom right")

_COLUMNS = ["line", "threads from the middle", "threads from the outline"]


@dataclass(frozen=True, slots=True)
class Border:
    """How often a border's repeat fits along one side of the design, its corners taken off.

    Examples
    --------
    >>> Border(threads=230, repeat=24, corner=20).repeats, Border(230, 24, 20).left
    (7, 22)
    >>> Border(230, 24, 20).corners
    (31, 31)
    """

    threads: int
    repeat: int
    corner: int

    @property
    def repeats(self) -> int:
        """Whole repeats between the two corners."""
        return max(self.threads - 2 * self.corner, 0) // self.repeat

    @property
    def left(self) -> int:
        """Threads between the corners that no whole repeat takes."""
        return self.threads - 2 * self.corner - self.repeats * self.repeat

    @property
    def corners(self) -> tuple[int, int]:
        """Threads for the first corner and for the last, with what is left shared between them."""
        return self.corner + self.left - self.left // 2, self.corner + self.left // 2

    def text(self) -> str:
        """The sum, in a sentence."""
        first, last = self.corners
        each = f"{first} each" if first == last else f"{first} at one end and {last} at the other"
        left = (
            f"with {threads_said(self.left)} left: make the corners {each}"
            if self.left
            else "and nothing is left"
        )
        return (
            f"{threads_said(self.threads)} hold {so_many(self.repeats, 'repeat')} of {self.repeat} between "
            f"corners of {self.corner}, {left}."
        )


@dataclass(frozen=True, slots=True)
class Motif:
    """A motif within the design: its threads, and those of the design before and after it."""

    across: int
    down: int
    left: int
    right: int
    top: int
    bottom: int

    def text(self) -> str:
        """Its place, in a sentence."""
        return (
            f"The motif, {threads_said(self.across)} across and {self.down} down, begins {self.left} in from "
            f"the left of the design and {self.top} down from its top; to the right of it stay {self.right}, "
            f"below it {self.bottom}."
        )


@dataclass(frozen=True, slots=True)
class Way:
    """The lines that cross the design one way; each lies after so many of its threads.

    Examples
    --------
    >>> across = Way(threads=45, every=10, ends=("left", "right"))
    >>> across.centre, across.lines, across.halves
    (23, (3, 13, 33, 43), (23, 22))
    """

    #: Threads of the design this way.
    threads: int
    every: int
    #: The sides between which it runs.
    ends: tuple[str, str]

    @property
    def centre(self) -> int:
        """Threads before the centre line; of an odd number the first half is the greater."""
        return self.threads - self.threads // 2

    @property
    def halves(self) -> tuple[int, int]:
        """Threads from the centre line to the outline, first side and second."""
        return self.centre, self.threads - self.centre

    @property
    def lines(self) -> tuple[int, ...]:
        """Threads before each counting line, outline and centre line left out."""
        first = self.centre % self.every or self.every
        return tuple(line for line in range(first, self.threads, self.every) if line != self.centre)


@dataclass(frozen=True, slots=True)
class CountingPlan:
    """Where the lines by which a design is counted are basted. Made by `counting_plan`.

    Examples
    --------
    >>> from hemcalc import example
    >>> plan = counting_plan(example("coaster"))
    >>> plan
    CountingPlan(76 × 76 threads, a line every 10)
    >>> plan.across.lines
    (8, 18, 28, 48, 58, 68)
    >>> plan.table().loc["centre", "threads from the outline"].tolist()
    [38, 38]
    """

    piece: Piece
    every: int
    across: Way
    down: Way
    motif: Motif | None = None
    #: The border along the top and bottom, and along the left and right.
    borders: tuple[Border, Border] | None = None

    def __repr__(self) -> str:
        (across, down), motif = self.piece.design, ", a motif" if self.motif else ""
        border = ", a border" if self.borders else ""
        return f"CountingPlan({across} × {down} threads, a line every {self.every}{motif}{border})"

    @property
    def notes(self) -> tuple[str, ...]:
        """The places of motif and border, in sentences."""
        said = [self.motif.text()] if self.motif else []
        if self.borders:
            across, down = self.borders
            said.append(f"Border, top and bottom: {across.text()}")
            said.append(f"Border, left and right: {down.text()}")
        return tuple(said)

    def text(self) -> str:
        """The counts from the centre lines to the outline, in sentences."""
        counts = " ".join(
            f"From the centre line {threads_said(way.halves[0])} to the {way.ends[0]} "
            f"({in_lines(way.halves[0], self.every)}) and {threads_said(way.halves[1])} to the {way.ends[1]} "
            f"({in_lines(way.halves[1], self.every)})."
            for way in (self.across, self.down)
        )
        return " ".join((counts, *self.notes))

    def table(self) -> DataFrame:
        """A row for each line that is basted, those across first."""
        from pandas import DataFrame

        rows = [
            (name, line - way.centre, line) for way in (self.across, self.down) for name, line in _rows(way)
        ]
        return DataFrame(rows, columns=_COLUMNS).set_index("line")

    def _repr_html_(self) -> str:
        rows = [
            [
                f"{name}, {' to '.join(way.ends)}",
                f"{line - way.centre:+d}" if line != way.centre else "0",
                str(line),
            ]
            for way in (self.across, self.down)
            for name, line in _rows(way)
        ]
        return table_html(_COLUMNS, rows, "Lines to count by")


def _rows(way: Way) -> list[tuple[str, int]]:
    named = {0: way.ends[0], way.centre: "centre", way.threads: way.ends[1]}
    return [(named.get(line, "counting line"), line) for line in sorted({*named, *way.lines})]


def counting_plan(
    piece: Piece,
    *,
    every: int = 10,
    motif: tuple[int, int] | None = None,
    place: str = "middle",
    inset: int | tuple[int, int] = 0,
    repeat: int | None = None,
    corner: int = 0,
) -> CountingPlan:
    """The lines by which a blank cloth is counted for a piece.

    Refused if motif or border don't fit the design.

    Parameters
    ----------
    piece : Piece
        The piece; its design is counted out.
    every : int
        Threads from one counting line to the next, 2 to 100.
    motif : tuple of int, optional
        Threads of a motif within the design, across and down, as of a monogram.
    place : str
        Where the motif stands: one of `PLACES`.
    inset : int or tuple of int
        Threads from the design's outline to a motif in a corner, across and down.
    repeat : int, optional
        Threads of one repeat of a border along the design's outline.
    corner : int
        Threads at each end of a side that the border's corner takes at least.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc import example
    >>> napkin = counting_plan(example("bread cloth"), motif=(40, 50), place="bottom right", inset=12)
    >>> napkin.motif.left, napkin.motif.top
    (178, 126)
    >>> print(counting_plan(example("coaster"), repeat=12, corner=8).notes[0])
    Border, top and bottom: 76 threads hold 5 repeats of 12 between corners of 8, and nothing is left.
    """
    across, down = of_type(piece, Piece, "piece", "example('coaster')").design
    every = whole_threads(every, "every", least=2, most=100, example=10)
    pair = inset if isinstance(inset, tuple) else (inset, inset)
    wide, high = parts_of(pair, "inset", 2, "two whole numbers, across and down", (12, 12))
    insets = (whole_threads(wide, "inset", example=12), whole_threads(high, "inset", example=12))
    one_of(place, PLACES, "place")
    ends = whole_threads(corner, "corner", example=12)
    return CountingPlan(
        piece,
        every,
        Way(across, every, ("left", "right")),
        Way(down, every, ("top", "bottom")),
        None if motif is None else _motif(motif, place, insets, (across, down)),
        None if repeat is None else (_border(across, repeat, ends), _border(down, repeat, ends)),
    )


def in_lines(threads: int, every: int) -> str:
    """A long count as lines and what is over.

    Examples
    --------
    >>> in_lines(115, 10), in_lines(40, 10), in_lines(7, 10), in_lines(11, 10)
    ('11 lines of 10 and 5 more', '4 lines of 10', '7', '1 line of 10 and 1 more')
    """
    lines, over = divmod(threads, every)
    if not lines:
        return str(over)
    return f"{so_many(lines, 'line')} of {every}" + (f" and {over} more" if over else "")


def _motif(size: object, at: str, insets: tuple[int, int], design: tuple[int, int]) -> Motif:
    sides = parts_of(size, "motif", 2, "two whole numbers, across and down", (40, 50))
    sizes = [whole_threads(each, "motif", least=1, example=40) for each in sides]
    (left, right), (top, bottom) = (
        _beside(room - long, gap, first in at, last in at)
        for room, long, gap, first, last in zip(
            design, sizes, insets, ("left", "top"), ("right", "bottom"), strict=True
        )
    )
    if min(left, right, top, bottom) < 0:
        raise HemError(
            f"motif is {sizes[0]} × {sizes[1]} threads at {at}, but with its inset must fit in the design "
            f"of {design[0]} × {design[1]}; for example a smaller one, or inset=0.",
            "motif",
        )
    return Motif(sizes[0], sizes[1], left, right, top, bottom)


def _beside(room: int, inset: int, first: bool, last: bool) -> tuple[int, int]:
    """Threads of the design before and after a motif, one way."""
    before = inset if first else room - inset if last else room - room // 2
    return before, room - before


def _border(threads: int, repeat: object, ends: int) -> Border:
    each = whole_threads(repeat, "repeat", least=1, example=12)
    if 2 * ends + each > threads:
        raise HemError(
            f"repeat is {each}, but with corners of {ends} it must fit at least once in a "
            f"side of {threads_said(threads)}; for example repeat={max(threads - 2 * ends, 1)}.",
            "repeat",
        )
    return Border(threads, each, ends)
