"""Layers: cells of a window, and the depth at a point, on folds and off them."""

import math
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from hemcalc.corner.layers import depth_at, overlay
from hemcalc.corner.polygon import Polygon, area

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


@pytest.mark.parametrize(("x", "y", "layers"), [(1, 0, 2), (0, 0, 2), (2, 2, 1), (3, 1, 0)], ids=str)
def test_two_plies_that_only_meet_in_a_point_are_not_added(x, y, layers):
    lower = tuple((Fraction(a), Fraction(b)) for a, b in ((0, 0), (2, 0), (2, 2), (0, 2)))
    upper = tuple((Fraction(a), Fraction(b)) for a, b in ((0, -2), (2, -2), (2, 1), (0, 1)))
    apart = tuple((Fraction(a), Fraction(b)) for a, b in ((2, 2), (4, 2), (4, 4), (2, 4)))
    assert depth_at((Fraction(x), Fraction(y)), [lower, upper, apart]) == layers
