"""What a learner may do to a page: a small part of what treated.py does to every one."""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterator

import nbformat
import pytest
import wrong_answers
from cases import for_each
from treated import FOLDER, Page, is_sentence, names, opened

from hemcalc.course.checks import CHECKS
from hemcalc.launch.mistakes import sentence
from hemcalc.panels import check_box, guess_box

PATHS = sorted(FOLDER.glob("*.ipynb"))


def made_in(path) -> list[set[str]]:
    """The names that each code cell makes."""
    cells = [cell for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == "code"]
    return [names(cell.source, ast.Store) for cell in cells]


@for_each("path", PATHS)
def test_no_name_is_made_in_two_cells_so_that_no_order_shows_another_number(path):
    many = Counter(name for made in made_in(path) for name in made)
    assert [name for name, cells in many.items() if cells > 1] == []


@for_each("path", PATHS)
def test_where_a_name_was_not_made_yet_she_is_told_to_run_the_page_even_if_it_is_like_another(path):
    made = made_in(path)
    for at, here in enumerate(made):
        known = [name for other in made[:at] + made[at + 1 :] for name in other]
        for name in here:
            said = sentence(NameError(name=name), known)
            assert "a cell further up makes it" in said
            assert "run the page from the top" in said
            assert is_sentence(said)


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    """One page on a real kernel."""
    with opened(FOLDER / "01_count_your_cloth.ipynb") as page:
        yield page


def test_cells_in_any_order_show_what_is_saved_or_a_sentence(page):
    for order in ([9, 4, 0, 5, 9, 9], [6, 0, 10, 6, 5]):
        assert list(page.amiss(order)) == []
    assert sum(page.sentences.values()) == 3, page.sentences
    assert all("isn't known yet" in said for said in page.sentences)


def test_another_number_would_be_told(page, monkeypatch):
    others = [saved.replace("7", "8") for saved in page.saved]
    monkeypatch.setattr(page, "saved", others)
    assert list(page.amiss([4])) == ["cell 4: shows '\\ntext/plain: 3.7'"]


@for_each("said", ["", "1\n2", "Traceback", 'File "x.py"', "\x1b[0;31m", "long " * 100])
def test_more_than_a_sentence_is_none(said):
    assert not is_sentence(said)
    assert is_sentence("Write 12 in place of 12 in.")


# The linen's key is the fruit of a search that takes seconds.
@for_each("name", [name for name in CHECKS if name != "units of linen"])
def test_no_wrong_answer_is_right_or_gets_no_sentence(name):
    assert list(wrong_answers.tried([check_box(name)])) == []


@for_each("unit", ["mm", "in", "threads", "groups"])
def test_no_wrong_guess_gets_no_sentence(unit):
    box = guess_box("a guess", unit)
    assert list(wrong_answers.tried([box])) == []


def test_a_box_that_fails_or_praises_would_be_told(monkeypatch):
    box = check_box("an inch and a half")
    monkeypatch.setattr(wrong_answers, "wrong_for", lambda box: ["38.1"])
    assert list(wrong_answers.tried([box])) == ["my answer, '38.1': counts as right: Right: 38.1 mm."]
    monkeypatch.setattr("hemcalc.panels.boxes.judge", None)
    assert "TypeError" in next(wrong_answers.tried([box]))
