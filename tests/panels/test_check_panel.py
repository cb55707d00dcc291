"""The form: marked as one goes, leading before it tells, and never a traceback."""

import pytest
from hostile import any_text
from hypothesis import given

from hemcalc import EXAMPLES, HemError
from hemcalc.panels import check_panel
from hemcalc.sums import exercise, exercises_for_class, from_example


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
    for _ in range(5):
        cut.button.click()
        said.append(cut.said.splitlines()[1:])
    question, step, line, answer = said[3]
    assert question == "What lies beyond the hem's back, inside the fold?"
    assert step.startswith("31 threads would come out if the turn was forgotten")
    assert (line, answer) == ("… + … + … + … + … = … threads", "7 + 2 + 11 + 11 + 6 = 37 threads")
    assert said[:3] == [[question], [question, step], [question, step, line]]
    assert said[4] == said[3]
    assert cut.button.disabled


def test_her_bands_are_read_and_the_one_that_is_missing_is_named(form):
    cut = form.fields["cut"]
    for band, threads in (("clear", "7"), ("drawn", "2"), ("face", "11"), ("back", "11")):
        cut.bands[band].value = threads
    cut.box.value = "31"
    assert form.report.cause.named.name == "turn forgotten"
    cut.lead()
    assert "What lies beyond the hem's back, inside the fold?" in cut.said
    cut.lead()
    assert "31 threads is what comes out if the turn was forgotten." in cut.said


def test_bands_that_are_added_up_wrongly_are_told_so(form):
    cut = form.fields["cut"]
    for band, threads in zip(cut.bands, ("7", "2", "11", "11", "6"), strict=True):
        cut.bands[band].value = threads
    cut.box.value = "36"
    assert form.report["cut"].remark == "Not yet: what you added up comes to 37, and not to 36."


def test_a_number_that_follows_from_a_wrong_one_is_not_wrong_again(form):
    for name, threads in (("fold 1", "21"), ("fold 2", "32"), ("cut", "38")):
        form.fields[name].box.value = threads
    assert form.fields["fold 1"].said.startswith("✗")
    assert form.fields["cut"].said == "→ Right from your fold 2: mend that, and this comes right by itself."
    assert (
        form.fields["fold 2"].said == "→ Right from your fold 1: mend that, and this comes right by itself."
    )


def test_a_hint_may_come_before_any_answer_but_the_answer_does_not(form):
    for field in form.fields.values():
        key = form.exercise.key[field.asked.name]
        for _ in range(6):
            field.lead()
        assert field.button.disabled
        assert not any(figure in field.said for figure in (key.line, f"= {key.text()}"))
    assert "How many times the hem, and which hem?" in form.fields["rule"].said


def test_the_right_ledger_is_not_shown_before_each_number_is_written(form):
    assert form.show.disabled
    form.show.value = True
    for name, field in form.fields.items():
        assert form.show.disabled
        field.box.value = "1" if name != "cut" else "31"
        assert not form.show.value
    assert not form.show.disabled
    form.show.value = True
    assert "cut after 31, 6 threads too near" in form.picture.value
    form.fields["cut"].box.value = "37"
    assert "cut after 37, right" in form.picture.value
    form.fields["cut"].box.value = ""
    assert form.picture.layout.display == "none"


def test_a_level_4_form_takes_a_bare_number_in_the_unit_that_it_asks_for():
    for seed in range(12):
        sums = exercise(seed, 4)
        form = check_panel(sums)
        for asked in sums.asked:
            value = sums.key[asked.name].value
            form.fields[asked.name].box.value = str(float(value)) if value.denominator > 1 else str(value)
        assert form.report.all_right, str(form.report)


@pytest.mark.parametrize("side", ["left", "right", "top", "bottom"])
def test_which_side_is_meant_is_always_said(side):
    form = check_panel(from_example("sampler", side))
    assert form.fields["fold 1"].said.endswith(f"at the {side}")


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
    asked = form.report.cause.question.name
    assert f"What did you get for {asked}" in form.fields["cut across"].said
    form.fields[asked].box.value = dict(form.report.cause.question.tells)["one side only"]
    assert "On how many sides" in form.fields["cut across"].said


def test_what_is_written_survives_another_sum_and_goes_when_one_begins_again(form):
    cut = form.fields["cut"]
    cut.box.value, cut.bands["clear"].value = "31", "7"
    form.menu.value = "The coaster"
    assert {field.box.value for field in form.fields.values()} == {""}
    assert form.fields["cut"].said == "from the design to the line where the cloth is cut, at the left"
    form.fields["cut"].box.value = "29"
    assert form.report["cut"].right
    form.menu.value = "The bread cloth"
    assert form.fields["cut"].written == "7 = 31"
    form.menu.value = "The coaster"
    assert form.fields["cut"].box.value == "29"
    form.clear.click()
    assert form.fields["cut"].box.value == ""
    assert form.report.summary == "0 of 13 right."
    form.menu.value = "The bread cloth"
    assert form.fields["cut"].box.value == "31"


def test_sums_with_fewer_numbers_hide_the_fields_they_do_not_need():
    form = check_panel(exercise(1, 3), exercise(1, 1))
    rows = [field.row.layout for field in form.fields.values()]
    assert [row.display for row in rows] == ["flex"] * 3
    form.choose("Sum 1, level 1")
    assert [row.display for row in rows] == ["flex", "none", "none"]
    assert list(form.fields) == [asked.name for asked in exercise(1, 1).asked]


KEPT = check_panel(exercise(7, 3))


@given(any_text(max_size=30))
def test_whatever_is_written_gets_a_line_and_no_error(text):
    field = KEPT.fields["need"]
    field.box.value = text
    for _ in range(4):
        field.lead()
    assert field.said


def test_what_is_written_is_not_taken_for_html(form):
    form.fields["cut"].box.value = "<script>x</script>"
    assert "<script" not in form.fields["cut"].beside.value


def test_every_example_and_a_class_have_their_place_in_the_menu():
    assert list(check_panel().exercises) == [f"The {name}" for name in EXAMPLES]
    assert len(check_panel(*exercises_for_class(3)).exercises) == 20


def test_a_form_is_made_of_exercises():
    with pytest.raises(HemError, match="for example"):
        check_panel("bread cloth")


def test_without_widgets_the_sum_is_there_in_words(form):
    bundle = form._repr_mimebundle_()
    assert bundle["text/plain"].startswith("The bread cloth of the autumn linen workshop (invented).")


@pytest.mark.parametrize(
    ("sums", "said"),
    [("coaster", "sums is 'coaster', but must be an Exercise"), (exercise(7, 3), "room for 1")],
)
def test_a_form_refuses_what_it_cannot_show_and_goes_on_with_its_own(sums, said):
    form = check_panel(exercise(7, 1))
    title = form.exercise.title
    with pytest.raises(HemError, match=said):
        form.show_sum(sums)
    with pytest.raises(HemError, match="title is 'no sum'"):
        form.choose("no sum")
    assert form.exercise.title == title
