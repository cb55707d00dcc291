"""The cutting list: how much of each linen is bought, and every cut in order."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from hemcalc.bolt import Layout
from hemcalc.errors import HemError, shown
from hemcalc.lengths import Length
from hemcalc.paper.flow import Flow
from hemcalc.paper.formats import paper_size
from hemcalc.paper.key import as_workshop
from hemcalc.paper.leaflet import Leaflet, printing
from hemcalc.workshop import Workshop

__all__ = ["cutting_list", "save_cutting_list"]


def cutting_list(workshop: Workshop, layouts: Mapping[str, Layout], *, paper: str = "A4") -> Leaflet:
    """The cutting list of a workshop.

    Parameters
    ----------
    workshop : Workshop
        The class.
    layouts : mapping of str to Layout
        How each linen is cut up, as from `cut_for_class`.
    paper : str
        ``"A4"`` or ``"Letter"``.

    Raises
    ------
    HemError
        If an input is none.

    Examples
    --------
    >>> from hemcalc.class_cutting import cut_for_class
    >>> from hemcalc.example_class import example_workshop
    >>> cutting_list(example_workshop(), cut_for_class(example_workshop())).title
    'Cutting list: Autumn linen workshop'
    """
    title, unit = f"Cutting list: {as_workshop(workshop).title}", workshop.unit
    if not isinstance(layouts, Mapping) or not all(isinstance(one, Layout) for one in layouts.values()):
        raise HemError(
            f"layouts is {shown(layouts)}, but must have a Layout for each linen; "
            "for example cut_for_class(workshop).",
            "layouts",
        )
    with printing():
        flow = Flow(paper_size(paper), title, workshop.note)
        flow.title_line(title)
        flow.paragraph("Across runs from selvedge to selvedge, down along the warp.")
        flow.cautions("blade")
        for name, layout in layouts.items():
            flow.heading(name)
            flow.paragraph(layout.text(unit))
            for step in layout.steps(unit):
                flow.ticked(step)
        bought = Length(sum(layout.to_buy.mm for layout in layouts.values()))
        cuts = sum(len(layout.cuts) for layout in layouts.values())
        return flow.leaflet(
            title, f"{cuts} cuts on {len(layouts)} linens, {bought.text(unit)} to buy in all."
        )


def save_cutting_list(
    path: str | os.PathLike[str],
    workshop: Workshop,
    layouts: Mapping[str, Layout],
    *,
    paper: str = "A4",
    replace: bool = False,
) -> Path:
    """Save the cutting list as PDF; as `cutting_list` and `Leaflet.save`."""
    return cutting_list(workshop, layouts, paper=paper).save(path, replace=replace)
