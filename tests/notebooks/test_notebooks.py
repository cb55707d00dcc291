"""The notebooks' shape: what a reader finds in each, and that they form one course.

Their outputs are compared by nbval; what is held here is what nbval does not see.
"""

import ast
import html
import json
import pathlib
import re

import pytest
from cases import for_each

ROOT = pathlib.Path(__file__).parents[2]
PATHS = sorted((ROOT / "notebooks").glob("*.ipynb"))
NAMES = [path.stem for path in PATHS]
PARTS = (
    "In short",
    "Predict",
    "Try",
    "Why",
    "Check",
    "A published case",
    "Where it stops being true",
    "Take away",
)
LONGEST_CELL = 12
#: Cells whose first state is words, and no picture: forms, boxes, buttons.
WORDS_FIRST = r"check_panel|her_slip_panel|practice_panel|my_piece|my_class|_box\(|_button\(|\.beside\("
#: What a learner meets in a cell: Python's least.
EASY = (
    *(ast.Module, ast.ImportFrom, ast.alias, ast.Expr, ast.Assign, ast.Call, ast.keyword),
    *(ast.Name, ast.Attribute, ast.Subscript, ast.Constant, ast.Tuple, ast.List, ast.Dict),
    *(ast.BinOp, ast.UnaryOp, ast.operator, ast.unaryop, ast.expr_context),
)


def cells_of(path: pathlib.Path, kind: str) -> list[dict]:
    notebook = json.loads(path.read_text("utf-8"))
    return [cell for cell in notebook["cells"] if cell["cell_type"] == kind]


def source(cell: dict) -> str:
    return "".join(cell["source"])


def prose(path: pathlib.Path) -> str:
    return "\n\n".join(source(cell) for cell in cells_of(path, "markdown"))


def title(path: pathlib.Path) -> str:
    return prose(path).splitlines()[0].removeprefix("# ")


def bullets_after(text: str, line: str) -> list[str]:
    after = text.split(f"\n{line}\n", 1)[1].lstrip("\n")
    return [item[2:] for item in after.split("\n\n")[0].splitlines() if item.startswith("- ")]


every_notebook = pytest.mark.parametrize("path", PATHS, ids=NAMES)


def test_the_course_begins_at_the_start():
    assert NAMES[0] == "00_start_here"


@every_notebook
def test_the_title_is_a_question_that_the_reader_has(path):
    assert title(path).endswith("?")


@every_notebook
def test_the_parts_come_in_the_order_that_teaches(path):
    headings = re.findall(r"^## (.+)$", prose(path), re.MULTILINE)
    assert [heading for heading in headings if heading in PARTS] == list(PARTS)


@every_notebook
def test_what_is_promised_at_the_start_is_claimed_at_the_end(path):
    promised = bullets_after(prose(path), "You will be able to")
    assert len(promised) == 3
    assert bullets_after(prose(path), "You can now") == promised


@every_notebook
def test_the_line_under_the_title_leads_to_the_neighbours(path):
    at = PATHS.index(path)
    line = prose(path).split("\n\n")[1]
    links = re.findall(r"\[(\w+)(?:: ([^\]]+))?\]\(([^)]+)\)", line)
    wanted = []
    if at:
        wanted += [
            ("previous", title(PATHS[at - 1]), f"{NAMES[at - 1]}.ipynb"),
            ("start", "", f"{NAMES[0]}.ipynb"),
        ]
    if at + 1 < len(PATHS):
        wanted += [("next", title(PATHS[at + 1]), f"{NAMES[at + 1]}.ipynb")]
    assert links == wanted


@every_notebook
def test_the_last_line_leads_on(path):
    at = PATHS.index(path)
    last = prose(path).rstrip().splitlines()[-1]
    if at + 1 < len(PATHS):
        assert last == f"[next: {title(PATHS[at + 1])}]({NAMES[at + 1]}.ipynb)"
    else:
        assert last == "[start](00_start_here.ipynb)"


@every_notebook
def test_every_link_leads_to_a_page_that_is_there(path):
    for link in re.findall(r"\]\(([^)]+)\)", prose(path)):
        assert (path.parent / link.split("#")[0]).exists(), link


@every_notebook
def test_cells_are_short_enough_to_read_like_sentences(path):
    for cell in cells_of(path, "code"):
        assert len(source(cell).splitlines()) <= LONGEST_CELL, source(cell)


@every_notebook
def test_nothing_in_a_cell_is_harder_than_a_call_and_a_name(path):
    """No loops, no functions, no conditions: names, calls, sums of numbers, lists and what is in them."""
    for cell in cells_of(path, "code"):
        for node in ast.walk(ast.parse(source(cell))):
            assert isinstance(node, EASY), source(cell)
            assert not isinstance(node, ast.FloorDiv | ast.Mod), source(cell)


