"""The path of a hem stitch, step by step: from one side of the cloth, and in section.

Drawn in threads both ways, at one scale. A solid line is thread that is seen, a dashed one
thread that the cloth hides. Where the thread lies on itself, round the group, its turns are
drawn side by side.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from textwrap import wrap

from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import BANDS, LINES, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels, broken_line
from hemcalc.draw.scale import framed, inches
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.draw.stitch.strand import Point, Strand
from hemcalc.draw.stitch.words import Stitched, headline, length_text, lengths, stitch_alt
from hemcalc.measure.errors import of_type
from hemcalc.measure.words import so_many
from hemcalc.stitch.path import PathPoint, StitchPath

#: How deep a bite the picture has room for, in threads.
DEEPEST = 5

_THICKEST = 1.1  # threads; a thicker layer is drawn to a smaller scale
_DRAWN = 2.0  # threads of open line that are shown
_SIDEWAYS = (-5.2, 5.2)
_INWARD = (-3.2, 5.8)  # from the design's side into the hem
_UPWARD = (-0.9, 3 * _THICKEST + 1.2)  # in section
_TURN = 0.42  # how far apart, in threads, turns round the group are drawn
#: How many times the thread has gone round the group when it passes these points of the path.
_TURNS = {
    **dict.fromkeys(("near side, behind", "near side, over"), 1),
    **dict.fromkeys(("far side, over again", "far side, behind again"), 2),
}
_KEY = "dashed: thread that the cloth hides\nright side below, wrong side above"
_LINE = 44  # letters of the headline to a line where it is narrow


def leg_kind(start: PathPoint, end: PathPoint) -> str:
    """Where a leg of the path runs: over the cloth, under it, within the hem, beside the group, or through.

    Examples
    --------
    >>> from hemcalc.stitch.path import hem_stitch
    >>> points = hem_stitch("4 mm", "2 mm", "0.5 mm").points
    >>> [leg_kind(*leg) for leg in zip(points, points[1:])][-3:]
    ['beside', 'under', 'through']
    """
    if end.name in ("within the hem", "out of the hem again"):
        return "within" if end.name == "within the hem" else "through"
    above = [point.z_mm > 0 for point in (start, end)]
    if above[0] == above[1]:
        return "over" if above[0] else "under"
    return "through" if max(start.y_mm, end.y_mm) > 0 else "beside"


def shown_points(path: StitchPath, group: int) -> list[tuple[float, float, float]]:
    """The path's points in threads from the middle of the group, its turns side by side."""
    pitch = path.advance_mm / group
    middle = (path.points[0].x_mm + path.points[-1].x_mm) / 2
    return [
        (
            (point.x_mm - middle) / pitch,
            point.y_mm / pitch - _TURN * _TURNS.get(point.name, 0),
            point.z_mm / pitch,
        )
        for point in path.points
    ]


