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

from hemcalc.errors import HemError
from hemcalc.lengths import Length

if TYPE_CHECKING:
    from hemcalc.amount import needlefuls
    from hemcalc.answers import Verdict, judge
    from hemcalc.bend import bend_length, neutral_share
    from hemcalc.bolt import Layout, cut_from_bolt
    from hemcalc.checking import Mark, Report, check
    from hemcalc.class_cutting import cut_for_class
    from hemcalc.corner import Corner, plan_corner
    from hemcalc.counts import Count, MeasuredCount
    from hemcalc.diameter import diameter_by_volume, peirce_diameter
    from hemcalc.edge import Band, Edge, plan_edge
    from hemcalc.example_class import example_workshop
    from hemcalc.examples import EXAMPLES, example
    from hemcalc.exercises import Exercise, class_set, exercise, from_example
    from hemcalc.fabric import Fabric
    from hemcalc.fit import Fit
    from hemcalc.gap import against_the_cloth
    from hemcalc.goods import Goods
    from hemcalc.groups import Spacing
    from hemcalc.kit import Kit
    from hemcalc.linen import Linen
    from hemcalc.margin import MarginRule
    from hemcalc.needle import pearl_cotton, tapestry_needle
    from hemcalc.piece import Piece
    from hemcalc.piece_file import load_piece, save_piece
    from hemcalc.reach import Allowances
    from hemcalc.remnant import Yield, have_from_remnant
    from hemcalc.rule_tables import RuleTable, rule_table
    from hemcalc.section import Section, plan_section
    from hemcalc.side_spacings import piece_spacings
    from hemcalc.sizes import Corners, Extent, Sides, Size
    from hemcalc.spacing import rest_of_side, space_stitches
    from hemcalc.spreadsheet import kit_rows, save_csv, shopping_rows
    from hemcalc.steps import Step, finish_steps
    from hemcalc.stitch import StitchPath, hem_stitch
    from hemcalc.suggestions import Suggestion, suggest_clear
    from hemcalc.thread import thread_needed
    from hemcalc.thread_plan import Sample, ThreadPlan
    from hemcalc.wanted import Wanted
    from hemcalc.weave import Weave, open_line
    from hemcalc.weave_steps import steps_at
    from hemcalc.weave_ways import ways_at
    from hemcalc.workshop import Workshop
    from hemcalc.yarn import LinearDensity

__all__ = [
    "EXAMPLES",
    "Allowances",
    "Band",
    "Corner",
    "Corners",
    "Count",
    "Edge",
    "Exercise",
    "Extent",
    "Fabric",
    "Fit",
    "Goods",
    "HemError",
    "Kit",
    "Layout",
    "Length",
    "LinearDensity",
    "Linen",
    "MarginRule",
    "Mark",
    "MeasuredCount",
    "Piece",
    "Report",
    "RuleTable",
    "Sample",
    "Section",
    "Sides",
    "Size",
    "Spacing",
    "Step",
    "StitchPath",
    "Suggestion",
    "ThreadPlan",
    "Verdict",
    "Wanted",
    "Weave",
    "Workshop",
    "Yield",
    "against_the_cloth",
    "bend_length",
    "check",
    "class_set",
    "cut_for_class",
    "cut_from_bolt",
    "diameter_by_volume",
    "example",
    "example_workshop",
    "exercise",
    "finish_steps",
    "from_example",
    "have_from_remnant",
    "hem_stitch",
    "judge",
    "kit_rows",
    "load_piece",
    "needlefuls",
    "neutral_share",
    "open_line",
    "pearl_cotton",
    "peirce_diameter",
    "piece_spacings",
    "plan_corner",
    "plan_edge",
    "plan_section",
    "rest_of_side",
    "rule_table",
    "save_csv",
    "save_piece",
    "shopping_rows",
    "space_stitches",
    "steps_at",
    "suggest_clear",
    "tapestry_needle",
    "thread_needed",
    "ways_at",
]

#: Names, and where they are: brought in when first asked for, so that
#: `import hemcalc` stays quick.
_LATER = {
    "Verdict": "answers",
    "judge": "answers",
    "bend_length": "bend",
    "neutral_share": "bend",
    "Corner": "corner",
    "plan_corner": "corner",
    "Count": "counts",
    "MeasuredCount": "counts",
    "Band": "edge",
    "Edge": "edge",
    "plan_edge": "edge",
    "Fabric": "fabric",
    "Fit": "fit",
    "MarginRule": "margin",
    "Piece": "piece",
    "RuleTable": "rule_tables",
    "rule_table": "rule_tables",
    "Section": "section",
    "plan_section": "section",
    "Corners": "sizes",
    "Extent": "sizes",
    "Sides": "sizes",
    "Size": "sizes",
    "Mark": "checking",
    "Report": "checking",
    "check": "checking",
    "EXAMPLES": "examples",
    "example": "examples",
    "Exercise": "exercises",
    "class_set": "exercises",
    "exercise": "exercises",
    "from_example": "exercises",
    "Allowances": "reach",
    "LinearDensity": "yarn",
    "Sample": "thread_plan",
    "Spacing": "groups",
    "StitchPath": "stitch",
    "Suggestion": "suggestions",
    "ThreadPlan": "thread_plan",
    "Weave": "weave",
    "against_the_cloth": "gap",
    "diameter_by_volume": "diameter",
    "hem_stitch": "stitch",
    "needlefuls": "amount",
    "load_piece": "piece_file",
    "open_line": "weave",
    "pearl_cotton": "needle",
    "peirce_diameter": "diameter",
    "Step": "steps",
    "finish_steps": "steps",
    "piece_spacings": "side_spacings",
    "rest_of_side": "spacing",
    "save_piece": "piece_file",
    "space_stitches": "spacing",
    "steps_at": "weave_steps",
    "suggest_clear": "suggestions",
    "tapestry_needle": "needle",
    "thread_needed": "thread",
    "ways_at": "weave_ways",
    "Goods": "goods",
    "Kit": "kit",
    "Linen": "linen",
    "Workshop": "workshop",
    "cut_for_class": "class_cutting",
    "example_workshop": "example_class",
    "save_csv": "spreadsheet",
    "kit_rows": "spreadsheet",
    "shopping_rows": "spreadsheet",
    "Layout": "bolt",
    "Wanted": "wanted",
    "Yield": "remnant",
    "cut_from_bolt": "bolt",
    "have_from_remnant": "remnant",
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
