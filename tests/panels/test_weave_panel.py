"""The panel of the weave: its plan, its picture, and a slider that follows the steps."""

from dataclasses import replace
from itertools import cycle, product

import pytest
from moving import move

from hemcalc import open_line
from hemcalc.draw.scale import inches
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.weave.lens import LENS_SHEET, WeaveLens
from hemcalc.panels.choices import MAX_DRAWN
from hemcalc.panels.weave import CLOSE, FAR, PIECES, plan_weave
from hemcalc.weave import steps_at
from hemcalc.weave.open_lines import CORNERS, TURN_AT


def steps_of(panel):
    values = panel.values
    piece = PIECES[values["piece"]].with_changes(drawn=values["drawn"])
    return steps_at(open_line(piece, turn_at=values["turn at"]), values["corner"])


def test_it_opens_on_the_bread_cloth_with_a_tail_under_way(weave):
    assert weave.result.step.kind == "darn"
    assert weave.result.steps == steps_of(weave)


@pytest.mark.parametrize(
    ("way", "drawn"), list(zip(product(CORNERS, TURN_AT), cycle((1, 2, MAX_DRAWN, 2)), strict=False))
)
def test_the_slider_runs_through_just_the_steps_that_there_are(weave, way, drawn):
    corner, turn_at = way
    move(weave, corner=corner, turn_at=turn_at, drawn=drawn, piece="bookmark")
    slider = weave.controls["step"].widget
    steps = steps_of(weave)
    assert (slider.min, slider.max) == (1, len(steps))
    assert weave.result.steps == steps
    assert weave.result.corner == corner
    slider.value = slider.max
    assert weave.result.step.kind == "done"


def test_the_slider_is_shortened_from_its_end_and_keeps_a_step_that_is_left(weave):
    slider = weave.controls["step"].widget
    move(weave, step=slider.max)
    most = slider.max
    move(weave, drawn=1)
    assert slider.max < most
    assert slider.value == slider.max
    move(weave, step=4, drawn=2)
    assert (slider.value, slider.max) == (4, most)


def test_fifty_steps_in_a_row_follow_the_slider(weave):
    steps = steps_of(weave)
    pictures = set()
    for number in range(1, 51):
        move(weave, step=number)
        assert weave.result.step == steps[number - 1]
        assert not weave.sentences
        pictures.add(weave.picture.value)
    assert len(pictures) == 50


def test_the_lens_shows_a_few_threads_of_the_hem_or_all(weave):
    rows, columns = weave.result.window
    assert (len(rows), len(columns)) == (12, 12)
    move(weave, look=FAR)
    rows, columns = weave.result.window
    edge = PIECES["bread cloth"].edges.left
    assert len(columns) == 3 + edge.drawn + 2 * edge.hem + edge.turn == 33
    move(weave, look=CLOSE)
    assert weave.result.hem is not None


def test_the_examples_show_what_they_promise(weave):
    weave.reset("pincushion, tails too short")
    assert weave.result.weave.short
    assert "stops 8 threads" in weave.view.alt(weave.result)
    weave.reset("bread cloth, all done")
    assert weave.result.step.text() == "Done: the hems are whole cloth."
    weave.reset("sampler, three drawn")
    assert {end.side.edge.drawn for end in weave.result.weave.ends} == {3}
    weave.reset("coaster, one drawn")
    assert {end.side.edge.drawn for end in weave.result.weave.ends} == {1}


@pytest.mark.parametrize(
    "values",
    [
        {"corner": "bottom right", "turn at": "outside"},
        {"piece": "sampler", "drawn": 3, "corner": "top right"},
        {"piece": "coaster", "drawn": 1, "corner": "bottom left"},
        {"look": FAR},
        {"piece": "pincushion", "turn at": "inside"},
    ],
    ids=lambda values: ", ".join(map(str, values.values())),
)
def test_each_step_changes_the_picture_and_the_lens_follows_it(weave, values):
    # Narrow and coarse: the threads alone, for the words beside them say another step each time anyway.
    view, before = WeaveLens(Sheet(*inches(*LENS_SHEET, narrow=True), dpi=50)), None
    first = plan_weave(weave.values | values)
    for lens in (replace(first, number=number) for number in range(1, len(first.steps) + 1)):
        view.update(lens)
        picture = view.sheet.pixels().tobytes()
        assert picture != before, lens.step
        before = picture
        if passed := lens.step.passed:
            rows, columns = lens.window
            assert rows[0] <= passed.row <= rows[-1]
            assert columns[0] <= passed.column <= columns[-1]
