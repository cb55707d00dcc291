"""Reads a PDF back as the printer gets it, by another library than the one that wrote it."""

from __future__ import annotations

import ctypes
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import takewhile

import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest

from hemcalc.paper import Leaflet
from hemcalc.paper.printer import PAPERS, PaperSize

_POINT = 25.4 / 72
_HAIR = 0.15  # mm; below it nobody sees that two letters touch


@dataclass(frozen=True)
class Stroke:
    """A drawn line, mm from the sheet's top left corner, and its width in points."""

    points: tuple[tuple[float, float], ...]
    width: float
    dashed: bool

    @property
    def across(self) -> float:
        return self.points[-1][0] - self.points[0][0]

    @property
    def down(self) -> float:
        return self.points[-1][1] - self.points[0][1]


@dataclass(frozen=True)
class Line:
    """A line of text: where its ink is, mm from the sheet's top left corner, and its type."""

    text: str
    left: float
    top: float
    right: float
    bottom: float
    points: float
    font: str
    embedded: bool


class PrintedPage:
    """A page as the printer gets it; what is on it is read when it is asked for."""

    def __init__(self, page: pdfium.PdfPage) -> None:
        self._page = page
        width_of, self._high = page.get_size()
        self.size = width_of * _POINT, self._high * _POINT

    def _drawn(self, kind: int) -> Iterator[tuple[pdfium.PdfObject, Callable[..., tuple[float, float]]]]:
        """All of this kind, each with how a place of its own, in points, comes to lie on the page, in mm."""
        # Not into the patterns of the pictures' areas.
        for drawn in self._page.get_objects([kind], max_depth=2, textpage=self._text):
            to_page, within = pdfium.PdfMatrix(), drawn.container
            while within is not None:
                to_page = to_page.multiply(within.get_matrix())
                within = within.container

            def place(x: float, y: float, matrix: pdfium.PdfMatrix = to_page) -> tuple[float, float]:
                x, y = matrix.on_point(x, y)
                return x * _POINT, (self._high - y) * _POINT

            yield drawn, place

    @cached_property
    def _text(self) -> pdfium.PdfTextPage:
        return self._page.get_textpage()

    @cached_property
    def strokes(self) -> tuple[Stroke, ...]:
        """The lines that are drawn."""
        drawn = self._drawn(raw.FPDF_PAGEOBJ_PATH)
        return tuple(stroke for path, place in drawn for stroke in _strokes(path, place))

    @cached_property
    def images(self) -> int:
        """Pictures made of dots."""
        return sum(1 for _ in self._drawn(raw.FPDF_PAGEOBJ_IMAGE))

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """The lines of text."""
        found = []
        for drawn, place in self._drawn(raw.FPDF_PAGEOBJ_TEXT):
            left, low, right, top = drawn.get_bounds()
            (x0, y0), (x1, y1) = place(left, top), place(right, low)
            font = drawn.get_font()
            name, points = font.get_base_name(), drawn.get_font_size()
            found.append(Line(drawn.extract().strip(), x0, y0, x1, y1, points, name, font.is_embedded))
        return tuple(line for line in found if line.text)

    @property
    def words(self) -> str:
        """All that it says."""
        return "\n".join(line.text for line in self.lines)

    @property
    def paper(self) -> PaperSize:
        return next(paper for paper in PAPERS.values() if abs(paper.width - self.size[0]) < 0.1)


@dataclass(frozen=True)
class Printed:
    """A PDF, read back."""

    pages: tuple[PrintedPage, ...]
    about: dict[str, str]
    #: Titles by which one turns to pages, and their numbers, the first being 0.
    entries: tuple[tuple[str, int], ...]


@lru_cache(maxsize=64)
def _read(pdf: bytes) -> Printed:
    file = pdfium.PdfDocument(pdf)
    entries = ((entry.get_title(), entry.get_dest().get_index()) for entry in file.get_toc())
    return Printed(tuple(map(PrintedPage, file)), file.get_metadata_dict(), tuple(entries))


