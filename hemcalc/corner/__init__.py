"""One corner: trimmed, folded and lying in layers, and where its basted lines land."""

from hemcalc.corner.basting import Basted, basted_lines
from hemcalc.corner.mitre import Corner, plan_corner

__all__ = [
    "Basted",
    "Corner",
    "basted_lines",
    "plan_corner",
]
