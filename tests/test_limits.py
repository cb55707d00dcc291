"""What is counted has a first number and a last that are taken, and the next ones are refused.

The numbers stand in the docstrings, or in the refusal; the choice of them is ours, from memory.
"""

import pytest
from cases import for_each

from hemcalc import HemError, Kit, example
from hemcalc.finish import Pace
from hemcalc.finish.counting import counting_plan
from hemcalc.sums import exercise, exercises_for_class
from hemcalc.sums.practice import faded
from hemcalc.sums.progress import Done, Progress, load_progress
from hemcalc.sums.reading import read_answer
from hemcalc.workshop import Goods, Workshop, example_workshop, timetable
from hemcalc.workshop.class_file import class_template, read_class
from hemcalc.workshop.money import as_money

COASTER, CLASS = example("coaster"), example_workshop()


def kit(name):
    return lambda number: Kit("Ada", COASTER, **{name: number})


def workshop(**asked):
    said = {"kits": [CLASS.kits[0]], "linens": CLASS.linens, "goods": CLASS.goods} | asked
    return Workshop("All", **said)


@for_each(
    ("call", "first", "last"),
    [
        (Pace, 1, 1000),
        (lambda crossings: Pace(15, crossings), 1, 1000),
        (lambda percent: Pace(15, within=f"{percent} %"), 0, 50),
        (lambda every: counting_plan(COASTER, every=every), 2, 100),
        # The coaster's design is of 76 threads.
        (lambda across: counting_plan(COASTER, motif=(across, 4)), 1, 76),
        (lambda repeat: counting_plan(COASTER, repeat=repeat), 1, 76),
        (lambda corner: counting_plan(COASTER, repeat=6, corner=corner), 0, 35),
        (lambda hours: timetable(CLASS, hours), 1, 12),
        (lambda number: Goods("needles", number), 1, 10_000),
        (lambda letters: Goods("n" * letters, 6), 1, 60),
        (kit("needles"), 1, 20),
        (kit("sharps"), 0, 20),
        (kit("pins"), 0, 200),
        (lambda number: workshop(kits=[CLASS.kits[0]] * number), 1, 500),
        (lambda number: workshop(spare_needles=number), 0, 1000),
        (lambda whole: as_money(whole, "price"), 0, 10**9 - 1),
        (lambda places: as_money("1" + "." * bool(places) + "1" * places, "price"), 0, 4),
        (lambda seed: exercise(seed), -(10**12), 10**12),
        (lambda level: exercise(7, level), 1, 4),
        (lambda learners: exercises_for_class(7, learners), 1, 40),
        (lambda step: faded(exercise(7), step), 0, 3),
        (lambda threads: read_answer("total", threads), 0, 10_000_000),
    ],
)
def test_the_first_and_the_last_are_taken_and_no_others(call, first, last):
    for taken in {first, last}:
        call(taken)
    for refused in (first - 1, last + 1):
        with pytest.raises(HemError, match="for example"):
            call(refused)


def class_of_rows(rows, path):
    text = class_template()
    path.write_text(text + "# and no more\n" * (rows - text.count("\n")))
    read_class(path)


def class_of_bytes(size, path):
    text = class_template().encode()
    remarks = (b"#" * 99_999 + b"\n") * (size // 100_000)  # what stands in one field is read up to 128 KB
    path.write_bytes((text + remarks)[:size])
    read_class(path)


def sums_of_bytes(size, path):
    text = Progress((Done(7, 3, 2, 3),)).text().encode()
    path.write_bytes(text + b"\n" + b" " * (size - len(text) - 1))
    load_progress(str(path))


@for_each(("read", "most"), [(class_of_rows, 2000), (class_of_bytes, 1_000_000), (sums_of_bytes, 1_000_000)])
def test_a_file_may_be_as_large_as_this_and_no_larger(read, most, tmp_path):
    read(most, tmp_path / "mine")
    with pytest.raises(
        HemError, match=f"(?i)more than {most}|at most {most}|{most // 1_000_000} MB|{most:,}"
    ):
        read(most + 1, tmp_path / "mine")
