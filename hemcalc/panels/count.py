"""The panel of the count: how long a ruler and how many places a count needs, and what to cut by it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hemcalc.draw.edge.counting import Counted, CountingPicture
from hemcalc.measure.counts import Count, MeasuredCount
from hemcalc.measure.exact import half_up
from hemcalc.measure.lengths import Length
from hemcalc.panels.choices import unit_choice
from hemcalc.panels.controls import Control, choice, stops, whole
from hemcalc.panels.panel import Panel
from hemcalc.piece.piece import Piece

_RULERS = {
    "in": ("1/2 in", "1 in", "2 in", "3 in", "4 in"),
    "cm": ("1 cm", "2 cm", "3 cm", "5 cm", "10 cm"),
    "mm": ("10 mm", "20 mm", "30 mm", "50 mm", "100 mm"),
}
_SIZES = {
    "in": ("2 in", "5 in", "10 in", "20 in"),
    "cm": ("5 cm", "10 cm", "25 cm", "50 cm"),
    "mm": ("50 mm", "100 mm", "250 mm", "500 mm"),
}
_SURE = ("80 %", "90 %", "95 %", "99 %")
_LONGEST = Length("4 in")


def plan_count(values: Mapping[str, Any]) -> Counted:
    """What the controls' values say was counted."""
    readings = [values["threads"]] * values["places"]
    count = Count.measured(readings, Length(values["ruler"]), values["sure"])
    return Counted(count, Length(values["size"]), values["unit"])


def count_panel() -> Panel:
    """The panel of the count, ready to be shown in a notebook.

    Examples
    --------
    >>> panel = count_panel()
    >>> panel.controls["ruler"].widget.value = "4 in"
    >>> panel.controls["threads"].widget.value = 112
    >>> panel.result.count.per_inch
    Fraction(28, 1)
    """
    return Panel(
        _controls(),
        plan_count,
        CountingPicture(_LONGEST),
        _EXAMPLES,
        _adapt,
        mind=lambda _: ("eyes",),
        from_piece=_mine,
    )


def _controls() -> list[Control]:
    return [
        whole("threads", "threads counted", 4, 200, "threads between the ruler's two ends"),
        stops("ruler", "ruler, length", _RULERS["in"], "how much of the ruler you count along"),
        whole("places", "places", 1, 6, "how often you count, each time in another place"),
        choice("sure", "how sure", _SURE, "how sure a cloth cut by this count is to be large enough"),
        stops("size", "size to be made", _SIZES["in"], "a size that will be counted out in threads"),
        unit_choice(),
    ]


def _adapt(controls: Mapping[str, Control]) -> None:
    """Offer rulers and sizes that go with the unit."""
    unit = controls["unit"].value
    for name, choices in (("ruler", _RULERS), ("size", _SIZES)):
        slider = controls[name].widget
        if tuple(slider.options) != choices[unit]:
            at = slider.options.index(slider.value)
            with slider.hold_sync():
                slider.options = choices[unit]
                slider.value = choices[unit][at]


def _mine(piece: Piece) -> dict[str, Any]:
    """The count of a piece along the ruler on which it was counted, or along one of the panel's."""
    count = piece.fabric.warp
    unit, places = count.unit, 1
    ruler, threads = Length(_RULERS[unit][0 if unit == "cm" else 1]), count.threads
    if isinstance(count, MeasuredCount):
        ruler, places = count.over, len(count.readings)
    else:
        threads = count.threads_in(ruler)
    return {
        "unit": unit,
        "ruler": ruler.text(unit),
        "threads": half_up(threads),
        "places": places,
        "sure": "95 %",
        "size": _SIZES[unit][2],
    }


_ONCE = {"unit": "in", "ruler": "1 in", "threads": 28, "places": 1, "sure": "95 %", "size": "10 in"}
_EXAMPLES = {
    "one inch, once": _ONCE,
    "four inches, in three places": _ONCE | {"ruler": "4 in", "threads": 112, "places": 3},
}
