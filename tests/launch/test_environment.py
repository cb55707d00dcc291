"""The environment in the checkout: when it is made, mended, filled or left alone.

Nothing is installed here: a stand-in answers for venv and pip, and writes down what was asked.
"""

from __future__ import annotations

import errno
import importlib.util
import json
import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from subprocess import Popen
from types import SimpleNamespace
from typing import Any

import pytest

from hemcalc.launch import environment
from hemcalc.launch.environment import EXTRAS, STAMP, Environment
from hemcalc.measure.errors import HemError

PROJECT = '[build-system]\nrequires = ["setuptools"]\n[project]\nname = "hemcalc"\ndependencies = []\n'
AGAIN = "python3 -m hemcalc open"
ALL = ["venv", "pip .[notebooks]"]


class Machine:
    """Answers for Python, venv and pip, and keeps a list of what they were asked."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.asked: list[str] = []
        self.version = self.newest = "3.12"  # of the Python in .venv (empty if it doesn't run); of a new one
        self.failing = ""
        self.said = "Collecting linen\nERROR: no linen\n"
        self.while_pip: Callable[[], None] = lambda: None
        self.killed = False
        self.returncode = 0

    @property
    def stands(self) -> Path:
        """Where the parts are, of which pip and venv bring one."""
        return self.root / ".venv" / "lib" / "python" / "site-packages"

    def run(self, arguments: Sequence[str], **_: Any) -> SimpleNamespace:
        if not Path(arguments[0]).exists():
            raise FileNotFoundError(arguments[0])
        if not self.version:
            raise subprocess.CalledProcessError(1, arguments)
        return SimpleNamespace(stdout=f"{self.version}\n")

    def start(self, arguments: Sequence[str], **options: Any) -> Machine:
        module = arguments[2]
        self.asked.append(module if module == "venv" else f"{module} {arguments[-1]}")
        self.held = options["pass_fds"]
        assert options["stdin"] == subprocess.DEVNULL, "a question of pip's would wait for ever"
        assert self.held or sys.platform == "win32", "the checkout is held as long as this runs"
        options["stdout"].write(self.said.encode())
        options["stdout"].flush()
        self.returncode = int(module == self.failing)
        if module == "venv" and not self.returncode:
            self.version = self.newest
            python = Path(arguments[3]) / "bin" / "python"
            python.parent.mkdir(parents=True, exist_ok=True)
            python.touch()
        self.stands.mkdir(parents=True, exist_ok=True)
        (self.stands / "linen.dist-info").mkdir(exist_ok=True)
        self.polls = iter([None, None, self.returncode] if module == "pip" else [self.returncode])
        return self

    def poll(self) -> int | None:
        return next(self.polls)

    def wait(self, timeout: float) -> None:
        self.while_pip()
        raise subprocess.TimeoutExpired("pip", timeout)

    def kill(self) -> None:
        self.killed = True

    def __enter__(self) -> Machine:
        return self

    def __exit__(self, *_: object) -> None: ...

    def prepare(self, extra: str = "notebooks") -> list[str]:
        """What was asked for on the way to an extra."""
        self.asked.clear()
        Environment(self.root, AGAIN).prepare(extra)
        return list(self.asked)

    def refusal(self, extra: str = "notebooks") -> str:
        with pytest.raises(HemError) as refused:
            self.prepare(extra)
        sentence = str(refused.value)
        assert sentence.endswith(f", and try again: {AGAIN}")
        return sentence


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A checkout in a folder whose name is not made for a shell."""
    root = tmp_path / "linen [100 %] wörk & 'shop'"
    root.mkdir()
    (root / "pyproject.toml").write_text(PROJECT)
    return root


@pytest.fixture
def machine(root: Path, monkeypatch: pytest.MonkeyPatch) -> Machine:
    stand_in = Machine(root)
    monkeypatch.setattr(environment.subprocess, "run", stand_in.run)
    monkeypatch.setattr(environment.subprocess, "Popen", stand_in.start)
    return stand_in


def test_an_environment_is_made_once_and_says_so(
    machine: Machine, capsys: pytest.CaptureFixture[str]
) -> None:
    assert machine.prepare() == ALL
    printed = capsys.readouterr().out
    assert "Making a virtual environment" in printed
    assert "the internet. \nParts fetched:  1 .\n" in printed, "a sign for each time that pip was waited for"
    assert machine.prepare() == []


