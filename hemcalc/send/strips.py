"""A panel on paper, as it were: for each of its main sliders a strip of pictures, made beforehand.

A page that is sent round has no kernel. So every picture is drawn here, by the panel's own plan and
view, and the page's script only shows the one that a slider points to.
"""

from __future__ import annotations

import base64
import html
import io
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from PIL import Image

from hemcalc.measure.errors import HemError
from hemcalc.panels.controls import Control
from hemcalc.panels.panel import Panel

#: The sliders that move on a page, in the order in which they stand below its picture.
MOVING = (
    *("fold", "step", "hem", "hem threads", "hem across", "clear", "clear right", "group"),
    *("threads", "learners"),
)

#: Pictures to a slider; of one that has more places, as many as are nearest to where it stands.
MOST = 70
_SHARES = 20  # steps from 0 to 1


@dataclass(frozen=True, slots=True)
class Frame:
    """One picture of a strip: what the slider says there, the picture as WebP, and its words."""

    said: str
    picture: bytes
    alt: str


def strip(panel: Panel, name: str) -> tuple[tuple[Frame, ...], int]:
    """The pictures that one slider of a panel goes through, and which of them stands there now.

    A place where the panel shows no picture, but says why not, is left out.
    """
    frames: list[Frame] = []
    now, values = 0, panel.values
    try:
        for value in _places(panel.controls[name]):
            if value == values[name]:
                now = len(frames)
            try:
                frames.append(_frame(panel, values | {name: value}, name))
            except HemError:
                continue
    finally:
        panel.view.update(panel.result)
    return tuple(frames), now


def _places(control: Control) -> list[Any]:
    """What a slider can be set to, in order, with what it says now."""
    slider = control.widget
    if isinstance(control.value, float):
        return sorted({control.value, *(n / _SHARES for n in range(_SHARES + 1))})
    places = list(getattr(slider, "options", ())) or list(range(slider.min, slider.max + 1))
    first = places.index(control.value) - MOST // 2
    return places[max(0, min(first, len(places) - MOST)) :][:MOST]


def _frame(panel: Panel, values: Mapping[str, Any], name: str) -> Frame:
    result = panel.plan(values)
    panel.view.update(result)
    with io.BytesIO() as kept, Image.open(io.BytesIO(panel.view.sheet.png())) as picture:
        picture.convert("RGB").save(kept, "WEBP", lossless=True, method=2)
        return Frame(str(values.get(name, "")), kept.getvalue(), panel.view.alt(result))


def _address(picture: bytes) -> str:
    return f"data:image/webp;base64,{base64.b64encode(picture).decode('ascii')}"


def moving(panel: Panel) -> tuple[str, ...]:
    """The sliders of a panel that move on a page: those of `MOVING` that it shows."""
    return tuple(name for name in MOVING if name in panel.controls and panel.controls[name].is_shown)


def strip_html(panel: Panel) -> str:
    """A panel as a picture over range inputs, with all that they show; `page.SCRIPT` moves it.

    Without a script, the picture is seen as the panel stood.
    """
    pictures: dict[bytes, int] = {}
    strips, ranges = {}, ""
    for name in moving(panel):
        frames, now = strip(panel, name)
        strips[name] = [
            [pictures.setdefault(frame.picture, len(pictures)), frame.said, frame.alt] for frame in frames
        ]
        label = html.escape(panel.controls[name].widget.description)
        said = html.escape(frames[now].said)
        ranges += (
            f'<label><span>{label}: <output>{said}</output></span><input type="range" data-strip="{name}" '
            f'min="0" max="{len(frames) - 1}" value="{now}" aria-valuetext="{said}"></label>'
        )
    here = _frame(panel, panel.values, "")
    kept = {"pictures": [_address(picture) for picture in pictures], "strips": strips}
    data = json.dumps(kept, ensure_ascii=False).replace("</", "<\\/")
    return (
        f'<figure class="panel"><img alt="{html.escape(here.alt)}" src="{_address(here.picture)}">{ranges}'
        f'<figcaption>{html.escape(here.alt)}</figcaption><script type="application/json">{data}</script>'
        "</figure>"
    )


def show_strips(shell: Any) -> None:
    """Have a shell of IPython show panels by their strips from now on."""

    def bundle(panel: Panel, **_: Any) -> dict[str, str]:
        return {"text/plain": panel.view.alt(panel.result), "text/html": strip_html(panel)}

    shell.display_formatter.mimebundle_formatter.for_type(Panel, bundle)
