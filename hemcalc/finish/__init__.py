"""The whole finish of a piece, told step by step, and what to do when it goes wrong."""

from hemcalc.finish.mishaps.rescue import ACCIDENTS, Rescue, rescue
from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import Step

__all__ = [
    "ACCIDENTS",
    "Rescue",
    "Step",
    "finish_steps",
    "rescue",
]
