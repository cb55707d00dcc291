"""Accidents at the cut: the cloth cut too far in, stained or frayed there, and the hem that is left."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from hemcalc.edge.ledger import Edge
from hemcalc.finish.mishaps.told import Rescue, Told, lines_said, step
from hemcalc.finish.words import Step
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import threads_said
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES

#: A turn that can still be folded: the narrowest that a handbook gives for fine work, 2 mm at most.
#: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776.
LEAST_TURN = Length("2 mm")


def cut_too_far(told: Told) -> Rescue:
    """The cloth is cut nearer to the design than the cut line."""
    cut = told.edge.cut
    at = told.which(usual=cut - 1, least=1, most=cut - 1)
    plan = hem_within(told, at)
    return told.rescue(
        f"Counted outward from the design, the cloth of the {told.side} side ends after thread {at}, and the "
        f"cut line runs after thread {cut}: {told.in_full(cut - at)} too far in.",
        (_stop_cutting(told, at), *_to_the_new_plan(told, plan)),
        _ask(plan),
        threads=cut - at,
        plan=plan,
        change=_change(told, plan),
    )


def frayed(told: Told) -> Rescue:
    """Threads have come out of the raw edge."""
    return _spoilt(
        told,
        "Threads hang loose along the raw edge",
        step(
            "Stop the fraying",
            "Draw out the loose threads, one by one, and don't cut into the cloth after them. Overcast the "
            "edge with small stitches, two or three threads deep.",
            "Nothing comes away when a finger is drawn along it.",
            "needle",
            "eyes",
        ),
    )


def stained(told: Told) -> Rescue:
    """A mark has come on the cloth near the cut line."""
    return _spoilt(
        told,
        "A mark lies near the cut line",
        step(
            "Try to get it out",
            "Before it dries: press a clean damp cloth on it from the wrong side, and don't rub. Try "
            "whatever else you use on a scrap first. Never press it with a hot iron, which sets it.",
            "It is gone, or doesn't grow any more.",
        )
        if told.piece.fabric.washed or not told.piece.fabric.shrinks
        else step(
            "Leave it dry",
            "This linen has not had its first wash: don't wet one place of it. Lift off what lies on it, and "
            "never press it with a hot iron, which sets it.",
            "It doesn't grow any more.",
        ),
    )


def _spoilt(told: Told, what: str, first: Step) -> Rescue:
    """What to do where only the cloth up to a thread is sound."""
    edge = told.edge
    at = told.which(usual=edge.cut - 2, least=1, most=edge.rule.margin)
    sign = (
        f"{what} of the {told.side} side; thread {at} is the last sound one, counted outward from the design."
    )
    if at >= edge.cut:
        cut = step(
            "Cut it off",
            f"The cut line runs after thread {edge.cut}: what is spoilt comes away with the offcut.",
            "All of it lies beyond the basted line.",
            "blade",
        )
        return told.rescue(sign, (first, cut), "If it still grows toward the cut line.")
    plan = hem_within(told, at)
    return told.rescue(
        sign,
        (first, *_to_the_new_plan(told, plan)),
        _ask(plan),
        threads=edge.cut - at,
        plan=plan,
        change=_change(told, plan),
    )


def hem_within(told: Told, at: int) -> Piece | None:
    """The piece as it can still be hemmed when the cloth of a side ends after a thread.

    The turn is made narrower first, on all sides alike, as long as it stays foldable; if that
    is not enough, the hem is planned anew, as wide as it can be. No side is cut further out than
    the old plan had it.
    """
    piece, lost = told.piece, told.edge.cut - at
    turn = min(told.edge.turn - lost, *(edge.turn for edge in piece.edges))
    foldable = turn > 0 and all(edge.width(turn).mm >= _least(edge) for edge in piece.edges_in_hand)
    if foldable:
        return piece.with_changes(turn=turn)
    for hem in range(told.edge.hem - 1, 0, -1):
        plan = _with_hem(told, hem, at)
        if plan is not None and _fits(told, plan, at):
            return plan
    return None


def _least(edge: Edge) -> Fraction:
    """The narrowest turn, mm, on an edge that may have been planned with a narrower one."""
    return min(LEAST_TURN.mm, edge.turn_width.mm)


def _with_hem(told: Told, hem: int, at: int) -> Piece | None:
    """The piece with a hem of so many threads on this side, and a turn of half of it, or what can be had."""
    half, left = (hem + 1) // 2, at - told.edge.open_line - 2 * hem
    foldable = max(ceil(_least(edge) / edge.count.pitch.mm) for edge in told.piece.edges_in_hand)
    turned = min(max(half, foldable), left)
    turn = None if turned == half else turned
    asked = hem if told.piece.same == "threads" else told.piece.edges.of(told.side).width(hem)
    try:
        return told.piece.with_changes(hem=asked, turn=turn)
    except HemError:  # no thread of the other count, or a corner that can't be cut so
        return None


def _fits(told: Told, plan: Piece, at: int) -> bool:
    was = zip(plan.edges_in_hand, told.piece.edges_in_hand, strict=True)
    turns = all(new.turn_width.mm >= _least(old) for new, old in was)
    new, old = plan.edges, told.piece.edges
    return turns and new.of(told.side).cut <= at and all(new.of(n).cut <= old.of(n).cut for n in SIDES)


def _stop_cutting(told: Told, at: int) -> Step:
    return step(
        "Stop cutting",
        f"Lay the shears down. Count at two places from the design to the raw edge of the {told.side} side, "
        "and take the smaller number. Pin nothing to it yet, and don't pull at it.",
        f"Both counts say {at}.",
        "blade",
        "eyes",
    )


def _to_the_new_plan(told: Told, plan: Piece | None) -> tuple[Step, ...]:
    if plan is None:
        return ()
    return (
        step(
            "Baste the new lines",
            f"On every side: {lines_said(plan)}. Take the old basting (tacking) out where a line has moved.",
            f"Fold line 1 and fold line 2 stand {_each(plan, 'hem')} apart.",
            "blade",
            "needle",
            "eyes",
        ),
        step(
            "Trim the other sides to match",
            "Cut the other three sides along their new cut lines, so that all corners are alike.",
            f"From fold line 2 to the raw edge it is {_each(plan, 'turn')}.",
            "blade",
        ),
    )


def _change(told: Told, plan: Piece | None) -> str:
    if plan is None:
        return "No double hem that can be folded fits on the cloth that is left."
    old = told.piece
    if plan.hem == old.hem:
        return (
            f"It changes: the turn is {threads_said(plan.edges.left.turn)} on every side, in place of "
            f"{_each(old, 'turn')}. Hem and finished size stay."
        )
    return (
        f"It changes: the hem is {_each(plan, 'hem')}, in place of {_each(old, 'hem')}, and the turn "
        f"{_each(plan, 'turn')}. {plan.finished_size.text(told.unit).capitalize()}."
    )


def _each(piece: Piece, band: str) -> str:
    return piece.edges.map(lambda edge: threads_said(getattr(edge, band))).text()


def _ask(plan: Piece | None) -> str:
    if plan is None:
        return "Now: stop, cut nothing more, and ask. A binding or a facing may save the piece."
    return "Before you cut the other three sides: have somebody count the new lines with you."
