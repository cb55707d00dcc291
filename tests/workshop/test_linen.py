"""Linen as it is bought: turned pieces keep their threads, a kit names its linen, and what is allowed for."""

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.bolt.allowances import NOTHING, BoltAllowances
from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.cut_sizes import CutSize
from hemcalc.bolt.remnant import have_from_remnant
from hemcalc.bolt.shop_unit import as_shop_unit
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.piece import Piece
from hemcalc.workshop.cutting import cut_for_class, washed_class
from hemcalc.workshop.goods import Goods
from hemcalc.workshop.kit import Kit, cut_size_of, turned
from hemcalc.workshop.linen import WASHES, Linen, fabric_for
from hemcalc.workshop.spreadsheet import kit_rows
from hemcalc.workshop.workshop import Workshop

SHOP = (
    Goods("working thread", "80 m", "4.20", "ball"),
    Goods("basting thread", "100 m", "1.95"),
    Goods("tapestry needle", 6, "2.75", "packet"),
)
UNEVEN = Fabric("36/in", "34/in", shrink_warp="8 %", shrink_weft="3 %")

fabrics = st.builds(
    Fabric,
    st.sampled_from(["18/in", "25/in", "36/in", "11/cm"]),
    st.sampled_from(["19/in", "28/in", "34/in", "12/cm"]),
    shrink_warp=st.sampled_from(["0 %", "8 %", "5.5 %"]),
    shrink_weft=st.sampled_from(["0 %", "3 %"]),
    washed=st.booleans(),
)
pieces = st.builds(
    Piece,
    fabrics,
    st.tuples(st.integers(20, 400), st.integers(20, 400)),
    hem=st.sampled_from(["1/4 in", "3/8 in", "1 cm"]),
    clear=st.integers(2, 12),
    handling=st.sampled_from(["0 in", "1/2 in"]),
)


# Turned pieces keep their threads


# The sum written anew: what lies along the warp of the bolt is counted by its weft.
@settings(max_examples=20, deadline=None)
@given(pieces, st.sampled_from(["in", "cm", "mm"]))
def test_a_piece_laid_turned_has_room_for_the_threads_that_it_is_planned_in(piece, unit):
    size = cut_size_of("piece", piece, 1, unit)
    across, down = size.turned
    cloth, planned = piece.fabric, turned(piece)
    threads_across, threads_down = planned.cut_size.threads
    assert cloth.down.per_mm * down.mm >= threads_across
    assert cloth.across.per_mm * across.mm >= threads_down
    mark = {"in": Fraction(254, 80), "cm": Fraction(5), "mm": Fraction(1)}[unit]
    assert cloth.down.per_mm * (down.mm - mark) < threads_across
    assert planned.design == piece.design


# 400 × 320 threads on 36 and 34 to the inch, by hand: 400 / 34 = 11.76 in of warp, where 400 / 36 = 11.11.
def test_turned_by_lengths_alone_twenty_two_threads_would_be_missing():
    piece = Piece(Fabric("36/in", "34/in"), (360, 280), hem=10, same="threads", clear=0, drawn=1)
    margin = 20
    piece = piece.with_changes(design=(400 - 2 * piece.edges.left.rule.margin, 320 - 2 * margin))
    assert piece.cut_size.threads[0] == 400
    size = cut_size_of("cloth", piece, 1, "mm")
    exchanged = piece.fabric.down.per_mm * size.across.mm
    assert 400 - exchanged > 21
    assert piece.fabric.down.per_mm * size.turned[1].mm >= 400


