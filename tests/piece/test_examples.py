"""The workshop's invented pieces: they can be planned, and say what notebooks rely on."""

import pytest

import hemcalc.piece.examples
from hemcalc.measure.errors import HemError
from hemcalc.piece.examples import EXAMPLES, example
from hemcalc.piece.sizes import Sides


def test_they_are_said_to_be_invented():
    assert "invented" in hemcalc.piece.examples.__doc__


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_is_planned_all_round(name):
    piece = example(name)
    assert piece is EXAMPLES[name]
    assert all(edge.total > 0 for edge in piece.edges)
    assert [corner.kind for corner in piece.corners] == ["mitred"] * 4
    assert piece.fabric.thickness


# At 32 threads/in a 1/2 in hem is 16 threads, half of it 8; clear 8, two drawn: cut after 50; the rule
# asks 64. Common practice of the trade, no published source.
def test_the_bread_cloth_has_the_usual_hem():
    edge = example("bread cloth").edges.top
    assert (edge.hem, edge.turn, edge.first_drawn, edge.cut) == (16, 8, 9, 50)
    assert (edge.rule.rule, edge.rule.slack) == (64, 14)


# 36 and 34 threads/in, a hem of 3/8 in: 13 1/2 and 12 3/4 threads, rounded half up.
def test_the_sampler_shows_two_counts_in_one_cloth():
    edges = example("sampler").edges
    assert Sides(*(edge.hem for edge in edges)) == Sides(14, 14, 13, 13)


# Hem 4, clear 8, drawn 2, turn 2: 4·4 = 16 against 8 + 2 + 8 + 2 = 20.
def test_the_bookmark_shows_where_the_rule_fails():
    rule = example("bookmark").edges.left.rule
    assert (rule.rule, rule.need, rule.holds) == (16, 20, False)


def test_none_can_be_changed():
    with pytest.raises(TypeError):
        EXAMPLES["bread cloth"] = EXAMPLES["coaster"]


def test_an_unknown_name_is_refused_with_those_there_are():
    with pytest.raises(HemError, match="example is 'tablecloth', but must be one of 'bread cloth'"):
        example("tablecloth")
