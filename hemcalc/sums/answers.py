"""Judging an answer that a learner fills in.

A right answer is said to be right. A wrong one is held against what known slips would have
given: if one fits, it is named; if several fit, all are; if none fits, nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length, as_length

__all__ = ["Verdict", "judge"]


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
    right: int | Length,
    slips: Mapping[str, int | Length] | None = None,
    *,
    of: str = "threads",
) -> Verdict:
    """Judge an answer in threads, in other things that are counted, or as a length.

    Parameters
    ----------
    answer : int, str, Length or None
        What was filled in; None if nothing yet.
    right : int or Length
        The right answer; it decides whether threads or a length are wanted.
    slips : mapping of str to (int or Length), optional
        What each known slip would have given, by a clause that says it: "the turn was
        forgotten".
    of : str
        What is counted, in the plural.

    Returns
    -------
    Verdict
        Never an error for the answer: one that can't be read is told what is wanted.

    Raises
    ------
    HemError
        If `right`, `slips` or `of` is of another type.

    Examples
    --------
    >>> judge(None, 37)
    No answer yet: write yours in place of None and run the cell again.
    >>> judge(37, 37)
    Right: 37 threads.
    >>> judge(31, 37, {"the turn was forgotten": 31, "the hem was counted once": 26})
    Not yet: 31 threads is what comes out if the turn was forgotten.
    >>> judge("2 in", Length.parse("2 in"))
    Right: 50.8 mm.
    >>> judge(22, 22, of="units of 10 cm")
    Right: 22 units of 10 cm.
    """
    if not isinstance(right, int | Length):
        raise HemError(f"right is {shown(right)}, but must be threads or a Length; for example 37.", "right")
    if not isinstance(slips, Mapping | None):
        raise HemError(
            f"slips is {shown(slips)}, but must give a number for each slip; for example "
            "{'the turn was forgotten': 31}.",
            "slips",
        )
    of_type(of, str, "of", "'threads'")
    if answer is None:
        return Verdict(None, "No answer yet: write yours in place of None and run the cell again.")
    given: int | Length
    try:
        if isinstance(right, Length):
            given = as_length(answer, "my answer", size=False)
        else:
            given = whole_threads(answer, "my answer", example=12, of=of)
    except HemError as error:
        return Verdict(None, str(error))
    said = _said(given, answer, of)
    if given == right:
        return Verdict(True, f"Right: {_said(right, None, of)}.")
    fitting = [clause for clause, value in (slips or {}).items() if value == given]
    if fitting:
        return Verdict(False, f"Not yet: {said} is what comes out if {', or if '.join(fitting)}.")
    return Verdict(False, f"Not yet: {said} is {_sense(given, right)}. Open the hint, then try once more.")


def _said(value: int | Length, answer: object, of: str) -> str:
    if isinstance(value, Length):
        return answer.strip() if isinstance(answer, str) else value.text("mm")
    return f"{shown(value)} {'thread' if value == 1 and of == 'threads' else of}"


def _sense(given: Any, right: Any) -> str:
    if isinstance(right, Length):
        return "too long" if given > right else "too short"
    return "too many" if given > right else "too few"
