"""The open line with its groups, corner to corner: every thread, drawn together at its stitch.

As the side lies before the worker, the hem toward her. A long side is broken into rows that
follow each other as lines of text do, in the order of work, whichever way that travels. Off-size
groups have a pattern and a number.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby
from textwrap import wrap

from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from hemcalc.draw.look import BANDS, INK, LINES, TYPE, BandLook, type_size
from hemcalc.draw.marks import Label, Labels, hatched
from hemcalc.draw.scale import NARROW
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.draw.stitch.group_rows import Placed, Spaced, headline, in_rows, open_line_alt, run_words
from hemcalc.measure.counts import Count, as_count
from hemcalc.measure.errors import HemError, of_type
from hemcalc.stitch.groups import Spacing
from hemcalc.stitch.thread import BITE

#: An off-size group: no band has this pattern.
OFF_SIZE = BandLook("#f7d7e6", "xx")

_CLEAR, _OPEN, _HEM = 1.4, 2.0, 2.6  # threads of each that a row shows
_WAIST = 0.6  # how far above the hem the stitch holds a group together, threads
_PULL = 0.3  # how near to its middle the stitch brings a group's threads: 1 is where they lie
_CORNER = _OPEN + 1.2  # threads that a corner takes at the end of a row
_MAX_THREADS = 2000  # threads; more make no picture
_ABOVE = 2.2  # lines of type above the first row: the headline, and where to start
_LINE = 46  # letters of the headline to a line, in a narrow picture
_PATTERN = "#9a9a9a"
_NAN = float("nan")

Points = list[tuple[float, float]]


class OpenLineRows:
    """The view: made once for some axes, then updated.

    `scales` are the threads that a row holds at most, and the rows that there is room for, from large to
    small: a side is drawn as large as it fits in. With `advice`, room is kept for a line of it under the
    headline.
    """

    def __init__(
        self,
        sheet: Sheet,
        box: tuple[float, float, float, float],
        scales: Sequence[tuple[int, int]],
        *,
        advice: bool = False,
    ) -> None:
        self.sheet = sheet
        self.scales = scales
        self._above = _ABOVE + (1.2 if advice else 0.0)
        width, height = sheet.figure.get_size_inches()
        self._shape = box[3] * height / (box[2] * width)
        self._narrow = bool(width <= NARROW[0])
        self.reach_mm = self.least_mm = 0.0
        self.axes = sheet.axes(box, (0, 1), (0, 1))
        self._use(scales[-1][0])
        self.hem, self.clear = (hatched(BANDS[name], edge=0.0) for name in ("face", "clear"))
        self.open_line = hatched(BANDS["drawn"])
        # Its pattern is quiet, so that the threads can be seen over it.
        self.off_size = hatched(OFF_SIZE, edge=0.0, ink=_PATTERN)
        self.threads, self.breaks = (
            Line2D([], [], color=look.colour, linewidth=look.width, linestyle=look.style)
            for look in (LINES["thread"], LINES["hidden"])
        )
        self.onward = PolyCollection([], facecolors=INK, edgecolors="none")
        self.stitches = LineCollection([], colors=INK, linewidths=1.5, capstyle="round")
        self.arrow = Polygon([(0, 0)], closed=True, facecolor=INK, edgecolor=INK, linewidth=1.0)
        cloth = (self.hem, self.clear, self.open_line, self.off_size, self.threads, self.breaks)
        sheet.moving(self.axes, *cloth, self.onward, self.stitches, self.arrow)
        self._labels = Labels(sheet, self.axes, 2 * scales[-1][1] + 16)

    def _use(self, a_row: int) -> None:
        """Take rows of so many threads; a thread measures the same both ways."""
        self.a_row = a_row
        across = a_row + 2 * _CORNER
        self.axes.set_xlim(-_CORNER, a_row + _CORNER)
        self.axes.set_ylim(-across * self._shape, 0)
        self._line = 1.3 * TYPE["projector"].small * self.sheet.points(self.axes)[1]
        self._top = -self._above * self._line
        self.pitch = _CLEAR + _OPEN + _HEM + 1.15 * self._line

    def update(self, spaced: Spaced) -> None:
        """Show these groups; refused if there is no room for them."""
        spacing = spaced.spacing
        rows = self._rows(spacing)
        pitch = float(spaced.count.pitch.mm)
        self.reach_mm = (self.a_row + 2 * _CORNER) * pitch
        if self.least_mm > self.reach_mm:
            self._use(max(self.a_row, round(self.least_mm / pitch - 2 * _CORNER)))
            rows = in_rows(spacing, self.a_row)
        self._show_cloth(spacing, rows)
        self._show_groups(spacing, rows)
        self._show_arrow(spacing)
        self._labels.show([*self._head(spaced), *self._row_words(spacing, rows)])

    def _rows(self, spacing: Spacing) -> list[list[Placed]]:
        if spacing.threads <= _MAX_THREADS:
            for a_row, room in self.scales:
                rows = in_rows(spacing, a_row)
                if len(rows) <= room:
                    self._use(a_row)
                    return rows
        raise HemError(
            f"The side has {spacing.threads:,} threads, more than the picture has room for; for example "
            "draw the rest of it, from hemcalc.rest_of_side.",
            "threads",
        )

    alt = staticmethod(open_line_alt)

    def place(self, spacing: Spacing, worked: float) -> float:
        """Where along a row so many threads of it have been worked."""
        return worked if spacing.rightward else self.a_row - worked

    def level(self, row: int) -> float:
        """The height of the open line's outer edge, where the hem begins, in a row."""
        return self._top - row * self.pitch - _CLEAR - _OPEN

    def _show_cloth(self, spacing: Spacing, rows: Sequence[Sequence[Placed]]) -> None:
        hem, clear, opened, onward = [], [], [], []
        xs: list[float] = []
        ys: list[float] = []
        for i, row in enumerate(rows):
            level, end = self.level(i), row[-1].before + row[-1].size
            inner, outer = level + _OPEN, level + _OPEN + _CLEAR
            # Beyond a corner lies the hem of the next side; elsewhere the row is broken off.
            before, after = (0.0 if i else _CORNER), (_CORNER if i == len(rows) - 1 else 0.0)
            hem.append(self._box(spacing, -before, end + after, level - _HEM, outer))
            clear.append(self._box(spacing, 0, end, inner, outer))
            opened.append(self._opening(spacing, end, i, bool(before), bool(after)))
            for broken, at, beyond in ((not before, 0.0, -1.6), (not after, float(end), 0.6)):
                if broken:
                    x = self.place(spacing, at)
                    xs += [x, x, _NAN]
                    ys += [level - _HEM, outer + 0.2, _NAN]
                    onward.append(self._head_at(spacing, at + beyond, level + _OPEN / 2))
        self.hem.set_verts(hem)
        self.clear.set_verts(clear)
        self.open_line.set_verts(opened)
        self.breaks.set_data(xs, ys)
        self.onward.set_verts(onward)

    def _opening(self, spacing: Spacing, end: float, row: int, first: bool, last: bool) -> Points:
        """The open line of a row, and at a corner that of the next side, up to where they cross."""
        level = self.level(row)
        inner, outer = level + _OPEN, level + _OPEN + _CLEAR
        outline = [(-_OPEN, inner), (-_OPEN, outer), (0, outer), (0, inner)] if first else [(0, inner)]
        outline += [(end, inner), (end, outer), (end + _OPEN, outer), (end + _OPEN, level)] if last else []
        outline += [] if last else [(end, inner), (end, level)]
        outline.append((-_OPEN if first else 0, level))
        return [(self.place(spacing, x), y) for x, y in outline]

    def _head_at(self, spacing: Spacing, start: float, y: float, long: float = 1.0) -> Points:
        """An arrowhead that points the way the work goes."""
        half = 0.45 * long
        return [(self.place(spacing, start + x), y + up) for x, up in ((0, half), (long, 0), (0, -half))]

    def _show_groups(self, spacing: Spacing, rows: Sequence[Sequence[Placed]]) -> None:
        xs: list[float] = []
        ys: list[float] = []
        off, stitches = [], []
        for i, row in enumerate(rows):
            level = self.level(i)
            for group in row:
                middle = self.place(spacing, group.before + group.size / 2)
                for n in range(group.size):
                    x = self.place(spacing, group.before + n + 0.5)
                    waist = middle + (x - middle) * _PULL
                    xs += [x, x, waist, x, x, _NAN]
                    ys += [level + _OPEN + _CLEAR, level + _OPEN, level + _WAIST, level, level - _HEM, _NAN]
                after = self.place(spacing, group.before + group.size)
                round_it = (group.size / 2 * _PULL + 0.35) * (1 if after > middle else -1)
                stitches.append(
                    [
                        (middle - round_it, level + _WAIST),
                        (middle + round_it, level + _WAIST),
                        (after, level - BITE),
                    ]
                )
                if group.size != spacing.group:
                    start, end = group.before, group.before + group.size
                    off.append(self._box(spacing, start, end, level - _HEM, level + _OPEN + _CLEAR))
        self.threads.set_data(xs, ys)
        self.stitches.set_segments(stitches)
        self.off_size.set_verts(off)

    def _show_arrow(self, spacing: Spacing) -> None:
        """An arrow over the first row, from its start the way that the work goes."""
        y, head = self._top + 0.55 * self._line, 0.5 * self._line
        shaft = (self.place(spacing, 0), y), (self.place(spacing, 5), y)
        self.arrow.set_xy([*shaft, *self._head_at(spacing, 5, y, head), shaft[1]])

    def _head(self, spaced: Spaced) -> Iterator[Label]:
        spacing = spaced.spacing
        head = wrap(headline(spaced), _LINE if self._narrow else 1000)
        yield Label(-_CORNER, 0, "\n".join(head), "left", "top", bold=True)
        words = f"start here: {spacing.hand} hand, from {spacing.way}"
        y = self._top + 0.65 * self._line
        yield _beside(
            self.place(spacing, 5.8 + 0.5 * self._line), y, words, "left" if spacing.rightward else "right"
        )
        if self._narrow:  # the rest is said beside the picture
            return
        yield Label(-_CORNER, -1.25 * self._line, " ".join(spaced.advice), "left", "top", small=True)
        bands = "top: clear band; bottom: hem"
        far = self.place(spacing, self.a_row + _CORNER)
        yield _beside(far, y, bands, "right" if spacing.rightward else "left")

    def _row_words(self, spacing: Spacing, rows: Sequence[Sequence[Placed]]) -> Iterator[Label]:
        for i, row in enumerate(rows):
            y = self.level(i) - _HEM - 0.1 * self._line
            runs = [list(run) for _, run in groupby(row, key=lambda group: group.size)]
            if not spacing.rightward:
                runs.reverse()
            labels = [self._named(run, spacing, y, "groups ") for run in runs]
            if sum(self._labels.size(label)[0] for label in labels) > 0.9 * self.a_row:
                labels = [self._named(run, spacing, y, "") for run in runs]
            yield from self._labels.in_row(labels, -_CORNER, self.a_row + _CORNER)
            for run in runs:
                if run[0].size != spacing.group:
                    for group in run:
                        x = self.place(spacing, group.before + group.size / 2)
                        number = Label(x, 0, str(group.size), bold=True, small=True, on_paper=True)
                        # In the clear band, and not above it where the type is higher than that.
                        half = max(_CLEAR, self._labels.size(number)[1]) / 2
                        yield replace(number, y=self.level(i) + _OPEN + _CLEAR - half)

    def _named(self, run: Sequence[Placed], spacing: Spacing, y: float, noun: str) -> Label:
        """The words under a run of groups of one size."""
        middle = self.place(spacing, (run[0].before + run[-1].before + run[-1].size) / 2)
        off = run[0].size != spacing.group
        return Label(middle, y, run_words(run, noun), "center", "top", small=True, bold=off)

    def _box(self, spacing: Spacing, start: float, end: float, low: float, high: float) -> Points:
        a, b = self.place(spacing, start), self.place(spacing, end)
        return [(a, low), (b, low), (b, high), (a, high)]


