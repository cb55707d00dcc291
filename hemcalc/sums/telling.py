"""What a learner is told of a piece: all that the numbers asked for need, and no more."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hemcalc.measure.counts import Count
from hemcalc.measure.exact import decimal_text
from hemcalc.measure.lengths import Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES
from hemcalc.sums.facts import SIZES
from hemcalc.sums.sums import sums_of

#: Numbers that what handling needs goes into.
OF_THE_MARGIN = {"need", "slack", "margin", "cut across", "cut down"}


def facts_told(piece: Piece, names: Sequence[str], side: str = "left") -> str:
    """What is needed for the numbers asked, and no more, in sentences."""
    fabric, edge = piece.fabric, getattr(piece.edges, side)
    is_raw = not fabric.washed and (fabric.shrink_across or fabric.shrink_down)
    by_width, asked = isinstance(piece.hem, str | Length), set(names)
    told = []
    if by_width and asked != {"first drawn"}:
        across, down = (_count(way) for way in (fabric.across, fabric.down))
        told.append(
            f"The linen has {across}." if across == down else f"The linen has {across} across, {down} down."
        )
        if is_raw:
            told.append(
                f"It is not washed yet: the wash takes {_share(fabric.shrink_across)} off its width and "
                f"{_share(fabric.shrink_down)} off its length, and the hem is to be right after it."
            )
    if asked != {"first drawn"}:
        hem = f"{piece.hem} wide, to the nearest whole thread" if by_width else f"{piece.hem} threads wide"
        told.append(f"The hem finishes {hem}.")
    if not asked <= {"hem", "turn", "draw line", "rule"}:
        told.append(f"{_clear(piece)}, and {edge.drawn} are drawn out.")
    if not asked <= {"first drawn", "hem", "rule", "fold 1", "fold 2", "finished across", "finished down"}:
        told.append(
            "The turn is half the hem, a half thread rounded up."
            if piece.turn is None
            else f"The turn is {piece.turn} threads."
        )
    if piece.handling and asked & OF_THE_MARGIN:
        by_length = isinstance(piece.handling, str | Length)
        needs = f"{piece.handling}, rounded up to threads," if by_length else f"{piece.handling} threads"
        told.append(f"Handling needs {needs} of the cloth in hand beyond the cut.")
    if by_width and asked & {"rule", *OF_THE_MARGIN} - {"need"}:
        told.append("The rule takes the hem in whole threads.")
    if asked & set(SIZES):
        told.append(f"The design takes {piece.design[0]} threads across and {piece.design[1]} down.")
    if any(side_meant(piece, name, side) for name in names):
        told.append(f"What differs from side to side is asked for the {side}.")
    return " ".join(told)


def side_meant(piece: Piece, name: str, side: str) -> str:
    """The side, if the number is another one at another side."""
    if name in SIZES:
        return ""
    sums = sums_of(piece)
    alike = {sums.step(name, each).value for each in SIDES}
    return side if len(alike) > 1 else ""


def _clear(piece: Piece) -> str:
    left, right, top, bottom = piece.clear
    if left == right == top == bottom:
        return f"{left} threads stay clear round the design"
    return (
        f"{left} threads stay clear at the left of the design, {right} at the right, {top} at the top and "
        f"{bottom} at the bottom"
    )


def _share(shrinks: Fraction) -> str:
    return f"{decimal_text(100 * shrinks)} %"


def _count(count: Count) -> str:
    metric = count.over.mm == MILLIMETRES["cm"]
    threads = decimal_text(count.per_cm if metric else count.per_inch)
    return f"{threads} threads to the {'cm' if metric else 'inch'}"
