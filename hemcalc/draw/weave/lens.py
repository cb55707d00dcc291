"""The weave under a lens: a corner's threads, over and under, as they come out and go in again.

Seen from the right side, the cloth flat. A thread that passes under is broken there; a drawn
thread is missing; a tail darned back is dark with a light dashed core. The bands of the ledger
stand along two sides.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import TYPE_CHECKING

from matplotlib.collections import LineCollection

from hemcalc.draw.look import BANDS, INK, type_size
from hemcalc.draw.marks import Label, Labels, hatched
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.draw.weave.corner_threads import CornerThreads, ThreadLines, open_squares
from hemcalc.draw.weave.strands import followed, hangs, loose_end, marks_of, turned_back
from hemcalc.measure.cautions import mind
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length
from hemcalc.weave.crossings import ROW
from hemcalc.weave.darning import Pass, Tail
from hemcalc.weave.open_lines import Side
from hemcalc.weave.steps import WeaveStep, steps_at
from hemcalc.weave.weave import Weave

if TYPE_CHECKING:
    from matplotlib.axes import Axes

#: Threads of the hem that are shown when the lens is close to the corner.
NEAR = 7
LENS_SHEET = (9.0, 5.3)  # inches

_INSIDE = 3  # threads shown on the design's side of the open line
_LEFT, _AROUND = 0.68, 0.7  # inches left of the lens, and above and below it
_KEY = (
    (ROW, "threads as woven"),
    ("tail", "tail of a cut thread"),
    ("behind", "end behind the cloth"),
    ("open", "open square"),
)
_SAMPLE, _KEY_LINE = 34.0, 18.0  # points
_LETTER = 0.56  # width of a letter, about, in sizes of type


@dataclass(frozen=True, slots=True)
class LensShown:
    """What the picture shows: a step at a corner of a weave."""

    weave: Weave
    corner: str
    steps: tuple[WeaveStep, ...]
    #: Which step, from 1.
    number: int
    #: Threads of the hem to show; None for all, out to the cut line.
    hem: int | None
    unit: str

    @property
    def step(self) -> WeaveStep:
        """The step itself."""
        return self.steps[self.number - 1]

    @property
    def window(self) -> tuple[range, range]:
        """Rows and columns shown: about the corner, or about a pass that is made further out."""
        home = self.weave.window(self.corner, _INSIDE, self.hem)
        passed = self._last_pass
        if passed is None:
            return home
        rows, columns = self.weave.window(self.corner, _INSIDE)
        return followed(home[0], rows, round(passed.row)), followed(home[1], columns, round(passed.column))

    @property
    def _last_pass(self) -> Pass | None:
        """The pass that is made, or after which the tail has come to its end."""
        step = self.step
        if step.kind == "short" and step.tail and step.tail.passes:
            return step.tail.passes[-1]
        return step.passed

    @property
    def turned(self) -> tuple[Tail, ...]:
        """The corner's tails that have made their U-turn."""
        step, cloth = self.step, self.step.cloth
        under_way = step.tail if step.kind in ("turn", "darn") else None
        return tuple(
            tail
            for tail in self.weave.tails_at(self.corner)
            if tail is under_way or (tail.reach is not None and turned_back(cloth, tail))
        )

    @property
    def loose(self) -> Iterator[Sequence[tuple[float, float]]]:
        """The loose ends: tails that hang out, and what is left of the one being darned."""
        step, turned = self.step, self.turned
        for tail in self.weave.tails_at(self.corner):
            if tail not in turned and hangs(step.cloth, tail):
                yield loose_end(tail, None)
            elif tail is step.tail and step.loose:
                yield loose_end(tail, step.made, float(step.loose))

    @property
    def opened(self) -> tuple[tuple[int, int], ...]:
        """The places that stay open at the corner, once they are open."""
        cloth = self.step.cloth
        return tuple(place for place in self.weave.open_square(self.corner) if cloth.crossing(*place).open)


