"""The lines that a finish bastes beside the three of the hem, and how long each is."""

from __future__ import annotations

from hemcalc.finish.counting import counting_plan
from hemcalc.finish.words import Steps
from hemcalc.measure.lengths import Length
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES


def basted(piece: Piece, steps: Steps) -> tuple[tuple[str, Length], ...]:
    """Every line that these steps baste beside the three of the hem, and how long it is in all.

    Examples
    --------
    >>> from hemcalc import example, finish_steps
    >>> coaster = example("coaster")
    >>> [name for name, _ in basted(coaster, finish_steps(coaster))]
    ['centre lines', 'counting lines', 'outline of the design', 'check before the snip', 'hem held down']
    """
    done = {movement for step in steps for movement in step.movements}
    cloth, (across, down) = piece.fabric, piece.design
    width, height = cloth.across.width(across), cloth.down.width(down)
    lines: list[tuple[str, Length]] = []
    if "baste the outline" in done:
        plan = counting_plan(piece)
        size = piece.cut_size.in_hand
        lines += [
            ("centre lines", size[0] + size[1]),
            ("counting lines", len(plan.across.lines) * height + len(plan.down.lines) * width),
            ("outline of the design", once_round(piece)),
        ]
    return (
        *lines,
        ("check before the snip", once_round(piece, "clear")),
        ("hem held down", once_round(piece, "open_line")),
    )


def once_round(piece: Piece, line: str = "") -> Length:
    """Once round a line of the ledger, or round the design, on the cloth in hand.

    Examples
    --------
    >>> from hemcalc import example
    >>> once_round(example("bookmark")).text("in")
    '18 in'
    """
    (across, down), out = (
        piece.design,
        {side: getattr(piece.edges.of(side), line) if line else 0 for side in SIDES},
    )
    width = piece.fabric.across.width(across + out["left"] + out["right"])
    return 2 * (width + piece.fabric.down.width(down + out["top"] + out["bottom"]))
