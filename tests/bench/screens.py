"""Pictures of every panel in the lab, and of the pages to send round, at the sizes that readers have.

    python tests/bench/screens.py FOLDER [NAME ...]

It passes and fails nothing: they are to be looked at. A name is a panel's, as in `PANELS`, or `sent`.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests/browser")]

#: What stands in a panel's cell.
PANELS = {
    **{
        kind: f"from hemcalc.panels import {kind}_panel; {kind}_panel()"
        for kind in ("count", "margin", "corner", "weave", "spacing", "stitch", "bolt", "check", "practice")
    },
    "mine": "from hemcalc.panels import my_piece; my_piece()",
    "class": "from hemcalc.panels import my_class; my_class()",
    "slip": "from hemcalc.panels import her_slip_panel; her_slip_panel()",
    "two": "from hemcalc.panels import margin_panel, side_by_side; side_by_side(margin_panel)",
}
SIZES = ((1366, 768), (1920, 1080), (1024, 768))
PHONE = (390, 844)
LAPTOP = (1366, 768)


def panel(lab: Any, name: str, folder: Path) -> None:
    """A panel at each size: the window as she sees it, scrolled to the panel, the sidebar closed."""
    page = lab.open(lab.write(f"{name}.ipynb", PANELS[name]), 1366, 3000)
    lab.run()
    page.evaluate("() => window.jupyterapp.shell.collapseLeft()")
    for wide, high in SIZES:
        page.set_viewport_size({"width": wide, "height": high})
        page.locator(".jp-OutputArea").first.evaluate("e => e.scrollIntoView()")
        page.wait_for_timeout(700)
        page.screenshot(path=folder / f"{name}-{wide}.png")
        page.set_viewport_size({"width": wide, "height": 2400})
        page.wait_for_timeout(700)
        page.locator(".jp-OutputArea").first.screenshot(path=folder / f"{name}-{wide}-whole.png")


def sent(browser: Any, folder: Path) -> None:
    """The pages to send round on a phone and a laptop, whole, the second slider of each panel moved."""
    with tempfile.TemporaryDirectory() as passing:
        made = Path(passing) / "pages"
        subprocess.run([sys.executable, "-m", "hemcalc.send", str(made)], check=True, cwd=ROOT)
        page = browser.new_page()
        for wide, high in (PHONE, LAPTOP):
            page.set_viewport_size({"width": wide, "height": high})
            for path in sorted(made.glob("*.html")):
                page.goto(path.as_uri())
                for slider in page.locator("figure.panel label:nth-of-type(2) input").all():
                    slider.press("ArrowRight")
                page.screenshot(path=folder / f"sent-{path.stem[:2]}-{wide}.png", full_page=True)


def main(words: list[str]) -> None:
    """Make them."""
    import conftest

    folder = Path(words[0])
    folder.mkdir(parents=True, exist_ok=True)
    names = words[1:] or [*PANELS, "sent"]
    with tempfile.TemporaryDirectory() as passing, conftest.chromium() as browser:
        if set(names) & set(PANELS):
            with conftest.lab_over(Path(passing), browser) as lab:
                for name in filter(PANELS.__contains__, names):
                    panel(lab, name, folder)
                    print(name, flush=True)
        if "sent" in names:
            sent(browser, folder)


if __name__ == "__main__":
    main(sys.argv[1:])
