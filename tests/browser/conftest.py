"""One Chromium and one lab for all the tests in a browser; the pages to send round are made meanwhile.

The lab is started as `open` starts it, but that a test may speak to it: a notebook is opened, given its
kernel and run by the commands behind the menus, which say when they are done. Nothing waits for a time to
pass, but for what a reader would wait for, and for `PATIENCE` at most, so that a busy machine is no fault.
What a page showed when a test failed is kept as a picture, whose place stands in the report.

Where there is no Chromium the tests are skipped, and the test command says so.
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
from contextlib import AbstractContextManager, contextmanager, suppress
from pathlib import Path
from typing import Any

import nbformat
import pytest

from hemcalc.launch.lab import arguments

ROOT = Path(__file__).parents[2]
PATIENCE = 300_000  # ms; a page was seen to take 160 s to run where ten others worked on two cores
QUIET = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
)
#: Put away what is open, with its kernel; open a notebook and wait for its own.
OPEN = """async (path) => {
  const lab = window.jupyterapp;
  await lab.restored;
  for (const old of [...lab.shell.widgets('main')]) {
    if (old.sessionContext) old.sessionContext.shutdown().catch(() => {});
    old.dispose();
  }
  const opened = await lab.commands.execute('docmanager:open', {path, factory: 'Notebook'});
  await opened.revealed;
  await opened.sessionContext.ready;
  await opened.sessionContext.session.kernel.info;
}"""
#: Run every cell of the notebook that is open. Saved numbers go first: one then means that it was run here.
RUN = """async () => {
  await window.jupyterapp.commands.execute('notebook:clear-all-cell-outputs');
  await window.jupyterapp.commands.execute('notebook:run-all-cells');
}"""
#: Whether every widget's view is on the page.
SHOWN = """() => [...document.querySelectorAll('.jupyter-widgets-view')].every(
  (e) => e.childElementCount || /^Error displaying/.test(e.textContent))"""
#: What was asked of the kernel until now is answered.
ANSWERED = "() => window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.requestKernelInfo()"
#: The page has been laid out, and painted.
PAINTED = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"


@contextmanager
def chromium() -> Iterator[Any]:
    """A Chromium without a window."""
    found = os.environ.get("HEMCALC_CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        pytest.skip("there is no Chromium on this machine")
    sync_api = pytest.importorskip("playwright.sync_api", reason="the extra 'browser' is not installed")
    with sync_api.sync_playwright() as play:
        running = play.chromium.launch(
            executable_path=found, headless=True, args=list(QUIET), timeout=PATIENCE
        )
        yield running
        running.close()


@contextmanager
def served(words: Callable[[int], list[str]], folder: Path, variables: dict[str, str]) -> Iterator[str]:
    """The address of what Python is told to serve at a port, once it answers, while it is in use."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    said, address = folder / ".said", f"http://127.0.0.1:{port}"
    with said.open("wb") as log:
        program = [sys.executable, *words(port)]
        server = subprocess.Popen(program, cwd=folder, env=variables, stdout=log, stderr=log)
    try:
        end = time.monotonic() + PATIENCE / 1000
        while True:
            with suppress(OSError):
                urllib.request.urlopen(f"{address}/login").close()
                break
            if server.poll() is not None or time.monotonic() > end:
                pytest.fail(f"the server did not come: {said.read_text('utf-8', 'replace')[-2000:]}")
            time.sleep(0.1)
        yield address
    finally:
        server.terminate()
        server.wait(60)


