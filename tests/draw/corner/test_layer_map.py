"""The map of layers, held against the corner's areas and, cell by cell, against shapely."""

from fractions import Fraction
from itertools import combinations, pairwise
from typing import ClassVar

import pytest
from cases import for_each
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Point, Polygon, unary_union

from hemcalc import HemError, plan_edge
from hemcalc.corner.mitre import CORNER_KINDS, ORDERS, plan_corner
from hemcalc.draw.corner.layer_map import LayerMap, draw_layers, layer_words
from hemcalc.draw.look import LAYERS
from hemcalc.draw.sheet import Sheet

FEW = settings(max_examples=15)
SHEET = Sheet(3.6, 4.6)
MAP = LayerMap(SHEET, (0.02, 0.02, 0.96, 0.96))


@st.composite
def corners(draw, edges):
    kind, order = draw(st.sampled_from(CORNER_KINDS)), draw(st.sampled_from(ORDERS))
    try:
        return plan_corner(draw(edges), draw(edges), corner=kind, order=order)
    except HemError:
        assume(False)


def shown(corner, unit="in"):
    MAP.update(corner, unit)
    return {count: patch for count, patch in MAP.areas.items() if patch.get_visible()}


def shape(patch):
    return unary_union([Polygon(part) for part in patch.get_path().to_polygons(closed_only=True)])


def per_square(corner):
    return float(corner.hems[0] * corner.hems[1]) / float(max(corner.hems)) ** 2


@FEW
@given(data=st.data())
def test_areas_are_those_of_the_corner(edges, data):
    corner = data.draw(corners(edges))
    drawn = shown(corner)
    assert set(drawn) == set(corner.layer_areas)
    for count, patch in drawn.items():
        wanted = float(corner.layer_shares[count]) * per_square(corner)
        assert shape(patch).area == pytest.approx(wanted, abs=1e-6)
        assert (patch.get_hatch() or "") == LAYERS[min(count, 10)].hatch


@FEW
@given(data=st.data())
def test_as_many_layers_as_the_corner_has_at_that_place(edges, data):
    corner = data.draw(corners(edges))
    scale = float(max(corner.hems))
    x, y = (data.draw(st.floats(0.01, 0.99)) * float(hem) / scale for hem in corner.hems)
    inside = [
        count for count, patch in shown(corner).items() if shape(patch).buffer(-1e-6).contains(Point(x, -y))
    ]
    if inside:
        assert inside == [corner.layers(x * scale, y * scale)]


@FEW
@given(data=st.data())
def test_lines_run_where_the_number_changes_and_nowhere_else(edges, data):
    corner = data.draw(corners(edges))
    areas = [shape(patch) for patch in shown(corner).values()]
    lines = unary_union(MultiLineString([LineString(bit) for bit in MAP.borders.get_segments()]))
    wanted = unary_union([area.boundary for area in areas])
    assert lines.difference(wanted.buffer(1e-5)).length < 1e-4
    assert wanted.difference(lines.buffer(1e-5)).length < 1e-4


@FEW
@given(data=st.data())
def test_a_number_stands_in_an_area_of_so_many_layers(edges, data, words):
    corner = data.draw(corners(edges))
    drawn = shown(corner)
    numbers = [word for word in words(SHEET) if word.get_text().isdigit()]
    for word in numbers:
        assert shape(drawn[int(word.get_text())]).contains(Point(word.get_position()))
    boxes = [word.get_window_extent().padded(2 * 100 / 72) for word in numbers]
    assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))
    if per_square(corner) > 0.5:
        assert str(max(corner.layer_shares, key=corner.layer_shares.get)) in [w.get_text() for w in numbers]


@FEW
@given(data=st.data())
def test_words_stand_clear(edges, looks, data, troubles):
    corner, (unit, size) = data.draw(corners(edges)), data.draw(looks)
    assert troubles(draw_layers(corner, unit, size).sheet) == []


@FEW
@given(data=st.data())
def test_one_scale_both_ways(edges, data):
    shown(data.draw(corners(edges)))
    (x0, y0), (x1, y1) = MAP.axes.transData.transform([(0, 0), (1, 1)])
    assert x1 - x0 == pytest.approx(y1 - y0)


# Mitred and trimmed, equal hems: four everywhere. Folded square, nothing cut away, turn of half the
# hem: four, six and nine on a quarter, a half and a quarter. Common practice of the trade, no
# published source; the second follows from folding paper.
def test_words_say_the_shares_most_first():
    edge = plan_edge("28/in", 14, clear=6)
    assert layer_words(plan_corner(edge, edge)) == "4 layers on 100 %"
    uncut = plan_corner(edge, edge, corner="uncut")
    assert layer_words(uncut) == "6 layers on 50 %, 4 layers on 25 %, 9 layers on 25 %"


def test_beyond_a_few_the_rest_is_said_in_one():
    across, down = plan_edge("28/in", 14, clear=6), plan_edge("28/in", 23, clear=8)
    corner = plan_corner(across, down, order="turns first", corner="untrimmed")
    shares = sorted(corner.layer_shares.values(), reverse=True)
    assert len(shares) > 3
    *_, last = layer_words(corner, "\n", most=3).split("\n")
    rest = float(100 * sum(shares[2:], Fraction(0)))
    assert float(last.split(" on ")[1].removesuffix(" %")) == pytest.approx(rest, abs=0.0051)


@for_each(
    ("share", "said"),
    [
        (Fraction(1, 3), "33.33 %"),
        (Fraction(1, 1), "100 %"),
        (Fraction(1, 20000), "0.01 %"),
        (Fraction(1, 20001), "under 0.01 %"),
    ],
)
def test_shares_are_said_to_a_hundredth_and_one_that_is_not_nothing_is_not_said_to_be(share, said):
    class FewLayers:
        layer_shares: ClassVar = {4: share}

    assert layer_words(FewLayers()) == f"4 layers on {said}"


def test_the_map_says_the_hems_it_is_of(words):
    across, down = plan_edge("28/in", 14, clear=6), plan_edge("24/in", 9, clear=6)
    shown(plan_corner(across, down), "in")
    assert any("1/2 in × 3/8 in" in word.get_text() for word in words(SHEET))


def test_more_layers_look_darker_or_are_patterned_in_turn():
    assert all(LAYERS[n] != LAYERS[m] for n, m in pairwise(LAYERS))
