"""A number together with the arithmetic that made it, so that the two can't drift apart.

Each step does the sum and keeps what it was done with: 8 + 2 + 16 is a number, 26, and its words,
"8 + 2 + 16". What a learner is shown as the working is therefore what was worked. The words are
put together when somebody reads them, since most numbers are only compared.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from hemcalc.measure.errors import one_of
from hemcalc.measure.exact import decimal_text, half_up, leading_number, round_up
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.units import MILLIMETRES, UNITS, unit_named

_SUM, _PRODUCT, _ATOM = range(3)  # how tightly the words hold together
_BLANK = "…"
_NUMBER = r"\d+(?: \d+/\d+|/\d+|\.\d+)?"


@dataclass(frozen=True, slots=True)
class Working:
    """A number, its unit, and the arithmetic in words. Begun by `number`, `size` or `larger`.

    Examples
    --------
    >>> (number(8) + number(2) + number(16)).line
    '8 + 2 + 16 = 26 threads'
    >>> (number(9) / number(2)).up().line
    '9 ÷ 2 = 4 1/2, rounded up to 5 threads'
    >>> size("3/8 in").in_threads(Fraction(28), "in").nearest().line
    '3/8 in × 28 threads/in = 10 1/2, to the nearest whole thread 11 threads'
    """

    value: Fraction
    #: What the words are put together from: text, and other numbers, each with how tightly it is to
    #: be held; empty for the figure itself.
    parts: tuple[str | tuple[Working, int], ...] = ()
    unit: str = "threads"
    tightness: int = _ATOM
    #: What the arithmetic gave before it was rounded; None if it was not.
    exact: Fraction | None = None
    how: str = ""

    @property
    def words(self) -> str:
        """The arithmetic, without its result."""
        said = (part if isinstance(part, str) else part[0]._held(part[1]) for part in self.parts)
        return "".join(said) or _figure(self.value)

    @property
    def terms(self) -> tuple[Fraction, ...]:
        """The numbers that are added up; this one alone if it is no sum."""
        if " + " not in self.parts:
            return (self.value,)
        return tuple(term for part in self.parts if not isinstance(part, str) for term in part[0].terms)

    @property
    def line(self) -> str:
        """The working on one line, with its units."""
        return self._line(spoken(self.value, self.unit))

    @property
    def blank(self) -> str:
        """The line with every number left open, as a hint."""
        return self.faded(len(re.findall(_NUMBER, self.line)))

    def faded(self, blanks: int) -> str:
        """The line with so many of its last numbers left open.

        >>> [(number(9) / number(2)).up().faded(blanks) for blanks in (1, 2)]
        ['9 ÷ 2 = 4 1/2, rounded up to … threads', '9 ÷ 2 = …, rounded up to … threads']
        """
        numbers = list(re.finditer(_NUMBER, self.line))
        line = self.line
        for found in reversed(numbers[max(len(numbers) - blanks, 0) :]):
            line = line[: found.start()] + _BLANK + line[found.end() :]
        return line

    def text(self) -> str:
        """The number with its unit, as it is printed."""
        return spoken(self.value, self.unit)

    def _line(self, result: str) -> str:
        if self.exact is None:
            return f"{self.words} {_equals(result)}"
        about, figure = _threads_spoken(self.exact)
        before = about + figure if self.unit == "threads" else spoken(self.exact, self.unit)
        return f"{self.words} {_equals(before)}, {self.how} {result}"

    def __add__(self, other: Working) -> Working:
        return self._with(other, self.value + other.value, " + ", _SUM, (_SUM, _SUM))

    def __sub__(self, other: Working) -> Working:
        return self._with(other, self.value - other.value, " − ", _SUM, (_SUM, _PRODUCT))

    def __mul__(self, other: Working) -> Working:
        return self._with(other, self.value * other.value, " × ", _PRODUCT, (_PRODUCT, _PRODUCT))

    def __truediv__(self, other: Working) -> Working:
        return self._with(other, self.value / other.value, " ÷ ", _PRODUCT, (_PRODUCT, _ATOM))

    def _with(
        self, other: Working, value: Fraction, sign: str, tightness: int, held: tuple[int, int]
    ) -> Working:
        parts = (self.settled, held[0]), sign, (other.settled, held[1])
        return Working(value, parts, self.unit, tightness)

    @property
    def settled(self) -> Working:
        """Ready for another step: a number that was rounded stands as a plain number."""
        return self if self.exact is None else self.plain

    @property
    def plain(self) -> Working:
        """The number alone, with nothing of how it was worked."""
        return Working(self.value, unit=self.unit) if self.parts else self

    def called(self, unit: str) -> Working:
        """The same number and working, its unit called otherwise."""
        return Working(self.value, self.parts, unit, self.tightness, self.exact, self.how)

    def nearest(self) -> Working:
        """To the nearest whole thread, a half going up."""
        return self._rounded(Fraction(half_up(self.value)), "to the nearest whole thread")

    def other_way(self) -> Working:
        """To the whole thread on the other side from the nearest: the wrong way."""
        right, low = half_up(self.value), self.value.__floor__()
        wrong = low if right > low or self.value == low else low + 1
        return self._rounded(Fraction(wrong), "to the whole thread on the other side")

    def up(self, mark: Fraction = Fraction(1)) -> Working:
        """To the next whole thread, or mark of the ruler, in this number's unit."""
        return self._rounded(round_up(self.value, mark), "rounded up to")

    def down(self, mark: Fraction = Fraction(1)) -> Working:
        """To the whole thread, or mark of the ruler, below: as a rule the wrong way."""
        return self._rounded((self.value // mark) * mark, "rounded down to")

    def _rounded(self, value: Fraction, how: str) -> Working:
        if value == self.value:
            return self
        return Working(
            value, self.parts or (_figure(self.value),), self.unit, self.tightness, self.value, how
        )

    def in_threads(self, count: Fraction, per: str) -> Working:
        """A length's threads, on a cloth of so many threads to the inch or centimetre."""
        return (self.as_unit(per) * _rate(count, f"threads/{per}")).called("threads")

    def in_length(self, count: Fraction, per: str, unit: str) -> Working:
        """How long so many threads are, in a unit."""
        threads = self.settled
        written = Working(threads.value, ((threads, _PRODUCT), " threads"), per, _PRODUCT)
        return (written / _rate(count, f"threads/{per}")).as_unit(unit)

    def as_unit(self, unit: str) -> Working:
        """The same length in another unit, with the step that takes it there."""
        if unit == self.unit:
            return self
        times = MILLIMETRES[self.unit] / MILLIMETRES[unit]
        if times >= 1:
            step = self * _rate(times, f"{unit}/{self.unit}")
        else:
            step = self / _rate(1 / times, f"{self.unit}/{unit}")
        return step.called(unit)

    def _held(self, least: int) -> str:
        return self.words if self.tightness >= least else f"({self.words})"


@lru_cache(1024)
def number(value: int | Fraction, unit: str = "threads") -> Working:
    """A plain number to begin with, written without its unit."""
    return Working(Fraction(value), unit=unit)


@lru_cache(1024)
def _rate(value: Fraction, of: str) -> Working:
    return Working(value, (f"{_figure(value)} {of}",))


def size(value: str | Length) -> Working:
    """A length to begin with, in the unit in which it was asked for.

    Examples
    --------
    >>> size("3/8 in").words, size("1 ft").words, size("0.95 cm").words
    ('3/8 in', '12 in', '0.95 cm')
    >>> size(Length("3/8 in")).words, size(Length("1/3 in")).words
    ('3/8 in', '8 7/15 mm')
    """
    length = as_length(value, "length", size=False)
    unit = _unit(value, length)
    amount = length.mm / MILLIMETRES[unit]
    return Working(amount, (f"{_figure(amount, unit)} {unit}",), unit)


def larger(one: Working, two: Working) -> Working:
    """The larger of two numbers.

    Examples
    --------
    >>> larger(number(44), number(37)).line
    'the larger of 44 and 37 = 44 threads'
    """
    parts = f"the larger of {_figure(one.value)} and {_figure(two.value)}"
    return Working(max(one.value, two.value), (parts,), one.unit, _SUM)


def ruler_unit(text: str) -> str:
    """The unit of a ruler for what is said in this one: inches or centimetres for the longer ones.

    Examples
    --------
    >>> ruler_unit("yards"), ruler_unit("m"), ruler_unit("mm")
    ('in', 'cm', 'mm')
    """
    named = unit_named(text) or "mm"
    return {"ft": "in", "yd": "in", "m": "cm"}.get(named, named)


def spoken(value: Fraction, unit: str) -> str:
    """A number of threads or a length as it is printed, ≈ in front if that rounds it.

    The unit ``"thread"`` is that of one thread's own number.

    Examples
    --------
    >>> spoken(Fraction(-4), "threads"), spoken(Fraction(1), "threads"), spoken(Fraction(11, 28), "in")
    ('−4 threads', '1 thread', '≈ 3/8 in')
    >>> spoken(Fraction(0), "in"), spoken(Fraction(-1, 2), "in")
    ('0 in', '−1/2 in')
    """
    if unit == "thread":
        return f"thread {_figure(value)}"
    sign = "−" if value < 0 else ""
    if unit != "threads":
        one_of(unit, UNITS, "unit")
        text = Length(abs(value) * MILLIMETRES[unit]).text(unit)
        return f"≈ {sign}{text[2:]}" if text.startswith("≈") else sign + text
    about, figure = _threads_spoken(value)
    return f"{about}{figure} thread{'' if abs(value) == 1 else 's'}"


def _threads_spoken(value: Fraction) -> tuple[str, str]:
    """The sign for about, if it needs one, and a number of threads without its unit."""
    if value.denominator <= 16:
        return "", _figure(value)
    return "≈ ", ("−" if value < 0 else "") + decimal_text(abs(value))


def _unit(value: str | Length, length: Length) -> str:
    if isinstance(value, Length):
        return "in" if (16 * length.inches).denominator == 1 else "mm"
    return ruler_unit(leading_number(value, "length")[1])


def _figure(value: Fraction, unit: str = "") -> str:
    """Exactly, as a whole number, a decimal of the metric kind, or a mixed fraction."""
    sign = "−" if value < 0 else ""
    whole, part = divmod(abs(value), 1)
    if not part:
        return f"{sign}{whole}"
    if (100 * part).denominator == 1 and (unit in ("cm", "mm") or part.denominator not in (2, 4)):
        return sign + decimal_text(abs(value))
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def _equals(result: str) -> str:
    return result if result.startswith("≈") else f"= {result}"