class Lab:
    """A lab over a folder, in one page of the browser, with one notebook open at a time."""

    def __init__(self, page: Any, folder: Path) -> None:
        self.page = page
        self.folder = folder

    def open(self, path: str, width: int, height: int) -> Any:
        """Open a notebook of the folder in a window of this size, and give the page."""
        self.page.set_viewport_size({"width": width, "height": height})
        self.page.evaluate(within(OPEN), path)
        return self.page

    def run(self) -> None:
        """Run every cell of the notebook that is open, and wait for all that they show."""
        self.page.evaluate(within(RUN))
        self.page.wait_for_function(SHOWN)
        self.settle()

    def settle(self) -> None:
        """Wait until the kernel has answered, and the page shows what it said."""
        self.page.evaluate(within(ANSWERED))
        self.page.evaluate(PAINTED)

    def write(self, path: str, *cells: str) -> str:
        """Write a notebook of these cells into the folder, and give its path."""
        metadata = {"kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"}}
        made = nbformat.v4.new_notebook(cells=list(map(nbformat.v4.new_code_cell, cells)), metadata=metadata)
        (self.folder / path).parent.mkdir(exist_ok=True)
        nbformat.write(made, self.folder / path)
        return path


def within(script: str) -> str:
    """The script, which gives up after `PATIENCE` where it would wait for ever."""
    return f"""(given) => Promise.race([({script})(given), new Promise((_, fail) => setTimeout(
        () => fail('waited for in vain: ' + ([...document.querySelectorAll('.jp-Dialog')]
          .map((e) => e.innerText).join() || 'no dialog is open')), {PATIENCE}))])"""


@contextmanager
def lab_over(folder: Path, browser: Any) -> Iterator[Lab]:
    """A lab over a folder while it is in use."""
    path = os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])
    # What is set in one lab is nobody's else.
    around = os.environ | {"PYTHONPATH": path, "HEMCALC_SETTINGS": str(folder / ".settings.json")}
    around["JUPYTER_CONFIG_PATH"] = str(ROOT / ".jupyter")
    speaking = [*arguments(folder), "--IdentityProvider.token=t", "--LabApp.expose_app_in_browser=True"]
    with served(lambda port: [*speaking, f"--port={port}"], folder, around) as address:
        page = browser.new_page(viewport={"width": 1366, "height": 768})
        page.set_default_timeout(PATIENCE)
        page.goto(f"{address}/lab?token=t&reset")
        page.wait_for_function("() => window.jupyterapp")
        yield Lab(page, folder)
        page.close()


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """The one that all tests share: two can't be driven at once."""
    with chromium() as running:
        yield running


@pytest.fixture(scope="session")
def serving() -> Callable[..., AbstractContextManager[str]]:
    """Serves what Python is told to."""
    return served


@pytest.fixture(scope="session")
def patience() -> int:
    """For a page of a test's own, ms."""
    return PATIENCE


@pytest.fixture(scope="session")
def lab(browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """The one that all tests share."""
    with lab_over(tmp_path_factory.mktemp("lab"), browser) as lab:
        yield lab


@pytest.fixture(scope="session", autouse=True)
def making(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Callable[[], Path]]:
    """Begin to make the pages to send round, if a test asks for them; it waits until they are made."""
    if not any("sent" in getattr(item, "fixturenames", ()) for item in request.session.items):
        yield Path
        return
    folder = tmp_path_factory.mktemp("sent") / "for the class"
    words = [sys.executable, "-m", "hemcalc.send", str(folder)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT) as program:

        def made() -> Path:
            said = program.communicate()[0].decode("utf-8", "replace")
            assert program.returncode == 0, said
            return folder

        yield made
        program.terminate()  # where no test came to ask for them


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Iterator[None]:
    """Keep what the browser showed when a test failed."""
    report = yield
    browser = getattr(item, "funcargs", {}).get("browser")
    if report.failed and browser is not None:
        folder = item.config._tmp_path_factory.mktemp("seen")  # type: ignore[attr-defined]
        for context in browser.contexts:
            for number, page in enumerate(context.pages):
                with suppress(Exception):  # it may be what has gone
                    picture = folder / f"{item.name[:60].replace('/', '_')}-{number}.png"
                    page.screenshot(path=picture, timeout=20_000)
                    report.sections.append(("what the browser showed", f"{page.url}: {picture}"))
    return report
