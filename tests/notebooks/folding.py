"""Which cells are folded away: those that only import, or only show a panel or a box and what it needs.

A reader sees what they show. What stays unfolded is read, and so reads like sentences.

    python tests/notebooks/folding.py

folds them in all notebooks; `save_outputs.py` does, too.
"""

from __future__ import annotations

import ast
from pathlib import Path

import nbformat

FOLDER = Path(__file__).parents[2] / "notebooks"
PANELS = "hemcalc.panels"


def fold(notebook: nbformat.NotebookNode) -> None:
    """Fold what is to be folded, and unfold the rest."""
    panels: set[str] = set()
    for cell in notebook.cells:
        if cell.cell_type == "code":
            settings = {**cell.metadata.pop("jupyter", {}), "source_hidden": folded(cell.source, panels)}
            cell.metadata["jupyter"] = settings


def folded(source: str, panels: set[str]) -> bool:
    """Whether a cell is folded, where these names are panels or make them; its own are added."""
    lines = ast.parse(source).body
    for line in lines:
        if isinstance(line, ast.ImportFrom) and line.module == PANELS:
            panels |= {name.asname or name.name for name in line.names}
        elif isinstance(line, ast.Assign) and _of_a_panel(line.value, panels):
            panels |= {target.id for target in line.targets if isinstance(target, ast.Name)}
    imports = [line for line in lines if isinstance(line, ast.Import | ast.ImportFrom)]
    shown = [line for line in lines if _of_a_panel(getattr(line, "value", None), panels)]
    plain = [line for line in lines if isinstance(line, ast.Assign) and _is_plain(line.value)]
    return len(imports) + len(shown) + (len(plain) if shown else 0) == len(lines) > 0


def _of_a_panel(value: ast.AST | None, panels: set[str]) -> bool:
    """Whether it is a panel, a call that makes one, or a call of one's own."""
    while isinstance(value, ast.Call | ast.Attribute):
        value = value.func if isinstance(value, ast.Call) else value.value
    return isinstance(value, ast.Name) and value.id in panels


def _is_plain(value: ast.AST) -> bool:
    """Whether it is but numbers and texts."""
    return all(
        isinstance(part, ast.Constant | ast.Dict | ast.List | ast.Tuple | ast.expr_context)
        for part in ast.walk(value)
    )


if __name__ == "__main__":
    for path in sorted(FOLDER.glob("*.ipynb")):
        notebook = nbformat.read(path, as_version=4)
        fold(notebook)
        nbformat.write(notebook, path)
