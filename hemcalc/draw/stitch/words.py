"""A hem stitch that is to be shown, and what is said of it: each step's sentence, and its lengths.

The stitch is worked from the wrong side, toward which the hem is folded.
"""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.measure.errors import of_type, one_of, several
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.units import MILLIMETRES, UNITS
from hemcalc.measure.words import so_many
from hemcalc.stitch.groups import WORKED, way_of
from hemcalc.stitch.path import PathPoint, StitchPath

__all__ = ["LAST", "SEEN", "STEPS", "Stitched", "headline", "length_text", "lengths", "stitch_alt"]

#: Sides of the cloth from which the stitch may be looked at: it is worked from the wrong one.
SEEN = ("wrong side", "right side")

#: What the needle does to come to each point of the path, by the point's name.
STEPS = {
    "out of the hem": "Needle and thread are out on the wrong side, in the hem.",
    "over the fold": "The thread lies over the hem and its fold.",
    "far side, over": "Over the group, on the wrong side, to its far edge.",
    "far side, behind": "Down through the open line to the right side.",
    "near side, behind": "Behind the group, on the right side, back to its near edge.",
    "near side, over": "Up through the open line to the wrong side.",
    "far side, over again": "Over the group once more; now pull it together.",
    "far side, behind again": "Down through the open line again.",
    "behind the hem": "Behind the hem, on the right side, to the next place.",
    "under the fold": "In under the edge of the hem, upon its face.",
    "within the hem": "Between the layers of the hem, to the next place.",
    "out of the hem again": "Up through the hem: the next stitch begins.",
}


#: Legs of the path.
LAST = 9


@dataclass(frozen=True, slots=True)
class Stitched:
    """What the picture shows: a stitch, worked as far as a step, by a hand, seen from a side.

    Parameters
    ----------
    path : StitchPath
        From `hem_stitch`, as it is worked along x.
    group, depth : int
        Threads of the group, and threads that the needle bites deep.
    hand : str
        Hand that holds the needle.
    step : int
        Legs of the path that are worked, from 0; all of them if left out.
    seen : str
        One of `SEEN`.
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"`` for the lengths.
    amounts : tuple of str
        Sentences that stand below the picture.
    worked : str, optional
        ``"left to right"`` or ``"right to left"``, as the worker sees it; what comes naturally to the
        hand if left out.

    Raises
    ------
    HemError
        If the hand, side or unit is none, or there is no such step.

    Examples
    --------
    >>> from hemcalc.stitch.path import hem_stitch
    >>> stitched = Stitched(hem_stitch("4 mm", "2 mm", "0.5 mm"), 4, 2, step=3)
    >>> stitched.plies, stitched.ply_mm, stitched.way
    (3, 0.5, 'worked from left to right')
    """

    path: StitchPath
    group: int
    depth: int
    hand: str = "right"
    step: int = LAST
    seen: str = SEEN[0]
    unit: str = "cm"
    amounts: tuple[str, ...] = ()
    worked: str | None = None

    def __post_init__(self) -> None:
        way_of(self.hand, self.worked)
        one_of(self.seen, SEEN, "seen")
        one_of(self.unit, UNITS, "unit")
        of_type(self.path, StitchPath, "path", "hem_stitch('4 mm', '2 mm', '0.5 mm')")
        for name, least, most in (("group", 1, 99), ("depth", 1, 99), ("step", 0, LAST)):
            of = "threads" if least else ""
            many = whole_threads(getattr(self, name), name, least=least, most=most, example=3, of=of)
            object.__setattr__(self, name, many)
        for amount in several(self.amounts, "amounts", "sentences", "thread_needed(piece).sums()"):
            of_type(amount, str, "amounts", "thread_needed(piece).sums()[0]")

    @property
    def from_wrong(self) -> bool:
        """Whether the wrong side is seen, as the worker sees it."""
        return self.seen == SEEN[0]

    @property
    def rightward(self) -> bool:
        """Whether the work goes to the right, as it is seen."""
        return (way_of(self.hand, self.worked) == WORKED[0]) == self.from_wrong

    @property
    def as_seen(self) -> StitchPath:
        """The path with x to the right."""
        return self.path if self.rightward else self.path.mirrored

    @property
    def way(self) -> str:
        """Which way the work goes, as it is seen."""
        return f"worked from {'left to right' if self.rightward else 'right to left'}"

    @property
    def pitch_mm(self) -> float:
        """Width of one thread of the group as it lies."""
        return self.path.advance_mm / self.group

    @property
    def half_thread_mm(self) -> float:
        """How far the middle of the sewing thread runs outside the cloth."""
        return -self._point("far side, behind").z_mm

    @property
    def catches(self) -> str:
        """Which layers of the hem the bite goes through."""
        if any(point.name == "behind the hem" for point in self.path.points):
            return f"through all {self.plies} layers of the hem"
        return "through the back" + (" and the turn" if self.plies > 2 else "") + ", not the face"

    @property
    def ply_mm(self) -> float:
        """Thickness of one layer."""
        return self._point("far side, over").z_mm - self.half_thread_mm

    @property
    def plies(self) -> int:
        """Layers of the hem."""
        hem = self._point("out of the hem").z_mm - self.half_thread_mm
        return round(hem / self.ply_mm) if self.ply_mm else 0

    @property
    def pulled_mm(self) -> float:
        """Width that the pulled thread leaves the group."""
        near, far = self._point("near side, over").x_mm, self._point("far side, over").x_mm
        return far - near - 2 * self.half_thread_mm

    @property
    def worked_mm(self) -> float:
        """Thread in the legs that are worked."""
        return sum(self.path.legs_mm[: self.step])

    def _point(self, name: str) -> PathPoint:
        return next(point for point in self.path.points if point.name == name)


def headline(stitched: Stitched) -> str:
    """The step's number and sentence."""
    return f"{stitched.step} of {LAST}: {STEPS[stitched.path.points[stitched.step].name]}"


def lengths(stitched: Stitched) -> str:
    """Thread in the legs worked so far, and in the whole path."""
    unit = stitched.unit
    whole = length_text(stitched.path.length_mm, unit)
    if stitched.step == LAST:
        return f"The path of this stitch takes {whole}."
    return (
        f"So far {length_text(stitched.worked_mm, unit)}, of the {whole} that the path of this stitch takes."
    )


def length_text(mm: float, unit: str) -> str:
    """A stitch's length in words, rounded to 0.01 in or 0.1 mm: it is measured, not counted.

    Examples
    --------
    >>> length_text(12.34, "in"), length_text(12.34, "cm")
    ('0.49 in', '12.3 mm')
    """
    return f"{mm / float(MILLIMETRES['in']):.2f} in" if unit == "in" else f"{mm:.1f} mm"


def stitch_alt(stitched: Stitched) -> str:
    """The picture in words, with its numbers."""
    unit = stitched.unit
    deep = so_many(stitched.depth, "thread")
    words = (
        f"One hem stitch of the {stitched.hand} hand seen from the {stitched.seen}, {stitched.way}, and in "
        f"section through the hem: a group of {stitched.group} threads, "
        f"{length_text(stitched.path.advance_mm, unit)}, pulled to {length_text(stitched.pulled_mm, unit)}; "
        f"{deep} deep, {stitched.catches}. Step {headline(stitched)} {lengths(stitched)}"
    )
    return " ".join((words, *stitched.amounts))
