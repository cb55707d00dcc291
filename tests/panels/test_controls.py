"""A control says what it sets, and beside it what is wrong."""

import re

import pytest

from hemcalc.panels.controls import choice, gradual, stops, switch, whole
from hemcalc.panels.page import STYLE


def make_all():
    return [
        whole("clear", "clear, threads", 2, 9, "plain cloth"),
        gradual("fold", "fold, 0 to 1", "from flat to folded"),
        stops("hem", "hem, width", ("1/4 in", "3/8 in"), "of the hem"),
        choice("unit", "unit", ("in", "cm"), "of lengths"),
        switch("half", "turn half the hem", "untick it"),
    ]


def test_each_begins_at_its_least_or_first():
    assert [control.value for control in make_all()] == [2, 0.0, "1/4 in", "in", False]


def test_ranges_are_those_asked_for():
    slider, fold, hem, unit, _ = (control.widget for control in make_all())
    assert (slider.min, slider.max) == (2, 9)
    assert (fold.min, fold.max) == (0, 1)
    assert hem.options == ("1/4 in", "3/8 in")
    assert unit.options == ("in", "cm")


@pytest.mark.parametrize("control", make_all(), ids=lambda control: control.name)
def test_a_sentence_takes_the_place_of_the_hint_and_gives_it_back(control):
    hint = control.beside.value
    assert control.hint in hint
    control.say("clear is <wrong> & more; for example 3.")
    assert control.sentence == "clear is <wrong> & more; for example 3."
    assert "clear is &lt;wrong&gt; &amp; more; for example 3." in control.beside.value
    assert "✗" in control.beside.value
    assert control.hint not in control.beside.value
    control.say("")
    assert control.sentence == ""
    assert control.beside.value == hint


# 4.5 : 1 for text. Source: Web Content Accessibility Guidelines 2.2, W3C, 2023, SC 1.4.3, with the
# relative luminance defined there.
def test_hint_and_sentence_have_the_contrast_that_text_needs():
    def luminance(colour):
        digits = colour[1:] if len(colour) == 7 else "".join(c + c for c in colour[1:])
        shares = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    control = make_all()[0]
    for sentence in ("", "wrong"):
        control.say(sentence)
        kind = "hemcalc-wrong" if sentence else "hemcalc-beside"
        assert kind in control.beside._dom_classes
        look = re.search(rf"\.{kind} .widget-html-content \{{([^}}]*)", STYLE)[1]
        dark, light = (
            luminance(re.search(rf"{part}: (#\w+)", look)[1]) for part in (r"(?<!-)color", "background")
        )
        assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_a_hidden_row_gives_up_its_room():
    control = make_all()[0]
    assert control.is_shown
    control.show(False)
    assert control.row.layout.display == "none"
    assert not control.is_shown
    control.show(True)
    assert control.is_shown


def test_the_box_of_a_slider_follows_it_and_a_list_or_a_tick_has_none():
    clear, fold, hem, unit, half = make_all()
    clear.widget.value, fold.widget.value, hem.widget.value = 5, 0.25, "3/8 in"
    assert [control.box.value for control in (clear, fold, hem)] == ["5", "0.25", "3/8 in"]
    assert unit.box is half.box is None


TYPED = [
    ("clear", "7", 7),
    ("clear", "7 threads", 7),
    ("clear", "22", "'22' can't be set here: a whole number from 2 to 9 can; for example 5."),
    ("clear", "many", "'many' can't be set here: a whole number from 2 to 9 can; for example 5."),
    ("fold", "0,5", 0.5),
    ("fold", "40 %", 0.4),
    ("fold", "2", "'2' can't be set here: a number from 0 to 1 can; for example 0.5."),
    ("hem", "3/8 in", "3/8 in"),
    ("hem", "3/8", "3/8 in"),
    ("hem", "9.525 mm", "3/8 in"),
    ("hem", "5/16 in", "'5/16 in' is not on this slider: the nearest are 1/4 in and 3/8 in."),
    ("hem", "1 in", "'1 in' is not on this slider: it goes from 1/4 in to 3/8 in; for example 3/8 in."),
    ("hem", "a bit", "'a bit' is not on this slider: it goes from 1/4 in to 3/8 in; for example 3/8 in."),
    ("count", "11.5/cm", "11.5/cm"),
    ("count", "12", "12/cm"),
    ("count", "28/in", "'28/in' is not on this slider: the nearest are 11/cm and 11.5/cm."),
    ("pulled", "70", "70 %"),
]


@pytest.mark.parametrize(("name", "text", "answer"), TYPED, ids=[f"{n}: {t}" for n, t, _ in TYPED])
def test_what_is_typed_is_set_or_answered(name, text, answer):
    more = [
        stops("count", "count", ("11/cm", "11.5/cm", "12/cm"), "of the cloth"),
        stops("pulled", "pulled to", ("60 %", "70 %"), "of its width"),
    ]
    (control,) = (control for control in (*make_all(), *more) if control.name == name)
    before = control.value
    control.box.value = text
    if not str(answer).endswith("."):
        assert (control.value, control.sentence) == (answer, "")
        assert control.box.value in (str(answer), f"{answer:.2f}" if isinstance(answer, float) else None)
        return
    # What was typed stays, to be mended, until the slider is moved or set anew.
    assert (control.value, control.sentence, control.box.value) == (before, answer, text)
    control.say("")
    assert control.box.value not in (text, "")


def test_labels_have_room_beside_all_sliders_alike():
    wide = re.findall(r"\.hemcalc-row \.widget-label \{\s*width: ([\d.]+)em", STYLE)
    assert len(wide) == 1
    assert all("hemcalc-row" in control.row._dom_classes for control in make_all())
