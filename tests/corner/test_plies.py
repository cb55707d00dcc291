"""Plies of cloth: folded over a line, counted in layers, and reaching past the corner."""

import math
from fractions import Fraction
from itertools import pairwise

import pytest
from cases import for_each
from hypothesis import example, given
from hypothesis import strategies as st

from hemcalc import plan_corner, plan_edge
from hemcalc.corner.plies import Overhang, Ply, box, depth_at, fold_over, overhang_past, overlay, part_folded
from hemcalc.corner.polygon import Line, Polygon, area

NUMBERS = st.integers(-30, 30).map(lambda number: Fraction(number, 6))
LINES = st.builds(Line, NUMBERS, NUMBERS, NUMBERS).filter(lambda line: line.a or line.b)
CLOTH = (Ply(box(Fraction(-3), Fraction(-2), Fraction(4), Fraction(5))),)


def spread(plies):
    return sum(abs(drawn_area(ply.shape)) for ply in plies)


def drawn_area(shape):
    return (
        sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(shape, (*shape[1:], shape[0]), strict=True)) / 2
    )


def folded(lines):
    plies = CLOTH
    for line in lines:
        plies = fold_over(plies, line)
    return plies


@given(st.lists(LINES, max_size=3))
def test_folding_keeps_all_the_cloth(lines):
    assert sum(area(ply.shape) for ply in folded(lines)) == area(CLOTH[0].shape)


@given(st.lists(LINES, min_size=1, max_size=3))
def test_nothing_is_left_beyond_the_last_fold(lines):
    assert all(lines[-1].beyond(corner) <= 0 for ply in folded(lines) for corner in ply.shape)


@given(st.lists(LINES, max_size=3))
def test_each_fold_turns_a_ply_over(lines):
    for ply in folded(lines):
        assert 0 <= ply.folds <= len(lines)
        assert ply.right_side_up == (ply.folds % 2 == 1)
        # The corners of cloth that lies wrong side up run the way they did.
        assert (drawn_area(ply.shape) > 0) == (ply.folds % 2 == 0)


def test_folding_turns_the_pile_upside_down():
    # A strip of three squares: the last is folded onto the middle, then both onto the first.
    strip = (Ply(box(Fraction(0), Fraction(0), Fraction(3), Fraction(1))),)
    once = fold_over(strip, Line(Fraction(1), Fraction(0), Fraction(2)))
    assert [(ply.folds, area(ply.shape)) for ply in once] == [(0, 2), (1, 1)]
    twice = fold_over(once, Line(Fraction(1), Fraction(0), Fraction(1)))
    # Lowest to highest: the first square, the last between, the middle on top.
    assert [ply.folds for ply in twice] == [0, 2, 1]
    assert {ply.shape[0][0] for ply in twice} <= {0, 1}


@given(st.lists(LINES, max_size=2), LINES)
def test_a_fold_not_begun_shows_the_plies_as_they_lie(before, line):
    plies = folded(before)
    drawn = part_folded(plies, line, 0.0)
    assert [ply.shape for ply in drawn] == [
        tuple((float(x), float(y)) for x, y in ply.shape) for ply in plies
    ]
    assert [ply.right_side_up for ply in drawn] == [ply.right_side_up for ply in plies]
    assert not any(ply.moving for ply in drawn)


@given(st.lists(LINES, max_size=2), LINES)
def test_a_fold_made_shows_the_plies_folded_over(before, line):
    plies = folded(before)
    drawn, made = part_folded(plies, line, 1.0), fold_over(plies, line)
    assert len(drawn) == len(made)
    for seen, ply in zip(drawn, made, strict=True):
        assert seen.right_side_up == ply.right_side_up
        for point, corner in zip(seen.shape, ply.shape, strict=True):
            assert point == pytest.approx(tuple(map(float, corner)), abs=1e-9)


@given(st.lists(LINES, max_size=2), LINES, st.floats(0.01, 0.99))
def test_what_turns_is_seen_at_the_cosine_of_its_angle(before, line, share):
    plies = folded(before)
    drawn = part_folded(plies, line, share)
    still, moving = ([ply for ply in drawn if ply.moving is turns] for turns in (False, True))
    turned = float(area(CLOTH[0].shape)) - spread(still)
    assert all(line.beyond(tuple(map(Fraction, corner))) <= 1e-9 for ply in still for corner in ply.shape)
    assert spread(moving) == pytest.approx(turned * abs(math.cos(math.pi * share)), abs=1e-9)


@given(LINES, st.floats(0.01, 0.99))
def test_the_fold_line_itself_never_moves(line, share):
    size = max(abs(float(line.a)), abs(float(line.b)))
    for ply in part_folded(CLOTH, line, share):
        if ply.moving:
            off = [abs(float(line.a) * x + float(line.b) * y - float(line.c)) / size for x, y in ply.shape]
            assert sum(distance < 1e-9 for distance in off) >= (2 if len(off) > 3 else 1)


