"""A few wrong things for each argument of each callable that a reader can import; `walk.py` has them all."""

import random

import pytest
import walk
from hostile import WRONG

PACKAGES = sorted({module.split(".")[1] for module in walk.modules() if "." in module})
FEW = 3
#: Takes seconds before it can tell, or makes panels and pages: walked by the command alone.
SLOW = {"send_folder", "print_workshop", "workshop_pages", "comparisons", "strip_html", "side_by_side"}
SLOW |= {"check_panel", "her_slip_panel", "practice_panel", "cut_for_class", "where_to_buy"}


@pytest.fixture(scope="module", autouse=True)
def watched():
    walk.prepared()


@pytest.mark.parametrize("package", PACKAGES)
def test_a_wrong_thing_is_refused_in_a_sentence(package, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)  # what is saved by mistake goes with the test
    faults = []
    for walked in walk.public(package):
        faults += [(walked.name, f"no good {name} is known: add one to GOOD") for name in walked.unknown()]
        chance = random.Random(walked.name)
        for each in walked.inputs if walked.name not in SLOW else ():
            for wrong in chance.sample(sorted(WRONG), FEW):
                met = walk.outcome(walked, each.name, wrong, timed=False)
                faults += [(met.at, met.faults)] if met.faults else []
    assert not faults
