"""The map of the margin rule, held against the table that it shows."""

from itertools import pairwise

import numpy as np
import pytest
from matplotlib.collections import PatchCollection
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc import HemError, plan_edge, rule_table
from hemcalc.draw.edge.rule_map import draw_rule, rule_alt
from hemcalc.draw.look import TYPE

TABLE = rule_table("28/in", range(1, 25), range(13))


def middles(collection):
    return {tuple((path.vertices[0] + path.vertices[2]) / 2) for path in collection.get_paths()}


def test_each_square_is_striped_where_the_rule_fails_and_plain_where_it_holds():
    (axes,) = draw_rule(TABLE).sheet.figure.axes
    plain, striped = (c for c in axes.collections if isinstance(c, PatchCollection))
    assert (plain.get_hatch() or "") == ""
    assert striped.get_hatch() == "///"
    holding = {(hem, clear) for hem in TABLE.hems for clear in TABLE.clears if TABLE.at(hem, clear).holds}
    assert middles(plain) == holding
    assert middles(striped) == {(h, c) for h in TABLE.hems for c in TABLE.clears} - holding


# The rule is enough exactly when 3 hem / 2 ≥ clear + drawn + handling, turn half the hem. Common
# practice of the trade, no published source; here by the squares that the line parts.
def test_the_line_runs_between_failing_and_holding():
    (axes,) = draw_rule(TABLE).sheet.figure.axes
    (line,) = (artist for artist in axes.lines if isinstance(artist, Line2D))
    for (x, y), (same_x, above) in list(pairwise(line.get_xydata()))[::2]:
        clear = round((y + above) / 2)
        assert x == same_x
        assert not 3 * (x - 0.5) / 2 >= clear + 2
        assert 3 * (x + 0.5) / 2 >= clear + 2


def test_a_line_runs_at_the_edge_of_the_map_where_no_hem_is_enough():
    table = rule_table("28/in", (1, 2, 3), (12,))
    (axes,) = draw_rule(table).sheet.figure.axes
    assert list(axes.lines[0].get_xdata()) == [3.5, 3.5]


@pytest.mark.parametrize("edge", [None, plan_edge("28/in", 7, clear=9)], ids=["no mark", "marked"])
def test_numbers_in_squares_are_the_threads_to_spare(edge, words):
    still = draw_rule(TABLE, edge)
    seen = 0
    for word in words(still.sheet):
        hem, clear = (round(float(place), 6) for place in word.get_position())
        if hem in TABLE.hems and clear in TABLE.clears:
            assert int(word.get_text().replace("−", "-")) == TABLE.at(int(hem), int(clear)).slack
            seen += 1
    assert seen > 20


def test_an_edge_of_ones_own_is_marked_round_its_square():
    edge = plan_edge("28/in", 7, clear=9)
    (axes,) = draw_rule(TABLE, edge).sheet.figure.axes
    (mark,) = (patch for patch in axes.patches if isinstance(patch, Rectangle))
    assert np.allclose(mark.get_xy() + np.array([mark.get_width(), mark.get_height()]) / 2, (7, 9))
    assert mark.get_width() >= 1
    assert mark.get_height() >= 1


def test_an_edge_outside_the_table_is_refused_with_what_it_holds():
    with pytest.raises(HemError, match=r"hem of 30 .* clear band of 8 .* hem of 1 to 24") as raised:
        draw_rule(TABLE, plan_edge("28/in", 30, clear=8))
    assert raised.value.about == "edge"
    with pytest.raises(HemError, match="clear band of 20"):
        draw_rule(TABLE, plan_edge("28/in", 8, clear=20))


def test_the_axes_are_numbered_at_their_threads(words):
    still = draw_rule(TABLE)
    (axes,) = still.sheet.figure.axes
    below, beside = {}, {}
    for word in words(still.sheet):
        x, y = word.get_position()
        if word.get_text().isdigit() and y < axes.get_ylim()[0]:
            below[int(word.get_text())] = x
        if word.get_text().isdigit() and x < axes.get_xlim()[0]:
            beside[int(word.get_text())] = y
    assert len(below) > 5
    assert len(beside) > 5
    assert all(number == place for number, place in (below | beside).items())


@pytest.mark.parametrize("size", TYPE)
@pytest.mark.parametrize(
    ("hems", "clears", "more", "marked"),
    [
        (range(1, 25), range(13), {}, (14, 6)),
        (range(1, 25), range(13), {}, (17, 9)),
        (range(2, 33), range(17), {"drawn": 4, "handling": 8}, None),
        (range(1, 61), range(41), {}, (17, 9)),
        ((1,), (0,), {}, None),
    ],
    ids=["usual", "odd mark", "more", "very many, mark beside a number", "one square"],
)
def test_words_stand_clear(hems, clears, more, marked, size, troubles):
    edge = plan_edge("28/in", marked[0], clear=marked[1]) if marked else None
    assert troubles(draw_rule(rule_table("28/in", hems, clears, **more), edge, size).sheet) == []


def test_the_words_for_those_who_do_not_see_it_state_its_numbers():
    alt = rule_alt(TABLE, plan_edge("28/in", 14, clear=6))
    assert alt == (
        "Where four times the hem is enough, with 2 drawn, turn half the hem, 0 for handling. clear 0: hems "
        "of 2 or more; clear 4: hems of 4 or more; clear 8: hems of 7 or more; clear 12: hems of 10 or more. "
        "Marked: hem 14, clear 6, 13 to spare."
    )
    assert "clear 12: no hem" in rule_alt(rule_table("28/in", (1, 2), (12,)), None)
    assert "hem 4, clear 8, 4 too few" in rule_alt(TABLE, plan_edge("28/in", 4, clear=8))
