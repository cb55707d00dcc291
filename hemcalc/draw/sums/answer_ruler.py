"""A learner's ledger above the right one, so that a slip is seen where it begins."""

from __future__ import annotations

from itertools import pairwise

from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import BANDS, LINES, type_size
from hemcalc.draw.marks import Label, Labels, broken_line, spread
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import of_type
from hemcalc.measure.words import so_many
from hemcalc.sums.checking import Report
from hemcalc.sums.sums import Sums

_LINES = ("first drawn", "fold 1", "fold 2", "cut")
_LEDGER = ("clear", "drawn", "face", "back", "turn")
_HERS, _RIGHT = (5.8, 7.2), (2.2, 3.6)  # bottom and top of the two strips, on a scale of 0 to 10
_DESIGN = 6  # threads of the design that are shown


class AnswerRuler:
    """The view: made once for a box of a sheet, then updated with reports."""

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float]) -> None:
        self.sheet = sheet
        self.axes = sheet.axes(box, (-_DESIGN, 60), (0, 10))
        self.right = [_rectangle(name) for name in ("design", *_LEDGER)]
        self.hers = [_rectangle(name) for name in ("design", *_LEDGER)]
        self._lines, self._wrong, self.leaders = (
            Line2D([], [], **LINES[kind].line) for kind in ("edge", "cut", "dimension")
        )
        sheet.moving(self.axes, *self.right, *self.hers, self._lines, self._wrong, self.leaders)
        self._labels = Labels(sheet, self.axes, 16)

    def update(self, report: Report) -> None:
        """Show these answers."""
        right, hers = report.sums.bounds(), _entered(report)
        most = max(right[-1], *(place for place in hers.values())) if hers else right[-1]
        self.axes.set_xlim(-_DESIGN, 1.08 * most + 2)
        _show_strip(self.right, _RIGHT, (0, *right))
        # A band of hers is shown where both its ends are known and in order.
        _show_strip(self.hers, _HERS, _her_bounds(report.sums, hers))
        self._show_lines(right, hers)
        self._show_words(report, right, hers)

    def _show_lines(self, right: tuple[int, ...], hers: dict[str, int]) -> None:
        places = dict(zip(_LINES, _line_places(right), strict=True))
        wrong = [(places[name], at) for name, at in hers.items() if at != places[name]]
        good = [at for name, at in hers.items() if at == places[name]]
        ticks = [(at, _RIGHT[0] - 0.3, _RIGHT[1] + 0.3) for at in places.values()]
        ticks += [(at, _HERS[0] - 0.3, _HERS[1] + 0.3) for at in good]
        below, above, high = _RIGHT[1] + 0.3, _HERS[0] - 0.3, _HERS[1] + 0.3
        self._lines.set_data(*broken_line([(at, low), (at, top)] for at, low, top in ticks))
        self._wrong.set_data(*broken_line([(at, above), (at, high)] for _, at in wrong))
        self.leaders.set_data(*broken_line([(places[name], below), (at, above)] for name, at in hers.items()))

    def _show_words(self, report: Report, right: tuple[int, ...], hers: dict[str, int]) -> None:
        points = self.sheet.points(self.axes)[0]
        small = self.sheet.type.small * points
        left, last = self.axes.get_xlim()
        places = dict(zip(_LINES, _line_places(right), strict=True))
        numbers = dict(zip(_LINES, _numbers(right), strict=True))
        labels = [
            Label(left, 9.9, f"yours: {_sense(report)}", "left", "top", bold=True),
            Label(left, 4.1, "right", "left", "bottom", bold=True),
        ]
        spots = spread(list(places.values()), [7.4 * small] * len(places), left, last)
        labels += [
            Label(spot, _RIGHT[0] - 0.45, f"{name}\n{numbers[name]}", up="top", small=True)
            for spot, name in zip(spots, places, strict=True)
        ]
        labels += [
            Label((start + end) / 2, sum(_RIGHT) / 2, name, small=True, on_paper=True)
            for name, start, end in zip(_LEDGER, (0, *right), right, strict=False)
            if end - start > 4 * small
        ]
        if hers:
            order = sorted(hers, key=lambda name: hers[name])
            spots = spread([hers[name] for name in order], [8.4 * small] * len(order), left, last)
            labels += [
                Label(spot, _HERS[1] + 0.35, _flag(report, name), up="bottom", small=True)
                for spot, name in zip(spots, order, strict=True)
            ]
        self._labels.show(labels)


