"""What computes ours for a published figure: one small function for each name that a row gives.

A name is that of the public thing that does the work, and the function about it only takes
the row's inputs, which are plain numbers and text, and picks the one figure that is printed.
A row gives only what its figure hangs on; the cloth that it hangs on not at all is `_CLOTH`.
"""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import partial
from typing import Any

from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.remnant import Yield, have_from_remnant
from hemcalc.books.threads import THREAD_SUMS
from hemcalc.corner.mitre import Corner, plan_corner
from hemcalc.edge.bend import bend_length, neutral_share
from hemcalc.edge.ledger import BOOKS_DRAW, Edge, plan_edge
from hemcalc.edge.rule_tables import rule_table
from hemcalc.edge.section import Section, plan_section
from hemcalc.measure.counts import Count
from hemcalc.measure.exact import half_up
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.fit import Fit, whole_cloth
from hemcalc.piece.piece import Piece
from hemcalc.piece.sizes import Size
from hemcalc.stitch.dividing import nearest_dividing, nearest_dividing_both
from hemcalc.stitch.groups import BOOKS_GROUP, GROUP_SIZES
from hemcalc.stitch.spacing import rest_of_side, space_stitches
from hemcalc.weave.open_lines import End, Side
from hemcalc.weave.reach import Allowances, Reach, reach_of

#: Across, down, then how many at most and what one is worth, where they count. A size is in no unit on the
#: sheets of the published instances, so theirs are millimetres here.
Table = Sequence[Sequence[Any]]


def _pieces(table: Table) -> list[tuple[Any, ...]]:
    """The sizes of a published sheet, which are numbers without a unit, each with a name."""
    named = []
    for number, (across, down, *rest) in enumerate(table, 1):
        sides = (side if isinstance(side, str) else f"{side} mm" for side in (across, down))
        named.append((f"size {number}", *sides, *rest))
    return named


def _yield(cloth: Sequence[Any], sizes: Table, grain: str = "fixed") -> Yield:
    width, length = (side if isinstance(side, str) else f"{side} mm" for side in cloth)
    return have_from_remnant(width, length, _pieces(sizes), grain=grain)


def _worth(**remnant: Any) -> Fraction:
    """The worth of what is had, which must be proven to be the most."""
    had = _yield(**remnant)
    assert had.proven
    return had.worth


def _many(**remnant: Any) -> int:
    return len(_yield(**remnant).pieces)


def _used(width: Any, pieces: Table, grain: str = "fixed") -> Length:
    return cut_from_bolt(_pieces(pieces), f"{width} mm", grain=grain, unit="1 mm").used


#: What is computed here: a number, or a Length that is given in the row's unit.
Ours = int | float | Fraction | Length
#: A function of a row's inputs; a pair is a range.
Sum = Callable[..., Ours | tuple[Ours, Ours]]


#: An invented cloth, on which eighths of an inch are whole threads, and a clear band beside the hem.
_CLOTH: dict[str, Any] = {"count": "24/in", "hem": "1 in", "clear": 5}


def _edge(**changes: Any) -> Edge:
    return plan_edge(**_CLOTH | changes)


def _of_edge(take: Callable[[Edge], Ours], **edge: Any) -> Ours:
    return take(_edge(**edge))


def _taken(**edge: Any) -> Length:
    """Cloth from the finished edge to the raw one."""
    planned = _edge(**edge)
    return planned.width(planned.cut - planned.fold_1)


def _bands(names: Sequence[str], **edge: Any) -> int:
    return sum(band.threads for band in _edge(**edge).bands if band.name in names)


def _narrowest(clear: int, **table: Any) -> int:
    hem = rule_table(hems=range(1, 41), clears=[clear], **table).narrowest(clear)
    return 0 if hem is None else hem


def _corner(allowance: str | None = None, **edge: Any) -> Corner:
    planned = _edge(**edge)
    return plan_corner(planned, planned, allowance=allowance)


def _legs(**changes: Any) -> Length:
    return _mm(_corner(**changes).legs_mm[0])


def _left_beyond(**changes: Any) -> Length:
    """From the crossing of the creases to the line of the cut, measured square to it."""
    corner = _corner(**changes)
    (x0, y0), (x1, y1) = (tuple(map(float, point)) for point in corner.trim or ())
    x, y = map(float, corner.hems)
    away = abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / math.dist((x0, y0), (x1, y1))
    return _mm(away)


