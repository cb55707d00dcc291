"""Guesses are committed and kept; answers are marked; nothing is given away before."""

import pytest
from hostile import any_text
from hypothesis import given

from hemcalc import HemError, Length, example, load_piece, save_piece
from hemcalc.panels import check_box, do_button, guess_box


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


@pytest.mark.parametrize("text", ["", "a lot", "12 × 900", "8 mm"])
def test_what_is_no_guess_is_told_so_and_may_be_mended(text):
    box = committed(text)
    assert not box.hands
    assert not box.box.disabled
    assert "for example" in box.said


def test_hands_are_seen_as_bars_beside_the_truth():
    page = committed("12 × 2, 14 × 4").beside(16).in_html()
    assert page.count("<tr>") == 3
    assert "width:300px" in page
    assert "width:150px" in page
    assert "16 = the truth" in page
    assert "said by 0 of 6" in page


def test_no_guess_is_no_error():
    assert guess_box().beside(14).text() == "No guess was committed; it is 14."
    with pytest.raises(HemError, match="for example"):
        guess_box().beside("14")


def test_a_guess_that_comes_later_is_shown_where_the_truth_stands_already():
    box = guess_box()
    beside = box.beside(14)
    assert "No guess was committed; it is 14." in beside.widget.value
    box.box.value = "12 × 2, 14 × 1"
    box.button.click()
    assert "it is 14, said by 1 of 3" in beside.widget.value
    assert beside.widget.value == beside._repr_mimebundle_()["text/html"]


def test_a_guessed_length_is_right_as_near_as_a_ruler_tells():
    hands = committed("60 × 2, 24 in, 70", unit="cm")
    assert (
        hands.beside(Length("60 cm")).text()
        == "Said 60 by 2, 60.96 by 1, 70 by 1; it is 60 cm, said by 2 of 4."
    )
    assert committed("60.05", unit="cm").beside(Length("60 cm")).text() == "You guessed 60.05; it is 60 cm."
    assert "said by 1 of 2" in committed("60.05, 61", unit="cm").beside(Length("60 cm")).text()
    for box, truth in ((guess_box(unit="cm"), 60), (guess_box(), Length("60 cm"))):
        with pytest.raises(HemError, match="for example"):
            box.beside(truth)


def test_what_is_done_by_a_button_is_done_once_it_is_pressed_and_a_refusal_is_said(tmp_path):
    path, piece = str(tmp_path / "coaster.json"), example("coaster")
    button = do_button("Keep coaster.json", save_piece, piece, path)
    assert not list(tmp_path.iterdir())
    button.button.click()
    assert load_piece(path) == piece
    assert button.said == "Done."
    button.button.click()
    assert "nothing is written over unasked" in button.said
    with pytest.raises(HemError, match="for example"):
        do_button("Keep it", "save_piece")


def test_an_answer_is_marked_as_it_is_written_and_the_key_stands_nowhere_before():
    box = check_box("an inch and a half")
    shown = box._repr_mimebundle_()
    assert "38.1" not in str(shown)
    box.box.value = "12.7"
    assert "only the half inch is counted" in box.said
    box.box.value = "38 mm"
    assert box.verdict.right
    box.box.value = ""
    assert box.said == "Write your answer first."


@given(any_text(max_size=40))
def test_whatever_is_written_gets_a_line(text):
    box = check_box("the uneven groups")
    box.box.value = text
    box.mark()
    assert box.said
    assert committed(text).said