def _strokes(drawn: pdfium.PdfObject, place: Callable[[float, float], tuple[float, float]]) -> list[Stroke]:
    """The lines of a path that is drawn along."""
    fill, along = ctypes.c_int(), ctypes.c_int()
    raw.FPDFPath_GetDrawMode(drawn, fill, along)
    if not along.value:
        return []
    own, x, y, width = drawn.get_matrix(), ctypes.c_float(), ctypes.c_float(), ctypes.c_float()
    raw.FPDFPageObj_GetStrokeWidth(drawn, width)
    dashed = raw.FPDFPageObj_GetDashCount(drawn) > 0
    found: list[list[tuple[float, float]]] = []
    for i in range(raw.FPDFPath_CountSegments(drawn)):
        segment = raw.FPDFPath_GetPathSegment(drawn, i)
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        if raw.FPDFPathSegment_GetType(segment) == raw.FPDF_SEGMENT_MOVETO:
            found.append([])
        found[-1].append(place(*own.on_point(x.value, y.value)))
        if raw.FPDFPathSegment_GetClose(segment) and found[-1][-1] != found[-1][0]:
            found[-1].append(found[-1][0])
    return [Stroke(tuple(points), width.value, dashed) for points in found if len(points) > 1]


@pytest.fixture(scope="session")
def read() -> Callable[[bytes], Printed]:
    """A PDF's pages, what it says about itself, and its list of entries."""
    return _read


@pytest.fixture(scope="session")
def printed() -> Callable[[Leaflet], tuple[PrintedPage, ...]]:
    """A leaflet's pages as the printer gets them."""
    return lambda leaflet: _read(leaflet.pdf()).pages


@pytest.fixture(scope="session")
def said() -> Callable[[Leaflet], str]:
    """All that a leaflet says, in one line."""
    return lambda leaflet: " ".join(" ".join(page.words for page in _read(leaflet.pdf()).pages).split())


@pytest.fixture(scope="session")
def made() -> Callable[..., Leaflet]:
    """A leaflet, as a function makes it of these; made once, and shared by whoever asks for it."""
    kept: dict[object, tuple[Leaflet, object]] = {}

    def once(make: Callable[..., Leaflet], *of: object, **how: object) -> Leaflet:
        key = make, tuple(map(_known, of)), tuple(sorted(how.items()))
        if key not in kept:
            # What it is made of is kept with it, so that no other gets its id.
            kept[key] = make(*of, **how), of
        return kept[key][0]

    return once


def _known(value: object) -> object:
    """A value, or its id if it has no hash, as a workshop has none."""
    try:
        hash(value)
    except TypeError:
        return id(value)
    return value


def _troubles(page: PrintedPage) -> list[str]:
    """Words that leave the printed part of the page, or stand on one another."""
    margin, (width_of, height_of) = page.paper.margin, page.size
    found = []
    lines = sorted(page.lines, key=lambda line: line.top)
    for i, line in enumerate(lines, 1):
        out = line.left < margin - 1 or line.right > width_of - margin + 1
        if out or line.top < margin - 6 or line.bottom > height_of - margin + 6:
            found.append(f"{line.text!r} leaves the page: {line}")
        for other in takewhile(lambda each, low=line.bottom - _HAIR: each.top < low, lines[i:]):
            across = min(line.right, other.right) - max(line.left, other.left)
            down = min(line.bottom, other.bottom) - other.top
            if across > _HAIR and down > _HAIR:
                found.append(f"{line.text!r} overlaps {other.text!r}")
    return found


@pytest.fixture(scope="session")
def troubles() -> Callable[[Leaflet], list[str]]:
    """What is wrong with how words stand on a leaflet's pages; empty if nothing is."""
    return lambda leaflet: [found for page in _read(leaflet.pdf()).pages for found in _troubles(page)]
