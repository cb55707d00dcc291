"""The stage in a real browser: what is in sight, what its keys do, and that it asks nobody outside.

Needs a Chromium; see `test_notebooks_in_a_browser`. One server, and one page for all.
"""

import contextlib
import os
import pathlib
import urllib.request

import pytest

from hemcalc.draw.look import TYPE
from hemcalc.draw.scale import NARROW
from hemcalc.launch.stage import arguments, stage_variables
from hemcalc.panels.playing import ACTS

ROOT = pathlib.Path(__file__).parents[2]
SIZES = ((1366, 768), (1920, 1080), (1024, 768), (1280, 720))
LEAST = 18  # pixels of type at 1280 × 720, legible from the back of a room

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop

#: The picture's own dots, those it is shown in, and where it and the bar lie.
IN_SIGHT = """() => {
  const box = (e) => { const r = e.getBoundingClientRect(); return [r.left, r.top, r.right, r.bottom]; };
  const picture = document.querySelector('.stage-picture img');
  return {wide: picture.naturalWidth, high: picture.naturalHeight, room: box(picture),
          whole: box(document.querySelector('.stage')),
          parts: [...document.querySelectorAll('.stage-bar > *, .stage-leave')].filter(e => e.offsetWidth)
            .map(box),
          tracks: [...document.querySelectorAll('.stage-bar .noUi-target')].filter(e => e.offsetWidth)
            .map(e => e.offsetWidth),
          cut: [...document.querySelectorAll('.stage-bar .stage-slider > .hemcalc-control .widget-label')]
            .filter(e => e.offsetWidth && e.scrollWidth > e.clientWidth).map(e => e.textContent),
          scrolls: document.scrollingElement.scrollHeight > innerHeight}; }"""
#: Whether the picture has been drawn for the room that it has in a window so wide and high. What is fixed in
#: the window is laid out anew a moment after the rest.
DRAWN = """(seen, [wide, high]) => {
  const [left, top, right, bottom] = seen.room;
  const share = Math.min((right - left) / seen.wide, (bottom - top) / seen.high);
  return String(seen.whole) === String([0, 0, wide, high]) && right - left === wide &&
    0.97 <= share && share <= 1.03; }"""
#: The words that are smaller than so many pixels, of all that can be seen.
SMALL = """(least) => {
  const found = [], walk = document.createTreeWalker(document.querySelector('.stage'), NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const on = walk.currentNode.parentElement, words = walk.currentNode.textContent.trim();
    if (words && on.checkVisibility() && !on.closest('.stage-said, .stage-ahead, style') &&
        parseFloat(getComputedStyle(on).fontSize) < least) found.push(words);
  }
  return found; }"""
#: Note which pictures are made ahead.
MADE = """window.made = new Set();
addEventListener('DOMContentLoaded', () => new MutationObserver((changes) => {
  for (const added of changes.flatMap((change) => [...change.addedNodes]))
    if (added.nodeName === 'I' && added.dataset.at && added.firstElementChild)
      window.made.add(added.dataset.at);
}).observe(document.body, {childList: true, subtree: true}))"""
#: Press a key, and give the picture before and at once after it: no kernel can have answered.
PRESS = """(key) => {
  const picture = () => document.querySelector('.stage-picture img').alt;
  const before = picture();
  document.body.dispatchEvent(new KeyboardEvent('keydown', {key, bubbles: true, cancelable: true}));
  return [before, picture()]; }"""
#: Move what plays by so many steps, and what is in hand by one, before any kernel can have answered.
MOVE_TWO = """(by) => {
  const press = (on, key) =>
    on.dispatchEvent(new KeyboardEvent('keydown', {key, bubbles: true, cancelable: true}));
  const other = document.activeElement;
  other.blur();
  for (let n = 0; n < Math.abs(by); n++) press(document.body, by < 0 ? 'ArrowLeft' : 'ArrowRight');
  other.focus();
  press(other, 'ArrowRight'); }"""
#: Whether the picture is the one whose words stand in the drawer.
AS_SAID = """() => document.querySelector('.stage-drawer').innerText.includes(
  document.querySelector('.stage-picture img').alt)"""
