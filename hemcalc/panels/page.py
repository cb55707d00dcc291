"""What a panel brings to the page it stands on: its style, and the names that a screen reader speaks.

A slider of ipywidgets has a role and a value but no name, and says of a list of lengths only which
place in it is set. A small script gives each its label and the words of what is set. It is started
by a picture that can't be loaded: what stands in a `widgets.HTML` is put into the page as it is, but
a script element put in so is not run by any browser.
"""

from __future__ import annotations

from collections.abc import Sequence
import html
from typing import Any

import ipywidgets as widgets

__all__ = ["PICTURE_WIDE", "PROJECTOR", "ROOT", "asleep", "classed", "picture_wide", "spoken"]

#: The class of a panel's outermost box; with `projector` beside it, everything on it grows.
ROOT, PROJECTOR = "hemcalc-panel", "hemcalc-projector"
#: Width of the column of controls, and the least of a picture beside it, pixels.
CONTROLS_WIDE, PICTURE_WIDE = 368, 600
_LARGEST = 1.25  # times its own size that a picture is enlarged to

STYLE = f"""<style>
.{ROOT} {{ --hemcalc-type: 13px; --hemcalc-small: 12px; --hemcalc-row: 28px; overflow: visible }}
.{ROOT}.{PROJECTOR} {{ --hemcalc-type: 20px; --hemcalc-small: 18px; --hemcalc-row: 36px }}
.{ROOT} .widget-label, .{ROOT} .widget-dropdown select, .{ROOT} .widget-text input[type=text],
.{ROOT} .jupyter-button, .{ROOT} .widget-label-basic {{ font-size: var(--hemcalc-type) }}
.{ROOT} :is(.hemcalc-control, .hemcalc-box, .jupyter-button) {{ height: var(--hemcalc-row) }}
.{ROOT} :is(.hemcalc-control, .hemcalc-box) > :not(.slider-container), .{ROOT} .hemcalc-box input[type=text],
.{ROOT} .jupyter-button {{ height: var(--hemcalc-row); line-height: var(--hemcalc-row) }}
@media (max-width: 1150px) {{ .{ROOT} {{ --hemcalc-around: 330px }} }}
.hemcalc-body {{ flex-flow: row wrap; align-items: flex-start; overflow: visible }}
.{ROOT} .widget-html {{ height: auto }}
.hemcalc-picture .widget-html-content {{ position: relative; line-height: 0 }}
.hemcalc-picture img {{ width: 100%; height: auto }}
.hemcalc-old img {{ opacity: 0.4 }}
.hemcalc-note {{ position: absolute; left: 0; bottom: 0; line-height: 1.3; background: #fdeeea; padding: 2px 6px;
  font-size: var(--hemcalc-type) }}
.hemcalc-controls {{ flex: 1 1 {CONTROLS_WIDE}px; display: grid; align-content: start; overflow: visible;
  grid-template-columns: repeat(auto-fill, minmax({CONTROLS_WIDE - 12}px, 1fr)); column-gap: 12px;
  position: relative; padding-bottom: calc(3.9 * var(--hemcalc-small)) }}
.{PROJECTOR} .hemcalc-controls {{ flex-basis: 520px; grid-template-columns: repeat(auto-fill, minmax(480px, 1fr)) }}
.hemcalc-row {{ display: flex; flex-flow: row wrap; overflow: visible; min-width: 0 }}
.hemcalc-row > .hemcalc-control {{ flex: 1 1 200px; width: auto; min-width: 0 }}
.hemcalc-row .widget-label {{ width: 10.6em; flex: none }}
.hemcalc-row.hemcalc-top .widget-label {{ width: auto }}
.hemcalc-row .widget-checkbox .widget-label-basic {{ width: auto }}
.hemcalc-row .widget-inline-hbox {{ min-width: 0 }}
.hemcalc-box {{ flex: none; width: 5.8em; font-size: var(--hemcalc-type) }}
.hemcalc-box .widget-label {{ position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%) }}
.hemcalc-beside {{ display: none; margin: 0 }}
.hemcalc-beside .widget-html-content {{ font-size: var(--hemcalc-small); line-height: 1.25; padding: 2px 4px;
  color: #333; background: #fff }}
.hemcalc-row:hover > .hemcalc-beside, .hemcalc-row:focus-within > .hemcalc-beside
  {{ display: block; position: absolute; left: 0; right: 0; bottom: 0 }}
.hemcalc-row:focus-within > .hemcalc-beside {{ z-index: 1 }}
.hemcalc-row > .hemcalc-beside.hemcalc-wrong {{ display: block; position: static; flex: 1 1 100%; width: 100% }}
.hemcalc-wrong .widget-html-content {{ color: #7a1f00; background: #fdeeea }}
.hemcalc-words .widget-html-content, .hemcalc-caution .widget-html-content, .hemcalc-lines .widget-html-content
  {{ font-size: var(--hemcalc-type); line-height: 1.3 }}
.{PROJECTOR} .hemcalc-words, .{PROJECTOR} .hemcalc-caution {{ height: auto !important }}
.hemcalc-lines [tabindex] {{ height: 100%; overflow: auto; padding: 4px; box-sizing: border-box; line-height: 1.4 }}
.hemcalc-asleep {{ display: none }}
.jupyter-widgets-disconnected > .hemcalc-asleep {{ display: block; background: #fff4d6; padding: 4px 8px }}
.{ROOT} .jupyter-widgets-disconnected::before {{ display: none }}
</style>"""

