"""Steps of the finish: the corners trimmed or thinned, and folded."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hemcalc.corner.mitre import Landing
from hemcalc.finish.words import Step, StepWriter
from hemcalc.measure.exact import half_up, mixed_text
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import listed, so_many

#: Less than this no hand can do, and nothing is said of it: threads, and degrees between a basted
#: line and its partner, which are twice what the mitre is off 45.
_SEEN_THREADS, _SEEN_ANGLE = Fraction(1, 2), 2

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
            f"Wrong side up, cut off the point of each corner straight across, {line}.",
            f"Measured from the point, that takes {_along_and_up(along, up)}.",
        ),
        (
            f"Between the cut and the crossing of the two fold lines 1, square to the cut, {left} is left: "
            "closer would save bulk, but might fray through.",
        ),
        "blade",
        movements=("trim the corner",),
    )


def _from_the_point(told: StepWriter, line: object) -> tuple[str, str]:
    """How far from the cloth's point a line meets the raw edges: along the top, along the left."""
    assert isinstance(line, tuple)
    x, y = told.corner.raw_corner
    return told.length(Length(x - line[0][0])), told.length(Length(y - line[-1][1]))


def _along_and_up(along: str, up: str, of: str = "of") -> str:
    if along == up:
        return f"{along} {of} both raw edges"
    return f"{along} {of} the top and bottom raw edges and {up} {of} the left and right ones"


def _cut_oblong(told: StepWriter) -> Step:
    corner = told.corner
    width, height = _from_the_point(told, corner.trim)
    oblong = corner.oblong or corner.raw_corner
    left = told.length(Length(oblong[0] - corner.hems[0]))
    return told.step(
        "Thin the square corners",
        (
            f"Wrong side up, cut an oblong out of each corner, {width} across by {height} down from its "
            "point: the cloth that would lie underneath.",
        ),
        (f"Each cut stays {left} outside the basted fold line 1 that runs beside it.",),
        "blade",
        movements=("trim the corner",),
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
            "Wrong side up, hold the corner flat with one hand and fold its point over toward the design, "
            "straight through the crossing of its two basted fold lines 1; press it.",
            "Measured from where the raw edges would meet, it crosses them "
            f"{_along_and_up(along, up, 'along')}.",
            "The fold lies on the bias and stretches: handle it little.",
        ),
        tuple(_what_lies_where(told)),
        "iron",
        movements=("fold the corner",),
    )


def _what_lies_where(told: StepWriter) -> Iterator[str]:
    corner = told.corner
    angle = corner.landings[0].angle
    apart = [said for said in (_apart(corner.landings, line) for line in ("fold 1", "fold 2")) if said]
    if not apart:
        yield "Fold line 1 lies on fold line 1 of the next side, and fold line 2 on its open line."
    if not corner.equal_hems and not apart:
        yield "The two hems differ a little in width, but by less than half a thread shows here."
    if apart:
        yield (
            "The two hems differ in width, so the basted lines do not lie upon each other: "
            + (
                f"they stand at about {half_up(Fraction(angle))} degrees to their partners, and "
                if abs(angle) > _SEEN_ANGLE
                else ""
            )
            + f"at the open line they are apart, {', '.join(apart)}."
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
    far: dict[str, list[str]] = {}
    for each in landings:
        if each.line == line and each.apart_threads >= _SEEN_THREADS:
            far.setdefault(_halves(each.apart_threads), []).append(_AT[each.side])
    parts = [said if len(at) > 1 else f"{said} on the {at[0]}" for said, at in far.items()]
    return f"{line.replace('fold', 'fold line')} by {listed(parts)}" if parts else ""


def _halves(threads: Fraction) -> str:
    """Threads to the nearest half, which is all that an eye can tell."""
    nearest = Fraction(half_up(2 * threads), 2)
    return "half a thread" if nearest == _SEEN_THREADS else so_many(mixed_text(nearest), "thread")
