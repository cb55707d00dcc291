"""The folder of pages: every notebook is run, and its page put where nothing of someone else's stands."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

import nbformat
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError
from traitlets.config import Config

from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.files import file_name, is_passing, put_file
from hemcalc.send.page import MARK, page_html

#: Of a folder that is to be sent round, in bytes.
LARGEST = 30_000_000

#: The cell before the first, which the page does not show.
PREPARE = "from hemcalc.send.strips import show_strips; show_strips(get_ipython())"
# Else the kernel warns of eavesdroppers, in words that frighten more than they tell.
_QUIET = Config({"KernelManager": {"transport_encryption": "auto"}})
_CELL = 300  # seconds that a cell may take


def send_folder(notebooks: str | Path, folder: str | Path, say: Callable[[str], object] = print) -> None:
    """Make the pages of all notebooks of a folder in another one, which may hold earlier such pages.

    Refused if there is no folder of notebooks, the other holds anything else or can't be written to, or a
    notebook doesn't run.
    """
    notebooks, folder = Path(file_name(notebooks, "notebooks")), Path(file_name(folder, "folder"))
    if not notebooks.is_dir():
        raise HemError(f"There is no folder {shown(notebooks.name)}; for example 'notebooks'.", "notebooks")
    if not callable(say):
        raise HemError(f"say is {shown(say)}, but must be a function; for example print.", "say")
    paths = sorted(notebooks.glob("*.ipynb"))
    _refuse_others(folder, [f"{path.stem}.html" for path in paths])
    with tempfile.TemporaryDirectory() as passing:
        copies = Path(passing) / "notebooks"
        shutil.copytree(notebooks, copies)  # where the notebooks save what they make
        pages = {}
        for number, path in enumerate(paths, start=1):
            say(f"Page {number} of {len(paths)}: {path.stem}")
            pages[f"{path.stem}.html"] = _page(copies / path.name).encode()
        _refuse_others(folder, [*pages])  # since it was looked at, minutes have gone
        put_pages(folder, pages)
    size = sum(map(len, pages.values()))
    place = str(folder).encode("utf-8", "replace").decode()
    say(f"{len(pages)} pages, {size / 1e6:.1f} MB, are in {place}. Open {next(iter(pages), 'none')} there.")


def run(path: Path) -> nbformat.NotebookNode:
    """A notebook with what its cells say, its panels as strips of pictures; refused if a cell doesn't run."""
    notebook: nbformat.NotebookNode = nbformat.read(path, as_version=4)
    notebook.cells.insert(0, nbformat.v4.new_code_cell(PREPARE))
    client = NotebookClient(
        notebook, timeout=_CELL, resources={"metadata": {"path": str(path.parent)}}, config=_QUIET
    )
    try:
        client.execute()
    except CellExecutionError as error:
        what = shown(f"{error.ename}: {error.evalue}")
        raise HemError(f"The notebook {path.stem} stopped at a cell that can't be done: {what}") from None
    del notebook.cells[0]
    return notebook


def _page(path: Path) -> str:
    return page_html(run(path))


def _refuse_others(folder: Path, names: list[str]) -> None:
    """Refuse a folder in which something stands that wasn't made here."""
    example = "name one that is new or empty, such as my_pages/to_send"
    try:
        there = sorted(os.listdir(folder)) if os.path.lexists(folder) else []
    except NotADirectoryError:
        raise HemError(f"{shown(folder.name)} is a file; {example}.", "folder") from None
    except OSError as error:
        raise _not_written(folder, error) from None
    ours = (*names, *filter(is_passing, there))  # a passing file is left of a run that was killed
    others = [name for name in there if name not in ours or not _is_page(folder / name)]
    if others:
        raise HemError(
            f"The folder {shown(folder.name)} holds {shown(others[0])}, which is not one of these pages, and "
            f"so is left as it is; {example}.",
            "folder",
        )


def _is_page(path: Path) -> bool:
    """Whether it is one of these pages, or was to be; a link is somebody else's."""
    if path.is_symlink() or not path.is_file():
        return False
    try:
        with path.open("rb") as file:
            return is_passing(path.name) or MARK in file.read(1000).decode("utf-8", "replace")
    except OSError:
        return False


def put_pages(folder: Path, pages: dict[str, bytes]) -> None:
    """Write the pages, each in one go."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, page in pages.items():
            put_file(folder / name, page, replace=True)
    except OSError as error:
        raise _not_written(folder, error) from None


def _not_written(folder: Path, error: OSError) -> HemError:
    return HemError(
        f"The folder {shown(folder.name)} could not be written ({error.strerror or error}); make room, "
        "or name a folder of your own, such as my_pages/to_send.",
        "folder",
    )
