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

_MAX_MM = 1000.0  # no pitch, thickness or stitch of this work is a metre


def finite_number(
    value: object,
    about: str,
    *,
    least: float = -math.inf,
    most: float = math.inf,
    above: bool = False,
    example: float = 1,
) -> float:
    """The value as a float, from `least` to `most`, or only above the least.

    Any real number or Decimal is taken; text and True are refused, and so is what no float can hold.

    Examples
    --------
    >>> finite_number(Fraction(3, 2), "fibre density", least=0, most=10, above=True)
    1.5
    >>> finite_number("wide", "angle", least=0, most=360, example=180)
    Traceback (most recent call last):
    hemcalc.HemError: angle is 'wide', but must be a number from 0 to 360; for example 180.
    """
    number = _float(value)
    if not (math.isfinite(number) and least <= number <= most) or (above and number == least):
        span = "" if math.isinf(least) else f" {'more than' if above else 'from'} {least:g}"
        top = "" if math.isinf(most) else f"{' and at most' if above else ' to'} {most:g}"
        raise HemError(
            f"{about} is {shown(value)}, but must be a number{span}{top}; for example {example:g}.", about
        )
    return number


def measured_mm(value: object, about: str, *, size: bool = True, example: str = "'0.5 mm'") -> float:
    """A measured length in mm, as a float: a Length, the text of one, or a bare number of millimetres.

    It is at most a metre, and more than nothing if it must be a `size`.

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
        number, said = float(length.mm), str(length)
    else:
        number, said = _float(value), shown(value)
    if not 0 <= number <= _MAX_MM or (size and not number):
        lower = "more than 0" if size else "0 or more"
        raise HemError(
            f"{about} is {said}, but must be {lower} and at most {_MAX_MM:g} mm; for example {example}.",
            about,
        )
    return number


def share(value: object, about: str, *, most: Fraction = Fraction(1)) -> Fraction:
    """A share, exact: of a length that is wasted or lost in the wash, of a width that is pulled in.

    A float is read as the decimal that it prints.

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
    elif abs(_float(value)) <= 1:
        # A float such as 0.15 means the decimal that was typed; a kind of float may print otherwise.
        number = exact_number(Decimal(float.__repr__(value)) if isinstance(value, float) else value, about)
    if number is None or not 0 <= number <= most:
        raise HemError(
            f"{about} is {shown(value)}, but must be a share from 0 % to {float(most * 100):g} %; "
            "for example '15 %' or 0.15.",
            about,
        )
    return number


def _float(value: object) -> float:
    """The value as a float; NaN, which every range refuses, if it is no number that a float can hold."""
    if isinstance(value, bool) or not isinstance(value, Real | Decimal):
        return math.nan
    try:
        return float(value)
    except (OverflowError, ValueError):  # beyond a float, or a signalling NaN
        return math.nan
