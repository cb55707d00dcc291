"""Bounds on a bolt's length, held against every row and every sum that there is."""

import itertools
import sys

from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.bolt.lay.patterns import Demand, Pose, Prices, area_worths, next_length
from hemcalc.bolt.lay.side_by_side import Choice, Rows
from hemcalc.bolt.lay.solver import best_prices, solver_at_hand
from hemcalc.bolt.lay.strips import StripCutter


@st.composite
def demands(draw, most=3):
    """A few sizes, each a few times, some of which may lie either way."""
    wanted = []
    for _ in range(draw(st.integers(1, most))):
        across, down = draw(st.integers(1, 6)), draw(st.integers(1, 6))
        poses = [Pose(across, down)]
        if across != down and draw(st.booleans()):
            poses.append(Pose(down, across, turned=True))
        wanted.append(Demand(tuple(poses), draw(st.integers(1, 3))))
    return wanted


def rows_within(wanted, width):
    """Every row of pieces side by side: how many of each size lying each way, by trying all."""
    places = [(kind, way) for kind, demand in enumerate(wanted) for way in range(len(demand.poses))]
    for counts in itertools.product(*(range(wanted[kind].quantity + 1) for kind, _ in places)):
        row = dict(zip(places, counts, strict=True))
        fits = sum(n * wanted[kind].poses[way].across for (kind, way), n in row.items()) <= width
        enough = all(
            sum(n for (k, _), n in row.items() if k == kind) <= demand.quantity
            for kind, demand in enumerate(wanted)
        )
        if fits and enough:
            yield row


@given(st.data(), demands(), st.integers(6, 12))
def test_the_most_that_lies_side_by_side_is_the_most_of_all_rows(data, wanted, width):
    worths = [[data.draw(st.integers(0, 20)) for _ in demand.poses] for demand in wanted]
    prices = Prices(worths, wanted, width)
    for within in range(width + 1):
        every = max(
            sum(n * worths[kind][way] for (kind, way), n in row.items())
            for row in rows_within(wanted, within)
        )
        assert prices.most(within) == every
    best = {(kind, way): n for kind, way, n in prices.best_pattern}
    assert sum(n * worths[kind][way] for (kind, way), n in best.items()) == prices.most(width)
    assert sum(n * wanted[kind].poses[way].across for (kind, way), n in best.items()) <= width


def test_where_pieces_lie_in_very_many_ways_their_number_is_not_looked_at():
    wanted = [Demand((Pose(1, 2), Pose(2, 1, turned=True)), 90)]
    assert Prices([[1, 3]], wanted, 100).most(100) == 150  # 50 lying across, none left for the rest
    many = [Demand((Pose(1, 2), Pose(2, 1, turned=True)), 49)]
    assert Prices([[1, 3]], many, 100).most(100) == 149  # 49 lying across, and a row of 2 more
    assert Prices([[1, 3]], [Demand(many[0].poses, 20)], 100).most(100) == 60  # few: counted together


@given(demands(most=3), st.integers(0, 40))
def test_the_next_length_is_the_least_sum_of_pieces_one_below_the_other(wanted, length):
    each = [[0, *(pose.down for pose in demand.poses)] for demand in wanted for _ in range(demand.quantity)]
    sums = {sum(choice) for choice in itertools.product(*each)}
    longer = [total for total in sums if total >= length]
    assert next_length(wanted, length) == (min(longer) if longer else length)


def test_lengths_too_fine_for_a_list_of_sums_are_left_as_they_are():
    assert next_length([Demand((Pose(1, 3_000_000),), 2)], 1) == 1


@given(st.data(), st.integers(4, 30))
def test_rows_kept_within_a_number_are_rows_that_can_be_made(data, width):
    groups = [
        [Choice(0, 0), *(Choice(n * size, n * worth, ((kind, 0, n),)) for n in range(1, 5))]
        for kind, (size, worth) in enumerate(
            data.draw(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9)), min_size=1, max_size=4))
        )
    ]
    exact, rough = Rows(groups, width), Rows(groups, width, keep=3)
    assert rough.most(width) <= exact.most(width)
    for rows in (exact, rough):
        sizes = [groups[kind][n] for kind, _, n in rows.best]
        assert sum(choice.across for choice in sizes) <= width
        assert sum(choice.worth for choice in sizes) == rows.most(width)


# Any worths bound any layout: those of areas, and any others. The layout here is a plain stack.
@given(st.data(), demands(), st.integers(6, 12))
def test_whatever_the_worths_no_layout_is_shorter_than_their_bound(data, wanted, width):
    worths = [[data.draw(st.integers(0, 20)) for _ in demand.poses] for demand in wanted]
    prices = Prices(worths, wanted, width)
    many = [demand.quantity for demand in wanted]
    if prices.most(width):
        layout = StripCutter(wanted, width).layout(many, [demand.each for demand in wanted])
        assert prices.shortest(many) <= sum(strip.down for strip in layout)


# 24 pieces 76 wide on 150: one beside another is 152. So each stands alone, 24 x 50 = 1200, by hand.
def test_pieces_more_than_half_as_wide_as_the_bolt_stand_alone():
    alone = [Demand((Pose(76, 50),), 24)]
    assert Prices([[1]], alone, 150).shortest([24]) == 1200
    assert best_prices(alone, 150).shortest([24]) == 1200
    assert -(-24 * 76 * 50 // 150) == 608  # what the area alone would say


# One of 60 and one of 40 lie side by side, two of 60 don't: 10 x 7 for the wide ones, and of the
# narrow ones 10 lie beside them and 2 pairs elsewhere, 70 + 2 x 7 = 84, by hand.
def test_prices_tell_what_the_area_does_not():
    wanted = [Demand((Pose(60, 7),), 10), Demand((Pose(40, 7),), 14)]
    assert Prices(area_worths(wanted), wanted, 119).shortest([10, 14]) < 84
    assert best_prices(wanted, 119).shortest([10, 14]) == 84


@settings(max_examples=15)
@given(demands(), st.integers(6, 12))
def test_the_solver_s_prices_bound_at_least_as_well_as_the_area(wanted, width):
    many = [demand.quantity for demand in wanted]
    by_area = Prices(area_worths(wanted), wanted, width).shortest(many)
    layout = StripCutter(wanted, width).layout(many, [demand.each for demand in wanted])
    assert by_area <= best_prices(wanted, width).shortest(many) <= sum(strip.down for strip in layout)


def test_without_scipy_there_is_no_solver(monkeypatch):
    assert solver_at_hand()
    monkeypatch.setitem(sys.modules, "scipy.optimize", None)
    assert not solver_at_hand()
