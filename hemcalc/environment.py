"""The virtual environment in the checkout: made once, mended when it broke, else left alone.

Everything that the notebooks and tests need is installed into ``.venv`` beside this package
and nowhere else. Two small files in it say what was done: one that hemcalc made it, and so
may delete it, and one of what is installed, written only when the installation is complete.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
import tomllib
from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Literal

from hemcalc.measure.errors import HemError

__all__ = ["Environment", "child_variables"]

MADE = "made-by-hemcalc.txt"
STAMP = "installed-by-hemcalc.json"
OLDEST = (3, 11)
_PATIENCE = 5  # seconds that an interrupted program has to clear up
_TAIL = 12  # lines of a failed installation that are shown

#: What each extra brings along, so that opening after testing installs nothing.
_INCLUDES = {"notebooks": {"notebooks"}, "test": {"test", "notebooks"}}

_State = Literal["missing", "broken", "stale", "ready"]


@dataclass(frozen=True)
class _Stamp:
    """What a complete installation was made from, and which extras it holds."""

    project: str  # digest of what pyproject.toml asks for
    python: str
    root: str  # the checkout's place: an environment does not survive being moved
    extras: tuple[str, ...] = ()

    def same_source(self, other: _Stamp) -> bool:
        return (self.project, self.python, self.root) == (other.project, other.python, other.root)


@dataclass(frozen=True)
class Environment:
    """The virtual environment of a checkout.

    Parameters
    ----------
    root : Path
        The checkout; the environment is its folder ``.venv``.
    again : str
        What to type to try again, for the sentences that say what went wrong.

    Examples
    --------
    >>> Environment(Path("linen"), "python3 -m hemcalc open").folder.name
    '.venv'
    """

    root: Path
    again: str

    @property
    def folder(self) -> Path:
        """The environment's folder."""
        return self.root / ".venv"

    @property
    def python(self) -> Path:
        """Its Python, to be run with ``-m``: the scripts beside it can't bear a space in their path."""
        return self.folder.joinpath(*(("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")))

    def prepare(self, extra: str) -> None:
        """Have one of the extras of pyproject.toml installed, with as little work as that takes.

        Parameters
        ----------
        extra : str
            ``"notebooks"`` or ``"test"``.

        Raises
        ------
        HemError
            If the environment can't be made, mended or filled.
        """
        if self._state(extra) == "ready":
            return
        try:
            with self._alone():
                state = self._state(extra)
                if state in ("missing", "broken"):
                    self._make(state)
                if state != "ready":
                    self._install(extra)
        except OSError as error:
            raise HemError(
                f"The folder .venv of this checkout could not be written ({error.strerror or error}); make "
                "room, or move the checkout to a folder of your own, such as your home folder, and "
                f"try again: {self.again}"
            ) from None

    def _state(self, extra: str) -> _State:
        """Whether it is to be made, made anew, installed into, or ready."""
        if not os.path.lexists(self.folder):
            return "missing"
        version = self._version()
        if not version:
            return "broken"
        here, stamp = self._wanted(version), self._stamp()
        if self._ours and (stamp is None or (stamp.python, stamp.root) != (here.python, here.root)):
            return "broken"
        return "ready" if stamp and stamp.same_source(here) and extra in stamp.extras else "stale"

    @property
    def _ours(self) -> bool:
        return (self.folder / MADE).is_file() and not self.folder.is_symlink()

    def _version(self) -> str:
        """Major and minor version of its Python, asked of it; empty if it doesn't run."""
        ask = [str(self.python), "-I", "-c", "import sys; print('%d.%d' % sys.version_info[:2])"]
        try:
            return subprocess.run(ask, capture_output=True, text=True, check=True).stdout.strip()
        except (OSError, subprocess.CalledProcessError):
            return ""

    def _wanted(self, version: str) -> _Stamp:
        """The stamp of an installation made here and now.

        Only what pip reads is digested: a new setting of a test tool installs nothing.
        """
        project = tomllib.loads((self.root / "pyproject.toml").read_text("utf-8"))
        asked = json.dumps([project["build-system"], project["project"]], sort_keys=True)
        return _Stamp(hashlib.sha256(asked.encode()).hexdigest(), version, str(self.root))

    def _stamp(self) -> _Stamp | None:
        try:
            return _Stamp(**json.loads((self.folder / STAMP).read_text("ascii")))
        except (OSError, ValueError, TypeError):
            return None

    def _write_stamp(self, stamp: _Stamp) -> None:
        (self.folder / STAMP).write_text(json.dumps(asdict(stamp)), "ascii")

    @contextlib.contextmanager
    def _alone(self) -> Iterator[None]:
        """Hold the checkout, so that two impatient starts don't install over each other."""
        if sys.platform == "win32":  # has no lock on a folder, but won't delete files in use either
            yield
            return
        import fcntl

        held = os.open(self.root, os.O_RDONLY)
        try:
            with contextlib.suppress(OSError):  # some network folders know no locks
                try:
                    fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
                except BlockingIOError:
                    raise HemError(
                        "Another window is just installing into this checkout; wait until it has "
                        f"finished, and try again: {self.again}"
                    ) from None
            yield
        finally:
            os.close(held)

    def _make(self, state: _State) -> None:
        """An empty environment, in place of a broken one if hemcalc made that."""
        if state == "broken" and not self._ours:
            raise HemError(
                "The folder .venv of this checkout doesn't work, and is left alone since hemcalc didn't "
                f"make it; rename or delete it, and try again: {self.again}"
            )
        if Path(sys.prefix).resolve() == self.folder.resolve():
            raise HemError(
                "The folder .venv has to be made anew, but is active in this window; type "
                f"'deactivate', and try again: {self.again}"
            )
        if any(importlib.util.find_spec(module) is None for module in ("venv", "ensurepip")):
            raise HemError(
                "This Python lacks the part that makes virtual environments; on Debian and Ubuntu "
                f"type 'sudo apt install python3.{sys.version_info[1]}-venv', elsewhere install "
                f"Python from python.org, and try again: {self.again}"
            )
        if state == "broken":
            print("The folder .venv is unfinished, was moved, or has lost its Python: making it anew.")
            shutil.rmtree(self.folder)
        # Marked before it is filled, so that one cut short is known as ours and may be deleted.
        self.folder.mkdir()
        (self.folder / MADE).write_text(f"Safe to delete; made again by: {self.again}\n", "ascii")
        print("Making a virtual environment in the folder .venv ...", flush=True)
        self._run([sys.executable, "-m", "venv", str(self.folder)], "Python could not make .venv")

    def _install(self, extra: str) -> None:
        """Let pip install the project and one extra; stamp the environment once it has."""
        version = self._version()
        if tuple(map(int, version.split("."))) < OLDEST:
            raise HemError(
                f"The folder .venv of this checkout has Python {version}, but hemcalc needs 3.11 or "
                f"newer; rename or delete it, and try again: {self.again}"
            )
        before, wanted = self._stamp(), self._wanted(version)
        kept = before.extras if before and before.same_source(wanted) else ()
        print("Installing into .venv; it takes a minute or two, and the internet ...", flush=True)
        # No stamp meanwhile: an installation cut short can't be trusted, and is begun anew.
        (self.folder / STAMP).unlink(missing_ok=True)
        pip = [str(self.python), "-m", "pip", "--disable-pip-version-check", "--no-input", "install"]
        try:
            self._run([*pip, "-e", f".[{extra}]"], "pip could not install what hemcalc needs")
        except HemError:
            if before:  # pip has put back what was there
                self._write_stamp(before)
            raise
        extras = tuple(sorted(_INCLUDES[extra].union(kept)))
        self._write_stamp(_Stamp(wanted.project, version, wanted.root, extras))

    def _run(self, arguments: Sequence[str], failure: str) -> None:
        """Run a program with a dot for each package it fetches; show its last lines if it fails."""
        tail: deque[str] = deque(maxlen=_TAIL)
        dotted = waiting = False
        with subprocess.Popen(
            arguments,
            cwd=self.root,
            env=child_variables(),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
            errors="replace",
        ) as process:
            try:
                for line in process.stdout or ():
                    tail.append(line.rstrip())
                    if line.startswith("Collecting"):
                        print(".", end="", flush=True)
                        dotted = True
                    elif line.startswith("WARNING: Retrying") and not waiting:
                        print("(The internet does not answer yet; trying on.)", flush=True)
                        waiting = True
            except BaseException:
                with contextlib.suppress(subprocess.TimeoutExpired):
                    process.wait(_PATIENCE)  # the keyboard told it too, and it clears up
                process.kill()
                raise
        print("\n" if dotted else "", end="", flush=True)
        if process.returncode:
            print("\n".join(tail), file=sys.stderr)
            raise HemError(
                f"{failure}; its last lines are above. See that the internet can be reached and the "
                f"disk has room, and try again: {self.again}"
            )


def child_variables() -> dict[str, str]:
    """The variables for a program run in the environment: none that lead it out again.

    Returns
    -------
    dict of str to str
        This process's variables, but for those that name the places of another Python.
    """
    lead_out = ("PYTHONHOME", "PYTHONPATH", "__PYVENV_LAUNCHER__", "VIRTUAL_ENV")
    kept = {name: value for name, value in os.environ.items() if name not in lead_out}
    # A kernel in the user's home would come before ours, and pip may be set to install there.
    return kept | {"JUPYTER_PREFER_ENV_PATH": "1", "PIP_USER": "0"}
