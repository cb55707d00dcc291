"""Diameters: each published way, what it assumes, and how the ways compare."""

import math
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.yarn.density import LinearDensity
from hemcalc.yarn.diameter import (
    FIBRES,
    diameter_by_volume,
    peirce_diameter,
    specific_volume,
    threads_side_by_side,
    touching_diameter,
)

yarns = st.integers(2, 2000).map(LinearDensity)
packings = st.fractions(Fraction(1, 4), Fraction(9, 10), max_denominator=100)


@given(yarns, packings, st.sampled_from(sorted(FIBRES)))
def test_a_rod_of_that_diameter_and_fibre_weighs_what_the_yarn_does(yarn, packing, fibre):
    d = diameter_by_volume(yarn, fibre=fibre, packing=packing).diameter_mm
    # A kilometre: cross-section in cm2 × 100 000 cm × density × share that is fibre.
    grams = math.pi * (d / 20) ** 2 * 100_000 * FIBRES[fibre].density * float(packing)
    assert grams == pytest.approx(float(yarn.tex), rel=1e-12)


@given(yarns, packings)
def test_specific_volume_gives_the_packing_back(yarn, packing):
    d = diameter_by_volume(yarn, fibre="cotton", packing=packing).diameter_mm
    assert 1 / (specific_volume(yarn, d) * FIBRES["cotton"].density) == pytest.approx(
        float(packing), rel=1e-12
    )


@given(yarns)
def test_four_times_the_mass_is_twice_the_thickness_by_every_way(yarn):
    thicker = LinearDensity(4 * yarn.tex)
    for way in (diameter_by_volume, peirce_diameter, touching_diameter):
        assert way(thicker).diameter_mm == pytest.approx(2 * way(yarn).diameter_mm, rel=1e-12)


@given(yarns)
def test_the_ways_agree_on_cotton_to_a_tenth(yarn):
    ways = [
        peirce_diameter(yarn).diameter_mm,
        touching_diameter(yarn).diameter_mm,
        diameter_by_volume(yarn, fibre="cotton").diameter_mm,
    ]
    assert max(ways) < 1.1 * min(ways)


def test_no_yarn_is_packed_with_more_fibre_than_it_has_room_for():
    assert diameter_by_volume("20 tex", packing=1).diameter_mm < diameter_by_volume("20 tex").diameter_mm
    for packing in (0, "101 %", 2):
        with pytest.raises(HemError, match=r"at most 1;|from 0 % to 100 %"):
            diameter_by_volume("20 tex", packing=packing)


def test_the_working_states_packing_and_fibre_and_the_source_is_named():
    d = diameter_by_volume("20 tex", fibre="cotton", packing="55 %")
    assert "cotton of 1.52 g/cm³" in d.working
    assert "55 % of the yarn fibre" in d.working
    assert f"{d.diameter_mm:.3f} mm" in d.working
    assert "Morton" in d.source
    assert "from memory" in FIBRES["flax"].source
    assert "from memory" in peirce_diameter("Ne 30").source
    assert str(d) == f"≈ {d.diameter_mm:.2f} mm"


def test_side_by_side_takes_off_what_it_is_told():
    bare = threads_side_by_side("Ne 30", less=0)
    assert bare == pytest.approx(math.sqrt(840 * 30))
    assert threads_side_by_side("Ne 30", less="20 %") == pytest.approx(0.8 * bare)
    assert touching_diameter("Ne 30", less=0).diameter_mm == pytest.approx(25.4 / bare)


@for_each(
    ("ask", "says"),
    [
        (lambda: diameter_by_volume("20"), "yarn: The yarn '20'"),
        (lambda: diameter_by_volume("20 tex", fibre="nettle"), "fibre is 'nettle'.*'cotton', 'flax'"),
        (lambda: diameter_by_volume("20 tex", packing=0), "packing is 0"),
        (lambda: diameter_by_volume("20 tex", packing=1.2), "packing is 1.2"),
        (lambda: peirce_diameter(30), "yarn: A yarn is written as text"),
        (lambda: threads_side_by_side("Ne 30", less="60 %"), "less is '60 %'"),
        (lambda: specific_volume("20 tex", 0), "diameter is 0"),
    ],
)
def test_bad_input_gets_its_sentence(ask, says):
    with pytest.raises(HemError, match=says):
        ask()
