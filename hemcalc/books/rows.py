"""Published figures, held against what hemcalc computes.

The figures stand in ``data/published.csv``, one checkable value a row, each with its title, author,
year and place. A row names what computes the same thing here (see `hemcalc.books.sums`), and
the inputs for it; `compare` computes ours and holds it against the printed one.
"""

from __future__ import annotations

import csv
import json
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

from hemcalc.books.sums import SUMS, Ours, Sum
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.lengths import MILLIMETRES, Length

__all__ = [
    "COMMON_PRACTICE",
    "DATA",
    "KINDS",
    "Comparison",
    "Row",
    "Source",
    "compare",
    "comparisons",
    "read_rows",
]

#: The figures lie beside the package in the checkout, which is where it is installed from.
DATA = Path(__file__).resolve().parents[2] / "data"

#: What a figure is: as the book has it, arithmetic on its figures, recalled, or the trade's custom.
KINDS = ("printed", "derived from printed", "from memory", "common practice")

#: The kind of a figure that no published source was found for.
COMMON_PRACTICE = KINDS[3]

_FLOAT = Fraction(1, 10**9)  # what the rounding of floats may add; no figure is printed so fine


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure is from; 'not seen' and 'from memory' stand where the page was not read."""

    title: str
    author: str
    year: str
    place: str

    def __str__(self) -> str:
        return ", ".join((self.title, self.author, self.year, self.place))


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
        return max(0, *(-int(figure.as_tuple().exponent) for figure in printed))

    @property
    def text(self) -> str:
        """The figure as printed, with its unit."""
        figure = f"{self.expected}" if self.expected is not None else f"{self.low} to {self.high}"
        return _with_unit(figure, self.unit)


@dataclass(frozen=True, slots=True)
class Comparison:
    """A published figure and ours. Made by `compare`.

    Ours may be a range too, such as what hemcalc says that the books draw; it agrees with a
    figure that lies within it.
    """

    row: Row
    #: Ours in the row's unit, the least and the most; the same twice for a single number.
    ours: tuple[Fraction, Fraction]

    @property
    def difference(self) -> Fraction:
        """Ours less theirs, 0 where one lies within the other; of ranges, the nearer ends compared."""
        (least, most), (low, high) = self.ours, self.row.span
        if low == high and least == most:
            return least - low
        if least == most:
            return least - min(max(least, low), high)
        return max(least - low, Fraction(0)) or min(most - high, Fraction(0))

    @property
    def agrees(self) -> bool:
        """Whether ours is theirs at the precision that they print."""
        return abs(self.difference) <= Fraction(self.row.tolerance or 0) + _FLOAT

    @property
    def as_expected(self) -> bool:
        """Whether it agrees where the row says so, and differs where the row explains why."""
        return self.agrees == self.row.agrees

    @property
    def text(self) -> str:
        """Ours with one digit more than is printed, and ≈ if that rounds it."""
        least, most = (_figure(number, self.row.digits + 1) for number in self.ours)
        return _with_unit(least if least == most else f"{least} to {most}", self.row.unit)

    @property
    def difference_text(self) -> str:
        """The difference in words: none, or with its sign, to one digit more than is printed."""
        if abs(self.difference) <= _FLOAT:
            return "none"
        figure = _figure(abs(self.difference), self.row.digits + 2)
        return ("+" if self.difference > 0 else "\N{MINUS SIGN}") + figure.removeprefix("≈ ")

    @property
    def cells(self) -> dict[str, str]:
        """The comparison as the cells of a table, by heading."""
        return {
            "row": self.row.id,
            "topic": self.row.topic,
            "quantity": self.row.quantity,
            "theirs": self.row.text,
            "ours": self.text,
            "difference": self.difference_text,
            "source": str(self.row.source)
            if self.row.kind == KINDS[0]
            else f"{self.row.source} ({self.row.kind})",
        }


def comparisons(*topics: str) -> tuple[Comparison, ...]:
    """Every published figure of these topics held against ours; of all topics if none is named.

    Raises
    ------
    HemError
        If there is no such topic, or the figures are not there.

    Examples
    --------
    >>> [compared.text for compared in comparisons("mitre allowance")]
    ['0.25 in', '0.125 in', '0.125 in', '0.25 in', '≈ 0.7071 in']
    """
    rows = read_rows()
    known = tuple(dict.fromkeys(row.topic for row in rows))
    wanted = [one_of(topic, known, "topic") for topic in topics] or known
    return tuple(compare(row) for row in rows if row.topic in wanted)


def read_rows(folder: Path = DATA) -> tuple[Row, ...]:
    """The published figures, in the order of the file.

    Parameters
    ----------
    folder : Path
        Where ``published.csv`` lies.

    Raises
    ------
    HemError
        If it is not there, as when the package was installed without its checkout, or a row
        can't be read.

    Examples
    --------
    >>> rows = {row.id: row for row in read_rows()}
    >>> rows["H051"].text, rows["H051"].source.title
    ('2.146 in', 'School Needlework')
    """
    path = folder / "published.csv"
    try:
        with path.open(encoding="utf-8", newline="") as lines:
            return tuple(_row(given) for given in csv.DictReader(lines))
    except FileNotFoundError:
        raise HemError(
            "The published figures are in the folder data of the checkout, beside the package, and it is not "
            "there; install hemcalc from its checkout, for example with: python3 -m hemcalc open."
        ) from None


def compare(row: Row, sums: Mapping[str, Sum] = SUMS) -> Comparison:
    """Compute ours for a row, and hold it against what is printed.

    Parameters
    ----------
    row : Row
        From `read_rows`.
    sums : mapping of str to function
        What computes ours, by the name that a row gives.

    Raises
    ------
    HemError
        If the row names nothing that computes it, or a unit that ours can't be given in.

    Examples
    --------
    >>> legs = next(row for row in read_rows() if row.id == "H051")
    >>> compared = compare(legs)
    >>> compared.text, compared.agrees
    ('≈ 2.1464 in', True)
    """
    if row.function not in sums:
        raise HemError(
            f"The row {row.id} names {shown(row.function)}, which hemcalc.books.sums has not; "
            "for example 'Edge.draw_line'."
        )
    given = sums[row.function](**row.inputs)
    pair = given if isinstance(given, tuple) else (given, given)
    least, most = (_in_unit(number, row) for number in pair)
    return Comparison(row, (least, most))


def _in_unit(number: Ours, row: Row) -> Fraction:
    if not isinstance(number, Length):
        return Fraction(number)
    if row.unit not in MILLIMETRES:
        raise HemError(
            f"The row {row.id} is in {row.unit}, but ours is a length; give it a unit, for example 'in'."
        )
    return number.mm / MILLIMETRES[row.unit]


def _figure(number: Fraction, digits: int) -> str:
    text = f"{float(number):.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text if abs(Fraction(text) - number) <= _FLOAT else f"≈ {text}"


def _with_unit(figure: str, unit: str) -> str:
    return figure if unit == "-" else f"{figure} {unit}"


def _row(given: Mapping[str, str]) -> Row:
    try:
        figures = {
            name: Decimal(given[name]) if given[name] else None
            for name in ("expected", "low", "high", "tolerance")
        }
        source = Source(*(given[name] for name in ("title", "author", "year", "place")))
        return Row(
            id=given["id"],
            topic=given["topic"],
            quantity=given["quantity"],
            function=given["function"],
            inputs=json.loads(given["inputs"]),
            unit=given["unit"],
            source=source,
            kind=one_of(given["kind"], KINDS, "kind"),
            agrees=given["agrees"] == "true",
            note=given["note"],
            **figures,
        )
    except (ArithmeticError, KeyError, TypeError, ValueError) as error:
        raise HemError(
            f"The row {given.get('id') or 'without an id'} of published.csv can't be read ({error}); "
            "a figure is a plain number, for example 2.25, and inputs are JSON."
        ) from None
