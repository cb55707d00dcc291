"""The folder of pages: each needs nothing but itself, and nothing of someone else's is overwritten."""

from __future__ import annotations

import re
from pathlib import Path

import nbformat
import pytest
from nbclient.exceptions import CellExecutionError
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook, new_output

from hemcalc.measure.errors import HemError
from hemcalc.panels.settings import GREYS, SETTINGS, in_force
from hemcalc.send import folder as sending
from hemcalc.send.folder import send_folder
from hemcalc.send.page import MARK, SCRIPT, page_html

VIEW = {"application/vnd.jupyter.widget-view+json": {"model_id": "7"}}


def notebook(*outputs: nbformat.NotebookNode, hidden: bool = False) -> nbformat.NotebookNode:
    """A page with a title and links, and one cell that was run."""
    text = "# Where do I cut?\n\n[next](03_folds.ipynb) [there](03_folds.ipynb#why) [a web page](https://a.org/b)"
    cell = new_code_cell(
        "margin_panel()", outputs=list(outputs), metadata={"jupyter": {"source_hidden": hidden}}
    )
    made = new_notebook(cells=[new_markdown_cell(text), cell])
    made.metadata["widgets"] = {"application/vnd.jupyter.widget-state+json": {"state": {}}}
    return made


def output(**data: object) -> nbformat.NotebookNode:
    return new_output(
        "execute_result", data={name.replace("_", "/"): said for name, said in data.items()} | VIEW
    )


def test_a_page_fetches_nothing_and_fits_a_phone() -> None:
    page = page_html(notebook(output(text_html='<img alt="9" src="data:,">', text_plain="Panel")))
    assert re.findall(r'(?:src|srcset|href|action)="([^"]*)"', page) == [
        *("03_folds.html", "03_folds.html#why", "https://a.org/b"),  # what a reader may follow
        "data:,",
    ]
    assert not re.search(r"<(?:link|iframe|object|embed|base)\b|@import|url\(|import\(|fetch\(", page)
    assert "default-src 'none'" in page
    assert '<meta name="viewport" content="width=device-width, initial-scale=1">' in page
    assert "<title>Where do I cut?</title>" in page
    assert page.count("<script") == 1
    assert SCRIPT in page


@pytest.mark.parametrize(
    ("data", "seen", "unseen"),
    [
        ({"text_plain": "VBox(7)"}, "Here stands a form", "VBox"),
        ({"text_plain": "VBox(7)", "text_html": "<p>your guess: ___</p>"}, "your guess: ___", "VBox"),
    ],
)
def test_what_is_alive_in_a_notebook_stands_on_the_page_in_words(
    data: dict[str, str], seen: str, unseen: str
) -> None:
    page = page_html(notebook(output(**data)))
    assert seen in page
    assert unseen not in page
    assert "widget" not in page


@pytest.mark.parametrize("hidden", [True, False])
def test_code_that_is_folded_in_a_notebook_is_left_out(hidden: bool) -> None:
    assert ("margin_panel" not in page_html(notebook(hidden=hidden))) is hidden


@pytest.fixture
def notebooks(tmp_path: Path) -> Path:
    """Two notebooks, one of them with a panel, that save a file."""
    (tmp_path / "notebooks").mkdir()
    for name in ("02_margin", "03_folds"):
        nbformat.write(notebook(), tmp_path / "notebooks" / f"{name}.ipynb")
    return tmp_path / "notebooks"


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """No kernel: each notebook says what it has saved."""
    monkeypatch.setattr(sending, "run", lambda path: nbformat.read(path, as_version=4))


@pytest.mark.usefixtures("quick")
def test_the_folder_can_be_made_anew_and_says_how_large_it_is(notebooks: Path, tmp_path: Path) -> None:
    said: list[str] = []
    folder = tmp_path / "for" / "the class"
    for _ in range(2):
        send_folder(notebooks, folder, said.append)
        assert sorted(path.name for path in folder.iterdir()) == ["02_margin.html", "03_folds.html"]
    assert said[:2] == ["Page 1 of 2: 02_margin", "Page 2 of 2: 03_folds"]
    assert said[2] == f"2 pages, 0.0 MB, are in {folder}. Open 02_margin.html there."


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize("other", ["letter.txt", "02_margin.html", "04_spoilt.html", ".linen.hemcalc"])
def test_a_folder_with_anything_else_in_it_is_left_as_it_is(
    notebooks: Path, tmp_path: Path, other: str
) -> None:
    folder = tmp_path / "mine"
    folder.mkdir()
    (folder / other).write_text("hers")
    with pytest.raises(HemError, match=f"holds '{other}'.*my_pages/to_send"):
        send_folder(notebooks, folder, lambda said: pytest.fail(said))
    assert [(path.name, path.read_text()) for path in folder.iterdir()] == [(other, "hers")]


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize("way", ["away", "dangling", "loop", "folder"])
def test_what_is_no_file_in_the_place_of_a_page_is_left_as_it_is(
    notebooks: Path, tmp_path: Path, way: str
) -> None:
    page, hers = tmp_path / "mine" / "02_margin.html", tmp_path / "hers.html"
    hers.write_text(MARK)
    page.parent.mkdir()
    if way == "folder":
        page.mkdir()
    else:
        page.symlink_to({"away": hers, "dangling": tmp_path / "none", "loop": page}[way])
    with pytest.raises(HemError, match=r"holds '02_margin\.html'"):
        send_folder(notebooks, page.parent, lambda said: pytest.fail(said))
    assert hers.read_text() == MARK
    assert page.is_symlink() or page.is_dir()