@pytest.mark.parametrize(
    ("first", "second", "asked"),
    [
        ("test", "notebooks", []),
        ("browser", "test", []),
        ("notebooks", "test", ["pip .[test]"]),
        ("test", "browser", ["pip .[browser]"]),
    ],
)
def test_an_extra_brings_those_before_it(machine: Machine, first: str, second: str, asked: list[str]) -> None:
    machine.prepare(first)
    assert machine.prepare(second) == asked
    assert machine.prepare(first) == []


@pytest.mark.parametrize(
    ("changed", "asked"),
    [
        (PROJECT.replace("[]", '["cloth"]'), ["pip .[notebooks]"]),
        (PROJECT + "[tool.ruff]\nline-length = 99\n", []),
    ],
    ids=["another dependency", "a setting of a tool"],
)
def test_only_what_pip_reads_is_installed_anew(machine: Machine, changed: str, asked: list[str]) -> None:
    machine.prepare("test")
    (machine.root / "pyproject.toml").write_text(changed)
    assert machine.prepare() == asked
    assert bool(machine.prepare("test")) is bool(asked), "what stood in the old list doesn't count"


def cut_short(machine: Machine) -> None:
    def interrupt() -> None:
        raise KeyboardInterrupt

    machine.while_pip = interrupt
    with pytest.raises(KeyboardInterrupt):
        machine.prepare("test")
    assert machine.killed, "pip doesn't work on behind the reader's back"
    machine.while_pip = lambda: None


def moved(machine: Machine) -> None:
    machine.root = machine.root.rename(machine.root.with_name("elsewhere"))


def stamped(machine: Machine, stamp: str) -> Path:
    (machine.root / ".venv" / STAMP).write_text(stamp)
    return machine.root / ".venv" / "bin" / "python"


BROKEN: dict[str, Callable[[Machine], object]] = {
    "cut short": cut_short,
    "moved": moved,
    "updated": lambda machine: vars(machine).update(version="3.13", newest="3.13"),
    "gone": lambda machine: vars(machine).update(version=""),
    "scrawled": lambda machine: stamped(machine, '{"colour": "ecru"'),
    "one part gone": lambda machine: (machine.stands / "linen.dist-info").rmdir(),
    "all parts gone": lambda machine: shutil.rmtree(machine.stands),
    "killed while made": lambda machine: stamped(machine, "{}").unlink(),
}


@pytest.mark.parametrize("broken", BROKEN.values(), ids=BROKEN)
def test_a_broken_environment_is_emptied_and_made_anew_but_settings_stay(
    machine: Machine, broken: Callable[[Machine], object], capsys: pytest.CaptureFixture[str]
) -> None:
    machine.prepare()
    venv = machine.root / ".venv"
    (venv / "lib" / "leftover").mkdir(parents=True, exist_ok=True)
    (venv / "lib64").symlink_to("lib")
    (venv / "home" / "jupyter" / "settings").touch()
    broken(machine)
    capsys.readouterr()
    assert machine.prepare() == ALL
    assert "making it anew" in capsys.readouterr().out
    venv = machine.root / ".venv"
    assert not (venv / "lib" / "leftover").exists()
    assert not os.path.lexists(venv / "lib64")
    assert (venv / "home" / "jupyter" / "settings").exists()


@pytest.mark.parametrize("kind", ["folder", "file", "link to one of ours", "link to nowhere"])
def test_an_environment_that_hemcalc_did_not_make_is_left_alone(
    machine: Machine, kind: str, tmp_path: Path
) -> None:
    venv = machine.root / ".venv"
    if kind == "folder":
        (venv / "own").mkdir(parents=True)
    elif kind == "file":
        venv.touch()
    else:
        venv.symlink_to(tmp_path / "shared")
        if kind == "link to one of ours":
            (tmp_path / "shared").mkdir()
            (tmp_path / "shared" / STAMP).write_text("{}")
    assert "left alone, since hemcalc didn't make it; rename or delete it" in machine.refusal()
    assert os.path.lexists(venv)
    assert (tmp_path / "shared" / STAMP).exists() or kind != "link to one of ours"
    assert machine.asked == []


def test_a_folder_left_empty_by_one_cut_short_at_once_is_taken(machine: Machine) -> None:
    (machine.root / ".venv").mkdir()
    assert machine.prepare() == ALL


def test_where_python_makes_no_environment_it_is_said_at_once(machine: Machine) -> None:
    machine.root = machine.root.rename(machine.root.with_name("linen: autumn"))
    assert "has a : in it" in machine.refusal()
    assert machine.asked == []


