"""The cutting list: how much of each linen is bought, its picture, and every cut in order."""

from __future__ import annotations

from collections.abc import Mapping

from hemcalc.bolt.layout import Layout
from hemcalc.bolt.remnant import Yield
from hemcalc.draw.bolt.picture import bolt_sheets, show_part
from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.words import so_many
from hemcalc.paper.artwork import WHOLE, drawn
from hemcalc.paper.flow import HEAD, TEXT, Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import height_of, wrapped
from hemcalc.paper.printer import paper_size
from hemcalc.workshop.rests import Cutting
from hemcalc.workshop.workshop import Workshop

_INCH = 25.4  # mm
_AROUND = 6.0  # between a heading, what follows it and its picture, mm


def cutting_list(workshop: Workshop, layouts: Mapping[str, Layout], *, paper: str = "A4") -> Leaflet:
    """The cutting list of a workshop.

    The layouts are those of each linen, as from `cut_for_class`: its rests first. The paper is ``"A4"`` or
    ``"Letter"``.

    Examples
    --------
    >>> from hemcalc.workshop.cutting import cut_for_class
    >>> from hemcalc.workshop.example import example_workshop
    >>> cutting_list(example_workshop(), cut_for_class(example_workshop())).title
    'Cutting list: Autumn linen workshop'
    """
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    title, unit = f"Cutting list: {workshop.title}", workshop.unit
    if not isinstance(layouts, Mapping) or not all(isinstance(one, Layout) for one in layouts.values()):
        raise HemError(
            f"layouts is {shown(layouts)}, but must have a Layout for each linen; "
            "for example cut_for_class(workshop).",
            "layouts",
        )
    flow = Flow(paper_size(paper), title, workshop.note)
    flow.title_line(title)
    flow.paragraph("Across runs from selvedge to selvedge, down along the warp.")
    flow.cautions("blade")
    rests = layouts.rests if isinstance(layouts, Cutting) else ()
    for each in rests:
        heading = f"{each.rest.linen}: a rest from the cupboard, {each.rest.text(unit)}"
        _cloth(flow, heading, each.text(unit), each.had, unit)
    for name, layout in layouts.items():
        _cloth(flow, name, layout.text(unit), layout, unit)
    bought = ", ".join(f"{layout.buy_text(unit)} of {name}" for name, layout in layouts.items())
    lines = sum(len(cloth.lines) for cloth in (*(each.had for each in rests), *layouts.values()))
    from_rests = f"{so_many(len(rests), 'rest')} from the cupboard; " if rests else ""
    return flow.leaflet(title, f"{lines} lines to cut; {from_rests}to buy: {bought or 'nothing'}.")


def _cloth(flow: Flow, name: str, words: str, layout: Layout | Yield, unit: str) -> None:
    """A cloth's name, what is said of it, and its picture, all on one page; then every cut.

    A picture that needs more than a page goes on over several sheets.
    """
    above = height_of(TEXT, len(wrapped(words, flow.room, TEXT))) + _AROUND
    most = flow.page.bottom - flow.page.top - height_of(HEAD) - above - 1
    sheets = bolt_sheets(layout, unit, flow.room / _INCH, most=most / _INCH)
    for part, inches in sheets:
        tall, which = _INCH * inches, part.text(unit)
        flow.heading(f"{name}, {which}" if which else name, (above if part.number == 1 else 0) + tall)
        if part.number == 1:
            flow.paragraph(words)
        page, x, y = flow.place(tall, f"The picture of {name}")
        page.picture(x, y, drawn(show_part, flow.room, tall, WHOLE, part, unit))
    flow.gap(2)
    for step in layout.steps(unit):
        flow.ticked(step)
