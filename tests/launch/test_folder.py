"""Nothing outside the folder is touched: the programs are run for real, with an empty home."""

from __future__ import annotations

import errno
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

import pytest

from hemcalc.launch import lab
from hemcalc.launch.environment import Environment

ROOT = Path(lab.__file__).resolve().parents[2]
TRY = """\
import jedi
from hypothesis import given, strategies as st
from jupyter_client.manager import run_kernel

@given(number=st.integers())
def test_a_number(number):
    assert number == number

def test_a_cell(capfd):
    with run_kernel(kernel_name="python3") as kernel:
        said = kernel.execute_interactive("import matplotlib.pyplot as plt\\nplt.plot([1, 2]);", timeout=100)
    assert said["content"]["status"] == "ok"
    assert "Figure" in capfd.readouterr().out

def test_what_is_completed():
    assert jedi.Script("import keyword; keyword.").complete()
"""


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The user's home, empty, with nothing that says that its parts lie elsewhere."""
    home = tmp_path / "home"
    home.mkdir()
    for name in [name for name in os.environ if name.startswith(("XDG_", "MPL", "IPYTHON", "JUPYTER"))]:
        monkeypatch.delenv(name)
    for name in ("HOME", "USERPROFILE", "APPDATA", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(home))
    return home


@pytest.fixture
def checkout(tmp_path: Path) -> Environment:
    root = tmp_path / "linen workshop"
    (root / ".venv").mkdir(parents=True)
    (root / "test_try.py").write_text(TRY)
    for folder in ("notebooks", ".jupyter"):
        shutil.copytree(ROOT / folder, root / folder)
    return Environment(root, "")


def opened(address: str, running: subprocess.Popen[bytes]) -> Any:
    """A page of the lab, which names its address a little before it answers there."""
    while True:
        try:
            return urllib.request.urlopen(address)
        except urllib.error.URLError as error:
            if not isinstance(error.reason, ConnectionRefusedError) or running.poll() is not None:
                raise
            time.sleep(0.1)


def refuses_strangers(server: str, token: str) -> None:
    """Of what runs code or hands out files, nothing without the token; nor from another address at all."""
    for path, order in {
        "api/contents": None,
        "api/kernels": None,
        "api/kernels/0-0-0-0-0/channels": None,
        "api/kernels?begin": b"{}",
    }.items():
        with pytest.raises(urllib.error.HTTPError, match="403") as refused:
            urllib.request.urlopen(f"{server}{path}", data=order)
        refused.value.close()
    urllib.request.urlopen(f"{server}api/contents?token={token}").close()
    if sys.platform == "linux":  # where all of 127.x.x.x is this machine
        with socket.socket() as other:
            port = int(server.rstrip("/").rpartition(":")[2])
            assert other.connect_ex(("127.0.0.2", port)) == errno.ECONNREFUSED


def test_a_notebook_and_a_test_leave_the_home_empty(home: Path, checkout: Environment) -> None:
    with checkout.variables() as variables:
        # Of the plugins that are installed, the one that keeps something.
        plugins = ("-p", "no:cacheprovider", "--disable-plugin-autoload", "-p", "_hypothesis_pytestplugin")
        words = (sys.executable, "-m", "pytest", "-q", *plugins, "test_try.py")
        subprocess.run(words, cwd=checkout.root, env=variables, check=True)
    assert [str(path) for path in home.rglob("*")] == []


def test_the_lab_leaves_the_home_empty_and_opens_to_this_machine_with_its_token_only(
    home: Path, checkout: Environment
) -> None:
    with checkout.variables() as variables:
        variables["PYTHONPATH"] = str(ROOT / "tests" / "closed")  # which spares it two seconds
        runtime = Path(variables["JUPYTER_RUNTIME_DIR"])
        program = [sys.executable, *lab.arguments(checkout.root / "notebooks")]
        running = subprocess.Popen(program, cwd=checkout.root, env=variables)
        try:
            while not (pages := [page for page in runtime.glob("*-open.html") if page.stat().st_size]):
                assert running.poll() is None, "the lab has stopped"
                time.sleep(0.1)
            address = pages[0].read_text("utf-8").partition("url=")[2].partition('"')[0]
            assert address.startswith("http://localhost:")
            with opened(address.replace("&amp;", "&"), running) as page:
                assert "/lab/tree/00_start_here.ipynb" in page.url
            with urllib.request.urlopen(address.partition("?")[0]) as stranger:
                assert "/login" in stranger.url
            refuses_strangers(address.partition("lab/")[0], address.partition("token=")[2])
        finally:
            running.terminate()
            running.wait(60)
    assert [str(path) for path in home.rglob("*")] == []
