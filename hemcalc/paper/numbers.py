"""The numbers of a piece as they stand on paper: each said once, here, for every page that has it."""

from __future__ import annotations

from hemcalc.edge.ledger import Edge
from hemcalc.measure.counts import Count
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import FINEST_MARK
from hemcalc.paper.flow import Flow, first_as_its_words
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.piece.sizes import size_text
from hemcalc.workshop.kit import Kit


def alike(piece: Piece) -> tuple[tuple[str, tuple[Edge, Edge]], ...]:
    """The edges that differ under the names of their sides: as it is in hand, and as it finishes.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> [sides for sides, _ in alike(example("bookmark"))]
    ['all sides']
    >>> [sides for sides, _ in alike(example("coaster"))]
    ['left and right', 'top and bottom']
    """
    return Sides(*zip(piece.edges_in_hand, piece.edges, strict=True)).kinds()


def counts_said(fabric: Fabric, unit: str) -> str:
    """The counts of a cloth in the ruler's unit, and as a shop says them.

    Examples
    --------
    >>> counts_said(Fabric("28/in"), "in")
    '28/in'
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


def made_rows(kit: Kit, unit: str) -> list[list[str]]:
    """What a kit makes: its cloth, design and sizes, under a head."""
    piece = kit.piece
    shrinks_yet = piece.fabric.shrinks and not piece.fabric.washed
    cloth = f"{counts_said(piece.fabric, unit)}, {piece.fabric.condition}"
    size, threads = piece.cut_size.parts(unit)
    if kit.beginning == "blank, to size":
        room = ["to cut", f"{size} ({threads})"]
    else:  # a hoop or a frame needs it whole, and a step says when it is cut
        room = ["size", f"{size} ({threads}) or larger: don't cut it yet"]
    finished, off = piece.finished_size, piece.finished_size.give_or_take(unit)
    return [
        ["", f"What you make: {kit.kind}"],
        ["cloth", f"{cloth}: measured so, unless it says after the wash" if shrinks_yet else cloth],
        ["design", "{} × {} threads".format(*piece.design)],
        room,
        [
            "finished",
            "{} ({} × {} threads{})".format(
                size_text(finished.after, unit), *finished.threads, off and f", {off}"
            ),
        ],
    ]


def kit_rows(kit: Kit) -> list[list[str]]:
    """What is in the bag, and whose it is, under a head."""
    return [
        ["", f"Your kit, for the {kit.hand} hand"],
        ["thread", "\n".join(use.text() for use in kit.uses)],
        ["needles", "\n".join(each.text() for each in kit.counted)],
        ["tools", "ruler, small scissors, this sheet, and a page of cards: hem gauge and paper mitre"],
    ]


def edge_rows(piece: Piece, unit: str) -> list[list[str]]:
    """The lines of the edge, a column for each kind of side; threads counted outward from the design.

    Lengths are those of the cloth in hand; what the hem is after a wash that is still to come is
    said beside it.
    """
    shrinks_yet = piece.fabric.shrinks and not piece.fabric.washed

    def told(edge: Edge, finished: Edge) -> dict[str, str]:
        hem = f"{edge.hem} threads, {edge.hem_width.text(unit)}"
        # Rounded up: whoever marks it with a ruler must not have too little.
        leave = edge.rule.margin_length.rounded_up(FINEST_MARK[unit])
        return {
            "draw threads": f"{edge.first_drawn}{'' if edge.drawn == 1 else f' to {edge.open_line}'}",
            "fold 1 after thread": str(edge.fold_1),
            "fold 2 after thread": str(edge.fold_2),
            "cut after thread": str(edge.cut),
            **({"hem": hem} if shrinks_yet else {}),
            "hem, finished": finished.hem_width.text(unit) if shrinks_yet else hem,
            "turn": f"{edge.turn} threads, {edge.turn_width.text(unit)}",
            "margin to leave, at least": f"{edge.rule.margin} threads, {leave.text(unit)}",
        }

    # Sides whose numbers print alike share a column, though their threads may not be quite as far apart.
    kinds = Sides(*map(told, piece.edges_in_hand, piece.edges)).kinds()
    names = ["counted outward from the design", *(name for name, _ in kinds)]
    return [names, *([line, *(column[line] for _, column in kinds)] for line in kinds[0][1])]


def set_numbers(flow: Flow, kit: Kit, unit: str) -> None:
    """What is made and the kit beside each other, and below them the lines of the edge."""
    flow.tables_beside(made_rows(kit, unit), kit_rows(kit), (1.0, 1.35))
    flow.gap(1)
    edge = edge_rows(kit.piece, unit)
    flow.table(edge, first_as_its_words(edge, flow.room))


def groups_said(kit: Kit) -> list[str]:
    """How the stitches of the sides are grouped, in this kit's hand."""
    top, left = kit.spacings.top, kit.spacings.left
    if top == left:
        return [f"Each side has {top.threads} threads. {top.text()}"]
    return [
        f"Top and bottom have {top.threads} threads. {top.text()}",
        f"Left and right have {left.threads} threads. {left.text()}",
    ]


def notes_of(piece: Piece) -> list[str]:
    """What was rounded, and what to know of the edges."""
    return [note for note in piece.notes if not note.endswith("Nothing was rounded.")]
