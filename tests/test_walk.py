"""A few wrong things for each argument of each callable that a reader can import; `walk.py` has them all."""

import random

import pytest
import walk
from hostile import WRONG

PACKAGES = sorted({module.split(".")[1] for module in walk.modules() if "." in module})
FEW = 4


@pytest.fixture(scope="module", autouse=True)
def watched():
    walk.prepared()


def test_every_callable_has_inputs_that_serve():
    assert not [(walked.name, walked.unknown()) for walked in walk.public() if walked.unknown()]


@pytest.mark.parametrize("package", PACKAGES)
def test_a_wrong_thing_is_refused_in_a_sentence(package, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)  # what is saved by mistake goes with the test
    faults = []
    for walked in walk.public(package):
        chance = random.Random(walked.name)
        for each in walked.inputs:
            for wrong in chance.sample(sorted(WRONG), FEW):
                met = walk.outcome(walked, each.name, wrong, timed=False)
                faults += [(met.at, met.faults)] if met.faults else []
    assert not faults
