"""The hem stitch's picture, held against the path that it shows, for either hand and from either side."""

import math
import re
from dataclasses import replace
from itertools import pairwise

import pytest
from cases import for_each
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hemcalc.draw.look import TYPE
from hemcalc.draw.stitch.path import StitchPicture, draw_stitch, leg_kind, shown_points
from hemcalc.draw.stitch.words import LAST, SEEN, STEPS, Stitched, headline, lengths, stitch_alt
from hemcalc.measure.errors import HemError
from hemcalc.measure.units import UNITS
from hemcalc.stitch.groups import HANDS, WORKED
from hemcalc.stitch.path import hem_stitch

PICTURE = StitchPicture()
#: How often the thread has been round the group, and how far apart such turns are drawn, in threads.
TURNS = {"near side, behind": 1, "near side, over": 1, "far side, over again": 2, "far side, behind again": 2}
APART = 0.42
FEW = settings(max_examples=15)


@st.composite
def stitches(draw, **fixed):
    pitch = draw(st.floats(0.5, 2.5))
    group, depth = draw(st.integers(2, 6)), draw(st.integers(1, 5))
    path = hem_stitch(
        group * pitch,
        depth * pitch,
        pitch * draw(st.floats(0.2, 3.0)),
        pulled=group * pitch * draw(st.floats(0.4, 1.0)),
        thread=pitch * draw(st.floats(0.05, 0.4)),
        plies=draw(st.integers(2, 3)),
        face=draw(st.booleans()),
    )
    options = {
        "hand": draw(st.sampled_from(HANDS)),
        "seen": draw(st.sampled_from(SEEN)),
        "unit": draw(st.sampled_from(UNITS)),
        "step": draw(st.integers(0, LAST)),
        "worked": draw(st.sampled_from((None, *WORKED))),
    }
    return Stitched(path, group, depth, **options | fixed)


def usual(**options):
    path = hem_stitch(3.2, 1.6, 0.4, pulled=2.2, thread=0.25)
    return Stitched(path, 4, 2, **options)


def legs(view):
    """The legs drawn in a view, whichever line draws them: (kind, now, start, end)."""
    found = []
    for (kind, now), line in view.strand.lines.items():
        points = list(zip(*map(list, line.get_data()), strict=True))
        for a, b in pairwise(points):
            if not any(math.isnan(number) for number in (*a, *b)):
                found.append((kind, now, a, b))
    return found


def drawn(stitched):
    PICTURE.update(stitched)
    return legs(PICTURE.above), legs(PICTURE.section)


def expected(stitched):
    """The path's points in both views, worked out afresh: in threads, turns a step apart."""
    path, pitch = stitched.path, stitched.path.advance_mm / stitched.group
    natural = "left to right" if stitched.hand == "right" else "right to left"
    rightward = (stitched.worked or natural) == "left to right"
    onward = 1 if rightward == (stitched.seen == "wrong side") else -1
    above, section = [], []
    for point in path.points:
        inward = point.y_mm / pitch - APART * TURNS.get(point.name, 0)
        above.append((onward * (point.x_mm - path.advance_mm / 2) / pitch, -inward))
        section.append((inward, point.z_mm / pitch))
    return above, section


@FEW
@given(stitched=stitches())
def test_as_many_legs_are_drawn_as_are_worked_and_only_the_last_is_bold(stitched):
    for view in drawn(stitched):
        assert len(view) == stitched.step
        assert sum(now for _, now, _, _ in view) == min(stitched.step, 1)


@FEW
@given(stitched=stitches(step=LAST))
def test_every_leg_runs_between_the_points_of_the_path_but_for_the_turns_side_by_side(stitched):
    for view, points in zip(drawn(stitched), expected(stitched), strict=True):
        found = sorted([*a, *b] for _, _, a, b in view)
        wanted = sorted([*a, *b] for a, b in pairwise(points))
        for one, other in zip(found, wanted, strict=True):
            assert one == pytest.approx(other, abs=1e-9)