def test_a_class_that_is_laid_free_has_sheets_for_the_way_each_piece_was_cut():
    linen = Linen(fabric_for(UNEVEN, "after finishing"), "60 cm", Goods("white", "10 cm"))
    piece = Piece(linen.fabric, (300, 560), hem="3/8 in", clear=8)
    shop = Workshop("Class", [Kit(f"L {n}", piece, "runner") for n in range(5)], [linen], SHOP, unit="cm")
    layouts = cut_for_class(shop, grain="free")
    laid = shop.with_lengths(layouts)
    ways = sorted(placed.turned for placed in layouts["white"].pieces)
    assert any(ways), "were none turned, this would show nothing"
    assert [kit.turned for kit in laid.kits] == ways
    for kit in laid.kits:
        assert kit.piece == (turned(piece) if kit.turned else piece)
        assert bool(kit.way_text) == kit.turned
    # Each piece on the bolt is as large as the sheet of a kit says.
    for placed in layouts["white"].pieces:
        kit = next(kit for kit in laid.kits if kit.turned == placed.turned)
        across, down = kit.to_cut("cm")
        assert (placed.bit.across, placed.bit.down) == ((down, across) if kit.turned else (across, down))
    # Laid out again, it is the same; and fixed, all are upright again.
    assert cut_for_class(laid, grain="free") == layouts
    assert laid.with_lengths(cut_for_class(laid)).kits == shop.kits


def test_a_size_may_be_said_not_to_turn_and_bare_lengths_are_warned_of():
    sizes = [("mat", "76 cm", "50 cm", 3)]
    assert cut_from_bolt(sizes, "150 cm", grain="free").notes[0].startswith("Turned as bare lengths: mat.")
    stays = [CutSize("mat", "76 cm", "50 cm", 3, turned=False)]
    layout = cut_from_bolt(stays, "150 cm", grain="free")
    assert (layout.used.text("cm"), layout.notes) == ("150 cm", ())
    replanned = [CutSize("mat", "76 cm", "50 cm", 3, turned=("49 cm", "77 cm"))]
    assert cut_from_bolt(replanned, "150 cm", grain="free").used.text("cm") == "77 cm"
    had = have_from_remnant(
        "50 cm", "77 cm", [CutSize("mat", "76 cm", "50 cm", 1, turned=("49 cm", "77 cm"))]
    )
    assert not had.pieces
    sizes = [CutSize("mat", "76 cm", "50 cm", 1, turned=("49 cm", "77 cm"))]
    (piece,) = have_from_remnant("50 cm", "77 cm", sizes, grain="free").pieces
    assert (piece.bit.text("cm"), piece.turned) == ("49 cm × 77 cm", True)


# A kit names its linen


def colours():
    """Two colours of one count, and one of them in two widths."""
    fabric = Fabric("25/in", "26/in", washed=True)
    return [
        Linen(fabric, "140 cm", Goods("white", "10 cm", "2.40")),
        Linen(fabric, "140 cm", Goods("natural", "10 cm", "2.40")),
        Linen(fabric, "90 cm", Goods("white, narrow", "10 cm", "1.60")),
    ]


def coaster(linen=""):
    piece = Piece(Fabric("25/in", "26/in", washed=True), (76, 76), hem="3/8 in", clear=4)
    return Kit("Ada", piece, "coaster", linen=linen)


def test_two_colours_of_one_count_are_bought_once_each():
    white, natural, narrow = colours()
    kits = [replace(coaster("white"), learner="Ada"), replace(coaster("natural"), learner="Bea")]
    pair = Workshop("Pair", kits, [white, natural, narrow], SHOP, unit="cm")
    assert [[size.quantity for size in pair.pieces_of(linen)] for linen in pair.linens] == [[1], [1], []]
    layouts = cut_for_class(pair)
    assert list(layouts) == ["white", "natural"]
    assert all(len(layout.pieces) == 1 for layout in layouts.values())
    lines = {line.goods.name for line in pair.with_lengths(layouts).shopping}
    assert "white, narrow" not in lines
    assert [row["linen"] for row in kit_rows(pair)] == ["white", "natural"]


