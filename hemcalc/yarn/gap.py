"""Thread and needle held against the cloth: ratios with their working, and no verdicts.

A thread slips between the cloth's own if it is no thicker than the gap they leave. How much more or
less is right, hand and purpose say.
"""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.measure.counts import Count, as_count
from hemcalc.measure.errors import HemError, one_of
from hemcalc.measure.lengths import Length
from hemcalc.measure.measured import measured_mm
from hemcalc.yarn.diameter import YarnDiameter


@dataclass(frozen=True, slots=True)
class GapRatio:
    """A thread's or needle's diameter against the gap between two threads of the cloth.

    Made by `gap_ratio`. At a ratio of 1 it fills the gap as the cloth lies; above
    that it has to push the threads apart.
    """

    what: str
    diameter_mm: float
    pitch_mm: float
    cloth_yarn_mm: float

    def __repr__(self) -> str:
        sizes = f"{self.what} {self.diameter_mm:.2f} mm in a gap of {self.gap_mm:.2f} mm"
        return f"GapRatio({sizes}: {self.ratio:.2f})"

    @property
    def gap_mm(self) -> float:
        """The cloth's pitch less the diameter of its own yarn."""
        return self.pitch_mm - self.cloth_yarn_mm

    @property
    def ratio(self) -> float:
        """Diameter over gap."""
        return self.diameter_mm / self.gap_mm

    @property
    def working(self) -> str:
        """The sum with its numbers in it."""
        return (
            f"{self.what} {self.diameter_mm:.3f} mm / (pitch {self.pitch_mm:.3f} mm - cloth's yarn "
            f"{self.cloth_yarn_mm:.3f} mm) = {self.diameter_mm:.3f} / {self.gap_mm:.3f} = {self.ratio:.2f}"
        )


def gap_ratio(
    diameter: YarnDiameter | Length | str | float,
    count: Count | str,
    cloth_yarn: YarnDiameter | Length | str | float,
    *,
    what: str = "thread",
) -> GapRatio:
    """The ratio of a thread or needle to the gap that the cloth has for it.

        ratio = diameter / (pitch - diameter of the cloth's own yarn)

    Refused if the cloth's yarn leaves no gap.

    Parameters
    ----------
    diameter : YarnDiameter, Length, str or float
        Of the thread or needle, mm if a bare number.
    count : Count or str
        Count of the cloth, square to the threads that it slips between.
    cloth_yarn : YarnDiameter, Length, str or float
        Diameter of the cloth's own yarn.
    what : str
        ``"thread"`` or ``"needle"``, for the working.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> print(gap_ratio("0.3 mm", "28/in", "0.4 mm").working)
    thread 0.300 mm / (pitch 0.907 mm - cloth's yarn 0.400 mm) = 0.300 / 0.507 = 0.59
    """
    one_of(what, ("thread", "needle"), "what")
    pitch = float(as_count(count).pitch.mm)
    yarn = _diameter_mm(cloth_yarn, "cloth_yarn")
    if yarn >= pitch:
        raise HemError(
            f"cloth_yarn is {yarn:.3g} mm, but the cloth's pitch is only {pitch:.3g} mm, so no gap is left; "
            f"check the count, or give a finer yarn, for example '{pitch / 2:.2f} mm'.",
            "cloth_yarn",
        )
    return GapRatio(what, _diameter_mm(diameter, what), pitch, yarn)


def _diameter_mm(value: object, about: str) -> float:
    if isinstance(value, YarnDiameter):
        return value.diameter_mm
    return measured_mm(value, about, example="'0.3 mm'")
