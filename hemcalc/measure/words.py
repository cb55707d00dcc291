"""Words for what was reckoned: numbers as one says them, the same in every sentence."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hemcalc.measure.exact import decimal_text, mixed_text


def so_many(number: int | str, one: str) -> str:
    """How many of something, in the singular or the plural.

    Examples
    --------
    >>> so_many(1, "piece"), so_many(12, "learner"), so_many(-1, "thread")
    ('1 piece', '12 learners', '-1 thread')
    """
    return f"{number} {one}{'' if number in (1, -1, '1') else 's'}"


def threads_said(number: Fraction | int) -> str:
    """A number of threads as a stitcher says it: in halves, quarters or hundredths.

    Examples
    --------
    >>> threads_said(1), threads_said(Fraction(3, 2)), threads_said(Fraction(8, 3))
    ('1 thread', '1 1/2 threads', 'about 2.67 threads')
    """
    if isinstance(number, int):
        return so_many(number, "thread")
    if number.denominator in (1, 2, 4):
        figure = mixed_text(number)
    elif 100 * number < 1:
        figure = "less than 0.01"
    else:
        figure = ("" if 100 % number.denominator == 0 else "about ") + decimal_text(number)
    return f"{figure} thread{'' if 0 < number <= 1 else 's'}"


def about(number: Fraction) -> str:
    """A number to the nearest hundredth, with the sign for about if that rounds it.

    Examples
    --------
    >>> about(Fraction(5, 2)), about(Fraction(22, 7))
    ('2.5', '≈ 3.14')
    """
    return f"{'' if (100 * number).denominator == 1 else '≈ '}{decimal_text(number)}"


def percent(share: Fraction) -> str:
    """A share as so many per cent.

    Examples
    --------
    >>> percent(Fraction(2, 25)), percent(Fraction(1, 30))
    ('8 %', '≈ 3.33 %')
    """
    return f"{about(100 * share)} %"


def share_said(share: Fraction) -> str:
    """What the wash takes, as so many per cent or as nothing."""
    return percent(share) if share else "nothing"


def listed(names: Sequence[str]) -> str:
    """Names in a row: "left, right and top".

    Examples
    --------
    >>> listed(["left", "right", "top"]), listed(["top"])
    ('left, right and top', 'top')
    """
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def numbers_listed(numbers: Sequence[int]) -> str:
    """Numbers in order, each run of three or more by its ends.

    Examples
    --------
    >>> numbers_listed([1, 3, 4, 5, 9]), numbers_listed([1, 2, 4, 5])
    ('1, 3 to 5 and 9', '1, 2, 4 and 5')
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said: list[str] = []
    for run in runs:
        said += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]
    return listed(said)
