"""How much cloth a bend takes.

A sheet that is bent is stretched outside and squeezed inside; somewhere between lies the
neutral line, which keeps its length. Where it lies is given as a share of the thickness from
the inside: a half for an even sheet such as cloth.
"""

from __future__ import annotations

import math

from hemcalc.errors import HemError, shown

__all__ = ["EVEN_SHEET", "bend_length", "neutral_share"]

#: The neutral line of an even sheet lies in its middle.
EVEN_SHEET = 0.5


def bend_length(angle: float, inner_radius: float, thickness: float, neutral: float = EVEN_SHEET) -> float:
    """Length of the neutral line in a bend.

    Formula: angle · (inner radius + neutral · thickness), the angle in radians.

    Parameters
    ----------
    angle : float
        How far the sheet is turned, degrees; 180 for a fold.
    inner_radius : float
        Radius on the inside, 0 for a sharp fold; any unit of length.
    thickness : float
        Thickness of the sheet, more than 0; the same unit.
    neutral : float
        Where the neutral line lies, as a share of the thickness from the inside, 0 to 1.

    Returns
    -------
    float
        In the same unit.

    Raises
    ------
    HemError
        If a number is out of its range.

    Source
    ------
    Machinery's Handbook, 31st ed., Industrial Press, 2020 (per memory), p. 1421, formulas 32-34.

    Examples
    --------
    >>> round(bend_length(180, 0, 0.5), 3)
    0.785
    """
    _positive("thickness", thickness)
    for name, value, most in (
        ("angle", angle, 360),
        ("inner_radius", inner_radius, 1e6),
        ("neutral", neutral, 1),
    ):
        if not (_is_number(value) and 0 <= value <= most):
            raise HemError(
                f"{name} is {shown(value)}, but must be a number from 0 to {most:g}; "
                f"for example {most / 2:g}.",
                name,
            )
    return math.radians(angle) * (inner_radius + neutral * thickness)


def neutral_share(measured: float, angle: float, inner_radius: float, thickness: float) -> float:
    """Where the neutral line lies, from a bend whose length was measured.

    Formula: (length / angle - inner radius) / thickness, the angle in radians.

    Source
    ------
    K factor in sheet metal, web article, n.d., givens.

    Examples
    --------
    >>> round(neutral_share(2.1, 90, 1, 1), 3)
    0.337
    """
    for name, value in (("measured", measured), ("angle", angle), ("thickness", thickness)):
        _positive(name, value)
    return (measured / math.radians(angle) - inner_radius) / thickness


def _positive(name: str, value: object) -> None:
    if not (_is_number(value) and value > 0):  # type: ignore[operator]
        raise HemError(f"{name} is {shown(value)}, but must be a number more than 0; for example 0.5.", name)


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
