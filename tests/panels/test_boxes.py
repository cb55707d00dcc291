"""Guesses are committed and kept; answers are marked; nothing is given away before."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import HemError, Length
from hemcalc.panels import answer_box, guess_box


def committed(text, **asked):
    box = guess_box(**asked)
    box.box.value = text
    box.button.click()
    return box


@pytest.mark.parametrize(
    ("text", "hands"),
    [
        ("12", {12: 1}),
        ("about twelve", {12: 1}),
        ("-4", {-4: 1}),
        ("12 × 3, 14 × 5", {12: 3, 14: 5}),
        ("12 x 3; 14 x 5; 12 x 1", {12: 4, 14: 5}),
        ("12: 3, 14: 5", {12: 3, 14: 5}),
        ("10, 12, 12", {10: 1, 12: 2}),
    ],
)
def test_a_guess_or_a_show_of_hands_is_kept(text, hands):
    box = committed(text)
    assert box.hands == hands
    assert box.box.disabled
    assert box.guess == (next(iter(hands)) if len(hands) == 1 else None)


@pytest.mark.parametrize("text", ["", "a lot", "12 × 900"])
def test_what_is_no_guess_is_told_so_and_may_be_mended(text):
    box = committed(text)
    assert not box.hands
    assert not box.box.disabled
    assert "for example" in box.said


def test_hands_are_seen_as_bars_beside_the_truth():
    page = committed("12 × 2, 14 × 4").beside(16)._repr_html_()
    assert page.count("<tr>") == 3
    assert "width:300px" in page
    assert "width:150px" in page
    assert "16 = the truth" in page
    assert "said by 0 of 6" in page


def test_no_guess_is_no_error():
    assert guess_box().beside(14).text() == "No guess was committed; it is 14."
    with pytest.raises(HemError, match="for example"):
        guess_box().beside("14")


def test_an_answer_is_marked_as_it_is_written_and_the_key_stands_nowhere_before():
    box = answer_box(Length("1 1/2 in"), {"only the half inch is counted": Length("12.7 mm")}, unit="mm")
    shown = box._repr_mimebundle_()
    assert "38.1" not in str(shown)
    box.box.value = "12.7"
    assert "only the half inch is counted" in box.said
    box.box.value = "38 mm"
    assert box.verdict.right
    box.box.value = ""
    assert box.said == "Write your answer first."


@given(st.text(max_size=40))
def test_whatever_is_written_gets_a_line(text):
    box = answer_box(37)
    box.box.value = text
    box.mark()
    assert box.said
    assert committed(text).said
