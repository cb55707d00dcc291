"""Linear density: reading, converting, printing, refusing."""

from contextlib import suppress
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

import pint
import pytest
from cases import for_each
from hostile import any_text
from hypothesis import assume, example, given
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.yarn.density import SYSTEMS, LinearDensity, as_density

FINER_IS_LARGER = ("Ne", "Nm", "lea")

densities = st.fractions(Fraction(1, 1000), 100_000, max_denominator=10_000).map(LinearDensity)
systems = st.sampled_from(SYSTEMS)


@given(densities, systems)
def test_every_conversion_is_undone_by_its_inverse(yarn, system):
    assert LinearDensity.from_number(yarn.number(system), system) == yarn


@given(densities, densities)
def test_a_larger_number_is_finer_in_the_counts_and_coarser_in_the_rest(one, other):
    assume(one.tex < other.tex)
    for system in SYSTEMS:
        assert (one.number(system) > other.number(system)) == (system in FINER_IS_LARGER)


@given(densities, st.integers(1, 500))
def test_a_ball_weighs_its_length_times_its_tex(yarn, metres):
    assert LinearDensity.weighed(yarn.tex * metres / 1000, f"{metres} m") == yarn


@given(st.integers(2, 400), st.integers(1, 9), st.sampled_from(FINER_IS_LARGER))
def test_a_folded_yarn_is_as_many_times_as_coarse_as_its_single(single, plies, system):
    assume(single >= plies)
    folded = LinearDensity(f"{system} {single}/{plies}")
    assert folded.tex == plies * LinearDensity(f"{single} {system}").tex
    assert folded == LinearDensity(f"{single} {system} x {plies}")
    assert 3 * folded.tex == LinearDensity(f"{system} {single}/{plies} x 3").tex


@given(densities, systems)
@example(LinearDensity("99.5 tex"), "tex")
@example(LinearDensity("1000.5 tex"), "tex")
def test_the_printed_number_has_three_figures_and_says_when_it_is_rounded(yarn, system):
    words = yarn.text(system)
    printed = Fraction(Decimal(words.removeprefix("≈ ").removesuffix(f" {system}")))
    exact = yarn.number(system)
    half_up = Context(prec=3, rounding=ROUND_HALF_UP)
    assert printed == Fraction(half_up.divide(Decimal(exact.numerator), Decimal(exact.denominator)))
    assert words.startswith("≈") == (printed != exact)


def test_the_named_properties_are_the_systems_they_name():
    yarn = LinearDensity(20)
    assert tuple(yarn.number(system) for system in ("den", "Nm", "dtex")) == (180, 50, 200)
    assert yarn.cotton_count == yarn.number("Ne")


# Independent: pint's own yard, pound and tex.
@pytest.mark.parametrize(("system", "yards"), [("Ne", 840), ("lea", 300)])
def test_the_counts_agree_with_a_units_library(system, yards):
    units = pint.UnitRegistry()
    one = (1 * units.pound / (yards * units.yard)).to("g / km").magnitude
    assert float(LinearDensity.from_number(1, system).tex) == pytest.approx(one, rel=1e-12)


@for_each(
    ("text", "same"),
    [
        ("20tex", "20 tex"),
        ("tex 20", "20 tex"),
        ("200 dtex", "20 tex"),
        ("200 decitex", "20 tex"),
        ("180 DEN", "20 tex"),
        ("180 denier", "20 tex"),
        ("Ne30", "30 ne"),
        ("30 cotton count", "Ne 30"),
        ("Nm 60/2", "Nm 30"),
        ("nm 8.5/2", "4.25 Nm"),
        ("40 linen lea", "40 lea"),
        ("16,5 tex", "16.5 tex"),
        ("27 tex x 5", "135 tex"),
        ("27 tex ×5", "135 tex"),
        ("Ne 30 1/2", "Ne 30.5"),
    ],
)
def test_yarns_are_read_as_the_trade_writes_them(text, same):
    assert LinearDensity(text) == LinearDensity(same)


def test_a_yarn_is_from_a_thousandth_of_a_tex_to_a_hundred_thousand():
    for tex in (Fraction(1, 1000), 100_000):
        assert LinearDensity(tex).tex == tex
    for tex in (Fraction(1, 1001), 100_001):
        with pytest.raises(HemError, match=r"from 0\.001 to 100000 tex"):
            LinearDensity(tex)


def test_a_yarn_is_said_in_three_figures():
    said = [
        LinearDensity(tex).text() for tex in ("999 tex", "1000.5 tex", "1005 tex", "99.96 tex", "0.1 tex")
    ]
    assert said == ["999 tex", "≈ 1000 tex", "≈ 1010 tex", "≈ 100 tex", "0.1 tex"]


@for_each(
    ("text", "says"),
    [
        ("30", "must be a number and its system"),
        ("", "must be a number and its system"),
        ("tex", "must be a number and its system"),
        ("fine tex", "must be a number and its system"),
        ("30 worsted", "must be a number and its system"),
        ("-30 tex", "must have a number, more than 0"),
        ("0 Ne", "must have a number, more than 0"),
        ("3 4 tex", "must have a number, more than 0"),
        ("Ne 2/60", "count of the single thread, then the plies"),
        ("Ne 60/0", "count of the single thread, then the plies"),
        ("Ne 60/2 x", "must"),
        ("20/2 tex", "with a times sign; for example '20 tex x 2'"),
        ("Ne " + "9" * 70, "no yarn's"),
        ("9" * 300 + " tex", "too long a text"),
        ("1000000 tex", "no yarn's"),
    ],
)
def test_what_is_no_yarn_is_refused_in_one_short_sentence(text, says):
    with pytest.raises(HemError, match=says) as caught:
        LinearDensity(text)
    assert "for example" in str(caught.value)


@for_each("value", [20, 20.0, None, True, b"20 tex", ["20 tex"]])
def test_only_text_is_read(value):
    with pytest.raises(HemError, match="cloth: A yarn is written as text"):
        as_density(value, "cloth")


@for_each("value", [0, -1, 16.7, "20", True, None, Fraction(1, 1001), 100_001])
def test_tex_is_exact_and_a_yarns(value):
    with pytest.raises(HemError):
        LinearDensity(value)


def test_bad_numbers_and_systems_are_refused():
    for number in (0, -3, 1.5, "60"):
        with pytest.raises(HemError):
            LinearDensity.from_number(number, "Ne")
    with pytest.raises(HemError, match="system is 'run'"):
        LinearDensity.from_number(60, "run")
    with pytest.raises(HemError, match="system is 'run'"):
        LinearDensity(20).text("run")
    with pytest.raises(HemError, match="grams is 0"):
        LinearDensity.weighed(0, "80 m")
    with pytest.raises(HemError, match="length"):
        LinearDensity.weighed(10, "0 m")


@given(any_text(max_size=60) | st.builds("{} {}".format, st.text("0123456789./x ", max_size=12), systems))
def test_any_text_is_a_yarn_or_one_sentence(text):
    with suppress(HemError):
        assert LinearDensity(text).tex > 0
