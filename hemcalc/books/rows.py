"""Published figures, as they are printed.

The figures stand in ``data/published.csv``, one checkable value a row, each with its title, author,
year and place, and with its grade: what the comparison proves. A row names what computes the same
thing here (see `hemcalc.books.sums`), and the inputs for it; `hemcalc.books.comparing`
computes ours and holds it against the printed one.
"""

from __future__ import annotations

import csv
import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.files import file_name

#: The figures lie beside the package in the checkout, which is where it is installed from.
DATA = Path(__file__).resolve().parents[2] / "data"

#: What a figure is: as the book has it, arithmetic on its figures, recalled, or the trade's custom.
KINDS = ("printed", "derived from printed", "from memory", "common practice")

#: What a comparison proves. Computed: from other figures, none of which is the figure itself, so that it
#: could differ. Tabled: a figure, range or default that hemcalc keeps, against the one that is printed.
#: Read back: the printed figure goes in, and comes out. Practice: custom, which no source prints.
GRADES = ("computed", "tabled", "read back", "practice")

#: What a source is. The last is of common practice alone.
MEDIA = ("book", "standard", "paper", "web page", "custom")

#: The kind of a figure that no published source was found for.
COMMON_PRACTICE = KINDS[3]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure is from; 'not seen' and 'from memory' stand where the page was not read."""

    title: str
    author: str
    year: str
    place: str
    #: One of `MEDIA`; a web page is an article, notes or a list that nobody has reviewed.
    medium: str

    def __str__(self) -> str:
        page = (self.medium,) if self.medium == "web page" else ()
        return ", ".join((self.title, self.author, self.year, self.place, *page))


@dataclass(frozen=True)
class Row:
    """One published figure. Either `expected` is given, or `low` and `high`."""

    id: str
    topic: str
    quantity: str
    #: Name of what computes it here, a key of `hemcalc.books.sums.SUMS`.
    function: str
    inputs: Mapping[str, Any]
    expected: Decimal | None
    low: Decimal | None
    high: Decimal | None
    unit: str
    #: Half the last digit printed, or 0 for what is exact.
    tolerance: Decimal | None
    source: Source
    kind: str
    #: One of `GRADES`.
    grade: str
    #: False where hemcalc does otherwise, for the reason that `note` gives.
    agrees: bool
    note: str

    @property
    def published(self) -> bool:
        """Whether a source prints it, or it is arithmetic on what one prints."""
        return self.kind in KINDS[:2]

    @property
    def span(self) -> tuple[Fraction, Fraction]:
        """The least and the most that is printed; the same twice for a single figure."""
        if self.expected is not None:
            return Fraction(self.expected), Fraction(self.expected)
        if self.low is None or self.high is None:
            raise HemError(f"The row {self.id} has no figure; give it one, for example expected 2.25.")
        return Fraction(self.low), Fraction(self.high)

    @property
    def digits(self) -> int:
        """Digits behind the point that are printed."""
        printed = [figure for figure in (self.expected, self.low, self.high) if figure is not None]
        return max(-int(figure.as_tuple().exponent) for figure in printed)

    def __repr__(self) -> str:
        return f"Row({self.id}: {self.text()})"

    def with_inputs(self, **inputs: object) -> Row:
        """The same row with other figures going in."""
        return replace(self, inputs={**self.inputs, **inputs})

    def text(self) -> str:
        """The figure as printed, with its unit."""
        figure = f"{self.expected}" if self.expected is not None else f"{self.low} to {self.high}"
        return with_unit(figure, self.unit)


def read_rows(folder: str | os.PathLike[str] = DATA) -> tuple[Row, ...]:
    """The published figures, in the order of the file, ``published.csv`` in that folder.

    Refused if it is not there, as when the package was installed without its checkout, or a row can't be
    read.

    Examples
    --------
    >>> rows = {row.id: row for row in read_rows()}
    >>> rows["H051"].text(), rows["H051"].source.title
    ('2.146 in', 'School Needlework')
    """
    path = Path(file_name(folder, "folder")) / "published.csv"
    try:
        with path.open(encoding="utf-8", newline="") as lines:
            return tuple(_row(cells) for cells in csv.DictReader(lines))
    except (FileNotFoundError, NotADirectoryError):
        raise HemError(
            "The published figures are in the folder data of the checkout, beside the package, and it is not "
            "there; install hemcalc from its checkout, for example with: python3 -m hemcalc open."
        ) from None


def read_row(id: str) -> Row:
    """The published figure of this name in the file.

    Examples
    --------
    >>> read_row("H051").text()
    '2.146 in'
    """
    found = next((row for row in read_rows() if isinstance(id, str) and row.id == id), None)
    if found is None:
        raise HemError(
            f"row is {shown(id)}, but must be the name of a row of published.csv; for example 'H051'.", "row"
        )
    return found


def with_unit(figure: str, unit: str) -> str:
    """A figure as it is said: a pure number has no unit."""
    return figure if unit == "-" else f"{figure} {unit}"


def _row(cells: Mapping[str, str]) -> Row:
    try:
        figures = {
            name: Decimal(cells[name]) if cells[name] else None
            for name in ("expected", "low", "high", "tolerance")
        }
        source = Source(*(cells[name] for name in ("title", "author", "year", "place", "medium")))
        return Row(
            id=cells["id"],
            topic=cells["topic"],
            quantity=cells["quantity"],
            function=cells["function"],
            inputs=json.loads(cells["inputs"]),
            unit=cells["unit"],
            source=source,
            kind=one_of(cells["kind"], KINDS, "kind"),
            grade=one_of(cells["grade"], GRADES, "grade"),
            agrees=cells["agrees"] == "true",
            note=cells["note"],
            **figures,
        )
    except (ArithmeticError, KeyError, TypeError, ValueError) as error:
        raise HemError(
            f"The row {cells.get('id') or 'without an id'} of published.csv can't be read ({error}); "
            "a figure is a plain number, for example 2.25, and inputs are JSON."
        ) from None
