"""What to do when it goes wrong: one question, an answer for each accident."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from hemcalc.finish.mishaps.cuts import cut_too_far, frayed, stained
from hemcalc.finish.mishaps.folds import corner_gapes, corner_too_bulky, fold_misplaced, hem_off
from hemcalc.finish.mishaps.stitches import group_miscounted, groups_do_not_come_out
from hemcalc.finish.mishaps.threads import tail_broke, tail_too_short, wrong_thread_cut, wrong_thread_drawn
from hemcalc.finish.mishaps.told import Rescue, Told
from hemcalc.measure.errors import HemError, of_type, one_of
from hemcalc.measure.units import UNITS
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES
from hemcalc.stitch.groups import as_group, way_of

#: What is told of each accident, by its name, in the order of the work.
ACCIDENTS: Mapping[str, Callable[[Told], Rescue]] = MappingProxyType(
    {
        "wrong thread cut": wrong_thread_cut,
        "wrong thread drawn": wrong_thread_drawn,
        "tail broke": tail_broke,
        "tail too short": tail_too_short,
        "cut too far": cut_too_far,
        "stain at the cut": stained,
        "fraying at the cut": frayed,
        "fold misplaced": fold_misplaced,
        "corner gapes": corner_gapes,
        "corner too bulky": corner_too_bulky,
        "hem off": hem_off,
        "group miscounted": group_miscounted,
        "groups don't come out": groups_do_not_come_out,
    }
)

#: Accidents that are about no thread of a side.
_WHOLE = ("corner gapes", "corner too bulky")


def rescue(
    piece: Piece,
    accident: str,
    *,
    side: str = "left",
    at: int | None = None,
    group: int = 4,
    hand: str = "right",
    worked: str | None = None,
    unit: str = "in",
) -> Rescue:
    """What to do about an accident: how to see it, what it costs, the steps, the plan, when to ask.

    Its ``plan`` is a Piece where the plan has to change. Lengths are of the cloth in hand. Refused if no such
    thing can happen at that thread.

    Parameters
    ----------
    piece : Piece
        The piece as it was planned.
    accident : str
        One of `ACCIDENTS`.
    side : str
        The side on which it happened: its own numbers are told.
    at : int, optional
        Where it happened, as a thread counted outward from the design: the thread that was cut or
        drawn; the last one that is left, or sound, at a cut; the one after which a fold runs. For
        a tail, how many threads it crosses; for a group miscounted, how many groups ago; for groups
        that don't come out, how many threads are left. What happens most often, if left out.
    group, hand, worked
        As for `space_stitches`.
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"`` for every length.

    Source
    ------
    Common practice of the trade, no published source. That a broken thread is found again
    against the light: the handbooks for teachers say so too.

    Examples
    --------
    >>> from hemcalc import example
    >>> short = rescue(example("bread cloth"), "cut too far", at=36)
    >>> short.threads, short.plan.edges.left.turn, short.plan.edges.left.cut
    (1, 5, 36)
    >>> rescue(example("bread cloth"), "wrong thread cut", at=10).cost
    'no thread lost; a new thread of the cloth at least 5 1/2 in long.'
    >>> rescue(example("bread cloth"), "wrong thread drawn", at=8)
    Traceback (most recent call last):
    hemcalc.HemError: at is 8, but threads 8 and 9 were to be drawn on the left side anyway; for example 7.
    """
    of_type(piece, Piece, "piece", "example('bread cloth')")
    name = one_of(accident, tuple(ACCIDENTS), "accident")
    if at is not None and name in _WHOLE:
        raise HemError(f"at is said, but '{name}' is about no one thread; for example leave it out.", "at")
    told = Told(
        piece,
        name,
        one_of(side, SIDES, "side"),
        at,
        as_group(group),
        hand,
        way_of(hand, worked),
        one_of(unit, UNITS, "unit"),
    )
    return ACCIDENTS[name](told)


def accident_costs(piece: Piece, side: str = "left") -> dict[str, str]:
    """What each accident costs on this side of a piece, by its name.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> accident_costs(example("bread cloth"))["tail broke"]
    'no thread lost; a new thread of the cloth at least 4 7/8 in long.'
    """
    return {accident: rescue(piece, accident, side=side).cost for accident in ACCIDENTS}
