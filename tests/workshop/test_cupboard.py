"""A cupboard of rests is used before the bolt is bought, and shops are held side by side."""

from collections import Counter
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace
from unittest import mock

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc import Fabric, HemError, Kit, Length, Piece, Workshop, example_workshop
from hemcalc.workshop import Goods, Linen, Rest, cut_for_class, example_cupboard, washed_class, where_to_buy

SHOP = (
    Goods("working thread", "80 m", "4.20", "ball"),
    Goods("basting thread", "100 m", "1.95"),
    Goods("tapestry needle", 6, "2.75", "packet"),
)
RAW = Fabric("28/in", "27/in", shrink_warp="8 %", shrink_weft="3 %")
MAT = Piece(RAW, (224, 168), hem="3/8 in", clear=8)
COASTER = Piece(RAW, (76, 76), hem="3/8 in", clear=4)


def class_of(mats=7, coasters=5, width="140 cm", price="2.40"):
    """Learners with a mat or a coaster each, of one raw linen that is washed when it is finished."""
    kits = [Kit(f"M {n}", MAT, "mat") for n in range(mats)]
    kits += [Kit(f"C {n}", COASTER, "coaster") for n in range(coasters)]
    linen = Linen(RAW, width, Goods("white", "10 cm", price))
    return Workshop("Class", kits, [linen], SHOP, unit="cm", currency="crowns")


sizes = st.integers(8, 90).map(lambda cm: f"{cm} cm")
cupboards = st.lists(st.builds(Rest, st.just("white"), sizes, sizes, st.just(False)), max_size=3)


# Every piece is cut once, from a rest that has it or from the bolt; and a cupboard never makes her buy more.
@settings(max_examples=12, deadline=None)
@given(st.integers(1, 6), st.integers(0, 6), cupboards, st.sampled_from(["fixed", "free"]))
def test_rests_and_bolt_give_every_piece_once_and_never_make_her_buy_more(mats, coasters, rests, grain):
    shop = class_of(mats, coasters)
    cutting = cut_for_class(shop, grain=grain, rests=rests)
    had = Counter()
    labels, turned = [], 0
    for cloth in [*(each.had for each in cutting.rests), *cutting.values()]:
        had.update(cloth.counts)
        labels += [piece.label for piece in cloth.pieces]
        for piece in cloth.pieces:
            turned += piece.turned
            assert piece.bit.x + piece.bit.across <= cloth.width
            assert piece.bit.y + piece.bit.down <= cloth.length
    assert +had == +Counter({"mat": mats, "coaster": coasters})
    assert len(set(labels)) == mats + coasters, "each has a number of its own"
    alone = cut_for_class(shop, grain=grain)["white"].to_buy
    bought = cutting["white"].to_buy if cutting else Length(0)
    assert bought <= alone
    assert dict(cutting.saved).get("white", Length(0)) == alone - bought
    assert bool(cutting.rests) == (bought < alone), "what saves nothing stays whole"
    assert Counter([*(each.rest for each in cutting.rests), *cutting.untouched]) == Counter(rests)
    laid = shop.with_lengths(cutting)
    turned = [
        p.turned for cloth in [*(e.had for e in cutting.rests), *cutting.values()] for p in cloth.pieces
    ]
    assert sum(kit.turned for kit in laid.kits) == sum(turned)
    assert any(line.goods.name == "white" for line in laid.shopping) == bool(cutting)


def test_what_a_rest_gives_and_what_is_left_of_it_is_said():
    across, down = (side.text("cm") for side in Kit("Ada", COASTER).to_cut("cm"))
    assert (across, down) == ("15 cm", "15.5 cm")
    cutting = cut_for_class(class_of(0, 2), rests=[Rest("white", "40 cm", "20 cm", False, "the blue box")])
    assert not cutting
    # Of 40 across 15 and 15 are cut off, of 20 down 15.5, and each of the three cuts costs 0.1.
    (each,) = cutting.rests
    assert each.text("cm") == (
        "From the blue box, 40 cm across × 20 cm down: 2 of coaster. "
        "Left of it: 9.8 cm × 20 cm, 30.1 cm × 4.4 cm."
    )
    assert cutting.text("cm").splitlines()[1:] == ["white: nothing to buy.", "white: the rests save 20 cm."]
    assert list(cutting.table().itertuples(index=False, name=None)) == [
        ("white", "the blue box", "coaster", 2)
    ]
    assert "<td>the blue box</td>" in cutting._repr_html_()
    nameless = cut_for_class(class_of(0, 2), rests=[Rest("white", "40 cm", "20 cm", False)])
    assert nameless.table()["cut from"].tolist() == ["rest 1"]
    large, small = each.had.offcuts
    for bits, said in (
        ([small, large, large], "30.1 cm × 4.4 cm"),
        ([large] * 4, "9.8 cm × 20 cm, and smaller"),
    ):
        left = replace(each, had=SimpleNamespace(offcuts=bits)).left_text("cm")
        assert left == f"9.8 cm × 20 cm, 9.8 cm × 20 cm, {said}"


