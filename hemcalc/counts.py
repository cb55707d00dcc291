"""The count of a cloth: how many threads go to an inch or a centimetre.

A count is either given ("28/in") or measured with a ruler in several places. A measured one
knows how sure it is, and how far its error carries into a finished size.
"""

from __future__ import annotations

import math
import re
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.errors import HemError, shown
from hemcalc.exact import exact_number, leading_number
from hemcalc.lengths import MILLIMETRES, Length, as_length

__all__ = ["Count", "MeasuredCount", "as_count"]

_EXAMPLE = "for example '28/in' or '11/cm'."
_FINEST = 1000 / MILLIMETRES["in"]  # threads per mm; the finest cloths have some hundreds an inch
_PER = re.compile(r"(?:threads?\b)?\s*(?:/|\bper\b)\s*(.*)", re.IGNORECASE | re.DOTALL)


@dataclass(frozen=True, eq=False)
class Count:
    """Threads to a length of cloth, exact.

    Parameters
    ----------
    threads : int or Fraction
        Threads counted, more than none.
    over : Length
        The length of cloth they were counted over.

    Raises
    ------
    HemError
        If there are no threads, no length, or more than 1000 threads to the inch.

    Examples
    --------
    >>> cloth = Count.parse("28 threads per inch")
    >>> cloth.per_inch, cloth.per_cm, cloth.pitch
    (Fraction(28, 1), Fraction(1400, 127), Length(Fraction(127, 140)))
    >>> cloth == Count(280, Length.parse("10 in"))
    True
    """

    threads: Fraction
    over: Length

    def __post_init__(self) -> None:
        threads = exact_number(self.threads, "count")
        over = as_length(self.over, "count")
        if not 0 < threads / over.mm <= _FINEST:
            raise HemError(
                f"count is {shown(threads)} threads over {over}, but must be more than none and at "
                f"most 1000 to the inch; {_EXAMPLE}",
                "count",
            )
        object.__setattr__(self, "threads", threads)
        object.__setattr__(self, "over", over)

    @classmethod
    def parse(cls, text: object) -> Count:
        """The count that a text says: a number, and the length it goes to.

        Parameters
        ----------
        text : str
            Such as ``28/in``, ``11/cm``, ``27.5 per inch``, ``28 threads per inch``,
            ``208/10 cm``.

        Raises
        ------
        HemError
            If there is no number, or no length to which it goes.

        Examples
        --------
        >>> Count.parse("110 threads per 10 cm") == Count.parse("11/cm")
        True
        >>> Count.parse("28")
        Traceback (most recent call last):
        hemcalc.errors.HemError: The count '28' does not say to what length it goes; ...
        """
        if not isinstance(text, str):
            raise HemError(f"A count is written as text, not as {shown(text)}; {_EXAMPLE}", "count")
        threads, rest = leading_number(text, "count")
        if threads is None:
            raise HemError(
                f"The count {shown(text)} must begin with a number of threads; {_EXAMPLE}", "count"
            )
        match = _PER.fullmatch(rest)
        if match is None or not match.group(1):
            raise HemError(
                f"The count {shown(text)} does not say to what length it goes; {_EXAMPLE}", "count"
            )
        length = match.group(1) if match.group(1)[0] in "0123456789.,½¼¾⅛" else f"1 {match.group(1)}"
        try:
            return cls(threads, Length.parse(length))
        except HemError:
            raise HemError(
                f"The count {shown(text)} must be more than no threads, at most 1000 to the inch, and "
                f"go to a length; {_EXAMPLE}",
                "count",
            ) from None

    @classmethod
    def measured(cls, readings: Sequence[object], over: Length | str) -> MeasuredCount:
        """The count that several readings give.

        Parameters
        ----------
        readings : sequence of int, Fraction or str
            Threads counted over the ruler length, each in another place; halves as text
            (``"28 1/2"``) or Fractions.
        over : Length or str
            The ruler length.

        Raises
        ------
        HemError
            If there is no reading, one is no number of threads, or the ruler length is zero.

        Examples
        --------
        >>> cloth = Count.measured([112, 113, "112 1/2"], over="4 in")
        >>> cloth.per_inch, cloth.spread
        (Fraction(225, 8), Fraction(1, 1))
        """
        if isinstance(readings, str | bytes) or not isinstance(readings, Sequence) or not readings:
            raise HemError(
                f"The readings are {shown(readings)}, but must be a list of one or more numbers of "
                "threads; for example [28, 28, 29].",
                "readings",
            )
        counted = tuple(_reading(reading) for reading in readings)
        mean = sum(counted, Fraction(0)) / len(counted)
        return MeasuredCount(mean, as_length(over, "over"), counted)

    @property
    def per_mm(self) -> Fraction:
        """Threads to the millimetre."""
        return self.threads / self.over.mm

    @property
    def per_inch(self) -> Fraction:
        """Threads to the inch."""
        return self.per_mm * MILLIMETRES["in"]

    @property
    def per_cm(self) -> Fraction:
        """Threads to the centimetre."""
        return self.per_mm * MILLIMETRES["cm"]

    @property
    def pitch(self) -> Length:
        """From the middle of one thread to the middle of the next: 1 / count."""
        return Length(1 / self.per_mm)

    def width(self, threads: int) -> Length:
        """How wide so many threads are.

        Examples
        --------
        >>> Count.parse("32/in").width(16).text("in")
        '1/2 in'
        """
        return self.pitch * threads

    def threads_in(self, length: Length) -> Fraction:
        """How many threads go to a length, seldom whole.

        Examples
        --------
        >>> Count.parse("28/in").threads_in(Length.parse("3/8 in"))
        Fraction(21, 2)
        """
        return length.mm * self.per_mm

    def text(self, unit: str = "in") -> str:
        """The count in words, to the nearest hundredth; cm for the metric units.

        Examples
        --------
        >>> Count.parse("28/in").text("in"), Count.parse("28/in").text("cm")
        ('28/in', '≈ 11.02/cm')
        """
        exact, name = (self.per_inch, "in") if unit == "in" else (self.per_cm, "cm")
        hundredths = round(exact * 100)
        figure = f"{hundredths / 100:.2f}".rstrip("0").rstrip(".")
        return f"{'' if exact * 100 == hundredths else '≈ '}{figure}/{name}"

    def __str__(self) -> str:
        return self.text("in")

    def __eq__(self, other: object) -> bool:
        return self.per_mm == other.per_mm if isinstance(other, Count) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.per_mm)


