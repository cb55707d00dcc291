"""Lengths that may be one number of threads or the next, and the places that would tell."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import Count, Fabric, HemError, Length, Piece, plan_edge
from hemcalc.measure.doubt import MAX_MORE, Doubt, doubt_about
from hemcalc.measure.exact import half_up

READINGS = st.lists(st.integers(40, 60), min_size=1, max_size=6)
HEMS = st.integers(30, 200).map(lambda n: Length(Fraction(n, 10)))


def could_be(count, error, hem):
    """Whole threads that the hem may be nearest to, each end worked out the long way round."""
    ends = (float(count.per_mm) * (1 + sign * float(error)) * float(hem.mm) for sign in (-1, 1))
    return tuple(half_up(Fraction(end)) for end in ends)


@given(READINGS, HEMS)
def test_there_is_a_doubt_exactly_if_the_ends_of_what_it_may_be_differ(readings, hem):
    count = Count.measured(readings, over="2 in")
    fewest, most = could_be(count, count.error, hem)
    doubt = doubt_about(count, hem)
    if fewest == most:
        assert doubt is None
    else:
        assert (doubt.fewest, doubt.most) == (fewest, most)


@given(READINGS, HEMS)
def test_so_many_more_places_tell_and_one_fewer_would_not(readings, hem):
    count = Count.measured(readings, over="2 in")
    doubt = doubt_about(count, hem)
    if doubt is None:
        return
    now = len(readings)

    def tells(more):
        fewest, most = could_be(count, count.error_with(now + more), hem)
        return fewest == most

    if doubt.more is None:
        assert not any(tells(more) for more in range(MAX_MORE + 1))
    else:
        assert tells(doubt.more)
        assert not any(tells(more) for more in range(doubt.more))


def test_the_places_that_it_asks_for_do_tell_if_they_read_alike():
    first = Count.measured([29], over="1 in")
    assert doubt_about(first, "3/8 in") == Doubt(10, 11, more=1)
    assert Doubt(10, 11, more=1).text() == "10 or 11: count one more place"
    assert doubt_about(Count.measured([29, 29], over="1 in"), "3/8 in") is None


def test_a_length_on_the_very_half_stays_in_doubt_and_says_what_else_to_do():
    count = Count.measured([28], over="1 in")
    assert doubt_about(count, "3/8 in").text() == (
        "10 or 11: eight more places would not tell, so count over a longer stretch, or choose"
    )


def test_a_wide_length_on_a_count_taken_once_may_be_one_of_several():
    assert doubt_about(Count.measured([28], over="1 in"), "2 in").text().startswith("54 to 58: ")


@given(st.integers(1, 100), HEMS)
def test_a_given_count_is_taken_at_its_word(per_inch, hem):
    assert doubt_about(Count(per_inch, "1 in"), hem) is None


def test_a_count_that_may_be_off_by_all_of_itself_is_refused():
    with pytest.raises(HemError, match=r"^A mean of 1 may be off by all of itself, so count over a longer"):
        doubt_about(Count.measured([1], over="1 cm"), "1 cm")


def test_an_edge_says_its_doubts_and_a_hem_in_threads_has_none():
    count = Count.measured([57, 56, 57], over="2 in")
    notes = plan_edge(count, "3/8 in", clear=8, turn="4 mm").notes
    assert notes[0] == "The hem may be 10 or 11: count two more places."
    assert notes[1].startswith("The turn may be 4 or 5: count ")
    assert not any("may be" in note for note in plan_edge(count, 11, clear=8).notes)
    assert not any("may be" in note for note in plan_edge("28 1/3 per in", "3/8 in", clear=8).notes)


@pytest.mark.parametrize("washed", [True, False])
def test_a_piece_says_of_which_way_it_doubts(washed):
    down = Count.measured([57, 56, 57], over="2 in")
    cloth = Fabric("28/in", down, shrink_warp="0.2 %", washed=washed)
    doubts = [note for note in Piece(cloth, (100, 100), hem="3/8 in", clear=8).notes if "may be" in note]
    assert len(doubts) == 1
    assert doubts[0].startswith("Down: The hem may be 10 or 11: count ")
