"""What a page asks to be done with its sliders can be done with them, and shows what it promises."""

import json
import pathlib
import re
from itertools import pairwise

import pytest

from hemcalc.panels.settings import SETTINGS

from .conftest import first_state

FOLDER = pathlib.Path(__file__).parents[2] / "notebooks"
FOLDS = tuple(n / 10 for n in range(11))
WIDTHS = tuple(f"{n} cm" for n in range(140, 55, -5))

#: Notebook, words of the task, panel, example to begin with, control by control what it is set to in
#: turn, and what must be read in the picture's words on the way.
TASKS = [
    (
        "00",
        "Move **threads counted**",
        "count",
        None,
        {"threads": [30, 24]},
        ["24 threads over 1 in"],
    ),
    (
        "00",
        "set *type* to *projector* in the drawer",
        "count",
        None,
        {"type": ["projector"]},
        ["28/in"],
    ),
    (
        "01",
        "set *ruler, length* to 4 in",
        "count",
        None,
        {"ruler": ["4 in"], "threads": [112]},
        [r"112 threads over 4 in.*: 28/in, give or take 0\.\d %"],
    ),
    (
        "01",
        "set *places* to 4",
        "count",
        None,
        {"places": range(1, 5)},
        ["28/in.*counted in 4 places|counted in 4 places: 28/in"],
    ),
    (
        "01",
        "move *size to be made*",
        "count",
        None,
        {"size": ["2 in", "20 in"]},
        ["20 in by counting", "2 in by counting"],
    ),
    (
        "01",
        "set *how sure* to 99 %",
        "count",
        None,
        {"sure": ["99 %"], "places": [1, 4]},
        ["99 times in 100"],
    ),
    (
        "02",
        "choose the example *bookmark*",
        "margin",
        "bookmark",
        {},
        ["The rule is not enough"],
    ),
    (
        "02",
        "*bread cloth* and move *clear*",
        "margin",
        "bread cloth",
        {"clear": range(7, 41)},
        ["rule is enough: 0 threads", "rule is not enough: 1 thread "],
    ),
    (
        "02",
        "set *fold* to 0 and move it slowly",
        "margin",
        "bread cloth",
        {"fold": FOLDS},
        ["flat", "folded 50", "lands on the open line"],
    ),
    (
        "03",
        "choose the example *bookmark*",
        "corner",
        "bookmark",
        {"fold": FOLDS},
        ["just folded: corner", "fold 1 lands on fold 1"],
    ),
    (
        "03",
        "set *corner* to *uncut*",
        "corner",
        None,
        {"corner": ["uncut", "untrimmed"], "fold": [1.0]},
        ["9 layers", "untrimmed"],
    ),
    (
        "03",
        "set *order of folding*",
        "corner",
        None,
        {"order": ["turns first"], "fold": FOLDS},
        ["turns pressed first"],
    ),
    (
        "04",
        "set *step* to 1 and move it on",
        "weave",
        None,
        {"step": range(1, 66)},
        ["step 1 of 65", "Draw out thread 8", "Draw its tail out", "Done: the hems are whole"],
    ),
    (
        "04",
        "stop at step 8",
        "weave",
        None,
        {"step": [8, 9]},
        ["it last lay", "(Over|Under) thread"],
    ),
    (
        "04",
        "*pincushion, tails too short*",
        "weave",
        "pincushion, tails too short",
        {},
        ["stops 8 threads"],
    ),
    (
        "05",
        "set *design* to 78",
        "spacing",
        None,
        {"design": [78]},
        ["86 threads.* of which 2 are uneven"],
    ),
    (
        "05",
        "now move *clear right*",
        "spacing",
        None,
        {"design": [78], "clear right": range(17)},
        ["84 threads, .* all of 4", "88 threads, .* all of 4"],
    ),
    (
        "05",
        "set *hand* to *left*, in the drawer below the panel",
        "spacing",
        None,
        {"hand": ["left"]},
        ["Left hand", "from right to left"],
    ),
    (
        "06",
        "set *step* to 0 and move it slowly to 9",
        "stitch",
        None,
        {"step": range(10)},
        ["Step 0 of 9", "on the right side", "Step 9 of 9"],
    ),
    (
        "06",
        "set *hand* to *left*, in the drawer below the panel",
        "stitch",
        None,
        {"hand": ["left"], "seen": ["right side"]},
        ["left hand.*seen from the right side"],
    ),
    (
        "06",
        "set *group* to 3",
        "stitch",
        None,
        {"group": [3]},
        ["a group of 3 threads"],
    ),
    (
        "06",
        "set *working length* to 20 cm",
        "stitch",
        None,
        {"working": ["20 cm"]},
        ["Each 20 cm sews"],
    ),
    (
        "07",
        "set *learners* to 7",
        "bolt",
        None,
        {"learners": [7], "width": WIDTHS},
        ["a bolt 140 cm wide", "a bolt 60 cm wide"],
    ),
    (
        "07",
        "*a sampler*, set *learners* to 24",
        "bolt",
        None,
        {"pieces": ["a sampler"], "learners": [24], "width": ["140 cm"], "turn": [False, True]},
        ["Buy"],
    ),
    (
        "07",
        "*twelve learners, three pieces each*",
        "bolt",
        "twelve learners, three pieces each",
        {},
        ["none by straight cuts is shorter"],
    ),
    (
        "10",
        "make the hem **1/4 in**",
        "margin",
        "coaster",
        {"hem": ["1/4 in"]},
        ["The rule is"],
    ),
    (
        "10",
        "make the clear band **5** threads",
        "margin",
        "coaster",
        {"clear": [5]},
        ["needed: 30 threads"],
    ),
]


