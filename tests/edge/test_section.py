"""The section: where the folds land, read off the drawn profile's own points."""

import itertools
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.edge.cloth_path import ClothPath
from hemcalc.edge.ledger import plan_edge
from hemcalc.edge.section import plan_section
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length

MM_PER_THREAD = 25.4 / 28
PROGRESS = (0.0, 0.2, 0.45, 0.5, 0.55, 0.7, 0.85, 0.95, 1.0)


@st.composite
def sections(draw):
    hem = draw(st.integers(2, 24))
    turn = draw(st.integers(0, hem))
    neutral = draw(st.sampled_from((0.3, 0.5, 0.8)))
    edge = plan_edge("28/in", hem, clear=draw(st.integers(0, 8)), drawn=draw(st.integers(1, 4)), turn=turn)
    # Up to nine tenths of what the hem can take, which thickest_mm must know of itself.
    thickest = plan_section(edge, Length(1) / 10**6, neutral=neutral).thickest_mm
    thickness = f"{thickest * draw(st.integers(1, 9)) / 10:.6f} mm"
    return plan_section(edge, thickness, neutral=neutral)


def neutral_line(section, strip):
    """Between wrong and right side, so far from the wrong one as the neutral line lies."""
    share = section.neutral
    return [
        (x + share * (u - x), y + share * (v - y))
        for (x, y), (u, v) in zip(strip.wrong, strip.right, strict=True)
    ]


def length(points):
    return sum(math.dist(a, b) for a, b in itertools.pairwise(points))


def cloth(strip):
    """The strip's own area, from one pair of points across it to the next."""
    pieces = []
    for corners in zip(strip.right, strip.right[1:], strip.wrong, strip.wrong[1:], strict=False):
        piece = shapely.MultiPoint(corners).convex_hull
        if piece.area > 0:
            pieces.append(piece)
    return shapely.unary_union(pieces)


def named(section, progress=1.0):
    return {strip.band: strip for strip in section.profile(progress)}


@given(sections())
def test_the_finished_edge_is_the_farthest_point_of_the_profile(section):
    farthest = max(x for strip in section.profile() for x, _ in strip.right)
    assert section.finished_edge_mm == pytest.approx(farthest)
    hem = section.edge.hem * MM_PER_THREAD
    assert section.finished_off_mm == pytest.approx(farthest - hem)


@given(sections().filter(lambda section: section.edge.turn))
def test_fold_2_lands_where_the_profile_puts_it(section):
    strips = named(section)
    around_fold_2 = [strips["back"], strips["turn"]]
    neutral = min(x for strip in around_fold_2 for x, _ in neutral_line(section, strip))
    outer = min(x for strip in around_fold_2 for x, _ in strip.right)
    assert section.landing_mm == pytest.approx(neutral, abs=1e-9)
    assert section.landing_outer_mm == pytest.approx(-outer, abs=1e-9)


@given(sections().filter(lambda section: not section.edge.turn))
def test_without_a_turn_the_raw_edge_lands_on_the_open_line(section):
    end = neutral_line(section, named(section)["back"])[-1]
    assert end[0] == pytest.approx(section.landing_mm, abs=1e-9) == pytest.approx(0, abs=1e-9)
    assert section.landing_outer_mm == 0


@given(sections())
def test_each_band_keeps_its_length_along_the_neutral_line_however_far_it_is_folded(section):
    for progress in PROGRESS:
        for band, strip in zip(section.edge.bands, section.profile(progress), strict=True):
            assert band.name == strip.band
            if strip.band == "turn" and section.squeezed_mm:
                continue
            # A fold is drawn with 24 chords, shorter than its arc by (π/48)²/6.
            slack = (section.arc_mm + section.fold_1_arc_mm) * (math.pi / 48) ** 2 / 6
            drawn = length(neutral_line(section, strip))
            assert band.threads * MM_PER_THREAD - slack <= drawn + 1e-9
            assert drawn <= band.threads * MM_PER_THREAD + 1e-9


