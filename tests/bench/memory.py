"""How much a kernel grows when notebooks are run again and again in it, and when sliders are moved.

    python tests/bench/memory.py [RUNS [NAME ...]]
    python tests/bench/memory.py moves [MOVES [PANEL ...]]

It passes and fails nothing. Each notebook has a kernel of its own, as in the lab, and is run from top
to bottom so many times, with its cells named as the lab names them. Printed are what the kernel takes
of the machine's memory after each run, in MB, and how many figures and widgets it holds. With *moves*
each panel has a process of its own, any of its controls is moved to any of its places, 10,000 times,
and what it takes is printed after each tenth.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import nbformat
from jupyter_client.manager import start_new_kernel

ROOT = Path(__file__).parents[2]
ASK = """
import gc, psutil, sys
from ipywidgets.widgets import widget as _all
gc.collect()
_figure = sys.modules.get("matplotlib.figure")
print(psutil.Process().memory_info().rss // 2**20,
      sum(isinstance(o, _figure.Figure) for o in gc.get_objects()) if _figure else 0, len(_all._instances))
"""
PANELS = ("margin", "corner", "weave", "stitch", "spacing", "count", "bolt")
MOVE = """
import gc, psutil, random, sys
import hemcalc.panels
name, moves = sys.argv[1], int(sys.argv[2])
panel, rng = getattr(hemcalc.panels, name + "_panel")(), random.Random(7)
for move in range(1, moves + 1):
    widget = rng.choice([c.widget for c in panel.controls.values()])
    if hasattr(widget, "options"):
        widget.value = rng.choice(widget.options)
    elif hasattr(widget, "max"):
        places = round((widget.max - widget.min) / widget.step)
        widget.value = widget.min + widget.step * rng.randint(0, places)
    else:
        widget.value = not widget.value
    if move % (moves // 10) == 0:
        gc.collect()
        print(psutil.Process().memory_info().rss // 2**20, end=" ", flush=True)
print()
"""


def grown(path: Path, runs: int) -> list[list[int]]:
    """MB, figures and widgets after each run."""
    cells = [cell for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == "code"]
    variables = os.environ | {"PYTHONPATH": str(ROOT)}
    manager, client = start_new_kernel(kernel_name="python3", cwd=str(path.parent), env=variables)
    try:
        found = []
        for _ in range(runs):
            for cell in cells:
                _ask(client, cell.source, cell.id)
            found.append([int(number) for number in _ask(client, ASK, "").split()])
        return found
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)


def _ask(client: object, code: str, cell: str) -> str:
    """Have the kernel run this as the cell of that name, and give what it prints."""
    message = client.session.msg("execute_request", {"code": code, "silent": False, "store_history": True})  # type: ignore[attr-defined]
    message["metadata"]["cellId"] = cell
    client.shell_channel.send(message)  # type: ignore[attr-defined]
    said = ""
    while True:
        answer = client.get_iopub_msg(timeout=120)  # type: ignore[attr-defined]
        if answer["parent_header"].get("msg_id") != message["header"]["msg_id"]:
            continue
        if answer["msg_type"] == "stream":
            said += answer["content"]["text"]
        if answer["msg_type"] == "status" and answer["content"]["execution_state"] == "idle":
            return said


if __name__ == "__main__":
    if sys.argv[1:2] == ["moves"]:
        many, *names = sys.argv[2:] or ["10000"]
        for name in names or PANELS:
            print(f"{name:10}", end="", flush=True)
            around = os.environ | {"PYTHONPATH": str(ROOT), "HEMCALC_SETTINGS": ""}
            subprocess.run([sys.executable, "-c", MOVE, name, many], env=around, check=True)
        sys.exit()
    many, *names = sys.argv[1:] or ["5"]
    for name in names or sorted(path.stem for path in (ROOT / "notebooks").glob("*.ipynb")):
        print(
            f"{name:36}",
            *("/".join(map(str, each)) for each in grown(ROOT / f"notebooks/{name}.ipynb", int(many))),
        )
