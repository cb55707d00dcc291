"""The tables of a class as a form: a box for each cell, rows to add and to take out, and what is wrong."""

from __future__ import annotations

import html
from collections.abc import Callable, Iterable
from typing import Any

import ipywidgets as widgets
from ipywidgets.widgets.widget_description import DescriptionStyle
from ipywidgets.widgets.widget_string import HTMLStyle, TextStyle

from hemcalc.panels.fields import Said, button, form, row
from hemcalc.workshop.class_table import TABLES, Column, Line, Problem, Tables

_BAD = "hemcalc-bad-cell"
_TABLE, _FIRST = "hemcalc-table", "hemcalc-first"
STYLE = (
    f"<style>.{_BAD} :is(input, select) {{ background: #fdeeea !important; "
    "outline: 2px solid #7a1f00 } "
    f".{_TABLE} :is(input, button) {{ padding: 0 4px !important }}"
    # Where the window is narrower than a table its bar is seen, and a row's name stays in sight.
    f".{_TABLE}::-webkit-scrollbar {{ height: 14px; background: #e6e6e6 }}"
    f".{_TABLE}::-webkit-scrollbar-thumb {{ background: #767676; border: 3px solid #e6e6e6 }}"
    f".{_TABLE} > .{_FIRST} {{ position: sticky; left: 0; z-index: 1; background: #fff }}</style>"
)
_TITLES = {
    "class": "The class",
    "linen": "Linens",
    "goods": "Thread, needles and other goods",
    "piece": "Pieces",
    "learner": "Learners",
}
#: Columns that name something of another table.
_NAMES = {"piece": "piece", "linen": "linen", "thread": "goods", "needle": "goods", "basting": "goods"}
#: Columns that are typed long, and those that are short.
_WIDE, _USUAL, _NARROW = "minmax(110px,2fr)", "minmax(60px,1fr)", "minmax(48px,0.7fr)"
_CHOICE, _LONG_CHOICE = "minmax(78px,1fr)", "minmax(112px,1.3fr)"
_LONG = {*_NAMES, *TABLES, "note", "count across", "sharp"} - {"class"}
_SHORT = {"price", "group", "drawn", "clear", "over", "each", "needles", "pins", "sharps"}
_SHORT |= {"count down", "length loses", "width loses"}


