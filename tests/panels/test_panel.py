"""What every panel keeps: one picture that follows, one sentence where it is needed, its place."""

import html
import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from hemcalc.draw.look import TYPE
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.cautions import caution_for, mind
from hemcalc.measure.errors import HemError
from hemcalc.panels.controls import BESIDE_TYPE, BESIDE_WIDTH, choice, whole
from hemcalc.panels.page import PROJECTOR, STYLE
from hemcalc.panels.panel import Panel

WALKS = settings(suppress_health_check=[HealthCheck.function_scoped_fixture])


def walk(panel, offers, data, most=12):
    """Move controls one after another, and stop at each to look."""
    for _ in range(data.draw(st.integers(1, most))):
        name = data.draw(st.sampled_from(list(panel.controls)))
        # Controls offer other things once the unit has changed: draw from what there is now.
        place = data.draw(st.integers(0, 200))
        values = offers(panel.controls[name])
        panel.controls[name].widget.value = values[place % len(values)]
        yield name


def text_of(widget):
    """What a reader reads of it."""
    return html.unescape(re.sub("<[^>]*>", "", widget.value))


#: Lines that the page keeps for the words below a picture, and for the caution.
ROOM = int(re.search(r"caution\) \{\s*min-height: calc\((\d) \* 1.3", STYLE)[1])


@settings(WALKS, max_examples=10)
@given(data=st.data())
def test_wherever_a_reader_goes_she_gets_a_picture_or_one_sentence(panel, offers, data, alt_of, lines_in):
    last = panel.sentences
    for moved in walk(panel, offers, data):
        alt, said = panel.view.alt(panel.result), panel.sentences
        # The picture and its words are those of the result, and marked if that is an old one.
        assert html.unescape(alt_of(panel.picture.value)) == ("Not up to date: " if said else "") + alt
        assert ("hemcalc-old" in panel.picture.value) == bool(said)
        # Below stand its numbers, or why there are none: none that isn't true of the sliders.
        (sentence,) = said.values() or [alt]
        assert text_of(panel.words) == (f"No numbers for these settings: {sentence}" if said else alt)
        assert not (said and panel.lines.value)
        # The page does not jump, and what is said has room: two lines beside a control.
        assert lines_in(text_of(panel.words), 13, 69 * 13) <= ROOM
        last, before_it = said, last
        if not said:
            assert panel.plan(panel.values) == panel.result
            continue
        # Beside what she moved, for as long as it is wrong and that can be seen.
        ((name, _),) = said.items()
        place = next((old for old, words in before_it.items() if words == sentence), moved)
        assert name == place or not panel.controls[place].is_shown
        assert panel.controls[name].is_shown
        assert lines_in(f"✗ {sentence}", BESIDE_TYPE, BESIDE_WIDTH) <= 4
        with pytest.raises(HemError) as raised:
            panel.plan(panel.values)
        assert str(raised.value) == sentence
    panel.view.sheet.png()


@settings(WALKS, max_examples=2)  # of each example's; what isn't put back isn't from most places
@given(data=st.data())
def test_every_example_restores_every_control_from_anywhere(panel, offers, data):
    for name in panel.examples:
        with panel.holding():  # each move is drawn in the walk above
            list(walk(panel, offers, data, 5))
        panel.reset(name)
        assert panel.values == panel.examples[name]
        assert panel.menu.value == name
        assert not panel.sentences


def test_examples_speak_of_every_control(panel):
    for values in panel.examples.values():
        assert set(values) == set(panel.controls)


def test_fifty_moves_later_there_are_as_many_artists_and_widgets(panel, offers):
    def census():
        panel.view.sheet.png()
        figure = panel.view.sheet.figure
        shown = len(panel.view.sheet.moved)
        return len(figure.findobj()), len(figure.axes), shown, len(panel.widget.children)

    figure, canvas, before = panel.view.sheet.figure, panel.view.sheet.canvas, census()
    names = list(panel.controls)
    for move in range(50):
        control = panel.controls[names[move % len(names)]]
        values = offers(control)
        control.widget.value = values[7 * move % len(values)]
    panel.reset(panel.menu.value)
    assert panel.view.sheet.figure is figure
    assert panel.view.sheet.canvas is canvas
    assert census() == before


