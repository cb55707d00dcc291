"""The leader's key: every kind of piece with its numbers and who works it, to check a class by."""

from __future__ import annotations

from hemcalc.measure.cautions import CAUTIONS
from hemcalc.measure.errors import of_type
from hemcalc.measure.words import so_many
from hemcalc.paper.flow import Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.numbers import groups_said, notes_of, set_numbers
from hemcalc.paper.printer import paper_size
from hemcalc.workshop.bag import OF_THE_ROOM
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.workshop import Workshop


def leader_key(workshop: Workshop, *, paper: str = "A4") -> Leaflet:
    """The key of a workshop, on ``"A4"`` or ``"Letter"``.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> leader_key(example_workshop()).title
    "Leader's key: Autumn linen workshop"
    """
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    unit = workshop.unit
    title = f"Leader's key: {workshop.title}"
    learners, pieces = len(workshop.learners), len(workshop.kits)
    made = f" with {so_many(pieces, 'piece')}" if pieces > learners else ""
    handed = f"{so_many(learners, 'learner')}{made}, {so_many(len(workshop.spares), 'spare kit')}"
    flow = Flow(paper_size(paper), title, workshop.note)
    flow.title_line(title, beside="date: ______________")
    flow.paragraph(f"{handed}.", bold=True)
    flow.table(
        [
            ["counted out and in", "in the learners' bags", "in spare bags", "loose", "in all", "back in"],
            *(
                [out.name, str(out.in_bags), str(out.in_spare_bags), str(out.loose), str(out.in_all), ""]
                for out in workshop.counted_out
            ),
        ],
        (2.2, 1.6, 1.2, 1, 1, 1.2),
    )
    flow.paragraph(f"Of the room, and in no bag: {', '.join(OF_THE_ROOM)}.")
    flow.paragraph(
        "Cards stand at the end of the class's file: print them on one side of the paper, for they are cut "
        "apart; all else may be printed on both."
    )
    flow.cautions(*CAUTIONS)
    for kits in _kinds(workshop):
        flow.heading(f"{kits[0].kind.capitalize()}: {', '.join(_who(kit) for kit in kits)}", 60)
        set_numbers(flow, kits[0], unit)
        flow.paragraph(" ".join(groups_said(kits[0])))
        if others := [kit.learner for kit in kits if kit.spacings.left.way != kits[0].spacings.left.way]:
            flow.paragraph(f"The same groups, worked the other way: {', '.join(others)}.")
        if notes := notes_of(kits[0].piece):
            flow.paragraph(" ".join(notes))
    _register(flow, workshop)
    out = ", ".join(f"{each.in_all} {each.name}" for each in workshop.counted_out)
    return flow.leaflet(title, f"{handed}; {out}.")


def _register(flow: Flow, workshop: Workshop) -> None:
    """Who has what, with room to write down what comes back."""
    flow.heading("The class, needles counted out and in")
    flow.table(
        [
            ["learner", "piece", "hand", "needles out", "needles in", "pins out", "pins in", "finished"],
            *(
                [kit.learner, kit.kind, kit.hand, str(kit.needles + kit.sharps), "", str(kit.pins), "", ""]
                for kit in workshop.every_kit
            ),
        ],
        (1.5, 1.8, 0.8, 1.7, 1.5, 1.2, 1.1, 1.2),
    )


def _kinds(workshop: Workshop) -> list[list[Kit]]:
    """Kits that differ only in who works them, and in which hand."""
    kinds: list[list[Kit]] = []
    for kit in workshop.every_kit:
        for kits in kinds:
            if _same(kit) == _same(kits[0]):
                kits.append(kit)
                break
        else:
            kinds.append([kit])
    return kinds


def _same(kit: Kit) -> tuple[object, ...]:
    return kit.kind, kit.piece, kit.group, kit.thread, kit.needle, kit.needles, kit.plan


def _who(kit: Kit) -> str:
    return kit.learner if kit.hand == "right" else f"{kit.learner} (left hand)"
