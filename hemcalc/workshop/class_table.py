"""A class as tables of text: what may stand in each column, and the way into and out of a CSV file.

A file has several tables, one below the other, each under a row of headings whose first names it:
class, linen, goods, piece, learner. Nothing is understood here but which cell stands where.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from hemcalc.corner.mitre import CORNER_KINDS
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.units import UNITS
from hemcalc.piece.piece import EYE, THROUGH
from hemcalc.piece.sides import SIDES
from hemcalc.piece.sizes import BEGINNINGS
from hemcalc.stitch.groups import HANDS, WORKED
from hemcalc.workshop.linen import WASHES
from hemcalc.workshop.spreadsheet import SEPARATORS

_LONGEST = 400  # characters of a problem, as of every sentence
_MAX_ROWS = 2000
_SPECIAL = re.compile(r"'*[=+\-@#\t\r]")  # a spreadsheet takes it for a formula, or we for a remark


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table."""

    name: str
    #: What may stand in it, as one who fills it in is told.
    hint: str
    #: What an empty cell means; a column of which nothing else is to be said is left out of a file.
    usual: str = ""
    needed: bool = False
    #: The words to choose from, if there are only these.
    choices: tuple[str, ...] = ()
    #: Whether it is always shown.
    main: bool = False


def _must(name: str, hint: str, choices: tuple[str, ...] = ()) -> Column:
    return Column(name, hint, needed=True, choices=choices, main=True)


def _may(name: str, hint: str, usual: str = "", choices: tuple[str, ...] = (), main: bool = True) -> Column:
    return Column(name, hint, usual, choices=choices, main=main)


def _seldom(name: str, hint: str, usual: str = "", choices: tuple[str, ...] = ()) -> Column:
    return Column(name, hint, usual, choices=choices)


_RAW = ("raw", "washed")
#: The tables of a class and their columns, in the order of a file; each table's first names a row.
TABLES: Mapping[str, tuple[Column, ...]] = MappingProxyType(
    {
        "class": (
            _must("class", "what stands over every page"),
            _may("currency", "the word behind every price, such as crowns"),
            _may("ruler", "that the cloth is cut by: in, cm or mm", "in", UNITS),
            _may("spare needles", "beyond those in the kits, of each kind", "0"),
            _may("note", "a line for the foot of every page"),
        ),
        "linen": (
            _must("linen", "its name"),
            _must("count across", "28/in or 11/cm, or readings: 112, 113 over 4 in"),
            _may("count down", "as across, if empty"),
            _may("counted", "whether it was raw or washed when you counted", "washed", _RAW),
            _may("wash", "when you wash it", choices=WASHES),
            _may("length loses", "in the first wash, such as 8 %", "0 %"),
            _may("width loses", "in the first wash, such as 3 %", "0 %"),
            _may("thickness", "such as 0.4 mm"),
            _must("width", "usable, between the selvedges: 140 cm or 54 in"),
            _must("sold by", "10 cm, 1/8 yd, metre or yard"),
            _may("price", "of one such length; or 31.00 per metre"),
            _seldom("sold as", "what the unit is called"),
            _seldom("shop", "where it is sold"),
            _seldom("ends", "cloth to square each end; the usual, if empty"),
            _seldom("each cut", "what each cut costs; the usual, if empty"),
            _seldom("spare", "length to have in hand", "0 cm"),
        ),
        "goods": (
            _must("goods", "thread, needles, pins: the name"),
            _must("each", "what one holds: 80 m, or 6"),
            _may("price", "of one"),
            _may("sold as", "ball, packet, box"),
            _seldom("shop", "where it is sold"),
        ),
        "piece": (
            _must("piece", "its name"),
            _must("design across", "threads; stitches, if over is filled in"),
            _must("design down", "threads; stitches, if over is filled in"),
            _seldom("over", "threads to a stitch", "1"),
            _must("hem", "a width, 3/8 in or 1 cm; or threads, 11"),
            _may("clear", "threads of plain cloth round the design"),
            *(_may(f"clear {side}", "threads, if this side differs") for side in SIDES),
            _may("drawn", "threads drawn out on each side", "2"),
            _seldom("turn", "threads or a length; half the hem, if empty"),
            _may("handling", "threads or a length beyond the cut line", "0"),
            _may("corner", "how the corners are made", "mitred", CORNER_KINDS),
            _seldom("allowance", "cloth left at the corners; the usual, if empty"),
            _seldom("eye", "thread that the needle's eye holds", EYE),
            _seldom("through", "what the hem stitch catches", THROUGH[0], THROUGH),
        ),
        "learner": (
            _must("learner", "her name; once for each piece that she works"),
            _must("piece", "one of the pieces"),
            _must("linen", "one of the linens"),
            _may("hand", "that holds the needle", "right", HANDS),
            _may("group", "threads to a stitch, 2 to 6", "4"),
            _may("thread", "one of the goods", "working thread"),
            _may("needle", "one of the goods", "tapestry needle"),
            _may("basting", "one of the goods", "basting thread"),
            _may("spare", "yes for a kit that is nobody's", "no", ("no", "yes")),
            _seldom("needles", "that she is handed", "1"),
            _seldom("sharp", "the needle for basting", "sharp needle"),
            _seldom("sharps", "that she is handed", "1"),
            _seldom("pins", "that she is handed", "12"),
            _seldom("worked", "which way; as suits the hand, if empty", "", WORKED),
            _seldom("beginning", "what the cloth is when she begins", BEGINNINGS[1], BEGINNINGS),
        ),
    }
)


