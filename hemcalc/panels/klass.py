"""My class: its tables, filled in here or in a spreadsheet, and all that a leader buys, cuts and prints.

The tables are text; `hemcalc.workshop` makes a class of them, lays its linen out and says what is wrong.
"""

from __future__ import annotations

import asyncio
import html
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ipywidgets as widgets

from hemcalc.draw.bolt.picture import draw_bolt
from hemcalc.measure.cautions import caution_for
from hemcalc.measure.errors import HemError
from hemcalc.measure.files import read_file, write_file
from hemcalc.measure.words import so_many
from hemcalc.panels.fields import Said, button, form, full_path, names_here, row
from hemcalc.panels.page import OnPage
from hemcalc.panels.search import Search
from hemcalc.panels.settings import as_set, in_force
from hemcalc.panels.tables import STYLE, TableForm
from hemcalc.paper.workshop import print_workshop
from hemcalc.workshop.class_file import LARGEST, class_tables, class_template, text_of
from hemcalc.workshop.class_read import class_of
from hemcalc.workshop.class_table import TABLES, ClassErrors, Line, Problem, Tables, tables_of
from hemcalc.workshop.cutting import cut_for_class
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.rests import Cutting
from hemcalc.workshop.workshop import Workshop

#: What a class is kept in unless it is called otherwise; opened again where it lies.
MY_FILE = "my_class.csv"

_SEPARATORS = {"comma (4.20)": ",", "semicolon (4,20)": ";"}
_EFFORTS = {"usual": 1, "10 times as long": 10, "50 times as long": 50}
#: What a learner is given of the goods.
_GIVEN = ("thread", "needle", "basting")


