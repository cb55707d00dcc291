"""hemcalc: count, thread and margin sums for hemstitched, mitred edges.

Start with `Fabric` and `Piece` for a whole piece of work, or with `plan_edge` for one edge.
Importing hemcalc brings in the standard library only; figures are in `hemcalc.draw`, and the
panels with sliders in `hemcalc.panels`.
"""

import sys
from importlib import import_module
from typing import TYPE_CHECKING

# First of all, and in words that any older Python can read, so that it says this and no traceback.
if sys.version_info < (3, 11):  # noqa: UP036 - a checkout is run without pip, which would check it
    sys.exit(
        "hemcalc needs Python 3.11 or newer, and this one is Python "
        + sys.version.split()[0]
        + "; install a newer one and call it by its name, for example: python3.12 -m hemcalc open"
    )

from hemcalc.answers import Verdict, judge
from hemcalc.bend import bend_length, neutral_share
from hemcalc.corner import Corner, plan_corner
from hemcalc.counts import Count, MeasuredCount
from hemcalc.edge import Band, Edge, plan_edge
from hemcalc.errors import HemError
from hemcalc.examples import EXAMPLES, example
from hemcalc.fabric import Fabric
from hemcalc.fit import Fit
from hemcalc.lengths import Length
from hemcalc.margin import MarginRule
from hemcalc.piece import Piece
from hemcalc.rule_table import RuleTable, rule_table
from hemcalc.section import Section, plan_section
from hemcalc.sizes import Corners, Extent, Sides, Size

if TYPE_CHECKING:
    from hemcalc.groups import Spacing
    from hemcalc.piece_file import load_piece, save_piece
    from hemcalc.reach import Allowances
    from hemcalc.spacing import rest_of_side, space_stitches
    from hemcalc.suggestions import Suggestion, piece_spacings, suggest_clear
    from hemcalc.weave import Weave, open_line
    from hemcalc.weave_steps import steps_at
    from hemcalc.weave_ways import ways_at

__all__ = [
    "EXAMPLES",
    "Allowances",
    "Band",
    "Corner",
    "Corners",
    "Count",
    "Edge",
    "Extent",
    "Fabric",
    "Fit",
    "HemError",
    "Length",
    "MarginRule",
    "MeasuredCount",
    "Piece",
    "RuleTable",
    "Section",
    "Sides",
    "Size",
    "Spacing",
    "Suggestion",
    "Verdict",
    "Weave",
    "bend_length",
    "example",
    "judge",
    "load_piece",
    "neutral_share",
    "open_line",
    "piece_spacings",
    "plan_corner",
    "plan_edge",
    "plan_section",
    "rest_of_side",
    "rule_table",
    "save_piece",
    "space_stitches",
    "steps_at",
    "suggest_clear",
    "ways_at",
]

#: Names that not everybody needs, and where they are: brought in when first asked for, so that
#: `import hemcalc` stays quick.
_LATER = {
    "Allowances": "reach",
    "Spacing": "groups",
    "Suggestion": "suggestions",
    "Weave": "weave",
    "load_piece": "piece_file",
    "open_line": "weave",
    "piece_spacings": "suggestions",
    "rest_of_side": "spacing",
    "save_piece": "piece_file",
    "space_stitches": "spacing",
    "steps_at": "weave_steps",
    "suggest_clear": "suggestions",
    "ways_at": "weave_ways",
}


def __getattr__(name: str) -> object:
    """The value of a name that is brought in later."""
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: object = getattr(import_module(f"hemcalc.{_LATER[name]}"), name)
    globals()[name] = value  # so that it is looked up once only
    return value


def __dir__() -> list[str]:
    """The public names, those brought in later among them."""
    return sorted({*globals(), *__all__})
