"""The edge as a ledger of threads, and the margin rule held against it.

Threads are numbered outward from the edge of the stitched design. The ledger gives each
band its first and last thread, and so the places where cloth is drawn, folded and cut. The
margin rule, four times the hem, is a rule of thumb; the ledger says what is needed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from hemcalc.edge.asked import SizeAsked, nearest_threads, read_size, threads_upward
from hemcalc.edge.margin import MarginRule
from hemcalc.measure.counts import Count, as_count
from hemcalc.measure.doubt import doubts
from hemcalc.measure.errors import HemError
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length, in_unit
from hemcalc.measure.words import threads_said

if TYPE_CHECKING:
    import pandas as pd

#: Threads drawn for a plain hem stitch, by book: 2 to 10. Encyclopedia of Needlework, Therese
#: de Dillmont, Project Gutenberg 20776, fig. 55 (2 or 4); Educational Needlecraft, Margaret
#: Swanson and Ann Macbeth, 1911, Hem Stitching (5 to 10).
BOOKS_DRAW = (2, 10)

#: How an edge is had, to end a sentence that refuses something else.
EDGE_EXAMPLE = "plan_edge('28/in', '3/8 in', clear=8)"


@dataclass(frozen=True, slots=True)
class Band:
    """One band of the ledger: its name, and its first and last thread.

    Examples
    --------
    >>> Band("drawn", first=9, last=10).threads
    2
    """

    name: str
    first: int
    last: int

    @property
    def threads(self) -> int:
        """Threads in the band."""
        return self.last - self.first + 1

    def __repr__(self) -> str:
        return f"Band({self.name}, threads {self.first} to {self.last})"


@dataclass(frozen=True, slots=True)
class HemChoice:
    """A hem of so many threads, and the width it finishes at."""

    threads: int
    width: Length

    @property
    def even(self) -> bool:
        """Whether half of it is a whole number of threads."""
        return self.threads % 2 == 0

    def text(self, unit: str = "mm") -> str:
        """Its threads and its width, and whether it halves."""
        even = ", even" if self.even else ""
        return f"{threads_said(self.threads)}: {self.width.text(unit)}{even}"


@dataclass(frozen=True, slots=True)
class Edge:
    """One edge of the piece, in threads outward from the design.

    Made by `plan_edge`, which checks what it is given. All numbers are threads unless a
    Length is named.
    """

    count: Count
    clear: int
    drawn: int
    hem: int
    turn: int
    handling: int
    #: What was rounded and by how much, in words.
    rounding: str
    #: What the reader should know of this edge, in sentences.
    notes: tuple[str, ...]

    def __repr__(self) -> str:
        sizes = ", ".join(f"{band.name} {band.threads}" for band in self.bands if band.name != "back")
        sizes = sizes.replace("face", "hem")
        return f"Edge({self.count}: {sizes}; cut after thread {self.cut})"

    def _repr_html_(self) -> str:
        """The ledger, with each band's width in inches and in centimetres."""
        return table_html(
            ["band", "first thread", "last thread", "threads", "in", "cm"],
            (
                [
                    band.name,
                    *(str(number) for number in (band.first, band.last, band.threads)),
                    *(self.width(band.threads).text(unit) for unit in ("in", "cm")),
                ]
                for band in self.bands
            ),
            f"One edge at {self.count}, outward from the design: cut after thread {self.cut}",
        )

    def table(self, unit: str | None = None) -> pd.DataFrame:
        """The ledger as a table: a row a band, outward from the design.

        Its columns are ``band``, ``first``, ``last``, ``threads``, and ``width, in``, a float.

        Examples
        --------
        >>> plan_edge("28/in", 14, clear=7).table()["width, in"].tolist()
        [0.25, 0.07142857142857142, 0.5, 0.5, 0.25]
        """
        import pandas as pd

        unit = self.count.unit_or(unit)
        rows = [(band.name, band.first, band.last, band.threads) for band in self.bands]
        table = pd.DataFrame(rows, columns=["band", "first", "last", "threads"])
        table[in_unit("width", unit, self.count.state)] = [
            float(self.width(threads).number(unit)) for threads in table["threads"].tolist()
        ]
        return table

    @property
    def bands(self) -> tuple[Band, ...]:
        """The ledger, outward from the design; a band of no threads is left out."""
        sizes = (
            ("clear", self.clear),
            ("drawn", self.drawn),
            ("face", self.hem),
            ("back", self.hem),
            ("turn", self.turn),
        )
        bands, last = [], 0
        for name, threads in sizes:
            if threads:
                bands.append(Band(name, last + 1, last + threads))
            last += threads
        return tuple(bands)

    @property
    def first_drawn(self) -> int:
        """Number of the first thread drawn: the one after the clear band."""
        return self.clear + 1

    @property
    def open_line(self) -> int:
        """The thread after which the hem begins: the last one drawn."""
        return self.clear + self.drawn

    @property
    def fold_1(self) -> int:
        """The thread after which fold line 1, the finished edge, runs."""
        return self.open_line + self.hem

    @property
    def fold_2(self) -> int:
        """The thread after which fold line 2 runs, which lands on the open line."""
        return self.open_line + 2 * self.hem

    @property
    def cut(self) -> int:
        """The thread after which the cloth is cut."""
        return self.fold_2 + self.turn

    @property
    def total(self) -> int:
        """Threads in the ledger: clear + drawn + 2 hems + turn."""
        return self.cut

    @property
    def rule(self) -> MarginRule:
        """The margin rule, four times the hem, against the ledger and handling."""
        return MarginRule(self.count, 4 * self.hem, self.total + self.handling)

    @property
    def hem_width(self) -> Length:
        """Width of the finished hem."""
        return self.width(self.hem)

    @property
    def turn_width(self) -> Length:
        """Width of the turn."""
        return self.width(self.turn)

    @property
    def draw_line(self) -> Length:
        """From the cut edge in to the hem's side of the open line: 2 hems + turn.

        Source
        ------
        Handicraft for Girls, Idabelle McGlauflin, 1910, "Hemstitching, a. Drawing the threads".
        """
        return self.width(2 * self.hem + self.turn)

    @property
    def choices(self) -> tuple[HemChoice, ...]:
        """The hem one thread narrower (if any is left), as planned, and one thread wider."""
        return tuple(HemChoice(n, self.width(n)) for n in (self.hem - 1, self.hem, self.hem + 1) if n)

    def width(self, threads: int) -> Length:
        """How wide so many threads of this edge are."""
        return self.count.width(threads)