class StitchFromAbove:
    """The stitch seen from the wrong side or the right side, the hem nearest to the worker."""

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float]) -> None:
        self.axes = sheet.axes(box, _SIDEWAYS, (-_INWARD[1], -_INWARD[0]), to_scale=True)
        self._sheet, self._smaller = sheet, 0.0
        self._clear = Rectangle((0, 0), 1, 1, **BANDS["clear"].patch)
        self._hems = {name: Rectangle((0, 0), 1, 1, **BANDS[name].patch) for name in ("back", "face")}
        self.threads = Line2D([], [], color=LINES["thread"].colour, linewidth=2 * LINES["thread"].width)
        sheet.moving(self.axes, self._clear, self.threads, *self._hems.values())
        self.strand = Strand(sheet, self.axes)
        self._labels = Labels(sheet, self.axes, 4)
        self._dimensions = Dimensions(sheet, self.axes, 2)
        self.look(1.0)

    def look(self, smaller: float) -> None:
        """From now on, show so many times as much cloth."""
        if smaller == self._smaller:
            return
        self._smaller = smaller
        across = (smaller * _SIDEWAYS[0], smaller * _SIDEWAYS[1])
        self._sheet.look(self.axes, across, (-smaller * _INWARD[1], -smaller * _INWARD[0]))
        left, right = self.axes.get_xlim()
        bottom, top = self.axes.get_ylim()
        self._clear.set_bounds(left, _DRAWN, right - left, top - _DRAWN)
        for hem in self._hems.values():
            hem.set_bounds(left, bottom, right - left, -bottom)

    def update(self, stitched: Stitched) -> None:
        """Show this stitch up to its step."""
        self._hems["back"].set_visible(stitched.from_wrong)
        self._hems["face"].set_visible(not stitched.from_wrong)
        path = stitched.as_seen
        points = [(x, -y) for x, y, _ in shown_points(path, stitched.group)]
        self.threads.set_data(*broken_line(self._cloth_threads(stitched)))
        in_sight = ("over" if stitched.from_wrong else "under", "beside")
        worked = list(zip(pairwise(points), pairwise(path.points), strict=True))[: stitched.step]
        legs = [(leg, leg_kind(*ends) in in_sight) for leg, ends in worked]
        again = [leg[1] for leg, ends in worked if leg_kind(*ends) == "through"]
        self.strand.update(legs, [points[0], *again])
        self._labels.show(self._words(stitched))
        self._dimensions.show(self._sizes(stitched))

    def _cloth_threads(self, stitched: Stitched) -> list[list[Point]]:
        """Threads across the open line: the worked group and the one before it are drawn in."""
        group, onward = stitched.group, 1 if stitched.rightward else -1
        kept = stitched.pulled_mm / stitched.path.advance_mm
        waist = stitched.half_thread_mm / stitched.pitch_mm
        lines = []
        for number, keeps in ((-1, kept), (0, kept), (1, 1.0)):
            centre = number * onward * group
            for thread in range(group):
                x = thread + 0.5 - group / 2
                lines.append([(centre + x, _DRAWN), (centre + keeps * x, waist), (centre + keeps * x, 0.0)])
        left, right = self.axes.get_xlim()
        return [line for line in lines if left < line[0][0] < right]

    def _words(self, stitched: Stitched) -> list[Label]:
        left, right = self.axes.get_xlim()
        bottom, gap = self.axes.get_ylim()[0], 0.15
        hem = "hem, its back" if stitched.from_wrong else "hem, its face"
        return [
            Label(left + gap, bottom + gap, hem, "left", "bottom", small=True, on_paper=True),
            Label(right - gap, _DRAWN - gap, "open line", "right", "top", small=True, on_paper=True),
            Label(right - gap, bottom + gap, stitched.way, "right", "bottom", small=True, on_paper=True),
        ]

    def _sizes(self, stitched: Stitched) -> list[Dimension]:
        half = stitched.group / 2
        width = length_text(stitched.path.advance_mm, stitched.unit)
        pulled = length_text(stitched.pulled_mm, stitched.unit)
        text = f"group of {stitched.group}: {width}, pulled to {pulled}"
        return [Dimension(-half, half, _DRAWN + 0.35, _DRAWN, text, on_paper=True)]


