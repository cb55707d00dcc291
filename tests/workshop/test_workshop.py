"""A class: its totals are the sums of its kits, and money stays exact."""

import copy
import pickle
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

import hemcalc.workshop.example
from hemcalc import EXAMPLES, HemError, Kit, Length, Workshop, cut_from_bolt, example, example_workshop
from hemcalc.workshop import Goods, Linen, cut_for_class, example_offers, where_to_buy

SHOP = (
    Goods("working thread", "80 m", "4.20", "ball"),
    Goods("basting thread", "100 m", "1.95"),
    Goods("tapestry needle", 6, "2.75", "packet"),
)
LINENS = tuple(
    Linen(piece.fabric, "140 cm", Goods(f"linen {kind}", "10 cm", "3.10")) for kind, piece in EXAMPLES.items()
)
KITS = {kind: Kit("Ada", piece, kind) for kind, piece in EXAMPLES.items()}
classes = st.lists(st.sampled_from(sorted(KITS)).map(KITS.__getitem__), min_size=1, max_size=30)


@settings(max_examples=15)
@given(classes, st.lists(st.sampled_from(sorted(KITS)).map(KITS.__getitem__), max_size=4), st.integers(0, 9))
def test_totals_are_the_sums_of_all_kits_spares_among_them(kits, spares, spare_needles):
    shop = Workshop("Class", kits, LINENS, SHOP, spares=spares, spare_needles=spare_needles)
    needs = {line.goods.name: line.need for line in shop.shopping}
    every = [*kits, *spares]
    assert needs["working thread"].mm == sum(kit.thread_to_have.mm for kit in every)
    assert needs["basting thread"].mm == sum(kit.basting_to_have.mm for kit in every)
    assert needs["tapestry needle"] == sum(kit.needles for kit in every) + spare_needles
    out = {each.name: each for each in shop.counted_out}
    assert out["tapestry needle"].in_bags == sum(kit.needles for kit in kits)
    assert out["tapestry needle"].in_all == needs["tapestry needle"]
    assert out["sharp needle"].in_all == sum(kit.sharps for kit in every) + spare_needles
    assert out["pins"].in_all == sum(kit.pins for kit in every)
    for linen in LINENS:
        mine = [kit for kit in every if kit.piece.fabric == linen.fabric]
        assert sum(size.quantity for size in shop.pieces_of(linen)) == len(mine)
        assert (linen.name in needs) == bool(mine)


def test_cost_is_the_sum_of_lines_and_says_what_it_is_without():
    shop = Workshop(
        "Class",
        [replace(KITS["coaster"], learner=f"Learner {n}") for n in range(7)],
        LINENS,
        SHOP,
        currency="crowns",
    )
    assert shop.unpriced == ("linen coaster",)
    assert shop.cost == Decimal("4.20") + Decimal("1.95") + 2 * Decimal("2.75")
    assert shop.cost_text == "11.65 crowns, without linen coaster"
    priced = shop.with_lengths({"linen coaster": "31 cm"})
    assert priced.unpriced == ()
    assert priced.cost_text == "24.05 crowns"
    assert priced.cost_each == Decimal("3.44")
    assert shop.unpriced == ("linen coaster",), "the workshop itself is not changed"


def test_a_length_comes_from_a_layout_with_what_it_allows_for():
    class_of_one = Workshop("Class", [KITS["coaster"]], LINENS, SHOP)
    linen = class_of_one.linen_of(KITS["coaster"])
    (size,) = class_of_one.pieces_of(linen)
    plan = cut_from_bolt([size], linen.width, unit="10 cm", allow=linen.allow)
    (line, *_) = class_of_one.with_lengths({"linen coaster": plan}).shopping
    # By hand: one row of 6 in, and 2 cm at each of the two ends.
    assert size.down == Length("6 in")
    assert line.need == Length("6 in") + Length(40) == plan.needed
    assert line.units == 2
    # A layout for a coarser unit than the shop's is bought as it says, so that its cuts stay true.
    coarse = cut_from_bolt([size], linen.width, unit="metre", allow=linen.allow)
    (line, *_) = class_of_one.with_lengths({"linen coaster": coarse}).shopping
    assert (line.need, line.units) == (Length(1000), 10)


