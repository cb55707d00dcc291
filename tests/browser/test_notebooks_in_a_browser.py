"""The notebooks in a real browser: they open as they were saved, run, and every slider moves its picture.

Needs a Chromium. The test command passes them over, since it must pass on a machine that has none.

    python3 -m hemcalc browser
"""

import contextlib
import pathlib
import shutil

import pytest

from hemcalc.launch.own_pages import ORIGINALS, OWN, lay_out, originals
from hemcalc.panels import check_panel
from hemcalc.sums import possible_slips, sums_of
from hemcalc.sums.verdict import FOLLOWS, NEAR, UNREAD, WRONG

ROOT = pathlib.Path(__file__).parents[2]
NAMES = sorted(path.stem for path in (ROOT / "notebooks").glob("*.ipynb"))
#: Of the margin panel: it serves the top and bottom edges, while the picture begins with the sides.
ELSEWHERE = ("count down",)
MARGIN_PANEL = ("02", "10")
#: A folded cell has a place without a number in its prompt's stead.
PROMPT = ".jp-CodeCell .jp-InputPrompt:not(.jp-Placeholder-prompt)"
#: Watch for another picture, or for another word of what is wrong.
WATCH = """() => {
  const seen = () => [...document.querySelectorAll('.jp-OutputArea img')].map((e) => e.src).join() +
    [...document.querySelectorAll('[role=status]')].map((e) => e.innerText)
      .filter((e) => e.includes('✗')).join();
  const before = seen();
  window.moved = false;
  if (window.eye) window.eye.disconnect();
  window.eye = new MutationObserver(() => { window.moved = window.moved || seen() !== before; });
  window.eye.observe(document.querySelector('.jp-Notebook'), {subtree: true, childList: true,
    attributes: true, attributeFilter: ['src'], characterData: true});
}"""
#: The sliders in sight: their names, and whether they stand at their end.
SLIDERS = """() => [...document.querySelectorAll('.widget-slider .noUi-handle')]
  .filter((e) => e.checkVisibility()).map((e) => [
    e.closest('.widget-slider').querySelector('.widget-label').textContent,
    e.getAttribute('aria-valuenow') === e.getAttribute('aria-valuemax')])"""
#: Once the kernel has answered, what changes is on the page soon; ms.
SOON = 3000

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop


@pytest.fixture(scope="module", autouse=True)
def copied(lab):
    """A copy of the notebooks in the lab's folder, and her own pages, laid out as `open` does."""
    shutil.copytree(ROOT / ORIGINALS, lab.folder / ORIGINALS)
    assert lay_out(lab.folder) == ()


@pytest.mark.parametrize("name", NAMES)
def test_it_runs_to_its_end_its_pictures_say_their_numbers_and_every_slider_moves_one(lab, name):
    page = lab.open(f"{OWN}/{name}.ipynb", 1400, 6000)
    lab.run()
    prompts = page.locator(PROMPT).all_text_contents()
    assert all(any(letter.isdigit() for letter in prompt) for prompt in prompts), prompts
    assert page.locator(".jp-RenderedText[data-mime-type*=error]").count() == 0
    assert page.get_by_text("Error displaying widget").count() == 0
    # A hidden one only starts a panel's script.
    said = page.eval_on_selector_all(".jp-OutputArea img:not([hidden])", "all => all.map(e => e.alt)")
    assert said
    assert all(any(letter.isdigit() for letter in alt) for alt in said)
    handles = page.locator(".widget-slider .noUi-handle:visible")
    for i, (label, at_its_end) in enumerate(page.evaluate(SLIDERS)):
        if label in ELSEWHERE and name[:2] in MARGIN_PANEL:
            continue
        keys = ("ArrowLeft", "ArrowRight") if at_its_end else ("ArrowRight", "ArrowLeft")
        assert changes(lab, handles.nth(i), keys), f"slider {i}, {label}, changed nothing"


