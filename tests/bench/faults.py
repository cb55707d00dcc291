"""Files under fault, caused and not imagined: what writes is killed in mid-write, and its disk is full.

    python tests/bench/faults.py            500 kills of each that writes, and a full disk
    python tests/bench/faults.py 50

A *kill* is SIGKILL, at a random moment, to a process that does nothing but write, over an old file and to
new names in turn. Then every file is read, and must be one of those that were to be written, whole.
*Left* are passing files that a killed process could not take away; the next one that writes there a
minute later does. The disk is a tmpfs, mounted where this is root; what doesn't fit must leave the old
file, nothing else, and one sentence. `tests/measure/test_files.py` has a few of each. For Linux and macOS.
"""

from __future__ import annotations

import itertools
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[2]))

from hemcalc import EXAMPLES, HemError, load_piece, save_piece
from hemcalc.launch.own_pages import afresh, lay_out
from hemcalc.measure.files import is_passing
from hemcalc.panels.settings import Settings
from hemcalc.paper import Leaflet
from hemcalc.send.folder import put_pages
from hemcalc.send.page import MARK
from hemcalc.sums.progress import Done, Progress, load_progress
from hemcalc.workshop import save_csv

PIECES = list(EXAMPLES.values())[:2]
PAGES = [f"{MARK}{'x' * 60_000}".encode(), f"{MARK}{'y' * 90_000}".encode()]
ORIGINALS = [b"first" * 9_000, b"second" * 12_000]


class Writer(NamedTuple):
    """What writes: its n-th write in a folder, and whether a file there is one that it would write."""

    write: Callable[[Path, int], object]
    whole: Callable[[Path], object]


class _Sheet(Leaflet):
    """A leaflet that is printed already."""

    def pdf(self, *, greys: bool = False) -> bytes:
        return b"%PDF" + b"z" * 50_000


def _own_pages(folder: Path, n: int) -> None:
    if not (folder / "notebooks").exists():
        (folder / "notebooks").mkdir()
        for name, content in zip(("00_start.ipynb", "03_folds.ipynb"), ORIGINALS, strict=True):
            (folder / "notebooks" / name).write_bytes(content)
    lay_out(folder)
    (folder / "my_pages" / "00_start.ipynb").unlink()
    lay_out(folder)
    afresh(folder, "03")


def _sums(folder: Path, n: int) -> None:
    path = folder / "sums.txt"
    before = load_progress(str(path)) if path.exists() else Progress()
    if len(before.done) > 300:
        path.unlink()
        before = Progress()
    before.with_done(Done(n, 3, 2, 3)).save(str(path))


def _settings(folder: Path, n: int) -> None:
    settings = Settings(folder / "set.json")
    settings.choose("unit", ("cm", "mm", "in")[n % 3])
    if settings.sentence:
        raise HemError(settings.sentence)


WRITERS = {
    "a piece": Writer(
        lambda folder, n: (
            save_piece(PIECES[n % 2], folder / "piece.json", replace=True),
            save_piece(PIECES[n % 2], folder / f"piece {time.monotonic_ns()}.json"),
        ),
        lambda path: load_piece(path) in PIECES,
    ),
    "a sheet": Writer(
        lambda folder, n: _Sheet("sheet", []).save(folder / "sheet.pdf", replace=True),
        lambda path: path.read_bytes() == _Sheet("sheet", []).pdf(),
    ),
    "a class": Writer(
        lambda folder, n: save_csv(
            folder / "class.csv", [{"learner": "Ada", "piece": "x" * 9_000 * (n % 2 + 1)}], replace=True
        ),
        lambda path: path.read_bytes().endswith(b"x\r\n"),
    ),
    "own pages": Writer(
        _own_pages,
        lambda path: (
            path.read_bytes() in ORIGINALS or (path.suffix == ".json" and path.read_bytes()[-1:] == b"}")
        ),
    ),
    "her sums": Writer(_sums, lambda path: load_progress(str(path)).text().encode() == path.read_bytes()),
    "settings": Writer(
        _settings,
        lambda path: not Settings(path).sentence,
    ),
    "pages to send": Writer(
        lambda folder, n: put_pages(folder / "sent", {"a.html": PAGES[n % 2], "b.html": PAGES[n % 2]}),
        lambda path: path.read_bytes() in PAGES,
    ),
}


def killed(writer: Writer, folder: Path, kills: int, seed: int) -> tuple[list[str], int]:
    """The files that were not whole after so many kills, and how many passing ones were left."""
    chance, broken, left = random.Random(seed), [], 0
    writer.write(folder, 0)  # the old file, which the slowest machine has before the first kill
    for _ in range(kills):
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of threads: the child does nothing but write
            child = os.fork()
        if not child:
            try:
                for n in itertools.count():
                    writer.write(folder, n)
            finally:
                os._exit(1)
        time.sleep(chance.uniform(0, 0.03))
        os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        if os.waitstatus_to_exitcode(status) != -signal.SIGKILL:
            broken.append("it stopped by itself")
        for path in files_in(folder):
            if is_passing(path.name):
                left += 1
                path.unlink()
            elif not _is_whole(writer, path):
                broken.append(path.name)
            elif path.name.startswith("piece "):
                path.unlink()
    return broken, left


def _is_whole(writer: Writer, path: Path) -> bool:
    try:
        return bool(writer.whole(path))
    except (ValueError, OSError):
        return False


def full(writer: Writer, folder: Path) -> tuple[str, list[str]]:
    """What is said of a write where no room is left, and the files that are not as they were or as asked."""
    for n in range(2):
        writer.write(folder, n)
    before = files_in(folder)
    with suppress(OSError), (folder / ".filler").open("wb", buffering=0) as filler:
        while filler.write(b"x" * 512):
            pass
    said = "It was written"
    try:
        for n in range(2):
            writer.write(folder, n)
    except (HemError, OSError) as error:
        said = str(error)
    (folder / ".filler").unlink()
    after = files_in(folder)
    spoilt = [path.name for path in after if not _is_whole(writer, path)]
    # The first own page is deleted on purpose, to be laid out anew.
    lost = [path.name for path in before if path not in after and path.name != "00_start.ipynb"]
    return said, [*spoilt, *lost]


def files_in(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file()]


def main(kills: int) -> None:
    """The table."""
    for name, writer in WRITERS.items():
        with tempfile.TemporaryDirectory() as folder:
            start = time.monotonic()
            broken, left = killed(writer, Path(folder), kills, seed=1)
            seconds = time.monotonic() - start
        print(
            f"{name:<14} {kills} kills, {len(broken)} files not whole, {left} left, {seconds:.0f} s",
            flush=True,
        )
        for each in sorted(set(broken)):
            print(f"    {each}")
    if os.geteuid():
        print("The full disk is left out: only root can mount one.")
        return
    for name, writer in WRITERS.items():
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "hemcalc", folder], check=True)
            try:
                said, spoilt = full(writer, Path(folder))
                print(f"{name:<14} {said} Spoilt: {', '.join(spoilt) or 'none'}.", flush=True)
            finally:
                subprocess.run(["umount", folder], check=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