@pytest.mark.parametrize("unit", ["in", "cm"])
def test_the_linen_bought_is_what_the_layouts_say_with_every_piece_in_it(unit):
    shop = example_workshop(unit)
    layouts = cut_for_class(shop)
    priced = shop.with_lengths(layouts)
    assert priced.unpriced == ()
    for line, linen in zip(priced.shopping, shop.linens, strict=False):
        layout = layouts[linen.name]
        assert line.units * linen.goods.each == layout.to_buy
        assert dict(layout.counts) == {size.name: size.quantity for size in shop.pieces_of(linen)}
    with pytest.raises(HemError, match="workshop is 3, but must be a Workshop"):
        cut_for_class(3)


def test_two_sizes_of_one_kind_are_told_apart_for_the_bolt():
    small = example("coaster")
    large = small.with_changes(design=(100, 100))
    shop = Workshop("Class", [Kit("Ada", small, "coaster"), Kit("Bea", large, "coaster")] * 2, LINENS, SHOP)
    linen = next(one for one in LINENS if one.fabric == small.fabric)
    pieces = shop.pieces_of(linen)
    assert [(size.name, size.quantity) for size in pieces] == [("coaster", 2), ("coaster (2)", 2)]
    assert (pieces[0].across, pieces[0].down) == large.cut_size.to_cut("in")


COASTERS = {"title": "Class", "kits": [KITS["coaster"]], "linens": LINENS, "goods": SHOP}


@for_each(
    ("given", "words"),
    [
        ({"kits": []}, "kits has 0 in it"),
        ({"kits": [3]}, "kits is a list, but must be a list, each thing in it a Kit"),
        ({"kits": "Ada"}, "kits is 'Ada'"),
        ({"linens": []}, "linens has no cloth for Ada's coaster"),
        ({"goods": SHOP[1:]}, "goods has no 'working thread' sold by length for Ada's kit"),
        ({"goods": (*SHOP[:2], Goods("tapestry needle", "1 m"))}, "no 'tapestry needle' sold by number"),
        ({"goods": (*SHOP, SHOP[0])}, "goods has 'working thread' 2 times"),
        ({"spare_needles": -1}, "spare_needles is -1, but must be a whole number of needles"),
        ({"unit": "ell"}, "unit is 'ell'"),
        ({"title": ""}, "title is ''"),
        ({"currency": 3}, "currency is 3"),
    ],
)
def test_a_workshop_that_cannot_be_is_refused_in_a_sentence(given, words):
    with pytest.raises(HemError, match=words) as no:
        Workshop(**{**COASTERS, **given})
    assert "for example" in str(no.value)


def test_a_workshop_is_copied_and_kept_as_it_is():
    shop = example_workshop()
    shop = shop.with_lengths({linen.name: "50 cm" for linen in shop.linens})
    for other in (copy.deepcopy(shop), pickle.loads(pickle.dumps(shop))):
        assert other == shop
        assert hash(other) == hash(shop)
        assert other.shopping == shop.shopping
        with pytest.raises(TypeError):
            other.lengths["linen"] = Length(1)


def test_needles_count_in_any_exact_number():
    shop = replace(example_workshop(), spare_needles=Fraction(6))
    assert type(shop.spare_needles) is int
    assert type(replace(shop.kits[0], needles=Decimal(2)).needles) is int


def test_lengths_are_lengths():
    shop = example_workshop()
    with pytest.raises(HemError, match="lengths is '2 m', but must be a Length"):
        replace(shop, lengths={shop.linens[0].name: "2 m"})


def test_a_length_for_no_linen_is_refused():
    shop = Workshop(**COASTERS)
    with pytest.raises(HemError, match="linen is 'silk', but must be one of"):
        shop.with_lengths({"silk": "1 m"})
    with pytest.raises(HemError, match="linen coaster: A length is written as text"):
        shop.with_lengths({"linen coaster": 3})


