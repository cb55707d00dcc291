"""The corner from above, from flat with its trim and fold lines to folded, and its layers.

Looked at from the wrong side, toward which every fold turns; x across to the right, y down
the page, both outward. The wrong side is dotted, the right side plain.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from matplotlib.collections import LineCollection
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from hemcalc.basting import basted_lines
from hemcalc.corner import Corner
from hemcalc.draw.look import INK, LINES, PAPER, SIDES, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.exact import half_up
from hemcalc.lengths import Length
from hemcalc.plies import DrawnPly

__all__ = ["CornerMitre", "LayerMap", "corner_alt", "draw_corner", "draw_layers"]

_MOST_PLIES = 18
_NAN = float("nan")

#: Fill and pattern of so many layers, light to dark.
_LAYERS = {
    1: ("#ffffff", ""),
    2: ("#fdf3d8", "..."),
    3: ("#f6d9a8", "\\\\"),
    4: ("#bcd9ec", ""),
    5: ("#9cc6e6", "|||"),
    6: ("#7fb4dc", "///"),
    7: ("#5793c4", "xxx"),
    8: ("#3d78a8", "---"),
    9: ("#27567d", "+++"),
}


class CornerMitre:
    """The view of the folding corner: made once for some axes, then updated.

    Parameters
    ----------
    sheet : Sheet
        The figure.
    box : tuple
        Where on it, as shares: left, bottom, width, height.
    inward, outward : float
        How far is shown from the crossing of the open lines, mm.
    """

    def __init__(
        self, sheet: Sheet, box: tuple[float, float, float, float], inward: float, outward: float
    ) -> None:
        self.sheet = sheet
        self.axes = sheet.axes(box, (-inward, outward), (-outward, inward), to_scale=True)
        self._plies = [Polygon([(0, 0)], closed=True) for _ in range(_MOST_PLIES)]
        drawn = {"facecolor": PAPER, "edgecolor": INK, "linewidth": 0.6}
        self._open = [Polygon([(0, 0)], closed=True, **drawn) for _ in range(2)]
        base, *over = self._plies
        for patch in (base, *self._open, *over):
            self.axes.add_artist(patch)
        sheet.moving(self.axes, base, *self._open, *over)
        self._basted = _lines("basted")
        self._trim = _line("cut")
        self._fold = _line("fold")
        for artist in (self._basted, self._trim, self._fold):
            self.axes.add_artist(artist)
        sheet.moving(self.axes, self._basted, self._trim, self._fold)
        self._labels = Labels(sheet, self.axes, 8)
        self._dimensions = Dimensions(sheet, self.axes, 2)

    def update(self, corner: Corner, progress: float, unit: str) -> None:
        """Show this corner, folded so far, with lengths in this unit."""
        self._show_plies(corner, progress)
        flat = progress <= 0
        # Once the hems come over, the basting lies inside and is no longer seen.
        inside = not flat and corner.folding(progress).startswith("hem")
        lines = () if inside else basted_lines(corner, progress)
        self._basted.set_segments([[_down(line.start), _down(line.end)] for line in lines])
        self._trim.set_data(*_path(corner.trim if flat else None))
        self._fold.set_data(*_path(self._seam(corner, progress)))
        self._labels.show(self._flat_words(corner) if flat else self._folded_words(corner, progress, unit))
        self._dimensions.show(self._hem_widths(corner, unit) if flat else [])

    def _hem_widths(self, corner: Corner, unit: str) -> list[Dimension]:
        hx, hy = (float(hem) for hem in corner.hems)
        below = -float(corner.raw_corner[1])
        left = self.axes.get_xlim()[0] + 3 * self._line
        across, down = corner.across.hem_width.text(unit), corner.down.hem_width.text(unit)
        return [
            Dimension(0, hx, below - 2.2 * self._line, below, across),
            Dimension(0, -hy, left, left, down, upright=True),
        ]

    @property
    def _line(self) -> float:
        """Height of a line of small type, mm."""
        return 1.35 * self.sheet.type.small * self.sheet.points(self.axes)[1]

    def _show_plies(self, corner: Corner, progress: float) -> None:
        plies = corner.folded(progress)
        for i, patch in enumerate(self._plies):
            patch.set_visible(i < len(plies))
            if i < len(plies):
                look = SIDES["right" if plies[i].right_side_up else "wrong"]
                outline, closed = _outline(plies[i], plies)
                patch.set_closed(closed)
                patch.set_xy([_down(point) for point in outline])
                patch.set(**look.patch)
        far = -float(corner.extent)
        wide = [float(edge.width(edge.drawn).mm) for edge in (corner.across, corner.down)]
        self._open[0].set_xy([(-wide[0], -far), (0, -far), (0, 0), (-wide[0], 0)])
        self._open[1].set_xy([(far, 0), (0, 0), (0, wide[1]), (far, wide[1])])

    def _seam(self, corner: Corner, progress: float) -> tuple[tuple[float, float], ...] | None:
        """The corner fold while the cloth is flat, the mitre seam once it is folded."""
        if progress >= 1 and corner.is_mitred:
            hx, hy = (float(hem) for hem in corner.hems)
            return (0.0, 0.0), (hx, hy)
        if progress > 0 or corner.corner_fold is None:
            return None
        (x0, y0), (x1, y1) = corner.corner_fold
        return (float(x0), float(y0)), (float(x1), float(y1))

    def _flat_words(self, corner: Corner) -> list[Label]:
        hx = float(corner.hems[0])
        x, y = (float(place) for place in corner.raw_corner)
        top, (left, _), gap = self.axes.get_ylim()[1], self.axes.get_xlim(), 0.4 * self._line
        labels = [
            Label(hx, top, "fold 1", "center", "top", small=True, on_paper=True),
            Label(2 * hx, top, "fold 2", "center", "top", small=True, on_paper=True),
            Label(-hx, -y - gap, "cut", "center", "top", small=True),
            Label(left, self.axes.get_ylim()[0], "wrong side up (dotted)", "left", "bottom", small=True),
        ]
        for points, word in ((corner.trim, "trim"), (corner.corner_fold, "corner\nfold")):
            if points is not None:
                labels.append(Label(x + gap, -float(points[-1][1]), word, "left", "center", small=True))
        return labels

    def _folded_words(self, corner: Corner, progress: float, unit: str) -> list[Label]:
        left, bottom = self.axes.get_xlim()[0], self.axes.get_ylim()[0]
        state = (
            "folded: right side plain, wrong side dotted" if progress >= 1 else fold_words(corner, progress)
        )
        lines = [state, *(landing_words(corner, unit) if corner.is_mitred else ())]
        return [
            Label(
                left,
                bottom + self._line * (len(lines) - 1 - i),
                line,
                "left",
                "bottom",
                small=True,
                on_paper=True,
            )
            for i, line in enumerate(lines)
        ]


class LayerMap:
    """The view of how many layers lie where on the corner's square."""

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float], most: int = 60) -> None:
        self.sheet = sheet
        self.axes = sheet.axes(box, (-0.06, 1.06), (-1.3, 0.16), to_scale=True)
        self._cells = [Polygon([(0, 0)], closed=True) for _ in range(most)]
        for cell in self._cells:
            self.axes.add_artist(cell)
        sheet.moving(self.axes, *self._cells)
        self._labels = Labels(sheet, self.axes, 12)

    def update(self, corner: Corner) -> None:
        """Show this corner's layers, its longer side as wide as the axes."""
        hx, hy = (float(hem) for hem in corner.hems)
        scale = max(hx, hy)
        cells = [
            ([(float(x) / scale, -float(y) / scale) for x, y in cell], count)
            for cell, count in corner.layer_cells
        ]
        for i, patch in enumerate(self._cells):
            patch.set_visible(i < len(cells))
            if i < len(cells):
                fill, hatch = _LAYERS.get(cells[i][1], _LAYERS[9])
                patch.set_xy(cells[i][0])
                patch.set(facecolor=fill, hatch=hatch, edgecolor=INK, linewidth=0.5, hatch_linewidth=0.5)
        self._labels.show(self._words(corner, cells))

    def _words(self, corner: Corner, cells: list[tuple[list[tuple[float, float]], int]]) -> list[Label]:
        hx, hy = (float(hem) for hem in corner.hems)
        scale = max(hx, hy)
        labels = [
            Label(0, 0.05, "layers of cloth at the corner", "left", "bottom", small=True),
            Label(0, -hy / scale - 0.05, layer_words(corner, ",\n"), "left", "top", small=True),
        ]
        for count in corner.layer_areas:
            largest = max((cell for cell, n in cells if n == count), key=_spread)
            x = sum(px for px, _ in largest) / len(largest)
            y = sum(py for _, py in largest) / len(largest)
            if _spread(largest) > 0.004:
                labels.append(Label(x, y, str(count), bold=True, on_paper=True))
        return labels


