"""The three ways with the drawn threads at a corner, side by side, each with what it leaves."""

from __future__ import annotations

from hemcalc.draw.look import type_size
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.draw.weave.corner_threads import CornerThreads
from hemcalc.draw.weave.strands import turned_back
from hemcalc.weave.ways import CornerWay, ways_at
from hemcalc.weave.weave import Weave

_WIDE, _HIGH, _PICTURE = 9.0, 4.8, 2.85  # inches
_COUNTED = "Right side up. Counted in both hems that meet here, out to the cut line."
_INSIDE = 3  # threads shown on the design's side of the open line


def draw_ways(weave: Weave, corner: str = "top left", *, hem: int | None = 9, size: str = "page") -> Still:
    """A corner darned back, run right out, and cut short and tucked, as a finished figure.

    The numbers below each are counted over both whole hems, out to the cut line.

    Of the hem so many threads are shown, all if it is None. The type is for a ``"page"`` or a
    ``"projector"``.
    """
    ways = ways_at(weave, corner)
    sheet = Sheet(_WIDE, _HIGH, dpi=150, size=type_size(size))
    window = weave.window(corner, _INSIDE, hem)
    step = _WIDE / len(ways)
    for i, way in enumerate(ways):
        left = i * step + (step - _PICTURE) / 2
        box = left / _WIDE, (_HIGH - 0.3 - _PICTURE) / _HIGH, _PICTURE / _WIDE, _PICTURE / _HIGH
        threads = CornerThreads(sheet, sheet.axes(box, (0, 1), (0, 1)))
        threads.look_at(*window)
        turned = [tail for tail in weave.tails_at(corner) if tail.reach and turned_back(way.cloth, tail)]
        threads.show(way.cloth, window, turned)
        # In points, from the picture's upper left corner.
        words = sheet.axes((left / _WIDE, 0, _PICTURE / _WIDE, 1), (0, 72 * _PICTURE), (-72 * _HIGH, 0))
        text = sheet.type.small
        below = -72 * (0.3 + _PICTURE) - 0.4 * text
        labels = [Label(0, -72 * 0.27, way.name, "left", "bottom", bold=True)]
        labels += [
            Label(0, below - 1.25 * text * n, line, "left", "top", small=True)
            for n, line in enumerate(way_words(way))
        ]
        Labels(sheet, words, len(labels)).show(labels)
    foot = sheet.axes((0, 0, 1, 1), (0, 72 * _WIDE), (0, 72 * _HIGH))
    left = 72 * (step - _PICTURE) / 2
    Labels(sheet, foot, 1).show([Label(left, 5, _COUNTED, "left", "bottom", small=True)])
    return Still(sheet, ways_alt(ways, corner))


def way_words(way: CornerWay) -> tuple[str, ...]:
    """What a way leaves, in short lines."""
    return (
        f"gaps: {way.gaps}, of them on the face {way.gaps_on_face}",
        f"an end behind the cloth: {way.doubled} places",
        f"double threads: {way.paired} places",
        f"longest float: {way.longest_float} pitch{'es' if way.longest_float > 1 else ''}",
        f"ends to hide in the hem: {way.ends}",
        f"open at the corner: {way.open_places}",
    )


def ways_alt(ways: tuple[CornerWay, ...], corner: str) -> str:
    """The three ways in words, with their numbers."""
    said = [f"{way.name.capitalize()}: {', '.join(way_words(way))}." for way in ways]
    return " ".join((f"Three ways with the drawn threads at the {corner} corner.", _COUNTED, *said))
