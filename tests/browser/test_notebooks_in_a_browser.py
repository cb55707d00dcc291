"""The notebooks in a real browser: they open as they were saved, run, and every slider moves its picture.

Needs a Chromium. The test command passes them over, since it must pass on a machine that has none.

    python3 -m hemcalc browser
"""

import pathlib
import shutil

import pytest

from hemcalc.panels import check_panel
from hemcalc.sums import possible_slips, sums_of
from hemcalc.sums.verdict import FOLLOWS, NEAR, UNREAD, WRONG

ROOT = pathlib.Path(__file__).parents[2]
NAMES = sorted(path.stem for path in (ROOT / "notebooks").glob("*.ipynb"))
PATIENCE = 60_000  # ms
#: Of the margin panel: it serves the top and bottom edges, while the picture begins with the sides.
ELSEWHERE = ("count down",)
MARGIN_PANEL = ("02", "10")
#: A folded cell has a place without a number in its prompt's stead.
PROMPT = ".jp-CodeCell .jp-InputPrompt:not(.jp-Placeholder-prompt)"
IDLE = ".jp-Notebook-ExecutionIndicator[data-status=idle]"

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop


@pytest.fixture(scope="module")
def lab(tmp_path_factory, lab_over):
    """Address of a JupyterLab over a copy of the notebooks, so that nothing here is changed."""
    folder = tmp_path_factory.mktemp("lab")
    shutil.copytree(ROOT / "notebooks", folder / "notebooks")
    with lab_over(folder) as address:
        yield address


def opened(browser, lab, name, width, height):
    page = browser.new_page(viewport={"width": width, "height": height})
    page.goto(f"{lab}/lab/tree/notebooks/{name}.ipynb?token=t&reset", wait_until="domcontentloaded")
    page.wait_for_selector(IDLE, timeout=PATIENCE)
    return page


@pytest.fixture
def page(browser, lab, request):
    page = opened(browser, lab, request.param, 1400, 6000)
    yield page
    page.close()


@pytest.fixture
def small_page(browser, lab):
    page = opened(browser, lab, "08_check_your_arithmetic", 1366, 768)
    yield page
    page.close()


def run_all(page):
    """Run every cell; where Lab asks which kernel, its own being slow, choose and run again."""
    ask_to_run(page)
    question = page.locator('.jp-Dialog button:has-text("Select")')
    for waited in range(1, PATIENCE // 500 + 1):
        page.wait_for_timeout(500)
        if waited % 20 == 0 and not "".join(page.locator(PROMPT).all_text_contents()).strip("[] :"):
            ask_to_run(page)  # asked before the kernel was there
        if question.count():
            question.first.click()
            page.wait_for_timeout(3000)
            ask_to_run(page)
        prompts = page.locator(PROMPT).all_text_contents()
        if all(any(letter.isdigit() for letter in prompt) for prompt in prompts):
            break
    else:
        pytest.fail(f"not every cell has run: {prompts}")
    page.wait_for_selector(IDLE, timeout=PATIENCE)
    page.wait_for_timeout(1000)


def ask_to_run(page):
    # The saved numbers go first, so that a number means that the cell was run here.
    page.click('.lm-MenuBar-itemLabel:text-is("Edit")')
    page.click('.lm-Menu-itemLabel:text-is("Clear Outputs of All Cells")')
    page.click('.lm-MenuBar-itemLabel:text-is("Run")')
    page.click('.lm-Menu-itemLabel:text-is("Run All Cells")')


def pictures(page) -> list[str]:
    return page.eval_on_selector_all(".jp-OutputArea img", "all => all.map(e => e.src)")


def alts(page) -> list[str]:
    # A hidden one only starts a panel's script.
    return page.eval_on_selector_all(".jp-OutputArea img:not([hidden])", "all => all.map(e => e.alt)")


@pytest.mark.parametrize("page", NAMES, indirect=True)
def test_it_runs_to_its_end_its_pictures_say_their_numbers_and_every_slider_moves_one(page):
    run_all(page)
    assert page.locator(".jp-RenderedText[data-mime-type*=error]").count() == 0
    assert page.get_by_text("Error displaying widget").count() == 0
    said = alts(page)
    assert said
    assert all(any(letter.isdigit() for letter in alt) for alt in said)
    sliders = page.locator(".widget-slider .noUi-handle:visible")
    labels = page.locator(".widget-slider:visible .widget-label").all_text_contents()
    for i in range(sliders.count()):
        if labels[i] in ELSEWHERE and any(f"/{number}_" in page.url for number in MARGIN_PANEL):
            continue
        sliders.nth(i).focus()
        before = pictures(page)
        for key in ("ArrowRight", "ArrowLeft"):  # it may stand at one of its ends
            page.keyboard.press(key)
            if answered(page, before):
                break
        else:
            pytest.fail(f"slider {i}, {labels[i]}, changed nothing")


def answered(page, before) -> bool:
    """Whether a picture is another, or it is said why not, within two seconds."""
    for _ in range(20):
        page.wait_for_timeout(100)
        if pictures(page) != before or page.locator("[role=status]", has_text="✗").count():
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
    for _ in range(100):
        said = page.evaluate(SAID, name)
        if said == expected:
            return
        page.wait_for_timeout(100)
    assert said == expected


def mistakes(form, most):
    """Wrong answers to each number of the form, by different slips; and some that can't be read."""
    sums, found = sums_of(form.exercise.piece, form.exercise.side), []
    for name, worked in form.exercise.key.items():
        slips = {int(slip.value) for slip in possible_slips(sums, name).values()} - {int(worked.value)}
        found.append((name, [*map(str, sorted(slips)[:most]), "a bundle"]))
    return found


def test_the_form_is_driven_by_the_keyboard_alone_through_thirty_mistakes(small_page):
    """What stands beside each box is what the library says, hints and all, until all is right."""
    page, form, made = small_page, check_panel(), 0
    run_all(page)
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
    assert page.get_by_text(form.report.summary).count() >= 1