@given(sections())
def test_the_cloth_is_as_thick_as_it_is_at_every_place(section):
    for progress in PROGRESS:
        for strip in section.profile(progress):
            if strip.band == "turn" and section.squeezed_mm:
                continue
            for right, wrong in zip(strip.right, strip.wrong, strict=True):
                assert math.dist(right, wrong) == pytest.approx(section.thickness_mm)


@given(sections())
def test_the_bands_join_without_a_gap(section):
    for progress in PROGRESS:
        for before, after in itertools.pairwise(section.profile(progress)):
            assert before.right[-1] == pytest.approx(after.right[0])
            assert before.wrong[-1] == pytest.approx(after.wrong[0])


@settings(max_examples=12)
@given(sections())
def test_no_two_strips_of_cloth_overlap_however_far_it_is_folded(section):
    for progress in PROGRESS:
        shapes = [cloth(strip) for strip in section.profile(progress)]
        for one, other in itertools.combinations(shapes, 2):
            # What touches along a fold overlaps by the bulge of its chords, no more.
            assert one.intersection(other).area < 0.002 * section.thickness_mm**2


# A turn as wide as the hem was once drawn straight through fold 1 and out beyond the edge.
def test_a_turn_as_wide_as_the_hem_is_squeezed_into_fold_1_and_said_to_be():
    section = plan_section(plan_edge("28/in", 16, clear=8, turn=16), "0.5 mm")
    assert section.squeezed_mm == pytest.approx(math.pi / 4)
    assert section.notes == (
        "The turn reaches 0.79 mm into fold 1, where it is squeezed and adds bulk; "
        "it would lie flat up to 13.7 mm wide.",
    )
    turn = named(section)["turn"]
    assert max(x for x, _ in (*turn.right, *turn.wrong)) < section.finished_edge_mm - 0.4
    # There its right side is pressed together in the middle of the fold.
    middle = (16 * MM_PER_THREAD - section.fold_1_arc_mm / 2, 0.5)
    assert turn.right[-1] == pytest.approx(middle)
    shapes = [cloth(strip) for strip in section.profile()]
    for one, other in itertools.combinations(shapes, 2):
        assert one.intersection(other).area < 0.002 * 0.25


def test_a_turn_of_half_the_hem_lies_flat():
    section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    assert (section.squeezed_mm, section.notes) == (0, ())


def test_flat_cloth_is_one_straight_strip():
    section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    strips = section.profile(0)
    assert [strip.band for strip in strips] == ["clear", "drawn", "face", "back", "turn"]
    for strip in strips:
        assert {round(y, 9) for _, y in strip.right} == {-0.25}
        assert {round(y, 9) for _, y in strip.wrong} == {0.25}
    assert strips[0].right[0][0] == pytest.approx(-10 * MM_PER_THREAD)
    assert strips[-1].right[-1][0] == pytest.approx(40 * MM_PER_THREAD)


def test_the_turn_is_folded_by_half_way_and_the_hem_after_it():
    section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    face, half = named(section, 0.25)["face"], named(section, 0.5)
    assert {y for _, y in face.right} == {-0.25}
    assert max(y for _, y in half["back"].wrong) <= 0.25 + 1e-9
    # The turn lies on the wrong side, right side out, over the back.
    assert half["turn"].right[-1][1] == pytest.approx(0.75)


def test_progress_beyond_its_ends_is_flat_or_finished():
    section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    assert section.profile(-1) == section.profile(0)
    assert section.profile(2) == section.profile(1)


# Section 6 of the model. The path of the cloth gives: short of the line by (π/4 - 1/2) τ, past it by
# (1 - π/4) τ, whatever the radius of fold 1.
@given(sections().filter(lambda section: section.edge.turn and section.neutral == 0.5))
def test_an_even_sheet_lands_0_285_of_its_thickness_short_and_reaches_0_215_past(section):
    assert section.landing_mm / section.thickness_mm == pytest.approx(0.285, abs=0.0005)
    assert section.landing_outer_mm / section.thickness_mm == pytest.approx(0.215, abs=0.0005)
    assert section.landing_mm == pytest.approx((math.pi / 4 - 1 / 2) * section.thickness_mm)


