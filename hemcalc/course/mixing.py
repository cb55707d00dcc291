"""What to practise next: topics mixed, and each coming back after a longer while the surer it is.

Spaced and mixed practice: a topic that was wrong comes back soon; with each time that it is right in
a row the while doubles. A new topic begins when none is due.
"""

from __future__ import annotations

from hemcalc.course.tasks import TOPICS, Task, task
from hemcalc.measure.errors import of_type
from hemcalc.sums.checking import Report
from hemcalc.sums.exercises import Exercise
from hemcalc.sums.progress import Done, Progress

#: All topics, in the order in which they begin: the sums of ledger and margin first.
MIXED = ("sum", *TOPICS)
_SOON = 2  # sums until a topic comes back that was wrong
_LONGEST = 4  # how often that while is doubled


def next_of(progress: Progress) -> Exercise | Task:
    """The sum to do next, of the topic that is due.

    Examples
    --------
    >>> next_of(Progress()).title
    'Sum 1, level 1'
    >>> next_of(Progress((Done(1, 1, 1, 1),))).title
    'Count 1'
    """
    of_type(progress, Progress, "progress", "load_progress('my_sums.txt')")
    topic = _due(progress)
    before = progress.of_topic(topic)
    if topic == "sum":
        return before.next_sum()
    return task(topic, before.done[-1].seed + 1 if before.done else 1)


def _due(progress: Progress) -> str:
    """The topic that is most overdue; a new one if none is; else the one that is nearest to it."""
    now, late = len(progress.done), {}
    for topic in MIXED:
        times = [at for at, done in enumerate(progress.done) if done.topic == topic]
        if times:
            in_a_row = 0
            for at in reversed(times):
                if not progress.done[at].whole:
                    break
                in_a_row += 1
            late[topic] = (now - times[-1]) / (_SOON * 2 ** min(in_a_row, _LONGEST))
    new = [topic for topic in MIXED if topic not in late]
    # Mixed: none twice running.
    others = [topic for topic in late if topic != progress.done[-1].topic]
    latest = max(others, key=lambda topic: late[topic], default="")
    if new and (not latest or late[latest] < 1):
        return new[0]
    return latest


def with_answers(progress: Progress, done: Exercise | Task, answers: object) -> Progress:
    """Progress with a sum more: its report, or the answer to a short one.

    Refused if it is no such sum, or the report is not one of it.
    """
    if isinstance(done, Exercise):
        return progress.with_sum(done, of_type(answers, Report, "answers", "exercise(7).check({})"))
    right = int(of_type(done, Task, "done", "next_of(Progress())").check(answers).right or False)
    return progress.with_done(Done(done.seed, 0, right, 1, "" if right else done.named(answers), done.topic))
