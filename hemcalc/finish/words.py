"""A step of the finish, and the manner of speaking in which all steps give their numbers.

Sides that are alike are named together; lengths are those of the cloth as it is in hand, in
the unit asked for; a number of threads has its length beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, floor
from typing import TYPE_CHECKING

from hemcalc.corner.mitre import Corner
from hemcalc.edge.ledger import Edge
from hemcalc.finish.counting import CountingPlan, counting_plan
from hemcalc.measure.cautions import caution_for
from hemcalc.measure.errors import one_of
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import FINEST_MARK, Length
from hemcalc.measure.words import listed, threads_said
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES, Sides
from hemcalc.piece.sizes import size_text
from hemcalc.stitch.groups import Spacing, way_of
from hemcalc.stitch.spacing import piece_spacings

if TYPE_CHECKING:
    from pandas import DataFrame


#: What stands beside a step that no book was found to give.
PRACTICE = "(Common practice, no published source.)"

#: What the hands do in a finish; a picture may be drawn of each.
MOVEMENTS = (
    *("hold the edge", "fold the middle", "baste the outline", "snip", "draw out"),
    *("withdraw to the corner", "darn back", "baste the lines", "cut", "trim the corner"),
    *("fold the corner", "turn", "fold the hem", "fasten on", "stitch 1", "stitch 2", "stitch 3"),
    *("corner group", "mitre seam", "oversew", "finish"),
)

_COLUMNS = ["step", "title", "what to do", "check", "caution"]


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the finish: what to do, what shows that it was done right, and what to heed.

    Examples
    --------
    >>> step = Step(2, "Count the cloth", "Count the threads.", "It has 28 to the inch.", ("eyes",))
    >>> step
    Step(2, Count the cloth)
    >>> print(step.text())
    2. Count the cloth. Count the threads. Check: It has 28 to the inch. Caution: Work in good light...
    """

    number: int
    title: str
    #: What to do, in sentences.
    task: str
    check: str
    #: What to mind, as `hemcalc.measure.cautions` names it; empty where nothing could hurt.
    mind: tuple[str, ...] = ()
    #: What the hands do, in their order: names out of `MOVEMENTS`, each of which has a picture.
    movements: tuple[str, ...] = ()

    @property
    def caution(self) -> str:
        """The caution in full, and what comes before it; empty where nothing could hurt."""
        return caution_for(*self.mind)

    def __repr__(self) -> str:
        return f"Step({self.number}, {self.title})"

    def __str__(self) -> str:
        return self.text()

    def text(self) -> str:
        """The whole step."""
        caution = f" Caution: {self.caution}" if self.caution else ""
        return f"{self.number}. {self.title}. {self.task} Check: {self.check}{caution}"


class Steps(tuple[Step, ...]):
    """The steps of a finish, in their order. Made by `finish_steps`."""

    __slots__ = ()

    def __repr__(self) -> str:
        return f"Steps({len(self)}, from {self[0].title} to {self[-1].title})" if self else "Steps(none)"

    def text(self) -> str:
        """All the steps, a line each."""
        return "\n".join(step.text() for step in self)

    def table(self) -> DataFrame:
        """A row for each step, by its number."""
        from pandas import DataFrame

        rows = [(step.title, step.task, step.check, step.caution) for step in self]
        return DataFrame(rows, columns=_COLUMNS[1:], index=[step.number for step in self]).rename_axis("step")

    def _repr_html_(self) -> str:
        rows = ([str(step.number), step.title, step.task, step.check, step.caution] for step in self)
        return table_html(_COLUMNS, rows, "The finish, step by step")


