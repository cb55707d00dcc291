"""My piece: what a reader works herself, entered once, and all that follows from it.

Nothing is worked out here: the boxes make a `Piece` and a `Kit`, and what they say is shown.
"""

from __future__ import annotations

import html
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import ipywidgets as widgets

from hemcalc.corner.mitre import CORNERS
from hemcalc.finish import Hours, hours
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.html import table_html
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
from hemcalc.paper.cards import kit_cards
from hemcalc.paper.leaflet import bind
from hemcalc.paper.numbers import edge_rows, groups_said, notes_of
from hemcalc.paper.sheet import learner_sheet
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.kept import load_piece, save_piece
from hemcalc.piece.piece import THROUGH, Piece
from hemcalc.piece.sides import SIDES, Sides
from hemcalc.piece.typed import read_count, read_size, typed_count, typed_length, typed_share, typed_size
from hemcalc.stitch.groups import HANDS
from hemcalc.workshop.kit import Kit

__all__ = ["MinePlan", "MyPiece", "my_piece", "plan_mine", "values_of"]

THREADS, STITCHES = "in threads", "in stitches"
RAW, WASHED = "not washed yet", "washed"
OWN_UNIT = "as it was counted"
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


@dataclass(frozen=True, slots=True)
class MinePlan:
    """What the panel shows."""

    kit: Kit
    time: Hours
    unit: str

    def text(self) -> str:
        """The piece in words: cloth, edge, groups, thread and time."""
        piece, unit = self.kit.piece, self.unit
        lines = [
            f"Cloth: {self.kit.cloth_text(unit)}; {piece.finished_size.text(unit)}.",
            *(f"{cells[0].capitalize()}: {self._cells(cells)}." for cells in edge_rows(piece, unit)[1:]),
            *self.below(),
        ]
        return "\n".join(lines)

    def _cells(self, cells: list[str]) -> str:
        names = edge_rows(self.kit.piece, self.unit)[0][1:]
        return "; ".join(
            f"{cell} ({name})" if len(names) > 1 else cell
            for name, cell in zip(names, cells[1:], strict=True)
        )

    def below(self) -> list[str]:
        """What stands below the table: groups, thread, time, and what to know."""
        thread = [use.text() for use in self.kit.uses]
        return [
            *groups_said(self.kit),
            f"Thread: {'; '.join(thread)}.",
            f"Time: {self.time.text()}",
            *notes_of(self.kit.piece),
        ]

    def html(self) -> str:
        """The same, its edge as a table."""
        unit = self.unit
        head, *rows = edge_rows(self.kit.piece, unit)
        size = self.kit.cloth_text(unit)
        lines = [f"<p><b>{html.escape(size[:1].upper() + size[1:])}</b><br>"]
        lines.append(f"{html.escape(self.kit.piece.finished_size.text(unit))}</p>")
        lines.append(table_html(head, rows, "The edge, side by side"))
        lines += [f"<p>{html.escape(line)}</p>" for line in self.below()]
        return "".join(lines)


def plan_mine(values: Mapping[str, Any]) -> MinePlan:
    """The kit that the boxes' values ask for.

    Raises
    ------
    HemError
        About the box that asks what is not possible.
    """
    across = read_count(values["across"], "across")
    fabric = Fabric(
        across,
        read_count(values["down"], "down") if values["down"] else across,
        values["thickness"] or None,
        values["length loses"] or 0,
        values["width loses"] or 0,
        values["cloth"] == WASHED,
    )
    over = 1 if values["design is"] == THREADS else _whole(values, "over")
    clear = [_whole(values, f"clear {side}" if values["sides differ"] else "clear") for side in SIDES]
    hem = read_size(values["hem"])
    sizes = {name: read_size(values[name]) if values[name] else None for name in ("turn", "allowance")}
    piece = Piece.from_stitches(
        fabric,
        (_whole(values, "design across"), _whole(values, "design down")),
        over,
        hem=hem,
        same="threads" if isinstance(hem, int) else "width",
        clear=Sides(*clear),
        drawn=_whole(values, "drawn"),
        handling=read_size(values["handling"] or "0"),
        corner=values["corner"],
        eye=values["eye"] or "1 cm",
        through=values["through"],
        **sizes,
    )
    kit = Kit(values["name"], piece, values["called"], hand=values["hand"], group=_whole(values, "group"))
    unit = fabric.warp.unit_or(None if values["unit"] == OWN_UNIT else values["unit"])
    return MinePlan(kit, hours(piece, group=kit.group), unit)


def _whole(values: Mapping[str, Any], name: str) -> int:
    text = values[name]
    if not (text.isascii() and text.isdecimal() and len(text) < 7):
        raise HemError(f"{name} is {shown(text)}, but must be a whole number; for example 7.", name)
    return int(text)


