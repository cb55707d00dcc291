"""An amount of thread as a range: low, middle and high, because no stitch is like the next.

And how many lengths to cut from the ball for it, each with a start and an end that sew
nothing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hemcalc.measure.errors import HemError, one_of
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import finite_number
from hemcalc.measure.units import MILLIMETRES

_SAME = 1e-9  # a length over that only a float's rounding sees


@dataclass(frozen=True, slots=True)
class Amount:
    """A length of thread, mm: as little as, most likely, as much as.

    Examples
    --------
    >>> hem = Amount(4130.0, 5000.0, 6120.0)
    >>> hem.text("m"), (hem + hem).text("m")
    ('4.1 to 6.2 m', '8.2 to 13 m')
    """

    low_mm: float
    middle_mm: float
    high_mm: float

    def __add__(self, other: Amount) -> Amount:
        return Amount(
            self.low_mm + other.low_mm, self.middle_mm + other.middle_mm, self.high_mm + other.high_mm
        )

    def times(self, low: float, middle: float, high: float) -> Amount:
        """The amount, each end scaled by its own factor.

        Examples
        --------
        >>> Amount(90.0, 100.0, 110.0).times(1.0, 1.1, 1.2).text("mm")
        '90 to 140 mm'
        """
        return Amount(self.low_mm * low, self.middle_mm * middle, self.high_mm * high)

    def text(self, unit: str = "cm") -> str:
        """The range in words: two figures, the low end rounded down, the high end up."""
        size = float(MILLIMETRES[one_of(unit, tuple(MILLIMETRES), "unit")])
        low, high = _two_figures(self.low_mm / size, up=False), _two_figures(self.high_mm / size, up=True)
        return f"{low:.10g} {unit}" if low == high else f"{low:.10g} to {high:.10g} {unit}"


def needlefuls(thread_mm: float, working: Length | str, ends: Length | str) -> int:
    """Lengths to cut so that so much thread is sewn.

        n = ceil(thread / (working - ends))

    Refused if nothing is left to sew with.

    Parameters
    ----------
    thread_mm : float
        Thread to sew, mm.
    working : Length or str
        Length cut from the ball each time.
    ends : Length or str
        What the start and the end of each take; shorter than `working`.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> needlefuls(3000.0, "50 cm", "10 cm")
    8
    """
    to_sew = finite_number(thread_mm, "thread_mm", least=0, most=_MOST_MM, example=3000)
    cut, lost = as_length(working, "working"), as_length(ends, "ends", size=False)
    if lost >= cut:
        raise HemError(
            f"working is {cut.text('cm')}, but must be longer than its start and end, "
            f"{lost.text('cm')} in all; for example '50 cm'.",
            "working",
        )
    return math.ceil(to_sew / float((cut - lost).mm) - _SAME)


_MOST_MM = 1e9  # of thread to sew: a thousand kilometres


def _two_figures(number: float, *, up: bool) -> float:
    """The number to two figures, down or up, so that the range printed holds the range meant."""
    if number <= _SAME:
        return 0.0
    step = 10.0 ** (math.floor(math.log10(number)) - 1)
    steps = math.ceil(number / step - _SAME) if up else math.floor(number / step + _SAME)
    return steps * step
