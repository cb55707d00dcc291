"""What computes ours for a published figure of yarns, needles and thread; see `hemcalc.books.sums`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

from hemcalc.measure.counts import Count
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.piece import Piece
from hemcalc.stitch.amount import Amount, needlefuls
from hemcalc.stitch.path import basting_stitch, hem_stitch
from hemcalc.stitch.plan import Sample, ThreadPlan
from hemcalc.stitch.thread import thread_needed
from hemcalc.yarn.cloth import cloth_yarn, measured_crimp, straightening_tension_cn
from hemcalc.yarn.density import GRAMS_PER_POUND, LinearDensity
from hemcalc.yarn.diameter import (
    FIBRES,
    PACKING,
    diameter_by_volume,
    peirce_diameter,
    specific_volume,
    threads_side_by_side,
    touching_diameter,
)
from hemcalc.yarn.needle import book_pairs


def _by_volume(yarn: str, volume: str, thickness_of: int = 1) -> Length:
    """Diameter of a cotton yarn of this specific volume, cm³/g; or of several, one on the other."""
    # Mass and density of a packed yarn are those of its fibre, times its packing.
    packing = 1 / (Fraction(volume) * Fraction(str(FIBRES["cotton"].density)))
    return _mm(thickness_of * diameter_by_volume(yarn, fibre="cotton", packing=packing).diameter_mm)


def _per_inch(diameter_mm: float) -> float:
    return 25.4 / diameter_mm


def _cloth_yarn(across: str, down: str, grams: str, crimp: str = "0 %", system: str = "tex") -> Fraction:
    return cloth_yarn(across, down, Fraction(grams), crimp=crimp).number(system)


def _needles(thread: int, work: str) -> tuple[int, int]:
    found = [pair.needles for pair in book_pairs(thread) if pair.work == work]
    return min(least for least, _ in found), max(most for _, most in found)


def _round_the_group(length: str, thickness: str) -> float:
    """Thread that goes round the group and along, without the bite into the hem."""
    path = hem_stitch(length, 0, thickness, plies=1)
    return path.between_mm("out of the hem", "far side, over again")


def _bookmark_plan(**asked: Any) -> ThreadPlan:
    """The thread of an invented piece: a bookmark of the autumn linen workshop."""
    linen = Fabric("28/in", thickness="0.5 mm")
    return thread_needed(Piece(linen, (48, 168), hem="1/4 in", clear=4), **asked)


def _of_plan(take: Callable[[ThreadPlan], float | Length], **asked: Any) -> float | Length:
    return take(_bookmark_plan(**asked))


def _depth_in_threads(**asked: Any) -> float:
    start = _bookmark_plan(**asked).sides[0].paths[0].points[0]
    return start.y_mm / float(Count("28/in").pitch.mm)


def _measured_and_wasted(used: str, waste: str) -> Length:
    """Thread for a seam that took this much, with its waste, whatever the stitches were."""
    plan = _bookmark_plan(waste=("0 %", waste))
    seam = replace(plan, seams=Amount(0.0, 0.0, 0.0)).calibrate(Sample(plan.stitches, used, within=0))
    return _mm(seam.sewn.high_mm)


def _mm(number: float) -> Length:
    return Length(Fraction(number))


#: By name, in the order of the core.
THREAD_SUMS: dict[str, Callable[..., Any]] = {
    "GRAMS_PER_POUND": lambda: GRAMS_PER_POUND / 1000,
    "LinearDensity.number": lambda text, system: LinearDensity(text).number(system),
    "LinearDensity.yards_per_pound": lambda text: LinearDensity(text).yards_per_pound,
    "FIBRES": lambda fibre: FIBRES[fibre].density,
    "PACKING": lambda: PACKING,
    "diameter_by_volume": _by_volume,
    "diameter_by_volume per inch": lambda **yarn: _per_inch(float(_by_volume(**yarn).mm)),
    "peirce_diameter": lambda yarn: _per_inch(peirce_diameter(yarn).diameter_mm),
    "specific_volume": specific_volume,
    "threads_side_by_side": threads_side_by_side,
    "touching_diameter": lambda yarn: _per_inch(touching_diameter(yarn).diameter_mm),
    "cloth_yarn": _cloth_yarn,
    "measured_crimp": measured_crimp,
    "straightening_tension_cn": straightening_tension_cn,
    "book_pairs": _needles,
    "hem_stitch": _round_the_group,
    "basting_stitch": lambda over, under: _mm(basting_stitch(over, under, "0.5 mm").advance_mm),
    "Sample.each_mm": lambda stitches, used: Sample(stitches, used).each_mm / 10,
    "ThreadPlan.calibrate": _measured_and_wasted,
    "ThreadPlan.working": lambda **asked: _of_plan(lambda plan: plan.working, **asked),
    "thread_needed": _depth_in_threads,
    "needlefuls": lambda sewn, working, ends: needlefuls(
        float(Length(sewn).mm), Length(working), Length(ends)
    ),
}
