"""Accidents with the hem stitch: a group caught wrongly, and groups that don't come out at the corner."""

from __future__ import annotations

from hemcalc.finish.mishaps.told import Rescue, Told, step
from hemcalc.finish.words import Step
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import so_many, threads_said
from hemcalc.stitch.amount import needlefuls
from hemcalc.stitch.groups import Spacing
from hemcalc.stitch.spacing import piece_spacings, rest_of_side
from hemcalc.stitch.thread import thread_needed


def group_miscounted(told: Told) -> Rescue:
    """A group has caught too many threads, or dropped some."""
    spacing = piece_spacings(told.piece, told.group, told.hand, told.worked).of(told.side)
    back = told.which(usual=2, least=1, most=spacing.count)
    return told.rescue(
        "One group is thicker or thinner than its neighbours, or a thread stands alone between two. Count "
        f"from the last corner: the groups of the {told.side} side are {_sizes(spacing)}.",
        (
            _unpick(back),
            step(
                "Work them again",
                f"Fasten on a fresh needleful and work the {so_many(back, 'group')} again, counting aloud. "
                "Lift the group on the needle and count its threads before you draw the thread round it.",
                f"The side still comes to {so_many(spacing.count, 'group')} for its "
                f"{threads_said(spacing.threads)}.",
                "needle",
                "eyes",
            ),
        ),
        "If a thread of the linen broke with the unpicking; or if the fault lies more than a side back: one "
        "group with a thread more or less is seen by nobody but you.",
        replacement=_fresh(told, back),
        sewing=True,
    )


def groups_do_not_come_out(told: Told) -> Rescue:
    """Threads are left before a corner that make no groups."""
    left = told.which(usual=told.between % told.group or 1, least=1, most=told.between)
    unpicked, rest = _rest(told, left)
    undo = (_unpick(unpicked),) if unpicked else ()
    return told.rescue(
        f"Threads left before the corner of the {told.side} side: {left}. The groups are of {told.group}.",
        (
            step(
                "Count what is left",
                "Count the threads from the last stitch to the open square, twice, a needle under every "
                "fifth. Take in no thread of the next side.",
                f"Both counts say {left}.",
                "needle",
                "eyes",
            ),
            *undo,
            step(
                "Share them out",
                f"{rest.text()} That is {threads_said(rest.threads)} in all.",
                "The last group ends at the open square, and no group is more than a thread from its "
                "neighbours.",
                "needle",
                "eyes",
            ),
        ),
        "If the count of the whole side is not what the plan says: then a thread is missing, or was caught "
        "twice, further back. Before the first stitch is made, another clear band is the better cure.",
        replacement=_fresh(told, rest.count),
        sewing=True,
    )


def _rest(told: Told, left: int) -> tuple[int, Spacing]:
    """How many groups to take out, and how what is then left is worked."""
    for unpicked in range((told.between - left) // told.group + 1):
        try:
            return unpicked, rest_of_side(
                left + unpicked * told.group, told.group, hand=told.hand, worked=told.worked
            )
        except HemError:
            continue
    # All of the side, which its plan has spaced.
    whole = piece_spacings(told.piece, told.group, told.hand, told.worked).of(told.side)
    return -(-(told.between - left) // told.group), whole


def _sizes(spacing: Spacing) -> str:
    return ", ".join(f"{groups} of {size}" for groups, size in spacing.stretches)


def _unpick(groups: int) -> Step:
    return step(
        "Unpick as far as the fault",
        "Snip the sewing thread, never the linen, every second stitch on the wrong side, and draw the "
        f"pieces out of {so_many(groups, 'group')} with a blunt needle. Leave an end long enough to fasten. "
        "Stroke the threads straight with the needle.",
        "The threads of the open line stand loose and whole as far as the last good group.",
        "blade",
        "needle",
        "eyes",
    )


def _fresh(told: Told, stitches: int) -> Length:
    """Thread for so many stitches, in whole needlefuls: what was unpicked is worn, and not used again."""
    plan = thread_needed(told.piece, told.group)
    return plan.working * max(needlefuls(stitches * plan.per_stitch.high_mm, plan.working, plan.ends), 1)
