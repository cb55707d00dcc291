"""The learner's sheet: her piece's numbers, its edge as a ruler, its corner, the steps, the cautions."""

from __future__ import annotations

from collections.abc import Sequence

from hemcalc.corner.mitre import Corner
from hemcalc.draw.corner.mitre import CornerMitre
from hemcalc.draw.edge.ruler import EdgeRuler
from hemcalc.draw.sheet import Sheet
from hemcalc.edge.ledger import Edge
from hemcalc.finish.steps import Step, finish_steps
from hemcalc.measure.cautions import CAUTIONS, mind
from hemcalc.measure.errors import of_type, one_of
from hemcalc.paper.artwork import WHOLE, drawn
from hemcalc.paper.flow import HEADING, Flow
from hemcalc.paper.formats import paper_size
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.numbers import alike, groups_said, notes_of, set_numbers
from hemcalc.workshop.kit import Kit

__all__ = ["learner_sheet"]

_RULER = 43.5  # height of the edge as a ruler, mm
_CORNER = 60.0  # height of the corner's two pictures, mm
_BETWEEN = 4.0


def learner_sheet(
    kit: Kit,
    steps: Sequence[Step] | None = None,
    *,
    unit: str | None = None,
    paper: str = "A4",
    note: str = "",
) -> Leaflet:
    """The sheet that lies beside the learner.

    Parameters
    ----------
    kit : Kit
        Hers.
    steps : sequence of Step, optional
        The finish, a title, text, check and what to mind each; the piece's own steps if left out.
    unit : str, optional
        ``"in"``, ``"cm"`` or ``"mm"``.
    paper : str
        ``"A4"`` or ``"Letter"``.
    note : str
        A line for the foot of each page.

    Raises
    ------
    HemError
        If an input is none.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> learner_sheet(example_workshop().kits[0])
    Leaflet('Ada: bread cloth', 3 pages)
    """
    of_type(kit, Kit, "kit", "Kit('Ada', example('coaster'))")
    title = f"{kit.learner}: {kit.kind}"
    unit = kit.piece.fabric.warp.unit_or(unit)
    told = finish_steps(kit.piece, group=kit.group, hand=kit.hand, unit=unit) if steps is None else steps
    every = told if isinstance(told, tuple | list) else [told]
    told = [of_type(step, Step, "steps", "finish_steps(kit.piece)") for step in every]
    flow = Flow(paper_size(paper), title, note)
    flow.title_line(title, beside="begun: ______________   finished: ______________")
    set_numbers(flow, kit, unit, hand=kit.hand)
    flow.gap(0.8)
    for sentences in ([kit.way_text] if kit.turned else [], groups_said(kit), notes_of(kit.piece)):
        if sentences:
            flow.paragraph(" ".join(sentences))
    _rulers(flow, kit, unit)
    _cautions(flow, told)
    # What is left of the page is for the steps, if the corner doesn't fit on it.
    now = flow.has(_CORNER + HEADING)
    if now:
        _corner(flow, kit, unit)
    _steps(flow, told)
    if not now:
        _corner(flow, kit, unit)
    cut = kit.piece.edges.map(lambda edge: edge.cut).text()
    return flow.leaflet(title, f"cut after thread {cut}; {kit.cloth_text(unit)}.")


def _rulers(flow: Flow, kit: Kit, unit: str) -> None:
    """The edge as a ruler, in hand, once for each kind of side; no scale, since threads are counted."""
    for sides, (edge, _) in alike(kit.piece):
        flow.heading(f"{sides.capitalize()}: the edge, thread by thread (not to scale)", _RULER)
        page, x, y = flow.place(_RULER, "The edge as a ruler")
        page.picture(x, y, drawn(_show_ruler, flow.room, _RULER, edge, unit))


def _show_ruler(sheet: Sheet, edge: Edge, unit: str) -> None:
    EdgeRuler(sheet, WHOLE, max(round(1.1 * edge.rule.margin), 40)).update(edge, unit)


def _show_corner(sheet: Sheet, corner: Corner, progress: float, unit: str) -> None:
    outward = max(float(place) for place in corner.raw_corner)
    CornerMitre(sheet, WHOLE, 0.6 * outward, outward).update(corner, progress, unit)


def _corner(flow: Flow, kit: Kit, unit: str) -> None:
    """The corner flat and folded, side by side, with what to look for."""
    corner = kit.piece.corners.top_left
    flow.heading("The corner, from the wrong side (not to scale)", _CORNER)
    page, x, y = flow.place(_CORNER, "The corner")
    across = (flow.room - _BETWEEN) / 2
    for i, progress in enumerate((0.0, 1.0)):
        picture = drawn(_show_corner, across, _CORNER, corner, progress, unit)
        page.picture(x + i * (across + _BETWEEN), y, picture)


def _cautions(flow: Flow, steps: Sequence[Step]) -> None:
    """Each caution in full, once, above the steps that it belongs to."""
    needed = {one_of(tool, tuple(CAUTIONS), "mind") for step in steps for tool in step.mind}
    if needed:
        flow.cautions(
            *(tool for tool in CAUTIONS if tool in needed),
            where="each step says beside its name which to mind",
        )


def _steps(flow: Flow, steps: Sequence[Step]) -> None:
    if not steps:
        return
    flow.ticked_in_columns(
        "Step by step",
        [
            (
                f"{number}. {step.title}",
                mind(*step.mind),
                (step.task, f"Check: {step.check}" if step.check else ""),
            )
            for number, step in enumerate(steps, 1)
        ],
    )
