"""The cloth's own yarn from its mass, and its crimp."""

from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import Count, HemError, Length
from hemcalc.yarn.cloth import cloth_yarn, measured_crimp, straightening_tension_cn

per_cm = st.integers(4, 40)
shares = st.fractions(0, Fraction(1, 4), max_denominator=200)


@given(per_cm, per_cm, st.integers(5, 200), shares)
def test_a_cloth_weighed_thread_by_thread_gives_its_yarn_back(across, down, tex, crimp):
    # A square metre: every thread a metre of cloth long, and longer by its crimp.
    threads = 100 * (across + down)
    grams = threads * (1 + crimp) * Fraction(tex, 1000)
    if grams <= 5000:
        assert cloth_yarn(f"{across}/cm", Count(down, Length(10)), grams, crimp=crimp).tex == tex


def test_a_cloth_may_weigh_next_to_nothing_but_not_nothing():
    assert cloth_yarn("10/cm", "10/cm", Fraction(1, 2)).tex == Fraction(1, 4)
    with pytest.raises(HemError, match="grams_per_m2 is 0, but must be more than 0"):
        cloth_yarn("10/cm", "10/cm", 0)


@given(st.integers(1, 1000), shares)
def test_crimp_is_undone_by_its_definition(cloth, crimp):
    straight = Length(cloth * (1 + crimp))
    assert measured_crimp(straight, Length(cloth)) == crimp


def test_a_thread_is_never_shorter_than_its_cloth():
    assert measured_crimp("20 cm", "20 cm") == 0
    with pytest.raises(HemError, match="straight is 199 mm, shorter than the 200 mm"):
        measured_crimp("19.9 cm", "20 cm")


def test_the_pull_for_straightening_follows_the_rule_from_memory():
    # ISO 7211-3:1984, ISO, 1984, table: from memory, not read; two rules that change over at 7 tex.
    assert straightening_tension_cn("7 tex") == 5.25
    assert straightening_tension_cn("10 tex") == 6.0


@for_each(
    ("ask", "about"),
    [
        (lambda: cloth_yarn("28", "28/in", 190), "across"),
        (lambda: cloth_yarn("28/in", "28", 190), "down"),
        (lambda: cloth_yarn("28/in", "28/in", 0), "grams_per_m2"),
        (lambda: cloth_yarn("28/in", "28/in", 5001), "grams_per_m2"),
        (lambda: cloth_yarn("28/in", "28/in", 190.0), "grams_per_m2"),
        (lambda: cloth_yarn("28/in", "28/in", 190, crimp="much"), "crimp"),
        (lambda: measured_crimp("20", "20 cm"), "straight"),
        (lambda: measured_crimp("20 cm", "0 cm"), "in_cloth"),
        (lambda: straightening_tension_cn("5"), "yarn"),
    ],
)
def test_bad_input_gets_its_sentence(ask, about):
    with pytest.raises(HemError) as caught:
        ask()
    assert caught.value.about == about
    assert "for example" in str(caught.value)
