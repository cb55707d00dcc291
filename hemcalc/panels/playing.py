"""A panel on the stage: its picture, its bar and drawer, and the pictures of what it plays, made ahead.

What is played (a fold, a step) is drawn ahead: every picture of it is sent to the page as soon as it is
made, so that a key press shows one that is ready. The page holds the pictures and the keys
(`launch/page`); what they show is planned and drawn here, as in a notebook.
"""

from __future__ import annotations

import asyncio
import re
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

import ipywidgets as widgets

from hemcalc.measure.errors import HemError
from hemcalc.panels.corner import corner_panel
from hemcalc.panels.margin import margin_panel
from hemcalc.panels.panel import Panel
from hemcalc.panels.settings import SETTINGS, in_force
from hemcalc.panels.side_by_side import side_by_side
from hemcalc.panels.spacing import spacing_panel
from hemcalc.panels.stitch import stitch_panel
from hemcalc.panels.weave import weave_panel

_FOLDS = 20  # pictures from flat to folded, but for the first
_FOLD_BEAT, _STEP_BEAT = 120, 900  # ms from one picture that plays to the next
_REST = 0.3  # s without a move before the pictures of what was moved to are made
_DOTS = (50, 300)  # to the inch, of the smallest and the largest window


@dataclass(frozen=True)
class Act:
    """How a panel is shown: what makes it, what its keys move, and what else is under the picture."""

    panel: Callable[[], Panel]
    plays: str
    beside: tuple[str, ...]
    #: Whether it begins with the first picture of what plays, whatever the example has.
    begins: bool = True


#: What can be shown, by name, in the order of the notebooks.
ACTS = {
    "margin": Act(margin_panel, "fold", ("hem", "hem threads", "clear")),
    "corner": Act(corner_panel, "fold", ("hem", "hem across", "hem down")),
    "weave": Act(weave_panel, "step", ("drawn",)),
    "stitch": Act(stitch_panel, "step", ("group", "depth")),
    "spacing": Act(spacing_panel, "group", ("design", "clear right"), begins=False),
}


