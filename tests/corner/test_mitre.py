"""The corner: its cuts, folds, layers, overhang, and what is the same whatever the numbers."""

import math
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.corner.mitre import CORNER_KINDS, ORDERS, plan_corner
from hemcalc.corner.plies import box, overlay
from hemcalc.corner.polygon import area
from hemcalc.edge.ledger import plan_edge
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length

COUNT = "28/in"
PITCH = Fraction(254, 280)  # mm


def edge(hem, turn, *, count=COUNT, drawn=2):
    return plan_edge(count, hem, clear=8, drawn=drawn, turn=turn)


@st.composite
def edges(draw, most=16):
    hem = draw(st.integers(1, most))
    count = draw(st.sampled_from(("20/in", "27/in", "28/in", "11/cm")))
    return edge(hem, draw(st.integers(0, hem)), count=count, drawn=draw(st.integers(1, 5)))


@st.composite
def corners(draw):
    across, down = draw(edges()), draw(edges())
    kind, order = draw(st.sampled_from(CORNER_KINDS)), draw(st.sampled_from(ORDERS))
    allowance = None
    if kind == "square" or (kind == "mitred" and draw(st.booleans())):
        # Any share of the room there is, between nothing and all of it.
        share = draw(st.sampled_from((1, 3, 7, 9))) * Fraction(1, 10)
        allowance = Length(min(across.hem_width, down.hem_width).mm * share)
    return plan_corner(across, down, corner=kind, allowance=allowance, order=order)


def touch(corner):
    """Whether a trimmed edge runs through the crossing at (0, 0) once the corner is folded."""
    return any(
        {x + y for x, y in pair} == {0}
        for ply in corner.states[1]
        if ply.folds
        for pair in pairwise((*ply.shape, ply.shape[0]))
    )


# What holds for every corner


@given(corners())
def test_every_fold_keeps_all_the_cloth(corner):
    areas = {sum(area(ply.shape) for ply in state) for state in corner.states}
    assert len(areas) == 1
    assert len(corner.states) == len(corner.folds) + 1


@given(corners())
def test_layers_integrate_to_the_area_of_the_cloth(corner):
    hx, hy = corner.hems
    window = box(-corner.extent, -corner.extent, hx, hy)
    assert all(-corner.extent <= x <= hx for ply in corner.plies for x, _ in ply.shape)
    assert all(-corner.extent <= y <= hy for ply in corner.plies for _, y in ply.shape)
    cells = overlay(window, [ply.shape for ply in corner.plies])
    x, y = corner.raw_corner
    cut_away = Fraction(0)
    if corner.trim:
        cut_away = area([*corner.trim, (x, y)])
    cloth = (x + corner.extent) * (y + corner.extent) - cut_away
    assert sum(layers * area(cell) for cell, layers in cells) == cloth


@given(corners())
def test_layer_areas_fill_the_corner_square(corner):
    hx, hy = corner.hems
    assert sum(corner.layer_areas.values()) == hx * hy
    assert sum(corner.layer_shares.values()) == 1
    assert list(corner.layer_areas) == sorted(corner.layer_areas)
    assert {count: part * hx * hy for count, part in corner.layer_shares.items()} == corner.layer_areas


@given(corners())
def test_exchanging_the_sides_mirrors_everything(corner):
    mirror = plan_corner(
        corner.down, corner.across, corner=corner.kind, allowance=corner.allowance, order=corner.order
    )
    assert mirror.layer_areas == corner.layer_areas
    assert mirror.legs_mm == pytest.approx(corner.legs_mm[::-1])
    assert mirror.angle == pytest.approx(90 - corner.angle)
    assert mirror.seam_mm == pytest.approx(corner.seam_mm)
    for name in ("reach_mm", "area_mm2", "work_reach_mm", "work_area_mm2"):
        assert getattr(mirror.overhang, name) == pytest.approx(getattr(corner.overhang, name))
    hx, hy = map(float, corner.hems)
    for u, v in ((0.31, 0.17), (0.77, 0.52), (-0.4, 0.63), (0.05, -1.3), (-0.2, -0.1)):
        assert mirror.layers(v * hy, u * hx) == corner.layers(u * hx, v * hy)