def _fold_angle(hems: Sequence[str]) -> float:
    """Of the mitre of two hems, which needn't be equal."""
    fold = plan_corner(*(_edge(hem=hem) for hem in hems)).corner_fold
    if fold is None:
        return 0.0
    (x0, y0), (x1, y1) = fold
    return math.degrees(math.atan2(float(y0 - y1), float(x1 - x0)))


def _creases_meet(**changes: Any) -> Length:
    """From the raw edge to where the creases of fold 1 meet."""
    corner = _corner(**changes)
    fold_1 = corner.landings[0]
    return Length(corner.raw_corner[0] - fold_1.meets[0]) if fold_1.meets else Length(0)


def _neutral(sharp: float) -> float:
    """Of a material that a right angle with no radius takes so much of, by its thickness."""
    return neutral_share(sharp, 90, 0, 1)


def _of_section(take: Callable[[Section], float], thickness: str, sharp: float) -> float:
    return take(plan_section(_edge(), thickness, neutral=_neutral(sharp)))


def _bends(sharp: float, bends: Sequence[Sequence[float]], thickness: float, straight: float = 0.0) -> float:
    """A blank: what is straight, and each bend of an angle and an inner radius."""
    neutral = _neutral(sharp)
    return straight + sum(bend_length(angle, radius, thickness, neutral) for angle, radius in bends)


def _worst_count(over: str) -> Fraction:
    """Of any count: here of an invented one."""
    measured = Count.measured([180], over=over)
    return measured.relative_worst * measured.per_cm


def _washed_from(after: str, way: str, **shrinks: Any) -> Length:
    across, down = Fabric("24/in", **shrinks).unwashed_size(after, after)
    return {"across": across, "down": down}[way]


def _count_washed(warp: str, shrink_weft: str) -> Fraction:
    return Fabric(warp, shrink_weft=shrink_weft).across_washed.per_inch


def _rounded(number: str, step: str) -> Fraction:
    return half_up(Fraction(number) / Fraction(step)) * Fraction(step)


def _of_piece(size: Callable[[Piece], Size], count: str, **piece: Any) -> Length:
    """How wide a square piece is, by one of its sizes."""
    return size(Piece(Fabric(count), **piece)).after[0]


def _finished_from(cloth: str, **piece: Any) -> Length:
    """How wide a square cloth is when it is hemmed with nothing to spare."""
    linen, edge = Fabric(_CLOTH["count"]), _edge(clear=0, **piece)
    across, down = whole_cloth(cloth, (linen.across, linen.down))
    design = across - 2 * edge.total, down - 2 * edge.total
    return Piece(linen, design, clear=0, **piece).finished_size.after[0]


def _to_cut(count: str, unit: str, **piece: Any) -> Length:
    return Piece(Fabric(count), **piece).cut_size.to_cut(unit)[0]


def _zigzag() -> int:
    """What every group that the zigzag form can be worked in is divided by."""
    least, most = GROUP_SIZES
    return math.gcd(*(n for n in range(least, most + 1) if space_stitches(12 * n, n).zigzag))


def _reach(of: Callable[[Reach], int], design: int, **edge: Any) -> int:
    """A tail at the corner of a square piece: half the distance between its corners."""
    planned = _edge(**edge)
    half = (design + 2 * planned.clear) // 2
    end = End(Side("top", "row", design, planned), Side("left", "column", design, planned), half=half)
    return of(reach_of(end, "line", Allowances()))


def _tucked(**edge: Any) -> Length:
    planned = _edge(**edge)
    return planned.width(Allowances().tucked_threads(planned))


def _span(length: int, crimp: str) -> Fraction:
    straight = Allowances(crimp=Fraction(crimp), darned_crimp=0)
    return straight.span(length, _edge())


def _first_way(**side: Any) -> int:
    """Threads by which the nearest way to divide changes the side."""
    return abs(nearest_dividing(**side)[0].added)


def _first_way_both(design: Any, clear: Any, group: int) -> int:
    return max(nearest_dividing_both((*design,), (*clear,), group)[0].added)