def lens_alt(lens: LensShown) -> str:
    """The picture in words, with its numbers."""
    (rows, columns), cloth = lens.window, lens.step.cloth
    crossings = [cloth.crossing(row, column) for row in rows for column in columns]
    lacking, empty = sum(bool(c.missing) for c in crossings), sum(c.open for c in crossings)
    dark = sum("darned" in (c.row and c.row.kind, c.column and c.column.kind) for c in crossings)
    words = [
        f"The weave at the {lens.corner} corner, seen from the right side, step {lens.number} of "
        f"{len(lens.steps)}. {lens.step.text()} Of {len(rows)} × {len(columns)} places shown {lacking} lack "
        f"a thread, {empty} lack both; the tails lie darned in {dark}."
    ]
    if left := loose_words(lens):
        words.append(f"{left[0].upper()}{left[1:]}.")
    return " ".join(words)


def loose_words(lens: LensShown) -> str:
    """How much of the tail under way is not yet darned; empty if none is."""
    tail, left = lens.step.tail, lens.step.loose
    if tail is None or left is None:
        return ""
    mm = left * tail.end.other.edge.count.pitch.mm
    return f"left to darn with: {float(left):.1f} pitches, {Length(mm).text(lens.unit)}"


class WeaveLens:
    """The view: made once for a sheet, then updated; one that is narrower than `LENS_SHEET` has no words."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet
        self.reach_mm = self.least_mm = 0.0
        whole, height = (float(side) for side in sheet.figure.get_size_inches())
        lens = height - _AROUND
        self.axes = sheet.axes(_box(sheet, _LEFT, 0.1, lens, lens), (0, 1), (0, 1))
        self.bands = {name: hatched(look, clip_on=False) for name, look in BANDS.items()}
        sheet.moving(self.axes, *self.bands.values())
        self.threads = CornerThreads(sheet, self.axes)
        self.mark = LineCollection([], colors=INK, linewidths=2.2)
        sheet.moving(self.axes, self.mark)
        self._names = Labels(sheet, self.axes, 10)
        left = _LEFT + lens + 0.25
        self._width = 72 * (whole - left - 0.05)
        self._has_words = whole >= LENS_SHEET[0]
        if self._has_words:
            box = _box(sheet, left, 0.1, self._width / 72, height - 0.2)
            self.words = sheet.axes(box, (0, self._width), (-72 * (height - 0.2), 0))
            self._said = Labels(sheet, self.words, 10)
            _key(self.words)

    def update(self, lens: LensShown) -> None:
        """Show this step."""
        cloth, window = lens.step.cloth, lens.window
        pitch = float(lens.weave.ends[0].side.edge.count.pitch.mm)
        self.reach_mm = max(map(len, window)) * pitch
        self.threads.look_at(*window, max(self.reach_mm, self.least_mm) / pitch)
        self.threads.show(cloth, window, lens.turned, lens.loose, lens.opened)
        self._show_bands(lens)
        self.mark.set_segments(marks_of(lens.step, *window))
        if self._has_words:
            self._say(lens)

    def _show_bands(self, lens: LensShown) -> None:
        """The ledger's bands along the upper and the left side of the lens."""
        rows, columns = lens.window
        row_end, column_end = lens.weave.ends_at(lens.corner)
        left, top = columns[0] - 0.5, 0.5 - rows[0]
        along, up = self.sheet.points(self.axes)
        verts: dict[str, list[list[tuple[float, float]]]] = {name: [] for name in BANDS}
        above, beside = [], []
        for name, numbers, start, end in _spans(column_end.side, columns):
            low, high = top + 3 * up, top + 9 * up
            verts[name].append([(start, low), (end, low), (end, high), (start, high)])
            place = (start + end) / 2, high + 2 * up
            above.append(Label(*place, f"{name}\n{numbers}", up="bottom", small=True))
        for name, numbers, start, end in _spans(row_end.side, rows):
            far, near = left - 9 * along, left - 3 * along
            verts[name].append([(far, -start), (near, -start), (near, -end), (far, -end)])
            place = far - 2 * along, -(start + end) / 2
            beside.append(Label(*place, f"{name}\n{numbers}", "right", small=True))
        for name, patch in self.bands.items():
            patch.set_verts(verts[name])
        (x0, x1), (y0, y1) = self.axes.get_xlim(), self.axes.get_ylim()
        names = self._names.in_row(sorted(above, key=lambda label: label.x), x0, x1)
        names += self._names.in_column(sorted(beside, key=lambda label: label.y), y0, y1)
        self._names.show(names)

    def _say(self, lens: LensShown) -> None:
        """The step in words, from the top down, and the key at the bottom."""
        step = lens.step
        side = f"{lens.corner} corner, right side up"
        said = self._column(
            (f"Step {lens.number} of {len(lens.steps)}", {"bold": True}),
            (side, {"small": True}),
            (step.text(), {}),
            (loose_words(lens), {"small": True}),
            (mind(*step.mind), {"small": True}),
        )
        bottom = self.words.get_ylim()[0]
        for i, (_, word) in enumerate(_KEY):
            place = _SAMPLE + 8, bottom + (len(_KEY) - i - 0.5) * _KEY_LINE
            said.append(Label(*place, word, "left", "center", small=True))
        self._said.show(said)

    def _column(self, *texts: tuple[str, dict[str, bool]]) -> list[Label]:
        """Texts from the top down, each broken into lines that fit."""
        labels: list[Label] = []
        y = 0.0
        for text, style in texts:
            if text:
                points = self.sheet.type.small if "small" in style else self.sheet.type.text
                lines = wrap(text, int(self._width / (_LETTER * points)))
                labels.append(Label(0, y, "\n".join(lines), "left", "top", **style))
                y -= self._said.size(labels[-1])[1] + 0.7 * points
        return labels

    alt = staticmethod(lens_alt)


