"""The two commands: one opens the notebooks, one runs every test.

    python3 -m hemcalc open
    python3 -m hemcalc test

Both work in a fresh checkout with nothing but Python on the machine: what they need is
installed into the checkout's own environment first. What goes wrong is said in a sentence.
"""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path

from hemcalc.environment import Environment, child_variables
from hemcalc.measure.errors import HemError, shown

__all__ = ["main", "open_notebooks", "run_tests"]

_PACKAGE = Path(__file__).resolve().parent

START = "notebooks/00_start_here.ipynb"
SANITISER = "tests/notebooks/sanitize.cfg"
_CELL_SECONDS = 120  # after which a notebook's cell is given up as hung
_PATIENCE = 10  # seconds that the lab has to close its kernels


def main(words: Sequence[str], package: Path = _PACKAGE) -> int:
    """Do what the command line asks.

    Parameters
    ----------
    words : sequence of str
        What was typed behind ``python3 -m hemcalc``: ``open``, ``test``, or nothing.
    package : Path
        Folder of the hemcalc package, in its checkout.

    Returns
    -------
    int
        The exit code: 0 if all went well, 1 if something failed, 2 for an unknown word, 130
        if it was stopped from the keyboard.

    Examples
    --------
    >>> main([])  # doctest: +ELLIPSIS
    hemcalc has two commands, to be typed in this folder:
    ...
    0
    """
    commands = {"open": open_notebooks, "test": run_tests}
    if not words or list(words) in (["help"], ["--help"], ["-h"]):
        print(_about())
        return 0
    if len(words) > 1 or words[0] not in commands:
        print(
            f"hemcalc doesn't know {shown(' '.join(words))}, only the one word 'open' or 'test'; "
            f"for example: {_command('open')}",
            file=sys.stderr,
        )
        return 2
    try:
        return commands[words[0]](_checkout(package))
    except HemError as error:
        print(error, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print(f"\nStopped. To begin again: {_command(words[0])}")
        return 130


def _command(word: str) -> str:
    """The command as it is typed on this kind of machine."""
    return f"{'py' if os.name == 'nt' else 'python3'} -m hemcalc {word}"


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
            f"type in the folder that the clone makes, for example: {_command('open')}"
        )
    return package.parent


def _about() -> str:
    return f"""\
hemcalc has two commands, to be typed in this folder:

  {_command("open")}    opens the notebooks in your browser
  {_command("test")}    runs every test and check

The first time, each takes a minute or two to install what it needs into the folder
.venv here, and needs the internet; later it starts at once, without."""


def open_notebooks(root: Path) -> int:
    """Open JupyterLab on the first notebook, and stay until it is stopped.

    Parameters
    ----------
    root : Path
        The checkout.

    Returns
    -------
    int
        0 once it has been stopped.

    Raises
    ------
    HemError
        If the first notebook is missing, the environment can't be made, or the lab fails.
    """
    if not (root / START).is_file():
        raise HemError(f"The file {START} is missing; get it back with: git checkout -- notebooks")
    environment = Environment(root, _command("open"))
    environment.prepare("notebooks")
    if not (writable := _writable(root)):
        print("This checkout can't be written to: the notebooks run, but changes can't be saved.")
    print("Opening the notebooks in your browser. To stop, press Ctrl-C here.", flush=True)
    # The lab's settings there answer its question about news, which the options below don't.
    variables = child_variables() | {"JUPYTER_CONFIG_PATH": str(root / ".jupyter")}
    arguments = _lab(root, writable)
    process = subprocess.Popen([str(environment.python), *arguments], cwd=root, env=variables)
    try:
        signal.signal(signal.SIGTERM, lambda *_: process.terminate())
        code = process.wait()
    except KeyboardInterrupt:  # the terminal told the lab too, which now closes its kernels
        code = 0
        try:
            process.wait(_PATIENCE)
        except (KeyboardInterrupt, subprocess.TimeoutExpired):
            process.terminate()
            process.wait()
    if code > 0:
        raise HemError(
            "JupyterLab stopped with an error, and its own lines above say which; delete the folder "
            f".venv to install it anew, and try again: {_command('open')}"
        )
    print("The notebooks are closed.")
    return 0


def _lab(root: Path, writable: bool) -> list[str]:
    """What Python is told to start JupyterLab on the first notebook."""
    arguments = [
        "-m",
        "jupyterlab",
        f"--ServerApp.root_dir={root}",
        f"--LabApp.default_url=/lab/tree/{START}",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        # Else the kernel warns of eavesdroppers, in words that frighten more than they tell.
        "--KernelManager.transport_encryption=auto",
        "--ServerApp.answer_yes=True",  # one Ctrl-C stops it
        "--Application.log_level=ERROR",
    ]
    if writable:  # tabs of the user's other projects don't come up here, nor these there
        arguments.append(f"--LabApp.workspaces_dir={root / '.venv' / 'workspaces'}")
    if getattr(os, "geteuid", lambda: 1)() == 0:  # root, as in a container, must say that it is meant
        arguments.append("--allow-root")
    return arguments


def _writable(folder: Path) -> bool:
    """Whether a file can be made here; tried, since root is told that it may do anything."""
    try:
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def _stages(root: Path) -> dict[str, tuple[str, ...]]:
    """By name and in order, the module that Python runs in each stage, with its arguments.

    pytest comes last, so that its closing line is among the last to be read.
    """
    stages: dict[str, tuple[str, ...]] = {
        "lint": ("ruff", "check", "."),
        "format": ("ruff", "format", "--check", "."),
        "types": ("mypy", "--strict", "hemcalc"),
        "tests": ("pytest",),
    }
    if _any_notebook(root):
        nbval = ("--nbval", f"--nbval-sanitize-with={SANITISER}", f"--nbval-cell-timeout={_CELL_SECONDS}")
        stages["notebooks"] = ("pytest", *nbval, "notebooks")
    return stages


def _any_notebook(root: Path) -> bool:
    return any(".ipynb_checkpoints" not in path.parts for path in (root / "notebooks").rglob("*.ipynb"))


@contextlib.contextmanager
def _caches(root: Path) -> Iterator[dict[str, str]]:
    """Variables that give the tools a passing folder for their caches where the checkout takes none."""
    if _writable(root):
        yield {}
        return
    with tempfile.TemporaryDirectory() as folder:
        yield dict.fromkeys(("RUFF_CACHE_DIR", "MYPY_CACHE_DIR", "HYPOTHESIS_STORAGE_DIRECTORY"), folder)


def run_tests(root: Path) -> int:
    """Run every stage of the tests, and say at the end which have failed.

    Parameters
    ----------
    root : Path
        The checkout.

    Returns
    -------
    int
        0 if all have passed, else 1.

    Raises
    ------
    HemError
        If the environment can't be made.
    """
    environment = Environment(root, _command("test"))
    environment.prepare("test")
    stages = _stages(root)
    table, failed = [], []
    with _caches(root) as caches:
        for name, arguments in stages.items():
            print(f"\n== {name}: {' '.join(arguments)}", flush=True)
            start = time.monotonic()
            program = [str(environment.python), "-m", *arguments]
            code = subprocess.run(program, cwd=root, env=child_variables() | caches).returncode
            if code:
                failed.append(name)
            table.append(f"  {name:<10} {'FAILED' if code else 'passed'} {time.monotonic() - start:7.1f} s")
    print("\n" + "\n".join(table))
    if failed:
        print(f"Failed: {', '.join(failed)}.")
    elif "notebooks" in stages:
        print("All passed.")
    else:
        print("These passed, but the folder notebooks holds no notebook, so none was run.")
    return 1 if failed else 0
