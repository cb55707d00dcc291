"""Kit labels: one for each bag, several to a page, to cut apart."""

from __future__ import annotations

from hemcalc.measure.cautions import caution_for
from hemcalc.measure.errors import of_type
from hemcalc.paper.flow import TEXT, Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import height_of, wrapped
from hemcalc.paper.numbers import counts_said
from hemcalc.paper.printer import paper_size
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.workshop import Workshop

_ACROSS = 2
_PAD = 3.0  # from a label's edge to its words, mm
_NAME = 12.0


def kit_labels(workshop: Workshop, *, paper: str = "A4") -> Leaflet:
    """A label for each kit of a workshop, the spares' last, on ``"A4"`` or ``"Letter"``.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> kit_labels(example_workshop()).title
    'Kit labels: Autumn linen workshop'
    """
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    title = f"Kit labels: {workshop.title}"
    kits = workshop.every_kit
    flow = Flow(paper_size(paper), title, workshop.note)
    flow.paragraph(f"Cut apart along the broken lines. {caution_for('blade')}")
    flow.gap(2)
    across = flow.room / _ACROSS
    labels = [_lines(kit, workshop, across - 2 * _PAD) for kit in kits]
    down = max(_height(name, words) for name, words in labels)
    for i in range(0, len(labels), _ACROSS):
        flow.keep(down, "A row of labels")
        row = labels[i : i + _ACROSS]
        _cut_lines(flow, len(row), across, down, first=i == 0 or flow.y == flow.page.top)
        for j, (name, words) in enumerate(row):
            x, y = flow.left + j * across, flow.y
            for k, line in enumerate(name):
                flow.page.text(x + _PAD, y + _PAD + height_of(_NAME, k), line, _NAME, bold=True)
            y += _PAD + height_of(_NAME, len(name)) + 1
            for k, line in enumerate(words):
                flow.page.text(x + _PAD, y + height_of(TEXT, k), line, TEXT)
        flow.y += down
    return flow.leaflet(title, f"{len(kits)} labels, for {len(workshop.learners)} learners and the spares.")


def _cut_lines(flow: Flow, labels: int, across: float, down: float, *, first: bool) -> None:
    """The lines round a row of labels, each once: laid over each other, broken lines look whole."""
    left, right, top, bottom = flow.left, flow.left + labels * across, flow.y, flow.y + down
    for j in range(labels + 1):
        flow.page.line([(left + j * across, top), (left + j * across, bottom)], "cut")
    if first:
        flow.page.line([(left, top), (right, top)], "cut")
    flow.page.line([(left, bottom), (right, bottom)], "cut")


def _lines(kit: Kit, workshop: Workshop, room: float) -> tuple[list[str], list[str]]:
    unit = workshop.unit
    across, down = (side.text(unit) for side in kit.to_cut(unit))
    said = (
        f"{_which(kit, workshop)}{kit.kind}, {kit.hand} hand",
        f"cloth, {kit.piece.fabric.condition}: {across} across × {down} down, {_linen(kit, workshop)}",
        f"counts: {counts_said(kit.piece.fabric, unit)}",
        *(use.text() for use in kit.uses),
        f"to be counted in again: {'; '.join(each.text() for each in kit.counted)}",
        "ruler, small scissors, sheet, hem gauge and paper mitre",
        workshop.title,
    )
    words = [line for text in said for line in wrapped(text, room, TEXT)]
    return wrapped(kit.learner, room, _NAME, True), words


def _which(kit: Kit, workshop: Workshop) -> str:
    """Which of a learner's pieces it is, where she has several."""
    hers = [one for one in workshop.kits if one.learner == kit.learner]
    return f"{hers.index(kit) + 1} of {len(hers)}: " if len(hers) > 1 and kit in hers else ""


def _linen(kit: Kit, workshop: Workshop) -> str:
    """What it is cut from, and what must come first."""
    linen = workshop.linen_of(kit)
    first = "; wash first, then cut" if linen.wash == "before cutting" else ""
    turned = "; cut turned, its across along the warp" if kit.turned else ""
    return f"of {linen.name}{first}{turned}"


def _height(name: list[str], words: list[str]) -> float:
    return height_of(_NAME, len(name)) + height_of(TEXT, len(words)) + 2 * _PAD + 1
