"""Two cloths side by side: a panel twice, at one scale, with sliders that move together where wished."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from inspect import isfunction, signature
from typing import Any, Protocol, runtime_checkable

import ipywidgets as widgets

from hemcalc.measure.errors import HemError, one_of, several, shown
from hemcalc.panels.page import OnPage, classed
from hemcalc.panels.panel import Panel

_ONE_SCALE = "Both at one scale."


@runtime_checkable
class Scaled(Protocol):
    """A view that can be drawn at the scale of another."""

    #: What it needs to show, mm, and what it is to show at least, for the other's sake.
    reach_mm: float
    least_mm: float


class SideBySide(OnPage):
    """Two panels of one kind, left and right, and the names of the examples that they begin with."""

    def __init__(self, make: Callable[..., Panel], first: str, second: str, linked: Sequence[str]) -> None:
        narrow = {"narrow": True} if isfunction(make) and "narrow" in signature(make).parameters else {}
        if not isfunction(make) or not isinstance(one := make(**narrow), Panel):
            raise HemError(
                f"panel is {shown(make)}, but must be what makes a panel; for example margin_panel.", "panel"
            )
        examples = tuple(one.examples)
        try:
            left = one_of(first, (*examples, ""), "first") or examples[0]
            others = [name for name in examples if _cloth(name) != _cloth(left)] or list(examples[1:])
            self.names = left, one_of(second, (*examples, ""), "second") or others[0]
            things = several(linked, "linked", "names of controls", "['fold']")
            linked = [one_of(name, tuple(one.controls), "linked") for name in things]
        except HemError:
            one.close()  # or its widgets would stay, with nobody to show them
            raise
        self.panels = one, make(**narrow)
        for panel, name in zip(self.panels, self.names, strict=True):
            panel.reset(name)
        self._sharing = False
        for name in linked:
            for panel, other in (self.panels, self.panels[::-1]):
                panel.controls[name].widget.observe(partial(self._moved, name, other), "value")
        for panel in self.panels:
            panel.picture.observe(lambda _: self._share_scale(), "value")
        self._share_scale()
        #: Where it is so, that both are drawn at one scale.
        self.scale = classed(widgets.HTML(_ONE_SCALE if self._views else ""), "hemcalc-words")
        parts = [self.scale, *(panel.widget for panel in self.panels)]
        self.widget = classed(widgets.Box(parts), "hemcalc-two") if narrow else widgets.VBox(parts)

    @property
    def _views(self) -> list[Scaled]:
        return [panel.view for panel in self.panels if isinstance(panel.view, Scaled)]

    def _moved(self, name: str, other: Panel, change: dict[str, Any]) -> None:
        """Move the other's slider along, as far as it goes; an example that is chosen moves its own alone."""
        widget, value = other.controls[name].widget, change["new"]
        panel = next(each for each in self.panels if each is not other)
        if panel.held:
            return
        if hasattr(widget, "options"):
            if value in widget.options:
                widget.value = value
        elif hasattr(widget, "max"):
            widget.value = min(max(value, widget.min), widget.max)
        else:
            widget.value = value

    def _share_scale(self) -> None:
        """Draw both at the scale that the larger needs, where the picture has one that it can share."""
        views = self._views
        if self._sharing or not views:
            return
        self._sharing = True
        least = max(view.reach_mm for view in views)
        for panel, view in zip(self.panels, views, strict=True):
            if view.least_mm != least:
                view.least_mm = least
                panel.redraw()
        self._sharing = False

    def close(self) -> None:
        """Let go of both; their words are kept."""
        panels = () if self.closed else self.panels
        super().close()
        for panel in panels:
            panel.close()

    def in_words(self) -> str:
        """Both pictures in words."""
        return "\n".join(
            f"{n}: {panel.drawn.words}" for n, panel in zip(self.names, self.panels, strict=True)
        )

    def in_html(self) -> str:
        """Both pictures as stills."""
        return "\n".join(panel.drawn.html for panel in self.panels)


def _cloth(example: str) -> str:
    """What is worked in it, as its name begins: bread cloth, all done."""
    return example.partition(",")[0]


def side_by_side(
    panel: Callable[..., Panel], first: str = "", second: str = "", linked: Sequence[str] = ()
) -> SideBySide:
    """Two panels of one kind at one scale, beside each other, or below where they are too wide for that.

    Parameters
    ----------
    panel : function
        What makes the panel, such as ``margin_panel``.
    first, second : str
        The examples to begin with; without them the first, and the first of another cloth.
    linked : sequence of str
        Names of the controls that move together, such as ``["fold"]``.

    Examples
    --------
    >>> from hemcalc.panels import margin_panel
    >>> two = side_by_side(margin_panel, "bread cloth", "coaster", linked=["fold"])
    >>> two.panels[0].controls["fold"].widget.value = 0.5
    >>> two.panels[1].values["fold"]
    0.5
    """
    return SideBySide(panel, first, second, linked)
