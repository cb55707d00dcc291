"""The paths of the stitches, measured again by other means."""

import dataclasses
import math
import re

import numpy as np
import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from hemcalc.measure.errors import HemError
from hemcalc.stitch.path import basting_stitch, hem_stitch, ladder_stitch, whip_stitch

widths = st.floats(0.5, 12)
depths = st.floats(0, 6)
thicknesses = st.floats(0, 1.5)
keeps = st.floats(0.2, 1)
threads = st.floats(0, 0.8)
plies = st.integers(1, 4)


def walked(width, depth, tau, narrow, thread, layers, face=True):
    """The same stitch walked step by step: how far each step goes, and what it goes round."""
    # Three times across the squeezed group and half a thread on either side of it, less where
    # the first time starts from the middle of the row, not from the group's near side.
    across = narrow + thread
    through = tau + thread
    far = (width + narrow) / 2 + thread / 2
    drop = (layers - 1) * tau

    def over_the_fold(x):
        return np.hypot(x, depth + thread / 2) + np.hypot(far - x, drop)

    first = minimize_scalar(over_the_fold, bounds=(0, far), method="bounded", options={"xatol": 1e-10}).fun
    round_the_group = 2 * across + 2 * through  # behind, up, over again; and down on the far side
    down_again = through if face else 0
    slant = np.linalg.norm([width - far, depth + thread / 2])
    bite = layers * tau + thread if face else (layers - 1) * tau
    return first + round_the_group + down_again + slant + bite


@given(widths, depths, thicknesses, keeps, threads, plies, st.booleans())
def test_the_path_is_as_long_as_the_thread_walked_step_by_step(width, depth, tau, keep, thread, layers, face):
    narrow, layers = keep * width, layers + (not face)
    path = hem_stitch(width, depth, tau, pulled=narrow, thread=thread, plies=layers, face=face)
    assert path.length_mm == pytest.approx(walked(width, depth, tau, narrow, thread, layers, face), rel=1e-6)


def test_a_stitch_that_leaves_the_face_alone_needs_another_layer_and_never_goes_under_the_hem():
    with pytest.raises(HemError, match="plies is 1, but must"):
        hem_stitch(4, 2, 0.5, plies=1, face=False)
    path = hem_stitch(4, 2, 0.5, pulled=3, thread=0.3, face=False)
    assert all(point.z_mm >= 0.5 for point in path.points if point.y_mm >= 0)
    assert len(path.points) == len(hem_stitch(4, 2, 0.5).points)


def test_a_stitch_by_hand_on_paper():
    # Group 4, bite 2, cloth 0.5, pulled to 3: over the fold √(3.5² + (2 + 1)²) = 4.6098; down 0.5,
    # behind 3, up 0.5, over 3, down 0.5; slant √(0.5² + 2²) = 2.0616; up through three plies 1.5.
    path = hem_stitch(4, 2, 0.5, pulled=3)
    assert path.length_mm == pytest.approx(4.6098 + 0.5 + 3 + 0.5 + 3 + 0.5 + 2.0616 + 1.5, abs=1e-4)


@given(widths, depths, thicknesses, keeps, threads, plies)
def test_the_next_stitch_begins_where_this_one_ends_a_group_on(width, depth, tau, keep, thread, layers):
    path = hem_stitch(width, depth, tau, pulled=keep * width, thread=thread, plies=layers)
    first, last = path.points[0], path.points[-1]
    assert (last.x_mm - first.x_mm, last.y_mm, last.z_mm) == (width, first.y_mm, first.z_mm)
    assert path.advance_mm == width
    assert path.per_mm * width == pytest.approx(path.length_mm)


@given(widths, depths, thicknesses, keeps, threads, plies)
def test_the_thread_stays_outside_the_cloth(width, depth, tau, keep, thread, layers):
    path = hem_stitch(width, depth, tau, pulled=keep * width, thread=thread, plies=layers)
    for point in path.points:
        top = layers * tau if point.y_mm > 0 else tau
        assert point.z_mm <= -thread / 2 + 1e-12 or point.z_mm >= top + thread / 2 - 1e-12
    group = [point.x_mm for point in path.points if "side" in point.name]
    assert min(group) == pytest.approx((width - keep * width - thread) / 2, abs=1e-9)
    assert max(group) == pytest.approx((width + keep * width + thread) / 2, abs=1e-9)


