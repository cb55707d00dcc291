"""The whole finish of a piece, told step by step."""

from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import Step

__all__ = [
    "Step",
    "finish_steps",
]
