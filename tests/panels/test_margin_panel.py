"""The panel of the margin rule: its plan, and that its picture follows each control."""

from dataclasses import replace

import pytest
from moving import move

from hemcalc import EXAMPLES, example, plan_edge, plan_section
from hemcalc.draw.edge.strips import thickness_threads
from hemcalc.panels.margin import WAYS_COUNTED
from hemcalc.panels.settings import SETTINGS


def test_it_opens_on_the_bread_cloth_folded(margin):
    plan = margin.result
    assert plan.edge == example("bread cloth").edges.left
    assert plan.section == plan_section(plan.edge, "0.4 mm")
    assert (plan.fold, plan.unit) == (1, "in")


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_example_is_that_piece(margin, name):
    margin.reset(name)
    piece = example(name)
    left = replace(
        piece.edges.left, rounding=margin.result.edge.rounding
    )  # of handling, which is in threads here
    assert margin.result.edge == left
    assert margin.result.section.thickness == piece.fabric.thickness
    # The panel has one clear band and one handling, those of the left side.
    left, _, top, _ = piece.edges
    move(margin, side=WAYS_COUNTED[1])
    assert margin.result.edge.bands == replace(top, clear=left.clear).bands
    assert margin.result.edge.count == top.count


@pytest.mark.parametrize(
    ("values", "wanted"),
    [
        ({"hem": "1/2 in"}, plan_edge("29/in", "1/2 in", clear=7)),
        ({"hem_is": "in threads", "hem_threads": 12}, plan_edge("29/in", 12, clear=7)),
        ({"clear": 3}, plan_edge("29/in", "3/8 in", clear=3)),
        ({"drawn": 4}, plan_edge("29/in", "3/8 in", clear=7, drawn=4)),
        ({"half": False, "turn": 3}, plan_edge("29/in", "3/8 in", clear=7, turn=3)),
        ({"half": False, "turn": 0}, plan_edge("29/in", "3/8 in", clear=7, turn=0)),
        ({"handling": 5}, plan_edge("29/in", "3/8 in", clear=7, handling=5)),
        ({"count_across": "28/in"}, plan_edge("28/in", "3/8 in", clear=7)),
        ({"count_down": "28/in"}, plan_edge("29/in", "3/8 in", clear=7)),
        ({"count_down": "28/in", "side": WAYS_COUNTED[1]}, plan_edge("28/in", "3/8 in", clear=7)),
    ],
    ids=lambda value: "" if not isinstance(value, dict) else ", ".join(value),
)
def test_each_control_sets_its_own_part_of_the_edge(margin, values, wanted):
    move(margin, **values)
    assert margin.result.edge == wanted


def test_words_follow_the_numbers(margin):
    before = margin.words.value
    move(margin, clear=3)
    assert "clear 1–3, drawn 4–5" in margin.words.value
    assert "clear 1–7, drawn 8–9" in before


@pytest.mark.parametrize(
    ("values", "beside", "said"),
    [
        ({"half": False, "turn": 20}, "turn", "turn is 20 threads, but must be no wider than the hem, 11"),
        ({"thickness": "1.5 mm", "hem": "1/8 in"}, "hem", "thickness is 1.5 mm, but so narrow a hem takes"),
        ({"hem": "1/8 in", "thickness": "1.5 mm"}, "thickness", "thickness is 1.5 mm, but so narrow a hem"),
    ],
    ids=["turn", "thickness, then hem", "hem, then thickness"],
)
def test_a_bad_combination_is_said_beside_the_control_that_was_moved(margin, values, beside, said):
    move(margin, **values)
    assert "Rule: " not in margin.words.value
    assert list(margin.sentences) == [beside]
    assert margin.sentences[beside].startswith(said)
    assert "for example" in margin.sentences[beside]
    margin.reset("bread cloth")
    assert margin.sentences == {}


def test_only_the_controls_that_count_are_shown(margin):
    def shown():
        return {name for name, control in margin.controls.items() if control.is_shown}

    every = set(margin.controls) - set(SETTINGS)
    assert shown() == every - {"hem threads", "turn"}
    move(margin, half=False)
    assert shown() == every - {"hem threads"}
    move(margin, hem_is="in threads")
    assert shown() == every - {"hem"}


def limits(view):
    return [(*axes.get_xlim(), *axes.get_ylim()) for axes in (view.ruler.axes, view.profile.axes)]


def test_the_picture_does_not_jump_while_it_folds_or_speaks_otherwise(margin, offers, set_once):
    before = limits(margin.view)
    for name in ("fold", "more"):
        control = margin.controls[name]
        for value in offers(control):
            control.widget.value = value
            assert limits(margin.view) == before
    set_once.choose("type", "projector")
    assert limits(margin.view) == before


def test_the_scale_is_said_by_a_bar_that_is_as_long_as_it_says(margin):
    for clear, text in ((7, "10 threads, ≈ 3/8 in"), (40, "20 threads, ≈ 11/16 in")):
        move(margin, clear=clear)
        start, end = margin.view.profile.scale.bar.get_xdata()[:2]
        assert text in [word.get_text() for word in margin.view.profile.axes.texts if word.get_visible()]
        assert end - start == int(text.split()[0])


def test_cloth_is_thick_enough_to_be_seen_from_the_back(margin):
    view = margin.view
    for name in EXAMPLES:
        margin.reset(name)
        one = view.sheet.points(view.profile.axes)[1] * 72 / view.sheet.figure.dpi  # threads to a pixel
        assert thickness_threads(margin.result.section) / one >= 5
        close = view.sheet.points(view.lens.axes)[1] * 72 / view.sheet.figure.dpi
        assert thickness_threads(margin.result.section) / close >= 16


def test_where_the_faces_land_is_said_only_if_it_is_asked_for(margin):
    assert "lands on the open line's edge, within 0.2 mm" in margin.words.value.replace("&#x27;", "'")
    assert "neutral" not in margin.words.value
    move(margin, more=True)
    assert "neutral line 0.11 mm" in margin.words.value


def test_section_and_ruler_have_one_scale_and_one_origin(margin):
    ruler, profile = margin.view.ruler.axes, margin.view.profile.axes
    for thread in (0, 37):
        assert ruler.transData.transform((thread, 0))[0] == pytest.approx(
            profile.transData.transform((thread, 0))[0]
        )


def test_a_change_of_unit_keeps_cloth_and_hem_to_the_nearest_offer(margin):
    move(margin, unit="mm")
    assert margin.controls["hem"].value == "10 mm"
    assert margin.controls["count across"].value == "11.5/cm"
    assert not margin.sentences
    assert "mm" in margin.words.value
    move(margin, unit="in")
    assert margin.result.edge == example("bread cloth").edges.left


def test_lengths_are_said_in_the_unit(margin):
    assert "Rule: 44 threads, ≈ 1 1/2 in" in margin.words.value
    move(margin, unit="cm")
    assert margin.result.edge.rule.rule_length.text("cm") in margin.words.value
