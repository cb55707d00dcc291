"""Threads of a cloth as lines to be drawn: broken where they pass under, turned where they turn.

A line's points are (column, row) in threads, so that a figure only has to put them on its
page. What is over and what is missing is read off the cloth; nothing here knows a weave. And
where the hand is in a step: what the lens looks at, and what it marks.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from hemcalc.weave.crossings import COLUMN, ROW, Clasp, Cloth, Stretch
from hemcalc.weave.darning import Tail
from hemcalc.weave.steps import WeaveStep

Point = tuple[float, float]

_GAP = 0.31  # half of the break in a thread that passes under, pitches
_BULGE = 0.6  # how far a U-turn reaches beyond the middle of the last thread crossed, pitches
_ARC = 24  # parts that a U-turn is drawn in
_LOOSE = 4.0  # pitches of a loose end that are drawn
_SLANT = ((-1, -0.12), (1, 0.12))
_KEPT = 3  # threads that are seen before and after the lens has moved on


@dataclass(frozen=True, slots=True)
class Strand:
    """A stretch of thread in sight, or behind the cloth.

    `look` is "woven", "tail" or "behind".
    """

    look: str
    direction: str
    points: tuple[Point, ...]


def strands(cloth: Cloth, rows: range, columns: range, tails: Collection[Tail] = ()) -> Iterator[Strand]:
    """Every thread of a window of the cloth, broken wherever it passes under.

    Where these tails make their U-turn, the straight threads stop for the arc of `turns`.
    """
    over = _overs(cloth, rows, columns)
    for direction, lines, places in ((ROW, rows, columns), (COLUMN, columns, rows)):
        for line in lines:
            bends = {(_base(tail), tail.end.other.far) for tail in tails if _at(tail, direction, line)}
            under = [
                place
                for place in places
                if over[(line, place) if direction == ROW else (place, line)] not in (None, direction)
            ]
            for stretch in cloth.stretches(direction, line):
                yield from _pieces(stretch, direction, line, places, under, bends)


def _overs(cloth: Cloth, rows: range, columns: range) -> dict[tuple[int, int], str | None]:
    """Which thread is over at every place of the window."""
    found: dict[tuple[int, int], str | None] = {}
    for row in rows:
        for column in columns:
            if (ROW, row) in cloth.touched or (COLUMN, column) in cloth.touched:
                found[row, column] = cloth.crossing(row, column).over
            else:  # as the loom laid it, which needs no looking up
                found[row, column] = ROW if cloth.woven_over(ROW, row, column) else COLUMN
    return found


def _pieces(
    stretch: Stretch,
    direction: str,
    line: int,
    places: range,
    under: list[int],
    bends: set[tuple[int, bool]],
) -> Iterator[Strand]:
    first, last = max(stretch.first, places[0]), min(stretch.last, places[-1])
    if first > last:
        return
    # At its U-turn, which lies inward, a thread is drawn as far as the middle of the one it crosses.
    start = first - (0.0 if (stretch.first, True) in bends else 0.5)
    end = last + (0.0 if (stretch.last, False) in bends else 0.5)
    if stretch.kind == "tucked":
        yield Strand("behind", direction, (_point(direction, line, start), _point(direction, line, end)))
        return
    look = "tail" if stretch.kind == "darned" else "woven"
    for place in (*(p for p in under if first <= p <= last), None):
        until = end if place is None else place - _GAP
        if until > start:
            yield Strand(look, direction, (_point(direction, line, start), _point(direction, line, until)))
        start = start if place is None else place + _GAP


def turns(cloth: Cloth, tails: Collection[Tail]) -> Iterator[Strand]:
    """The U-turns of these tails, broken where they pass under each other or under a thread."""
    for tail in tails:
        direction = tail.end.side.direction
        arc = _arc(tail)
        breaks = [
            _point(direction, line, _base(tail))
            for line in _lines(tail)
            if _passes_under(cloth, direction, line, _base(tail))
        ]
        for clasp in cloth.clasps:
            both = None not in (clasp.row_over, clasp.column_over)
            if clasp.corner == tail.corner and both and clasp.over != direction:
                breaks.append(hold(clasp, tail))
        for points in _broken(arc, breaks):
            yield Strand("tail", direction, points)


def hold(clasp: Clasp, tail: Tail) -> Point:
    """Where the two U-turns of a corner cross: a little inward from the middle of the clasp.

    Each is half an ellipse from the middle of the thread crossed; with u inward from the clasp
    they meet where (u + 1/2)² / bulge² + u² / (1/2)² = 1.
    """
    flat = 1 / _BULGE**2
    a, b, c = flat + 4, flat, flat / 4 - 1
    inward = (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a)
    row_far = tail.end.side.far if tail.end.side.direction == ROW else tail.end.other.far
    column_far = tail.end.other.far if tail.end.side.direction == ROW else tail.end.side.far
    return (
        float(clasp.column) + (-inward if column_far else inward),
        float(clasp.row) + (-inward if row_far else inward),
    )


def turned_back(cloth: Cloth, tail: Tail) -> bool:
    """Whether a tail has been darned into its empty line."""
    direction = tail.end.side.direction
    line = tail.end.side.line(tail.thread - 1)
    return any(s.thread == tail.name and s.kind == "darned" for s in cloth.stretches(direction, line))


def hangs(cloth: Cloth, tail: Tail) -> bool:
    """Whether a tail is out of the cloth and not yet turned back or run in."""
    direction, line = tail.end.side.direction, tail.end.side.line(tail.thread)
    if any(s.thread == tail.name for s in cloth.stretches(direction, line)):
        return False
    inner = tail.end.other.line(tail.end.kept_from(tail.thread, tail.turn_at) - 1)
    return cloth.lying(direction, line, inner) is None and not turned_back(cloth, tail)


def loose_end(tail: Tail, made: int | None, length: float = _LOOSE) -> tuple[Point, ...]:
    """The loose end of a tail, from where it leaves the cloth.

    So many of its passes are made; None while it hangs out of the cloth, unturned. Not all of a long end is
    drawn.
    """
    end, direction = tail.end, tail.end.side.direction
    outward = 1 if end.other.far else -1
    if made is None:
        kept = end.kept_from(tail.thread, tail.turn_at)
        line, start, way = end.side.line(tail.thread), end.other.line(kept) - outward * 0.5, -outward
    else:
        back = [each for each in tail.passes[:made] if each.where != "before"]
        line, way = end.side.line(tail.thread - 1), outward
        start = end.other.line(back[-1].thread) + 0.5 * outward if back else float(_base(tail))
    # It bends to the side on which there is no hem, so that it doesn't hide its line.
    aside = -1 if end.side.far else 1
    steps = [min(length, _LOOSE) * i / _ARC for i in range(_ARC + 1)]
    return tuple(
        _point(direction, line + aside * 0.6 * math.sin(1.1 * s) * min(s, 1), start + way * s) for s in steps
    )


def _lines(tail: Tail) -> tuple[int, int]:
    side = tail.end.side
    return side.line(tail.thread), side.line(tail.thread - 1)


def _base(tail: Tail) -> int:
    """The place in its lines from whose middle a tail's U-turn bends inward."""
    return tail.end.other.line(tail.end.beyond_turn(tail.turn_at))


