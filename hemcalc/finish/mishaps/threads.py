"""Accidents with the threads of the cloth: the wrong one cut or drawn, a tail that broke or is too short."""

from __future__ import annotations

from dataclasses import replace

from hemcalc.finish.mishaps.told import OVERLAP, Rescue, Told, at_least, lines_said, step
from hemcalc.finish.words import Step
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import so_many, threads_said
from hemcalc.piece.piece import Piece
from hemcalc.stitch.spacing import piece_spacings
from hemcalc.weave.open_lines import End, ends_of
from hemcalc.weave.reach import Allowances, Reach, reach_of

_STOP = step(
    "Stop, and count again",
    "Put the blade down and pull nothing. Count outward from the design, in tens, at two places; turn the "
    "cloth over and count from the wrong side too.",
    "All counts name the same thread.",
    "blade",
    "eyes",
)
_LIGHT = (
    "Held up to a lamp or a window, the cloth is plain weave there: over and under by turns, nothing missing"
)
_TRIM = step(
    "See to the ends",
    "Leave the ends long on the wrong side until the hem is stitched and pressed; only then snip them off "
    "close, one at a time.",
    "No end shows on the right side, and none slips when the cloth is pulled on the bias.",
    "blade",
)


def wrong_thread_cut(told: Told) -> Rescue:
    """A thread that was to stay is snipped, and still lies in the cloth."""
    at = _wrong(told, usual=told.edge.open_line + 1)
    beside = min(OVERLAP, told.raw_to_raw // 4)
    new = told.new_thread(4 * beside)
    return told.rescue(
        f"A snipped end stands up where none should. Counted outward from the design it is thread {at}, in "
        f"the {told.band(at)} band of the {told.side} side; {_to_draw(told)} to be drawn there.",
        (
            _STOP,
            _take(told, new),
            step(
                "Lift the two cut ends back",
                f"With a blunt needle lift each half of thread {at} out of the weave, {beside} crossings "
                "from the snip, and lay the ends on the wrong side.",
                f"An empty path of {2 * beside} crossings lies in the cloth, and no other thread has moved.",
                "needle",
                "eyes",
            ),
            _weave_in(
                f"Begin {beside} crossings before the empty path, beside the old thread and with it over and "
                f"under; go through the path, and {beside} crossings on: {4 * beside} crossings."
            ),
            _TRIM,
            _right_one(told),
        ),
        "If a thread that runs across the open line is cut, one that was to be gathered into a group; if two "
        f"or more side by side are cut; or if you can't tell thread {at} from its neighbour.",
        replacement=new,
    )


def wrong_thread_drawn(told: Told) -> Rescue:
    """A thread that was to stay has been drawn out."""
    edge = told.edge
    at = _wrong(told, usual=edge.clear or edge.open_line + 1)
    whole = told.new_thread(told.raw_to_raw)
    cut = at_least(whole, told.unit)
    plan = _drawn_from(told, at)
    sign = (
        f"The empty line is not where the plan has it: thread {at}, in the {told.band(at)} band, is out on "
        f"the {told.side} side; {_to_draw(told)} to be drawn. It is gone, and can't be drawn again."
    )
    stop = (
        "If both the wrong thread and the right one are out; if the line runs into the stitching; or if you "
        "would have to change the design."
    )
    if plan is None:
        mended = (
            _STOP,
            _take(told, whole),
            _weave_in(
                f"From raw edge to raw edge, {told.raw_to_raw} crossings, in the path of thread {at}: "
                "against the threads on either side of it, over where they lie under.",
            ),
            _TRIM,
            _right_one(told),
        )
        stays = "It stays: on the cloth as it was cut there is no room for a hem that begins there."
        return told.rescue(sign, mended, stop, threads=1, replacement=whole, change=stays)
    new = plan.edges.of(told.side)
    other = "top" if told.neighbours[0] == "top" else "left"
    spacing = piece_spacings(plan, told.group, told.hand, told.worked).of(other)
    steps = (
        _STOP,
        step(
            "Begin the open line here",
            f"If no other thread of this side is cut yet, let thread {at} be the first of the open line: the "
            f"clear band has {threads_said(new.clear)} then, in place of {edge.clear}, and the "
            f"open line ends with thread {new.open_line}.",
            f"Nothing but thread {at} is cut on the {told.side} side.",
            "eyes",
        ),
        step(
            "Baste this side's lines anew",
            f"On the {told.side} side fold line 1 now runs after thread {new.fold_1}, fold line 2 after "
            f"{new.fold_2}, the cut line after {new.cut}. The other sides keep theirs.",
            f"From the open line to fold line 1, and from there to fold line 2, it is "
            f"{threads_said(new.hem)}.",
            "needle",
            "eyes",
        ),
        step(
            "Group the sides that meet it anew",
            f"The {told.neighbours[0]} and {told.neighbours[1]} now have {threads_said(spacing.threads)} "
            f"between the corners, in place of {spacing.threads - (new.clear - edge.clear)}. "
            f"{spacing.text()}",
            f"The groups take up all {threads_said(spacing.threads)}.",
            "eyes",
        ),
    )
    change = (
        f"It changes: {lines_said(plan)}. The piece finishes {_by(new.clear - edge.clear)}. To keep the old "
        f"plan, weave a thread {cut} long in from raw edge to raw edge instead."
    )
    return told.rescue(sign, steps, stop, threads=1, replacement=whole, plan=plan, change=change)


def _wrong(told: Told, usual: int) -> int:
    """The thread that was cut or drawn; refused if it was right to be."""
    edge = told.edge
    at = told.which(usual=usual, least=1, most=edge.cut)
    if edge.first_drawn <= at <= edge.open_line:
        raise told.refuse(at, f"{_to_draw(told)} to be drawn on the {told.side} side anyway", usual)
    return at


def _to_draw(told: Told) -> str:
    first, last = told.edge.first_drawn, told.edge.open_line
    to = "and" if last == first + 1 else "to"
    return f"thread {first} was" if first == last else f"threads {first} {to} {last} were"


def _drawn_from(told: Told, at: int) -> Piece | None:
    """The piece whose open line begins with this thread; None if the cloth or the groups forbid it."""
    clear = replace(told.piece.clear, **{told.side: at - 1})
    plan = told.piece.with_changes(clear=clear)
    if plan.edges.of(told.side).rule.need > told.edge.rule.margin:
        return None
    try:
        piece_spacings(plan, told.group, told.hand, told.worked)
    except HemError:
        return None
    return plan


def _by(threads: int) -> str:
    return f"{threads_said(abs(threads))} {'larger' if threads > 0 else 'smaller'} that way"


def _take(told: Told, new: Length) -> Step:
    return step(
        "Take a thread for it",
        f"It must be {at_least(new, told.unit)} long: its way through the cloth, and 2 in (5 cm) to hold at "
        f"each end. {told.donor}",
        "It is as thick, and as white or as brown, as those beside the gap.",
        "blade",
        "eyes",
    )


def _weave_in(task: str) -> Step:
    return step(
        "Weave the new thread in",
        f"Thread it into a blunt needle and keep it as slack as its neighbours. {task}",
        f"{_LIGHT}; where two threads lie together they lie alike.",
        "needle",
        "eyes",
    )


def _right_one(told: Told) -> Step:
    return step(
        "Baste, count, and only then snip",
        f"Run a basting (tacking) thread along just inside thread {told.edge.first_drawn} and count the "
        f"clear band at both ends of the side: {threads_said(told.edge.clear)}. Then lift the thread on the "
        "needle, at the middle of the side, and snip it.",
        "The blade had one thread on it, and both counts agreed.",
        "blade",
        "needle",
        "eyes",
    )


def _worst(told: Told) -> tuple[End, Reach]:
    """The tail of this side that has most left to cross."""
    ends = [end for end in ends_of(told.piece) if end.side.name == told.side]
    found = [(end, reach_of(end, "line", Allowances(eye=told.piece.eye))) for end in ends]
    return max(found, key=lambda each: (each[1].short, each[1].covers))


def tail_broke(told: Told) -> Rescue:
    """A tail broke off: while it was withdrawn, or on its way back into the cloth."""
    if told.edge.drawn == 1:
        return _no_tail(told)
    end, reach = _worst(told)
    at = told.which(usual=reach.crossed // 2, least=0, most=reach.covers - 1)
    beside = min(OVERLAP, at)
    new = told.new_thread(reach.covers - at + beside)
    return told.rescue(
        f"The tail of the {told.side} toward the {end.other.name} comes away in the hand: of the "
        f"{threads_said(reach.covers)} that it has to cross it has crossed {at}.",
        (
            step(
                "Find the end",
                "Hold the cloth up to the light and lift the end with a needle. If it broke between the "
                "corners, while you withdrew it, nothing is lost: that stretch was to come out; go on from "
                "the end that you have found.",
                "You hold the end, and know on which side of the cloth it last lay.",
                "needle",
                "eyes",
            ),
            _empty_needle("Darn what is left of the tail"),
            *_add_thread(told, reach.covers, at, beside, new),
        ),
        f"If it broke inside the corner, so that its turn round the tail of the {end.other.name} is open; or "
        "if tails break again and again: the cloth may be tired there.",
        replacement=new,
    )


def tail_too_short(told: Told) -> Rescue:
    """A tail does not get to the cut line."""
    if told.edge.drawn == 1:
        return _no_tail(told)
    end, reach = _worst(told)
    at = told.which(usual=reach.crossed, least=0, most=reach.covers)
    beside = min(OVERLAP, at)
    short = reach.covers - at
    new = told.new_thread(short + beside) if short else None
    seen = "where it shows" if at < reach.shows else "where the hem hides it"
    gap = (
        f"it crosses {at} of {threads_said(reach.covers)}, and {short} at its end stay open, {seen}"
        if short
        else f"by the sum it crosses all {threads_said(reach.covers)}, but the needle is in its way"
    )
    rest: tuple[Step, ...] = ()
    if new is not None:
        rest = _add_thread(told, reach.covers, at, beside, new)
    return told.rescue(
        f"The tail of the {told.side} toward the {end.other.name} is used up before the cut line: {gap}.",
        (_empty_needle("Weave the empty needle first"), *rest),
        "If the tail is too short even for its turn at the corner; or if a gap shows on the face and the new "
        "thread shows beside it.",
        replacement=new,
    )


def _no_tail(told: Told) -> Rescue:
    return told.rescue(
        "With one thread drawn no tail is darned back; its ends are run in behind the hem.",
        (
            step(
                "Run in what there is",
                "Run the end in behind the hem, as far as it goes, up to its face of "
                f"{told.in_full(told.edge.hem)}. Less will do: the hem stitch holds it.",
                "The end doesn't show on the right side, and doesn't slip.",
                "needle",
                "eyes",
            ),
        ),
        "If the end is so short that the cloth at the corner begins to part.",
    )


def _empty_needle(title: str) -> Step:
    return step(
        title,
        "Weave a blunt needle without thread along the tail's path, eye last, over and under by turns, until "
        "its eye stands beside the tail. Only then thread the tail, and pull the needle through. The shorter "
        "the needle, the shorter the tail that will do.",
        f"{_LIGHT}, as far as the tail goes.",
        "needle",
        "eyes",
    )


def _add_thread(told: Told, covers: int, at: int, beside: int, new: Length) -> tuple[Step, ...]:
    lay = (
        f"Lay it beside the last {so_many(beside, 'crossing')} of the tail, over and under with it, "
        if beside
        else "Begin it on the wrong side, beside the open square, "
    )
    return (
        _take(told, new),
        _weave_in(f"{lay}and go on alone for the {so_many(covers - at, 'crossing')} up to the cut line."),
        _TRIM,
    )
