"""Files under fault, each caused: the old file whole or the new one, nothing overwritten, and one sentence.

The faults are the system's own: processes killed, links, folders that are closed, disks that are full.
"""

import importlib.util
import os
import resource
import sys
import tempfile
import time
import warnings
from contextlib import contextmanager
from pathlib import Path
from unittest import mock

import pytest

from hemcalc.launch.own_pages import afresh, lay_out
from hemcalc.measure.errors import HemError
from hemcalc.measure.files import alone, is_passing, read_file, write_file
from hemcalc.panels.settings import Settings
from hemcalc.sums.progress import Done, Progress, load_progress

SPEC = importlib.util.spec_from_file_location("faults", Path(__file__).parent / "bench" / "faults.py")
bench = importlib.util.module_from_spec(SPEC)
sys.modules["faults"] = bench
SPEC.loader.exec_module(bench)


def said(doing):
    """The sentence with which something is refused."""
    with pytest.raises(HemError) as refused:
        doing()
    return str(refused.value)


def names(folder):
    return sorted(os.listdir(folder))


@pytest.mark.parametrize("name", bench.WRITERS)
def test_what_is_killed_in_mid_write_leaves_the_old_file_or_the_new(tmp_path, name):
    broken, _ = bench.killed(bench.WRITERS[name], tmp_path, 5, seed=2)
    assert broken == []
    assert bench.files_in(tmp_path)


def test_what_a_killed_program_has_left_is_cleared_away_a_minute_later(tmp_path):
    old, new, mine = (tmp_path / f".{name}.hemcalc" for name in ("0" * 16, "1" * 16, "linen"))
    for path in (mine, old, new):
        path.touch()
    (link := tmp_path / f".{'2' * 16}.hemcalc").symlink_to(tmp_path / "gone")
    for path in (mine, old, link):
        os.utime(path, (time.time() - 99,) * 2, follow_symlinks=False)
    write_file(tmp_path / "a.txt", b"a")
    assert names(tmp_path) == [new.name, mine.name, "a.txt"]
    assert [is_passing(path.name) for path in (mine, old)] == [False, True]


@contextmanager
def small_files():
    """No file may grow beyond 100 bytes, as if no more were free."""
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (100, usual[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)


@contextmanager
def nobody():
    """As a user who is not root."""
    if os.geteuid():
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.mark.parametrize("there", [True, False])
def test_a_disk_without_room_leaves_the_old_file_and_nothing_else(tmp_path, there):
    path = tmp_path / "a.txt"
    if there:
        path.write_bytes(b"hers")
    with small_files():
        assert "can't be written (File too large)" in said(
            lambda: write_file(path, b"x" * 200, replace=there)
        )
    assert [each.read_bytes() for each in tmp_path.iterdir()] == [b"hers"] * there


def test_a_folder_that_is_closed_is_said_and_one_that_is_gone():
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "below", "a.txt")
        path.parent.mkdir()
        path.write_bytes(b"hers")
        Path(folder).chmod(0o755)
        path.parent.chmod(0o555)
        with nobody():
            assert "permissions forbid it" in said(lambda: write_file(path.with_name("b.txt"), b""))
            assert "permissions forbid it" in said(lambda: write_file(path, b"", replace=True))
            settings = Settings(path.with_name("set.json"))
            settings.choose("unit", "cm")
            assert "permissions forbid it" in settings.sentence
            assert "permissions forbid it" in said(
                lambda: Progress((Done(7, 3, 2, 3),)).save(str(path) + "s")
            )
        assert names(path.parent) == ["a.txt"]
        assert path.read_bytes() == b"hers"
        path.parent.chmod(0o755)
        path.unlink()
        path.parent.rmdir()
        assert "no folder 'below'" in said(lambda: write_file(path, b""))


# A pipe of its own: a change of the code that wrote to a device would leave the machine without it.
@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this machine makes no pipes with names")
def test_what_is_no_ordinary_file_is_not_written_to(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "link").symlink_to(tmp_path / "pipe")
    assert "no ordinary file" in said(lambda: write_file(tmp_path / "link", b"a", replace=True))
    assert (tmp_path / "pipe").is_fifo()


def test_who_reads_adds_and_writes_holds_the_folder_alone(tmp_path):
    fcntl = pytest.importorskip("fcntl")
    other = os.open(tmp_path, os.O_RDONLY)
    # What nobody holds is held at once: nobody looks at the clock again.
    clock = mock.patch("hemcalc.measure.files.time.monotonic", side_effect=[0.0, 0.0])
    with clock, alone(tmp_path / "my_sums.txt"), pytest.raises(BlockingIOError):
        fcntl.flock(other, fcntl.LOCK_EX | fcntl.LOCK_NB)
    fcntl.flock(other, fcntl.LOCK_EX | fcntl.LOCK_NB)
    os.close(other)


@pytest.mark.parametrize("replace", [True, False])
def test_a_link_in_the_way_is_followed_if_asked_and_else_left_alone(tmp_path, replace):
    below = tmp_path / "elsewhere"
    below.mkdir()
    for name, to in {
        "away": below / "a",
        "dangling": below / "b",
        "loop": tmp_path / "loop",
        "to": below,
    }.items():
        (tmp_path / name).symlink_to(to)
    (below / "a").write_bytes(b"hers")
    if replace:
        write_file(tmp_path / "away", b"new", replace=True)
        write_file(tmp_path / "dangling", b"new", replace=True)
        assert "symbolic links" in said(lambda: write_file(tmp_path / "loop", b"new", replace=True))
    else:
        for name in ("away", "dangling", "loop"):
            assert "already" in said(lambda name=name: write_file(tmp_path / name, b"new"))
    assert "is a folder" in said(lambda: write_file(tmp_path / "to", b"new", replace=replace))
    assert names(below) == (["a", "b"] if replace else ["a"])
    assert (below / "a").read_bytes() == (b"new" if replace else b"hers")
    assert all((tmp_path / name).is_symlink() for name in ("away", "dangling", "loop", "to"))
    assert len(names(tmp_path)) == 5


