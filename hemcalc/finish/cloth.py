"""Steps of the finish: the cloth prepared, counted, and in the end cut along its basted lines."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hemcalc.finish.words import Step, StepWriter, listed
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import share_said, threads_said
from hemcalc.piece.sides import SIDES

#: From what on a piece is called one for practised hands: a hem of so few threads, a turn so
#: narrow, a cloth so fine. From memory, no source.
_FEW_THREADS, _NARROW_TURN, _FINE_PER_INCH = 4, Length(2), 60


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
        "The plan is for washed linen. Wash and dry unwashed linen before you measure or cut it."
        if cloth.washed
        else f"The plan is for unwashed linen: do not wash it until the hem is stitched. {_wash_takes(cloth)}"
    )
    soften = (
        "Soften it if it is stiff with dressing."
        if cloth.washed
        else "If it is stiff with dressing, rub it soft in your hands; keep it dry."
    )
    selvedge = (
        "Take it out of its hoop or frame while you do."
        if told.larger
        else "Cut off the selvedge, if there is one, for the cloth is denser there."
    )
    mark = (
        "Plain linen looks the same on both sides: choose one as the wrong side, and baste (tack) a cross "
        "on it, near a corner."
        if told.blank
        else ""
    )
    return told.step(
        "Prepare the cloth",
        (
            _for_experts(told),
            washed,
            soften,
            "If it lies askew, hold two opposite corners and pull it gently square.",
            "Press it flat from the wrong side.",
            selvedge,
            "Lay it with the warp, the threads that run along the selvedge, up and down before you.",
            mark,
        ),
        ("Warp and weft cross squarely: a corner folded over, edge upon edge, lies thread upon thread.",),
        *(() if told.larger else ("blade",)),
        *(("needle",) if told.blank else ()),
        "iron",
    )


def _for_experts(told: StepWriter) -> str:
    """What makes the piece one for practised hands; empty if nothing does."""
    edges = [told.edge(side) for side in SIDES]
    few = min(edge.hem for edge in edges)
    narrow = min((edge for edge in edges if edge.turn), key=lambda edge: edge.turn_width.mm, default=None)
    fine = max(Fraction(edge.count.per_inch) for edge in edges)
    why = [
        f"the hem is only {threads_said(few)} deep" if few <= _FEW_THREADS else "",
        f"the turn is only {told.threads(narrow.turn, narrow)}"
        if narrow and narrow.turn_width.mm <= _NARROW_TURN.mm
        else "",
        "the cloth is very fine" if fine >= _FINE_PER_INCH else "",
    ]
    said = [each for each in why if each]
    return f"This is a piece for practised hands: {listed(said)} (limits from memory)." if said else ""


def _count(told: StepWriter) -> Step:
    cloth, (across, down) = told.piece.fabric, told.piece.design
    size = cloth.across.width(across), cloth.down.width(down)
    counts = cloth.across.text(told.unit), cloth.down.text(told.unit)
    turned = (
        "If your counts are these the other way round, turn the cloth. " if counts[0] != counts[1] else ""
    )
    where = "where the design is to be" if told.blank else "on the design"
    return told.step(
        "Count the cloth",
        (
            "Right side up, lay a ruler along a thread, away from folds and selvedge, and count the threads "
            "beside it, in several places and both ways.",
            f"The plan is for {counts[0]} across and {counts[1]} down. {turned}"
            "If yours differ, plan the piece anew.",
            f"The design takes {threads_said(across)} across and {threads_said(down)} down.",
        ),
        (
            f"A ruler laid {where} reads {told.size(size)} for that many threads.",
            told.ruler_says,
        ),
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
            f"So {size.text(told.unit)}.",
            "The count was measured, and is not sure enough for the ruler alone: cut by the thread and not "
            f"by the ruler, {counted}."
            if by_thread
            else "",
            "To cut straight, draw out one thread and cut along the gap that it leaves.",
            "If your cloth comes ready cut, check its size instead.",
        ),
        (f"The cloth {shown}, or a little more, and its corners are square.",),
        "blade",
        movements=("cut",),
    )


def _leave_room(told: StepWriter) -> Step:
    room = told.each(lambda edge: told.at_least(edge.rule.need, edge))
    return told.step(
        "See that the cloth has room",
        (
            "Leave the cloth as large as it is for now.",
            f"The hem and your hands need, beyond the design, {room}.",
            "If a hoop or frame stands on those threads, move it outward or work without it.",
            "Overcast the raw edges beyond them if they fray: no drawn thread will reach so far.",
        ),
        ("Within those threads lies no selvedge, hole, stain or mark of the hoop.",),
        "needle",
        movements=("hold the edge",),
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
            "Right side up, with thread of another colour and always between the same two threads of the "
            "cloth, baste three lines on each side: fold line 1, which is the finished edge; fold line 2; "
            "and the cut line.",
            f"Counted outward from the design they run {three}." if turned else "",
            "Where nothing is turned in, fold line 2 is the cut line, and two lines are enough: they run "
            f"{two}."
            if flat
            else "",
            "Let each line run out past the corners, so that the lines of two sides cross.",
        ),
        (
            "From the open line to fold line 1, and from there to fold line 2, is the same width: "
            f"{hem}" + (f"; from there to the cut line {turn}." if turned else "."),
            ""
            if told.larger
            else f"Counted inward from the raw edge, fold line 1 runs after {told.inward('fold_1')}.",
        ),
        "needle",
        "eyes",
        movements=("baste the lines",),
    )


def _cut(told: StepWriter) -> Step:
    size = told.piece.trimmed_size
    keep = told.each(lambda edge: told.threads(edge.total, edge))
    beyond = [side for side in SIDES if told.edge(side).rule.margin > told.edge(side).total]
    parts = told.each(lambda edge: told.threads(edge.rule.margin - edge.total, edge), beyond)
    off = (
        "All the cloth beyond it comes off."
        if told.larger
        else f"That takes off {parts}{', and what was cut too large' * told.cut_large}."
        if beyond
        else f"That takes off nothing{' but what was cut too large' * told.cut_large}."
    )
    return told.step(
        "Cut along the cut line",
        (
            "Take the work out of its hoop or frame." if told.larger else "",
            "Lay the work flat, right side up, with your other hand well away from the blade, and cut close "
            "along the outer side of the basted cut line, between two threads.",
            off,
            f"Beyond the design you keep {keep}.",
        ),
        (
            f"The cloth is {told.size(size.in_hand)}, and counts "
            f"{threads_said(size.threads[0])} across and {threads_said(size.threads[1])} down.",
        ),
        "blade",
        "eyes",
        movements=("cut",),
    )


def _wash_takes(cloth: Fabric) -> str:
    if not cloth.shrink_across and not cloth.shrink_down:
        return "The plan takes it that the wash will not shrink it."
    return (
        f"The wash will then take {share_said(cloth.shrink_across)} off its width and "
        f"{share_said(cloth.shrink_down)} off its length."
    )
