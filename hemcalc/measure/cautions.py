"""The usual cautions, said where the step is: blades, needles, the iron, eyes.

They come after the instructions of the tools themselves and the rules of the workshop, and
each says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from hemcalc.measure.errors import one_of

__all__ = ["CAUTIONS", "COMES_FIRST", "caution_for"]

#: What to heed, by what is in the hand. Common practice of the trade, no published source; of
#: irons no handbook was found to say anything.
CAUTIONS: Mapping[str, str] = MappingProxyType(
    {
        "blade": (
            "Cut away from yourself and from the hand that holds the work, slide one blade only under what "
            "is to be cut, and cover points and edges between cuts."
        ),
        "needle": (
            "Count the needles out and in, hold none in the mouth, and hand one over with its point toward "
            "yourself."
        ),
        "iron": (
            "Try the iron's heat on a scrap, keep fingers off the fold, iron over no plastic pin, and leave "
            "no hot iron unwatched or within a child's reach."
        ),
        "eyes": "Work in good light, with a magnifier if it helps, and rest eyes and neck often.",
    }
)

#: What goes before any caution.
COMES_FIRST = (
    "The tool's own instructions and the workshop's rules come first; children do this only with an adult "
    "beside them."
)


def caution_for(*tools: str) -> str:
    """The caution for a step in which these are used, in sentences; empty for none.

    Parameters
    ----------
    *tools : str
        Out of ``"blade"``, ``"needle"``, ``"iron"`` and ``"eyes"``.

    Raises
    ------
    HemError
        If one is none of the four.

    Examples
    --------
    >>> print(caution_for("eyes"))
    Work in good light, with a magnifier if it helps, and rest eyes and neck often. The tool's own...
    >>> caution_for()
    ''
    """
    said = [CAUTIONS[one_of(tool, tuple(CAUTIONS), "tools")] for tool in tools]
    return " ".join([*said, COMES_FIRST]) if said else ""
