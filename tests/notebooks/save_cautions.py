"""Writes the cautions of `hemcalc.measure.cautions` into the README and the notebooks.

    python tests/notebooks/save_cautions.py

Use it after a change to them. Where they stand in full there is a heading that begins with
"Cautions"; at a step, a paragraph that begins with what to mind, such as **Mind: blade, eyes.**
Only the words behind these are written, so no notebook need be run again.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from textwrap import fill

from hemcalc.measure.cautions import CAUTIONS, COMES_FIRST, caution_for

ROOT = Path(__file__).parents[2]
HEADING = re.compile(r"^(## Cautions[^\n]*)(.*?)(?=\n*\Z|\n+## )", re.MULTILINE | re.DOTALL)
STEP = re.compile(r"^(\*\*Mind: ([a-z, ]+)\.\*\*).*$", re.MULTILINE)


def with_cautions(text: str) -> str:
    """Markdown with the cautions that belong to its headings and steps, as they are now."""
    items = [COMES_FIRST, *(f"- **{tool.capitalize()}:** {said}" for tool, said in CAUTIONS.items())]
    first, *others = (fill(item, 100, subsequent_indent="  " * (item != COMES_FIRST)) for item in items)
    full = f"\n\n{first}\n\n" + "\n".join(others)
    text = HEADING.sub(lambda found: found[1] + full, text)
    return STEP.sub(lambda found: f"{found[1]} {caution_for(*found[2].split(', '))}", text)


def save_cautions(path: Path) -> None:
    """Bring one notebook or text file up to date."""
    text = path.read_text("utf-8")
    if path.suffix == ".ipynb":
        notebook = json.loads(text)
        for cell in notebook["cells"]:
            if cell["cell_type"] == "markdown":
                cell["source"] = with_cautions("".join(cell["source"])).splitlines(keepends=True)
        text = json.dumps(notebook, indent=1, ensure_ascii=False) + "\n"
    else:
        text = with_cautions(text)
    path.write_text(text, "utf-8")


if __name__ == "__main__":
    for path in (ROOT / "README.md", *sorted((ROOT / "notebooks").glob("*.ipynb"))):
        save_cautions(path)