def test_a_kit_that_could_be_of_several_linens_must_say_which():
    with pytest.raises(HemError, match=r"Ada's coaster could be cut from 'white' or 'natural' or 'white, na"):
        Workshop("One", [coaster()], colours(), SHOP)
    with pytest.raises(HemError, match="linens has no 'blue' for Ada's coaster"):
        Workshop("One", [coaster("blue")], colours(), SHOP)
    other = Linen(Fabric("30/in"), "140 cm", Goods("fine", "10 cm"))
    with pytest.raises(HemError, match="planned on another fabric than 'fine'"):
        Workshop("One", [coaster("fine")], [other], SHOP)


# A learner with several pieces


def test_the_cost_is_shared_among_learners_and_not_among_pieces():
    white = colours()[0]
    kits = [coaster(), replace(coaster(), kind="mat"), replace(coaster(), learner="Bea")]
    shop = Workshop("Two", kits, [white], SHOP, unit="cm").with_lengths({"white": "40 cm"})
    assert shop.learners == ("Ada", "Bea")
    assert shop.cost_each * 2 in (shop.cost, shop.cost + Decimal("0.01"))
    from hemcalc.workshop.spreadsheet import kits_table

    table = kits_table(shop)
    assert list(table.index) == [("Ada", "coaster"), ("Ada", "mat"), ("Bea", "coaster")]


# What is allowed for


lengths = st.integers(1, 400).map(lambda mm: Length(mm))
allowances = st.builds(
    BoltAllowances,
    ends=st.integers(0, 60).map(lambda mm: Length(mm)),
    each_cut=st.integers(0, 12).map(lambda half: Length(Fraction(half, 2))),
    spare=st.integers(0, 90).map(lambda mm: Length(mm)),
    off_length=st.sampled_from(["0 %", "8 %", "12.5 %"]),
    off_width=st.sampled_from(["0 %", "3 %"]),
)


# Walked by hand: wash, square, then cut after cut; every bit is measured, and each cut costs what it costs.
@settings(max_examples=20, deadline=None)
@given(
    st.lists(st.tuples(lengths, lengths, st.integers(1, 3)), min_size=1, max_size=3),
    allowances,
    st.sampled_from(["10 cm", "1/8 yd"]),
)
def test_the_cloth_that_is_bought_is_washed_squared_and_cut_into_all_the_pieces(sizes, allow, unit):
    wanted = [CutSize(f"size {n}", a, d, many) for n, (a, d, many) in enumerate(sizes)]
    layout = cut_from_bolt(wanted, "45 cm", unit=unit, allow=allow)
    bought = layout.to_buy.mm
    assert (bought / Length(unit).mm).denominator == 1
    length = bought * (1 - allow.off_length) - 2 * allow.ends.mm
    width = Length("45 cm").mm * (1 - allow.off_width)
    assert (layout.width.mm, layout.length.mm) == (width, length)
    table = {(Fraction(0), Fraction(0), width, length)}
    for cut in layout.cuts:
        bit = (cut.bit.x.mm, cut.bit.y.mm, cut.bit.across.mm, cut.bit.down.mm)
        assert bit in table, "only what is on the table can be cut"
        table.remove(bit)
        x, y, across, down = bit
        at, lost = cut.at.mm, allow.each_cut.mm
        assert 0 < at <= (down if cut.way == "across" else across)
        if cut.way == "across":
            parts = [(x, y, across, at), (x, y + at + lost, across, down - at - lost)]
        else:
            parts = [(x, y, at, down), (x + at + lost, y, across - at - lost, down)]
        table |= {part for part in parts if min(part[2:]) > 0}
    left = [*(piece.bit for piece in layout.pieces), *layout.offcuts]
    assert table == {(b.x.mm, b.y.mm, b.across.mm, b.down.mm) for b in left}
    for piece in layout.pieces:
        own = next(size for size in wanted if size.name == piece.name)
        assert (piece.bit.across, piece.bit.down) == (own.across, own.down)
    assert layout.used.mm + allow.spare.mm <= length
    # One unit less would not do, and what is over is said.
    one_less = (bought - Length(unit).mm) * (1 - allow.off_length) - 2 * allow.ends.mm
    assert one_less < layout.used.mm + allow.spare.mm
    assert layout.slack.mm == bought - (layout.used.mm + allow.spare.mm + 2 * allow.ends.mm) / (
        1 - allow.off_length
    )


