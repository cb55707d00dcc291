"""The margin rule: leave four times the hem of cloth all round, and is that enough?

A rule of thumb, held here against the threads that the edge's ledger needs. Both are numbers
of threads on a cloth of one count, and lengths. Threads are counted on the cloth itself: an
error of its count touches the lengths alone, and never whether the rule holds.
"""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.measure.counts import Count
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import threads_said


@dataclass(frozen=True, slots=True)
class MarginRule:
    """The margin rule held against what the ledger needs. Made by an `Edge`.

    The rule asks four times the hem; the ledger needs clear + drawn + 2 hems + turn +
    handling. With a turn of half the hem the rule is enough exactly when
    3 hem / 2 ≥ clear + drawn + handling.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> narrow = MarginRule(Count("28/in"), rule=16, need=20)
    >>> narrow.slack, narrow.holds, narrow.margin
    (-4, False, 20)
    """

    count: Count
    rule: int
    need: int

    def __repr__(self) -> str:
        said = f"{threads_said(self.slack)} to spare" if self.holds else f"{threads_said(-self.slack)} short"
        return f"MarginRule(rule {self.rule}, need {self.need}: {said})"

    @property
    def slack(self) -> int:
        """Threads that the rule has to spare; negative when it fails."""
        return self.rule - self.need

    @property
    def holds(self) -> bool:
        """Whether the rule leaves at least what the ledger needs."""
        return self.slack >= 0

    @property
    def margin(self) -> int:
        """Threads of cloth to leave: the larger of rule and need."""
        return max(self.rule, self.need)

    @property
    def rule_length(self) -> Length:
        """The rule as a length."""
        return self.count.width(self.rule)

    @property
    def need_length(self) -> Length:
        """The need as a length."""
        return self.count.width(self.need)

    @property
    def slack_length(self) -> Length:
        """How long the slack is: to spare if the rule holds, short if it fails."""
        return self.count.width(abs(self.slack))

    @property
    def margin_length(self) -> Length:
        """The margin to leave, as a length."""
        return self.count.width(self.margin)
