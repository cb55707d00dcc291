"""The virtual environment in the checkout: made once, mended when it broke, else left alone.

Everything that the notebooks and tests need is installed into ``.venv`` beside this package,
and what the programs there keep (settings, caches, lists of fonts) goes into ``.venv/home``.
A stamp in ``.venv`` says that hemcalc made it, and so may empty it; and, once an installation
is complete, what it was made from.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.util
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from hemcalc.measure.errors import HemError, shown

#: The extras of pyproject.toml that the commands need; each brings along those before it.
EXTRAS = ("notebooks", "test", "browser")

#: The stamp's file in the environment; ``{}`` while an installation is incomplete.
STAMP = "installed-by-hemcalc.json"

_HOME = "home"
_LOG = "installation.log"
#: Seconds from one dot of progress to the next.
BEAT = 2
_PATIENCE = 5  # seconds that an interrupted program has to clear up

# Where in the home the programs keep what they would else keep in the user's.
_PLACES = {
    "JUPYTER_CONFIG_DIR": "jupyter",
    "JUPYTER_DATA_DIR": "jupyter/data",
    "JUPYTER_RUNTIME_DIR": "jupyter/runtime",
    "IPYTHONDIR": "ipython",
    "MPLCONFIGDIR": "matplotlib",
    "XDG_CACHE_HOME": "cache",
    "PIP_CACHE_DIR": "cache/pip",
    "NPM_CONFIG_CACHE": "cache/npm",  # the lab asks npm for language servers
    "RUFF_CACHE_DIR": "cache/ruff",
    "MYPY_CACHE_DIR": "cache/mypy",
    "HYPOTHESIS_STORAGE_DIRECTORY": "cache/hypothesis",
    "PYTEST_DEBUG_TEMPROOT": "tests",
}

# What would lead a program out of the environment again.
_LEAD_OUT = ("JUPYTER", "PYTHONHOME", "PYTHONPATH", "PYTHONSTARTUP", "__PYVENV_LAUNCHER__", "VIRTUAL_ENV")


def writable(folder: Path) -> bool:
    """Whether a file can be made there; tried, since root is told that it may do anything."""
    try:
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


@dataclass(frozen=True)
class Environment:
    """The virtual environment of a checkout, and what to type to try again if it can't be made.

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

    def example(self, words: str) -> str:
        """A command as it is typed on this kind of machine."""
        return f"{self.again.partition(' -m hemcalc ')[0]} -m hemcalc {words}"

    @contextlib.contextmanager
    def variables(self) -> Iterator[dict[str, str]]:
        """For a program run here, which then keeps all it keeps in the environment's home.

        Where nothing can be written, that is a passing folder.
        """
        with contextlib.ExitStack() as passing:
            home = self.folder / _HOME
            if not writable(self.folder):
                home = Path(passing.enter_context(tempfile.TemporaryDirectory()))
            variables = {name: value for name, value in os.environ.items() if not name.startswith(_LEAD_OUT)}
            # The lab's settings answer its question about news. pip may be set to install elsewhere.
            variables |= {"JUPYTER_CONFIG_PATH": str(self.root / ".jupyter"), "PIP_USER": "0"}
            for name, place in _PLACES.items():
                (home / place).mkdir(parents=True, exist_ok=True)
                variables[name] = str(home / place)
            yield variables

    def prepare(self, extra: str) -> None:
        """Have one of `EXTRAS` installed, with as little work as that takes; refused if it can't be."""
        if self._ready(extra):
            return
        try:
            with self._alone() as lock:
                if not self._ready(extra):
                    self._install(extra, lock)
        except OSError as error:
            raise self._refusal(
                f"The folder .venv of this checkout could not be written ({error.strerror or error}); make "
                "room, or move the checkout to a folder of your own, such as your home folder"
            ) from None

    def _refusal(self, sentence: str) -> HemError:
        return HemError(f"{sentence}, and try again: {self.again}")

    def _stamp(self) -> dict[str, Any] | None:
        """What is installed; nothing if that was cut short, None if hemcalc didn't make the environment."""
        try:
            stamp = None if self.folder.is_symlink() else json.loads((self.folder / STAMP).read_text("ascii"))
        except OSError:
            return None
        except ValueError:
            return {}
        return stamp if isinstance(stamp, dict | None) else {}

    def _stamp_as(self, stamp: dict[str, Any]) -> None:
        (self.folder / STAMP).write_text(json.dumps(stamp), "ascii")

    def _place(self) -> dict[str, str]:
        """What an environment doesn't outlive: its Python's version, asked of it, and where it stands."""
        # Without its pyvenv.cfg it would be the machine's Python, which lacks all that was installed.
        alone = "import sys; print('%d.%d' % sys.version_info[:2] if sys.prefix != sys.base_prefix else '')"
        ask = [str(self.python), "-I", "-c", alone]
        try:
            version = subprocess.run(ask, capture_output=True, text=True, check=True).stdout.strip()
        except (OSError, subprocess.CalledProcessError):
            version = "none"
        return {"python": version, "root": str(self.root)}

    def _asked(self) -> str:
        """Digest of what pip reads of pyproject.toml: a new setting of a test tool installs nothing."""
        project = tomllib.loads((self.root / "pyproject.toml").read_text("utf-8"))
        asked = json.dumps([project["build-system"], project["project"]], sort_keys=True)
        return hashlib.sha256(asked.encode()).hexdigest()

    def _works(self) -> bool:
        stamp = self._stamp() or {}
        whole = bool(stamp) and self._in_place() >= stamp.get("parts", 0)
        return whole and self._place().items() <= stamp.items()

    def _ready(self, extra: str) -> bool:
        stamp = self._stamp() or {}
        holds = stamp.get("project") == self._asked() and extra in stamp.get("extras", ())
        return holds and self._works()

    @contextlib.contextmanager
    def _alone(self) -> Iterator[tuple[int, ...]]:
        """Hold the checkout, so that two impatient starts don't install over each other."""
        if sys.platform == "win32":  # has no lock on a folder, but won't delete files in use either
            yield ()
            return
        import fcntl

        held = os.open(self.root, os.O_RDONLY)
        try:
            with contextlib.suppress(OSError):  # some network folders know no locks
                try:
                    fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
                except BlockingIOError:
                    raise self._refusal(
                        "Another window is just installing into this checkout; wait until it has finished"
                    ) from None
            yield (held,)
        finally:
            os.close(held)

    def _install(self, extra: str, lock: tuple[int, ...]) -> None:
        """Let pip install the project and its extra, in an environment that works."""
        if not self._works():
            self._make(lock)
        before, asked = self._stamp() or {}, self._asked()
        kept = before.get("extras", ()) if before.get("project") == asked else ()
        print("Installing into .venv; it takes a few minutes, and the internet. ", end="", flush=True)
        self._stamp_as({})  # an installation cut short can't be trusted, and is begun anew
        pip = [str(self.python), "-m", "pip", "--disable-pip-version-check", "--no-input", "install"]
        try:
            self._run([*pip, "-e", f".[{extra}]"], "pip could not install what hemcalc needs", lock)
        except HemError:
            self._stamp_as(before)  # pip has put back what was there
            raise
        extras = sorted({*EXTRAS[: EXTRAS.index(extra) + 1], *kept})
        parts = self._in_place()
        self._stamp_as({"project": asked, **self._place(), "extras": extras, "parts": parts})

    def _make(self, lock: tuple[int, ...]) -> None:
        """An empty environment, in place of a broken one if hemcalc made that; its home is kept."""
        there = os.path.lexists(self.folder)
        if there and self._stamp() is None and not self._is_bare():
            raise self._refusal(
                "The folder .venv of this checkout is left alone, since hemcalc didn't make it; "
                "rename or delete it"
            )
        if Path(sys.prefix).resolve() == self.folder.resolve():
            raise self._refusal(
                "The folder .venv has to be made anew, but is active in this window; type 'deactivate'"
            )
        if os.pathsep in str(self.folder):
            raise self._refusal(
                f"The path of this folder has a {os.pathsep} in it, where Python makes no environment; "
                "rename the folder, or move it"
            )
        found = [importlib.util.find_spec(module) for module in ("venv", "ensurepip")]
        if not all(spec and spec.origin for spec in found):  # an empty folder that is left of it has none
            raise self._refusal(
                "This Python lacks the part that makes virtual environments; on Debian and Ubuntu type "
                f"'sudo apt install python3.{sys.version_info[1]}-venv', elsewhere install it "
                "from python.org"
            )
        if there:
            print("The folder .venv is unfinished, was moved, or has lost a part: making it anew.")
        self.folder.mkdir(exist_ok=True)
        self._stamp_as({})  # before all else, so that one cut short is known as ours
        for old in self.folder.iterdir():
            if old.name not in (STAMP, _HOME):
                shutil.rmtree(old) if old.is_dir() and not old.is_symlink() else old.unlink()
        print("Making a virtual environment in the folder .venv ", end="", flush=True)
        self._run([sys.executable, "-m", "venv", str(self.folder)], "Python could not make .venv", lock)

    def _is_bare(self) -> bool:
        """Whether it is an empty folder, as one is that was begun and cut short at once."""
        return not self.folder.is_symlink() and self.folder.is_dir() and not any(self.folder.iterdir())

    def _in_place(self) -> int:
        """How many parts are installed."""
        return sum(
            len(list(self.folder.glob(f"{lib}/site-packages/*.dist-info"))) for lib in ("[l]ib/*", "[L]ib")
        )

    def _run(self, arguments: Sequence[str], failure: str, lock: tuple[int, ...]) -> None:
        """Run a program, show at each beat that it goes on, and how far; say in a sentence if it fails."""
        log, offline, before, far = self.folder / _LOG, False, self._in_place(), ("", 0)
        with (
            self.variables() as variables,
            log.open("wb") as said,
            subprocess.Popen(
                arguments,
                cwd=self.root,
                env=variables,
                stdin=subprocess.DEVNULL,  # a question would wait for ever
                stdout=said,
                stderr=subprocess.STDOUT,
                pass_fds=lock,  # should this program be killed, the checkout is held until that one ends
            ) as process,
        ):
            try:
                while process.poll() is None:
                    with contextlib.suppress(subprocess.TimeoutExpired):
                        process.wait(BEAT)
                    text = log.read_text("utf-8", "replace")
                    stage, number = _progress(text, self._in_place() - before)
                    new = (f"\n{stage} " if stage != far[0] else "") + f" {number} "
                    print(new if (stage, number) != far else ".", end="", flush=True)
                    far = stage, number
                    if not offline and "WARNING: Retrying" in text:
                        offline = True
                        print("\n(The internet does not answer yet; trying on.) ", end="", flush=True)
            except BaseException:
                with contextlib.suppress(subprocess.TimeoutExpired, KeyboardInterrupt):
                    process.wait(_PATIENCE)  # the keyboard told it too, and it clears up
                process.kill()
                raise
        print()
        if process.returncode:
            errors = [line for line in log.read_text("utf-8", "replace").splitlines() if line.strip()]
            last = f"its last line is {shown(errors[-1])}" if errors else "it said nothing"
            cause = "the internet does not answer" if offline else last
            where = f", and all it said is in .venv/{_LOG}" if errors else ""
            raise self._refusal(
                f"{failure}: {cause}{where}; see that the internet can be reached and the disk has room"
            )


def _progress(said: str, in_place: int) -> tuple[str, int]:
    r"""What pip is at, as far as it says so, and how many parts of it are done.

    Examples
    --------
    >>> _progress("Collecting linen\nCollecting thread\n", 0)
    ('Parts fetched:', 2)
    >>> _progress("Collecting linen\nInstalling collected packages: thread, linen\n", 1)
    ('Parts put in place, of 2:', 1)
    """
    collected = re.search("^Installing collected packages: (.*)$", said, re.MULTILINE)
    if collected:
        return f"Parts put in place, of {collected[1].count(',') + 1}:", in_place
    fetched = len(re.findall("^(?:Collecting|Processing) ", said, re.MULTILINE))
    return ("Parts fetched:" if fetched else ""), fetched
