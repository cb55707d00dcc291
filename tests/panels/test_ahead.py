"""Pictures drawn ahead: the very ones that the slider gives, a few, and only where there is time for them."""

import asyncio

import pytest

from hemcalc import example
from hemcalc.panels import ahead, spacing_panel, weave_panel
from hemcalc.panels.ahead import KEPT, Ahead, Drawn, next_places
from hemcalc.panels.in_hand import MINE, take_in_hand
from hemcalc.panels.panel import Panel


@pytest.mark.parametrize(("make", "name"), [(spacing_panel, "clear right"), (weave_panel, "step")])
@pytest.mark.usefixtures("painted")
def test_what_comes_next_is_drawn_while_nobody_asks_and_is_what_the_slider_gives(
    make, name, monkeypatch, until
):
    drawn, draw = [], Panel.draw
    monkeypatch.setattr(Panel, "draw", lambda self, values: drawn.append(values[name]) or draw(self, values))

    async def watch():
        panel = make()
        slider = panel.controls[name].widget
        drawn.clear()
        slider.value = start = slider.value + 3
        shown = panel.drawn
        await until(lambda: len(drawn) == 4)
        assert drawn == [start, *next_places(slider, panel.examples[panel.menu.value][name])]
        assert panel.drawn is shown, "nothing is shown before it is asked for"
        slider.value = there = drawn[1]
        assert len(drawn) == 4, "it was there"
        fresh = make()
        fresh.controls[name].widget.value = there
        assert panel.picture.value == fresh.picture.value
        assert panel.words.value == fresh.words.value
        assert panel.view.sheet.png() == panel.drawn.png, "who looks at the view sees what is shown"
        panel.close()
        await asyncio.sleep(3 * ahead.REST)

    asyncio.run(watch())


def test_a_few_pictures_are_kept_the_last_that_were_asked_for_and_none_once_all_are_forgotten():
    drawn = []
    kept = Ahead(lambda values: drawn.append(values["place"]) or Drawn())

    def drawn_for(*places):
        drawn.clear()
        for place in places:
            kept.drawn({"place": place})
        return drawn

    assert drawn_for(*range(KEPT)) == [*range(KEPT)]
    assert drawn_for(0, KEPT) == [KEPT], "the first was asked for again"
    assert drawn_for(*range(2, KEPT + 1), 0, 1) == [1]
    kept.forget()
    assert drawn_for(0) == [0]


def test_whatever_but_one_control_is_moved_all_is_drawn_anew(monkeypatch):
    panel, drawn = spacing_panel(), []
    monkeypatch.setattr(panel.view, "update", drawn.append)
    group, before = panel.controls["group"].widget, panel.controls["group"].value
    for value, redrawn in ((before + 1, 1), (before, 0), (before + 1, 0)):
        drawn.clear()
        group.value = value
        assert len(drawn) == redrawn
    panel.redraw()
    drawn.clear()
    group.value = before
    assert len(drawn) == 1


def test_who_goes_to_and_fro_finds_every_picture_there(monkeypatch):
    monkeypatch.setattr(ahead, "REST", 0)
    drawn = []
    kept = Ahead(lambda values: drawn.append(values["at"]) or Drawn(values["at"]))

    async def walk(places):
        for at in places:
            kept.drawn({"at": at})
            kept.want([{"at": at + by} for by in (1, -1, 2, -2)])
            for _ in range(10):  # turns of the loop, two for each of them and some over
                await asyncio.sleep(0)

    up = range(12)
    asyncio.run(walk([*up, *reversed(up)]))
    assert sorted(drawn) == list(range(-2, 14)), "each once"
    asyncio.run(walk([*up, *reversed(up)]))
    assert len(drawn) == 16, "none again"


def test_the_picture_is_sent_before_what_nobody_waits_for():
    panel, sent = spacing_panel(), []
    control = panel.controls["group"]
    for part in (panel.picture, panel.words, control.box):
        part.observe(lambda change: sent.append(change["owner"]), "value")
    control.widget.value += 1
    assert sent == [panel.picture, panel.words, control.box]


def test_a_slider_that_is_slow_and_what_is_no_slider_have_no_next_place():
    panel = spacing_panel()
    assert next_places(panel.controls["hand"].widget, "left") == []
    slider = panel.controls["count"].widget
    first, second, third, *_ = slider.options
    slider.value = second
    assert next_places(slider, first) == [third, first, slider.options[3]]
    assert next_places(slider, "no such count") == []
    slider.continuous_update = False
    assert next_places(slider, first) == []


def test_what_was_drawn_of_one_piece_in_hand_is_not_shown_for_another():
    panel = weave_panel()
    try:
        take_in_hand(example("bread cloth"))
        panel.menu.value = "coaster, one drawn"
        panel.controls["piece"].widget.options = (MINE, *panel.controls["piece"].widget.options)
        panel.controls["piece"].widget.value = MINE
        before = panel.result.weave.ends[0].side.edge.count
        panel.controls["piece"].widget.value = "coaster"
        take_in_hand(example("sampler"))
        panel.controls["piece"].widget.value = MINE
        assert panel.result.weave.ends[0].side.edge.count != before
    finally:
        take_in_hand(None)