@given(widths, depths, thicknesses, keeps, threads, plies, st.integers(0, 5), st.floats(0.01, 1))
def test_more_of_anything_never_takes_less_thread(width, depth, tau, keep, thread, layers, which, more):
    sizes = [width, depth, tau, keep, thread, layers]
    grown = sizes.copy()
    grown[which] += 1 if which == 5 else more
    grown[3] = min(1.0, grown[3])

    def length(w, b, t, k, d, n):
        return hem_stitch(w, b, t, pulled=k * w, thread=d, plies=n).length_mm

    assert length(*grown) >= length(*sizes) - 1e-9


def test_the_parts_of_the_path_add_up_and_have_names():
    path = hem_stitch("4 mm", "2 mm", "0.5 mm")
    names = [point.name for point in path.points]
    assert len(set(names)) == len(names) == 10
    loop = path.between_mm("far side, over", "far side, over again")
    rest = path.between_mm(names[0], "far side, over") + path.between_mm("far side, over again", names[-1])
    assert loop == pytest.approx(2 * 4 + 2 * 0.5)
    assert loop + rest == pytest.approx(path.length_mm)
    assert path.between_mm("over the fold", "over the fold") == 0
    *legs, whole = path.text().splitlines()
    assert [leg.partition(" mm to: ")[2] for leg in legs] == names[1:]
    assert sum(float(leg.partition(" ")[0]) for leg in legs) == pytest.approx(path.length_mm, abs=0.05)
    assert whole == f"in all {path.length_mm:.2f} mm"
    with pytest.raises(HemError, match="ask the other way round"):
        path.between_mm("far side, over again", "far side, over")
    with pytest.raises(HemError, match="a point of the path is 'corner'"):
        path.between_mm("corner", "far side, over")


def test_the_other_hand_works_the_mirror_of_the_same_length():
    path = hem_stitch("4 mm", "2 mm", "0.5 mm", pulled="3 mm", thread="0.3 mm")
    other = path.mirrored
    assert [p.x_mm for p in other.points] == [-p.x_mm for p in path.points]
    assert other.length_mm == pytest.approx(path.length_mm)
    assert other.advance_mm == path.advance_mm
    assert other.mirrored == path


def test_the_path_cannot_be_changed_by_a_figure():
    with pytest.raises(dataclasses.FrozenInstanceError):
        hem_stitch(4, 2, 0.5).points = ()


@for_each(
    ("change", "about"),
    [
        ({"group": 0}, "group"),
        ({"group": "4"}, "group"),
        ({"depth": -1}, "depth"),
        ({"thickness": float("nan")}, "thickness"),
        ({"pulled": 4.1}, "pulled"),
        ({"pulled": 0}, "pulled"),
        ({"thread": None}, "thread"),
        ({"plies": 0}, "plies"),
        ({"plies": 2.5}, "plies"),
    ],
)
def test_bad_input_gets_its_sentence(change, about):
    with pytest.raises(HemError, match="for example") as caught:
        hem_stitch(**{"group": 4, "depth": 2, "thickness": 0.5, **change})
    assert caught.value.about == about


# Whip, ladder and basting

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


@for_each(
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
def test_bad_input_to_a_plain_stitch_gets_its_sentence(ask, about):
    with pytest.raises(HemError, match="for example") as caught:
        ask()
    assert caught.value.about == about


def test_the_width_that_a_refusal_gives_as_an_example_will_do():
    with pytest.raises(HemError) as caught:
        hem_stitch("4 mm", "2 mm", "0.5 mm", pulled="5 mm")
    example = re.search("for example '(.+)'", str(caught.value))[1]
    assert hem_stitch("4 mm", "2 mm", "0.5 mm", pulled=example).length_mm


def test_a_stitch_of_no_depth_in_a_cloth_of_no_thickness_is_three_groups_long():
    # Over the group, back behind it, and on to the next, pulled in by nothing.
    assert hem_stitch("4 mm", "0 mm", "0 mm", thread="0 mm").length_mm == pytest.approx(3 * 4)


def test_a_stitch_as_deep_as_its_edge_is_high_goes_straight_over_both():
    # Flattened, 4 along and 1 + 2 × 0.5 across; 4 behind, 4 over, three times through the cloth beside the
    # group; 1 on to the next, and up through three plies.
    stitch = hem_stitch("4 mm", "1 mm", "0.5 mm", thread="0 mm", plies=3)
    assert stitch.length_mm == pytest.approx(math.hypot(4, 2) + 2 * 4 + 3 * 0.5 + 1 + 3 * 0.5)


def test_a_whip_stitch_may_take_no_bite_at_all():
    # Straight behind, and straight over: twice as far as the next one, and twice through the cloth.
    flat = whip_stitch("2 mm", "0 mm", "0 mm", thread="0 mm")
    assert flat.length_mm == pytest.approx(2.0)
