"""The panel of the weave: a corner's threads drawn out and darned back, one step after another."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from functools import lru_cache, partial
from typing import Any

from hemcalc.draw.scale import inches
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.weave.lens import LENS_SHEET, NEAR, LensShown, WeaveLens
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.panels.choices import drawn_choice, unit_choice
from hemcalc.panels.controls import Control, choice, whole
from hemcalc.panels.in_hand import MINE, named
from hemcalc.panels.panel import Panel
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece
from hemcalc.weave.open_lines import CORNERS, TURN_AT
from hemcalc.weave.steps import WeaveStep, steps_at
from hemcalc.weave.weave import Weave, open_line

#: The workshop's pieces, and one so small that its tails are too short; all are invented.
PIECES: Mapping[str, Piece] = {
    **EXAMPLES,
    "pincushion": Piece(Fabric("22/in"), (26, 26), hem=9, same="threads", clear=5, eye="0 mm"),
}

CLOSE, FAR = "close to the corner", "out to the cut line"


def plan_weave(values: Mapping[str, Any]) -> LensShown:
    """The step that the controls' values ask for."""
    weave, steps = _steps(
        named(values["piece"], PIECES), values["drawn"], values["turn at"], values["corner"]
    )
    hem = NEAR if values["look"] == CLOSE else None
    return LensShown(weave, values["corner"], steps, values["step"], hem, values["unit"])


@lru_cache(maxsize=64)
def _steps(piece: Piece, drawn: int, turn_at: str, corner: str) -> tuple[Weave, tuple[WeaveStep, ...]]:
    """The weave of a piece and its steps at a corner; kept, for the step's slider."""
    weave = open_line(piece.with_changes(drawn=drawn), turn_at=turn_at)
    return weave, steps_at(weave, corner)


def weave_panel(*, narrow: bool = False) -> Panel:
    """The panel of the weave, ready to be shown in a notebook; narrow, to stand beside another.

    Examples
    --------
    >>> panel = weave_panel()
    >>> panel.controls["step"].widget.max
    65
    >>> panel.controls["step"].widget.value = 8
    >>> panel.result.step.kind
    'turn'
    """
    view = _view(narrow=narrow)  # refuses before a control is made
    return Panel(
        _controls(),
        plan_weave,
        view,
        _examples(),
        _adapt,
        mind=lambda lens: lens.step.mind,
        stage="weave",
        from_piece=_mine,
        narrow=partial(_view, narrow=True),
    )


def _view(*, narrow: bool) -> WeaveLens:
    return WeaveLens(Sheet(*inches(*LENS_SHEET, narrow=narrow)))


def _controls() -> list[Control]:
    return [
        whole("step", "step", 1, 2, "out come the threads, and back go the tails, one crossing a step"),
        choice("look", "lens", (CLOSE, FAR), "how much of the hem is shown"),
        choice("piece", "piece", tuple(PIECES), "all invented; the pincushion's tails are too short"),
        choice("corner", "corner", CORNERS, "as the piece lies before you, right side up"),
        choice(
            "turn at", "tails turn", TURN_AT, "in the empty line, outside the drawn lines, or inside them"
        ),
        drawn_choice(),
        unit_choice(),
    ]


def _adapt(controls: Mapping[str, Control]) -> None:
    """Let the slider run through as many steps as there are."""
    piece, *said = (controls[name].value for name in ("piece", "drawn", "turn at", "corner"))
    slider = controls["step"].widget
    most = slider.max
    with suppress(HemError):  # which the plan says
        most = len(_steps(named(piece, PIECES), *said)[1])
    # A slider that is to be shortened must first be moved within its new range.
    slider.value = min(slider.value, most)
    slider.max = most


def _examples() -> dict[str, dict[str, Any]]:
    usual = {"unit": "in", "piece": "bread cloth", "drawn": 2, "turn at": TURN_AT[0], "corner": CORNERS[0]}
    usual |= {"look": CLOSE}
    return {
        "bread cloth, the first tail": usual | {"step": 13},
        "bread cloth, all done": _done(usual),
        "pincushion, tails too short": _done(usual | {"piece": "pincushion", "look": FAR}),
        "sampler, three drawn": _done(usual | {"piece": "sampler", "drawn": 3}),
        "coaster, one drawn": _done(usual | {"piece": "coaster", "drawn": 1}),
    }


def _done(values: dict[str, Any]) -> dict[str, Any]:
    piece, *said = (values[name] for name in ("piece", "drawn", "turn at", "corner"))
    return values | {"step": len(_steps(named(piece, PIECES), *said)[1])}


def _mine(piece: Piece) -> dict[str, Any]:
    usual = _examples()["bread cloth, the first tail"]
    return usual | {"unit": piece.fabric.across.unit, "piece": MINE, "drawn": piece.drawn}
