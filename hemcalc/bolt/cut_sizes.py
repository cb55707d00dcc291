"""Pieces that are wanted from a cloth: names, sizes as cut, how many, and what each is worth.

Across runs from selvedge to selvedge, down along the warp.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.errors import HemError, one_of, several, shown
from hemcalc.measure.exact import exact_number, whole_threads
from hemcalc.measure.lengths import Length, as_length

#: Most pieces in all: a workshop's worth, with room.
MAX_PIECES = 1000
#: Most sizes.
MAX_SIZES = 30
#: Whether each piece's down lies along the warp of the cloth, or may lie along its weft.
GRAINS = ("fixed", "free")
_LONGEST_NAME = 40

_EXAMPLE = "for example ('bread cloth', '18 in', '18 in', 12)."


@dataclass(frozen=True, slots=True)
class CutSize:
    """A size that is wanted: its name, how large it is cut, and how many.

    Parameters
    ----------
    name : str
        What it is called on the plan.
    across, down : str or Length
        Its size as cut, along the weft and along the warp.
    quantity : int, optional
        How many; from a remnant, how many at most, and left out if there is no limit.
    worth : int, Fraction or Decimal, optional
        For a remnant: what one is worth to you, in a measure of your own.
    turned : tuple of (str or Length), or False, optional
        Its size across and down *the cloth* when it is laid the other way, where the grain is
        free: planned anew, for its threads stay and its counts change places. False: it may not
        be turned. Left out, its two sides are exchanged as lengths, which keeps its threads only
        on a cloth of one count both ways.

    Examples
    --------
    >>> mat = CutSize("table mat", "18 in", "12 1/2 in", 6)
    >>> mat.across.text("in"), mat.quantity
    ('18 in', 6)

    From a piece, with its size rounded up to a mark of the ruler:

    >>> from hemcalc.piece.examples import example
    >>> CutSize("coaster", *example("coaster").cut_size.to_cut("in"), 12).down.text("in")
    '6 in'
    """

    name: str
    across: Length
    down: Length
    quantity: int | None
    worth: Fraction | None
    #: Its size across and down the cloth when it is turned; None if it may not be.
    turned: tuple[Length, Length] | None
    #: Whether that is only its two sides exchanged, and not planned anew.
    exchanged: bool

    def __init__(
        self,
        name: object,
        across: object,
        down: object,
        quantity: object = None,
        worth: object = None,
        turned: object = None,
    ) -> None:
        if (
            not isinstance(name, str)
            or not name.strip()
            or len(name) > _LONGEST_NAME
            or not name.isprintable()
        ):
            raise HemError(
                f"The name of a size is {shown(name)}, but must be one line of 1 to {_LONGEST_NAME} "
                f"characters; {_EXAMPLE}",
                "pieces",
            )
        object.__setattr__(self, "name", name.strip())
        object.__setattr__(self, "across", as_length(across, f"{self.name}, across"))
        object.__setattr__(self, "down", as_length(down, f"{self.name}, down"))
        object.__setattr__(
            self, "quantity", None if quantity is None else _whole(quantity, f"{self.name}, how many")
        )
        object.__setattr__(self, "worth", None if worth is None else _worth(worth, f"{self.name}, worth"))
        object.__setattr__(self, "turned", self._turned(turned))
        object.__setattr__(self, "exchanged", turned is None)

    def _turned(self, value: object) -> tuple[Length, Length] | None:
        if value is None or value is False:
            return None if value is False else (self.down, self.across)
        if not isinstance(value, tuple | list) or len(value) != 2:
            raise HemError(
                f"{self.name}, turned is {shown(value)}, but must be its size across and down the cloth, or "
                "False; for example ('12 in', '18 in').",
                "pieces",
            )
        across, down = value
        return as_length(across, f"{self.name}, turned"), as_length(down, f"{self.name}, turned")

    def __repr__(self) -> str:
        return f"CutSize({self.text('cm')})"

    def of(self, quantity: int) -> CutSize:
        """The same size, so many of it."""
        turned = None if self.exchanged else self.turned or False
        return CutSize(self.name, self.across, self.down, quantity, self.worth, turned)

    @property
    def area_mm2(self) -> Fraction:
        """Area of one, square millimetres."""
        return self.across.mm * self.down.mm

    def lays(self, grain: str) -> tuple[tuple[Length, Length, bool], ...]:
        """Each way in which it may lie: across and down the cloth, and whether it is turned.

        With a grain that is ``"fixed"`` its down lies along the warp; if it is ``"free"`` it may lie along
        the weft.

        Examples
        --------
        >>> [lay[2] for lay in CutSize("table mat", "18 cm", "12 cm", 6).lays("free")]
        [False, True]
        """
        upright = (self.across, self.down)
        if one_of(grain, GRAINS, "grain") == "fixed" or self.turned is None or self.turned == upright:
            return ((*upright, False),)
        return (*upright, False), (*self.turned, True)

    def in_steps(self, step: Fraction, grain: str, loss: int = 0) -> tuple[tuple[int, int, bool], ...]:
        """The same in whole steps of so many mm, each side larger by the steps that a cut costs.

        Examples
        --------
        >>> CutSize("table mat", "18 cm", "12 cm", 6).in_steps(Fraction(10), "free")
        ((18, 12, False), (12, 18, True))
        """
        return tuple(
            (int(across.mm / step) + loss, int(down.mm / step) + loss, turned)
            for across, down, turned in self.lays(grain)
        )

    def text(self, unit: str = "in") -> str:
        """The size in words.

        Examples
        --------
        >>> CutSize("table mat", "18 in", "12 1/2 in", 6).text()
        '6 of table mat, 18 in across × 12 1/2 in down'
        """
        quantity = "" if self.quantity is None else f"{self.quantity} of "
        return f"{quantity}{self.name}, {self.across.text(unit)} across × {self.down.text(unit)} down"


def _whole(value: object, about: str) -> int:
    return whole_threads(value, about, least=1, most=MAX_PIECES, example=12, of="pieces")


def _worth(value: object, about: str) -> Fraction:
    worth = exact_number(value, about)
    if not 0 < worth <= 10**9 or worth.denominator > 10**9:
        raise HemError(
            f"{about} is {shown(worth)}, but must be more than 0 and at most 1,000,000,000; for example 3.",
            "pieces",
        )
    return worth


def as_cut_sizes(pieces: object, about: str = "pieces", *, counted: bool = True) -> tuple[CutSize, ...]:
    """The sizes as CutSize: those already, or (name, across, down, how many) each.

    Refused are none or too many, two of one name, and, if they are to be `counted`, one that doesn't say how
    many.

    Examples
    --------
    >>> [sizes.name for sizes in as_cut_sizes([("coaster", "6 in", "6 in", 24)])]
    ['coaster']
    """
    lines = several(pieces, about, "sizes, with a line for each", "[('coaster', '6 in', '6 in', 24)]")
    sizes = tuple(_one(piece, about) for piece in lines)
    if not 1 <= len(sizes) <= MAX_SIZES:
        raise HemError(
            f"{about} has {len(sizes) or 'no'} sizes, but must have from 1 to {MAX_SIZES}; "
            "for example [('coaster', '6 in', '6 in', 24)].",
            about,
        )
    twice = [name for name, times in Counter(size.name for size in sizes).items() if times > 1]
    if twice:
        raise HemError(
            f"Two sizes are called {shown(twice[0])}, but each must have its own name; "
            "for example 'coaster, small' and 'coaster, large'.",
            about,
        )
    if counted and any(size.quantity is None for size in sizes):
        (name, *_) = (size.name for size in sizes if size.quantity is None)
        raise HemError(f"{shown(name)} does not say how many, but the bolt needs it; {_EXAMPLE}", about)
    total = sum(size.quantity or 0 for size in sizes)
    if total > MAX_PIECES:
        raise HemError(
            f"{about} has {total} pieces in all, but at most {MAX_PIECES} can be laid out; {_EXAMPLE}", about
        )
    return sizes


def _one(piece: object, about: str) -> CutSize:
    if isinstance(piece, CutSize):
        return piece
    if not isinstance(piece, tuple | list) or not 3 <= len(piece) <= 6:
        raise HemError(
            f"A line of {about} is {shown(piece)}, but must be a name, a size across, a size down and how "
            f"many; {_EXAMPLE}",
            about,
        )
    return CutSize(*piece)


def sides_of(sizes: Iterable[CutSize], grain: str) -> list[Length]:
    """The sides of all the sizes, each way in which they may lie."""
    return [side for size in sizes for across, down, _ in size.lays(grain) for side in (across, down)]


def common_step(lengths: Iterable[Length]) -> Fraction:
    """The longest step, in mm, of which each length is a whole number.

    Examples
    --------
    >>> common_step([Length("1/2 in"), Length("1 cm")])
    Fraction(1, 10)
    """
    step = Fraction(0)
    for length in lengths:
        n, d = length.mm.numerator, length.mm.denominator
        step = Fraction(math.gcd(step.numerator * d, n * step.denominator), step.denominator * d)
    return step
