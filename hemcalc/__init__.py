"""hemcalc: count, thread and margin sums for hemstitched, mitred edges.

Start with `Fabric` and `Piece` for a whole piece of work, or with `plan_edge` for one edge.
Importing hemcalc brings in the standard library only; figures are in `hemcalc.draw`, and the
panels with sliders in `hemcalc.panels`.
"""

import sys

# First of all, and in words that any older Python can read, so that it says this and no traceback.
if sys.version_info < (3, 11):  # noqa: UP036 - a checkout is run without pip, which would check it
    sys.exit(
        "hemcalc needs Python 3.11 or newer, and this one is Python "
        + sys.version.split()[0]
        + "; install a newer one and call it by its name, for example: python3.12 -m hemcalc open"
    )

from hemcalc.answers import Verdict, judge
from hemcalc.bend import bend_length, neutral_share
from hemcalc.checking import Mark, Report, check
from hemcalc.corner import Corner, plan_corner
from hemcalc.counts import Count, MeasuredCount
from hemcalc.edge import Band, Edge, plan_edge
from hemcalc.errors import HemError
from hemcalc.examples import EXAMPLES, example
from hemcalc.exercises import Exercise, class_set, exercise, from_example
from hemcalc.fabric import Fabric
from hemcalc.fit import Fit
from hemcalc.lengths import Length
from hemcalc.margin import MarginRule
from hemcalc.piece import Piece
from hemcalc.rule_table import RuleTable, rule_table
from hemcalc.section import Section, plan_section
from hemcalc.sizes import Corners, Extent, Sides, Size

__all__ = [
    "EXAMPLES",
    "Band",
    "Corner",
    "Corners",
    "Count",
    "Edge",
    "Exercise",
    "Extent",
    "Fabric",
    "Fit",
    "HemError",
    "Length",
    "MarginRule",
    "Mark",
    "MeasuredCount",
    "Piece",
    "Report",
    "RuleTable",
    "Section",
    "Sides",
    "Size",
    "Verdict",
    "bend_length",
    "check",
    "class_set",
    "example",
    "exercise",
    "from_example",
    "judge",
    "neutral_share",
    "plan_corner",
    "plan_edge",
    "plan_section",
    "rule_table",
]
