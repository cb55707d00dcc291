"""Where the margin rule of four hems is enough, and where it fails, over many edges.

The rule is a rule of thumb: it fails for narrow hems with a wide clear band and grows
generous for deep hems. A table of it is the lesson that a leader wants to show.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hemcalc.edge.ledger import plan_edge
from hemcalc.edge.margin import MarginRule
from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError, several, shown
from hemcalc.measure.exact import whole_among, whole_threads
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length

if TYPE_CHECKING:
    import pandas as pd


_MOST = 1000  # hems or clear bands of a table; it would fill a wall


@dataclass(frozen=True, slots=True)
class RuleTable:
    """The margin rule for every hem and clear band asked, threads."""

    hems: tuple[int, ...]
    clears: tuple[int, ...]
    drawn: int
    handling: int
    #: One row a clear band, in each one rule a hem.
    rows: tuple[tuple[MarginRule, ...], ...]

    def at(self, hem: int, clear: int) -> MarginRule:
        """The rule for one hem and one clear band of the table."""
        return self._row(clear)[_index(self.hems, hem, "hem")]

    def narrowest(self, clear: int) -> int | None:
        """The narrowest hem from which on the rule holds; None if it fails at the widest."""
        # What is to spare grows with the hem.
        holding = (hem for hem, rule in zip(self.hems, self._row(clear), strict=True) if rule.holds)
        return min(holding, default=None)

    def table(self) -> pd.DataFrame:
        """One row a hem and clear band: rule, need and slack in threads, and whether the rule holds."""
        import pandas as pd

        return pd.DataFrame(
            [
                {
                    "clear": clear,
                    "hem": hem,
                    "rule": rule.rule,
                    "need": rule.need,
                    "slack": rule.slack,
                    "holds": rule.holds,
                }
                for clear, row in zip(self.clears, self.rows, strict=True)
                for hem, rule in zip(self.hems, row, strict=True)
            ]
        )

    def __repr__(self) -> str:
        rules = [rule for row in self.rows for rule in row]
        holds = sum(rule.holds for rule in rules)
        size = f"{len(self.hems)} hems × {len(self.clears)} clear bands"
        return f"RuleTable({size}: holds in {holds} of {len(rules)})"

    def _repr_html_(self) -> str:
        """What the rule has to spare, in threads, with a minus sign where it fails."""
        rows = (
            [f"clear {clear}", *(f"{'−' if rule.slack < 0 else ''}{abs(rule.slack)}" for rule in row)]
            for clear, row in zip(self.clears, self.rows, strict=True)
        )
        caption = (
            "Threads that four times the hem has to spare; with a minus sign it is too little. "
            f"{self.drawn} drawn, handling {self.handling}."
        )
        return table_html(["threads", *(f"hem {hem}" for hem in self.hems)], rows, caption)

    def _row(self, clear: int) -> tuple[MarginRule, ...]:
        return self.rows[_index(self.clears, clear, "clear")]


def _index(numbers: tuple[int, ...], asked: object, about: str) -> int:
    if (number := whole_among(asked, numbers)) is not None:
        return numbers.index(number)
    held = ", ".join(str(number) for number in numbers[:8])
    raise HemError(
        f"{about} is {shown(asked)}, but this table has {held}{', …' if len(numbers) > 8 else ''}; "
        f"for example {numbers[0]}.",
        about,
    )


def rule_table(
    count: Count | str,
    hems: Sequence[int],
    clears: Sequence[int],
    *,
    drawn: int = 2,
    handling: int | str | Length = 0,
) -> RuleTable:
    """The rule for each of these hems with each of these clear bands, turn half the hem.

    Parameters
    ----------
    count : Count or str
        Count of the cloth; it matters only to a handling given as a length.
    hems, clears : sequence of int
        Threads, rising.
    drawn, handling
        As for `plan_edge`.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> table = rule_table("28/in", range(1, 13), (4, 8))
    >>> table.narrowest(4), table.narrowest(8), table.at(4, 8).slack
    (4, 7, -4)
    """
    across_hems, plain = _numbers(hems, "hems"), _numbers(clears, "clears")
    rows = tuple(
        tuple(plan_edge(count, hem, clear=clear, drawn=drawn, handling=handling).rule for hem in across_hems)
        for clear in plain
    )
    threads = plan_edge(count, 1, clear=0, drawn=drawn, handling=handling)
    return RuleTable(across_hems, plain, threads.drawn, threads.handling, rows)


def _numbers(value: object, about: str) -> tuple[int, ...]:
    numbers = several(value, about, "one or more numbers of threads", "range(4, 17)")
    if not 1 <= len(numbers) <= _MOST:
        raise HemError(
            f"{about} has {len(numbers)} numbers of threads, but must have from 1 to {_MOST}; "
            "for example range(4, 17).",
            about,
        )
    return tuple(whole_threads(number, about) for number in numbers)