def test_each_move_is_drawn_once_and_a_reset_too(panel, offers, monkeypatch):
    drawn = []
    update = panel.view.update
    monkeypatch.setattr(panel.view, "update", lambda result: (drawn.append(result), update(result)))
    for name, control in panel.controls.items():
        before, values = len(drawn), offers(control)
        control.widget.value = values[(values.index(control.value) + 1) % len(values)]
        assert len(drawn) - before + bool(panel.sentences) == 1, name
        panel.reset(panel.menu.value)
    before = len(drawn)
    panel.reset(list(panel.examples)[-1])
    assert len(drawn) == before + 1
    before = len(drawn)
    panel.menu.value = next(iter(panel.examples))
    assert len(drawn) == before + 1


def test_the_picture_follows_each_control_and_goes_back(panel, offers):
    first, before = panel.result, panel.view.sheet.png()
    for name, control in panel.controls.items():
        values = offers(control)
        control.widget.value = values[(values.index(control.value) + 1) % len(values)]
        if panel.view.alt(panel.result) != panel.view.alt(first):
            assert panel.view.sheet.png() != before, (name, control.value)
        elif panel.result == first:  # as a hem of as many threads, or a count that isn't used
            assert panel.view.sheet.png() == before, (name, control.value)
        panel.reset(panel.menu.value)
    assert panel.view.sheet.png() == before


def test_the_button_goes_back_to_the_example_that_is_chosen(panel, offers):
    last = list(panel.examples)[-1]
    panel.menu.value = last
    assert panel.values == panel.examples[last]
    control = panel.controls[next(iter(panel.controls))]
    control.widget.value = next(value for value in offers(control) if value != control.value)
    assert panel.values != panel.examples[last]
    panel.back.click()
    assert panel.values == panel.examples[last]


def test_an_example_that_is_none_is_refused(panel):
    with pytest.raises(HemError, match="example is 'tablecloth', but must be one of"):
        panel.reset("tablecloth")


def test_type_for_a_hall_enlarges_every_word(panel, set_once):
    def sizes():
        texts = panel.view.sheet.figure.findobj(lambda artist: hasattr(artist, "on_paper"))
        return {text.get_text(): text.get_fontsize() for text in texts if text.get_visible()}

    small = sizes()
    set_once.choose("type", "projector")
    large = sizes()
    both = set(small) & set(large)
    assert len(both) > 3
    assert all(large[text] > 1.3 * small[text] for text in both)
    assert panel.view.sheet.type == TYPE["projector"]
    assert PROJECTOR in panel.widget._dom_classes
    set_once.choose("type", "page")
    assert PROJECTOR not in panel.widget._dom_classes


def test_the_first_state_is_a_still_where_no_widget_runs(panel, alt_of):
    alt = panel.view.alt(panel.result)
    assert html.unescape(alt_of(panel.picture.get_state()["value"])) == alt
    shown = panel._repr_mimebundle_()
    assert shown["text/plain"] == alt
    assert "base64," in shown["text/html"]
    assert "application/vnd.jupyter.widget-view+json" in shown


#: What is in the hand when it is done on cloth: in the weave, step by step.
MIND = {"bolt": ("blade",), "corner": ("blade", "iron"), "count": ("eyes",), "stitch": ("needle", "eyes")}


def test_a_panel_says_in_full_what_to_mind_at_its_step(all_panels, lines_in):
    for name, panel in all_panels.items():
        panel.reset(next(iter(panel.examples)))
        tools = panel.result.step.mind if name == "weave" else MIND.get(name, ())
        assert (panel.caution in panel.widget.children) == (name == "weave" or name in MIND)
        said = f"{mind(*tools)}. {caution_for(*tools)}" if tools else ""
        assert html.unescape(re.sub("<[^>]*>", "", panel.caution.value)).strip() == said
        assert lines_in(said, 13, 69 * 13) <= ROOM


def test_the_caution_of_the_weave_follows_its_step(weave):
    told = {}
    for number in range(1, weave.controls["step"].widget.max + 1):
        weave.controls["step"].widget.value = number
        told[weave.result.step.kind] = html.unescape(weave.caution.value)
    assert caution_for("blade", "eyes") in told["cut"]
    assert all(caution_for("needle", "eyes") in told[kind] for kind in ("draw", "out", "turn", "darn"))
    assert "Mind" not in told["woven"] + told["done"]


