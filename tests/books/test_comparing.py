"""Published figures beside ours: each of one grade, each agreeing or not, and what is said of them."""

from dataclasses import replace
from decimal import Decimal

from cases import for_each

from hemcalc.books import comparisons
from hemcalc.books.comparing import compare
from hemcalc.books.rows import GRADES

EVERY = comparisons()
LEGS = next(each for each in EVERY if each.row.id == "H051")


def test_each_figure_is_of_one_grade():
    graded = {grade: EVERY.graded(grade) for grade in GRADES}
    assert sum(map(len, graded.values())) == len(EVERY)
    assert all(each.row.grade == grade for grade, some in graded.items() for each in some)


def test_the_figures_of_the_topics_are_those_of_the_table():
    topics = EVERY.by_topic()
    assert list(topics.index) == list(dict.fromkeys(each.row.topic for each in EVERY))
    assert topics["figures"].sum() == len(EVERY)
    assert topics["computed"].sum() == len(EVERY.graded("computed"))
    assert topics["differ"].sum() == len(EVERY.differing)


# Of 3 to 4, 2 is one short of the least, and 6 two beyond the most. A range of ours has to hold theirs:
# of 5 to 7 the least is two more than 3, of 2 to 3 the most one less than 4.
@for_each(
    ("printed", "ours", "difference", "said"),
    [
        (3, 3, 0, "none"),
        (3, 2, -1, "−1"),
        ((3, 4), 2, -1, "−1"),
        ((3, 4), 3.5, 0, "none"),
        ((3, 4), 6, 2, "+2"),
        (3, (2, 4), 0, "none"),
        (3, (4, 6), 1, "+1"),
        (3, (1, 2), -1, "−1"),
        ((3, 4), (5, 7), 2, "+2"),
        ((3, 4), (2, 5), 0, "none"),
        ((3, 4), (2, 3), -1, "−1"),
        (3, 3.0625, 0.0625, "+0.06"),
    ],
)
def test_a_difference_is_from_the_nearer_end(printed, ours, difference, said):
    low, high = printed if isinstance(printed, tuple) else (None, None)
    figures = {"expected": None, "low": low, "high": high} if low else {"expected": printed}
    figures = {name: None if value is None else Decimal(value) for name, value in figures.items()}
    row = replace(LEGS.row, function="ours", inputs={}, unit="threads", tolerance=Decimal("0.5"), **figures)
    compared = compare(row, {"ours": lambda: ours})
    assert compared.difference == difference
    assert compared.agrees == (abs(difference) <= 0.5)
    assert compared.difference_text == said
    ends = ours if isinstance(ours, tuple) else (ours,)
    assert all(f"{end:g}" in compared.text() or end == 3.0625 for end in ends)


def test_half_the_last_digit_printed_is_no_difference():
    row = replace(
        LEGS.row,
        function="ours",
        inputs={},
        unit="threads",
        expected=Decimal("2.5"),
        tolerance=Decimal("0.05"),
    )
    for ours, agrees in ((2.55, True), (2.45, True), (2.551, False), (2.449, False)):
        assert compare(row, {"ours": lambda ours=ours: ours}).agrees == agrees
