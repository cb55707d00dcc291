"""The piece in hand: the one that a reader entered under *My piece*, on which every panel opens.

It lives in the kernel; a piece that was kept as `my_piece.json` is in hand on every page of its folder.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from fractions import Fraction
from pathlib import Path
from typing import Any

from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError, of_type
from hemcalc.measure.lengths import Length
from hemcalc.panels.page import Followers
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.kept import load_piece
from hemcalc.piece.piece import Piece

#: What the piece in hand is called among the examples, and the file in which it is looked for.
MINE, MY_FILE = "my piece", "my_piece.json"


class Hand:
    """What is in hand in this kernel, and who wants to know of it."""

    def __init__(self) -> None:
        self.piece: Piece | None = None
        self.looked = False
        self.followers = Followers()


#: In this kernel.
HAND = Hand()


def piece_in_hand() -> Piece | None:
    """The piece in hand; what was kept in this folder, until another is taken; None if there is none."""
    if not HAND.looked:
        HAND.looked = True
        if Path(MY_FILE).is_file():
            with suppress(HemError):  # said where it is opened, under My piece
                HAND.piece = load_piece(MY_FILE)
    return HAND.piece


def take_in_hand(piece: Piece | None) -> None:
    """Have every panel open on this piece, and those that show the one before it follow."""
    HAND.looked = True
    HAND.piece = None if piece is None else of_type(piece, Piece, "piece", "example('coaster')")
    HAND.followers.tell()


def whenever_taken(method: Callable[[], None]) -> None:
    """Have this method called when another piece is taken in hand, as long as its object lives."""
    HAND.followers.add(method)


def named(name: str, others: Mapping[str, Piece] = EXAMPLES) -> Piece:
    """The piece of this name: the one in hand, or an invented one."""
    if name == MINE:  # the first, once nothing is in hand any more
        return piece_in_hand() or next(iter(others.values()))
    return others[name]


def offered(
    examples: Mapping[str, Mapping[str, Any]], from_piece: Callable[[Piece], Mapping[str, Any]] | None
) -> Mapping[str, Mapping[str, Any]]:
    """A panel's examples, the piece in hand first if there is one."""
    piece = piece_in_hand()
    return examples if piece is None or from_piece is None else {MINE: from_piece(piece), **examples}


def put_near(widget: Any, value: Any) -> str:
    """Set a control, to the nearest that it has if it hasn't this; and what had to be changed, in words."""
    near = value
    if hasattr(widget, "options"):
        if value == MINE and MINE not in widget.options:
            widget.options = (MINE, *widget.options)
        if value not in widget.options:
            sizes = {option: size for option in widget.options if (size := _size(option)) is not None}
            said = _size(value)
            near = (
                min(sizes, key=lambda option: abs(sizes[option] - said)) if sizes and said else widget.value
            )
    elif hasattr(widget, "max"):
        near = min(max(value, widget.min), widget.max)
    widget.value = near
    return "" if near == value else f"{widget.description} {near} in place of {value}"


def _size(text: str) -> Fraction | None:
    """How large a length or a count is, so that two of one kind can be compared."""
    said = text.removeprefix("≈ ")
    try:
        return Count(said).per_mm if "/in" in said or "/cm" in said else Length(said).mm
    except HemError:
        return None
