"""Sizes that are wanted, and what is refused of them."""

import math
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.bolt.cut_sizes import MAX_PIECES, MAX_SIZES, CutSize, as_cut_sizes, common_step
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length
from hemcalc.piece.examples import example


def test_a_size_reads_what_people_type():
    mat = CutSize(" table mat ", "18 in", "12 1/2 in", 6, Decimal("2.5"))
    assert (mat.name, mat.quantity, mat.worth) == ("table mat", 6, Fraction(5, 2))
    assert mat.across == Length("18 in")
    assert mat.area_mm2 == Fraction(18 * 254 * 25 * 254, 200)
    assert mat.text("cm") == "6 of table mat, 45.72 cm across × 31.75 cm down"
    assert CutSize("mat", "1 cm", "2 cm").text("mm") == "mat, 10 mm across × 20 mm down"


def test_a_size_may_come_from_a_piece():
    cut = example("sampler").cut_size
    size = CutSize("sampler", *cut.to_cut("cm"), 12)
    assert (size.across, size.down) == cut.to_cut("cm")


def test_lines_become_sizes_and_sizes_stay():
    mat = CutSize("mat", "5 in", "6 in", 2)
    assert as_cut_sizes([mat, ("cloth", "18 in", "18 in", 3), ["mark", Length(50), Length(90), 1]]) == (
        mat,
        CutSize("cloth", "18 in", "18 in", 3),
        CutSize("mark", "5 cm", "9 cm", 1),
    )
    assert as_cut_sizes(line for line in [mat]) == (mat,)


@given(st.lists(st.fractions(Fraction(1, 64), 500, max_denominator=64).map(Length), min_size=1, max_size=5))
def test_the_common_step_goes_into_every_length_and_no_longer_one_does(lengths):
    step = common_step(lengths)
    times = [length.mm / step for length in lengths]
    assert all(n.denominator == 1 for n in times)
    assert math.gcd(*(int(n) for n in times)) == 1


@for_each(
    ("down", "turned", "ways"),
    [("12 cm", None, 2), ("18 cm", None, 1), ("12 cm", False, 1), ("12 cm", ("13 cm", "19 cm"), 2)],
)
def test_a_size_lies_both_ways_unless_it_is_square_or_may_not_be_turned(down, turned, ways):
    size = CutSize("mat", "18 cm", down, 6, None, turned)
    assert len(size.lays("free")) == ways
    assert len(size.lays("fixed")) == 1


