"""How the stitches of a piece's four open lines are spaced: each side from corner to corner."""

from __future__ import annotations

from hemcalc.measure.errors import HemError, of_type
from hemcalc.measure.words import threads_said
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.stitch.groups import Spacing
from hemcalc.stitch.spacing import NoSuchGroups, space_stitches

__all__ = ["piece_spacings"]


def piece_spacings(piece: Piece, group: int = 4, hand: str = "right") -> Sides[Spacing]:
    """How the stitches of each of the four open lines are spaced, from corner to corner.

    Those at the top and the bottom take up the threads of the design's width and of the clear
    bands left and right; those at the left and the right the design's height with the others.

    Parameters
    ----------
    piece : Piece
        The piece.
    group, hand
        As for `hemcalc.space_stitches`.

    Raises
    ------
    HemError
        If `piece` is not a Piece, or a direction can't be made of such groups.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc import example
    >>> spacings = piece_spacings(example("sampler"))
    >>> spacings.top.threads, spacings.top.off_size, spacings.left.threads, spacings.left.off_size
    (312, 0, 244, 0)
    """
    (wide, high), clear = of_type(piece, Piece, "piece", "example('coaster')").design, piece.clear
    across = _side("top", wide + clear.left + clear.right, group, hand)
    down = _side("left side", high + clear.top + clear.bottom, group, hand)
    return Sides(left=down, right=down, top=across, bottom=across)


def _side(which: str, threads: int, group: int, hand: str) -> Spacing:
    try:
        return space_stitches(threads, group, hand=hand)
    except NoSuchGroups as error:
        said = f"The open line at the {which} has {threads_said(threads)}{error.why}"
        raise HemError(said, "design") from None
