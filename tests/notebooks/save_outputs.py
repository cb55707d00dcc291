"""Runs the notebooks from top to bottom and saves what they say, for a reader without a kernel.

    python tests/notebooks/save_outputs.py [NAME ...]

Use it after a change that is meant to change outputs, and read the difference before you
commit it: nbval compares later runs with what is saved here.
"""

from __future__ import annotations

import sys
from pathlib import Path

import nbformat
from folding import fold
from nbclient import NotebookClient

FOLDER = Path(__file__).parents[2] / "notebooks"


def save_outputs(path: Path) -> None:
    """Run one notebook in its folder and write it back with its outputs and widgets."""
    notebook = nbformat.read(path, as_version=4)
    notebook.metadata.pop("widgets", None)
    NotebookClient(
        notebook,
        timeout=120,
        resources={"metadata": {"path": str(path.parent)}},
        record_timing=False,
        store_widget_state=True,
    ).execute()
    # The version of Python that happened to run it is nobody's business.
    notebook.metadata["language_info"] = {"name": "python"}
    fold(notebook)
    nbformat.write(notebook, path)


if __name__ == "__main__":
    chosen = sys.argv[1:] or sorted(path.stem for path in FOLDER.glob("*.ipynb"))
    for name in chosen:
        save_outputs(FOLDER / f"{name}.ipynb")
        print("saved", name)
