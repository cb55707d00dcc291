"""The count of a cloth: how many threads go to an inch or a centimetre.

A count is either given ("28/in") or measured with a ruler in several places. A given one is
taken at its word. A measured one knows how far off it may be, and carries that error into
every size: how wide a cloth must be to have so many threads for sure, and how many threads a
length has for sure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Self

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.exact import decimal_text, exact_number, leading_number
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.readings import SURE, Readings, as_confidence, threads_read
from hemcalc.measure.states import State, go_together
from hemcalc.measure.units import COUNT_EXAMPLE, MILLIMETRES, UNITS, threads_to_length
from hemcalc.measure.words import about, so_many

_WANTED = "must be a plain number of threads, from 1 to 1000 to the inch"
_MIN_PER_MM = 1 / MILLIMETRES["in"]  # threads per mm; canvas for rugs has some three an inch
_MAX_PER_MM = 1000 / MILLIMETRES["in"]  # the finest cloths have some hundreds an inch
_MAX_BITS = 1024  # bits of a fraction: half of what a Length has, so that widths stay lengths


@dataclass(frozen=True, eq=False)
class Count:
    """Threads to a length of cloth, exact.

    Refused if it is not from 1 to 1000 threads to the inch.

    Parameters
    ----------
    threads : str, int, Fraction or Decimal
        Threads counted, more than none; or the whole count as text, such as ``28/in``, ``11/cm``,
        ``27.5 per inch``, ``28 threads to the inch``, ``208/10 cm``.
    over : Length or str, optional
        The cloth they were counted over; its state is the count's.

    Examples
    --------
    >>> cloth = Count("28 threads per inch")
    >>> cloth, cloth.per_inch, cloth.per_cm, cloth.pitch
    (Count(28/in), Fraction(28, 1), Fraction(1400, 127), Length('127/140 mm'))
    >>> cloth == Count(280, "10 in"), Count("110 threads per 10 cm") == Count("11/cm")
    (True, True)
    >>> Count("28")
    Traceback (most recent call last):
    hemcalc.HemError: The count '28' does not say to what length it goes; ...
    """

    threads: Fraction
    over: Length

    def __init__(self, threads: object, over: Length | str | None = None) -> None:
        if over is None:
            said = f"The count {shown(threads)}"
            threads, mm = threads_to_length(threads)
            over = Length(mm)
        else:
            if isinstance(threads, str):
                number, rest = leading_number(threads, "count")
                threads = threads if rest else number
            threads = exact_number(threads, "count", "'28/in', or 28 over '1 in'")
            over = as_length(over, "over")
            said = f"count is {shown(threads)} over {over}, but"
        per_mm = threads / over.mm if over else Fraction(0)
        longest = max(per_mm.numerator.bit_length(), per_mm.denominator.bit_length())
        if longest > _MAX_BITS or not _MIN_PER_MM <= per_mm <= _MAX_PER_MM:
            raise HemError(f"{said} {_WANTED}; {COUNT_EXAMPLE}", "count")
        object.__setattr__(self, "threads", threads)
        object.__setattr__(self, "over", over)

    @classmethod
    def measured(
        cls, readings: Sequence[object], over: Length | str, confidence: object = SURE
    ) -> MeasuredCount:
        """The count that several readings give.

        Parameters
        ----------
        readings : sequence of int, Fraction or str
            Threads counted over the ruler length, each in another place; halves as text
            (``"28 1/2"``) or Fractions.
        over : Length or str
            The ruler length.
        confidence : str, Fraction, Decimal or float
            How sure a cloth cut by this count is to be large enough, ``"50 %"`` to ``"99.9 %"``.

        Examples
        --------
        >>> cloth = Count.measured([112, 113, "112 1/2"], over="4 in")
        >>> cloth.per_inch, cloth.spread
        (Fraction(225, 8), Fraction(1, 1))
        """
        counted = threads_read(readings)
        mean = sum(counted, Fraction(0)) / len(counted)
        return MeasuredCount(mean, as_length(over, "over"), counted, as_confidence(confidence))

    @property
    def error(self) -> Fraction:
        """Share by which the count may be off, at its confidence; none if it is given, not measured."""
        return Fraction(0)

    @property
    def state(self) -> State | None:
        """State of the cloth on which it was counted, if it was said."""
        return self.over.state

    def stated(self, state: State) -> Self:
        """The same count, of cloth in this state; refused if it is known to be of another."""
        return self.lying_over(self.over.stated(state))

    def lying_over(self, over: Length | str) -> Self:
        """The same threads after the wash, or before it, when they lie over this length.

        >>> Count("11/cm").lying_over(Length("8.89 mm")).unit
        'cm'
        """
        moved = replace(self, over=as_length(over, "over"))
        moved.__dict__["unit"] = self.unit  # of the ruler that it was counted with, whatever was lost since
        return moved

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
        return Length(1 / self.per_mm, self.state)

    def width(self, threads: int) -> Length:
        """How wide so many threads are.

        Examples
        --------
        >>> Count("28/in").width(14).text("in")
        '1/2 in'
        """
        return self.pitch * exact_number(threads, "threads")

    def threads_in(self, length: Length | str) -> Fraction:
        """How many threads go to a length, seldom whole.

        Examples
        --------
        >>> Count("28/in").threads_in(Length("3/8 in"))
        Fraction(21, 2)
        """
        return Fraction(as_length(length, "length", size=False) / self.pitch)

    def sure_width(self, threads: int) -> Length:
        """How wide a cloth is cut to have so many threads, though the count be off by its error.

        A count that is too high by the error reckons the cloth too narrow, so that it is
        width / (1 - error). For a given count it is the width.

        Examples
        --------
        >>> once = Count.measured([28], over="1 in")
        >>> once.width(280).text("in"), once.sure_width(280).text("in")
        ('10 in', '≈ 10 7/16 in')
        """
        return self.width(threads) * (1 / (1 - self.error))

    def sure_threads_in(self, length: Length | str) -> Fraction:
        """How many threads a length has, though the count be off by its error."""
        return self.threads_in(length) * (1 - self.error)

    @cached_property
    def unit(self) -> str:
        """The unit that its cloth is counted in, inches or centimetres."""
        # An inch is 127/5 mm, so that 127 divides what was measured in inches.
        return "in" if self.over.mm.numerator % 127 == 0 else "cm"

    def unit_or(self, unit: str | None) -> str:
        """The unit that is asked for, or the cloth's own if none is; refused if there is no such unit."""
        return self.unit if unit is None else one_of(unit, UNITS, "unit")

    def text(self, unit: str | None = None) -> str:
        """The count in words, to the nearest hundredth, half up.

        It goes to the inch or, for ``"cm"`` and ``"mm"``, to the centimetre; without a unit, to that
        in which it was counted.

        Examples
        --------
        >>> Count("28/in").text(), Count("28/in").text("cm"), Count("11/cm").text()
        ('28/in', '≈ 11.02/cm', '11/cm')
        """
        inch = self.unit_or(unit) == "in"
        exact, name = (self.per_inch, "in") if inch else (self.per_cm, "cm")
        return f"{about(exact)}/{name}"

    def __str__(self) -> str:
        return self.text()

    def __repr__(self) -> str:
        known = ", ".join((*self._known, *([self.state.when] if self.state else [])))
        return f"{type(self).__name__}({self.text()}{', ' if known else ''}{known})"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Count):
            return NotImplemented
        alike = self.per_mm == other.per_mm and go_together(self.state, other.state)
        return alike and self._evidence == other._evidence

    def __hash__(self) -> int:
        return hash(self.per_mm)

    @property
    def _known(self) -> tuple[str, ...]:
        """What is known of it beside its fineness, in words: nothing, if it is taken at its word."""
        return ()

    @property
    def _evidence(self) -> tuple[object, ...]:
        """The same as what makes it equal to another."""
        return ()


