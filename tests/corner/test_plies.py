"""Plies of cloth, folded over a line all the way and part of the way."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.corner.plies import Ply, box, fold_over, part_folded
from hemcalc.corner.polygon import Line, area

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
