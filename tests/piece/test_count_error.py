"""Cloths cut by a measured count, simulated: how often they are too small.

The whole simulation is tests/bench/counting.py; here are fewer cloths of it, from a fixed seed.
"""

import importlib.util
import pathlib
import sys

import pytest

CLOTHS = 90


@pytest.fixture(scope="module")
def counting():
    """The bench's module, which belongs to no package."""
    bench = next(p for p in pathlib.Path(__file__).parents if p.name == "tests") / "bench" / "counting.py"
    spec = importlib.util.spec_from_file_location("counting", bench)
    module = sys.modules["counting"] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    yield module
    del sys.modules["counting"]


@pytest.mark.parametrize("cloth", ["even", "1 % by the inch", "1 % slowly"])
@pytest.mark.parametrize(("places", "inches", "before"), [(1, 1, 0.45), (4, 4, 0.05)])
def test_cloth_is_too_small_often_before_and_no_oftener_than_is_said_after(
    counting, cloth, places, inches, before
):
    found = counting.simulate(*counting.CLOTHS[cloth], places, inches, cloths=CLOTHS)
    assert found.before > before
    assert found.after <= 0.05
    assert found.short_after <= found.short_before


def test_a_lower_confidence_adds_less_and_is_kept_too(counting):
    cloth = counting.CLOTHS["1 % slowly"]
    runs = [counting.simulate(*cloth, 2, 1, cloths=CLOTHS, sure=sure) for sure in ("60 %", "80 %", "99 %")]
    assert [run.added for run in runs] == sorted(run.added for run in runs)
    for run, left in zip(runs, (0.4, 0.2, 0.01), strict=True):
        assert run.after <= left
    assert runs[0].after > 0