def draw_corner(corner: Corner, progress: float = 1.0, unit: str = "in", size: str = "page") -> Still:
    """The corner and its layers, as a finished figure.

    Parameters
    ----------
    corner : Corner
        From `hemcalc.plan_corner`.
    progress : float
        From 0, flat, to 1, folded.
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"`` for the lengths.
    size : str
        Type for a ``"page"`` or a ``"projector"``.
    """
    sheet = Sheet(9, 4.6, dpi=150, size=type_size(size))
    outward = max(float(place) for place in corner.raw_corner)
    view = CornerMitre(sheet, (0.01, 0.02, 0.6, 0.96), 0.6 * outward, 1.15 * outward)
    view.update(corner, progress, unit)
    LayerMap(sheet, (0.64, 0.02, 0.35, 0.96)).update(corner)
    return Still(sheet, corner_alt(corner, progress, unit))


def draw_layers(corner: Corner, size: str = "page") -> Still:
    """The layers of cloth on the corner's square alone, as a finished figure."""
    sheet = Sheet(3.6, 4.2, dpi=150, size=type_size(size))
    LayerMap(sheet, (0.02, 0.02, 0.96, 0.96)).update(corner)
    return Still(sheet, f"The corner of a hem, {corner.kind}, {corner.order}: {layer_words(corner)}.")


