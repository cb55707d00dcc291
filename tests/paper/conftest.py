"""Reads a PDF back: its pages, its strokes and its type, without a library for it."""

from __future__ import annotations

import re
import zlib
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.text import Text

from hemcalc.paper.page import Page

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
class PrintedPage:
    """A page as the printer gets it, mm."""

    size: tuple[float, float]
    strokes: tuple[Stroke, ...]


@dataclass(frozen=True)
class Printed:
    """A PDF, read back."""

    pages: tuple[PrintedPage, ...]
    #: The body of every object, its stream unpacked.
    objects: dict[int, bytes]


def _read(pdf: bytes) -> Printed:
    objects = {}
    for match in re.finditer(rb"(\d+) 0 obj\n(.*?)\nendobj", pdf, re.DOTALL):
        body = match[2]
        if b"stream\n" in body:
            head, packed = body.split(b"stream\n", 1)
            packed = packed.rsplit(b"\nendstream", 1)[0]
            body = head + (zlib.decompress(packed) if b"/FlateDecode" in head else packed)
        objects[int(match[1])] = body
    pages = []
    for body in objects.values():
        if not re.search(rb"/Type /Page\b(?!s)", body):
            continue
        wide, high = (float(side) for side in re.search(rb"/MediaBox \[ 0 0 (\S+) (\S+) \]", body).groups())
        content = objects[int(re.search(rb"/Contents (\d+) 0 R", body)[1])]
        pages.append(PrintedPage((wide * _POINT, high * _POINT), _strokes(content.decode("latin-1"), high)))
    return Printed(tuple(pages), objects)


def _strokes(content: str, high: float) -> tuple[Stroke, ...]:
    """The lines of a page's drawing operators; curves and letters are passed over."""
    strokes: list[Stroke] = []
    points: list[tuple[float, float]] = []
    kept: list[tuple[float, bool]] = []
    width, dashed, operands = 1.0, False, []
    for word in re.findall(r"\[[^\]]*\]|\S+", content):
        if word[0] in "-.[0123456789/<(":
            operands.append(word)
            continue
        if word == "q":
            kept.append((width, dashed))
        elif word == "Q":
            width, dashed = kept.pop()
        elif word in ("m", "l"):
            x, y = (float(place) * _POINT for place in operands[-2:])
            points = [*(points if word == "l" else ()), (x, high * _POINT - y)]
        elif word == "w":
            width = float(operands[-1])
        elif word == "d":
            dashed = bool(operands[-2].strip("[] "))
        elif word in ("S", "s", "b", "B") and points:
            strokes.append(Stroke(tuple(points), width, dashed))
        if word in ("S", "s", "b", "B", "f", "n"):
            points = []
        operands = []
    return tuple(strokes)


@pytest.fixture(scope="session")
def read() -> Callable[[bytes], Printed]:
    """A PDF's pages, strokes and objects."""
    return _read


def _texts_on(page: Page) -> list[Text]:
    """The words that stand on a page."""
    return [
        text for text in page.sheet.figure.findobj(Text) if text.get_visible() and text.get_text().strip()
    ]


def _troubles(page: Page) -> list[str]:
    """Words that leave the printed part of the page, or stand on one another."""
    # Finer than any screen: on a screen's grid letters are set a little wider than in print.
    dpi = 1200
    renderer = RendererAgg(10, 10, dpi)
    texts = _texts_on(page)
    mm = 25.4 / dpi
    boxes = []
    for text in texts:
        text.set_bbox(None)
        box = text.get_window_extent(renderer, dpi=dpi)
        boxes.append((box.x0 * mm, box.y0 * mm, box.x1 * mm, box.y1 * mm))
    least, most_x = page.paper.margin, page.paper.width - page.paper.margin
    most_y = page.paper.height - page.paper.margin + 6
    found = []
    for i, (text, (x0, y0, x1, y1)) in enumerate(zip(texts, boxes, strict=True)):
        if x0 < least - 1 or x1 > most_x + 1 or y0 < least - 6 or y1 > most_y:
            found.append(f"{text.get_text()!r} leaves the page: {x0:.1f} {y0:.1f} {x1:.1f} {y1:.1f}")
        for other, (u0, v0, u1, v1) in zip(texts[i + 1 :], boxes[i + 1 :], strict=True):
            if min(x1, u1) - max(x0, u0) > _HAIR and min(y1, v1) - max(y0, v0) > 2.5 * _HAIR:
                found.append(f"{text.get_text()!r} overlaps {other.get_text()!r}")
    return found


@pytest.fixture(scope="session")
def troubles() -> Callable[[Page], list[str]]:
    """What is wrong with how words stand on a page; empty if nothing is."""
    return _troubles


@pytest.fixture(scope="session")
def words() -> Callable[[Page], str]:
    """All that a page says."""
    return lambda page: "\n".join(text.get_text() for text in _texts_on(page))


@pytest.fixture(scope="session")
def texts_on() -> Callable[[Page], list[Text]]:
    """The words that stand on a page, as they are set."""
    return _texts_on
