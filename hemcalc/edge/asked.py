"""A size as it is asked for, read once: the threads or the length that it says, and how it is rounded.

A hem becomes the nearest whole number of threads; cloth to handle is rounded up, for less would
not do. Whatever was rounded is told.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError
from hemcalc.measure.exact import MAX_THREADS, half_up, round_up, whole_threads
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.states import said_of
from hemcalc.measure.words import threads_said


@dataclass(frozen=True, slots=True)
class SizeAsked:
    """A hem, turn or handling, as `read_size` reads it."""

    #: As the reader gave it, so that she knows it again.
    said: str
    threads: int | None = None
    length: Length | None = None


def read_size(asked: int | str | Length | SizeAsked, about: str) -> SizeAsked:
    """The threads or the length that this says; what has been read already is as it was.

    Examples
    --------
    >>> read_size(" 3/8  in", "hem")
    SizeAsked(said='3/8 in', threads=None, length=Length('3/8 in'))
    >>> read_size(8, "turn").threads
    8
    """
    if isinstance(asked, SizeAsked):
        return asked
    if not isinstance(asked, str | Length):
        least, example = (1, 16) if about == "hem" else (0, 8)
        threads = whole_threads(
            asked, about, least=least, example=example, otherwise=", or a length such as '1/2 in'"
        )
        return SizeAsked(str(threads), threads=threads)
    length = as_length(asked, about, size=about == "hem")
    if isinstance(asked, Length):
        said = length.text("in" if (16 * length.inches).denominator == 1 else "mm")
    else:
        said = " ".join(str.__str__(asked).split())
    return SizeAsked(said, length=length)


def nearest_threads(asked: SizeAsked, count: Count, about: str, words: list[str]) -> int:
    """Threads as they are, or a length to the nearest thread; what was rounded is added to `words`.

    Examples
    --------
    >>> words: list[str] = []
    >>> nearest_threads(read_size("1/2 in", "hem"), Count("25/in"), "hem", words), words
    (13, ['The hem of 1/2 in is 12 1/2 threads, rounded to 13: it finishes 1/2 thread wider.'])
    """
    exact = _in_threads(asked, count, about)
    threads = half_up(exact)
    off = abs(threads - exact)
    if off:
        sense = "wider" if threads > exact else "narrower"
        words.append(
            f"The {about} of {asked.said}{said_of(count.state)} is {threads_said(exact)}, "
            f"rounded to {threads}: it finishes {threads_said(off)} {sense}."
        )
    return threads


def threads_upward(asked: SizeAsked, count: Count, words: list[str]) -> int:
    """Handling: threads as they are, or a length rounded up; that it was is added to `words`."""
    exact = _in_threads(asked, count, "handling")
    threads = int(round_up(exact))
    if threads != exact:
        words.append(f"Handling of {asked.said} is {threads_said(exact)}, rounded up to {threads}.")
    return threads


def _in_threads(asked: SizeAsked, count: Count, about: str) -> Fraction:
    if asked.length is None:
        return Fraction(asked.threads or 0)
    exact = count.threads_in(asked.length)
    if exact > MAX_THREADS:
        raise HemError(
            f"{about} is {asked.said}, but at most {MAX_THREADS:,} threads can be planned; "
            "for example '3/8 in'.",
            about,
        )
    return exact
