"""My piece: what a reader works herself, entered once, and all that follows from it.

Nothing is worked out here: the boxes make a `Piece` and a `Kit`, and what they say is shown.
"""

from __future__ import annotations

import html
from collections.abc import Mapping
from typing import Any

import ipywidgets as widgets

from hemcalc.corner.mitre import CORNER_KINDS
from hemcalc.measure.errors import HemError
from hemcalc.measure.units import UNITS
from hemcalc.panels.fields import (
    Field,
    Said,
    button,
    chosen,
    form,
    full_path,
    names_here,
    row,
    ticked,
    written,
)
from hemcalc.panels.in_hand import MY_FILE, piece_in_hand, take_in_hand
from hemcalc.panels.mine_plan import OWN_UNIT, RAW, STITCHES, THREADS, WASHED, MinePlan, plan_mine, values_of
from hemcalc.panels.page import OnPage
from hemcalc.panels.settings import SETTINGS, in_force
from hemcalc.paper.workshop import kit_pages
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.kept import load_piece, save_piece
from hemcalc.piece.piece import THROUGH, Piece
from hemcalc.piece.sides import SIDES
from hemcalc.stitch.groups import HANDS

#: Inputs by the name that errors have for them, where a box is called otherwise.
_BOXES = {
    "warp": "across",
    "weft": "down",
    "count": "across",
    "shrink_warp": "length loses",
    "shrink_weft": "width loses",
    "washed": "cloth",
    "stitches": "design across",
    "design": "design across",
    "learner": "name",
    "kind": "called",
}


class MyPiece(OnPage):
    """The form: boxes, what follows from them, and buttons to keep, open and print. Made by `my_piece`."""

    def __init__(self) -> None:
        self.plan: MinePlan | None = None
        self._holding = True
        self._more = ("turn", "handling", "allowance", "eye", "through", "thickness")
        self.fields = {field.name: field for field in _fields()}
        for field in self.fields.values():
            field.widget.observe(lambda _: self._changed(), "value")
        self.result = widgets.HTML(
            layout=widgets.Layout(flex="1 1 380px", align_self="flex-start", margin="0 0 0 12px")
        )
        self.said = Said("Nothing is kept until you keep it.")
        self.file = widgets.Combobox(
            value=MY_FILE, options=names_here("*.json"), description="file", ensure_option=False
        )
        self.paper = widgets.Dropdown(options=["A4", "Letter"], description="paper")
        self.replace = widgets.Checkbox(False, description="write over it, if it is there", indent=False)
        more = widgets.Accordion(
            [widgets.VBox([self.fields[name].row for name in self._more])], titles=["More"]
        )
        buttons = row(
            self.file,
            button("Keep", self.keep, "keep the piece in this file"),
            button("Open", self.open, "open the piece that this file keeps"),
            self.replace,
            self.paper,
            button("Print sheet and cards", self.print, "make a PDF beside the file"),
        )
        plain = [field.row for name, field in self.fields.items() if name not in self._more]
        # What is filled in beside what follows from it, or over it where there is no room.
        filled_in = widgets.VBox(
            [*plain, more],
            layout=widgets.Layout(flex="1 1 435px", max_width="calc(49 * var(--hemcalc-type, 13px))"),
        )
        self.widget = form([row(filled_in, self.result), buttons, row(self.said.widget), in_force().drawer()])
        piece = piece_in_hand()
        self._mine = piece is not None
        self._fill(piece or EXAMPLES["bread cloth"])
        self._holding = False
        in_force().follow(self._show)
        self._show()

    @property
    def values(self) -> dict[str, Any]:
        """What every box says; of what is set for every page, what is set."""
        chosen = in_force().chosen
        return {name: chosen.get(name, field.value) for name, field in self.fields.items()}

    @property
    def sentences(self) -> dict[str, str]:
        """What is said to be wrong, by box."""
        return {name: field.beside.text for name, field in self.fields.items() if field.beside.wrong}

    def fill(self, values: Mapping[str, Any]) -> None:
        """Put these into the boxes, as if they were typed, and look at them once."""
        self._holding = True
        for name, value in values.items():
            self.fields[name].widget.value = value
        self._holding = False
        self._changed()

    def keep(self) -> None:
        """Keep the piece in the file that is named."""
        self.said.answer(self._keep)

    def open(self) -> None:
        """Open the piece that the file keeps."""
        self.said.answer(self._open)

    def print(self) -> None:
        """Make a PDF of its sheet and cards, beside the file that is named."""
        self.said.say("Making the pages…")
        self.said.answer(self._print)

    def _keep(self) -> str:
        plan = self._good()
        save_piece(plan.kit.piece, self.file.value.strip(), replace=self.replace.value)
        self._done()
        return f"Kept in {full_path(self.file.value.strip())}."

    def _open(self) -> str:
        piece = load_piece(self.file.value.strip())
        self.fill(values_of(piece))
        return f"Opened {full_path(self.file.value.strip())}."

    def _print(self) -> str:
        plan = self._good()
        leaflet = kit_pages(plan.kit, unit=plan.unit, paper=self.paper.value)
        path = f"{self.file.value.strip().removesuffix('.json') or 'my_piece'}.pdf"
        leaflet.save(path, replace=self.replace.value, greys=in_force().greys)
        self._done()
        return f"{len(leaflet.pages)} pages are in {full_path(path)}. Print them at 100 %."

    def _done(self) -> None:
        """What was ticked held for once; and the list of files has one more."""
        self.replace.value = False
        self.file.options = names_here("*.json")

    def _good(self) -> MinePlan:
        if self.plan is None or self.sentences:
            raise HemError("There is no good piece to keep yet; see the ✗ beside a box above.")
        return self.plan

    def _fill(self, piece: Piece) -> None:
        for name, value in values_of(piece).items():
            self.fields[name].widget.value = value

    def _changed(self) -> None:
        if not self._holding:
            self._mine = True
            self._show()
            if self.plan and not self.sentences:
                take_in_hand(self.plan.kit.piece)

    def _show(self) -> None:
        values = self.values
        for side in SIDES:
            self.fields[f"clear {side}"].show(values["sides differ"])
        self.fields["clear"].show(not values["sides differ"])
        self.fields["over"].show(values["design is"] == STITCHES)
        for name in SETTINGS.keys() & self.fields.keys():
            self.fields[name].show(name not in in_force().chosen)
        for field in self.fields.values():
            field.beside.say("")
        try:
            self.plan = plan_mine(values)
        except HemError as error:
            self._refuse(error)
            return
        note = "" if self._mine else "<p><i>An invented example: write your own over it.</i></p>"
        self.result.value = f'<div role="status">{note}{self.plan.html()}</div>'

    def _refuse(self, error: HemError) -> None:
        about = _BOXES.get(error.about, error.about)
        field = self.fields.get(about, self.fields["across"])
        if about == "clear" and self.values["sides differ"]:
            field = self.fields["clear left"]
        field.beside.say(str(error), wrong=True)
        label = html.escape(field.widget.description)
        self.result.value = f"<p role='status'>No numbers yet: see the ✗ beside “{label}”.</p>"

    def in_words(self) -> str:
        """What follows from what is filled in."""
        return self.plan.text() if self.plan else ""

    def in_html(self) -> str:
        """The same for a page."""
        return self.plan.html() if self.plan else ""


