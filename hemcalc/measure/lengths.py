"""Lengths, exact to the last fraction of a millimetre.

A `Length` reads what people type ("3/8 in", "1 cm"), keeps it as a Fraction of a
millimetre, and rounds only when it is printed, saying so with the sign ≈.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NoReturn

from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.exact import LONGEST_TEXT, decimal_text, exact_number, half_up, mixed_text, round_up
from hemcalc.measure.states import State, go_together, joint_state, said_of
from hemcalc.measure.units import LENGTH_EXAMPLE, MILLIMETRES, UNITS, millimetres_read

_LONGEST = Fraction(10**10)  # mm: holds the threads that may be planned, on the coarsest cloth
_FORMAT = re.compile(r"\s*(?:\.([0-9])f\s*)?(in|cm|mm)\s*")
_MAX_BITS = 2048  # bits below the line of a fraction; arithmetic on cloth needs a few dozen


@dataclass(frozen=True, slots=True, eq=False)
class Length:
    """A length of cloth or thread, zero or more.

    Adds to and subtracts from a Length, is scaled by exact numbers, and divided by a Length
    gives a Fraction. Ordered and hashable. Arithmetic and order refuse a length before the
    wash beside one after it; one without a state goes with either. Likewise two are equal if
    they are as long and go together, so that in a set or dict they should be of one kind.

    Parameters
    ----------
    mm : str, int, Fraction or Decimal
        A text: a number (``3/8``, ``1 1/2``, ``½``, ``0.375``, ``9,5``) and a unit (in, cm, mm, m, ft,
        yd, their names, or ``"`` for inches), with or without a space between. Or millimetres, exact.
    state : State, optional
        Of the cloth that it was reckoned for; none for a length that is typed or of a ruler.

    Source
    ------
    Inch and yard by definition: "International yard", web page, n.d., entry.

    Examples
    --------
    >>> hem = Length("3/8 in")
    >>> hem.mm, hem.inches, hem.text("in"), f"{hem:.1f cm}"
    (Fraction(381, 40), Fraction(3, 8), '3/8 in', '≈ 1.0 cm')
    >>> 2 * hem + Length(5), sum([hem, hem, hem])
    (Length('24.05 mm'), Length('1 1/8 in'))
    >>> Length("1 yd") / hem, Length('1 1/2"') == Length("1½ inches") == Length("38.1mm")
    (Fraction(96, 1), True)
    >>> Length("3/8")
    Traceback (most recent call last):
    hemcalc.HemError: The length '3/8' has no unit, but it needs in, cm, ...
    """

    mm: Fraction
    state: State | None
    # Has numpy leave arithmetic with a length to the length.
    __array_ufunc__ = None

    def __init__(self, mm: object, state: State | None = None) -> None:
        if isinstance(mm, str):
            mm = millimetres_read(mm)
        if state is not None:
            of_type(state, State, "state", "Fabric('28/in').state(washed=True)")
        value = exact_number(mm, "mm", "'3/8 in', or Fraction(3, 8) for 3/8 of a millimetre")
        if value.numerator < 0:
            raise HemError(
                f"A length must be 0 or more, but this one is, in mm, {shown(value)}; {LENGTH_EXAMPLE}", "mm"
            )
        if value.denominator.bit_length() > _MAX_BITS or value > _LONGEST:
            raise HemError(
                "A length must be 10,000 km or less, and no finer than any ruler reads, but this one is, "
                f"in mm, {shown(value)}; {LENGTH_EXAMPLE}",
                "mm",
            )
        object.__setattr__(self, "mm", value)
        object.__setattr__(self, "state", state)

    def number(self, unit: str) -> Fraction:
        """How many inches, centimetres or millimetres it is: ``"in"``, ``"cm"`` or ``"mm"``."""
        return self.mm / MILLIMETRES[one_of(unit, UNITS, "unit")]

    @property
    def cm(self) -> Fraction:
        """Centimetres."""
        return self.number("cm")

    @property
    def inches(self) -> Fraction:
        """Inches."""
        return self.number("in")

    def text(self, unit: str = "mm") -> str:
        """The length in words: inches to the nearest 1/16, cm and mm to 0.1 mm, half up; ≈ if rounded.

        One that a ruler doesn't read on the cloth in hand says of which state it is.

        Examples
        --------
        >>> Length("1 cm").text("in"), Length("1 1/2 in").text("in")
        ('≈ 3/8 in', '1 1/2 in')
        >>> Length("1/2 in").text("mm"), Length("1/2 in").text("cm")
        ('12.7 mm', '1.27 cm')
        >>> Length(5, State(washed=True, in_hand=False)).text()
        '5 mm after the wash'
        """
        exact = self.number(unit)
        steps = {"in": 16, "cm": 100, "mm": 10}[unit]
        rounded = Fraction(half_up(exact * steps), steps)
        figure = mixed_text(rounded) if unit == "in" else decimal_text(rounded)
        return f"{'' if rounded == exact else '≈ '}{figure} {unit}{said_of(self.state)}"

    def stated(self, state: State) -> Length:
        """The same length, of cloth in this state; refused if it is known to be of another."""
        joint_state(self.state, state)
        return Length(self.mm, state)

    def rounded_up(self, mark: Length | str) -> Length:
        """The next length that falls on a mark of the ruler, its marks so far apart; this one if it does.

        Examples
        --------
        >>> Length("10.1 in").rounded_up(RULER_MARK["in"]).text("in")
        '10 1/8 in'
        """
        step = as_length(mark, "mark")
        return Length(round_up(self.mm, step.mm), joint_state(self.state, step.state))

    def __str__(self) -> str:
        return self.text("mm")

    def __format__(self, spec: str) -> str:
        """The length in a unit, to so many decimals if they are asked for: ``"cm"``, ``".2f cm"``."""
        if not spec:
            return str(self)
        if not (asked := _FORMAT.fullmatch(spec)):
            raise HemError(
                f"A length is printed in 'in', 'cm' or 'mm', to none or to 0 to 9 decimals, and not as "
                f"{shown(spec)}; for example f'{{length:.2f cm}}'."
            )
        decimals, unit = asked.groups()
        if decimals is None:
            return self.text(unit)
        exact = self.number(unit)
        steps = 10 ** int(decimals)
        whole, part = divmod(half_up(exact * steps), steps)
        figure = f"{whole}.{part:0{decimals}}" if steps > 1 else str(whole)
        return f"{'' if Fraction(figure) == exact else '≈ '}{figure} {unit}{said_of(self.state)}"

    def __repr__(self) -> str:
        if self.mm and 16 % self.inches.denominator == 0:
            text = f"{mixed_text(self.inches)} in"
        else:
            short = 100 % self.mm.denominator == 0
            text = f"{decimal_text(self.mm) if short else mixed_text(self.mm)} mm"
        said = repr(text) if len(text) <= LONGEST_TEXT else repr(self.mm)
        return f"Length({said}, {self.state})" if self.state else f"Length({said})"

    def __add__(self, other: object) -> Length:
        more = _length(other, "added to")
        return Length(self.mm + more.mm, joint_state(self.state, more.state))

    def __radd__(self, other: object) -> Length:
        # A sum begins with a plain 0, which is no length but adds nothing to one.
        return self if type(other) is int and other == 0 else self + other

    def __sub__(self, other: object) -> Length:
        less = _length(other, "subtracted from")
        state = joint_state(self.state, less.state)
        if less.mm > self.mm:
            raise HemError(
                f"A longer length ({less}) can't be taken from a shorter one ({self}); "
                "for example take 3 mm from 5 mm."
            )
        return Length(self.mm - less.mm, state)

    def __rsub__(self, other: object) -> Length:
        return _length(other, "subtracted from") - self

    def __mul__(self, factor: object) -> Length:
        return Length(self.mm * exact_number(factor, "factor"), self.state)

    __rmul__ = __mul__

    # Any: the kind of quotient follows from the kind of divisor.
    def __truediv__(self, divisor: object) -> Any:
        by = divisor.mm if isinstance(divisor, Length) else exact_number(divisor, "divisor")
        if by == 0:
            raise HemError(f"{self} can't be divided by nothing; for example divide by 2 or by 1 mm.")
        if isinstance(divisor, Length):
            joint_state(self.state, divisor.state)
            return self.mm / by
        return Length(self.mm / by, self.state)

    def __rtruediv__(self, other: object) -> NoReturn:
        raise HemError(
            f"Only a length can be divided by a length, not {shown(other)}; "
            "for example Length('1 yd') / Length('1 in')."
        )

    def __lt__(self, other: object) -> bool:
        return self.mm < self._beside(other)

    def __le__(self, other: object) -> bool:
        return self.mm <= self._beside(other)

    def __gt__(self, other: object) -> bool:
        return self.mm > self._beside(other)

    def __ge__(self, other: object) -> bool:
        return self.mm >= self._beside(other)

    def _beside(self, other: object) -> Fraction:
        """The mm of a length that this one may be compared with."""
        length = _length(other, "compared with")
        joint_state(self.state, length.state)
        return length.mm

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Length):
            return NotImplemented
        return self.mm == other.mm and go_together(self.state, other.state)

    def __hash__(self) -> int:
        return hash(self.mm)

    def __bool__(self) -> bool:
        return bool(self.mm)


#: Marks that a ruler has, to which a size to cut is rounded up.
RULER_MARK = {"in": Length(MILLIMETRES["in"] / 8), "cm": Length(5), "mm": Length(1)}
#: The finest marks of a ruler, to which what must be left at one edge is rounded up.
FINEST_MARK = {"in": Length(MILLIMETRES["in"] / 16), "cm": Length(1), "mm": Length(1)}


def as_length(value: object, about: str, *, size: bool = True) -> Length:
    """The value as a Length: one already, or the text of one; more than nothing if it must be a `size`.

    Examples
    --------
    >>> as_length("1/2 in", "hem").text("in")
    '1/2 in'
    >>> as_length("0 mm", "hem")
    Traceback (most recent call last):
    hemcalc.HemError: hem is 0 mm, but must be more than nothing; for example '3/8 in'.
    """
    if not isinstance(value, Length | str):
        raise HemError(
            f"{about}: A length is written as text, not as {shown(value)}; {LENGTH_EXAMPLE}", about
        )
    try:
        length = value if isinstance(value, Length) else Length(value)
    except HemError as error:
        raise HemError(f"{about}: {error}", about) from None
    if size and not length:
        raise HemError(f"{about} is {length}, but must be more than nothing; for example '3/8 in'.", about)
    return length


def _length(value: object, verb: str) -> Length:
    if not isinstance(value, Length):
        raise HemError(
            f"A length can only be {verb} a length, not {shown(value)}; for example Length('1 cm')."
        )
    return value


def in_unit(name: str, unit: str, state: State | None = None) -> str:
    """What stands over a column of lengths, their unit in it.

    Examples
    --------
    >>> in_unit("width", "cm")
    'width, cm'
    """
    return f"{name}, {one_of(unit, UNITS, 'unit')}{said_of(state)}"
