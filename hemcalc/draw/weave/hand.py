"""Where the hand is in a step of the weave: what the lens looks at, and what it marks."""

from __future__ import annotations

import math

from hemcalc.weave.crossings import ROW
from hemcalc.weave.darning import Tail
from hemcalc.weave.steps import WeaveStep

_SLANT = ((-1, -0.12), (1, 0.12))
_KEPT = 3  # threads that are seen before and after the lens has moved on


def followed(home: range, whole: range, at: int) -> range:
    """The lens moved out in hops, by all but a few threads of it, until it shows a place."""
    hop = len(home) - _KEPT
    hops = (home.start - at + hop - 1) // hop if at < home.start else -((at - home.stop + hop) // hop)
    start = home.start if at in home else home.start - hops * hop
    start = min(max(start, whole.start), max(whole.stop - len(home), whole.start))
    return range(start, start + len(home))


def marks_of(step: WeaveStep, rows: range, columns: range) -> list[list[tuple[float, float]]]:
    """Where the hand is: a ring at what is passed, or run in behind; strokes at what is cut."""
    if step.kind == "cut" and step.tail:
        return _snip(step.tail, rows, columns)
    if step.kind == "run in" and step.tail:
        end = step.tail.end
        row, column = end.place(step.tail.thread, end.other.edge.open_line + 1)
        return [_ring(column, -row)]
    return [_ring(float(step.passed.column), -float(step.passed.row))] if step.passed else []


def _ring(x: float, y: float) -> list[tuple[float, float]]:
    turn = [2 * math.pi * i / 36 for i in range(37)]
    return [(x + 0.75 * math.cos(angle), y + 0.75 * math.sin(angle)) for angle in turn]


def _snip(tail: Tail, rows: range, columns: range) -> list[list[tuple[float, float]]]:
    """Two strokes across a thread where it leaves the lens toward its middle, at which it is cut."""
    side, other = tail.end.side, tail.end.other
    along = columns if side.direction == ROW else rows
    inner = along[0] if other.far else along[-1]
    strokes = []
    for shift in (-0.15, 0.15):
        ends = [(inner + shift + slant, side.line(tail.thread) + 0.5 * way) for way, slant in _SLANT]
        strokes.append([(a, -b) if side.direction == ROW else (b, -a) for a, b in ends])
    return strokes
