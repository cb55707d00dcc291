"""Steps of the finish on a blank cloth: its edge held, its middle found, the design counted out."""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.finish.counting import Way, in_lines
from hemcalc.finish.words import PRACTICE, Step, StepWriter
from hemcalc.measure.words import so_many, threads_said

#: Threads to either side of a line that will be drawn out which are left unsewn at the raw edge.
_UNSEWN = 10


def blank_steps(told: StepWriter) -> Iterator[Step]:
    """Hold the raw edge, find the middle, count out the design and stitch it."""
    if not told.larger:
        yield _hold_edge(told)
    yield _middle(told)
    yield _outline(told)
    yield _design(told)


def _hold_edge(told: StepWriter) -> Step:
    away = told.of_each(lambda side: f"thread {told.margin(side) - told.edge(side).clear}")
    through = told.drawn > 1  # a single thread stays in the cloth beyond the corners
    return told.step(
        "Hold the raw edge",
        (
            "Overcast the raw edges with long, loose stitches, so that they do not fray"
            + (", but not where a thread will be drawn out through them later." if through else "."),
            "The first thread drawn on a side comes out through the raw edges of its two neighbours; counted "
            f"inward from the raw edge of its own side it is {away}. Leave {so_many(_UNSEWN, 'thread')} "
            f"unsewn to either side of it. {PRACTICE}"
            if through
            else "",
        ),
        (f"Each raw edge is held all along{', but for a gap near either end' * through}.",),
        "needle",
        *(("eyes",) if through else ()),
        movements=("hold the edge",),
    )


def _middle(told: StepWriter) -> Step:
    across, down = told.plan.across, told.plan.down
    places = [_off_middle(told, way) for way in (across, down)]
    where = (
        "Right side up, fold the cloth in half one way, raw edge upon raw edge, along a thread; crease the "
        "fold with your finger, and open it again. Do the same the other way."
        if not told.larger
        else "Right side up, choose where the middle of the design is to lie, with the room "
        "around it that the check gives. Fold the cloth there each way along a thread, crease the folds with "
        "your finger, and open them again."
    )
    along = (
        "Baste a line along each fold, between the same two threads all the way: these are the centre lines."
    )
    return told.step(
        "Find the middle",
        (
            where,
            along,
            *(() if told.larger else places),
        ),
        (
            "The centre lines cross squarely. Counted inward from the raw edge, there are at least as many "
            f"threads to a centre line: {_to_the_centre(told)}.",
        ),
        "needle",
        "eyes",
        movements=("fold the middle",),
    )


def _off_middle(told: StepWriter, way: Way) -> str:
    """Where the centre line runs if the design lies off the middle of its cloth by a thread or more."""
    first, last = (told.margin(end) + half for end, half in zip(way.ends, way.halves, strict=True))
    off = abs(first - last) // 2
    toward = way.ends[1] if first > last else way.ends[0]
    line = "upright" if way.ends == ("left", "right") else "level"
    return (
        f"The design lies off the middle of the cloth: baste the {line} centre line {threads_said(off)} from "
        f"the fold, toward the {toward}."
        if off
        else ""
    )


def _to_the_centre(told: StepWriter) -> str:
    ends = [
        (end, told.margin(end) + half)
        for way in (told.plan.across, told.plan.down)
        for end, half in zip(way.ends, way.halves, strict=True)
    ]
    counts = dict(ends)
    return told.of_each(lambda side: threads_said(counts[side]))


def _outline(told: StepWriter) -> Step:
    plan, (across, down) = told.plan, told.piece.design
    halves = {
        end: half for way in (plan.across, plan.down) for end, half in zip(way.ends, way.halves, strict=True)
    }

    def count(side: str) -> str:
        lines = in_lines(halves[side], plan.every)
        return threads_said(halves[side]) + (f" ({lines})" if halves[side] >= plan.every else "")

    inward = (
        told.of_each(lambda side: threads_said(told.margin(side))) if told.larger else told.inward("design")
    )
    cloth = told.piece.fabric
    size = told.size((cloth.across.width(across), cloth.down.width(down)))
    return told.step(
        "Count out the design",
        (
            f"Right side up, count outward from the centre lines and baste a line every {plan.every} "
            "threads, so that no count is a long one.",
            f"Count to the outline of the design: {told.of_each(count)}. Baste the outline there, in another "
            "colour.",
            *plan.notes,
            PRACTICE,
        ),
        (
            f"The outline holds {threads_said(across)} across and {threads_said(down)} down, and measures "
            f"{size}.",
            told.ruler_says,
            "Count inward too: from the raw edge to the outline there are "
            + (f"at least {inward}." if told.larger else f"{inward}.")
            + ("" if told.larger else " If the two counts disagree, count both again."),
        ),
        "needle",
        "eyes",
        movements=("baste the outline",),
    )


def _design(told: StepWriter) -> Step:
    return told.step(
        "Stitch the design",
        (
            "Right side up, stitch the design within its basted outline.",
            "Draw out each counting line as you come to it; leave the outline and the centre lines.",
            "Do not wash the work." if not told.piece.fabric.washed else "",
        ),
        ("No stitch lies across the outline.",),
        "needle",
        "eyes",
    )
