"""CSV opens as it was written, does no harm, and never takes the place of another file."""

import csv
import io
from decimal import Decimal
from pathlib import Path

import pytest
from cases import for_each
from hostile import any_text
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.spreadsheet import csv_text, kit_rows, save_csv, shopping_rows


def test_a_file_that_is_there_is_left_as_it_was_unless_asked(tmp_path):
    file = tmp_path / "kits.csv"
    file.write_bytes(b"hers")
    with pytest.raises(HemError, match="nothing is written over unasked"):
        save_csv(file, kit_rows(example_workshop()))
    assert file.read_bytes() == b"hers"
    assert save_csv(file, kit_rows(example_workshop()), replace=True) == file
    assert b"Ada" in file.read_bytes()


def read_back(path: Path, separator: str) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file, delimiter=separator))


@pytest.mark.parametrize(("separator", "price"), [(",", "4.20"), (";", "4,20")])
def test_the_shopping_list_opens_as_it_was_with_the_decimal_sign_of_its_separator(tmp_path, separator, price):
    shop = example_workshop()
    path = save_csv(tmp_path / "list.csv", shopping_rows(shop), separator=separator)
    assert path.read_bytes().startswith(b"\xef\xbb\xbfgoods")
    rows = read_back(path, separator)
    assert [row["goods"] for row in rows] == [line.goods.name for line in shop.shopping]
    assert rows[6]["cost"] == price
    assert rows[0]["cost"] == ""


def test_every_kit_has_its_row_and_spares_say_so(tmp_path):
    shop = example_workshop("cm")
    rows = read_back(save_csv(tmp_path / "kits.csv", kit_rows(shop)), ",")
    assert [row["learner"] for row in rows] == [kit.learner for kit in shop.every_kit]
    assert [row["spare"] for row in rows] == [""] * 12 + ["spare"] * 2
    for row, kit in zip(rows, shop.every_kit, strict=True):
        assert row["cut across"] == kit.to_cut("cm")[0].text("cm")
        assert Decimal(row["thread to have (cm)"]) * 10 == Decimal(int(kit.thread_to_have.mm))
    assert rows[0]["fold 1 after"] == "20 left and right, 19 top and bottom"


@given(any_text(max_size=20), st.sampled_from([",", ";"]))
def test_no_field_is_a_formula_and_every_text_comes_back(text, separator):
    written = csv_text([{"learner": text, "n": 3}], separator)
    ((field, number),) = list(csv.reader(io.StringIO(written, newline=""), delimiter=separator))[1:]
    assert number == "3"
    assert field == (f"'{text}" if text.startswith(("=", "+", "-", "@", "\t", "\r", "\n")) else text)


@for_each("sign", ["=", "+", "-", "@", "\t", "\r"])
def test_a_field_that_begins_like_a_formula_is_only_text(sign):
    written = csv_text([{"learner": f"{sign}1+2"}])
    assert list(csv.reader(io.StringIO(written, newline="")))[1] == [f"'{sign}1+2"]


def test_each_field_stands_under_its_name_in_whatever_order_a_row_has_them():
    assert csv_text([{"a": 1, "b": 2}, {"b": 4, "a": 3}]).splitlines() == ["a,b", "1,2", "3,4"]


def test_what_makes_no_csv_is_refused():
    with pytest.raises(HemError, match=r"separator is '\|'"):
        csv_text([{"a": 1}], "|")
    with pytest.raises(HemError, match="rows is a tuple"):
        csv_text(())
