"""How hypothesis searches, and what is held of every refusal in whatever test.

The same examples are tried each time; `python -m pytest --hypothesis-profile=search` tries many more, new
ones each time.
"""

import gc
import os
import sys
from collections.abc import Iterator

import pytest
from hypothesis import settings

from hemcalc.measure.errors import HemError

# What somebody has set for herself in this folder is no part of what is tested.
os.environ["HEMCALC_SETTINGS"] = ""

# jsonschema brings in a grammar of web addresses that takes two seconds to read; no schema here needs it.
sys.modules["rfc3987_syntax"] = None

# No deadline: a busy machine is no fault of the code. No database: the checkout may be read-only.
settings.register_profile("steady", deadline=None, database=None, derandomize=True, max_examples=20)
settings.register_profile("search", deadline=None, database=None, max_examples=1000)
settings.load_profile("steady")

_refuse = HemError.__init__


def _refuse_in_one_short_line(error: HemError, sentence: str, about: str = "") -> None:
    _refuse(error, sentence, about)
    assert len(sentence) <= 400, sentence
    assert sentence.isprintable(), sentence


HemError.__init__ = _refuse_in_one_short_line


def pytest_collection_finish() -> None:
    """Look through what the imports have left no more, and for other garbage seldom: a third of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(200_000, 20, 1000)


@pytest.hookimpl(wrapper=True)
def pytest_collect_file() -> Iterator[None]:
    """No test holds a doctest, so none is looked for here: a second collection of every module."""
    found = yield
    return [each for each in found if type(each).__name__ != "DoctestModule"]
