"""Steps of the finish: the threads of the open line drawn, and their tails darned back or run in."""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.finish.counting import in_lines
from hemcalc.finish.words import PRACTICE, Step, StepWriter
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.words import listed, threads_said
from hemcalc.piece.piece import EYE, Piece
from hemcalc.piece.sides import SIDES
from hemcalc.weave.open_lines import End, ends_of
from hemcalc.weave.reach import Allowances, Reach, reach_of


def open_line_steps(told: StepWriter) -> Iterator[Step]:
    """Be sure of the threads of the open line, draw them, and darn back the tails that have a line."""
    yield _check(told)
    if told.drawn == 1:
        yield _draw_the_only_one(told)
    else:
        yield _draw_first(told)
        yield _withdraw_others(told)
        yield _darn(told)


def run_in_steps(told: StepWriter) -> Iterator[Step]:
    """Run the tails that have no line of their own into the hem, once there is one."""
    if told.drawn != 2:
        yield _run_in(told)


def longest_eye(piece: Piece) -> Length | None:
    """The most that a needle's eye may hold of every tail for all to reach the cut line; None if none do.

    Examples
    --------
    >>> from hemcalc import example
    >>> longest_eye(example("sampler")).text("in"), longest_eye(example("sampler").with_changes(hem="2 in"))
    ('≈ 2 9/16 in', None)
    """
    spare = [
        (reach.span - reach.covers) * end.other.edge.count.pitch.mm for end, reach in _reaches(piece, "0 mm")
    ]
    return Length(min(spare)) if spare and min(spare) >= 0 else None


def _check(told: StepWriter) -> Step:
    after = told.each(lambda edge: f"after thread {edge.clear}" if edge.clear else "along the design itself")
    first = told.each(lambda edge: f"{edge.first_drawn}")
    named = "The thread" if told.drawn == 1 else "The first thread"
    inward = (
        "Beyond the line there are at least "
        f"{told.each(lambda edge: threads_said(edge.rule.need - edge.clear))}."
        if told.larger
        else f"Counted inward from the raw edge the line runs after {told.inward('clear')}."
    )
    return told.step(
        "Check before the snip",
        (
            f"Right side up, count outward from the design. {_clear_band(told)} {named} "
            f"to draw is thread {first}.",
            f"Baste {'' if told.blank else '(tack) '}a line just inside it on all four sides, {after}, and "
            "let the lines cross at the corners.",
            f"Then count along each line from crossing to crossing: {_between(told)}.",
            "Cut nothing until every count is right: a thread once cut is gone, and a new one would have to "
            "be woven in.",
            PRACTICE,
        ),
        (
            f"{_clear_band(told)} Opposite sides have the same count.",
            inward,
            told.ruler_says,
        ),
        "needle",
        "eyes",
    )


def _between(told: StepWriter) -> str:
    """Threads from corner to corner along each side, in tens, and how long they are."""
    every = told.plan.every

    def said(side: str) -> str:
        threads = told.between(side)
        along = told.piece.fabric.across if side in ("top", "bottom") else told.piece.fabric.down
        lines = f"{in_lines(threads, every)}; " if threads >= every else ""
        return f"{threads_said(threads)} ({lines}{told.length(along.width(threads))})"

    return told.of_each(said)


def _clear_band(told: StepWriter) -> str:
    if not any(told.edge(side).clear for side in SIDES):
        return "There is no clear band."
    bands = told.each(lambda edge: told.threads(edge.clear, edge) if edge.clear else "nothing")
    return f"The clear band is {bands}."


_SNIP = "snip it once, in the middle of the side, with one blade under it"