def test_turns_round_the_group_are_drawn_apart_and_nothing_else_is():
    stitched = usual()
    moved = [
        point.y_mm / stitched.pitch_mm - y
        for point, (_, y, _) in zip(stitched.path.points, shown_points(stitched.path, 4), strict=True)
    ]
    names = [point.name for point in stitched.path.points]
    once, twice = moved[4], moved[6]
    assert moved == pytest.approx([0, 0, 0, 0, once, once, twice, twice, 0, 0])
    assert len(names) == LAST + 1
    assert names[4:8] == [
        "near side, behind",
        "near side, over",
        "far side, over again",
        "far side, behind again",
    ]
    assert 0.2 < once < twice < 1


@FEW
@given(stitched=stitches(hand="right"), by_hand=st.booleans())
def test_the_left_hand_and_the_other_way_work_in_the_mirror(stitched, by_hand):
    stitched = replace(stitched, worked=None if by_hand else WORKED[0])
    right = drawn(stitched)
    left = drawn(replace(stitched, hand="left") if by_hand else replace(stitched, worked=WORKED[1]))
    assert [(kind, now) for kind, now, _, _ in right[0]] == [(kind, now) for kind, now, _, _ in left[0]]
    for (_, _, a, b), (_, _, c, d) in zip(right[0], left[0], strict=True):
        assert (-a[0], a[1], -b[0], b[1]) == pytest.approx((*c, *d))
    assert right[1] == left[1]


@FEW
@given(stitched=stitches(step=LAST))
def test_what_one_side_shows_the_other_hides(stitched):
    other = SEEN[1 - SEEN.index(stitched.seen)]
    turned = Stitched(
        stitched.path,
        stitched.group,
        stitched.depth,
        stitched.hand,
        LAST,
        other,
        stitched.unit,
        worked=stitched.worked,
    )
    kinds = [leg_kind(a, b) for a, b in pairwise(stitched.path.points)]
    face = any(point.name == "behind the hem" for point in stitched.path.points)
    ends = ["beside", "under", "through"] if face else ["over", "within", "through"]
    assert kinds == ["over", "over", "beside", "under", "beside", "over", *ends]
    for one, hides in ((stitched, stitched.from_wrong), (turned, turned.from_wrong)):
        above, section = drawn(one)
        hidden = {"under" if hides else "over", "through", "within"}
        assert sum(kind == "hidden" for kind, *_ in above) == sum(kind in hidden for kind in kinds)
        assert [kind for kind, *_ in section].count(
            "hidden"
        ) == 2 - face  # where it goes through the hem, or within it
    assert stitched.rightward != turned.rightward


def test_the_right_hand_works_from_left_to_right_on_the_side_that_it_works_on():
    PICTURE.update(usual(hand="right", seen="wrong side"))
    first, last = (float(PICTURE.above.strand.holes.get_xdata()[i]) for i in (0, -1))
    assert (first, last) == pytest.approx((-2, 2))
    PICTURE.update(usual(hand="right", seen="right side"))
    first, last = (float(PICTURE.above.strand.holes.get_xdata()[i]) for i in (0, -1))
    assert (first, last) == pytest.approx((2, -2))


@FEW
@given(stitched=stitches())
def test_the_hem_in_section_has_the_plies_that_the_needle_goes_through(stitched):
    PICTURE.update(stitched)
    plies = [patch for patch in PICTURE.section.plies.values() if patch.get_visible()]
    assert len(plies) == stitched.plies
    top = max(patch.get_y() + patch.get_height() for patch in plies) * stitched.pitch_mm
    assert top == pytest.approx(stitched.path.points[0].z_mm - stitched.half_thread_mm)


