"""The guild's cupboard: rests of linen, what each gives of a class, and what is left of it.

A rest is cut before the bolt is, but only where that lets the leader buy less: one that saves
nothing stays whole.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Any, TypeVar

from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.cut_sizes import CutSize
from hemcalc.bolt.layout import Layout
from hemcalc.bolt.remnant import Yield, have_from_remnant
from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length, as_length
from hemcalc.workshop.goods import as_name
from hemcalc.workshop.linen import Linen

if TYPE_CHECKING:
    from pandas import DataFrame

T = TypeVar("T", Layout, Yield)

_LINEN = "workshop.linens[0]"  # how a linen is had


@dataclass(frozen=True, slots=True)
class Rest:
    """A rest of linen in the cupboard: which linen it is, how much of it, and in which state.

    Parameters
    ----------
    linen : str
        Its linen's name, as on the shopping list.
    across, down : str or Length
        What can be used of it as it lies in the cupboard, along the weft and along the warp.
    washed : bool, optional
        Whether it has been washed; may be left out where a wash makes no difference.
    name : str
        What it is called on the lists; its size, if left out.

    Examples
    --------
    >>> Rest("white linen", "62 cm", "45 cm", washed=False)
    Rest(white linen, 62 cm × 45 cm, not washed)
    """

    linen: str
    across: Length
    down: Length
    washed: bool | None
    name: str

    def __init__(
        self, linen: str, across: object, down: object, washed: bool | None = None, name: str = ""
    ) -> None:
        object.__setattr__(self, "linen", as_name(linen, "linen", "white linen"))
        object.__setattr__(self, "across", as_length(across, "across"))
        object.__setattr__(self, "down", as_length(down, "down"))
        if washed is not None and not isinstance(washed, bool):
            raise HemError(
                f"washed is {shown(washed)}, but must be True, False or left out; for example washed=True.",
                "washed",
            )
        object.__setattr__(self, "washed", washed)
        object.__setattr__(self, "name", as_name(name, "name", "rest on the top shelf", empty=True))

    def __repr__(self) -> str:
        state = {None: "", True: ", washed", False: ", not washed"}[self.washed]
        return f"Rest({self.linen}, {self.across.text('cm')} × {self.down.text('cm')}{state})"

    def text(self, unit: str = "in") -> str:
        """What it is called, and its size as it lies in the cupboard."""
        size = f"{self.across.text(unit)} across × {self.down.text(unit)} down"
        return f"{self.name}, {size}" if self.name else f"the rest of {size}"

    def to_cut(self, linen: Linen) -> tuple[Length, Length]:
        """Its size when it is cut: less, if it must be washed first, as its linen is.

        Refused if its state doesn't go with that for which the pieces are planned, or isn't said.
        """
        fabric = of_type(linen, Linen, "linen", _LINEN).fabric
        shrinks = bool(fabric.shrink_across or fabric.shrink_down)
        whose = f"The rest of {shown(self.linen)}, {self.across.text('cm')} × {self.down.text('cm')},"
        if self.washed is None and (shrinks or fabric.washed):
            raise HemError(
                f"{whose} does not say whether it is washed, but its pieces are planned for cloth "
                f"{'after' if fabric.washed else 'before'} the wash; for example Rest(..., washed=False).",
                "rests",
            )
        if self.washed and not fabric.washed:
            raise HemError(
                f"{whose} is washed, but the pieces are planned for cloth before the wash and would get too "
                "many threads; for example washed_class(workshop, 'before cutting').",
                "rests",
            )
        if self.washed is False and fabric.washed:
            if not shrinks:
                raise HemError(
                    f"{whose} is not washed, and its linen does not say what the wash takes; for example "
                    "wash it, measure it anew, and say washed=True.",
                    "rests",
                )
            return self.across * (1 - fabric.shrink_across), self.down * (1 - fabric.shrink_down)
        return self.across, self.down

    def washed_first(self, linen: Linen) -> bool:
        """Whether it must be washed before it is cut."""
        return of_type(linen, Linen, "linen", _LINEN).fabric.washed and self.washed is False


@dataclass(frozen=True, slots=True)
class FromRest:
    """A rest, and what is cut from it. Made by `cut_for_class`."""

    rest: Rest
    had: Yield
    washed_first: bool

    def __repr__(self) -> str:
        return f"FromRest({self.rest.linen}: {self._had() or 'nothing'})"

    def _had(self) -> str:
        return ", ".join(f"{quantity} of {name}" for name, quantity in self.had.counts.items() if quantity)

    def left_text(self, unit: str = "in") -> str:
        """What is left of it, the largest bit first."""
        bits = sorted(self.had.offcuts, key=lambda bit: -bit.area_mm2)
        said = ", ".join(bit.text(unit) for bit in bits[:3])
        return (said or "nothing") + (", and smaller" if len(bits) > 3 else "")

    def text(self, unit: str = "in") -> str:
        """What the rest gives, and what is left of it, in sentences."""
        wash = ""
        if self.washed_first:
            size = f"{self.had.width.text(unit)} × {self.had.length.text(unit)}"
            wash = f" Wash it first: expect {size}, and measure it."
        return f"From {self.rest.text(unit)}: {self._had()}.{wash} Left of it: {self.left_text(unit)}."


@dataclass(frozen=True)
class Cutting(Mapping[str, Layout]):
    """How a class's linens are cut: from the cupboard's rests, and then from the bolt.

    As a mapping it has the layout of each linen that is bought, by the linen's name. Made by
    `cut_for_class`; `Workshop.with_lengths` takes it.
    """

    bolts: tuple[tuple[str, Layout], ...]
    rests: tuple[FromRest, ...] = ()
    #: Rests that would save nothing, or of linens that nobody works.
    untouched: tuple[Rest, ...] = ()
    #: By linen, what the rests save of what must be bought.
    saved: tuple[tuple[str, Length], ...] = ()

    def __getitem__(self, linen: str) -> Layout:
        return dict(self.bolts)[linen]

    def __iter__(self) -> Iterator[str]:
        return (name for name, _ in self.bolts)

    def __len__(self) -> int:
        return len(self.bolts)

    def __repr__(self) -> str:
        return f"Cutting({len(self.bolts)} linens to buy, {len(self.rests)} rests to cut)"

    @property
    def linens(self) -> tuple[str, ...]:
        """Every linen that is cut, from a rest or from the bolt."""
        return tuple(dict.fromkeys([*(each.rest.linen for each in self.rests), *self]))

    def text(self, unit: str = "in") -> str:
        """What each rest gives, what is bought, and what that saves, a line each."""
        lines = []
        for name in self.linens:
            lines += [f"{name}: {each.text(unit)}" for each in self.rests if each.rest.linen == name]
            lines.append(
                f"{name}: buy {self[name].buy_text(unit)}." if name in self else f"{name}: nothing to buy."
            )
        lines += [f"{name}: the rests save {length.text(unit)}." for name, length in self.saved]
        lines += [f"{rest.linen}: left whole, {rest.text(unit)}." for rest in self.untouched]
        return "\n".join(lines)

    def _rows(self) -> list[tuple[str, str, str, int]]:
        cloths = [
            (each.rest.linen, each.rest.name or f"rest {n}", each.had.counts)
            for n, each in enumerate(self.rests, 1)
        ] + [(name, "bolt", layout.counts) for name, layout in self.bolts]
        return [
            (linen, cloth, size, quantity)
            for linen, cloth, counts in sorted(cloths, key=lambda cloth: self.linens.index(cloth[0]))
            for size, quantity in counts.items()
            if quantity
        ]

    def table(self) -> DataFrame:
        """A row for each size that is cut from each cloth."""
        from pandas import DataFrame

        return DataFrame(self._rows(), columns=_COLUMNS)

    def _repr_html_(self) -> str:
        rows = ((*words, str(quantity)) for *words, quantity in self._rows())
        return table_html(_COLUMNS, rows, "What is cut from which cloth")


_COLUMNS = ["linen", "cut from", "piece", "pieces"]


def cut_linen(
    linen: Linen,
    pieces: Sequence[CutSize],
    rests: Sequence[Rest],
    grain: str,
    effort: object = 1,
    progress: Callable[[str], None] | None = None,
) -> tuple[Layout | None, tuple[FromRest, ...], Length]:
    """A linen's pieces from its rests and from the bolt, and what the rests save of it.

    The layout is None if the rests give everything. Smaller rests are tried first, and larger
    ones first; whichever lets her buy less is taken.
    """
    search = partial(_bolt, linen, grain=grain, effort=effort, progress=progress)
    bolt = search(pieces)
    best: tuple[Layout | None, tuple[FromRest, ...], Length] = bolt, (), Length(0)
    for turn in (1, -1):
        order = sorted(rests, key=lambda rest: turn * rest.across.mm * rest.down.mm)
        used, left = _from_rests(linen, pieces, order, grain)
        if not used:
            break
        layout = search(left) if left else None
        saved = bolt.to_buy - layout.to_buy if layout else bolt.to_buy
        if saved > best[2]:
            best = layout and _numbered_on(layout, used), used, saved
    return best


def _bolt(linen: Linen, pieces: Sequence[CutSize], **search: Any) -> Layout:
    return cut_from_bolt(pieces, linen.width, unit=linen.sold_by, allow=linen.allow, **search)


def _from_rests(
    linen: Linen, pieces: Sequence[CutSize], rests: Sequence[Rest], grain: str
) -> tuple[tuple[FromRest, ...], list[CutSize]]:
    """What each rest in turn gives, and the pieces that are then still wanted."""
    used: list[FromRest] = []
    left = list(pieces)
    for rest in rests:
        if left:
            had = have_from_remnant(*rest.to_cut(linen), left, grain=grain, each_cut=linen.allow.each_cut)
            if had.pieces:
                left = [size.of(n) for size in left if (n := (size.quantity or 0) - had.counts[size.name])]
                used.append(FromRest(rest, _numbered_on(had, used), rest.washed_first(linen)))
    return tuple(used), left


def _numbered_on(cloth: T, used: Sequence[FromRest]) -> T:
    """The cloth with its pieces numbered on from those that were cut before it."""
    before = sum((Counter(each.had.counts) for each in used), Counter[str]())
    pieces = (replace(piece, number=piece.number + before[piece.name]) for piece in cloth.pieces)
    return replace(cloth, pieces=tuple(pieces))


def left_whole(cupboard: Sequence[Rest], used: Sequence[FromRest]) -> tuple[Rest, ...]:
    """The rests that nothing is cut from; two that are alike are two."""
    left = list(cupboard)
    for each in used:
        left.remove(each.rest)
    return tuple(left)