def _draw_first(told: StepWriter) -> Step:
    return told.step(
        "Draw the first thread of each side",
        (
            f"Right side up, hold the work over a finger of your {told.holding} hand. With a blunt needle "
            "lift the first thread beyond the basted line, thread "
            f"{told.each(lambda edge: f'{edge.first_drawn}')}: one thread only.",
            f"Then {_SNIP}.",
            "Ease each half out toward its corner, a little at a time, and on past the corner,",
            _how_far_out(told),
        ),
        (
            "An empty line one thread wide runs along every side and right through both its corners, just "
            "outside the basted line.",
        ),
        "blade",
        "needle",
        "eyes",
        movements=("snip", "draw out"),
    )


def _how_far_out(told: StepWriter) -> str:
    if not told.larger:
        return "right to the raw edge."
    cut = told.each(lambda edge: f"{edge.cut}")
    return (
        "but only to just beyond the cut line of the side that it runs into, and snip it off there: the cut "
        f"line runs after thread {cut}. The rest of the larger cloth stays as it is."
    )


def _draw_the_only_one(told: StepWriter) -> Step:
    return told.step(
        "Draw one thread on each side",
        (
            f"Right side up, hold the work over a finger of your {told.holding} hand. With a blunt needle "
            "lift the thread beyond the basted line, thread "
            f"{told.each(lambda edge: f'{edge.first_drawn}')}: one thread only.",
            f"Then {_SNIP}.",
            "Withdraw each half only as far as the drawn line that crosses it at the corner: drawn right "
            "out, it would leave a gap through the hem. Leave the ends hanging on the wrong side until the "
            "hem is folded.",
        ),
        (
            f"Between the corners the open line measures {_open_line(told)}; the cloth beyond is whole, and "
            "one small square is open at each corner.",
        ),
        "blade",
        "needle",
        "eyes",
        movements=("snip", "withdraw to the corner"),
    )


def _withdraw_others(told: StepWriter) -> Step:
    second = told.each(lambda edge: f"{edge.clear + 2}")
    more = (
        ()
        if told.drawn == 2
        else (
            "Do the same with the threads after it, as far as thread "
            f"{told.each(lambda edge: f'{edge.open_line}')}, but stop each of them one thread short of that "
            "empty line, so that it still lies across it. Leave these tails hanging on the wrong side, out "
            "of the way, until the hem is folded.",
        )
    )
    return told.step(
        "Withdraw the other threads to the corners",
        (
            f"Right side up, lift the next thread outward with the needle, thread {second}, and {_SNIP}.",
            "Withdraw each half only as far as the empty line that crosses it at the corner.",
            f"That leaves two tails of thread {second}, each half as long as its side: {_lengths(told)}. A "
            "tail is called by its side and its end: the left tail of the top is the one at the top left "
            "corner.",
            *more,
        ),
        (
            f"Between the corners the open line measures {_open_line(told)}; beyond them only the first "
            "thread is gone.",
        ),
        "blade",
        "needle",
        "eyes",
        movements=("snip", "withdraw to the corner"),
    )


def _open_line(told: StepWriter) -> str:
    return told.each(lambda edge: told.threads(edge.drawn, edge))


def _lengths(told: StepWriter) -> str:
    """How long the tails of the darned threads are, sides alike together."""
    lengths: dict[str, dict[str, list[str]]] = {}
    for end, reach in _reaches(told.piece):
        lengths.setdefault(end.side.name, {}).setdefault(threads_said(reach.length), []).append(
            end.other.name
        )

    def said(side: str) -> str:
        alike = lengths[side]
        if len(alike) == 1:
            return next(iter(alike))
        return " and ".join(f"{long} toward the {listed(ends)}" for long, ends in alike.items())

    return told.of_each(said)


def _reaches(piece: Piece, eye: str | None = None) -> tuple[tuple[End, Reach], ...]:
    """Each tail that is darned, and how far it gets with the needle that the piece reckons with."""
    allowances = Allowances(eye=piece.eye if eye is None else eye)
    return tuple((end, reach_of(end, "line", allowances)) for end in ends_of(piece))


