"""What bolt and workshop hand out shows itself in a line and in tables; what is wrong is refused."""

import importlib
import inspect
import re
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from pandas.api.types import is_numeric_dtype

from hemcalc.bolt import BoltAllowances, CutSize, cut_from_bolt, have_from_remnant
from hemcalc.workshop import (
    Goods,
    Rest,
    cut_for_class,
    example_cupboard,
    example_offers,
    example_workshop,
    shopping_table,
    timetable,
    where_to_buy,
)

FRONTS = ("bolt", "workshop")
LITTLE = Fraction(1, 10)  # of the usual effort in looking for layouts
SHOP = example_workshop("cm")
MIXED = [(f"size {n} with a name", f"{9 + n} cm", f"{13 + n} cm", 2) for n in range(9)]


@pytest.fixture(scope="module")
def asked():
    """What three shops ask, the cupboard looked through first."""
    return where_to_buy(SHOP, example_offers("cm"), rests=example_cupboard(), budget=70)


@pytest.fixture(scope="module")
def things(asked):
    """One of each that the fronts hand out, or more."""
    shop = asked.workshop
    return (
        *(shop, shop.kits[0], shop.kits[0].turn(), *shop.linens[:2], shop.goods[0], *shop.shopping[:2]),
        *(asked, *asked.offers, asked.cutting, *asked.cutting.rests, *example_cupboard()),
        cut_from_bolt(MIXED, "140 cm", effort=LITTLE),
        have_from_remnant("40 cm", "30 cm", MIXED),
        *(CutSize("mat", "12 in", "9 in", 3), BoltAllowances("2 cm", "1 mm", "5 cm", "8 %", "3 %")),
        *(BoltAllowances(), Goods("needle", 6), Rest("white", "12 in", "9 in")),
        *((day := timetable(shop, 5)), day.days[0]),
    )


def test_each_says_in_a_line_what_a_person_wants_to_know(things):
    for thing in things:
        line = repr(thing)
        assert line.startswith(f"{type(thing).__name__}(")
        assert len(line) <= 110, line
        assert not re.search(r"Fraction\(|<.* at 0x|[a-z]=|\n", line), line


def test_a_kit_says_whether_its_piece_is_turned():
    kit = SHOP.kits[0]
    assert repr(kit.turn()) == repr(kit)[:-1] + ", turned)"


# Twelve learners, four of them with the finer needle, two spares with the other; two spare needles of each.
def test_what_a_class_says_of_itself_is_counted_by_hand(asked):
    shop = example_workshop("cm")
    assert repr(shop) == "Workshop(Autumn linen workshop: 12 kits for 12 learners, 2 spares)"
    bought = [repr(each) for each in shop.shopping]
    assert "Bought(linen for coasters: ? × 10 cm, needed not worked out yet)" in bought
    assert "Bought(tapestry needle 24: 3 × packet of 6, needed 13)" in bought
    assert "Bought(tapestry needle 26: 1 × packet of 6, needed 5)" in bought
    assert "Bought(sharp needle: 2 × packet of 10, needed 16)" in bought
    assert "Bought(pins: 4 × box of 50, needed 168)" in bought  # 14 × 12
    cost = asked.workshop.cost
    assert repr(asked) == f"WhereToBuy({len(asked.offers)} offers for 6 linens: {cost} crowns)"
    assert repr(asked.offers[0]) == "Offer(linen for bread cloths, the market stall: 30 cm, 4.80)"
    assert repr(asked.cutting) == "Cutting(5 linens to buy, 2 rests to cut)"
    assert repr(asked.cutting.rests[1]) == "FromRest(linen for coasters: 3 of coaster)"
    assert "linen for coasters: nothing to buy." in asked.cutting.text()
    assert f"That is {cost - 70} crowns over the budget of 70 crowns." in asked.text()
    assert len(asked.text().splitlines()) == 6 + 2
    assert asked.table("cm")["to buy, cm"].iloc[0] == 30


# Of five hours 20 minutes go to the opening, and 10 of each whole hour that is left.
def test_a_day_says_how_much_of_it_is_work_and_what_is_finished_in_it():
    day = timetable(SHOP, 5)
    assert day.text().startswith("5:00 hours, of which 4:00 are work: 20 minutes go ")
    finished = [one for one in day.days if "Then it is finished in the day." in one.text()]
    assert repr(day) == f"Timetable(5:00 hours: {len(finished)} of 6 kinds finished)"
    assert 0 < len(finished) < 6
    for one in day.days:
        end = "finished" if one in finished else "not finished in the day"
        assert repr(one) == f"Day({one.kind}: {one.prepared} prepared, {end})"
        assert one.text() in day.text()


def test_nothing_that_is_exported_is_left_out(things):
    shown = {type(thing).__name__ for thing in things}
    for package in FRONTS:
        front = importlib.import_module(f"hemcalc.{package}")
        assert {name for name in front.__all__ if inspect.isclass(getattr(front, name))} <= shown


def test_each_table_in_a_notebook_heads_its_columns_and_rows(things):
    tables = [thing for thing in things if hasattr(thing, "_repr_html_")]
    assert len({type(thing) for thing in tables}) > 4
    for thing in tables:
        table = ElementTree.fromstring(thing._repr_html_())
        columns = table.findall("thead/tr/th")
        assert table.findtext("caption"), thing
        assert {th.get("scope") for th in columns} == {"col"}, thing
        for row in table.findall("tbody/tr"):
            assert [cell.tag for cell in row] == ["th"] + ["td"] * (len(columns) - 1), thing


def test_tables_have_a_row_for_each_thing_and_numbers_as_numbers(asked):
    layout = asked.cutting["linen for bread cloths"]
    table = layout.table("cm")
    assert len(table) == len(layout.pieces)
    for column in ("from left, cm", "from top, cm", "across, cm", "down, cm"):
        assert is_numeric_dtype(table[column])
    assert table["down, cm"].tolist() == [float(piece.bit.down.cm) for piece in layout.pieces]
    shop = asked.workshop
    assert asked.cutting.table()["pieces"].sum() == len(shop.every_kit)
    assert shopping_table(shop)["cost"].sum() == shop.cost
    assert len(asked.table()) == len(asked.offers)


# What is needed and what is bought of a thing are in one unit, the shop's, whatever the ruler of the cloth.
@pytest.mark.parametrize("unit", ["in", "cm"])
def test_the_shopping_list_says_needs_in_the_unit_in_which_things_are_sold(unit):
    shop = example_workshop(unit)
    for line in shop.with_lengths(cut_for_class(shop)).shopping:
        if line.goods.sold_by:
            assert line.need_text.endswith(f" {line.goods.sold_by.name}")
