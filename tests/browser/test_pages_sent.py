"""The pages to send round, opened from the disk on a phone and on a laptop: none fetches, panels move."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from hemcalc.send.folder import LARGEST

ROOT = Path(__file__).parents[2]
NAMES = sorted(path.stem for path in (ROOT / "notebooks").glob("*.ipynb"))
SIZES = {"phone": (390, 844), "laptop": (1366, 768)}
#: Pages on which a panel with sliders stands, and the sliders that must be on one of them.
MOVING = {
    "02": {"fold", "hem", "clear"},
    "03": {"fold", "hem"},
    "04": {"step"},
    "05": {"group", "clear right"},
}

pytestmark = [pytest.mark.browser, pytest.mark.filterwarnings("ignore")]  # the driver warns of its own loop


@pytest.fixture(scope="module")
def sent(making: Callable[[], Path]) -> Path:
    """All the pages, made by the program that the command starts."""
    return making()


def test_the_folder_is_small_enough_to_send_and_names_no_place_of_this_machine(sent: Path) -> None:
    assert [page.stem for page in sorted(sent.iterdir())] == NAMES
    size = sum(page.stat().st_size for page in sent.iterdir())
    assert size <= LARGEST, f"{size / 1e6:.1f} MB"
    for page in sent.iterdir():
        text = page.read_text("utf-8")
        assert not [place for place in (str(Path.home()), str(ROOT), "/tmp/") if place in text], page.name


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_every_page_opens_from_the_disk_and_its_panels_move(
    browser: Any, sent: Path, size: tuple[int, int], patience: int
) -> None:
    context = browser.new_context(viewport=dict(zip(("width", "height"), size, strict=True)), offline=True)
    context.set_default_timeout(patience)
    page, asked, wrong = context.new_page(), [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda said: wrong.append(said.text))
    for name in NAMES:
        page.goto((sent / f"{name}.html").as_uri())
        assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"), name
        pictures = page.eval_on_selector_all("img", "all => all.map(e => [e.alt, e.naturalWidth, e.width])")
        assert [alt for alt, wide, shown in pictures if not (alt and wide and shown <= size[0])] == []
        links = page.eval_on_selector_all("a[href]", "all => all.map(e => e.getAttribute('href'))")
        assert links
        assert all((sent / link.partition("#")[0]).is_file() for link in links if ":" not in link), links
        panels = page.locator("figure.panel")
        sliders: set[str] = set()
        for i in range(panels.count()):
            sliders |= moved(page, panels.nth(i))
        assert sliders >= MOVING.get(name[:2], set()), name
    assert {url.partition(":")[0] for url in asked} <= {"file", "data"}
    assert wrong == []
    context.close()


def moved(page: Any, panel: Any) -> set[str]:
    """Move each slider of a panel by the keyboard, see its picture change, and give the sliders' names."""
    names = set()
    for i in range(panel.locator("input[type=range]").count()):
        slider, image = panel.locator("input[type=range]").nth(i), panel.locator("img")
        before = [image.get_attribute(name) for name in ("src", "alt")]
        said = slider.get_attribute("aria-valuetext")
        slider.focus()
        page.keyboard.press("ArrowRight")
        if image.get_attribute("src") == before[0]:  # it stood at its end, or the place looks alike
            page.keyboard.press("ArrowLeft")
            page.keyboard.press("ArrowLeft")
        assert [image.get_attribute(name) for name in ("src", "alt")] != before, slider
        assert slider.get_attribute("aria-valuetext") != said
        assert any(letter.isdigit() for letter in image.get_attribute("alt"))
        assert panel.locator("figcaption").inner_text() == image.get_attribute("alt")
        others = panel.locator("input[type=range]").evaluate_all(
            "(all, moved) => all.filter((e, n) => n !== moved).every(e => e.value === e.defaultValue)", i
        )
        assert others, "one at a time"
        names.add(slider.get_attribute("data-strip"))
    return names