@dataclass(frozen=True, eq=False, repr=False)
class MeasuredCount(Readings, Count):
    """A count measured with a ruler, which knows how sure it is. Made by `Count.measured`.

    Its error is that of the place where it was counted. To speak for a piece of cloth the
    readings are taken all over that piece; a bolt may be of another count elsewhere.

    Examples
    --------
    >>> cloth = Count.measured([28, 28, 29, 28], over="1 in")
    >>> cloth
    MeasuredCount(28.25/in, within 2.09 % at a confidence of 95 %, 4 places counted)
    >>> cloth.mean, cloth.spread, round(cloth.plus_minus, 3)
    (Fraction(113, 4), Fraction(1, 1), 0.25)
    >>> round(cloth.plus_minus_mm(Length("10 in")), 1)
    2.2
    """

    readings: tuple[Fraction, ...] = ()
    #: How sure a cloth cut by it is to be large enough.
    confidence: Fraction = SURE

    def __post_init__(self) -> None:
        Count.__init__(self, self.threads, self.over)
        object.__setattr__(self, "confidence", as_confidence(self.confidence))
        counted = threads_read(self.readings)
        object.__setattr__(self, "readings", counted)
        if sum(counted) != self.threads * len(counted):
            raise HemError(
                "A measured count is the mean of its readings, so it is made from them; "
                "for example Count.measured([28, 28, 29], over='1 in').",
                "readings",
            )
        self.error  # noqa: B018 - readings that say nothing of the count are refused at once

    def plus_minus_mm(self, size: Length | str) -> float:
        """How far that carries into a size in mm: two in three come out within; `worst` is the bound."""
        return self.relative * float(as_length(size, "size", size=False).mm)

    def worst(self, size: Length | str) -> Length:
        """How far off a size counted in threads can be at the very worst.

        With a thread too many in every reading the pitch is over / (mean - 1), so that it is
        wider by size / (mean - 1); with one too few, narrower by a little less.

        Refused if the readings are of one thread or less, which bound nothing.
        """
        if self.mean <= 1:
            raise HemError(
                f"A count of {decimal_text(self.mean)} over {self.over} bounds no size, so count over a "
                "longer stretch; for example over '4 in'.",
                "over",
            )
        return as_length(size, "size", size=False) * (1 / (self.mean - 1))

    @property
    def _known(self) -> tuple[str, ...]:
        places = f"{so_many(len(self.readings), 'place')} counted"
        sure = f"within {decimal_text(100 * self.error)} % at a confidence of"
        return f"{sure} {decimal_text(100 * self.confidence)} %", places

    @property
    def _evidence(self) -> tuple[object, ...]:
        return tuple(sorted(self.readings)), self.confidence


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
        return Count(value)
    except HemError as error:
        raise HemError(str(error) if about == "count" else f"{about}: {error}", about) from None