class Playing:
    """A panel on the stage, and the pictures of what it plays.

    Attributes
    ----------
    panel : Panel
        The panel that is shown.
    run : int
        Goes up whenever other pictures are wanted; those of an older run are no use.
    """

    #: Whether its pictures are made ahead.
    makes_ahead = True

    def __init__(self, act: Act) -> None:
        self.act = act
        self.panel = self._panel()
        if act.begins:
            self.go(0)
        self.run = 0
        self._key: object = None
        self._dots = 0.0  # to the inch, once the page has said its size
        self._making: asyncio.Task[None] | None = None
        self.mind = widgets.HTML()
        self.mind.add_class("stage-mind")
        self.place = widgets.HTML()
        self.place.add_class("stage-place")
        self.ahead = widgets.HTML()
        self.ahead.add_class("stage-ahead")
        self.widget = self._layout()
        self.panel.picture.observe(lambda _: self._drawn(), "value")
        self.panel.caution.observe(lambda _: self._say_what_to_mind(), "value")
        self._drawn()
        self._say_what_to_mind()

    @property
    def values(self) -> tuple[Any, ...]:
        """What the played control passes through, in order."""
        slider = self.panel.controls[self.act.plays].widget
        if isinstance(slider.value, float):
            return tuple(n / _FOLDS for n in range(_FOLDS + 1))
        return tuple(range(slider.min, slider.max + 1))

    @property
    def at(self) -> int:
        """Which of the values is nearest to what is shown."""
        said, values = self.panel.controls[self.act.plays].value, self.values
        return min(range(len(values)), key=lambda i: abs(values[i] - said))

    def go(self, at: int) -> None:
        """Show the picture of this value: all that follows it is as if the slider had been moved."""
        values = self.values
        self.panel.controls[self.act.plays].widget.value = values[min(at, len(values) - 1)]

    def resize(self, width: int, height: int) -> None:
        """Draw for a page whose picture has so many dots; it has no pictures made ahead yet, or no more."""
        self._key = None
        across, up = self.panel.view.sheet.figure.get_size_inches()
        self._dots = min(max(min(width / across, height / up), _DOTS[0]), _DOTS[1])
        for panel in self._panels:
            if self._dots != panel.view.sheet.figure.dpi:
                panel.view.sheet.set_dpi(self._dots)
                panel.redraw()
        self._drawn()

    def frame(self, at: int) -> str:
        """The picture of a value as HTML, without moving anything."""
        return self.panel.draw(self.panel.values | {self.act.plays: self.values[at]}).html

    def _drawn(self) -> None:
        """Say to the page where the panel stands; have other pictures made where other ones are wanted."""
        values = self.panel.values
        values.pop(self.act.plays)
        key = values, self.values, self._dots
        if key != self._key:
            self._key = key
            self.run += 1
            self._make_ahead()
        beat = _FOLD_BEAT if isinstance(self.values[0], float) else _STEP_BEAT
        said = {"run": self.run, "at": self.at, "of": len(self.values), "beat": beat}
        said["ahead"] = int(self.makes_ahead)
        self.place.value = f"<i {' '.join(f'data-{name}={number}' for name, number in said.items())}></i>"

    def _say_what_to_mind(self) -> None:
        found = re.search("<b>(.*?)</b>", self.panel.caution.value)
        said = f"<b>⚠ {found[1]}</b> The caution stands in full under <i>More</i>." if found else ""
        self.mind.value = said

    def _make_ahead(self) -> None:
        if self._making is not None:
            self._making.cancel()
            self._making = None
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:  # no page can be waiting for it
            return
        if self.makes_ahead and not self.panel.sentences:
            self._making = loop.create_task(self._make())

    async def _make(self) -> None:
        """Make every picture, the next ones first, with room for what is asked meanwhile."""
        await asyncio.sleep(_REST if self.run > 1 else 0)
        first, end = self.at, len(self.values)
        for at in (*range(first, end), *range(first)):
            with suppress(HemError):  # a step that can't be drawn is said when she comes to it
                self.ahead.value = f'<i data-run="{self.run}" data-at="{at}">{self.frame(at)}</i>'
            await asyncio.sleep(0.01)

    def _panel(self) -> Panel:
        return self.act.panel()

    @property
    def _panels(self) -> tuple[Panel, ...]:
        return (self.panel,)

    def _bar(self, *more: Any) -> Any:
        """What is under the picture: the button that plays, and the sliders."""
        play = widgets.Button(description="▶", tooltip="Play: the space bar")
        play.add_class("stage-play")
        rows = [self.panel.controls[name].row for name in (self.act.plays, *self.act.beside)]
        for row in rows:
            row.add_class("stage-slider")
        self.panel.controls[self.act.plays].widget.add_class("stage-played")
        bar = widgets.HBox([play, *rows, *more])
        bar.add_class("stage-bar")
        return bar

    def _layout(self) -> Any:
        """The picture; under it the played slider and those beside it; the rest in a drawer."""
        panel = self.panel
        panel.picture.layout = panel.words.layout = widgets.Layout()
        panel.picture.add_class("stage-picture")
        return self._over(panel.picture, [panel.menu, *self._rest(panel)], [panel.words, panel.lines])

    def _rest(self, panel: Panel) -> list[Any]:
        """What of a panel moves and isn't under the picture."""
        under = {self.act.plays, *self.act.beside, *SETTINGS}
        return [panel.back, *(c.row for name, c in panel.controls.items() if name not in under)]

    def _over(self, shown: Any, rest: list[Any], words: list[Any]) -> Any:
        """What is shown over its bar, and the drawer with what else moves, the settings and the words."""
        more = widgets.ToggleButton(description="More", tooltip="Every control, and the picture in words")
        more.add_class("stage-more")
        self.panel.caution.layout = widgets.Layout()
        drawer = widgets.VBox([*rest, in_force().controls, self.panel.caution, *words])
        drawer.add_class("stage-drawer")
        drawer.layout.display = "none"
        more.observe(lambda change: _show(drawer, change["new"]), "value")
        whole = widgets.VBox([shown, self.mind, self._bar(more), drawer, self.place, self.ahead])
        if self.panel.caution in self.panel.widget.children:
            whole.add_class("stage-minded")
        return whole


class Pair(Playing):
    """Two cloths side by side, whose sliders move together."""

    makes_ahead = False

    def _panel(self) -> Panel:
        self.two = side_by_side(self.act.panel, linked=(self.act.plays, *self.act.beside))
        return self.two.panels[0]

    @property
    def _panels(self) -> tuple[Panel, ...]:
        return self.two.panels

    def _layout(self) -> Any:
        """Each picture under the choice of its example, and over its words; the rest in the drawer."""
        columns, rest = [], []
        for panel, which in zip(self.two.panels, ("left", "right"), strict=True):
            panel.picture.layout = panel.words.layout = widgets.Layout()
            panel.picture.add_class("stage-picture")
            top = widgets.HBox([panel.menu, self.two.scale])
            columns.append(widgets.VBox([top, panel.picture, panel.words]))
            rest += [widgets.HTML(f"<b>The {which} cloth</b>"), *self._rest(panel)]
        pictures = widgets.HBox(columns)
        pictures.add_class("stage-two")
        return self._over(pictures, rest, [])


def _show(part: Any, shown: bool) -> None:
    part.layout.display = "flex" if shown else "none"
