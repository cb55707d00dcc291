"""Looks at a sheet as a reader does, and offers it what the sliders can ask for."""

from __future__ import annotations

from collections.abc import Callable
from itertools import takewhile

import numpy as np
import pytest
from hypothesis import strategies as st

from hemcalc.draw.lettering import Word
from hemcalc.draw.look import TYPE
from hemcalc.draw.sheet import Sheet
from hemcalc.edge.ledger import Edge, plan_edge
from hemcalc.measure.units import UNITS

_HAIR = 1.0  # pixels; below it nobody sees that two letters touch


def words_on(sheet: Sheet) -> list[Word]:
    """The words that a reader sees."""
    return [word for word in sheet.figure.findobj(Word) if word.get_visible() and word.get_text().strip()]


def troubles_on(sheet: Sheet) -> list[str]:
    """What is wrong with how words stand on a sheet, as the Agg renderer measures them.

    Words that overlap, that leave the sheet, and words over lines or patterns without paper
    under them.
    """
    renderer = sheet.canvas.get_renderer()
    words = words_on(sheet)
    boxes = [word.get_window_extent(renderer).extents.tolist() for word in words]
    wide, high = sheet.figure.bbox.width, sheet.figure.bbox.height
    found = []
    placed = sorted(zip(boxes, words, strict=True), key=lambda each: each[0][0])
    for i, ((x0, y0, x1, y1), word) in enumerate(placed, 1):
        if x0 < -_HAIR or y0 < -_HAIR or x1 > wide + _HAIR or y1 > high + _HAIR:
            found.append(f"{word.get_text()!r} leaves the sheet")
        for (left, low, right, top), other in takewhile(lambda each, x=x1: each[0][0] < x, placed[i:]):
            if min(x1, right) - left > _HAIR and min(y1, top) - max(y0, low) > _HAIR:
                found.append(f"{word.get_text()!r} overlaps {other.get_text()!r}")
    bare = _without(sheet, words)
    for word, (x0, y0, x1, y1) in zip(words, boxes, strict=True):
        left, right = round(x0 + _HAIR), round(x1 - _HAIR)
        upper, lower = round(high - y1 + _HAIR), round(high - y0 - _HAIR)
        under = bare[max(upper, 0) : max(lower, 0), max(left, 0) : max(right, 0), :3]
        if not word.on_paper and under.size and under.min() < 250:
            found.append(f"{word.get_text()!r} stands on lines")
    return found


def _without(sheet: Sheet, words: list[Word]) -> np.ndarray:
    """The picture without these words, as pixels."""
    for word in words:
        word.set_visible(False)
    pixels = sheet.pixels().copy()
    for word in words:
        word.set_visible(True)
    return pixels


@pytest.fixture(scope="session")
def words() -> Callable[[Sheet], list[Word]]:
    """The words that a reader sees on a sheet."""
    return words_on


@pytest.fixture(scope="session")
def troubles() -> Callable[[Sheet], list[str]]:
    """What is wrong with how words stand on a sheet; empty if nothing is."""
    return troubles_on


@st.composite
def edges_offered(draw: st.DrawFn) -> Edge:
    """Any edge that the sliders of a panel can ask for, its extremes more often than the rest."""
    count = draw(st.sampled_from(("10/in", "50/in", "32/in", "27/in", "4/cm", "20/cm", "11.5/cm")))
    hem = draw(st.sampled_from((1, 24)) | st.integers(1, 24))
    return plan_edge(
        count,
        hem,
        clear=draw(st.sampled_from((0, 12)) | st.integers(0, 12)),
        drawn=draw(st.integers(1, 4)),
        turn=draw(st.none() | st.sampled_from((0, hem)) | st.integers(0, hem)),
        handling=draw(st.sampled_from((0, 8)) | st.integers(0, 8)),
    )


@pytest.fixture(scope="session")
def edges() -> st.SearchStrategy[Edge]:
    """Any edge that the sliders of a panel can ask for."""
    return edges_offered()


@pytest.fixture(scope="session")
def looks() -> st.SearchStrategy[tuple[str, str]]:
    """A unit and a size of type."""
    return st.tuples(st.sampled_from(UNITS), st.sampled_from(tuple(TYPE)))
