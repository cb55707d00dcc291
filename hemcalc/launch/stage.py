"""The stage: one panel alone in the browser, on Voila, until it is stopped.

Voila shows one page, made here, in a template of ours that asks nothing of any other machine. It
listens on this machine only, asks for a token as JupyterLab does, and runs what the page says and no
more.
"""

from __future__ import annotations

import contextlib
import json
import os
import re
import secrets
import socket
import subprocess
import time
from collections.abc import Sequence
from pathlib import Path

from hemcalc.launch.environment import Environment
from hemcalc.launch.serving import open_browser, serve
from hemcalc.measure.errors import one_of
from hemcalc.measure.files import put_file

#: What can be shown: a panel's name, and what it shows.
ON_STAGE = {
    "margin": "the margin rule, thread by thread, and its folds",
    "corner": "the corner, trimmed and folded, and its layers",
    "weave": "threads drawn out and darned back, step by step",
    "stitch": "the path of the hem stitch, step by step",
    "spacing": "how the groups of a side come out",
}
_TEMPLATES = Path(__file__).parent / "page"
_CELL = "from hemcalc.panels.stage import stage\n\nstage()"
_PATIENCE = 60  # seconds that Voila has to come up


def show_stage(environment: Environment, *words: str) -> int:
    """Open the stage, on the panel that is named or else on the list, until it is stopped; then 0."""
    if words:
        one_of(" ".join(words), tuple(ON_STAGE), "panel")
    environment.prepare("notebooks")
    print("Opening the stage in your browser. To stop, press Ctrl-C here.", flush=True)
    with environment.variables() as variables, socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
        free.close()
        pages = {name: _page(Path(variables["JUPYTER_RUNTIME_DIR"]), name) for name in ("", *ON_STAGE)}
        told = stage_variables(variables)

        def show(process: subprocess.Popen[bytes]) -> None:
            if _is_up(process, port):
                for name, page in pages.items():
                    _write(page, f"http://127.0.0.1:{port}/?panel={name}&token={told['JUPYTER_TOKEN']}")
                open_browser(pages[" ".join(words)])

        asked = arguments(Path(variables["JUPYTER_DATA_DIR"]), port)
        try:
            serve(
                environment,
                asked,
                environment.root,
                told,
                show,
                "The stage stopped with an error, and the lines",
            )
        finally:
            for page in pages.values():
                _withdraw(page, told["JUPYTER_TOKEN"])
    print("The stage is closed.")
    return 0


def running(name: str) -> Path | None:
    """The page that leads to a panel on the stage that runs beside this program; None if none does."""
    page = _page(Path(os.environ.get("JUPYTER_RUNTIME_DIR", ".")), name)
    found = re.search(r"127\.0\.0\.1:(\d+)", page.read_text("utf-8")) if page.is_file() else None
    return page if found and _answers(int(found[1])) else None


def stage_variables(variables: dict[str, str]) -> dict[str, str]:
    """The same, with the stage's template and what Voila is told in a file, and a token.

    No list of programs shows the token. The file has no pings sent, which nothing on one machine needs:
    with them tornado says on the terminal that it doesn't wait as long for an answer as it is told to.
    """
    ours = dict.fromkeys(("JUPYTER_PATH", "JUPYTER_CONFIG_PATH"), str(_TEMPLATES))
    return variables | ours | {"JUPYTER_TOKEN": secrets.token_hex(24)}


def arguments(folder: Path, port: int) -> Sequence[str]:
    """What Python is told to start Voila with; the page that it shows is written into the folder."""
    notebook = folder / "stage" / "stage.ipynb"
    notebook.parent.mkdir(parents=True, exist_ok=True)
    put_file(notebook, json.dumps(_notebook()).encode(), replace=True)
    return [
        *("-m", "voila", str(notebook), "--no-browser", "--template=stage"),
        *("--Voila.ip=127.0.0.1", f"--port={port}", "--Voila.port_retries=0"),
        "--token",  # asks for the one in the environment
        "--VoilaConfiguration.allow_template_override=NO",
        "--VoilaConfiguration.file_denylist=.*",  # no file is handed out
        "--KernelManager.transport_encryption=auto",  # else the kernel warns of eavesdroppers
        "--Application.log_level=ERROR",
    ]


def _notebook() -> dict[str, object]:
    """A notebook of one cell."""
    cell = {"cell_type": "code", "id": "stage", "metadata": {}, "source": _CELL}
    kernel = {"name": "python3", "display_name": "Python 3", "language": "python"}
    return {
        "cells": [cell | {"execution_count": None, "outputs": []}],
        "metadata": {"kernelspec": kernel, "title": "The stage"},
        "nbformat": 4,
        "nbformat_minor": 5,
    }


def _is_up(process: subprocess.Popen[bytes], port: int) -> bool:
    """Wait until it answers; not if it has ended, or takes too long."""
    until = time.monotonic() + _PATIENCE
    while process.poll() is None and time.monotonic() < until:
        if _answers(port):
            return True
        time.sleep(0.1)
    return False


def _answers(port: int) -> bool:
    with socket.socket() as asking:
        return asking.connect_ex(("127.0.0.1", port)) == 0


def _page(folder: Path, name: str) -> Path:
    """What leads a browser to the running stage; its token is in it, so nobody else may read it."""
    return folder / f"hemcalc-stage-{name or 'list'}.html"


def _withdraw(page: Path, token: str) -> None:
    """Take a page away, unless it leads to another stage by now."""
    with contextlib.suppress(OSError):
        if token in page.read_text("utf-8"):
            page.unlink()


def _write(page: Path, address: str) -> None:
    """A page that leads to the address, for this user's eyes only."""
    page.unlink(missing_ok=True)
    with open(os.open(page, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "w", encoding="utf-8") as file:
        said = address.replace("&", "&amp;")
        file.write(
            f'<!DOCTYPE html><meta http-equiv="refresh" content="0;url={said}"><a href="{said}">On</a>'
        )
