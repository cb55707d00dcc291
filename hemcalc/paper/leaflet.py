"""A leaflet: pages that belong together, as pictures and as one PDF at true scale."""

from __future__ import annotations

import io
import os
from collections.abc import Sequence
from pathlib import Path

from pypdfium2 import PdfDocument

from hemcalc.draw.sheet import picture_html
from hemcalc.measure.errors import HemError, of_type, several, shown, true_or_false
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.files import file_name, write_file
from hemcalc.measure.words import so_many
from hemcalc.paper.page import Page
from hemcalc.paper.printer import Printer

_PREVIEW = 90  # dots to the inch
_FRAME = '<span style="display: inline-block; border: 1px solid #808080; margin: 4px">{}</span>'


class Leaflet:
    """Finished pages, in order, under one title, which is what the PDF is called."""

    def __init__(self, title: str, pages: Sequence[Page]) -> None:
        self.title = of_type(title, str, "title", "'Hem sheet'")
        every = several(pages, "pages", "pages", "learner_sheet(kit).pages")
        self.pages = tuple(of_type(page, Page, "pages", "learner_sheet(kit).pages") for page in every)
        self._made: dict[bool, bytes] = {}

    def pdf(self, *, greys: bool = False) -> bytes:
        """The leaflet as PDF, in colour or in greys."""
        if true_or_false(greys, "greys") not in self._made:
            printer = Printer(self.title, self.pages[0].paper, greys=greys)
            for page in self.pages:
                page.print_on(printer)
            self._made[greys] = printer.pdf()
        return self._made[greys]

    def save(self, path: str | os.PathLike[str], *, replace: bool = False, greys: bool = False) -> Path:
        """Save it as a PDF, in colour or in greys; a file that is there already only if `replace` is said."""
        if not file_name(path).lower().endswith(".pdf"):
            raise HemError(f"path is {shown(path)}, but must end in .pdf; for example 'sheet.pdf'.", "path")
        write_file(path, self.pdf(greys=greys), replace=replace)
        return Path(path)

    def png(self, page: int = 1, dpi: int = _PREVIEW) -> bytes:
        """A page as a picture, the first being 1."""
        page = whole_threads(page, "page", least=1, most=len(self.pages), example=1, of="")
        dpi = whole_threads(dpi, "dpi", least=20, most=600, example=_PREVIEW, of="dots to the inch")
        small = io.BytesIO()
        picture = PdfDocument(self.pdf())[page - 1].render(scale=dpi / 72).to_pil()
        # A page has few colours: a quarter of the bytes, which a notebook carries with it.
        picture.quantize(64).save(small, format="png", optimize=True)
        return small.getvalue()

    def _repr_html_(self) -> str:
        """All pages side by side, each with a line round it, for paper is as white as the screen."""
        shown_at = 400 if len(self.pages) > 1 else 640
        pictures = (
            picture_html(self.png(number), page.alt, shown_at) for number, page in enumerate(self.pages, 1)
        )
        return " ".join(_FRAME.format(picture) for picture in pictures)

    def __repr__(self) -> str:
        return f"Leaflet({self.title!r}, {so_many(len(self.pages), 'page')})"


def bind(title: str, leaflets: Sequence[Leaflet]) -> Leaflet:
    """Several leaflets as one, in order; each keeps its own page numbers."""
    example = "gauge_card(kit)"
    every = several(leaflets, "leaflets", "leaflets", f"[{example}]")
    return Leaflet(
        title, [page for each in every for page in of_type(each, Leaflet, "leaflets", example).pages]
    )
