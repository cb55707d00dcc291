"""Sizes in threads and lengths, before and after the wash, and the mark to cut at."""

import re
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure import Count, Fabric, HemError, Length
from hemcalc.piece import EXAMPLES, Corners, Extent, Piece, Sides, Size, example
from hemcalc.piece.sizes import extent, size_text

LENGTHS = st.integers(1, 10**7).map(lambda number: Length(Fraction(number, 997)))


def size_of(before, after, *, washed):
    return Size(Extent(300, before, after), Extent(200, after, before), washed, "to cut")


@given(LENGTHS, LENGTHS, st.booleans())
def test_cloth_is_cut_at_its_size_in_hand(before, after, washed):
    size = size_of(before, after, washed=washed)
    assert size.in_hand == (size.after if washed else size.before)
    assert size.threads == (300, 200)
    assert (size.before, size.after) == ((before, after), (after, before))


@pytest.mark.parametrize(("unit", "mark"), [("in", "1/8 in"), ("cm", "0.5 cm"), ("mm", "1 mm")])
@given(length=LENGTHS)
def test_the_size_to_cut_is_the_next_mark_of_the_ruler(unit, mark, length):
    step = Length(mark)
    across, _ = size_of(length, length, washed=False).to_cut(unit)
    assert (across / step).denominator == 1
    assert length <= across < length + step


def test_a_size_on_a_mark_is_cut_there():
    size = size_of(Length("10 1/8 in"), Length("9 in"), washed=False)
    assert size.to_cut("in") == (Length("10 1/8 in"), Length("9 in"))
    assert size.to_cut("cm") == (Length("26 cm"), Length("23 cm"))


def test_the_words_say_what_was_rounded_up():
    size = size_of(Length("10.1 in"), Length("9 in"), washed=False)
    assert size.text("in") == "cut 10 1/8 in across × 9 in down (300 × 200 threads, rounded up to 1/8 in)"
    assert size.text("cm") == "cut 26 cm across × 23 cm down (300 × 200 threads, rounded up to 0.5 cm)"


def test_an_unknown_unit_is_refused_with_those_that_are_known():
    size = size_of(Length(1), Length(1), washed=True)
    for ask in (size.to_cut, size.text):
        with pytest.raises(HemError, match=r"unit is 'yd', but must be one of 'in', 'cm', 'mm'; for example"):
            ask("yd")


def test_sides_and_corners_go_round_the_piece():
    assert list(Sides("left", "right", "top", "bottom")) == ["left", "right", "top", "bottom"]
    assert list(Corners(1, 2, 3, 4)) == [1, 2, 3, 4]
    assert len(Sides(1, 1, 1, 1)) == len(Corners(1, 1, 1, 1)) == 4


@given(st.integers(1, 10**5))
def test_an_extent_has_its_threads_at_either_count(threads):
    loose, tight = Count("27/in"), Count("28/in")
    found = extent(threads, loose, tight)
    assert found == Extent(threads, loose.width(threads), tight.width(threads), loose)
    assert found.error == found.widening == 0


# With the error of a measured count

READINGS = st.lists(st.integers(20, 40), min_size=1, max_size=6)
UNITS = st.sampled_from(("in", "cm", "mm"))


def planned(across, down):
    return Size(extent(300, across, across), extent(200, down, down), washed=True, use="to cut")


@given(READINGS, UNITS)
def test_a_measured_count_never_cuts_smaller_than_a_given_one_as_fine(readings, unit):
    measured = Count.measured(readings, over="1 in")
    given_one = Count(measured.threads, "1 in")
    sure, plain = planned(measured, measured), planned(given_one, given_one)
    assert sure.in_hand == plain.in_hand
    for wide, narrow, exact in zip(sure.to_cut(unit), plain.to_cut(unit), sure.sure, strict=True):
        assert wide >= narrow
        assert wide >= exact
        assert not (wide.mm / Length({"in": "1/8 in", "cm": "5 mm", "mm": "1 mm"}[unit]).mm) % 1
    assert sure.by_thread(unit) == (sure.to_cut(unit) != plain.to_cut(unit))
    assert not plain.by_thread(unit)


def test_each_way_allows_for_its_own_error():
    once, given_one = Count.measured([28], over="1 in"), Count("28/in")
    size = planned(once, given_one)
    assert size.across.error == once.error > size.down.error == 0
    assert size.sure[1] == size.in_hand[1]
    assert size.sure[0] == size.in_hand[0] / (1 - once.error)


def test_the_words_say_what_is_added_and_how_sure_that_is():
    once = Count.measured([28], over="1 in")
    often = Count.measured([108, 109, 108], over="4 in", confidence="90 %")
    assert planned(once, once).text("in") == (
        "cut 11 1/4 in across × 7 1/2 in down (300 × 200 threads, with 4.3 % across and 4.3 % down added for "
        "the error of the count, to be large enough 95 times in 100, rounded up to 1/8 in)"
    )
    assert "to be large enough 90 times in 100" in planned(once, often).text("in")
    assert "with 4.3 % across added" in planned(once, Count("28/in")).text("cm")


@given(READINGS)
def test_the_lengths_of_a_finished_piece_are_given_or_taken_the_error(readings):
    count = Count.measured(readings, over="1 in")
    size = planned(count, Count("28/in"))
    assert size.off == (count.sure_width(300) - count.width(300), Length(0))
    words = size.give_or_take("mm")
    assert words.startswith("give or take ")
    assert words.endswith(" mm across")
    said = Length(words.removeprefix("give or take ").removesuffix(" across"))
    assert size.off[0] <= said < size.off[0] + Length(1)


def test_nothing_is_given_or_taken_with_given_counts():
    assert planned(Count("28/in"), Count("27/in")).give_or_take("in") == ""


# What a size is for


@for_each("unit", ["in", "cm", "mm"])
@for_each("name", EXAMPLES)
def test_only_a_size_to_cut_says_cut(name, unit):
    piece = example(name)
    for size in (piece.cut_size, piece.cloth_by_need):
        across, down = (side.text(unit) for side in size.to_cut(unit))
        assert size.text(unit).startswith(f"cut {across} across × {down} down")
    for size, lengths, use in (
        (piece.finished_size, piece.finished_size.after, "finished"),
        (piece.trimmed_size, piece.trimmed_size.in_hand, "trimmed"),
    ):
        text = size.text(unit)
        assert not re.search("cut|rounded up", text)
        assert text.startswith(f"{use} {size_text(lengths, unit, '{} across × {} down')}")
        assert f"{size.threads[0]} × {size.threads[1]} threads" in text
        with pytest.raises(HemError, match=f"No cloth is cut to the {use} size"):
            size.to_cut(unit)
    assert piece.cloth_by_rule.text(unit).startswith("the rule of four alone takes ")


def test_a_finished_size_says_what_a_measured_count_may_be_off_by():
    count = Count.measured([28], over="1 in")
    size = Piece(Fabric(count, count, washed=True), (100, 80), hem="3/8 in", clear=8).finished_size
    across, down = size.threads
    assert size.text("in").endswith(f"({across} × {down} threads, {size.give_or_take('in')})")


def test_a_size_is_for_something_known():
    side = extent(300, Count("28/in"), Count("28/in"))
    with pytest.raises(HemError, match="use is 'bought', but must be one of 'to cut'"):
        Size(side, side, washed=True, use="bought")
