"""Flat shapes: areas, reflections and cuts, exactly."""

from fractions import Fraction
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from hemcalc.corner.polygon import Line, Point, Polygon, area, reflected, signed_area, split

NUMBERS = st.integers(-60, 60).map(lambda number: Fraction(number, 6))
POINTS = st.tuples(NUMBERS, NUMBERS)
LINES = st.builds(Line, NUMBERS, NUMBERS, NUMBERS).filter(lambda line: line.a or line.b)


def hull(points: list[Point]) -> Polygon:
    """The convex hull, by walking round the points in order of x, once each way."""

    def half(ordered: list[Point]) -> list[Point]:
        kept: list[Point] = []
        for x, y in ordered:
            while len(kept) > 1 and (
                (kept[-1][0] - kept[-2][0]) * (y - kept[-2][1])
                - (kept[-1][1] - kept[-2][1]) * (x - kept[-2][0])
                <= 0
            ):
                kept.pop()
            kept.append((x, y))
        return kept[:-1]

    ordered = sorted(set(points))
    return tuple(half(ordered) + half(ordered[::-1]))


SHAPES = st.lists(POINTS, min_size=3, max_size=6).map(hull).filter(lambda shape: len(shape) > 2)


def as_shapely(shape: Polygon) -> shapely.Polygon:
    return shapely.Polygon([(float(x), float(y)) for x, y in shape])


@given(SHAPES)
def test_area_is_that_of_the_reference_library(shape):
    assert float(area(shape)) == pytest.approx(as_shapely(shape).area, rel=1e-9, abs=1e-9)


@given(SHAPES, st.integers(0, 7), st.booleans())
def test_area_depends_neither_on_the_first_corner_nor_on_the_way_round(shape, first, back):
    turned = (*shape[first % len(shape) :], *shape[: first % len(shape)])[:: -1 if back else 1]
    assert area(turned) == area(shape)
    assert signed_area(turned) == (-1 if back else 1) * signed_area(shape)


@given(POINTS, LINES)
def test_a_point_and_its_mirror_image_lie_equally_far_on_either_side_of_the_line(point, line):
    image = reflected(point, line)
    assert line.beyond(image) == -line.beyond(point)
    # The way from one to the other is square to the line.
    assert (image[0] - point[0]) * line.b == (image[1] - point[1]) * line.a


@given(POINTS, LINES)
def test_reflecting_twice_brings_a_point_back(point, line):
    assert reflected(reflected(point, line), line) == point


@given(SHAPES, LINES)
def test_reflecting_a_shape_keeps_its_area_and_turns_it_over(shape, line):
    assert signed_area([reflected(corner, line) for corner in shape]) == -signed_area(shape)


@given(SHAPES, LINES)
def test_a_cut_loses_no_cloth_and_keeps_each_part_on_its_side(shape, line):
    inner, outer = split(shape, line)
    assert area(inner or ()) + area(outer or ()) == area(shape)
    assert all(line.beyond(corner) <= 0 for corner in inner or ())
    assert all(line.beyond(corner) >= 0 for corner in outer or ())


@given(SHAPES, LINES)
def test_a_part_is_none_only_if_the_line_leaves_no_area_there(shape, line):
    assert [part is None for part in split(shape, line)] == [
        all(line.beyond(corner) >= 0 for corner in shape),
        all(line.beyond(corner) <= 0 for corner in shape),
    ]


@given(SHAPES, LINES)
def test_the_parts_of_a_cut_are_those_of_the_reference_library(shape, line):
    inner, outer = split(shape, line)
    assume(inner and outer)
    size = max(abs(float(line.a)), abs(float(line.b)))
    a, b, c = float(line.a) / size, float(line.b) / size, float(line.c) / size
    foot, far = (a * c / (a * a + b * b), b * c / (a * a + b * b)), 2000
    half = shapely.Polygon(
        [
            (foot[0] + far * (along * -b + square * -a), foot[1] + far * (along * a + square * -b))
            for along, square in ((-1, 0), (1, 0), (1, 1), (-1, 1))
        ]
    )
    assert as_shapely(inner).symmetric_difference(as_shapely(shape).intersection(half)).area < 1e-6
    assert as_shapely(outer).symmetric_difference(as_shapely(shape).difference(half)).area < 1e-6


@given(SHAPES)
def test_a_cut_along_an_edge_leaves_the_shape_whole(shape):
    for (x0, y0), (x1, y1) in pairwise((*shape, shape[0])):
        a, b = y1 - y0, x0 - x1
        assert split(shape, Line(a, b, a * x0 + b * y0)) == (shape, None)
        assert split(shape, Line(-a, -b, -a * x0 - b * y0)) == (None, shape)


@given(LINES, NUMBERS)
def test_a_line_is_crossed_where_it_runs(line, level):
    assume(line.a and line.b)
    for point in (line.at_x(level), line.at_y(level)):
        assert line.beyond(point) == 0
    assert line.at_x(level)[0] == level == line.at_y(level)[1]


def test_area_of_a_right_triangle_is_half_of_its_square():
    assert area([(Fraction(0), Fraction(0)), (Fraction(3), Fraction(0)), (Fraction(0), Fraction(3))]) == 4.5