GOOD = [
    "with space",
    "bread, cloth",
    "100 %",
    "%s %(x)d",
    "Tischläufer",
    "刺绣.json",
    "наволочка",
    "🧵",
    "CON",
    "nul.txt",
]
GOOD += ["a.", "a:b", "-rf", "'", '"', "two\nlines", "\ttab", "~", "*?<>|", "ß" * 127, "\u202egnp.txt"]


@pytest.mark.parametrize("name", GOOD)
def test_a_name_that_this_computer_can_have_is_had(tmp_path, name):
    write_file(tmp_path / name, b"new")
    assert names(tmp_path) == [name]
    assert read_file(tmp_path / name, most=3) == b"new"
    assert "already" in said(lambda: write_file(tmp_path / name, b"newer"))


@pytest.mark.parametrize("name", ["a/b", "a/", "/", "..", ".", "", "a\0b", "ä" * 128, "\ud800", "a" * 5000])
def test_a_name_that_it_can_not_have_is_said(tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    for replace in (True, False):
        said(lambda replace=replace: write_file(name, b"new", replace=replace))
    said(lambda: read_file(name, most=9))
    assert names(tmp_path) == []


def test_names_that_differ_by_case_alone_lose_nothing(tmp_path):
    """Two files where the system can tell them apart, and else a refusal."""
    write_file(tmp_path / "Ada.txt", b"Ada")
    try:
        write_file(tmp_path / "ADA.txt", b"ADA")
    except HemError:
        assert names(tmp_path) == ["Ada.txt"]
    assert read_file(tmp_path / "Ada.txt", most=3) == b"Ada"


def both(doing):
    """Two processes that do it at once; how many times each could."""
    pipes = []
    for number in range(2):
        reads, writes = os.pipe()
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            child = os.fork()
        if not child:
            try:
                os.write(writes, str(doing(number)).encode())
            finally:
                os._exit(0)
        os.close(writes)
        pipes.append((child, reads))
    found = []
    for child, reads in pipes:
        os.waitpid(child, 0)
        found.append(int(os.read(reads, 9)))
        os.close(reads)
    return found


def tried(save, *given):
    try:
        save(*given)
        return 1
    except HemError:
        return 0


def test_of_two_who_save_at_once_under_one_name_one_is_refused(tmp_path):
    def save(number):
        return sum(tried(write_file, tmp_path / f"{n}", b"%d" % number * 9_000) for n in range(40))

    assert sum(both(save)) == 40
    assert len(names(tmp_path)) == 40
    assert {read_file(path, most=9_000) for path in tmp_path.iterdir()} <= {b"0" * 9_000, b"1" * 9_000}


def test_of_two_who_add_to_a_file_at_once_neither_loses_a_line(tmp_path):
    path = str(tmp_path / "sums.txt")

    def add(number):
        wrote = 0
        while wrote < 15:
            before = load_progress(path) if os.path.exists(path) else Progress()
            wrote += tried(before.with_done(Done(wrote, 3, number, 3)).save, path)
        return wrote

    assert both(add) == [15, 15]
    lines = [(done.right, done.seed) for done in load_progress(path).done]
    assert sorted(lines) == [(number, seed) for number in range(2) for seed in range(15)]


def test_of_two_who_set_something_at_once_neither_loses_it(tmp_path):
    file = tmp_path / "set.json"

    def choose(number):
        mine = Settings(file)
        for _ in range(15):
            for value in (("cm", "mm"), ("left", "right"))[number]:
                mine.choose(("unit", "hand")[number], value)
        return 1

    both(choose)
    assert Settings(file).chosen == {"unit": "mm", "hand": "right"}


@pytest.fixture
def checkout(tmp_path):
    (tmp_path / "notebooks").mkdir()
    for name in ("00_start.ipynb", "03_folds.ipynb"):
        (tmp_path / "notebooks" / name).write_bytes(b"first")
    return tmp_path


@pytest.mark.parametrize("what", ["folder", "dangling", "loop", "elsewhere"])
def test_what_is_no_page_in_her_folder_is_left_alone(checkout, what):
    own = checkout / "my_pages"
    own.mkdir()
    page, hers = own / "03_folds.ipynb", checkout / "hers"
    hers.write_bytes(b"hers")
    if what == "folder":
        page.mkdir()
    else:
        page.symlink_to({"dangling": checkout / "none", "loop": page, "elsewhere": hers}[what])
    assert lay_out(checkout) == ()
    assert (own / "00_start.ipynb").read_bytes() == b"first"
    assert page.is_symlink() or page.is_dir()
    if what in ("folder", "loop"):
        assert "03_folds.ipynb could not be put into" in said(lambda: afresh(checkout, "03"))
    else:
        afresh(checkout, "03")
        assert page.read_bytes() == b"first"
    kept = [path.read_bytes() for path in own.glob("03_folds_*")]
    assert kept == ([b"hers"] if what == "elsewhere" else [])
    assert hers.read_bytes() == (b"first" if what == "elsewhere" else b"hers")


def test_pages_laid_out_by_a_run_that_was_killed_follow_their_originals(checkout):
    lay_out(checkout)
    (checkout / "my_pages" / ".originals.json").unlink()  # written last
    lay_out(checkout)
    (checkout / "notebooks" / "03_folds.ipynb").write_bytes(b"second")
    assert lay_out(checkout) == ()
    assert (checkout / "my_pages" / "03_folds.ipynb").read_bytes() == b"second"