#: Keep the words of every picture that is seen from now on; and whether a play that was begun is over.
NOTE = """() => {
  const room = document.querySelector('.stage-picture');
  const note = () => window.seen.add(room.querySelector('img').alt);
  window.seen = new Set();
  note();
  new MutationObserver(note).observe(room, {subtree: true, childList: true, attributes: true}); }"""
PLAYED = "() => window.seen.size > 1 && document.querySelector('.stage-play').textContent === '▶'"
#: Ask the page's kernel to run a line of code, and a harmless thing; give the kinds of its answers.
ASK = """async (code) => {
  const id = JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId;
  const socket = new WebSocket(`ws://${location.host}/api/kernels/${id}/channels`), heard = [];
  const answered = new Promise((done) => socket.onmessage = (message) => {
    try { heard.push(JSON.parse(message.data).msg_type); } catch (e) {}
    if (heard.includes('kernel_info_reply')) done();  // it was asked last
  });
  await new Promise((done) => socket.onopen = done);
  for (const [kind, content] of [['execute_request', {code, silent: false, store_history: false,
        user_expressions: {}, allow_stdin: false, stop_on_error: true}], ['kernel_info_request', {}]])
    socket.send(JSON.stringify({channel: 'shell', content, metadata: {}, parent_header: {}, buffers: [],
      header: {msg_id: kind, msg_type: kind, username: '', session: 'a', version: '5.3', date: ''}}));
  await answered;
  socket.close();
  return heard; }"""


@pytest.fixture(scope="module")
def home(tmp_path_factory):
    return tmp_path_factory.mktemp("stage")


@pytest.fixture(scope="module")
def address(home, serving):
    """Address of the stage, as the command starts it, with its token."""
    variables = stage_variables(
        {**os.environ, "PYTHONPATH": str(ROOT), "HEMCALC_SETTINGS": str(home / "set.json")}
    )
    with serving(lambda port: arguments(home, port), home, variables) as address:
        yield f"{address}/?panel=margin&token={variables['JUPYTER_TOKEN']}"


@pytest.fixture(scope="module")
def page(browser, patience, address):
    page = browser.new_page(viewport={"width": 1280, "height": 720})
    page.set_default_timeout(patience)
    page.asked, page.wrong = [], []
    page.on("request", lambda request: page.asked.append(request.url))
    page.on("pageerror", lambda error: page.wrong.append(str(error)))
    page.add_init_script(MADE)
    page.goto(address)
    page.wait_for_selector(".stage-picture img")
    yield page
    page.close()


def show(page, name):
    """Leave, and choose a panel from the list."""
    page.keyboard.press("Escape")
    page.click(f'.stage-act:has-text("{name.capitalize()}:")')
    page.wait_for_selector(".stage-picture img")


def test_picture_and_sliders_are_in_sight_together_and_as_large_as_the_window_lets_them(page):
    for name in ACTS:
        show(page, name)
        for wide, high in SIZES:
            page.set_viewport_size({"width": wide, "height": high})
            with contextlib.suppress(Exception):  # what was waited for in vain is said below
                page.wait_for_function(f"(size) => ({DRAWN})(({IN_SIGHT})(), size)", arg=[wide, high])
            seen = page.evaluate(IN_SIGHT)
            left, top, right, bottom = seen["room"]
            share = min((right - left) / seen["wide"], (bottom - top) / seen["high"])
            assert 0.97 <= share <= 1.03, "a dot of the picture is one of the window"
            assert (left, top, right) == (0, 0, wide)
            assert bottom > 0.82 * high
            assert not seen["scrolls"]
            assert not seen["cut"], "a name has its room"
            for a, b, c, d in seen["parts"]:
                assert 0 <= a < c <= wide, name
                assert bottom <= b < d <= high, name
            assert len(seen["tracks"]) in (2, 3)
            assert min(seen["tracks"]) >= 120
        # At 1280 × 720 nothing is smaller than can be read from the back.
        across = 9  # inches of every picture
        assert TYPE["projector"].small / 72 * share * seen["wide"] / across >= LEAST - 0.1, name
        page.click(".stage-more")
        page.wait_for_selector(".stage-drawer select")
        assert page.evaluate(SMALL, LEAST) == []
        page.click(".stage-more")


