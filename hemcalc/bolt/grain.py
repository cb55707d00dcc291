"""A piece laid the other way: its across along the warp of the cloth.

Its threads are fixed, so its lengths are not exchanged: its counts and shrinkages are, and it is
planned anew.
"""

from __future__ import annotations

from dataclasses import replace

from hemcalc.piece.piece import Piece

__all__ = ["turned"]


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
