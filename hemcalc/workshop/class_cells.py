"""The cells of a class's tables, read one by one and then together, and all that is wrong with them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, TypeVar

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.fabric import Fabric
from hemcalc.workshop.class_table import TABLES, Line, Problem, Tables
from hemcalc.workshop.goods import as_name

T = TypeVar("T")

_EXAMPLES = {"linen": "white linen", "goods": "pearl cotton 8", "piece": "coaster"}
#: What the library calls an input, and under which heading it stands here.
_HEADINGS = {
    "warp": "count across",
    "weft": "count down",
    "shrink_warp": "length loses",
    "shrink_weft": "width loses",
    "design": "design across",
    "stitches": "design across",
    "sold_as": "sold as",
}
#: What stands for cells that are wrong, and for what they name, while the others are looked at: a fabric and
#: a hem, twice and as unlike as can be. What is refused in the same words with both is wrong in any case.
_LIKES = (Fabric("4/cm", washed=True), "5 cm"), (Fabric("30/cm", washed=True), "2 mm")
_NOTHING: Mapping[str, Any] = MappingProxyType({})


class Reader:
    """Reads cells one by one, and keeps what is wrong with each."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self.problems = list(tables.problems)

    def wrong(self, table: str, line: Line, column: str, sentence: str) -> None:
        """Keep what is wrong with a cell, once."""
        at = table, line.row, column  # a form counts the rows of each table from 1
        if not any((known.table, known.row, known.column) == at for known in self.problems):
            self.problems.append(Problem(*at, sentence))

    def is_right(self, table: str, line: Line) -> bool:
        """Whether nothing is wrong with a row so far."""
        return not any((known.table, known.row) == (table, line.row) for known in self.problems)

    def named(self, table: str, read: Callable[[Line, str], T]) -> dict[str, T]:
        """What is read of the lines of a table by their names; a line without one is read all the same."""
        found: dict[str, T] = {}
        rows: dict[str, int] = {}
        for line in self.tables.lines[table]:
            name = self.cell(table, line, table, lambda text: as_name(text, table, _EXAMPLES[table]))
            if name in rows:
                again = f"{shown(name)} stands in row {rows[name]} already, but each must have its own name."
                self.wrong(table, line, table, again)
            made = read(line, name or table)
            if name is not None and name not in rows:
                found[name], rows[name] = made, line.row
        return found

    def cell(self, table: str, line: Line, column: str, read: Callable[[str], T]) -> T | None:
        """What a cell says, the usual if it is empty; None if that is wrong, which is kept."""
        about = next(each for each in TABLES[table] if each.name == column)
        text = line.cells.get(column, "") or about.usual
        try:
            if not text and about.needed:
                raise HemError(f"is empty, but must have {about.hint}.")
            if about.choices and text:
                text = one_of(text.casefold(), about.choices, column)
            return read(text)
        except HemError as error:
            self.wrong(table, line, column, str(error))
            return None

    def one_of_the(self, table: str, line: Line, column: str, known: Mapping[str, T], what: str) -> T | None:
        """The thing that a cell names, in whatever case."""
        by_name = {name.casefold(): thing for name, thing in known.items()}

        def found(text: str) -> T:
            if text in known:
                return known[text]
            if text.casefold() not in by_name:
                some = ", ".join(shown(name) for name in list(known)[:4]) or "none yet"
                raise HemError(f"{shown(text)} is none of {what}; for example one of {some}.", column)
            return by_name[text.casefold()]

        return self.cell(table, line, column, found)

    def made(
        self, table: str, line: Line, make: Callable[..., T], asked: Mapping[str, Any] = _NOTHING
    ) -> T | None:
        """What is made of a row's cells; what is wrong with them together is kept, and None given if any is.

        It is made with a fabric and a hem, for where there are none yet, of what is asked; if it can't be,
        then of each that is asked alone, so that one mistake doesn't hide another.
        """
        made = self._tried(table, line, make, asked)
        if made is None:
            for name, said in asked.items():
                self._tried(table, line, make, {name: said})
        return made if self.is_right(table, line) else None

    def _tried(self, table: str, line: Line, make: Callable[..., T], asked: Mapping[str, Any]) -> T | None:
        errors: dict[str, str] = {}
        for fabric, hem in _LIKES:
            try:
                return make(fabric, hem, **asked)
            except HemError as error:
                errors[str(error)] = _HEADINGS.get(error.about, error.about)
        if len(errors) == 1:
            ((sentence, about),) = errors.items()
            names = [column.name for column in TABLES[table]]
            self.wrong(table, line, about if about in names else names[0], sentence)
        return None
