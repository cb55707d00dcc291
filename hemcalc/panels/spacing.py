"""The panel of the stitches: a side's groups, corner to corner, and what would make it divide."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from hemcalc.draw.scale import inches
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.stitch.group_rows import Spaced
from hemcalc.draw.stitch.open_line import OpenLineRows
from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError
from hemcalc.panels.choices import COUNTS, unit_choice, use_unit, way_asked, way_choice
from hemcalc.panels.controls import Control, choice, stops, whole
from hemcalc.panels.panel import Panel
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece
from hemcalc.stitch.dividing import nearest_dividing
from hemcalc.stitch.groups import GROUP_SIZES, HANDS
from hemcalc.stitch.spacing import reason_against, space_stitches

WIDEST_DESIGN = 360  # threads; wider ones would leave the picture
WIDEST_CLEAR = 16
#: Threads of a row and rows, for short sides and for long ones.
_SCALES, _NARROW_SCALES = ((48, 3), (96, 5)), ((28, 2), (56, 4), (84, 5))
_OFFERED = 3  # ways to make a side divide that are named


def plan_spacing(values: Mapping[str, Any]) -> Spaced:
    """The groups of the side that the controls' values describe."""
    design, left, right = (values[name] for name in ("design", "clear left", "clear right"))
    group, threads = values["group"], design + left + right
    if why := reason_against(threads, group):
        raise HemError(f"Design and clear bands come to {threads}{why}", "design")
    spacing = space_stitches(threads, group, hand=values["hand"], worked=way_asked(values["worked"]))
    advice = _ways(design, left, right, group) if spacing.off_size else ()
    return Spaced(spacing, Count(values["count"]), values["unit"], advice)


def _ways(design: int, left: int, right: int, group: int) -> tuple[str, ...]:
    """What would make the side divide, in a sentence; none if nothing so near does."""
    ways = nearest_dividing(design, left, right, group)[:_OFFERED]
    words = [
        f"a design of {way.design}" if way.changes == "design" else f"clear {way.left} and {way.right}"
        for way in ways
    ]
    return (f"It would divide with {', or '.join(words)}.",) if words else ()


def spacing_panel(*, narrow: bool = False) -> Panel:
    """The panel of the stitches, ready to be shown in a notebook; narrow, to stand beside another.

    Examples
    --------
    >>> panel = spacing_panel()
    >>> panel.result.spacing.threads, panel.result.spacing.off_places
    (83, (11,))
    >>> panel.controls["clear right"].widget.value = 5
    >>> panel.result.spacing.off_size
    0
    """
    view = _view(narrow=narrow)  # refuses before a control is made
    return Panel(
        _controls(),
        plan_spacing,
        view,
        _examples(),
        _adapt,
        from_piece=_values,
        stage="spacing",
        narrow=partial(_view, narrow=True),
    )


def _view(*, narrow: bool) -> OpenLineRows:
    sheet = Sheet(*inches(9, 4.8, narrow=narrow))
    scales = _NARROW_SCALES if narrow else _SCALES
    return OpenLineRows(sheet, (0.01, 0.01, 0.98, 0.98), scales, advice=True)


def _controls() -> list[Control]:
    return [
        whole("design", "design, threads", 1, WIDEST_DESIGN, "threads of the design along this side"),
        whole("clear left", "clear left, threads", 0, WIDEST_CLEAR, "plain cloth at the side's left end"),
        whole("clear right", "clear right, threads", 0, WIDEST_CLEAR, "plain cloth at its right end"),
        whole("group", "group, threads", *GROUP_SIZES, "threads to a stitch; the books take 2 to 5"),
        choice("hand", "hand", HANDS, "the hand that holds the needle"),
        way_choice(),
        stops("count", "count", COUNTS["in"], "threads along this side, for its length"),
        unit_choice(),
    ]


def _adapt(controls: Mapping[str, Control]) -> None:
    """Offer the counts that go with the unit."""
    use_unit(controls, controls["unit"].value, ("count",), ())


def _examples() -> dict[str, dict[str, Any]]:
    short = EXAMPLES["coaster"].design[0] - 1
    examples = {"coaster, its design a thread short": _values(EXAMPLES["coaster"]) | {"design": short}}
    for name, piece in EXAMPLES.items():
        across, down = _values(piece), _values(piece, "down")
        square = across["design"] == down["design"]
        examples |= {name: across} if square else {f"{name}, top": across, f"{name}, side": down}
    return examples


def _values(piece: Piece, way: str = "across") -> dict[str, Any]:
    across = way == "across"
    ends = (piece.clear.left, piece.clear.right) if across else (piece.clear.top, piece.clear.bottom)
    count = piece.fabric.across if across else piece.fabric.down
    unit = count.unit
    return {
        "unit": unit,
        "count": count.text(unit),
        "design": piece.design[0 if across else 1],
        "clear left": ends[0],
        "clear right": ends[1],
        "group": 4,
        "hand": "right",
        "worked": "as suits the hand",
    }
