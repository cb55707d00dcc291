"""Accidents with folds and corners: a crease misplaced, a corner that gapes or is bulky, a hem off."""

from __future__ import annotations

from hemcalc.corner.mitre import Corner, plan_corner
from hemcalc.finish.mishaps.told import Rescue, Told, step
from hemcalc.finish.words import Step, layers_said
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import threads_said
from hemcalc.piece.piece import Piece


def fold_misplaced(told: Told) -> Rescue:
    """A crease is pressed where no fold line runs."""
    edge = told.edge
    at = told.which(usual=edge.fold_1 + 1, least=1, most=edge.cut)
    lines = {1: edge.fold_1, 2: edge.fold_2}
    if at in lines.values():
        raise told.refuse(at, f"a fold line of the {told.side} side runs after that thread", edge.fold_1 + 1)
    number = min(lines, key=lambda line: abs(lines[line] - at))
    off = abs(lines[number] - at)
    way = "too far out" if at > lines[number] else "too far in"
    return told.rescue(
        f"The crease on the {told.side} side runs after thread {at}, and fold line {number} after thread "
        f"{lines[number]}: {told.in_full(off)} {way}.",
        (
            _open_crease(told),
            step(
                "Fold on the line",
                f"Find fold line {number} again: the basting (tacking) between thread {lines[number]} and "
                f"thread {lines[number] + 1}, counted outward from the design. Pinch the fold along it with "
                "the fingers from corner to corner, pin it, and press only then.",
                "The basting lies on the very edge of the fold all along, and the same thread with it.",
                "needle",
                "iron",
            ),
        ),
        "If the old crease stays as a shiny or pale line on the right side; or if the thread along it is "
        "worn.",
    )


def hem_off(told: Told) -> Rescue:
    """The folded hem is a thread or so wider or narrower than planned."""
    edge = told.edge
    least, most = edge.open_line + 1, edge.fold_2 - 1
    if least == most:
        raise HemError(
            f"hem is 1 thread on the {told.side} side, and can't be off by one and still be a hem; for "
            "example take the accident 'fold misplaced'.",
            "accident",
        )
    usual = edge.fold_1 + 1
    at = told.which(usual=usual, least=least, most=most)
    off = at - edge.fold_1
    if not off:
        raise told.refuse(at, f"fold line 1 of the {told.side} side runs after that thread", usual)
    face, back = edge.hem + off, edge.hem - off
    lands = "short of" if off > 0 else "over"
    return told.rescue(
        f"Counted on the {told.side} side the hem shows {threads_said(face)} in front and {back} behind, in "
        f"place of {edge.hem} and {edge.hem}: its edge lies {told.in_full(2 * abs(off))} {lands} the open "
        "line.",
        (
            step(
                "See where it begins",
                "Count the hem at both corners and in the middle. Off all along, the fold sits on the wrong "
                "thread; off at one end only, it was pulled askew.",
                "You know from where to where it is to be opened.",
                "eyes",
            ),
            step(
                "Open it",
                "Take out the basting there, and the hem stitches if there are any: snip the sewing thread "
                "only.",
                "The cloth lies flat beyond the turn, and the drawn line is clear.",
                "blade",
                "needle",
                "eyes",
            ),
            _open_crease(told),
            step(
                "Fold it on the line",
                f"Fold line 1 runs after thread {edge.fold_1}. Fold, and bring the turned edge to thread "
                f"{edge.open_line + 1}, just outside the open line; pin the corners first, then the middle, "
                "then between; baste beside the open line.",
                f"In front and behind it counts {threads_said(edge.hem)}, at both corners and in the middle.",
                "needle",
                "iron",
            ),
        ),
        "If the edge still misses the open line after a second try: then fold line 2 or the cut is off too. "
        "A hem that is one thread off all along, and stitched well, may stay.",
    )


