"""A panel on paper, as it were: for each of its main sliders a strip of pictures, made beforehand.

A page that is sent round has no kernel. So the panel is moved here, and each picture that it draws is
kept; the page's script only shows the one that a slider points to.
"""

from __future__ import annotations

import base64
import html
import io
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from hemcalc.draw.look import type_size
from hemcalc.measure.errors import of_type
from hemcalc.panels.ahead import View
from hemcalc.panels.controls import Control
from hemcalc.panels.panel import Panel
from hemcalc.panels.settings import SETTINGS

#: What moves on a page, in the order in which it stands below its picture: what the pages ask to be moved.
MOVING = (
    *("fold", "step", "corner", "hem", "hem threads", "hem across", "design", "clear", "clear right"),
    *("drawn", "group", "hand", "threads", "ruler", "places", "size", "sure", "learners"),
)

#: Pictures to a slider; of one that has more places, as many as are nearest to where it stands.
MAX_PICTURES = 70
#: Steps from 0 to 1.
SHARES = 20


@dataclass(frozen=True, slots=True)
class Frame:
    """One picture of a strip: what the slider says there, the picture as WebP, and its words.

    And the picture for a phone, narrow and with large letters; the same one where a panel has none.
    """

    said: str
    picture: bytes
    alt: str
    narrow: bytes


def strip(panel: Panel, name: str, narrow: View | None = None) -> tuple[tuple[Frame, ...], int]:
    """The pictures that one slider of a panel goes through, and which of them stands there now.

    A place where the panel shows no picture, but says why not, is left out. What is narrow is drawn by the
    other view.
    """
    frames: list[Frame] = []
    now, before = 0, panel.values
    for value in _places(panel.controls[name]):
        if value == before[name]:
            now = len(frames)
        _set(panel, {name: value} | before | {name: value})
        if not panel.sentences:
            frames.append(_frame(panel, str(value), narrow))
    _set(panel, {name: before[name]} | before)
    return tuple(frames), now


def _set(panel: Panel, values: Mapping[str, Any]) -> None:
    """Move the controls in this order, for one may change what others offer; and draw once."""
    with panel.holding():
        for name, value in values.items():
            panel.controls[name].widget.value = value


def _places(control: Control) -> list[Any]:
    """What a slider can be set to, in order, with what it says now."""
    slider = control.widget
    if isinstance(control.value, float):
        return sorted({control.value, *(n / SHARES for n in range(SHARES + 1))})
    places = list(getattr(slider, "options", ())) or list(range(slider.min, slider.max + 1))
    first = places.index(control.value) - MAX_PICTURES // 2
    return places[max(0, min(first, len(places) - MAX_PICTURES)) :][:MAX_PICTURES]


def _frame(panel: Panel, said: str, narrow: View | None) -> Frame:
    """What the panel shows now: the picture that it has just painted."""
    picture = small = _webp(panel.view.sheet.painted)
    if narrow is not None:
        narrow.update(panel.result)
        small = _webp(narrow.sheet.pixels())
    return Frame(said, picture, panel.view.alt(panel.result), small)


def _webp(pixels: NDArray[np.uint8]) -> bytes:
    with io.BytesIO() as kept:
        Image.fromarray(pixels[..., :3]).save(kept, "WEBP", lossless=True, method=1)
        return kept.getvalue()


def _address(picture: bytes) -> str:
    return f"data:image/webp;base64,{base64.b64encode(picture).decode('ascii')}"


def moving(panel: Panel) -> tuple[str, ...]:
    """The sliders of a panel that move on a page: of `MOVING`, those that it shows or that all share."""
    there = (name for name in MOVING if name in panel.controls)
    return tuple(name for name in there if panel.controls[name].is_shown or name in SETTINGS)


def strip_html(panel: Panel) -> str:
    """A panel as a picture over range inputs, with all that they show; `page.SCRIPT` moves it.

    Without a script, the picture is seen as the panel stood.
    """
    of_type(panel, Panel, "panel", "margin_panel()")
    narrow = panel.narrow and panel.narrow()
    if narrow:
        narrow.sheet.set_type(type_size("projector"))
    pictures: dict[bytes, int] = {}
    strips, ranges = {}, ""

    def kept_as(picture: bytes) -> int:
        return pictures.setdefault(picture, len(pictures))

    for name in moving(panel):
        frames, now = strip(panel, name, narrow)
        if len({frame.picture for frame in frames}) < 2:
            continue  # it moves nothing as the panel stands
        strips[name] = [
            [kept_as(frame.picture), kept_as(frame.narrow), frame.said, frame.alt] for frame in frames
        ]
        label = html.escape(panel.controls[name].widget.description)
        said = html.escape(frames[now].said)
        ranges += (
            f'<label><span>{label}: <output>{said}</output></span><input type="range" data-strip="{name}" '
            f'min="0" max="{len(frames) - 1}" value="{now}" aria-valuetext="{said}"></label>'
        )
    panel.redraw()  # what was painted last may be a picture drawn ahead
    here = _frame(panel, "", narrow)
    small = f'<source media="(max-width: 600px)" srcset="{_address(here.narrow)}">' if narrow else ""
    kept = {"pictures": [_address(picture) for picture in pictures], "strips": strips}
    data = json.dumps(kept, ensure_ascii=False).replace("</", "<\\/")
    return (
        f'<figure class="panel"><picture>{small}'
        f'<img alt="{html.escape(here.alt)}" src="{_address(here.picture)}"></picture>{ranges}'
        f"<figcaption>{html.escape(here.alt)}</figcaption><div>{panel.caution.value}</div>"
        f'<script type="application/json">{data}</script></figure>'
    )


def show_strips(shell: Any) -> None:
    """Have a shell of IPython show panels by their strips from now on."""

    def bundle(panel: Panel, **_: Any) -> dict[str, str]:
        return {"text/plain": panel.drawn.words, "text/html": strip_html(panel)}

    shell.display_formatter.mimebundle_formatter.for_type(Panel, bundle)
