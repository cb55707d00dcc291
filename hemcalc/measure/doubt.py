"""A length that may come out at one number of threads or the next, as sure as the count is.

A hem of 3/8 in is 10.6 threads by a count of 28.3 to the inch; but a count that may be off by
2 % doesn't know whether the nearest is 10 or 11. More places counted may settle it, and this
says how many. Groups of stitches are never in doubt: their threads are counted on the side.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.counts import Count, MeasuredCount
from hemcalc.measure.errors import of_type
from hemcalc.measure.exact import half_up
from hemcalc.measure.lengths import Length

#: Places more that anyone is asked to count; common practice, no published source, is a few.
MAX_MORE = 8
_WORDS = ("", "one", "two", "three", "four", "five", "six", "seven", "eight")


@dataclass(frozen=True, slots=True)
class Doubt:
    """What a length may be, in whole threads. Made by `doubt_about`.

    Examples
    --------
    >>> Doubt(10, 11, more=2).text()
    '10 or 11: count two more places'
    >>> Doubt(10, 11, more=None).text()
    '10 or 11: eight more places would not tell, so count over a longer stretch, or choose'
    """

    fewest: int
    most: int
    #: Places more to count, until readings that differ as these do tell; None if eight would not.
    more: int | None

    def text(self) -> str:
        """What it may be and what to do, without a full stop."""
        between = "or" if self.most - self.fewest == 1 else "to"
        if self.more is None:
            word = _WORDS[MAX_MORE]
            todo = f"{word} more places would not tell, so count over a longer stretch, or choose"
        else:
            todo = f"count {_WORDS[self.more]} more place{'s' if self.more > 1 else ''}"
        return f"{self.fewest} {between} {self.most}: {todo}"


def doubt_about(count: Count, length: Length | str) -> Doubt | None:
    """Whether the count is sure enough to say how many threads a length is, to the nearest.

    None if it is in no doubt: a given count is taken at its word.

    Examples
    --------
    >>> doubt_about(Count.measured([57, 56, 57], over="2 in"), "3/8 in")
    Doubt(fewest=10, most=11, more=2)
    >>> doubt_about(Count("28 1/3 per in"), "3/8 in") is None
    True
    """
    exact = of_type(count, Count, "count", "Count('28/in')").threads_in(length)
    if not isinstance(count, MeasuredCount):
        return None
    fewest, most = _nearest(exact, count.error)
    if fewest == most:
        return None
    now = len(count.readings)
    enough = (
        more
        for more in range(1, MAX_MORE + 1)
        if len(set(_nearest(exact, count.error_with(now + more)))) == 1
    )
    return Doubt(fewest, most, next(enough, None))


def doubts(count: Count, **asked: object) -> tuple[str, ...]:
    """A sentence for each of the named lengths that is in doubt; what is not a length is left out.

    Examples
    --------
    >>> doubts(Count.measured([57, 56, 57], over="2 in"), hem="3/8 in", turn=5)
    ('The hem may be 10 or 11: count two more places.',)
    """
    found = {
        name: doubt_about(count, value) for name, value in asked.items() if isinstance(value, str | Length)
    }
    return tuple(f"The {name} may be {doubt.text()}." for name, doubt in found.items() if doubt)


def _nearest(exact: Fraction, error: Fraction) -> tuple[int, int]:
    """The nearest whole threads at both ends of what the length may be."""
    return half_up(exact * (1 - error)), half_up(exact * (1 + error))