def draw_weave(
    weave: Weave,
    corner: str = "top left",
    step: int | None = None,
    *,
    hem: int | None = NEAR,
    unit: str | None = None,
    size: str = "page",
) -> Still:
    """A corner of the open line under the lens, as a finished figure.

    The step is one of `steps_at`, from 1, the last if it is left out; of the hem so many threads are shown,
    all out to the cut line if it is None. Lengths are in ``"in"``, ``"cm"`` or ``"mm"``, and its type is for
    a ``"page"`` or a ``"projector"``.

    Examples
    --------
    >>> from hemcalc import example
    >>> from hemcalc.weave.weave import open_line
    >>> print(draw_weave(open_line(example("bread cloth")), step=9).alt)
    The weave at the top left corner, seen from the right side, step 9 of 65. Under thread 9 of the left \
side: the two U-turns hold each other. Of 12 × 12 places shown 29 lack a thread, 2 lack both; the tails \
lie darned in 1. Left to darn with: 108.0 pitches, ≈ 3 3/4 in.
    """
    steps = steps_at(weave, corner)
    number = len(steps) if step is None else whole_threads(step, "step", least=1, most=len(steps), example=1)
    if hem is not None:
        whole_threads(hem, "hem", example=7)
    spoken = weave.ends[0].side.edge.count.unit_or(unit)
    lens = LensShown(weave, corner, steps, number, hem, spoken)
    sheet = Sheet(*LENS_SHEET, dpi=150, size=type_size(size))
    WeaveLens(sheet).update(lens)
    return Still(sheet, lens_alt(lens))


def _spans(side: Side, lines: range) -> Iterator[tuple[str, str, float, float]]:
    """The ledger's bands within a window: name, thread numbers, and from where to where."""
    for band in side.edge.bands:
        here = [line for n in range(band.first, band.last + 1) if (line := side.line(n)) in lines]
        if here:
            numbers = str(band.first) if band.first == band.last else f"{band.first}–{band.last}"
            yield band.name, numbers, min(here) - 0.5, max(here) + 0.5


def _key(axes: Axes) -> None:
    """Samples of what the picture shows, at the bottom of the words; they never change."""
    bottom = axes.get_ylim()[0]
    for i, (look, _) in enumerate(_KEY):
        y = bottom + (len(_KEY) - i - 0.5) * _KEY_LINE
        if look == "open":
            square = open_squares()
            square.set_verts([[(x, y + up) for x, up in ((11, -6), (23, -6), (23, 6), (11, 6))]])
            axes.add_collection(square, autolim=False)
        else:
            ThreadLines(axes, look).show([[(0.0, y), (_SAMPLE, y)]], 20.0)


def _box(
    sheet: Sheet, left: float, bottom: float, width: float, height: float
) -> tuple[float, float, float, float]:
    """A box in inches as shares of a sheet."""
    across, up = (float(side) for side in sheet.figure.get_size_inches())
    return left / across, bottom / up, width / across, height / up
