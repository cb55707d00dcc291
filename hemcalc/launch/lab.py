"""JupyterLab on the first notebook, until it is stopped."""

from __future__ import annotations

import contextlib
import os
import subprocess
import time
from pathlib import Path

from hemcalc.launch.environment import Environment
from hemcalc.launch.own_pages import ORIGINALS, OWN, lay_out
from hemcalc.launch.serving import open_browser, serve
from hemcalc.measure.errors import HemError
from hemcalc.measure.files import put_file

#: The first notebook.
START = "00_start_here.ipynb"

# What the lab writes once it is ready: a page that leads to it, and keeps its token from others. On
# Windows the number is not that of the process that was started here.
_READY = "jpserver-{}-open.html"


def open_notebooks(environment: Environment) -> int:
    """Open JupyterLab on her own first page, and stay until it is stopped; then 0."""
    if not (environment.root / ORIGINALS / START).is_file():
        raise HemError(
            f"The file {ORIGINALS}/{START} is missing; get it back with: git checkout -- notebooks"
        )
    environment.prepare("notebooks")
    root = _pages(environment)
    print("Opening the notebooks in your browser. To stop, press Ctrl-C here.", flush=True)
    with environment.variables() as variables:
        runtime = Path(variables["JUPYTER_RUNTIME_DIR"])
        earlier = _pages_of_labs(runtime)
        answer_in_sentences(variables)
        serve(
            environment,
            arguments(root),
            root,
            variables,
            lambda process: _show(process, runtime, earlier),
            "JupyterLab stopped with an error, and its own lines",
        )
    print("The notebooks are closed.")
    return 0


def _pages(environment: Environment) -> Path:
    """The folder of her own pages, laid out; where none can be made, that of the originals."""
    own = environment.root / OWN
    try:
        newer = lay_out(environment.root)
    except OSError as error:
        print(
            f"The folder {OWN} can't be written to ({error.strerror}): the notebooks run, but changes "
            "can't be saved."
        )
        return own if (own / START).is_file() else environment.root / ORIGINALS
    print(f"Your pages, and what you save, are in the folder {OWN}.")
    if newer:
        print(
            f"There is a newer original of page {', '.join(newer)}. To have it (yours is kept beside it): "
            f"{environment.example(f'afresh {newer[0]}')}"
        )
    return own


def answer_in_sentences(variables: dict[str, str]) -> None:
    """Have the kernels of this lab, and no others, load the sentences for first mistakes."""
    variables["IPYTHONDIR"] = str(Path(variables["IPYTHONDIR"]) / "lab")
    profile = Path(variables["IPYTHONDIR"]) / "profile_default"
    profile.mkdir(parents=True, exist_ok=True)
    asked = 'get_config().InteractiveShellApp.extensions = ["hemcalc.launch.mistakes"]\n'
    put_file(profile / "ipython_kernel_config.py", asked.encode("ascii"), replace=True)


def arguments(root: Path) -> list[str]:
    """What Python is told to start JupyterLab."""
    # Root, as in a container, must say that it is meant.
    root_user = ["--allow-root"] if getattr(os, "geteuid", lambda: 1)() == 0 else []
    return [
        *("-m", "jupyterlab", *root_user),
        "--no-browser",  # opened here: the lab's would be given the lab's variables
        f"--ServerApp.root_dir={root}",
        f"--LabApp.default_url=/lab/tree/{START}",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        # Else the kernel warns of eavesdroppers, in words that frighten more than they tell.
        "--KernelManager.transport_encryption=auto",
        # The stage's server has no business in the lab.
        "--ServerApp.jpserver_extensions=voila.server_extension=False",
        "--ContentsManager.pre_save_hook=hemcalc.launch.own_pages.leave_stills",
        "--ServerApp.kernel_websocket_connection_class=hemcalc.launch.prompt.Prompt",
        "--ServerApp.answer_yes=True",  # one Ctrl-C stops it
        "--Application.log_level=ERROR",
    ]


def _show(process: subprocess.Popen[bytes], runtime: Path, earlier: set[tuple[Path, int]]) -> None:
    """Wait until the lab is ready, which then says its address, and show it in the browser."""
    number = "*" if os.name == "nt" else str(process.pid)  # another window may open a lab, too
    while process.poll() is None:
        for page, _ in _pages_of_labs(runtime, number) - earlier:
            open_browser(page)
            return
        time.sleep(0.1)


def _pages_of_labs(runtime: Path, number: str = "*") -> set[tuple[Path, int]]:
    """Each page that is there, and when it was written: a lab that was killed leaves one."""
    there = set()
    for page in runtime.glob(_READY.format(number)):
        with contextlib.suppress(OSError):
            if (state := page.stat()).st_size:
                there.add((page, state.st_mtime_ns))
    return there