def layer_words(corner: Corner, between: str = ", ") -> str:
    """How much of the corner's square lies how deep, most first."""
    shares = sorted(corner.layer_shares.items(), key=lambda item: -item[1])
    return between.join(
        f"{count} layer{'' if count == 1 else 's'} on {_percent(share)}" for count, share in shares
    )


def _percent(share: Fraction) -> str:
    """To a hundredth of a per cent, half up."""
    return f"{half_up(10000 * share) / 100:g} %"


def fold_words(corner: Corner, progress: float) -> str:
    """Which fold is under way or has just been made."""
    step, share = corner.step(progress)
    return f"folding: {corner.folds[step].name}" if share else f"just folded: {corner.folds[step - 1].name}"


def landing_words(corner: Corner, unit: str) -> tuple[str, ...]:
    """The mitre's angle and seam, and where trimmed edge and basted lines land."""
    if corner.order == "turns first":
        return (f"turns pressed first: {layer_words(corner)}",)
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
    words = [f"A {corner.kind} corner of hems {hx} and {hy}, {state}, seen from the wrong side"]
    if corner.is_mitred:
        words += landing_words(corner, unit)
    if corner.trim is not None:
        legs = (_measured(leg, unit) for leg in corner.legs_mm)
        words.append("trimming cuts {} and {} off the raw edges".format(*legs))
    if corner.order != "turns first":
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


def _line(kind: str) -> Line2D:
    look = LINES[kind]
    return Line2D([], [], color=look.colour, linewidth=look.width, linestyle=look.style)


def _lines(kind: str) -> LineCollection:
    look = LINES[kind]
    return LineCollection([], colors=look.colour, linewidths=look.width, linestyles=[look.style])


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


def _spread(cell: list[tuple[float, float]]) -> float:
    """Area of a drawn cell."""
    following = (*cell[1:], cell[0])
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(cell, following, strict=True))) / 2
