"""Steps of the finish: the hem turned, folded and stitched, and its corners closed."""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.finish.open_line import run_in_steps
from hemcalc.finish.words import PRACTICE, Step, StepWriter
from hemcalc.measure.words import listed, threads_said
from hemcalc.piece.piece import THROUGH
from hemcalc.piece.sides import SIDES
from hemcalc.stitch.thread import usual_bite

_SIDES_OF = {"across": ("left", "right"), "down": ("top", "bottom")}
#: More threads drawn than this leave an open square whose edges need strengthening.
_STRONG = 4


def hem_steps(told: StepWriter) -> Iterator[Step]:
    """Turn the raw edge in, fold the hem, run what still hangs into it, and close its corners."""
    yield _turn(told) if any(told.edge(side).turn for side in SIDES) else _no_turn(told)
    yield _fold_hem(told)
    yield from run_in_steps(told)
    yield _sew_mitres(told) if told.corner.is_mitred else _oversew(told)


def close_steps(told: StepWriter) -> Iterator[Step]:
    """Hem stitch the sides, turn the corners, and finish."""
    yield _stitch(told)
    yield _turn_corners(told)
    yield _finish(told)


def _in_order(told: StepWriter, fold: str) -> list[str]:
    """Sides in the order in which the corner's folds of this name take them."""
    return [
        side
        for each in told.corner.folds
        if each.name.startswith(fold)
        for side in _SIDES_OF[each.name.removeprefix(f"{fold} ")]
    ]


def _turn(told: StepWriter) -> Step:
    turned = [side for side in _in_order(told, "turn") if told.edge(side).turn]
    flat = [side for side in SIDES if side not in turned]
    deep = told.each(lambda edge: told.threads(edge.turn, edge), turned)
    return told.step(
        "Turn in the raw edge",
        (
            "Wrong side up, fold the raw edge over toward you along fold line 2, "
            f"{_first_and_then(turned)}, and press: {deep}.",
            "Hold the fold in both hands and roll it over a little at a time, so that it keeps to one "
            "thread.",
            "The corners are folded before the turn; folded after it, they would be thicker."
            if told.corner.is_mitred
            else "",
            f"On the {listed(flat)} nothing is turned in: overcast the raw edge there." if flat else "",
        ),
        (
            "The fold follows one and the same thread from corner to corner, and the turn is equally deep "
            "all along.",
        ),
        "iron",
        *(("needle",) if flat else ()),
        movements=("turn", *(("hold the edge",) if flat else ())),
    )


def _no_turn(told: StepWriter) -> Step:
    return told.step(
        "Overcast the raw edge",
        (
            "Nothing is turned in on this piece: the raw edge itself will lie along the open line.",
            "Right side up, overcast it with small stitches, so that it does not fray there.",
        ),
        ("The overcast edge lies flat and follows fold line 2, which is the cut line here.",),
        "needle",
        movements=("hold the edge",),
    )


def _first_and_then(sides: list[str]) -> str:
    pairs = [names for names in _SIDES_OF.values() if names[0] in sides]
    if len(pairs) == 1:
        return f"on the {listed(pairs[0])}"
    first = min(pairs, key=lambda names: sides.index(names[0]))
    others = [names for names in pairs if names != first]
    then = "".join(f", then the {listed(names)}" for names in others)
    return f"first the {listed(first)}{then}"


def _fold_hem(told: StepWriter) -> Step:
    hem = told.each(lambda edge: told.threads(edge.hem, edge))
    landed = told.each(lambda edge: f"{edge.open_line}")
    corner = told.corner
    turned = any(told.edge(side).turn for side in SIDES)
    again, edge_of = ("fold again", "turned edge") if turned else ("fold", "overcast edge")
    return told.step(
        "Fold the hem",
        (
            f"Wrong side up, {again} along fold line 1, {_first_and_then(_in_order(told, 'hem'))}, so "
            f"that the {edge_of} comes to the outer side of the open line, just beyond thread {landed}.",
            "Press. Pin the hem down, baste it beside the open line, not on it, and take the pins out.",
        ),
        (
            f"The hem is as wide all along as planned, {hem}, and its edge does not cover the open line.",
            f"A corner lies in {told.layers}"
            + (", the same everywhere." if len(corner.layer_areas) == 1 else "."),
        ),
        "iron",
        "needle",
        movements=("fold the hem",),
    )


def _sew_mitres(told: StepWriter) -> Step:
    return told.step(
        "Sew the mitres",
        (
            f"Wrong side up, hold the two folds of a mitre together in your {told.holding} hand.",
            "Close them with tiny whip or ladder stitches and a sharp needle, from the corner of the "
            f"finished edge to the open square: {told.measured(told.corner.seam_mm)}.",
            "Fasten on inside a fold, without a knot. Catch one layer of each fold only, so that "
            "nothing shows on the right side.",
        ),
        ("The seam is closed and flat and ends at the open square; the corner is sharp.",),
        "needle",
        "eyes",
        movements=("mitre seam",),
    )


