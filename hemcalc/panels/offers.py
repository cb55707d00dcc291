"""What the panels' sliders offer: counts and lengths that people use, in each unit."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from hemcalc.measure.counts import Count
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import UNITS
from hemcalc.panels.controls import Control, choice
from hemcalc.stitch.groups import WORKED

__all__ = [
    "COUNTS",
    "HEMS",
    "THICKNESSES",
    "type_choice",
    "unit_choice",
    "unit_of",
    "use_lengths",
    "use_unit",
    "way_asked",
    "way_choice",
]

_METRIC_COUNTS = tuple(f"{Fraction(n, 2)}/cm" if n % 2 == 0 else f"{n // 2}.5/cm" for n in range(8, 41))
#: Counts to choose from, by unit.
COUNTS: Mapping[str, tuple[str, ...]] = {
    "in": tuple(f"{n}/in" for n in range(10, 61)),
    "cm": _METRIC_COUNTS,
    "mm": _METRIC_COUNTS,
}

#: Widths of hem to choose from, by unit: sixteenths of an inch, millimetres.
HEMS: Mapping[str, tuple[str, ...]] = {
    "in": tuple(Length(f"{n}/16 in").text("in") for n in range(2, 17)),
    "cm": tuple(Length(n).text("cm") for n in range(3, 26)),
    "mm": tuple(Length(n).text("mm") for n in range(3, 26)),
}

_AS_SUITS = "as suits the hand"

THICKNESSES = tuple(Length(Fraction(n, 10)).text("mm") for n in range(2, 16))


def unit_choice() -> Control:
    """The unit in which lengths are said and chosen."""
    return choice("unit", "unit", UNITS, "inches with threads per inch, or cm or mm with threads per cm")


def type_choice() -> Control:
    """Type for a page or for the back of a hall."""
    return choice("type", "size of type", ("page", "projector"), "projector: larger letters, for a hall")


def unit_of(count: Count) -> str:
    """The unit whose counts offer this one, inches or centimetres."""
    return "in" if count.text("in") in COUNTS["in"] else "cm"


def use_unit(
    controls: Mapping[str, Control], unit: str, counts: tuple[str, ...], hems: tuple[str, ...]
) -> None:
    """Have these sliders offer what goes with the unit, at the offer nearest to what they say."""
    for name in counts:
        _offer(controls[name].widget, COUNTS[unit], lambda text: Count(text).per_mm)
    for name in hems:
        use_lengths(controls[name], HEMS[unit])


def use_lengths(control: Control, offers: tuple[str, ...]) -> None:
    """Have a slider or a list offer these lengths, at the one nearest to what it says."""
    _offer(control.widget, offers, lambda text: Length(text).mm)


def _offer(slider: Any, options: tuple[str, ...], size: Any) -> None:
    if tuple(slider.options) != options:
        said = size(slider.value)
        nearest = min(options, key=lambda text: abs(size(text) - said))
        # In one message, so that the page never looks for a place that the new offers lack.
        with slider.hold_sync():
            slider.options = options
            slider.value = nearest


def way_choice() -> Control:
    """Which way the work travels along a side."""
    return choice("worked", "worked", (_AS_SUITS, *WORKED), "which way the work travels before the worker")


def way_asked(chosen: str) -> str | None:
    """The way that was chosen; None for the one that suits the hand."""
    return None if chosen == _AS_SUITS else chosen
