"""The changes that are called equivalent: each has a reason, and stands where it is said to stand."""

import csv
from pathlib import Path

import pytest

from hemcalc import measure

WITHOUT_DIFFERENCE = Path(__file__).with_name("mutation_equivalent.csv")
PACKAGE = Path(measure.__file__).parents[1]
ROWS = list(csv.DictReader(WITHOUT_DIFFERENCE.read_text("utf-8").splitlines()))


@pytest.mark.parametrize("row", ROWS, ids=[f"{row['module']}: {row['now']}" for row in ROWS])
def test_each_is_still_in_the_code_and_says_why_it_makes_no_difference(row):
    lines = (PACKAGE / row["module"]).read_text("utf-8").splitlines()
    assert row["was"] in "; ".join(" ".join(line.split()) for line in lines)
    assert row["now"] != row["was"]
    assert len(row["reason"].split()) > 3