def _oversew(told: StepWriter) -> Step:
    last = _in_order(told, "hem")[-2:]
    hems = told.each(lambda edge: told.threads(edge.hem, edge), last)
    return told.step(
        "Oversew the square corners",
        (
            "Wrong side up: at each corner the hem that was folded last has an open end. Oversew it along "
            f"the finished edge of the side that it meets: {hems}.",
        ),
        ("No raw edge looks out of a corner, and the corner lies flat and square.",),
        "needle",
        "eyes",
        movements=("oversew",),
    )


def _stitch(told: StepWriter) -> Step:
    start, far = told.way.split(" to ")
    bite = usual_bite(told.piece)
    natural = start == told.holding
    catches = (
        "the back and the turn only, not the face, so that nothing shows on the right side"
        if told.piece.through == THROUGH[0]
        else "all the layers of the hem, so that a small stitch shows on the right side"
    )
    if told.piece.through == THROUGH[0] and not any(told.edge(side).turn for side in SIDES):
        catches = "the back only, not the face, so that nothing shows on the right side"

    def notes(side: str) -> str:
        spacing = told.spacings.of(side)
        return " ".join((spacing.text(), *spacing.notes))

    def adds_up(side: str) -> str:
        spacing = told.spacings.of(side)
        return f"{spacing.count} stitches take up all {threads_said(spacing.threads)}."

    return told.step(
        "Hem stitch the sides",
        (
            f"Wrong side up, hem toward you, hold the hem between finger and thumb of your {told.holding} "
            f"hand and the needle in your {told.hand} hand. Begin at the {start} end of a side and work "
            f"from {told.way}.",
            "Fasten on without a knot: take two tiny stitches one over the other inside the hem, in the "
            f"turn, and bring the needle out {threads_said(bite)} inside the edge of the hem.",
            "For each stitch count off a group of threads of the open line. One: pass the needle behind the "
            f"group, from {far} to {start}"
            + (
                ", its point away from the hand that holds it"
                if natural
                else ", toward the hand that holds it"
            )
            + ", and bring it out. Two: draw the thread until the group stands together; pull firmly, but "
            "not so that the hem puckers. Three: beyond the group bring the needle up through the edge of "
            f"the hem, {threads_said(bite)} deep, catching {catches}.",
            "To end a thread, finish a stitch, run the thread along inside the turn with two tiny stitches, "
            "and snip it. Fasten the next one on in the same place.",
            PRACTICE,
            told.sentences(notes),
        ),
        (told.sentences(adds_up), "The groups stand upright and alike, and the hem is caught at each."),
        "blade",
        "needle",
        "eyes",
        movements=("fasten on", "stitch 1", "stitch 2", "stitch 3"),
    )


def _turn_corners(told: StepWriter) -> Step:
    first = told.sentences(
        lambda side: f"the first group is of {threads_said(told.spacings.of(side).groups[0])}."
    )
    return told.step(
        "Turn the corners",
        (
            "Wrong side up, end the last group of a side at the open square: take no thread of the next "
            "side into it.",
            f"With {threads_said(told.drawn)} drawn, the threads that stop at the corner could slip: "
            f"oversew the edges of the open square, two threads deep. {PRACTICE}"
            if told.drawn > _STRONG
            else "",
            "Take a stitch or two along the seam there, turn the work by a quarter, and begin the next side "
            "with its own first group.",
            first,
        ),
        ("The open square stays open, all four corners look alike, and the last stitch meets the first.",),
        "needle",
        "eyes",
        movements=("corner group", *(("oversew",) if told.drawn > _STRONG else ())),
    )


def _finish(told: StepWriter) -> Step:
    size = told.piece.finished_size
    across, down = size.threads
    wash, after = "", ""
    if not size.washed and told.piece.fabric.shrinks:
        wash = "Then give it its first wash, and press it while it is damp."
        after = f"It will measure {told.size(size.after)}."
    return told.step(
        "Finish",
        (
            "Fasten the last thread inside the turn. Snip the basting into short lengths and draw them out "
            "one by one.",
            "Press the piece from the wrong side on something soft.",
            wash,
        ),
        (
            f"The piece measures {told.size(size.in_hand)}, and counts {threads_said(across)} across and "
            f"{threads_said(down)} down.",
            after,
            "As many needles and pins are back in their case as came out of it.",
        ),
        "blade",
        "needle",
        "iron",
        "eyes",
        movements=("finish",),
    )
