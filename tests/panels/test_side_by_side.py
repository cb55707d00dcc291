"""Two cloths side by side: each of its own, at one scale, and moved together where wished."""

from functools import partial
from itertools import combinations

import pytest
from ipywidgets import VBox

from hemcalc.draw.lettering import Word
from hemcalc.measure.errors import HemError
from hemcalc.panels import count_panel, margin_panel, side_by_side, spacing_panel, weave_panel
from hemcalc.panels.playing import ACTS


def mm_wide(name, panel):
    """How much cloth the picture shows from side to side, worked out from what is drawn."""
    view, result = panel.view, panel.result
    axes, thread_mm = {
        "margin": lambda: (view.profile.axes, result.edge.count.pitch.mm),
        "corner": lambda: (view.mitre.axes, 1),
        "weave": lambda: (view.axes, result.weave.ends[0].side.edge.count.pitch.mm),
        "stitch": lambda: (view.above.axes, result.pitch_mm),
        "spacing": lambda: (view.axes, result.count.pitch.mm),
    }[name]()
    left, right = axes.get_xlim()
    return (right - left) * float(thread_mm)


@pytest.mark.parametrize("name", ACTS)
def test_both_are_drawn_at_the_scale_that_the_larger_needs_and_it_is_said(name):
    make = partial(ACTS[name].panel, narrow=True)
    alone = [make(), make()]
    first, *_, second, third = alone[0].examples
    two = side_by_side(ACTS[name].panel, first, second)
    for fold in (0.0, 0.4, 1.0) if "fold" in alone[0].controls else (None,):
        for panel, example in zip(alone, two.names, strict=True):
            panel.reset(example)
        for panel in (*two.panels, *alone) if fold is not None else ():
            panel.controls["fold"].widget.value = fold
        wide = [mm_wide(name, panel) for panel in two.panels]
        own = [mm_wide(name, panel) for panel in alone]
        assert own[0] != pytest.approx(own[1], rel=0.02), "else nothing is shown by this"
        assert wide[0] == pytest.approx(wide[1], rel=0.02)
        assert max(wide) == pytest.approx(max(own), rel=0.02)
    two.panels[1].reset(third)
    wide = [mm_wide(name, panel) for panel in two.panels]
    assert wide[0] == pytest.approx(wide[1], rel=0.02)
    assert two.scale in two.widget.children
    assert two.scale.value == "Both at one scale."


def test_they_begin_on_two_cloths_beside_each_other_or_below_where_the_picture_is_wide():
    weaves, counts = side_by_side(weave_panel), side_by_side(count_panel)
    left, right = (panel.result.weave.ends[0].side.edge.count for panel in weaves.panels)
    assert left != right
    assert "hemcalc-two" in weaves.widget._dom_classes
    assert isinstance(counts.widget, VBox)


@pytest.mark.parametrize("name", ACTS)
def test_nothing_runs_into_anything_or_out_of_a_narrow_picture_in_type_for_a_hall(name, set_once):
    set_once.choose("type", "projector")
    panel = ACTS[name].panel(narrow=True)
    sheet = panel.view.sheet
    for example in panel.examples:
        panel.reset(example)
        words = [word for word in sheet.moved if isinstance(word, Word) and word.get_text()]
        boxes = [(word.get_text(), word.get_window_extent()) for word in words]
        for word, box in boxes:
            assert -3 <= box.x0 < box.x1 <= sheet.figure.bbox.x1 + 3, word
            assert box.y1 <= sheet.figure.bbox.y1 + 3, word
        for (one, a), (other, b) in combinations(boxes, 2):
            across, up = min(a.x1, b.x1) - max(a.x0, b.x0), min(a.y1, b.y1) - max(a.y0, b.y0)
            assert across < 2 or up < 4, (example, one, other)


def test_what_is_linked_moves_together_and_nothing_else():
    two = side_by_side(margin_panel, "bread cloth", "sampler", linked=["clear"])
    left, right = two.panels
    before = right.values
    left.controls["clear"].widget.value = 11
    assert right.values == before | {"clear": 11}
    left.controls["drawn"].widget.value = 3
    assert right.values == before | {"clear": 11}
    right.controls["clear"].widget.value = 4
    assert left.values["clear"] == 4


def test_an_example_that_is_chosen_moves_its_own_side_alone():
    two = side_by_side(margin_panel, "bread cloth", "sampler", linked=["clear", "fold"])
    before = two.panels[1].values
    two.panels[0].reset("coaster")
    assert two.panels[1].values == before


def test_a_linked_slider_goes_as_far_as_its_cloth_lets_it():
    two = side_by_side(margin_panel, "bread cloth", "coaster", linked=["hem"])
    left, right = (panel.controls["hem"].widget for panel in two.panels)
    both = set(left.options) & set(right.options)
    apart = (
        next(text for text in left.options if text not in right.options) if set(left.options) - both else None
    )
    stays = right.value
    if apart:
        left.value = apart
        assert right.value == stays
    for text in both:
        left.value = text
        assert right.value == text


@pytest.mark.parametrize("name", ACTS)
def test_any_panel_of_the_stage_can_be_had_twice_and_says_both(name):
    two = side_by_side(ACTS[name].panel)
    said = two._repr_mimebundle_()
    assert said["text/plain"].count("\n") == 1
    assert said["text/html"].count("<img") == 2
    for panel in two.panels:
        assert panel.view.alt(panel.result) in said["text/plain"]


@pytest.mark.parametrize(
    ("asked", "said"),
    [({"first": "tablecloth"}, "first is 'tablecloth'"), ({"linked": ["fold"]}, "linked is 'fold'")],
)
def test_what_there_is_not_is_refused(asked, said):
    with pytest.raises(HemError, match=said):
        side_by_side(spacing_panel, **asked)
