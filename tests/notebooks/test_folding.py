"""What a reader need not see is folded away, and nothing else is."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import nbformat
from cases import for_each

_SPEC = importlib.util.spec_from_file_location("folding", Path(__file__).with_name("folding.py"))
assert _SPEC
folding = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(folding)  # type: ignore[union-attr]


@for_each("path", sorted(folding.FOLDER.glob("*.ipynb")))
def test_cells_are_folded_by_the_rule(path: Path) -> None:
    """If not: python tests/notebooks/folding.py."""
    saved, made = (nbformat.read(path, as_version=4) for _ in range(2))
    folding.fold(made)
    kept = [cell.metadata.get("jupyter", {}).get("source_hidden", False) for cell in saved.cells]
    assert kept == [cell.metadata.get("jupyter", {}).get("source_hidden", False) for cell in made.cells]
    assert any(kept)


@for_each(
    ("cell", "folded"),
    [
        ("from hemcalc import Length, judge\nimport pandas", True),
        ("from hemcalc.panels import margin_panel\n\nmargin_panel()", True),
        ("panel = corner_panel()\npanel.reset('bookmark')\npanel", True),
        ("slips = {'the turn is forgotten': 24}\ncorner_panel(29, slips)", True),
        ("my_guess = corner_panel('threads')", True),
        ("my_guess.beside(14)", True),
        ("my_guess = None", False),
        ("slips = {'the turn is forgotten': 24}", False),
        ("edge = example('coaster').edges.left\ncorner_panel(edge.cut)", False),
        ("Length('3/8 in').text('mm')", False),
        ("draw_edge(edge)", False),
        ("from hemcalc import example\nexample('coaster')", False),
        ("print(corner_panel())", False),
        ("# worksheet(sums)", False),
    ],
)
def test_the_rule(cell: str, folded: bool) -> None:
    assert folding.folded(cell, {"corner_panel", "my_guess"}) is folded