def _at(tail: Tail, direction: str, line: int) -> bool:
    return tail.end.side.direction == direction and line in _lines(tail)


def _arc(tail: Tail) -> tuple[Point, ...]:
    own, back = _lines(tail)
    inward = -1 if tail.end.other.far else 1
    angles = [math.pi * (i / _ARC - 0.5) for i in range(_ARC + 1)]
    return tuple(
        _point(
            tail.end.side.direction,
            (own + back) / 2 - (own - back) / 2 * math.sin(angle),
            _base(tail) + inward * _BULGE * math.cos(angle),
        )
        for angle in angles
    )


def _passes_under(cloth: Cloth, direction: str, line: int, place: int) -> bool:
    row, column = (line, place) if direction == ROW else (place, line)
    return cloth.crossing(row, column).over not in (None, direction)


def _broken(points: tuple[Point, ...], at: list[Point]) -> Iterator[tuple[Point, ...]]:
    """A line without what lies nearer to one of these points than half a break."""
    kept: list[Point] = []
    for point in points:
        if all(math.dist(point, place) > _GAP for place in at):
            kept.append(point)
        elif kept:
            yield tuple(kept)
            kept = []
    if kept:
        yield tuple(kept)


def _point(direction: str, line: float, place: float) -> Point:
    return (place, line) if direction == ROW else (line, place)


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
