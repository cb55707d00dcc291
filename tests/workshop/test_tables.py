"""Tables hold what the rows hold, money still exact."""

from decimal import Decimal

from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.spreadsheet import kits_table, shopping_table


def test_the_shopping_table_keeps_decimals_and_whole_numbers():
    shop = example_workshop().with_lengths({"linen for coasters": "35 cm"})
    table = shopping_table(shop)
    assert table.loc["linen for coasters", "cost"] == Decimal("9.60")
    assert isinstance(table.loc["linen for coasters", "cost"], Decimal)
    assert table.loc["linen for coasters", "units"] == 4
    assert isinstance(table.loc["linen for coasters", "units"], int)
    assert table["cost"].dropna().sum() == shop.cost
    assert len(table) == len(shop.shopping)


def test_the_kits_stand_under_their_learners():
    shop = example_workshop()
    table = kits_table(shop)
    assert list(table.index) == [(kit.learner, kit.kind) for kit in shop.every_kit]
    assert table.loc[("Lena", "coaster"), "hand"] == "left"


# Counted off the class list: nine of twelve and both spare kits have a 24, three a 26, all fourteen a sharp;
# and two of each kind lie loose beside them.
def test_the_invented_class_has_needles_for_all_its_kits_and_two_of_each_kind_beside():
    need = shopping_table(example_workshop())["needed"]
    kinds = ("tapestry needle 24", "tapestry needle 26", "sharp needle")
    assert [need[kind] for kind in kinds] == [str(9 + 2 + 2), str(3 + 2), str(14 + 2)]
