"""The pieces of the autumn linen workshop, by name.

The workshop, its guild and every number here are invented, as examples to learn on.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from hemcalc.measure.errors import one_of
from hemcalc.measure.fabric import Fabric
from hemcalc.piece.piece import Piece

__all__ = ["EXAMPLES", "example"]

#: Invented pieces, by name.
EXAMPLES: Mapping[str, Piece] = MappingProxyType(
    {
        "bread cloth": Piece(
            Fabric("32/in", thickness="0.4 mm", washed=True), (320, 320), hem="1/2 in", clear=8
        ),
        "sampler": Piece(
            Fabric("36/in", "34/in", thickness="0.3 mm", washed=True), (288, 216), hem="3/8 in", clear=12
        ),
        "bookmark": Piece(
            Fabric("28/in", thickness="0.4 mm", washed=True), (56, 196), hem=4, same="threads", clear=8
        ),
        "coaster": Piece(
            Fabric("25/in", "26/in", thickness="0.6 mm", washed=True), (76, 76), hem="3/8 in", clear=4
        ),
    }
)


def example(name: str) -> Piece:
    """The piece of this name.

    Raises
    ------
    HemError
        If there is none.

    Examples
    --------
    >>> example("bookmark").edges.left.rule.slack
    -4
    """
    return EXAMPLES[one_of(name, tuple(EXAMPLES), "example")]
