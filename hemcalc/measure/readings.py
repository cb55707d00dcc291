"""Readings with a ruler: threads counted over the same length in several places.

Says which readings can be threads at all, and how sure their mean is: its standard
uncertainty, and how far off it may be to a stated confidence. What that does to a size is the
count's to say.

What is cut allows for what a count may be off to a confidence that the reader chooses; a
confidence of 95 % leaves 5 cloths in 100 too small, across and down together.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from fractions import Fraction
from functools import cached_property, lru_cache

from hemcalc.measure.errors import HemError, several, shown
from hemcalc.measure.exact import decimal_text, exact_number, leading_number, whole_threads
from hemcalc.measure.measured import share

#: Standard uncertainty of one reading, threads: 0.41.
ONE_READING = math.sqrt(1 / 6)

#: Readings that what we know beforehand is worth: how a ruler is read, and that an evenweave is
#: near even. A choice of this library, no published source; tests/bench/counting.py shows what
#: it holds: cloths whose count varies by 1 % from place to place, from the first reading on.
KNOWN = 4


def threads_read(readings: object) -> tuple[Fraction, ...]:
    """The readings as exact numbers of threads; halves as text or Fractions.

    Examples
    --------
    >>> threads_read([28, "28 1/2"])
    (Fraction(28, 1), Fraction(57, 2))
    """
    given = several(readings, "readings", "one or more numbers of threads", "[28, 28, 29]")
    if not given:
        raise HemError(
            "readings is empty, but must have one number of threads at least; for example [28, 28, 29].",
            "readings",
        )
    return tuple(_threads(reading) for reading in given)


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
    return _of_one(readings) / math.sqrt(len(readings))


def error_at(confidence: Fraction, readings: Sequence[Fraction], places: int | None = None) -> float:
    """How far off the mean of the readings may be, in threads, to a confidence.

    Student's t times the standard uncertainty. A few readings show little of how a cloth
    varies from place to place, one shows nothing: so t has fewer degrees of freedom the fewer
    they are, n - 1, and four more for what is known before the first (`KNOWN`). As many lie
    too low as too high.

    They are taken as if there were so many `places`, differing as these do.

    Source
    ------
    Student's t for a mean of few readings: JCGM 100:2008, Evaluation of measurement data:
    Guide to the expression of uncertainty in measurement, 2008, annex G.3, from memory.

    Examples
    --------
    >>> once = [Fraction(28)]
    >>> round(error_at(Fraction(95, 100), once), 2), round(error_at(Fraction(95, 100), once, 4), 2)
    (1.13, 0.48)
    """
    number = len(readings) if places is None else places
    return students_t(confidence, number - 1 + KNOWN) * _of_one(readings) / math.sqrt(number)


def _of_one(readings: Sequence[Fraction]) -> float:
    """Standard uncertainty of one of the readings: the ruler's, or their own spread if it is larger."""
    return max(ONE_READING, float(statistics.stdev(readings)) if len(readings) > 1 else 0.0)


class Readings:
    """How sure readings are: what is known of a measured count beyond its threads and its ruler."""

    #: Threads counted over the ruler length, each in another place.
    readings: tuple[Fraction, ...]
    #: How sure a cloth cut by them is to be large enough.
    confidence: Fraction

    @property
    def mean(self) -> Fraction:
        """Mean of the readings, in threads over the ruler length."""
        return sum(self.readings, Fraction(0)) / len(self.readings)

    @property
    def spread(self) -> Fraction:
        """Largest reading less the smallest, in threads over the ruler length."""
        return max(self.readings) - min(self.readings)

    @property
    def plus_minus(self) -> float:
        """Standard uncertainty of the mean, in threads over the ruler length."""
        return standard_uncertainty(self.readings)

    @property
    def relative(self) -> float:
        """The uncertainty as a share of the count, the same for every width counted in threads."""
        return self.plus_minus / float(self.mean)

    @property
    def relative_worst(self) -> Fraction:
        """The same share at the very worst: a whole thread wrong in every reading, one way."""
        return 1 / self.mean

    @cached_property
    def error(self) -> Fraction:
        """Share by which the mean may be off, at its confidence: it is too high as often as too low.

        So of cloths that allow for it both ways, across and down, no more come out too small
        one way or the other than the confidence leaves.

        Refused if it may be off by all of itself.
        """
        return self.error_with(len(self.readings))

    def error_with(self, places: int) -> Fraction:
        """The error if so many places had been counted, whose readings differ as these do.

        Examples
        --------
        >>> from hemcalc.measure.counts import Count
        >>> once = Count.measured([28], over="1 in")
        >>> [float(once.error_with(places)) for places in (1, 2, 4)]
        [0.040482, 0.026503, 0.017239]
        """
        number = whole_threads(places, "places", least=1, example=4, of="places")
        off = error_at(self.confidence, self.readings, number) / float(self.mean)
        if off >= 1:
            raise HemError(
                f"A mean of {decimal_text(self.mean)} may be off by all of itself, so count over a longer "
                "stretch; for example over '4 in'.",
                "over",
            )
        # What is measured becomes exact here, upward, in millionths, so that lengths stay short fractions.
        return Fraction(math.ceil(off * 10**6), 10**6)


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


#: How sure we are unless told.
SURE = Fraction(95, 100)
_MIN_CONFIDENCE, _MAX_CONFIDENCE = Fraction(50, 100), Fraction(999, 1000)


def as_confidence(value: object) -> Fraction:
    """The value as a confidence, from 50 % to 99.9 %.

    Examples
    --------
    >>> as_confidence("90 %")
    Fraction(9, 10)
    >>> as_confidence("all of it")
    Traceback (most recent call last):
    hemcalc.HemError: confidence is 'all of it', but must be from 50 % to 99.9 %, since no...
    """
    try:
        level = share(value, "confidence")
    except HemError:
        level = Fraction(0)
    if not _MIN_CONFIDENCE <= level <= _MAX_CONFIDENCE:
        raise HemError(
            f"confidence is {shown(value)}, but must be from 50 % to 99.9 %, since no measured count is "
            "quite sure; for example '95 %'.",
            "confidence",
        )
    return level


@lru_cache(maxsize=1000)
def students_t(confidence: Fraction, freedom: int) -> float:
    """Standard uncertainties that hold the true value this often, both sides together.

    The confidence is the share of cases between -t and t; of freedom there are 1 or more degrees.

    Source
    ------
    The distribution in closed form for whole degrees of freedom: Milton Abramowitz and Irene
    A. Stegun, Handbook of Mathematical Functions, 1964, 26.7.3 and 26.7.4, from memory; a
    test holds it against another library.

    Examples
    --------
    >>> round(students_t(Fraction(95, 100), 4), 3), round(students_t(Fraction(95, 100), 10_000), 2)
    (2.776, 1.96)
    """
    low, high = 0.0, math.pi / 2
    # t = tan(angle) · √freedom; the share within rises with the angle.
    while (middle := (low + high) / 2) not in (low, high):
        low, high = (middle, high) if _within(middle, freedom) < confidence else (low, middle)
    return math.tan(high) * math.sqrt(freedom)


def _within(angle: float, freedom: int) -> float:
    """Share of Student's distribution that lies within this angle, arctan(t / √freedom)."""
    odd = freedom % 2
    square = math.cos(angle) ** 2
    term, total = math.cos(angle) if odd else 1.0, 0.0
    for factor in range(2 + odd, freedom + 1, 2):
        total += term
        term *= square * (factor - 1) / factor
    part = math.sin(angle) * total
    return (angle + part) * 2 / math.pi if odd else part