class TableForm:
    """One table: a row of headings, a row of boxes for each line, and below it what is wrong.

    It tells when a cell was changed, a row added or taken out.
    """

    def __init__(self, table: str, changed: Callable[[], None]) -> None:
        self.table = table
        self._changed = changed
        self._names: dict[str, tuple[str, ...]] = {}
        self.columns: list[Column] = []
        self.rows: list[dict[str, Any]] = []
        #: What stands in columns that are not shown, row by row: a box for each would weigh the page down.
        self._unseen: list[dict[str, str]] = []
        self.said = Said()
        self._grid = widgets.GridBox(layout=widgets.Layout(max_width="100%", grid_gap="4px", overflow="auto"))
        self._grid.add_class(_TABLE)
        # One for all boxes: a layout and a style of its own for each would treble what the page carries.
        self._cell, self._style = widgets.Layout(width="auto", margin="0"), TextStyle()
        self._menu_style = DescriptionStyle()
        self._head = {"layout": widgets.Layout(), "style": HTMLStyle()}
        self._out, self._out_style = widgets.Layout(width="42px", margin="0"), widgets.ButtonStyle()
        self._all = widgets.Checkbox(
            False, description="more columns", indent=False, layout=widgets.Layout(width="150px")
        )
        self._all.observe(lambda _: self.fill([self._line(n) for n in range(len(self.rows))]), "value")
        one = "" if table == "class" else f"Add a row to {_TITLES[table].lower()}"
        below = [button(one, self.add)] if one else []
        title = widgets.HTML(f'<h4 style="margin:4px 12px 4px 0">{_TITLES[table]}</h4>')
        self.widget = form([row(title, self._all), self._grid, row(*below, self.said.widget)])

    @property
    def lines(self) -> list[Line]:
        """What stands in the table, a line each, counted from 1."""
        return [self._line(n) for n in range(len(self.rows))]

    def close(self) -> None:
        """Let go of the layouts and styles that its boxes share, and of those that no box has."""
        for part in (self._cell, self._style, self._menu_style, self._out, self._out_style):
            part.close()

    def fill(self, lines: Iterable[Line]) -> None:
        """Have the table say this."""
        every = list(lines)
        tables = Tables()
        tables.lines[self.table] = every
        self.columns = list(TABLES[self.table]) if self._all.value else tables.columns(self.table)
        self.rows, self._unseen = [], []
        for line in every:
            self._append(line)
        self._lay_out()

    def add(self) -> None:
        """Add a row like the last, but for its name."""
        like = dict(self._line(len(self.rows) - 1).cells) if self.rows else {}
        self._append(Line(0, like | {self.table: ""}))
        self._lay_out()
        self._changed()

    def take_out(self, number: int) -> None:
        """Take out a row, the first being 1."""
        del self.rows[number - 1], self._unseen[number - 1]
        self._lay_out()
        self._changed()

    def offer(self, names: dict[str, tuple[str, ...]]) -> None:
        """Have cells that name a thing of another table offer what is there."""
        if names != self._names:
            self._names = names
            for cells in self.rows:
                for name, box in cells.items():
                    if isinstance(box, widgets.Combobox):
                        box.options = names[_NAMES[name]]

    def say(self, problems: Iterable[Problem]) -> None:
        """Say what is wrong below the table, and mark the cells."""
        mine = [problem for problem in problems if problem.table == self.table]
        self.said.say("\n".join(problem.text() for problem in mine), wrong=bool(mine))
        now = {(problem.row, problem.column) for problem in mine}
        for number, cells in enumerate(self.rows, 1):
            for name, box in cells.items():
                if (number, name) in now:
                    box.add_class(_BAD)
                else:
                    box.remove_class(_BAD)

    def _line(self, at: int) -> Line:
        seen = {name: str(box.value).strip() for name, box in self.rows[at].items()}
        return Line(at + 1, self._unseen[at] | seen)

    def _append(self, line: Line) -> None:
        self.rows.append(self._row(line))
        self._unseen.append({name: text for name, text in line.cells.items() if name not in self.rows[-1]})

    def _row(self, line: Line) -> dict[str, Any]:
        cells = {}
        for column in self.columns:
            text = line.cells.get(column.name, "")
            tip = f"{column.name}: {column.hint}"
            if column.choices:
                text = text.casefold() or column.usual
                words = dict.fromkeys((*(() if column.usual else ("",)), *column.choices, text))
                box = widgets.Dropdown(
                    options=list(words), value=text, tooltip=tip, layout=self._cell, style=self._menu_style
                )
            elif column.name in _NAMES and self.table == "learner":
                options = self._names.get(_NAMES[column.name], ())
                box = widgets.Combobox(
                    value=text,
                    options=options,
                    continuous_update=False,
                    tooltip=tip,
                    layout=self._cell,
                    style=self._style,
                )
            else:
                box = widgets.Text(
                    value=text,
                    placeholder=column.usual,
                    continuous_update=False,
                    tooltip=tip,
                    layout=self._cell,
                    style=self._style,
                )
            box.observe(lambda _: self._changed(), "value")
            cells[column.name] = box
        cells[self.table].add_class(_FIRST)
        return cells

    def _lay_out(self) -> None:
        widths = [_width(column) for column in self.columns]
        self._grid.layout.grid_template_columns = f"44px {' '.join(widths)}"
        heads = [
            widgets.HTML(
                f'<span title="{html.escape(column.hint)}" style="display:block;line-height:1.2">'
                f"<b><small>{html.escape(column.name)}</small></b></span>",
                **self._head,
            )
            for column in self.columns
        ]
        heads[0].add_class(_FIRST)
        children = [widgets.HTML("", **self._head), *heads]
        for number, cells in enumerate(self.rows, 1):
            children.append(self._number(number))
            children += [cells[column.name] for column in self.columns]
        before, self._grid.children = self._grid.children, children
        for gone in set(before).difference(children):
            gone.close()  # its layout and style are others', too

    def _number(self, number: int) -> Any:
        if self.table == "class":
            return widgets.HTML("", **self._head)
        tip = f"take out row {number} of {self.table}"
        out = widgets.Button(description=f"{number} ✕", tooltip=tip, layout=self._out, style=self._out_style)
        out.on_click(lambda _: self.take_out(number))
        return out


def _width(column: Column) -> str:
    if column.name in _SHORT:
        return _NARROW
    if column.name in _LONG:
        return _WIDE
    return _USUAL if not column.choices else _CHOICE if max(map(len, column.choices)) < 10 else _LONG_CHOICE
