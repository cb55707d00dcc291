"""The whole finish of a piece, from the counting of a blank cloth, told step by step."""

from hemcalc.finish.counting import CountingPlan, counting_plan
from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import Step

__all__ = [
    "CountingPlan",
    "Step",
    "counting_plan",
    "finish_steps",
]