def draw_answers(report: Report, size: str = "page") -> Still:
    """A learner's ledger above the right one, as a finished figure.

    Shown are answers in threads for "first drawn", "fold 1", "fold 2" and "cut" or "total". The type is for a
    ``"page"`` or a ``"projector"``.

    Examples
    --------
    >>> from hemcalc import check, example
    >>> draw_answers(check(example("bread cloth"), {"fold 1": 20, "cut": 26})).alt
    'Two ledgers. Yours: fold 1 after 20, right; cut after 26, 11 threads too near. Right: first drawn 8, ...'
    """
    of_type(report, Report, "report", "check(example('coaster'), {'hem': 10})")
    sheet = Sheet(9, 3.2, dpi=150, size=type_size(size))
    ruler = AnswerRuler(sheet, (0.01, 0.02, 0.98, 0.96))
    ruler.update(report)
    return Still(sheet, answer_alt(report))


def answer_alt(report: Report) -> str:
    """The two ledgers in words, with their numbers."""
    right = report.sums.bounds()
    said = "; ".join(f"{_told(name, at)}, {_off(report, name)}" for name, at in _said(report).items())
    rights = ", ".join(_told(name, number) for name, number in zip(_LINES, _numbers(right), strict=True))
    return f"Two ledgers. Yours: {said or 'no line yet'}. Right: {rights}."


def _told(name: str, number: int) -> str:
    return f"first drawn {number}" if name == "first drawn" else f"{name} after {number}"


def _line_places(bounds: tuple[int, ...]) -> tuple[int, ...]:
    """Where the four lines run: the first drawn thread begins where the clear band ends."""
    clear, _, fold_1, fold_2, cut = bounds
    return clear, fold_1, fold_2, cut


def _numbers(bounds: tuple[int, ...]) -> tuple[int, ...]:
    clear, *rest = _line_places(bounds)
    return (clear + 1, *rest)


def _said(report: Report) -> dict[str, int]:
    """The learner's numbers for the lines, of those that she gave in threads."""
    numbers = {name: _number(report, name) for name in _LINES}
    return {name: number for name, number in numbers.items() if number is not None}


def _entered(report: Report) -> dict[str, int]:
    """Where her lines run."""
    return {name: at - 1 if name == "first drawn" else at for name, at in _said(report).items()}


def _number(report: Report, name: str) -> int | None:
    """Her number for a line, None if she gave none; the total of the ledger is the cut line's."""
    for mark in report:
        same = mark.name == name or (name == "cut" and mark.name == "total")
        if same and mark.value is not None and mark.key.unit in ("threads", "thread"):
            return int(mark.value)
    return None


def _her_bounds(sums: Sums, hers: dict[str, int]) -> tuple[int | None, ...]:
    """The ends of her bands; None where she gave none, and from the first that lies before another."""
    first = hers.get("first drawn")
    after = None if first is None else first + sums.drawn
    bounds = [0, first, after, *(hers.get(name) for name in _LINES[1:])]
    reached = 0
    for i, at in enumerate(bounds):
        if at is not None and at < reached:
            return (*bounds[:i], *(None for _ in bounds[i:]))
        reached = reached if at is None else at
    return tuple(bounds)


def _off(report: Report, name: str) -> str:
    right = dict(zip(_LINES, _numbers(report.sums.bounds()), strict=True))[name]
    off = _said(report)[name] - right
    threads = so_many(abs(off), "thread")
    return "right" if not off else f"{threads} too {'far' if off > 0 else 'near'}"


def _flag(report: Report, name: str) -> str:
    """Her line's name and number, and how far it is off, short enough to stand beside another."""
    off = _said(report)[name] - dict(zip(_LINES, _numbers(report.sums.bounds()), strict=True))[name]
    short = f"{abs(off)} too {'far' if off > 0 else 'near'}"
    return f"{name}: {_said(report)[name]}\n{short if off else 'right'}"


def _sense(report: Report) -> str:
    wrong = [name for name in _entered(report) if _off(report, name) != "right"]
    if not _entered(report):
        return "no line given yet"
    return f"{wrong[0]} is the first line that is off" if wrong else "every line given is right"


def _rectangle(name: str) -> Rectangle:
    return Rectangle((0, 0), 0, 0, **BANDS[name].patch)


def _show_strip(patches: list[Rectangle], strip: tuple[float, float], bounds: tuple[int | None, ...]) -> None:
    """The design and the bands between these bounds; a band with an end unknown is left white."""
    ends: list[tuple[int | None, int | None]] = [(-_DESIGN, 0), *pairwise(bounds)]
    for patch, (start, end) in zip(patches, ends, strict=True):
        known = start is not None and end is not None and end > start
        patch.set_visible(known)
        if start is not None and end is not None and known:
            patch.set_bounds(start, strip[0], end - start, strip[1] - strip[0])
