"""What a piece takes of thread, once it has been worked out, and how one sample corrects it.

The plan holds amounts as ranges; lengths to cut from the ball are whole needlefuls, and so
exact again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from hemcalc.measure.errors import of_type, one_of
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import share
from hemcalc.measure.units import MILLIMETRES, UNITS
from hemcalc.stitch.amount import Amount, needlefuls
from hemcalc.stitch.path import StitchPath

if TYPE_CHECKING:
    from pandas import DataFrame

#: Units in which the sums speak of a stitch and of a ball of thread.
_SMALL = {"in": "in", "cm": "mm", "mm": "mm"}
_LARGE = {"in": "yd", "cm": "m", "mm": "m"}


@dataclass(frozen=True, slots=True)
class Sample:
    """What a worked and measured sample took of thread.

    Parameters
    ----------
    stitches : int
        Hem stitches worked, in the groups and depth of the plan.
    used : Length or str
        Thread in them: what was threaded less what is left, tails not counted.
    within : share
        How far a stitch of this hand may be off the sample's mean; assumed 5 % if not said,
        no source: one sample cannot tell.

    Examples
    --------
    >>> Sample(20, "27 cm").each_mm
    13.5
    """

    stitches: int
    used: Length
    within: Fraction

    def __init__(self, stitches: int, used: Length | str, within: object = "5 %") -> None:
        worked = whole_threads(stitches, "stitches", least=1, example=20)
        object.__setattr__(self, "stitches", worked)
        object.__setattr__(self, "used", as_length(used, "used"))
        object.__setattr__(self, "within", share(within, "within", most=Fraction(1, 2)))

    def __repr__(self) -> str:
        return f"Sample({self.stitches} stitches, {self.used.text('cm')})"

    @property
    def each_mm(self) -> float:
        """Thread in one stitch of the sample."""
        return float(self.used.mm / self.stitches)


@dataclass(frozen=True, slots=True)
class StitchedSide:
    """Hem stitch along one side: its groups, and the path of a mean stitch, low to high."""

    name: str
    threads: int
    group: int
    stitches: int
    paths: tuple[StitchPath, StitchPath, StitchPath]

    def text(self) -> str:
        """The side's own sum."""
        about = "" if self.threads == self.stitches * self.group else "about "
        return (
            f"{self.name.capitalize()}: {self.threads} threads in groups of {about}{self.group} make "
            f"{self.stitches} stitches."
        )

    @property
    def amount(self) -> Amount:
        """Thread in the side's stitches."""
        return Amount(*(self.stitches * path.length_mm for path in self.paths))


