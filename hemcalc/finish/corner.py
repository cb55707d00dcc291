"""Steps of the finish: the corners trimmed or thinned, and folded."""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.corner.mitre import Landing
from hemcalc.finish.words import Step, StepWriter, listed, rounded
from hemcalc.measure.lengths import Length

__all__ = ["corner_steps"]

_AT = {"across": "left and right", "down": "top and bottom"}


def corner_steps(told: StepWriter) -> Iterator[Step]:
    """Trim the corners and fold them, as they are made."""
    kind = told.corner.kind
    yield {"mitred": _trim, "square": _cut_oblong}.get(kind, _leave_whole)(told)
    if told.corner.is_mitred:
        yield _fold_corners(told)


def _trim(told: StepWriter) -> Step:
    corner = told.corner
    along, up = _from_the_point(told, corner.trim)
    line = "through the crossing of the two basted fold lines 2"
    if corner.allowance is not None:
        line = f"{told.length(corner.allowance)} beyond the corner's fold, measured square to it"
    left = told.measured(corner.allowance_mm or 0.0)
    if not any(corner.legs_mm):
        return told.step(
            "Leave the points of the corners",
            (
                "With nothing turned in, the slanting line through the crossing of the two fold lines 2 "
                "only touches the cloth's point: nothing comes off.",
            ),
            (f"From there to where the corner will be folded it is {left}.",),
        )
    return told.step(
        "Trim the corners",
        (
            f"Cut off the point of each corner straight across, {line}.",
            f"Measured from the point, that takes {_along_and_up(along, up)}.",
        ),
        (
            f"Between the cut and the crossing of the two fold lines 1, square to the cut, {left} is left: "
            "closer would save bulk, but might fray through.",
        ),
        "blade",
    )


def _from_the_point(told: StepWriter, line: object) -> tuple[str, str]:
    """How far from the cloth's point a line meets the raw edges: along the top, along the left."""
    assert isinstance(line, tuple)
    x, y = told.corner.raw_corner
    return told.length(Length(x - line[0][0])), told.length(Length(y - line[-1][1]))


def _along_and_up(along: str, up: str) -> str:
    if along == up:
        return f"{along} of both raw edges"
    return f"{along} of the top and bottom raw edges and {up} of the left and right ones"


def _cut_oblong(told: StepWriter) -> Step:
    corner = told.corner
    wide, high = _from_the_point(told, corner.trim)
    oblong = corner.oblong or corner.raw_corner
    left = told.length(Length(oblong[0] - corner.hems[0]))
    return told.step(
        "Thin the square corners",
        (
            f"Cut an oblong out of each corner, {wide} across by {high} down from its point: what will lie "
            "beneath.",
        ),
        (f"Each cut stays {left} outside the basted fold line 1 that runs beside it.",),
        "blade",
    )


def _leave_whole(told: StepWriter) -> Step:
    corner, over = told.corner, told.corner.overhang
    if not corner.is_mitred:
        return told.step(
            "Leave the corners whole",
            ("These corners are folded square, with all their cloth in them: nothing comes off.",),
            (f"Folded, each lies in {told.layers}; a scrap folded so shows whether that is too thick.",),
        )
    over_work = (
        f"It lies {told.measured(over.work_reach_mm)} over the work itself, and will have to be tucked back."
        if over.work_reach_mm
        else "It does not lie over the work itself."
    )
    return told.step(
        "Leave the corners whole",
        (
            "These mitres keep all their cloth: nothing comes off.",
            f"Folded, the flap beneath reaches {told.measured(over.reach_mm)} past the open lines' outer "
            f"edges at its tip. {over_work}",
        ),
        ("Each corner still comes to a whole point.",),
    )


def _fold_corners(told: StepWriter) -> Step:
    along, up = _from_the_point(told, told.corner.corner_fold)
    return told.step(
        "Fold the corners",
        (
            "Fold each corner over to the wrong side, straight through the crossing of its two basted fold "
            "lines 1, and press it.",
            "Measured from where the two cut lines cross, the fold meets them at "
            f"{_along_and_up(along, up)}.",
            "The fold lies on the bias and stretches: handle it little.",
        ),
        tuple(_what_lies_where(told)),
        "iron",
    )


def _what_lies_where(told: StepWriter) -> Iterator[str]:
    corner = told.corner
    if corner.equal_hems:
        yield "Fold line 1 lies on fold line 1 of the next side, and fold line 2 on its open line."
    else:
        yield (
            "The two hems differ in width, so the basted lines do not lie upon each other: they stand at "
            f"{rounded(corner.landings[0].angle)} degrees to their partners, and at the open line they are "
            f"apart, {_apart(corner.landings, 'fold 1')}, {_apart(corner.landings, 'fold 2')}."
        )
    lands = corner.trim_lands_mm
    if lands is None:
        return
    if abs(lands) < 1e-6:
        yield "The trimmed edge just touches the open square, where the open lines' outer edges cross."
    else:
        way = "short of" if lands > 0 else "past"
        yield (
            f"The trimmed edge stops {told.measured(abs(lands))} {way} the open square, where the open "
            "lines' outer edges cross."
        )


def _apart(landings: tuple[Landing, ...], line: str) -> str:
    parts = [
        f"{rounded(float(each.apart_threads))} threads on the {_AT[each.side]}"
        for each in landings
        if each.line == line
    ]
    return f"{line.replace('fold', 'fold line')} by {listed(parts)}"