def values_of(piece: Piece) -> dict[str, Any]:
    """What the boxes say of a piece; whoever works it is not in it."""
    cloth, clear = piece.fabric, piece.clear
    return {
        "across": typed_count(cloth.warp),
        "down": "" if cloth.weft == cloth.warp else typed_count(cloth.weft),
        "cloth": WASHED if cloth.washed else RAW,
        "length loses": typed_share(cloth.shrink_warp),
        "width loses": typed_share(cloth.shrink_weft),
        "thickness": "" if cloth.thickness is None else typed_length(cloth.thickness),
        "design is": THREADS,
        "over": "2",
        "design across": str(piece.design[0]),
        "design down": str(piece.design[1]),
        "sides differ": len(set(clear)) > 1,
        "clear": str(clear.left),
        **{f"clear {side}": str(threads) for side, threads in zip(SIDES, clear, strict=True)},
        "drawn": str(piece.drawn),
        "corner": piece.corner,
        "through": piece.through,
        **{
            name: typed_size(getattr(piece, name)) for name in ("hem", "turn", "handling", "allowance", "eye")
        },
    }


class MyPiece:
    """The form: boxes, what follows from them, and buttons to keep, open and print. Made by `my_piece`."""

    def __init__(self) -> None:
        self.plan: MinePlan | None = None
        self._holding = True
        self._more = ("turn", "handling", "allowance", "eye", "through", "thickness")
        self.fields = {field.name: field for field in _fields()}
        for field in self.fields.values():
            field.widget.observe(lambda _: self._changed(), "value")
        self.result = widgets.HTML(layout=widgets.Layout(flex="1 1 460px", margin="0 0 0 12px"))
        self.said = Said("Nothing is kept until you keep it.")
        self.file = widgets.Combobox(
            value=MY_FILE, options=names_here("*.json"), description="file", ensure_option=False
        )
        self.paper = widgets.Dropdown(options=["A4", "Letter"], description="paper")
        self.replace = widgets.Checkbox(False, description="write over it, if it is there", indent=False)
        more = widgets.Accordion([form(self.fields[name].row for name in self._more)], titles=["More"])
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
        filled_in = widgets.VBox([*plain, more], layout=widgets.Layout(flex="1 1 500px", max_width="640px"))
        self.widget = form([row(filled_in, self.result), buttons, row(self.said.widget)])
        piece = piece_in_hand()
        self._mine = piece is not None
        self._fill(piece or EXAMPLES["bread cloth"])
        self._holding = False
        self._show()

    @property
    def values(self) -> dict[str, Any]:
        """What every box says."""
        return {name: field.value for name, field in self.fields.items()}

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
        kit, asked = plan.kit, {"unit": plan.unit, "paper": self.paper.value}
        leaflet = bind(f"{kit.learner}: {kit.kind}", [learner_sheet(kit, **asked), kit_cards(kit, **asked)])
        path = f"{self.file.value.strip().removesuffix('.json') or 'my_piece'}.pdf"
        leaflet.save(path, replace=self.replace.value)
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

    def _show(self) -> None:
        values = self.values
        for side in SIDES:
            self.fields[f"clear {side}"].show(values["sides differ"])
        self.fields["clear"].show(not values["sides differ"])
        self.fields["over"].show(values["design is"] == STITCHES)
        for field in self.fields.values():
            field.beside.say("")
        try:
            self.plan = plan_mine(values)
        except HemError as error:
            self._refuse(error)
            return
        note = "" if self._mine else "<p><i>An invented example: write your own over it.</i></p>"
        self.result.value = (
            f'<div role="status" style="line-height:1.3;font-size:13px">{note}{self.plan.html()}</div>'
        )
        if self._mine:
            take_in_hand(self.plan.kit.piece)

    def _refuse(self, error: HemError) -> None:
        about = _BOXES.get(error.about, error.about)
        field = self.fields.get(about, self.fields["across"])
        if about == "clear" and self.values["sides differ"]:
            field = self.fields["clear left"]
        field.beside.say(str(error), wrong=True)
        label = html.escape(field.widget.description)
        self.result.value = f"<p role='status'>No numbers yet: see the ✗ beside “{label}”.</p>"

    def _repr_mimebundle_(self, **kwargs: Any) -> dict[str, Any]:
        """The form, and what it says to begin with for where no widget runs."""
        bundle: dict[str, Any] = dict(self.widget._repr_mimebundle_(**kwargs))
        text, shown_there = (self.plan.text(), self.plan.html()) if self.plan else ("", "")
        return bundle | {"text/plain": text, "text/html": shown_there}


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
        chosen("corner", "corner", CORNERS, "how the corners are made"),
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
