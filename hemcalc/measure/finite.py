"""Numbers that become floats: an angle, a radius, a place, how far a fold is made.

Threads and lengths are exact and never come here. What does is checked once, so that no
text, True or infinity is ever worked with.
"""

from __future__ import annotations

import math
from decimal import Decimal
from numbers import Real

from hemcalc.measure.errors import HemError, shown

__all__ = ["finite_number"]


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
