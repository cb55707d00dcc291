"""Find her slip, and practice with a file of her own: first answers count, nothing is written unasked."""

import pytest

from hemcalc import HemError
from hemcalc.course.tasks import Task
from hemcalc.panels import her_slip_panel, practice_panel
from hemcalc.sums.progress import load_progress


@pytest.mark.parametrize("seed", range(8))
def test_a_sheet_has_one_slip_and_each_wrong_answer_is_told_why(seed):
    panel = her_slip_panel(seed)
    said = set()
    for number in panel.number.options[1:]:
        for clause, why in panel.why.options[1:]:
            panel.number.value, panel.why.value = number, why
            right = number == panel.wrong[0] and why == panel.slip
            assert panel.said.startswith("Yes: " if right else "Not yet: ")
            assert clause in panel.said or number != panel.wrong[0]
            said.add(panel.said)
    assert len(said) >= 4


def test_nothing_tells_the_slip_before_both_questions_are_answered():
    panel = her_slip_panel(2)
    panel.number.value = panel.wrong[0]
    assert panel.said == "Answer both questions."
    before = panel.sheet.value
    panel.another.click()
    assert panel.sheet.value != before
    assert panel.number.value == "choose"


def answer(panel, rightly=True):
    if isinstance(panel.sums, Task):
        panel.box.value = str(float(panel.sums.working.value)) if rightly else "100000"
    else:
        for name, field in panel.form.fields.items():
            field.box.value = panel.sums.key[name].text().removeprefix("≈ ") if rightly else "1"


def test_practice_goes_on_topic_by_topic_and_keeps_nothing_unasked(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    panel, topics = practice_panel(), []
    for _ in range(12):
        topics.append(getattr(panel.sums, "topic", "sum"))
        answer(panel)
        panel.following.click()
    assert topics[:3] == ["sum", "count", "spacing"]
    assert len(set(topics)) >= 5
    assert all(done.whole for done in panel.progress.done)
    assert list(tmp_path.iterdir()) == []
    panel.keep.click()
    assert load_progress("my_sums.txt") == panel.progress
    answer(panel, rightly=False)
    panel.following.click()
    assert load_progress("my_sums.txt").done[-1].right == 0

    again = practice_panel()
    again.keep.click()
    assert "would be lost" in again.told
    again.open.click()
    assert again.progress == panel.progress
    assert again.sums.title == panel.sums.title


def test_what_is_written_first_counts_and_the_answer_is_not_told_before():
    panel = practice_panel()
    panel.following.click()
    assert "Write every number first" in panel.said
    answer(panel, rightly=False)
    answer(panel)
    assert panel.form.report.all_right
    panel.following.click()
    assert not panel.progress.done[-1].whole
    assert panel.sums.title == "Count 1"
    for _ in range(4):
        panel.hint.click()
    assert panel.sums.line() not in panel.said
    assert panel.sums.question in panel.said
    answer(panel, rightly=False)
    panel.hint.click()
    assert panel.sums.line() in panel.said
    answer(panel)
    assert "Right" in panel.said
    panel.following.click()
    assert not panel.progress.done[-1].whole


def test_a_file_that_is_no_progress_is_left_alone(tmp_path):
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear Ada,")
    panel = practice_panel(str(letter))
    panel.open.click()
    assert "is not a file of sums" in panel.told
    answer(panel)
    panel.following.click()
    panel.keep.click()
    assert letter.read_text() == "Dear Ada,"


def test_what_is_no_file_or_seed_is_refused():
    with pytest.raises(HemError, match="for example"):
        practice_panel(7)
    with pytest.raises(HemError, match="for example"):
        her_slip_panel("3")
