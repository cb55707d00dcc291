"""Where the margin rule of four hems is enough, and where it fails, over many edges.

The rule is a rule of thumb: it fails for narrow hems with a wide clear band and grows
generous for deep hems. A table of it is the lesson that a leader wants to show.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hemcalc.edge.ledger import plan_edge
from hemcalc.edge.margin import MarginRule
from hemcalc.measure.counts import Count
from hemcalc.measure.lengths import Length

__all__ = ["RuleTable", "rule_table"]


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
        return self.rows[self.clears.index(clear)][self.hems.index(hem)]

    def narrowest(self, clear: int) -> int | None:
        """The narrowest hem from which on the rule holds; None if it fails at the widest."""
        row = self.rows[self.clears.index(clear)]
        holding = None
        for hem, rule in zip(reversed(self.hems), reversed(row), strict=True):
            if not rule.holds:
                break
            holding = hem
        return holding


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

    Raises
    ------
    HemError
        If a number is not possible.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> table = rule_table("28/in", range(1, 13), (4, 8))
    >>> table.narrowest(4), table.narrowest(8), table.at(4, 8).slack
    (4, 7, -4)
    """
    rows = tuple(
        tuple(plan_edge(count, hem, clear=clear, drawn=drawn, handling=handling).rule for hem in hems)
        for clear in clears
    )
    threads = plan_edge(count, 1, clear=0, drawn=drawn, handling=handling)
    return RuleTable(tuple(hems), tuple(clears), threads.drawn, threads.handling, rows)
