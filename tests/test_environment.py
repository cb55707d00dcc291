"""The environment in the checkout: when it is made, mended, filled or left alone.

No test here starts a program: a stand-in machine answers instead, and writes down what was asked.
"""

from __future__ import annotations

import errno
import importlib.util
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hemcalc import environment
from hemcalc.environment import MADE, STAMP, Environment, child_variables
from hemcalc.measure.errors import HemError

PROJECT = """\
[build-system]
requires = ["setuptools"]

[project]
name = "hemcalc"
dependencies = []
"""
AGAIN = "python3 -m hemcalc open"


class Machine:
    """Answers for Python, venv and pip, and keeps a list of what they were asked."""

    def __init__(self) -> None:
        self.asked: list[str] = []
        self.version = "3.12"  # of the Python in the environment; empty if it doesn't run
        self.newest = "3.12"  # of a new environment
        self.failing: str | None = None
        self.lines = ["Collecting linen", "Collecting thread"]
        self.before_pip: Callable[[], None] = lambda: None

    def run(self, arguments: Sequence[str], **_: Any) -> SimpleNamespace:
        if not Path(arguments[0]).exists():
            raise FileNotFoundError(arguments[0])
        if not self.version:
            raise subprocess.CalledProcessError(1, arguments)
        return SimpleNamespace(stdout=f"{self.version}\n")

    def start(self, arguments: Sequence[str], **options: Any) -> Process:
        module = arguments[2]
        self.asked.append(module if module == "venv" else f"{module} {arguments[-1]}")
        assert options["stdin"] == subprocess.DEVNULL, "a question of pip's would wait for ever"
        if module == "pip":
            self.before_pip()
        elif module != self.failing:
            self.version = self.newest
            fill(Path(arguments[3]))
        return Process(self.lines, int(module == self.failing))


class Process:
    """A program that has run: its lines and its exit code."""

    def __init__(self, lines: list[str], code: int) -> None:
        self.stdout: Iterator[str] = iter(lines)
        self.returncode = code
        self.killed = False

    def __enter__(self) -> Process:
        return self

    def __exit__(self, *_: object) -> None: ...

    def wait(self, timeout: float) -> None:
        raise subprocess.TimeoutExpired("pip", timeout)

    def kill(self) -> None:
        self.killed = True


def fill(venv: Path) -> None:
    """What Python's venv leaves behind, as far as it matters here."""
    (venv / "bin").mkdir(parents=True, exist_ok=True)
    (venv / "bin" / "python").write_text("")


@pytest.fixture
def machine(monkeypatch: pytest.MonkeyPatch) -> Machine:
    stand_in = Machine()
    monkeypatch.setattr(environment.subprocess, "run", stand_in.run)
    monkeypatch.setattr(environment.subprocess, "Popen", stand_in.start)
    return stand_in


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    root = tmp_path / "linen workshop"
    root.mkdir()
    (root / "pyproject.toml").write_text(PROJECT)
    return root


def prepare(root: Path, extra: str = "notebooks") -> None:
    Environment(root, AGAIN).prepare(extra)


def refusal(root: Path, extra: str = "notebooks") -> str:
    with pytest.raises(HemError) as refused:
        prepare(root, extra)
    sentence = str(refused.value)
    assert len(sentence) < 400
    assert sentence.endswith(f"try again: {AGAIN}")
    return sentence


