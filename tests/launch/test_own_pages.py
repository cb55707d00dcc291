"""Her own pages: copied where they are missing, never overwritten, and had afresh with hers kept."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from nbformat import read, v4

from hemcalc.launch.environment import Environment
from hemcalc.launch.lab import arguments
from hemcalc.launch.own_pages import OWN, RECORD, afresh, lay_out, run_afresh
from hemcalc.measure.errors import HemError

NAMES = ("00_start_here.ipynb", "03_folds.ipynb")
TODAY = datetime.date.today().isoformat()


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """A checkout of two pages, hers laid out."""
    (tmp_path / "notebooks").mkdir()
    for name in NAMES:
        (tmp_path / "notebooks" / name).write_text(f"first {name}")
    assert lay_out(tmp_path) == ()
    return tmp_path


def pages(root: Path) -> dict[str, str]:
    """All her pages, by name."""
    return {page.name: page.read_text() for page in (root / OWN).glob("*.ipynb")}


def test_she_gets_a_copy_of_every_page_and_the_originals_are_not_touched(root: Path) -> None:
    assert pages(root) == {name: f"first {name}" for name in NAMES}
    (root / OWN / NAMES[1]).write_text("hers")
    (root / OWN / "own notes.ipynb").write_text("notes")
    assert lay_out(root) == ()
    assert pages(root) == {NAMES[0]: f"first {NAMES[0]}", NAMES[1]: "hers", "own notes.ipynb": "notes"}
    assert (root / "notebooks" / NAMES[1]).read_text() == f"first {NAMES[1]}"


def test_a_newer_original_is_told_of_and_takes_the_place_of_an_unchanged_page_only(root: Path) -> None:
    (root / OWN / NAMES[1]).write_text("hers")
    for name in NAMES:
        (root / "notebooks" / name).write_text("second")
    for _ in range(2):  # it is said each time
        assert lay_out(root) == ("03",)
        assert pages(root) == {NAMES[0]: "second", NAMES[1]: "hers"}
    afresh(root, "03")
    assert lay_out(root) == ()


def test_a_page_that_was_deleted_comes_again(root: Path) -> None:
    (root / OWN / NAMES[1]).unlink()
    assert lay_out(root) == ()
    assert pages(root)[NAMES[1]] == f"first {NAMES[1]}"


@pytest.mark.parametrize("record", ["", "[]", '{"03_fol', None])
def test_a_lost_record_loses_no_page(root: Path, record: str | None) -> None:
    (root / OWN / NAMES[1]).write_text("hers")
    (root / OWN / RECORD).unlink() if record is None else (root / OWN / RECORD).write_text(record)
    (root / "notebooks" / NAMES[1]).write_text("second")
    assert lay_out(root) == ()
    assert pages(root)[NAMES[1]] == "hers"


@pytest.mark.parametrize("asked", ["03", "3", " 03 ", "03_folds", "03_folds.ipynb"])
def test_a_page_afresh_keeps_hers_beside_it_each_time(root: Path, asked: str) -> None:
    kept = [f"03_folds_{TODAY}.ipynb", f"03_folds_{TODAY}_2.ipynb"]
    for many, name in enumerate(kept, start=1):
        (root / OWN / NAMES[1]).write_text(f"hers {many}")
        assert name in afresh(root, asked)
        assert pages(root)[NAMES[1]] == f"first {NAMES[1]}"
    assert [pages(root)[name] for name in kept] == ["hers 1", "hers 2"]
    assert afresh(root, asked) == "Page 03 is as the original."
    assert len(pages(root)) == 4


def test_afresh_brings_a_page_that_is_missing_altogether(tmp_path: Path, root: Path) -> None:
    for path in (root / OWN).iterdir():
        path.unlink()
    (root / OWN).rmdir()
    assert afresh(root, "3") == "Page 03 is as the original."
    assert pages(root) == {NAMES[1]: f"first {NAMES[1]}"}


@pytest.mark.parametrize("asked", ["", "07", "folds", "../03", "x" * 5000, "030"])
def test_a_page_that_there_is_not_is_said_with_those_there_are(root: Path, asked: str) -> None:
    with pytest.raises(HemError, match=r"the pages are 00, 03, for example 03\.$"):
        afresh(root, asked)


def test_where_nothing_can_be_written_it_is_said(root: Path) -> None:
    lost = root / OWN
    lost.rename(root / "elsewhere")
    lost.write_text("a file in its place")
    with pytest.raises(HemError, match=r"03_folds\.ipynb could not be put into the folder my_pages"):
        afresh(root, "03")
    with pytest.raises(OSError, match="exists"):
        lay_out(root)


def test_the_lab_saves_a_panel_as_its_still_and_all_else_as_it_is_and_has_no_stage(tmp_path: Path) -> None:
    # Read here: no other test needs a server, and they are read slowly.
    from jupyter_server.serverapp import ServerApp
    from jupyter_server.services.contents.largefilemanager import LargeFileManager

    app = ServerApp()
    app.parse_command_line(arguments(tmp_path)[2:])
    assert app.jpserver_extensions["voila.server_extension"] is False
    view, still, text = "application/vnd.jupyter.widget-view+json", {"text/html": "<p>"}, {"text/plain": "7"}
    alone = {view: {"model_id": "2"}}
    page = v4.new_notebook(metadata={"widgets": {}, "title": "hers"})
    shown = [v4.new_output("display_data", data) for data in (still | text | alone, alone, text)]
    page.cells = [v4.new_code_cell(outputs=[*shown, v4.new_output("stream", text="7")])]
    lab = LargeFileManager(config=app.config, root_dir=str(tmp_path))
    lab.save({"type": "notebook", "content": page}, "a.ipynb")
    lab.save({"type": "file", "format": "text", "content": "her shopping"}, "a.txt")
    lab.notary.store.close()  # its database
    kept = read(tmp_path / "a.ipynb", 4)
    outputs = kept.cells[0].outputs
    assert kept.metadata.get("title") == "hers"
    assert "widgets" not in kept.metadata
    assert [each.get("data") for each in outputs] == [still | text, alone, text, None]
    assert outputs[-1].text == "7"
    assert (tmp_path / "a.txt").read_text() == "her shopping"


def test_the_command_wants_one_page(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    environment = Environment(root, "python3 -m hemcalc afresh")
    with pytest.raises(HemError, match=r"for example: python3 -m hemcalc afresh 03$"):
        run_afresh(environment)
    assert run_afresh(environment, "3") == 0
    assert capsys.readouterr().out == "Page 03 is as the original.\n"
