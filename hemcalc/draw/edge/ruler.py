"""The edge as a ruler of threads: bands, basted lines, and the margin rule against the need."""

from __future__ import annotations

from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import BANDS, LINES, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels, broken_line
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.edge.ledger import EDGE_EXAMPLE, Edge
from hemcalc.measure.errors import of_type
from hemcalc.measure.words import so_many

# Levels on a scale of 0 to 10, which leave room for the larger type.
_STRIP = (4.9, 6.5)  # bottom and top of the strip of cloth
_NAMES, _PLACES = 7.3, 3.8  # bottom of the bands' names, top of the lines' places
_DESIGN = 6  # threads of the design that are shown


class EdgeRuler:
    """The view: made once for a box of a sheet, then updated.

    `most` are the threads from the design that the widest edge shown will take.
    """

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float], most: float) -> None:
        self.sheet = sheet
        self.most = most
        self.axes = sheet.axes(box, (-_DESIGN, most + 0.5), (0, 10))
        self.bands = {name: Rectangle((0, 0), 0, 0, **look.patch) for name, look in BANDS.items()}
        self.threads, self.leaders, self.basted, self.cut = (
            Line2D([], [], **LINES[kind].line) for kind in ("thread", "dimension", "basted", "cut")
        )
        lines = (self.threads, self.leaders, self.basted, self.cut)
        sheet.moving(self.axes, *self.bands.values(), *lines)
        self._labels = Labels(sheet, self.axes, 12)
        self.dimensions = Dimensions(sheet, self.axes, 2)

    def look(self, most: float) -> None:
        """From now on, show so many threads from the design."""
        self.most = most
        self.axes.set_xlim(-_DESIGN, most + 0.5)

    def update(self, edge: Edge, unit: str) -> None:
        """Show this edge, with lengths in this unit."""
        self._show_bands(edge)
        self._show_threads(edge)
        self._show_lines(edge)
        self._show_words(edge)
        rule = edge.rule
        self.dimensions.show(
            [
                Dimension(0, rule.rule, 1.9, 2.3, f"rule: 4 hems = {_measure(rule.rule, edge, unit)}"),
                Dimension(0, rule.need, 0.5, 0.9, f"needed: {_measure(rule.need, edge, unit)}"),
            ]
        )

    def _show_bands(self, edge: Edge) -> None:
        spans = {band.name: (band.first - 1, band.threads) for band in edge.bands}
        spans["design"] = (-_DESIGN, _DESIGN)
        spans["handling"] = (edge.total, edge.handling)
        for name, patch in self.bands.items():
            start, threads = spans.get(name, (0, 0))
            patch.set_visible(threads > 0)
            patch.set_bounds(start, _STRIP[0], threads, _STRIP[1] - _STRIP[0])

    def _show_threads(self, edge: Edge) -> None:
        """Every thread as a line along its middle, the drawn ones left out."""
        pixels = self.axes.get_position().width * self.sheet.figure.bbox.width / (self.most + _DESIGN)
        self.threads.set_visible(pixels >= 3)
        gone = range(edge.first_drawn, edge.open_line + 1)
        shown = [n for n in range(1 - _DESIGN, edge.total + edge.handling + 1) if n not in gone]
        self.threads.set_data(*broken_line([(n - 0.5, y) for y in _STRIP] for n in shown))

    def _show_lines(self, edge: Edge) -> None:
        ends = _STRIP[0] - 0.5, _STRIP[1] + 0.4
        folds = edge.fold_1, edge.fold_2
        self.basted.set_data(*broken_line([(at, y) for y in ends] for at in folds))
        self.cut.set_data([edge.cut, edge.cut], ends)

    def _show_words(self, edge: Edge) -> None:
        """Names over the bands and places under the lines, each with a leader to what it names."""
        limits = self.axes.get_xlim()
        names = [Label(middle, _NAMES, words, up="bottom") for middle, words in _names(edge)]
        places = [
            Label(at, _PLACES, f"{name}: after {at}", up="top", small=True) for name, at in _lines(edge)
        ]
        placed_names = self._labels.in_row(names, *limits)
        placed_places = self._labels.in_row(places, *limits)
        self._labels.show(
            [
                # In a narrow picture there is no room for the second.
                *self._labels.apart(
                    [
                        Label(limits[0], 10, verdict(edge), "left", "top", bold=True),
                        Label(limits[1], 10, "right side of the cloth", "right", "top", small=True),
                    ]
                ),
                *placed_names,
                *placed_places,
            ]
        )
        above, below = _STRIP[1] + 0.1, _STRIP[0] - 0.5
        leaders = [
            [(label.x, _NAMES - 0.1), (name.x, above)]
            for label, name in zip(placed_names, names, strict=True)
        ]
        leaders += [
            [(place.x, below), (label.x, _PLACES + 0.1)]
            for label, place in zip(placed_places, places, strict=True)
        ]
        self.leaders.set_data(*broken_line(leaders))


