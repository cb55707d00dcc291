"""What a slip is: the sums with one thing changed, and the ways in which they can be changed.

A fact is misread, a band left out, a step done otherwise. What a slip gives, and how that was
worked, come from the steps that give the right number.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from hemcalc.sums.facts import LINES, CountedWay
from hemcalc.sums.sums import RECKONINGS, Reckoning, Sums
from hemcalc.sums.working import Working, number

#: How often a slip is made, beside the others.
OFTEN, SOMETIMES, SELDOM = 6, 3, 1


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip: its name, how often it is made, what happened as a clause, a question that leads to it.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> from hemcalc.sums.sums import sums_of
    >>> from hemcalc.sums.slips import SLIPS
    >>> forgotten = SLIPS["turn forgotten"]
    >>> forgotten.working(sums_of(example("bread cloth")), "total").line
    '7 + 2 + 11 + 11 = 31 threads'
    """

    name: str
    often: int
    clause: str
    question: str
    #: The same sums with one thing changed.
    change: Callable[[Sums], Sums] = field(repr=False)

    def working(self, sums: Sums, name: str, unit: str = "threads") -> Working | None:
        """The number that this slip gives; None if nobody would write it down."""
        return number_by(self.change(sums), name, unit)


def number_by(sums: Sums, name: str, unit: str = "threads") -> Working | None:
    """The number of changed sums; None if it is no whole number of threads, or below nothing."""
    try:
        working = sums.working(name, unit)
    except ZeroDivisionError:
        return None  # a count that was rounded to nothing
    whole = working.value.denominator == 1 or unit != "threads"
    return working if whole and (working.value >= 0 or name == "slack") else None


def so(**changes: Any) -> Callable[[Sums], Sums]:
    """Sums with other fields; what is done otherwise is added to what is already."""

    def changed(sums: Sums) -> Sums:
        added: dict[str, Any] = {
            name: {**getattr(sums, name), **value} if isinstance(value, dict) else value
            for name, value in changes.items()
        }
        return replace(sums, **added)

    return changed


def done(**reckonings: Reckoning) -> Callable[[Sums], Sums]:
    """Sums with steps done otherwise, by their names with _ between the words."""
    return so(otherwise={name.replace("_", " "): step for name, step in reckonings.items()})


def bands(*bands: str) -> Callable[[Sums], Sums]:
    """Sums that add up these bands."""
    return so(bands=bands)


def cloths(change: Callable[[CountedWay], CountedWay]) -> Callable[[Sums], Sums]:
    """Sums on another cloth, both ways."""
    return lambda sums: replace(sums, across=change(sums.across), down=change(sums.down))


def exchanged(sums: Sums, fields: tuple[str, ...]) -> Sums:
    """Across and down with these of their fields exchanged."""
    across, down = sums.across, sums.down
    return replace(
        sums,
        across=replace(across, **{each: getattr(down, each) for each in fields}),
        down=replace(down, **{each: getattr(across, each) for each in fields}),
    )


def design(change: Callable[[int], Fraction]) -> Callable[[Sums], Sums]:
    """Sums of a design of other threads."""

    def changed(sums: Sums) -> Sums:
        across, down = (change(threads) for threads in sums.design)
        whole = across.denominator == down.denominator == 1
        return replace(sums, design=(int(across), int(down))) if whole else sums

    return changed


def first_drawn(more: int) -> Callable[[Sums], Sums]:
    """The first drawn thread so far from its place, and the clear band with it."""
    return done(
        first_drawn=lambda sums, side: sums.clear(side) + number(more),
        clear=lambda sums, side: number(int(sums.clear(side).value) + more - 1),
    )


def hem_asked(sums: Sums, side: str) -> Working:
    """The hem before it is a whole number of threads."""
    return sums.hem if sums.hem.unit == "threads" else sums.in_threads(sums.hem, side)


def rule_of(times: int) -> Callable[[Sums], Sums]:
    """Sums whose rule is so many times the hem."""
    return done(rule=lambda sums, side: number(times) * sums.plain("hem", side))


def margin(choose: Callable[[Working, Working], Working]) -> Callable[[Sums], Sums]:
    """Sums whose margin is chosen otherwise from rule and need."""
    return done(margin=lambda sums, side: choose(sums.plain("rule", side), sums.plain("need", side)))


def draw_line(change: Callable[[Working, Working], Working]) -> Callable[[Sums], Sums]:
    """The line for drawing, changed by the drawn threads."""
    return done(draw_line=lambda sums, side: change(RECKONINGS["draw line"](sums, side), number(sums.drawn)))


def beyond(sums: Sums) -> Sums:
    """Sums that tell each line as the thread beyond it."""
    reckonings: dict[str, Reckoning] = {
        f"beyond {line}": lambda sums, side, line=line: sums.step(line, side) + number(1)  # type: ignore[misc]
        for line in LINES
    }
    told = {line: f"beyond {line}" for line in LINES}
    return so(exchanged=told, otherwise=reckonings)(sums)


#: Answers across for answers down, and the other way round.
WAYS = {
    f"{what} {one}": f"{what} {other}"
    for what in ("finished", "cut")
    for one, other in (("across", "down"), ("down", "across"))
}
