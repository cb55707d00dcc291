"""A size as threads: what was asked, threads or a length, how it is rounded, and how that is said.

A hem becomes the nearest whole number of threads; cloth to handle is rounded up, for less would
not do. Whatever was rounded is told.
"""

from __future__ import annotations

from fractions import Fraction

from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError
from hemcalc.measure.exact import MOST_THREADS, decimal_text, half_up, round_up, whole_threads
from hemcalc.measure.lengths import Length, as_length

__all__ = ["as_given", "nearest_threads", "threads_told", "threads_upward"]

_OR_LENGTH = ", or a length such as '1/2 in'"


def nearest_threads(asked: object, count: Count, about: str, words: list[str]) -> int:
    """Threads as they are, or a length to the nearest thread; what was rounded is added to `words`.

    Examples
    --------
    >>> words: list[str] = []
    >>> nearest_threads("1/2 in", Count("25/in"), "hem", words), words
    (13, ['The hem of 1/2 in is 12 1/2 threads, rounded to 13: it finishes 1/2 thread wider.'])
    """
    if not isinstance(asked, str | Length):
        least, example = (1, 16) if about == "hem" else (0, 8)
        return whole_threads(asked, about, least=least, example=example, otherwise=_OR_LENGTH)
    exact = _in_threads(asked, count, about)
    threads = half_up(exact)
    off = abs(threads - exact)
    if off:
        sense = "wider" if threads > exact else "narrower"
        words.append(
            f"The {about} of {as_given(asked)} is {threads_told(exact)}, rounded to {threads}: "
            f"it finishes {threads_told(off)} {sense}."
        )
    return threads


def threads_upward(asked: object, count: Count, words: list[str]) -> int:
    """Handling: threads as they are, or a length rounded up; that it was is added to `words`."""
    if not isinstance(asked, str | Length):
        return whole_threads(asked, "handling", otherwise=_OR_LENGTH)
    exact = _in_threads(asked, count, "handling")
    threads = int(round_up(exact))
    if threads != exact:
        words.append(f"Handling of {as_given(asked)} is {threads_told(exact)}, rounded up to {threads}.")
    return threads


def _in_threads(asked: str | Length, count: Count, about: str) -> Fraction:
    exact = count.threads_in(as_length(asked, about, size=about == "hem"))
    if exact > MOST_THREADS:
        raise HemError(
            f"{about} is {as_given(asked)}, but at most {MOST_THREADS:,} threads can be planned; "
            "for example '3/8 in'.",
            about,
        )
    return exact


def as_given(asked: object) -> str:
    """The size as the reader gave it, so that she knows it again."""
    if isinstance(asked, Length):
        return asked.text("in" if (16 * asked.inches).denominator == 1 else "mm")
    return " ".join(str(asked).split())


def threads_told(number: Fraction | int) -> str:
    """A number of threads as a stitcher says it: in halves, quarters or hundredths."""
    if isinstance(number, int):
        return f"{number} thread{'s' if number != 1 else ''}"
    whole, part = divmod(number, 1)
    if part.denominator in (1, 2, 4):
        figure = " ".join(str(n) for n in (whole, part) if n)
    elif 100 * number.numerator < number.denominator:
        figure = "less than 0.01"
    else:
        figure = ("" if 100 % number.denominator == 0 else "about ") + decimal_text(number)
    return f"{figure} thread{'s' if number > 1 else ''}"
