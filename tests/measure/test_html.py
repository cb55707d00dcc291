"""The table of HTML that objects show themselves with, read back by a parser of the standard library."""

from __future__ import annotations

from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure.html import table_html

#: What may stand in a cell; carriage returns are white space to every reader of mark-up.
CELLS = st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=12)
TABLES = st.integers(1, 4).flatmap(
    lambda wide: st.tuples(
        st.lists(CELLS, min_size=wide, max_size=wide),
        st.lists(st.lists(CELLS, min_size=wide, max_size=wide), max_size=4),
        CELLS,
    )
)


class Read(HTMLParser):
    """The cells of a table as a reader of HTML has them: tag, scope and text."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.cells: list[tuple[str, str, str]] = []
        self.tags: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag in ("th", "td", "caption"):
            self.cells.append((tag, dict(attrs).get("scope") or "", ""))

    def handle_data(self, data: str) -> None:
        if self.cells and data.strip("\n"):
            tag, scope, text = self.cells[-1]
            self.cells[-1] = tag, scope, text + data


@given(TABLES)
def test_every_cell_is_read_back_as_it_was_written(table: tuple[list[str], list[list[str]], str]) -> None:
    columns, rows, caption = table
    cells = [("caption", "", caption), *(("th", "col", column) for column in columns)]
    for first, *rest in rows:
        cells += [("th", "row", first), *(("td", "", cell) for cell in rest)]
    assert Read(table_html(columns, rows, caption)).cells == cells


def test_what_stands_in_a_cell_is_never_mark_up() -> None:
    read = Read(table_html(["<b>"], [["<script>alert('x')</script>"]], '"&'))
    assert not {"b", "script"} & set(read.tags)
    assert read.cells[-1] == ("th", "row", "<script>alert('x')</script>")


def test_it_is_well_formed_with_a_header_row_and_a_caption() -> None:
    table = ElementTree.fromstring(
        table_html(["band", "threads"], iter([["clear", "8"], ["drawn", "2"]]), "c")
    )
    assert [part.tag for part in table] == ["caption", "thead", "tbody"]
    assert [cell.get("scope") for cell in table.iter("th")] == ["col", "col", "row", "row"]


def test_a_row_of_another_width_is_a_fault_of_ours_and_not_drawn() -> None:
    with pytest.raises(ValueError, match=r"zip\(\)"):
        table_html(["band", "threads"], [["clear"]], "c")
