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

if TYPE_CHECKING:
    from hemcalc.bolt import cut_from_bolt as cut_from_bolt
    from hemcalc.corner import plan_corner as plan_corner
    from hemcalc.edge import plan_edge as plan_edge
    from hemcalc.edge import plan_section as plan_section
    from hemcalc.edge import rule_table as rule_table
    from hemcalc.finish import finish_steps as finish_steps
    from hemcalc.finish import hours as hours
    from hemcalc.finish import rescue as rescue
    from hemcalc.measure import Count as Count
    from hemcalc.measure import Fabric as Fabric
    from hemcalc.measure import HemError as HemError
    from hemcalc.measure import Length as Length
    from hemcalc.piece import EXAMPLES as EXAMPLES
    from hemcalc.piece import Piece as Piece
    from hemcalc.piece import Sides as Sides
    from hemcalc.piece import example as example
    from hemcalc.piece import load_piece as load_piece
    from hemcalc.piece import save_piece as save_piece
    from hemcalc.stitch import piece_spacings as piece_spacings
    from hemcalc.stitch import space_stitches as space_stitches
    from hemcalc.stitch import suggest_clear as suggest_clear
    from hemcalc.stitch import thread_needed as thread_needed
    from hemcalc.sums import check as check
    from hemcalc.sums import judge as judge
    from hemcalc.weave import open_line as open_line
    from hemcalc.workshop import Kit as Kit
    from hemcalc.workshop import Workshop as Workshop
    from hemcalc.workshop import example_workshop as example_workshop

#: The front door: each package's names that stand in it. The rest is had by package.
_FRONT = {
    "bolt": "cut_from_bolt",
    "corner": "plan_corner",
    "edge": "plan_edge plan_section rule_table",
    "finish": "finish_steps hours rescue",
    "measure": "Count Fabric HemError Length",
    "piece": "EXAMPLES Piece Sides example load_piece save_piece",
    "stitch": "piece_spacings space_stitches suggest_clear thread_needed",
    "sums": "check judge",
    "weave": "open_line",
    "workshop": "Kit Workshop example_workshop",
}
#: Brought in when first asked for, so that `import hemcalc` stays quick.
_PACKAGE = {name: package for package, names in _FRONT.items() for name in names.split()}

__all__ = list(_PACKAGE)


def __getattr__(name: str) -> object:
    """The value of a name of the front door."""
    if name not in _PACKAGE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value: object = getattr(import_module(f"hemcalc.{_PACKAGE[name]}"), name)
    globals()[name] = value  # so that it is looked up once only
    return value


def __dir__() -> list[str]:
    """The names of the front door, and no module that happens to be loaded."""
    return __all__
