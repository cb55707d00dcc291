"""Pieces cut from a bolt or a remnant: how much to buy, and every cut in order."""

from hemcalc.bolt.allowances import BoltAllowances
from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.cut_sizes import CutSize
from hemcalc.bolt.layout import Layout
from hemcalc.bolt.remnant import Yield, have_from_remnant

__all__ = [
    "BoltAllowances",
    "CutSize",
    "Layout",
    "Yield",
    "cut_from_bolt",
    "have_from_remnant",
]
