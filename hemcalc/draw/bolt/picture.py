"""A cloth that is cut up, to scale: every piece, every cut in order, and what falls off.

The warp runs down the picture, and a long bolt is laid out in stretches side by side. All is
drawn from the layout; nothing is laid out here.
"""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.collections import LineCollection
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from hemcalc.bolt.cutting import CutUp
from hemcalc.bolt.layout import Layout
from hemcalc.bolt.remnant import Yield
from hemcalc.draw.bolt.key import Key, key_of
from hemcalc.draw.bolt.lengths import Lengths, lengths_of
from hemcalc.draw.bolt.stretches import MOST_STRETCHES, Stretches, lay_stretches, right_across
from hemcalc.draw.bolt.words import SELVEDGE, Written, written_on
from hemcalc.draw.look import LINES, OFFCUT, PIECES, TYPE, BandLook, TypeSize, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels, show_shapes
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.units import UNITS
from hemcalc.measure.words import so_many

#: Sizes by their tint, then by tint and pattern; of more than these a letter must do.
_LOOKS = tuple(BandLook(look.fill, hatch) for hatch in ("", "...", "---") for look in PIECES)
_WIDE = 9.0  # inches of a still
_HEIGHTS = (4.0, 5.0, 6.0, 7.0, 8.0, 10.0, 12.5, 15.5)  # that a still may have, inches
_SMALLER = 1.1  # times as large that it must be drawn without measures in the margin
_SHARE = 0.08  # of the numbers of cuts that may be left out
_TO_KEY = 8.0  # from the cloth to the key, points

_Line = list[tuple[float, float]]


class BoltPicture:
    """The view of a cloth that is cut up: made once for some axes, then updated.

    Parameters
    ----------
    sheet : Sheet
        The figure.
    box : tuple
        Where on it, as shares: left, bottom, width, height.
    most : int
        Pieces and cuts together, of the cloth that has most of them.
    """

    def __init__(self, sheet: Sheet, box: tuple[float, float, float, float], most: int) -> None:
        self.sheet = sheet
        width, height = (72 * float(side) for side in sheet.figure.get_size_inches())
        self.wide, self.high = box[2] * width, box[3] * height
        self.axes = sheet.axes(box, (0, self.wide), (0, self.high))
        self.sizes = [PathPatch(Path([(0, 0)]), **(look.patch | {"linewidth": 0})) for look in _LOOKS]
        self.offcuts = PathPatch(Path([(0, 0)]), **(OFFCUT.patch | {"linewidth": 0}))
        self.edges, self.across, self.within = _lines("edge"), _lines("cut"), _lines("cut within")
        drawn = (*self.sizes, self.offcuts, self.edges, self.within, self.across)
        for artist in drawn:
            self.axes.add_artist(artist)
        sheet.moving(self.axes, *drawn)
        self._key = Key(sheet, self.axes)
        self._lengths = Lengths(sheet, self.axes)
        self._width = Dimensions(sheet, self.axes, 1)
        self._labels = Labels(sheet, self.axes, most + MOST_STRETCHES)

    def plan(self, cut_up: CutUp, unit: str) -> tuple[Stretches, Written]:
        """Where it will be drawn, and what can be written on it."""
        size = self._labels.size
        # Numbers stand in the margin, with the selvedges on both sides; and their measures, unless the
        # cloth would be drawn much smaller for them.
        texts = {cut.at.text(unit) for cut in cut_up.cuts if right_across(cut, cut_up)}
        wide, narrow = (
            self._stretches(
                cut_up, unit, max(size(Label(0, 0, text, bold=True, small=True))[0] for text in some) + 6
            )
            for some in ({"999", *texts}, {str(len(cut_up.lines))})
        )
        stretches = narrow if narrow.scale > _SMALLER * wide.scale else wide
        return stretches, written_on(cut_up, stretches, size, unit)

    def _stretches(self, cut_up: CutUp, unit: str, margin: float) -> Stretches:
        """Where it will be drawn, with so much margin."""
        size = self._labels.size
        over = [size(Label(0, 0, text, small=True))[0] for text in _going_on(cut_up, unit).values()]
        top = self.high - 1.35 * self.sheet.type.text - 12
        return lay_stretches(
            cut_up,
            left=margin + SELVEDGE,
            right=self.wide - self._lengths.wide(lengths_of(cut_up, unit)),
            top=top,
            room=max(top - self._key.high(key_of(cut_up, unit)) - _TO_KEY, self.sheet.type.small),
            gap=margin + 2 * SELVEDGE + 4,
            least=max([self._words_wide(cut_up, unit), *over]),
        )

    def update(self, cut_up: CutUp, unit: str) -> None:
        """Show this cloth, with lengths in this unit."""
        stretches, written = self.plan(cut_up, unit)
        self._show_cloth(cut_up, stretches)
        self._labels.show([*written.labels, *_headings(cut_up, stretches, unit)])
        left, wide, top = stretches.lefts[0], stretches.wide, stretches.top
        self._width.show([Dimension(left, left + wide, top + 8, top, _width_words(cut_up, unit))])
        lengths = lengths_of(cut_up, unit)
        # Words that are wider than the cloth may end anywhere beside it.
        long = self._words_wide(cut_up, unit)
        self._lengths.show(lengths, stretches, left + wide + long + 2 * _TO_KEY if long > wide else 0.0)
        below = min(stretches.bottom, self._lengths.low(lengths, stretches))
        self._key.show(key_of(cut_up, unit, written), below - _TO_KEY)

    def bottom(self, cut_up: CutUp, unit: str, planned: tuple[Stretches, Written]) -> float:
        """Where the picture ends, points from the lower edge of its box."""
        stretches, written = planned
        below = min(stretches.bottom, self._lengths.low(lengths_of(cut_up, unit), stretches))
        return below - _TO_KEY - self._key.high(key_of(cut_up, unit, written))

    def _words_wide(self, cut_up: CutUp, unit: str) -> float:
        """Of the words over the cloth, with what is kept free round them."""
        return self._labels.size(Label(0, 0, _width_words(cut_up, unit)))[0] + _TO_KEY

    def _show_cloth(self, cut_up: CutUp, stretches: Stretches) -> None:
        kinds = {size.name: at % len(_LOOKS) for at, size in enumerate(cut_up.wanted)}
        for at, patch in enumerate(self.sizes):
            _show(patch, [stretches.box(piece.bit) for piece in cut_up.pieces if kinds[piece.name] == at])
        _show(self.offcuts, [stretches.box(bit) for bit in cut_up.offcuts])
        for lines, wanted in ((self.across, True), (self.within, False)):
            lines.set_segments(
                [stretches.line(cut) for cut in cut_up.cuts if right_across(cut, cut_up) == wanted]
            )
        # A bolt has selvedges, drawn as a second line; what a remnant has nobody knows.
        aside = (0.0, SELVEDGE) if isinstance(cut_up, Layout) else (0.0,)
        edges: list[_Line] = []
        for left, bottom, wide, high in stretches.boxes:
            for x in (x for d in aside for x in (left - d, left + wide + d)):
                edges.append([(x, bottom), (x, bottom + high)])
        (left, bottom, wide, high), (last, end, _, _) = stretches.boxes[0], stretches.boxes[-1]
        edges += [[(left, bottom + high), (left + wide, bottom + high)], [(last, end), (last + wide, end)]]
        self.edges.set_segments(edges)


