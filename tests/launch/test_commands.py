"""The commands: what they start, and what they say. Nothing is installed here, nor is any test run."""

from __future__ import annotations

import ast
import errno
import os
import shlex
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hemcalc.__main__ import COMMANDS, main
from hemcalc.launch import lab, own_pages, serving, stages
from hemcalc.launch.environment import Environment
from hemcalc.measure.errors import HemError

ROOT = Path(lab.__file__).resolve().parents[2]


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A package folder in a checkout with one notebook, its environment said to be ready."""
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "hemcalc"\n')
    (tmp_path / "notebooks").mkdir()
    (tmp_path / "notebooks" / lab.START).touch()
    (tmp_path / ".venv").mkdir()
    monkeypatch.setattr(Environment, "prepare", lambda self, extra: None)
    return tmp_path / "hemcalc"


class Lab:
    """A stand-in for the running lab; each wait ends as the next of `ends` says."""

    def __init__(self, *ends: int | type[BaseException]) -> None:
        self.ends, self.pid = list(ends), 7
        self.terminated = self.killed = False

    def __call__(self, arguments: list[str], env: dict[str, str], **_: Any) -> Lab:
        self.started = arguments
        self.told = list(Path(env["IPYTHONDIR"]).glob("profile_default/ipython_kernel_config.py"))
        self.page = Path(env["JUPYTER_RUNTIME_DIR"]) / "jpserver-7-open.html"
        self.page.write_text("on to the lab")
        return self

    def poll(self) -> None: ...

    def wait(self, timeout: float | None = None) -> int:
        end = self.ends.pop(0)
        if isinstance(end, int):
            return end
        raise subprocess.TimeoutExpired("lab", timeout or 0) if end is subprocess.TimeoutExpired else end

    def terminate(self) -> None:
        self.terminated = True

    def kill(self) -> None:
        self.killed |= bool(self.ends)


Opened = Callable[..., tuple[int, Lab]]


@pytest.fixture
def opened(package: Path, monkeypatch: pytest.MonkeyPatch) -> Opened:
    """Open the notebooks with a lab that ends so; gives the exit code and the lab."""
    handlers: dict[int, Any] = {}
    monkeypatch.setattr(serving.signal, "signal", handlers.__setitem__)

    def start(*ends: int | type[BaseException]) -> tuple[int, Lab]:
        stand_in = Lab(*ends)
        shown, addresses = threading.Event(), []
        monkeypatch.setattr(serving.subprocess, "Popen", stand_in)
        monkeypatch.setattr(serving.webbrowser, "open", lambda at: (addresses.append(at), shown.set()))
        code = main(["open"], package)
        assert shown.wait(60)
        assert addresses == [stand_in.page.as_uri()]
        stand_in.page.unlink(missing_ok=True)
        stand_in.on_terminate = handlers[signal.SIGTERM]  # type: ignore[attr-defined]
        return code, stand_in

    return start


@pytest.mark.parametrize("words", [[], ["help"], ["--help"], ["-h"]])
def test_alone_it_says_what_the_commands_are(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 0
    printed = capsys.readouterr().out
    for word, (does, _, more) in COMMANDS.items():
        assert f"python3 -m hemcalc {word} {more}".strip() + " " in printed
        assert does in printed


@pytest.mark.parametrize(
    "words", [["fly"], ["test", "-k", "edge"], ["open", "03"], ["Open"], ["x" * 5000], [""]]
)
def test_unknown_words_get_one_sentence_with_an_example(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith("hemcalc doesn't know '")
    assert printed.err.endswith("'test', 'browser'; for example: python3 -m hemcalc open\n")
    assert len(printed.err) < 400


@pytest.mark.parametrize(
    ("project", "said"),
    [
        (None, "clone the project"),
        (b'[project]\nname = "other"\n', "clone the project"),
        (b"[tool]\n", "clone the project"),
        (b"<<<<<<< HEAD\n", "git checkout HEAD -- pyproject.toml"),
        (b"\xff\xfe", "git checkout HEAD -- pyproject.toml"),
    ],
)
def test_without_its_project_it_says_what_to_do(
    project: bytes | None, said: str, package: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = package.parent / "pyproject.toml"
    file.unlink() if project is None else file.write_bytes(project)
    assert main(["open"], package) == 1
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("word", COMMANDS)
def test_what_stops_the_preparation_is_said_in_a_line(
    package: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], word: str
) -> None:
    stops = iter([HemError("No cloth."), KeyboardInterrupt()])

    def stop(*_: object) -> None:
        raise next(stops)

    monkeypatch.setattr(Environment, "prepare", stop)
    more = "margin" if word == "stage" else "the linen"
    words = [word, more] if COMMANDS[word][2] else [word]
    monkeypatch.setattr(own_pages, "afresh", stop)  # which prepares nothing
    assert main(words, package) == 1
    assert capsys.readouterr() == ("", "No cloth.\n")
    assert main(words, package) == 130
    again = f"python3 -m hemcalc {shlex.join(words)}"
    assert capsys.readouterr() == (f"\nStopped. To begin again: {again}\n", "")


# The lab


def test_the_lab_opens_on_the_first_notebook_and_asks_nothing(
    opened: Opened, package: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, running = opened(0)
    assert code == 0
    root = package.parent
    assert running.started[:3] == [str(root / ".venv" / "bin" / "python"), "-m", "jupyterlab"]
    assert {
        "--no-browser",
        f"--ServerApp.root_dir={root / 'my_pages'}",
        "--LabApp.default_url=/lab/tree/00_start_here.ipynb",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    } <= set(running.started)
    assert not [word for word in running.started if ".ip=" in word or "token" in word], (
        "this machine, by token"
    )
    printed = capsys.readouterr().out
    assert "To stop, press Ctrl-C here." in printed
    assert "in the folder my_pages." in printed
    assert (root / "my_pages" / lab.START).is_file()
    assert running.told, "its kernels answer first mistakes in a sentence"
    assert "newer original" not in printed


@pytest.mark.parametrize(("user", "allowed"), [(0, True), (1000, False), (None, False)])
def test_only_root_is_allowed_as_root(
    opened: Opened, monkeypatch: pytest.MonkeyPatch, user: int | None, allowed: bool
) -> None:
    if user is None:  # as on Windows
        monkeypatch.delattr(os, "geteuid")
    else:
        monkeypatch.setattr(os, "geteuid", lambda: user)
    assert ("--allow-root" in opened(0)[1].started) is allowed


@pytest.mark.parametrize(
    ("ends", "code", "told", "out", "err"),
    [
        ((KeyboardInterrupt, 0), 0, (True, False), "The notebooks are closed.", ""),
        ((KeyboardInterrupt, KeyboardInterrupt, 0), 0, (True, True), "The notebooks are closed.", ""),
        ((KeyboardInterrupt, subprocess.TimeoutExpired, 0), 0, (True, True), "The notebooks are closed.", ""),
        ((-signal.SIGTERM,), 0, (False, False), "The notebooks are closed.", ""),
        ((1,), 1, (False, False), "Opening", "JupyterLab stopped with an error"),
    ],
    ids=["Ctrl-C", "Ctrl-C twice", "Ctrl-C to the deaf", "told to end", "fails"],
)
def test_however_the_lab_ends_it_is_said(
    opened: Opened,
    capsys: pytest.CaptureFixture[str],
    ends: tuple[int | type[BaseException], ...],
    code: int,
    told: tuple[bool, bool],
    out: str,
    err: str,
) -> None:
    found, running = opened(*ends)
    assert (found, running.terminated, running.killed) == (code, *told)
    printed = capsys.readouterr()
    assert out in printed.out
    assert printed.err.startswith(err)
    running.on_terminate(signal.SIGTERM, None)  # type: ignore[attr-defined]
    assert running.terminated, "to end this program ends the lab"


def test_a_missing_first_notebook_is_said_before_anything_is_installed(
    package: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(Environment, "prepare", lambda self, extra: pytest.fail("installed"))
    (package.parent / "notebooks" / lab.START).unlink()
    assert main(["open"], package) == 1
    assert "git checkout -- notebooks" in capsys.readouterr().err


@pytest.mark.parametrize("laid_out", [True, False])
def test_a_checkout_that_cannot_be_written_to_still_opens(
    opened: Opened,
    package: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    laid_out: bool,
) -> None:
    if laid_out:
        own_pages.lay_out(package.parent)

    def refuse(*_: object, **__: object) -> None:
        raise OSError(errno.EROFS, os.strerror(errno.EROFS))

    monkeypatch.setattr(lab, "lay_out", refuse)
    code, running = opened(0)
    assert code == 0
    assert "changes can't be saved" in capsys.readouterr().out
    folder = "my_pages" if laid_out else "notebooks"
    assert f"--ServerApp.root_dir={package.parent / folder}" in running.started


def test_a_newer_original_is_told_in_a_line(
    opened: Opened, package: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    own_pages.lay_out(package.parent)
    (package.parent / "my_pages" / lab.START).write_text("hers")
    (package.parent / "notebooks" / lab.START).write_text("newer")
    opened(0)
    said = "newer original of page 00. To have it (yours is kept beside it): python3 -m hemcalc afresh 00\n"
    assert said in capsys.readouterr().out


# The tests in stages

FAILED = '<testcase classname="tests.edge.test_hem" name="test_hem[1]"><failure/></testcase>'
REPORT = '<testsuites><testcase><skipped message="no moon"/></testcase><testcase/>{}</testsuites>'


class Tools:
    """Stands in for ruff, mypy and pytest: which of them fail, and what they were asked."""

    def __init__(self, *failing: str) -> None:
        self.failing = failing
        self.ran: list[list[str]] = []

    def __call__(self, arguments: list[str], stdout: int | None, **_: Any) -> SimpleNamespace:
        self.ran.append(arguments[2:])
        code = int(any(word in arguments for word in self.failing))
        for word in arguments:
            if word.startswith("--junitxml="):
                Path(word.partition("=")[2]).write_text(REPORT.format(FAILED * code))
        said = arguments[2].encode() + b" has spoken\n" if stdout else None
        return SimpleNamespace(returncode=code, stdout=said, stderr=None)


@pytest.mark.parametrize(
    ("failing", "named"),
    [
        ([], ""),
        (["check"], "lint"),
        (["mypy", "--check"], "format, types"),
        (["pytest"], "notebooks, tests"),
        (["--nbval"], "notebooks"),
    ],
)
def test_every_stage_runs_and_the_last_lines_say_what_failed_and_what_was_skipped(
    package: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    failing: list[str],
    named: str,
) -> None:
    tools = Tools(*failing)
    monkeypatch.setattr(stages.subprocess, "run", tools)
    assert main(["test"], package) == int(bool(named))
    # The tests, in one go, don't say the values in what fails; that is run again, and says them.
    again = [("pytest", "tests/edge/test_hem.py::test_hem[1]")] * ("pytest" in failing)
    wanted = [*stages.CHECKS.values(), *stages.TESTS.values(), *again]
    ran = [tuple(word for word in words if "junit" not in word) for words in tools.ran]
    assert sorted(ran) == sorted(wanted)
    *lines, verdict, skipped = capsys.readouterr().out.splitlines()
    said = sorted(verdict.removeprefix("Failed: ").removesuffix(".").split(", "))
    assert (", ".join(said) if named else verdict) == (named or "All passed.")
    assert skipped == (
        "Skipped: the tests in a browser, which need a Chromium: python3 -m hemcalc browser; "
        "2 because: no moon."
    )
    assert sum("FAILED" in line for line in lines) == len(named.split(", ")) * bool(named)
    assert lines.count("ruff has spoken") == 2
    assert "mypy has spoken" in lines


ASK = """\
import socket
for reach in ({}):
    try:
        reach()
    except OSError as error:
        print(type(error).__name__)