def test_at_28_an_inch_and_half_a_millimetre_it_is_16_and_12_hundredths_of_a_thread():
    section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    assert section.landing_threads == pytest.approx(0.16, abs=0.005)
    assert section.landing_outer_threads == pytest.approx(0.12, abs=0.005)
    assert section.arc_threads == pytest.approx(math.pi / 4 / MM_PER_THREAD)
    assert section.finished_edge_threads == pytest.approx(section.finished_edge_mm / MM_PER_THREAD)
    assert section.finished_off_threads == pytest.approx(section.finished_off_mm / MM_PER_THREAD)


@given(sections(), st.integers(2, 5))
def test_scaling_hem_count_and_thickness_together_scales_every_length(section, factor):
    edge = section.edge
    coarse = plan_edge(
        f"{edge.count.per_inch / factor}/in", edge.hem, clear=edge.clear, drawn=edge.drawn, turn=edge.turn
    )
    larger = plan_section(coarse, section.thickness * factor, neutral=section.neutral)
    for name in ("arc", "landing", "landing_outer", "finished_edge", "finished_off"):
        small, large = getattr(section, f"{name}_mm"), getattr(larger, f"{name}_mm")
        assert large == pytest.approx(small * factor, abs=1e-9)
        threads = getattr(larger, f"{name}_threads")
        assert threads == pytest.approx(getattr(section, f"{name}_threads"), abs=1e-9)


@given(st.integers(1, 24) | st.just(500), st.data())
def test_cloth_too_thick_for_its_hem_is_refused_with_one_that_is_not(hem, data):
    edge = plan_edge("28/in", hem, clear=8, turn=data.draw(st.integers(0, hem)))
    with pytest.raises(HemError) as refused:
        plan_section(edge, "5 m")
    assert refused.value.about == "thickness"
    words = str(refused.value)
    section = plan_section(edge, words.rpartition("for example '")[2].removesuffix("'."))
    # At the most that it takes, the folds use up either the hem between them or the turn.
    most = plan_section(edge, f"{section.thickest_mm * (1 - 1e-6):.12f} mm")
    hem_left = hem * MM_PER_THREAD - (most.fold_1_arc_mm + (most.arc_mm if edge.turn else 0)) / 2
    turn_left = edge.turn * MM_PER_THREAD - most.arc_mm / 2 if edge.turn else math.inf
    assert min(hem_left, turn_left) == pytest.approx(0, abs=2e-6 * hem)
    assert min(hem_left, turn_left) > 0
    # Just under that, and just over.
    plan_section(edge, f"{section.thickest_mm * 0.999:.9f} mm")
    with pytest.raises(HemError, match="folds would use it up"):
        plan_section(edge, f"{section.thickest_mm * 1.001:.9f} mm")


def test_a_fold_too_slight_to_see_is_straight_and_not_infinite():
    section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    points = [point for strip in section.profile(1e-311) for point in (*strip.right, *strip.wrong)]
    assert all(math.isfinite(x) and math.isfinite(y) for x, y in points)


# A half turn is drawn in 24 bits. Cloth behind fold 2 that is longer than the hem bends round fold 1, too.
def test_no_bend_of_the_drawn_cloth_shows_a_corner():
    path = ClothPath(fold_1=(10, 12), fold_2=(20, 21), thickness=0.5, neutral=0.5)
    for end in (19, 25, 30):
        _, outside = path.sides(0, end, hemmed=math.pi, turned=math.pi)
        ways = [
            math.atan2(b[1] - a[1], b[0] - a[0])
            for a, b in itertools.pairwise(outside)
            if math.dist(a, b) > 1e-9
        ]
        turns = [
            (after - before + math.pi) % math.tau - math.pi for before, after in itertools.pairwise(ways)
        ]
        assert max(map(abs, turns)) == pytest.approx(math.pi / 24)