@every_notebook
def test_a_sentence_stands_before_each_cell_but_the_imports(path):
    notebook = json.loads(path.read_text("utf-8"))
    for before, cell in zip(notebook["cells"], notebook["cells"][1:], strict=False):
        if cell["cell_type"] == "code" and before["cell_type"] == "code":
            assert source(before).lstrip().startswith("from "), source(cell)


@every_notebook
def test_every_cell_has_been_run_and_its_output_saved_without_an_error(path):
    for cell in cells_of(path, "code"):
        assert cell["execution_count"], source(cell)
        assert not [out for out in cell["outputs"] if out["output_type"] == "error"]


@every_notebook
def test_every_picture_has_an_alt_text_with_a_number_in_it(path):
    for cell in cells_of(path, "code"):
        for out in cell["outputs"]:
            page = "".join(out.get("data", {}).get("text/html", []))
            for picture in re.findall(r"<img [^>]*>", page):
                alt = re.search(r'alt="([^"]*)"', picture)
                assert alt, picture[:80]
                assert re.search(r"\d", html.unescape(alt[1])), picture[:80]


@every_notebook
def test_a_panel_has_its_first_picture_without_a_kernel(path):
    notebook = json.loads(path.read_text("utf-8"))
    for cell in cells_of(path, "code"):
        for out in cell["outputs"]:
            view = out.get("data", {}).get("application/vnd.jupyter.widget-view+json")
            if view:
                states = notebook["metadata"]["widgets"]["application/vnd.jupyter.widget-state+json"]["state"]
                assert view["model_id"] in states
                # A form or a box says its first state in words; every other panel has a picture.
                first = "".join(out["data"].get("text/html", out["data"]["text/plain"]))
                assert "<img " in first or re.search(WORDS_FIRST, source(cell))
                assert first


@every_notebook
def test_it_runs_on_the_kernel_that_every_machine_has(path):
    assert json.loads(path.read_text("utf-8"))["metadata"]["kernelspec"]["name"] == "python3"


def the_box(path: pathlib.Path, call: str) -> object:
    """The box that a notebook shows in its one cell that begins with this call."""
    (cell,) = [cell for cell in cells_of(path, "code") if source(cell).startswith(call)]
    scope: dict[str, object] = {}
    imports = [line for cell in cells_of(path, "code") for line in source(cell).splitlines()]
    exec("\n".join(line for line in imports if line.startswith("from hemcalc.panels")), scope)
    return eval(source(cell), scope)


ANSWERS = {
    "00_start_here": ("38.1", "37.5", "Right: 38.1 mm."),
    "01_count_your_cloth": ("280", "560", "Right: 280 threads."),
    "02_the_margin_rule": ("29", "28", "Right: 29 threads."),
    "03_folds_and_the_mitre": ("twelve", "36", "Right: 12 threads."),
    "04_drawing_threads": ("1 + 9 + 9 + 5", "25", "Right: 24 threads."),
    "05_spacing_the_stitches": ("6", "7", "Right: 6 threads."),
    "06_thread_and_needle": ("4.5 m", "300", "Right: 4500 mm."),
    "07_a_class_and_a_bolt": ("11", "10", "Right: 11 units of 10 cm."),
    "08_check_your_arithmetic": ("2", "5", "Right: 2 threads."),
    "09_against_the_handbooks": ("13", "7", "Right: 13 eighths."),
    "10_from_design_to_finished_edge": ("31", "29", "Right: 31 threads."),
    "11_when_it_goes_wrong": ("3", "5", "Right: 3 threads."),
}


@for_each("name", ANSWERS)
def test_the_check_knows_right_from_wrong_and_names_a_slip(name):
    box = the_box(ROOT / "notebooks" / f"{name}.ipynb", "check_box(")
    right, slip, said = ANSWERS[name]
    box.box.value = slip
    assert "is what comes out if" in box.said
    box.box.value = right
    assert box.said == said
    box.box.value = "a bundle"
    assert "for example" in box.said


@every_notebook
def test_each_guess_is_written_in_a_box_and_stands_beside_the_truth_after_it(path):
    cells = [source(cell) for cell in cells_of(path, "code")]
    guesses = {
        found[1]: at for at, cell in enumerate(cells) if (found := re.match(r"(\w+) = guess_box\(", cell))
    }
    assert guesses
    for name, at in guesses.items():
        assert any(f"{name}.beside(" in cell for cell in cells[at + 1 :])
    assert not [cell for cell in cells if "= None" in cell]


def test_no_page_holds_the_key_to_its_own_check():
    """A notebook names its sum; what is right and what slips give stand in the library."""
    for path in PATHS:
        assert not [cell for cell in cells_of(path, "code") if re.search(r"judge\(|slips = ", source(cell))]


def test_the_first_notebook_leads_to_every_other():
    assert set(NAMES[1:]) <= set(re.findall(r"\((\d\d_\w+)\.ipynb\)", prose(PATHS[0])))
