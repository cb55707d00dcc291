"""The panel of the hem stitch: its path, step by step, and the thread that a piece takes."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import Any

from hemcalc.draw.stitch.path import DEEPEST, StitchPicture
from hemcalc.draw.stitch.words import LAST, SEEN, Stitched
from hemcalc.measure.lengths import Length
from hemcalc.panels.choices import THICKNESSES, unit_choice, use_lengths, way_asked, way_choice
from hemcalc.panels.controls import Control, choice, stops, whole
from hemcalc.panels.in_hand import MINE, named
from hemcalc.panels.panel import Panel
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import THROUGH, Piece
from hemcalc.stitch.groups import GROUP_SIZES, HANDS
from hemcalc.stitch.plan import ThreadPlan
from hemcalc.stitch.thread import thread_needed

_PULLED = tuple(f"{n} %" for n in range(40, 101, 5))
_THREADS = tuple(f"0.{n:02d} mm" for n in range(10, 85, 5))
_WORKING = {
    "in": tuple(f"{n} in" for n in range(4, 31, 2)),
    "cm": tuple(f"{n} cm" for n in range(10, 76, 5)),
    "mm": tuple(f"{n} mm" for n in range(100, 751, 50)),
}


def plan_stitch(values: Mapping[str, Any]) -> Stitched:
    """The stitch that the controls' values ask for, with the thread that the piece takes."""
    piece = named(values["piece"]).with_changes(through=values["through"])
    group, depth = values["group"], values["depth"]
    plan = thread_needed(
        piece,
        group,
        depth=depth,
        thread=values["thread"],
        thickness=values["thickness"],
        # From what the picture shows to a thread that pulls nothing in.
        pulled=(values["pulled"], "100 %"),
        working=values["working"],
    )
    top = next(side for side in plan.sides if side.name == "top")
    return Stitched(
        path=top.paths[0],
        group=group,
        depth=depth,
        hand=values["hand"],
        step=values["step"],
        seen=values["seen"],
        unit=values["unit"],
        amounts=_amounts(plan, values["unit"]),
        worked=way_asked(values["worked"]),
    )


def _amounts(plan: ThreadPlan, unit: str) -> tuple[str, str]:
    """What stitch and piece take, in two sentences short enough for a hall."""
    small, large = ("in", "yd") if unit == "in" else ("mm", "m")
    lengths = " to ".join(str(needlefuls) for needlefuls in dict.fromkeys(plan.needlefuls))
    return (
        f"A stitch takes {plan.per_stitch.text(small)}; all {plan.stitches}, seams and waste "
        f"{plan.sewn.text(large)}.",
        f"Each {plan.working.text(unit)} sews {(plan.working - plan.ends).text(unit)}: {lengths} lengths.",
    )


def stitch_panel(*, narrow: bool = False) -> Panel:
    """The panel of the hem stitch, ready to be shown in a notebook; narrow, to stand beside another.

    Examples
    --------
    >>> panel = stitch_panel()
    >>> panel.result.amounts[1]
    'Each 50 cm sews 37 cm: 5 to 6 lengths.'
    >>> panel.controls["working"].widget.value = "40 cm"
    >>> panel.result.amounts[1]
    'Each 40 cm sews 27 cm: 7 to 8 lengths.'
    """
    view = StitchPicture(narrow=narrow)  # refuses before a control is made
    return Panel(
        _controls(),
        plan_stitch,
        view,
        _EXAMPLES,
        _adapt,
        mind=lambda _: ("needle", "eyes"),
        from_piece=_mine,
        stage="stitch",
        narrow=partial(StitchPicture, narrow=True),
    )


def _controls() -> list[Control]:
    return [
        whole("step", "step", 0, LAST, "from where the needle comes out to where it comes out again"),
        choice(
            "piece", "piece", tuple(EXAMPLES), "a piece of the invented workshop: its cloth, size and hem"
        ),
        choice("hand", "hand", HANDS, "the hand that holds the needle"),
        way_choice(),
        choice("seen", "seen from", SEEN, "wrong side: as the worker sees it; right side: as it is shown"),
        whole("group", "group, threads", *GROUP_SIZES, "threads to a stitch; the books take 2 to 5"),
        whole("depth", "depth, threads", 1, DEEPEST, "how deep in the hem the needle bites; two by custom"),
        choice("through", "needle catches", THROUGH, "of the hem: all its layers, or not the face"),
        stops(
            "pulled", "group pulled to", _PULLED, "of its width, at the most; the range runs to not at all"
        ),
        stops("thickness", "cloth, thickness", THICKNESSES, "of one layer; coarse cloth is thicker"),
        stops("thread", "thread, thickness", _THREADS, "wind it round a ruler, and divide by the turns"),
        stops(
            "working", "working length", _WORKING["cm"], "what is cut from the ball; the books: 40 to 50 cm"
        ),
        unit_choice(),
    ]


def _adapt(controls: Mapping[str, Control]) -> None:
    """Offer working lengths that go with the unit."""
    use_lengths(controls["working"], _WORKING[controls["unit"].value])


def _values(piece: str, **others: Any) -> dict[str, Any]:
    cloth = named(piece).fabric.thickness or Length(1)
    return {
        "unit": "cm",
        "piece": piece,
        "hand": "right",
        "worked": "as suits the hand",
        "seen": SEEN[0],
        "group": 4,
        "depth": 2,
        "through": THROUGH[0],
        "pulled": "70 %",
        "thickness": cloth.text("mm"),
        "thread": f"{float(cloth.mm) / 2:.2f} mm",  # as the cloth's own yarn
        "working": "50 cm",
        "step": LAST,
    } | others


def _mine(piece: Piece) -> dict[str, Any]:
    return _values(MINE, unit=piece.fabric.warp.unit, through=piece.through)


_EXAMPLES = {
    "coaster": _values("coaster"),
    "bread cloth, in threes": _values("bread cloth", group=3),
    "sampler, left hand": _values("sampler", hand="left"),
    "bookmark, from the right side": _values("bookmark", seen=SEEN[1]),
}