@dataclass(frozen=True, slots=True)
class ThreadPlan:
    """The thread that a piece takes.

    Made by `thread_needed`.
    """

    sides: tuple[StitchedSide, ...]
    seam: str
    seam_stitches: int
    #: Thread in the mitre seams.
    seams: Amount
    #: Thread in the basted lines round: both folds and the cut.
    basting: Amount
    working: Length
    #: What start and end take of each length.
    ends: Length
    #: Least and most.
    waste: tuple[Fraction, Fraction]
    #: What was not known, and what it was taken as, in sentences.
    assumptions: tuple[str, ...]
    sample: Sample | None = None

    def __repr__(self) -> str:
        return f"ThreadPlan({self.stitches} stitches, {self.sewn.text('m')}; buy {self.buy().text('cm')})"

    def table(self, unit: str = "cm") -> DataFrame:
        """A row for each use of thread: its stitches, if they are counted, and its length as a range.

        Examples
        --------
        >>> from hemcalc.piece.examples import example
        >>> from hemcalc.stitch.thread import thread_needed
        >>> int(thread_needed(example("coaster")).table("m").loc["hem stitch", "stitches"])
        84
        """
        from pandas import DataFrame

        one_of(unit, tuple(MILLIMETRES), "unit")
        size = float(MILLIMETRES[unit])
        rows = {
            use: (stitches, amount.low_mm / size, amount.middle_mm / size, amount.high_mm / size)
            for use, stitches, amount in self._uses()
        }
        columns = ["stitches", f"least, {unit}", f"middle, {unit}", f"most, {unit}"]
        return DataFrame.from_dict(rows, orient="index", columns=columns)

    def _uses(self) -> tuple[tuple[str, int | None, Amount], ...]:
        return (
            ("hem stitch", self.stitches, self.hem),
            (f"{self.seam} stitch", self.seam_stitches, self.seams),
            ("basting", None, self.basting),
        )

    def _repr_html_(self) -> str:
        rows = [
            [use, "" if stitches is None else str(stitches), amount.text("cm")]
            for use, stitches, amount in self._uses()
        ]
        to_buy = f"to buy for stitches and seams: {self.buy().text('cm')}"
        return table_html(["thread for", "stitches", "takes"], rows, f"The thread that it takes; {to_buy}")

    @property
    def stitches(self) -> int:
        """Hem stitches on all sides."""
        return sum(side.stitches for side in self.sides)

    @property
    def by_path(self) -> Amount:
        """Thread in the hem stitches as their path says, whatever a sample says."""
        return sum((side.amount for side in self.sides), Amount(0.0, 0.0, 0.0))

    @property
    def factor(self) -> float:
        """What the sample took for each bit of thread that the path says; 1 without one."""
        if self.sample is None:
            return 1.0
        return self.sample.each_mm / (self.by_path.middle_mm / self.stitches)

    @property
    def hem(self) -> Amount:
        """Thread in the hem stitches: by the path, or by the sample if there is one."""
        if self.sample is None:
            return self.by_path
        likely, off = self.by_path.middle_mm * self.factor, float(self.sample.within)
        return Amount(likely * (1 - off), likely, likely * (1 + off))

    @property
    def per_stitch(self) -> Amount:
        """Thread in a mean hem stitch."""
        each = 1 / self.stitches
        return self.hem.times(each, each, each)

    @property
    def sewn(self) -> Amount:
        """Thread in stitches and seams with waste, before starts and ends."""
        least, most = (float(1 + part) for part in self.waste)
        return (self.hem + self.seams).times(least, (least + most) / 2, most)

    @property
    def needlefuls(self) -> tuple[int, int]:
        """Working lengths for stitches and seams, fewest and most."""
        return self._needlefuls(self.sewn)

    @property
    def to_cut(self) -> tuple[Length, Length]:
        """Thread cut from the ball for stitches and seams, least and most."""
        fewest, most = self.needlefuls
        return self.working * fewest, self.working * most

    def buy(self, mark: Length | str = "50 cm") -> Length:
        """Thread to have for stitches and seams: the most, rounded up to a mark."""
        return self.to_cut[1].rounded_up(as_length(mark, "mark"))

    def calibrate(self, sample: Sample) -> ThreadPlan:
        """The plan corrected by a sample worked in the same groups on the same cloth.

        The sample replaces what the path only guesses: its mean stitch becomes the plan's, and
        its own uncertainty the range. Seams and basting stay as they were.
        """
        of_type(sample, Sample, "sample", "Sample(20, '27 cm')")
        return replace(self, sample=sample)

    @property
    def notes(self) -> tuple[str, ...]:
        """What was assumed, and what the reader should look at again, in sentences."""
        if self.sample is None:
            return self.assumptions
        sampled = (
            f"A sample of {self.sample.stitches} stitches took {self.factor:.2f} times what the path says, "
            "and counts instead of it."
        )
        if 0.5 <= self.factor <= 2:
            return (*self.assumptions, sampled)
        return (*self.assumptions, sampled + " Count its stitches again, and leave its tails out.")

    def sums(self, unit: str = "cm") -> tuple[str, ...]:
        """The whole sum, a line for each step; in cm and mm, amounts of thread are said in m, else in yd."""
        small, large = _SMALL[one_of(unit, UNITS, "unit")], _LARGE[unit]
        said_by = "its path" if self.sample is None else "the sample"
        lengths = " to ".join(str(cut) for cut in dict.fromkeys(self.needlefuls))
        wasted = " to ".join(f"{float(part * 100):g}" for part in dict.fromkeys(self.waste))
        return (
            *(side.text() for side in self.sides),
            f"A hem stitch takes {self.per_stitch.text(small)}, by {said_by}.",
            f"{self.stitches} of them take {self.hem.text(large)}.",
            f"{self.seam_stitches} {self.seam} stitches in the mitre seams take {self.seams.text(large)}.",
            f"With {wasted} % of waste that is {self.sewn.text(large)}.",
            f"Each {self.working.text(unit)} sews {(self.working - self.ends).text(unit)}: "
            f"{lengths} lengths.",
            f"Basting both folds and the cut takes {self.basting.text(large)}.",
        )

    def _needlefuls(self, amount: Amount) -> tuple[int, int]:
        low, high = (needlefuls(mm, self.working, self.ends) for mm in (amount.low_mm, amount.high_mm))
        return low, high
