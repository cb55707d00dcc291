"""The whole cloth before and after: its raw edge held, its middle found, the design's outline, the end.

Drawn to the piece's own proportions, from the right side.
"""

from __future__ import annotations

from collections.abc import Callable

from hemcalc.draw.finish.scene import (
    HIGH,
    WIDE,
    Area,
    Point,
    Scene,
    Stroke,
    Words,
    arrow,
    curve,
    run,
    scene,
    threaded,
    whip,
)
from hemcalc.edge.ledger import Edge
from hemcalc.piece.piece import Piece
from hemcalc.piece.sizes import Size


class _Whole:
    """The cloth in the middle of the picture, in its own proportions."""

    def __init__(self, across: float, down: float, free: float = 3.0) -> None:
        self.scale = min((WIDE - 2 * free) / across, (HIGH - 2 * free) / down)
        self.width, self.height = across * self.scale, down * self.scale
        self.left, self.low = (WIDE - self.width) / 2, (HIGH - self.height) / 2

    def box(self, left: float, right: float, top: float, low: float) -> tuple[Point, ...]:
        """An upright oblong, its sides so many mm of cloth in from the cloth's own."""
        x0, x1 = self.left + left * self.scale, self.left + self.width - right * self.scale
        y0, y1 = self.low + low * self.scale, self.low + self.height - top * self.scale
        return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def hold_edge(piece: Piece) -> Scene:
    """Slanting stitches over the raw edge, to hold it."""
    x, y = 31.0, 10.0
    edge, done = (-1.0, y), (16.0, y)
    return scene(
        (
            Area("right", ((-1, y), (x, y), (x, HIGH + 1), (-1, HIGH + 1))),
            Stroke("thread", tuple(((t, y), (t, y - 1.3)) for t in (i * 1.3 for i in range(1, 24)))),
            Stroke("thread", tuple(((x, t), (x + 1.3, t)) for t in (y + i * 1.3 for i in range(1, 20)))),
            Stroke("sewing", tuple(whip(edge, done, 1.8, 3.4))),
            *threaded((19.0, y + 7.0), (27.0, y - 5.0), (17.0, y - 1.8), bend=4.0),
            Words((WIDE - 1, 3.0), "raw edge", "right"),
        )
    )


def fold_middle(piece: Piece) -> Scene:
    """The cloth folded in half each way, its middle lines along the folds."""
    cloth = _Whole(*_size(piece.cut_size))
    (x0, y0), (x1, _), (_, y1), _ = cloth.box(0, 0, 0, 0)
    half, across = (y0 + y1) / 2, (x0 + x1) / 2
    return scene(
        (
            Stroke("hidden", (((x0, half), (x0, y1), (x1, y1), (x1, half)),)),
            Area("right", ((x0, y0), (x1, y0), (x1, half), (x0, half))),
            Stroke("fold", (((x0 - 1, half), (x1 + 1, half)),)),
            Stroke("basted", (((across, y0), (across, half)),)),
            *arrow(*curve((across + 3, y1 - 1), (across + 10, half + 3), (across + 3, half - 4))),
            Words((x0 + 0.5, half + 3.0), "middle"),
        )
    )


def baste_outline(piece: Piece) -> Scene:
    """The middle lines basted, and the design's outline counted out from them."""
    cloth = _Whole(*_size(piece.cut_size))
    (x0, y0), (x1, _), (_, y1), _ = cloth.box(0, 0, 0, 0)
    left, right, top, low = _margins(piece, lambda edge: edge.rule.margin)
    outline = cloth.box(left, right, top, low)
    (a0, b0), (a1, _), (_, b1), _ = outline
    x, y = (a0 + a1) / 2, (b0 + b1) / 2
    sides = zip(outline, (*outline[1:], outline[0]), strict=True)
    return scene(
        (
            Area("right", ((x0, y0), (x1, y0), (x1, y1), (x0, y1))),
            Stroke("basted", (((x, y0), (x, y1)), ((x0, y), (x1, y)))),
            Stroke("sewing", tuple(stitch for start, end in sides for stitch in run(start, end, 1.6))),
            Words((x, (y + b1) / 2), f"{piece.design[0]} × {piece.design[1]}", "center"),
        )
    )


def finish(piece: Piece) -> Scene:
    """The finished piece, its right side up."""
    cloth = _Whole(*_size(piece.finished_size))
    outer = _margins(piece, lambda edge: edge.hem)
    inner = _margins(piece, lambda edge: edge.hem + edge.drawn)
    design = _margins(piece, lambda edge: edge.fold_1)
    open_line, clear = cloth.box(*outer), cloth.box(*inner)
    return scene(
        (
            Area("right", cloth.box(0, 0, 0, 0)),
            Area("gap", open_line),
            Area("right", clear),
            Area("design", cloth.box(*design)),
            Stroke("dimension", tuple(zip(open_line, clear, strict=True))),
            Words((WIDE / 2, HIGH / 2), "right side", "center"),
        )
    )


def _size(size: Size) -> tuple[float, float]:
    """Width and height of the cloth in hand, mm."""
    across, down = size.in_hand
    return float(across.mm), float(down.mm)


def _margins(piece: Piece, threads: Callable[[Edge], int]) -> tuple[float, float, float, float]:
    """So many threads of each side as widths in hand, mm: left, right, top, bottom."""
    left, right, top, bottom = piece.edges_in_hand.map(lambda edge: float(edge.width(threads(edge)).mm))
    return left, right, top, bottom
