"""What a remnant yields: the best of all ways to cut it where it is small, and never more than there is."""

import itertools
import random
import re
from collections import Counter
from fractions import Fraction
from functools import cache
from unittest import mock

import pytest
from cases import for_each
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hemcalc.bolt import cut_from_bolt, have_from_remnant
from hemcalc.bolt.lay.guillotine import single
from hemcalc.bolt.lay.plates import Plates, sums_within
from hemcalc.bolt.lay.yields import Best, Kind, best_yield
from hemcalc.measure import HemError, Length

# Every way to cut a small cloth, at every whole place, with no thought of sums, tolls or joins


def all_ways(sizes, turn):
    """What straight cuts get from a cloth of a size, as a function; a size is across, down, limit, worth."""
    limits = [limit for _, _, limit, _ in sizes]

    @cache
    def had(across, down):
        """Numbers of each size that can be had together, as far as the limits go."""
        found = {(0,) * len(sizes)}
        for kind, (a, d, _, _) in enumerate(sizes):
            if (a <= across and d <= down) or (turn and d <= across and a <= down):
                found.add(tuple(int(k == kind) for k in range(len(sizes))))
        parts = [((at, down), (across - at, down)) for at in range(1, across // 2 + 1)]
        parts += [((across, at), (across, down - at)) for at in range(1, down // 2 + 1)]
        for one, other in parts:
            for some, more in itertools.product(had(*one), had(*other)):
                both = tuple(map(sum, zip(some, more, strict=True)))
                found.add(
                    tuple(
                        n if limit is None else min(n, limit) for n, limit in zip(both, limits, strict=True)
                    )
                )
        return frozenset(found)

    worths = [worth for *_, worth in sizes]
    return lambda *cloth: max(
        sum(n * worth for n, worth in zip(many, worths, strict=True)) for many in had(*cloth)
    )


def best_of_all(cloth, sizes, turn):
    """The most worth that straight cuts get from a cloth."""
    return all_ways(sizes, turn)(*cloth)


SIZES = st.lists(
    st.tuples(st.integers(1, 5), st.integers(1, 5), st.none() | st.integers(1, 3), st.integers(1, 9)),
    min_size=1,
    max_size=3,
)


def asked(cloth, sizes, turn):
    named = [
        (f"size {n}", f"{a} cm", f"{d} cm", limit, worth) for n, (a, d, limit, worth) in enumerate(sizes)
    ]
    return have_from_remnant(f"{cloth[0]} cm", f"{cloth[1]} cm", named, grain="free" if turn else "fixed")


@settings(max_examples=40)
@given(st.tuples(st.integers(1, 6), st.integers(1, 6)), SIZES, st.booleans())
def test_of_a_small_cloth_nothing_better_can_be_cut_and_that_is_proven(cloth, sizes, turn):
    had = asked(cloth, sizes, turn)
    assert had.worth == had.bound == best_of_all(cloth, sizes, turn)


@pytest.mark.parametrize("turn", [False, True], ids=["fixed", "free"])
def test_all_pairs_of_small_sizes_with_limits_from_a_cloth_of_five_by_four(turn):
    sizes = [(a, d, limit, a * d) for a in (1, 2, 3) for d in (1, 2, 3) for limit in (1, 2)]
    # Each pair fixed or free, by turns.
    for pair in itertools.islice(itertools.combinations(sizes, 2), turn, None, 2):
        assert asked((5, 4), pair, turn).worth == best_of_all((5, 4), pair, turn), pair


# Ten places for squares: at most 3 of worth 2, the rest of worth 1, 3 x 2 + 7 = 13. A toll of 1 on the
# dear ones makes all alike: 10 x 1 and 3 tolls are 13 too, so nothing better is left to look for.
def test_tolls_find_by_hand_that_nothing_better_is_left():
    with mock.patch("hemcalc.bolt.lay.yields.JOINS", 0):
        best = best_yield([Kind((single(0, 1, 1),), 2, 3), Kind((single(1, 1, 1),), 1)], 10, 1)
    assert best.bound == 13


# What must hold of every yield, whatever its size


@st.composite
def remnants(draw):
    """A remnant and sizes for it, in units that may differ."""
    sizes = []
    for number in range(draw(st.integers(1, 4))):
        unit, longest = draw(st.sampled_from([("mm", 400), ("cm", 40), ("in", 16)]))
        sides = [f"{draw(st.integers(longest // 6, longest))}{draw(st.sampled_from(['', '.5']))} {unit}"] * 2
        sides[1] = f"{draw(st.integers(longest // 6, longest))} {unit}"
        sizes.append((f"size {number}", *sides, draw(st.none() | st.integers(1, 5))))
    return (
        draw(st.sampled_from(["45 cm", "28 in", "900 mm"])),
        draw(st.sampled_from(["1/4 yd", "70 cm"])),
        sizes,
    )


def had_soon(*remnant, **how):
    """What is had with less of a search, where that is not what is tested."""
    with mock.patch.multiple("hemcalc.bolt.lay.yields", JOINS=30_000, CUTS=100_000):
        return have_from_remnant(*remnant, **how)


@settings(max_examples=15)
@given(remnants(), st.sampled_from(["fixed", "free"]))
def test_pieces_lie_on_the_remnant_within_their_limits_and_count_for_what_they_are(remnant, turn):
    width, length, sizes = remnant
    had = had_soon(width, length, sizes, grain=turn)
    poses = {size.name: (size.across, size.down) for size in had.sizes}
    for size in had.sizes:
        assert had.counts[size.name] <= (size.quantity or 1000)
    for piece in had.pieces:
        bit = piece.bit
        own = poses[piece.name]
        assert (bit.across, bit.down) == (own[::-1] if piece.turned else own)
        assert turn == "free" or not piece.turned
        assert bit.x + bit.across <= had.width
        assert bit.y + bit.down <= had.length
    area = sum((piece.bit.area_mm2 for piece in had.pieces), Fraction(0))
    assert had.by == "area"
    assert had.worth == area <= had.bound <= had.width.mm * had.length.mm
    assert had.waste == 1 - area / (had.width.mm * had.length.mm)
    assert had.gap == had.bound - had.worth
    # The cuts in order leave just the pieces and the offcuts.
    table = Counter([(Length(0), Length(0), had.width, had.length)])
    for cut in had.cuts:
        bit = (cut.bit.x, cut.bit.y, cut.bit.across, cut.bit.down)
        assert table[bit] == 1, "only a bit on the table can be cut"
        table -= Counter([bit])
        table.update((part.x, part.y, part.across, part.down) for part in cut.parts)
    left = [piece.bit for piece in had.pieces] + list(had.offcuts)
    assert +table == Counter((bit.x, bit.y, bit.across, bit.down) for bit in left)


@settings(max_examples=12)
@given(remnants())
def test_turning_yields_no_less_and_limits_no_more(remnant):
    width, length, sizes = remnant
    fixed = had_soon(width, length, sizes)
    assert had_soon(width, length, sizes, grain="free").worth >= fixed.worth
    assert had_soon(width, length, [size[:3] for size in sizes]).bound >= fixed.worth


# Where neither is proven, turned and unturned are both looked for, and the better of them is had.
@pytest.mark.parametrize(("turned", "unturned"), [(6, 8), (8, 6)])
def test_where_turning_only_makes_the_search_harder_the_better_yield_is_kept(turned, unturned):
    found = [Best(single(0, 3, 2), worth, 12) for worth in (turned, unturned)]
    with mock.patch("hemcalc.bolt.remnant.yield_kept", side_effect=found):
        had = have_from_remnant("4 cm", "3 cm", [("mat", "3 cm", "2 cm", None, 1)], grain="free")
    assert (had.worth, had.bound) == (8, 12)


# Worth in place of area, by hand: one of 3 × 2 is worth 1 and one of 1 × 1 nothing like a sixth of it.
def test_the_leader_s_own_worth_decides_not_the_area():
    by_area = have_from_remnant("3 cm", "2 cm", [("mat", "3 cm", "2 cm"), ("square", "1 cm", "1 cm", 5)])
    assert dict(by_area.counts) == {"mat": 1, "square": 0}
    sizes = [("mat", "3 cm", "2 cm", None, 2), ("square", "1 cm", "1 cm", 5, Fraction(1, 2))]
    by_worth = have_from_remnant("3 cm", "2 cm", sizes)
    assert dict(by_worth.counts) == {"mat": 0, "square": 5}
    assert (by_worth.by, by_worth.worth, by_worth.proven) == ("worth", Fraction(5, 2), True)
    assert by_worth.text("cm").endswith(
        "They are worth 2.5 in all. Nothing that is worth more can be cut from it, so this is proven best."
    )


# A wheel of four 3 × 2 round a 1 × 1 fills 5 × 5, but no straight cut goes through it: only three are had.
def test_what_straight_cuts_cannot_get_apart_is_not_counted():
    wheel = have_from_remnant("5 cm", "5 cm", [("strip", "3 cm", "2 cm", 4)], grain="free")
    assert (wheel.counts["strip"], wheel.proven) == (3, True)


def test_a_remnant_too_small_yields_nothing_and_says_so():
    had = have_from_remnant("10 cm", "10 cm", [("mat", "30 cm", "20 cm")])
    assert (had.pieces, had.cuts, had.worth, had.waste, had.proven) == ((), (), 0, 1, True)
    assert [tuple(bit) for bit in had.offcuts] == [(Length(0), Length(0), Length("10 cm"), Length("10 cm"))]
    assert had.text("cm") == "A remnant of 10 cm across × 10 cm down is too small for any of these sizes."
    assert had.steps("cm") == ()


def test_the_yield_says_what_is_had_and_that_it_is_proven():
    had = have_from_remnant("50 cm", "40 cm", [("mat", "30 cm", "20 cm"), ("coaster", "10 cm", "10 cm", 4)])
    assert had.text("cm") == (
        "A remnant of 50 cm across × 40 cm down yields 2 of mat, 4 of coaster; 20 % of it is left over. "
        "Nothing that uses more of it can be cut from it, so this is proven best."
    )


# Steps of a tenth of a millimetre against a metre: too many places, so coarser steps must do.
FINE = [
    ("a", "103.7 mm", "97.3 mm"),
    ("b", "77.9 mm", "61.1 mm"),
    ("c", "53.3 mm", "41.9 mm"),
    ("d", "2 in", "3 in"),
]


def test_of_too_many_places_a_good_yield_is_had_and_no_proof_is_claimed():
    had = had_soon("1500 mm", "997 mm", FINE)
    assert not had.proven
    assert had.worth < had.bound <= had.width.mm * had.length.mm
    assert had.gap / had.worth < Fraction(1, 20)
    more = re.search(r"not proven best: .* may be possible, by at most ≈ ([0-9.]+) %", had.text("mm"))
    assert float(more[1]) == pytest.approx(100 * (had.bound / had.worth - 1), abs=0.005)
    assert "so this is proven best" not in had.text("mm")


# Two tolls at most and a search that gives up at once: what is had is less than what is certain.
@settings(max_examples=40)
@given(st.tuples(st.integers(3, 6), st.integers(3, 6)), SIZES)
@example((6, 5), [(2, 3, 1, 7), (3, 2, 1, 6), (2, 2, 2, 3)])
def test_a_search_that_gives_up_claims_no_more_than_is_so(cloth, sizes):
    given_ = [Kind((single(k, a, d),), worth, limit) for k, (a, d, limit, worth) in enumerate(sizes)]
    with mock.patch("hemcalc.bolt.lay.yields.JOINS", 3), mock.patch("hemcalc.bolt.lay.yields.TOLLS", 2):
        hurried = best_yield(given_, *cloth)
    best = best_of_all(cloth, sizes, False)
    assert hurried.worth <= best <= hurried.bound
    assert type(hurried.bound) is int  # of whole worths


# The search for a proof gives up with less; the one for a better block then has room for all that is wanted.
@for_each(
    ("sizes", "cloth", "joins"),
    [([(2, 2, 3), (4, 5, 2), (6, 4, 1)], (12, 13), 60), ([(6, 2, 2), (6, 5, 3)], (12, 10), 20)],
)
def test_where_a_proof_is_given_up_a_better_yield_is_looked_for_once_more(sizes, cloth, joins):
    wanted = [Kind((single(k, a, d),), a * d, many) for k, (a, d, many) in enumerate(sizes)]
    with mock.patch("hemcalc.bolt.lay.yields.JOINS", joins):
        assert best_yield(wanted, *cloth).worth == sum(a * d * many for a, d, many in sizes)


@settings(max_examples=15)
@given(st.lists(st.tuples(st.integers(3, 9), st.integers(3, 9), st.integers(1, 4)), min_size=1, max_size=3))
def test_coarser_steps_bound_and_yield_as_they_say(sizes):
    """The way out for too many places, held against the exact one where both can be had."""
    given_ = [Kind((single(k, a, d),), a * d, limit) for k, (a, d, limit) in enumerate(sizes)]
    exact = best_yield(given_, 23, 19)
    assert exact.worth == exact.bound
    with mock.patch("hemcalc.bolt.lay.yields.CUTS", 60):
        coarse = best_yield(given_, 23, 19)
    assert coarse.worth <= exact.worth <= coarse.bound
    if coarse.block is not None:
        kinds = coarse.block.kinds
        assert all(kinds[k] <= limit for k, (_, _, limit) in enumerate(sizes))
        assert coarse.block.across <= 23
        assert coarse.block.down <= 19


def test_what_is_a_whole_number_of_coarser_steps_is_had_whole():
    squares = [Kind((single(kind, 8, 8),), 2, 2) for kind in range(2)] + [Kind((single(2, 7, 7),), 1, 1)]
    with mock.patch("hemcalc.bolt.lay.yields.CUTS", 40):
        assert best_yield(squares, 16, 16).worth == 8


# Coarse steps, and a thin size that is longer than the cloth and rounds down to nothing.
def test_a_thin_size_that_does_not_fit_is_left_out_of_coarser_steps():
    had = had_soon("1500 mm", "997 mm", [*FINE, ("thin", "1 mm", "2000 mm", 3)])
    assert had.counts["thin"] == 0
    assert had.pieces
    assert had.worth <= had.bound


# Laid as on a bolt they take 990 × 1 and ten that stand beside them; once some were left out.
def test_all_that_is_wanted_is_laid_first():
    had = have_from_remnant("1500 mm", "1000 mm", [("n", "1 mm", "50 mm", 990), ("m", "7 mm", "3 mm", 10)])
    assert dict(had.counts) == {"n": 990, "m": 10}
    assert had.proven


@settings(max_examples=15, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(30, 300), st.integers(30, 300), st.integers(1, 6)), min_size=1, max_size=4
    ),
    st.sampled_from(["fixed", "free"]),
)
def test_nothing_is_dropped_that_the_bolt_s_own_layout_shows_to_fit(sizes, grain):
    wanted = [(f"size {n}", f"{a} mm", f"{d} mm", many) for n, (a, d, many) in enumerate(sizes)]
    layout = cut_from_bolt(wanted, "400 mm", grain=grain, unit="1 mm")
    had = have_from_remnant("400 mm", layout.used, wanted, grain=grain)
    assert dict(had.counts) == dict(layout.counts)
    assert had.proven


def invented(seed):
    """A remnant in whole cm, and up to three sizes of which more are wanted than it may have room for."""
    chance = random.Random(seed)
    cloth = chance.randint(24, 90), chance.randint(20, 80)
    sizes = [
        (chance.randint(8, 30), chance.randint(8, 30), chance.randint(1, 4))
        for _ in range(chance.randint(1, 3))
    ]
    return cloth, sizes, chance.random() < 0.5


# Forty remnants, against a greedy library in all its ways, and against what a bolt so wide would take.
@pytest.mark.parametrize("tens", range(4))
def test_no_less_is_had_than_a_greedy_library_lays_or_the_bolt_s_own_layout_shows_to_fit(tens, greedy):
    for seed in range(10 * tens, 10 * tens + 10):
        (across, down), sizes, turn = invented(seed)
        had = asked((across, down), [(a, d, many, a * d) for a, d, many in sizes], turn)
        pieces = [(a, d) for a, d, many in sizes for _ in range(many)]
        assert had.worth >= greedy(across, down, pieces, turn), seed
        wanted = [(f"size {n}", f"{a} cm", f"{d} cm", many) for n, (a, d, many) in enumerate(sizes)]
        if all(min(a, d if turn else a) <= across for a, d, _ in sizes):
            layout = cut_from_bolt(wanted, f"{across} cm", grain="free" if turn else "fixed", unit="1 cm")
            if layout.used.cm <= down:
                assert dict(had.counts) == dict(layout.counts), seed


# The parts


@given(st.lists(st.integers(1, 12), min_size=1, max_size=4), st.integers(0, 40))
@example([5], 4)
def test_sums_are_all_that_a_size_or_several_add_up_to(sizes, most):
    every = {0}
    for _ in range(most):
        every |= {n + size for n in every for size in sizes if n + size <= most}
    assert sums_within(sizes, most) == sorted(every)


PLATES = st.lists(st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(1, 9)), min_size=1, max_size=3)


@settings(max_examples=15)
@given(PLATES)
@example([(2, 3, 5), (2, 3, 1)])  # of one size, and unlike in worth
def test_each_smaller_cloth_is_worth_what_the_best_way_to_cut_it_gives(sizes):
    plates = Plates([single(k, a, d) for k, (a, d, _) in enumerate(sizes)], [w for *_, w in sizes], 7, 6)
    best = all_ways([(a, d, None, w) for a, d, w in sizes], False)
    for across, down in itertools.product(range(1, 8), range(1, 7)):
        assert plates.worth(across, down) == best(across, down)
    block = plates.block()
    assert sum(sizes[k][2] * n for k, n in (block.kinds if block else {}).items()) == plates.worth(7, 6)


# Beside and below a block stands no more than this: any best block that contains it would show it.
@settings(max_examples=25)
@given(PLATES)
def test_what_can_stand_beside_and_below_a_block_is_never_too_little(sizes):
    plates = Plates([single(k, a, d) for k, (a, d, _) in enumerate(sizes)], [w for *_, w in sizes], 7, 6)
    for one in plates.singles:
        beyond = plates.beyond(one.across, one.down)
        beside = plates.worth(7 - one.across, one.down) + plates.worth(7, 6 - one.down)
        below = plates.worth(one.across, 6 - one.down) + plates.worth(7 - one.across, 6)
        assert beyond >= max(beside, below)
    assert plates.beyond(7, 6) == 0


# Bad input

LINE = "for example [('coaster', '6 in', '6 in', 24)]."
REFUSED = {
    "no sizes": ({"sizes": []}, f"sizes has no sizes, but must have from 1 to 30; {LINE}"),
    "text": ({"sizes": "mat"}, f"sizes is 'mat', but must be a list of sizes, with a line for each; {LINE}"),
    "some with a worth": (
        {"sizes": [("mat", "5 cm", "5 cm", None, 3), ("square", "4 cm", "4 cm")]},
        "square has no worth, but either every size has one or none has; "
        "for example ('square', '6 in', '6 in', None, 3).",
    ),
    "crumbs": (
        {"sizes": [("crumb", "1 mm", "1 mm")]},
        "crumb is so small that more than 1000 could be cut from the remnant, but it must then say how many "
        "at most; for example ('crumb', '2 in', '2 in', 50).",
    ),
    "turn": ({"grain": "both"}, "grain is 'both', but must be one of 'fixed', 'free'; for example 'fixed'."),
    "width": ({"width": "0 in"}, "width is 0 mm, but must be more than nothing; for example '3/8 in'."),
    "length": (
        {"length": "12"},
        "length: The length '12' has no unit, but it needs in, cm, mm, m, ft or yd; for example '3/8 in', "
        "'1 cm' or '9.5 mm'.",
    ),
}


@for_each("case", REFUSED)
def test_what_is_no_remnant_or_no_size_is_refused_in_a_sentence(case):
    wrong, sentence = REFUSED[case]
    right = {"width": "50 cm", "length": "40 cm", "sizes": [("mat", "30 cm", "20 cm")]}
    with pytest.raises(HemError) as refused:
        have_from_remnant(**(right | wrong))
    assert str(refused.value) == sentence


def test_where_nothing_fits_nothing_is_had_and_nothing_could_be():
    assert best_yield([Kind((single(0, 9, 2),), worth=5)], 8, 8) == Best(None, 0, 0)


def test_a_thousand_may_be_had_without_saying_how_many_and_no_more():
    crumb = [("crumb", "1 cm", "1 cm")]
    assert have_from_remnant("100 cm", "10 cm", crumb).counts["crumb"] == 1000
    with pytest.raises(HemError, match="more than 1000 could be cut"):
        have_from_remnant("101 cm", "10 cm", crumb)
