"""A cloth that is cut up, to scale: every piece, every cut in order, and what falls off.

The warp runs down the picture, and a long bolt is laid out in stretches side by side. All is
drawn from the layout; nothing is laid out here.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from hemcalc.bolt.cutting import CutUp
from hemcalc.bolt.layout import Layout
from hemcalc.bolt.remnant import Yield
from hemcalc.draw.bolt.key import Key, key_of
from hemcalc.draw.bolt.lengths import Lengths, lengths_of
from hemcalc.draw.bolt.parts import Part, parts_of, whole
from hemcalc.draw.bolt.stretches import MAX_STRETCHES, Stretches, lay_stretches, right_across
from hemcalc.draw.bolt.words import SELVEDGE, Written, written_on
from hemcalc.draw.look import LINES, OFFCUT, PIECES, TYPE, BandLook, TypeSize, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels, show_shapes
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.units import UNITS
from hemcalc.measure.words import so_many

#: Sizes by their tint, then by tint and pattern; of more than these a letter must do.
_LOOKS = tuple(BandLook(look.fill, hatch) for hatch in ("", "...", "---") for look in PIECES)
#: Inches of a still.
WIDE = 9.0
_HEIGHTS = (4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.5, 15.5)  # that a still may have, inches
_SMALLER = 1.1  # times as large that it must be drawn without measures in the margin
_SCREEN = 8.0  # how high a sheet of several is at the most, inches
_TO_KEY = 8.0  # from the cloth to the key, points

_Line = list[tuple[float, float]]


class BoltPicture:
    """The view of a cloth that is cut up: made once for some axes, then updated.

    There is room for the labels of `most` pieces and cuts.
    """

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float], most: int) -> None:
        self.sheet = sheet
        across, up = (72 * float(side) for side in sheet.figure.get_size_inches())
        self.width, self.height = box[2] * across, box[3] * up
        self.axes = sheet.axes(box, (0, self.width), (0, self.height))
        self.sizes = [PathPatch(Path([(0, 0)]), **(look.patch | {"linewidth": 0})) for look in _LOOKS]
        self.offcuts = PathPatch(Path([(0, 0)]), **(OFFCUT.patch | {"linewidth": 0}))
        self.edges, self.across, self.within = (
            LineCollection([], **LINES[kind].line) for kind in ("edge", "cut", "cut within")
        )
        sheet.moving(self.axes, *self.sizes, self.offcuts, self.edges, self.within, self.across)
        self._key = Key(sheet, self.axes)
        self.lengths = Lengths(sheet, self.axes)
        self._width = Dimensions(sheet, self.axes, 1)
        self._labels = Labels(sheet, self.axes, most + MAX_STRETCHES)

    def plan(self, part: Part, unit: str, largest: float = math.inf) -> tuple[Stretches, Written]:
        """Where it will be drawn, no larger than so many points to the mm, and what can be written on it."""
        stretches = self.placed(part, unit, largest)
        return stretches, written_on(part.cloth, stretches, self._labels.size, unit)

    def placed(self, part: Part, unit: str, largest: float = math.inf) -> Stretches:
        """Where it will be drawn, no larger than so many points to the mm."""
        cut_up = part.cloth
        size = self._labels.size
        # Numbers stand in the margin, with the selvedges on both sides; and their measures, unless the
        # cloth would be drawn much smaller for them.
        texts = {cut.at.text(unit) for cut in cut_up.cuts if right_across(cut, cut_up)}
        plain, narrow = (
            self._stretches(
                part,
                unit,
                max(size(Label(0, 0, text, bold=True, small=True))[0] for text in some) + 6,
                largest,
            )
            for some in ({"999", *texts}, {str(len(cut_up.lines))})
        )
        return narrow if narrow.scale > _SMALLER * plain.scale else plain

    def _stretches(self, part: Part, unit: str, margin: float, largest: float) -> Stretches:
        """Where it will be drawn, with so much margin."""
        cut_up, size = part.cloth, self._labels.size
        over = [size(Label(0, 0, text, small=True))[0] for text in _going_on(cut_up, unit).values()]
        top = self.height - 1.35 * self.sheet.type.text - 12
        return lay_stretches(
            cut_up,
            left=margin + SELVEDGE,
            right=self.width - self.lengths.width(lengths_of(part, unit)),
            top=top,
            room=max(top - self._key.height(key_of(part, unit)) - _TO_KEY, self.sheet.type.small),
            gap=margin + 2 * SELVEDGE + 4,
            least=max([self._words_wide(cut_up, unit), *over]),
            ends=(part.start, part.end),
            largest=largest,
        )

    def update(self, cut_up: CutUp, unit: str) -> None:
        """Show this cloth, with lengths in this unit."""
        self.show(whole(cut_up), unit)

    def show(self, part: Part, unit: str, largest: float = math.inf) -> None:
        """Show this part of a cloth, no larger than so many points to the mm."""
        stretches, written = self.plan(part, unit, largest)
        cut_up = part.cloth
        self._show_cloth(part, stretches)
        self._labels.show([*written.labels, *_headings(cut_up, stretches, unit)])
        left, width, top = stretches.lefts[0], stretches.width, stretches.top
        self._width.show([Dimension(left, left + width, top + 8, top, _width_words(cut_up, unit))])
        lengths = lengths_of(part, unit)
        # Words that are wider than the cloth may end anywhere beside it.
        long = self._words_wide(cut_up, unit)
        self.lengths.show(lengths, stretches, left + width + long + 2 * _TO_KEY if long > width else 0.0)
        below = min(stretches.bottom, self.lengths.low(lengths, stretches))
        self._key.show(key_of(part, unit, written), below - _TO_KEY)

    def least(self, part: Part, unit: str, heights: Sequence[float] = _HEIGHTS) -> float:
        """How high it must be, inches, for every number to have room or, if none will do, for most."""
        tries = []
        for height in heights:
            tries.append(self.tried(part, unit, height))
            if not tries[-1][0]:
                break
        return min(tries)[1]

    def tried(self, part: Part, unit: str, height: float) -> tuple[int, float]:
        """How many numbers have no room in so many inches, and how high it is without what stays empty."""
        self.height = 72 * height
        stretches = self.placed(part, unit)
        # Measures take no room from the numbers with which they stand.
        written = written_on(part.cloth, stretches, self._labels.size, None)
        below = min(stretches.bottom, self.lengths.low(lengths_of(part, unit), stretches))
        # Below it all that the key may say, as was planned for: a lower picture would be planned anew.
        empty = below - _TO_KEY - self._key.height(key_of(part, unit)) - 4
        return len(written.cuts_left_out) + len(written.pieces_left_out), height - max(empty, 0) / 72

    def _words_wide(self, cut_up: CutUp, unit: str) -> float:
        """Of the words over the cloth, with what is kept free round them."""
        return self._labels.size(Label(0, 0, _width_words(cut_up, unit)))[0] + _TO_KEY

    def _show_cloth(self, part: Part, stretches: Stretches) -> None:
        cut_up = part.cloth
        kinds = {size.name: at % len(_LOOKS) for at, size in enumerate(cut_up.sizes)}
        for at, patch in enumerate(self.sizes):
            _show(patch, [stretches.box(piece.bit) for piece in cut_up.pieces if kinds[piece.name] == at])
        _show(self.offcuts, [stretches.box(bit) for bit in cut_up.offcuts])
        for lines, outright in ((self.across, True), (self.within, False)):
            lines.set_segments(
                [stretches.line(cut) for cut in cut_up.cuts if right_across(cut, cut_up) == outright]
            )
        # A bolt has selvedges, drawn as a second line; what a remnant has nobody knows.
        aside = (0.0, SELVEDGE) if isinstance(cut_up, Layout) else (0.0,)
        edges: list[_Line] = []
        for left, bottom, width, height in stretches.boxes:
            for x in (x for d in aside for x in (left - d, left + width + d)):
                edges.append([(x, bottom), (x, bottom + height)])
        (left, bottom, width, height), (last, end, _, _) = stretches.boxes[0], stretches.boxes[-1]
        if not part.start:
            edges.append([(left, bottom + height), (left + width, bottom + height)])
        if part.end == cut_up.length:
            edges.append([(last, end), (last + width, end)])
        self.edges.set_segments(edges)


def draw_bolt(cut_up: Layout | Yield, unit: str = "in", size: str = "page") -> Still:
    """A bolt or a remnant with all its pieces and cuts, as a finished figure.

    It is as high as it must be for every number to have room. A long cloth goes on over several sheets,
    parted where a cut runs right across; each sheet after the first is one of `Still.more`.

    Lengths are in ``"in"``, ``"cm"`` or ``"mm"``, and its type is for a ``"page"`` or a ``"projector"``.

    Examples
    --------
    >>> from hemcalc.bolt.buying import cut_from_bolt
    >>> draw_bolt(cut_from_bolt([("mat", "50 cm", "40 cm", 2)], "140 cm"), "cm").alt[:60]
    'Buy 40 cm: the pieces take 40 cm of a bolt 140 cm wide, and '
    """
    as_cloth(cut_up)
    one_of(unit, UNITS, "unit")
    looks, stills = type_size(size), list[Still]()
    for part, height in bolt_sheets(cut_up, unit, 0.98 * WIDE, looks):
        sheet = Sheet(WIDE, height, dpi=150, size=looks)
        show_part(sheet, (0.01, 0, 0.98, 1), part, unit)
        of_all = () if stills else (bolt_alt(cut_up, unit),)
        stills.append(Still(sheet, _sheet_alt(part, unit, *of_all)))
    return Still(stills[0].sheet, stills[0].alt, tuple(stills[1:]))


def as_cloth(cut_up: object) -> Layout | Yield:
    """What is to be drawn; a refusal by `of_type` would name one of the two only."""
    if not isinstance(cut_up, Layout | Yield):
        raise HemError(
            f"The cloth to draw is {shown(cut_up)}, but must be a Layout or a Yield; for example "
            "cut_from_bolt([('mat', '18 in', '12 in', 6)], '55 in').",
            "cut_up",
        )
    return cut_up


def show_part(
    sheet: Sheet, box: tuple[float, float, float, float], part: Part, unit: str, largest: float = math.inf
) -> None:
    """Put a part of a cloth on a sheet, in a box, no larger than so many points to the mm."""
    BoltPicture(sheet, box, len(part.cloth.pieces) + len(part.cloth.cuts)).show(part, unit, largest)


def bolt_sheets(
    cut_up: CutUp, unit: str, width: float, size: TypeSize = TYPE["page"], most: float | None = None
) -> tuple[tuple[Part, float], ...]:
    """The sheets on which every number has room: what each shows, and how high it is in inches.

    What no cut parts right across stays on one; what has no room even so, its key says.

    A sheet is `width` inches wide and at `most` so many high; if that is left out, as high as a screen is,
    and higher only for a cloth that can't be parted.
    """
    highest = most or _SCREEN
    heights = [height for height in _HEIGHTS if most is None or height < most] + ([most] if most else [])
    trial = BoltPicture(Sheet(width, highest, dpi=150, size=size), (0, 0, 1, 1), 0)
    parts = parts_of(cut_up, lambda part: not trial.tried(part, unit, highest)[0])
    return tuple((part, trial.least(part, unit, heights)) for part in parts)


def bolt_alt(cut_up: Layout | Yield, unit: str = "in") -> str:
    """The picture in words, with its numbers."""
    return f"{cut_up.text(unit)} To scale, the warp downward: {_had(cut_up)}."


def _sheet_alt(part: Part, unit: str, *of_all: str) -> str:
    """A sheet in words, after what is said of all."""
    which = part.text(unit)
    return " ".join([*of_all, f"{which[0].upper()}{which[1:]}: {_had(part.cloth)}."] if which else of_all)


def _had(cut_up: CutUp) -> str:
    had = ", ".join(f"{quantity} of {name}" for name, quantity in cut_up.counts.items())
    turned = sum(piece.turned for piece in cut_up.pieces)
    if turned:
        had += f", {turned} of all turned"
    across = sum(right_across(cut, cut_up) for cut in cut_up.cuts)
    cuts, bits = len(cut_up.lines), len(cut_up.offcuts)
    return (
        f"{had}; {so_many(cuts, 'line')} to cut, {across} of them right across; "
        f"{so_many(bits, 'bit')} left over"
    )


def _width_words(cut_up: CutUp, unit: str) -> str:
    words = cut_up.width.text(unit)
    return f"usable width {words}" if isinstance(cut_up, Layout) else words


def _headings(cut_up: CutUp, stretches: Stretches, unit: str) -> list[Label]:
    """Over every stretch but the first, where on the cloth it begins."""
    words = _going_on(cut_up, unit)
    return [
        Label(left, stretches.top + 6, words[start], "left", "bottom", small=True)
        for left, start in zip(stretches.lefts[1:], stretches.ends[1:-1], strict=True)
    ]


def _going_on(cut_up: CutUp, unit: str) -> dict[float, str]:
    """What stands over a stretch that begins where a cut runs right across, by its place in mm."""
    return {
        float(cut.start[1].mm): f"on from {cut.start[1].text(unit)}"
        for cut in cut_up.cuts
        if right_across(cut, cut_up)
    }


def _show(patch: PathPatch, boxes: Sequence[tuple[float, float, float, float]]) -> None:
    show_shapes(patch, [[(x, y), (x + w, y), (x + w, y + h), (x, y + h)] for x, y, w, h in boxes])