@dataclass(frozen=True, slots=True)
class Line:
    """A row of a table: its cells by their column, and which row of the file or of the form it is."""

    row: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong with a cell, or with a row."""

    table: str
    row: int
    column: str
    sentence: str

    def text(self) -> str:
        """Where it is, and what is wrong, in at most 400 characters."""
        said = f"row {self.row}, column {self.column}: {self.sentence}"
        return said if len(said) <= _LONGEST else f"{said[: _LONGEST - 1]}…"


class ClassErrors(HemError):
    """All that is wrong with a class in a file or a form."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        said = self.problems[0].text()
        if len(problems) > 1:
            more = f" (and {len(problems) - 1} more: see problems)."
            said = said[: _LONGEST - len(more)].removesuffix(".") + more
        super().__init__(said, "class")

    def _render_traceback_(self) -> list[str]:
        """What a notebook shows of it: every problem, without a traceback."""
        return [problem.text() for problem in self.problems]


@dataclass(slots=True)
class Tables:
    """The tables of a class, and what was wrong with their shape."""

    lines: dict[str, list[Line]] = field(default_factory=lambda: {name: [] for name in TABLES})
    problems: list[Problem] = field(default_factory=list)

    def columns(self, table: str) -> list[Column]:
        """The columns that are shown of a table: the main ones, and those that say more than the usual."""
        lines = self.lines[table]
        return [
            column
            for column in TABLES[table]
            if column.needed
            or any(line.cells.get(column.name, "") not in ("", column.usual) for line in lines)
            or (column.main and not column.name.startswith("clear "))
        ]

    def text(self, separator: str = ",") -> str:
        """The tables as CSV, by RFC 4180; columns in which only the usual stands are left out."""
        out = io.StringIO()
        writer = csv.writer(out, delimiter=separator, lineterminator="\r\n")
        point = SEPARATORS[separator]
        for table in TABLES:
            lines, shown_ones = self.lines[table], self.columns(table)
            writer.writerow([column.name for column in shown_ones])
            for line in lines:
                cells = ((column.name, line.cells.get(column.name, "")) for column in shown_ones)
                writer.writerow(
                    [_guarded(cell.replace(".", point) if name == "price" else cell) for name, cell in cells]
                )
            writer.writerow([])
        return out.getvalue()


