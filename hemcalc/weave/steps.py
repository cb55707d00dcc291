"""The corner step by step: the threads come out, turn back, and go in again one by one.

Each step says what the hand does and holds the cloth as it is afterwards, for a figure to show
and a slider to run through.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.errors import of_type
from hemcalc.measure.words import threads_said
from hemcalc.weave.crossings import Cloth
from hemcalc.weave.darning import Pass, Tail, darned
from hemcalc.weave.open_lines import End, thread_out
from hemcalc.weave.weave import WEAVE_EXAMPLE, Weave

#: What to mind, by the kind of step.
_MIND = {
    "cut": ("blade", "eyes"),
    **dict.fromkeys(("draw", "out", "turn", "darn", "run in"), ("needle", "eyes")),
}


@dataclass(frozen=True, slots=True)
class WeaveStep:
    """One step at a corner: what is done, and what it leaves.

    `kind` is "woven", "draw" (a thread right out), "cut", "out" (a tail to its corner), "turn",
    "darn" (one thread passed), "run in", "short" (a tail at its end too soon) or "done".
    """

    kind: str
    said: str
    #: The cloth but for the tail that is under way.
    without_tail: Cloth
    tail: Tail | None = None
    #: How many of the tail's passes are made.
    made: int = 0

    def __repr__(self) -> str:
        return f"WeaveStep({self.said if len(self.said) <= 86 else f'{self.said[:85]}…'})"

    def text(self) -> str:
        """What is done, in a sentence."""
        return self.said

    @property
    def mind(self) -> tuple[str, ...]:
        """What to mind, as `hemcalc.measure.cautions` names it; empty where nothing could hurt."""
        return _MIND.get(self.kind, ())

    @property
    def cloth(self) -> Cloth:
        """The cloth after this step."""
        if self.tail is None or self.kind in ("cut", "out"):
            return self.without_tail
        return darned(self.without_tail, self.tail, self.made)

    @property
    def passed(self) -> Pass | None:
        """The pass that this step makes."""
        return self.tail.passes[self.made - 1] if self.kind == "darn" and self.tail is not None else None

    @property
    def loose(self) -> Fraction | None:
        """Pitches of the tail that are not yet darned; None if no tail is being darned."""
        if self.tail is None or self.tail.reach is None or self.kind not in ("turn", "darn", "short"):
            return None
        since_turn = sum(each.where != "before" for each in self.tail.passes[: self.made])
        return max(self.tail.reach.span - since_turn, Fraction(0))


def steps_at(weave: Weave, corner: str) -> tuple[WeaveStep, ...]:
    """The steps at a corner such as "top left", from the woven cloth until its tails are darned back.

    The threads of the row's side are drawn first, then the column's; then its tails are darned
    in the same order. The other corners are left as woven.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc import Fabric, Piece
    >>> from hemcalc.weave.weave import open_line
    >>> piece = Piece(Fabric("28/in"), (24, 24), hem=2, same="threads", clear=4)
    >>> steps = steps_at(open_line(piece), "top left")
    >>> [step.kind for step in steps][:9]
    ['woven', 'draw', 'cut', 'out', 'draw', 'cut', 'out', 'turn', 'darn']
    >>> print(steps[8].text())
    Under thread 6 of the left side: the two U-turns hold each other.
    """
    of_type(weave, Weave, "weave", WEAVE_EXAMPLE)
    return tuple(_steps(weave, weave.ends_at(corner), weave.tails_at(corner)))


def _steps(weave: Weave, ends: tuple[End, End], tails: tuple[Tail, ...]) -> Iterator[WeaveStep]:
    cloth = weave.woven
    yield WeaveStep("woven", "The cloth as it came from the loom.", cloth)
    for end in ends:
        for thread in end.side.drawn:
            named = end.side.called(thread)
            tail = next((t for t in tails if t.end == end and t.thread == thread), None)
            if tail is not None:
                words = f"Cut {named} at its middle."
                yield WeaveStep("cut", words, cloth, tail)
            cloth = thread_out(cloth, end, thread, weave.turn_at)
            if tail is None:
                yield WeaveStep("draw", f"Draw out {named}, out to the raw edge.", cloth)
            else:
                where = f"as far as {end.other.called(end.kept_from(thread, weave.turn_at))}"
                words = (
                    f"Draw its tail out toward the corner, {where}; it is {threads_said(tail.length)} long."
                )
                yield WeaveStep("out", words, cloth, tail)
    for tail in tails:
        yield from _run_in(cloth, tail) if tail.reach is None else _darn(cloth, tail)
        cloth = darned(cloth, tail)
    yield WeaveStep("done", _outcome(cloth, tails), cloth)


def _outcome(cloth: Cloth, tails: tuple[Tail, ...]) -> str:
    if wrong := len(cloth.faults):
        return f"Done, but the cloth is not plain weave: {wrong} places do not alternate."
    stops = " and ".join(
        f"the tail of {tail.end.side.called(tail.thread)} stops {threads_said(tail.reach.short)}"
        for tail in tails
        if tail.reach is not None and tail.reach.short
    )
    return f"Done, but {stops} before the cut line." if stops else "Done: the hems are whole cloth."


def _run_in(cloth: Cloth, tail: Tail) -> Iterator[WeaveStep]:
    named = tail.end.side.called(tail.thread)
    words = (
        f"Run the tail of {named} in behind {threads_said(tail.run_in)} of the hem."
        if tail.run_in
        else f"The tail of {named} is too short to be run in behind the hem: catch it down on the back."
    )
    yield WeaveStep("run in", words, cloth, tail)


def _darn(cloth: Cloth, tail: Tail) -> Iterator[WeaveStep]:
    assert tail.reach is not None
    before = sum(each.where == "before" for each in tail.passes)
    if tail.reach.crossed:
        words = (
            f"Turn the tail of {tail.end.side.called(tail.thread)} back into the empty line of thread "
            f"{tail.thread - 1}; it last lay {'over' if tail.last_over else 'under'}."
        )
        yield WeaveStep("turn", words, cloth, tail, before)
    for made in range(before + 1, len(tail.passes) + 1):
        step = tail.passes[made - 1]
        held = ": the two U-turns hold each other" if step.where == "clasp" else ""
        words = f"{step.text().capitalize()} {tail.end.other.called(step.thread)}{held}."
        yield WeaveStep("darn", words, cloth, tail, made)
    if tail.reach.short:
        yield WeaveStep("short", tail.reach.text(), cloth, tail, len(tail.passes))
