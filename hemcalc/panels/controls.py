"""Controls that explain themselves: a slider or a choice, and beside it a hint or what is wrong."""

from __future__ import annotations

import html
from collections.abc import Sequence
from typing import Any

import ipywidgets as widgets

__all__ = ["BESIDE_TYPE", "BESIDE_WIDTH", "Control", "choice", "share", "steps", "switch", "whole"]

_WIDE = {"description_width": "150px"}
_LAYOUT = {"width": "400px"}
_ROW = "36px"
#: What is said beside a control has room for two lines of this type, pixels.
BESIDE_WIDTH, BESIDE_TYPE = 490, 12


class Control:
    """One input of a panel.

    Attributes
    ----------
    name : str
        The input's name in the plan, and in the errors that are about it.
    widget : ipywidgets.Widget
        What the reader moves.
    row : ipywidgets.HBox
        The widget with its hint beside it.
    """

    def __init__(self, name: str, widget: Any, hint: str) -> None:
        self.name = name
        self.widget = widget
        self._hint = hint
        self._beside = widgets.HTML(layout=widgets.Layout(width=f"{BESIDE_WIDTH}px", height=_ROW))
        self.row = widgets.HBox([widget, self._beside], layout=widgets.Layout(height=_ROW))
        self.say("")

    @property
    def value(self) -> Any:
        """What is set."""
        return self.widget.value

    @property
    def sentence(self) -> str:
        """What is said to be wrong with it; empty if nothing is."""
        return self._sentence

    def say(self, sentence: str) -> None:
        """Show what is wrong beside the control, or its hint again."""
        self._sentence = sentence
        text = html.escape(sentence or self._hint)
        look = f"font-size:{BESIDE_TYPE}px;line-height:1.2;padding-top:4px;"
        look += "color:#7a1f00;background:#fdeeea" if sentence else "color:#444"
        mark = "<b>✗</b> " if sentence else ""
        self._beside.value = f'<div role="status" style="{look}">{mark}{text}</div>'

    def show(self, shown: bool, *, keep_room: bool = False) -> None:
        """Show or hide the row.

        Its room is given up to another control that is shown in its place or, so that the page
        below does not jump, kept.
        """
        if keep_room:
            self.row.layout.visibility = "visible" if shown else "hidden"
        else:
            self.row.layout.display = "flex" if shown else "none"

    @property
    def is_shown(self) -> bool:
        """Whether the reader can see it."""
        layout = self.row.layout
        return not (layout.visibility == "hidden" or layout.display == "none")


def whole(name: str, label: str, least: int, most: int, hint: str, *, at_rest: bool = False) -> Control:
    """A slider over whole numbers; one that is followed when it comes to rest, if so wished."""
    slider = widgets.IntSlider(
        least,
        least,
        most,
        description=label,
        continuous_update=not at_rest,
        style=_WIDE,
        layout=widgets.Layout(**_LAYOUT),
    )
    return Control(name, slider, hint)


def share(name: str, label: str, hint: str) -> Control:
    """A slider from 0 to 1."""
    slider = widgets.FloatSlider(
        0.0, min=0.0, max=1.0, step=0.01, description=label, style=_WIDE, layout=widgets.Layout(**_LAYOUT)
    )
    return Control(name, slider, hint)


def steps(name: str, label: str, options: Sequence[str], hint: str, *, at_rest: bool = False) -> Control:
    """A slider over texts, such as lengths that a ruler has; as `whole`."""
    slider = widgets.SelectionSlider(
        options=list(options),
        description=label,
        continuous_update=not at_rest,
        style=_WIDE,
        layout=widgets.Layout(**_LAYOUT),
    )
    return Control(name, slider, hint)


def choice(name: str, label: str, options: Sequence[str], hint: str) -> Control:
    """A list to choose from."""
    menu = widgets.Dropdown(
        options=list(options), description=label, style=_WIDE, layout=widgets.Layout(**_LAYOUT)
    )
    return Control(name, menu, hint)


def switch(name: str, label: str, hint: str) -> Control:
    """A box to tick."""
    box = widgets.Checkbox(False, description=label, style=_WIDE, layout=widgets.Layout(**_LAYOUT))
    return Control(name, box, hint)
