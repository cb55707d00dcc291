"""The cloth as crossings: which thread lies over, which is missing, which was darned in.

Rows run across and columns run down; both are numbered from the design, whose uppermost row
and leftmost column are number 1. A cloth begins as plain weave. Threads are withdrawn from it
and laid into it one stretch at a time, each time giving a new cloth, and every cloth can be
asked what lies at a place and where two threads fail to cross as plain weave should.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from hemcalc.measure.exact import whole_threads

#: Direction of the threads that lie level.
ROW = "row"
#: Direction of the threads that lie upright.
COLUMN = "column"


def across(direction: str) -> str:
    """The other direction: that of the threads which such a thread crosses."""
    return COLUMN if direction == ROW else ROW


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of one thread that lies straight in one line of the cloth.

    `kind` is "woven" where the loom put it, "darned" where a needle did, and "tucked" where
    it only lies behind the cloth. A darned stretch carries its own `sides`: for each place
    from `first` on whether it lies over, or None where it has nothing to cross.
    """

    thread: str
    first: int
    last: int
    kind: str = "woven"
    sides: tuple[bool | None, ...] = ()

    def over(self, place: int) -> bool | None:
        """Whether the darned thread lies over at this place of its line."""
        return self.sides[place - self.first]

    def without(self, first: int, last: int) -> Iterator[Stretch]:
        """What is left of it when places `first` to `last` are taken out."""
        for start, end in (
            (self.first, min(self.last, first - 1)),
            (max(self.first, last + 1), self.last),
        ):
            if start <= end:
                sides = self.sides[start - self.first : end - self.first + 1]
                yield Stretch(self.thread, start, end, self.kind, sides)


@lru_cache(maxsize=1024)
def _untouched(direction: str, line: int, first: int, last: int) -> tuple[Stretch, ...]:
    """A line as the loom left it; asked for at every place along it."""
    return (Stretch(f"{direction} {line}", first, last),)


@dataclass(frozen=True, slots=True)
class Crossing:
    """What lies at one place: the thread of its row, that of its column, and which is over."""

    row: Stretch | None
    column: Stretch | None
    over: str | None
    #: False where two darned threads would both lie over, or both under.
    agreed: bool = True

    @property
    def missing(self) -> tuple[str, ...]:
        """Which of the two threads is missing: "row", "column", both or neither."""
        return tuple(name for name, thread in ((ROW, self.row), (COLUMN, self.column)) if thread is None)

    @property
    def open(self) -> bool:
        """Whether neither thread lies here."""
        return self.row is None and self.column is None


@dataclass(frozen=True, slots=True)
class Clasp:
    """Two U-turns that hold each other, between the lines: one crossing, told by each thread."""

    corner: str
    row: Fraction
    column: Fraction
    #: What each tail says of itself; None while it has not been turned.
    row_over: bool | None = None
    column_over: bool | None = None

    @property
    def over(self) -> str | None:
        """The tail that lies over, "row" or "column"; None before either is turned."""
        if self.row_over is None:
            return None if self.column_over is None else (COLUMN if self.column_over else ROW)
        return ROW if self.row_over else COLUMN

    @property
    def agreed(self) -> bool:
        """Whether what the two tails say fits together."""
        return None in (self.row_over, self.column_over) or self.row_over != self.column_over


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """A place where the cloth is not plain weave.

    `direction` names the thread that runs on over (or under) two crossings: at the place
    given and at the next one along it. It is "" where two darned threads contradict each
    other at the place itself, as two needles that both went over.
    """

    row: Fraction
    column: Fraction
    direction: str = ""


