"""The sums that learners do: the working, the slips that explain a wrong answer, and practice."""

from hemcalc.sums.checking import Mark, Report, check
from hemcalc.sums.exercises import Exercise, exercise, exercises_for_class, from_example
from hemcalc.sums.slips import possible_slips
from hemcalc.sums.sums import sums_of
from hemcalc.sums.verdict import Verdict, judge

__all__ = [
    "Exercise",
    "Mark",
    "Report",
    "Verdict",
    "check",
    "exercise",
    "exercises_for_class",
    "from_example",
    "judge",
    "possible_slips",
    "sums_of",
]
