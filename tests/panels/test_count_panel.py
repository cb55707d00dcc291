"""The panel of the count: its plan, and that ruler and size follow the unit."""

from fractions import Fraction

import pytest

from hemcalc import Count, Length
from hemcalc.panels import count_panel

from .conftest import first_state


@pytest.fixture
def count(all_panels):
    return first_state(all_panels["count"])


def test_it_opens_on_28_threads_over_an_inch(count):
    assert count.result.count == Count.measured([28], over="1 in")
    assert count.result.size == Length("10 in")


def test_each_control_sets_its_own_part(count):
    for name, value in (("threads", 56), ("ruler", "2 in"), ("places", 3), ("size", "20 in")):
        count.controls[name].widget.value = value
    assert count.result.count == Count.measured([56, 56, 56], over="2 in")
    assert count.result.count.per_inch == Fraction(28)
    assert count.result.size == Length("20 in")


def test_how_sure_is_a_choice_and_more_places_need_less_cloth(count):
    once = count.result.to_cut
    assert (once, count.result.threads) == (Length("10 1/2 in"), 280)
    count.controls["sure"].widget.value = "99 %"
    assert count.result.count.confidence == Fraction(99, 100)
    assert count.result.to_cut > once
    count.controls["places"].widget.value = 6
    assert count.result.to_cut < once


@pytest.mark.parametrize(
    ("unit", "ruler", "size"), [("cm", "2 cm", "25 cm"), ("mm", "20 mm", "250 mm"), ("in", "1 in", "10 in")]
)
def test_ruler_and_size_keep_their_place_in_another_unit(count, unit, ruler, size):
    count.controls["unit"].widget.value = unit
    assert (count.controls["ruler"].value, count.controls["size"].value) == (ruler, size)
    assert not count.sentences


def test_no_ruler_offered_is_longer_than_the_picture():
    panel = count_panel()
    for unit in ("in", "cm", "mm"):
        panel.controls["unit"].widget.value = unit
        longest = panel.controls["ruler"].widget.options[-1]
        assert Length(longest) <= panel.view.longest
