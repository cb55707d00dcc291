"""What the notebooks ask a learner, and the sums by hand that they hold hemcalc against."""

from hemcalc.course.by_hand import Agreement, agreement
from hemcalc.course.checks import Check, check_of
from hemcalc.course.listing import listed
from hemcalc.course.mixing import next_of
from hemcalc.course.tasks import Task, task

__all__ = ["Agreement", "Check", "Task", "agreement", "check_of", "listed", "next_of", "task"]
