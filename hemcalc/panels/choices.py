"""What the panels' sliders offer: counts and lengths that people use, in each unit."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any

from hemcalc.measure.counts import Count
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import UNITS
from hemcalc.panels.controls import Control, choice, stops, switch, whole
from hemcalc.stitch.groups import WORKED

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

WIDEST_HEM = 60  # threads: an inch of the finest cloth that is offered
MAX_DRAWN = 10
BY_LENGTH, BY_THREADS = "as a width", "in threads"
_AS_SUITS = "as suits the hand"

THICKNESSES = tuple(Length(Fraction(n, 10)).text("mm") for n in range(2, 16))


def unit_choice() -> Control:
    """The unit in which lengths are said and chosen."""
    return choice("unit", "unit", UNITS, "inches with threads per inch, or cm or mm with threads per cm")


def drawn_choice() -> Control:
    """How many threads are drawn out."""
    return whole("drawn", "drawn, threads", 1, MAX_DRAWN, "threads drawn out; the books draw 2 to 10")


def turn_choices() -> tuple[Control, Control]:
    """Half the hem for the turn, or so many threads."""
    return (
        switch("half", "turn half the hem", "untick it to choose the turn yourself"),
        whole("turn", "turn, threads", 0, WIDEST_HEM, "turned in under the back; no wider than the hem"),
    )


def count_choices(across: str, down: str) -> tuple[Control, Control]:
    """The two counts of a cloth, each with its hint."""
    return (
        stops("count across", "count across", COUNTS["in"], across),
        stops("count down", "count down", COUNTS["in"], down),
    )


def hem_is_choice(hint: str) -> Control:
    """How the hem is given."""
    return choice("hem is", "hem given", (BY_LENGTH, BY_THREADS), hint)


def use_hem(controls: Mapping[str, Control], first: str, *others: str) -> None:
    """Offer what goes with the unit, and show the hem as it is given: its width, or these in threads."""
    use_unit(controls, controls["unit"].value, ("count across", "count down"), ("hem",))
    by_length = controls["hem is"].value == BY_LENGTH
    controls["hem"].show(by_length)
    controls[first].show(not by_length)
    for name in others:
        controls[name].show(not by_length)
    controls["turn"].show(not controls["half"].value)


def use_unit(
    controls: Mapping[str, Control], unit: str, counts: tuple[str, ...], hems: tuple[str, ...]
) -> None:
    """Have these sliders offer what goes with the unit, at the offer nearest to what they say."""
    for name in counts:
        _offer(controls[name].widget, COUNTS[unit], _per_mm)
    for name in hems:
        use_lengths(controls[name], HEMS[unit])


def use_lengths(control: Control, choices: tuple[str, ...]) -> None:
    """Have a slider or a list offer these lengths, at the one nearest to what it says."""
    _offer(control.widget, choices, _mm)


@cache
def _per_mm(text: str) -> Fraction:
    return Count(text).per_mm


@cache
def _mm(text: str) -> Fraction:
    return Length(text).mm


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