@dataclass(frozen=True)
class Cloth:
    """A cloth of plain weave, less what was withdrawn from it and with what was laid into it.

    Examples
    --------
    >>> cloth = Cloth(rows=(-3, 8), columns=(-3, 8))
    >>> cloth.crossing(1, 1).over, cloth.crossing(1, 2).over
    ('row', 'column')
    >>> cloth.withdraw(ROW, 1, 2, 8).crossing(1, 2).missing
    ('row',)
    """

    #: First and last row, first and last column.
    rows: tuple[int, int]
    columns: tuple[int, int]
    #: Only the lines that were touched; any other holds its thread from edge to edge.
    touched: Mapping[tuple[str, int], tuple[Stretch, ...]] = field(default_factory=dict, hash=False)
    clasps: tuple[Clasp, ...] = ()

    def __repr__(self) -> str:
        rows, columns = (f"{first} to {last}" for first, last in (self.rows, self.columns))
        return f"Cloth(rows {rows}, columns {columns}, {len(self.touched)} lines touched)"

    def woven_over(self, direction: str, row: int, column: int) -> bool:
        """Whether the loom laid the thread of this direction over at this place.

        Plain weave puts neighbours in opposite phase; that the row lies over at row 1, column 1
        is a choice, and the mirror image of the other.
        """
        return ((row + column) % 2 == 0) == (direction == ROW)

    def lying(self, direction: str, line: int, place: int) -> Stretch | None:
        """The thread that lies in a line at a place of it; None if the line is empty there."""
        for stretch in self.stretches(direction, line):
            if stretch.kind != "tucked" and stretch.first <= place <= stretch.last:
                return stretch
        return None

    def tucked(self, direction: str, line: int, place: int) -> int:
        """How many ends lie tucked behind a line at a place of it."""
        stretches = self.stretches(direction, line)
        return sum(s.kind == "tucked" and s.first <= place <= s.last for s in stretches)

    def crossing(self, row: int, column: int) -> Crossing:
        """What lies at a place.

        A darned thread says of itself whether it lies over; where neither is darned, the loom
        does.
        """
        row, column = (
            whole_threads(
                number,
                name,
                least=first,
                most=last,
                otherwise=f", {name}s being counted from the design",
                example=1,
                of="",
            )
            for name, number, (first, last) in ((ROW, row, self.rows), (COLUMN, column, self.columns))
        )
        return self._crossing(row, column)

    def _crossing(self, row: int, column: int) -> Crossing:
        along, down = self.lying(ROW, row, column), self.lying(COLUMN, column, row)
        if along is None or down is None:
            return Crossing(along, down, None)
        if "darned" not in (along.kind, down.kind):
            return Crossing(along, down, ROW if self.woven_over(ROW, row, column) else COLUMN)
        row_over = along.over(column) if along.kind == "darned" else None
        column_over = down.over(row) if down.kind == "darned" else None
        told = Clasp("", Fraction(row), Fraction(column), row_over, column_over)
        return Crossing(along, down, told.over, told.agreed)

    def withdraw(self, direction: str, line: int, first: int, last: int) -> Cloth:
        """The cloth with all that lies in this line from place `first` to `last` taken out."""
        left = [part for s in self.stretches(direction, line) for part in s.without(first, last)]
        return self._with(direction, line, tuple(left))

    def lay(self, direction: str, line: int, stretch: Stretch) -> Cloth:
        """The cloth with this stretch laid into a line."""
        return self._with(direction, line, (*self.stretches(direction, line), stretch))

    def clasp(self, clasp: Clasp) -> Cloth:
        """The cloth with what one more tail says of its corner's clasp."""
        kept = [other for other in self.clasps if other.corner != clasp.corner]
        for other in self.clasps:
            if other.corner == clasp.corner:
                row_over = other.row_over if clasp.row_over is None else clasp.row_over
                column_over = other.column_over if clasp.column_over is None else clasp.column_over
                clasp = Clasp(clasp.corner, clasp.row, clasp.column, row_over, column_over)
        return Cloth(self.rows, self.columns, self.touched, (*kept, clasp))

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Every place where the cloth is not plain weave, gaps apart.

        Threads that still lie as the loom laid them alternate, whatever was taken out beside
        them, so only darned places and their neighbours are looked at.
        """
        found = {Fault(clasp.row, clasp.column) for clasp in self.clasps if not clasp.agreed}
        for row, column in self._darned_places():
            here = self._crossing(row, column)
            if here.over is None:
                continue
            if not here.agreed:
                found.add(Fault(Fraction(row), Fraction(column)))
            for down, along in ((0, -1), (0, 1), (-1, 0), (1, 0)):
                there = self._crossing(row + down, column + along)
                if there.over == here.over:
                    place = Fraction(min(row, row + down)), Fraction(min(column, column + along))
                    found.add(Fault(*place, ROW if along else COLUMN))
        return tuple(sorted(found))

    def stretches(self, direction: str, line: int) -> tuple[Stretch, ...]:
        """All that lies in a line or behind it."""
        stretches = self.touched.get((direction, line))
        if stretches is not None:
            return stretches
        return _untouched(direction, line, *(self.columns if direction == ROW else self.rows))

    def _darned_places(self) -> Iterator[tuple[int, int]]:
        for (direction, line), stretches in self.touched.items():
            for stretch in stretches:
                if stretch.kind == "darned":
                    for place in range(stretch.first, stretch.last + 1):
                        yield (line, place) if direction == ROW else (place, line)

    def _with(self, direction: str, line: int, stretches: tuple[Stretch, ...]) -> Cloth:
        touched = {**self.touched, (direction, line): stretches}
        return Cloth(self.rows, self.columns, touched, self.clasps)