@given(corners())
def test_the_layers_at_a_point_are_those_of_its_cell(corner):
    for cell, layers in corner.layer_cells[:6]:
        x, y = (sum(corner[axis] for corner in cell) / len(cell) for axis in (0, 1))
        assert corner.layers(x, y) == layers
    assert corner.layers("0 mm", "0 cm") == corner.layers(0, 0)


@given(corners())
def test_along_the_edge_the_hem_has_its_two_or_three_layers_and_beyond_it_none(corner):
    # Far from the corner: face, back and, as far as it reaches, the turn.
    far, (hx, hy) = -corner.extent * 3, corner.hems
    for along_x, pitch in ((True, corner.down.count.pitch.mm), (False, corner.across.count.pitch.mm)):
        side, width = (corner.down, hy) if along_x else (corner.across, hx)
        expected = [(pitch * (side.turn + Fraction(1, 2)), 2), (pitch * side.turn / 2, 3)]
        for off, layers in [*expected, (-pitch, 1), (width + pitch / 2, 0)]:
            if off == 0 or (layers == 2 and side.turn == side.hem):
                continue
            assert corner.layers(*((far, off) if along_x else (off, far))) == layers


@given(corners())
def test_unfolded_at_0_and_finished_at_1(corner):
    flat, done = corner.folded(0), corner.folded(1)
    assert [ply.shape for ply in flat] == [
        tuple((float(x), float(y)) for x, y in ply.shape) for ply in corner.cloth
    ]
    assert [ply.right_side_up for ply in done] == [ply.right_side_up for ply in corner.plies]
    for drawn, ply in zip(done, corner.plies, strict=True):
        for point, exact in zip(drawn.shape, ply.shape, strict=True):
            assert point == pytest.approx(tuple(map(float, exact)), abs=1e-9)


@given(corners())
def test_each_fold_takes_an_equal_share_of_the_progress(corner):
    many = len(corner.folds)
    names = [corner.folding((step + 0.5) / many) for step in range(many)]
    assert names == [fold.name for fold in corner.folds]
    for step in range(many):
        # A hair past the start of a fold the plies still lie as the folds before left them.
        drawn = corner.folded((step + 1e-9) / many)
        assert sum(len(ply.shape) > 0 for ply in drawn) >= len(corner.states[step])
        for ply in corner.states[step]:
            spot = tuple(sum(map(float, axis)) / len(ply.shape) for axis in zip(*ply.shape, strict=True))
            assert any(holds(seen.shape, *spot) for seen in drawn)
    for made in (0, 1, 2.5, len(corner.folds) - 0.25):
        step, share = corner.step(made / len(corner.folds))
        assert (step, share) == (int(made), pytest.approx(made - int(made), abs=1e-12))


def holds(shape, x, y):
    sides = [
        (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) for (x0, y0), (x1, y1) in pairwise((*shape, shape[0]))
    ]
    return all(side >= -1e-6 for side in sides) or all(side <= 1e-6 for side in sides)


@given(edges(), edges(), st.integers(2, 5))
def test_scaling_hem_and_count_together_keeps_every_share(across, down, factor):
    def finer(side):
        count = f"{side.count.per_inch * factor}/in"
        return plan_edge(
            count,
            side.hem * factor,
            clear=8 * factor,
            drawn=side.drawn * factor,
            turn=side.turn * factor,
        )

    coarse, fine = plan_corner(across, down), plan_corner(finer(across), finer(down))
    assert fine.layer_areas == coarse.layer_areas
    assert (fine.legs_mm, fine.seam_mm, fine.angle) == (coarse.legs_mm, coarse.seam_mm, coarse.angle)
    assert fine.overhang == coarse.overhang


@given(edges(), edges())
def test_the_angle_and_length_of_the_seam_are_those_of_the_hems_square(across, down):
    corner = plan_corner(across, down)
    hx, hy = (float(side.hem_width.mm) for side in (across, down))
    assert corner.angle == pytest.approx(math.degrees(math.atan(hy / hx)))
    assert corner.seam_mm == pytest.approx(math.sqrt(hx**2 + hy**2))
    assert corner.equal_hems == (across.hem_width == down.hem_width)


