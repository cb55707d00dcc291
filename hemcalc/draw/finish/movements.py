"""The movements of a finish, each a small picture and a sentence: drawn from the piece, for either hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from hemcalc.draw.finish import cloth, corners, stitches, threads
from hemcalc.draw.finish.scene import HIGH, WIDE, Scene, show_scene
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import HemError, of_type, one_of
from hemcalc.measure.words import so_many
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.stitch.groups import as_group, way_of


@dataclass(frozen=True, slots=True)
class _Movement:
    """How a movement is drawn for the right hand, and what its picture shows.

    In the sentence stand {first}, {last} and {cut}, threads of the top side, {group} and {back}, the way
    that the needle's point goes.
    """

    show: Callable[[Piece, int], Scene]
    says: str
    #: Whether it is a stitch, which follows the way of the work and not the hand.
    stitch: bool = False
    #: The corners that have it; all if empty.
    corners: tuple[str, ...] = ()


def _of_piece(show: Callable[[Piece], Scene]) -> Callable[[Piece, int], Scene]:
    return lambda piece, _: show(piece)


_MITRED = ("mitred", "untrimmed")
_TABLE = {
    "hold the edge": _Movement(_of_piece(cloth.hold_edge), "Slanting stitches run over the raw edge."),
    "fold the middle": _Movement(
        _of_piece(cloth.fold_middle), "The cloth is folded in half, and a line basted along each fold."
    ),
    "baste the outline": _Movement(
        _of_piece(cloth.baste_outline),
        "The two middle lines are basted across the cloth, and about them the design's outline of {design} "
        "threads.",
    ),
    "snip": _Movement(
        _of_piece(threads.snip),
        "A needle lifts one thread at its middle; one blade lies under that thread alone.",
    ),
    "draw out": _Movement(
        _of_piece(threads.draw_out),
        "Thread {first} of the top side is drawn out bit by bit, over the raw edge.",
    ),
    "withdraw to the corner": _Movement(
        _of_piece(threads.withdraw_to_corner),
        "At a corner the threads after thread {first} hang out of the cloth, withdrawn only that far.",
    ),
    "darn back": _Movement(
        _of_piece(threads.darn_back),
        "A tail turns at the corner and is woven outward into the empty line of thread {first}.",
    ),
    "baste the lines": _Movement(
        _of_piece(corners.baste_lines),
        "Basted lines run after threads {fold_1}, {fold_2} and {cut} of the bottom side, and cross those of "
        "the next.",
    ),
    "cut": _Movement(_of_piece(corners.cut), "The cloth is cut along a line between two threads."),
    "trim the corner": _Movement(
        _of_piece(corners.trim),
        "The corner's point is cut off along the trim line, through the crossing of the two fold 2 lines.",
    ),
    "fold the corner": _Movement(
        _of_piece(corners.fold_corner),
        "The corner is folded over to the wrong side, through the crossing of the two fold 1 lines.",
        corners=_MITRED,
    ),
    "turn": _Movement(
        _of_piece(corners.turn), "The raw edge is folded over to the wrong side, {turn} deep, on fold 2."
    ),
    "fold the hem": _Movement(
        _of_piece(corners.fold_hem),
        "The hem, {hem} deep, is folded over on fold 1, its edge on the open line.",
    ),
    "fasten on": _Movement(
        stitches.fasten_on, "The thread runs along inside the turn and comes out of the hem.", True
    ),
    "stitch 1": _Movement(
        stitches.stitch_1, "The needle passes behind a group of {group}, its point to the {back}.", True
    ),
    "stitch 2": _Movement(
        stitches.stitch_2, "The thread is drawn up and pulls the group of {group} together.", True
    ),
    "stitch 3": _Movement(
        stitches.stitch_3,
        "The needle goes behind the hem and comes out of it where the next group begins, {deep} deep.",
        True,
    ),
    "corner group": _Movement(
        stitches.corner_group,
        "From the last group of {group} the thread passes the open square to the next side.",
        True,
    ),
    "mitre seam": _Movement(
        _of_piece(corners.mitre_seam),
        "Small stitches close the mitre from the corner of the finished edge to the open square.",
        corners=_MITRED,
    ),
    "oversew": _Movement(_of_piece(corners.oversew), "Small stitches bind the corner's edge together."),
    "finish": _Movement(_of_piece(cloth.finish), "The finished piece lies right side up."),
}

#: Their names, in the order of the work.
MOVEMENTS = tuple(_TABLE)


def draw_movement(
    piece: Piece, name: str, *, group: int = 4, hand: str = "right", worked: str | None = None
) -> Still:
    """A movement of a piece's finish as a small picture in black and white.

    Refused if the piece's corners don't have this movement.

    Parameters
    ----------
    piece : Piece
        The piece.
    name : str
        One of `MOVEMENTS`.
    group, hand, worked
        As for `space_stitches`.

    Examples
    --------
    >>> from hemcalc import example
    >>> print(draw_movement(example("bread cloth"), "snip").alt)
    A needle lifts one thread at its middle; one blade lies under that thread alone.
    >>> print(draw_movement(example("bread cloth"), "stitch 1", hand="left").alt)
    The needle passes behind a group of 4, its point to the right. Left hand, worked from right to left.
    """
    # Refused here, since what can't be hashed is no key of the pictures that are kept.
    alt = movement_alt(piece, name, group=group, hand=hand, worked=worked)
    shown = movement_scene(piece, name, group=group, hand=hand, worked=worked)
    sheet = Sheet(WIDE / 25.4, HIGH / 25.4, dpi=220)
    show_scene(sheet, shown)
    return Still(sheet, alt)


@lru_cache(maxsize=256)
def movement_scene(
    piece: Piece, name: str, *, group: int = 4, hand: str = "right", worked: str | None = None
) -> Scene:
    """The picture itself, as `draw_movement` takes it; those that are alike are equal.

    A left-hander's is the mirror of a right-hander's; a stitch's follows the way of the work.

    Examples
    --------
    >>> from hemcalc import example
    >>> right = movement_scene(example("coaster"), "stitch 1")
    >>> right == movement_scene(example("coaster"), "stitch 1", hand="left").mirrored
    True
    """
    movement = _movement(piece, name)
    group, way = as_group(group), way_of(hand, worked)
    if movement.stitch:
        shown = movement.show(piece, group)
        return shown if way == "left to right" else shown.mirrored
    if hand == "right":
        return movement.show(piece, group)
    # Her corner lies at the other end of the side, where the clear band may be another.
    left, right, top, bottom = piece.clear
    return movement.show(piece.with_changes(clear=Sides(right, left, top, bottom)), group).mirrored


def movement_alt(
    piece: Piece, name: str, *, group: int = 4, hand: str = "right", worked: str | None = None
) -> str:
    """The picture in words, with its numbers; takes what `draw_movement` takes."""
    movement, way = _movement(piece, name), way_of(hand, worked)
    edge = piece.edges_in_hand.top
    numbers = {
        "design": "{} × {}".format(*piece.design),
        "first": edge.first_drawn,
        "hem": so_many(edge.hem, "thread"),
        "turn": so_many(edge.turn, "thread"),
        "deep": so_many(min(2, edge.hem), "thread"),
        "group": as_group(group),
        "back": way.split()[0],
    }
    low = piece.edges_in_hand.bottom
    said = movement.says.format(**numbers, fold_1=low.fold_1, fold_2=low.fold_2, cut=low.cut)
    return f"{said} {hand.capitalize()} hand, worked from {way}." if movement.stitch else said


def _movement(piece: Piece, name: str) -> _Movement:
    of_type(piece, Piece, "piece", "example('bread cloth')")
    movement = _TABLE[one_of(name, MOVEMENTS, "name")]
    if movement.corners and piece.corner not in movement.corners:
        raise HemError(
            f"name is {name!r}, but a corner that is {piece.corner} has no such movement; for example "
            "'oversew'.",
            "name",
        )
    return movement