class MyClass(OnPage):
    """The form of a class, and what comes of it. Made by `my_class`."""

    #: What was last typed into such a form in this kernel, so that running its cell again loses nothing.
    typed: Tables | None = None

    def __init__(self) -> None:
        self.workshop: Workshop | None = None
        self.cutting: Cutting | None = None
        self.search: Search | None = None
        self._laid: Workshop | None = None
        self._holding = True
        self.tables = {table: TableForm(table, self._changed) for table in TABLES}
        self.status = Said()
        self.said = Said("Nothing is kept until you keep it.")
        self.file = widgets.Combobox(value=MY_FILE, options=names_here("*.csv"), description="file")
        self.separator = widgets.Dropdown(
            options=list(_SEPARATORS), description="between fields", style={"description_width": "initial"}
        )
        self.replace = widgets.Checkbox(False, description="write over it, if it is there", indent=False)
        self.effort = widgets.Dropdown(options=list(_EFFORTS), description="search")
        self.turn = widgets.Checkbox(False, description="pieces may be turned", indent=False)
        self.start = button("Lay out and count up", self.lay_out)
        self.stop_button = button("Stop", self.stop, "stop the search, and take the best so far")
        self.stop_button.disabled = True
        self.told = Said("What to buy, what it costs, and how the linen is cut.")
        self.result = widgets.HTML()
        self.folder = widgets.Text(value="my class", description="folder")
        self.paper = widgets.Dropdown(options=["A4", "Letter"], description="paper")
        self.printed = Said("A folder with one PDF for the whole class, and one for each learner.")
        files = row(
            self.file,
            self.separator,
            button("Open", self.open, "open the class that this file keeps"),
            button("Keep", self.keep, "keep the class in this file"),
            button("Write the template", self.write_template, "the invented class, as a file to begin from"),
            button("Begin my own", self.begin, "empty the tables, but for the goods"),
            self.replace,
        )
        self.widget = form(
            [
                widgets.HTML(STYLE),
                files,
                row(self.said.widget),
                *(tables.widget for tables in self.tables.values()),
                row(self.status.widget),
                row(self.start, self.stop_button, self.effort, self.turn),
                row(self.told.widget),
                self.result,
                row(self.folder, self.paper, button("Print the folder of PDFs", self.print)),
                row(self.printed.widget),
                in_force().drawer(),
            ]
        )
        in_force().follow(self._read)
        self._begin_with()

    def _begin_with(self) -> None:
        """What was typed in this kernel, or is kept in this folder; else the invented class."""
        if MyClass.typed is not None:
            self._fill(MyClass.typed)
        elif Path(MY_FILE).is_file():
            self._fill(class_tables(example_workshop()))
            self.open()
        else:
            self._fill(class_tables(example_workshop()))
            self.said.say("An invented class: change it into yours, or begin your own.")

    @property
    def shown(self) -> Tables:
        """What stands in the form."""
        return Tables({name: table.lines for name, table in self.tables.items()})

    @property
    def problems(self) -> list[str]:
        """All that is said to be wrong in the tables."""
        return [
            line for table in self.tables.values() if table.said.wrong for line in table.said.text.split("\n")
        ]

    def keep(self) -> None:
        """Keep what stands in the form, right or wrong, in the file that is named."""
        self.said.answer(lambda: self._write(self.shown.text(self._separator), "Kept in"))

    def write_template(self) -> None:
        """Write the invented class into the file that is named, to be changed in a spreadsheet."""
        self.said.answer(lambda: self._write(class_template(self._separator), "The template is in"))

    def open(self) -> None:
        """Have the form say what the file keeps."""
        self.said.answer(self._open)

    def begin(self) -> None:
        """Empty the tables, but for the goods; a row each is left to begin with."""
        blank = class_tables(example_workshop())
        # The goods are left, under names of their own, so her first learner is given some of them.
        given = {name: blank.lines["learner"][0].cells[name] for name in _GIVEN}
        blank.lines |= {"linen": [Line(1, {})], "piece": [Line(1, {})], "learner": [Line(1, given)]}
        chosen = in_force().chosen
        blank.lines["class"] = [Line(1, {"class": "My class", "ruler": chosen.get("unit", "in")})]
        self._fill(blank)
        self._changed()
        self.said.say("Fill in a linen, a piece and a learner; the goods are invented: change them, too.")

    def lay_out(self) -> None:
        """Look for a layout of every linen, beside the page's own work."""
        if self.search is not None and self.search.is_on:
            return
        shop = self.workshop
        if shop is None:
            self.told.say("There is no class to lay out yet: see what is wrong in the tables.", wrong=True)
            return
        grain = "free" if self.turn.value else "fixed"
        effort = _EFFORTS[self.effort.value]
        self.start.disabled, self.stop_button.disabled = True, False
        self.told.say("Looking for a layout…")
        show = _on_the_page(lambda found: self._found(shop, found))
        self.search = Search(
            lambda tell: cut_for_class(shop, grain=grain, effort=effort, progress=tell), self.told.say, show
        )

    def stop(self) -> None:
        """Take the best layout so far."""
        if self.search is not None:
            self.search.stop()

    def print(self) -> None:
        """Make the folder of PDFs."""
        self.printed.say("Making the pages; for twelve learners this takes some ten seconds…")
        self.printed.answer(self._print)

    @property
    def _separator(self) -> str:
        return _SEPARATORS[self.separator.value]

    def _write(self, text: str, done: str) -> str:
        path = self.file.value.strip()
        write_file(path, text.encode("utf-8-sig"), replace=self.replace.value)
        self.replace.value = False
        self.file.options = names_here("*.csv")
        return f"{done} {full_path(path)}."

    def _open(self) -> str:
        path = self.file.value.strip()
        found = tables_of(text_of(read_file(path, most=LARGEST)).removeprefix("\ufeff"))
        if not any(found.lines.values()):
            raise ClassErrors(found.problems)
        self._fill(found)
        self._changed()
        wrong = "".join(f"\nIn the file, {problem.text()}" for problem in found.problems)
        return f"Opened {full_path(path)}.{wrong}"

    def _print(self) -> str:
        if self.workshop is None:
            raise HemError("There is no class to print yet: see what is wrong in the tables.")
        layouts = self.cutting if self._laid == self.workshop else None
        files = print_workshop(
            self.folder.value.strip(),
            self.workshop,
            layouts,
            paper=self.paper.value,
            learners=True,
            replace=self.replace.value,
            greys=in_force().greys,
        )
        self.replace.value = False
        return f"{len(files)} files are in {full_path(self.folder.value.strip())}. Print them at 100 %."

    def _fill(self, tables: Tables) -> None:
        self._holding = True
        for name, table in self.tables.items():
            # A file may lack the class's own row, and none can be added.
            table.fill(tables.lines[name] or [Line(1, {})] * (name == "class"))
        self._holding = False
        # What was counted up for another class is not to be bought for this one.
        self.cutting, self.result.value = None, ""
        self.told.say("")
        self._read()

    def _changed(self) -> None:
        if not self._holding:
            MyClass.typed = self.shown
            self._read()

    def _read(self) -> None:
        """Make a class of the tables, or say what is wrong with them."""
        shown = self.shown
        names = {
            table: tuple(filter(None, (line.cells.get(table, "") for line in lines)))
            for table, lines in shown.lines.items()
        }
        problems: tuple[Problem, ...] = ()
        try:
            self.workshop = as_set(class_of(shown))
        except ClassErrors as errors:
            self.workshop, problems = None, errors.problems
        for table in self.tables.values():
            table.offer(names)
            table.say(problems)
        if self.workshop is None:
            self.status.say(f"To be mended: {so_many(len(problems), 'cell')}, marked above.", wrong=True)
            return
        shop = self.workshop
        self.status.say(
            f"{shop.title}: {so_many(len(shop.kits), 'kit')} for {so_many(len(shop.learners), 'learner')}, "
            f"{so_many(len(shop.spares), 'spare')}."
            + (f" Lengths are in {shop.unit}, as set for every page." if "unit" in in_force().chosen else "")
        )
        if self.cutting is not None and self._laid != shop:
            self.told.say("The class has changed since: lay it out once more.")

    def _found(self, shop: Workshop, found: Any) -> None:
        self.start.disabled, self.stop_button.disabled = False, True
        if not isinstance(found, Cutting):
            self.told.say(str(found), wrong=True)
            return
        self.cutting, self._laid = found, shop
        bought = shop.with_lengths(found)
        notes = dict.fromkeys(note for layout in found.values() for note in layout.notes)
        self.told.say("\n".join([found.text(shop.unit), f"In all: {bought.cost_text}.", *notes]))
        pictures = [
            f"<h4>{html.escape(name)}</h4>{draw_bolt(layout, shop.unit)._repr_html_()}"
            for name, layout in found.items()
        ]
        caution = f"<p>{html.escape(caution_for('blade'))}</p>"
        self.result.value = f"{bought._repr_html_()}{caution}{''.join(pictures)}"

    def close(self) -> None:
        """Let go of the form, and of a search that is on; its words are kept."""
        if not self.closed:
            self.stop()
            for table in self.tables.values():
                table.close()
        super().close()

    def in_words(self) -> str:
        """Its class in a sentence."""
        return self.status.text


def _on_the_page(do: Callable[[Any], None]) -> Callable[[Any], None]:
    """Done where the page's own work is done, one picture at a time; at once where there is no page."""
    try:
        loop = asyncio.get_running_loop()
    except RuntimeError:
        return do

    def later(found: Any) -> None:
        loop.call_soon_threadsafe(do, found)

    return later


def my_class() -> MyClass:
    """The form for a class of one's own, ready to be shown in a notebook.

    Examples
    --------
    >>> form = my_class()
    >>> form.status.text
    'Autumn linen workshop: 12 kits for 12 learners, 2 spares.'
    >>> form.tables["learner"].rows[0]["linen"].value = "sackcloth"
    >>> form.problems[0][:59]
    "row 1, column linen: 'sackcloth' is none of the linens; for"
    >>> MyClass.typed = None
    """
    return MyClass()
