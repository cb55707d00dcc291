"""The panels as they stand in JupyterLab: in sight, named, typed into, and put to sleep with their kernel.

One Lab, one notebook with every panel, a few looks at it. Needs a Chromium, and axe-core for one test.

    python3 -m hemcalc browser
"""

import importlib.util
import pathlib
import shutil
from contextlib import contextmanager

import nbformat
import pytest

ROOT = pathlib.Path(__file__).parents[2]
KINDS = ("margin", "corner", "weave", "spacing", "stitch", "count", "bolt")
IN_SIGHT = 529  # pixels of a notebook that are seen at 1366 × 768
LEAST_TRACK = 120  # pixels
IDLE = ".jp-Notebook-ExecutionIndicator[data-status=idle]"

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop


@contextmanager
def opened(browser, lab_over, folder, cells):
    """A lab's page with a notebook of these cells, at 1366 × 768, its sidebar closed."""
    metadata = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
    made = nbformat.v4.new_notebook(cells=list(map(nbformat.v4.new_code_cell, cells)), metadata=metadata)
    nbformat.write(made, folder / "panels.ipynb")
    with lab_over(folder) as address:
        page = browser.new_page(viewport={"width": 1366, "height": 768})
        page.goto(f"{address}/lab/tree/panels.ipynb?token=t&reset")
        page.wait_for_selector(IDLE, timeout=60_000)
        page.keyboard.press("Control+b")
        yield page
        page.close()


@pytest.fixture(scope="module")
def page(tmp_path_factory, browser, lab_over):
    """A page with every panel, run."""
    folder = tmp_path_factory.mktemp("lab")
    shutil.copy(ROOT / "notebooks/02_the_margin_rule.ipynb", folder)
    cells = [f"from hemcalc.panels import {kind}_panel\n\n{kind}_panel()" for kind in KINDS]
    with opened(browser, lab_over, folder, cells) as page:
        run_all(page, len(KINDS))
        page.wait_for_selector(IDLE, timeout=60_000)
        page.wait_for_timeout(1000)
        yield page


def run_all(page, many):
    """Run every cell, and wait for so many panels' pictures; where Lab asks for a kernel, give it one."""
    # So high that Lab puts every cell on the page, and none is left for when it is scrolled to.
    page.set_viewport_size({"width": 1366, "height": 6000})
    page.wait_for_timeout(1000)
    choose(page, "Run", "Run All Cells")
    for waited in range(1, 181):
        page.wait_for_timeout(500)
        if waited % 40 == 0 and not page.locator(".hemcalc-picture img").count():
            choose(page, "Run", "Run All Cells")  # asked before the kernel was there
        question = page.locator('.jp-Dialog button:has-text("Select")')
        if question.count():
            question.first.click()
            page.wait_for_timeout(3000)
            choose(page, "Run", "Run All Cells")
        if page.locator(".hemcalc-picture img").count() >= many:
            page.set_viewport_size({"width": 1366, "height": 768})
            return
    pytest.fail("not every panel is shown")


def choose(page, menu, item):
    page.click(f'.lm-MenuBar-itemLabel:text-is("{menu}")')
    page.click(f'.lm-Menu-itemLabel:text-is("{item}")')


def panel(page, kind):
    return page.locator(".hemcalc-panel").nth(KINDS.index(kind))


def row(page, kind, label):
    return panel(page, kind).locator(".hemcalc-row", has=page.locator(f'label:text-is("{label}")')).first


def source(page, kind):
    return panel(page, kind).locator(".hemcalc-picture img").get_attribute("src")


def changed(page, kind, before):
    """Whether the picture becomes another within two seconds."""
    for _ in range(40):
        if source(page, kind) != before:
            return True
        page.wait_for_timeout(50)
    return False


MEASURE = """e => {
  const seen = [...e.querySelectorAll('.hemcalc-picture img, .hemcalc-row')].filter(x => x.offsetHeight);
  const boxes = seen.map(x => x.getBoundingClientRect());
  const tracks = [...e.querySelectorAll('.slider-container')].filter(x => x.offsetHeight);
  return [Math.max(...boxes.map(b => b.bottom)) - Math.min(...boxes.map(b => b.top)),
          Math.min(...tracks.map(x => x.getBoundingClientRect().width)),
          Math.max(...boxes.map(b => b.right)),
          e.querySelector('.hemcalc-picture img').getBoundingClientRect().width,
          [...e.querySelectorAll('.hemcalc-control .widget-label')]
            .filter(x => x.offsetHeight && x.scrollWidth > x.clientWidth).map(x => x.textContent)];
}"""


@pytest.mark.parametrize("size", [(1366, 768), (1920, 1080), (1024, 768)], ids=lambda size: str(size[0]))
@pytest.mark.parametrize("kind", KINDS)
def test_picture_and_controls_are_in_sight_together(page, kind, size):
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.wait_for_timeout(300)
    high, track, right, wide, cut = panel(page, kind).locator(".hemcalc-body").evaluate(MEASURE)
    assert track >= LEAST_TRACK
    assert right <= size[0]
    assert wide >= 0.5 * size[0]
    assert not cut, "a name has its room"
    if size[0] > 1024:
        assert high <= IN_SIGHT + size[1] - 768


