"""The panel of the hem stitch, moved as a reader moves it."""

import html
import re
from itertools import cycle, islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.draw.stitch.words import LAST
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length
from hemcalc.panels.stitch import plan_stitch, stitch_panel
from hemcalc.piece.examples import example
from hemcalc.stitch.thread import thread_needed

PANEL = stitch_panel()


@pytest.fixture
def panel():
    PANEL.reset("coaster")
    return PANEL


def move(panel, **values):
    for name, value in values.items():
        panel.controls[name].widget.value = value


def settings_of(control):
    widget = control.widget
    return list(widget.options) if hasattr(widget, "options") else list(range(widget.min, widget.max + 1))


def census(panel):
    sheet = panel.view.sheet
    return len(sheet.figure.findobj()), len(sheet.figure.axes), len(sheet._moving), len(panel.widget.children)


def test_fifty_moves_later_there_are_as_many_artists(panel):
    before = census(panel)
    for name, number in islice(zip(cycle(panel.controls), range(1000), strict=False), 60):
        choices = settings_of(panel.controls[name])
        panel.controls[name].widget.value = choices[number % len(choices)]
    assert census(panel) == before


@settings(max_examples=15)
@given(data=st.data())
def test_no_walk_over_the_controls_ever_raises(data):
    PANEL.reset("coaster")
    for _ in range(data.draw(st.integers(1, 8))):
        name = data.draw(st.sampled_from(list(PANEL.controls)))
        choices = settings_of(PANEL.controls[name])
        PANEL.controls[name].widget.value = choices[data.draw(st.integers(0, 100)) % len(choices)]
        if not PANEL.sentences:
            assert plan_stitch(PANEL.values) == PANEL.result
            continue
        ((about, sentence),) = PANEL.sentences.items()
        with pytest.raises(HemError) as caught:
            plan_stitch(PANEL.values)
        assert (caught.value.about, str(caught.value)) == (about, sentence)
        assert len(sentence) <= 400
        assert "for example" in sentence


@pytest.mark.parametrize(
    ("moves", "about", "words"),
    [
        ({"piece": "bookmark", "depth": 5}, "depth", "depth is 5 threads, but the left hem is only 4"),
        ({"working": "10 cm"}, "working", "must be longer than its start and end, 13 cm"),
        ({"piece": "sampler", "thickness": "1.5 mm"}, "thickness", "the picture has room for 0.7 mm"),
    ],
)
def test_a_bad_combination_is_said_beside_the_control_that_caused_it(panel, moves, about, words):
    move(panel, **moves)
    assert list(panel.sentences) == [about]
    assert words in panel.sentences[about]
    assert "opacity" in panel.picture.value
    assert "Not up to date" in panel.picture.value
    panel.reset("coaster")
    assert not panel.sentences
    assert "opacity" not in panel.picture.value


def test_the_example_of_a_sentence_would_have_been_accepted(panel):
    move(panel, piece="sampler", thickness="1.5 mm")
    asked = re.search(r"for example ([\d.]+ mm)", panel.sentences["thickness"])[1]
    move(panel, thickness=asked)
    assert not panel.sentences


def test_the_amounts_are_those_of_the_piece(panel):
    move(panel, piece="bread cloth", group=3, pulled="60 %", thickness="0.5 mm", thread="0.25 mm", unit="mm")
    plan = thread_needed(
        example("bread cloth"), 3, thickness="0.5 mm", thread="0.25 mm", pulled=("60 %", "100 %")
    )
    first, second = panel.result.amounts
    assert plan.per_stitch.text("mm") in first
    assert f"all {plan.stitches}," in first
    assert plan.sewn.text("m") in first
    assert f"{plan.needlefuls[0]} to {plan.needlefuls[1]} lengths" in second
    assert panel.result.path == plan.sides[2].paths[0]
    assert panel.result.pulled_mm == pytest.approx(0.6 * panel.result.path.advance_mm)
    for sentence in (first, second):
        assert html.escape(sentence) in panel.words.value


def test_a_step_shows_what_the_needle_does_and_the_amounts_stay(panel):
    amounts = panel.result.amounts
    for step in range(LAST + 1):
        move(panel, step=step)
        assert f"Step {step} of {LAST}: " in panel.words.value
        assert panel.result.amounts == amounts


@pytest.mark.parametrize("unit", ["in", "mm", "cm"])
def test_another_unit_offers_the_nearest_working_length(panel, unit):
    move(panel, working="40 cm")
    move(panel, unit=unit)
    working = panel.controls["working"].value
    assert working.endswith(unit)
    assert abs(Length(working).mm - 400) <= 26
    assert not panel.sentences


def test_every_example_is_good_and_speaks_of_every_control(panel):
    for name, values in panel.examples.items():
        panel.reset(name)
        assert set(values) == set(panel.controls)
        assert panel.values == values
        assert not panel.sentences
