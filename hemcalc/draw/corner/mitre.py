"""The corner from above, from flat with its trim and fold lines to folded, and its layers.

Looked at from the wrong side, toward which every fold turns; x across to the right, y down
the page, both outward. The wrong side is dotted, the right side plain.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from matplotlib.collections import LineCollection
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from hemcalc.corner.basting import Basted, basted_lines
from hemcalc.corner.mitre import CORNER_EXAMPLE, Corner
from hemcalc.corner.plies import DrawnPly
from hemcalc.corner.polygon import Point
from hemcalc.draw.corner.layer_map import LayerMap, layer_words
from hemcalc.draw.look import CLOTH_SIDES, INK, LINES, PAPER, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels, broken_line
from hemcalc.draw.scale import ScaleBar
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import of_type
from hemcalc.measure.lengths import Length
from hemcalc.measure.measured import finite_number

_MAX_PLIES = 18
_WORDS_BELOW = 40  # points kept below the flat cloth
_LINES_BELOW = 6.6  # lines of small type kept below the folded corner
_INWARD = 0.6  # how far inward is shown, in reaches outward
_BARS = {
    "in": ("1/16 in", "1/8 in", "1/4 in", "1/2 in", "1 in"),
    "cm": ("1 mm", "2 mm", "5 mm", "1 cm", "2 cm"),
}


class CornerMitre:
    """The view of the folding corner: made once for a box of a sheet, then updated.

    Drawn as large as may be, so that the folded corner fills the picture as the flat cloth does,
    with room for words below it and beside it; a bar says the scale.
    """

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float]) -> None:
        self.sheet = sheet
        self.axes = sheet.axes(box, (0, 1), (0, 1), to_scale=True)
        self.plies = [Polygon([(0, 0)], closed=True) for _ in range(_MAX_PLIES)]
        drawn = {"facecolor": PAPER, "edgecolor": INK, "linewidth": 0.6}
        self.open_lines = [Polygon([(0, 0)], closed=True, **drawn) for _ in range(2)]
        base, *over = self.plies
        self.basted = LineCollection([], **LINES["basted"].line)
        self.trim, self.fold, self.leaders = (
            Line2D([], [], **LINES[kind].line) for kind in ("cut", "fold", "dimension")
        )
        self.marks = Line2D([], [], color=INK, linestyle="none", marker="o", markersize=9, fillstyle="none")
        lines = (self.basted, self.trim, self.fold, self.leaders, self.marks)
        sheet.moving(self.axes, base, *self.open_lines, *over, *lines)
        self._labels = Labels(sheet, self.axes, 8)
        self.dimensions = Dimensions(sheet, self.axes, 2)
        self.scale = ScaleBar(sheet, self.axes)
        self.reach_mm = 0.0

    def update(self, corner: Corner, progress: float, unit: str, least_mm: float = 0.0) -> None:
        """Show this corner, folded so far, with lengths in this unit, and so many mm high at least."""
        plies = corner.folded(progress)
        self._frame(max(max(point) for ply in plies for point in ply.shape), progress, least_mm)
        self._show_plies(corner, plies)
        self._show_scale(unit)
        flat = progress <= 0
        # Once the hems come over, the basting lies inside and is no longer seen.
        inside = not flat and corner.folding(progress).startswith("hem")
        lines = () if inside else basted_lines(corner, progress)
        self.basted.set_segments([[_down(line.start), _down(line.end)] for line in lines])
        self.trim.set_data(*_path(corner.trim if flat else None))
        self.fold.set_data(*_path(self._seam(corner, progress)))
        self.marks.set_data(*_path(() if inside else _landed(corner, progress)))
        self.leaders.set_data([], [])
        self._labels.show(
            self._flat_words(corner, lines) if flat else self._folded_words(corner, progress, unit)
        )
        self.dimensions.show(self._hem_widths(corner, progress, unit) if flat or progress >= 1 else [])

    def _frame(self, outward: float, progress: float, least_mm: float) -> None:
        """Show the cloth as far as it reaches outward, and above the room for words."""
        _, _, axes_width, axes_height = self.axes.get_position().bounds
        width, height = self.sheet.figure.get_size_inches()
        folded = _LINES_BELOW * 1.35 * self.sheet.type.small
        words = _WORDS_BELOW + min(1.0, 10 * progress) * (folded - _WORDS_BELOW)
        inward = _INWARD * outward
        self.reach_mm = (inward + outward) / (1 - words / (72 * axes_height * height))
        up = max(self.reach_mm, least_mm)
        across = up * (axes_width * width) / (axes_height * height)
        self.axes.set_xlim(-inward, across - inward)
        self.axes.set_ylim(inward - up, inward)

    def _show_scale(self, unit: str) -> None:
        left, right = self.axes.get_xlim()
        bars = [Length(text) for text in _BARS["in" if unit == "in" else "cm"]]
        bar = max((bar for bar in bars if bar.mm <= (right - left) / 8), default=bars[0])
        self.scale.show(float(bar.mm), bar.text(unit))

    def _hem_widths(self, corner: Corner, progress: float, unit: str) -> list[Dimension]:
        hx, hy = (float(hem) for hem in corner.hems)
        below = -float(corner.raw_corner[1]) if progress <= 0 else -hy
        left = self.axes.get_xlim()[0] + self._line
        across, down = corner.across.hem_width.text(unit), corner.down.hem_width.text(unit)
        return [
            Dimension(0, hx, below - 2.2 * self._line, below, across),
            Dimension(0, -hy, left, left, down, upright=True),
        ]

    @property
    def _line(self) -> float:
        """Height of a line of small type, mm."""
        return 1.35 * self.sheet.type.small * self.sheet.points(self.axes)[1]

    def _show_plies(self, corner: Corner, plies: Sequence[DrawnPly]) -> None:
        for i, patch in enumerate(self.plies):
            patch.set_visible(i < len(plies))
            if i < len(plies):
                look = CLOTH_SIDES["right" if plies[i].right_side_up else "wrong"]
                outline, closed = _outline(plies[i], plies)
                patch.set_closed(closed)
                patch.set_xy([_down(point) for point in outline])
                patch.set(**look.patch)
        far = -float(corner.extent)
        open_mm = [float(edge.width(edge.drawn).mm) for edge in (corner.across, corner.down)]
        self.open_lines[0].set_xy([(-open_mm[0], -far), (0, -far), (0, 0), (-open_mm[0], 0)])
        self.open_lines[1].set_xy([(far, 0), (0, 0), (0, open_mm[1]), (far, open_mm[1])])

    def _seam(self, corner: Corner, progress: float) -> tuple[tuple[float, float], ...] | None:
        """The corner fold while the cloth is flat, the mitre seam once it is folded."""
        if progress >= 1 and corner.is_mitred:
            hx, hy = (float(hem) for hem in corner.hems)
            return (0.0, 0.0), (hx, hy)
        if progress > 0 or corner.corner_fold is None:
            return None
        (x0, y0), (x1, y1) = corner.corner_fold
        return (float(x0), float(y0)), (float(x1), float(y1))

    def _flat_words(self, corner: Corner, lines: Sequence[Basted]) -> list[Label]:
        """Names in a column beside the cloth, with leaders to where the lines reach its edge."""
        bottom, top = self.axes.get_ylim()
        point = self.sheet.points(self.axes)[0]
        beside = float(corner.raw_corner[0]) + 16 * point
        ends = [(name, (x, max(y, bottom))) for name, (x, y) in _named(corner, lines, top)]
        ends.sort(key=lambda end: end[1][1])
        names = [Label(beside, y, name, "left", small=True) for name, (_, y) in ends]
        side = Label(beside, top - 1.2 * self._line, "wrong side\nup (dotted)", "left", "top", small=True)
        under = side.y - self._labels.size(side)[1] - 0.4 * self._line
        placed = self._labels.in_column(names, bottom + self._line, under)
        self.leaders.set_data(
            *broken_line(
                [end, (beside - 3 * point, label.y)] for (_, end), label in zip(ends, placed, strict=True)
            )
        )
        below = -float(corner.raw_corner[1]) - 0.4 * self._line
        return [
            *placed,
            Label(-4 * point, below, "cut", "right", "top", small=True),
            side,
        ]

    def _folded_words(self, corner: Corner, progress: float, unit: str) -> list[Label]:
        left, bottom = self.axes.get_xlim()[0], self.axes.get_ylim()[0]
        state = (
            "folded: right side plain, wrong side dotted" if progress >= 1 else fold_words(corner, progress)
        )
        # Where the cloth lands can be said as soon as the corner is folded.
        landed = corner.is_mitred and _is_folded(corner, progress)
        lines = [state, *(landing_words(corner, unit) if landed else ())]
        return [
            Label(left, bottom + i * self._line, line, "left", "bottom", small=True, on_paper=True)
            for i, line in enumerate(reversed(lines))
        ]


def draw_corner(corner: Corner, progress: float = 1.0, unit: str | None = None, size: str = "page") -> Still:
    """The corner and its layers, as a finished figure.

    Flat it is at a progress of 0, folded at 1. Lengths are in ``"in"``, ``"cm"`` or ``"mm"``, and its type is
    for a ``"page"`` or a ``"projector"``.
    """
    of_type(corner, Corner, "corner", CORNER_EXAMPLE)
    progress = finite_number(progress, "progress", least=0, most=1, example=0.5)
    unit = corner.across.count.unit_or(unit)
    sheet = Sheet(9, 4.6, dpi=150, size=type_size(size))
    CornerMitre(sheet, (0.01, 0.02, 0.62, 0.96)).update(corner, progress, unit)
    LayerMap(sheet, (0.66, 0.02, 0.33, 0.96)).update(corner, unit)
    return Still(sheet, corner_alt(corner, progress, unit))


def fold_words(corner: Corner, progress: float) -> str:
    """Which fold is under way or has just been made."""
    step, share = corner.step(progress)
    return f"folding: {corner.folds[step].name}" if share else f"just folded: {corner.folds[step - 1].name}"


@lru_cache(maxsize=64)
def landing_words(corner: Corner, unit: str) -> tuple[str, ...]:
    """The mitre's angle and seam, and where trimmed edge and basted lines land."""
    if corner.order == "turns first":
        return (f"turns pressed first: up to {max(corner.layer_areas)} layers on the corner",)
    lands = corner.trim_lands_mm
    words = [f"mitre at {corner.angle:.1f}° to the level edge, seam {_measured(corner.seam_mm, unit)}"]
    if lands is not None and abs(lands) < 1e-9:
        words.append("the trimmed edge just touches the crossing of the open lines")
    elif lands is not None:
        where = "short of" if lands > 0 else "past"
        words.append(f"the trimmed edge lands {_measured(abs(lands), unit)} {where} the open lines' crossing")
    apart = {mark.line: mark for mark in corner.landings if mark.side == "across"}
    if corner.equal_hems:
        words.append("fold 1 lands on fold 1, fold 2 on the open line")
    else:
        one, two = (float(apart[name].apart_threads) for name in ("fold 1", "fold 2"))
        words.append(f"at the open line fold 1 lands {one:.2f} threads off, fold 2 by {two:.2f}")
    return tuple(words)


