"""The panel of the corner: trimmed and folded from above, and its layers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Any

from hemcalc.corner.mitre import CORNER_KINDS, ORDERS, Corner, plan_corner
from hemcalc.draw.corner.layer_map import LayerMap
from hemcalc.draw.corner.mitre import CornerMitre, corner_alt
from hemcalc.draw.scale import inches
from hemcalc.draw.sheet import Sheet
from hemcalc.edge.ledger import Edge, plan_edge
from hemcalc.measure.errors import HemError
from hemcalc.panels.choices import (
    BY_LENGTH,
    BY_THREADS,
    HEMS,
    WIDEST_HEM,
    count_choices,
    drawn_choice,
    hem_is_choice,
    turn_choices,
    unit_choice,
    use_hem,
)
from hemcalc.panels.controls import Control, choice, gradual, stops, whole
from hemcalc.panels.panel import Panel
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece

USUAL = "usual"
_ALLOWANCES = (USUAL, "1/8 in", "1/4 in", "3/8 in", "3 mm", "5 mm", "1 cm")


@dataclass(frozen=True, slots=True)
class CornerPlan:
    """What the panel shows."""

    corner: Corner
    fold: float
    unit: str


def plan_corner_view(values: Mapping[str, Any]) -> CornerPlan:
    """The corner that the controls' values ask for."""
    across, down = (_edge(values, way) for way in ("across", "down"))
    allowance = None if values["allowance"] == USUAL else values["allowance"]
    corner = corner_kept(across, down, values["corner"], allowance, values["order"])
    return CornerPlan(corner, values["fold"], values["unit"])


@lru_cache(maxsize=64)
def corner_kept(across: Edge, down: Edge, kind: str, allowance: str | None, order: str) -> Corner:
    """The same corner for the same values, with its plies folded already: only `fold` has moved."""
    return plan_corner(across, down, corner=kind, allowance=allowance, order=order)


def _edge(values: Mapping[str, Any], way: str) -> Edge:
    by_length = values["hem is"] == BY_LENGTH
    try:
        return plan_edge(
            values[f"count {way}"],
            values["hem"] if by_length else values[f"hem {way}"],
            clear=0,  # the corner's picture begins at the open line
            drawn=values["drawn"],
            turn=None if values["half"] else values["turn"],
        )
    except HemError as error:
        about = f"hem {way}" if error.about == "hem" and not by_length else error.about
        raise HemError(str(error), about) from None


class CornerPicture:
    """The corner from above, and where there is room its layers beside it."""

    def __init__(self, *, narrow: bool = False) -> None:
        self.sheet = Sheet(*inches(9, 4.8, narrow=narrow))
        self.mitre = CornerMitre(self.sheet, (0.01, 0.01, 0.98 if narrow else 0.62, 0.98))
        self.layers = None if narrow else LayerMap(self.sheet, (0.66, 0.05, 0.33, 0.92))
        self._mapped: object = None
        self.least_mm = 0.0

    @property
    def reach_mm(self) -> float:
        """What is shown of cloth and paper, from top to bottom."""
        return self.mitre.reach_mm

    def update(self, plan: CornerPlan) -> None:
        """Show this plan."""
        self.mitre.update(plan.corner, plan.fold, plan.unit, self.least_mm)
        mapped = plan.corner, plan.unit, self.sheet.type
        if (
            self.layers is not None and mapped != self._mapped
        ):  # the map is the same however far the corner is folded
            self.layers.update(plan.corner, plan.unit)
            self._mapped = mapped

    def alt(self, plan: CornerPlan) -> str:
        """The picture in words, with its numbers."""
        return corner_alt(plan.corner, plan.fold, plan.unit)


def corner_panel(*, narrow: bool = False) -> Panel:
    """The panel of the corner, ready to be shown in a notebook; narrow, to stand beside another.

    Examples
    --------
    >>> panel = corner_panel()
    >>> round(panel.result.corner.angle, 1)
    44.3
    >>> panel.controls["corner"].widget.value = "untrimmed"
    >>> round(panel.result.corner.overhang.reach_mm, 2)
    7.12
    """
    view = CornerPicture(narrow=narrow)  # refuses before a control is made
    return Panel(
        _controls(),
        plan_corner_view,
        view,
        {name: _values(piece) for name, piece in EXAMPLES.items()},
        lambda controls: use_hem(controls, "hem across", "hem down"),
        mind=lambda _: ("blade", "iron"),
        from_piece=_values,
        stage="corner",
        narrow=partial(CornerPicture, narrow=True),
    )


def _controls() -> list[Control]:
    return [
        gradual("fold", "fold, 0 to 1", "from flat to folded, one fold after another"),
        choice(
            "corner", "corner", CORNER_KINDS, "mitred and trimmed; untrimmed; folded square; square, uncut"
        ),
        choice("order", "order of folding", ORDERS, "turns first shows what goes wrong"),
        choice(
            "allowance",
            "allowance",
            _ALLOWANCES,
            "left beyond the corner fold; usual: to the fold 2 crossing",
        ),
        stops("hem", "hem, width", HEMS["in"], "width of the finished hem, both ways"),
        whole("hem across", "hem across, threads", 1, WIDEST_HEM, "hem of the left or right side"),
        whole("hem down", "hem down, threads", 1, WIDEST_HEM, "hem of the top or bottom"),
        *turn_choices(),
        drawn_choice(),
        *count_choices("threads across the width", "threads down the length"),
        hem_is_choice("as a width both ways, or in threads each way"),
        unit_choice(),
    ]


def _values(piece: Piece) -> dict[str, Any]:
    left, _, top, _ = piece.edges_in_hand
    # A hem is as wide as that after the wash; the corner is folded before it, of as many threads.
    as_width = piece.same == "width" and piece.fabric.washed
    unit = left.count.unit
    return {
        "unit": unit,
        "corner": piece.corner,
        "allowance": USUAL,
        "order": ORDERS[0],
        "count across": left.count.text(unit),
        "count down": top.count.text(unit),
        "hem is": BY_LENGTH if as_width else BY_THREADS,
        "hem": str(piece.hem) if as_width else HEMS[unit][0],
        "hem across": left.hem,
        "hem down": top.hem,
        "drawn": left.drawn,
        "half": piece.turn is None,
        "turn": left.turn,
        "fold": 0.0,
    }
