"""Published figures, held against what hemcalc computes, and how many of them prove anything."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.books.rows import GRADES, KINDS, MEDIA, Row, read_rows, with_unit
from hemcalc.books.sums import SUMS, Ours, Sum
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES

__all__ = ["Comparison", "compare", "comparisons", "headline"]

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
            "theirs": self.row.text,
            "ours": self.text,
            "difference": self.difference_text,
            "grade": self.row.grade,
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
    ['0.25 in', '0.125 in', '0.125 in', '0.25 in', '≈ 0.5303 in']
    """
    rows = read_rows()
    known = tuple(dict.fromkeys(row.topic for row in rows))
    wanted = [one_of(topic, known, "topic") for topic in topics] or known
    return tuple(compare(row) for row in rows if row.topic in wanted)


def headline(compared: Iterable[Comparison]) -> str:
    """How many computed figures of published sources agree, and beside them what proves less.

    Examples
    --------
    >>> print(headline(comparisons("mitre allowance", "corner")))
    3 figures computed from others of 2 published sources (2 books): 3 agree, 0 differ and say why.
    No evidence of a sum, and not counted: 4 read back, 2 practice.
    """
    every = list(compared)
    counted = [c for c in every if c.row.published and c.row.grade == GRADES[0]]
    sources = {c.row.source.title: c.row.source.medium for c in counted}
    media = Counter(sources.values())
    beside = Counter(c.row.kind if c.row.kind == KINDS[2] else c.row.grade for c in every if c not in counted)
    agree = sum(c.agrees for c in counted)
    many = ", ".join(
        f"{media[medium]} {medium}{'s' * (media[medium] > 1)}" for medium in MEDIA if media[medium]
    )
    less = ", ".join(f"{beside[name]} {name}" for name in (*GRADES, *KINDS) if beside[name]) or "none"
    return (
        f"{len(counted)} figures computed from others of {len(sources)} published sources ({many}): "
        f"{agree} agree, {len(counted) - agree} differ and say why.\n"
        f"No evidence of a sum, and not counted: {less}."
    )


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
