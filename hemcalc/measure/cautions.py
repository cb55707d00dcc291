"""The usual cautions, said where the step is: blades, needles, the iron, eyes.

They are written here and nowhere else: steps, pages and panels read them, the README and the
notebooks are compared with them.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from hemcalc.measure.errors import one_of

#: What to mind, by what is in the hand. Common practice, no published source; of irons no
#: handbook was found to say anything.
CAUTIONS: Mapping[str, str] = MappingProxyType(
    {
        "blade": (
            "Cut away from yourself and from the hand that holds the work. To snip a thread, slide one blade "
            "under that thread only. Cover points and edges between cuts."
        ),
        "needle": (
            "Count needles and pins out and in. Hold none in the mouth, pin nothing to your knee, and pass a "
            "needle with its point toward yourself. Fasten it in the work before you show it round. Cut "
            "thread, never bite it."
        ),
        "iron": (
            "Follow the iron's own instructions, and try it on a scrap. Keep fingers off the fold and out of "
            "the steam: it scalds when damp linen is pressed. Press over no plastic pin. Never leave an iron "
            "hot and unwatched, or in a child's reach."
        ),
        "eyes": (
            "Work in good light, bring the work up to your eyes, and rest eyes, neck and back often. Hold "
            "cloth up to a lamp or a window, never to the sun. A magnifier helps, but never leave it in the "
            "sun: it can start a fire."
        ),
    }
)

#: What goes before any caution, and with each.
COMES_FIRST = (
    "This is common practice, with no published source; the tool's own instructions and the workshop's "
    "own rules come first. Children only with an adult beside them."
)


def caution_for(*tools: str) -> str:
    """The caution for a step in which these are used, out of `CAUTIONS`, in sentences; empty for none.

    Examples
    --------
    >>> print(caution_for("eyes"))
    Work in good light, bring the work up to your eyes, and rest eyes, neck and back often. Hold ...
    >>> caution_for()
    ''
    """
    said = [CAUTIONS[one_of(tool, tuple(CAUTIONS), "tools")] for tool in tools]
    return " ".join([*said, COMES_FIRST]) if said else ""


def mind(*tools: str) -> str:
    """What to mind, by name alone, where the caution stands in full close by; empty for nothing.

    Examples
    --------
    >>> mind("blade", "eyes")
    'Mind: blade, eyes'
    """
    return f"Mind: {', '.join(tools)}" if tools else ""