EXAMPLE = "for example ('bread cloth', '18 in', '18 in', 12)."
LINE = "for example [('coaster', '6 in', '6 in', 24)]."
REFUSED = {
    "nothing": ([], f"pieces has no sizes, but must have from 1 to {MAX_SIZES}; {LINE}"),
    "text": ("mat", f"pieces is 'mat', but must be a list of sizes, with a line for each; {LINE}"),
    "number": (7, f"pieces is 7, but must be a list of sizes, with a line for each; {LINE}"),
    "one size": (
        CutSize("mat", "5 in", "5 in", 1),
        f"pieces is a CutSize, but must be a list of sizes, with a line for each; {LINE}",
    ),
    "line of two": (
        [("mat", "5 in")],
        f"A line of pieces is a tuple, but must be a name, a size across, a size down and how many; "
        f"{EXAMPLE}",
    ),
    "line of text": (
        ["mat"],
        f"A line of pieces is 'mat', but must be a name, a size across, a size down and how many; {EXAMPLE}",
    ),
    "no name": (
        [("  ", "5 in", "5 in", 1)],
        f"The name of a size is '  ', but must be one line of 1 to 40 characters; {EXAMPLE}",
    ),
    "control character": (
        [("mat\n", "5 in", "5 in", 1)],
        f"The name of a size is 'mat ', but must be one line of 1 to 40 characters; {EXAMPLE}",
    ),
    "long name": (
        [("m" * 41, "5 in", "5 in", 1)],
        f"The name of a size is '{'m' * 39}…', but must be one line of 1 to 40 characters; {EXAMPLE}",
    ),
    "no size": (
        [("mat", "0 in", "5 in", 1)],
        "mat, across is 0 mm, but must be more than nothing; for example '3/8 in'.",
    ),
    "no unit": (
        [("mat", "5 in", "5", 1)],
        "mat, down: The length '5' has no unit, but it needs in, cm, mm, m, ft or yd; for example '3/8 in', "
        "'1 cm' or '9.5 mm'.",
    ),
    "half a piece": (
        [("mat", "5 in", "5 in", 2.5)],
        f"mat, how many is 2.5, but must be a whole number of pieces, from 1 to {MAX_PIECES}; "
        "for example 12.",
    ),
    "none of it": (
        [("mat", "5 in", "5 in", 0)],
        f"mat, how many is 0, but must be a whole number of pieces, from 1 to {MAX_PIECES}; for example 12.",
    ),
    "true": (
        [("mat", "5 in", "5 in", True)],
        f"mat, how many is True, but must be a whole number of pieces, from 1 to {MAX_PIECES}; "
        "for example 12.",
    ),
    "too many of one": (
        [("mat", "5 in", "5 in", MAX_PIECES + 1)],
        "mat, how many is 1001, but must be a whole number of pieces, from 1 to 1000; for example 12.",
    ),
    "too many in all": (
        [("mat", "5 in", "5 in", 600), ("cloth", "5 in", "5 in", 401)],
        f"pieces has 1001 pieces in all, but at most 1000 can be laid out; {EXAMPLE}",
    ),
    "too many sizes": (
        [(f"mat {n}", "5 in", "5 in", 1) for n in range(MAX_SIZES + 1)],
        f"pieces has 31 sizes, but must have from 1 to 30; {LINE}",
    ),
    "twice": (
        [("mat", "5 in", "5 in", 1), ("mat ", "6 in", "5 in", 1)],
        "Two sizes are called 'mat', but each must have its own name; for example 'coaster, small' and "
        "'coaster, large'.",
    ),
    "worthless": (
        [("mat", "5 in", "5 in", 1, 0)],
        "mat, worth is 0, but must be more than 0 and at most 1,000,000,000; for example 3.",
    ),
    "worth as a float": (
        [("mat", "5 in", "5 in", 1, 0.1)],
        "mat, worth is 0.1, but must be an exact number of ordinary size, an int, a Fraction or a Decimal; "
        "for example Fraction(3, 8).",
    ),
}


@for_each("case", REFUSED)
def test_what_is_no_size_is_refused_in_a_sentence(case):
    lines, sentence = REFUSED[case]
    with pytest.raises(HemError) as refused:
        as_cut_sizes(lines)
    assert str(refused.value) == sentence


def test_how_many_may_be_left_out_where_there_is_no_need_of_it():
    (mat,) = as_cut_sizes([("mat", "5 in", "5 in")], counted=False)
    assert mat.quantity is None
    (mat,) = as_cut_sizes([("mat", "5 in", "5 in", None, 3)], counted=False)
    assert (mat.quantity, mat.worth) == (None, 3)
    # It makes the others no fewer.
    others = [("cloth", "5 in", "5 in", 600), ("runner", "5 in", "5 in", 401), mat]
    with pytest.raises(HemError, match="has 1001 pieces in all"):
        as_cut_sizes(others, counted=False)


def test_a_worth_is_at_most_a_thousand_million():
    assert CutSize("mat", "12 in", "9 in", 1, 10**9).worth == 10**9
    assert CutSize("mat", "12 in", "9 in", 1, Fraction(1, 10**9)).worth == Fraction(1, 10**9)
    for worth in (10**9 + 1, Fraction(1, 10**9 + 1)):
        with pytest.raises(HemError, match="at most 1,000,000,000"):
            CutSize("mat", "12 in", "9 in", 1, worth)


# As it is told how it may lie turned, a size of another number may too: any, in its own size, or not at all.
@pytest.mark.parametrize("turned", [None, False, ("9 in", "13 in")])
def test_so_many_of_a_size_lie_as_one_does(turned):
    mat = CutSize("mat", "12 in", "9 in", 1, 2, turned)
    assert mat.of(5) == CutSize("mat", "12 in", "9 in", 5, 2, turned)
