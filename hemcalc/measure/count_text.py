"""A count as people type it: a number of threads, and the length to which it goes."""

from __future__ import annotations

import re
from fractions import Fraction

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import LONGEST_TEXT, leading_number
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES, unit_named

#: How a count is written, to end a sentence that refuses one.
COUNT_EXAMPLE = "for example '28/in' or '11/cm'."
_PER = re.compile(r"/|(?<![a-z])(?:per|to\s+the)\b", re.IGNORECASE)


def threads_to_length(text: object) -> tuple[Fraction, Length]:
    """The threads that a text says, and the length to which they go.

    Raises
    ------
    HemError
        If there is no number, no length to which it goes, or two ways to read it.

    Examples
    --------
    >>> threads_to_length("14 per 1/2 in")
    (Fraction(14, 1), Length('1/2 in'))
    """
    if not isinstance(text, str):
        raise HemError(f"A count is written as text, not as {shown(text)}; {COUNT_EXAMPLE}", "count")
    ways = _ways_to_read(text) if len(text) <= LONGEST_TEXT else set()
    if not ways:
        if leading_number(text, "count")[0] is None:
            raise HemError(
                f"The count {shown(text)} must begin with a number of threads; {COUNT_EXAMPLE}", "count"
            )
        raise HemError(
            f"The count {shown(text)} does not say to what length it goes; {COUNT_EXAMPLE}", "count"
        )
    if len(ways) > 1:
        raise HemError(
            f"The count {shown(text)} can be read in two ways, so write 'per' for one of its "
            "strokes; for example '28 per 1/2 in'.",
            "count",
        )
    return ways.pop()


def _ways_to_read(text: str) -> set[tuple[Fraction, Length]]:
    """The ways to read a text as threads to a length: a stroke may also be a fraction's."""
    ways = set()
    for per in _PER.finditer(text):
        try:
            threads, word = leading_number(text[: per.start()], "count")
            over = text[per.end() :].strip()
            unit = unit_named(over)
            length = Length(MILLIMETRES[unit]) if unit else Length(over)
        except HemError:
            continue
        if threads is not None and word.casefold() in ("", "thread", "threads"):
            ways.add((threads, length))
    return ways
