"""Published figures, held against what hemcalc computes, and how many of them prove anything."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from hemcalc.books.rows import GRADES, KINDS, MEDIA, Row, read_rows, with_unit
from hemcalc.books.sums import SUMS, Ours, Sum
from hemcalc.measure.errors import HemError, of_type, one_of, several, shown
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.measure.words import so_many

if TYPE_CHECKING:
    from pandas import DataFrame

_HEADINGS = ["row", "topic", "quantity", "theirs", "ours", "difference", "grade", "source"]
_FLOAT = Fraction(1, 10**9)  # what the rounding of floats may add; no figure is printed so fine


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
        """Ours less theirs, 0 where one lies within the other; of two ranges, 0 if ours holds theirs."""
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

    def __repr__(self) -> str:
        return f"Comparison({self.row.id}: {self.row.text()} printed, {self.text()} ours)"

    def text(self) -> str:
        """Ours with one digit more than is printed, and ≈ if that rounds it."""
        least, most = (_figure(number, self.row.digits + 1) for number in self.ours)
        return with_unit(least if least == most else f"{least} to {most}", self.row.unit)

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
            "theirs": self.row.text(),
            "ours": self.text(),
            "difference": self.difference_text,
            "grade": self.row.grade,
            "source": str(self.row.source)
            if self.row.kind == KINDS[0]
            else f"{self.row.source} ({self.row.kind})",
        }


class Comparisons(tuple[Comparison, ...]):
    """Published figures, each beside ours. Made by `comparisons`."""

    __slots__ = ()

    def __repr__(self) -> str:
        agree = sum(each.agrees for each in self)
        return f"Comparisons({so_many(len(self), 'figure')}, {agree} of them agree)"

    def text(self) -> str:
        """How many agree, and what proves less; see `headline`."""
        return headline(self)

    def table(self) -> DataFrame:
        """A row for each figure, by its id: theirs and ours as numbers, each with its least and most."""
        from pandas import DataFrame

        rows = [
            {
                "row": each.row.id,
                "topic": each.row.topic,
                "quantity": each.row.quantity,
                "unit": each.row.unit,
                **_ends("theirs", each.row.span),
                **_ends("ours", each.ours),
                "difference": float(each.difference),
                "agrees": each.agrees,
                "grade": each.row.grade,
                "source": each.cells["source"],
            }
            for each in self
        ]
        return DataFrame(rows).set_index("row") if rows else DataFrame()

    def by_topic(self) -> DataFrame:
        """A row for each topic: how many figures it has, how many are computed, and how many differ."""
        from pandas import DataFrame

        rows = [(each.row.topic, 1, each.row.grade == GRADES[0], not each.agrees) for each in self]
        table = DataFrame(rows, columns=["topic", "figures", "computed", "differ"])
        return table.groupby("topic", sort=False).sum()

    @property
    def differing(self) -> Comparisons:
        """Those in which ours is not the printed figure."""
        return Comparisons(each for each in self if not each.agrees)

    def graded(self, grade: str) -> Comparisons:
        """Those of a grade, such as ``"computed"``."""
        one_of(grade, GRADES, "grade")
        return Comparisons(each for each in self if each.row.grade == grade)

    def _repr_html_(self) -> str:
        """The table; if some differ, with a column that says why."""
        rows, headings = [list(each.cells.values()) for each in self], list(_HEADINGS)
        if self.differing:
            headings.append("why it differs")
            whys = ("" if each.agrees else each.row.note for each in self)
            rows = [[*row, why] for row, why in zip(rows, whys, strict=True)]
        return table_html(headings, rows, "Published figures and ours")


def _ends(whose: str, pair: tuple[Fraction, Fraction]) -> dict[str, float]:
    return {f"{whose}, least": float(pair[0]), f"{whose}, most": float(pair[1])}


def comparisons(*topics: str) -> Comparisons:
    """Every published figure of these topics held against ours; of all topics if none is named.

    Examples
    --------
    >>> [compared.text() for compared in comparisons("mitre allowance")]
    ['0.25 in', '0.125 in', '0.125 in', '0.25 in', '≈ 0.5303 in']
    """
    rows = read_rows()
    known = tuple(dict.fromkeys(row.topic for row in rows))
    chosen = [one_of(topic, known, "topic") for topic in topics] or known
    return Comparisons(compare(row) for row in rows if row.topic in chosen)


def headline(compared: Iterable[Comparison]) -> str:
    """How many computed figures of published sources agree, and beside them what proves less.

    Examples
    --------
    >>> print(headline(comparisons("mitre allowance", "corner")))
    3 figures computed from others of 2 published sources (2 books): 3 agree, 0 differ and say why.
    No evidence of a sum, and not counted: 4 read back, 2 practice.
    """
    given = several(compared, "compared", "comparisons", "comparisons()")
    every = [of_type(each, Comparison, "compared", "comparisons()[0]") for each in given]
    counted = [c for c in every if c.row.published and c.row.grade == GRADES[0]]
    sources = {c.row.source.title: c.row.source.medium for c in counted}
    media = Counter(sources.values())
    beside = Counter(c.row.kind if c.row.kind == KINDS[2] else c.row.grade for c in every if c not in counted)
    agree = sum(c.agrees for c in counted)
    counted_media = ", ".join(so_many(media[medium], medium) for medium in MEDIA if media[medium])
    less = ", ".join(f"{beside[name]} {name}" for name in (*GRADES, *KINDS) if beside[name]) or "none"
    return (
        f"{so_many(len(counted), 'figure')} computed from others of "
        f"{so_many(len(sources), 'published source')}{f' ({counted_media})' if counted else ''}: "
        f"{agree} agree, {len(counted) - agree} differ and say why.\n"
        f"No evidence of a sum, and not counted: {less}."
    )


def compare(row: Row, sums: Mapping[str, Sum] = SUMS) -> Comparison:
    """Compute ours for a row, and hold it against what is printed.

    Refused if the row names nothing that computes it, or a unit that ours can't be given in.

    Examples
    --------
    >>> legs = next(row for row in read_rows() if row.id == "H051")
    >>> compared = compare(legs)
    >>> compared.text(), compared.agrees
    ('≈ 2.1464 in', True)
    """
    of_type(row, Row, "row", "read_rows()[0]")
    of_type(sums, dict, "sums", "{'Edge.draw_line': …}")
    if row.function not in sums:
        raise HemError(
            f"The row {row.id} names {shown(row.function)}, which hemcalc.books.sums has not; "
            "for example 'Edge.draw_line'."
        )
    ours = sums[row.function](**row.inputs)
    pair = ours if isinstance(ours, tuple) else (ours, ours)
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
