"""Words on paper: how wide they are, where a line breaks, and what the type can't print."""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

import matplotlib
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from hemcalc.measure.errors import HemError, shown

#: How wide narrow letters are beside the others, which are broad for their height.
NARROW = 0.9

_POINT = 25.4 / 72  # mm
_LEADING = 1.32  # from one line to the next, in sizes of type
_JOINT = "\0"
#: Spaces at which no line breaks: within a number, before its unit, about ×, after the sign of rounding.
_HELD = re.compile(r"(?<=≈) |(?<=\d ×) (?=\d)|(?<=\d) (?=\d+/\d|× \d|%|(?:in|cm|mm|m|yd|threads?)\b)")


@lru_cache
def typeface(bold: bool = False) -> TTFont:
    """The type that comes with matplotlib, so that every machine prints the same."""
    name = "DejaVuSans-Bold" if bold else "DejaVuSans"
    font = TTFont(name, Path(matplotlib.get_data_path(), "fonts", "ttf", f"{name}.ttf"))
    pdfmetrics.registerFont(font)
    return font


@lru_cache(maxsize=8192)
def width_of(text: str, points: float, bold: bool = False) -> float:
    """Width of a text in one line, mm; refused if the type lacks one of its characters.

    Examples
    --------
    >>> width_of("cut", 9) < width_of("cut after", 9) < width_of("cut after", 9, bold=True)
    True
    """
    letters = typeface(bold)
    lacking = sorted({letter for letter in text if ord(letter) not in letters.face.charToGlyph})
    if lacking:
        raise HemError(
            f"{shown(text)} can't be printed: the type has no {shown(''.join(lacking[:8]))}; write it in "
            "letters that it has, for example 'Ada'.",
            "text",
        )
    return float(letters.stringWidth(text, points)) * _POINT


def height_of(points: float, lines: int = 1) -> float:
    """Height of so many lines, mm."""
    return lines * points * _LEADING * _POINT


def wrapped(text: str, room: float, points: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than the room, mm; a word that is wider is broken.

    A number stays with its fraction and its unit.

    Examples
    --------
    >>> wrapped("fold 1 runs after thread 26", 25, 9)
    ['fold 1 runs', 'after thread 26']
    >>> wrapped("cut it at 6 1/2 in", 22, 9)
    ['cut it at', '6 1/2 in']
    """
    return list(_lines(text, room, points, bold))


@lru_cache(maxsize=4096)  # a class's steps are mostly alike
def _lines(text: str, room: float, points: float, bold: bool) -> tuple[str, ...]:
    lines: list[str] = []
    space = width_of(" ", points, bold)
    for paragraph in text.split("\n"):
        line, along = "", 0.0  # a line is as wide as its words and spaces: letters don't move together
        for word in (held.replace(_JOINT, " ") for held in _HELD.sub(_JOINT, paragraph).split(" ")):
            across = width_of(word, points, bold)
            longer = along + space + across if line else across
            if longer <= room:
                line, along = f"{line} {word}" if line else word, longer
                continue
            if line:
                lines.append(line)
            *whole, line = _broken(word, room, points, bold)
            lines += whole
            along = width_of(line, points, bold)
        lines.append(line)
    return tuple(lines)


def _broken(word: str, room: float, points: float, bold: bool) -> list[str]:
    parts = [""]
    for letter in word:
        if parts[-1] and width_of(parts[-1] + letter, points, bold) > room:
            parts.append("")
        parts[-1] += letter
    return parts