# Washed first, a raw rest loses 3 % across and 8 % down: 30 × 16 cm become 29.1 × 14.72.
def test_a_raw_rest_is_washed_first_where_its_linen_is():
    shop = washed_class(class_of(0, 1), "before cutting")
    (kit,) = shop.kits
    needs = kit.to_cut("cm")[1]
    raw = Rest("white", "30 cm", Length(needs.mm / Fraction(92, 100)), washed=False)
    (each,) = cut_for_class(shop, rests=[raw]).rests
    assert (each.had.width, each.had.length.mm, each.washed_first) == (Length(291), needs.mm, True)
    assert "Wash it first" in each.text("cm")
    short = Rest("white", "30 cm", Length(needs.mm / Fraction(92, 100) - 1), washed=False)
    assert cut_for_class(shop, rests=[short]).untouched == (short,)
    washed = Rest("white", "30 cm", needs, washed=True)
    assert not cut_for_class(shop, rests=[washed]).rests[0].washed_first


@for_each(
    ("rest", "wash", "words"),
    [
        (Rest("white", "30 cm", "30 cm"), "after finishing", "does not say whether it is washed"),
        (Rest("white", "30 cm", "30 cm", True), "after finishing", "would get too many threads"),
        (Rest("blue", "30 cm", "30 cm", False), "never", "rests is 'blue', but must be one of 'white'"),
        ("30 cm", "never", "rests is a list, but must be a list, each thing in it a Rest"),
    ],
)
def test_a_rest_in_another_state_than_its_pieces_is_refused_in_a_sentence(rest, wash, words):
    for ask in (cut_for_class, where_to_buy):
        with pytest.raises(HemError, match=words) as no:
            ask(washed_class(class_of(1, 1), wash), rests=[rest])
        assert "for example" in str(no.value)


def test_a_rest_of_linen_that_the_wash_takes_in_one_way_alone_must_say_its_state_too():
    for taken in ("shrink_warp", "shrink_weft"):
        linen = Linen(Fabric("28/in", "27/in", **{taken: "5 %"}), "140 cm", Goods("white", "10 cm"))
        with pytest.raises(HemError, match="does not say whether it is washed"):
            Rest("white", "30 cm", "30 cm").to_cut(linen)


def test_linen_whose_wash_is_not_known_takes_no_raw_rest():
    washed = Fabric("28/in", "27/in", washed=True)
    kits = [Kit("Ada", MAT.with_changes(fabric=washed), "mat")]
    shop = Workshop("One", kits, [Linen(washed, "140 cm", Goods("white", "10 cm"))], SHOP)
    with pytest.raises(HemError, match="does not say what the wash takes"):
        cut_for_class(shop, rests=[Rest("white", "60 cm", "60 cm", False)])
    with pytest.raises(HemError, match="washed is 'yes', but must be True, False or left out"):
        Rest("white", "60 cm", "60 cm", "yes")


# Where to buy


def offers_of(shop):
    (white,) = shop.linens
    return [
        white.from_shop("market stall", "90 cm", "25 cm", "4.10"),
        white.from_shop("corner shop", "150 cm", "1 m", "19.50"),
        white.from_shop("attic sale", "20 cm", "10 cm", "0.10"),
        white.from_shop("by post", "150 cm", "10 cm"),
    ]


