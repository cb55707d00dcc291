"""What of a folded corner reaches over the open square and the work."""

import math
from fractions import Fraction

import pytest

from hemcalc.corner.mitre import plan_corner
from hemcalc.corner.overhang import Overhang, overhang_past
from hemcalc.corner.plies import Ply, box
from hemcalc.edge.ledger import plan_edge

PITCH = 25.4 / 28


def ply(left, top, right, bottom, folds):
    return Ply(box(*map(Fraction, (left, top, right, bottom))), folds)


def test_only_cloth_that_has_been_folded_over_counts():
    bare = ply(-9, -9, 9, 9, folds=0)
    assert overhang_past([bare], (Fraction(1), Fraction(1))) == Overhang(0.0, 0.0, 0.0, 0.0)


def test_only_what_lies_past_the_crossing_both_ways_counts():
    beside = ply(-4, 0, 3, 3, folds=1)
    above = ply(0, -4, 3, 3, folds=1)
    assert overhang_past([beside, above], (Fraction(0), Fraction(0))).area_mm2 == 0


def test_plies_that_lie_over_each_other_are_all_counted_and_the_farthest_tip_is_the_reach():
    over = overhang_past([ply(-4, -3, 5, 5, folds=1), ply(-2, -1, 5, 5, folds=2)], (Fraction(1), Fraction(2)))
    assert over.area_mm2 == 4 * 3 + 2 * 1
    assert over.reach_mm == 5
    # Past the inner edges, 1 mm in and 2 mm up: 3 by 1 of the first ply, none of the second.
    assert over.work_area_mm2 == 3
    assert over.work_reach_mm == pytest.approx(math.sqrt(10))


# The flap's sides are the raw edges, folded over: the down side's turn lies across, and the across
# side's turn down. With turns of 8 and 6 and 2 and 5 threads drawn, 4 by 3 threads lie on the work.
def test_each_way_the_flap_is_measured_by_the_open_line_that_it_crosses():
    across = plan_edge("28/in", 16, clear=8, turn=8, drawn=2)
    down = plan_edge("28/in", 16, clear=8, turn=6, drawn=5)
    over = plan_corner(across, down, corner="untrimmed").overhang
    assert over.area_mm2 == pytest.approx(6 * 8 * PITCH**2)
    assert over.reach_mm == pytest.approx(10 * PITCH)
    assert over.work_area_mm2 == pytest.approx((6 - 2) * (8 - 5) * PITCH**2)
    assert over.work_reach_mm == pytest.approx(5 * PITCH)