@pytest.mark.parametrize(
    ("page", "task", "kind", "example", "moves", "seen"), TASKS, ids=[f"{t[0]} {t[1]}" for t in TASKS]
)
def test_a_task_can_be_done_with_the_sliders_of_its_panel(
    all_panels, set_once, page, task, kind, example, moves, seen
):
    panel = first_state(all_panels[kind])
    panel.reset(example or next(iter(panel.examples)))
    words = [panel.view.alt(panel.result)]
    for name, values in moves.items():
        for value in values:
            # What is set for every panel is set in the drawer below it.
            moved = set_once.menus[name] if name in SETTINGS else panel.controls[name].widget
            moved.value = value
            # Set as it is, neither cut short at the slider's end nor refused.
            assert moved.value == value
            assert not panel.sentences, (name, value)
            words.append(panel.view.alt(panel.result))
    for wanted in seen:
        assert any(re.search(wanted, said) for said in words), (wanted, words[-1])


def _tasks_on_the_pages():
    """The bullets that stand over a panel's cell, by the number of their notebook."""
    for path in sorted(FOLDER.glob("*.ipynb")):
        cells = json.loads(path.read_text("utf-8"))["cells"]
        for above, cell in pairwise(cells):
            code, text = "".join(cell["source"]), "".join(above["source"])
            if re.search(r"\b(count|margin|corner|weave|spacing|stitch|bolt)_panel\(\)", code):
                for task in re.findall(r"^- (.*)$", text, re.M):
                    if "*" in task and "the cell above" not in task and "`" not in task:
                        yield path.name[:2], task


def test_no_task_of_a_page_is_left_out_and_none_here_is_asked_nowhere():
    asked = list(_tasks_on_the_pages())
    assert len(asked) > 15
    for page, task in asked:
        assert any(page == ours and words in task for ours, words, *_ in TASKS), (page, task)
    texts = {path.name[:2]: path.read_text("utf-8") for path in FOLDER.glob("*.ipynb")}
    for page, words, *_ in TASKS:
        assert words in texts[page], (page, words)
