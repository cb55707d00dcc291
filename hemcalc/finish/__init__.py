"""The whole finish of a piece: told step by step, timed, and rescued when it goes wrong."""

from hemcalc.finish.counting import CountingPlan, counting_plan
from hemcalc.finish.hours import Hours, Spell, hours
from hemcalc.finish.mishaps.rescue import ACCIDENTS, accident_costs, rescue
from hemcalc.finish.mishaps.told import Rescue
from hemcalc.finish.pace import Pace
from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import Step

__all__ = [
    "ACCIDENTS",
    "CountingPlan",
    "Hours",
    "Pace",
    "Rescue",
    "Spell",
    "Step",
    "accident_costs",
    "counting_plan",
    "finish_steps",
    "hours",
    "rescue",
]