"""
ELSEWHERE = (
    "lambda: socket.create_connection(('192.0.2.1', 9), 1), lambda: socket.getaddrinfo('linen.example', 80), "
    "lambda: socket.gethostbyname('linen.example'), lambda: socket.create_connection(('2001:db8::1', 9), 1), "
    "lambda: socket.socket(type=socket.SOCK_DGRAM).sendto(b'', ('192.0.2.1', 9)), "
)
HERE = "lambda: socket.create_connection(('127.0.0.1', 9)), lambda: socket.create_connection(('::1', 9)), "


def test_every_address_but_this_machine_s_is_closed_to_what_the_tests_run_and_who_asks_is_noted(
    tmp_path: Path,
) -> None:
    noted, said = tmp_path / "noted", []
    around = os.environ | {"PYTHONPATH": str(ROOT / stages.CLOSED), "HEMCALC_CLOSED": str(noted)}
    for reach in (HERE, ELSEWHERE):
        assert not noted.exists()
        asked = [sys.executable, "-c", ASK.format(reach)]
        said.append(
            subprocess.run(asked, env=around, capture_output=True, text=True, check=True).stdout.split()
        )
    assert "PermissionError" not in said[0]
    assert said[1] == ["PermissionError"] * 5
    assert len(noted.read_text().splitlines()) == 5


def test_who_asks_another_machine_fails_the_tests(
    package: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    class Asking(Tools):
        def __call__(self, arguments: list[str], stdout: int | None, **more: Any) -> SimpleNamespace:
            if "--nbval" in arguments:
                assert more["env"]["PYTHONPATH"] == str(package.parent / stages.CLOSED)
                Path(more["env"]["HEMCALC_CLOSED"]).write_text("socket.connect 192.0.2.1\n")
            return super().__call__(arguments, stdout)

    monkeypatch.setattr(stages.subprocess, "run", Asking())
    assert main(["test"], package) == 1
    printed = capsys.readouterr().out
    assert "socket.connect 192.0.2.1" in printed
    assert "Failed: privacy." in printed
    monkeypatch.setattr(stages.subprocess, "run", Tools())
    assert main(["test"], package) == 0, "what was noted in an earlier run is forgotten"


def test_the_tests_in_a_browser_are_a_command_and_the_test_command_passes_them_over(
    package: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    tools = Tools()
    monkeypatch.setattr(stages.subprocess, "run", tools)
    assert main(["browser"], package) == 0
    (words,) = tools.ran
    assert words[:3] == ["pytest", "-m", "browser"]
    assert stages.TESTS["tests"][-2:] == ("-m", "not browser")
    assert capsys.readouterr().out.endswith("All passed.\nSkipped: 1 because: no moon.\n")


def test_every_test_in_a_browser_bears_its_mark() -> None:
    for file in (ROOT / "tests" / "browser").glob("test_*.py"):
        assert "pytest.mark.browser" in file.read_text("utf-8"), file.name


@pytest.mark.parametrize(
    ("there", "user", "apt", "ran"),
    [
        (["chromium"], "0", "exit 1", ["test", "browser"]),
        ([], "0", "echo exit >chromium; chmod +x chromium", ["test", "browser"]),
        ([], "0", "exit 100", ["test"]),
        ([], "1000", "echo exit >chromium; chmod +x chromium", ["test"]),
    ],
    ids=["it is there", "apt installs it", "apt fails", "nobody may install it"],
)
@pytest.mark.skipif(os.name == "nt", reason="CI has a shell")
def test_ci_runs_the_tests_in_a_browser_where_a_chromium_is_or_can_be_had(
    tmp_path: Path, there: list[str], user: str, apt: str, ran: list[str]
) -> None:
    programs = {"id": f"echo {user}", "python3": 'echo "ran $3"', "apt-get": f"cd {tmp_path}; {apt}"}
    for name, does in {**programs, **dict.fromkeys(there, "exit")}.items():
        (tmp_path / name).write_text(f"#!/bin/sh\n{does}\n", "ascii")
        (tmp_path / name).chmod(0o755)
    for name in ("bash", "dirname", "timeout", "chmod"):
        (tmp_path / name).symlink_to(shutil.which(name) or "")
    script = [str(tmp_path / "bash"), str(ROOT / ".ci" / "run")]
    done = subprocess.run(script, env={"PATH": str(tmp_path)}, capture_output=True, text=True, check=True)
    lines = done.stdout.splitlines()
    assert [line.removeprefix("ran ") for line in lines if line.startswith("ran ")] == ran
    assert lines[-1].startswith("Skipped: the tests in a browser, since") == ("browser" not in ran)


# The pages to send round


SENDING = {
    "made": ("print('Page 1')", 0, "Page 1\n", ""),
    "refused": ("print('noise', 'Full.', sep='\\n', file=sys.stderr); sys.exit(2)", 1, "", "Full.\n"),
    "broken": ("1 / 0", 1, "", "said last: 'ZeroDivisionError: division by zero'\n"),
    "killed": ("import os; os.kill(os.getpid(), 9)", 1, "", "said last: 'nothing'\n"),
    "Ctrl-C": (
        "import os, time; os.kill(os.getppid(), 2); time.sleep(.2); open('asked', 'a').write('!')",
        130,
        "Stopped.",
        "",
    ),
}


@pytest.mark.parametrize(("program", "code", "out", "wrong"), SENDING.values(), ids=SENDING)
def test_the_pages_are_made_in_the_environment_and_what_goes_wrong_is_a_line(
    package: Path, capfd: pytest.CaptureFixture[str], program: str, code: int, out: str, wrong: str
) -> None:
    """A stand-in for its Python writes down what it was asked, and goes on as the program says."""
    python = package.parent / ".venv" / "bin" / "python"
    python.parent.mkdir()
    python.write_text(
        f"#!{sys.executable}\nimport sys\nopen('asked', 'w').write(repr(sys.argv[1:]))\n{program}\n"
    )
    python.chmod(0o755)
    assert main(["pages", "the class"], package) == code
    printed = capfd.readouterr()
    assert out in printed.out
    assert printed.err.endswith(wrong)
    assert printed.err.count("\n") == bool(wrong)
    asked = repr(["-m", "hemcalc.send", str(Path("the class").absolute())])
    closed = "!" if code == 130 else ""  # it had the time to close its kernel
    assert (package.parent / "asked").read_text() == asked + closed


@pytest.mark.parametrize("words", [[], ["for", "the class"]])
def test_the_pages_want_one_folder(
    package: Path, capsys: pytest.CaptureFixture[str], words: list[str]
) -> None:
    assert main(["pages", *words], package) == 1
    assert capsys.readouterr().err.endswith("for example: python3 -m hemcalc pages my_pages/to_send\n")


# Ctrl-C, pressed for real

BEGINNING = """\
import sys
from pathlib import Path
from hemcalc import __main__
from hemcalc.launch.environment import Environment
Environment.prepare = lambda self, extra: None
sys.exit(__main__.main(sys.argv[1:], Path.cwd() / "hemcalc"))
"""
# It begins as a lab does: it reads for a while, and has no answer to a Ctrl-C but a traceback.
SLOW_LAB = """\
#!{python}
import os, sys, time
open("begun", "w").write(str(os.getpid()))
{program}
"""


@pytest.mark.skipif(os.name == "nt", reason="the slow lab is a script of a shell")
@pytest.mark.parametrize("word", ["open", "stage"])
@pytest.mark.parametrize(
    "program", ["time.sleep(60)", "import signal; signal.signal(15, lambda *_: sys.exit(0)); time.sleep(60)"]
)
def test_ctrl_c_ends_what_has_not_begun_yet_without_a_traceback(
    package: Path, word: str, program: str
) -> None:
    root = package.parent
    python = root / ".venv" / "bin" / "python"
    python.parent.mkdir()
    python.write_text(SLOW_LAB.format(python=sys.executable, program=program))
    python.chmod(0o755)
    pipe, around = subprocess.PIPE, os.environ | {"PYTHONPATH": str(ROOT)}
    asked = [sys.executable, "-c", BEGINNING, word]
    with subprocess.Popen(
        asked, cwd=root, env=around, stdout=pipe, stderr=pipe, text=True, start_new_session=True
    ) as running:
        while not (begun := [path for path in root.rglob("begun") if path.stat().st_size]):
            assert running.poll() is None
            time.sleep(0.05)
        os.killpg(running.pid, signal.SIGINT)
        printed, wrong = running.communicate(timeout=60)
    assert (running.returncode, wrong) == (0, "")
    assert printed.splitlines()[-1].endswith("closed.")
    with pytest.raises(ProcessLookupError):
        os.kill(int(begun[0].read_text()), 0)


@pytest.mark.skipif(os.name == "nt", reason="Windows has other signals")
def test_ctrl_c_before_the_command_has_been_read_has_no_traceback(tmp_path: Path) -> None:
    """Pressed by what Python reads before all else, as it comes to the first of our modules below."""
    (tmp_path / "sitecustomize.py").write_text(
        "import os, sys\n"
        "class Press:\n"
        "    def find_spec(self, name, *_):\n"
        "        if name == 'hemcalc.launch.environment': os.kill(os.getpid(), 2)\n"
        "sys.meta_path.insert(0, Press())\n"
    )
    around = os.environ | {"PYTHONPATH": str(tmp_path)}
    asked = [sys.executable, "-m", "hemcalc", "open"]
    ended = subprocess.run(asked, cwd=ROOT, env=around, capture_output=True, text=True)
    assert (ended.returncode, ended.stdout, ended.stderr) == (-signal.SIGINT, "", "")


# Python itself


def python(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, *arguments], cwd=ROOT, capture_output=True, text=True)


def test_an_old_python_is_told_before_anything_else_is_read() -> None:
    old = (
        "import sys; sys.version_info = (3, 8, 18, 'final', 0); sys.version = '3.8.18 (old)'\n"
        "try: import hemcalc\n"
        "except SystemExit as stop: print(stop, [name for name in sys.modules if 'hemcalc.' in name])"
    )
    said = python("-c", old)
    assert said.stderr == ""
    assert said.stdout.startswith("hemcalc needs Python 3.11 or newer, and this one is Python 3.8.18; ")
    assert said.stdout.endswith("for example: python3.12 -m hemcalc open []\n")
    ast.parse((ROOT / "hemcalc" / "__init__.py").read_text("utf-8"), feature_version=(3, 7))


def test_python_runs_the_package_as_a_program_with_the_standard_library_alone() -> None:
    said = python("-S", "-m", "hemcalc", "fly")
    assert said.returncode == 2
    assert said.stderr.startswith("hemcalc doesn't know 'fly'")
