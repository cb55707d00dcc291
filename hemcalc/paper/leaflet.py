"""A leaflet: pages that belong together, as pictures and as one PDF at true scale.

The PDF holds its type, has a title, and is the same to the byte each time: it carries no date.
"""

from __future__ import annotations

import io
import os
from collections.abc import Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any

from matplotlib import rc_context
from matplotlib.backends.backend_pdf import PdfPages
from matplotlib.figure import Figure
from PIL import Image

from hemcalc.draw.sheet import picture_html
from hemcalc.measure.errors import HemError, shown
from hemcalc.paper.formats import PaperSize
from hemcalc.paper.letters import TYPEFACE
from hemcalc.paper.page import Page
from hemcalc.piece.files import write_file

__all__ = ["Leaflet", "bind", "pdf_of", "printing"]

#: As the printer needs it, whatever the reader's own settings are; 42 keeps letters as letters.
# Any: matplotlib types the names of its settings one by one.
_PRINT: Any = {
    "pdf.fonttype": 42,
    "pdf.use14corefonts": False,
    "pdf.inheritcolor": False,
    "pdf.compression": 6,
    "figure.autolayout": False,
    "figure.constrained_layout.use": False,
    "font.family": [TYPEFACE],
    "text.usetex": False,
    "text.parse_math": False,
    "path.sketch": None,
    "path.effects": [],
    "savefig.bbox": None,
    "savefig.dpi": "figure",
    "savefig.facecolor": "auto",
    "savefig.transparent": False,
}
_PREVIEW = 90  # dots to the inch
_FRAME = '<span style="display: inline-block; border: 1px solid #808080; margin: 4px">{}</span>'


def printing() -> AbstractContextManager[None]:
    """A context in which pages are made and printed; afterwards the settings are as they were."""
    return rc_context(_PRINT)


class Leaflet:
    """Finished pages under one title.

    Parameters
    ----------
    title : str
        What the PDF is called.
    pages : sequence of Page
        In order.
    """

    def __init__(self, title: str, pages: Sequence[Page]) -> None:
        self.title = title
        self.pages = tuple(pages)

    def pdf(self) -> bytes:
        """The leaflet as PDF."""
        return pdf_of(self.title, self.pages[0].paper, [page.sheet.figure for page in self.pages])

    def save(self, path: str | os.PathLike[str], *, replace: bool = False) -> Path:
        """Save it as a PDF.

        Raises
        ------
        HemError
            If a file of that name is there already and `replace` isn't said.
        """
        write_file(path, self.pdf(), replace=replace)
        return Path(path)

    def png(self, page: int = 1, dpi: int = _PREVIEW) -> bytes:
        """A page as a picture, the first being 1.

        Raises
        ------
        HemError
            If it has no such page.
        """
        if isinstance(page, bool) or not isinstance(page, int) or not 1 <= page <= len(self.pages):
            raise HemError(
                f"page is {shown(page)}, but must be from 1 to {len(self.pages)}; for example 1.", "page"
            )
        out = io.BytesIO()
        with printing():
            self.pages[page - 1].sheet.figure.savefig(out, format="png", dpi=dpi)
        small = io.BytesIO()
        # A page has few colours: a quarter of the bytes, which a notebook carries with it.
        Image.open(out).convert("RGB").quantize(64).save(small, format="png", optimize=True)
        return small.getvalue()

    def _repr_html_(self) -> str:
        """All pages side by side, each with a line round it, for paper is as white as the screen."""
        shown_at = 400 if len(self.pages) > 1 else 640
        pictures = (
            picture_html(self.png(number), page.alt, shown_at) for number, page in enumerate(self.pages, 1)
        )
        return " ".join(_FRAME.format(picture) for picture in pictures)

    def __repr__(self) -> str:
        return f"Leaflet({self.title!r}, {len(self.pages)} page{'s' if len(self.pages) > 1 else ''})"


def pdf_of(title: str, paper: PaperSize, figures: Sequence[Figure]) -> bytes:
    """Figures as large as the sheet, as one PDF at true scale."""
    out = io.BytesIO()
    about = {
        "Title": title,
        "Creator": "hemcalc",
        "Subject": f"Printed at true scale on {paper.name}",
        "CreationDate": None,
    }
    with printing(), PdfPages(out, metadata=about) as file:
        for figure in figures:
            file.savefig(figure)
    return out.getvalue()


def bind(title: str, leaflets: Sequence[Leaflet]) -> Leaflet:
    """Several leaflets as one, in order; each keeps its own page numbers."""
    return Leaflet(title, [page for leaflet in leaflets for page in leaflet.pages])