@pytest.mark.usefixtures("quick")
def test_a_folder_half_filled_by_a_run_that_was_killed_is_filled(notebooks: Path, tmp_path: Path) -> None:
    (passing := tmp_path / f".{'0' * 16}.hemcalc").write_text("<!DOCTYPE")
    for folder in (tmp_path / "none", tmp_path / "half", Path(f"{tmp_path}/wörk [100 %]\n🧵\udcff")):
        send_folder(notebooks, folder, lambda said: said.encode())
        (folder / "02_margin.html").unlink()
        passing.rename(folder / passing.name)
        send_folder(notebooks, folder, lambda said: said.encode())
        assert (folder / "02_margin.html").exists()
        (folder / passing.name).rename(passing)


@pytest.mark.usefixtures("quick")
def test_what_is_put_into_the_folder_meanwhile_is_not_written_over(
    notebooks: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "mine"

    def run(path: Path) -> nbformat.NotebookNode:
        folder.mkdir(exist_ok=True)
        (folder / "03_folds.html").write_text("hers")
        return notebook()

    monkeypatch.setattr(sending, "run", run)
    with pytest.raises(HemError, match=r"holds '03_folds\.html'"):
        send_folder(notebooks, folder, print)
    assert [(path.name, path.read_text()) for path in folder.iterdir()] == [("03_folds.html", "hers")]


@pytest.mark.usefixtures("quick")
def test_a_folder_that_is_a_file_or_can_not_be_made_is_said(notebooks: Path, tmp_path: Path) -> None:
    (tmp_path / "letter").write_text("hers")
    with pytest.raises(HemError, match="'letter' is a file"):
        send_folder(notebooks, tmp_path / "letter", print)
    with pytest.raises(HemError, match="could not be written"):
        send_folder(notebooks, tmp_path / "letter" / "below", print)
    with pytest.raises(HemError, match="could not be written"):
        send_folder(notebooks, tmp_path / ("x" * 400), print)


@pytest.mark.usefixtures("quick")
def test_notebooks_are_run_on_a_copy(
    notebooks: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ran: list[Path] = []
    monkeypatch.setattr(sending, "run", lambda path: ran.append(path) or notebook())
    send_folder(notebooks, tmp_path / "sent", print)
    assert [path.name for path in ran] == ["02_margin.ipynb", "03_folds.ipynb"]
    assert not any(path.is_relative_to(notebooks) or path.exists() for path in ran)


@pytest.mark.parametrize("stops", [False, True])
def test_a_notebook_is_told_to_show_its_panels_by_strips_and_may_stop(
    notebooks: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, stops: bool
) -> None:
    """No kernel: what it would be asked to run; the tests in a browser run them all."""
    ran: list[str] = []

    def execute(client: sending.NotebookClient) -> None:
        ran.extend(cell.source for cell in client.nb.cells if cell.cell_type == "code")
        if stops:
            raise CellExecutionError("a page of traceback", "NameError", "name 'linen' is not defined")

    monkeypatch.setattr(sending.NotebookClient, "execute", execute)
    if stops:
        with pytest.raises(HemError, match=r'02_margin stopped at a cell .* done: "NameError: name .linen'):
            send_folder(notebooks, tmp_path / "sent", print)
        assert not (tmp_path / "sent").exists()
    else:
        page = page_html(sending.run(notebooks / "02_margin.ipynb"))
        assert "show_strips" not in page
    assert ran == [sending.PREPARE, "margin_panel()"]


def test_the_mark_is_read_where_it_stands() -> None:
    assert MARK in page_html(notebook())[:1000]


def test_pages_are_in_greys_where_greys_are_set() -> None:
    settings = in_force()
    assert GREYS not in page_html(notebook())
    settings.choose("colours", "in greys")
    try:
        assert GREYS in page_html(notebook())
    finally:
        settings.choose("colours", SETTINGS["colours"][0])