@dataclass(frozen=True, eq=False)
class MeasuredCount(Count):
    """A count measured with a ruler, which knows how sure it is.

    Each end of a reading is right to half a thread, so a single reading is off by a whole
    thread at the very worst, with a standard uncertainty of √(1/6) = 0.41 thread (two
    independent ends, each anywhere within half a thread). Readings in several places also
    show how the cloth itself varies; the larger of the two says how sure the mean is.

    Source
    ------
    Geometry of two independent, evenly distributed ends; a test derives it by simulation.

    Examples
    --------
    >>> cloth = Count.measured([28, 28, 29, 28], over="1 in")
    >>> cloth.mean, cloth.spread, round(cloth.plus_minus, 3)
    (Fraction(113, 4), Fraction(1, 1), 0.25)
    >>> round(cloth.plus_minus_mm(Length.parse("10 in")), 1)
    2.2
    """

    readings: tuple[Fraction, ...] = ()

    @property
    def mean(self) -> Fraction:
        """Mean of the readings, in threads over the ruler length."""
        return self.threads

    @property
    def spread(self) -> Fraction:
        """Largest reading less the smallest, in threads over the ruler length."""
        return max(self.readings) - min(self.readings)

    @property
    def plus_minus(self) -> float:
        """Standard uncertainty of the mean, in threads over the ruler length."""
        many = len(self.readings)
        reading = math.sqrt(1 / 6)
        deviation = statistics.stdev(self.readings) if many > 1 else 0.0
        return max(reading, deviation) / math.sqrt(many)

    @property
    def relative(self) -> float:
        """The uncertainty as a share of the count, the same for every width counted in threads."""
        return self.plus_minus / float(self.mean)

    @property
    def relative_worst(self) -> Fraction:
        """The same share at the very worst: a whole thread wrong in every reading, one way."""
        return 1 / self.mean

    def plus_minus_mm(self, size: Length) -> float:
        """How far the count's uncertainty carries into a size, in mm.

        Two sizes in three come out within it; `worst` is the bound.
        """
        return self.relative * float(size.mm)

    def worst(self, size: Length) -> Length:
        """How far off a size can be at the very worst."""
        return size * self.relative_worst


def as_count(value: object, about: str = "count") -> Count:
    """The value as a Count: one already, or the text of one.

    Examples
    --------
    >>> as_count("28/in").per_inch
    Fraction(28, 1)
    """
    if isinstance(value, Count):
        return value
    try:
        return Count.parse(value)
    except HemError as error:
        raise HemError(str(error), about) from None


def _reading(reading: object) -> Fraction:
    number: Fraction | None = None
    if isinstance(reading, str):
        number, rest = leading_number(reading, "a reading")
        number = None if rest else number
    elif not isinstance(reading, float) and not isinstance(reading, bool):
        number = exact_number(reading, "a reading")
    if number is None or number <= 0:
        raise HemError(
            f"A reading is {shown(reading)}, but must be a number of threads, more than none; "
            "for example 28, or '28 1/2' in quotes.",
            "readings",
        )
    return number