def draw_bolt(cut_up: CutUp, unit: str = "in", size: str = "page") -> Still:
    """A bolt or a remnant with all its pieces and cuts, as a finished figure.

    It is as high as it must be for every number to have room, within reason; beyond that it says
    what has none.

    Parameters
    ----------
    cut_up : Layout or Yield
        From `hemcalc.cut_from_bolt` or `hemcalc.bolt.remnant.have_from_remnant`.
    unit : str
        ``"in"``, ``"cm"`` or ``"mm"`` for the lengths.
    size : str
        Type for a ``"page"`` or a ``"projector"``.

    Raises
    ------
    HemError
        If an input is none.

    Examples
    --------
    >>> from hemcalc.bolt.buying import cut_from_bolt
    >>> draw_bolt(cut_from_bolt([("mat", "50 cm", "40 cm", 2)], "140 cm"), "cm").alt[:60]
    'Buy 40 cm: the pieces take 40 cm of a bolt 140 cm wide, and '
    """
    # A refusal by `of_type` would name one of the two only.
    if not isinstance(cut_up, Layout | Yield):
        raise HemError(
            f"The cloth to draw is {shown(cut_up)}, but must be a Layout or a Yield; for example "
            "cut_from_bolt([('mat', '18 in', '12 in', 6)], '55 in').",
            "cut_up",
        )
    cloth = cut_up
    one_of(unit, UNITS, "unit")
    looks = type_size(size)
    high = bolt_height(cloth, unit, 0.98 * _WIDE, looks)
    picture = BoltPicture(
        Sheet(_WIDE, high, dpi=150, size=looks), (0.01, 0, 0.98, 1), len(cloth.pieces) + len(cloth.cuts)
    )
    picture.update(cloth, unit)
    return Still(picture.sheet, bolt_alt(cloth, unit))


def bolt_height(
    cut_up: CutUp, unit: str, wide: float, size: TypeSize = TYPE["page"], most: float = _HEIGHTS[-1]
) -> float:
    """How high a picture must be, in inches, for nearly every number to have room; no higher than the most.

    Parameters
    ----------
    cut_up : CutUp
        The cloth.
    unit : str
        Of its lengths.
    wide : float
        How wide the picture is, inches.
    size : TypeSize
        Its type.
    most : float
        How high it may be, inches.
    """
    trial = BoltPicture(Sheet(wide, most, dpi=150, size=size), (0, 0, 1, 1), 0)
    for high in (*(height for height in _HEIGHTS if height < most), most):
        trial.high = 72 * high
        planned = trial.plan(cut_up, unit)
        # A figure is not to be twice as high for the sake of one number.
        few = len(planned[1].cuts_left_out) <= _SHARE * len(cut_up.lines)
        if few and not planned[1].pieces_left_out:
            break
    # Without what stayed empty below.
    return high - max(trial.bottom(cut_up, unit, planned) - 4, 0) / 72


def bolt_alt(cut_up: Layout | Yield, unit: str = "in") -> str:
    """The picture in words, with its numbers."""
    had = ", ".join(f"{many} of {name}" for name, many in cut_up.counts.items())
    turned = sum(piece.turned for piece in cut_up.pieces)
    if turned:
        had += f", {turned} of all turned"
    across = sum(right_across(cut, cut_up) for cut in cut_up.cuts)
    cuts, bits = len(cut_up.lines), len(cut_up.offcuts)
    return (
        f"{cut_up.text(unit)} To scale, the warp downward: {had}; {so_many(cuts, 'line')} to cut, "
        f"{across} of them right across; {so_many(bits, 'bit')} left over."
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


def _lines(kind: str) -> LineCollection:
    look = LINES[kind]
    lines = LineCollection([], colors=look.colour, linewidths=look.width)
    lines.set_linestyle([look.style])
    return lines


def _show(patch: PathPatch, boxes: Sequence[tuple[float, float, float, float]]) -> None:
    show_shapes(patch, [[(x, y), (x + w, y), (x + w, y + h), (x, y + h)] for x, y, w, h in boxes])
