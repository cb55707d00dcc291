"""The cards of a kit, to cut out: its hem gauge and its paper mitre, on one page printed on one side."""

from __future__ import annotations

from hemcalc.measure.errors import of_type
from hemcalc.paper.flow import Flow
from hemcalc.paper.formats import paper_size
from hemcalc.paper.gauge import set_gauges
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.mitre import set_mitre
from hemcalc.workshop.kit import Kit

_ONE_SIDE = "Print this page on one side of the paper only: what is on its back is cut apart."


def kit_cards(kit: Kit, *, unit: str | None = None, paper: str = "A4", note: str = "") -> Leaflet:
    """The hem gauge and the paper mitre of a kit's piece, together on a page if they fit.

    Words are in ``"in"``, ``"cm"`` or ``"mm"``, the paper is ``"A4"`` or ``"Letter"``; a note stands at the
    foot. Marks and lines are exact.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> kit_cards(example_workshop().kits[0])
    Leaflet('Cards: bread cloth', 1 page)
    """
    of_type(kit, Kit, "kit", "Kit('Ada', example('coaster'))")
    unit = kit.piece.fabric.warp.unit_or(unit)
    title = f"Cards: {kit.kind}"
    flow = Flow(paper_size(paper), title, note)
    flow.title_line(f"{title}, {kit.learner}")
    flow.paragraph(_ONE_SIDE, bold=True)
    flow.cautions("blade")
    flow.heading("Hem gauge")
    marks = set_gauges(flow, kit, unit)
    mitre = set_mitre(flow, kit, unit, head="Paper mitre")
    for page in flow.pages:
        page.one_sided = True
    return flow.leaflet(title, f"Gauge at true size, from the open line: {', '.join(marks)}. Mitre: {mitre}")
