"""Where the basted lines land, folded over by the tests' own reflection."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.corner.mitre import LINES, plan_corner
from hemcalc.edge.ledger import plan_edge

THREADS = st.integers(1, 24)


def corner_of(across, down, *, turns=(0, 0), counts=("28/in", "28/in")):
    return plan_corner(
        plan_edge(counts[0], across, clear=8, turn=turns[0]),
        plan_edge(counts[1], down, clear=8, turn=turns[1]),
    )


def folded_line(pitch_x, pitch_y, hem, other, line_at):
    """Two points, threads apart along it, of the line x = line_at once it is folded at the mitre.

    The mitre is the line from (2 hx, 0) to (0, 2 hy); a point's image lies as far beyond it.
    """
    hx, hy = hem * pitch_x, other * pitch_y
    across, down = 2 * hx / math.hypot(2 * hx, 2 * hy), -2 * hy / math.hypot(2 * hx, 2 * hy)
    images = []
    for y in (0.0, 10.0):
        x = line_at * pitch_x
        along = (x - 2 * hx) * across + y * down
        foot = 2 * hx + along * across, along * down
        images.append((2 * foot[0] - x, 2 * foot[1] - y))
    return images


def by_hand(pitch_x, pitch_y, hem, other, line_at, partner):
    """Angle to the level y = partner (degrees), where they meet, distance at x = 0 (both mm)."""
    (x0, y0), (x1, y1) = folded_line(pitch_x, pitch_y, hem, other, line_at)
    level = partner * pitch_y
    slope = (y1 - y0) / (x1 - x0)
    meets = x0 + (level - y0) / slope if abs(slope) > 1e-12 else None
    return math.degrees(math.atan(abs(slope))), meets, abs(y0 - x0 * slope - level)


@given(THREADS, THREADS, st.data())
def test_each_line_lands_where_the_reflection_puts_it(across, down, data):
    turns = data.draw(st.integers(0, across)), data.draw(st.integers(0, down))
    counts = data.draw(st.tuples(*[st.sampled_from((20, 27, 28))] * 2))
    corner = corner_of(across, down, turns=turns, counts=tuple(f"{count}/in" for count in counts))
    pitch_x, pitch_y = (25.4 / count for count in counts)
    at = {"fold 1": across, "fold 2": 2 * across, "cut": 2 * across + turns[0]}
    partner = {"fold 1": down, "fold 2": 0, "cut": -turns[1]}
    for landing in corner.landings[: len(LINES)]:
        assert landing.side == "across"
        angle, meets, apart = by_hand(pitch_x, pitch_y, across, down, at[landing.line], partner[landing.line])
        assert landing.angle == pytest.approx(angle, abs=1e-6)
        assert float(landing.apart.mm) == pytest.approx(apart, abs=1e-9)
        assert float(landing.apart_threads) == pytest.approx(apart / pitch_y, abs=1e-9)
        if meets is not None:
            assert landing.meets is not None
            assert tuple(map(float, landing.meets)) == pytest.approx(
                (meets, partner[landing.line] * pitch_y), abs=1e-6
            )


@given(THREADS, THREADS)
def test_the_other_side_lands_as_its_mirror_image(across, down):
    corner, mirror = corner_of(across, down), corner_of(down, across)
    for one, other in zip(corner.landings[:3], mirror.landings[3:], strict=True):
        assert (one.line, one.angle, one.apart) == (other.line, other.angle, other.apart)
        assert (one.side, other.side) == ("across", "down")
        assert one.meets == (other.meets and other.meets[::-1])


@given(THREADS, st.data())
def test_with_equal_hems_and_turns_every_line_lies_on_its_partner(hem, data):
    turn = data.draw(st.integers(0, hem))
    corner = corner_of(hem, hem, turns=(turn, turn))
    for landing in corner.landings:
        assert (landing.angle, landing.apart.mm) == (0.0, 0)
        # They are said to meet where the partner crosses the corner fold.
        assert landing.meets is not None
        assert corner.mitre.beyond(landing.meets) == 0


def test_with_equal_hems_but_unequal_turns_the_cut_lines_run_beside_each_other():
    corner = corner_of(16, 16, turns=(8, 4))
    cuts = [landing for landing in corner.landings if landing.line == "cut"]
    assert [(cut.angle, cut.meets, cut.apart_threads) for cut in cuts] == [(0.0, None, 4)] * 2


# hx : hy = 6 : 4. Geometry, worked by hand: a line through (6, 4) at 22.62 degrees, whose
# tangent is 5/12, is 6 · 5/12 = 2.5 threads off at x = 0; fold 2, from (12, 0), 12 · 5/12 = 5.
def test_hems_of_6_to_4_turn_fold_1_by_22_62_degrees():
    fold_1, fold_2, _, fold_1_down, fold_2_down, _ = corner_of(6, 4, turns=(3, 2)).landings
    pitch = plan_edge("28/in", 6, clear=8).count.pitch.mm
    assert fold_1.angle == fold_2.angle == pytest.approx(22.62, abs=0.005)
    assert fold_1.angle == pytest.approx(math.degrees(math.atan(5 / 12)))
    assert fold_1.meets == fold_1_down.meets == (6 * pitch, 4 * pitch)
    assert float(fold_1.apart_threads) == pytest.approx(2.50, abs=0.005)
    assert float(fold_2.apart_threads) == pytest.approx(5.00, abs=0.005)
    # The narrower side is off by less, over its own shorter way: 4 · 5/12 and 8 · 5/12.
    assert float(fold_1_down.apart_threads) == pytest.approx(4 * 5 / 12)
    assert float(fold_2_down.apart_threads) == pytest.approx(8 * 5 / 12)


def test_a_square_corner_folds_no_basted_line_onto_another():
    edge = plan_edge("28/in", 16, clear=8)
    assert plan_corner(edge, edge, corner="square").landings == ()
    assert plan_corner(edge, edge, corner="uncut").landings == ()
