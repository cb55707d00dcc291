"""The worksheet on paper: every sum and no answer, or every working; in black, on any sheet."""

import re

import pytest
from cases import for_each

from hemcalc import HemError
from hemcalc.paper import worksheet
from hemcalc.paper.printer import PAPERS
from hemcalc.paper.worksheet import WITH_LEDGER
from hemcalc.sums import exercises_for_class
from hemcalc.sums.facts import LEDGER
from hemcalc.sums.practice import heard

SUMS = exercises_for_class(3, 8, level=3)
levels = pytest.mark.parametrize("level", [1, 2, 3, 4])
papers = pytest.mark.parametrize("paper", PAPERS)


def test_every_sum_is_on_the_sheet_and_no_answer(made, said):
    told = said(made(worksheet, SUMS))
    for number, sums in enumerate(SUMS, 1):
        assert f"{number}. {sums.title}. {sums.text()}" in told
        assert all(asked.text() in told for asked in sums.asked)
    assert "name: ____" in told
    assert "invented" in told
    assert " = " not in told


def test_the_key_has_every_working(made, said):
    told = said(made(worksheet, SUMS, key=True))
    for sums in SUMS:
        assert f"{sums.title}." in told, "the key can be matched with the sheet"
        for asked in sums.asked:
            assert sums.key[asked.name].line in told
            assert all(each.text() in told for each in heard(sums, asked, 2))
    assert "key for the leader" in told
    assert "name: ____" not in told


def test_every_answer_has_a_line_to_be_written_on_beside_its_words(made, printed):
    right = 210 - 12
    for page in printed(made(worksheet, SUMS)):
        blanks = [s for s in page.strokes if s.points[-1][0] == pytest.approx(right, abs=0.01)]
        for blank in blanks:
            (left, down), _ = blank.points
            beside = [line for line in page.lines if line.top < down and down - line.bottom < 2]
            assert beside
            assert all(line.right < left for line in beside)
    asked = sum(len(sums.asked) for sums in SUMS)
    lines = [
        s for page in printed(made(worksheet, SUMS)) for s in page.strokes if s.across == pytest.approx(34)
    ]
    assert len(lines) == asked


@levels
@papers
def test_nothing_runs_off_the_page_or_into_another(made, troubles, level, paper):
    for key in (False, True):
        assert troubles(made(worksheet, exercises_for_class(9, 5, level), paper=paper, key=key)) == []


def test_the_ledger_has_a_strip_to_fill_in_and_each_number_a_line_for_its_working(made, printed):
    pages = printed(made(worksheet, SUMS))
    words = " ".join(page.words for page in pages)
    strips = sum(bool({asked.name for asked in sums.asked} & WITH_LEDGER) for sums in SUMS)
    # In the strip a band's name stands alone.
    assert all(len(re.findall(rf"(?m)^{band}$", words)) >= strips for band in LEDGER)
    asked = sum(len(sums.asked) for sums in SUMS)
    working = 210 - 20 - 8 - 34 - 4
    assert sum(s.across == pytest.approx(working) for page in pages for s in page.strokes) == asked


@papers
def test_a_long_title_stays_on_the_page(made, troubles, paper):
    title = "Hemstitched edges with mitred corners: sums for the autumn linen workshop, the second evening"
    assert troubles(made(worksheet, SUMS, paper=paper, title=title)) == []


def test_an_exercise_stands_on_one_page(made, printed):
    pages = [page.words for page in printed(made(worksheet, SUMS))]
    assert len(pages) > 1
    for number, sums in enumerate(SUMS, 1):
        (page,) = [words.replace("\n", " ") for words in pages if f"\n{number}.\n" in words]
        assert sums.asked[-1].text() in page


@for_each(
    ("call", "about"),
    [
        (lambda: worksheet([]), "exercises"),
        (lambda: worksheet(["1 + 1"]), "exercises"),
        (lambda: worksheet(3), "exercises"),
        (lambda: worksheet(SUMS, paper="A5"), "paper"),
    ],
)
def test_what_is_not_possible_gets_one_sentence(call, about):
    with pytest.raises(HemError, match="for example") as caught:
        call()
    assert caught.value.about == about
