"""The section, held against the `Section` that it shows: to scale, and with its length kept."""

import math
import re
from itertools import pairwise

import numpy as np
import pytest
from cases import for_each
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from hemcalc import HemError, plan_edge, plan_section
from hemcalc.draw.edge.profile import SectionProfile, draw_section, section_alt, section_words
from hemcalc.draw.edge.strips import SectionLens, SectionStrips, thickness_threads
from hemcalc.draw.look import BANDS, TYPE
from hemcalc.draw.sheet import Sheet

FEW = settings(max_examples=15)
PROGRESS = st.sampled_from((0.0, 0.25, 0.5, 0.75, 0.9, 1.0)) | st.floats(1e-6, 1)
ACROSS, UP = (-6, 98.5), (-4.6, 28.9)  # as the margin panel has them

SHEET = Sheet(9, 2.9)
PROFILE = SectionProfile(SHEET, (0.01, 0.01, 0.98, 0.98), ACROSS, UP, 0.46)


@st.composite
def sections(draw, edges):
    thickness = draw(st.sampled_from(("0.2 mm", "0.4 mm", "0.7 mm", "1.5 mm")))
    try:
        return plan_section(draw(edges), thickness)
    except HemError:
        assume(False)


def shown(section, progress, unit="in"):
    PROFILE.update(section, progress, unit)
    return PROFILE


def outlines(strips):
    """The bands that are seen, as drawn, each with its right side first."""
    return {name: patch.get_xy()[:-1] for name, patch in strips.bands.items() if patch.get_visible()}


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_every_band_is_drawn_as_the_section_says_in_threads_from_the_design(edges, data, progress):
    section = data.draw(sections(edges))
    edge, per_mm = section.edge, float(section.edge.count.per_mm)
    drawn = outlines(shown(section, progress).strips)
    strips = section.profile(progress)
    assert list(drawn) == [strip.band for strip in strips]
    for strip in strips:
        wanted = [
            (edge.open_line + x * per_mm, y * per_mm) for x, y in [*strip.right, *reversed(strip.wrong)]
        ]
        assert np.allclose(drawn[strip.band], wanted)


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_folding_keeps_the_length_and_the_area_of_every_band(edges, data, progress):
    section = data.draw(sections(edges))
    # A turn that reaches into fold 1 is pressed thin there; tests/edge/test_section.py has that case.
    room = float(section.edge.hem_width.mm) - section.fold_1_arc_mm / 2
    assume(float(section.edge.turn_width.mm) <= room)
    thick = thickness_threads(section)
    for name, outline in outlines(shown(section, progress).strips).items():
        threads = {band.name: band.threads for band in section.edge.bands}[name]
        half = len(outline) // 2
        middle = [
            ((x + u) / 2, (y + v) / 2)
            for (x, y), (u, v) in zip(outline[:half], outline[half:][::-1], strict=True)
        ]
        assert LineString(middle).length == pytest.approx(threads, rel=0.01)
        # By strips between two stations, since a tight fold may lie on itself.
        quads = zip(pairwise(outline[:half]), pairwise(outline[half:][::-1]), strict=True)
        area = sum(Polygon((a, b, d, c)).area for (a, b), (c, d) in quads)
        assert area == pytest.approx(threads * thick, rel=0.01)


