"""An accident as it is told: on which side of which piece, and what comes of it.

Every number is of the side that is asked for, on the cloth in hand; how to mend is common
practice of the trade, with no published source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from hemcalc.edge.ledger import Edge
from hemcalc.finish.words import PRACTICE, Step, Steps, threads_and_width
from hemcalc.measure.cautions import CAUTIONS, caution_for, mind
from hemcalc.measure.errors import HemError
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import RULER_MARK, Length
from hemcalc.measure.words import threads_said
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES

#: Crossings over which a new thread lies beside an old one. Common practice, no published source.
OVERLAP = 10
#: What needle and hand need at each end of a thread that is woven in: a choice of hemcalc's, no source.
HOLD = Length("2 in")


@dataclass(frozen=True, slots=True)
class Rescue:
    """What to do about an accident. Made by `rescue`."""

    accident: str
    side: str
    #: How to see it.
    sign: str
    #: Threads of this side that are lost for good.
    threads: int
    #: How long a thread must be cut for the mending, of the cloth or to sew with; None if none is needed.
    replacement: Length | None
    steps: Steps
    #: The piece as it is to be made from now on; None if the plan stays.
    plan: Piece | None
    #: How the plan changes, or that it stays.
    change: str
    #: When to stop and ask.
    stop: str
    unit: str
    sewing: bool = False

    def __repr__(self) -> str:
        plan = "the plan stays" if self.plan is None else "a new plan"
        return f"Rescue({self.accident}, {self.side}: {len(self.steps)} steps, {plan})"

    @property
    def cost(self) -> str:
        """What it costs in threads of the cloth, and how long a thread is wanted for the mending."""
        lost = f"{threads_said(self.threads)} of the {self.side} side" if self.threads else "no thread lost"
        if self.replacement is None:
            return f"{lost}; no new thread needed."
        new = "fresh sewing thread" if self.sewing else "new thread of the cloth"
        kept = "to keep the old plan, " if self.plan else ""
        return f"{lost}; {kept}a {new} {at_least(self.replacement, self.unit)} long."

    @property
    def _parts(self) -> tuple[tuple[str, str], ...]:
        tools = [tool for tool in CAUTIONS if any(tool in step.mind for step in self.steps)]
        return (
            ("how to see it", self.sign),
            ("what it costs", self.cost),
            ("cautions", caution_for(*tools)),
            *((f"step {step.number}", _in_short(step)) for step in self.steps),
            ("the plan", self.change),
            ("stop and ask", self.stop),
            ("source", PRACTICE.strip("()")),
        )

    def text(self) -> str:
        """All of it, a line for each part."""
        return "\n".join(f"{name[0].upper()}{name[1:]}: {said}" for name, said in self._parts)

    def _repr_html_(self) -> str:
        return table_html(["part", "what to know"], self._parts, f"{self.accident}, {self.side} side")


def _in_short(step: Step) -> str:
    """A step with the names of what to mind; the cautions themselves stand once, above all steps."""
    minded = f" {mind(*step.mind)}." if step.mind else ""
    return f"{step.title}. {step.task} Check: {step.check}{minded}"


@dataclass(frozen=True)
class Told:
    """An accident on one side of a piece, and the numbers that hang on it."""

    piece: Piece
    accident: str
    side: str
    at: int | None
    group: int
    hand: str
    worked: str
    unit: str

    @cached_property
    def edge(self) -> Edge:
        """The side's edge, on the cloth in hand."""
        return self.piece.edges_in_hand.of(self.side)

    @property
    def neighbours(self) -> tuple[str, str]:
        """The two sides that meet this one."""
        return ("top", "bottom") if self.side in SIDES[:2] else ("left", "right")

    @property
    def design_along(self) -> int:
        """Threads of the design that this side's threads cross."""
        return self.piece.design[1 if self.side in SIDES[:2] else 0]

    @property
    def between(self) -> int:
        """Threads between the open lines at the side's two ends."""
        return self.design_along + sum(self.piece.edges.of(name).clear for name in self.neighbours)

    @property
    def raw_to_raw(self) -> int:
        """Threads that a thread of this side crosses from raw edge to raw edge of the cloth as it was cut."""
        return self.design_along + sum(self.piece.edges.of(name).rule.margin for name in self.neighbours)

    def new_thread(self, crossings: int) -> Length:
        """A thread to weave over so many crossings along this side, with an end to hold at both."""
        return self.piece.edges_in_hand.of(self.neighbours[0]).width(crossings) + 2 * HOLD

    def in_full(self, threads: int) -> str:
        """So many threads of this side, with their width beside them."""
        return threads_and_width(threads, self.edge, self.unit)

    def which(self, *, usual: int, least: int, most: int) -> int:
        """The thread, or the number of them, that the accident is about: as it was said, or the usual one."""
        if self.at is None:
            return min(max(usual, least), most)
        return whole_threads(self.at, "at", least=least, most=most, example=min(max(usual, least), most))

    def refuse(self, at: int, why: str, example: int) -> HemError:
        """The error for a thread that can't have had this accident."""
        return HemError(f"at is {at}, but {why}; for example {example}.", "at")

    def band(self, thread: int) -> str:
        """The band that a thread lies in."""
        return next((b.name for b in self.edge.bands if b.first <= thread <= b.last), "offcut")

    @property
    def donor(self) -> str:
        """Where a thread like those of this side is to be had."""
        spare = self.edge.rule.margin - self.edge.cut
        if spare:
            return (
                f"Draw it out of the strip beyond the cut line of the {self.side} side, where "
                f"{threads_said(spare)} of this cloth lie and run the same way."
            )
        return (
            "There is no cloth to spare beyond the cut line on this side: draw it out of an offcut of the "
            "same linen, from among the threads that run the same way, warp for warp and weft for weft."
        )

    def rescue(
        self,
        sign: str,
        steps: Sequence[Step],
        stop: str,
        *,
        threads: int = 0,
        replacement: Length | None = None,
        plan: Piece | None = None,
        change: str = "It stays as it is.",
        sewing: bool = False,
    ) -> Rescue:
        """What was found, with its steps numbered."""
        numbered = Steps(
            Step(number, step.title, step.task, step.check, step.mind) for number, step in enumerate(steps, 1)
        )
        return Rescue(
            self.accident,
            self.side,
            sign,
            threads,
            replacement,
            numbered,
            plan,
            change,
            stop,
            self.unit,
            sewing,
        )


def at_least(length: Length, unit: str) -> str:
    """No less than a length, up to the next mark of the ruler."""
    mark = RULER_MARK["in"] if unit == "in" else RULER_MARK["mm"]
    return f"at least {length.rounded_up(mark).text(unit)}"


def step(title: str, task: str, check: str, *mind: str) -> Step:
    """A step, not numbered yet."""
    return Step(0, title, task, check, mind)


def lines_said(piece: Piece) -> str:
    """The lines of a plan, side by side, counted outward from the design."""
    edges = piece.edges
    lines = (
        ("the first thread drawn is thread", edges.map(lambda edge: edge.first_drawn)),
        ("fold line 1 runs after thread", edges.map(lambda edge: edge.fold_1)),
        ("fold line 2 after", edges.map(lambda edge: edge.fold_2)),
        ("the cut line after", edges.map(lambda edge: edge.cut)),
    )
    return "; ".join(f"{name} {threads.text()}" for name, threads in lines)
