"""A Chromium for the tests in a browser; without one they are skipped, and the test command says so."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from typing import Any

import pytest

QUIET = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """A Chromium without a window."""
    chromium = (
        os.environ.get("HEMCALC_CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    )
    if chromium is None:
        pytest.skip("there is no Chromium on this machine")
    sync_api = pytest.importorskip("playwright.sync_api", reason="the extra 'browser' is not installed")
    with sync_api.sync_playwright() as play:
        running = play.chromium.launch(executable_path=chromium, headless=True, args=list(QUIET))
        yield running
        running.close()