def corner_gapes(told: Told) -> Rescue:
    """The mitre stands open, or a raw edge looks out of it."""
    corner = told.piece.corners.top_left
    if not corner.is_mitred:
        hems = told.in_full(told.edge.hem)
        seen, seam = "The open end of the hem looks out at the corner", f"Oversew the open end anew, {hems}"
        fold = (
            "Fold the hem again along fold line 1, first the side that lies beneath, then the other over it. "
            "Pin it square, a ruler's corner laid on."
        )
    else:
        seen = "The two folded edges of the mitre don't meet, or meet askew"
        seam = (
            "Sew the mitre anew with tiny whip or ladder stitches, from the corner of the finished edge to "
            f"the open square, {_mm(told, corner.seam_mm)}, and close it at the point first"
        )
        fold = (
            "The corner's fold runs straight through the crossing of the two fold lines 1. "
            f"{_lies(corner)} Pin it; ease, don't pull: it lies on the bias."
        )
    return told.rescue(
        f"{seen}; hold it against the next corner.",
        (
            step(
                "Open the seam",
                "Unpick the corner's seam, and nothing else: snip its thread, never the linen.",
                "The fold of the corner can be lifted, and no raw edge has begun to fray.",
                "blade",
                "needle",
                "eyes",
            ),
            step(
                "Fold it again",
                fold,
                "The point is sharp, and the folded edges lie along each other without being held.",
                "needle",
                "iron",
            ),
            step(
                "Sew it again",
                f"{seam}. Catch the two folds only.",
                "It is closed, flat and like the others.",
                "needle",
                "eyes",
            ),
        ),
        "If the corner was trimmed so close that its raw edge looks out of the seam: it must be patched from "
        "beneath, and somebody who has done one should be beside you.",
    )


def corner_too_bulky(told: Told) -> Rescue:
    """A corner is thicker than it should be."""
    piece = told.piece
    left, top = piece.edges_in_hand.left, piece.edges_in_hand.top
    planned = piece.corners.top_left
    plan, better = _thinner(piece), planned
    if plan is not None:
        better = plan.corners.top_left
    late = plan_corner(left, top, corner=better.kind, allowance=better.allowance, order="turns first")
    should, has = layers_said(better), layers_said(late)
    pressed = f"; with the turns pressed before the corner it lies in {has}" if has != should else ""
    legs = " and ".join(dict.fromkeys(_mm(told, leg) for leg in better.legs_mm))
    cut = (
        f"Open the corner flat and cut its point off straight across, {legs} from the point along the raw "
        "edges."
        if better.is_mitred
        else "Open the corner flat and cut the under layer's oblong away, outside both fold lines 1."
    )
    return told.rescue(
        f"The corner won't lie flat, and the needle won't go through. It should lie in {should}. "
        f"Left untrimmed it has a flap beneath{pressed}.",
        (
            step(
                "Open it, and count the layers",
                "Unpick the corner's seam and lift its folds one by one.",
                "You know what was left in it: the point, or a turn folded before the corner.",
                "blade",
                "needle",
                "eyes",
            ),
            step(
                "Trim what should be gone",
                cut,
                "Cloth is left beyond the corner's fold all along; closer would fray through.",
                "blade",
            ),
            step(
                "Fold in the right order",
                "Corner first, then the turn, then the hem; press each by itself, under a cloth.",
                f"It lies in {should}.",
                "iron",
            ),
        ),
        "If the point is cut away already and it is still too thick: the cloth is too heavy for this hem, "
        "and a scrap should be tried with a narrower turn.",
        plan=plan,
        change=(
            "It stays as it is."
            if plan is None
            else f"It changes: the corner is {plan.corner} in place of {piece.corner}; no other number does."
        ),
    )


def _thinner(piece: Piece) -> Piece | None:
    """The same piece with its corners cut as they can be; None if they are."""
    made = {"untrimmed": "mitred", "uncut": "square"}
    return piece.with_changes(corner=made[piece.corner]) if piece.corner in made else None


def _lies(corner: Corner) -> str:
    if corner.equal_hems:
        return "Fold line 1 then lies on fold line 1 of the next side."
    return "The hems differ a little in width, so go by the crossing and not by the basted lines beyond it."


def _mm(told: Told, mm: float) -> str:
    return Length(f"{mm:.6f} mm").text(told.unit)


def _open_crease(told: Told) -> Step:
    cloth = told.piece.fabric
    damp = (
        "Damp the crease with a cloth wrung out in water, and press it flat from the wrong side."
        if cloth.washed or not cloth.shrinks
        else "Press the crease flat from the wrong side with a dry iron, and don't damp it: this linen has "
        "not had its first wash, and would shrink there. The wash will take the rest of the crease out."
    )
    return step("Press the old crease out", f"Unfold it. {damp}", "The cloth lies flat when let go.", "iron")
