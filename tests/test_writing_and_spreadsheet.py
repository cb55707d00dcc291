"""Files are written whole and never over one that is there; CSV opens and does no harm."""

import csv
import io
import os
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import hemcalc.writing
from hemcalc.errors import HemError
from hemcalc.example_workshop import example_workshop
from hemcalc.spreadsheet import csv_text, kit_rows, save_csv, shopping_rows
from hemcalc.writing import write_whole


def test_a_file_that_is_there_is_left_as_it_was_unless_asked(tmp_path):
    file = tmp_path / "list.csv"
    write_whole(file, b"hers")
    with pytest.raises(HemError, match=r"'list.csv' is there already and is left as it was") as no:
        write_whole(file, b"ours")
    assert no.value.about == "path"
    assert file.read_bytes() == b"hers"
    assert write_whole(file, b"ours", replace=True) == file
    assert file.read_bytes() == b"ours"
    assert os.listdir(tmp_path) == ["list.csv"]


def test_a_link_that_leads_nowhere_counts_as_there(tmp_path):
    (tmp_path / "link.csv").symlink_to(tmp_path / "nowhere.csv")
    with pytest.raises(HemError, match="there already"):
        write_whole(tmp_path / "link.csv", b"ours")
    assert not (tmp_path / "nowhere.csv").exists()


def test_a_write_that_breaks_off_leaves_the_old_file_and_no_crumbs(tmp_path, monkeypatch):
    file = write_whole(tmp_path / "list.csv", b"hers")

    def full(*_args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(hemcalc.writing.os, "replace", full)
    with pytest.raises(HemError, match=r"can't be written \(No space left on device\)"):
        write_whole(file, b"ours", replace=True)
    assert file.read_bytes() == b"hers"
    assert os.listdir(tmp_path) == ["list.csv"]
    with pytest.raises(HemError, match="No space left"):
        write_whole(tmp_path / "new.csv", b"ours")
    assert os.listdir(tmp_path) == ["list.csv"]


@pytest.mark.parametrize("bad", ["", 3, None, "no such folder/list.csv", "a\0b"])
def test_a_place_that_cannot_be_written_to_is_refused(tmp_path, monkeypatch, bad):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(HemError, match=r"for example 'list\.csv'"):
        write_whole(bad, b"ours")


def test_a_folder_is_no_file(tmp_path):
    with pytest.raises(HemError, match="is a folder"):
        write_whole(tmp_path, b"ours", replace=True)


def read_back(path: Path, separator: str) -> list[dict[str, str]]:
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file, delimiter=separator))


@pytest.mark.parametrize(("separator", "price"), [(",", "4.60"), (";", "4,60")])
def test_the_shopping_list_opens_as_it_was_with_the_decimal_sign_of_its_separator(tmp_path, separator, price):
    shop = example_workshop()
    path = save_csv(tmp_path / "list.csv", shopping_rows(shop), separator=separator)
    assert path.read_bytes().startswith(b"\xef\xbb\xbfgoods")
    rows = read_back(path, separator)
    assert [row["goods"] for row in rows[:-1]] == [line.goods.name for line in shop.shopping]
    assert rows[4]["cost"] == price
    assert rows[0]["cost"] == ""


def test_every_kit_has_its_row_and_spares_say_so(tmp_path):
    shop = example_workshop("cm")
    rows = read_back(save_csv(tmp_path / "kits.csv", kit_rows(shop)), ",")
    assert [row["learner"] for row in rows] == [kit.learner for kit in shop.every_kit]
    assert [row["spare"] for row in rows] == [""] * 12 + ["spare"] * 2
    for row, kit in zip(rows, shop.every_kit, strict=True):
        assert row["cut across"] == kit.to_cut("cm")[0].text("cm")
        assert Decimal(row["thread to have (cm)"]) * 10 == Decimal(int(kit.thread_to_have.mm))
    assert rows[4]["fold 1 after"] == "28 left and right, 27 top and bottom"


@given(st.text(max_size=20), st.sampled_from([",", ";"]))
def test_no_field_is_a_formula_and_every_text_comes_back(text, separator):
    written = csv_text([{"learner": text, "n": 3}], separator).replace("\n", "\r\n")
    ((field, number),) = list(csv.reader(io.StringIO(written, newline=""), delimiter=separator))[1:]
    assert number == "3"
    assert not field.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
    if text.startswith(("=", "+", "-", "@", "\t", "\r", "\n")):
        assert field[0] == "'"
        field = field[1:]
    assert field.replace("\r\n", "\n") == text.replace("\r\n", "\n") or "\n" in text


def test_what_makes_no_csv_is_refused():
    with pytest.raises(HemError, match=r"separator is '\|'"):
        csv_text([{"a": 1}], "|")
    with pytest.raises(HemError, match="rows is a tuple"):
        csv_text(())