def test_each_control_explains_itself(panel, lines_in):
    for control in panel.controls.values():
        assert control.widget.description
        assert control.hint
        assert lines_in(control.hint, BESIDE_TYPE, BESIDE_WIDTH) <= 2
        # The label has 10.6 em in type of 13; a longer one would be cut short.
        assert lines_in(control.widget.description.replace(" ", "_"), 13, 10.6 * 13) == 1


def test_the_slider_follows_while_it_moves_unless_its_plan_may_take_a_second(panel, all_panels):
    for control in panel.controls.values():
        if hasattr(control.widget, "continuous_update"):
            assert control.widget.continuous_update == (panel is not all_panels["bolt"])


# A panel of our own, with a plan that refuses


class View:
    def __init__(self):
        self.sheet = Sheet(1, 1)
        self.shown = None

    def update(self, result):
        self.shown = result

    def alt(self, result):
        return f"It is {result}."


def plan_small(values):
    if values["number"] > 5:
        raise HemError("number is too large; for example 3.", "number")
    if values["number"] == 5:
        raise HemError("The whole of it is wrong; for example 3.", "nothing that there is")
    return values["number"]


def small_controls():
    return [
        choice("kind", "kind", ("plain",), "of number"),
        whole("number", "number, threads", 0, 9, "a number"),
    ]


@pytest.fixture
def small():
    return Panel(small_controls(), plan_small, View(), {"three": {"number": 3, "kind": "plain"}})


@pytest.mark.usefixtures("painted")
def test_a_bad_combination_is_said_beside_what_was_moved_and_the_last_good_picture_kept(small, alt_of):
    slider = small.controls["number"]
    slider.widget.value = 4
    good = small.view.sheet.html("It is 4.")
    assert small.picture.value == good
    slider.widget.value = 8
    assert small.sentences == {"number": "number is too large; for example 3."}
    assert "number is too large; for example 3." in slider.beside.value
    assert small.result == small.view.shown == 4
    assert alt_of(small.picture.value) == "Not up to date: It is 4."
    assert "hemcalc-old" in small.picture.value
    assert 0.2 < float(re.search(r"hemcalc-old img \{\s*opacity: ([0-9.]+)", STYLE)[1]) < 0.6
    assert "still the last picture" in small.picture.value
    assert "at “number, threads”" in small.picture.value


@pytest.mark.usefixtures("painted")
def test_once_mended_the_sentence_and_the_mark_are_gone(small):
    slider = small.controls["number"]
    slider.widget.value = 8
    slider.widget.value = 2
    assert small.sentences == {}
    assert "a number" in slider.beside.value
    assert "✗" not in slider.beside.value
    assert small.picture.value == small.view.sheet.html("It is 2.")


def test_what_is_wrong_when_several_were_moved_is_said_beside_what_it_is_about_or_the_first(small):
    for number, beside in ((8, "number"), (5, "kind")):
        with small.holding():
            small.controls["number"].widget.value = number
        assert list(small.sentences) == [beside]


def test_what_is_still_wrong_stays_where_it_was_said(small, set_once):
    small.controls["number"].widget.value = 8
    set_once.choose("type", "projector")
    assert list(small.sentences) == ["number"]


def test_only_bad_input_is_answered_with_a_sentence_and_a_fault_of_ours_is_not_hidden(small):
    small.plan = lambda values: 1 / 0
    with pytest.raises(ZeroDivisionError):
        small.controls["number"].widget.value = 1
    small.close()  # what is set in a later test is nothing to it


def test_several_controls_are_moved_with_one_picture(small, monkeypatch, set_once):
    drawn = []
    monkeypatch.setattr(small.view, "update", drawn.append)
    with small.holding():
        small.controls["number"].widget.value = 1
        set_once.choose("type", "projector")
        assert drawn == []
    assert drawn == [1]


def test_a_panel_without_a_good_first_state_still_comes_up():
    panel = Panel(small_controls(), plan_small, View(), {"bad": {"number": 9, "kind": "plain"}})
    assert panel.sentences
    assert panel.result is None


def test_what_is_shown_is_adapted_even_where_no_control_had_to_move():
    def adapt(controls):
        controls["number"].show(False)

    panel = Panel(
        small_controls(),
        plan_small,
        View(),
        {"as made": {"number": 0, "kind": "plain"}},
        adapt,
    )
    assert not panel.controls["number"].is_shown