def corner_alt(corner: Corner, progress: float, unit: str) -> str:
    """The corner in words, with its numbers."""
    hx, hy = corner.across.hem_width.text(unit), corner.down.hem_width.text(unit)
    state = fold_words(corner, progress)
    if progress <= 0 or progress >= 1:
        state = "flat" if progress <= 0 else "folded"
    article = "An" if corner.kind[0] in "aeiou" else "A"
    words = [f"{article} {corner.kind} corner of hems {hx} and {hy}, {state}, seen from the wrong side"]
    if corner.is_mitred:
        words += landing_words(corner, unit)
    if corner.trim is not None:
        legs = (_measured(leg, unit) for leg in corner.legs_mm)
        words.append("trimming cuts {} and {} off the raw edges".format(*legs))
    words.append(layer_words(corner))
    return "; ".join(words) + "."


def _measured(mm: float, unit: str) -> str:
    """A length that has a root in it, to the reader's unit."""
    return Length(round(mm * 10**6) * Length(1).mm / 10**6).text(unit)


def _down(point: tuple[float | Fraction, float | Fraction]) -> tuple[float, float]:
    """The point on the page, where up is positive."""
    return float(point[0]), -float(point[1])


def _path(
    points: Sequence[tuple[float | Fraction, float | Fraction]] | None,
) -> tuple[list[float], list[float]]:
    placed = [_down(point) for point in points or ()]
    return [x for x, _ in placed], [y for _, y in placed]


