"""What is typed behind ``python3 -m hemcalc``: one command opens the notebooks, one passes every test.

    python3 -m hemcalc open
    python3 -m hemcalc test

All work in a fresh checkout with nothing but Python on the machine: what they need is
installed into the checkout's own environment first. What goes wrong is said in a sentence.
"""

from __future__ import annotations

import os
import shlex
import signal
import sys
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path

if __name__ == "__main__":  # until all is read that can say a word to it, Ctrl-C ends this without one
    signal.signal(signal.SIGINT, signal.SIG_DFL)

from hemcalc.launch.environment import Environment
from hemcalc.launch.lab import open_notebooks
from hemcalc.launch.own_pages import run_afresh
from hemcalc.launch.sending import send_pages
from hemcalc.launch.stage import show_stage
from hemcalc.launch.stages import run_browser_tests, run_tests
from hemcalc.measure.errors import HemError, shown

#: By the word that is typed: what it does, the function that does it and gives the exit code, and an
#: example of what is typed after the word and given to the function.
COMMANDS: dict[str, tuple[str, Callable[..., int], str]] = {
    "open": ("opens the notebooks in your browser", open_notebooks, ""),
    "afresh": ("gives you a page as it was, and keeps yours", run_afresh, "03"),
    "pages": ("makes a folder of pages to send round", send_pages, "my_pages/to_send"),
    "stage": ("shows one panel alone, on a wall", show_stage, "margin"),
    "test": ("runs every test and check, but for those in a browser", run_tests, ""),
    "browser": ("runs the tests in a browser, a Chromium", run_browser_tests, ""),
}

_PACKAGE = Path(__file__).resolve().parent


def main(words: Sequence[str], package: Path = _PACKAGE) -> int:
    """Do what the command line asks of the hemcalc in this package folder.

    The exit code is 0 if all went well, 1 if something failed, 2 for an unknown word, and 130 if
    it was stopped from the keyboard.

    Examples
    --------
    >>> main([])  # doctest: +ELLIPSIS
    To be typed in this folder:
    ...
    0
    """
    if not words or list(words) in (["help"], ["--help"], ["-h"]):
        lines = "\n".join(
            f"  {_typed(word, *more.split()):<42} {does}" for word, (does, _, more) in COMMANDS.items()
        )
        print(f"To be typed in this folder:\n\n{lines}\n")
        print("The first time, each takes a few minutes to install what it needs into the folder")
        print(".venv here, and needs the internet; later it starts at once, without.")
        return 0
    word, *more = words
    if word not in COMMANDS or (more and not COMMANDS[word][2]):
        word = " ".join(words)
        known = f"one of {', '.join(map(repr, COMMANDS))}; for example: {_typed('open')}"
        print(f"hemcalc doesn't know {shown(word)}, only {known}", file=sys.stderr)
        return 2
    try:
        return COMMANDS[word][1](Environment(_checkout(package), _typed(*words)), *more)
    except HemError as error:
        print(error, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print(f"\nStopped. To begin again: {_typed(*words)}")
        return 130


def _typed(*words: str) -> str:
    """The command as it is typed on this kind of machine."""
    return f"{'py' if os.name == 'nt' else 'python3'} -m hemcalc {shlex.join(words)}"


def _checkout(package: Path) -> Path:
    """The checkout that the package is part of: the folder above it, with its pyproject.toml."""
    try:
        project = tomllib.loads((package.parent / "pyproject.toml").read_text("utf-8"))
    except OSError:
        project = {}
    except ValueError:
        raise HemError(
            "The file pyproject.toml of this checkout can't be read, as after an edit or a merge gone "
            "wrong; to get it back as it was, type: git checkout HEAD -- pyproject.toml"
        ) from None
    if project.get("project", {}).get("name") != "hemcalc":
        raise HemError(
            "This hemcalc is installed away from its notebooks and tests; clone the project, and "
            f"type in the folder that the clone makes, for example: {_typed('open')}"
        )
    return package.parent


if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.default_int_handler)
    sys.exit(main(sys.argv[1:]))
