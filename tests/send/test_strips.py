"""The strips of pictures: what a page shows at each place of a slider is what the panel shows there."""

from __future__ import annotations

import base64
import html
import io
import json
import re
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from IPython.core.interactiveshell import InteractiveShell
from PIL import Image
from traitlets.config import Config

from hemcalc.measure import HemError, caution_for
from hemcalc.panels import corner_panel, count_panel, margin_panel, spacing_panel
from hemcalc.panels.panel import Panel
from hemcalc.send import strip_html, strips
from hemcalc.send.strips import moving, strip


def pixels(picture: bytes) -> Any:
    return np.asarray(Image.open(io.BytesIO(picture)).convert("RGB"))


def kept(page: str) -> Any:
    return json.loads(re.search(r'<script type="application/json">(.*)</script>', page)[1])  # type: ignore


@pytest.fixture(scope="module", autouse=True)
def few() -> Iterator[None]:
    """A few pictures for each slider."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(strips, "MAX_PICTURES", 8)
        patch.setattr(strips, "SHARES", 4)
        yield


def wide(panel: Panel) -> Panel:
    """Without the pictures for a phone, which take as long again."""
    panel.narrow = None
    return panel


@pytest.fixture(scope="module")
def margin() -> Panel:
    return wide(margin_panel())


@pytest.fixture(scope="module")
def page(margin: Panel) -> str:
    """The margin panel as a page has it, which leaves the panel as it stood."""
    before = margin.view.sheet.png()
    page = strip_html(margin)
    assert margin.view.sheet.png() == before
    return page


@pytest.mark.parametrize(
    ("name", "places", "at"),
    [("fold", ["0.0", "0.25", "0.75"], 1), ("clear", ["3", "5", "10"], 2), ("hem", ["1/8 in", "1/4 in"], 2)],
)
def test_a_place_of_a_slider_shows_what_the_panel_shows_there(
    margin: Panel, page: str, name: str, places: list[str], at: int
) -> None:
    data = kept(page)
    numbers, narrow, said, alts = zip(*data["strips"][name], strict=True)
    assert set(places) <= set(said)
    assert len(set(numbers)) == len(numbers), "no two places look alike"
    moved = margin_panel()
    moved.controls[name].widget.value = type(moved.values[name])(said[at])
    assert alts[at] == moved.view.alt(moved.result)
    picture = base64.b64decode(data["pictures"][numbers[at]].partition(",")[2])
    assert (pixels(picture) == pixels(moved.view.sheet.png())).all(), "to the point"
    assert narrow == numbers, "there is none for a phone"


def test_on_a_phone_a_picture_is_drawn_anew_narrow_and_with_large_letters(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(strips, "MOVING", ("hem",))
    monkeypatch.setattr(strips, "MAX_PICTURES", 2)
    panel = margin_panel()
    made = strip_html(panel)
    data = kept(made)
    for number, small, *_ in data["strips"]["hem"]:
        assert number != small
        assert pixels(base64.b64decode(data["pictures"][small].partition(",")[2])).shape == (420, 540, 3)
    now = re.search(r'value="(\d)" aria', made)
    assert now
    here = data["pictures"][data["strips"]["hem"][int(now[1])][1]]
    assert f'<source media="(max-width: 600px)" srcset="{here}">' in made
    assert panel.view.sheet.type.name == "page"


def test_a_place_without_a_picture_is_left_out() -> None:
    panel = margin_panel()
    plan = panel.plan

    def refusing(values: Any) -> Any:
        if values["hem"] in ("1/8 in", "1/4 in"):
            raise HemError("No.")
        return plan(values)

    panel.plan = refusing
    frames, now = strip(panel, "hem")
    assert [frame.said for frame in frames][:3] == ["3/16 in", "5/16 in", "3/8 in"]
    assert frames[now].said == panel.values["hem"]


@pytest.mark.parametrize(("stands", "first"), [(4, 4), (28, 25), (200, 195)])
def test_of_a_long_slider_the_places_round_where_it_stands_are_kept(
    monkeypatch: pytest.MonkeyPatch, stands: int, first: int
) -> None:
    monkeypatch.setattr(strips, "MAX_PICTURES", 6)
    panel = count_panel()
    panel.controls["threads"].widget.value = stands
    frames, now = strip(panel, "threads")
    assert [frame.said for frame in frames] == [str(n) for n in range(first, first + 6)]
    assert frames[now].said == str(stands)


@pytest.mark.parametrize(
    ("made", "names"),
    [
        (margin_panel, {"fold", "hem", "clear", "drawn"}),
        (corner_panel, {"fold", "corner", "hem", "drawn"}),
        (spacing_panel, {"design", "clear right", "group", "hand"}),
    ],
)
def test_the_sliders_that_move_are_those_that_the_panel_shows(made: Any, names: set[str]) -> None:
    assert set(moving(made())) == names


def test_the_page_holds_each_picture_once_and_knows_where_it_stands(margin: Panel, page: str) -> None:
    data = kept(page)
    assert len(set(data["pictures"])) == len(data["pictures"])
    ranges = re.findall(
        r'data-strip="([^"]+)" min="0" max="(\d+)" value="(\d+)" aria-valuetext="([^"]+)"', page
    )
    assert {name for name, *_ in ranges} == set(data["strips"]) == set(moving(margin))
    (shown,) = re.findall(r'<img alt="([^"]+)" src="([^"]+)"', page)
    for name, most, now, said in ranges:
        assert len(data["strips"][name]) == int(most) + 1
        picture, _, words, alt = data["strips"][name][int(now)]
        assert (data["pictures"][picture], words) == (shown[1], said)
        assert alt == margin.view.alt(margin.result)
    assert base64.b64decode(shown[1].partition(",")[2])[8:12] == b"WEBP"


def test_the_caution_stands_on_the_page_as_under_the_panel(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strips, "MOVING", ("fold",))
    assert caution_for("blade", "iron") in html.unescape(strip_html(wide(corner_panel())))


def test_words_can_not_end_the_data_of_a_page(margin: Panel, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strips, "MOVING", ("hem",))
    monkeypatch.setattr(margin.view, "alt", lambda result: 'a "hem" of </script> 16 & more')
    page = strip_html(margin)
    assert page.count("</script>") == 1
    assert kept(page)["strips"]["hem"][0][3] == 'a "hem" of </script> 16 & more'
    assert 'alt="a &quot;hem&quot; of &lt;/script&gt; 16 &amp; more"' in page


def test_a_shell_shows_a_panel_by_its_strips_once_it_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strips, "MOVING", ("group",))
    quiet = Config(HistoryManager={"enabled": False})  # a database in the home would stay open
    shell, panel = InteractiveShell(config=quiet), spacing_panel()
    shell.display_formatter.active_types = shell.display_formatter.format_types
    assert "application/vnd.jupyter.widget-view+json" in shell.display_formatter.format(panel)[0]
    strips.show_strips(shell)
    shown, _ = shell.display_formatter.format(panel)
    assert set(shown) == {"text/plain", "text/html"}
    assert shown["text/html"] == strip_html(panel)


def test_a_slider_that_moves_nothing_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(strips, "MOVING", ("drawn", "group"))
    monkeypatch.setattr(strips, "MAX_PICTURES", 2)
    panel = margin_panel()
    plan = panel.plan
    assert 'data-strip="drawn"' in strip_html(panel)
    panel.plan = lambda values: plan(values | {"drawn": 2})
    assert "data-strip" not in strip_html(panel)
