"""The panel of the corner: its plan, and that its picture follows each control."""

import pytest
from moving import move

from hemcalc import EXAMPLES, example, plan_corner, plan_edge
from hemcalc.panels.settings import SETTINGS

ACROSS, DOWN = "29/in", "27/in"


def edge(count=ACROSS, hem="3/8 in", **how):
    return plan_edge(count, hem, clear=0, **how)


@pytest.fixture
def words():
    """The words that a reader sees on a panel's picture."""

    def seen(panel):
        texts = panel.view.sheet.figure.findobj(lambda artist: hasattr(artist, "on_paper"))
        return [text for text in texts if text.get_visible() and text.get_text()]

    return seen


def test_it_opens_on_the_bread_cloth_flat(corner):
    assert corner.result.corner == plan_corner(edge(), edge(DOWN))
    assert (corner.result.fold, corner.result.unit) == (0, "in")


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_example_is_the_corner_of_that_piece(corner, name):
    corner.reset(name)
    ours, theirs = corner.result.corner, example(name).corners.top_left
    assert ours.hems == theirs.hems
    assert ours.raw_corner == theirs.raw_corner
    assert ours.layer_areas == theirs.layer_areas


@pytest.mark.parametrize(
    ("values", "wanted"),
    [
        ({"corner": "untrimmed"}, plan_corner(edge(), edge(DOWN), corner="untrimmed")),
        ({"corner": "uncut"}, plan_corner(edge(), edge(DOWN), corner="uncut")),
        ({"order": "turns first"}, plan_corner(edge(), edge(DOWN), order="turns first")),
        ({"allowance": "1/4 in"}, plan_corner(edge(), edge(DOWN), allowance="1/4 in")),
        ({"hem": "1/2 in"}, plan_corner(edge(hem="1/2 in"), edge(DOWN, hem="1/2 in"))),
        ({"hem_is": "in threads", "hem_across": 6}, plan_corner(edge(hem=6), edge(DOWN, hem=10))),
        ({"hem_is": "in threads", "hem_down": 6}, plan_corner(edge(hem=11), edge(DOWN, hem=6))),
        ({"half": False, "turn": 3}, plan_corner(edge(turn=3), edge(DOWN, turn=3))),
        ({"drawn": 4}, plan_corner(edge(drawn=4), edge(DOWN, drawn=4))),
        ({"count_across": "28/in"}, plan_corner(edge("28/in"), edge(DOWN))),
        ({"count_down": "28/in"}, plan_corner(edge(), edge("28/in"))),
    ],
    ids=lambda value: "" if not isinstance(value, dict) else ", ".join(value),
)
def test_each_control_sets_its_own_part(corner, values, wanted):
    move(corner, **values)
    assert corner.result.corner == wanted


@pytest.mark.parametrize(
    ("values", "beside", "said"),
    [
        ({"half": False, "turn": 20}, "turn", "turn is 20 threads, but must be no wider than the hem, 11"),
        ({"corner": "untrimmed", "allowance": "1/4 in"}, "allowance", "allowance is"),
        ({"allowance": "1 cm", "hem": "1/8 in"}, "allowance", "allowance is 10 mm, and the cut would miss"),
    ],
    ids=["turn", "nothing trimmed", "miss"],
)
def test_a_bad_combination_is_said_beside_the_control_that_caused_it(corner, values, beside, said):
    with corner.holding():
        move(corner, **values)
    assert list(corner.sentences) == [beside]
    assert corner.sentences[beside].startswith(said)
    assert corner.controls[beside].is_shown
    assert "for example" in corner.sentences[beside]


def test_a_turn_wider_than_the_narrower_hem_is_refused_until_it_fits(corner):
    move(corner, hem_is="in threads", half=False, turn=2, hem_across=1, hem_down=5)
    assert corner.sentences["hem across"].startswith("turn is 2 threads, but must be no wider")
    move(corner, turn=1)
    assert not corner.sentences


def test_only_the_controls_that_count_are_shown(corner):
    def hidden():
        return {name for name, control in corner.controls.items() if not control.is_shown} - set(SETTINGS)

    assert hidden() == {"hem across", "hem down", "turn"}
    move(corner, half=False)
    assert hidden() == {"hem across", "hem down"}
    move(corner, hem_is="in threads")
    assert hidden() == {"hem"}


def test_to_fold_it_the_corner_is_not_planned_anew(corner):
    before = corner.result.corner
    move(corner, fold=0.5)
    assert corner.result.corner is before


def test_the_map_of_layers_follows_the_corner_the_unit_and_the_type(corner, words, set_once):
    def mapped():
        view = corner.view.layers
        counts = {count for count, patch in view.areas.items() if patch.get_visible()}
        (title,) = (word for word in words(corner) if word.get_text().startswith("layers of cloth"))
        return counts, title.get_text().split("\n")[1], title.get_fontsize()

    assert mapped() == ({4}, "≈ 3/8 in × ≈ 3/8 in", 8.0)
    move(corner, corner="uncut", fold=1.0)
    assert mapped()[0] == set(corner.result.corner.layer_areas) == {4, 6, 9}
    move(corner, unit="mm")
    edges = corner.result.corner.across, corner.result.corner.down
    assert mapped()[1] == " × ".join(edge.hem_width.text("mm") for edge in edges)
    set_once.choose("type", "projector")
    assert mapped()[2] > 10