# Equal hems, trimmed through the crossing of the fold 2 lines, corner first


@given(st.integers(1, 24), st.data())
def test_equal_hems_so_trimmed_lie_four_deep_everywhere_whatever_the_turn(hem, data):
    turn = data.draw(st.integers(0, hem))
    corner = plan_corner(edge(hem, turn), edge(hem, turn))
    assert corner.layer_areas == {4: (hem * PITCH) ** 2}
    # Inside the square: beyond its inner sides the hems beside it may lie five deep.
    u, v = data.draw(st.tuples(*[st.floats(0.001, 1)] * 2))
    assert corner.layers(u * float(hem * PITCH), v * float(hem * PITCH)) == 4


@given(st.integers(1, 24), st.data())
def test_equal_hems_with_unequal_turns_lie_four_deep_too(hem, data):
    turns = data.draw(st.tuples(st.integers(0, hem), st.integers(0, hem)))
    assert set(plan_corner(edge(hem, turns[0]), edge(hem, turns[1])).layer_areas) == {4}


# Common practice of the trade, no published source.
@given(st.integers(1, 24), st.data())
def test_a_trimmed_and_folded_corner_just_touches_the_open_square(hem, data):
    turn = data.draw(st.integers(1, hem))
    corner = plan_corner(edge(hem, turn), edge(hem, turn))
    assert touch(corner)
    assert corner.trim_lands_mm == 0
    assert (corner.overhang.reach_mm, corner.overhang.area_mm2) == (0, 0)


@given(st.integers(1, 24), st.data())
def test_the_cut_through_the_fold_2_crossing_leaves_an_allowance_of_hem_root_2(hem, data):
    turn = data.draw(st.integers(1, hem))
    width = float(hem * PITCH)
    by_crossing = plan_corner(edge(hem, turn), edge(hem, turn))
    by_allowance = plan_corner(
        edge(hem, turn), edge(hem, turn), allowance=Length(Fraction(width * math.sqrt(2)))
    )
    assert by_crossing.allowance_mm == pytest.approx(width * math.sqrt(2))
    assert by_allowance.legs_mm == pytest.approx(by_crossing.legs_mm)
    assert by_allowance.legs_mm == pytest.approx((2 * turn * float(PITCH),) * 2)
    assert by_allowance.trim_lands_mm == pytest.approx(0, abs=1e-9)


@given(st.integers(2, 24), st.data())
def test_an_allowance_s_cuts_legs_of_2_h_plus_t_less_s_root_2(hem, data):
    turn = data.draw(st.integers(0, hem))
    width, turned = float(hem * PITCH), float(turn * PITCH)
    s = Fraction((width + turned) * math.sqrt(2)) * data.draw(st.integers(1, 19)) / 20
    corner = plan_corner(edge(hem, turn), edge(hem, turn), allowance=Length(s))
    assert corner.legs_mm == pytest.approx((2 * (width + turned) - float(s) * math.sqrt(2),) * 2)
    assert corner.allowance_mm == pytest.approx(float(s))
    assert corner.trim_lands_mm == pytest.approx(width * math.sqrt(2) - float(s))


@given(st.integers(2, 24), st.data())
def test_trimmed_closer_equal_hems_lie_two_to_four_deep(hem, data):
    # Up to 19 twentieths of the hem's root 2, a little less than the cut through the crossing leaves.
    closer = Length(hem * PITCH * Fraction(1414, 1000) * data.draw(st.integers(1, 19)) / 20)
    turn = data.draw(st.integers(0, hem))
    layers = set(plan_corner(edge(hem, turn), edge(hem, turn), allowance=closer).layer_areas)
    assert layers in ({2, 3, 4}, {3, 4}, {2, 3}, {2, 4})


@given(edges(), edges())
def test_unequal_hems_lie_two_to_four_deep(across, down):
    layers = set(plan_corner(across, down).layer_areas)
    assert layers <= {2, 3, 4}
    assert 4 in layers


