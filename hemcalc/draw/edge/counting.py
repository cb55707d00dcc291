"""A ruler on the cloth: the threads under it, how far a miscounted end carries, and what to cut for it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import BANDS, INK, LINES, PAPER, type_size
from hemcalc.draw.marks import Label, Labels, broken_line
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.counts import MeasuredCount
from hemcalc.measure.errors import of_type, one_of
from hemcalc.measure.exact import decimal_text, half_up
from hemcalc.measure.lengths import RULER_MARK, Length, as_length
from hemcalc.measure.units import UNITS
from hemcalc.measure.words import so_many

_CLOTH = (3.6, 7.2)


@dataclass(frozen=True, slots=True)
class Counted:
    """What the picture shows: a measured count, and a size into which its error carries."""

    count: MeasuredCount
    size: Length
    unit: str

    def __post_init__(self) -> None:
        of_type(self.count, MeasuredCount, "count", "Count.measured([28, 29], '1 in')")
        object.__setattr__(self, "size", as_length(self.size, "size"))
        one_of(self.unit, UNITS, "unit")

    def __repr__(self) -> str:
        return f"Counted({self.count.text(self.unit)}, for {self.size.text(self.unit)})"

    @property
    def threads(self) -> int:
        """Threads to the size, to the nearest."""
        return half_up(self.count.threads_in(self.size))

    @property
    def to_cut(self) -> Length:
        """What to cut to have them, though the count be off by its error."""
        return self.count.sure_width(self.threads).rounded_up(RULER_MARK[self.unit])


def counting_alt(counted: Counted) -> str:
    """The picture in words, with its numbers."""
    ruler = counted.count.over.text(counted.unit)
    return f"A ruler of {ruler} on the cloth. {_headline(counted)} {_carried(counted)} {_to_cut(counted)}"


def _headline(counted: Counted) -> str:
    count, places = counted.count, len(counted.count.readings)
    return (
        f"{float(count.mean):.4g} threads over {count.over.text(counted.unit)}, counted in "
        f"{so_many(places, 'place')}: {count.text(counted.unit)}, give or take {100 * count.relative:.1f} %."
    )


def _carried(counted: Counted) -> str:
    mark = RULER_MARK["in"] / 2 if counted.unit == "in" else RULER_MARK["mm"]
    off = Length(Fraction(counted.count.plus_minus_mm(counted.size)))
    within, worst = (
        length.rounded_up(mark).text(counted.unit) for length in (off, counted.count.worst(counted.size))
    )
    size = counted.size.text(counted.unit)
    return f"{size} by counting: within {within} two times in three, at worst within {worst}."


def _to_cut(counted: Counted) -> str:
    cut, sure = counted.to_cut.text(counted.unit), decimal_text(100 * counted.count.confidence)
    about = "" if counted.count.threads_in(counted.size) == counted.threads else "≈ "
    mark = RULER_MARK[counted.unit].text(counted.unit)
    its_threads = f"its {about}{so_many(counted.threads, 'thread')}"
    return f"To have {its_threads}, {sure} times in 100, cut {cut} (rounded up to {mark})."


class CountingPicture:
    """The view: made once, then updated.

    The cloth is drawn at true scale for a ruler of `longest`, which fills the sheet.
    """

    def __init__(self, longest: Length, *, dpi: int = 100, size: str = "page") -> None:
        self.sheet = Sheet(9, 3.25, dpi=dpi, size=type_size(size))
        self.longest = longest
        span = float(longest.mm)
        self.axes = self.sheet.axes((0.01, 0.02, 0.98, 0.96), (-0.02 * span, 1.02 * span), (0, 11.2))
        self._cloth = Rectangle((0, _CLOTH[0]), 1, _CLOTH[1] - _CLOTH[0], **BANDS["clear"].patch)
        self.threads = Line2D([], [], **LINES["thread"].line)
        self.ruler = Rectangle((0, 1.6), 1, 1.7, facecolor=PAPER, edgecolor=INK, linewidth=1.0)
        self.marks = Line2D([], [], color=INK, linewidth=0.8)
        self.ends = [Rectangle((0, _CLOTH[0]), 0, _CLOTH[1] - _CLOTH[0], **BANDS["turn"].patch) for _ in "12"]
        moving = (self._cloth, self.threads, *self.ends, self.ruler, self.marks)
        self.sheet.moving(self.axes, *moving)
        self._labels = Labels(self.sheet, self.axes, 6)

    def update(self, counted: Counted) -> None:
        """Show this count."""
        count, over = counted.count, float(counted.count.over.mm)
        pitch = float(count.pitch.mm)
        self._cloth.set_width(float(self.longest.mm))
        last = int(float(self.longest.mm) / pitch + 1e-9)
        self.threads.set_data(*broken_line([((n + 0.5) * pitch, y) for y in _CLOTH] for n in range(last)))
        self.threads.set_visible(pitch > float(self.longest.mm) / 300)
        for end, at in zip(self.ends, (0.0, over), strict=True):
            end.set_x(at - pitch / 2)
            end.set_width(pitch)
        self.ruler.set_width(over)
        self._show_marks(counted, over)
        self._labels.show(
            [
                Label(0, 11.0, _headline(counted), "left", "top", bold=True),
                Label(0, 9.8, _carried(counted), "left", "top"),
                Label(0, 8.6, _to_cut(counted), "left", "top"),
                Label(over / 2, 2.1, counted.count.over.text(counted.unit)),
                Label(0, 1.3, "dotted: each end is read to half a thread", "left", "top", small=True),
            ]
        )

    def _show_marks(self, counted: Counted, over: float) -> None:
        """A mark at every eighth of an inch, or every millimetre, longer at the whole ones."""
        step, whole = (3.175, 8) if counted.unit == "in" else (1.0, 10)
        marks = range(int(over / step + 1e-9) + 1)
        lines = ([(n * step, y) for y in (3.3, 2.6 if n % whole == 0 else 3.0)] for n in marks)
        self.marks.set_data(*broken_line(lines))

    alt = staticmethod(counting_alt)


def draw_counting(counted: Counted, size: str = "page") -> Still:
    """A ruler on the cloth, as a finished figure."""
    of_type(counted, Counted, "counted", "Counted(Count.measured([28, 29], '1 in'), '10 in', 'in')")
    view = CountingPicture(counted.count.over * 1, dpi=150, size=size)
    view.update(counted)
    return Still(view.sheet, counting_alt(counted))
