"""My piece and my class in a real browser, typed as a reader types: what is said, kept, stopped and followed.

Needs a Chromium; see `test_notebooks_in_a_browser`. One lab, and one page for all.
"""

import csv
import io
import pathlib
import re
import time

import pytest

from hemcalc import load_piece
from hemcalc.workshop.class_file import class_template, read_class
from hemcalc.workshop.class_table import TABLES

ROOT = pathlib.Path(__file__).parents[2]
CELLS = ("my_piece", "margin_panel", "my_class")
#: Boxes, lists and buttons in sight that a screen reader would have no name for.
NAMELESS = """() => [...document.querySelectorAll('.jp-OutputArea :is(input, select, button)')]
  .filter(e => e.checkVisibility() && !e.closest('.widget-slider, .jp-Toolbar'))
  .filter(e => !(e.title || e.getAttribute('aria-label') || e.textContent.trim() ||
                 [...(e.labels || [])].some(l => l.textContent.trim()) || e.closest('label')))
  .map(e => e.outerHTML.slice(0, 120))"""

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop


@pytest.fixture(scope="module")
def folder(lab):
    """A folder with a page of three panels, and a class whose linen is hard to lay out."""
    made = lab.folder / "mine"
    lab.write("mine/page.ipynb", *(f"from hemcalc.panels import {name}\n{name}()" for name in CELLS))
    hard = class_template().replace(
        "29/in,27/in,washed,never,,,0.4 mm,140 cm", "29/in,27/in,washed,never,,,,97.3 cm"
    )
    lines = hard.splitlines()
    head = next(n for n, line in enumerate(lines) if line.startswith("learner,"))
    one_linen = [
        line.split(",linen for ")[0] + ",linen for bread cloths,right,4," + line.split(",4,", 1)[1]
        for line in lines[head + 1 : -1]
    ]
    (made / "hard.csv").write_text("\n".join([*lines[: head + 1], *one_linen * 3]) + "\n", "utf-8")
    return made


@pytest.fixture(scope="module")
def page(lab, folder):
    page = lab.open("mine/page.ipynb", 1366, 5000)
    lab.run()
    return page


def box(page, label):
    """The box or list behind a label, of the first form that has one."""
    return page.locator(f'.jp-OutputArea label:text-is("{label}") + :is(input, select)').first


def write(page, label, text):
    box(page, label).fill(text)
    box(page, label).press("Enter")


def until(page, words):
    """Wait until it is said."""
    page.locator(".jp-OutputArea [role=status]", has_text=words).first.wait_for()


def cell(page, table, column, row=1):
    """The box or list of a cell in the form of a class."""
    boxes = page.locator(".hemcalc-table").nth(list(TABLES).index(table))
    return boxes.locator(f':is(input, select)[title^="{column}: "]').nth(row - 1)


def fill_in(page, table, cells, row=1):
    """Write in cells as they come, each left for the next by the Tab key."""
    for column, text in cells.items():
        at = cell(page, table, column, row)
        if at.evaluate("e => e.tagName") == "SELECT":
            at.select_option(text)
        else:
            at.fill(text)
            at.press("Tab")


def test_every_box_list_and_button_has_a_name(page):
    assert page.evaluate(NAMELESS) == []


@pytest.mark.parametrize("wide", [1366, 1024])
def test_the_answer_stands_beside_the_boxes_and_a_row_keeps_its_name_in_sight(page, wide):
    """At 1366 with the list of files open, at 1024 without it."""
    page.set_viewport_size({"width": wide, "height": 5000})
    page.evaluate(f"() => window.jupyterapp.shell.{'expand' if wide > 1024 else 'collapse'}Left()")
    last, answer = box(page, "piece called"), page.locator(".jp-OutputArea [role=status]", has_text="Cut 11")
    page.wait_for_function(
        "([last, answer]) => answer.getBoundingClientRect().left > last.getBoundingClientRect().right && "
        "answer.getBoundingClientRect().bottom < last.getBoundingClientRect().bottom + 200",
        arg=[last.element_handle(), answer.first.element_handle()],
    )
    table = page.locator(".hemcalc-table").nth(list(TABLES).index("learner"))
    table.evaluate("e => { e.scrollLeft = 1e5 }")
    within = "([cell, table]) => cell.getBoundingClientRect().left - table.getBoundingClientRect().left"
    handles = [cell(page, "learner", "learner").element_handle(), table.element_handle()]
    assert 0 <= page.evaluate(within, handles) < 100
    assert cell(page, "learner", "spare").evaluate("e => e.getBoundingClientRect().right") < wide
    page.set_viewport_size({"width": 1366, "height": 5000})
    page.evaluate("() => window.jupyterapp.shell.expandLeft()")