@FEW
@given(stitched=stitches())
def test_the_worked_groups_are_drawn_in_to_the_pulled_width_and_the_next_is_not(stitched):
    PICTURE.update(stitched)
    xs, _ = PICTURE.above.threads.get_data()
    lines = [(xs[i], xs[i + 1]) for i in range(0, len(xs), 4)]
    own = [(top, waist) for top, waist in lines if abs(top) < stitched.group / 2]
    kept = stitched.pulled_mm / stitched.path.advance_mm
    assert len(own) == stitched.group
    assert [waist for _, waist in own] == pytest.approx([top * kept for top, _ in own])
    onward = 1 if stitched.rightward else -1
    nexts = [(top, waist) for top, waist in lines if top * onward > stitched.group / 2]
    assert all(top == pytest.approx(waist) for top, waist in nexts)


@FEW
@given(stitched=stitches())
def test_the_words_state_the_steps_number_sentence_and_lengths(stitched, words):
    PICTURE.update(stitched)
    texts = " ".join(word.get_text() for word in words(PICTURE.sheet))
    name = stitched.path.points[stitched.step].name
    assert f"{stitched.step} of {LAST}: {STEPS[name]}" == headline(stitched)
    for said in (headline(stitched), lengths(stitched), stitched.seen):
        assert said in texts
        assert said in stitch_alt(stitched)
    size, unit = (25.4, "in") if stitched.unit == "in" else (1, "mm")
    said = [float(number) for number in re.findall(rf"([\d.]+) {unit}", lengths(stitched))]
    wanted = (
        [stitched.path.length_mm]
        if stitched.step == LAST
        else [
            sum(stitched.path.legs_mm[: stitched.step]),
            stitched.path.length_mm,
        ]
    )
    assert said == pytest.approx([mm / size for mm in wanted], abs=0.051 if size == 1 else 0.0051)


@settings(max_examples=12)
@given(stitched=stitches(), size=st.sampled_from(tuple(TYPE.values())))
# Just as wide as its line: over the band it needs paper all the same.
@example(stitched=Stitched(hem_stitch(6, 1, 0.2, pulled=6, thread=0.05), 6, 1, unit="in"), size=TYPE["page"])
def test_no_word_stands_on_another_or_on_lines_or_leaves_the_sheet(stitched, size, troubles):
    PICTURE.sheet.set_type(size)
    PICTURE.update(stitched)
    try:
        # The section's words stand on paper or beside the cloth; the strand may pass below paper.
        assert troubles(PICTURE.sheet) == []
    finally:
        PICTURE.sheet.set_type(TYPE["page"])


def test_every_point_of_the_path_has_its_sentence_in_order():
    told = [point.name for face in (True, False) for point in hem_stitch(4, 2, 0.5, face=face).points]
    assert set(told) == set(STEPS)
    assert sorted(told[:LAST], key=list(STEPS).index) == told[:LAST]
    for sentence in STEPS.values():
        assert sentence.endswith(".")


def test_a_still_says_what_it_shows():
    still = draw_stitch(usual(amounts=("Each 50 cm sews 37 cm: 6 to 7 lengths.",)))
    assert still.alt.endswith("6 to 7 lengths.")
    assert still.png().startswith(b"\x89PNG")


@for_each(
    ("options", "sentence"),
    [
        ({"hand": "both"}, "hand is 'both', but must be one of 'right', 'left'"),
        ({"seen": "above"}, "seen is 'above', but must be one of 'wrong side', 'right side'"),
        ({"unit": "m"}, "unit is 'm', but must be one of"),
        ({"step": 10}, "step is 10, but must be a whole number, from 0 to 9; for example 3"),
        ({"step": -1}, "step is -1"),
        ({"step": 1.5}, "step is 1.5"),
    ],
)
def test_what_cant_be_shown_is_refused_in_one_sentence(options, sentence):
    with pytest.raises(HemError, match=re.escape(sentence)) as caught:
        usual(**options)
    assert caught.value.about == next(iter(options))
