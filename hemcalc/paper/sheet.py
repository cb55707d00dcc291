"""The learner's sheet: what she makes, her kit, the plan, and the steps with a picture of each movement."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hemcalc.draw.edge.ruler import EdgeRuler
from hemcalc.draw.finish.counting import counting_scene
from hemcalc.draw.finish.movements import movement_scene
from hemcalc.draw.finish.scene import show_scene
from hemcalc.draw.sheet import Sheet
from hemcalc.edge.ledger import Edge
from hemcalc.finish import Step, counting_plan, finish_steps
from hemcalc.finish.words import PRACTICE, Steps
from hemcalc.measure.cautions import CAUTIONS, COMES_FIRST, mind
from hemcalc.measure.errors import of_type, one_of, several
from hemcalc.paper.artwork import WHOLE, drawn
from hemcalc.paper.flow import TEXT, Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import height_of
from hemcalc.paper.numbers import alike, notes_of, set_numbers
from hemcalc.paper.printer import paper_size
from hemcalc.paper.step import set_step
from hemcalc.workshop.kit import Kit

_RULER = 42.0  # height of the edge as a ruler, mm
_BETWEEN = 4.0
_COUNTED = "baste the outline"  # shown by the counting plan, with its numbers
_BEFORE = (
    "Tick a step off when its check holds. A caution stands in full in the first step that needs it, and "
    "is named beside the later ones."
)
#: Where the cards are used: the movement, what the step would say of the card, and how it is used.
_CARDS = {
    "baste the lines": ("gauge", "Check each line with your hem gauge, its left end on the open line."),
    "fold the corner": ("paper mitre", "Fold your paper mitre first: it is this corner, with these lines."),
}


def learner_sheet(
    kit: Kit,
    steps: Sequence[Step] | None = None,
    *,
    unit: str | None = None,
    paper: str = "A4",
    note: str = "",
) -> Leaflet:
    """The sheet that lies beside the learner.

    Words are in ``"in"``, ``"cm"`` or ``"mm"``, the paper is ``"A4"`` or ``"Letter"``; a note stands at the
    foot. The steps are the piece's own, if they are left out.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> learner_sheet(example_workshop().kits[0])
    Leaflet('Ada: bread cloth', 5 pages)
    """
    of_type(kit, Kit, "kit", "Kit('Ada', example('coaster'))")
    title = f"{kit.learner}: {kit.kind}"
    unit = kit.piece.fabric.warp.unit_or(unit)
    if steps is None:
        told = finish_steps(
            kit.piece,
            group=kit.group,
            hand=kit.hand,
            unit=unit,
            beginning=kit.beginning,
            worked=kit.worked,
        )
    else:
        every = several(steps, "steps", "steps", "finish_steps(kit.piece)")
        told = Steps(of_type(step, Step, "steps", "finish_steps(kit.piece)") for step in every)
    flow = Flow(paper_size(paper), title, note)
    flow.title_line(title, beside="begun: ______________   finished: ______________")
    set_numbers(flow, kit, unit)
    flow.gap(0.8)
    for sentences in ([kit.way_text] if kit.turned else [], notes_of(kit.piece)):
        if sentences:
            flow.paragraph(" ".join(sentences))
    _rulers(flow, kit, unit)
    _steps(flow, kit, told)
    cut = kit.piece.edges.map(lambda edge: edge.cut).text()
    return flow.leaflet(title, f"cut after thread {cut}; {kit.cloth_text(unit)}.")


def _rulers(flow: Flow, kit: Kit, unit: str) -> None:
    """The edge as a ruler, in hand, for each kind of side, two beside each other; threads are counted."""
    kinds = alike(kit.piece)
    flow.heading("The edge from the right side, thread by thread (not to scale)", _RULER + height_of(TEXT))
    across = (flow.room - _BETWEEN) / 2
    for i in range(0, len(kinds), 2):
        page, x, y = flow.place(_RULER + height_of(TEXT), "The edge as a ruler")
        for j, (sides, (edge, _)) in enumerate(kinds[i : i + 2]):
            left = x + j * (across + _BETWEEN)
            page.text(left, y, sides.capitalize(), TEXT, bold=True)
            page.picture(left, y + height_of(TEXT), drawn(_show_ruler, across, _RULER, edge, unit))


def _show_ruler(sheet: Sheet, edge: Edge, unit: str) -> None:
    EdgeRuler(sheet, WHOLE, max(round(1.1 * edge.rule.margin), 40)).update(edge, unit)


def _steps(flow: Flow, kit: Kit, steps: Sequence[Step]) -> None:
    """The steps, a picture where a movement first comes, a caution where its tool is first in the hand."""
    if not steps:
        return
    said: set[str] = set()
    shown: set[str] = set()
    made = []
    for number, step in enumerate(steps, 1):
        new = [one_of(tool, tuple(CAUTIONS), "mind") for tool in step.mind if tool not in said]
        cautions = [f"{tool.capitalize()}: {CAUTIONS[tool]}" for tool in new]
        said.update(new)
        if number == 1:  # the first step's stand above it, with what holds for all
            made.append(set_step(flow.room, "Step by step", f"{_BEFORE} {COMES_FIRST}", "", "", cautions))
            cautions = []
        made.append(
            set_step(
                flow.room,
                f"{number}. {step.title}",
                # Said once for all the steps, with what comes first.
                " ".join((step.task.replace(f" {PRACTICE}", ""), *_cards_used(step))),
                step.check,
                mind(*step.mind),
                cautions,
                [_movement(kit, name) for name in step.movements if name not in shown],
            )
        )
        shown.update(step.movements)
    flow.steps(made)


def _movement(kit: Kit, name: str) -> Sheet:
    if name == _COUNTED:
        shown = counting_scene(counting_plan(kit.piece))
    else:
        shown = movement_scene(kit.piece, name, group=kit.group, hand=kit.hand, worked=kit.worked)
    return drawn(show_scene, shown.width, shown.height, shown)


def _cards_used(step: Step) -> Iterator[str]:
    """What to do with the gauge and the paper mitre, where the step doesn't say it."""
    for movement, (card, words) in _CARDS.items():
        if movement in step.movements and card not in step.task:
            yield words
