"""A server for the browser, which stays until it is stopped."""

from __future__ import annotations

import os
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

    The terminal's Ctrl-C is for this program, which tells the server: one that has not begun yet would answer
    it with a page of its own. Refused if it stopped by itself, with an error; `stopped` says so.
    """
    pressed: list[int] = []  # in the moment in which the server is there, and nobody could end it yet
    usual = signal.signal(signal.SIGINT, lambda number, _: pressed.append(number))
    process = subprocess.Popen(
        [str(environment.python), *asked],
        cwd=folder,
        env=variables,
        process_group=None if os.name == "nt" else 0,
    )
    try:
        for name in ("SIGTERM", "SIGHUP"):  # Windows has no second one
            number = getattr(signal, name, None)
            if (
                number and signal.getsignal(number) is not signal.SIG_IGN
            ):  # as where it is to outlast its window
                signal.signal(number, lambda *_: process.terminate())
        signal.signal(signal.SIGINT, usual)
        if pressed:
            raise KeyboardInterrupt
        show(process)
        code = process.wait()
    except KeyboardInterrupt:
        code = 0
        try:
            if os.name != "nt":  # where the window has told it already, and this would be no word, but a blow
                process.terminate()
            process.wait(_PATIENCE)  # it closes its kernels
        except (KeyboardInterrupt, subprocess.TimeoutExpired):
            process.kill()
            process.wait()
    finally:
        process.kill()  # whatever went wrong; one that has ended feels nothing
    if code > 0:
        raise HemError(
            f"{stopped} above say which; delete the folder .venv to install it anew, and try again: "
            f"{environment.again}"
        )


def open_browser(page: Path) -> None:
    """Show a page; a browser in the terminal would hold up this program, and its Ctrl-C."""
    threading.Thread(target=webbrowser.open, args=(page.as_uri(),), daemon=True).start()
