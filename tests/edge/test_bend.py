"""How much cloth a bend takes, and where its neutral line lies."""

import itertools
import math

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.edge.bend import EVEN_SHEET, bend_length, neutral_share
from hemcalc.measure.errors import HemError

ANGLES, RADII, SHEETS = st.floats(1, 360), st.floats(0, 50), st.floats(0.05, 5)
SHARES = st.floats(0, 1)


@given(ANGLES, RADII, SHEETS, SHARES)
def test_a_bend_is_as_long_as_the_arc_of_its_neutral_line_drawn_in_small_steps(angle, radius, sheet, share):
    turned, neutral = math.radians(angle), radius + share * sheet
    points = [(neutral * math.cos(turned * i / 20), neutral * math.sin(turned * i / 20)) for i in range(21)]
    chords = sum(math.dist(a, b) for a, b in itertools.pairwise(points))
    # Twenty chords of an arc fall short of it by a known factor.
    half = turned / 40
    assert bend_length(angle, radius, sheet, share) == pytest.approx(chords * half / math.sin(half))


@given(ANGLES, RADII, SHEETS, SHARES)
def test_the_neutral_line_is_found_again_from_the_length_of_the_bend(angle, radius, sheet, share):
    length = bend_length(angle, radius, sheet, share)
    if length:
        assert neutral_share(length, angle, radius, sheet) == pytest.approx(share, abs=1e-6)


@given(RADII, SHEETS, SHARES)
def test_a_fold_takes_twice_the_cloth_of_a_quarter_turn(radius, sheet, share):
    assert bend_length(180, radius, sheet, share) == pytest.approx(2 * bend_length(90, radius, sheet, share))


@given(ANGLES, RADII, SHEETS)
def test_an_even_sheet_bends_about_its_middle(angle, radius, sheet):
    inside, middle, outside = (bend_length(angle, radius, sheet, share) for share in (0, EVEN_SHEET, 1))
    assert middle == bend_length(angle, radius, sheet)
    assert middle == pytest.approx((inside + outside) / 2)


# Section 6 of the model: a sharp fold takes an arc of π · k · τ.
def test_a_sharp_fold_of_half_a_millimetre_takes_a_quarter_of_pi():
    assert bend_length(180, 0, 0.5) == pytest.approx(math.pi / 4)


def test_a_bend_of_no_angle_takes_no_cloth():
    assert bend_length(0, 1, 0.5) == 0


def test_a_bend_shorter_than_its_inside_or_longer_than_its_outside_was_measured_wrong():
    for length in (1.5, 3.2):  # the inside of this bend is 1.57 long, its outside 3.14
        with pytest.raises(HemError, match=r"takes from 1\.571, along its inside, to 3\.142") as refused:
            neutral_share(length, 90, 1, 1)
        assert refused.value.about == "measured"


# A full turn is the most that a sheet is bent, and the neutral line lies within the sheet.
@for_each(
    ("ask", "about", "taken", "refused"),
    [
        (lambda n: bend_length(n, 1, 1), "angle", (0, 360), (-0.01, 360.01)),
        (lambda n: bend_length(90, n, 1), "inner_radius", (0, 100_000), (-0.01, 100_001)),
        (lambda n: bend_length(90, 1, n), "thickness", (0.001, 100_000), (0, 100_001)),
        (lambda n: bend_length(90, 1, 1, n), "neutral", (0, 1), (-0.01, 1.01)),
        (lambda n: neutral_share(math.radians(n), n, 0.5, 1), "angle", (0.001, 360), (0.0009, 360.01)),
        (lambda n: neutral_share(math.radians(n + 0.5), 1, n, 1), "inner_radius", (0, 1e5), (-0.01, 1e5 + 1)),
    ],
)
def test_the_limits_of_a_bend_are_those_of_a_sheet(ask, about, taken, refused):
    for number in taken:
        ask(number)
    for number in refused:
        with pytest.raises(HemError) as told:
            ask(number)
        assert told.value.about == about


def test_a_bend_as_long_as_its_inside_or_its_outside_is_one():
    # A quarter turn about 3 mm, of a sheet of 2 mm: to a share that floats can't quite say.
    assert neutral_share(math.pi / 2 * 3, 90, 3, 2) == pytest.approx(0, abs=1e-12)
    assert neutral_share(math.pi / 2 * 5, 90, 3, 2) == pytest.approx(1, abs=1e-12)
    assert neutral_share(math.pi / 2 * 3 * (1 - 1e-12), 90, 3, 2) >= 0
    assert neutral_share(math.pi / 2 * 5 * (1 + 1e-12), 90, 3, 2) <= 1