def draw_edge(edge: Edge, unit: str | None = None, size: str = "page") -> Still:
    """The edge as a ruler of threads, as a finished figure.

    Lengths are in ``"in"``, ``"cm"`` or ``"mm"``, and its type is for a ``"page"`` or a ``"projector"``.

    Examples
    --------
    >>> from hemcalc import plan_edge
    >>> draw_edge(plan_edge("28/in", "1/2 in", clear=6)).alt[:46]
    'The edge as a ruler of 43 threads: clear 1–6, '
    """
    of_type(edge, Edge, "edge", EDGE_EXAMPLE)
    unit, look = edge.count.unit_or(unit), type_size(size)
    sheet = Sheet(9, 3.2, dpi=150, size=look)
    margin = max(edge.rule.rule, edge.rule.need)
    ruler = EdgeRuler(sheet, (0.01, 0.02, 0.98, 0.96), max(round(1.1 * margin), 40))
    ruler.update(edge, unit)
    return Still(sheet, edge_alt(edge, unit))


def edge_alt(edge: Edge, unit: str) -> str:
    """The ruler of threads in words, with its numbers."""
    bands = ", ".join(f"{band.name} {_span(band.first, band.last)}" for band in edge.bands)
    rule = edge.rule
    return (
        f"The edge as a ruler of {edge.total} threads: {bands}. Fold 1 after thread {edge.fold_1}, "
        f"fold 2 after {edge.fold_2}, cut after {edge.cut}. Rule: {_measure(rule.rule, edge, unit)}; "
        f"needed: {_measure(rule.need, edge, unit)}. {verdict(edge)}"
    )


def verdict(edge: Edge) -> str:
    """Whether the rule is enough for this edge, in a sentence.

    Examples
    --------
    >>> from hemcalc import plan_edge
    >>> verdict(plan_edge("28/in", 4, clear=8))
    'The rule is not enough: 4 threads too few.'
    """
    threads = so_many(abs(edge.rule.slack), "thread")
    if edge.rule.holds:
        return f"The rule is enough: {threads} to spare."
    return f"The rule is not enough: {threads} too few."


def _names(edge: Edge) -> list[tuple[float, str]]:
    """The middle of each band, and its name over its threads."""
    names = [(-_DESIGN / 2, "design\n")]
    names += [
        ((band.first - 1 + band.last) / 2, f"{band.name}\n{_span(band.first, band.last)}")
        for band in edge.bands
    ]
    if edge.handling:
        names.append((edge.total + edge.handling / 2, f"handling\n{edge.handling}"))
    return names


def _lines(edge: Edge) -> list[tuple[str, int]]:
    """The basted lines, inward first; without a turn the last two are one."""
    if not edge.turn:
        return [("fold 1", edge.fold_1), ("fold 2, cut", edge.cut)]
    return [("fold 1", edge.fold_1), ("fold 2", edge.fold_2), ("cut", edge.cut)]


def _measure(threads: int, edge: Edge, unit: str) -> str:
    return f"{threads} threads, {edge.width(threads).text(unit)}"


def _span(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}–{last}"
