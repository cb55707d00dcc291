"""Right, right after rounding, right as near as a ruler tells, or wrong: one rule for every ruler.

Threads are exact. A length may be off by half the finest step that people read from a ruler, 1/16 in,
whatever unit it is written in; so an answer that comes closer is never judged worse. If another
whole number of threads lies as near as the right one, the ruler can't tell, and the verdict says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from numbers import Rational
from typing import Any

from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.exact import exact_number
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.sums.reading import Answer, read_answer
from hemcalc.sums.sums import Sums
from hemcalc.sums.working import Working

RIGHT, ROUNDED, NEAR = "right", "right after rounding", "right as near as a ruler tells"
FOLLOWS, WRONG, UNREAD, BLANK = "follows from another", "wrong", "not read", "no answer"

#: Half the finest step that is read from a ruler, 1/16 in, in mm.
HALF_STEP = MILLIMETRES["in"] / 32
_SHORT = Fraction(1, 8)  # mm by which decimals that are left off make a size to cut short


def nearness(sums: Sums, name: str, answer: Answer, working: Working) -> str:
    """How near an answer is to a number, right or by a slip: `RIGHT`, `ROUNDED`, `NEAR` or `WRONG`.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> from hemcalc.sums.sums import sums_of
    >>> sums = sums_of(example("sampler"))  # a hem of 14 threads, 9.878 mm; 15 would be 10.583 mm
    >>> working = sums.working("hem", "mm")
    >>> [nearness(sums, "hem", read_answer("hem", text), working) for text in ("10 mm", "10.3 mm", "11 mm")]
    ['right after rounding', 'right as near as a ruler tells', 'wrong']
    """
    exact = working.value if working.exact is None else working.exact
    if answer.value in (working.value, exact) and not (working.value < exact and answer.value == exact):
        return RIGHT
    if answer.unit == "threads":
        return WRONG
    to_mm = MILLIMETRES[answer.unit]
    if name in ("cut across", "cut down"):
        # Anything from the exact size to the next mark of the ruler; decimals may be left off. One
        # that was rounded the wrong way is told by the mark alone.
        within = exact - _SHORT / to_mm <= answer.value <= working.value
        return ROUNDED if within and working.value >= exact else WRONG
    off = abs(answer.value - exact) * to_mm
    if off > HALF_STEP:
        return WRONG
    # Half a thread off, another thread is as near.
    return ROUNDED if off < sums.cloth_of(name).pitch_mm / 2 else NEAR


def fits(sums: Sums, name: str, answer: Answer, working: Working | None) -> bool:
    """Whether the answer is this number, as it stands or rounded as people round."""
    return working is not None and nearness(sums, name, answer, working) in (RIGHT, ROUNDED)


@dataclass(frozen=True, slots=True, repr=False)
class Verdict:
    """What is said of an answer."""

    #: Whether it is right; None if there is no answer that can be judged.
    right: bool | None
    said: str

    def __repr__(self) -> str:
        return self.said

    def text(self) -> str:
        """What is said, in a sentence."""
        return self.said


def judge(
    answer: object,
    right: int | Fraction | Length,
    slips: Mapping[str, int | Length] | None = None,
    *,
    of: str = "threads",
    unit: str = "",
) -> Verdict:
    """Judge an answer in threads, in other things that are counted, or as a length.

    One that can't be read is told what is wanted, and never an error.

    Parameters
    ----------
    answer : int, str, Length or None
        What was filled in, as people write it; None if nothing yet.
    right : int, Fraction or Length
        The right answer; it decides whether threads or a length are wanted.
    slips : mapping of str to (int or Length), optional
        What each known slip would have given, by a clause that says it: "the turn was
        forgotten".
    of : str
        What is counted, in the plural.
    unit : str
        What a bare number is in, if a length is wanted; without it, its unit is asked for.

    Examples
    --------
    >>> judge(None, 37)
    No answer yet: write yours in place of None and run the cell again.
    >>> judge("about 37", 37)
    Right: 37 threads.
    >>> judge(31, 37, {"the turn was forgotten": 31, "the hem was counted once": 26})
    Not yet: 31 threads is what comes out if the turn was forgotten.
    >>> judge("2", Length("2 in"), unit="in")
    Right: 50.8 mm.
    >>> judge("51 mm", Length("2 in"))
    Right as near as a ruler tells: 50.8 mm.
    >>> judge(44 / 2, 22, of="units of 10 cm")
    Right: 22 units of 10 cm.
    """
    if not isinstance(right, Rational | Length):
        raise HemError(f"right is {shown(right)}, but must be threads or a Length; for example 37.", "right")
    right = right if isinstance(right, Length) else exact_number(right, "right", "37")
    if not isinstance(slips, Mapping | None):
        raise HemError(
            f"slips is {shown(slips)}, but must give a number for each slip; for example "
            "{'the turn was forgotten': 31}.",
            "slips",
        )
    of = of_type(of, str, "of", "'threads'")
    if of_type(unit, str, "unit", "'in'"):
        one_of(unit, ("in", "cm", "mm"), "unit")
    try:
        read = read_answer("my answer", answer, unit or "threads" if isinstance(right, Length) else "threads")
    except HemError as error:
        return Verdict(None, str(error))
    if read is None:
        return Verdict(None, "No answer yet: write yours in place of None and run the cell again.")
    if (read.unit == "threads") == isinstance(right, Length):
        allowed = (
            "a length with its unit; for example '1/2 in'"
            if isinstance(right, Length)
            else f"a whole number of {of}; for example 12"
        )
        return Verdict(None, f"my answer is {shown(answer)}, but must be {allowed}.")
    answered: Any = Length(read.mm) if isinstance(right, Length) else read.value
    said = read.text if isinstance(right, Length) else _counted(read.value, of)
    goal = right.text("mm") if isinstance(right, Length) else _counted(right, of)
    if answered == right:
        return Verdict(True, f"Right: {goal}.")
    # Numbers only: what else a slip is said to give can't be what was answered.
    fitting = [
        clause
        for clause, value in (slips or {}).items()
        if isinstance(value, Rational | Length) and value == answered
    ]
    if fitting:
        return Verdict(False, f"Not yet: {said} is what comes out if {', or if '.join(fitting)}.")
    if isinstance(right, Length) and abs(answered.mm - right.mm) <= HALF_STEP:
        return Verdict(True, f"Right as near as a ruler tells: {goal}.")
    more = answered > right
    sense = (
        ("too long" if more else "too short")
        if isinstance(right, Length)
        else "too many"
        if more
        else "too few"
    )
    return Verdict(False, f"Not yet: {said} is {sense}. Open the hint, then try once more.")


def _counted(value: int | Fraction, of: str) -> str:
    return f"{shown(value)} {'thread' if value == 1 and of == 'threads' else of}"
