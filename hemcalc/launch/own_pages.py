"""Her own pages: a copy of every notebook, so that the originals stay as they are, and can be had afresh.

The lab saves by itself. What it saves is in the folder ``my_pages``, with what the pages make.
"""

from __future__ import annotations

import contextlib
import datetime
import hashlib
import json
import os
from pathlib import Path
from typing import Any

from hemcalc.launch.environment import Environment
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.files import put_file

#: The folders in the checkout: of her pages, and of the originals.
OWN, ORIGINALS = "my_pages", "notebooks"

#: In her folder: the digest of the original that each page was copied from.
RECORD = ".originals.json"


def lay_out(root: Path) -> tuple[str, ...]:
    """Copy each page that she has not; the numbers of those whose original has changed since.

    A page that she never changed follows its original; what is no file in its place is left alone.

    Raises
    ------
    OSError
        If the folder can't be written to.
    """
    own, newer = root / OWN, []
    own.mkdir(exist_ok=True)
    record = _record(own)
    for original in originals(root):
        page, content = own / original.name, original.read_bytes()
        came_from, is_to_be = record.get(page.name), _digest(content)
        is_now = _digest(page.read_bytes()) if page.is_file() else None
        if is_now is None and os.path.lexists(page):
            continue
        if is_now in (None, came_from, is_to_be):
            if is_now != is_to_be:
                with contextlib.suppress(FileExistsError):  # another window has just laid it out
                    put_file(page, content, replace=is_now is not None)
            record[page.name] = is_to_be
        elif came_from and came_from != is_to_be:
            newer.append(_number(page))
    put_file(own / RECORD, _text(record), replace=True)
    return tuple(newer)


def afresh(root: Path, asked: str) -> str:
    """Put the original in the place of a page, keep her old page beside it, and say so.

    The page is asked for by its number or its name: ``03``, ``3`` or ``03_folds_and_the_mitre``. Refused if
    there is no such page, or the folder can't be written to.
    """
    there = {_number(original): original for original in originals(root)}
    number = asked.strip().partition("_")[0].removesuffix(".ipynb")
    number = number.zfill(2) if number else ""
    if number not in there:
        pages = f"the pages are {', '.join(there)}, for example 03." if there else "nor any other here."
        raise HemError(f"There is no page {shown(asked)}; {pages}", "page")
    original, own = there[number], root / OWN
    page, content = own / original.name, original.read_bytes()
    try:
        own.mkdir(exist_ok=True)
        old = page.read_bytes() if page.is_file() else content
        kept = _keep(page, old) if old != content else None
        put_file(page, content, replace=True)
        put_file(own / RECORD, _text(_record(own) | {page.name: _digest(content)}), replace=True)
    except OSError as error:
        raise HemError(
            f"{page.name} could not be put into the folder {OWN} ({error.strerror or error}); make room, or "
            "move the checkout to a folder of your own."
        ) from None
    if kept is None:
        return f"Page {number} is as the original."
    return (
        f"Page {number} is as the original again; your old page is kept beside it, as {kept.name}. If the "
        "page is open, choose File, then Reload Notebook from Disk."
    )


def run_afresh(environment: Environment, *words: str) -> int:
    """The command: one page afresh."""
    if len(words) != 1:
        raise HemError(f"Say which page you want afresh; for example: {environment.example('afresh 03')}")
    print(afresh(environment.root, words[0]))
    return 0


def leave_stills(model: dict[str, Any], **_: object) -> None:
    """Have the lab save a panel as its still picture and the line that says how to wake it.

    Of a panel itself a page keeps but a name, which no later kernel knows: opened again, Lab would show
    an error in its place.
    """
    if model["type"] != "notebook":
        return
    model["content"]["metadata"].pop("widgets", None)
    for cell in model["content"]["cells"]:
        for output in cell.get("outputs", ()):
            if len(shown := output.get("data", {})) > 1:
                shown.pop("application/vnd.jupyter.widget-view+json", None)


def originals(root: Path) -> list[Path]:
    """The original of each page, in order."""
    return sorted((root / ORIGINALS).glob("[0-9][0-9]_*.ipynb"))


def _number(page: Path) -> str:
    return page.name.partition("_")[0]


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _record(own: Path) -> dict[str, str]:
    """What each page was copied from, as far as that is known."""
    try:
        record = json.loads((own / RECORD).read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return record if isinstance(record, dict) else {}


def _text(record: dict[str, str]) -> bytes:
    return json.dumps(record, indent=1).encode()


def _keep(page: Path, content: bytes) -> Path:
    """Her page under a name of its own, with the day; nothing is overwritten."""
    day, again = datetime.date.today().isoformat(), 1
    while True:
        kept = page.with_stem(f"{page.stem}_{day}" + (f"_{again}" if again > 1 else ""))
        try:
            put_file(kept, content, replace=False)
            return kept
        except FileExistsError:
            again += 1
