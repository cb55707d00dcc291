"""The numbers of a piece as they stand on paper: each said once, here, for every page that has it."""

from __future__ import annotations

from hemcalc.edge.ledger import Edge
from hemcalc.measure.counts import Count
from hemcalc.measure.fabric import Fabric
from hemcalc.paper.flow import Flow
from hemcalc.piece.piece import Piece
from hemcalc.workshop.kit import Kit

__all__ = ["alike", "cloth_rows", "counts_said", "edge_rows", "groups_said", "notes_of", "set_numbers"]

#: Shares of the width for the cloth's table and for the edge's, by how many kinds of side there are.
_BESIDE = ((1.1, 1.0), (0.8, 1.0))
_SIDES = ("left", "right", "top", "bottom")


def alike(piece: Piece, *, in_hand: bool = False) -> tuple[tuple[str, Edge], ...]:
    """The edges that differ, each under the names of its sides.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> [sides for sides, _ in alike(example("bread cloth"))]
    ['all sides']
    >>> [sides for sides, _ in alike(example("sampler"))]
    ['left and right', 'top and bottom']
    """
    edges = piece.edges_in_hand if in_hand else piece.edges
    found: dict[tuple[object, ...], list[str]] = {}
    first: dict[tuple[object, ...], Edge] = {}
    for side, edge in zip(_SIDES, edges, strict=True):
        same = (edge.count, edge.clear, edge.drawn, edge.hem, edge.turn, edge.handling)
        found.setdefault(same, []).append(side)
        first.setdefault(same, edge)
    return tuple(
        ("all sides" if len(sides) == len(_SIDES) else " and ".join(sides), first[same])
        for same, sides in found.items()
    )


def counts_said(fabric: Fabric, unit: str) -> str:
    """The counts of a cloth in the ruler's unit, and as a shop says them.

    Examples
    --------
    >>> counts_said(Fabric("32/in"), "in")
    '32/in'
    >>> counts_said(Fabric("25/in", "26/in"), "cm")
    '≈ 9.84/cm (25/in) across, ≈ 10.24/cm (26/in) down'
    """

    def said(count: Count) -> str:
        shop = str(count)
        ruler = count.text(unit)
        return shop if shop == ruler else f"{ruler} ({shop})"

    if fabric.across == fabric.down:
        return said(fabric.across)
    return f"{said(fabric.across)} across, {said(fabric.down)} down"


def cloth_rows(kit: Kit, unit: str) -> list[list[str]]:
    """Cloth, design, size, thread and needle of a kit."""
    piece = kit.piece
    finished = " × ".join(length.text(unit) for length in piece.finished_size.after)
    return [
        [
            "cloth",
            f"{counts_said(piece.fabric, unit)}, {'washed' if piece.fabric.washed else 'not washed yet'}",
        ],
        ["design", "{} × {} threads".format(*piece.design)],
        ["to cut", piece.cut_size.text(unit).removeprefix("cut ")],
        ["finished", "{} ({} × {} threads)".format(finished, *piece.finished_size.threads)],
        ["thread", f"{kit.thread}: {kit.thread_text(unit)}"],
        ["needle", f"{kit.needle}, {kit.needles} handed out"],
    ]


def edge_rows(piece: Piece, unit: str) -> list[list[str]]:
    """The lines of the edge, a column for each kind of side; threads counted outward from the design."""
    sides = alike(piece)
    edges = [edge for _, edge in sides]
    drawn = [str(e.first_drawn) if e.drawn == 1 else f"{e.first_drawn} to {e.open_line}" for e in edges]
    return [
        ["counted outward from the design", *(name for name, _ in sides)],
        ["draw threads", *drawn],
        ["fold 1 after thread", *(str(edge.fold_1) for edge in edges)],
        ["fold 2 after thread", *(str(edge.fold_2) for edge in edges)],
        ["cut after thread", *(str(edge.cut) for edge in edges)],
        ["hem, finished", *(f"{edge.hem} threads, {edge.hem_width.text(unit)}" for edge in edges)],
        ["turn", *(f"{edge.turn} threads, {edge.turn_width.text(unit)}" for edge in edges)],
        ["margin to leave", *(f"{e.rule.margin} threads, {e.rule.margin_length.text(unit)}" for e in edges)],
    ]


def set_numbers(flow: Flow, kit: Kit, unit: str, hand: str = "") -> None:
    """The cloth's numbers and the edge's, beside each other where they have room."""
    cloth, edge = cloth_rows(kit, unit), edge_rows(kit.piece, unit)
    if hand:
        cloth.append(["hand", f"{hand}: it holds the needle"])
    kinds = len(edge[0]) - 1
    if kinds <= len(_BESIDE):
        flow.tables_beside(cloth, edge, _BESIDE[kinds - 1])
    else:
        flow.table(cloth, (1, 4), head=False)
        flow.gap(2)
        flow.table(edge, (2, *(1.2 for _ in range(kinds))))


def groups_said(kit: Kit) -> list[str]:
    """How the stitches of the sides are grouped, in this kit's hand."""
    top, left = kit.spacings.top, kit.spacings.left
    if top == left:
        return [f"Each side has {top.threads} threads. {top.sentence}"]
    return [
        f"Top and bottom have {top.threads} threads. {top.sentence}",
        f"Left and right have {left.threads} threads. {left.sentence}",
    ]


def notes_of(piece: Piece) -> list[str]:
    """What was rounded, and what to know of the edges."""
    return [note for note in piece.notes if not note.endswith("Nothing was rounded.")]
