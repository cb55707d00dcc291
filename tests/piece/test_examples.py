"""The workshop's invented pieces: each unlike the others, and as by hand what the notebooks rely on."""

import math
from fractions import Fraction

import pytest
from cases import for_each

import hemcalc.piece.examples
from hemcalc import EXAMPLES, HemError, Sides, example, piece_spacings


def test_they_are_said_to_be_invented():
    assert "invented" in hemcalc.piece.examples.__doc__


@for_each("name", EXAMPLES)
def test_each_is_planned_all_round(name):
    piece = example(name)
    assert piece is EXAMPLES[name]
    assert all(edge.total > 0 for edge in piece.edges)
    assert [corner.kind for corner in piece.corners] == ["mitred"] * 4
    assert piece.fabric.thickness


# The model of the trade, worked out here a second time, with fractions of an inch or a centimetre:
# counts across and down after the wash, hem, clear of left, right, top and bottom, and handling in
# threads of the cloth in hand. Common practice, no published source.
BY_HAND = {
    "bread cloth": ((29, 27), Fraction(3, 8), (7, 7, 7, 7), (0, 0)),
    "sampler": ((36, 34), Fraction(3, 8), (11, 13, 12, 16), (0, 0)),
    "bookmark": ((28, 28), Fraction(4, 28), (8, 8, 8, 8), (0, 0)),
    "coaster": ((25, 26), Fraction(3, 8), (4, 4, 4, 4), (0, 0)),
    # The weft's shrinkage narrows the cloth, and so raises the count across: 12 / 0.96 and 9 / 0.9.
    # Handling of 6 mm is 7.2 and 5.4 threads in hand, rounded up.
    "tray cloth": ((12 / Fraction(96, 100), 9 / Fraction(9, 10)), Fraction(1), (6, 6, 6, 6), (8, 6)),
    "lavender bag": ((54, 52), Fraction(3, 16), (6, 6, 6, 6), (0, 0)),
}


@for_each("name", EXAMPLES)
def test_every_line_and_size_is_what_a_sum_by_hand_gives(name):
    piece = example(name)
    counts, hem, clear, handling = BY_HAND[name]
    margins, finished = [], []
    for edge, way, bare in zip(piece.edges, (0, 0, 1, 1), clear, strict=True):
        h = math.floor(hem * counts[way] + Fraction(1, 2))
        t = -(-h // 2)
        assert (edge.first_drawn, edge.open_line) == (bare + 1, bare + 2)
        assert (edge.fold_1, edge.fold_2, edge.cut) == (bare + 2 + h, bare + 2 + 2 * h, bare + 2 + 2 * h + t)
        need = bare + 2 + 2 * h + t + handling[way]
        assert (edge.rule.rule, edge.rule.need, edge.rule.slack) == (4 * h, need, 4 * h - need)
        margins.append(max(4 * h, need))
        finished.append(bare + 2 + h)
    (left, right, top, bottom), design = margins, piece.design
    assert piece.cut_size.threads == (design[0] + left + right, design[1] + top + bottom)
    (left, right, top, bottom) = finished
    assert piece.finished_size.threads == (design[0] + left + right, design[1] + top + bottom)


# 29 and 27 threads/in, a hem of 3/8 in: 10 7/8 goes up to 11 and 10 1/8 down to 10; the turns are 6
# and 5, the clear band 7. The mitre of 11/29 in by 10/27 in is not at 45 degrees.
def test_the_first_piece_differs_both_ways_and_its_hem_is_no_whole_number_of_threads():
    piece = next(iter(EXAMPLES.values()))
    assert piece is example("bread cloth")
    left, _, top, _ = piece.edges
    assert (left.hem, left.turn, left.cut, left.rule.rule) == (11, 6, 37, 44)
    assert (top.hem, top.turn, top.cut, top.rule.rule) == (10, 5, 34, 40)
    assert left.rounding.startswith("The hem of 3/8 in is about 10.88 threads, rounded to 11")
    assert top.rounding.startswith("The hem of 3/8 in is about 10.13 threads, rounded to 10")
    assert piece.clear.left not in (left.turn, top.turn)
    assert piece.fabric.washed
    assert not all(corner.angle == pytest.approx(45) for corner in piece.corners)


# Across, 188 + 7 + 7 = 202 threads leave two over from groups of four; down, 230 + 14 = 244 are 61 groups.
def test_its_sides_divide_one_way_and_not_the_other():
    spacings = piece_spacings(example("bread cloth"), 4)
    assert [spacing.off_size for spacing in spacings] == [2, 2, 0, 0]


# Hem 4, clear 8, drawn 2, turn 2: 4·4 = 16 against 8 + 2 + 8 + 2 = 20.
def test_the_bookmark_shows_where_the_rule_fails_and_a_mitre_at_45_degrees():
    piece = example("bookmark")
    assert all((e.rule.rule, e.rule.need, e.rule.holds) == (16, 20, False) for e in piece.edges)
    assert all(corner.angle == pytest.approx(45) for corner in piece.corners)


def test_the_samplers_four_sides_are_all_unlike():
    edges = example("sampler").edges
    assert example("sampler").clear == Sides(11, 13, 12, 16)
    assert len({edge.first_drawn for edge in edges}) == 4
    assert len({edge.cut for edge in edges}) == 4


def test_the_tray_cloth_is_metric_and_unwashed_and_shrinks_unlike_both_ways():
    piece = example("tray cloth")
    assert not piece.fabric.washed
    assert [edge.hem for edge in piece.edges] == [13, 13, 10, 10]  # 12.5 after the wash, and 10
    across, down = (
        1 - after.mm / before.mm
        for before, after in zip(piece.cut_size.before, piece.cut_size.after, strict=True)
    )
    assert (round(float(across), 4), round(float(down), 4)) == (0.04, 0.1)


def test_the_lavender_bag_is_small_and_fine():
    piece = example("lavender bag")
    assert all(50 <= count.per_inch <= 60 for count in (piece.fabric.across, piece.fabric.down))
    assert all(side.inches < 4 for side in piece.finished_size.after)


def test_none_can_be_changed():
    with pytest.raises(TypeError):
        EXAMPLES["bread cloth"] = EXAMPLES["coaster"]


def test_an_unknown_name_is_refused_with_those_there_are():
    with pytest.raises(HemError, match="example is 'tablecloth', but must be one of 'bread cloth'"):
        example("tablecloth")
