"""Pieces laid out on a bolt: what is used, what to buy, how good it is, and every step in words."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hemcalc.bolt.allowances import BoltAllowances
from hemcalc.bolt.cutting import CutUp
from hemcalc.bolt.shop_unit import ShopUnit
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import percent

_TIGHT = Length(10)  # of slack, less than which a leader had better buy one unit more


@dataclass(frozen=True, repr=False)
class Layout(CutUp):
    """Pieces laid out on a bolt, made by `cut_from_bolt`.

    Its width and length are the cloth to cut from: washed, if it is washed first, and its ends
    squared.
    """

    grain: str
    #: What the shop sells by.
    sold_by: ShopUnit
    #: Usable width of the bolt in the shop.
    bought_width: Length
    #: What is bought beside the pieces.
    allow: BoltAllowances
    #: Length to cut from that the pieces take.
    used: Length
    #: No layout takes less than this.
    bound: Length
    #: What says so: "area", "patterns" side by side, or a "search" that tried all that is shorter.
    bound_by: str
    #: What the reader should know of how it was found, in sentences.
    notes: tuple[str, ...]

    def __repr__(self) -> str:
        return f"Layout(buy {self.sold_by.text(self.to_buy)}, {self.width.text('cm')} wide: {self._had()})"

    @property
    def needed(self) -> Length:
        """The length to have from the shop, before it is rounded up to the shop's unit."""
        return self.allow.to_have(self.used)

    @property
    def to_buy(self) -> Length:
        """The length to buy, in whole units of the shop."""
        return self.sold_by.up(self.needed)

    @property
    def slack(self) -> Length:
        """What rounding up to the shop's unit leaves over."""
        return self.to_buy - self.needed

    @property
    def waste(self) -> Fraction:
        """Share of what is bought, as it is when it is cut, that becomes no piece."""
        bought = self.to_buy.mm * (1 - self.allow.off_length) * self.width.mm
        return 1 - sum(piece.bit.area_mm2 for piece in self.pieces) / bought

    @property
    def gap(self) -> Length:
        """How much longer the layout is than the bound."""
        return self.used - self.bound

    @property
    def gap_share(self) -> Fraction:
        """The gap as a share of the bound."""
        return Fraction(self.gap / self.bound)

    @property
    def proven(self) -> bool:
        """Whether no layout takes less of the bolt."""
        return self.used == self.bound

    @property
    def proven_to_buy(self) -> bool:
        """Whether no layout lets you buy less, in whole units of the shop."""
        return self.sold_by.up(self.allow.to_have(self.bound)) == self.to_buy

    def buy_text(self, unit: str = "in") -> str:
        """What to ask for, in the shop's unit and the reader's."""
        return self.sold_by.beside(self.to_buy, unit)

    def text(self, unit: str = "in") -> str:
        """What to buy, what is allowed for, how good the layout is, and the notes, in sentences."""
        bolt = f"a bolt {self.bought_width.text(unit)} wide"
        words = (
            f"Buy {self.buy_text(unit)}: the pieces take {self.used.text(unit)} of {bolt}, and "
            f"{percent(self.waste)} of what is bought is left over."
        )
        said = [words, self.allow.text(unit), self._slack_text(unit), self._how_good(unit), *self.notes]
        return " ".join(said)

    def _slack_text(self, unit: str) -> str:
        if self.slack >= _TIGHT:
            return f"Slack after rounding up: {self.slack.text(unit)}."
        over = self.slack.text(unit) if self.slack else "none"
        safer = self.sold_by.beside(self.to_buy + self.sold_by.each, unit)
        return f"No slack after rounding up ({over}): the next unit, {safer}, is safer."

    def steps(self, unit: str = "in") -> tuple[str, ...]:
        """What comes before the first cut, and then every cut in order, in words."""
        first = []
        if self.allow.washed_first:
            first.append(
                f"Wash first: the whole {self.buy_text(unit)}, before anything is cut. "
                f"{percent(self.allow.off_length)} off its length and {percent(self.allow.off_width)} off "
                f"its width are allowed, which leaves {self.width.text(unit)} of usable width: measure it."
            )
        if self.allow.ends:
            first.append(
                "Square both ends: draw one thread right across, as near to the shop's cut as one runs whole "
                f"from selvedge to selvedge, and cut along it; {self.allow.ends.text(unit)} are allowed at "
                f"each. There must be {(self.used + self.allow.spare).text(unit)} left at the least."
            )
        return (*first, *super().steps(unit))

    def _how_good(self, unit: str) -> str:
        bound = self.bound.text(unit)
        if self.proven:
            return f"No layout by straight cuts is shorter than {bound} ({_REASONS[self.bound_by]})."
        words = (
            f"This layout was found, not proven: none by straight cuts is shorter than {bound} "
            f"({_REASONS[self.bound_by]}), and this one is {self.gap.text(unit)} longer than that, "
            f"{percent(self.gap_share)}."
        )
        if self.proven_to_buy:
            return f"{words} None lets you buy less, in steps of {self.sold_by.text(self.sold_by.each)}."
        return f"{words} A shorter one may be possible."


_REASONS = {
    "area": "by area and width",
    "patterns": "by what fits side by side",
    "search": "all that is shorter was tried",
}
