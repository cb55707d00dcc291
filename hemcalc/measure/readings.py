"""Readings with a ruler: threads counted over the same length in several places.

Says which readings can be threads at all, and how sure their mean is. What that does to a
finished size is the count's to say.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from fractions import Fraction

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import exact_number, leading_number

__all__ = ["standard_uncertainty", "threads_read"]

#: Standard uncertainty of one reading, threads: 0.41.
ONE_READING = math.sqrt(1 / 6)


def threads_read(readings: object) -> tuple[Fraction, ...]:
    """The readings as exact numbers of threads.

    Parameters
    ----------
    readings : sequence of int, Fraction, Decimal or str
        Threads counted over the ruler length, each in another place; halves as text
        (``"28 1/2"``) or Fractions.

    Raises
    ------
    HemError
        If there is no reading, or one is no number of threads, more than none.

    Examples
    --------
    >>> threads_read([28, "28 1/2"])
    (Fraction(28, 1), Fraction(57, 2))
    """
    given = shown(readings)
    if isinstance(readings, Sequence) and not isinstance(readings, str | bytes | bytearray):
        if len(readings):
            return tuple(_threads(reading) for reading in readings)
        given = "an empty one"
    raise HemError(
        f"readings must be a list of one or more numbers of threads, not {given}; for example [28, 28, 29].",
        "readings",
    )


def standard_uncertainty(readings: Sequence[Fraction]) -> float:
    """Standard uncertainty of the mean of the readings, in threads.

    Each end of a reading is right to half a thread, so a single reading is off by a whole
    thread at the very worst, with a standard uncertainty of √(1/6) = 0.41 thread (two
    independent ends, each anywhere within half a thread). Readings in several places also
    show how the cloth itself varies; the larger of the two says how sure one reading is, and
    the mean of n is √n times as sure.

    Source
    ------
    Geometry of two independent, evenly distributed ends; a test derives it by simulation.

    Examples
    --------
    >>> round(standard_uncertainty([Fraction(28)]), 2), round(standard_uncertainty([Fraction(28)] * 4), 2)
    (0.41, 0.2)
    """
    deviation = statistics.stdev(readings) if len(readings) > 1 else 0.0
    return max(ONE_READING, deviation) / math.sqrt(len(readings))


def _threads(reading: object) -> Fraction:
    number: Fraction | None
    try:
        if isinstance(reading, str):
            number, rest = leading_number(reading, "readings")
            number = None if rest else number
        else:
            number = exact_number(reading, "readings")
    except HemError:
        number = None
    if number is None or number <= 0:
        raise HemError(
            f"A reading is {shown(reading)}, but must be a number of threads, more than none; "
            "for example 28, or '28 1/2' in quotes.",
            "readings",
        )
    return number