def my_piece() -> MyPiece:
    """The form for a piece of one's own, ready to be shown in a notebook.

    Examples
    --------
    >>> form = my_piece()
    >>> form.fill({"across": "28/in", "down": "", "hem": "12", "sides differ": False, "clear": "8"})
    >>> form.plan.kit.piece
    Piece(230 × 188 threads on 28/in, hem 12 threads)
    >>> form.fill({"hem": "wide"})
    >>> list(form.sentences)
    ['hem']
    >>> take_in_hand(None)
    """
    return MyPiece()


def _fields() -> list[Field]:
    return [
        written("across", "count across", "28/in or 11/cm; or readings: 112, 113 over 4 in"),
        written("down", "count down", "down the cloth; empty if it is as across"),
        chosen(
            "cloth",
            "cloth in hand",
            (WASHED, RAW),
            "when you counted; if not washed, say what it loses",
        ),
        written("length loses", "length loses", "in the first wash, such as 8 %; empty for nothing"),
        written("width loses", "width loses", "in the first wash, such as 3 %; empty for nothing"),
        chosen("design is", "design given", (THREADS, STITCHES), "a chart counts stitches"),
        written("over", "stitch over", "threads that each stitch goes over", "2"),
        written("design across", "design across", "how many, from left to right"),
        written("design down", "design down", "how many, from top to bottom"),
        written("hem", "hem", "a width, 3/8 in or 1 cm; or threads, 11"),
        ticked("sides differ", "sides differ", "tick it where the clear bands are unlike"),
        written("clear", "clear, threads", "plain cloth between design and open line"),
        *(
            written(f"clear {side}", f"clear, {side}", "threads of plain cloth on this side")
            for side in SIDES
        ),
        written("drawn", "drawn, threads", "drawn out on each side; the books draw 2 to 10"),
        written("group", "group, threads", "threads to a stitch, 2 to 6", "4"),
        chosen("corner", "corner", CORNER_KINDS, "how the corners are made"),
        chosen("hand", "hand", HANDS, "the hand that holds the needle"),
        chosen("unit", "unit", (OWN_UNIT, *UNITS), "in which lengths are said"),
        written("name", "your name", "for the sheet", "My name"),
        written("called", "piece called", "for the sheet", "my piece"),
        written("turn", "turn", "threads or a length; half the hem if empty"),
        written("handling", "handling", "threads or a length that fingers or a hoop need beyond the cut"),
        written("allowance", "allowance", "left at the corner, such as 1/4 in; the usual if empty"),
        written("eye", "needle's eye", "thread that the eye holds and that is not darned"),
        chosen("through", "needle catches", THROUGH, "of the hem"),
        written("thickness", "cloth, thickness", "of one layer, such as 0.4 mm; empty if you don't know"),
    ]