@FEW
@given(data=st.data())
def test_flat_it_lies_under_the_ruler_of_threads(edges, data):
    section = data.draw(sections(edges))
    drawn, thick = outlines(shown(section, 0).strips), thickness_threads(section)
    for band in section.edge.bands:
        xs, ys = zip(*drawn[band.name], strict=True)
        assert (min(xs), max(xs)) == pytest.approx((band.first - 1, band.last))
        assert (min(ys), max(ys)) == pytest.approx((-thick / 2, thick / 2))


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_the_bold_line_follows_the_right_side_but_not_where_threads_are_drawn(edges, data, progress):
    section = data.draw(sections(edges))
    profile = shown(section, progress)
    bold = [(x, y) for x, y in profile.strips.right_side.get_xydata() if not math.isnan(x)]
    wanted = [
        tuple(point)
        for name, outline in outlines(profile.strips).items()
        if name != "drawn"
        for point in outline[: len(outline) // 2]
    ]
    assert np.allclose(bold, wanted)


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_one_scale_both_ways_and_limits_that_stay(edges, data, progress):
    axes = shown(data.draw(sections(edges)), progress).axes
    (x0, y0), (x1, y1) = axes.transData.transform([(0, 0), (1, 1)])
    assert x1 - x0 == pytest.approx(y1 - y0)
    assert axes.get_xlim() == pytest.approx(ACROSS)


def test_bands_look_as_they_do_in_the_ruler():
    for name, patch in PROFILE.strips.bands.items():
        assert patch.get_hatch() == BANDS[name].hatch


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_guides_stand_at_the_open_line_and_fold_1_and_are_named(edges, data, progress, words):
    section = data.draw(sections(edges))
    profile = shown(section, progress)
    edge = section.edge
    xs = [x for x in profile.strips.guides.get_xdata() if not math.isnan(x)]
    assert xs == [edge.open_line, edge.open_line, edge.fold_1, edge.fold_1]
    leaders = profile.leaders.get_xdata()
    assert [leaders[0], leaders[3]] == [edge.open_line, edge.fold_1]
    named = {word.get_text(): word.get_position()[0] for word in words(SHEET)}
    assert [leaders[1], leaders[4]] == [named["open line"], named["fold 1"]]


@FEW
@given(data=st.data())
def test_folded_it_gives_the_ledgers_width_and_the_three_numbers(edges, looks, data, words):
    section, (unit, _) = data.draw(sections(edges)), data.draw(looks)
    profile = shown(section, 1, unit)
    texts = [word.get_text() for word in words(SHEET)]
    assert f"ledger: {section.edge.hem_width.text(unit)}" in texts
    tips = [path.vertices[0][0] for path in profile.dimensions.heads.get_paths()]
    assert tips == [section.edge.open_line, section.edge.fold_1]
    together = " ".join(texts)
    assert f"{section.arc_mm:.2f} mm ({section.arc_threads:.2f} thread" in together
    assert f"{abs(section.finished_off_mm):.2f} mm ({abs(section.finished_off_threads):.2f}" in together
    lands = f"neutral line {section.landing_mm:.2f} mm ({section.landing_threads:.2f}" in together
    past = f"outer face {section.landing_outer_mm:.2f} mm ({section.landing_outer_threads:.2f}" in together
    assert lands == past == bool(section.edge.turn)


def test_without_a_turn_no_fold_2_is_spoken_of():
    section = plan_section(plan_edge("28/in", 12, clear=4, turn=0), "0.5 mm")
    assert not re.search("fold 2", " ".join(section_words(section)))
    assert "the raw edge lands on the open line's outer edge" in section_alt(section, 1, "in")


@FEW
@given(data=st.data(), progress=st.floats(1e-6, 0.99))
def test_names_stand_by_their_bands_on_the_right_side_where_nothing_folds(edges, data, progress, words):
    section = data.draw(sections(edges))
    strips = outlines(shown(section, progress).strips)
    for word in words(SHEET):
        name, place = word.get_text(), word.get_position()
        if name in strips:
            half = len(strips[name]) // 2
            to_right = LineString(strips[name][:half]).distance(LineString([place, place]))
            to_wrong = LineString(strips[name][half:]).distance(LineString([place, place]))
            assert to_right < to_wrong
            assert to_right < 6


@settings(max_examples=15)
@given(data=st.data(), progress=PROGRESS)
def test_words_stand_clear_whatever_the_sliders_say(edges, looks, data, progress, troubles):
    section, (unit, size) = data.draw(sections(edges)), data.draw(looks)
    SHEET.set_type(TYPE[size])
    shown(section, progress, unit)
    assert troubles(SHEET) == []


@for_each("size", TYPE)
@for_each("progress", [0, 0.3, 1])
@for_each(
    "section",
    [
        plan_section(plan_edge("28/in", "1/2 in", clear=6), "0.4 mm"),
        plan_section(plan_edge("50/in", 24, clear=0, drawn=1, turn=24), "1.5 mm"),
        plan_section(plan_edge("10/in", 1, clear=0, drawn=1, turn=0), "0.6 mm"),
    ],
)
def test_words_stand_clear_in_finished_figures(section, progress, size, troubles):
    assert troubles(draw_section(section, progress, "cm", size).sheet) == []


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_all_of_the_cloth_is_on_the_sheet(edges, data, progress):
    still = draw_section(data.draw(sections(edges)), progress)
    (axes,) = still.sheet.figure.axes
    (left, right), (bottom, top) = axes.get_xlim(), axes.get_ylim()
    for patch in axes.patches:
        if patch.get_visible():
            xs, ys = zip(*patch.get_xy(), strict=True)
            assert left <= min(xs)
            assert max(xs) <= right
            assert bottom <= min(ys)
            assert max(ys) <= top


@FEW
@given(data=st.data(), progress=PROGRESS)
def test_the_words_for_those_who_do_not_see_it_state_its_numbers(edges, looks, data, progress):
    section, (unit, _) = data.draw(sections(edges)), data.draw(looks)
    alt, edge = section_alt(section, progress, unit), section.edge
    threads = "1 thread" if edge.hem == 1 else f"{edge.hem} threads"
    said = [section.thickness.text("mm"), f"hem of {threads} ({edge.hem_width.text(unit)})"]
    said.append(f"turn of {edge.turn}")
    if progress >= 1:
        said += [f"{section.arc_mm:.2f} mm", f"{abs(section.finished_off_mm):.2f} mm"]
        said.append("narrower" if section.finished_off_mm <= 0 else "wider")
    else:
        said.append("flat" if progress <= 0 else f"{progress:.0%}")
    assert all(number in alt for number in said)


# The lens


def lens():
    sheet = Sheet(9, 5)
    beside = SectionStrips(sheet, (0.01, 0.01, 0.98, 0.5), ACROSS, UP)
    return sheet, beside, SectionLens(sheet, (0.46, 0.6, 0.5, 0.2), beside.axes)


@FEW
@given(data=st.data())
def test_the_lens_draws_as_much_larger_as_it_says_and_shows_the_open_line(edges, data, words):
    section = data.draw(sections(edges))
    sheet, beside, close = lens()
    close.update(section, 1)
    seen = words(sheet)
    if not seen:
        assert not outlines(close.strips)
        assert thickness_threads(section) > 1  # cloth so thick that the section shows it as well
        return
    top = max(close.strips.guides.get_ydata()[:2])
    assert sheet.points(close.axes)[1] * 3 < seen[0].get_position()[1] - top  # no line runs into the words
    times = int(re.search(r"drawn (\d) times as large", seen[0].get_text())[1])
    for here, there in zip(sheet.points(close.axes), sheet.points(beside.axes), strict=True):
        assert there / here == pytest.approx(times)
    left, right = close.axes.get_xlim()
    bottom, top = close.axes.get_ylim()
    assert left < section.edge.open_line < right
    ys = [y for outline in outlines(close.strips).values() for _, y in outline]
    assert bottom < min(ys)
    assert max(ys) < top


def test_the_lens_hides_until_the_hem_is_folded(words):
    sheet, _, close = lens()
    section = plan_section(plan_edge("28/in", 14, clear=6), "0.4 mm")
    close.update(section, 1)
    assert words(sheet)
    close.update(section, 0.99)
    assert not words(sheet)
    assert not any(artist.get_visible() for artist in (*close.axes.lines, *close.axes.patches))