def test_every_slider_has_a_name_and_a_spoken_value(page):
    page.set_viewport_size({"width": 1366, "height": 768})
    said = page.locator(".hemcalc-panel [role=slider]").evaluate_all(
        "all => all.map(e => [e.getAttribute('aria-label'), e.getAttribute('aria-valuetext'), "
        "e.closest('.widget-inline-hbox').querySelector('.widget-label').textContent])"
    )
    assert len(said) > 30
    assert all(name == label and value for name, value, label in said)
    values = {name: value for name, value, _ in said}
    assert (values["hem, width"], values["usable width"]) == ("3/8 in", "140 cm")


def test_a_key_press_changes_the_picture_and_what_is_spoken(page):
    before = source(page, "margin")
    handle = row(page, "margin", "hem, width").locator("[role=slider]")
    handle.focus()
    page.keyboard.press("ArrowRight")
    assert changed(page, "margin", before)
    page.wait_for_timeout(200)
    assert handle.get_attribute("aria-valuetext") == "7/16 in"
    assert row(page, "margin", "hem, width").locator("input").input_value() == "7/16 in"


@pytest.mark.parametrize(
    ("typed", "seen"), [("5/8 in", "5/8 in"), ("9.525 mm", "3/8 in"), ("22 in", None), ("wide", None)]
)
def test_what_is_typed_is_set_or_answered(page, typed, seen):
    before, box = source(page, "margin"), row(page, "margin", "hem, width").locator("input")
    box.fill(typed)
    box.press("Enter")
    wrong = row(page, "margin", "hem, width").locator(".hemcalc-wrong")
    if seen:
        assert changed(page, "margin", before)
        page.wait_for_timeout(200)
        assert (box.input_value(), wrong.count()) == (seen, 0)
    else:
        wrong.wait_for(state="visible", timeout=5000)
        assert "is not on this slider" in wrong.inner_text()
        assert box.input_value() == typed


def test_the_list_of_cuts_can_be_read_with_the_keyboard(page):
    cuts = panel(page, "bolt").locator(".hemcalc-lines [tabindex='0']")
    cuts.focus()
    assert cuts.evaluate("e => e === document.activeElement && e.scrollHeight > e.clientHeight")
    page.keyboard.press("End")
    page.wait_for_timeout(400)
    assert cuts.evaluate("e => e.scrollTop") > 0


def test_an_inspector_of_accessibility_finds_nothing(page):
    found = importlib.util.find_spec("axe_playwright_python")
    if found is None or not found.submodule_search_locations:
        pytest.skip("the extra 'browser' is not installed")
    page.evaluate((pathlib.Path(found.submodule_search_locations[0]) / "axe.min.js").read_text("utf-8"))
    faults = page.evaluate(
        "axe.run('.hemcalc-panel').then(all => all.violations.map(v => [v.id, v.nodes.map(n => n.html)]))"
    )
    assert faults == []


def test_for_a_hall_everything_grows(page):
    kind = "weave"
    panel(page, kind).locator(".jupyter-widget-Collapse-header").click()
    kinds = panel(page, kind).locator(".widget-dropdown", has=page.locator('label:text-is("type")'))
    kinds.locator("select").select_option("projector")
    page.locator(f".hemcalc-panel.hemcalc-projector >> nth={len(KINDS) - 1}").wait_for()
    sizes = panel(page, kind).evaluate(
        """e => [...e.querySelectorAll('.hemcalc-body *, .hemcalc-words *, .hemcalc-caution *')]
          .filter(x => x.matches('.widget-label, input, select, button, .widget-html-content div'))
          .filter(x => x.offsetHeight && x.textContent + (x.value || ''))
          .map(x => parseFloat(getComputedStyle(x).fontSize))"""
    )
    assert len(sizes) > 10
    assert min(sizes) >= 18
    kinds.locator("select").select_option("page")


def test_run_again_there_are_as_many_panels_on_the_page(page):
    run_all(page, len(KINDS))
    page.wait_for_timeout(1500)
    page.wait_for_selector(IDLE, timeout=60_000)
    page.wait_for_timeout(1000)
    assert page.locator(".hemcalc-panel").count() == len(KINDS)
    assert page.get_by_text("Error displaying widget").count() == 0
    assert page.locator(".hemcalc-asleep:visible").count() == 0


def test_after_a_restart_a_panel_says_how_to_wake_it(page):
    choose(page, "Kernel", "Restart Kernel…")
    page.locator(".jp-Dialog .jp-mod-accept").click()
    asleep = panel(page, "margin").locator(".hemcalc-asleep")
    asleep.wait_for(state="visible", timeout=20_000)
    asleep.scroll_into_view_if_needed()  # Lab renders no text of a cell that is out of sight
    asleep.get_by_text("Run the page from the top").wait_for(state="visible", timeout=5000)


def test_a_page_that_was_opened_and_not_run_says_so_under_its_still(page):
    page.goto(page.url.split("?")[0].replace("panels.ipynb", "02_the_margin_rule.ipynb"))
    line = page.get_by_text("Run the page from the top").first
    line.wait_for(state="visible", timeout=60_000)
    still = page.locator("img[alt^='The edge as a ruler of 37 threads'][alt*='Section of the edge']").first
    assert still.bounding_box()["y"] < line.bounding_box()["y"]