@given(edges(), edges())
def test_the_cut_runs_through_the_crossing_of_the_fold_2_lines_and_the_fold_through_that_of_fold_1(
    across, down
):
    corner = plan_corner(across, down)
    hx, hy = across.hem_width.mm, down.hem_width.mm
    for line, crossing in ((corner.trim, (2 * hx, 2 * hy)), (corner.corner_fold, (hx, hy))):
        (x0, y0), (x1, y1) = line
        assert (x1 - x0) * (crossing[1] - y0) == (y1 - y0) * (crossing[0] - x0)
        # From one raw edge to the other.
        assert (y0, x1) == (down.draw_line.mm, across.draw_line.mm)


# Untrimmed


@given(st.integers(1, 24), st.integers(1, 6), st.data())
def test_untrimmed_equal_hems_lie_four_deep_but_reach_over_the_work(hem, drawn, data):
    turn = data.draw(st.integers(0, hem))
    side = edge(hem, turn, drawn=drawn)
    corner = plan_corner(side, side, corner="untrimmed")
    assert set(corner.layer_areas) == {4}
    t, w = float(turn * PITCH), float(drawn * PITCH)
    assert corner.overhang.reach_mm == pytest.approx(t * math.sqrt(2))
    assert corner.overhang.area_mm2 == pytest.approx(t**2)
    assert corner.overhang.work_reach_mm == pytest.approx(max(t - w, 0) * math.sqrt(2), abs=1e-12)
    assert corner.overhang.work_area_mm2 == pytest.approx(max(t - w, 0) ** 2, abs=1e-12)
    assert corner.legs_mm == (0, 0)
    assert corner.trim is corner.allowance_mm is corner.trim_lands_mm is None


def test_work_is_measured_by_each_sides_own_open_line():
    corner = plan_corner(edge(14, 7, drawn=2), edge(14, 7, drawn=5), corner="untrimmed")
    width, depth = 5 * float(PITCH), 2 * float(PITCH)
    assert corner.overhang.work_area_mm2 == pytest.approx(width * depth)
    assert corner.overhang.work_reach_mm == pytest.approx(math.hypot(width, depth))


# Numbers worked for hems of 6 : 4 and 10 : 4, and for turns pressed first


@pytest.mark.parametrize(
    ("across", "down", "percent", "half_digit"),
    [
        pytest.param((6, 3), (4, 2), {3: 6.8, 4: 93.2}, 0.05, id="6 to 4"),
        pytest.param((10, 5), (4, 2), {2: 2, 3: 32, 4: 66}, 0.5, id="10 to 4"),
    ],
)
def test_unequal_hems_lie_as_deep_as_worked(across, down, percent, half_digit):
    shares = plan_corner(edge(*across), edge(*down)).layer_shares
    assert {layers: float(share * 100) for layers, share in shares.items()} == pytest.approx(
        percent, abs=half_digit
    )


@given(st.integers(1, 12))
def test_turns_pressed_first_lie_four_six_and_seven_deep(half):
    corner = plan_corner(edge(2 * half, half), edge(2 * half, half), order="turns first")
    assert corner.layer_shares == {4: Fraction(1, 4), 6: Fraction(1, 2), 7: Fraction(1, 4)}


@given(st.integers(1, 24))
def test_turns_as_wide_as_the_hem_pressed_first_lie_seven_deep_everywhere(hem):
    corner = plan_corner(edge(hem, hem), edge(hem, hem), order="turns first")
    assert corner.layer_shares == {7: 1}


@given(st.integers(1, 24))
def test_without_turns_the_order_makes_no_difference(hem):
    first, last = (plan_corner(edge(hem, 0), edge(hem, 0), order=order) for order in ORDERS)
    assert first.layer_areas == last.layer_areas


# Not mitred


@given(st.integers(1, 12))
def test_folded_square_and_uncut_lie_four_six_and_nine_deep(half):
    corner = plan_corner(edge(2 * half, half), edge(2 * half, half), corner="uncut")
    assert corner.layer_shares == {4: Fraction(1, 4), 6: Fraction(1, 2), 9: Fraction(1, 4)}


@given(st.integers(1, 24), st.integers(1, 24))
def test_with_turns_as_wide_as_the_hems_uncut_lies_nine_deep_everywhere(across, down):
    corner = plan_corner(edge(across, across), edge(down, down), corner="uncut")
    assert corner.layer_shares == {9: 1}


