"""The corner from above, held against the `Corner` that it shows."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hemcalc import HemError, Length, plan_edge
from hemcalc.corner.basting import basted_lines
from hemcalc.corner.mitre import CORNER_KINDS, ORDERS, plan_corner
from hemcalc.draw.corner.layer_map import LayerMap
from hemcalc.draw.corner.mitre import CornerMitre, corner_alt, draw_corner, landing_words
from hemcalc.draw.look import CLOTH_SIDES, TYPE
from hemcalc.draw.sheet import Sheet

FEW = settings(max_examples=15)
PROGRESS = st.sampled_from((0.0, 0.2, 0.25, 0.4, 0.5, 0.6, 0.75, 1.0)) | st.floats(1e-6, 1)

SHEET = Sheet(9, 4.8)
MITRE = CornerMitre(SHEET, (0.01, 0.01, 0.62, 0.98))
LAYERS = LayerMap(SHEET, (0.66, 0.05, 0.33, 0.92))


@st.composite
def corners(draw, edges):
    """Any corner that the sliders of the panel can ask for."""
    across = draw(edges)
    down = draw(st.just(across) | edges)
    kind = draw(st.sampled_from(CORNER_KINDS))
    allowance = (
        draw(st.sampled_from((None, "1/8 in", "3 mm", "1 cm"))) if kind in ("mitred", "square") else None
    )
    try:
        return plan_corner(
            across, down, corner=kind, allowance=allowance, order=draw(st.sampled_from(ORDERS))
        )
    except HemError:
        assume(False)


def shown(corner, progress, unit="in"):
    """The view, which has shown other corners before, so that nothing of them may stay."""
    MITRE.update(corner, progress, unit)
    return MITRE


def down(points):
    """On the page, where up is positive."""
    return np.array([(float(x), -float(y)) for x, y in points])


def same_shape(one, other):
    """Whether two outlines are one, wherever they begin."""
    one, other = np.asarray(one), np.asarray(other)
    return one.shape == other.shape and any(np.allclose(np.roll(one, i, 0), other) for i in range(len(one)))


@settings(max_examples=20)
@given(data=st.data(), progress=PROGRESS)
def test_every_ply_is_drawn_as_it_lies_with_the_look_of_its_side(edges, data, progress):
    corner = data.draw(corners(edges))
    mitre = shown(corner, progress)
    plies = corner.folded(progress)
    drawn = [patch for patch in mitre.plies if patch.get_visible()]
    assert len(drawn) == len(plies)
    for patch, ply in zip(drawn, plies, strict=True):
        outline = patch.get_xy()
        if len(outline) > len(ply.shape):  # closed; a ply that stands on edge ends where it begins
            outline = outline[:-1]
        assert same_shape(outline, down(ply.shape))
        look = CLOTH_SIDES["right" if ply.right_side_up else "wrong"]
        assert (patch.get_hatch() or "") == look.hatch


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_the_open_lines_run_along_the_work_as_wide_as_their_threads(edges, data, progress):
    corner = data.draw(corners(edges))
    level, upright = (
        shown(corner, progress).open_lines[1].get_xy(),
        shown(corner, progress).open_lines[0].get_xy(),
    )
    wide = [float(edge.width(edge.drawn).mm) for edge in (corner.across, corner.down)]
    assert (upright[:, 0].min(), upright[:, 0].max()) == pytest.approx((-wide[0], 0))
    assert (level[:, 1].min(), level[:, 1].max()) == pytest.approx((0, wide[1]))


@FEW
@given(data=st.data())
def test_flat_it_shows_trim_and_corner_fold_where_the_results_have_them(edges, data):
    corner = data.draw(corners(edges))
    mitre = shown(corner, 0)
    for line, points in ((mitre.trim, corner.trim), (mitre.fold, corner.corner_fold)):
        wanted = down(points) if points else np.empty((0, 2))
        assert np.allclose(line.get_xydata(), wanted)


@FEW
@given(data=st.data())
def test_folded_the_seam_runs_from_the_open_square_to_the_finished_corner(edges, data):
    corner = data.draw(corners(edges))
    seam = shown(corner, 1).fold.get_xydata()
    if corner.is_mitred:
        hx, hy = corner.hems
        assert np.allclose(seam, down([(0, 0), (hx, hy)]))
        assert math.dist(*seam) == pytest.approx(corner.seam_mm)
        assert math.degrees(math.atan2(-seam[1][1], seam[1][0])) == pytest.approx(corner.angle)
    else:
        assert not len(seam)
    assert not len(MITRE.trim.get_xydata())


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_basted_lines_lie_where_they_are_carried_until_the_hems_come_over(edges, data, progress):
    corner = data.draw(corners(edges))
    segments = shown(corner, progress).basted.get_segments()
    if progress > 0 and corner.folding(progress).startswith("hem"):
        assert segments == []
    else:
        wanted = [down((line.start, line.end)) for line in basted_lines(corner, progress)]
        assert len(segments) == len(wanted)
        assert all(np.allclose(segment, line) for segment, line in zip(segments, wanted, strict=True))


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_marks_show_where_the_folded_lines_meet_their_partners(edges, data, progress):
    corner = data.draw(corners(edges))
    marks = shown(corner, progress).marks.get_xydata()
    folded = corner.is_mitred and corner.order == "corner first" and progress >= 1 / len(corner.folds)
    if folded and not corner.folding(progress).startswith("hem"):
        wanted = [mark.meets for mark in corner.landings if mark.line != "cut" and mark.meets]
        assert np.allclose(marks, down(wanted))
    else:
        assert not len(marks)


# For equal hems fold 1 lies on fold 1, from the finished corner on, and fold 2 on the open line.
# Common practice of the trade, no published source.
def test_marks_of_equal_hems_are_on_the_corner_of_the_hem_and_on_the_open_lines():
    edge = plan_edge("28/in", "1/2 in", clear=6)
    marks = shown(plan_corner(edge, edge), 0.2).marks.get_xydata()
    assert {tuple(mark) for mark in marks} == {(12.7, -12.7), (25.4, 0), (0, -25.4)}


@FEW
@given(data=st.data(), state=st.sampled_from((0, 1)))
def test_dimensions_measure_the_two_hems_and_say_them_in_the_unit(edges, looks, data, state, words):
    corner, (unit, _) = data.draw(corners(edges)), data.draw(looks)
    heads = [path.vertices[0] for path in shown(corner, state, unit).dimensions.heads.get_paths()]
    hx, hy = (float(hem) for hem in corner.hems)
    assert [heads[0][0], heads[1][0]] == pytest.approx([0, hx])
    assert sorted(-y for _, y in heads[2:]) == pytest.approx([0, hy])
    texts = [word.get_text() for word in words(SHEET)]
    assert corner.across.hem_width.text(unit) in texts
    assert corner.down.hem_width.text(unit) in texts


@FEW
@given(data=st.data())
def test_the_flat_lines_are_named_with_leaders_to_their_ends(edges, data, words):
    corner = data.draw(corners(edges))
    ends = shown(corner, 0).leaders.get_xydata()[::3]
    names = {word.get_text() for word in words(SHEET)}
    assert {"fold 1", "fold 2", "cut"} <= names
    (side,) = (word for word in words(SHEET) if word.get_text() == "wrong side\nup (dotted)")
    raw = MITRE.axes.transData.transform((float(corner.raw_corner[0]), 0))[0]
    assert 0 < side.get_window_extent().x0 - raw < 40  # pixels: beside the cloth it is said of
    assert ("trim" in names) == (corner.trim is not None)
    assert ("corner fold" in names) == corner.is_mitred
    if corner.trim is not None:
        x, y = down(corner.trim)[-1]
        assert any(np.allclose(end, (x, max(y, MITRE.axes.get_ylim()[0]))) for end in ends)
    for name in ("fold 1", "fold 2"):
        reach = [
            p
            for line in basted_lines(corner, 0)
            if (line.name, line.side) == (name, "down")
            for p in (line.start, line.end)
        ]
        x, y = max(reach)
        assert any(np.allclose(end, (float(x), -float(y))) for end in ends)


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_one_scale_both_ways_and_the_cloth_fills_the_picture(edges, data, progress):
    corner = data.draw(corners(edges))
    axes = shown(corner, progress).axes
    (x0, y0), (x1, y1) = axes.transData.transform([(0, 0), (1, 1)])
    assert x1 - x0 == pytest.approx(y1 - y0)
    reach = max(max(point) for ply in corner.folded(progress) for point in ply.shape)
    (_, right), (bottom, top) = axes.get_xlim(), axes.get_ylim()
    assert reach <= right
    assert -reach >= bottom
    # Flat or folded, from the corner inward and outward it takes most of the height.
    assert (reach + top) / (top - bottom) > (0.6 if SHEET.type.name == "projector" else 0.7)


def test_the_bar_is_as_long_as_it_says(words):
    corner = plan_corner(plan_edge("28/in", "1/2 in", clear=6), plan_edge("28/in", "1/2 in", clear=6))
    SHEET.set_type(TYPE["page"])
    for progress, unit, said in (
        (0, "in", "1/4 in"),
        (1, "in", "1/8 in"),
        (1, "mm", "2 mm"),
        (0, "cm", "0.5 cm"),
    ):
        bar = shown(corner, progress, unit).scale.bar.get_xdata()[:2]
        assert said in [word.get_text() for word in words(SHEET)]
        assert bar[1] - bar[0] == pytest.approx(float(Length(said).mm))


@settings(max_examples=15)
@given(data=st.data(), progress=PROGRESS)
def test_words_stand_clear_whatever_the_sliders_say(edges, looks, data, progress, troubles):
    corner, (unit, size) = data.draw(corners(edges)), data.draw(looks)
    SHEET.set_type(TYPE[size])
    shown(corner, progress, unit)
    LAYERS.update(corner, unit)
    assert troubles(SHEET) == []


@pytest.mark.parametrize("size", TYPE)
@pytest.mark.parametrize("progress", [0, 0.2, 1])
@pytest.mark.parametrize("hems", [(14, 14), (1, 24), (24, 2)], ids=["equal", "narrow across", "narrow down"])
def test_words_stand_clear_in_finished_figures(hems, progress, size, troubles):
    across, down = (plan_edge("28/in", hem, clear=6) for hem in hems)
    assert troubles(draw_corner(plan_corner(across, down), progress, "cm", size).sheet) == []


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_the_words_for_those_who_do_not_see_it_state_its_numbers(edges, looks, data, progress):
    corner, (unit, _) = data.draw(corners(edges)), data.draw(looks)
    alt = corner_alt(corner, progress, unit)
    said = ["An un" if corner.kind.startswith("un") else f"A {corner.kind}"]
    said += [f"{corner.kind} corner", corner.across.hem_width.text(unit), corner.down.hem_width.text(unit)]
    said += [f"{count} layer" for count in corner.layer_areas]
    if corner.is_mitred and corner.order == "corner first":
        said.append(f"{corner.angle:.1f}°")
    if corner.trim is not None:
        said += [
            Length(round(leg * 1000) * Length(1).mm / 1000).text("mm")
            for leg in corner.legs_mm
            if unit == "mm"
        ]
    said.append("flat" if progress <= 0 else "folded" if progress >= 1 else "fold")
    assert all(number in alt for number in said)


# 6 : 4 threads: fold 1 lands 2.50 threads off at the open line, fold 2 5.00, at 33.69°. A trimmed and
# folded corner just touches the open square. Common practice of the trade, no published source.
def test_landing_of_unequal_hems_is_said_in_threads():
    corner = plan_corner(plan_edge("28/in", 6, clear=6), plan_edge("28/in", 4, clear=6))
    said = " / ".join(landing_words(corner, "mm"))
    assert "mitre at 33.7°" in said
    assert "fold 1 lands 2.50 threads off, fold 2 by 5.00" in said
    assert "just touches the crossing of the open lines" in said


def test_a_closer_trim_is_said_to_land_short():
    edge = plan_edge("28/in", "1/2 in", clear=6)
    corner = plan_corner(edge, edge, allowance="1/4 in")
    # 1/2 in · √2 - 1/4 in = 11.611 mm
    assert "the trimmed edge lands ≈ 11.6 mm short of" in " / ".join(landing_words(corner, "mm"))


def test_landing_is_said_once_the_corner_is_folded_and_not_before(words):
    edge = plan_edge("28/in", "1/2 in", clear=6)
    corner = plan_corner(edge, edge)
    said = landing_words(corner, "in")
    for progress, told in ((0.1, False), (0.2, True), (0.5, True), (1, True)):
        shown(corner, progress)
        texts = [word.get_text() for word in words(SHEET)]
        assert all((line in texts) == told for line in said)
