"""The cloth: two counts, kept apart, and what the first wash does to them.

Mind the axes. Warp threads run along the bolt and are counted *across* its width; weft
threads run across and are counted *down* its length. Shrinkage goes the other way about:
warp threads that shorten make the cloth shorter *down* its length.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from hemcalc.measure.counts import Count, as_count
from hemcalc.measure.errors import HemError, true_or_false
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import share
from hemcalc.measure.states import State
from hemcalc.measure.words import share_said

_MAX_SHRINKAGE = Fraction(1, 2)


@dataclass(frozen=True)
class Fabric:
    """An evenweave cloth.

    Parameters
    ----------
    warp : Count or str
        Count of the warp threads, counted across the width of the cloth in hand.
    weft : Count or str, optional
        Count of the weft threads, counted down the length; the warp's if left out.
    thickness : Length or str, optional
        Thickness of the cloth, for the section.
    shrink_warp, shrink_weft : Fraction, int, Decimal, float or str
        Share by which the threads of each kind shorten in the first wash, from 0 to 1/2:
        ``"8 %"`` or ``0.08``. A float is read as the decimal that it prints.
    washed : bool
        Whether the cloth in hand, and so the counts, have been through the first wash.

    Source
    ------
    Common practice of the trade, no published source. Shrinkage is (X0 - Xt) / X0, the
    negative of the dimensional change of UNE-EN ISO 5077:2008 (laboratory summary), AENOR /
    ISO, 2008, summary.

    Examples
    --------
    >>> cloth = Fabric("28/in", "27/in", shrink_warp="8 %", shrink_weft="3 %")
    >>> cloth.across.per_inch, cloth.down.per_inch
    (Fraction(28, 1), Fraction(27, 1))
    >>> cloth.shrink_across, cloth.shrink_down
    (Fraction(3, 100), Fraction(2, 25))
    >>> cloth.across_washed.per_inch == 28 / (1 - Fraction(3, 100))
    True
    """

    warp: Count
    weft: Count
    thickness: Length | None
    shrink_warp: Fraction
    shrink_weft: Fraction
    washed: bool

    def __init__(
        self,
        warp: Count | str,
        weft: Count | str | None = None,
        thickness: Length | str | None = None,
        shrink_warp: object = 0,
        shrink_weft: object = 0,
        washed: bool = False,
    ) -> None:
        values = {
            "warp": as_count(warp, "warp"),
            "weft": as_count(warp if weft is None else weft, "weft"),
            "thickness": None if thickness is None else as_length(thickness, "thickness"),
            "shrink_warp": share(shrink_warp, "shrink_warp", most=_MAX_SHRINKAGE),
            "shrink_weft": share(shrink_weft, "shrink_weft", most=_MAX_SHRINKAGE),
            "washed": true_or_false(washed, "washed"),
        }
        for name, value in values.items():
            object.__setattr__(self, name, value)
        self._check("warp", self.warp, self.shrink_across)
        self._check("weft", self.weft, self.shrink_down)

    @property
    def across(self) -> Count:
        """Count across the width, of the cloth as it is in hand: that of the warp."""
        return self.across_washed if self.washed else self.across_unwashed

    @property
    def down(self) -> Count:
        """Count down the length, of the cloth as it is in hand: that of the weft."""
        return self.down_washed if self.washed else self.down_unwashed

    @property
    def shrink_across(self) -> Fraction:
        """Share that the width loses: the weft threads run that way."""
        return self.shrink_weft

    @property
    def shrink_down(self) -> Fraction:
        """Share that the length loses: the warp threads run that way."""
        return self.shrink_warp

    @cached_property
    def across_washed(self) -> Count:
        """Count across the width after the first wash: no thread is lost, so it rises."""
        return self._count(self.warp, self.shrink_across, self.state(washed=True))

    @cached_property
    def down_washed(self) -> Count:
        """Count down the length after the first wash."""
        return self._count(self.weft, self.shrink_down, self.state(washed=True))

    @cached_property
    def across_unwashed(self) -> Count:
        """Count across the width before the first wash."""
        return self._count(self.warp, self.shrink_across, self.state(washed=False))

    @cached_property
    def down_unwashed(self) -> Count:
        """Count down the length before the first wash."""
        return self._count(self.weft, self.shrink_down, self.state(washed=False))

    @property
    def shrinks(self) -> bool:
        """Whether the first wash changes it."""
        return bool(self.shrink_warp or self.shrink_weft)

    @property
    def condition(self) -> str:
        """How the cloth in hand is: ``"washed"`` or ``"not washed yet"``."""
        return "washed" if self.washed else "not washed yet"

    def state(self, *, washed: bool) -> State:
        """The state of this cloth before or after its first wash, as its counts and lengths carry it.

        Where the wash changes nothing the ruler reads both on the cloth in hand.
        """
        return State(true_or_false(washed, "washed"), in_hand=washed == self.washed or not self.shrinks)

    def in_hand(self, *, washed: bool) -> Fabric:
        """The same cloth in hand before or after its first wash.

        Examples
        --------
        >>> raw = Fabric("28/in", shrink_warp="8 %")
        >>> washed = raw.in_hand(washed=True)
        >>> washed.down == raw.down_washed, washed.down_unwashed == raw.down
        (True, True)
        """
        if true_or_false(washed, "washed") == self.washed:
            return self
        warp, weft = (
            (self.across_washed, self.down_washed) if washed else (self.across_unwashed, self.down_unwashed)
        )
        return Fabric(warp, weft, self.thickness, self.shrink_warp, self.shrink_weft, washed)

    def unwashed_size(self, across: Length | str, down: Length | str) -> tuple[Length, Length]:
        """The size to have before the first wash so that this one is left after it.

        Formula: size / (1 - s), s of the threads that run that way. It holds whether or not
        the cloth in hand is washed already: one that is washed needs no more than the size.

        Examples
        --------
        >>> linen = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
        >>> [side.text("mm") for side in linen.unwashed_size(Length(300), Length(200))]
        ['≈ 309.3 mm', '≈ 217.4 mm']
        """
        before, after = self.state(washed=False), self.state(washed=True)
        width, long = (
            as_length(size, about, size=False).stated(after)
            for size, about in ((across, "across"), (down, "down"))
        )
        return (
            Length(width.mm / (1 - self.shrink_across), before),
            Length(long.mm / (1 - self.shrink_down), before),
        )

    @property
    def notes(self) -> tuple[str, ...]:
        """What is counted which way, and what shrinks which way, in sentences."""
        state = "after" if self.washed else "before"
        return (
            f"Warp threads are counted across the width: {self.across}.",
            f"Weft threads are counted down the length: {self.down}.",
            f"Weft threads run across: their shrinkage takes {share_said(self.shrink_across)} off the width.",
            f"Warp threads run down: their shrinkage takes {share_said(self.shrink_down)} off the length.",
            f"The counts were taken {state} the first wash.",
        )

    def __repr__(self) -> str:
        thick = f", {self.thickness:mm} thick" if self.thickness else ""
        lost = (
            f"{share_said(self.shrink_across)} × {share_said(self.shrink_down)}"
            if self.shrinks
            else "nothing"
        )
        return (
            f"Fabric({self.across} across × {self.down} down{thick}, {self.condition}, the wash takes {lost})"
        )

    def _count(self, count: Count, lost: Fraction, state: State) -> Count:
        """A count of the cloth in hand as it is in this state: no thread is lost in the wash, so it rises.

        What shrinks is the stretch that was counted; so a measured count stays measured, and
        its error the same share. How sure the shrinkage itself is, nobody here knows.
        """
        if state.washed == self.washed:
            return count.stated(state)
        share = 1 - lost if state.washed else 1 / (1 - lost)
        return count.lying_over(Length(count.over.mm * share, state))

    def _check(self, kind: str, count: Count, lost: Fraction) -> None:
        """Refused at once, and not when first asked for: what no loom weaves, a count of another state."""
        now, then = self.state(washed=self.washed), self.state(washed=not self.washed)
        try:
            self._count(count, lost, now)
        except HemError:
            raise HemError(
                f"{kind} is a count {then.when}, but the cloth in hand is one {now.when}; for example "
                f"washed={not self.washed}, or Fabric.in_hand.",
                kind,
            ) from None
        try:
            self._count(count, lost, then)
        except HemError:
            raise HemError(
                f"{kind} is {count}, but {then.when}, which takes {share_said(lost)} off, it must be from "
                "1 to 1000 threads to the inch too; for example '28/in' and '8 %'.",
                kind,
            ) from None
