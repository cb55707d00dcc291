"""The panel of the bolt: how much linen to buy for a class, and how it is cut up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.layout import Layout
from hemcalc.draw.bolt.picture import BoltPicture, bolt_alt
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.units import UNITS
from hemcalc.panels.choices import use_lengths
from hemcalc.panels.controls import Control, choice, stops, switch, whole
from hemcalc.panels.in_hand import MINE, named
from hemcalc.panels.panel import Panel
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece
from hemcalc.workshop.kit import cut_size_of

MAX_LEARNERS = 24
#: Usable widths of a bolt to choose from, by unit.
WIDTHS: Mapping[str, tuple[str, ...]] = {
    "in": tuple(f"{n} in" for n in (*range(24, 80, 3), *range(80, 125, 5))),
    "cm": tuple(f"{n} cm" for n in range(60, 301, 5)),
}
#: What shops sell by, by unit.
SOLD_BY: Mapping[str, tuple[str, ...]] = {
    "in": ("1/8 yd", "1/4 yd", "1/2 yd", "1 yd"),
    "cm": ("10 cm", "25 cm", "50 cm", "100 cm"),
}
_SETS = {f"a {name}": (name,) for name in EXAMPLES} | {
    "bread cloth, coaster": ("bread cloth", "coaster"),
    "bread cloth, sampler, coaster": ("bread cloth", "sampler", "coaster"),
}
#: Pieces and cuts of the largest class, with room.
_MAX_PIECES = 4 * MAX_LEARNERS * 3


@dataclass(frozen=True, slots=True)
class BoltPlan:
    """What the panel shows."""

    layout: Layout
    unit: str


def plan_bolt(values: Mapping[str, Any], effort: Fraction = Fraction(1)) -> BoltPlan:
    """The layout that the controls' values ask for, with so much effort as in `cut_from_bolt`."""
    turn = "free" if values["turn"] else "fixed"
    asked = (values[name] for name in ("learners", "width", "sold by", "unit"))
    return BoltPlan(_layout(_pieces(values["pieces"]), *asked, turn, effort), values["unit"])


def _pieces(chosen: str) -> tuple[tuple[str, Piece], ...]:
    """The pieces of each learner, by their names."""
    return tuple((name, named(name)) for name in _SETS.get(chosen, (chosen,)))


@lru_cache(maxsize=512)
def _layout(
    pieces: tuple[tuple[str, Piece], ...],
    learners: int,
    width: str,
    sold_by: str,
    unit: str,
    turn: str,
    effort: Fraction,
) -> Layout:
    """Kept, since a reader who moves a slider back need not wait again."""
    # One bolt is one linen: what is laid beside the first is planned on the first one's cloth.
    linen = pieces[0][1].fabric
    sizes = [cut_size_of(name, piece.with_changes(fabric=linen), learners, unit) for name, piece in pieces]
    return cut_from_bolt(sizes, width, grain=turn, unit=sold_by, effort=effort)


class BoltView:
    """The bolt with all its cuts."""

    def __init__(self) -> None:
        self.sheet = Sheet(9, 6.5)
        self.bolt = BoltPicture(self.sheet, (0.01, 0.01, 0.98, 0.98), _MAX_PIECES)

    def update(self, plan: BoltPlan) -> None:
        """Show this plan."""
        self.bolt.update(plan.layout, plan.unit)

    def alt(self, plan: BoltPlan) -> str:
        """The picture in words, with its numbers."""
        return bolt_alt(plan.layout, plan.unit)


def bolt_panel() -> Panel:
    """The panel of the bolt, ready to be shown in a notebook.

    Examples
    --------
    >>> panel = bolt_panel()
    >>> panel.result.layout.to_buy.text("cm")
    '80 cm'
    >>> panel.controls["learners"].widget.value = 24
    >>> panel.result.layout.to_buy.text("cm")
    '130 cm'
    """
    return Panel(
        _controls(),
        plan_bolt,
        BoltView(),
        _examples(),
        _adapt,
        told=_cuts,
        mind=lambda _: ("blade",),
        from_piece=_mine,
    )


def _cuts(plan: BoltPlan) -> tuple[str, ...]:
    """Every cut in words."""
    return plan.layout.steps(plan.unit)


def _controls() -> list[Control]:
    return [
        whole("learners", "learners", 1, MAX_LEARNERS, "each is given the pieces below", at_rest=True),
        choice("pieces", "pieces for each", tuple(_SETS), "as they are cut, of the invented workshop"),
        stops("width", "usable width", WIDTHS["cm"], "of the bolt, between the selvedges", at_rest=True),
        choice("sold by", "sold by", SOLD_BY["cm"], "the shop's unit: what is bought is rounded up to it"),
        switch("turn", "may be turned", "a piece may lie with its down across the bolt"),
        choice("unit", "unit", UNITS[:2], "inches and yards, or centimetres"),
    ]


def _adapt(controls: Mapping[str, Control]) -> None:
    """Offer the widths and the shop's units that go with the unit."""
    unit = controls["unit"].value
    use_lengths(controls["width"], WIDTHS[unit])
    use_lengths(controls["sold by"], SOLD_BY[unit])


def _examples() -> dict[str, dict[str, Any]]:
    return {
        "twelve learners, bread cloths": _values(12, "a bread cloth"),
        "twelve learners, three pieces each": _values(12, "bread cloth, sampler, coaster"),
        "twenty-four, samplers turned": _values(24, "a sampler", turn=True),
        "twenty-four, three pieces each, in inches": _values(
            24, "bread cloth, sampler, coaster", unit="in", width="54 in", sold_by="1/8 yd"
        ),
        "one learner": _values(1, "a coaster"),
    }


def _mine(piece: Piece) -> dict[str, Any]:
    unit = piece.fabric.across.unit
    width, sold_by = ("54 in", "1/8 yd") if unit == "in" else ("140 cm", "10 cm")
    return _values(1, MINE, unit=unit, width=width, sold_by=sold_by)


def _values(
    learners: int,
    pieces: str,
    *,
    unit: str = "cm",
    width: str = "140 cm",
    sold_by: str = "10 cm",
    turn: bool = False,
) -> dict[str, Any]:
    return {
        "unit": unit,
        "learners": learners,
        "pieces": pieces,
        "width": width,
        "sold by": sold_by,
        "turn": turn,
    }