def _outline(ply: DrawnPly, plies: Sequence[DrawnPly]) -> tuple[Sequence[tuple[float, float]], bool]:
    """The ply's corners, begun so that an edge at which the cloth goes on is left open.

    A square corner's cloth is no convex shape and is kept in two; no line shows between.
    """
    points = ply.shape
    going_on = {edge for other in plies if other.right_side_up == ply.right_side_up for edge in _edges(other)}
    for i, (start, end) in enumerate(_edges(ply)):
        if (end, start) in going_on:
            return (*points[i + 1 :], *points[: i + 1]), False
    return points, True


def _edges(ply: DrawnPly) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    return list(zip(ply.shape, (*ply.shape[1:], ply.shape[0]), strict=True))


def _landed(corner: Corner, progress: float) -> list[Point]:
    """Where the folded corner's basted lines meet the lines on which they should lie."""
    if not _is_folded(corner, progress) or corner.order == "turns first":
        return []
    return [mark.meets for mark in corner.landings if mark.meets and mark.line != "cut"]


def _is_folded(corner: Corner, progress: float) -> bool:
    """Whether the fold over the corner is made."""
    step, share = corner.step(progress)
    made = corner.folds[: step + (share >= 1)]
    return any(fold.name == "corner" for fold in made)


def _named(corner: Corner, lines: Sequence[Basted], top: float) -> list[tuple[str, tuple[float, float]]]:
    """The lines on the flat cloth by name, and the end of each that is nearest to the right edge."""
    ends: list[tuple[str, tuple[float, float]]] = []
    for line in lines:
        if line.side == "down":
            ends.append((line.name, max(_down(line.start), _down(line.end))))
    if corner.trim is not None:
        ends.append(("trim", _down(corner.trim[-1])))
    if corner.corner_fold is not None:
        x, y = _down(corner.corner_fold[-1])
        if y > top:
            x, y = _down(corner.mitre.at_y(Fraction(-top)))
        ends.append(("corner fold", (x, y)))
    return ends
