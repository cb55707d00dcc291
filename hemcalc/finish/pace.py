"""How quickly a hand works: by a sample of five minutes, or as many hands do, from memory."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.exact import whole_threads
from hemcalc.measure.measured import share

#: Hem stitches, and crossings darned, in five minutes, by slow and by quick learners. From memory; no source.
_STITCHES = (10, 20)
_CROSSINGS = (30, 60)
_MAX_SAMPLE = 1000  # in five minutes: no hand does three a second


@dataclass(frozen=True, slots=True)
class Pace:
    """What a hand does in five minutes, threading, fastening and counting with it.

    Parameters
    ----------
    stitches : int, optional
        Hem stitches worked in five minutes; 10 to 20 from memory, if left out.
    crossings : int, optional
        Crossings darned in five minutes; 30 to 60 from memory, if left out.
    within : share
        How far the hand may be off its one sample; assumed 20 % if not said, no source: one
        sample cannot tell.

    Source
    ------
    From memory, no published source; five minutes of one's own are worth more.

    Examples
    --------
    >>> Pace(15, 40)
    Pace(15 stitches and 40 crossings in five minutes, give or take 20 %)
    >>> [round(minutes) for minutes in Pace(15, 40).stitching(120)]
    [32, 48]
    >>> Pace(15)
    Pace(15 stitches and 30 to 60 crossings in five minutes, give or take 20 %)
    >>> Pace(crossings=40, within="10 %")
    Pace(10 to 20 stitches and 40 crossings in five minutes, give or take 10 %)
    >>> Pace()
    Pace(10 to 20 stitches and 30 to 60 crossings in five minutes, from memory)
    >>> print(Pace().text())
    In five minutes 10 to 20 stitches and 30 to 60 crossings: from memory, no source. Measure your own.
    """

    stitches: int | None
    crossings: int | None
    within: Fraction

    def __init__(
        self, stitches: int | None = None, crossings: int | None = None, within: object = "20 %"
    ) -> None:
        for name, sample, like in (("stitches", stitches, 15), ("crossings", crossings, 40)):
            made = sample
            if sample is not None:
                made = whole_threads(sample, name, least=1, most=_MAX_SAMPLE, example=like, of=name)
            object.__setattr__(self, name, made)
        allowed = share(within, "within", most=Fraction(1, 2))
        object.__setattr__(self, "within", allowed)

    def __repr__(self) -> str:
        said = f"{self._said('stitches', _STITCHES)} and {self._said('crossings', _CROSSINGS)}"
        sampled = self.stitches is not None or self.crossings is not None
        off = f", give or take {float(self.within * 100):g} %" if sampled else ", from memory"
        return f"Pace({said} in five minutes{off})"

    def _said(self, name: str, usual: tuple[int, int]) -> str:
        number = getattr(self, name)
        return f"{'{} to {}'.format(*usual) if number is None else number} {name}"

    def text(self) -> str:
        """What it reckons with, and where from."""
        said = f"{self._said('stitches', _STITCHES)} and {self._said('crossings', _CROSSINGS)}"
        missing = [name for name in ("stitches", "crossings") if getattr(self, name) is None]
        if not missing:
            return f"In five minutes {said}, from one sample, give or take {float(self.within * 100):g} %."
        which = "" if len(missing) == 2 else f"the {missing[0]} "
        return f"In five minutes {said}: {which}from memory, no source. Measure your own."

    def stitching(self, stitches: int) -> tuple[float, float]:
        """Minutes for so many stitches, least and most."""
        return self._minutes("stitches", stitches, _STITCHES)

    def darning(self, crossings: int) -> tuple[float, float]:
        """Minutes to darn so many crossings, least and most."""
        return self._minutes("crossings", crossings, _CROSSINGS)

    def _minutes(self, of: str, done: int, usual: tuple[int, int]) -> tuple[float, float]:
        done, sample = whole_threads(done, of, example=120, of=of), getattr(self, of)
        if sample is None:
            return 5 * done / usual[1], 5 * done / usual[0]
        once = 5 * done / sample
        return once * float(1 - self.within), once * float(1 + self.within)