def test_what_is_allowed_for_is_said_and_so_is_the_slack():
    allow = BoltAllowances("2 cm", "1 mm", "5 cm", "8 %", "3 %")
    layout = cut_from_bolt([("mat", "40 cm", "40 cm", 3)], "150 cm", allow=allow)
    said = layout.text("cm")
    assert "8 % off the length and 3 % off the width" in said
    assert "2 cm to square each of the two ends, 0.1 cm for each cut, 5 cm to spare" in said
    # 40 + 5 + 4 = 49 cm, and 49 / 0.92 = 53.26: 60 are bought, and 6.74 are over.
    assert "Buy 60 cm" in said
    assert "Slack after rounding up: ≈ 6.74 cm." in said
    first, second, third, *_ = layout.steps("cm")
    assert first.startswith("Wash first: the whole 60 cm")
    assert second.startswith("Square both ends")
    assert third.startswith("Cut 1")
    assert "Nothing is allowed for" in cut_from_bolt([("mat", "40 cm", "40 cm", 3)], "150 cm").text("cm")


@pytest.mark.parametrize(("down", "said"), [("50 cm", "(none)"), ("49.8 cm", "(0.2 cm)")])
def test_where_there_is_no_slack_the_next_unit_is_said_to_be_safer(down, said):
    text = cut_from_bolt([("mat", "40 cm", down, 1)], "150 cm").text("cm")
    assert f"No slack after rounding up {said}: the next unit, 60 cm, is safer." in text


def test_cuts_that_cost_a_thread_take_a_piece_out_of_a_row_that_was_full():
    sizes = [("strip", "50 cm", "10 cm", 3)]
    assert cut_from_bolt(sizes, "150 cm").used.text("cm") == "10 cm"
    assert cut_from_bolt(sizes, "150 cm", allow=BoltAllowances(each_cut="1 mm")).used.text("cm") == "20.1 cm"
    squares = [("strip", "50 cm", "10 cm")]
    assert len(have_from_remnant("150 cm", "10 cm", squares).pieces) == 3
    assert len(have_from_remnant("150 cm", "10 cm", squares, each_cut="1 mm").pieces) == 2


@for_each(
    ("unit", "sold"),
    [("yard", "1 yd"), ("Yards", "1 yd"), ("metre", "1 m"), ("m", "1 m"), ("1/8 yd", "1/8 yd")],
)
def test_lengths_to_buy_are_said_in_the_shop_s_unit(unit, sold):
    shop = as_shop_unit(unit)
    assert shop.text(shop.each) == sold
    goods = Goods("linen", unit)
    assert goods.each == shop.each
    assert goods.buy(3 * shop.each).text().endswith(f"= {shop.text(3 * shop.each)}")


def test_a_price_that_may_be_a_thousand_is_refused_with_both_ways_out():
    for price in ("1,250", "1.250", "12,500"):
        with pytest.raises(HemError, match=r"which may mean 1\d?\d?[25]\d0+ or"):
            Goods("linen", "yard", price)
    assert Goods("thread", "80 m", "0,125").price == Decimal("0.125")
    assert Goods("linen", "yard", "1250").price == Decimal(1250)


# When it is washed


