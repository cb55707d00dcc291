"""Draws the README's picture anew, and its words: the first of the invented pieces, its left edge.

    python tests/notebooks/save_picture.py

Use it after a change that is meant to change the picture, and look at it before you commit it:
test_readme.py compares later pictures, and the words, with what is saved here.
"""

from __future__ import annotations

import io
import re
from pathlib import Path

from PIL import Image
from PIL.PngImagePlugin import PngInfo

from hemcalc.draw import draw_edge
from hemcalc.piece.examples import EXAMPLES

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"
PICTURE = ROOT / "data" / "pictures" / "edge.png"
LINE = re.compile(r"!\[([^\]]*)\]\(data/pictures/edge\.png\)")


def drawn(name: str) -> tuple[Image.Image, str]:
    """The picture of a piece's left edge, and what it shows in words."""
    still = draw_edge(EXAMPLES[name].edges.left)
    words = still.alt.replace("The edge", f"The left edge of the {name}", 1)
    return Image.open(io.BytesIO(still.png())).convert("RGB"), words


if __name__ == "__main__":
    picture, words = drawn(next(iter(EXAMPLES)))
    about = PngInfo()
    about.add_itxt("Description", words)
    picture.save(PICTURE, pnginfo=about)
    line = f"![{words}]({PICTURE.relative_to(ROOT).as_posix()})"
    README.write_text(LINE.sub(lambda _: line, README.read_text("utf-8")), "utf-8")
    print(words)
