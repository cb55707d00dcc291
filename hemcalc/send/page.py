"""One notebook that was run, as one HTML page that needs nothing but itself."""

from __future__ import annotations

import html
import re
from functools import cache
from typing import Any

from nbconvert import HTMLExporter
from nbformat import NotebookNode

#: By which a page says that it was made here, and may be made anew.
MARK = '<meta name="generator" content="hemcalc pages">'

_VIEW = "application/vnd.jupyter.widget-view+json"
_NOTE = (
    "This page was made to be read and sent round: it needs no internet and no other program. A slider moves "
    "a picture, one slider at a time; the sums can be changed where the notebooks themselves are opened."
)

_LARGER = "Turn the phone on its side, or spread two fingers, to see a picture larger."

STYLE = """
body { font: 1.05rem/1.5 Georgia, serif; color: #1a1a1a; background: #fff; margin: 0 }
main { max-width: 920px; margin: 0 auto; padding: 0 14px 3em; overflow-wrap: break-word }
h1, h2, h3 { line-height: 1.2; margin: 1.4em 0 .4em }
a { color: #00478f }
img { max-width: 100%; height: auto }
.note { border-left: 5px solid #00478f; padding: .4em .8em; background: #eef3f8 }
.turn { display: none }
pre { font-size: .85rem; line-height: 1.4; margin: .4em 0; padding: .5em; white-space: pre-wrap }
.input pre { background: #f2f2f2 }
.output, .text_cell_render { overflow-x: auto }
table { border-collapse: collapse; font-size: .95rem }
th, td { border: 1px solid #767676; padding: .25em .5em; text-align: left }
details { margin: .5em 0 }
summary { cursor: pointer; padding: .4em 0 }
figure.panel { margin: 1em 0; padding: .6em; border: 1px solid #767676 }
figure.panel img { display: block; width: 100%; max-height: 72vh; object-fit: contain; object-position: left }
figure.panel label { display: block; margin: .3em 0 }
figure.panel input { display: block; width: 100%; height: 2.4rem; margin: 0; accent-color: #00478f }
figcaption, figure.panel div { font-size: .95rem; margin-top: .4em }
@media (min-width: 700px) {
  figure.panel label { display: grid; grid-template-columns: 17rem 1fr; align-items: center; margin: 0 }
}
@media (max-width: 600px) { th, td { padding: .25em .3em } }
@media (max-width: 600px) and (orientation: portrait) { .turn { display: block } }
"""

#: Shows the picture that was made for where a slider stands; the other sliders go back to where they were.
SCRIPT = """
for (const figure of document.querySelectorAll("figure.panel")) {
  const kept = JSON.parse(figure.querySelector("script").textContent);
  const ranges = [...figure.querySelectorAll("input")];
  const say = (range) => {
    const [picture, narrow, said, alt] = kept.strips[range.dataset.strip][range.value];
    range.setAttribute("aria-valuetext", said);
    range.parentElement.querySelector("output").textContent = said;
    return [picture, narrow, alt];
  };
  const show = (moved) => {
    for (const other of ranges)
      if (other !== moved) { other.value = other.defaultValue; say(other); }
    const [picture, narrow, alt] = say(moved);
    const image = figure.querySelector("img"), small = figure.querySelector("source");
    if (small) small.srcset = kept.pictures[narrow];
    image.src = kept.pictures[picture];
    image.alt = alt;
    figure.querySelector("figcaption").textContent = alt;
  };
  for (const range of ranges) {
    range.value = range.defaultValue;
    range.addEventListener("input", () => show(range));
  }
}
"""


@cache
def _exporter() -> HTMLExporter:
    """Made once, since each reads its templates anew."""
    return HTMLExporter(
        template_name="basic",
        exclude_input_prompt=True,
        exclude_output_prompt=True,
        exclude_anchor_links=True,
    )


def page_html(notebook: NotebookNode) -> str:
    """The page of a notebook that was run; the notebook is changed."""
    # Here, for it brings in all panels, and nothing would be said of the first page until they are there.
    from hemcalc.panels.settings import GREYS, in_force

    notebook.metadata.pop("widgets", None)
    for cell in notebook.cells:
        if cell.cell_type == "markdown":
            cell.source = re.sub(r"(\]\([\w-]+)\.ipynb([)#])", r"\1.html\2", cell.source)
        else:
            cell.outputs = [_still(output) for output in cell.outputs]
            hidden = cell.metadata.get("jupyter", {}).get("source_hidden", False)
            cell.metadata["transient"] = {"remove_source": hidden}
    title = re.search(r"^# (.*)$", notebook.cells[0].source if notebook.cells else "", re.MULTILINE)
    body, _ = _exporter().from_notebook_node(notebook)
    # Nothing may be fetched: what a page shows, it holds.
    policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; script-src 'unsafe-inline'"
    return f"""<!doctype html>
<html lang="en-GB">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
{MARK}
<meta http-equiv="Content-Security-Policy" content="{policy}">
<title>{html.escape(title[1] if title else "hemcalc")}</title>
<style>{STYLE}</style>{GREYS if in_force().greys else ""}
</head>
<body>
<main>
<p class="note">{_NOTE} <span class="turn">{_LARGER}</span></p>
{body}
</main>
<script>{SCRIPT}</script>
</body>
</html>
"""


def _still(output: Any) -> Any:
    """What stands on the page of an output that is alive in a notebook: its words or picture."""
    data = output.get("data", {})
    if data.pop(_VIEW, None) is not None and "text/html" not in data:
        data["text/html"] = "<p>(Here stands a form, where the notebooks themselves are opened.)</p>"
    return output
