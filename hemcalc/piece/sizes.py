"""How large something is, and what that size is for.

A size is kept in threads, which the wash does not change, and in exact lengths before and
after it. What is to be cut is wide enough for its threads though a measured count be off by
its error, and rounded up to a mark that a ruler has. By how much the wash may take more or
less than is said, nobody here knows, and no size allows for it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.counts import Count, MeasuredCount
from hemcalc.measure.errors import HemError, one_of
from hemcalc.measure.exact import decimal_text
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import RULER_MARK, Length
from hemcalc.measure.states import joint_state, said_of
from hemcalc.measure.words import percent

#: What a size is for, and what is said before it. Only the first is cut to.
USES = {
    "to cut": "cut",
    "by the rule": "the rule of four alone takes",
    "trimmed": "trimmed",
    "finished": "finished",
}


#: What a piece is on when its finish begins: a design stitched already; blank cloth, cut to size
#: first; or blank cloth that is larger, in a hoop or not, and is cut only when the lines are basted.
BEGINNINGS = ("stitched", "blank, to size", "blank, larger")


@dataclass(frozen=True, slots=True)
class Extent:
    """How far something goes one way: threads, and its length before and after the wash."""

    threads: int
    before: Length
    after: Length
    #: The count by which it was reckoned, before the wash: what it may be off by, so may the lengths.
    count: Count | None = None

    def __repr__(self) -> str:
        wash = self.before.mm != self.after.mm
        after = f"{Length(self.after.mm).text('in')}{' after the wash' if wash else ''}"
        before = f"{Length(self.before.mm).text('in')} before it" if wash else ""
        return f"Extent({', '.join(filter(None, (f'{self.threads} threads', after, before)))})"

    @property
    def error(self) -> Fraction:
        """Share by which its count may be off, at the count's confidence."""
        return self.count.error if self.count else Fraction(0)

    @property
    def widening(self) -> Fraction:
        """Share that is added when it is cut, for it to have its threads though the count be off."""
        return 1 / (1 - self.error) - 1


