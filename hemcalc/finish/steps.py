"""The whole finish of a piece, step by step: every number its own, a check and a caution each.

The order is that of the trade: the threads are drawn and darned back while the cloth is whole,
then it is basted and cut, and then come trim, corner, turn and hem.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain

from hemcalc.finish.cloth import cloth_steps, outline_steps
from hemcalc.finish.corner import corner_steps
from hemcalc.finish.hem import hem_steps, stitch_steps
from hemcalc.finish.open_line import open_line_steps
from hemcalc.finish.words import Step, Steps, StepWriter
from hemcalc.measure.errors import of_type, one_of
from hemcalc.piece.piece import Piece
from hemcalc.stitch.groups import HANDS, as_group

__all__ = ["CLOTHS", "Step", "finish_steps"]

#: What the piece is on when its finish begins: cloth that is cut to its size first, or a larger
#: cloth, in a hoop or not, from which it is cut only when the lines are basted.
CLOTHS = ("cut", "larger")


def finish_steps(
    piece: Piece, *, group: int = 4, hand: str = "right", unit: str | None = None, cloth: str = "cut"
) -> Steps:
    """The finish of a piece as numbered steps, in the order in which they are done.

    Parameters
    ----------
    piece : Piece
        The piece.
    group : int
        Threads to a group of stitches, 2 to 6.
    hand : str
        Hand that holds the needle, "right" or "left".
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"`` for every length.
    cloth : str
        ``"cut"`` if the cloth is cut to its size first, ``"larger"`` if the piece is still on
        its larger cloth or in a hoop.

    Returns
    -------
    Steps
        Each with its number, title, task, check, what to mind and the caution for it. Lengths are
        those of the cloth in hand; where it is still to be washed the last step says what becomes of it.

    Raises
    ------
    HemError
        If `piece` is not a Piece, a word is unknown, or a side can't be made of such groups: the
        sentence says the nearest that can.

    Source
    ------
    Common practice of the trade, no published source. Trim before corner before turn before
    hem: `hemcalc.corner.mitre` shows what another order gives.

    Examples
    --------
    >>> from hemcalc import example
    >>> steps = finish_steps(example("bread cloth"))
    >>> [step.title for step in steps][8:12]
    ['Trim the corners', 'Fold the corners', 'Turn in the raw edge', 'Fold the hem']
    >>> print(steps[10].task)
    Fold the raw edge over to the wrong side along fold line 2, first the left and right, then the top
    and bottom, and press: 6 threads (≈ 3/16 in) on the left and right, 5 threads (≈ 3/16 in) on ...
    """
    told = StepWriter(
        of_type(piece, Piece, "piece", "example('bread cloth')"),
        as_group(group),
        one_of(hand, HANDS, "hand"),
        piece.fabric.warp.unit_or(unit),
        one_of(cloth, CLOTHS, "cloth"),
    )
    return Steps(replace(step, number=number) for number, step in enumerate(_all(told), 1))


def _all(told: StepWriter) -> Iterator[Step]:
    return chain(
        cloth_steps(told),
        open_line_steps(told),
        outline_steps(told),
        corner_steps(told),
        hem_steps(told),
        stitch_steps(told),
    )
