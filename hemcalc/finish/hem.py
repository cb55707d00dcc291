"""Steps of the finish: the hem turned, folded and stitched, and its corners closed."""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.finish.words import Step, StepWriter, listed
from hemcalc.measure.words import threads_said
from hemcalc.piece.sides import SIDES

__all__ = ["hem_steps", "stitch_steps"]

_SIDES_OF = {"across": ("left", "right"), "down": ("top", "bottom")}


def hem_steps(told: StepWriter) -> Iterator[Step]:
    """Turn the raw edge in, fold the hem, and close its corners."""
    yield _turn(told) if any(told.edge(side).turn for side in SIDES) else _no_turn(told)
    yield _fold_hem(told)
    yield _sew_mitres(told) if told.corner.is_mitred else _oversew(told)


def stitch_steps(told: StepWriter) -> Iterator[Step]:
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
            f"Fold the raw edge over to the wrong side along fold line 2, {_first_and_then(turned)}, and "
            f"press: {deep}.",
            "The corners are folded before the turn, and not after it, for that would be thicker."
            if told.corner.is_mitred
            else "",
            f"On the {listed(flat)} nothing is turned in: overcast the raw edge there." if flat else "",
        ),
        ("The fold runs along one and the same thread from corner to corner, and the turn is of one depth.",),
        "iron",
        *(("needle",) if flat else ()),
    )


def _no_turn(told: StepWriter) -> Step:
    return told.step(
        "Overcast the raw edge",
        (
            "Nothing is turned in on this piece: the raw edge itself will lie along the open line.",
            "Overcast it with small stitches, so that it does not fray there.",
        ),
        ("The overcast edge lies flat and follows fold line 2, which is the cut line here.",),
        "needle",
    )


def _first_and_then(sides: list[str]) -> str:
    pairs = [names for names in _SIDES_OF.values() if names[0] in sides]
    first = min(pairs, key=lambda names: sides.index(names[0]))
    others = [names for names in pairs if names != first]
    then = "".join(f", then the {listed(names)}" for names in others)
    return f"first the {listed(first)}{then}"


def _fold_hem(told: StepWriter) -> Step:
    hem = told.each(lambda edge: told.threads(edge.hem, edge))
    landed = told.each(lambda edge: f"{edge.open_line}")
    corner = told.corner
    turned = any(told.edge(side).turn for side in SIDES)
    again, edge_of = ("Fold again", "turned edge") if turned else ("Fold", "overcast edge")
    return told.step(
        "Fold the hem",
        (
            f"{again} to the wrong side, along fold line 1, {_first_and_then(_in_order(told, 'hem'))}, so "
            f"that the {edge_of} comes to the outer side of the open line, just beyond thread {landed}.",
            "Press, and baste the hem down beside the open line, not on it.",
        ),
        (
            f"The hem is as wide all along as was planned, {hem}, and its edge does not cover the open line.",
            f"A corner lies in {told.layers}"
            + (", the same everywhere." if len(corner.layer_areas) == 1 else "."),
        ),
        "iron",
        "needle",
    )


def _sew_mitres(told: StepWriter) -> Step:
    return told.step(
        "Sew the mitres",
        (
            "Close each mitre with tiny whip or ladder stitches, from the corner of the finished edge to the "
            f"open square: {told.measured(told.corner.seam_mm)}.",
            "Catch the two folds only, one thickness of each, so that nothing shows on the right side.",
        ),
        ("The seam is closed and flat, and ends at the open square; the corner is a sharp one.",),
        "needle",
        "eyes",
    )


def _oversew(told: StepWriter) -> Step:
    last = _in_order(told, "hem")[-2:]
    wide = told.each(lambda edge: told.threads(edge.hem, edge), last)
    return told.step(
        "Oversew the square corners",
        (
            f"At each corner the hem that was folded last has an open end: oversew it, {wide}, along the "
            "finished edge of the side that it meets.",
        ),
        ("No raw edge looks out of a corner, and the corner lies flat and square.",),
        "needle",
        "eyes",
    )


def _stitch(told: StepWriter) -> Step:
    other = "left" if told.hand == "right" else "right"

    def notes(side: str) -> str:
        spacing = told.spacings.of(side)
        return " ".join((spacing.text(), *spacing.notes))

    def adds_up(side: str) -> str:
        spacing = told.spacings.of(side)
        return f"{spacing.count} stitches take up all {threads_said(spacing.threads)}."

    return told.step(
        "Hem stitch the sides",
        (
            f"Lay the wrong side up, with the hem toward you and the needle in the {told.hand} hand, and "
            f"fasten the thread within the fold at the {told.hand} end of a side.",
            "Pass the needle behind a group of threads of the open line, draw the thread round it, and catch "
            f"the edge of the hem beside it; go on toward the {other}.",
            told.sentences(notes),
        ),
        (told.sentences(adds_up), "The groups stand upright and alike, and the hem is caught at each."),
        "needle",
        "eyes",
    )


def _turn_corners(told: StepWriter) -> Step:
    first = told.sentences(
        lambda side: f"the first group is of {threads_said(told.spacings.of(side).groups[0])}."
    )
    return told.step(
        "Turn the corners",
        (
            "The last group of a side ends at the open square: take no thread of the next side into it.",
            "Work a stitch or two along the seam there, turn the work by a quarter, and begin the next side "
            "with its own first group.",
            first,
        ),
        ("The open square stays open, all four corners look alike, and the last stitch meets the first.",),
        "needle",
        "eyes",
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
            "Fasten the last thread within the fold. Snip the basting into short lengths and draw them out "
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
    )
