"""Controls that explain themselves: a slider to move or type over, or a choice, and what is wrong with it."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

import ipywidgets as widgets

from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.lengths import Length
from hemcalc.panels.page import classed

#: What is said about a control has room for so many lines of this type in the column, pixels.
BESIDE_WIDTH, BESIDE_TYPE = 330, 12


class Control:
    """One input of a panel, called `name` in the plan and in the errors that are about it.

    Its `box` says what a slider says, to be typed over, and is None if there is no slider; its `row` has
    both, with the hint below them while they are pointed at, or what is wrong.
    """

    def __init__(
        self, name: str, widget: Any, hint: str, read: Callable[[Any, str], Any] | None = None
    ) -> None:
        self.name = name
        self.widget = classed(widget, "hemcalc-control")
        self.hint = hint
        self._sentence: str | None = None
        self.beside = classed(widgets.HTML(), "hemcalc-beside")
        self._read = read
        #: What is done when it is moved, before its own box follows: nobody waits for that.
        self.moved: Callable[[dict[str, Any]], None] = lambda change: None
        widget.observe(self._changed, "value")
        self._following = False
        self.box: Any = None
        if read is not None:
            self.box = classed(
                widgets.Text(description=f"{widget.description}: type it", continuous_update=False),
                "hemcalc-box",
            )
            self.box.observe(self._typed, "value")
            self._follow()
        shown_in = [widget, self.beside] if self.box is None else [widget, self.box, self.beside]
        self.row = classed(widgets.Box(shown_in), "hemcalc-row")
        self.say("")

    @property
    def value(self) -> Any:
        """What is set."""
        return self.widget.value

    @property
    def sentence(self) -> str:
        """What is said to be wrong with it; empty if nothing is."""
        return self._sentence or ""

    def say(self, sentence: str) -> None:
        """Say what is wrong with the control, or give its hint again."""
        if sentence == self._sentence:
            return
        if self._sentence and not sentence and self.box is not None:
            self._follow()
        self._sentence = sentence
        mark = "<b>✗</b> " if sentence else ""
        (self.beside.add_class if sentence else self.beside.remove_class)("hemcalc-wrong")
        self.beside.value = f'<div role="status">{mark}{html.escape(sentence or self.hint)}</div>'

    def _changed(self, change: dict[str, Any]) -> None:
        self.moved(change)
        if self.box is not None:
            self._follow()

    def _follow(self) -> None:
        """Have the box say what the slider says."""
        value = self.widget.value
        self._following = True
        self.box.value = f"{value:.2f}" if isinstance(value, float) else str(value)
        self._following = False

    def _typed(self, change: dict[str, Any]) -> None:
        if self._following or self._read is None:
            return
        try:
            value = self._read(self.widget, change["new"].strip())
        except HemError as error:
            self.say(str(error))
            return
        self.say("")
        self.widget.value = value
        self._follow()

    def show(self, shown: bool) -> None:
        """Show or hide the row."""
        self.row.layout.display = "flex" if shown else "none"

    @property
    def is_shown(self) -> bool:
        """Whether the reader can see it."""
        return bool(self.row.layout.display != "none")


def whole(name: str, label: str, least: int, most: int, hint: str, *, at_rest: bool = False) -> Control:
    """A slider over whole numbers; one that is followed when it comes to rest, if so wished."""
    slider = widgets.IntSlider(
        least, least, most, description=label, continuous_update=not at_rest, readout=False
    )
    return Control(name, slider, hint, _whole)


def gradual(name: str, label: str, hint: str) -> Control:
    """A slider from 0 to 1."""
    slider = widgets.FloatSlider(0.0, min=0.0, max=1.0, step=0.01, description=label, readout=False)
    return Control(name, slider, hint, _gradual)


def stops(name: str, label: str, options: Sequence[str], hint: str, *, at_rest: bool = False) -> Control:
    """A slider over texts, such as lengths that a ruler has; as `whole`."""
    slider = widgets.SelectionSlider(
        options=list(options), description=label, continuous_update=not at_rest, readout=False
    )
    return Control(name, slider, hint, _offered)


def choice(name: str, label: str, options: Sequence[str], hint: str) -> Control:
    """A list to choose from."""
    return Control(name, widgets.Dropdown(options=list(options), description=label), hint)


def switch(name: str, label: str, hint: str) -> Control:
    """A box to tick."""
    return Control(name, widgets.Checkbox(False, description=label, indent=False), hint)


def _whole(slider: Any, text: str) -> int:
    found = re.fullmatch(r"(\d{1,6})(?: ?threads?)?", text)
    if found is None or not slider.min <= int(found[1]) <= slider.max:
        raise HemError(
            f"{shown(text)} can't be set here: a whole number from {slider.min} to {slider.max} can; "
            f"for example {(slider.min + slider.max) // 2}."
        )
    return int(found[1])


def _gradual(slider: Any, text: str) -> float:
    found = re.fullmatch(r"(\d{0,3}(?:[.,]\d{1,6})?)( ?%)?", text)
    value = float(found[1].replace(",", ".")) / (100 if found[2] else 1) if found and found[1] else -1.0
    if not slider.min <= value <= slider.max:
        raise HemError(f"{shown(text)} can't be set here: a number from 0 to 1 can; for example 0.5.")
    return round(value, 2)


def _offered(slider: Any, text: str) -> str:
    """The one of a slider's texts that says the same, however it is written."""
    choices: tuple[str, ...] = tuple(slider.options)
    if text in choices:
        return text
    asked = _size(text, choices[0])
    sizes = [(_size(offer, choices[0]) or Fraction(0), offer) for offer in choices]
    if asked is not None:
        if same := [offer for size, offer in sizes if size == asked]:
            return same[0]
        below, above = (
            [each for each in sizes if each[0] < asked],
            [each for each in sizes if each[0] > asked],
        )
        if below and above:
            near = f"{max(below)[1]} and {min(above)[1]}"
            raise HemError(f"{shown(text)} is not on this slider: the nearest are {near}.")
    reach = f"it goes from {choices[0]} to {choices[-1]}; for example {choices[1]}."
    raise HemError(f"{shown(text)} is not on this slider: {reach}")


def _size(text: str, like: str) -> Fraction | None:
    """The length, the count or the number that a text says, a bare number in the unit of `like`."""
    unit = re.sub(r"^[^a-z%]*?(?=/?[a-z%]+$)", "", like)
    said = text if re.search('[a-z%"”″]', text) else text + unit
    try:
        if unit.startswith("/"):
            return Count(said).per_mm
        return Fraction(said.rstrip("% ").replace(",", ".")) if unit == "%" else Length(said).mm
    except (HemError, ValueError, ZeroDivisionError):
        return None