def plan_edge(
    count: Count | str,
    hem: int | str | Length | SizeAsked,
    *,
    clear: int,
    drawn: int = 2,
    turn: int | str | Length | SizeAsked | None = None,
    handling: int | str | Length | SizeAsked = 0,
    in_hand: Count | str | None = None,
) -> Edge:
    """The edge that a hem of this size makes on a cloth of this count.

    Refused if the hem comes out at no thread, or the turn is wider than the hem.

    Parameters
    ----------
    count : Count or str
        Threads to the inch or centimetre, counted square to the edge.
    hem : int, str or Length
        Width of the finished hem: threads, or a length, which becomes the nearest whole
        number of threads, half a thread going up.
    clear : int
        Threads of plain cloth between the design and the open line.
    drawn : int
        Threads drawn out, 1 or more.
    turn : int, str or Length, optional
        Cloth turned in under the back, at most the hem, a length to the nearest thread;
        half the hem, half a thread going up, if left out.
    handling : int, str or Length
        Cloth that fingers, hoop or fraying need before the cut line is cut; a length is
        rounded up to whole threads.
    in_hand : Count or str, optional
        Count of the cloth as it is in hand, by which handling is measured, if `count` is that of
        another state of the cloth.

    Source
    ------
    Common practice of the trade, no published source. The books say the same from the raw
    edge in: Handicraft for Girls, Idabelle McGlauflin, 1910, "Hemstitching, a.".

    Examples
    --------
    >>> edge = plan_edge("26/in", "1/2 in", clear=6)
    >>> edge.hem, edge.turn, edge.first_drawn, edge.cut, edge.rule.rule
    (13, 7, 7, 41, 52)
    >>> [(band.name, band.first, band.last) for band in edge.bands][:3]
    [('clear', 1, 6), ('drawn', 7, 8), ('face', 9, 21)]
    >>> plan_edge("28/in", "3/8 in", clear=8).rounding
    'The hem of 3/8 in is 10 1/2 threads, rounded to 11: it finishes 1/2 thread wider. The turn of half...'
    """
    cloth = as_count(count)
    clear = whole_threads(clear, "clear")
    drawn = whole_threads(drawn, "drawn", least=1, example=2)
    asked = read_size(hem, "hem")
    turned = None if turn is None else read_size(turn, "turn")
    words: list[str] = []
    hem_threads = nearest_threads(asked, cloth, "hem", words)
    if hem_threads < 1:
        raise HemError(
            f"hem is {asked.said}, less than half a thread of this cloth ({cloth}), but must come out "
            "at 1 thread or more; for example '3/8 in'.",
            "hem",
        )
    half_hem = (hem_threads + 1) // 2
    if turned is not None:
        turn_threads = nearest_threads(turned, cloth, "turn", words)
        if turn_threads > hem_threads:
            raise HemError(
                f"turn is {threads_said(turn_threads)}, but must be no wider than the hem, "
                f"{threads_said(hem_threads)}; for example {half_hem}.",
                "turn",
            )
    else:
        turn_threads = half_hem
        if hem_threads % 2:
            half = f"{hem_threads // 2} 1/2 threads" if hem_threads > 1 else "1/2 thread"
            words.append(f"The turn of half the hem is {half}, rounded up to {half_hem}.")
    kept = cloth if in_hand is None else as_count(in_hand)
    handling_threads = threads_upward(read_size(handling, "handling"), kept, words)
    doubtful = doubts(cloth, hem=asked.length, turn=turned and turned.length)
    notes = doubtful + _notes(hem_threads, turn is None, turn_threads, drawn)
    rounding = " ".join(words) or "Nothing was rounded."
    return Edge(cloth, clear, drawn, hem_threads, turn_threads, handling_threads, rounding, notes)


def _notes(hem: int, half: bool, turn: int, drawn: int) -> tuple[str, ...]:
    notes = []
    if turn == 0:
        notes.append("With no turn the raw edge stays open under the hem and may fray.")
    if half and hem % 2:
        even = " or ".join(str(threads) for threads in (hem - 1, hem + 1) if threads)
        notes.append(f"A hem of {threads_said(hem)} doesn't halve evenly for the turn; {even} threads would.")
    if not BOOKS_DRAW[0] <= drawn <= BOOKS_DRAW[1]:
        notes.append(
            f"The books draw {BOOKS_DRAW[0]} to {BOOKS_DRAW[1]} threads for a plain hem stitch; "
            f"this edge draws {drawn}."
        )
    return tuple(notes)
