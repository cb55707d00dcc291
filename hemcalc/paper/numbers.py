"""The numbers of a piece as they stand on paper: each said once, here, for every page that has it."""

from __future__ import annotations

from hemcalc.edge import Edge
from hemcalc.kit import Kit
from hemcalc.piece import Piece

__all__ = ["alike", "cloth_rows", "edge_rows", "groups_said", "notes_of"]

_SIDES = ("left", "right", "top", "bottom")


def alike(piece: Piece, *, in_hand: bool = False) -> tuple[tuple[str, Edge], ...]:
    """The edges that differ, each under the names of its sides.

    Examples
    --------
    >>> from hemcalc.examples import example
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


def cloth_rows(kit: Kit, unit: str) -> list[list[str]]:
    """Cloth, design, size, thread and needle of a kit."""
    piece = kit.piece
    counts = str(piece.fabric.across)
    if piece.fabric.across != piece.fabric.down:
        counts = f"{piece.fabric.across} across, {piece.fabric.down} down"
    finished = " × ".join(length.text(unit) for length in piece.finished_size.after)
    return [
        ["cloth", f"{counts}, {'washed' if piece.fabric.washed else 'not washed yet'}"],
        ["design", "{} × {} threads".format(*piece.design)],
        ["to cut", piece.cut_size.text(unit)],
        ["finished", "{} ({} × {} threads)".format(finished, *piece.finished_size.threads)],
        ["working thread", f"{kit.thread}: {kit.thread_text(unit)}"],
        ["needle", f"{kit.needle}, {kit.needles} handed out"],
    ]


def edge_rows(piece: Piece, unit: str) -> list[list[str]]:
    """The lines of the edge, a column for each kind of side; threads counted outward from the design."""
    sides = alike(piece)

    def row(name: str, *cells: str) -> list[str]:
        return [name, *cells]

    edges = [edge for _, edge in sides]
    drawn = [str(e.first_drawn) if e.drawn == 1 else f"{e.first_drawn} to {e.open_line}" for e in edges]
    return [
        row("threads counted outward from the design", *(name for name, _ in sides)),
        row("draw threads", *drawn),
        row("baste fold 1 after thread", *(str(edge.fold_1) for edge in edges)),
        row("baste fold 2 after thread", *(str(edge.fold_2) for edge in edges)),
        row("cut after thread", *(str(edge.cut) for edge in edges)),
        row("hem, finished", *(f"{edge.hem} threads, {edge.hem_width.text(unit)}" for edge in edges)),
        row("turn", *(f"{edge.turn} threads, {edge.turn_width.text(unit)}" for edge in edges)),
        row(
            "margin to leave", *(f"{e.rule.margin} threads, {e.rule.margin_length.text(unit)}" for e in edges)
        ),
    ]


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
