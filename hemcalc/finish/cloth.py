"""Steps of the finish: the cloth prepared, counted, and in the end cut along its basted lines."""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.finish.words import Step, StepWriter
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.words import share_said, threads_said
from hemcalc.piece.sides import SIDES

__all__ = ["cloth_steps", "outline_steps"]


def cloth_steps(told: StepWriter) -> Iterator[Step]:
    """Prepare the cloth, count it, and give it its room."""
    yield _prepare(told)
    yield _count(told)
    yield _leave_room(told) if told.larger else _cut_to_size(told)


def outline_steps(told: StepWriter) -> Iterator[Step]:
    """Baste the lines of the hem, and cut the cloth along the outermost."""
    yield _baste(told)
    yield _cut(told)


def _prepare(told: StepWriter) -> Step:
    cloth = told.piece.fabric
    washed = (
        "The plan reckons with cloth that has had its first wash: wash and dry yours if it has not."
        if cloth.washed
        else "The plan reckons with cloth as it is before its first wash: do not wash it until the hem is "
        f"stitched. {_wash_takes(cloth)}"
    )
    soften = (
        "Soften it if it is stiff with dressing, and press it flat from the wrong side."
        if cloth.washed
        else "If it is stiff with dressing, rub it soft in the hands; press it from the wrong side, and dry."
    )
    selvedge = (
        "Take it out of its hoop or frame while you do."
        if told.larger
        else "Cut off the selvedge, for the cloth is denser there."
    )
    return told.step(
        "Prepare the cloth",
        (
            washed,
            soften,
            "If it lies askew, pull it gently square along the bias.",
            selvedge,
            "Lay it so that the warp runs up and down before you.",
        ),
        ("Warp and weft cross squarely: folded corner to corner, a square of it lies thread upon thread.",),
        *(("iron",) if told.larger else ("blade", "iron")),
    )


def _count(told: StepWriter) -> Step:
    cloth, (across, down) = told.piece.fabric, told.piece.design
    size = cloth.across.width(across), cloth.down.width(down)
    return told.step(
        "Count the cloth",
        (
            "Lay a ruler along a thread, away from folds and selvedge, and count the threads beside it, in "
            "several places and both ways.",
            f"The plan reckons with threads at {cloth.across.text(told.unit)} across and "
            f"{cloth.down.text(told.unit)} down; plan the piece anew if yours are others.",
            f"The design takes {threads_said(across)} across and {threads_said(down)} down.",
        ),
        (f"A ruler laid on the design, or where it is to be, reads {told.size(size)}.",),
        "eyes",
    )


def _cut_to_size(told: StepWriter) -> Step:
    size = told.piece.cut_size
    margins = told.each(lambda edge: told.at_least(edge.rule.margin, edge))
    counted = f"{threads_said(size.threads[0])} across and {threads_said(size.threads[1])} down"
    by_thread = size.by_thread(told.unit)
    shown = f"counts {counted}" if by_thread else f"is {told.size(size.to_cut(told.unit))}"
    return told.step(
        "Cut the cloth to size",
        (
            f"Leave beyond the design {margins}.",
            f"So {size.text(told.unit)}; let each cut follow the line between two threads.",
            "The count was measured, and is not sure enough for the ruler alone: cut by the thread and not "
            f"by the ruler, {counted}."
            if by_thread
            else "",
            "Overcast the raw edges if they fray.",
        ),
        (f"The cloth {shown}, and beyond the design there is no less than was to be left.",),
        "blade",
        "needle",
    )


def _leave_room(told: StepWriter) -> Step:
    room = told.each(lambda edge: told.threads(edge.rule.need, edge))
    return told.step(
        "See that the cloth has room",
        (
            "Leave the cloth as large as it is for now.",
            f"The hem and the hand need beyond the design {room}.",
            "Where a hoop or frame stands on those threads, move it outward or work without it.",
        ),
        ("Within those threads lie no selvedge, hole, stain or mark of the hoop.",),
    )


def _baste(told: StepWriter) -> Step:
    turned = [side for side in SIDES if told.edge(side).turn]
    flat = [side for side in SIDES if side not in turned]
    three = told.each(lambda edge: f"after threads {edge.fold_1}, {edge.fold_2} and {edge.cut}", turned)
    two = told.each(lambda edge: f"after threads {edge.fold_1} and {edge.fold_2}", flat)
    hem = told.each(lambda edge: told.threads(edge.hem, edge))
    turn = told.each(lambda edge: told.threads(edge.turn, edge), turned)
    return told.step(
        "Baste the lines",
        (
            "With thread of another colour, and always between two threads of the cloth, run fold line 1, "
            f"the finished edge; fold line 2; and the cut line, from {told.way}.",
            f"Counted outward from the design they run {three}." if turned else "",
            "Where nothing is turned in, fold line 2 is the cut line, and two lines are enough: they run "
            f"{two}."
            if flat
            else "",
            "Let each line run out past the corners, so that the lines of two sides cross.",
        ),
        (
            "From the open line to fold line 1, and from there to fold line 2, it is the same width: "
            f"{hem}" + (f"; from there to the cut line {turn}." if turned else "."),
        ),
        "needle",
        "eyes",
    )


def _cut(told: StepWriter) -> Step:
    size = told.piece.trimmed_size
    keep = told.each(lambda edge: told.threads(edge.total, edge))
    if told.larger:
        off = (
            "Take the work out of its hoop or frame and lay it flat. All that lies beyond is trimmed away, "
            "the rest of the larger cloth with it."
        )
    else:
        beyond = [side for side in SIDES if told.edge(side).rule.margin > told.edge(side).total]
        parts = told.each(lambda edge: told.threads(edge.rule.margin - edge.total, edge), beyond)
        off = (
            f"So {parts} come away, with what the ruler's marks had added."
            if beyond
            else "The cloth was cut so close that only what the ruler's marks had added comes away."
        )
    return told.step(
        "Cut along the cut line",
        (
            off if told.larger else "",
            "Cut close along the outer side of the basted cut line, between two threads.",
            "" if told.larger else off,
            f"Beyond the design stay {keep}.",
        ),
        (
            f"The cloth is {told.size(size.in_hand)}, and counts "
            f"{threads_said(size.threads[0])} across and {threads_said(size.threads[1])} down.",
        ),
        "blade",
        "eyes",
    )


def _wash_takes(cloth: Fabric) -> str:
    if not cloth.shrink_across and not cloth.shrink_down:
        return "It reckons with no loss in the wash."
    return (
        f"The wash will then take {share_said(cloth.shrink_across)} off its width and "
        f"{share_said(cloth.shrink_down)} off its length."
    )
