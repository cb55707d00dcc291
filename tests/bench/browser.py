"""How long one waits in JupyterLab, and on the stage, from a key press to the changed picture.

    python tests/bench/browser.py [PANEL ...]

A table, in one run.
It passes and fails nothing; run it on a quiet machine. Every slider of every panel is moved 24 times
by the arrow keys, and measured in the page itself, from the key's event to the new picture in place.
In turn with each: *floor*, a slider that sets a picture of 4 × 4 points, which is the way there and
back. In the same run *ready made*, a slider that sets a picture of the margin that was drawn before, the way
of so many bytes; and *plain*, an `interact` that draws the margin's figure anew. What changes nothing
within two seconds, such as a count of the other way, is left out and said so. The stage comes after
the lab, with a floor of its own before each panel (in turn with it, the floor would wait for the pictures
that are made ahead); what plays is moved once all its pictures are there.
"""

from __future__ import annotations

import json
import os
import statistics
import sys
import tempfile
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests/browser")]

MOVES, LAP = 24, 8  # of each slider; there and back
FLOOR = """
import base64, ipywidgets as w, numpy as np
from hemcalc.draw.sheet import png_of, picture_html
slider, picture = w.IntSlider(0, 0, 99, description="floor"), w.HTML()
def _moved(change):
    points = np.full((4, 4, 4), change["new"] * 2, np.uint8)
    picture.value = picture_html(png_of(points, 100), str(change["new"]), 4)
slider.observe(_moved, "value")
box = w.VBox([slider, picture]); box.add_class("measured"); _moved({"new": 0}); box
"""
READY = """
import ipywidgets as w
from hemcalc.panels.margin import MarginPicture, margin_panel
panel, view = margin_panel(), MarginPicture()
def _drawn(clear):
    view.update(panel.plan(panel.values | {"clear": clear}))
    return view.sheet.html("margin")
ready, whole = [_drawn(clear) for clear in range(40)], w.HTML()
slider = w.IntSlider(0, 0, 39, description="ready made")
slider.observe(lambda change: setattr(whole, "value", ready[change["new"]]), "value")
box = w.VBox([slider, whole]); box.add_class("measured"); whole.value = ready[0]; box
"""
PLAIN = """
import io, base64, ipywidgets as w, matplotlib; matplotlib.use("agg")
from hemcalc.draw.sheet import picture_html
from hemcalc.panels.margin import MarginPicture, margin_panel
panel = margin_panel(); shown = w.HTML()
def _plain(clear):
    view = MarginPicture(); view.update(panel.plan(panel.values | {"clear": clear}))
    made = io.BytesIO(); view.sheet.figure.savefig(made, format="png", dpi=100, bbox_inches="tight")
    shown.value = picture_html(made.getvalue(), str(clear), 900)
slider = w.IntSlider(7, 0, 40, description="plain"); slider.observe(lambda c: _plain(c["new"]), "value")
box = w.VBox([slider, shown]); box.add_class("measured"); _plain(7); box
"""
WATCH = """e => {
  window.pressed = 0; window.took = -1;
  if (!window.listens) {
    window.listens = true;
    const begin = () => { window.pressed = performance.now(); window.took = -1; };
    window.addEventListener('keydown', begin, true);  // before the stage's own
  }
  if (window.eye) window.eye.disconnect();
  const src = () => (e.querySelector('img[src^="data:image"]') || {}).src;
  let before = src();
  window.eye = new MutationObserver(() => {
    const now = src();
    if (now && now !== before && window.took < 0) window.took = performance.now() - window.pressed;
    before = now || before;
  });
  window.eye.observe(e, {subtree: true, childList: true, attributes: true, attributeFilter: ['src']});
}"""


ALL_MADE = "() => window.made.size === +document.querySelector('.stage-place i').dataset.of"