def tables_of(text: str) -> Tables:
    """The tables of a CSV text: fields between commas, semicolons or tabs, whichever finds more headings."""
    readings = (_tables(text, separator) for separator in (",", ";", "\t"))
    found = max(readings, key=lambda reading: reading[0])[1]
    if not any(found.lines.values()) and not found.problems:
        found.problems.append(
            Problem("class", 1, "class", "there is no table here; begin with one, such as the template.")
        )
    return found


def _tables(text: str, separator: str) -> tuple[int, Tables]:
    """How many headings this separator finds, and the tables."""
    found, table, headings, known, after_gap = Tables(), "", 0, list[str](), True
    for row, written in _rows(text, separator, found):
        if not any(written):
            after_gap = True
            continue
        if written[0].startswith("#") or (row == 1 and written[0].casefold().startswith("sep=")):
            continue  # a remark, or a spreadsheet's own word on what parts the fields
        cells = [_unguarded(cell) for cell in written]
        heads = [" ".join(cell.casefold().split()) for cell in cells]
        if begun := _begins(heads, after_gap):
            table, known, headings = begun, heads, headings + 1
            found.problems += _wrong_headings(table, row, heads, cells)
        elif not table:
            found.problems.append(
                Problem("class", row, "1", f"{shown(cells[0])} stands above the first table; {_HEADS}")
            )
        else:
            found.lines[table].append(_line(found, table, row, known, cells))
        after_gap = False
    return headings, found


_HEADS = "a table begins with its headings, for example learner, piece, linen, hand."


def _rows(text: str, separator: str, found: Tables) -> Iterator[tuple[int, list[str]]]:
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    try:
        for row, cells in enumerate(rows, 1):
            if row > _MAX_ROWS:
                raise csv.Error
            yield row, [cell.strip() for cell in cells]
    except csv.Error:
        sentence = f"from here on it can't be read as CSV, or has more than {_MAX_ROWS} rows; save it anew."
        found.problems.append(Problem("class", min(rows.line_num, _MAX_ROWS), "1", sentence))


def _begins(heads: Sequence[str], after_gap: bool) -> str:
    """The table that a row is the headings of; empty of any other row.

    What stands below a gap may have a heading misspelt; elsewhere it must have none, since a piece
    may be called piece.
    """
    table = heads[0] if heads[0] in TABLES else heads[0].removesuffix("s")
    if table not in TABLES:
        return ""
    names = {column.name for column in TABLES[table]} | {heads[0]}
    filled = [head for head in heads if head]
    right = sum(head in names for head in filled)
    return table if right == len(filled) > 1 or (after_gap and 2 * right >= len(filled) > 1) else ""


def _wrong_headings(table: str, row: int, heads: list[str], cells: Sequence[str]) -> Iterator[Problem]:
    heads[0] = table
    names = [column.name for column in TABLES[table]]
    for at, head in enumerate(heads):
        if head and head not in names:
            allowed = ", ".join(names)
            yield Problem(
                table,
                row,
                str(at + 1),
                f"{shown(cells[at])} is no column of this table, which may have {allowed}.",
            )
        elif head and head in heads[:at]:
            yield Problem(table, row, head, "stands there twice, but must stand there once.")
    for column in TABLES[table]:
        if column.needed and column.name not in heads:
            yield Problem(
                table, row, column.name, f"is missing from the table {table}; it has {column.hint}."
            )


def _line(found: Tables, table: str, row: int, heads: Sequence[str], cells: Sequence[str]) -> Line:
    for at, cell in enumerate(cells):
        if cell and (at >= len(heads) or not heads[at]):
            found.problems.append(
                Problem(table, row, str(at + 1), f"{shown(cell)} stands under no heading; move or empty it.")
            )
    return Line(row, {head: cell for head, cell in zip(heads, cells, strict=False) if head})


def _guarded(cell: str) -> str:
    return f"'{cell}" if _SPECIAL.match(cell) else cell


def _unguarded(cell: str) -> str:
    return cell[1:] if cell.startswith("'") and _SPECIAL.match(cell) else cell