class StitchSection:
    """The stitch in section through the hem, the wrong side up."""

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float]) -> None:
        self.axes = sheet.axes(box, _INWARD, _UPWARD, to_scale=True)
        #: How many times as much it shows as the view from above does in the same length.
        self.smaller = 1.0
        self._sheet = sheet
        self._clear = Rectangle((0, 0), 1, 1, **BANDS["clear"].patch)
        self._group = Rectangle((-_DRAWN, 0), _DRAWN, 1, **BANDS["drawn"].patch)
        self.plies = {name: Rectangle((0, 0), 1, 1, **BANDS[name].patch) for name in ("face", "turn", "back")}
        sheet.moving(self.axes, self._clear, self._group, *self.plies.values())
        self.strand = Strand(sheet, self.axes)
        self._labels = Labels(sheet, self.axes, 6)
        self._dimensions = Dimensions(sheet, self.axes, 1)

    def update(self, stitched: Stitched) -> None:
        """Show this stitch up to its step."""
        path, ply = stitched.path, stitched.ply_mm / stitched.pitch_mm
        if (smaller := framed(max(1.0, ply / _THICKEST))) != self.smaller:
            across, up = ((smaller * least, smaller * most) for least, most in (_INWARD, _UPWARD))
            self._sheet.look(self.axes, across, up)
            self.smaller = smaller
        left, right = self.axes.get_xlim()
        self._clear.set_bounds(left, 0, -_DRAWN - left, ply)
        self._group.set_height(ply)
        names = ("face", "turn", "back") if stitched.plies > 2 else ("face", "back")[: stitched.plies]
        for name, patch in self.plies.items():
            patch.set_visible(name in names)
            if name in names:
                patch.set_bounds(0, names.index(name) * ply, right, ply)
        points = [(y, z) for _, y, z in shown_points(path, stitched.group)]
        worked = list(zip(pairwise(points), pairwise(path.points), strict=True))[: stitched.step]
        self.strand.update(
            [(leg, leg_kind(*ends) not in ("through", "within")) for leg, ends in worked], points[:1]
        )
        self._labels.show(self._words(stitched, names, ply))
        deep = points[0][0]
        text = f"{so_many(stitched.depth, 'thread')} deep"
        top = len(names) * ply
        self._dimensions.show([Dimension(0, deep, top + 0.75 * self.smaller, top, text)] if deep > 0 else [])

    def _words(self, stitched: Stitched, names: Sequence[str], ply: float) -> list[Label]:
        left, right = self.axes.get_xlim()
        bottom, top = self.axes.get_ylim()
        gap = 0.15
        beside = [
            Label(right - gap, (names.index(name) + 0.5) * ply, name, "right", small=True, on_paper=True)
            for name in names
        ]
        words = [
            Label(left + gap, bottom, _KEY, "left", "bottom", small=True),
            Label(-_DRAWN, -0.5 * self.smaller, "the group", "center", "top", small=True),
        ]
        return [*words, *self._labels.in_column(beside, 0.0, top)]


class StitchPicture:
    """Both views, the sentence of the step above them and the amounts below: made once, then updated.

    Where it is narrow, the view from above alone, and the sentence.
    """

    def __init__(self, *, dpi: int = 100, size: str = "page", narrow: bool = False) -> None:
        self.reach_mm = self.least_mm = 0.0
        self._narrow = narrow
        self.sheet = Sheet(*inches(9, 5.3, narrow=narrow), dpi=dpi, size=type_size(size))
        self.words = self.sheet.axes((0.005, 0, 0.99, 1), (0, 1), (0, 1))
        self._labels = Labels(self.sheet, self.words, 4)
        if narrow:
            self.above = StitchFromAbove(self.sheet, (0.005, 0.01, 0.99, 0.79))
            return
        self.above = StitchFromAbove(self.sheet, (0.005, 0.18, 0.48, 0.68))
        self.section = StitchSection(self.sheet, (0.505, 0.18, 0.49, 0.68))

    def update(self, stitched: Stitched) -> None:
        """Show this stitch up to its step."""
        self.reach_mm = (_INWARD[1] - _INWARD[0]) * stitched.pitch_mm
        self.above.look(max(1.0, self.least_mm / self.reach_mm))
        self.above.update(stitched)
        if self._narrow:
            said = "\n".join(wrap(headline(stitched), _LINE))
            self._labels.show([Label(0.0, 0.985, said, "left", "top", bold=True)])
            return
        self.section.update(stitched)
        worked = ", as it is worked" if stitched.from_wrong else ""
        smaller = self.section.smaller
        scale = f", at {1 / smaller:.0%} of that scale".replace("%", " %") if smaller > 1 else ""
        self._labels.show(
            [
                Label(0.0, 0.985, headline(stitched), "left", "top", bold=True),
                Label(0.0, 0.87, f"seen from the {stitched.seen}{worked}", "left", "bottom"),
                Label(0.51, 0.87, f"in section through the hem{scale}", "left", "bottom"),
                Label(0.0, 0.015, "\n".join((lengths(stitched), *stitched.amounts)), "left", "bottom"),
            ]
        )

    alt = staticmethod(stitch_alt)


def draw_stitch(stitched: Stitched, size: str = "page") -> Still:
    """A hem stitch up to a step, as a finished figure.

    The type is for a ``"page"`` or a ``"projector"``.
    """
    of_type(stitched, Stitched, "stitched", "Stitched(hem_stitch('4 mm', '2 mm', '0.5 mm'), 4, 2)")
    view = StitchPicture(dpi=150, size=size)
    view.update(stitched)
    return Still(view.sheet, stitch_alt(stitched))