def _fit(of: Callable[[Fit], tuple[int, int] | None], cloth: str, count: str, **piece: Any) -> int:
    return min(of(Piece(Fabric(count), **piece).fits(cloth)) or (0, 0))


def _default(function: Callable[..., object], name: str) -> Any:
    """What a function takes if nothing is said."""
    return inspect.signature(function).parameters[name].default


def _mm(number: float) -> Length:
    return Length(Fraction(number))


#: By name, in the order of the core.
SUMS: dict[str, Sum] = {
    "half_up": _rounded,
    "Length.mm": lambda text: Length(text),
    "Count.per_inch": lambda text: Count(text).per_inch,
    "Count.per_cm": lambda text: Count(text).per_cm,
    "Count.pitch": lambda text: Count(text).pitch,
    "Count.threads_in": lambda text, length: Count(text).threads_in(length),
    "MeasuredCount.relative_worst": _worst_count,
    "Fabric.unwashed_size": _washed_from,
    "Fabric.across_washed": _count_washed,
    "MarginRule.rule": partial(_of_edge, lambda edge: edge.rule.rule),
    "MarginRule.need": partial(_of_edge, lambda edge: edge.rule.need),
    "MarginRule.slack": partial(_of_edge, lambda edge: edge.rule.slack),
    "MarginRule.margin": partial(_of_edge, lambda edge: edge.rule.margin),
    "BOOKS_DRAW": lambda: BOOKS_DRAW,
    "plan_edge drawn": lambda: int(_default(plan_edge, "drawn")),
    "Edge.hem": partial(_of_edge, lambda edge: edge.hem),
    "Edge.turn": partial(_of_edge, lambda edge: edge.turn),
    "Edge.handling": partial(_of_edge, lambda edge: edge.handling),
    "Edge.turn_width": partial(_of_edge, lambda edge: edge.turn_width),
    "Edge.first_drawn": partial(_of_edge, lambda edge: edge.first_drawn),
    "Edge.open_line": partial(_of_edge, lambda edge: edge.open_line),
    "Edge.cut": partial(_of_edge, lambda edge: edge.cut),
    "Edge.bands": _bands,
    "Edge.width": _taken,
    "Edge.draw_line": partial(_of_edge, lambda edge: edge.draw_line),
    "RuleTable.narrowest": _narrowest,
    "BOOKS_GROUP": lambda: BOOKS_GROUP,
    "Spacing.zigzag": _zigzag,
    "space_stitches": lambda threads, group: space_stitches(threads, group).off_size,
    "rest_of_side": lambda threads, group: rest_of_side(threads, group).count,
    "nearest_dividing": _first_way,
    "nearest_dividing_both": _first_way_both,
    "bend_length": _bends,
    "neutral_share": neutral_share,
    "Section.arc_mm": partial(_of_section, lambda section: section.arc_mm),
    "Section.landing_mm": partial(_of_section, lambda section: section.landing_mm),
    "Section.landing_outer_mm": partial(_of_section, lambda section: section.landing_outer_mm),
    "Section.finished_off_mm": partial(_of_section, lambda section: section.finished_off_mm),
    "Corner.legs_mm": _legs,
    "Corner.trim": _left_beyond,
    "Corner.corner_fold": _fold_angle,
    "Corner.landings": _creases_meet,
    "Allowances.tucked_threads": _tucked,
    "Allowances.span": _span,
    "Reach.covers": partial(_reach, lambda reach: reach.covers),
    "Reach.shows": partial(_reach, lambda reach: reach.shows),
    "Piece.trimmed_size": partial(_of_piece, lambda piece: piece.trimmed_size),
    "Piece.finished_size": _finished_from,
    "Piece.cut_size": partial(_of_piece, lambda piece: piece.cut_size),
    "Piece.cloth_by_need": partial(_of_piece, lambda piece: piece.cloth_by_need),
    "Size.to_cut": _to_cut,
    "Fit.largest_design": partial(_fit, lambda fit: fit.largest_design),
    "Fit.widest_hem_threads": partial(_fit, lambda fit: fit.widest_hem_threads),
    **THREAD_SUMS,
    "Yield.worth": _worth,
    "Yield.counts": _many,
    "Layout.used": _used,
}