def test_there_is_one_panel_and_neither_code_nor_a_list_of_files(page):
    assert page.locator(".stage-picture img").count() == 1
    assert page.locator(".jp-InputArea:visible, .jp-CodeCell .jp-Editor:visible, .jp-DirListing").count() == 0
    assert "token" not in page.url


def test_a_key_shows_a_picture_that_is_ready_and_the_slider_follows(page):
    page.evaluate("window.made.clear()")
    show(page, "margin")
    page.wait_for_function("() => window.made.size === +document.querySelector('.stage-place i').dataset.of")
    before, after = page.evaluate(PRESS, "ArrowRight")
    assert before != after
    page.wait_for_function("() => +document.querySelector('.stage-place i').dataset.at === 1")
    assert page.locator(".stage-picture img").get_attribute("alt") == after, "the kernel draws the same"
    assert (
        after in page.locator(".stage-drawer").inner_text() or not page.locator(".stage-drawer").is_visible()
    )


def test_the_space_bar_folds_the_hem_and_the_button_too(page):
    show(page, "margin")
    page.evaluate(NOTE)
    at = int(page.get_attribute(".stage-place i", "data-at"))  # as an earlier test left it
    begun = page.locator(".stage-picture img").get_attribute("alt")
    page.keyboard.press("Space")
    page.wait_for_function(PLAYED)
    folded = page.locator(".stage-picture img").get_attribute("alt")
    assert page.evaluate("window.seen.size") == 21 - at, "each of them was seen"
    page.evaluate("window.seen.clear()")
    page.click(".stage-play")  # from the end it begins again
    page.wait_for_function(PLAYED)
    assert begun in page.evaluate("[...window.seen]")
    assert page.locator(".stage-picture img").get_attribute("alt") == folded != begun
    # What the kernel is told is where it came to rest.
    page.wait_for_function("() => +document.querySelector('.stage-place i').dataset.at === 20")


def test_the_arrow_keys_move_another_slider_that_is_chosen_and_its_picture_is_made_anew(page):
    show(page, "margin")
    other = page.locator(".stage-slider:not(:has(.stage-played)) .noUi-handle:visible").last
    run = page.get_attribute(".stage-place i", "data-run")
    at = page.get_attribute(".stage-place i", "data-at")
    now = float(other.get_attribute("aria-valuenow"))
    other.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function(f"() => document.querySelector('.stage-place i').dataset.run !== '{run}'")
    assert float(other.get_attribute("aria-valuenow")) == now + 1
    assert page.get_attribute(".stage-place i", "data-at") == at


def test_what_is_moved_while_a_fold_is_under_way_is_moved_for_that_fold(page):
    show(page, "margin")
    place = "document.querySelector('.stage-place i').dataset"
    page.locator(".stage-slider .noUi-handle:visible").last.focus()
    run = page.evaluate(f"+{place}.run")
    page.keyboard.press("ArrowLeft")
    page.wait_for_function(f"() => +{place}.run > {run} && (window.made.clear() || true)")
    page.wait_for_function(f"() => window.made.size === +{place}.of")
    at, run = page.evaluate(f"[+{place}.at, +{place}.run]")
    by = -3 if at > 2 else 3
    page.evaluate(MOVE_TWO, by)
    page.wait_for_function(f"() => +{place}.run > {run}")
    assert page.evaluate(f"+{place}.at") == at + by
    page.click(".stage-more")
    page.wait_for_function(AS_SAID)
    page.click(".stage-more")


def test_escape_leaves_to_a_list_of_every_panel(page):
    page.keyboard.press("Escape")
    page.wait_for_selector(".stage-act")
    assert page.locator(".stage-act").count() == len(ACTS)
    assert page.locator(".stage-picture").count() == 0


def show_two(page, number):
    """Leave, and choose a panel's two cloths from the list."""
    page.keyboard.press("Escape")
    page.locator(".stage-pair").nth(number).click()
    page.wait_for_selector(".stage-two img")


