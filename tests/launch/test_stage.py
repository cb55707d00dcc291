"""The command that opens the stage: what it starts, whom it lets in, and what it says. Nothing is started."""

import json
import re
import socket
import stat
import threading
import webbrowser
from pathlib import Path

import pytest

from hemcalc.__main__ import main
from hemcalc.launch import serving, stage
from hemcalc.launch.environment import Environment
from hemcalc.panels.fields import to_stage
from hemcalc.panels.playing import ACTS


@pytest.fixture
def package(tmp_path, monkeypatch):
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "hemcalc"\n')
    (tmp_path / ".venv").mkdir()
    monkeypatch.setattr(Environment, "prepare", lambda self, extra: None)
    return tmp_path / "hemcalc"


class Voila:
    """A stand-in for the running server, which ends with this code; how else it may, the lab's tests try."""

    def __init__(self, code):
        self.code, self.pid = code, 7

    def __call__(self, words, env, **_):
        self.words, self.variables, self.folder = words, env, Path(env["JUPYTER_RUNTIME_DIR"])
        (port,) = (int(word[7:]) for word in words if word.startswith("--port="))
        self.answering = socket.create_server(("127.0.0.1", port))
        return self

    def poll(self):
        return None

    def wait(self, timeout=None):
        self.pages = {
            page.name: (page.read_text(), stat.S_IMODE(page.stat().st_mode)) for page in self.folder.iterdir()
        }
        return self.code

    def kill(self): ...


@pytest.fixture
def opened(package, monkeypatch):
    """Open the stage with a server that ends so; gives our own code and the server."""

    def start(words, code):
        server = Voila(code)
        monkeypatch.setattr(serving.subprocess, "Popen", server)
        monkeypatch.setattr(serving.signal, "signal", lambda *_: None)
        shown = threading.Event()
        monkeypatch.setattr(
            serving.webbrowser, "open", lambda at: (setattr(server, "shown", at.split("/")[-1]), shown.set())
        )
        found = main(["stage", *words], package)
        server.answering.close()
        assert shown.wait(60)
        return found, server

    return start


def test_it_listens_to_this_machine_alone_by_a_token_that_no_list_of_programs_shows(opened, capsys):
    code, server = opened(["corner"], 0)
    assert code == 0
    assert "--Voila.ip=127.0.0.1" in server.words
    assert "--token" in server.words
    token = server.variables["JUPYTER_TOKEN"]
    assert len(token) >= 40
    assert not any(token in word for word in server.words)
    page, mode = server.pages["hemcalc-stage-corner.html"]
    assert f"?panel=corner&amp;token={token}" in page
    assert mode == 0o600
    assert len(server.pages) == 1 + len(ACTS)
    assert not list(server.folder.iterdir()), "gone with the stage"
    said = capsys.readouterr().out
    assert "To stop, press Ctrl-C here." in said
    assert token not in said
    assert server.shown == "hemcalc-stage-corner.html"
    assert opened([], 0)[1].shown == "hemcalc-stage-list.html"
    assert opened([], 0)[1].variables["JUPYTER_TOKEN"] != token


def test_its_page_is_one_call_and_its_template_names_no_other_machine(opened):
    server = opened([], 0)[1]
    (notebook,) = (json.loads(Path(word).read_text()) for word in server.words if word.endswith(".ipynb"))
    (cell,) = notebook["cells"]
    assert cell["source"] == "from hemcalc.panels.stage import stage\n\nstage()"
    (folder,) = Path(server.variables["JUPYTER_PATH"]).glob("voila/templates/stage")
    assert {path.name for path in folder.iterdir()} == {"conf.json", "index.html.j2", "stage.css", "stage.js"}
    for path in folder.iterdir():
        assert not re.search(r"https?:|//[a-z]+\.", path.read_text("utf-8")), path.name


@pytest.mark.parametrize("words", [["tablecloth"], ["margin", "corner"], [""], ["x" * 900], ["Margin"]])
def test_a_panel_that_is_none_is_refused_before_anything_is_installed(package, monkeypatch, capsys, words):
    monkeypatch.setattr(Environment, "prepare", lambda self, extra: pytest.fail("installed"))
    assert main(["stage", *words], package) == 1
    said = capsys.readouterr().err
    assert said.startswith("panel is '")
    assert said.endswith("'corner', 'weave', 'stitch', 'spacing'; for example 'margin'.\n")
    assert len(said) < 400


def test_what_can_be_named_is_what_can_be_shown():
    assert list(stage.ON_STAGE) == list(ACTS)


@pytest.mark.parametrize(
    ("code", "said"), [(0, "The stage is closed."), (1, "The stage stopped with an error")]
)
def test_how_it_ended_is_said(opened, capsys, code, said):
    assert opened([], code)[0] == code
    assert said in "".join(capsys.readouterr())


def test_a_button_beside_a_panel_opens_the_stage_that_runs_and_else_says_the_command(tmp_path, monkeypatch):
    monkeypatch.setenv("JUPYTER_RUNTIME_DIR", str(tmp_path))
    shown = []
    monkeypatch.setattr(webbrowser, "open", shown.append)
    box = to_stage("corner")
    page = tmp_path / "hemcalc-stage-corner.html"
    with socket.socket() as server:
        server.bind(("127.0.0.1", 0))
        server.listen()
        address = f"http://127.0.0.1:{server.getsockname()[1]}/"
        box.children[0].click()
        assert "<code>python3 -m hemcalc stage corner</code>" in box.children[1].value
        page.write_text(address)
        box.children[0].click()
        assert shown == [page.as_uri()]
    box.children[0].click()  # its page is still there, but it is gone
    assert "python3 -m hemcalc stage corner" in box.children[1].value
    assert len(shown) == 1
