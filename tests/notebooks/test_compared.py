"""Every figure in a notebook's outputs is compared by nbval: which are not is counted here, with the reason.

nbval's own cells and comparison are asked, with no kernel: an output with a digit changed must differ.
"""

from __future__ import annotations

import copy
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from nbval.plugin import IPyNbCell, IPyNbFile

HERE = Path(__file__).parent
PATHS = sorted((HERE.parents[1] / "notebooks").glob("*.ipynb"))
PICTURE = "data:image/png;base64,"

#: What a cell without a figure in its output shows, how its last line is known, and how many there are.
NO_FIGURE = {
    "a box before anything is written in it": (r"^(check_box\(.*\)|my_guess|finished|cut)$", 24),
    "a button before it is clicked; the file has its own tests": (r"^do_button\(", 5),
    "yes or no: whether a side is worked in a zigzag": (r"\.zigzag$", 1),
    "as it is, no more cloth": (r"^print\(suggest_clear\(coaster\)", 1),
}


def cells_of(path: Path, request: pytest.FixtureRequest, patch: pytest.MonkeyPatch) -> list[IPyNbCell]:
    """The cells as nbval would run them, with our sanitiser."""
    # Its options, as the notebooks' stage gives them; the plugin itself is not loaded for the other tests.
    asked = {"nbval_sanitize_with": str(HERE / "sanitize.cfg"), "nbval_lax": False, "nbdime": False}
    for option, value in asked.items():
        patch.setattr(request.config.option, option, value, raising=False)
    file = IPyNbFile.from_parent(request.session, path=path)
    file.setup_sanitize_files()
    return [cell for cell in file.collect() if cell.cell.outputs]


def texts_in(outputs: list[Any]) -> list[tuple[Any, str]]:
    """Where a text stands in these outputs: what holds it, and by which key."""
    found = [(output, "text") for output in outputs if "text" in output]
    return found + [
        (output.data, kind) for output in outputs for kind in output.get("data", ()) if "text" in kind
    ]


every_notebook = pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)


@every_notebook
def test_a_changed_figure_is_noticed_in_every_text_that_has_one(path, request, monkeypatch):
    figures = 0
    for cell in cells_of(path, request, monkeypatch):
        assert cell.options["check"]
        assert not cell.options["skip"]
        assert cell.compare_outputs(cell.cell.outputs, cell.cell.outputs)
        for at, (holder, key) in enumerate(texts_in(cell.cell.outputs)):
            # Past the bytes of the last picture, or wherever there is none.
            begin = holder[key].rfind(PICTURE) + 1 and holder[key].index('"', holder[key].rfind(PICTURE))
            if digit := re.compile(r"\d").search(holder[key], begin):
                changed = copy.deepcopy(cell.cell.outputs)
                other, _ = texts_in(changed)[at]
                text = holder[key]
                other[key] = text[: digit.start()] + str(9 - int(digit[0])) + text[digit.end() :]
                assert not cell.compare_outputs(changed, cell.cell.outputs), cell.cell.source
                figures += 1
    assert figures > 10


def test_no_figure_is_hidden_but_the_bytes_of_pictures(request, monkeypatch):
    """The sanitiser has rules for what our pages don't show; what they replaced would be a figure less."""
    replaced, without = Counter(), Counter()
    for cell in (cell for path in PATHS for cell in cells_of(path, request, monkeypatch)):
        texts = [holder[key] for holder, key in texts_in(cell.cell.outputs)]
        for rule, instead in cell.parent.sanitize_patterns.items():
            replaced[instead] += sum(len(re.findall(rule, text)) for text in texts)
            texts = [re.sub(rule, instead, text) for text in texts]
        if not any(re.search(r"\d", text) for text in texts):
            without[cell.cell.source.splitlines()[-1]] += 1
    assert {instead for instead, many in replaced.items() if many} == {"PICTURE"}
    for reason, (line, many) in NO_FIGURE.items():
        found = [last for last in without if re.search(line, last)]
        assert sum(without.pop(last) for last in found) == many, reason
    assert not without, "a cell that shows no figure, and no reason is given"