def test_what_is_typed_is_answered_beside_its_box_and_the_next_panel_offers_it(page):
    write(page, "count across", "twenty-eight")
    until(page, "The count 'twenty-eight'")
    until(page, "No numbers yet: see the ✗")
    write(page, "count across", "112, 113, 112 1/2 over 4 in")
    write(page, "clear, threads", "9")
    until(page, "Cut 11 1/2 in across")
    example = box(page, "example")
    assert example.locator("option").first.text_content().split() == ["my", "piece"]
    example.select_option(index=0)
    # Its slider has whole counts only, which is said.
    page.get_by_text("Shown as near as this panel can: count across 28/in").wait_for()


def test_it_is_kept_where_it_says(page, folder):
    page.click('button:text-is("Keep")')
    until(page, "Kept in")
    kept = load_piece(folder / "my_piece.json")
    assert kept.clear.left == 9
    page.click('button:text-is("Keep")')
    until(page, "nothing is written over unasked")
    page.click('button:has-text("Print sheet and cards")')
    until(page, "my_piece.pdf")
    assert (folder / "my_piece.pdf").read_bytes().startswith(b"%PDF")


def test_a_long_layout_tells_how_far_it_is_leaves_the_page_alive_and_stops(page, folder):
    assert len(read_class(folder / "hard.csv").kits) == 36
    page.locator('.jp-OutputArea label:text-is("file") + input').last.fill("hard.csv")
    page.locator('button:text-is("Open")').last.click()
    until(page, "36 kits for 12 learners")
    box(page, "search").select_option("50 times as long")
    page.get_by_label("pieces may be turned").check()
    page.click('button:has-text("Lay out and count up")')
    until(page, "linen for bread cloths: So far")
    began = time.monotonic()
    write(page, "clear, threads", "11")  # in another panel, while the search goes on
    until(page, "12 to 13")
    alive = time.monotonic() - began
    page.click('button:text-is("Stop")')
    until(page, "stopped by hand")
    stopped = time.monotonic() - began - alive
    print(f"Another panel answered after {alive:.1f} s, the search stopped after {stopped:.1f} s.")
    page.locator(".jp-OutputArea img[alt*='of bread cloth']").first.wait_for()


def test_a_teacher_types_a_class_of_her_own_mistakes_and_all_and_prints_it(page, folder):
    page.click('button:text-is("Begin my own")')
    until(page, "Fill in a linen, a piece and a learner")
    fill_in(page, "class", {"class": "Evening class", "currency": "florins"})
    bought = {"linen": "oat", "count across": "26/in", "width": "150 cm", "sold by": "10 cm", "price": "2,40"}
    fill_in(page, "linen", bought)
    fill_in(page, "piece", {"piece": "bookmark", "design across": "60", "design down": "180"})
    fill_in(page, "piece", {"hem": "wide"})
    fill_in(page, "learner", {"learner": "Wren", "piece": "bookmark", "linen": "oats"})
    until(page, "row 1, column linen: 'oats' is none of the linens; for example one of 'oat'")
    until(page, "row 1, column hem: ")
    until(page, "row 1, column clear: ")
    until(page, "To be mended: 3 cells, marked above")
    page.wait_for_function("() => document.querySelectorAll('.hemcalc-bad-cell').length === 3")
    fill_in(page, "learner", {"linen": "oat"})
    fill_in(page, "piece", {"hem": "1/4 in", "clear": "6"})
    until(page, "Evening class: 1 kit for 1 learner")
    page.click('button:text-is("Add a row to learners")')
    until(page, "row 2, column learner:")
    fill_in(page, "learner", {"learner": "Tilda", "hand": "left"}, row=2)
    until(page, "Evening class: 2 kits for 2 learners")
    page.click('button:has-text("Lay out and count up")')
    until(page, "In all: ")
    assert "florins" in page.locator(".jp-OutputArea [role=status]", has_text="In all: ").inner_text()
    box(page, "folder").fill("evening")
    page.click('button:text-is("Print the folder of PDFs")')
    until(page, "3 files are in")
    assert sum(made.read_bytes().startswith(b"%PDF") for made in (folder / "evening").iterdir()) == 3


def test_the_template_comes_back_from_a_spreadsheet_and_is_read(page, folder):
    """As it is saved where numbers have a comma: semicolons between fields, and every row as wide."""
    page.locator('.jp-OutputArea label:text-is("file") + input').last.fill("term.csv")
    page.click('button:text-is("Write the template")')
    until(page, "The template is in")
    rows = list(csv.reader(io.StringIO((folder / "term.csv").read_text("utf-8-sig"))))
    rows[[row[0] for row in rows if row].index("class") + 1][0] = "Spring term"
    wide, saved = max(map(len, rows)), io.StringIO()
    for row in rows:
        prices = [re.sub(r"^(\d+)\.(\d\d)$", r"\1,\2", cell) for cell in row]
        csv.writer(saved, delimiter=";").writerow([*prices, *[""] * (wide - len(row))])
    assert ";4,20;" in saved.getvalue()
    (folder / "term.csv").write_bytes(saved.getvalue().encode("utf-8-sig"))
    page.locator('button:text-is("Open")').last.click()
    until(page, "Spring term: 12 kits for 12 learners, 2 spares")
