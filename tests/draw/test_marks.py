"""Labels that keep clear of each other, and dimension lines as in technical drawing."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize

from hemcalc.draw.look import TYPE
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels, spread
from hemcalc.draw.sheet import Sheet


@pytest.fixture
def sheet():
    return Sheet(5, 3)


@pytest.fixture
def axes(sheet):
    return sheet.axes((0, 0, 1, 1), (0, 100), (0, 60))


@st.composite
def rows(draw):
    """Things in a row for which there is room: their places and sizes, first and last."""
    many = draw(st.integers(1, 6))
    sizes = draw(st.lists(st.floats(1, 12), min_size=many, max_size=many))
    places = sorted(draw(st.lists(st.floats(-10, 90), min_size=many, max_size=many)))
    return places, sizes, 0.0, sum(sizes) + draw(st.floats(0, 40))


@given(rows())
def test_what_is_spread_neither_overlaps_nor_leaves_the_limits(row):
    places, sizes, first, last = row
    middles = spread(places, sizes, first, last)
    left = [middle - size / 2 for middle, size in zip(middles, sizes, strict=True)]
    right = [middle + size / 2 for middle, size in zip(middles, sizes, strict=True)]
    assert left[0] >= first - 1e-9
    assert right[-1] <= last + 1e-9
    assert all(a <= b + 1e-9 for a, b in zip(right, left[1:], strict=False))


@given(rows())
def test_what_is_spread_stays_as_near_to_its_place_as_it_can(row):
    places, sizes, first, last = row
    gaps = [(a + b) / 2 for a, b in pairwise(sizes)]
    limits = [{"type": "ineq", "fun": lambda x: x[0] - first - sizes[0] / 2}]
    limits += [{"type": "ineq", "fun": lambda x: last - sizes[-1] / 2 - x[-1]}]
    limits += [{"type": "ineq", "fun": lambda x, i=i: x[i + 1] - x[i] - gaps[i]} for i in range(len(gaps))]
    best = minimize(lambda x: ((x - np.array(places)) ** 2).sum(), places, constraints=limits, method="SLSQP")
    ours = ((np.array(spread(places, sizes, first, last)) - np.array(places)) ** 2).sum()
    assert ours <= best.fun + 1e-3 * (1 + abs(best.fun))


def test_without_room_for_all_the_order_is_kept_and_none_overlap():
    assert spread([5, 5, 5], [4, 4, 4], 0, 10) == [2, 6, 10]


def test_nothing_is_spread_to_nothing():
    assert spread([], [], 0, 10) == []


def test_labels_show_what_is_asked_and_hide_the_rest(sheet, axes, words):
    labels = Labels(sheet, axes, 3)
    labels.show([Label(10, 20, "one"), Label(30, 40, "two", "left", "top", bold=True, small=True)])
    one, two = words(sheet)
    assert (one.get_text(), one.get_position(), one.get_fontsize()) == ("one", (10, 20), TYPE["page"].text)
    assert (two.get_text(), two.get_position(), two.get_fontsize()) == ("two", (30, 40), TYPE["page"].small)
    assert (two.get_horizontalalignment(), two.get_verticalalignment()) == ("left", "top")
    assert (one.get_fontweight(), two.get_fontweight()) == ("normal", "bold")
    labels.show([Label(1, 2, "three")])
    assert [word.get_text() for word in words(sheet)] == ["three"]


def test_more_labels_than_are_kept_are_an_error_and_not_left_out(sheet, axes):
    with pytest.raises(ValueError, match="3 labels, but only 2"):
        Labels(sheet, axes, 2).show([Label(0, 0, text) for text in "abc"])


def test_a_label_takes_the_type_of_the_sheet_when_it_changes(sheet, axes, words):
    labels = Labels(sheet, axes, 1)
    labels.show([Label(0, 0, "one")])
    sheet.set_type(TYPE["projector"])
    labels.show([Label(0, 0, "one")])
    assert words(sheet)[0].get_fontsize() == TYPE["projector"].text


def test_a_row_of_labels_keeps_clear_and_on_the_axes(sheet, axes, troubles):
    labels = Labels(sheet, axes, 6)
    row = [Label(x, 30, f"label {x}") for x in (-3, 0, 1, 2, 3, 99)]
    placed = labels.in_row(row, 0, 100)
    labels.show(placed)
    assert troubles(sheet) == []
    assert [label.text for label in placed] == [label.text for label in row]
    labels.show(row)
    assert troubles(sheet) != []


def test_a_column_of_labels_keeps_clear_and_on_the_axes(sheet, axes, troubles):
    labels = Labels(sheet, axes, 4)
    labels.show(labels.in_column([Label(50, y, f"label {y}") for y in (-3, 0, 1, 60)], 0, 60))
    assert troubles(sheet) == []


def test_apart_leaves_out_what_would_cover_an_earlier_label(sheet, axes):
    labels = Labels(sheet, axes, 4)
    first, near, far = Label(50, 30, "first"), Label(52, 31, "near"), Label(90, 30, "far")
    assert labels.apart([first, near, far]) == [first, far]


# A dimension line


def parts(sheet, axes, dimension):
    """The line itself, its two extension lines, its arrowheads and its text, as drawn."""
    dimensions = Dimensions(sheet, axes, 1)
    dimensions.show([dimension])
    line, *extensions = (segment.tolist() for segment in dimensions.lines.get_segments())
    heads = [path.vertices for path in dimensions.heads.get_paths()]
    return line, extensions, heads


def test_a_long_dimension_has_its_arrows_inside_and_its_text_above_the_middle(sheet, axes, words):
    line, _, heads = parts(sheet, axes, Dimension(20, 80, 10, 30, "60 threads"))
    assert line == [[20, 10], [80, 10]]
    assert heads[0][0].tolist() == [20, 10]
    assert heads[1][0].tolist() == [80, 10]
    assert heads[0][1][0] > 20
    assert heads[1][1][0] < 80
    (word,) = words(sheet)
    assert word.get_text() == "60 threads"
    assert word.get_position()[0] == 50
    assert word.get_position()[1] > 10


def test_extension_lines_leave_a_gap_at_the_object_and_run_a_little_past(sheet, axes):
    _, extensions, _ = parts(sheet, axes, Dimension(20, 80, 10, 30, "60 threads"))
    for (x, near), (same_x, past) in extensions:
        assert x == same_x
        assert 30 > near > 25
        assert 10 > past > 5
    assert [extension[0][0] for extension in extensions] == [20, 80]


def test_a_short_dimension_flips_its_arrows_out_and_puts_its_text_past_the_end(sheet, axes, words, troubles):
    line, _, heads = parts(sheet, axes, Dimension(20, 22, 10, 30, "2 threads"))
    assert line[0][0] < 20
    assert line[1][0] > 22
    assert heads[0][1][0] < 20
    assert heads[1][1][0] > 22
    assert words(sheet)[0].get_position()[0] > line[1][0]
    assert troubles(sheet) == []


def test_a_text_wider_than_its_dimension_does_not_cross_the_extension_lines(sheet, axes, troubles):
    parts(sheet, axes, Dimension(20, 32, 10, 30, "a rather long text for 12 threads"))
    assert troubles(sheet) == []


def test_above_its_object_a_wide_text_stays_over_the_middle(sheet, axes, words, troubles):
    parts(sheet, axes, Dimension(40, 52, 30, 20, "a rather long text for 12 threads"))
    assert words(sheet)[0].get_position()[0] == 46
    assert troubles(sheet) == []


def test_an_upright_dimension_is_measured_along_y(sheet, axes, words):
    line, extensions, heads = parts(sheet, axes, Dimension(10, 50, 20, 30, "40", upright=True))
    assert line == [[20, 10], [20, 50]]
    assert [extension[0][1] for extension in extensions] == [10, 50]
    assert heads[0][0].tolist() == [20, 10]
    assert words(sheet)[0].get_position()[1] == 30


def test_arrowheads_are_as_large_on_paper_whatever_the_axes_measure(sheet):
    def long_and_wide(limits):
        axes = sheet.axes((0, 0, 1, 1), *limits)
        span = limits[0][1]
        _, _, heads = parts(sheet, axes, Dimension(0.1 * span, 0.9 * span, 0.5 * limits[1][1], 0, "x"))
        (tip, one, two), point = heads[0][:3], sheet.points(axes)
        return (one[0] - tip[0]) / point[0], (one[1] - two[1]) / point[1]

    coarse, fine = long_and_wide(((0, 10), (0, 600))), long_and_wide(((0, 1000), (0, 6)))
    assert coarse == pytest.approx(fine)
    assert math.isclose(coarse[0], 7)
