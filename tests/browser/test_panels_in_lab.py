"""The panels as they stand in JupyterLab: in sight, named, typed into, and put to sleep with their kernel.

One Lab, one notebook with every panel, a few looks at it. Needs a Chromium, and axe-core for one test.

    python3 -m hemcalc browser
"""

import importlib.util
import pathlib
import shutil

import pytest

ROOT = pathlib.Path(__file__).parents[2]
KINDS = ("margin", "corner", "weave", "spacing", "stitch", "count", "bolt")
CELLS = [f"from hemcalc.panels import {kind}_panel\n\n{kind}_panel()" for kind in KINDS]
IN_SIGHT = 529  # pixels of a notebook that are seen at 1366 × 768
SCROLLED_TO = 640  # pixels, of a panel that is scrolled to, in a window 768 high
LEAST_TRACK = 120  # pixels

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop


@pytest.fixture(scope="module")
def page(lab):
    """A page with every panel, run, at 1366 × 768, the sidebar closed."""
    shutil.copy(ROOT / "notebooks/02_the_margin_rule.ipynb", lab.folder)
    # So high that Lab puts every cell on the page, and none is left for when it is scrolled to.
    page = lab.open(lab.write("panels.ipynb", *CELLS), 1366, 6000)
    lab.run()
    page.keyboard.press("Control+b")
    page.set_viewport_size({"width": 1366, "height": 768})
    yield page
    page.keyboard.press("Control+b")


def choose(page, menu, item):
    page.click(f'.lm-MenuBar-itemLabel:text-is("{menu}")')
    page.click(f'.lm-Menu-itemLabel:text-is("{item}")')


def panel(page, kind):
    return page.locator(".hemcalc-panel").nth(KINDS.index(kind))


def row(page, kind, label):
    return panel(page, kind).locator(".hemcalc-row", has=page.locator(f'label:text-is("{label}")')).first


def source(page, kind):
    return panel(page, kind).locator(".hemcalc-picture img").get_attribute("src")


def see_another(page, kind, before):
    """Wait until the picture is another."""
    seen = "([e, before]) => e.querySelector('.hemcalc-picture img').src !== before"
    page.wait_for_function(seen, arg=[panel(page, kind).element_handle(), before])


#: The lab lays its parts out after the window has changed, one after the other: wait until all stand still.
LAID_OUT = """async () => {
  const boxes = () => JSON.stringify([...document.querySelectorAll('.hemcalc-body, .hemcalc-picture img')]
    .map((e) => e.getBoundingClientRect()));
  for (let still = 0, before = ''; still < 5; before = boxes()) {
    await new Promise((done) => requestAnimationFrame(done));
    still = boxes() === before ? still + 1 : 0;
  }
}"""
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
    page.evaluate(LAID_OUT)
    high, track, right, wide, cut = panel(page, kind).locator(".hemcalc-body").evaluate(MEASURE)
    assert track >= LEAST_TRACK
    assert right <= size[0]
    assert wide >= 0.5 * size[0]
    assert not cut, "a name has its room"
    assert high <= (IN_SIGHT + size[1] - 768 if size[0] > 1024 else SCROLLED_TO)


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
    see_another(page, "margin", before)
    row(page, "margin", "hem, width").locator("[aria-valuetext='7/16 in']").wait_for()
    assert row(page, "margin", "hem, width").locator("input").input_value() == "7/16 in"


@pytest.mark.parametrize(
    ("typed", "seen"), [("5/8 in", "5/8 in"), ("9.525 mm", "3/8 in"), ("22 in", None), ("wide", None)]
)
def test_what_is_typed_is_set_or_answered(lab, page, typed, seen):
    before, box = source(page, "margin"), row(page, "margin", "hem, width").locator("input")
    box.fill(typed)
    box.press("Enter")
    wrong = row(page, "margin", "hem, width").locator(".hemcalc-wrong")
    if seen:
        see_another(page, "margin", before)
        lab.settle()
        assert (box.input_value(), wrong.count()) == (seen, 0)
    else:
        wrong.wait_for(state="visible")
        assert "is not on this slider" in wrong.inner_text()
        assert box.input_value() == typed


def test_the_list_of_cuts_can_be_read_with_the_keyboard(page):
    cuts = panel(page, "bolt").locator(".hemcalc-lines [tabindex='0']")
    cuts.focus()
    assert cuts.evaluate("e => e === document.activeElement && e.scrollHeight > e.clientHeight")
    page.keyboard.press("End")
    page.wait_for_function("e => e.scrollTop > 0", arg=cuts.element_handle())


def test_an_inspector_of_accessibility_finds_nothing(page):
    found = importlib.util.find_spec("axe_playwright_python")
    if found is None or not found.submodule_search_locations:
        pytest.skip("the extra 'browser' is not installed")
    page.evaluate((pathlib.Path(found.submodule_search_locations[0]) / "axe.min.js").read_text("utf-8"))
    faults = page.evaluate(
        "axe.run('.hemcalc-panel').then(all => all.violations.map(v => [v.id, v.nodes.map(n => n.html)]))"
    )
    assert faults == []


def test_the_button_to_the_stage_keeps_its_words_when_it_says_how_the_stage_is_started(page):
    page.set_viewport_size({"width": 1024, "height": 768})
    button = panel(page, "margin").get_by_text("On the stage")
    button.click()
    panel(page, "margin").get_by_text("open a second terminal").wait_for()
    assert button.evaluate("e => e.scrollWidth <= e.clientWidth")
    page.set_viewport_size({"width": 1366, "height": 768})


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


def test_run_again_there_are_as_many_panels_on_the_page(lab, page):
    page.set_viewport_size({"width": 1366, "height": 6000})
    lab.run()
    page.set_viewport_size({"width": 1366, "height": 768})
    assert page.locator(".hemcalc-panel").count() == len(KINDS)
    assert page.get_by_text("Error displaying widget").count() == 0
    assert page.locator(".hemcalc-asleep:visible").count() == 0


def test_after_a_restart_a_panel_says_how_to_wake_it(page):
    choose(page, "Kernel", "Restart Kernel…")
    page.locator(".jp-Dialog .jp-mod-accept").click()
    asleep = panel(page, "margin").locator(".hemcalc-asleep")
    asleep.wait_for(state="visible")
    asleep.scroll_into_view_if_needed()  # Lab renders no text of a cell that is out of sight
    asleep.get_by_text("Run the page from the top").wait_for(state="visible")


def test_a_page_that_was_opened_and_not_run_says_so_under_its_still(lab):
    page = lab.open("02_the_margin_rule.ipynb", 1366, 768)
    line = page.get_by_text("Run the page from the top").first
    line.wait_for(state="visible")
    still = page.locator("img[alt^='The edge as a ruler of 37 threads'][alt*='Section of the edge']").first
    assert still.bounding_box()["y"] < line.bounding_box()["y"]
