"""How much cloth a bend takes.

A sheet that is bent is stretched outside and squeezed inside; somewhere between lies the
neutral line, which keeps its length. Where it lies is given as a share of the thickness from
the inside: a half for an even sheet such as cloth.
"""

from __future__ import annotations

import math

from hemcalc.measure.errors import HemError
from hemcalc.measure.measured import finite_number

#: The neutral line of an even sheet lies in its middle.
EVEN_SHEET = 0.5

_LONGEST = 100_000.0  # beyond 100 m, in mm, a slip of the keyboard
_SLIP = 1e-9  # of a float, at the sheet's two faces


def bend_length(angle: float, inner_radius: float, thickness: float, neutral: float = EVEN_SHEET) -> float:
    """Length of the neutral line in a bend, in the unit of the radius and the thickness.

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

    Source
    ------
    Machinery's Handbook, 31st ed., E. Oberg and others, 2020 (per memory), p. 1421, formulas 32-34.

    Examples
    --------
    >>> round(bend_length(180, 0, 0.5), 3)
    0.785
    """
    turned = math.radians(finite_number(angle, "angle", least=0, most=360, example=180))
    inside = finite_number(inner_radius, "inner_radius", least=0, most=_LONGEST, example=0.5)
    sheet = _size(thickness, "thickness")
    share = finite_number(neutral, "neutral", least=0, most=1, example=EVEN_SHEET)
    return turned * (inside + share * sheet)


def neutral_share(measured: float, angle: float, inner_radius: float, thickness: float) -> float:
    """Where the neutral line lies, from a bend whose length was measured: a share of the thickness.

    Formula: (length / angle - inner radius) / thickness, the angle in radians.

    Refused if they put the neutral line outside the sheet.

    Parameters
    ----------
    measured : float
        Length of the bend: of the flat sheet that went into it; more than 0.
    angle : float
        How far the sheet is turned, degrees, from 0.001 to 360.
    inner_radius : float
        Radius on the inside, 0 for a sharp fold; the same unit as the length.
    thickness : float
        Thickness of the sheet, more than 0; the same unit.

    Source
    ------
    K factor in sheet metal, web article, n.d., givens.

    Examples
    --------
    >>> round(neutral_share(2.1, 90, 1, 1), 3)
    0.337
    """
    length = _size(measured, "measured")
    turned = math.radians(finite_number(angle, "angle", least=0.001, most=360, example=180))
    inside = finite_number(inner_radius, "inner_radius", least=0, most=_LONGEST, example=0.5)
    sheet = _size(thickness, "thickness")
    share = (length / turned - inside) / sheet
    if not -_SLIP <= share <= 1 + _SLIP:
        least, most = turned * inside, turned * (inside + sheet)
        raise HemError(
            f"measured is {length:g}, but a bend of this sheet takes from {least:.4g}, along its inside, "
            f"to {most:.4g}, along its outside; for example {(least + most) / 2:.4g}.",
            "measured",
        )
    return min(max(share, 0.0), 1.0)


def _size(value: object, about: str) -> float:
    return finite_number(value, about, least=0, most=_LONGEST, above=True, example=0.5)
