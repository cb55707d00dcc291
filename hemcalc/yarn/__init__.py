"""Yarn and needle: how fine, how thick, and how they sit in the gaps of the cloth."""

from hemcalc.yarn.cloth import cloth_yarn
from hemcalc.yarn.density import LinearDensity
from hemcalc.yarn.diameter import diameter_by_volume, peirce_diameter
from hemcalc.yarn.gap import gap_ratio
from hemcalc.yarn.needle import pearl_cotton, tapestry_needle

__all__ = [
    "LinearDensity",
    "cloth_yarn",
    "diameter_by_volume",
    "gap_ratio",
    "pearl_cotton",
    "peirce_diameter",
    "tapestry_needle",
]
