"""How many layers of cloth lie where on the folded corner, as a map of its square."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from hemcalc.corner.mitre import CORNER_EXAMPLE, Corner
from hemcalc.draw.look import INK, LAYERS, LINES, type_size
from hemcalc.draw.marks import Label, Labels, show_shapes
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import of_type
from hemcalc.measure.exact import half_up
from hemcalc.measure.words import so_many

_MAX_LAYERS = 18  # more than lie anywhere on a corner that the panel offers
_MAX_WORDS = 4  # lines of words under the map

#: A cell as it is drawn, and its number of layers.
_Cell = tuple[list[tuple[float, float]], int]


class LayerMap:
    """The view of how many layers lie where on the corner's square."""

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float]) -> None:
        self.sheet = sheet
        self.axes = sheet.axes(box, (-0.06, 1.06), (-1.3, 0.2), to_scale=True)
        self.areas = {count: PathPatch(Path([(0, 0)])) for count in range(_MAX_LAYERS + 1)}
        look = LINES["thread"]
        self.borders = LineCollection([], colors=INK, linewidths=look.width)
        sheet.moving(self.axes, *self.areas.values(), self.borders)
        self._labels = Labels(sheet, self.axes, _MAX_LAYERS + 3)

    def update(self, corner: Corner, unit: str) -> None:
        """Show this corner's layers, its longer side as wide as the axes."""
        scale = max(float(hem) for hem in corner.hems)
        cells = [
            ([(float(x) / scale, -float(y) / scale) for x, y in cell], count)
            for cell, count in corner.layer_cells
        ]
        for count, patch in self.areas.items():
            shapes = [cell for cell, n in cells if n == count]
            show_shapes(patch, shapes)
            if shapes:
                patch.set(**(LAYERS[min(count, max(LAYERS))].patch | {"linewidth": 0}))
        self.borders.set_segments(_borders(cells))
        self._labels.show(self._words(corner, cells, unit))

    def _words(self, corner: Corner, cells: list[_Cell], unit: str) -> list[Label]:
        hx, hy = (float(hem) for hem in corner.hems)
        across, down = corner.across.hem_width.text(unit), corner.down.hem_width.text(unit)
        numbers: list[Label] = []
        for cell, count in sorted(cells, key=lambda cell: -_area(cell[0])):
            x = sum(px for px, _ in cell) / len(cell)
            y = sum(py for _, py in cell) / len(cell)
            label = Label(x, y, str(count), bold=True, on_paper=True)
            width, height = self._labels.size(label)
            if _area(cell) > 1.5 * width * height and count not in [int(kept.text) for kept in numbers]:
                numbers.append(label)
        under = -hy / max(hx, hy) - 0.05
        return [
            Label(
                0, 0.05, f"layers of cloth on the corner,\n{across} × {down}", "left", "bottom", small=True
            ),
            Label(0, under, layer_words(corner, "\n", most=_MAX_WORDS), "left", "top", small=True),
            *self._labels.apart(numbers, gap=4),
        ]


def draw_layers(corner: Corner, unit: str | None = None, size: str = "page") -> Still:
    """The layers of cloth on the corner's square alone, as a finished figure."""
    of_type(corner, Corner, "corner", CORNER_EXAMPLE)
    spoken = corner.across.count.unit_or(unit)
    sheet = Sheet(3.6, 4.6, dpi=150, size=type_size(size))
    LayerMap(sheet, (0.02, 0.02, 0.96, 0.96)).update(corner, spoken)
    return Still(sheet, f"The corner of a hem, {corner.kind}, {corner.order}: {layer_words(corner)}.")


def layer_words(corner: Corner, between: str = ", ", most: int | None = None) -> str:
    """How much of the corner's square lies how deep, most first; beyond `most` of them in one."""
    shares = sorted(corner.layer_shares.items(), key=lambda item: -item[1])
    if most is not None and len(shares) > most:
        rest = sum((share for _, share in shares[most - 1 :]), Fraction(0))
        few = ", ".join(str(count) for count in sorted(count for count, _ in shares[most - 1 :]))
        return between.join([*map(_said, shares[: most - 1]), f"{few} on {_percent(rest)}"])
    return between.join(map(_said, shares))


def _said(share: tuple[int, Fraction]) -> str:
    return f"{so_many(share[0], 'layer')} on {_percent(share[1])}"


def _percent(share: Fraction) -> str:
    """To a hundredth of a per cent, half up."""
    if 0 < share < Fraction(1, 20000):
        return "under 0.01 %"
    return f"{half_up(10000 * share) / 100:g} %"


def _area(cell: list[tuple[float, float]]) -> float:
    """Area of a drawn cell."""
    following = (*cell[1:], cell[0])
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(cell, following, strict=True))) / 2


def _borders(cells: Sequence[_Cell]) -> list[list[tuple[float, float]]]:
    """Where so many layers meet another number of them, and the outline of it all.

    The cells' own edges are more than that: where a cell is cut in two, no cloth ends.
    """
    corners = {_near(point) for cell, _ in cells for point in cell}
    sides: dict[tuple[tuple[float, float], tuple[float, float]], list[int]] = {}
    for cell, count in cells:
        points = [_near(point) for point in cell]
        for start, end in zip(points, (*points[1:], points[0]), strict=True):
            # A neighbour's corner may lie within this edge: only its parts have one other side.
            stops = sorted(p for p in corners if p in (start, end) or _between(p, start, end))
            for bit in pairwise(stops):
                sides.setdefault(bit, []).append(count)
    return [list(bit) for bit, counts in sides.items() if len(counts) == 1 or counts[0] != counts[1]]


def _near(point: tuple[float, float]) -> tuple[float, float]:
    return round(point[0], 6), round(point[1], 6)


def _between(point: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> bool:
    (x, y), (x0, y0), (x1, y1) = point, start, end
    if not min(x0, x1) - 1e-6 <= x <= max(x0, x1) + 1e-6 or not min(y0, y1) - 1e-6 <= y <= max(y0, y1) + 1e-6:
        return False
    long = max(abs(x1 - x0), abs(y1 - y0))
    return abs((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)) < 4e-6 * long