def test_a_fresh_checkout_gets_an_environment_and_what_it_asks_for(
    machine: Machine, checkout: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    prepare(checkout)
    assert machine.asked == ["venv", "pip .[notebooks]"]
    printed = capsys.readouterr().out
    assert "Making a virtual environment" in printed
    assert "\n..\n" in printed, "one dot for each package that pip fetches"


def test_a_second_start_asks_pip_nothing(machine: Machine, checkout: Path) -> None:
    prepare(checkout)
    machine.asked.clear()
    prepare(checkout)
    assert machine.asked == []


@pytest.mark.parametrize(
    ("first", "second", "asked"),
    [("test", "notebooks", []), ("notebooks", "test", ["pip .[test]"])],
    ids=["notebooks come with the tests", "tests come on top of the notebooks"],
)
def test_one_extra_after_the_other(
    machine: Machine, checkout: Path, first: str, second: str, asked: list[str]
) -> None:
    prepare(checkout, first)
    machine.asked.clear()
    prepare(checkout, second)
    assert machine.asked == asked
    machine.asked.clear()
    prepare(checkout, first)
    assert machine.asked == []


def test_other_dependencies_are_installed_into_the_same_environment(machine: Machine, checkout: Path) -> None:
    prepare(checkout, "test")
    machine.asked.clear()
    (checkout / "pyproject.toml").write_text(PROJECT.replace("[]", '["cloth"]'))
    prepare(checkout)
    assert machine.asked == ["pip .[notebooks]"]
    machine.asked.clear()
    prepare(checkout, "test")
    assert machine.asked == ["pip .[test]"], "what was installed for the old list doesn't count"


def test_another_setting_of_a_tool_installs_nothing(machine: Machine, checkout: Path) -> None:
    prepare(checkout)
    machine.asked.clear()
    (checkout / "pyproject.toml").write_text(PROJECT + "\n[tool.ruff]\nline-length = 99\n")
    prepare(checkout)
    assert machine.asked == []


def test_an_installation_cut_short_is_begun_anew(machine: Machine, checkout: Path) -> None:
    def interrupt() -> None:
        raise KeyboardInterrupt

    machine.before_pip = interrupt
    with pytest.raises(KeyboardInterrupt):
        prepare(checkout)
    leftover = checkout / ".venv" / "leftover"
    leftover.touch()
    machine.before_pip = lambda: None
    machine.asked.clear()
    prepare(checkout)
    assert machine.asked == ["venv", "pip .[notebooks]"]
    assert not leftover.exists()


def test_a_program_at_work_is_ended_when_the_keyboard_interrupts(
    checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted() -> Iterator[str]:
        yield "Collecting linen"
        raise KeyboardInterrupt

    pip = Process([], 0)
    pip.stdout = interrupted()
    monkeypatch.setattr(environment.subprocess, "Popen", lambda *_, **__: pip)
    with pytest.raises(KeyboardInterrupt):
        prepare(checkout)
    assert pip.killed


def test_making_cut_short_is_begun_anew(machine: Machine, checkout: Path) -> None:
    (checkout / ".venv").mkdir()
    (checkout / ".venv" / MADE).touch()
    prepare(checkout)
    assert machine.asked == ["venv", "pip .[notebooks]"]


def test_a_moved_checkout_gets_a_new_environment(
    machine: Machine, checkout: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    prepare(checkout)
    moved = checkout.rename(checkout.with_name("elsewhere"))
    machine.asked.clear()
    prepare(moved)
    assert machine.asked == ["venv", "pip .[notebooks]"]
    assert "making it anew" in capsys.readouterr().out


@pytest.mark.parametrize("version", ["", "3.13"], ids=["gone", "of another version"])
def test_an_environment_whose_python_is_no_longer_the_same_is_made_anew(
    machine: Machine, checkout: Path, version: str
) -> None:
    prepare(checkout)
    leftover = checkout / ".venv" / "leftover"
    leftover.touch()
    machine.asked.clear()
    machine.version, machine.newest = version, "3.13"
    prepare(checkout)
    assert machine.asked == ["venv", "pip .[notebooks]"]
    assert not leftover.exists()


def test_a_broken_stamp_counts_as_none(machine: Machine, checkout: Path) -> None:
    prepare(checkout)
    machine.asked.clear()
    (checkout / ".venv" / STAMP).write_text('{"colour": "ecru"')
    prepare(checkout)
    assert machine.asked == ["venv", "pip .[notebooks]"]


def test_a_working_environment_of_the_users_own_is_filled_and_never_deleted(
    machine: Machine, checkout: Path
) -> None:
    fill(checkout / ".venv")
    own = checkout / ".venv" / "own"
    own.touch()
    prepare(checkout)
    assert machine.asked == ["pip .[notebooks]"]
    prepare(checkout)
    assert machine.asked == ["pip .[notebooks]"]
    moved = checkout.rename(checkout.with_name("elsewhere"))
    prepare(moved)
    assert machine.asked == 2 * ["pip .[notebooks]"]
    assert (moved / ".venv" / "own").exists()


@pytest.mark.parametrize("kind", ["folder", "file", "link to one of ours"])
def test_a_broken_environment_of_the_users_own_is_left_alone(
    machine: Machine, checkout: Path, kind: str, tmp_path: Path
) -> None:
    venv = checkout / ".venv"
    if kind == "folder":
        (venv / "own").mkdir(parents=True)
    elif kind == "file":
        venv.touch()
    else:
        (tmp_path / "shared").mkdir()
        (tmp_path / "shared" / MADE).touch()
        venv.symlink_to(tmp_path / "shared")
    assert "rename or delete it" in refusal(checkout)
    assert os.path.lexists(venv)
    assert machine.asked == []


def test_an_environment_of_an_old_python_is_refused(machine: Machine, checkout: Path) -> None:
    fill(checkout / ".venv")
    machine.version = "3.9"
    assert "has Python 3.9, but hemcalc needs 3.11 or newer" in refusal(checkout)
    assert machine.asked == []


def test_an_environment_is_not_deleted_under_the_python_that_runs(
    machine: Machine, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    prepare(checkout)
    (checkout / ".venv" / STAMP).unlink()
    monkeypatch.setattr(sys, "prefix", str(checkout / ".venv"))
    assert "'deactivate'" in refusal(checkout)
    assert (checkout / ".venv").exists()


@pytest.mark.parametrize("lacking", ["venv", "ensurepip"])
def test_a_python_without_venv_is_told_which_package_to_install(
    machine: Machine, checkout: Path, monkeypatch: pytest.MonkeyPatch, lacking: str
) -> None:
    find = importlib.util.find_spec
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None if name == lacking else find(name))
    assert f"sudo apt install python3.{sys.version_info[1]}-venv" in refusal(checkout)
    assert not (checkout / ".venv").exists()


@pytest.mark.parametrize(
    ("number", "words"),
    [(errno.EROFS, "Read-only file system"), (errno.ENOSPC, "No space left on device")],
)
def test_a_checkout_that_cannot_be_written_to(
    machine: Machine, checkout: Path, monkeypatch: pytest.MonkeyPatch, number: int, words: str
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(Path, "mkdir", refuse)
    assert words in refusal(checkout)
    assert machine.asked == []


def test_a_complete_environment_is_used_where_nothing_can_be_written(
    machine: Machine, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    prepare(checkout)

    def refuse(*_: object, **__: object) -> None:
        raise OSError(errno.EROFS, "Read-only file system")

    for write in ("mkdir", "write_text", "unlink"):
        monkeypatch.setattr(Path, write, refuse)
    monkeypatch.setattr(shutil, "rmtree", refuse)
    prepare(checkout)


@pytest.mark.parametrize("failing", ["venv", "pip"])
def test_a_failure_shows_the_last_lines_and_says_what_to_look_at(
    machine: Machine, checkout: Path, capsys: pytest.CaptureFixture[str], failing: str
) -> None:
    machine.failing = failing
    machine.lines = [f"line {n}" for n in range(1, 31)]
    assert "the internet can be reached" in refusal(checkout)
    assert capsys.readouterr().err.splitlines() == [f"line {n}" for n in range(19, 31)]
    machine.failing = None
    machine.asked.clear()
    prepare(checkout)
    assert machine.asked == ["venv", "pip .[notebooks]"]


def test_a_failure_on_top_of_a_complete_installation_keeps_it(machine: Machine, checkout: Path) -> None:
    prepare(checkout)
    machine.failing = "pip"
    refusal(checkout, "test")
    machine.asked.clear()
    prepare(checkout)
    assert machine.asked == [], "the notebooks still open without a network"


def test_a_network_that_does_not_answer_is_said_once(
    machine: Machine, checkout: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    machine.lines = ["WARNING: Retrying (Retry(total=4, ...", "WARNING: Retrying (Retry(total=3, ..."]
    prepare(checkout)
    assert capsys.readouterr().out.count("internet does not answer") == 2, "once for venv, once for pip"


def test_the_stamp_is_away_while_pip_works(machine: Machine, checkout: Path) -> None:
    prepare(checkout)
    stamp = checkout / ".venv" / STAMP
    seen = []
    machine.before_pip = lambda: seen.append(stamp.exists())
    prepare(checkout, "test")
    assert seen == [False]
    assert json.loads(stamp.read_text())["extras"] == ["notebooks", "test"]


def test_two_windows_do_not_install_over_each_other(machine: Machine, checkout: Path) -> None:
    fcntl = pytest.importorskip("fcntl", reason="Windows has no lock on a folder")
    other = os.open(checkout, os.O_RDONLY)
    fcntl.flock(other, fcntl.LOCK_EX)
    try:
        assert "Another window" in refusal(checkout)
    finally:
        os.close(other)
    prepare(checkout)
    assert machine.asked == ["venv", "pip .[notebooks]"]


def test_windows_keeps_its_python_elsewhere(monkeypatch: pytest.MonkeyPatch) -> None:
    here = Environment(Path("linen"), AGAIN)
    assert here.python == Path("linen/.venv/bin/python")
    monkeypatch.setattr(environment, "os", SimpleNamespace(name="nt"))
    assert here.python == Path("linen/.venv/Scripts/python.exe")


def test_no_variable_leads_a_program_out_of_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV", "PIP_USER"):
        monkeypatch.setenv(name, "1")
    monkeypatch.setenv("LINEN", "washed")
    variables = child_variables()
    assert not {"PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV"} & set(variables)
    assert (variables["LINEN"], variables["PIP_USER"]) == ("washed", "0")
