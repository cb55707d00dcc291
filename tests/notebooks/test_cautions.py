"""The cautions: what must be said of each hazard, and that README and notebooks say it at the step."""

import json
import re
import runpy
from pathlib import Path

import pytest
from cases import for_each

from hemcalc.measure.cautions import CAUTIONS, COMES_FIRST, caution_for, mind
from hemcalc.measure.errors import HemError

ROOT = Path(__file__).parents[2]
with_cautions = runpy.run_path(str(Path(__file__).with_name("save_cautions.py")))["with_cautions"]
NOTEBOOKS = {path.stem: path for path in sorted((ROOT / "notebooks").glob("*.ipynb"))}

#: What must be said, from common practice with no published source.
SAID = {
    "blade": (
        r"away from yourself and from the hand",
        r"one blade under that thread only",
        r"[Cc]over points and edges",
    ),
    "needle": (
        r"[Cc]ount needles and pins out and in",
        r"none in the mouth",
        r"pin nothing to your knee",
        r"point toward yourself",
        r"[Ff]asten it in the work",
        r"[Cc]ut thread, never bite it",
    ),
    "iron": (
        r"the iron's own instructions",
        r"try it on a scrap",
        r"[Kk]eep fingers off the fold and out of the steam",
        r"steam: it scalds when damp linen is pressed",
        r"no plastic pin",
        r"[Nn]ever leave an iron hot and unwatched",
        r"or in a child's reach",
    ),
    "eyes": (
        r"good light",
        r"rest eyes, neck and back",
        r"a lamp or a window, never to the sun",
        r"magnifier helps, but never leave it in the sun",
    ),
}
#: What must be said beside each of them.
ALWAYS = (
    r"common practice, with no published source",
    r"the tool's own instructions and the workshop's own rules come first",
    r"Children only with an adult",
)
#: Where a notebook has a hazard: the words of its step, and what is to be minded there.
STEPS = {
    "01_count_your_cloth": {"count the threads over a **long** stretch": ("eyes",)},
    "02_the_margin_rule": {"Before you cut, count once more": ("blade",)},
    "03_folds_and_the_mitre": {"**Trim, corner, turn, hem.**": ("blade", "iron")},
    "04_drawing_threads": {"**cut at its middle**": ("blade", "needle", "eyes")},
    "05_spacing_the_stitches": {"Hem stitch takes them up": ("needle", "eyes")},
    "06_thread_and_needle": {"Work twenty stitches on a scrap": ("blade", "needle", "eyes")},
    "07_a_class_and_a_bolt": {"Every cut is straight": ("blade",), "Needles are counted out": ("needle",)},
    "08_check_your_arithmetic": {"Check before you cut": ("blade",)},
    "09_against_the_handbooks": {"Sew a sample first": ("needle", "eyes")},
    "10_from_design_to_finished_edge": {"tells the whole finish, step by step": tuple(CAUTIONS)},
    "11_when_it_goes_wrong": {"Change this cell and run it again": ("blade", "needle", "iron", "eyes")},
}
#: Words that no notebook has without the caution for them.
HAZARDS = {
    "blade": r"\bscissors\b|\bsnip|\btrim the\b|\bcut (?:it )?(?:out|linen)\b",
    "needle": r"\bneedles? (?:is|are)\b|\bblunt needle\b|\bsew a\b|\bstitches on a scrap\b",
    "iron": r"\birons?\b|\bpress linen\b|\bpressing the turns\b",
    "eyes": r"\bmagnif|\blamp\b|\bcount the threads\b",
}


def cells(name):
    notebook = json.loads(NOTEBOOKS[name].read_text("utf-8"))
    return ["".join(cell["source"]) for cell in notebook["cells"] if cell["cell_type"] == "markdown"]


def assert_all_said(text, tools):
    one_line = " ".join(text.split())
    for words in (*ALWAYS, *(words for tool in tools for words in SAID[tool])):
        assert re.search(words, one_line), words


@for_each("tool", CAUTIONS)
def test_each_caution_says_what_must_be_said_and_gives_way(tool):
    assert_all_said(caution_for(tool), [tool])
    assert caution_for(tool) == f"{CAUTIONS[tool]} {COMES_FIRST}"


def test_there_is_no_caution_for_nothing_nor_for_what_has_none():
    assert SAID.keys() == CAUTIONS.keys()
    assert caution_for() == mind() == ""
    with pytest.raises(HemError, match="'needle'"):
        caution_for("hammer")


@pytest.mark.parametrize("name", ["README", "00_start_here"])
def test_the_cautions_stand_in_full_where_a_reader_begins(name):
    whole = (ROOT / "README.md").read_text("utf-8") if name == "README" else "\n\n".join(cells(name))
    (section,) = re.findall(r"^## Cautions[^\n]*\n(.*?)(?=^## )", whole, re.MULTILINE | re.DOTALL)
    assert_all_said(section, CAUTIONS)
    assert with_cautions(whole) == whole


@for_each("name", STEPS)
def test_a_notebook_says_at_the_step_what_to_mind(name):
    found = {}
    for cell in cells(name):
        assert with_cautions(cell) == cell
        for tools in re.findall(r"^\*\*Mind: ([a-z, ]+)\.\*\* ", cell, re.MULTILINE):
            (step,) = [words for words in STEPS[name] if words in cell]
            found[step] = tuple(tools.split(", "))
            assert_all_said(cell, found[step])
    assert found == STEPS[name]


@for_each("name", STEPS)
def test_no_hazard_is_told_in_a_notebook_without_its_caution(name):
    text = re.sub(r"^\*\*Mind: .*$", "", "\n\n".join(cells(name)), flags=re.MULTILINE)
    minded = {tool for tools in STEPS[name].values() for tool in tools}
    assert {tool for tool, words in HAZARDS.items() if re.search(words, text, re.IGNORECASE)} <= minded


def test_every_notebook_has_its_cautions():
    assert ["00_start_here", *STEPS] == list(NOTEBOOKS)


def test_a_caution_that_was_changed_or_shortened_is_written_anew():
    step = f"Fold it.\n\n{caution_for('iron')}"
    assert with_cautions(step) == step
    said = f"**Mind: iron.** {caution_for('iron')}"
    assert (
        with_cautions("Fold it.\n\n**Mind: iron.** Mind the iron .\n\nNext.")
        == f"Fold it.\n\n{said}\n\nNext."
    )
    full = with_cautions("# A\n\n## Cautions\n\n## Licence\n\nMIT.\n")
    assert_all_said(full, CAUTIONS)
    assert full.endswith("\n\n## Licence\n\nMIT.\n")
    assert with_cautions(full) == full