def draw_open_line(
    spacing: Spacing, count: Count | str, *, unit: str | None = None, size: str = "page"
) -> Still:
    """The open line of a side with its groups, as a finished figure.

    The count is that of the cloth along the side. Lengths are in ``"in"``, ``"cm"`` or ``"mm"``, and its type
    is for a ``"page"`` or a ``"projector"``. A side of more than 2000 threads is refused.

    Examples
    --------
    >>> from hemcalc.stitch.spacing import space_stitches
    >>> print(draw_open_line(space_stitches(83), "25/in").alt)
    An open line of 83 threads, ≈ 3 5/16 in, in 21 groups, of which 1 is uneven: number 11, of 3 \
threads. Right hand: Work 10 groups of 4, 1 of 3, 10 of 4, from left to right. 83 threads do not \
divide by 4, so 1 group is of 3: no fewer will do.
    """
    of_type(spacing, Spacing, "spacing", "space_stitches(83)")
    spaced = Spaced(spacing, known := as_count(count), known.unit_or(unit))
    a_row = min(max(spacing.threads, 40), 96)
    # A side that has no room at all is refused by the view.
    rows = len(in_rows(spacing, a_row)) if spacing.threads <= _MAX_THREADS else 1
    points = 9 * 0.98 * 72 / (a_row + 2 * _CORNER)  # of one thread
    line = 1.3 * TYPE["projector"].small
    height = (_ABOVE * line + rows * ((_CLEAR + _OPEN + _HEM) * points + 1.15 * line)) / 72 / 0.97
    sheet = Sheet(9, height, dpi=150, size=type_size(size))
    OpenLineRows(sheet, (0.01, 0.015, 0.98, 0.97), [(a_row, rows)]).update(spaced)
    return Still(sheet, open_line_alt(spaced))


def _beside(x: float, y: float, text: str, side: str) -> Label:
    """A small text that ends, or for "left" begins, at x."""
    return Label(x, y, text, "left" if side == "left" else "right", "center", small=True)
