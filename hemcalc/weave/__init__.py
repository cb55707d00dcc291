"""The open line: threads drawn between the corners and darned back beyond them, crossing by crossing."""

from hemcalc.weave.reach import Allowances
from hemcalc.weave.steps import steps_at
from hemcalc.weave.ways import ways_at
from hemcalc.weave.weave import Weave, open_line

__all__ = [
    "Allowances",
    "Weave",
    "open_line",
    "steps_at",
    "ways_at",
]
