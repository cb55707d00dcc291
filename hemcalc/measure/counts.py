"""The count of a cloth: how many threads go to an inch or a centimetre.

A count is either given ("28/in") or measured with a ruler in several places. A measured one
knows how sure it is, and how far its error carries into a finished size.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.exact import LONGEST_TEXT, decimal_text, exact_number, leading_number
from hemcalc.measure.lengths import MILLIMETRES, UNITS, Length, as_length, unit_named
from hemcalc.measure.readings import standard_uncertainty, threads_read

__all__ = ["Count", "MeasuredCount", "as_count"]

_EXAMPLE = "for example '28/in' or '11/cm'."
_WANTED = "must be a plain number of threads, from 1 to 1000 to the inch"
_COARSEST = 1 / MILLIMETRES["in"]  # threads per mm; canvas for rugs has some three an inch
_FINEST = 1000 / MILLIMETRES["in"]  # the finest cloths have some hundreds an inch
_DIGITS = 1024  # bits of a fraction: half of what a Length has, so that widths stay lengths
_PER = re.compile(r"/|(?<![a-z])(?:per|to\s+the)\b", re.IGNORECASE)


@dataclass(frozen=True, eq=False)
class Count:
    """Threads to a length of cloth, exact.

    Parameters
    ----------
    threads : int, Fraction or Decimal
        Threads counted, more than none.
    over : Length or str
        The length of cloth they were counted over.

    Raises
    ------
    HemError
        If there are no threads, no length, or not from 1 to 1000 threads to the inch.

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
        over = as_length(self.over, "over")
        per_mm = threads / over.mm
        longest = max(per_mm.numerator.bit_length(), per_mm.denominator.bit_length())
        if longest > _DIGITS or not _COARSEST <= per_mm <= _FINEST:
            raise HemError(f"count is {shown(threads)} over {over}, but {_WANTED}; {_EXAMPLE}", "count")
        object.__setattr__(self, "threads", threads)
        object.__setattr__(self, "over", over)

    @classmethod
    def parse(cls, text: object) -> Count:
        """The count that a text says: a number, and the length it goes to.

        Parameters
        ----------
        text : str
            Such as ``28/in``, ``11/cm``, ``27.5 per inch``, ``28 threads to the inch``,
            ``208/10 cm``.

        Raises
        ------
        HemError
            If there is no number, no length to which it goes, or two ways to read it.

        Examples
        --------
        >>> Count.parse("110 threads per 10 cm") == Count.parse("11/cm")
        True
        >>> Count.parse("28")
        Traceback (most recent call last):
        hemcalc.HemError: The count '28' does not say to what length it goes; ...
        """
        if not isinstance(text, str):
            raise HemError(f"A count is written as text, not as {shown(text)}; {_EXAMPLE}", "count")
        readings = _readings(text) if len(text) <= LONGEST_TEXT else set()
        if not readings:
            if leading_number(text, "count")[0] is None:
                raise HemError(
                    f"The count {shown(text)} must begin with a number of threads; {_EXAMPLE}", "count"
                )
            raise HemError(
                f"The count {shown(text)} does not say to what length it goes; {_EXAMPLE}", "count"
            )
        if len(readings) > 1:
            raise HemError(
                f"The count {shown(text)} can be read in two ways, so write 'per' for one of its "
                "strokes; for example '28 per 1/2 in'.",
                "count",
            )
        try:
            return cls(*readings.pop())
        except HemError:
            raise HemError(f"The count {shown(text)} {_WANTED}; {_EXAMPLE}", "count") from None

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
        counted = threads_read(readings)
        return MeasuredCount(sum(counted, Fraction(0)) / len(counted), as_length(over, "over"), counted)

    @cached_property
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

    @cached_property
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
        return Length(self.pitch.mm * exact_number(threads, "threads"))

    def threads_in(self, length: Length | str) -> Fraction:
        """How many threads go to a length, seldom whole.

        Examples
        --------
        >>> Count.parse("28/in").threads_in(Length.parse("3/8 in"))
        Fraction(21, 2)
        """
        return as_length(length, "length", size=False).mm * self.per_mm

    def text(self, unit: str = "in") -> str:
        """The count in words, to the nearest hundredth, half up.

        Parameters
        ----------
        unit : str
            ``"in"``, ``"cm"`` or ``"mm"``: to the inch, or to the centimetre for both others.

        Raises
        ------
        HemError
            If the unit is none of the three.

        Examples
        --------
        >>> Count.parse("28/in").text("in"), Count.parse("28/in").text("cm")
        ('28/in', '≈ 11.02/cm')
        """
        inch = one_of(unit, UNITS, "unit") == "in"
        exact, name = (self.per_inch, "in") if inch else (self.per_cm, "cm")
        about = "" if (exact * 100).denominator == 1 else "≈ "
        return f"{about}{decimal_text(exact)}/{name}"

    def __str__(self) -> str:
        return self.text("in")

    def __eq__(self, other: object) -> bool:
        return self.per_mm == other.per_mm if isinstance(other, Count) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.per_mm)


