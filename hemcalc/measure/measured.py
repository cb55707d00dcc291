"""Numbers that become floats: what physics and drawing compute with, kept apart from exact threads.

A yarn's diameter, a cloth's thickness, an angle, how far a fold is made are measured or assumed,
never counted; here, and nowhere else, such a number becomes a float, checked once, so that no
text, True or infinity is ever worked with. Shares that scale money or lengths stay exact.
"""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction
from numbers import Real

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import exact_number, leading_number
from hemcalc.measure.lengths import Length, as_length

__all__ = ["finite_number", "measured_mm", "measured_number", "share"]

_MOST_MM = 1000.0  # no pitch, thickness or stitch of this work is a metre


def measured_number(value: object, about: str, *, least: float = 0.0, most: float, example: str) -> float:
    """A measured number as a float.

    Parameters
    ----------
    value : int, Fraction, Decimal or float
        The number; text, True and NaN are refused.
    about : str
        What is measured, in the words of the sentence that refuses it.
    least, most : float
        It must be more than `least`, and `most` at most.
    example : str
        A number that would have been accepted.

    Raises
    ------
    HemError
        If `value` is not a number between the two.

    Examples
    --------
    >>> measured_number(Fraction(3, 2), "fibre density", most=10, example="1.5")
    1.5
    >>> measured_number("dense", "fibre density", most=10, example="1.5")
    Traceback (most recent call last):
    hemcalc.HemError: fibre density is 'dense', but must be a number more than 0, at most 10; ...
    """
    number = _number(value)
    if not least < number <= most:
        raise HemError(
            f"{about} is {shown(value)}, but must be a number more than {least:g}, at most {most:g}; "
            f"for example {example}.",
            about,
        )
    return number


def measured_mm(value: object, about: str, *, size: bool = True, example: str = "'0.5 mm'") -> float:
    """A measured length in mm, as a float.

    Parameters
    ----------
    value : Length, str, int, Fraction, Decimal or float
        A Length, the text of one, or a bare number of millimetres.
    about : str
        What is measured.
    size : bool
        Whether it must be more than nothing.
    example : str
        What would have been accepted.

    Raises
    ------
    HemError
        If `value` is not a length, is negative, or is over a metre.

    Examples
    --------
    >>> measured_mm("1/2 in", "thickness"), measured_mm(0.45, "thickness")
    (12.7, 0.45)
    >>> measured_mm(-1, "thickness")
    Traceback (most recent call last):
    hemcalc.HemError: thickness is -1, but must be more than 0 and at most 1000 mm; ...
    """
    if isinstance(value, str | Length):
        length = as_length(value, about, size=size)
        number, given = float(length.mm), str(length)
    else:
        number, given = _number(value), shown(value)
    if not 0 <= number <= _MOST_MM or (size and not number):
        lower = "more than 0" if size else "0 or more"
        raise HemError(
            f"{about} is {given}, but must be {lower} and at most {_MOST_MM:g} mm; for example {example}.",
            about,
        )
    return number


def _number(value: object) -> float:
    """The value as a float; NaN, which every range refuses, if it is no number."""
    if isinstance(value, bool) or not isinstance(value, int | Fraction | Decimal | float):
        return math.nan
    try:
        return float(value)
    except (OverflowError, ValueError):  # beyond a float, or a signalling NaN
        return math.inf


def share(value: object, about: str, *, most: Fraction = Fraction(1)) -> Fraction:
    """A share, exact: of a length that is wasted or lost in the wash, of a width that is pulled in.

    Parameters
    ----------
    value : str, int, Fraction, Decimal or float
        ``"15 %"``, ``Fraction(3, 20)`` or ``0.15``. A float is read as the decimal that it prints.
    about : str
        What the share is of.
    most : Fraction
        Largest share allowed.

    Raises
    ------
    HemError
        If `value` is not a share from 0 to `most`.

    Examples
    --------
    >>> share("15 %", "waste"), share(0.15, "waste")
    (Fraction(3, 20), Fraction(3, 20))
    >>> share("a lot", "waste")
    Traceback (most recent call last):
    hemcalc.HemError: waste is 'a lot', but must be a share from 0 % to 100 %; ...
    """
    number: Fraction | None = None
    if isinstance(value, str):
        figure, rest = leading_number(value, about)
        if figure is not None and rest.casefold() in ("", "%", "per cent", "percent"):
            number = figure / 100 if rest else figure
    elif abs(_number(value)) <= 1:
        # A float such as 0.15 means the decimal that was typed; a kind of float may print otherwise.
        number = exact_number(Decimal(float.__repr__(value)) if isinstance(value, float) else value, about)
    if number is None or not 0 <= number <= most:
        raise HemError(
            f"{about} is {shown(value)}, but must be a share from 0 % to {float(most * 100):g} %; "
            "for example '15 %' or 0.15.",
            about,
        )
    return number


def finite_number(
    value: object,
    about: str,
    *,
    least: float = -math.inf,
    most: float = math.inf,
    above: bool = False,
    example: float = 1,
) -> float:
    """The value as a float.

    Parameters
    ----------
    value : float, int, Fraction or Decimal
        What was given. Text and True are refused, and so is what no float can hold.
    about : str
        The input's name, for the sentence that refuses it.
    least, most : float
        Smallest and largest number allowed.
    above : bool
        Whether it must be more than the least.
    example : float
        A number that would have been accepted.

    Raises
    ------
    HemError
        If `value` is not a finite number, or is not from `least` to `most`.

    Examples
    --------
    >>> finite_number(1, "angle", least=0, most=360)
    1.0
    >>> finite_number("wide", "angle", least=0, most=360, example=180)
    Traceback (most recent call last):
    hemcalc.HemError: angle is 'wide', but must be a number from 0 to 360; for example 180.
    """
    number = _float(value)
    if number is None or not least <= number <= most or (above and number == least):
        span = "" if math.isinf(least) else f" {'more than' if above else 'from'} {least:g}"
        top = "" if math.isinf(most) else f"{' and at most' if above else ' to'} {most:g}"
        raise HemError(
            f"{about} is {shown(value)}, but must be a number{span}{top}; for example {example:g}.", about
        )
    return number


def _float(value: object) -> float | None:
    if isinstance(value, bool) or not isinstance(value, Real | Decimal):
        return None
    try:
        number = float(value)
    except (OverflowError, ValueError):
        return None
    return number if math.isfinite(number) else None
