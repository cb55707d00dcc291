"""The form: marked as one goes, leading before it tells, and never a traceback."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import EXAMPLES, HemError
from hemcalc.panels import check_panel
from hemcalc.sums import exercise, exercises_for_class


@pytest.fixture
def form():
    return check_panel()


def test_an_answer_is_marked_when_it_is_written(form):
    cut = form.fields["cut"]
    cut.box.value = "37"
    assert cut.said == "✓ Right: 37 threads."
    assert form.report.summary == "1 of 13 right."
    cut.box.value = "31"
    assert cut.said == "✗ Not yet: 31 threads is too little."
    assert "0 of 13" in form.summary.value


def test_hints_lead_before_they_tell(form):
    cut = form.fields["cut"]
    cut.box.value = "31"
    said = []
    for _ in range(4):
        cut.button.click()
        said.append(cut.said.splitlines()[1:])
    question = "What lies beyond the hem's back, inside the fold?"
    slip = "31 threads is what comes out if the turn was forgotten. 7 + 2 + 11 + 11 + 6 = … threads"
    assert said[:3] == [[question], [question, slip], [question, slip, "7 + 2 + 11 + 11 + 6 = 37 threads"]]
    assert said[3] == said[2]
    assert cut.button.disabled


def test_a_hint_may_come_before_any_answer_and_asks_what_the_number_is(form):
    form.fields["rule"].lead()
    assert "What is it? It is the rule of thumb, four times the hem." in form.fields["rule"].said


def test_a_new_answer_begins_the_hints_anew_and_another_field_leaves_them(form):
    cut, rule = form.fields["cut"], form.fields["rule"]
    cut.box.value = "31"
    cut.lead()
    rule.box.value = "44"
    assert cut.hints_shown == 1
    cut.box.value = "35"
    assert cut.hints_shown == 0
    assert len(cut.said.splitlines()) == 1


def test_a_right_answer_ends_the_hints(form):
    cut = form.fields["cut"]
    cut.box.value = "31"
    cut.lead()
    cut.box.value = "37"
    assert cut.button.disabled
    assert cut.said == "✓ Right: 37 threads."


def test_two_slips_are_told_apart_by_an_answer_in_another_field(form):
    form.fields["cut across"].box.value = "274"
    form.fields["cut across"].lead()
    assert "What did you get for hem" in form.fields["cut across"].said
    form.fields["hem"].box.value = "5"
    assert "Did you count threads" in form.fields["cut across"].said


def test_the_picture_is_shown_only_when_it_is_asked_for(form):
    form.fields["cut"].box.value = "31"
    assert form.picture.value == ""
    form.show.value = True
    assert "cut after 31, 6 threads too near" in form.picture.value
    form.fields["cut"].box.value = "37"
    assert "cut after 37, right" in form.picture.value
    form.show.value = False
    assert form.picture.layout.display == "none"


def test_another_sum_and_beginning_again_empty_the_form(form):
    form.fields["cut"].box.value = "31"
    form.fields["cut"].lead()
    form.show.value = True
    form.menu.value = "The coaster"
    assert {field.box.value for field in form.fields.values()} == {""}
    assert form.fields["cut"].said == "from the design to the line where the cloth is cut"
    assert not form.show.value
    form.fields["cut"].box.value = "29"
    assert form.report["cut"].right
    form.clear.click()
    assert form.fields["cut"].box.value == ""
    assert form.report.summary == "0 of 13 right."


def test_sums_with_fewer_numbers_hide_the_fields_they_do_not_need():
    form = check_panel(exercise(1, 3), exercise(1, 1))
    assert [field.row.layout.display for field in form._fields] == ["flex"] * 3
    form.choose("Sum 1, level 1")
    assert [field.row.layout.display for field in form._fields] == ["flex", "none", "none"]
    assert list(form.fields) == [asked.name for asked in exercise(1, 1).asked]


KEPT = check_panel(exercise(7, 3))


@given(st.text(max_size=30))
def test_whatever_is_written_gets_a_line_and_no_error(text):
    field = KEPT.fields["total"]
    field.box.value = text
    for _ in range(3):
        field.lead()
    assert field.said


def test_what_is_written_is_not_taken_for_html(form):
    form.fields["cut"].box.value = "<script>x</script>"
    assert "<script" not in form.fields["cut"]._beside.value


def test_every_example_and_a_class_have_their_place_in_the_menu():
    assert list(check_panel().exercises) == [f"The {name}" for name in EXAMPLES]
    assert len(check_panel(*exercises_for_class(3)).exercises) == 20


def test_a_form_is_made_of_exercises():
    with pytest.raises(HemError, match="for example"):
        check_panel("bread cloth")


def test_without_widgets_the_sum_is_there_in_words(form):
    bundle = form._repr_mimebundle_()
    assert bundle["text/plain"].startswith("The bread cloth of the autumn linen workshop (invented).")
