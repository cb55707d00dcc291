"""A server for the browser, which stays until it is stopped."""

from __future__ import annotations

import signal
import subprocess
import threading
import webbrowser
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from hemcalc.launch.environment import Environment
from hemcalc.measure.errors import HemError

_PATIENCE = 10  # seconds that the server has to close its kernels


def serve(
    environment: Environment,
    asked: Sequence[str],
    folder: Path,
    variables: Mapping[str, str],
    show: Callable[[subprocess.Popen[bytes]], None],
    stopped: str,
) -> None:
    """Start what Python is told to, show it, and stay until it is stopped.

    Raises
    ------
    HemError
        If it stopped by itself, with an error; `stopped` says so.
    """
    process = subprocess.Popen([str(environment.python), *asked], cwd=folder, env=variables)
    try:
        signal.signal(signal.SIGTERM, lambda *_: process.terminate())
        show(process)
        code = process.wait()
    except KeyboardInterrupt:  # the terminal told the server too, which now closes its kernels
        code = 0
        try:
            process.wait(_PATIENCE)
        except (KeyboardInterrupt, subprocess.TimeoutExpired):
            process.terminate()
            process.wait()
    if code > 0:
        raise HemError(
            f"{stopped} above say which; delete the folder .venv to install it anew, and try again: "
            f"{environment.again}"
        )


def open_browser(page: Path) -> None:
    """Show a page; a browser in the terminal would hold up this program, and its Ctrl-C."""
    threading.Thread(target=webbrowser.open, args=(page.as_uri(),), daemon=True).start()
