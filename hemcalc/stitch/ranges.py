"""What is not known of a stitch, as its least, its middle and its most.

Nobody measures how far a thread pulls a group in; few measure their cloth's thickness. Each
such thing is taken at three values, and a sentence says so.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.measured import measured_mm, share
from hemcalc.measure.words import percent
from hemcalc.yarn.diameter import YarnDiameter

__all__ = ["Case", "Cases", "least_and_most", "stitch_cases"]


class Case(NamedTuple):
    """One end of the range, or its middle: what is not known, taken so."""

    thickness_mm: float
    thread_mm: float
    pulled: float


#: The least, the middle and the most.
Cases = tuple[Case, Case, Case]


def stitch_cases(
    fabric: Fabric, thickness: object, thread: object, pulled: tuple[object, object]
) -> tuple[Cases, tuple[str, ...]]:
    """Low, middle and high of what is not known, and a sentence for each thing assumed."""
    said = []
    given = fabric.thickness if thickness is None else thickness
    if given is None:
        pitch = float((fabric.across.pitch + fabric.down.pitch).mm) / 2
        taus = (pitch / 3, 2 * pitch / 3, pitch)
        said.append(
            f"The cloth's thickness is not known: taken as {taus[0]:.2f} to {taus[2]:.2f} mm, a third of "
            "the pitch to the whole of it."
        )
    else:
        taus = (measured_mm(given, "thickness"),) * 3
    if thread is None:
        thicknesses = tuple(tau / 2 for tau in taus)
        said.append("The thread's thickness is not known: taken as half the cloth's, as its own yarn is.")
    elif isinstance(thread, YarnDiameter):
        thicknesses = (thread.diameter_mm,) * 3
    else:
        thicknesses = (measured_mm(thread, "thread", example="'0.3 mm'"),) * 3
    least, most = least_and_most(pulled, "pulled", "('50 %', '100 %')")
    if not least:
        raise HemError(
            "pulled is 0 %, but a group keeps some width; for example ('50 %', '100 %').", "pulled"
        )
    said.append(
        f"The thread is assumed to leave each group {percent(least)} to {percent(most)} of its width."
    )
    keeps = (float(least), float(least + most) / 2, float(most))
    low, middle, high = (Case(*known) for known in zip(taus, thicknesses, keeps, strict=True))
    return (low, middle, high), tuple(said)


def least_and_most(value: object, about: str, example: str) -> tuple[Fraction, Fraction]:
    """The two shares of a range.

    Examples
    --------
    >>> least_and_most(("10 %", "15 %"), "waste", "('10 %', '15 %')")
    (Fraction(1, 10), Fraction(3, 20))
    """
    if not isinstance(value, tuple | list) or len(value) != 2:
        raise HemError(
            f"{about} is {shown(value)}, but must be two shares, the least and the most; "
            f"for example {example}.",
            about,
        )
    least, most = (share(part, about) for part in value)
    if least > most:
        raise HemError(
            f"{about} has {percent(least)} before {percent(most)}, but the least comes first; "
            f"for example {example}.",
            about,
        )
    return least, most