def changes(lab, handle, keys) -> bool:
    """Whether one of the keys changes a picture, or it is said why not."""
    lab.page.evaluate(WATCH)
    for key, patience in zip(keys, (SOON, 10 * SOON), strict=True):
        handle.focus()
        lab.page.keyboard.press(key)
        lab.settle()
        with contextlib.suppress(Exception):  # the driver's own; another key may do
            lab.page.wait_for_function("() => window.moved", timeout=patience)
            return True
    return False


FOCUSED = """() => {
    const at = document.activeElement, row = at.closest(".widget-text");
    if (!row || !at.placeholder) return "";
    const name = row.querySelector("label").textContent;
    row.parentElement.dataset.number = name;
    return name;
}"""
SAID = """name => {
    const row = document.querySelector(`[data-number="${name}"]`);
    return row.querySelector("[role=status]")?.innerText ?? row.outerHTML;
}"""


def tab_to(page, name):
    """Go to the box of a number as a learner does who has no mouse."""
    for _ in range(80):
        if page.evaluate(FOCUSED) == name:
            return
        page.keyboard.press("Tab")
    pytest.fail(f"no number of presses of Tab leads to {name}")


def says(page, name, expected):
    try:
        page.wait_for_function(f"([name, said]) => ({SAID})(name) === said", arg=[name, expected])
    finally:
        assert page.evaluate(SAID, name) == expected


def mistakes(form, most):
    """Wrong answers to each number of the form, by different slips; and some that can't be read."""
    sums, found = sums_of(form.exercise.piece, form.exercise.side), []
    for name, worked in form.exercise.key.items():
        slips = {int(slip.value) for slip in possible_slips(sums, name).values()} - {int(worked.value)}
        found.append((name, [*map(str, sorted(slips)[:most]), "a bundle"]))
    return found


def test_the_form_is_driven_by_the_keyboard_alone_through_thirty_mistakes(lab):
    """What stands beside each box is what the library says, hints and all, until all is right."""
    page, form, made = lab.open(f"{OWN}/08_check_your_arithmetic.ipynb", 1366, 768), check_panel(), 0
    lab.run()
    for name, wrong in mistakes(form, 2):
        field = form.fields[name]
        for answer in wrong:
            tab_to(page, name)
            page.keyboard.press("Control+A")
            page.keyboard.type(answer)
            page.keyboard.press("Tab")  # on to the hint
            field.box.value = answer
            assert field.mark.verdict in (WRONG, NEAR, FOLLOWS, UNREAD)
            says(page, name, field.said)
            page.keyboard.press("Space")
            field.lead()
            says(page, name, field.said)
            page.keyboard.press("Shift+Tab")
            made += 1
        page.keyboard.press("Control+A")
        page.keyboard.type(str(int(form.exercise.key[name].value)))
        page.keyboard.press("Enter")
        field.box.value = str(int(form.exercise.key[name].value))
        says(page, name, field.said)
        assert field.mark.right
    assert made >= 30
    assert form.report.all_right
    page.get_by_text(form.report.summary).first.wait_for()  # it comes after the last mark


def test_a_page_that_she_saved_opens_again_as_its_stills_and_its_original_is_as_it_was(lab):
    path = f"{OWN}/04_drawing_threads.ipynb"
    page, as_it_was = lab.open(path, 1400, 6000), (lab.folder / path).read_bytes()
    lab.run()
    page.evaluate("() => window.jupyterapp.commands.execute('docmanager:save')")
    assert (lab.folder / path).read_bytes() != as_it_was
    lab.open(path, 1400, 6000)
    page.get_by_text("Run the page from the top").first.wait_for(state="visible")
    assert page.locator(".jp-OutputArea img:visible").count()
    assert page.get_by_text("Error displaying widget").count() == 0
    for original in originals(ROOT):
        assert (lab.folder / ORIGINALS / original.name).read_bytes() == original.read_bytes()
