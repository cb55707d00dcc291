"""The two commands: what they start, and what they say. Nothing is installed or started here."""

from __future__ import annotations

import ast
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hemcalc import launch
from hemcalc.measure.errors import HemError

HERE = Path(launch.__file__).resolve().parent


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A package folder in a checkout with one notebook, its environment said to be ready."""
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "hemcalc"\n')
    (tmp_path / "notebooks").mkdir()
    (tmp_path / launch.START).touch()
    monkeypatch.setattr(launch.Environment, "prepare", lambda self, extra: None)
    return tmp_path / "hemcalc"


class Lab:
    """A stand-in for the running lab; each wait ends as the next of `ends` says."""

    def __init__(self, *ends: int | type[BaseException]) -> None:
        self.ends = list(ends)
        self.started: list[str] = []
        self.terminated = False

    def __call__(self, arguments: list[str], **_: Any) -> Lab:
        self.started = arguments
        return self

    def wait(self, timeout: float | None = None) -> int:
        end = self.ends.pop(0)
        if isinstance(end, int):
            return end
        raise subprocess.TimeoutExpired("lab", timeout or 0) if end is subprocess.TimeoutExpired else end

    def terminate(self) -> None:
        self.terminated = True


@pytest.fixture
def opened(package: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[int, Lab]]:
    """Open the notebooks with a lab that ends so; gives the exit code and the lab."""
    handlers: dict[int, Any] = {}
    monkeypatch.setattr(launch.signal, "signal", handlers.__setitem__)

    def start(*ends: int | type[BaseException]) -> tuple[int, Lab]:
        lab = Lab(*ends)
        monkeypatch.setattr(launch.subprocess, "Popen", lab)
        code = launch.main(["open"], package)
        if handlers:
            lab.on_terminate = handlers[signal.SIGTERM]  # type: ignore[attr-defined]
        return code, lab

    return start


@pytest.fixture
def tested(package: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[int, list[list[str]]]]:
    """Run the tests with stages that fail so; gives the exit code and what was run."""

    def start(*failing: str) -> tuple[int, list[list[str]]]:
        ran: list[list[str]] = []

        def run(arguments: Sequence[str], **_: Any) -> SimpleNamespace:
            ran.append(list(arguments[1:]))
            return SimpleNamespace(returncode=int(any(word in arguments for word in failing)))

        monkeypatch.setattr(launch.subprocess, "run", run)
        return launch.main(["test"], package), ran

    return start


def test_alone_it_says_what_the_commands_are(capsys: pytest.CaptureFixture[str]) -> None:
    for words in ([], ["help"], ["--help"], ["-h"]):
        assert launch.main(words) == 0
        printed = capsys.readouterr().out
        assert "python3 -m hemcalc open    opens the notebooks" in printed
        assert "python3 -m hemcalc test    runs every test" in printed


@pytest.mark.parametrize("words", [["fly"], ["test", "-k", "edge"], ["Open"], ["x" * 5000], [""]])
def test_unknown_words_get_one_sentence_with_an_example(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert launch.main(words) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith("hemcalc doesn't know '")
    assert printed.err.endswith("for example: python3 -m hemcalc open\n")
    assert len(printed.err) < 400


@pytest.mark.parametrize("project", [None, '[project]\nname = "other"\n', "[tool]\n"])
def test_an_installed_hemcalc_sends_the_reader_to_a_checkout(
    project: str | None, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    if project is not None:
        (tmp_path / "pyproject.toml").write_text(project)
    assert launch.main(["open"], tmp_path / "hemcalc") == 1
    assert "clone the project" in capsys.readouterr().err


@pytest.mark.parametrize("content", [b"<<<<<<< HEAD\n", b"\xff\xfe"], ids=["merge", "no text"])
def test_an_unreadable_project_file_is_named(
    content: bytes, package: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (package.parent / "pyproject.toml").write_bytes(content)
    assert launch.main(["open"], package) == 1
    assert "git checkout HEAD -- pyproject.toml" in capsys.readouterr().err


def test_this_hemcalc_is_in_a_checkout() -> None:
    assert launch._checkout(HERE) == HERE.parent


def test_the_lab_opens_on_the_first_notebook_and_asks_nothing(
    opened: Callable[..., tuple[int, Lab]], package: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, lab = opened(0)
    assert code == 0
    root = package.parent
    python = root / ".venv" / "bin" / "python"
    assert lab.started[:3] == [str(python), "-m", "jupyterlab"]
    assert f"--ServerApp.root_dir={root}" in lab.started
    assert "--LabApp.default_url=/lab/tree/notebooks/00_start_here.ipynb" in lab.started
    assert "--LabApp.news_url=None" in lab.started
    assert "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate" in lab.started
    assert "To stop, press Ctrl-C here." in capsys.readouterr().out


@pytest.mark.parametrize(("user", "allowed"), [(0, True), (1000, False)], ids=["root", "anyone else"])
def test_only_root_is_allowed_as_root(
    opened: Callable[..., tuple[int, Lab]], monkeypatch: pytest.MonkeyPatch, user: int, allowed: bool
) -> None:
    monkeypatch.setattr(os, "geteuid", lambda: user)
    _, lab = opened(0)
    assert ("--allow-root" in lab.started) is allowed


def test_no_user_is_root_where_there_are_no_user_numbers(
    opened: Callable[..., tuple[int, Lab]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delattr(os, "geteuid")
    _, lab = opened(0)
    assert "--allow-root" not in lab.started


def test_the_keyboard_stops_the_lab_cleanly(
    opened: Callable[..., tuple[int, Lab]], capsys: pytest.CaptureFixture[str]
) -> None:
    code, lab = opened(KeyboardInterrupt, 0)
    assert code == 0
    assert not lab.terminated
    assert "The notebooks are closed." in capsys.readouterr().out


@pytest.mark.parametrize("second", [KeyboardInterrupt, subprocess.TimeoutExpired])
def test_a_lab_that_does_not_stop_is_ended(
    opened: Callable[..., tuple[int, Lab]], second: type[BaseException]
) -> None:
    code, lab = opened(KeyboardInterrupt, second, 0)
    assert code == 0
    assert lab.terminated


def test_being_told_to_end_ends_the_lab(opened: Callable[..., tuple[int, Lab]]) -> None:
    _, lab = opened(-signal.SIGTERM)
    lab.on_terminate(signal.SIGTERM, None)  # type: ignore[attr-defined]
    assert lab.terminated


def test_a_lab_that_fails_is_said_to(
    opened: Callable[..., tuple[int, Lab]], capsys: pytest.CaptureFixture[str]
) -> None:
    code, _ = opened(1)
    assert code == 1
    assert "JupyterLab stopped with an error" in capsys.readouterr().err


def test_a_missing_first_notebook_is_said_before_anything_is_installed(
    package: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(launch.Environment, "prepare", lambda self, extra: pytest.fail("installed"))
    (package.parent / launch.START).unlink()
    assert launch.main(["open"], package) == 1
    assert "git checkout -- notebooks" in capsys.readouterr().err


def test_a_checkout_that_cannot_be_written_to_still_opens(
    opened: Callable[..., tuple[int, Lab]],
    package: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    def refuse(**_: object) -> None:
        raise OSError("Read-only file system")

    _, usual = opened(0)
    monkeypatch.setattr(launch.tempfile, "TemporaryFile", refuse)
    code, lab = opened(0)
    assert code == 0
    assert [word for word in usual.started if word not in lab.started] == [
        f"--LabApp.workspaces_dir={package.parent / '.venv' / 'workspaces'}"
    ]
    assert "changes can't be saved" in capsys.readouterr().out


def test_every_stage_is_run_by_module_and_the_last_is_pytest(
    tested: Callable[..., tuple[int, list[list[str]]]], capsys: pytest.CaptureFixture[str]
) -> None:
    code, ran = tested()
    assert code == 0
    assert [words[:3] for words in ran[:4]] == [
        ["-m", "ruff", "check"],
        ["-m", "ruff", "format"],
        ["-m", "mypy", "--strict"],
        ["-m", "pytest"],
    ]
    assert ran[4][1:4] == ["pytest", "--nbval", "--nbval-sanitize-with=tests/notebooks/sanitize.cfg"]
    assert ran[4][-1] == "notebooks"
    assert len(ran) == 5
    assert capsys.readouterr().out.endswith("\nAll passed.\n")


def test_where_nothing_can_be_written_the_caches_go_elsewhere(
    package: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    given: list[dict[str, str]] = []

    def run(_: object, env: dict[str, str], **__: object) -> SimpleNamespace:
        given.append(env)
        return SimpleNamespace(returncode=0)

    monkeypatch.setattr(launch.subprocess, "run", run)
    monkeypatch.delenv("RUFF_CACHE_DIR", raising=False)
    launch.main(["test"], package)
    assert "RUFF_CACHE_DIR" not in given[0]
    monkeypatch.setattr(launch, "_writable", lambda folder: False)
    launch.main(["test"], package)
    elsewhere = {given[-1][name] for name in ("RUFF_CACHE_DIR", "MYPY_CACHE_DIR")}
    assert len(elsewhere) == 1
    assert not Path(elsewhere.pop()).exists(), "it is cleared away afterwards"


@pytest.mark.parametrize(
    ("failing", "named"),
    [
        (["check"], "lint"),
        (["mypy", "--check"], "format, types"),
        (["pytest"], "tests, notebooks"),
        (["--nbval"], "notebooks"),
    ],
)
def test_stages_that_fail_are_named_at_the_end_and_stop_no_other(
    tested: Callable[..., tuple[int, list[list[str]]]],
    capsys: pytest.CaptureFixture[str],
    failing: list[str],
    named: str,
) -> None:
    code, ran = tested(*failing)
    assert code == 1
    assert len(ran) == 5
    printed = capsys.readouterr().out
    assert printed.endswith(f"\nFailed: {named}.\n")
    assert printed.count("FAILED") == len(named.split(", "))
    assert "All passed" not in printed


def test_without_notebooks_not_all_has_passed(
    tested: Callable[..., tuple[int, list[list[str]]]], package: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (package.parent / launch.START).unlink()
    checkpoints = package.parent / "notebooks" / ".ipynb_checkpoints"
    checkpoints.mkdir()
    (checkpoints / "old.ipynb").touch()
    code, ran = tested()
    assert (code, len(ran)) == (0, 4)
    printed = capsys.readouterr().out
    assert printed.endswith("the folder notebooks holds no notebook, so none was run.\n")
    assert "All passed" not in printed


@pytest.mark.parametrize(
    ("raised", "code", "words"),
    [(HemError("No cloth."), 1, "No cloth.\n"), (KeyboardInterrupt(), 130, "")],
    ids=["a refusal", "the keyboard"],
)
def test_what_stops_the_preparation_is_said_without_a_traceback(
    package: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    raised: BaseException,
    code: int,
    words: str,
) -> None:
    def stop(*_: object) -> None:
        raise raised

    monkeypatch.setattr(launch.Environment, "prepare", stop)
    assert launch.main(["test"], package) == code
    assert capsys.readouterr().err == words


def test_an_old_python_is_told_before_anything_else_is_read() -> None:
    old = (
        "import sys; sys.version_info = (3, 8, 18, 'final', 0); sys.version = '3.8.18 (old)'\n"
        "try: import hemcalc\n"
        "except SystemExit as stop: print(stop, [name for name in sys.modules if 'hemcalc.' in name])"
    )
    said = subprocess.run([sys.executable, "-c", old], cwd=HERE.parent, capture_output=True, text=True)
    assert said.stderr == ""
    assert said.stdout.startswith("hemcalc needs Python 3.11 or newer, and this one is Python 3.8.18; ")
    assert said.stdout.endswith("for example: python3.12 -m hemcalc open []\n")


def test_an_old_python_can_parse_the_words_that_turn_it_away() -> None:
    ast.parse((HERE / "__init__.py").read_text("utf-8"), feature_version=(3, 7))


def test_python_runs_the_package_as_a_program() -> None:
    said = subprocess.run(
        [sys.executable, "-m", "hemcalc", "fly"], cwd=HERE.parent, capture_output=True, text=True
    )
    assert said.returncode == 2
    assert said.stderr.startswith("hemcalc doesn't know 'fly'")