def test_two_cloths_are_as_legible_as_one(page):
    for number, name in enumerate(ACTS):
        show_two(page, number)
        page.wait_for_function(
            "() => { const e = document.querySelector('.stage-two img'); "
            "return Math.abs(e.naturalWidth / e.offsetWidth - 1) < 0.03; }"
        )
        assert page.evaluate(SMALL, LEAST) == [], name
        share = page.evaluate("() => document.querySelector('.stage-two img').offsetWidth") / NARROW[0]
        assert TYPE["projector"].small / 72 * share >= LEAST - 0.1, name
        page.click(".stage-more")
        page.wait_for_selector(".stage-drawer select")
        assert page.evaluate(SMALL, LEAST) == [], name
        page.click(".stage-more")


def test_two_cloths_fold_together(page):
    show_two(page, 0)
    pictures = page.locator(".stage-two img")
    assert pictures.count() == 2
    before = [pictures.nth(n).get_attribute("alt") for n in (0, 1)]
    page.keyboard.press("Space")
    page.wait_for_function("() => +document.querySelector('.stage-place i').dataset.at === 20")
    page.wait_for_function(
        "(before) => [...document.querySelectorAll('.stage-two img')].every((e, n) => e.alt !== before[n])",
        arg=before,
    )
    page.click(".stage-more")
    page.locator(".stage-drawer").wait_for()
    # As the browser tells whoever doesn't see it; the words of a label that isn't laid out are none.
    told = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]
    boxes = [each["name"]["value"] for each in told if each.get("role", {}).get("value") == "textbox"]
    assert boxes.count("drawn, threads: type it") == 2, "each cloth's own"
    assert "" not in boxes
    wide = page.locator(".stage-drawer .hemcalc-box input:visible").evaluate_all(
        "(boxes) => boxes.map((e) => Math.min(e.getBoundingClientRect().right, innerWidth) - "
        "Math.max(e.getBoundingClientRect().left, e.parentElement.getBoundingClientRect().left))"
    )
    assert min(wide) > 80, "and each box is in sight"
    page.click(".stage-more")


def test_what_a_box_says_is_not_cut_off(page):
    for name in ACTS:
        show(page, name)
        page.click(".stage-more")
        page.locator(".stage-drawer").wait_for()
        cut = page.locator(".hemcalc-box input:visible").evaluate_all(
            "(boxes) => boxes.filter((e) => e.scrollWidth > e.clientWidth).map((e) => e.value)"
        )
        assert cut == [], name


def test_what_is_set_holds_for_every_panel(page):
    page.keyboard.press("Escape")
    page.locator(".stage-list select").first.select_option("cm")
    for name in ("margin", "spacing"):
        show(page, name)
        page.wait_for_function("() => / cm/.test(document.querySelector('.stage-picture img').alt)")
    page.keyboard.press("Escape")
    page.locator(".stage-list select").first.select_option(index=0)


def test_nobody_gets_in_without_the_token_and_no_code_is_run_for_those_who_are_in(page, address, tmp_path):
    bare = address.partition("?")[0]
    with urllib.request.urlopen(bare) as answer:
        login = answer.read().decode()
    assert "stage-picture" not in login
    assert "password" in login
    for path in ("voila/files/stage.ipynb", "api/contents", "voila/tree", "lab"):
        with pytest.raises(urllib.error.HTTPError) as refused:
            urllib.request.urlopen(bare + path + address.replace(bare, ""))
        assert refused.value.code in (403, 404)
        refused.value.close()
    made = tmp_path / "made"
    heard = page.evaluate(ASK, f"open({str(made)!r}, 'w').close()")
    assert "kernel_info_reply" in heard
    assert "execute_reply" not in heard
    assert not made.exists()


def test_nothing_was_asked_of_any_other_machine_and_nothing_went_wrong(page, address, home):
    ours = address.partition("?")[0]
    assert len(page.asked) > 20
    assert [
        url for url in page.asked if not url.startswith((ours, "data:", ours.replace("http", "ws")))
    ] == []
    assert page.wrong == []
    # Of a page that is left while its kernel still speaks, zmq says so: that is no word of ours.
    usual = "403 GET ", "Got events for closed stream"
    in_the_terminal = (home / ".said").read_text("utf-8").splitlines()
    assert [line for line in in_the_terminal if not line.startswith(usual)] == [], "but who was refused"
