"""The basted lines carried along: as long as ever, and where the folded cloth puts them."""

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Polygon, box, unary_union
from shapely.affinity import affine_transform

from hemcalc import HemError, plan_edge
from hemcalc.corner import basted_lines, plan_corner
from hemcalc.corner.mitre import CORNER_KINDS, ORDERS

FEW = settings(max_examples=20)


@st.composite
def corners(draw, kinds=CORNER_KINDS, orders=ORDERS):
    edges = [
        plan_edge(
            draw(st.sampled_from(("25/in", "36/in", "11/cm"))),
            hem := draw(st.integers(1, 24)),
            clear=8,
            drawn=draw(st.integers(1, 4)),
            turn=draw(st.none() | st.sampled_from((0, hem)) | st.integers(0, hem)),
        )
        for _ in "12"
    ]
    try:
        return plan_corner(*edges, corner=draw(st.sampled_from(kinds)), order=draw(st.sampled_from(orders)))
    except HemError:
        assume(False)


def lengths(lines):
    """How long each line is in all, by name and side."""
    found = {}
    for line in lines:
        key = line.name, line.side
        found[key] = found.get(key, 0) + math.dist(line.start, line.end)
    return found


def together(lines):
    return unary_union(MultiLineString([(line.start, line.end) for line in lines]))


@FEW
@given(corner=corners())
def test_flat_each_line_runs_straight_over_all_of_the_cloth(corner):
    hx, hy = (float(hem) for hem in corner.hems)
    cloth = unary_union([Polygon([(float(x), float(y)) for x, y in ply.shape]) for ply in corner.cloth])
    far = 4 * float(corner.extent)
    for name, n in (("fold 1", 1), ("fold 2", 2)):
        for side, whole in (
            ("across", LineString([(n * hx, -far), (n * hx, far)])),
            ("down", LineString([(-far, n * hy), (far, n * hy)])),
        ):
            own = together(line for line in basted_lines(corner, 0) if (line.name, line.side) == (name, side))
            wanted = whole.intersection(cloth.buffer(1e-9))
            assert own.hausdorff_distance(wanted) < 1e-6
    assert not any(line.folded for line in basted_lines(corner, 0))


@FEW
@given(corner=corners())
def test_folding_keeps_the_length_of_every_line(corner):
    flat = lengths(basted_lines(corner, 0))
    for step in range(1, len(corner.folds) + 1):
        assert lengths(basted_lines(corner, step / len(corner.folds))) == pytest.approx(flat)


# Folded here by the test's own steps: what lies beyond a line is mirrored in it, one fold after the
# other, over the mitre x/hx + y/hy = 2, then x = 2hx, y = 2hy, x = hx, y = hy. Geometry.
def mirrored(shape, a, b, c):
    """The mirror image of a shape in the line a·x + b·y = c."""
    square = a * a + b * b
    return affine_transform(
        shape,
        [
            1 - 2 * a * a / square,
            -2 * a * b / square,
            -2 * a * b / square,
            1 - 2 * b * b / square,
            2 * a * c / square,
            2 * b * c / square,
        ],
    )


def folded(shape, a, b, c):
    far, size = 1e4, math.hypot(a, b)
    at = a * c / size**2, b * c / size**2
    along, out = (-b / size * far, a / size * far), (a / size * far, b / size * far)
    beyond = Polygon(
        [
            (at[0] + along[0], at[1] + along[1]),
            (at[0] - along[0], at[1] - along[1]),
            (at[0] - along[0] + out[0], at[1] - along[1] + out[1]),
            (at[0] + along[0] + out[0], at[1] + along[1] + out[1]),
        ]
    )
    return unary_union([shape.difference(beyond), mirrored(shape.intersection(beyond), a, b, c)])


@FEW
@given(corner=corners(kinds=("mitred", "untrimmed"), orders=("corner first",)))
def test_lines_lie_where_the_cloth_is_folded_to(corner):
    hx, hy = (float(hem) for hem in corner.hems)
    folds = [(1 / hx, 1 / hy, 2), (1, 0, 2 * hx), (0, 1, 2 * hy), (1, 0, hx), (0, 1, hy)]
    for name in ("fold 1", "fold 2"):
        shape = together(line for line in basted_lines(corner, 0) if line.name == name)
        for step, fold in enumerate(folds, 1):
            shape = folded(shape, *fold)
            ours = together(line for line in basted_lines(corner, step / 5) if line.name == name)
            assert ours.hausdorff_distance(shape) < 1e-4


# Equal hems: once the corner is folded, fold 1 lies on fold 1 and fold 2 on the other open line.
# Common practice of the trade, no published source.
@pytest.mark.parametrize("turn", [0, 7, 14])
def test_for_equal_hems_each_line_lies_on_its_partner(turn):
    edge = plan_edge("28/in", 14, clear=6, turn=turn)
    lines = basted_lines(plan_corner(edge, edge), 1 / 5)
    h = 12.7
    over = [line for line in lines if line.folded]
    assert over
    for line in over:
        for x, y in (line.start, line.end):
            partner = {"fold 1": h, "fold 2": 0.0}[line.name]
            assert (y if line.side == "across" else x) == pytest.approx(partner)


@FEW
@given(corner=corners(), progress=st.floats(0, 1))
def test_half_way_a_line_is_seen_over_what_it_will_lie_on_and_never_longer(corner, progress):
    now, flat = lengths(basted_lines(corner, progress)), lengths(basted_lines(corner, 0))
    assert all(now.get(key, 0) <= flat[key] + 1e-6 for key in flat)
    far = float(corner.extent) + 1e-6
    x, y = (float(place) + 1e-6 for place in corner.raw_corner)
    room = box(-far, -far, x, y)
    assert all(room.covers(LineString([line.start, line.end])) for line in basted_lines(corner, progress))


@FEW
@given(corner=corners(kinds=("mitred",)), progress=st.floats(0, 1))
def test_a_line_is_folded_over_with_its_cloth(corner, progress):
    assume(abs(corner.step(progress)[1] - 0.5) > 0.02)  # cloth seen from its edge shows neither side
    plies = [
        (Polygon(ply.shape).buffer(1e-6), ply.right_side_up)
        for ply in corner.folded(progress)
        if Polygon(ply.shape).area > 1e-6
    ]
    for line in basted_lines(corner, progress):
        if math.dist(line.start, line.end) > 1e-3:
            under = {up for shape, up in plies if shape.covers(LineString([line.start, line.end]))}
            assert line.folded in under


# The corner fold is the first of five: a quarter and three quarters of it made.
def test_past_the_upright_a_line_shows_its_other_side():
    edge = plan_edge("28/in", 14, clear=6)
    corner = plan_corner(edge, edge)
    assert not any(line.folded for line in basted_lines(corner, 0.25 / 5))
    lines = basted_lines(corner, 0.75 / 5)
    assert {line.folded for line in lines} == {False, True}
    assert all(("folded over" in repr(line)) == line.folded for line in lines)


def test_before_and_after_the_ends_it_is_flat_and_finished():
    edge = plan_edge("28/in", 14, clear=6)
    corner = plan_corner(edge, edge)
    assert basted_lines(corner, -1) == basted_lines(corner, 0)
    assert basted_lines(corner, 2) == basted_lines(corner, 1)
