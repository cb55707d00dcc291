"""The blank cloth with the lines by which it is counted, to its own proportions and reduced.

Its numbers are threads: outside, from the raw edge in to the design's outline; inside them, from the
outline to the centre lines. A counting line runs every ten threads, or as many as the plan says.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import pairwise

from hemcalc.draw.finish.scene import Area, Scene, Stroke, Thing, Words, run, scene, show_scene
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.finish.counting import CountingPlan, Way
from hemcalc.measure.errors import of_type
from hemcalc.measure.words import threads_said

_WIDE, _HIGH = 66.0, 46.0  # mm
_ASIDE, _ABOVE = 19.0, 9.0  # room for numbers at the left and above, mm
_FAR, _NEAR = 6.0, 2.2  # levels of the numbers above the cloth, mm

_Place = Callable[[float], float]


def draw_counting_plan(plan: CountingPlan) -> Still:
    """The blank cloth with the lines to count by, as a finished figure.

    Examples
    --------
    >>> from hemcalc import example
    >>> from hemcalc.finish.counting import counting_plan
    >>> print(draw_counting_plan(counting_plan(example("coaster"))).alt)
    The blank cloth with centre lines, the outline of a design of 76 × 76 threads, and a line every 10 ...
    """
    shown = counting_scene(of_type(plan, CountingPlan, "plan", "counting_plan(example('coaster'))"))
    sheet = Sheet(shown.width / 25.4, shown.height / 25.4, dpi=200)
    show_scene(sheet, shown)
    return Still(sheet, " ".join(counting_words(plan)))


def counting_words(plan: CountingPlan) -> tuple[str, ...]:
    """The picture in words, with its numbers."""
    margins = plan.piece.edges_in_hand.map(lambda edge: edge.rule.margin)
    return (
        "The blank cloth with centre lines, the outline of a design of {} × {} threads, and a line every "
        "{} threads from the centre.".format(*plan.piece.design, plan.every),
        plan.text(),
        f"From the raw edge to the outline: {margins.map(threads_said).text()}.",
    )


def counting_scene(plan: CountingPlan) -> Scene:
    """The picture itself."""
    left, right, top, low = plan.piece.edges_in_hand.map(lambda edge: float(edge.width(edge.rule.margin).mm))
    cloth = plan.piece.fabric
    pitches = float(cloth.across.pitch.mm), float(cloth.down.pitch.mm)
    sizes = (
        left + plan.across.threads * pitches[0] + right,
        top + plan.down.threads * pitches[1] + low,
    )
    scale = min((_WIDE - _ASIDE - 2) / sizes[0], (_HIGH - _ABOVE - 2) / sizes[1])
    x0, y1 = _ASIDE, _HIGH - _ABOVE
    x1, y0 = x0 + scale * sizes[0], y1 - scale * sizes[1]

    def across(threads: float) -> float:
        return x0 + scale * (left + threads * pitches[0])

    def down(threads: float) -> float:
        return y1 - scale * (top + threads * pitches[1])

    width, height = plan.across.threads, plan.down.threads
    outline = (
        (across(0), down(0)),
        (across(width), down(0)),
        (across(width), down(height)),
        (across(0), down(height)),
    )
    sides = zip(outline, (*outline[1:], outline[0]), strict=True)
    counting = [((across(line), y0), (across(line), y1)) for line in plan.across.lines]
    counting += [((x0, down(line)), (x1, down(line))) for line in plan.down.lines]
    x, y = across(plan.across.centre), down(plan.down.centre)
    return scene(
        (
            Area("right", ((x0, y0), (x1, y0), (x1, y1), (x0, y1))),
            Stroke("thread", tuple(counting)),
            *_motif(plan, across, down),
            Stroke("basted", (((x, y0), (x, y1)), ((x0, y), (x1, y)))),
            Stroke("sewing", tuple(stitch for start, end in sides for stitch in run(start, end, 2.0))),
            *_above(plan.across, (x0, across(0), x, across(width), x1), y1, plan),
            *_beside(plan.down, (y1, down(0), y, down(height), y0), x0, plan),
        ),
        _WIDE,
        _HIGH,
    )


def _motif(plan: CountingPlan, across: _Place, down: _Place) -> Iterator[Thing]:
    motif = plan.motif
    if motif is None:
        return
    x0, x1 = across(motif.left), across(motif.left + motif.across)
    y0, y1 = down(motif.top + motif.down), down(motif.top)
    yield Area("design", ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))


def _above(way: Way, at: tuple[float, ...], top: float, plan: CountingPlan) -> Iterator[Thing]:
    """Numbers above the cloth, each over what it counts; ticks between them."""
    edges = plan.piece.edges_in_hand
    margins = edges.left.rule.margin, edges.right.rule.margin
    yield Stroke("dimension", tuple(((x, top), (x, top + 1.2)) for x in at))
    room = 0.6 + 0.8 * len(str(max(way.halves)))
    for x, (number, level) in zip(_middles(at, room), _levels(way, margins, _NEAR, _FAR), strict=True):
        yield Words((x, top + level), str(number), "center")


def _beside(way: Way, at: tuple[float, ...], left: float, plan: CountingPlan) -> Iterator[Thing]:
    """The same at the left of the cloth, from the top down."""
    edges = plan.piece.edges_in_hand
    margins = edges.top.rule.margin, edges.bottom.rule.margin
    yield Stroke("dimension", tuple(((left, y), (left - 1.2, y)) for y in at))
    for y, (number, out) in zip(_middles(at, 1.5), _levels(way, margins, 2.0, 11.0), strict=True):
        yield Words((left - out, y), str(number), "right")


def _middles(at: tuple[float, ...], room: float) -> tuple[float, ...]:
    """Where each number stands: amid what it counts, but in its order and on no other."""
    away = ((one + other) / 2 - at[2] for one, other in pairwise(at))
    least = (3 * room, room, room, 3 * room)
    return tuple(at[2] + math.copysign(max(abs(out), off), out) for out, off in zip(away, least, strict=True))


def _levels(way: Way, margins: tuple[int, int], near: float, far: float) -> Iterator[tuple[int, float]]:
    """The numbers one way in their order, and how far from the cloth each stands: margins stand off."""
    (first, last), (one, other) = margins, way.halves
    yield from ((first, far), (one, near), (other, near), (last, far))