@dataclass(frozen=True, eq=False)
class MeasuredCount(Count):
    """A count measured with a ruler, which knows how sure it is. Made by `Count.measured`.

    Examples
    --------
    >>> cloth = Count.measured([28, 28, 29, 28], over="1 in")
    >>> cloth.mean, cloth.spread, round(cloth.plus_minus, 3)
    (Fraction(113, 4), Fraction(1, 1), 0.25)
    >>> round(cloth.plus_minus_mm(Length.parse("10 in")), 1)
    2.2
    """

    readings: tuple[Fraction, ...] = ()

    def __post_init__(self) -> None:
        super().__post_init__()
        counted = threads_read(self.readings)
        object.__setattr__(self, "readings", counted)
        if sum(counted) != self.threads * len(counted):
            raise HemError(
                "A measured count is the mean of its readings, so it is made from them; "
                "for example Count.measured([28, 28, 29], over='1 in').",
                "readings",
            )

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
        return standard_uncertainty(self.readings)

    @property
    def relative(self) -> float:
        """The uncertainty as a share of the count, the same for every width counted in threads."""
        return self.plus_minus / float(self.mean)

    @property
    def relative_worst(self) -> Fraction:
        """The same share at the very worst: a whole thread wrong in every reading, one way."""
        return 1 / self.mean

    def plus_minus_mm(self, size: Length | str) -> float:
        """How far the count's uncertainty carries into a size counted in threads, in mm.

        Two sizes in three come out within it; `worst` is the bound.
        """
        return self.relative * float(as_length(size, "size", size=False).mm)

    def worst(self, size: Length | str) -> Length:
        """How far off a size counted in threads can be at the very worst.

        With a thread too many in every reading the pitch is over / (mean - 1), so the size
        comes out wider by size / (mean - 1); with one too few, narrower by a little less.

        Raises
        ------
        HemError
            If the readings are of one thread or less, which bound nothing.
        """
        if self.mean <= 1:
            raise HemError(
                f"A count of {decimal_text(self.mean)} over {self.over} bounds no size, so count over a "
                "longer stretch; for example over '4 in'.",
                "over",
            )
        return Length(as_length(size, "size", size=False).mm / (self.mean - 1))


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
        raise HemError(str(error) if about == "count" else f"{about}: {error}", about) from None


def _readings(text: str) -> set[tuple[Fraction, Length]]:
    """The ways to read a text as threads to a length: a stroke may also be a fraction's."""
    ways = set()
    for per in _PER.finditer(text):
        try:
            threads, word = leading_number(text[: per.start()], "count")
            over = text[per.end() :].strip()
            unit = unit_named(over)
            length = Length(MILLIMETRES[unit]) if unit else Length.parse(over)
        except HemError:
            continue
        if threads is not None and word.casefold() in ("", "thread", "threads"):
            ways.add((threads, length))
    return ways
