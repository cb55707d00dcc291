"""Panels driven without a browser: controls are moved as a reader moves them."""

from __future__ import annotations

import asyncio
import pathlib
import re
from collections.abc import Awaitable, Callable
from fractions import Fraction
from functools import cache, partial
from typing import Any

import comm
import matplotlib
import pytest
from ipywidgets import Widget
from PIL import ImageFont

from hemcalc.panels import (
    ahead,
    bolt_panel,
    corner_panel,
    count_panel,
    in_hand,
    margin_panel,
    spacing_panel,
    stitch_panel,
    weave_panel,
)
from hemcalc.panels.ahead import Drawn
from hemcalc.panels.bolt import plan_bolt
from hemcalc.panels.controls import Control
from hemcalc.panels.page import Followers
from hemcalc.panels.panel import Panel
from hemcalc.panels.settings import SETTINGS, Settings, in_force


class ToNobody(comm.DummyComm):
    """No page listens, so a widget need not write down its state at each change: a third of the time."""

    kernel = None


def opened(widget: Widget) -> None:
    """Have a widget heard by nobody."""
    widget.comm = ToNobody(target_name="jupyter.widget")


@pytest.fixture(scope="session", autouse=True)
def no_page():
    """What widgets tell a page is read back by nbval and in a browser."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Widget, "open", opened)
        yield


@pytest.fixture(autouse=True)
def nothing_set(monkeypatch: pytest.MonkeyPatch):
    """What a test sets is set in no other; and no panel follows but those that the test has."""
    for shared in (in_force(), in_hand.HAND):
        monkeypatch.setattr(shared, "followers", Followers())
    in_force().follow(in_force().show)
    yield
    for name, (usual, *_) in SETTINGS.items():
        in_force().choose(name, usual)


KINDS = {
    "margin": margin_panel,
    "corner": corner_panel,
    "count": count_panel,
    "spacing": spacing_panel,
    "weave": weave_panel,
    "stitch": stitch_panel,
    "bolt": bolt_panel,
}


quick_plan = partial(plan_bolt, effort=Fraction(1, 10))


@pytest.fixture(scope="session")
def all_panels() -> dict[str, Panel]:
    """One panel of each kind, made once; use `panel` to have it in its first state."""
    return {name: make() for name, make in KINDS.items()}


def first_state(made: Panel) -> Panel:
    """A panel as it was made, and told what is set or taken in hand from now on."""
    made.follow()
    made.reset(next(iter(made.examples)))
    return made


@pytest.fixture(params=KINDS)
def panel(request: pytest.FixtureRequest, all_panels: dict[str, Panel]) -> Panel:
    """Each panel, in its first state."""
    made = all_panels[request.param]
    if request.param == "bolt":
        made.plan = quick_plan
    return first_state(made)


@pytest.fixture
def set_once() -> Settings:
    """What is set for every panel; nothing is, to begin with."""
    return in_force()


@pytest.fixture
def margin(all_panels: dict[str, Panel]) -> Panel:
    """The panel of the margin rule, in its first state."""
    return first_state(all_panels["margin"])


@pytest.fixture
def corner(all_panels: dict[str, Panel]) -> Panel:
    """The panel of the corner, in its first state."""
    return first_state(all_panels["corner"])


@pytest.fixture
def spacing(all_panels: dict[str, Panel]) -> Panel:
    """The panel of the stitches, in its first state."""
    return first_state(all_panels["spacing"])


@pytest.fixture
def weave(all_panels: dict[str, Panel]) -> Panel:
    """The panel of the weave, in its first state."""
    return first_state(all_panels["weave"])


@pytest.fixture
def bolt(all_panels: dict[str, Panel]) -> Panel:
    """The panel of the bolt, in its first state."""
    panel = all_panels["bolt"]
    panel.plan = plan_bolt
    return first_state(panel)


@pytest.fixture
def quick_bolt(bolt: Panel) -> Panel:
    """The panel of the bolt with layouts that may be longer, where it is no matter how long they are."""
    bolt.plan = quick_plan
    return bolt


def _offers(control: Control) -> list[Any]:
    widget = control.widget
    if hasattr(widget, "options"):
        return list(widget.options)
    if isinstance(widget.value, bool):
        return [False, True]
    if isinstance(widget.value, float):
        return [widget.min, 0.2, 0.31, 0.5, 0.77, widget.max]
    return list(range(widget.min, widget.max + 1))


@pytest.fixture(autouse=True)
def unpainted(monkeypatch: pytest.MonkeyPatch) -> None:
    """Panels move all their artists, but paint no pixels unless asked: few tests look at any."""

    def drawn_by(view, result):
        view.update(result)
        return Drawn(result, words := view.alt(result), words.encode(), 900)

    monkeypatch.setattr("hemcalc.panels.panel.drawn_by", drawn_by)


@pytest.fixture
def painted(unpainted: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """Panels as they are, for tests that look at the pixels that a page is given."""
    monkeypatch.setattr("hemcalc.panels.panel.drawn_by", ahead.drawn_by)


@pytest.fixture(scope="session")
def until() -> Callable[[Callable[[], bool]], Awaitable[None]]:
    """Give the loop of events its turn until something is so."""

    async def turns(met: Callable[[], bool]) -> None:
        for _ in range(500):
            if met():
                return
            await asyncio.sleep(0.02)
        raise AssertionError("never came")

    return turns


@pytest.fixture(scope="session")
def offers() -> Callable[[Control], list[Any]]:
    """What a reader can set a control to."""
    return _offers


@pytest.fixture(scope="session")
def alt_of() -> Callable[[str], str]:
    """The alt text of the picture in a piece of HTML."""

    def found(text: str) -> str:
        return re.search(r'<img alt="([^"]*)"', text)[1]

    return found


@pytest.fixture(scope="session")
def lines_in() -> Callable[[str, float, float], int]:
    """How many lines a text takes in a width, both in pixels, in type of so many pixels.

    In DejaVu Sans, which is wider than what a browser would take; measured so large that no letter is rounded
    to a pixel, and by Pillow's own layout, since the other is used only where there is a library.
    """
    path = pathlib.Path(matplotlib.get_data_path(), "fonts", "ttf", "DejaVuSans.ttf")
    long = cache(ImageFont.truetype(path, 200, layout_engine=ImageFont.Layout.BASIC).getlength)

    def counted(text: str, pixels: float, width: float) -> int:
        lines, along, room = 1, 0.0, 200 * width / pixels
        for word in text.split():
            longer = along + long(" ") + long(word) if along else long(word)
            if longer > room:
                lines, longer = lines + 1, long(word)
            along = longer
        return lines

    return counted
