"""The stage without a browser: what plays, what is made ahead, and what the page may say."""

import asyncio
import html
import re

import pytest

from hemcalc.measure.errors import HemError
from hemcalc.panels.playing import ACTS, Playing
from hemcalc.panels.settings import SETTINGS, in_force
from hemcalc.panels.stage import stage


@pytest.fixture(scope="module")
def made():
    return {}


@pytest.fixture(params=ACTS)
def playing(request, made):
    if request.param not in made:
        made[request.param] = Playing(ACTS[request.param])
    playing = made[request.param]
    playing.panel.reset(next(iter(playing.panel.examples)))
    return playing


@pytest.fixture
def shown():
    """A stage; afterwards nothing is set."""
    yield lambda name="": stage(f"panel={name}")
    for name in SETTINGS:
        in_force().chosen.pop(name, None)


def alt(text):
    return html.unescape(re.search('alt="([^"]*)"', text)[1])


def place(playing):
    return {name: int(number) for name, number in re.findall(r"data-(\w+)=(\d+)", playing.place.value)}


@pytest.mark.usefixtures("painted")
def test_a_picture_made_ahead_is_the_one_that_the_slider_gives_and_making_it_moves_nothing(playing):
    panel, values = playing.panel, playing.values
    for at in (0, len(values) // 2, len(values) - 1):
        before = panel.values, panel.result, panel.picture.value, playing.run
        ahead = playing.frame(at)
        assert (panel.values, panel.result, panel.picture.value, playing.run) == before
        assert panel.view.sheet.html(panel.view.alt(panel.result)) == panel.picture.value
        playing.go(at)
        assert panel.values[playing.act.plays] == values[at]
        assert panel.picture.value == ahead
        assert place(playing)["at"] == playing.at == at


def test_other_pictures_are_wanted_when_anything_but_the_played_control_moves(playing):
    run = playing.run
    playing.go(1)
    assert place(playing)["run"] == playing.run == run
    playing.resize(1280, 600)
    assert playing.run == run + 1
    across, up = playing.panel.view.sheet.figure.get_size_inches()
    assert playing.panel.view.sheet.figure.dpi == pytest.approx(min(1280 / across, 600 / up))
    playing.panel.reset(list(playing.panel.examples)[-1])
    assert playing.run > run + 1
    assert place(playing)["of"] == len(playing.values)


def test_every_picture_is_sent_the_next_ones_first_and_those_that_nobody_wants_any_more_are_not(until):
    async def watch():
        playing, sent = Playing(ACTS["spacing"]), []
        playing.ahead.observe(lambda change: sent.append(change["new"]), "value")
        first, many = playing.at, len(playing.values)
        await until(lambda: len(sent) == many)
        assert [int(at) for one in sent for at in re.findall(r'data-at="(\d+)"', one)] == [
            *range(first, many),
            *range(first),
        ]
        assert [alt(one) for one in sent[:2]] == [alt(playing.frame(first)), alt(playing.frame(first + 1))]
        sent.clear()
        playing.panel.controls["clear left"].widget.value = 9
        playing.panel.controls["clear left"].widget.value = 8
        await until(lambda: len(sent) == many)
        await asyncio.sleep(0.1)
        assert {run for one in sent for run in re.findall(r'data-run="(\d+)"', one)} == {str(playing.run)}
        assert len(sent) == many

    asyncio.run(watch())


def test_every_control_is_under_the_picture_or_in_the_drawer_once(playing):
    def within(part):
        return [part, *(found for child in getattr(part, "children", ()) for found in within(child))]

    parts = within(playing.widget)
    for name, control in playing.panel.controls.items():
        assert parts.count(control.row) == (name not in SETTINGS), name
    assert parts.count(in_force().controls) == 1
    bar = [
        name for name, control in playing.panel.controls.items() if "stage-slider" in control.row._dom_classes
    ]
    assert playing.act.plays in bar
    assert 2 <= sum(playing.panel.controls[name].is_shown for name in bar) <= 3


def test_what_is_to_be_minded_stands_beside_the_picture(playing):
    said = re.search("<b>(.*?)</b>", playing.panel.caution.value)
    assert (f"<b>⚠ {said[1]}</b>" in playing.mind.value) if said else not playing.mind.value
    if playing.panel.caution in playing.panel.widget.children:
        playing.go(1)
        assert "Mind" in playing.mind.value


def test_the_page_says_how_large_it_is_and_which_picture_it_shows_and_nothing_else_is_heard(shown):
    stage = shown("margin")
    playing = stage.playing
    assert playing.at == 0, "it begins flat"
    stage.said.value = "1 size 1366 680"
    assert playing.panel.view.sheet.figure.dpi == pytest.approx(680 / 5.5, rel=0.2)
    run = playing.run
    stage.said.value = f"2 go {run} 7"
    assert playing.panel.values["fold"] == 0.35
    for words in (
        f"3 go {run - 1} 9",
        "4 go",
        "go 1 1",
        "5 size 0 0",
        f"6 go {run} -1",
        "import os",
        "7 leave 1 1",
    ):
        stage.said.value = words
        assert (playing.panel.values["fold"], playing.run, stage.playing) == (0.35, run, playing)
    stage.said.value = f"8 go {run} 99999"
    assert playing.panel.values["fold"] == 1


def test_a_panel_that_was_left_is_found_as_it_was(shown):
    stage = shown()
    assert stage.playing is None
    stage.show("stitch")
    stage.playing.go(3)
    run = stage.playing.run
    stage.leave()
    stage.show("stitch")
    assert (stage.playing.at, stage.playing.run) == (3, run)
    stage.said.value = "1 size 1366 680"
    stage.said.value = "2 size 1366 680"
    assert stage.playing.run == run + 2, "the page has thrown its pictures away, and says when it is there"
    with pytest.raises(HemError, match="panel is 'tablecloth', but must be one of 'margin'"):
        stage.show("tablecloth")


@pytest.mark.parametrize(
    ("query", "name"), [("panel=corner&token=x", "corner"), ("panel=cloth", ""), ("", "")]
)
def test_the_address_says_which_panel_comes_first(shown, query, name):
    first = stage(query)
    assert (first.playing.act if first.playing else None) == ACTS.get(name)


def test_the_type_is_for_a_hall_and_that_is_not_kept(shown):
    assert shown("spacing").playing.panel.view.sheet.type.name == "projector"
    assert Playing(ACTS["spacing"]).panel.view.sheet.type.name == "projector"


def test_each_of_these_panels_has_a_button_to_the_stage_in_a_notebook(playing):
    def words(part):
        return [
            getattr(part, "description", ""),
            *(w for child in getattr(part, "children", ()) for w in words(child)),
        ]

    assert words(playing.panel.widget).count("On the stage") == 1