def test_the_other_side_is_seen_once_the_fold_is_past_upright():
    line = Line(Fraction(1), Fraction(0), Fraction(1))
    assert [ply.right_side_up for ply in part_folded(CLOTH, line, 0.4)] == [False, False]
    assert [ply.right_side_up for ply in part_folded(CLOTH, line, 0.6)] == [False, True]


GRID = st.integers(0, 6).map(Fraction)
WINDOW: Polygon = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (6, 0), (6, 6), (0, 6)))


@st.composite
def plies(draw):
    """Oblongs and triangles on a grid, either way round."""
    (left, right), (top, bottom) = (
        sorted(draw(st.lists(GRID, min_size=2, max_size=2, unique=True))) for _ in range(2)
    )
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    shape = corners[: draw(st.sampled_from((3, 4)))]
    return shape[::-1] if draw(st.booleans()) else shape


PILES = st.lists(plies(), min_size=1, max_size=4)


def holds(shape: Polygon, x: float, y: float) -> bool:
    """Whether a point is inside a convex shape, by the side of each edge on which it lies."""
    sides = [
        float(x1 - x0) * (y - float(y0)) - float(y1 - y0) * (x - float(x0))
        for (x0, y0), (x1, y1) in pairwise((*shape, shape[0]))
    ]
    return all(side > 0 for side in sides) or all(side < 0 for side in sides)


def deepest_round(pile: list[Polygon], x: float, y: float) -> int:
    """The most layers at places a hair's breadth away, all round; for shapes on a coarse grid."""
    # Edges on this grid run at angles that differ by 1/61 of a radian at least.
    ways = [math.tau * (i + 0.123) / 480 for i in range(480)]
    return max(
        sum(holds(shape, x + 1e-6 * math.cos(way), y + 1e-6 * math.sin(way)) for shape in pile)
        for way in ways
    )


@given(PILES)
def test_layers_times_area_is_the_cloth_in_the_pile(pile):
    assert sum(count * area(cell) for cell, count in overlay(WINDOW, pile)) == sum(map(area, pile))


@given(PILES)
def test_cells_fill_the_window_once(pile):
    assert sum(area(cell) for cell, _ in overlay(WINDOW, pile)) == area(WINDOW)


@given(PILES)
def test_each_cell_has_one_number_of_layers_all_over(pile):
    for cell, count in overlay(WINDOW, pile):
        x, y = (float(sum(corner[axis] for corner in cell) / len(cell)) for axis in (0, 1))
        assert sum(holds(shape, x, y) for shape in pile) == count
        assert depth_at((Fraction(x), Fraction(y)), pile) == count


@given(PILES, st.integers(-1, 14), st.integers(-1, 14))
@example([((Fraction(0), Fraction(0)), (Fraction(2), Fraction(0)), (Fraction(2), Fraction(2)))], 2, 2)
def test_on_an_edge_the_deepest_side_counts(pile, x, y):
    assert depth_at((Fraction(x, 2), Fraction(y, 2)), pile) == deepest_round(pile, x / 2, y / 2)


@given(PILES, st.integers(-1, 14), st.integers(-1, 14))
def test_a_point_a_float_away_from_an_edge_is_on_it(pile, x, y):
    on, near = Fraction(x, 2), math.nextafter(x / 2, math.inf)
    assert depth_at((Fraction(near), Fraction(y, 2)), pile) == depth_at((on, Fraction(y, 2)), pile)


def test_a_fold_ten_metres_away_and_a_hair_wide_sliver_are_not_miscounted():
    sliver = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (10_000, 0), (10_000, Fraction(1, 10**6))))
    assert depth_at((Fraction(9_999), Fraction(1, 10**7)), [sliver]) == 1
    assert depth_at((Fraction(9_999), Fraction(1)), [sliver]) == 0
    assert depth_at((Fraction(0), Fraction(0)), [sliver]) == 1


@for_each(("x", "y", "layers"), [(1, 0, 2), (0, 0, 2), (2, 2, 1), (3, 1, 0)])
def test_two_plies_that_only_meet_in_a_point_are_not_added(x, y, layers):
    lower = tuple((Fraction(a), Fraction(b)) for a, b in ((0, 0), (2, 0), (2, 2), (0, 2)))
    upper = tuple((Fraction(a), Fraction(b)) for a, b in ((0, -2), (2, -2), (2, 1), (0, 1)))
    apart = tuple((Fraction(a), Fraction(b)) for a, b in ((2, 2), (4, 2), (4, 4), (2, 4)))
    assert depth_at((Fraction(x), Fraction(y)), [lower, upper, apart]) == layers


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