def test_an_environment_is_not_emptied_under_the_python_that_runs(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    machine.prepare()
    moved(machine)
    monkeypatch.setattr(sys, "prefix", str(machine.root / ".venv"))
    assert "'deactivate'" in machine.refusal()
    assert (machine.root / ".venv" / "bin" / "python").exists()


@pytest.mark.parametrize("left", [None, SimpleNamespace(origin=None)], ids=["nothing", "an empty folder"])
@pytest.mark.parametrize("lacking", ["venv", "ensurepip"])
def test_a_python_without_venv_is_told_which_package_to_install(
    machine: Machine, monkeypatch: pytest.MonkeyPatch, lacking: str, left: object
) -> None:
    find = importlib.util.find_spec
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: left if name == lacking else find(name))
    assert f"sudo apt install python3.{sys.version_info[1]}-venv" in machine.refusal()
    assert not (machine.root / ".venv").exists()


@pytest.mark.parametrize("number", [errno.EROFS, errno.ENOSPC, errno.EACCES], ids=errno.errorcode.get)
def test_where_nothing_can_be_written_it_is_used_as_it_is_or_refused(
    machine: Machine, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    machine.prepare()
    stamp = machine.root / ".venv" / STAMP
    kept = stamp.read_text()
    monkeypatch.setattr(Path, "write_text", refuse)
    assert machine.prepare() == []
    assert os.strerror(number) in machine.refusal("test")
    assert stamp.read_text() == kept


@pytest.mark.parametrize("failing", ["venv", "pip"])
@pytest.mark.parametrize("offline", [False, True])
def test_a_failure_is_said_in_a_sentence_and_not_on_a_page(
    machine: Machine, capsys: pytest.CaptureFixture[str], failing: str, offline: bool
) -> None:
    machine.failing = failing
    if offline and failing == "pip":
        machine.said = "WARNING: Retrying (Retry(total=4, ...\n" * 5 + "ERROR: None of a hundred versions\n"
    said = machine.refusal()
    printed = capsys.readouterr()
    if offline and failing == "pip":
        assert "pip could not install what hemcalc needs: the internet does not answer, and" in said
        assert printed.out.count("internet does not answer yet") == 1
    else:
        assert "its last line is 'ERROR: no linen', and all it said is in .venv/installation.log" in said
    assert "Retry(" not in printed.out + printed.err
    assert (machine.root / ".venv" / "installation.log").read_text() == machine.said
    machine.failing = ""
    assert machine.prepare() == ALL


# On a full disk it can't even write why.
def test_what_fails_without_a_word_is_told_in_a_sentence(machine: Machine) -> None:
    machine.failing, machine.said = "venv", ""
    assert "could not make .venv: it said nothing; see that" in machine.refusal()


def test_a_failure_on_top_of_a_complete_installation_keeps_it(machine: Machine) -> None:
    machine.prepare()
    machine.failing = "pip"
    machine.refusal("test")
    assert machine.prepare() == [], "the notebooks still open without a network"


def test_the_stamp_is_away_while_pip_works(machine: Machine) -> None:
    machine.prepare()
    stamp, seen = machine.root / ".venv" / STAMP, set()
    machine.while_pip = lambda: seen.add(stamp.read_text())
    machine.prepare("test")
    assert seen == {"{}"}
    assert json.loads(stamp.read_text())["extras"] == ["notebooks", "test"]


def test_two_windows_do_not_install_over_each_other(machine: Machine) -> None:
    fcntl = pytest.importorskip("fcntl", reason="Windows has no lock on a folder")
    other = os.open(machine.root, os.O_RDONLY)
    fcntl.flock(other, fcntl.LOCK_EX)
    assert "Another window" in machine.refusal()
    os.close(other)
    assert machine.prepare() == ALL


def test_the_checkout_is_held_until_an_orphaned_pip_has_ended(machine: Machine) -> None:
    pytest.importorskip("fcntl", reason="Windows has no lock on a folder")
    orphans = []
    machine.failing = "pip"
    machine.while_pip = lambda: orphans.append(Popen(["sleep", "60"], pass_fds=machine.held))
    try:
        assert "no linen" in machine.refusal()
        assert "Another window" in machine.refusal()
    finally:
        for orphan in orphans:
            orphan.kill()
            orphan.wait()
    machine.failing, machine.while_pip = "", lambda: None
    assert machine.prepare() == ALL


SLOW_PIP = """\
#!{python}
import pathlib, sys, time
if "-c" in sys.argv:
    sys.exit(print("3.12"))
site = pathlib.Path(__file__).parents[1] / "lib" / "python" / "site-packages"
site.mkdir(parents=True)
for line in ["Collecting linen", "Collecting thread", "", "Installing collected packages: linen, thread"]:
    print(line, flush=True)
    time.sleep(0.2)
for part in ["linen", "thread", "none"]:
    (site / f"{{part}}.dist-info").mkdir()
    time.sleep(0.2)
"""
OPEN = """\
import sys
from pathlib import Path
from hemcalc import __main__
from hemcalc.launch import environment
environment.BEAT = 0.05
__main__.COMMANDS["open"] = ("", lambda env: env.prepare("notebooks") or 0, "")
sys.exit(__main__.main(["open"], Path(sys.argv[1]) / "hemcalc"))
"""


@pytest.fixture
def opening(root: Path) -> Iterator[subprocess.Popen[str]]:
    """The command, run for real with a pip that is slow, in a window of its own."""
    python = root / ".venv" / "bin" / "python"
    python.parent.mkdir(parents=True)
    python.write_text(SLOW_PIP.format(python=sys.executable))
    python.chmod(0o755)
    stamped(SimpleNamespace(root=root), json.dumps({"python": "3.12", "root": str(root)}))  # type: ignore
    with subprocess.Popen(
        [sys.executable, "-c", OPEN, str(root)],
        cwd=Path(environment.__file__).parents[2],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as running:
        yield running


@pytest.mark.skipif(os.name == "nt", reason="the slow pip is a script of a shell")
def test_a_slow_pip_shows_at_each_beat_that_it_goes_on_and_how_far(opening: subprocess.Popen[str]) -> None:
    printed, wrong = opening.communicate()
    assert (opening.returncode, wrong) == (0, "")
    steps = dict(line.split(":") for line in printed.splitlines()[1:])
    said = {stage: beats.replace(".", "").split() for stage, beats in steps.items()}
    # On a busy machine a step may come and go between two beats.
    in_place = said.pop("Parts put in place, of 2")
    assert in_place
    assert in_place == sorted(set(in_place) & {"0", "1", "2", "3"})
    assert said in ({"Parts fetched": fetched} for fetched in (["1", "2"], ["1"], ["2"])) or not said
    assert "." in printed, "and a dot at each other beat"


@pytest.mark.skipif(os.name == "nt", reason="the slow pip is a script of a shell")
def test_after_ctrl_c_there_is_one_line(opening: subprocess.Popen[str]) -> None:
    assert opening.stdout
    while not opening.stdout.readline().startswith("Installing"):
        pass
    os.killpg(opening.pid, signal.SIGINT)
    printed, wrong = opening.communicate()
    assert (opening.returncode, wrong) == (130, "")
    assert printed.splitlines()[1:] == ["Stopped. To begin again: python3 -m hemcalc open"]


def test_windows_keeps_its_python_elsewhere(monkeypatch: pytest.MonkeyPatch) -> None:
    here = Environment(Path("linen"), AGAIN)
    assert here.python == Path("linen/.venv/bin/python")
    monkeypatch.setattr(environment, "os", SimpleNamespace(name="nt"))
    assert here.python == Path("linen/.venv/Scripts/python.exe")


@pytest.mark.parametrize("writable", [True, False])
def test_a_program_keeps_to_the_folder(root: Path, monkeypatch: pytest.MonkeyPatch, writable: bool) -> None:
    monkeypatch.setenv("LINEN", "washed")
    for name in ("PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV", "PIP_USER", "JUPYTER_PATH", "JUPYTER_TOKEN"):
        monkeypatch.setenv(name, "1")
    monkeypatch.setattr(environment, "writable", lambda folder: writable)
    (root / ".venv").mkdir()
    with Environment(root, AGAIN).variables() as variables:
        assert not {"PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV", "JUPYTER_PATH", "JUPYTER_TOKEN"} & set(
            variables
        )
        assert (variables["LINEN"], variables["PIP_USER"]) == ("washed", "0")
        cache = Path(variables["XDG_CACHE_HOME"])
        assert cache.is_dir()
        assert cache.is_relative_to(root) is writable
    assert cache.exists() is writable, "a passing folder is cleared away"


def test_the_extras_are_those_of_the_project() -> None:
    import tomllib

    project = Path(environment.__file__).parents[2] / "pyproject.toml"
    known = tomllib.loads(project.read_text("utf-8"))["project"]["optional-dependencies"]
    for extra, below in zip(EXTRAS[1:], EXTRAS, strict=False):
        assert f"hemcalc[{below}]" in known[extra]
