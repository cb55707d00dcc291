"""My piece and my class in a real browser, typed as a reader types: what is said, kept, stopped and followed.

Needs a Chromium; see `test_notebooks_in_a_browser`. One lab, and one page for all.
"""

import json
import pathlib
import time

import pytest

from hemcalc import load_piece
from hemcalc.workshop.class_file import class_template, read_class

ROOT = pathlib.Path(__file__).parents[2]
PATIENCE = 60_000  # ms
IDLE = ".jp-Notebook-ExecutionIndicator[data-status=idle]"
CELLS = ("my_piece", "margin_panel", "my_class")
#: Boxes, lists and buttons in sight that a screen reader would have no name for.
NAMELESS = """() => [...document.querySelectorAll('.jp-OutputArea :is(input, select, button)')]
  .filter(e => e.checkVisibility() && !e.closest('.widget-slider, .jp-Toolbar'))
  .filter(e => !(e.title || e.getAttribute('aria-label') || e.textContent.trim() ||
                 [...(e.labels || [])].some(l => l.textContent.trim()) || e.closest('label')))
  .map(e => e.outerHTML.slice(0, 120))"""

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A folder with a page of three panels, and a class whose linen is hard to lay out."""
    made = tmp_path_factory.mktemp("mine")
    cells = [
        {
            "cell_type": "code",
            "id": name,
            "metadata": {},
            "source": f"from hemcalc.panels import {name}\n{name}()",
            "outputs": [],
            "execution_count": None,
        }
        for name in CELLS
    ]
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    page = {"cells": cells, "metadata": kernel, "nbformat": 4, "nbformat_minor": 5}
    (made / "page.ipynb").write_text(json.dumps(page), "utf-8")
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
def page(browser, lab_over, folder):
    with lab_over(folder) as address:
        page = browser.new_page(viewport={"width": 1366, "height": 5000})
        page.goto(f"{address}/lab/tree/page.ipynb?token=t&reset")
        page.wait_for_selector(IDLE, timeout=PATIENCE)
        button = page.locator('button:has-text("Lay out and count up")')
        for waited in range(120):
            if waited % 40 == 0:  # and again, where it was asked before the kernel was there
                page.click('.lm-MenuBar-itemLabel:text-is("Run")')
                page.click('.lm-Menu-itemLabel:text-is("Run All Cells")')
            page.wait_for_timeout(500)
            if button.count():
                break
        page.wait_for_selector(IDLE, timeout=PATIENCE)
        yield page
        page.close()


def box(page, label):
    """The box or list behind a label, of the first form that has one."""
    return page.locator(f'.jp-OutputArea label:text-is("{label}") + :is(input, select)').first


def write(page, label, text):
    box(page, label).fill(text)
    box(page, label).press("Enter")


def until(page, words, seconds=30):
    """Wait until it is said."""
    page.locator(".jp-OutputArea [role=status]", has_text=words).first.wait_for(timeout=1000 * seconds)


def test_every_box_list_and_button_has_a_name(page):
    assert page.evaluate(NAMELESS) == []


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
    page.get_by_text("Shown as near as this panel can: count across 28/in").wait_for(timeout=PATIENCE)


def test_it_is_kept_where_it_says(page, folder):
    page.click('button:text-is("Keep")')
    until(page, "Kept in")
    kept = load_piece(folder / "my_piece.json")
    assert kept.clear.left == 9
    page.click('button:text-is("Keep")')
    until(page, "nothing is written over unasked")
    page.click('button:has-text("Print sheet and cards")')
    until(page, "my_piece.pdf", 60)
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
    page.locator(".jp-OutputArea img[alt*='of bread cloth']").first.wait_for(timeout=PATIENCE)