def test_linen_is_sold_by_length_and_is_a_fabric():
    with pytest.raises(HemError, match="linen is sold by length"):
        Linen(example("coaster").fabric, "140 cm", Goods("linen", 6))
    with pytest.raises(HemError, match="fabric is '28/in', but must be a Fabric"):
        Linen("28/in", "140 cm", Goods("linen", "10 cm"))


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_the_invented_workshop_is_twelve_learners_and_says_that_it_is_invented(unit):
    shop = example_workshop(unit)
    assert len(shop.kits) == 12
    assert {kit.kind for kit in shop.kits} == set(EXAMPLES)
    assert {kit.hand for kit in shop.kits} == {"left", "right"}
    assert "invented" in shop.note
    assert "invented" in hemcalc.workshop.example.__doc__
    assert replace(shop, unit="in").kits == example_workshop().kits


# Of nine kits with the coarse needle, three with the fine, two spares of the coarse and two needles more of
# each: 13 coarse, 5 fine, 16 sharp; and 12 pins for each of 14 bags.
def test_the_invented_class_s_bill_is_as_by_hand():
    shop = example_workshop("cm")
    packets = {
        line.goods.name: line.text() for line in shop.shopping if not isinstance(line.goods.each, Length)
    }
    assert packets == {
        "tapestry needle 24": "3 × packet of 6",
        "tapestry needle 26": "1 × packet of 6",
        "sharp needle": "2 × packet of 10",
        "pins": "4 × box of 50",
    }
    threads = "4.20 4.80 1.95 1.95 1.95"  # 57, 14 and 277 m, in balls of 80 and 150 m and reels of 100 m
    needles = "2.75 2.75 2.75 2.75 2.20 2.20 1.60 1.60 1.60 1.60"
    linens = "9.30 10.80 8.40 4.80 10.40 9.80"  # as below
    bill = sum(map(Decimal, f"{threads} {needles} {linens}".split()))
    assert shop.with_lengths(cut_for_class(shop)).cost == bill == Decimal("90.15")


# Rows across the width, a cut between two pieces, and beside the rows 4 cm for the ends. Bread cloths, 28 ×
# 25.5 cm: of 140 cm four fit and not five, for 5 × 28 is all of it; of 90 cm three, so two rows of them.
def test_the_invented_offers_come_to_what_a_sum_by_hand_gives():
    asked = where_to_buy(example_workshop("cm"), example_offers("cm"))
    assert [
        (offer.linen.name, offer.linen.goods.shop, str(offer.cost), *(more for _, more in offer.more))
        for offer in asked.offers
    ] == [
        ("linen for bread cloths", "", "9.30", 0),  # 29.5 cm: 3 × 3.10
        ("linen for bread cloths", "the mill shop", "9.50", 1),  # of 160 cm five
        ("linen for bread cloths", "the market stall", "9.60", 2),  # 2 × 25.5 + 4 cm: 6 × 1.60
        ("linen for samplers", "the market stall", "7.80", 1),  # 28.5 × 24 cm: of 90 cm three; 3 × 2.60
        ("linen for samplers", "", "10.80", 2),  # four; 3 × 3.60
        ("linen for samplers", "the mill shop", "11.00", 3),  # five
        ("linen for bookmarks", "", "8.40", 13),  # 9 × 21.5 cm: fifteen; 3 × 2.80
        (
            "linen for coasters",
            "",
            "4.80",
            5,
        ),  # 15.5 × 15.5 cm: eight, for of nine eight cuts take 0.8 cm; 2 × 2.40
        ("linen for tray cloths", "", "10.40", 2),  # 34 × 31.5 cm, of 150 cm: four; 4 × 2.60
        ("linen for tray cloths", "the mill shop", "12.50", 3),  # of 200 cm five
        ("linen for lavender bags", "the market stall", "3.80", 4),  # 9.5 × 11 cm, of 50 cm: five; 2 × 1.90
        ("linen for lavender bags", "", "9.80", 13),  # fourteen; 2 × 4.90
    ]
    # Of two sizes one may be had once more; "0 more" is never said.
    for more, said in (((("mat", 0), ("rug", 2)), True), ((("mat", 0), ("rug", 0)), False)):
        text = replace(asked, offers=(replace(asked.offers[0], more=more),)).text("cm")
        assert ("It would serve 2 more of rug." in text) == said == ("It would serve" in text)
