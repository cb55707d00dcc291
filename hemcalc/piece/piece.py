"""The whole piece: a design on a cloth, its four edges and corners, and the cloth to cut.

Sizes come in threads, which the wash does not change, and in lengths before and after it.
A hem asked for as a length means after the wash; cloth is cut as it is in hand.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property, partial
from typing import Any

from hemcalc.corner.mitre import Corner, plan_corner
from hemcalc.edge.asked import SizeAsked, read_size
from hemcalc.edge.ledger import Edge, plan_edge
from hemcalc.measure.errors import HemError, of_type, one_of, parts_of, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length
from hemcalc.piece.fit import Fit, whole_cloth, widest_hem
from hemcalc.piece.sides import Corners, Sides
from hemcalc.piece.sizes import Size, extent

#: Thread of a tail that the eye of a needle holds, if nobody measured it.
EYE = "1 cm"

#: What a hem stitch catches of the hem: its back and turn, so that the face shows nothing, or all.
THROUGH = ("back and turn", "all layers")


@dataclass(frozen=True)
class Piece:
    """A piece of counted work with a hem all round.

    Parameters
    ----------
    design : tuple of int
        Threads that the design takes, across and down.
    hem : str, Length or int
        Width of the finished hem, a length with ``same="width"``, threads with
        ``same="threads"``.
    clear : int or Sides
        Threads of plain cloth round the design, the same on all sides or one each.
    drawn : int
        Threads drawn out on each side.
    turn : int, str or Length, optional
        Cloth turned in under the back; half the hem if left out.
    handling : int, str or Length
        Cloth that is needed beyond the cut line until it is cut, measured in hand.
    same : str
        ``"width"``: a hem equally wide all round, each way in threads of its own count;
        ``"threads"``: the same number of threads all round.
    corner : str
        How the corners are made; see `plan_corner`.
    allowance : Length or str, optional
        Cloth left at the corners; see `plan_corner`.
    eye : Length or str
        Thread of a tail that the needle's eye holds, and that is not darned; from memory.
    through : str
        What the hem stitch catches: one of `THROUGH`.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> linen = Fabric("28/in", "27/in")
    >>> bread_cloth = Piece(linen, (224, 224), hem="3/8 in", clear=8)
    >>> bread_cloth.edges.left.hem, bread_cloth.edges.top.hem
    (11, 10)
    >>> bread_cloth.finished_size.threads, bread_cloth.cut_size.threads
    ((266, 264), (312, 304))
    """

    fabric: Fabric
    design: tuple[int, int]
    hem: int | str | Length
    clear: Sides[int]
    drawn: int
    turn: int | str | Length | None
    handling: int | str | Length
    same: str
    corner: str
    allowance: Length | str | None
    eye: Length | str
    through: str

    def __init__(
        self,
        fabric: Fabric,
        design: tuple[int, int],
        *,
        hem: int | str | Length,
        clear: int | Sides[int],
        drawn: int = 2,
        turn: int | str | Length | None = None,
        handling: int | str | Length = 0,
        same: str = "width",
        corner: str = "mitred",
        allowance: Length | str | None = None,
        eye: Length | str = EYE,
        through: str = THROUGH[0],
    ) -> None:
        of_type(fabric, Fabric, "fabric", "Fabric('28/in')")
        if not isinstance(clear, Sides):
            clear = Sides(clear, clear, clear, clear)
        _refuse_a_mixed_hem(hem, one_of(same, ("width", "threads"), "same"))
        values = {
            "fabric": fabric,
            "design": _two(design, "design"),
            "hem": hem,
            "clear": Sides(*(whole_threads(side, "clear") for side in clear)),
            "drawn": drawn,
            "turn": turn,
            "handling": handling,
            "same": same,
            "corner": corner,
            "allowance": allowance,
            "eye": eye,
            "through": one_of(through, THROUGH, "through"),
        }
        as_length(eye, "eye", size=False)
        for name, value in values.items():
            object.__setattr__(self, name, value)
        # Whatever can't be made is refused here, not when it is first looked at.
        _ = self.corners

    def __repr__(self) -> str:
        counts = (self.fabric.across, self.fabric.down)
        cloth = " by ".join(dict.fromkeys(count.text() for count in counts))
        hem = f"{self._asked[0].said}{' threads' if self.same == 'threads' else ''}"
        return f"Piece({self.design[0]} × {self.design[1]} threads on {cloth}, hem {hem})"

    @classmethod
    def from_stitches(cls, fabric: Fabric, stitches: tuple[int, int], over: int = 2, **rest: Any) -> Piece:
        """The piece of a chart, which counts stitches over so many threads each.

        Parameters
        ----------
        fabric : Fabric
            The cloth.
        stitches : tuple of int
            Stitches across and down.
        over : int
            Threads that each stitch goes over, both ways.
        **rest
            As for a Piece.

        Examples
        --------
        >>> Piece.from_stitches(Fabric("28/in"), (100, 80), over=2, hem="3/8 in", clear=8).design
        (200, 160)
        """
        over = whole_threads(over, "over", least=1, example=2)
        across, down = _two(stitches, "stitches")
        return cls(fabric, (across * over, down * over), **rest)

    @cached_property
    def _asked(self) -> tuple[SizeAsked, SizeAsked | None, SizeAsked]:
        """Hem, turn and handling, read once for all the edges."""
        turn = None if self.turn is None else read_size(self.turn, "turn")
        return read_size(self.hem, "hem"), turn, read_size(self.handling, "handling")

    @cached_property
    def edges(self) -> Sides[Edge]:
        """The four edges, in threads; lengths in them are after the wash."""
        cloth, (left, right, top, bottom) = self.fabric, self.clear
        # Handling is measured on the cloth in hand, all else on the finished piece.
        hem, turn, handling = self._asked
        plan = partial(plan_edge, hem=hem, turn=turn, handling=handling, drawn=self.drawn)
        across = plan(cloth.across_washed, in_hand=cloth.across, clear=left)
        down = plan(cloth.down_washed, in_hand=cloth.down, clear=top)
        return Sides(across, replace(across, clear=right), down, replace(down, clear=bottom))

    @cached_property
    def edges_in_hand(self) -> Sides[Edge]:
        """The same edges, with lengths as a ruler reads them on the cloth in hand."""
        cloth, (left, right, top, bottom) = self.fabric, self.edges
        return Sides(
            replace(left, count=cloth.across),
            replace(right, count=cloth.across),
            replace(top, count=cloth.down),
            replace(bottom, count=cloth.down),
        )

    @cached_property
    def corners(self) -> Corners[Corner]:
        """The four corners, as they are trimmed and folded: on the cloth in hand.

        Cloth that is not washed yet shrinks by more one way than the other, so a mitre that
        is to finish at 45 degrees need not run at 45 degrees on it.
        """
        left, right, top, bottom = self.edges_in_hand
        made = partial(plan_corner, corner=self.corner, allowance=self.allowance)
        return Corners(made(left, top), made(right, top), made(left, bottom), made(right, bottom))

    @property
    def cut_size(self) -> Size:
        """The cloth to cut: the design and, on each side, the larger of rule and need."""
        return self._size("to cut", lambda edge: edge.rule.margin)

    @property
    def cloth_by_rule(self) -> Size:
        """The cloth that the rule of four alone would cut, enough or not."""
        return self._size("by the rule", lambda edge: edge.rule.rule)

    @property
    def cloth_by_need(self) -> Size:
        """The cloth that the ledger and handling need, and no more."""
        return self._size("to cut", lambda edge: edge.rule.need)

    @property
    def trimmed_size(self) -> Size:
        """The cloth once it is cut along the cut lines."""
        return self._size("trimmed", lambda edge: edge.total)

    @property
    def finished_size(self) -> Size:
        """The finished piece: the design and, on each side, clear, open line and hem."""
        return self._size("finished", lambda edge: edge.fold_1)

    def _size(self, use: str, margin: Callable[[Edge], int]) -> Size:
        cloth, margins = self.fabric, self.edges.map(margin)
        across = self.design[0] + margins.left + margins.right
        down = self.design[1] + margins.top + margins.bottom
        return Size(
            extent(across, cloth.across_unwashed, cloth.across_washed),
            extent(down, cloth.down_unwashed, cloth.down_washed),
            cloth.washed,
            use,
        )

    def fits(self, cloth: object, *, washed: bool | None = None) -> Fit:
        """The way back from a cloth in hand: the hem and the design that it has room for.

        Each side keeps the margin that `cut_size` leaves, the larger of rule and need.

        Parameters
        ----------
        cloth : tuple of (str or Length), str or Length
            Size of the cloth in hand, across and down; one length for a square.
        washed : bool, optional
            Whether that cloth has been washed; as the fabric says if left out.

        Examples
        --------
        >>> coaster = Piece(Fabric("28/in", washed=True), (112, 112), hem="3/8 in", clear=4)
        >>> fit = coaster.fits("8 in")
        >>> fit.fits, fit.spare, fit.widest_hem_threads, fit.largest_design
        (True, (24, 24), (14, 14), (136, 136))
        """
        # Handling is measured in hand, so that the margins too are those of the cloth in that state.
        piece = self if washed is None else self.with_changes(fabric=self.fabric.in_hand(washed=washed))
        across, down = whole_cloth(cloth, (piece.fabric.across, piece.fabric.down))
        pairs = ((piece.edges.left, piece.edges.right), (piece.edges.top, piece.edges.bottom))
        rooms = across - piece.design[0], down - piece.design[1]
        widest = widest_hem(pairs, rooms, same=piece.same, turn_is_half=piece.turn is None)
        return Fit((across, down), piece.cut_size.threads, piece.design, pairs, *widest)

    @property
    def notes(self) -> tuple[str, ...]:
        """What was rounded, and what the reader should know of the edges, once each."""
        said = [
            f"{way}: {sentence}"
            for way, edge in (("Across", self.edges.left), ("Down", self.edges.top))
            for sentence in (edge.rounding, *edge.notes)
        ]
        return tuple(dict.fromkeys(said))

    def with_changes(self, **changes: Any) -> Piece:
        """The same piece with some of its inputs changed.

        Examples
        --------
        >>> coaster = Piece(Fabric("24/in"), (64, 64), hem="1/4 in", clear=4)
        >>> coaster.with_changes(clear=6).finished_size.threads
        (92, 92)
        """
        return replace(self, **changes)


def _two(value: object, about: str) -> tuple[int, int]:
    across, down = parts_of(value, about, 2, "two whole numbers, across and down", (224, 168))
    return (
        whole_threads(across, about, least=1, example=224),
        whole_threads(down, about, least=1, example=168),
    )


def _refuse_a_mixed_hem(hem: object, same: str) -> None:
    is_length = isinstance(hem, str | Length)
    if same == "width" and not is_length:
        raise HemError(
            f"hem is {shown(hem)}, but with same='width' it must be a length, for example '3/8 in'; "
            "a number of threads goes with same='threads'.",
            "hem",
        )
    if same == "threads" and is_length:
        raise HemError(
            f"hem is {shown(str(hem))}, but with same='threads' it must be a number of threads, for example "
            "12; a length goes with same='width'.",
            "hem",
        )
