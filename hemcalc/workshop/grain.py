"""A piece laid the other way: its across along the warp of the cloth.

Its threads are fixed, so its lengths are not exchanged: its counts and shrinkages are, and it is
planned anew.
"""

from __future__ import annotations

from dataclasses import replace

from hemcalc.bolt.cut_sizes import CutSize
from hemcalc.measure.errors import of_type
from hemcalc.piece.piece import Piece


def turned(piece: Piece) -> Piece:
    """The piece laid with its across along the warp; turned twice, it is as it was.

    What its fabric then calls warp is the cloth's weft, and the other way round.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc.measure.fabric import Fabric
    >>> piece = Piece(Fabric("36/in", "34/in"), (320, 240), hem="3/8 in", clear=8)
    >>> piece.edges.left.hem, turned(piece).edges.left.hem
    (14, 13)
    >>> turned(turned(piece)) == piece
    True
    """
    cloth = piece.fabric
    return piece.with_changes(
        fabric=replace(
            cloth,
            warp=cloth.weft,
            weft=cloth.warp,
            shrink_warp=cloth.shrink_weft,
            shrink_weft=cloth.shrink_warp,
        )
    )


def cut_size_of(name: object, piece: Piece, quantity: object = None, unit: str = "in") -> CutSize:
    """The size of a piece as it is cut, up to the ruler's mark, and its size when it is turned.

    Examples
    --------
    On 36 and 34 threads to the inch: turned, what was counted at 36 is counted at 34.

    >>> from hemcalc.measure.fabric import Fabric
    >>> piece = Piece(Fabric("36/in", "34/in"), (300, 220), hem=10, same="threads", clear=9)
    >>> cloth = cut_size_of("cloth", piece, 6)
    >>> cloth.text(), [side.text("in") for side in cloth.turned]
    ('6 of cloth, 10 5/8 in across × 8 7/8 in down', ['8 3/8 in', '11 1/4 in'])
    """
    of_type(piece, Piece, "piece", "example('coaster')")
    down, across = turned(piece).cut_size.to_cut(unit)
    return CutSize(name, *piece.cut_size.to_cut(unit), quantity, turned=(across, down))
