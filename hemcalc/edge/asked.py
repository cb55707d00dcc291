"""A size as it is asked for, read once: its words, and the threads or the length that they say."""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length, as_length

__all__ = ["SizeAsked", "read_size"]


@dataclass(frozen=True, slots=True)
class SizeAsked:
    """A hem, turn or handling, as `read_size` reads it."""

    #: As the reader gave it, so that she knows it again.
    said: str
    threads: int | None = None
    length: Length | None = None


def read_size(asked: int | str | Length | SizeAsked, about: str) -> SizeAsked:
    """The threads or the length that this says; what has been read already is as it was.

    Raises
    ------
    HemError
        If it is neither a whole number of threads nor a length.

    Examples
    --------
    >>> read_size(" 3/8  in", "hem")
    SizeAsked(said='3/8 in', threads=None, length=Length(Fraction(381, 40)))
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
        said = " ".join(str(asked).split())
    return SizeAsked(said, length=length)
