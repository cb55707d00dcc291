"""Lets Ctrl-C through to what is tested, where a shell that began the tests holds it back."""

import signal
from collections.abc import Iterator

import pytest


@pytest.fixture(autouse=True)
def heeding_ctrl_c() -> Iterator[None]:
    """What is started in the background ignores Ctrl-C, and so does all that it starts."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)
