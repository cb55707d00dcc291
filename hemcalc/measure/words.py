"""Words for what was reckoned: numbers as one says them, the same in every sentence."""

from __future__ import annotations

from fractions import Fraction

from hemcalc.measure.exact import decimal_text

__all__ = ["about", "share_said", "so_many", "threads_said"]


def so_many(number: int | str, one: str) -> str:
    """How many of something, in the singular or the plural.

    Examples
    --------
    >>> so_many(1, "piece"), so_many(12, "learner"), so_many(-1, "thread")
    ('1 piece', '12 learners', '-1 thread')
    """
    return f"{number} {one}{'' if number in (1, -1, '1') else 's'}"


def threads_said(number: int) -> str:
    """A number of threads as one says it.

    Examples
    --------
    >>> threads_said(1), threads_said(2)
    ('1 thread', '2 threads')
    """
    return so_many(number, "thread")


def about(number: Fraction) -> str:
    """A number to the nearest hundredth, with the sign for about if that rounds it.

    Examples
    --------
    >>> about(Fraction(5, 2)), about(Fraction(22, 7))
    ('2.5', '≈ 3.14')
    """
    return f"{'' if (100 * number).denominator == 1 else '≈ '}{decimal_text(number)}"


def share_said(share: Fraction) -> str:
    """A share as so many per cent; a word if it is none.

    Examples
    --------
    >>> share_said(Fraction(2, 25)), share_said(Fraction(1, 30)), share_said(Fraction(0))
    ('8 %', '≈ 3.33 %', 'nothing')
    """
    return f"{about(100 * share)} %" if share else "nothing"