def _darn(told: StepWriter) -> Step:
    reaches = _reaches(told.piece)
    short = [(end, reach) for end, reach in reaches if reach.short]
    covers = {end.other.name: reach.covers for end, reach in reaches}
    crossing = told.of_each(lambda side: threads_said(covers[side]))
    second = told.each(lambda edge: f"{edge.clear + 2}")
    gap = (
        "Close each gap with a thread snipped from the same cloth, beyond the cut line: weave it in from "
        "where the tail ends, the two ends side by side for a few threads."
        if short
        else ""
    )
    return told.step(
        "Darn the tails back",
        (
            f"Right side up, at one corner after the other, darn back the two tails of thread {second} that "
            "meet there, first the top's or bottom's, then the left's or right's.",
            "Thread the tail into a blunt needle, turn it back in the empty line that crosses it at the "
            "corner, where it holds the other tail, and weave it outward into the empty line beside its own.",
            "A tail that last lay over a thread begins under the next; then over and under by turns, out to "
            "the cut line.",
            f"In the hem of the side that it runs into, it crosses {crossing}.",
            _when_short(told),
            *_too_short(short),
            gap,
        ),
        (
            "Held up to a lamp or a window, the cloth beyond the open line is plain weave as far as the "
            "cut line, with nothing missing and nothing double; one small square is open at each corner.",
        ),
        "needle",
        "eyes",
        *(("blade",) if short else ()),
        movements=("darn back",),
    )


def _when_short(told: StepWriter) -> str:
    """How the last of a tail is darned, with which needle that was reckoned, and which would do."""
    eye, most = as_length(told.piece.eye, "eye", size=False), longest_eye(told.piece)
    memory = " (from memory)" if eye == Length(EYE) else ""
    held = f"The plan allows {told.length(eye)} of each tail for the eye of the needle{memory}"
    if most is None:
        reach = "; without it, too, some would be too short."
    else:
        most = Length(most.mm // told.mark.mm * told.mark.mm)
        reach = f"; up to {told.length(most)} there would still let every tail reach the cut line."
    return (
        "When less of the tail is left than the needle is long, take it out of the eye, weave the empty "
        f"needle along the rest of the way, then thread the tail and pull it through. {PRACTICE} "
        f"{held}{reach}"
    )


def _too_short(short: list[tuple[End, Reach]]) -> Iterator[str]:
    """Which tails don't reach the cut line, tails alike together."""
    alike: dict[str, dict[str, list[str]]] = {}
    for end, reach in short:
        first = reach.gaps[0]
        shows = "where it shows" if reach.gap_shows else "where it does not show"
        gets = f"crosses only {threads_said(reach.crossed)}" if reach.crossed else "is used up in its turn"
        said = (
            f"{gets}, and a gap begins at thread {first.first} of the side that it runs into, in the "
            f"{first.name} band, {shows}."
        )
        alike.setdefault(said, {}).setdefault(end.side.name, []).append(end.other.name)
    for said, sides in alike.items():
        ends: dict[str, list[str]] = {}
        for side, toward in sides.items():
            ends.setdefault(listed(toward), []).append(side)
        whose = listed(
            [
                f"the {toward} tail{'s' * (' and ' in toward or len(names) > 1)} of the {listed(names)}"
                for toward, names in ends.items()
            ]
        )
        plural = " and " in whose
        yield f"{whose.capitalize()} {'are too short: each' if plural else 'is too short: it'} {said}"


def _run_in(told: StepWriter) -> Step:
    hem = told.each(lambda edge: threads_said(edge.hem))
    which = (
        f"each end of thread {told.each(lambda edge: f'{edge.first_drawn}')}"
        if told.drawn == 1
        else "each tail that still hangs at a corner"
    )
    return told.step(
        "Run the ends in",
        (
            f"Wrong side up, thread {which} into a blunt needle and run it in between the layers of the hem "
            f"that it meets, no further than that hem is deep: {hem}. Snip off what is left.",
            "Weave the empty needle in first where the tail is shorter than the needle.",
        ),
        ("No end hangs loose, and none shows on the right side.",),
        "blade",
        "needle",
        "eyes",
    )