@dataclass(frozen=True, slots=True)
class Size:
    """How large something is, across and down."""

    across: Extent
    down: Extent
    #: Whether the cloth in hand has been washed, and is cut at its size after the wash.
    washed: bool
    #: What it is for, one of `USES`: what is finished says no "cut".
    use: str

    def __post_init__(self) -> None:
        one_of(self.use, tuple(USES), "use")

    def __repr__(self) -> str:
        size, _ = self.parts()
        return f"Size({USES[self.use]} {size}, {self.across.threads} × {self.down.threads} threads)"

    def _repr_html_(self) -> str:
        rows = []
        for i, (way, side) in enumerate((("across", self.across), ("down", self.down))):
            lengths = [Length(length.mm).text("in") for length in (side.before, side.after)]
            cut = [self.to_cut("in")[i].text("in")] if self.use == "to cut" else []
            rows.append([way, str(side.threads), *cut, *lengths])
        columns = ["way", "threads", "before the wash", "after the wash"]
        if self.use == "to cut":
            columns.insert(2, "to cut")
        return table_html(columns, rows, self.text("in"))

    @property
    def threads(self) -> tuple[int, int]:
        """Threads across and down."""
        return self.across.threads, self.down.threads

    @property
    def before(self) -> tuple[Length, Length]:
        """Exact size before the wash."""
        return self.across.before, self.down.before

    @property
    def after(self) -> tuple[Length, Length]:
        """Exact size after the wash."""
        return self.across.after, self.down.after

    @property
    def in_hand(self) -> tuple[Length, Length]:
        """Exact size on the cloth as it is in hand."""
        return self.after if self.washed else self.before

    @property
    def sure(self) -> tuple[Length, Length]:
        """The size in hand that has its threads, as sure as the counts are."""
        across, down = self.in_hand
        return across * (1 + self.across.widening), down * (1 + self.down.widening)

    def to_cut(self, unit: str | None = None) -> tuple[Length, Length]:
        """The sure size in hand, rounded up to a mark that a ruler has: 1/8 in, 0.5 cm or 1 mm.

        A cloth cut to it by the ruler is large enough both ways as often as the counts' confidence says. With
        counts that are given, and not measured, nothing is added. Refused if nothing is cut to this size: if
        it is that of the trimmed or the finished piece.

        Examples
        --------
        >>> once = Count.measured([28], over="1 in")
        >>> side = extent(312, once, once)
        >>> [length.text("in") for length in Size(side, side, washed=True, use="to cut").to_cut("in")]
        ['11 5/8 in', '11 5/8 in']
        """
        mark = RULER_MARK[self._unit_or(unit)]
        if self.use in ("trimmed", "finished"):
            raise HemError(
                f"No cloth is cut to the {self.use} size, which leaves nothing to fold or to hold; ask for "
                "what is cut, for example piece.cut_size.to_cut('in').",
                "use",
            )
        across, down = self.sure
        return across.rounded_up(mark), down.rounded_up(mark)

    def _unit_or(self, unit: str | None) -> str:
        """The unit asked for, or that of the count, if it is known."""
        return (self.across.count or Count("1/in")).unit_or(unit)

    def by_thread(self, unit: str | None = None) -> bool:
        """Whether to cut by the thread: whether the counts' errors reach past the ruler's next mark."""
        mark = RULER_MARK[self._unit_or(unit)]
        return self.to_cut(unit) != tuple(length.rounded_up(mark) for length in self.in_hand)

    @property
    def off(self) -> tuple[Length, Length]:
        """How far the lengths may be off after the wash, either way, at the counts' confidence."""
        return self.across.after * self.across.widening, self.down.after * self.down.widening

    def give_or_take(self, unit: str | None = None) -> str:
        """How far the lengths may be off after the wash, in words; empty if the counts are given.

        Examples
        --------
        >>> once = Count.measured([28], over="1 in")
        >>> side = extent(280, once, once)
        >>> Size(side, side, washed=True, use="to cut").give_or_take("in")
        'give or take 7/16 in across and 7/16 in down'
        """
        unit = self._unit_or(unit)
        mark = RULER_MARK["in"] / 2 if unit == "in" else RULER_MARK["mm"]
        across, down = (length.rounded_up(mark).text(unit) if length else "" for length in self.off)
        said = " and ".join(filter(None, (across and f"{across} across", down and f"{down} down")))
        return f"give or take {said}" if said else ""

    def text(self, unit: str | None = None) -> str:
        """What the size is for, and how large it is.

        A size to cut is rounded up to a mark of the ruler, on the cloth in hand; a trimmed one is what
        a ruler then reads on it; a finished one is what it comes to after the wash.

        Examples
        --------
        >>> side = Extent(312, Length("11 1/7 in"), Length("11 1/7 in"))
        >>> Size(side, side, washed=True, use="to cut").text("in")
        'cut 11 1/4 in across × 11 1/4 in down (312 × 312 threads, rounded up to 1/8 in)'
        >>> Size(side, side, washed=True, use="finished").text("cm")
        'finished ≈ 28.3 cm across × ≈ 28.3 cm down (312 × 312 threads)'
        """
        size, aside = self.parts(unit)
        return f"{USES[self.use]} {size} ({aside})"

    def parts(self, unit: str | None = None) -> tuple[str, str]:
        """How large it is, without what it is for; and its threads, with what was added or may be off.

        Examples
        --------
        >>> side = Extent(312, Length("11 1/7 in"), Length("11 1/7 in"))
        >>> Size(side, side, washed=True, use="to cut").parts("in")
        ('11 1/4 in across × 11 1/4 in down', '312 × 312 threads, rounded up to 1/8 in')
        """
        unit = self._unit_or(unit)
        match self.use:
            case "finished":
                size, aside = self.after, self.give_or_take(unit)
            case "trimmed":
                size, aside = self.in_hand, ""
            case _:
                size = self.to_cut(unit)
                aside = f"{self._widened()}rounded up to {RULER_MARK[unit].text(unit)}"
        said = size_text(size, unit, "{} across × {} down")
        return said, ", ".join(filter(None, ("{} × {} threads".format(*self.threads), aside)))

    def _widened(self) -> str:
        """What is added for the error of measured counts, and how sure that is."""
        sides = (("across", self.across), ("down", self.down))
        # In tenths of a per cent, upward.
        shares = [(way, Fraction(math.ceil(side.widening * 1000), 1000)) for way, side in sides if side.error]
        added = [f"{percent(share)} {way}" for way, share in shares]
        if not added:
            return ""
        sure = min(s.count.confidence for _, s in sides if isinstance(s.count, MeasuredCount))
        # Rounded down, as the shares are rounded up: no more is said than holds.
        return (
            f"with {' and '.join(added)} added for the error of the count, to be large enough "
            f"{decimal_text(Fraction(math.floor(sure * 1000), 10))} times in 100, "
        )


def size_text(size: tuple[Length, Length], unit: str, form: str = "{} × {}") -> str:
    """A size in words, its state said once, where no ruler reads it on the cloth in hand.

    Examples
    --------
    >>> from hemcalc.measure.fabric import Fabric
    >>> raw = Fabric("20/in", shrink_warp="20 %")
    >>> size_text((raw.across_washed.width(80), raw.down_washed.width(80)), "cm")
    '10.16 cm × ≈ 8.13 cm after the wash'
    """
    across, down = size
    said = said_of(joint_state(across.state, down.state))
    return form.format(Length(across.mm).text(unit), Length(down.mm).text(unit)) + said


def extent(threads: int, before: Count, after: Count) -> Extent:
    """How far so many threads go, on cloth of these counts before and after the wash."""
    return Extent(threads, before.width(threads), after.width(threads), before)
