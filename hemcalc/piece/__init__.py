"""The whole piece: four edges and corners round a design, the cloth to cut, and the file it is kept in."""

from hemcalc.piece.examples import EXAMPLES, example
from hemcalc.piece.fit import Fit
from hemcalc.piece.kept import load_piece, save_piece
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Corners, Sides
from hemcalc.piece.sizes import Extent, Size

__all__ = [
    "EXAMPLES",
    "Corners",
    "Extent",
    "Fit",
    "Piece",
    "Sides",
    "Size",
    "example",
    "load_piece",
    "save_piece",
]
