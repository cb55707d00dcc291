"""The stage: one panel alone, as large as the window, for a room that looks at a wall."""

from __future__ import annotations

import os
import re
from typing import Any
from urllib.parse import parse_qs

import ipywidgets as widgets

from hemcalc.launch.stage import ON_STAGE
from hemcalc.measure.errors import one_of
from hemcalc.panels.playing import ACTS, Pair, Playing
from hemcalc.panels.settings import in_force

_SAID = re.compile(r"\d+ (go|size) (\d{1,5}) (\d{1,5})")


class Stage:
    """A list of what can be shown, and the one that is shown.

    Parameters
    ----------
    name : str
        What is shown first: one of `ACTS`, or the list if it is empty.

    Examples
    --------
    >>> stage = Stage("corner")
    >>> stage.playing.panel.values["fold"]
    0.0
    >>> stage.leave()
    >>> stage.playing is None
    True
    """

    def __init__(self, name: str = "") -> None:
        self.playing: Playing | None = None
        self._made: dict[tuple[str, bool], Playing] = {}
        self.said = widgets.Text()  # what the page says, as a line of words
        self.said.add_class("stage-said")
        self.said.observe(lambda change: self._hear(change["new"]), "value")
        self._leave = widgets.Button(description="Leave", tooltip="To the list: Escape")
        self._leave.add_class("stage-leave")
        self._leave.on_click(lambda _: self.leave())
        self.widget = widgets.VBox()
        self.widget.add_class("stage")
        self._list = self._contents()
        self.leave()
        if name:
            self.show(name)

    def show(self, name: str, *, twice: bool = False) -> None:
        """Show this panel, as it was left; or two of it, for two cloths.

        Raises
        ------
        HemError
            If there is no panel of this name.
        """
        act = ACTS[one_of(name, tuple(ACTS), "panel")]
        if (name, twice) not in self._made:
            self._made[name, twice] = Pair(act) if twice else Playing(act)
        self.playing = self._made[name, twice]
        self.widget.children = (self.playing.widget, self._leave, self.said)

    def leave(self) -> None:
        """Go back to the list."""
        self.playing = None
        self.widget.children = (self._list, self.said)

    def _hear(self, words: str) -> None:
        """Do what the page says: how large the window is, or which picture it shows."""
        found = _SAID.fullmatch(words)
        if not found:
            return
        first, second = int(found[2]), int(found[3])
        if found[1] == "size":
            if self.playing and first and second:
                self.playing.resize(first, second)
        elif self.playing and self.playing.run == first:
            self.playing.go(second)

    def _contents(self) -> Any:
        buttons: list[Any] = []
        for name, shows in ON_STAGE.items():
            button = widgets.Button(description=f"{name.capitalize()}: {shows}")
            button.add_class("stage-act")
            button.on_click(lambda _, name=name: self.show(name))
            twice = widgets.Button(description="two cloths", tooltip=f"{name}: two cloths side by side")
            twice.add_class("stage-pair")
            twice.on_click(lambda _, name=name: self.show(name, twice=True))
            buttons.append(widgets.HBox([button, twice]))
        head = widgets.HTML(
            "<h1>The stage</h1><p><b>Space bar:</b> play. <b>Arrow keys:</b> one step. <b>Escape:</b> "
            "back to this list.</p>"
        )
        contents = widgets.VBox([head, *buttons, in_force().controls])
        contents.add_class("stage-list")
        return contents

    def _repr_mimebundle_(self, **kwargs: Any) -> dict[str, Any]:
        return dict(self.widget._repr_mimebundle_(**kwargs))


def stage(query: str | None = None) -> Stage:
    """The panel that the page's address asks for, such as ``"panel=corner"``, on the stage, in large type."""
    asked = parse_qs(os.environ.get("QUERY_STRING", "") if query is None else query)
    name = asked.get("panel", [""])[0]
    in_force().hold("type", "projector")
    return Stage(name if name in ACTS else "")