@given(edges(), edges())
def test_uncut_each_side_brings_its_two_or_three_layers(across, down):
    corner = plan_corner(across, down, corner="uncut")
    three = [Fraction(side.turn, side.hem) for side in (across, down)]
    expected = {
        4: (1 - three[0]) * (1 - three[1]),
        6: three[0] * (1 - three[1]) + three[1] * (1 - three[0]),
        9: three[0] * three[1],
    }
    assert corner.layer_shares == {layers: share for layers, share in expected.items() if share}


@given(edges(), edges())
def test_a_square_corner_is_never_deeper_than_an_uncut_one_and_has_no_fold_or_seam_of_its_own(across, down):
    allowance = Length(min(across.hem_width, down.hem_width).mm / 3)
    corner = plan_corner(across, down, corner="square", allowance=allowance)
    uncut = plan_corner(across, down, corner="uncut")
    assert max(corner.layer_areas) <= max(uncut.layer_areas)
    assert corner.corner_fold is corner.trim_line is corner.allowance_mm is None
    x, y = (side.hem_width.mm + side.turn_width.mm - allowance.mm for side in (across, down))
    assert corner.legs_mm == (float(x), float(y))


# The oblong is what lies beyond both fold 1 lines by more than 1/4 in.
def test_a_square_corner_leaves_a_quarter_inch_beyond_both_fold_1_lines():
    side = plan_edge("28/in", "1/2 in", clear=6)
    corner = plan_corner(side, side, corner="square")
    three_quarters, cut = Length("3/4 in").mm, Length("1 1/4 in").mm
    assert corner.trim == ((three_quarters, cut), (three_quarters,) * 2, (cut, three_quarters))
    # Thinned: the quarter inch nearest the finished edges keeps its layers, the rest loses some.
    assert corner.layers(12, 12) == 4
    assert corner.layers(2, 2) < plan_corner(side, side, corner="uncut").layers(2, 2) == 9


# Layers at a point


def test_on_a_fold_it_is_the_greater_of_its_sides_and_off_the_cloth_none():
    side = edge(14, 7)
    corner = plan_corner(side, side)
    hem, inside = float(14 * PITCH), 5.0
    assert corner.layers(hem, inside) == corner.layers(inside, hem) == corner.layers(hem, hem) == 4
    assert corner.layers(hem + 1e-6, inside) == corner.layers(hem + 1, hem + 1) == 0
    # On the open line's outer edge lies fold 2: the hem is on one side, bare cloth on the other.
    assert corner.layers(0, -60) == 3
    assert corner.layers(-1e-6, -60) == 1
    # Where the open lines cross, the flap lies in the back and turn of the hem beside it.
    assert corner.layers(0, 0) == corner.layers(-0.2, 0.1) == 5
    assert corner.layers(Length(5), Fraction(5)) == corner.layers(5, 5.0) == 4
    assert corner.layers(-1e300, -1e300) == 1
    assert corner.layers(1e300, 0) == 0


# Common practice of the trade, no published source: at 28 threads/in a hem of 1/2 in is 14
# threads, the turn 7; trimmed through the crossing of the fold 2 lines.
def test_the_corner_of_a_half_inch_hem():
    side = plan_edge("28/in", "1/2 in", clear=6)
    corner = plan_corner(side, side)
    half_inch = Length("1/2 in").mm
    assert corner.hems == (half_inch, half_inch)
    assert corner.raw_corner == (half_inch * Fraction(5, 2),) * 2
    assert corner.angle == 45
    assert corner.seam_mm == pytest.approx(12.7 * math.sqrt(2))
    assert corner.legs_mm == (12.7, 12.7)


# Threads of 1 mm: beyond fold 1 lie a hem of 4 and a turn of 2.
def test_an_allowance_as_wide_as_the_cloth_beyond_the_fold_misses_it():
    mm = edge(4, 2, count="10/cm")
    assert plan_corner(mm, mm, corner="square", allowance="5.9 mm").allowance == Length("5.9 mm")
    with pytest.raises(HemError, match=r"ends 6.00 mm beyond the fold; it must be less"):
        plan_corner(mm, mm, corner="square", allowance="6 mm")
