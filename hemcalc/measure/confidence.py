"""How sure is sure enough: a confidence, and how far it carries a standard uncertainty.

A measured count is off by a little, nobody knows which way. What is cut allows for it to a
confidence that the reader chooses; a confidence of 95 % leaves 5 cloths in 100 too small,
across and down together.
"""

from __future__ import annotations

import math
from fractions import Fraction
from functools import lru_cache

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.measured import share

__all__ = ["SURE", "as_confidence", "students_t"]

#: How sure we are unless told.
SURE = Fraction(95, 100)
_LEAST, _MOST = Fraction(50, 100), Fraction(999, 1000)


def as_confidence(value: object) -> Fraction:
    """The value as a confidence, from 50 % to 99.9 %.

    Raises
    ------
    HemError
        If `value` is not a confidence.

    Examples
    --------
    >>> as_confidence("90 %")
    Fraction(9, 10)
    >>> as_confidence("all of it")
    Traceback (most recent call last):
    hemcalc.HemError: confidence is 'all of it', but must be from 50 % to 99.9 %, since no...
    """
    try:
        given = share(value, "confidence")
    except HemError:
        given = Fraction(0)
    if not _LEAST <= given <= _MOST:
        raise HemError(
            f"confidence is {shown(value)}, but must be from 50 % to 99.9 %, since no measured count is "
            "quite sure; for example '95 %'.",
            "confidence",
        )
    return given


@lru_cache(maxsize=1000)
def students_t(confidence: Fraction, freedom: int) -> float:
    """Standard uncertainties that hold the true value this often, both sides together.

    Parameters
    ----------
    confidence : Fraction
        Share of cases between -t and t.
    freedom : int
        Degrees of freedom, 1 or more.

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
