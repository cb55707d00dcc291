"""The panel of the margin rule: the edge as a ruler of threads over its section."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from hemcalc.draw.edge.profile import SectionProfile, section_alt
from hemcalc.draw.edge.ruler import EdgeRuler, edge_alt
from hemcalc.draw.edge.strips import FOLDED_HIGH, SectionLens, thickness_threads
from hemcalc.draw.scale import framed, inches
from hemcalc.draw.sheet import Sheet
from hemcalc.edge.ledger import Edge, plan_edge
from hemcalc.edge.section import Section, plan_section
from hemcalc.measure.lengths import Length
from hemcalc.panels.choices import (
    BY_LENGTH,
    BY_THREADS,
    HEMS,
    THICKNESSES,
    WIDEST_HEM,
    count_choices,
    drawn_choice,
    hem_is_choice,
    turn_choices,
    unit_choice,
    use_hem,
)
from hemcalc.panels.controls import Control, choice, gradual, stops, switch, whole
from hemcalc.panels.panel import Panel
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece

WIDEST_CLEAR = 40
MAX_HANDLING = 8
_WORDS_FROM = 0.5  # share of the width that the folded hem leaves free
_DESIGN = 6  # threads of it that are seen
_RULER, _PROFILE = (0.01, 0.53, 0.98, 0.465), (0.01, 0.005, 0.98, 0.515)
_NARROW_RULER, _NARROW_PROFILE = (0.01, 0.38, 0.98, 0.615), (0.01, 0.005, 0.98, 0.365)
_BELOW, _ABOVE = 0.43, 0.4  # inches under the section for the hem's lower half, and over it for words

WAYS_COUNTED = ("sides (counted across)", "top and bottom (counted down)")


@dataclass(frozen=True, slots=True)
class MarginPlan:
    """What the panel shows."""

    edge: Edge
    section: Section
    fold: float
    unit: str
    more: bool


def plan_margin(values: Mapping[str, Any]) -> MarginPlan:
    """The edge and section that the controls' values ask for."""
    across = values["side"] == WAYS_COUNTED[0]
    hem = values["hem"] if values["hem is"] == BY_LENGTH else values["hem threads"]
    edge = plan_edge(
        values["count across"] if across else values["count down"],
        hem,
        clear=values["clear"],
        drawn=values["drawn"],
        turn=None if values["half"] else values["turn"],
        handling=values["handling"],
    )
    section = plan_section(edge, Length(values["thickness"]))
    return MarginPlan(edge, section, values["fold"], values["unit"], values["more"])


class MarginPicture:
    """The ruler of threads over the section, at one scale; where there is room, a lens on the folded hem."""

    def __init__(self, *, narrow: bool = False) -> None:
        self.sheet = Sheet(*inches(9, 5.5, narrow=narrow))
        self.ruler = EdgeRuler(self.sheet, _NARROW_RULER if narrow else _RULER, 1)
        self._box = _NARROW_PROFILE if narrow else _PROFILE
        self._words_from = 0.0 if narrow else _WORDS_FROM
        self.profile = SectionProfile(self.sheet, self._box, (0, 1), (0, 1), self._words_from, scale=True)
        box = (0.01 + 0.98 * _WORDS_FROM, 0.225, 0.46, 0.2)
        self.lens = None if narrow else SectionLens(self.sheet, box, self.profile.axes)
        self.reach_mm = self.least_mm = 0.0

    def update(self, plan: MarginPlan) -> None:
        """Show this plan, at the largest scale that has room for it however far it is folded."""
        self._frame(plan.edge, FOLDED_HIGH * thickness_threads(plan.section))
        self.ruler.update(plan.edge, plan.unit)
        self.profile.update(plan.section, plan.fold, plan.unit, more=plan.more)
        if self.lens is not None:
            self.lens.update(plan.section, plan.fold)

    def _frame(self, edge: Edge, top: float) -> None:
        (width, tall), (_, _, share, up) = self.sheet.figure.get_size_inches(), self._box
        width, tall = share * width, up * tall
        across = (
            edge.rule.margin + _DESIGN,
            edge.total + edge.handling + _DESIGN,
            (edge.fold_1 + _DESIGN) / (self._words_from or 1),
            (edge.hem + top) * width / (tall - _BELOW - _ABOVE),
        )
        thread = float(edge.width(1).mm)
        self.reach_mm = framed(max(across)) * thread
        most = max(self.reach_mm, self.least_mm) / thread - _DESIGN
        if most != self.ruler.most:
            self.ruler.look(most)
            limits = self.ruler.axes.get_xlim()
            inch = (limits[1] - limits[0]) / width
            self.sheet.look(self.profile.axes, limits, (-_BELOW * inch, (tall - _BELOW) * inch))

    def alt(self, plan: MarginPlan) -> str:
        """Both pictures in words, with their numbers."""
        section = section_alt(plan.section, plan.fold, plan.unit, plan.more)
        return f"{edge_alt(plan.edge, plan.unit)} {section}"


def margin_panel(*, narrow: bool = False) -> Panel:
    """The panel of the margin rule, ready to be shown in a notebook; narrow, to stand beside another.

    Examples
    --------
    >>> panel = margin_panel()
    >>> panel.controls["clear"].widget.value = 12
    >>> panel.result.edge.first_drawn
    13
    """
    view = MarginPicture(narrow=narrow)  # refuses before a control is made
    examples = {name: _values(piece) for name, piece in EXAMPLES.items()}
    return Panel(
        _controls(),
        plan_margin,
        view,
        examples,
        lambda controls: use_hem(controls, "hem threads"),
        from_piece=_values,
        stage="margin",
        narrow=partial(MarginPicture, narrow=True),
    )


def _controls() -> list[Control]:
    return [
        gradual("fold", "fold, 0 to 1", "from flat to folded: first the turn, then the hem"),
        stops("hem", "hem, width", HEMS["in"], "width of the finished hem"),
        whole("hem threads", "hem, threads", 1, WIDEST_HEM, "threads of the finished hem"),
        whole("clear", "clear, threads", 0, WIDEST_CLEAR, "plain cloth between design and open line"),
        drawn_choice(),
        *turn_choices(),
        whole(
            "handling", "handling, threads", 0, MAX_HANDLING, "for fingers, hoop or fraying beyond the cut"
        ),
        switch("more", "say more", "where the middle and the outer face of the cloth land"),
        stops("thickness", "thickness", THICKNESSES, "of one layer; coarse cloth is thicker"),
        *count_choices(
            "threads across it after its first wash, for the sides",
            "threads down it after its first wash, for top and bottom",
        ),
        choice("side", "edge", WAYS_COUNTED, "warp threads are counted across, weft threads down"),
        hem_is_choice("a width becomes the nearest number of threads"),
        unit_choice(),
    ]


def _values(piece: Piece) -> dict[str, Any]:
    edge, cloth = piece.edges.left, piece.fabric
    as_width = piece.same == "width"
    thickness = cloth.thickness or Length(1)
    unit = cloth.across_washed.unit
    return {
        "unit": unit,
        "side": WAYS_COUNTED[0],
        # A hem is as wide as that after the wash.
        "count across": cloth.across_washed.text(unit),
        "count down": cloth.down_washed.text(unit),
        "hem is": BY_LENGTH if as_width else BY_THREADS,
        "hem": str(piece.hem) if as_width else HEMS[unit][0],
        "hem threads": edge.hem,
        "clear": edge.clear,
        "drawn": edge.drawn,
        "half": piece.turn is None,
        "turn": edge.turn,
        "handling": edge.handling,
        "thickness": thickness.text("mm"),
        "fold": 1.0,
        "more": False,
    }
