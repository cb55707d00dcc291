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
