"""The pieces of the autumn linen workshop, by name, each unlike the others.

The workshop, its guild and every number here are invented, as examples to learn on.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from hemcalc.measure.errors import one_of
from hemcalc.measure.fabric import Fabric
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides

#: Invented pieces, by name; the first is the one that the course begins with.
EXAMPLES: Mapping[str, Piece] = MappingProxyType(
    {
        # Two counts, and a hem that is a whole number of threads neither way.
        "bread cloth": Piece(
            Fabric("29/in", "27/in", thickness="0.4 mm", washed=True), (230, 188), hem="3/8 in", clear=7
        ),
        # Four sides that differ: begun a little off the middle, with room below to hang it by.
        "sampler": Piece(
            Fabric("36/in", "34/in", thickness="0.3 mm", washed=True),
            (288, 216),
            hem="3/8 in",
            clear=Sides(11, 13, 12, 16),
        ),
        # Hem and counts alike all round, and too narrow for the rule of four.
        "bookmark": Piece(
            Fabric("28/in", thickness="0.4 mm", washed=True), (56, 196), hem=4, same="threads", clear=8
        ),
        # Coarse, and rounded down one way and up the other.
        "coaster": Piece(
            Fabric("25/in", "26/in", thickness="0.6 mm", washed=True), (76, 76), hem="3/8 in", clear=4
        ),
        # Metric, cut before the wash, which takes more off its length than off its width.
        "tray cloth": Piece(
            Fabric("12/cm", "9/cm", shrink_warp="10 %", shrink_weft="4 %", thickness="0.5 mm"),
            (300, 200),
            hem="1 cm",
            clear=6,
            handling="6 mm",
        ),
        # Small and fine.
        "lavender bag": Piece(
            Fabric("54/in", "52/in", thickness="0.2 mm", washed=True), (120, 144), hem="3/16 in", clear=6
        ),
    }
)


def example(name: str) -> Piece:
    """The piece of this name.

    Examples
    --------
    >>> example("bread cloth").edges.left.hem, example("bread cloth").edges.top.hem
    (11, 10)
    >>> example("bookmark").edges.left.rule.slack
    -4
    """
    return EXAMPLES[one_of(name, tuple(EXAMPLES), "example")]