# Names and values are set again whenever the slider sets its own; what is right already is left alone.
_SCRIPT = """
const put = (e, name, text) => { if (text && e.getAttribute(name) !== text) e.setAttribute(name, text); };
const speak = root => root.querySelectorAll('[role=slider]').forEach(handle => {
  const slider = handle.closest('.widget-inline-hbox');
  if (!slider) return;
  put(handle, 'aria-label', slider.querySelector('.widget-label').textContent);
  put(handle, 'aria-valuetext', slider.querySelector('.widget-readout').textContent);
});
const begin = tries => {
  const root = this.closest('.ROOT');
  if (!root && tries) setTimeout(() => begin(tries - 1), 200);
  if (!root || root.spoken) return;
  root.spoken = true;
  new MutationObserver(() => speak(root)).observe(root, {subtree: true, childList: true,
    characterData: true, attributes: true, attributeFilter: ['aria-valuenow', 'aria-valuetext']});
  speak(root);
};
begin(50);
"""
SPOKEN = f'<img hidden alt="" src="data:," onerror="{html.escape(_SCRIPT.replace("ROOT", ROOT).strip())}">'

_ASLEEP = (
    "<b>This panel is asleep:</b> nothing moves when its sliders do. Run the page from the top to wake it: "
    "menu <i>Run</i>, <i>Run All Cells</i>."
)


def spoken() -> Any:
    """The style and the script, as a part of a panel that takes no room."""
    return widgets.HTML(STYLE + SPOKEN, layout=widgets.Layout(height="0", margin="0", overflow="hidden"))


def asleep() -> Any:
    """How to wake a panel: seen only while no kernel answers, as the page itself knows."""
    line = widgets.HTML(f'<div role="note">{_ASLEEP}</div>')
    line.add_class("hemcalc-asleep")
    return line


def picture_wide(width: float, height: float) -> str:
    """How wide a picture of so many inches may become: until it is as high as what is seen of a page.

    A page may say with `--hemcalc-around` how much of the window is taken by what stands round it;
    without that it is what a notebook in the lab leaves.
    """
    seen = f"calc((100vh - var(--hemcalc-around, 250px)) * {width / height:.3f})"
    return f"min({round(100 * _LARGEST * width)}px, {seen})"


def classed(widget: Any, *names: str) -> Any:
    """The widget, with these classes."""
    for name in names:
        widget.add_class(name)
    return widget