def in_turn(page: Any, floor: tuple[Any, Any], slider: tuple[Any, Any]) -> list[list[float]]:
    """Both moved in turn, so that whatever else the machine does meanwhile weighs on both alike."""
    found: list[list[float]] = [[], []]
    for _ in range(MOVES // LAP):
        for times, moved in zip(found, (floor, slider), strict=True):
            times += waits(page, *moved, LAP)
    return found


def waits(page: Any, box: Any, handle: Any, moves: int = MOVES) -> list[float]:
    """Milliseconds of each move of one slider, to and fro; none where nothing changes."""
    box.evaluate(WATCH)
    handle.focus()
    found: list[float] = []
    for move in range(moves):
        page.keyboard.press("ArrowRight" if move % LAP < LAP / 2 else "ArrowLeft")
        for _ in range(100):
            took = page.evaluate("window.took")
            if took >= 0:
                found.append(took)
                break
            page.wait_for_timeout(20)
        else:
            if move > LAP / 2 and not found:
                return []
        page.wait_for_timeout(60)
    return found


def say(name: str, floor: list[float], times: list[float]) -> None:
    """Print median, 95th percentile, the floor meanwhile, and the median in floors."""
    if not times:
        print(f"{name:36} changes nothing here")
        return
    median, late = statistics.median(times), sorted(times)[int(0.95 * (len(times) - 1))]
    low = statistics.median(floor)
    print(
        f"{name:36} {median:6.1f} ms  p95 {late:6.1f} ms  floor {low:5.1f} ms  {median / low:5.2f}",
        flush=True,
    )


def in_the_lab(kinds: list[str]) -> None:
    """Measure every slider of every panel in JupyterLab."""
    import conftest

    cells = [FLOOR, READY, PLAIN, *(f"from hemcalc.panels import {k}_panel\n{k}_panel()" for k in kinds)]
    with (
        tempfile.TemporaryDirectory() as folder,
        conftest.chromium() as browser,
        conftest.lab_over(Path(folder), browser) as lab,
    ):
        page = lab.open(lab.write("panels.ipynb", *cells), 1366, 6000)
        lab.run()
        page.set_viewport_size({"width": 1366, "height": 768})
        boxes = page.locator(".measured, .hemcalc-panel")
        floor = boxes.nth(0), boxes.nth(0).locator("[role=slider]")
        for i, name in enumerate(("", "", *kinds), start=1):
            box = boxes.nth(i)
            handles = box.locator("[role=slider]:visible")
            for n in range(handles.count()):
                label = box.locator(".widget-slider:visible .widget-label").nth(n).text_content()
                say(f"{name} {label}", *in_turn(page, floor, (box, handles.nth(n))))


def on_stage(kinds: list[str]) -> None:
    """Measure every slider under the picture on the stage."""
    import conftest
    import test_stage

    from hemcalc.launch.stage import arguments, stage_variables

    def words(port: int) -> list[str]:
        """Start the stage, its floor below it."""
        asked = arguments(home, port)
        notebook = home / "stage/stage.ipynb"
        made = json.loads(notebook.read_text("utf-8"))
        made["cells"].insert(0, made["cells"][0] | {"id": "floor", "source": FLOOR})
        notebook.write_text(json.dumps(made), "utf-8")
        return list(asked)

    with tempfile.TemporaryDirectory() as folder, conftest.chromium() as browser:
        home = Path(folder)
        set_here = {"PYTHONPATH": str(ROOT), "HEMCALC_SETTINGS": str(home / "set.json")}
        variables = stage_variables({**os.environ, **set_here})
        with conftest.served(words, home, variables) as address:
            page = browser.new_page(viewport={"width": 1366, "height": 768})
            page.set_default_timeout(conftest.PATIENCE)
            page.add_init_script(test_stage.MADE)
            page.goto(f"{address}/?panel={kinds[0]}&token={variables['JUPYTER_TOKEN']}")
            page.wait_for_selector(".stage-picture img")
            for name in kinds:
                page.evaluate("window.made.clear()")
                test_stage.show(page, name)
                page.wait_for_function(ALL_MADE)
                floor = waits(page, page.locator(".measured"), page.locator(".measured [role=slider]"))
                rows = page.locator(".stage-bar .stage-slider:visible")
                for n in range(rows.count()):
                    label = rows.nth(n).locator(".widget-label").first.text_content()
                    times = waits(page, page.locator(".stage-picture"), rows.nth(n).locator("[role=slider]"))
                    say(f"stage: {name} {label}", floor, times)


def main(kinds: list[str]) -> None:
    """Measure in the lab, then on the stage."""
    import test_panels_in_lab

    from hemcalc.launch.stage import ON_STAGE

    in_the_lab(kinds or list(test_panels_in_lab.KINDS))
    if shown := [name for name in kinds or ON_STAGE if name in ON_STAGE]:
        on_stage(shown)


if __name__ == "__main__":
    main(sys.argv[1:])
