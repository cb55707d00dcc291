"""The panel of the hem stitch, moved as a reader moves it."""

import html

import pytest
from moving import move

from hemcalc import Length, example, thread_needed
from hemcalc.draw.stitch.words import LAST
from hemcalc.panels import stitch_panel

PANEL = stitch_panel()


@pytest.fixture
def panel():
    PANEL.reset("coaster")
    return PANEL


@pytest.mark.parametrize(
    ("moves", "about", "words"),
    [
        ({"piece": "bookmark", "depth": 5}, "depth", "depth is 5 threads, but the left hem is only 4"),
        ({"working": "10 cm"}, "working", "must be longer than its start and end, 13 cm"),
    ],
)
def test_a_bad_combination_is_said_beside_the_control_that_caused_it(panel, moves, about, words):
    move(panel, **moves)
    assert list(panel.sentences) == [about]
    assert words in panel.sentences[about]
    assert "hemcalc-old" in panel.picture.value
    assert "Not up to date" in panel.picture.value
    panel.reset("coaster")
    assert not panel.sentences
    assert "hemcalc-old" not in panel.picture.value


def test_the_thickest_cloth_is_in_the_picture_at_a_scale_that_is_said_beside_it(panel):
    section = panel.view.section
    for thickness, scale in (("0.7 mm", None), ("1.5 mm", "at 50 % of that scale"), ("0.7 mm", None)):
        move(panel, piece="sampler", thickness=thickness)
        assert not panel.sentences
        bottom, top = section.axes.get_ylim()
        high = 3 * panel.result.ply_mm / panel.result.pitch_mm
        assert bottom < 0 < high < top
        words = [text for artist in panel.view.sheet.moved if (text := getattr(artist, "get_text", str)())]
        assert [text for text in words if "of that scale" in text] == (
            [f"in section through the hem, {scale}"] if scale else []
        )


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
