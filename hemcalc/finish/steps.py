"""The whole finish of a piece, step by step: every number its own, a check and a caution each.

The order is that of the trade: a blank cloth is held, counted and stitched first; the threads are
drawn and darned back while the cloth is whole; then it is basted and cut, and then come trim,
corner, turn and hem.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import chain

from hemcalc.finish.blank import blank_steps
from hemcalc.finish.cloth import cloth_steps, outline_steps
from hemcalc.finish.corner import corner_steps
from hemcalc.finish.counting import CountingPlan
from hemcalc.finish.hem import close_steps, hem_steps
from hemcalc.finish.open_line import open_line_steps
from hemcalc.finish.words import Step, Steps, StepWriter
from hemcalc.measure.errors import HemError, of_type, one_of
from hemcalc.piece.piece import Piece
from hemcalc.piece.sizes import BEGINNINGS
from hemcalc.stitch.groups import HANDS, WORKED, as_group


def finish_steps(
    piece: Piece,
    *,
    group: int = 4,
    hand: str = "right",
    unit: str | None = None,
    beginning: str = "blank, to size",
    worked: str | None = None,
    counting: CountingPlan | None = None,
) -> Steps:
    """The finish of a piece as numbered steps, in the order in which they are done.

    Each has its number, title, task, check, what to mind and the caution for it. Lengths are those of the
    cloth in hand; where it is still to be washed the last step says what becomes of it. Refused if a side
    can't be made of such groups: the sentence says the nearest that can.

    Parameters
    ----------
    piece : Piece
        The piece.
    group, hand, worked
        As for `space_stitches`.
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"`` for every length.
    beginning : str
        What the cloth is to begin with: ``"stitched"`` if the design is worked already, ``"blank, to
        size"`` if it is blank and cut to its size first, ``"blank, larger"`` if it is blank and
        stays larger, in a hoop or not, until the lines of the hem are basted.
    counting : CountingPlan, optional
        How a blank cloth is counted, as from `counting_plan`; in tens if left out.

    Source
    ------
    Common practice of the trade, no published source. Trim before corner before turn before
    hem: `hemcalc.corner.mitre` shows what another order gives.

    Examples
    --------
    >>> from hemcalc import example
    >>> steps = finish_steps(example("bread cloth"))
    >>> [step.title for step in steps][13:17]
    ['Trim the corners', 'Fold the corners', 'Turn in the raw edge', 'Fold the hem']
    >>> print(steps[15].task)
    Wrong side up, fold the raw edge over toward you along fold line 2, first the left and right, then
    the top and bottom, and press: 6 threads (≈ 3/16 in) on the left and right, 5 threads ...
    """
    if (
        counting is not None
        and of_type(counting, CountingPlan, "counting", "counting_plan(piece)").piece != piece
    ):
        raise HemError(
            "counting is of another piece, but must be of this one; for example counting_plan(piece).",
            "counting",
        )
    told = StepWriter(
        of_type(piece, Piece, "piece", "example('bread cloth')"),
        as_group(group),
        one_of(hand, HANDS, "hand"),
        piece.fabric.warp.unit_or(unit),
        one_of(beginning, BEGINNINGS, "beginning"),
        worked if worked is None else one_of(worked, WORKED, "worked"),
        counting,
    )
    return _numbered(told)


@lru_cache(maxsize=64)
def _numbered(told: StepWriter) -> Steps:
    """Kept, since a kit's thread, its hours and its sheet all ask for them."""
    return Steps(replace(step, number=number) for number, step in enumerate(_all(told), 1))


def _all(told: StepWriter) -> Iterator[Step]:
    return chain(
        cloth_steps(told),
        blank_steps(told) if told.blank else (),
        open_line_steps(told),
        outline_steps(told),
        corner_steps(told),
        hem_steps(told),
        close_steps(told),
    )