# 92 cm of washed cloth are 100 cm of raw, at 8 % off the length; reckoned here from the threads.
@settings(max_examples=15, deadline=None)
@given(
    st.sampled_from(["8 %", "5 %", "0 %"]),
    st.sampled_from(["3 %", "6 %"]),
    st.integers(1, 6),
    st.sampled_from(WASHES),
)
def test_each_way_to_wash_buys_enough_threads_for_all_the_pieces(off_length, off_width, many, wash):
    raw = Fabric("28/in", "27/in", shrink_warp=off_length, shrink_weft=off_width)
    piece = Piece(raw, (224, 168), hem="3/8 in", clear=8, handling="1/2 in")
    linen = Linen(raw, "120 cm", Goods("white", "10 cm"))
    kits = [Kit(f"L {n}", piece) for n in range(many)]
    shop = washed_class(Workshop("Class", kits, [linen], SHOP, unit="cm"), wash)
    (layout,) = cut_for_class(shop).values()
    # Threads are what the wash can't take: those of the raw bolt against those of all the rows.
    across, down = shop.kits[0].piece.cut_size.threads
    rows = {piece.bit.y.mm for piece in layout.pieces}
    assert raw.down.per_mm * layout.to_buy.mm >= len(rows) * down
    beside = max(sum(p.bit.y.mm == y for p in layout.pieces) for y in rows)
    assert raw.across.per_mm * 1200 >= beside * across
    assert (shop.linens[0].wash_text.find("Wash first") > 0) == (wash == "before cutting")
    assert layout.allow.washed_first == (wash == "before cutting")
    assert any(step.startswith("Wash first") for step in layout.steps()) == (wash == "before cutting")


def test_washed_linen_with_a_shrinkage_is_bought_raw_unless_it_is_said():
    washed = fabric_for(UNEVEN, "before cutting")
    assert Linen(washed, "150 cm", Goods("a", "10 cm")).wash == "before cutting"
    assert Linen(washed, "150 cm", Goods("a", "10 cm"), "never").allow.off_length == 0
    assert Linen(UNEVEN, "150 cm", Goods("a", "10 cm")).wash == "after finishing"
    assert Linen(Fabric("28/in"), "150 cm", Goods("a", "10 cm")).wash == "never"
    assert fabric_for(washed, "after finishing") == UNEVEN
    for fabric, wash, begins in (
        (washed, "before cutting", "Bought raw. Wash first, before cutting: "),
        (UNEVEN, "after finishing", "Bought raw and cut raw, at the sizes before the wash"),
        (washed, "never", "Its lengths are those after the wash: buy it washed"),
        (Fabric("28/in"), "never", "Bought raw, cut raw and never washed"),
    ):
        assert Linen(fabric, "150 cm", Goods("a", "10 cm"), wash).wash_text.startswith(begins)


@for_each(
    ("fabric", "wash", "words"),
    [
        (UNEVEN, "before cutting", "is washed before cutting, but its fabric's counts were taken before"),
        (fabric_for(UNEVEN, "before cutting"), "after finishing", "counts were taken after the wash"),
        (Fabric("28/in", washed=True), "before cutting", "says no shrinkage, and too little would be bought"),
        (UNEVEN, "never", "is never washed, but its fabric allows for a wash"),
        (UNEVEN, "soon", "wash is 'soon', but must be one of"),
    ],
)
def test_a_wash_that_the_fabric_contradicts_is_refused_in_a_sentence(fabric, wash, words):
    with pytest.raises(HemError, match=words) as no:
        Linen(fabric, "150 cm", Goods("white", "10 cm"), wash)
    assert "for example" in str(no.value)


def test_nothing_allowed_for_is_the_bare_rectangles():
    assert NOTHING.to_have(Length(420)) == NOTHING.left_of(Length(420)) == NOTHING.width(Length(420))
    with pytest.raises(HemError, match="off_length is '80 %'"):
        BoltAllowances(off_length="80 %")
    with pytest.raises(HemError, match="allow is '2 cm', but must be a BoltAllowances"):
        cut_from_bolt([("mat", "5 cm", "5 cm", 1)], "50 cm", allow="2 cm")
