"""Whip, ladder and basting, measured again by other means."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.stitch.plain import basting_stitch, ladder_stitch, whip_stitch

steps = st.floats(0.2, 20)
sizes = st.floats(0, 3)


def length_of(points):
    return np.linalg.norm(np.diff(np.array(points), axis=0), axis=1).sum()


@given(steps, sizes, sizes, sizes)
def test_whip_goes_straight_behind_and_slants_over(apart, bite, tau, thread):
    top, bottom = tau + thread / 2, -thread / 2
    points = [(0, bite, top), (0, bite, bottom), (0, -bite, bottom), (0, -bite, top), (apart, bite, top)]
    path = whip_stitch(apart, bite, tau, thread=thread)
    assert path.length_mm == pytest.approx(length_of(points))
    assert path.advance_mm == apart


@given(steps, sizes, sizes)
def test_ladder_runs_in_the_folds_and_crosses_twice(apart, tau, thread):
    path = ladder_stitch(apart, tau, thread=thread)
    assert path.length_mm == pytest.approx(2 * apart + 4 * (tau + thread / 2))
    assert path.advance_mm == pytest.approx(2 * apart)
    assert len({point.z_mm for point in path.points}) == 1


@given(steps, steps, sizes, sizes)
def test_basting_goes_through_the_cloth_twice(over, under, tau, thread):
    path = basting_stitch(over, under, tau, thread=thread)
    assert path.length_mm == pytest.approx(over + under + 2 * (tau + thread))
    assert path.advance_mm == pytest.approx(over + under)
    assert path.legs_mm[0] == pytest.approx(over)


@given(steps, sizes)
def test_a_seam_of_closer_stitches_never_takes_less_thread(apart, tau):
    assert whip_stitch(apart, 1, tau).per_mm >= whip_stitch(2 * apart, 1, tau).per_mm
    assert ladder_stitch(apart, tau).per_mm >= ladder_stitch(2 * apart, tau).per_mm


@pytest.mark.parametrize(
    ("ask", "about"),
    [
        (lambda: whip_stitch(0, 1, 0.5), "apart"),
        (lambda: whip_stitch(1, -1, 0.5), "bite"),
        (lambda: whip_stitch(1, 1, "thick"), "thickness"),
        (lambda: ladder_stitch(1, 0.5, thread=True), "thread"),
        (lambda: ladder_stitch("1", 0.5), "apart"),
        (lambda: basting_stitch("1/4 in", 0, 0.5), "under"),
        (lambda: basting_stitch(None, 1, 0.5), "over"),
    ],
)
def test_bad_input_gets_its_sentence(ask, about):
    with pytest.raises(HemError, match="for example") as caught:
        ask()
    assert caught.value.about == about
