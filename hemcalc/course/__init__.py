"""What the notebooks ask a learner, and the sums by hand that they hold hemcalc against."""

from hemcalc.course.by_hand import Agreement, agreement
from hemcalc.course.checks import Check, check_of
from hemcalc.course.listing import listed

__all__ = ["Agreement", "Check", "agreement", "check_of", "listed"]
