"""Steps of the finish: the threads of the open line drawn, and their tails darned back or run in."""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.finish.words import Step, StepWriter, listed
from hemcalc.measure.words import threads_said
from hemcalc.weave.open_lines import End, ends_of
from hemcalc.weave.reach import Allowances, Reach, reach_of

__all__ = ["open_line_steps"]


def open_line_steps(told: StepWriter) -> Iterator[Step]:
    """Draw the threads of the open line, and see to their tails."""
    if told.drawn == 1:
        yield _draw_the_only_one(told)
        yield _run_in(told)
    else:
        yield _draw_first(told)
        yield _withdraw_others(told)
        yield _darn(told)


def _draw_first(told: StepWriter) -> Step:
    return told.step(
        "Draw the first thread of each side",
        (
            _first_to_draw(told),
            "Lift it near the middle of the side with the point of a blunt needle, snip it there, and ease "
            "each half out past the corner,",
            _how_far_out(told),
        ),
        (
            "An empty line one thread wide runs along every side right through both its corners, and the "
            f"clear band is {_clear_band(told)}.",
        ),
        "blade",
        "needle",
        "eyes",
    )


def _first_to_draw(told: StepWriter) -> str:
    first = told.each(lambda edge: f"{edge.first_drawn}")
    return (
        f"Count outward from the design. The clear band before the open line is {_clear_band(told)}, and the "
        f"first thread to be drawn is thread {first}."
    )


def _clear_band(told: StepWriter) -> str:
    return told.each(lambda edge: told.threads(edge.clear, edge) if edge.clear else "nothing")


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
            _first_to_draw(told),
            "Lift it at the middle of the side with the point of a blunt needle, snip it there, and withdraw "
            "each half only as far as the drawn line that crosses it at the corner.",
            "Beyond the corner it stays in the cloth: drawn right out, it would leave a gap through the hem.",
        ),
        (
            f"Between the corners the open line measures {_open_line(told)}; the cloth beyond is whole, and "
            "one small square is open at each corner.",
        ),
        "blade",
        "needle",
        "eyes",
    )


def _withdraw_others(told: StepWriter) -> Step:
    second = told.each(lambda edge: f"thread {edge.clear + 2}")
    more = (
        ""
        if told.drawn == 2
        else "Do the same with those after it, as far as thread "
        f"{told.each(lambda edge: f'{edge.open_line}')}, but let each come out one thread short of that line."
    )
    return told.step(
        "Withdraw the other threads to the corners",
        (
            f"Lift {second} with the needle, snip it at its middle, and withdraw each half only as far as "
            "the empty line that crosses it at the corner.",
            more,
            f"Its two tails stay hanging, each as long as half its side: {_lengths(told)}.",
        ),
        (
            f"Between the corners the open line measures {_open_line(told)}; beyond them only the first "
            "thread is gone.",
        ),
        "blade",
        "needle",
        "eyes",
    )


def _open_line(told: StepWriter) -> str:
    return told.each(lambda edge: told.threads(edge.drawn, edge))


def _lengths(told: StepWriter) -> str:
    """How long the tails of the darned threads are, sides alike together."""
    lengths: dict[str, dict[str, None]] = {}
    for end, reach in _reaches(told):
        lengths.setdefault(end.side.name, {})[threads_said(reach.length)] = None
    return told.of_each(lambda side: " and ".join(lengths[side]))


def _reaches(told: StepWriter) -> list[tuple[End, Reach]]:
    return [(end, reach_of(end, "line", Allowances())) for end in ends_of(told.piece)]


def _darn(told: StepWriter) -> Step:
    reaches = _reaches(told)
    short = [(end, reach) for end, reach in reaches if reach.short]
    covers = {end.other.name: reach.covers for end, reach in reaches}
    crossing = told.of_each(lambda side: threads_said(covers[side]))
    more = (
        ""
        if told.drawn == 2
        else "The tails of the threads beyond it have no line of their own: run them in behind the hem."
    )
    gap = (
        "Close each gap with a thread snipped from the same cloth, beyond the cut line, whose end lies "
        "beside the tail's."
        if short
        else ""
    )
    return told.step(
        "Darn the tails back",
        (
            f"Thread each tail of thread {told.each(lambda edge: f'{edge.clear + 2}')} into a blunt needle, "
            "turn it back in the empty line at the corner, where it holds the tail of the next side, and "
            "weave it outward into the empty line beside its own.",
            "A tail that last lay over begins under; then over and under by turns, out to the cut line.",
            f"In the hem of the side that it runs into it has to cross {crossing}.",
            *_too_short(short),
            gap,
            more,
        ),
        (
            "Held up to a lamp or a window, the cloth beyond the open line is plain weave as far as the "
            "cut line, with nothing missing and nothing double; one small square is open at each corner.",
        ),
        "needle",
        "eyes",
        *(("blade",) if short else ()),
    )


def _too_short(short: list[tuple[End, Reach]]) -> Iterator[str]:
    """Which tails don't reach the cut line, tails alike together."""
    alike: dict[str, dict[str, list[str]]] = {}
    for end, reach in short:
        first = reach.gaps[0]
        shows = "where it shows" if reach.gap_shows else "where it does not show"
        gets = f"crosses only {reach.crossed} of them" if reach.crossed else "does not get round its turn"
        said = f"{gets}, and a gap begins at thread {first.first}, in the {first.name} band, {shows}."
        alike.setdefault(said, {}).setdefault(end.side.name, []).append(end.other.name)
    for said, ends in alike.items():
        whose = listed([f"of the {side} toward the {listed(toward)}" for side, toward in ends.items()])
        yield f"Too short is the tail {whose}: it {said}"


def _run_in(told: StepWriter) -> Step:
    return told.step(
        "Run the ends in",
        (
            "With one thread drawn there is no empty line to darn into: thread each end of thread "
            f"{told.each(lambda edge: f'{edge.first_drawn}')} into a blunt needle and run it in behind the "
            "hem of the side that it meets, no further than its face, which is "
            f"{told.each(lambda edge: threads_said(edge.hem))}.",
        ),
        ("No end hangs loose, and none shows on the right side.",),
        "needle",
        "eyes",
    )
