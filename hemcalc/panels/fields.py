"""Fields of a form: a box to write in or a list to choose from, with a hint or what is wrong beside it."""

from __future__ import annotations

import html
import os
import webbrowser
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from hemcalc.launch.stage import running
from hemcalc.measure.errors import HemError

_WIDE = {"description_width": "calc(8.6 * var(--hemcalc-type, 13px))"}
_STYLE = """<style>
@media (min-width: 1700px) { .hemcalc-form { --hemcalc-type: 16px; --hemcalc-small: 14px;
  --jp-widgets-font-size: 16px; --jp-widgets-inline-height: 32px } }
.hemcalc-form .widget-hbox { align-items: center }
.hemcalc-form .widget-checkbox input { align-self: center; margin-top: 0 }
.hemcalc-form img { max-width: 100%; height: auto }
.hemcalc-form .widget-html-content { font-size: var(--hemcalc-type, 13px); line-height: 1.3 }
</style>"""


class Said:
    """A line that says what was done or what is wrong, and is read out when it changes."""

    def __init__(self, hint: str = "") -> None:
        self.widget = widgets.HTML(layout=widgets.Layout(min_width="110px"))
        self.hint = hint
        self.text, self.wrong = "", False
        self.say("")

    def say(self, text: str, *, wrong: bool = False) -> None:
        """Say this, or the hint again."""
        self.text, self.wrong = text, wrong
        look = "color:#7a1f00;background:#fdeeea" if wrong else "color:#444"
        mark = "<b>✗</b> " if wrong else ""
        lines = "<br>".join(html.escape(line) for line in (text or self.hint).split("\n"))
        look += ";font-size:var(--hemcalc-small, 12px);line-height:1.2;padding:3px 6px;overflow-wrap:anywhere"
        # A hint stands beside its box; a sentence has the whole width below it.
        self.widget.layout.flex = "1 1 100%" if text else "1 1 110px"
        self.widget.value = f'<div role="status" style="{look}">{mark}{lines}</div>'

    def answer(self, do: Callable[[], str]) -> None:
        """Do something and say what came of it, or the one sentence of why it can't be done."""
        try:
            self.say(do())
        except HemError as error:
            self.say(str(error).replace("say replace=True", _TICK), wrong=True)


_TICK = "tick “write over it”"


class Field:
    """One input: its name in the plan and in errors, what is filled in, and what is said beside it."""

    def __init__(self, name: str, widget: Any, hint: str) -> None:
        self.name = name
        self.widget = widget
        self.beside = Said(hint)
        self.row = row(widget, self.beside.widget)

    @property
    def value(self) -> Any:
        """What is filled in or chosen; text without the spaces round it."""
        value = self.widget.value
        return value.strip() if isinstance(value, str) else value

    def show(self, shown: bool) -> None:
        """Show or hide the row."""
        self.row.layout.display = "flex" if shown else "none"

    @property
    def is_shown(self) -> bool:
        """Whether the reader can see it."""
        return bool(self.row.layout.display != "none")


def row(*parts: Any) -> Any:
    """Parts beside each other, and below each other where there is no room."""
    return widgets.HBox(list(parts), layout=widgets.Layout(flex_flow="row wrap", width="100%"))


def _layout() -> Any:
    return widgets.Layout(width="calc(23.8 * var(--hemcalc-type, 13px))")


def written(name: str, label: str, hint: str, value: str = "") -> Field:
    """A box to write in; it is read when it is left, or at Enter."""
    box = widgets.Text(value=value, description=label, continuous_update=False, style=_WIDE, layout=_layout())
    return Field(name, box, hint)


def chosen(name: str, label: str, options: Sequence[str], hint: str) -> Field:
    """A list to choose from."""
    return Field(
        name, widgets.Dropdown(options=list(options), description=label, style=_WIDE, layout=_layout()), hint
    )


def ticked(name: str, label: str, hint: str) -> Field:
    """A box to tick."""
    return Field(name, widgets.Checkbox(False, description=label, style=_WIDE, layout=_layout()), hint)


def button(label: str, do: Callable[[], object], tip: str = "") -> Any:
    """A button that does something."""
    made = widgets.Button(description=label, tooltip=tip or label, layout=widgets.Layout(width="auto"))
    made.on_click(lambda _: do())
    return made


def names_here(pattern: str) -> list[str]:
    """Files of this folder, to be opened by a person who doesn't remember how she called hers."""
    return sorted(path.name for path in Path().glob(pattern) if path.is_file())


def full_path(path: str | os.PathLike[str]) -> str:
    """Where a file is, all of it, since a reader may look for it from elsewhere."""
    return str(Path(path).resolve())


def form(parts: Iterable[Any]) -> Any:
    """Parts below each other, as wide as the page."""
    made = widgets.VBox(
        [widgets.HTML(_STYLE, layout=widgets.Layout(height="0", margin="0")), *parts],
        layout=widgets.Layout(width="100%", max_width="calc(115 * var(--hemcalc-type, 13px))"),
    )
    return made.add_class("hemcalc-form")


def to_stage(name: str) -> Any:
    """A button that opens this panel on the stage or, where none runs, says how it is started."""
    said = widgets.HTML()

    def press() -> None:
        page = running(name)
        if page is not None:
            webbrowser.open(page.as_uri())
            said.value = "The stage is open in another tab of your browser."
        else:
            command = html.escape(f"python3 -m hemcalc stage {name}")
            said.value = (
                "For a wall or a hall, leave this one running, open a second terminal in the project's "
                f"folder and type <code>{command}</code>"
            )

    return widgets.HBox([button("On the stage", press), said])