@dataclass(frozen=True)
class StepWriter:
    """A piece to be told step by step: to which hand, in which unit, on which cloth.

    Its methods say a number of each side, sides that have it in common together.
    """

    piece: Piece
    group: int
    hand: str
    unit: str
    beginning: str = "blank, to size"
    worked: str | None = None
    counting: CountingPlan | None = None

    @property
    def larger(self) -> bool:
        """Whether the cloth is cut only when the lines are basted, and may be in a hoop till then."""
        return self.beginning != "blank, to size"

    @property
    def blank(self) -> bool:
        """Whether nothing is stitched yet."""
        return self.beginning != "stitched"

    @property
    def way(self) -> str:
        """Which way the work travels along a side."""
        return way_of(self.hand, self.worked)

    @property
    def holding(self) -> str:
        """The hand that holds the work."""
        return "left" if self.hand == "right" else "right"

    @cached_property
    def plan(self) -> CountingPlan:
        """The lines by which the design is counted out."""
        return self.counting or counting_plan(self.piece)

    @property
    def drawn(self) -> int:
        """Threads drawn on each side."""
        return self.piece.edges.left.drawn

    @cached_property
    def corner(self) -> Corner:
        """A corner of the piece; hems opposite each other are alike, and so all four corners are."""
        return self.piece.corners.top_left

    @cached_property
    def spacings(self) -> Sides[Spacing]:
        """The stitches of each side."""
        return piece_spacings(self.piece, self.group, self.hand, self.worked)

    @property
    def layers(self) -> str:
        """How many layers of cloth a finished corner lies in, in words."""
        return layers_said(self.corner)

    def edge(self, side: str) -> Edge:
        """A side's edge, with lengths as a ruler reads them on the cloth in hand."""
        return self.piece.edges_in_hand.of(side)

    @property
    def mark(self) -> Length:
        """The finest mark of the ruler."""
        return FINEST_MARK[self.unit]

    def margin(self, side: str) -> int:
        """The least threads from the design to the raw edge: as cut to size, or as are needed at all."""
        rule = self.edge(side).rule
        return rule.need if self.larger else rule.margin

    def between(self, side: str) -> int:
        """Threads along a side from corner to corner, between the open lines of its two neighbours."""
        (across, down), clear = self.piece.design, self.piece.clear
        if side in ("top", "bottom"):
            return across + clear.left + clear.right
        return down + clear.top + clear.bottom

    def inward(self, line: str) -> str:
        """The least threads from the raw edge to a line of the ledger, or to the design, on each side.

        The cloth was cut up to a mark of the ruler, and may have a few more.
        """
        after = {} if line == "design" else {side: getattr(self.edge(side), line) for side in SIDES}
        counted = self.of_each(lambda side: threads_said(self.margin(side) - after.get(side, 0)))
        extra = max(self.extra)
        return f"{counted}, or up to {extra} more" if extra else counted

    @property
    def cut_large(self) -> bool:
        """Whether a cloth cut to size has threads that the plan does not need."""
        return any(self.extra)

    @cached_property
    def extra(self) -> tuple[int, int]:
        """Threads, across and down, that a cloth cut to size has more than the plan needs."""
        size, cloth = self.piece.cut_size, self.piece.fabric
        if size.by_thread(self.unit):
            return 0, 0
        across, down = size.to_cut(self.unit)
        return (
            floor(cloth.across.threads_in(across)) - size.threads[0],
            floor(cloth.down.threads_in(down)) - size.threads[1],
        )

    @property
    def ruler_says(self) -> str:
        """What a ruler may be off by, in a sentence: each end is read to half of its smallest mark."""
        fabric = self.piece.fabric
        off = max(ceil(count.threads_in(self.mark)) for count in (fabric.across, fabric.down))
        return f"A ruler read to {self.length(self.mark)} may be {threads_said(off)} off: trust the count."

    def length(self, length: Length) -> str:
        """A length in words."""
        return length.text(self.unit)

    def measured(self, mm: float) -> str:
        """A length that is known as millimetres only, in words."""
        return Length(f"{mm:.6f} mm").text(self.unit)

    def size(self, size: tuple[Length, Length]) -> str:
        """A size in words."""
        return size_text(size, self.unit, "{} across and {} down")

    def threads(self, threads: int, edge: Edge) -> str:
        """So many threads of an edge, and how wide they are, if a ruler has a mark for it."""
        return threads_and_width(threads, edge, self.unit)

    def at_least(self, threads: int, edge: Edge) -> str:
        """No fewer than so many threads, and a width on the ruler that has them all: rounded up."""
        return f"at least {threads_said(threads)} ({self.length(edge.width(threads).rounded_up(self.mark))})"

    def each(self, say: Callable[[Edge], str], sides: Sequence[str] = SIDES) -> str:
        """What is to be said of each edge, sides of which the same is said together.

        Examples
        --------
        >>> from hemcalc import example
        >>> StepWriter(example("coaster"), 4, "right", "in").each(lambda edge: f"{edge.hem} threads")
        '9 threads on the left and right, 10 threads on the top and bottom'
        """
        return self.of_each(lambda side: say(self.edge(side)), sides)

    def of_each(self, say: Callable[[str], str], sides: Sequence[str] = SIDES) -> str:
        """The same where the side's name tells it, and not its edge."""
        alike = self._alike(say, sides)
        if len(alike) == 1 and len(sides) == len(SIDES):
            return f"{next(iter(alike))} on every side"
        return ", ".join(f"{said} on the {listed(names)}" for said, names in alike.items())

    def sentences(self, say: Callable[[str], str], sides: Sequence[str] = SIDES) -> str:
        """The same for whole sentences, each with its sides in front."""
        alike = self._alike(say, sides)
        if len(alike) == 1 and len(sides) == len(SIDES):
            return f"On every side: {next(iter(alike))}"
        return " ".join(f"{listed(names).capitalize()}: {said}" for said, names in alike.items())

    def _alike(self, say: Callable[[str], str], sides: Sequence[str]) -> dict[str, list[str]]:
        """What is said, and the sides of which it is."""
        alike: dict[str, list[str]] = {}
        for side in sides:
            alike.setdefault(say(side), []).append(side)
        return alike

    def step(
        self,
        title: str,
        text: Sequence[str],
        check: Sequence[str],
        *tools: str,
        movements: Sequence[str] = (),
    ) -> Step:
        """A step, not numbered yet, from its sentences and from what is in the hand."""
        said, shown = (" ".join(filter(None, sentences)) for sentences in (text, check))
        return Step(
            0, title, said, shown, tools, tuple(one_of(each, MOVEMENTS, "movement") for each in movements)
        )


def layers_said(corner: Corner) -> str:
    """How many layers of cloth a folded corner lies in, in words."""
    least, most = min(corner.layer_areas), max(corner.layer_areas)
    return f"{most} layers" if least == most else f"{least} to {most} layers"


def threads_and_width(threads: int, edge: Edge, unit: str) -> str:
    """So many threads of an edge with their width, which is left out where a ruler has no mark for it."""
    width = edge.width(threads).text(unit)
    return threads_said(threads) if width.startswith("≈ 0 ") else f"{threads_said(threads)} ({width})"
