"""A control says what it sets, and beside it what is wrong."""

import re

import pytest

from hemcalc.draw.look import PAPER
from hemcalc.panels.controls import choice, share, steps, switch, whole


def make_all():
    return [
        whole("clear", "clear, threads", 2, 9, "plain cloth"),
        share("fold", "fold, 0 to 1", "from flat to folded"),
        steps("hem", "hem, width", ("1/4 in", "3/8 in"), "of the hem"),
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
    hint = control._beside.value
    assert control._hint in hint
    control.say("clear is <wrong> & more; for example 3.")
    assert control.sentence == "clear is <wrong> & more; for example 3."
    assert "clear is &lt;wrong&gt; &amp; more; for example 3." in control._beside.value
    assert "✗" in control._beside.value
    assert control._hint not in control._beside.value
    control.say("")
    assert control.sentence == ""
    assert control._beside.value == hint


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
        colour = re.search(r";color:(#\w+)", control._beside.value)[1]
        ground = re.search(r"background:(#\w+)", control._beside.value)
        light, dark = luminance(ground[1] if ground else PAPER), luminance(colour)
        assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_a_hidden_row_gives_up_its_room_or_keeps_it():
    control = make_all()[0]
    assert control.is_shown
    control.show(False)
    assert control.row.layout.display == "none"
    assert not control.is_shown
    control.show(True)
    assert control.is_shown
    control.show(False, keep_room=True)
    assert control.row.layout.visibility == "hidden"
    assert control.row.layout.display != "none"
    assert not control.is_shown
    control.show(True, keep_room=True)
    assert control.is_shown


def test_rows_are_all_as_high():
    heights = {control.row.layout.height for control in make_all()}
    heights |= {control._beside.layout.height for control in make_all()}
    assert len(heights) == 1


def test_labels_have_room_beside_all_sliders_alike():
    assert len({control.widget.layout.width for control in make_all()}) == 1
    assert (
        len({control.widget.style.description_width for control in make_all() if control.name != "half"}) == 1
    )