def test_offers_stand_side_by_side_the_cheapest_first():
    shop = class_of()
    asked = where_to_buy(shop, offers_of(shop))
    costs = [offer.cost for offer in asked.offers]
    # What has no price, and what is too narrow, come last.
    assert costs[-2:] == [None, None]
    assert costs[:-2] == sorted(costs[:-2])
    assert "must be no wider than the bolt" in asked.offers[-1].refused
    for offer in asked.offers[:-1]:
        alone = replace(shop, linens=(offer.linen,))
        layout = cut_for_class(alone)["white"]
        assert offer.layout == layout
        if offer.cost is not None:
            assert offer.cost == offer.linen.goods.price * int(layout.to_buy / offer.linen.goods.each)
    table = asked.table("cm")
    assert list(table.columns) == [
        *("linen", "shop", "width, cm", "to buy, cm", "slack, cm", "waste", "cost", "more"),
    ]
    assert table["to buy, cm"].tolist()[:3] == [float(offer.layout.to_buy.cm) for offer in asked.offers[:3]]
    assert all(table[name].dtype == float for name in ("width, cm", "to buy, cm", "slack, cm", "waste"))
    assert asked._repr_html_().count("<tr>") == len(asked.offers) + 1
    assert asked.at_one_shop[0] == (asked.best[0].linen.goods.shop, asked.best[0].cost)
    assert asked.workshop.cost == asked.best[0].cost + sum(
        line.cost for line in asked.workshop.shopping if line.goods.name != "white"
    )


# Laid out anew with so many more, the same length is bought; with one more of a size, a longer one, or the
# quick search found none: so no fewer are promised than come out of it.
@pytest.mark.parametrize(("mats", "coasters"), [(7, 0), (3, 5), (12, 12)])
def test_as_many_more_learners_as_are_promised_come_out_of_what_is_bought(mats, coasters):
    shop = class_of(mats, coasters)
    (offer,) = where_to_buy(shop).offers
    for kind, more in offer.more:
        larger = {"mat": mats, "coaster": coasters}
        larger[kind] += more
        bought = cut_for_class(class_of(larger["mat"], larger["coaster"]))["white"].to_buy
        assert bought <= offer.layout.to_buy
    # 28.5 cm across, four lie side by side in 140: seven are two rows, with room for one more.
    if not coasters:
        assert offer.more_text == "1 more of mat"


def test_no_more_are_promised_than_may_be_laid_out():
    shop = class_of(5, 0)
    (offer,) = where_to_buy(shop).offers
    assert offer.more[0][1] > 2
    with mock.patch.multiple("hemcalc.workshop.offers", MAX_PIECES=7):
        assert where_to_buy(shop).offers[0].more == (("mat", 2),)


def test_a_budget_is_held_against_all_that_is_bought():
    shop = class_of()
    cost = where_to_buy(shop).workshop.cost
    for budget, said in (
        (cost, "0.00 crowns left of"),
        (cost - 1, "1.00 crowns over"),
        (cost + 2, "2.00 crowns left"),
    ):
        asked = where_to_buy(shop, budget=budget)
        assert asked.over == cost - budget
        assert said in asked.text("cm")
    assert where_to_buy(shop).over is None
    with pytest.raises(HemError, match="budget is 'much'"):
        where_to_buy(shop, budget="much")


def test_the_cupboard_is_used_before_any_shop_is_asked():
    shop = class_of(0, 2)
    asked = where_to_buy(shop, offers_of(shop)[:2], rests=[Rest("white", "40 cm", "20 cm", False)])
    assert [offer.cost for offer in asked.offers] == [Decimal("0.00")] * 3
    assert "white: buy nothing." in asked.text("cm")
    assert "white" not in {line.goods.name for line in asked.workshop.shopping}


def test_an_offer_of_another_cloth_is_refused():
    shop = class_of()
    other = Linen(Fabric("30/in"), "150 cm", Goods("white", "10 cm"))
    with pytest.raises(HemError, match="offers has 'white' of another fabric"):
        where_to_buy(shop, [other])
    narrow = class_of(width="20 cm")
    with pytest.raises(HemError, match="must be no wider than the bolt"):
        where_to_buy(narrow)


# What is left of a row once a rest gives some of it takes the same length of the bolt.
def test_a_rest_that_saves_nothing_stays_whole():
    cutting = cut_for_class(example_workshop("cm"), rests=example_cupboard())
    assert [rest.name for rest in cutting.untouched] == ["top shelf", "roll by the door", "scrap bag"]
    assert [each.rest.name for each in cutting.rests] == ["blue box"]
