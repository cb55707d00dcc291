"""A panel: controls, a plan made from what they say, and one picture that follows them.

The three know nothing of each other's insides. The plan is a plain function from values to a
result, or a `HemError`; the view is made once and updated. A bad combination puts its one
sentence beside the control that was moved, where her eye is, and in place of the numbers; the
last good picture is kept, marked as such.
"""

from __future__ import annotations

import html
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import partial
from typing import Any

import ipywidgets as widgets
from ipywidgets import Layout

from hemcalc.draw.look import type_size
from hemcalc.measure.cautions import caution_for, mind
from hemcalc.measure.errors import HemError, one_of
from hemcalc.panels.ahead import Ahead, Drawn, View, drawn_by, next_places
from hemcalc.panels.controls import Control
from hemcalc.panels.fields import to_stage
from hemcalc.panels.in_hand import MINE, offered, put_near, whenever_taken
from hemcalc.panels.page import (
    PICTURE_WIDE,
    PROJECTOR,
    ROOT,
    STILL_ASLEEP,
    OnPage,
    asleep,
    classed,
    close_widgets,
    picture_wide,
    spoken,
)
from hemcalc.panels.settings import SETTINGS, in_force
from hemcalc.piece.piece import Piece


class Panel(OnPage):
    """Controls over a picture. What is set for every panel (`SETTINGS`) has no control of its own here.

    `plan` makes a result of the controls' values, by their names, or raises a HemError, and `view` draws
    it; the first of the `examples` is shown to begin with. `adapt` is called with the controls before
    anything is drawn, to show or hide some or to change what they offer, as the others ask. Of a result,
    `told` gives lines that are listed below the words, in a box that scrolls, and `mind` what is to be
    minded when it is done on cloth; the caution for it stands below the words in full. `from_piece` gives
    the values of the piece in hand, which is then the first of the examples. `stage` is what it is called
    on the stage, if it can be shown there; `narrow` makes the view that draws the same for a phone, in
    fewer inches.
    """

    def __init__(
        self,
        controls: Sequence[Control],
        plan: Callable[[Mapping[str, Any]], Any],
        view: View,
        examples: Mapping[str, Mapping[str, Any]],
        adapt: Callable[[Mapping[str, Control]], None] | None = None,
        told: Callable[[Any], Sequence[str]] | None = None,
        mind: Callable[[Any], Sequence[str]] | None = None,
        from_piece: Callable[[Piece], Mapping[str, Any]] | None = None,
        stage: str = "",
        narrow: Callable[[], View] | None = None,
    ) -> None:
        self.controls = {control.name: control for control in controls}
        self.plan = plan
        self._view, self._in_view = view, None
        self.narrow = narrow
        self._ahead = Ahead(self.draw)
        self.drawn = Drawn()
        self._invented, self._from_piece = examples, from_piece
        self.examples = offered(examples, from_piece)
        self._told = told
        self._mind = mind
        self._adapt = adapt or (lambda controls: None)
        self._holding = False
        width, height = view.sheet.figure.get_size_inches()
        self.picture = classed(
            widgets.HTML(
                layout=Layout(flex=f"100 1 {PICTURE_WIDE}px", max_width=picture_wide(width, height))
            ),
            "hemcalc-picture",
        )
        self.menu = classed(
            widgets.Dropdown(options=list(self.examples), description="example"), "hemcalc-control"
        )
        self.back = widgets.Button(description="Back to the example", layout=Layout(width="auto"))
        self.back.on_click(lambda _: self.reset(self.menu.value))
        self.menu.observe(self._chosen, "value")
        for control in controls:
            control.moved = partial(self._moved, control.name)
            if control.name in SETTINGS:  # nor is anything said beside it
                control.show(False)
        self.settings = in_force()
        self.follow()
        #: What the panel had to change about the piece in hand.
        self.near = classed(widgets.HTML(), "hemcalc-words")
        top = classed(
            widgets.Box([self.menu, self.back, *([to_stage(stage)] if stage else []), self.near]),
            "hemcalc-row",
            "hemcalc-top",
        )
        rows = [top, *(control.row for control in controls if control.name not in SETTINGS)]
        self.side = classed(widgets.Box(rows), "hemcalc-controls")
        body = classed(widgets.Box([self.picture, self.side]), "hemcalc-body")
        self.words = classed(widgets.HTML(), "hemcalc-words")
        self.caution = classed(widgets.HTML(), "hemcalc-caution")
        self.lines = classed(widgets.HTML(), "hemcalc-lines")
        self.drawer = self.settings.drawer()
        below = [self.caution] if mind else []
        below += [self.lines] if told else []
        self.widget = classed(widgets.VBox([spoken(), asleep(), body, self.words, *below, self.drawer]), ROOT)
        self.reset(next(iter(examples)))
        if MINE in self.examples:  # after one that can be drawn for sure
            self.reset(MINE)

    @property
    def values(self) -> dict[str, Any]:
        """What every control says."""
        return {name: control.value for name, control in self.controls.items()}

    @property
    def result(self) -> Any:
        """What is shown; None as long as nothing could be."""
        return self.drawn.result

    @property
    def sentences(self) -> dict[str, str]:
        """What is said to be wrong, by control; empty if the picture is good."""
        return {name: control.sentence for name, control in self.controls.items() if control.sentence}

    def reset(self, name: str) -> None:
        """Put the controls as an example has them."""
        values = self.examples[one_of(name, tuple(self.examples), "example")]
        with self.holding():
            self.menu.value = name
            # In the order given: the unit comes first, since it changes what others offer.
            unlike = [put_near(self.controls[control].widget, value) for control, value in values.items()]
            self._adapt(self.controls)
            self._set()
        said = ", ".join(filter(None, unlike))
        self.near.value = said and html.escape(f"Shown as near as this panel can: {said}.")

    def follow(self) -> None:
        """Follow what is set and what is taken in hand, from now on."""
        self.settings.follow(self._follow)
        whenever_taken(self._offer_mine)

    def _offer_mine(self) -> None:
        """Another piece was taken in hand: offer it, and follow where it is shown."""
        self._ahead.forget()  # what was drawn of the piece before
        self.examples = offered(self._invented, self._from_piece)
        before = self.menu.value
        chosen = before if before in self.examples else next(iter(self.examples))
        if tuple(self.menu.options) != tuple(self.examples):
            self.menu.unobserve(self._chosen, "value")  # the list goes by way of its first
            self.menu.options = list(self.examples)
            self.menu.value = chosen
            self.menu.observe(self._chosen, "value")
        if chosen == MINE or chosen != before:
            self.reset(chosen)

    def _chosen(self, change: Mapping[str, Any]) -> None:
        self.reset(change["new"])

    def _set(self) -> None:
        """Put the controls as the settings have them, or else the example."""
        for name in SETTINGS:
            if name in self.controls:
                menu = self.controls[name].widget
                said = self.settings.chosen.get(name, self.examples[self.menu.value][name])
                # Where there are no mm, cm are nearest.
                menu.value = said if said in menu.options else menu.options[-1]

    def _follow(self) -> None:
        with self.holding():
            self._set()

    @property
    def held(self) -> bool:
        """Whether several controls are being moved at once."""
        return self._holding

    @contextmanager
    def holding(self, moved: str = "") -> Iterator[None]:
        """Move several controls, or the one that is named, and draw once at the end."""
        already, self._holding = self._holding, True
        try:
            yield
        finally:
            self._holding = already
        if not already:
            self.redraw(moved)

    def _moved(self, name: str, change: Mapping[str, Any]) -> None:
        if self._holding:
            self._adapt(self.controls)
            return
        with self.holding(name):
            self._adapt(self.controls)
        slider, values = self.controls[name].widget, self.values
        self._ahead.want([values | {name: place} for place in next_places(slider, change["old"])])

    def draw(self, values: Mapping[str, Any]) -> Drawn:
        """Plan and draw what these values ask for, whatever the controls say and the page shows."""
        result = self.plan(values)
        self._in_view = result
        return drawn_by(self._view, result)

    @property
    def view(self) -> View:
        """The view, which shows the result."""
        if self._in_view is not self.result:
            self._in_view = self.result
            self._view.update(self.result)
        return self._view

    def redraw(self, moved: str = "") -> None:
        """Show what the controls say, the picture first; if more than one has moved, all is drawn anew."""
        if not moved:
            self._ahead.forget()
        before = self.sentences
        for control in self.controls.values():
            control.say("")
        self._use_type(self.settings["type"])
        try:
            self.drawn = self._ahead.drawn(self.values)
        except HemError as error:
            # Said already, it stays where it was said.
            said = next((name for name, sentence in before.items() if sentence == str(error)), "")
            self._refuse(error, said or moved)
            return
        self.picture.value = self.drawn.html
        self.words.value = _paragraph(self.drawn.words)
        if self._mind:
            tools = self._mind(self.result)
            said = f"<b>{mind(*tools)}.</b> {html.escape(caution_for(*tools))}" if tools else ""
            self.caution.value = said
        if self._told:
            lines = "<br>".join(html.escape(line) for line in self._told(self.result))
            self.lines.value = f'<div tabindex="0" role="region" aria-label="in words">{lines}</div>'

    def _use_type(self, name: str) -> None:
        """Set the picture's type, and that of everything round it."""
        self._view.sheet.set_type(type_size(name))
        (self.widget.add_class if name == "projector" else self.widget.remove_class)(PROJECTOR)

    def _refuse(self, error: HemError, beside: str) -> None:
        """Say it beside a control that is shown, and that the picture and its numbers are old ones."""
        shown = (name for name in (beside, error.about, *self.controls) if name in self.controls)
        about = next(name for name in shown if self.controls[name].is_shown)
        self.controls[about].say(str(error))
        self.words.value = _paragraph(f"No numbers for these settings: {error}")
        self.lines.value = ""
        picture = self.drawn.html_of(f"Not up to date: {self.drawn.words}")
        label = html.escape(self.controls[about].widget.description)
        self.picture.value = (
            f'<div class="hemcalc-old">{picture}</div><div class="hemcalc-note"><b>This is still the last '
            f"picture that could be drawn: see the ✗ at “{label}”.</b></div>"
        )

    def close(self) -> None:
        """Let go of widgets, picture and plan, once the page no longer shows them; its words are kept."""
        if not self.closed:
            self._ahead.forget()
            unseen = [control.row for name, control in self.controls.items() if name in SETTINGS]
            for part in (self.caution, self.lines, *unseen):  # of which a panel may not show all
                close_widgets(part)
        super().close()

    def in_words(self) -> str:
        """The picture in words, with its numbers."""
        return self.drawn.words

    def in_html(self) -> str:
        """The picture as a still."""
        return self.drawn.html + STILL_ASLEEP


def _paragraph(text: str) -> str:
    """What is read out by a screen reader when it changes."""
    return f'<div role="status">{html.escape(text)}</div>'
