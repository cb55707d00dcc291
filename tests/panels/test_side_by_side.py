"""Two cloths side by side: each of its own, at one scale, and moved together where wished."""

import pytest

from hemcalc.measure.errors import HemError
from hemcalc.panels import corner_panel, margin_panel, side_by_side, spacing_panel
from hemcalc.panels.playing import ACTS


def mm_wide(panel, kind):
    """How much cloth the picture shows from side to side, worked out from what is drawn."""
    if kind is corner_panel:
        left, right = panel.view.mitre.axes.get_xlim()
        return right - left
    left, right = panel.view.profile.axes.get_xlim()
    return (right - left) * float(panel.result.edge.count.over.mm) / float(panel.result.edge.count.threads)


@pytest.mark.parametrize("kind", [margin_panel, corner_panel])
def test_both_are_drawn_at_the_scale_that_the_larger_needs(kind):
    two = side_by_side(kind, "bread cloth", "lavender bag", linked=["fold"])
    alone = [kind(), kind()]
    for panel, name in zip(alone, two.names, strict=True):
        panel.reset(name)
    for fold in (0.0, 0.4, 1.0):
        for panel in (two.panels[0], *alone):
            panel.controls["fold"].widget.value = fold
        wide = [mm_wide(panel, kind) for panel in two.panels]
        own = [mm_wide(panel, kind) for panel in alone]
        assert own[0] != pytest.approx(own[1], rel=0.02), "else nothing is shown by this"
        assert wide[0] == pytest.approx(wide[1], rel=1e-6 if kind is corner_panel else 0.02)
        assert max(wide) == pytest.approx(max(own), rel=0.02)
    two.panels[1].reset("tray cloth")
    wide = [mm_wide(panel, kind) for panel in two.panels]
    assert wide[0] == pytest.approx(wide[1], rel=0.02)


@pytest.mark.usefixtures("unpainted")
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


@pytest.mark.usefixtures("unpainted")
def test_an_example_that_is_chosen_moves_its_own_side_alone():
    two = side_by_side(margin_panel, "bread cloth", "sampler", linked=["clear", "fold"])
    before = two.panels[1].values
    two.panels[0].reset("coaster")
    assert two.panels[1].values == before


@pytest.mark.usefixtures("unpainted")
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
    [({"first": "tablecloth"}, "example is 'tablecloth'"), ({"linked": ["fold"]}, "linked is 'fold'")],
)
def test_what_there_is_not_is_refused(asked, said):
    with pytest.raises(HemError, match=said):
        side_by_side(spacing_panel, **asked)
