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

from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length

if TYPE_CHECKING:
    from hemcalc.bolt.buying import Layout, cut_from_bolt
    from hemcalc.bolt.remnant import Yield, have_from_remnant
    from hemcalc.bolt.wanted import Wanted
    from hemcalc.corner.mitre import Corner, plan_corner
    from hemcalc.edge.bend import bend_length, neutral_share
    from hemcalc.edge.ledger import Band, Edge, plan_edge
    from hemcalc.edge.margin import MarginRule
    from hemcalc.edge.rule_tables import RuleTable, rule_table
    from hemcalc.edge.section import Section, plan_section
    from hemcalc.finish.steps import Step, finish_steps
    from hemcalc.measure.counts import Count, MeasuredCount
    from hemcalc.measure.fabric import Fabric
    from hemcalc.piece.examples import EXAMPLES, example
    from hemcalc.piece.fit import Fit
    from hemcalc.piece.kept import load_piece, save_piece
    from hemcalc.piece.piece import Piece
    from hemcalc.piece.sides import Corners, Sides
    from hemcalc.piece.sizes import Extent, Size
    from hemcalc.stitch.amount import needlefuls
    from hemcalc.stitch.groups import Spacing
    from hemcalc.stitch.path import StitchPath, hem_stitch
    from hemcalc.stitch.plan import Sample, ThreadPlan
    from hemcalc.stitch.spacing import piece_spacings, rest_of_side, space_stitches
    from hemcalc.stitch.suggestions import Suggestion, suggest_clear
    from hemcalc.stitch.thread import thread_needed
    from hemcalc.sums.answers import Verdict, judge
    from hemcalc.sums.checking import Mark, Report, check
    from hemcalc.sums.exercises import Exercise, exercise, exercises_for_class, from_example
    from hemcalc.weave.reach import Allowances
    from hemcalc.weave.steps import steps_at
    from hemcalc.weave.ways import ways_at
    from hemcalc.weave.weave import Weave, open_line
    from hemcalc.workshop.cutting import cut_for_class
    from hemcalc.workshop.example import example_workshop
    from hemcalc.workshop.goods import Goods
    from hemcalc.workshop.kit import Kit
    from hemcalc.workshop.linen import Linen
    from hemcalc.workshop.spreadsheet import kit_rows, save_csv, shopping_rows
    from hemcalc.workshop.workshop import Workshop
    from hemcalc.yarn.density import LinearDensity
    from hemcalc.yarn.diameter import diameter_by_volume, peirce_diameter
    from hemcalc.yarn.gap import against_the_cloth
    from hemcalc.yarn.needle import pearl_cotton, tapestry_needle

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
    "cut_for_class",
    "cut_from_bolt",
    "diameter_by_volume",
    "example",
    "example_workshop",
    "exercise",
    "exercises_for_class",
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
    "Verdict": "sums.answers",
    "judge": "sums.answers",
    "bend_length": "edge.bend",
    "neutral_share": "edge.bend",
    "Corner": "corner.mitre",
    "plan_corner": "corner.mitre",
    "Count": "measure.counts",
    "MeasuredCount": "measure.counts",
    "Band": "edge.ledger",
    "Edge": "edge.ledger",
    "plan_edge": "edge.ledger",
    "Fabric": "measure.fabric",
    "Fit": "piece.fit",
    "MarginRule": "edge.margin",
    "Piece": "piece.piece",
    "RuleTable": "edge.rule_tables",
    "rule_table": "edge.rule_tables",
    "Section": "edge.section",
    "plan_section": "edge.section",
    "Corners": "piece.sides",
    "Extent": "piece.sizes",
    "Sides": "piece.sides",
    "Size": "piece.sizes",
    "Mark": "sums.checking",
    "Report": "sums.checking",
    "check": "sums.checking",
    "EXAMPLES": "piece.examples",
    "example": "piece.examples",
    "Exercise": "sums.exercises",
    "exercises_for_class": "sums.exercises",
    "exercise": "sums.exercises",
    "from_example": "sums.exercises",
    "Allowances": "weave.reach",
    "LinearDensity": "yarn.density",
    "Sample": "stitch.plan",
    "Spacing": "stitch.groups",
    "StitchPath": "stitch.path",
    "Suggestion": "stitch.suggestions",
    "ThreadPlan": "stitch.plan",
    "Weave": "weave.weave",
    "against_the_cloth": "yarn.gap",
    "diameter_by_volume": "yarn.diameter",
    "hem_stitch": "stitch.path",
    "needlefuls": "stitch.amount",
    "load_piece": "piece.kept",
    "open_line": "weave.weave",
    "pearl_cotton": "yarn.needle",
    "peirce_diameter": "yarn.diameter",
    "Step": "finish.steps",
    "finish_steps": "finish.steps",
    "piece_spacings": "stitch.spacing",
    "rest_of_side": "stitch.spacing",
    "save_piece": "piece.kept",
    "space_stitches": "stitch.spacing",
    "steps_at": "weave.steps",
    "suggest_clear": "stitch.suggestions",
    "tapestry_needle": "yarn.needle",
    "thread_needed": "stitch.thread",
    "ways_at": "weave.ways",
    "Goods": "workshop.goods",
    "Kit": "workshop.kit",
    "Linen": "workshop.linen",
    "Workshop": "workshop.workshop",
    "cut_for_class": "workshop.cutting",
    "example_workshop": "workshop.example",
    "save_csv": "workshop.spreadsheet",
    "kit_rows": "workshop.spreadsheet",
    "shopping_rows": "workshop.spreadsheet",
    "Layout": "bolt.buying",
    "Wanted": "bolt.wanted",
    "Yield": "bolt.remnant",
    "cut_from_bolt": "bolt.buying",
    "have_from_remnant": "bolt.remnant",
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
