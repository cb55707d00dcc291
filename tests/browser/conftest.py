"""One Chromium for all the tests in a browser, and a lab over any folder, as `open` starts it.

Where there is no Chromium they are skipped, and the test command says so.
"""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import Any

import pytest

from hemcalc.launch.lab import arguments

ROOT = Path(__file__).parents[2]
QUIET = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
)


@contextmanager
def chromium() -> Iterator[Any]:
    """A Chromium without a window."""
    found = os.environ.get("HEMCALC_CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        pytest.skip("there is no Chromium on this machine")
    sync_api = pytest.importorskip("playwright.sync_api", reason="the extra 'browser' is not installed")
    with sync_api.sync_playwright() as play:
        running = play.chromium.launch(executable_path=found, headless=True, args=list(QUIET))
        yield running
        running.close()


@contextmanager
def lab(folder: Path) -> Iterator[str]:
    """A lab over a folder; its address, to which ``?token=t`` is said, while it is in use."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    asked = [sys.executable, *arguments(folder), f"--port={port}", "--IdentityProvider.token=t"]
    path = os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])
    # What is set in one lab is nobody's else.
    around = os.environ | {"PYTHONPATH": path, "HEMCALC_SETTINGS": str(folder / ".settings.json")}
    around["JUPYTER_CONFIG_PATH"] = str(ROOT / ".jupyter")
    silent = subprocess.DEVNULL
    server = subprocess.Popen(asked, cwd=folder, env=around, stdout=silent, stderr=silent)
    address = f"http://127.0.0.1:{port}"
    try:
        for _ in range(240):
            try:
                urllib.request.urlopen(f"{address}/api?token=t").close()
                break
            except OSError:
                time.sleep(0.25)
        yield address
    finally:
        server.terminate()
        server.wait(20)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """The one that all tests share: two can't be driven at once."""
    with chromium() as running:
        yield running


@pytest.fixture(scope="session")
def lab_over() -> Callable[[Path], AbstractContextManager[str]]:
    """Starts a lab over a folder."""
    return lab
