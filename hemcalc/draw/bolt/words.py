"""What is written on a cloth that is cut up: each piece by its name or letter, each cut by its number.

A size goes by its name where all its pieces have room for it, and by a letter of the key
otherwise. Where a piece has no room for its letter beside the numbers of cuts, it goes before
them; what is left out is counted, so that the picture can say so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from string import ascii_uppercase

from hemcalc.bolt.cutting import Cut, CutUp, Placed
from hemcalc.draw.bolt.stretches import Stretches, right_across
from hemcalc.draw.lettering import SHARES
from hemcalc.draw.marks import Label

#: Left, bottom, right, top, points.
Box = tuple[float, float, float, float]

#: Kept free round a label, points.
CLEAR = 1.5
_NET = 40.0  # mesh of the net in which places are looked up, points


class Occupied:
    """Boxes that are taken, each under a number, looked up by where they are."""

    def __init__(self) -> None:
        self._cells: dict[tuple[int, int], list[tuple[int, Box]]] = {}

    def add(self, number: int, box: Box) -> None:
        """Take this box."""
        for cell in _cells(box):
            self._cells.setdefault(cell, []).append((number, box))

    def touching(self, box: Box) -> set[int]:
        """The numbers of those that come nearer to a box than may be."""
        return {
            number
            for cell in _cells(box)
            for number, other in self._cells.get(cell, ())
            if _touch(box, other)
        }


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    """The squares of a net that a box, and what is kept clear round it, reaches into."""
    left, bottom, right, top = (
        int(side // _NET) for side in (box[0] - CLEAR, box[1] - CLEAR, box[2] + CLEAR, box[3] + CLEAR)
    )
    for x in range(left, right + 1):
        for y in range(bottom, top + 1):
            yield x, y


def _touch(one: Box, other: Box) -> bool:
    """Whether two boxes come nearer than may be."""
    return (
        one[0] < other[2] + CLEAR
        and other[0] < one[2] + CLEAR
        and one[1] < other[3] + CLEAR
        and other[1] < one[3] + CLEAR
    )


#: The mark of a piece that is turned by a quarter.
TURNED = "↻"
#: How far the selvedge is drawn beside the cloth, points.
SELVEDGE = 3.0
_START = 5.0  # from the start of a cut to its number, points
_FARTHER = (1.0, 0.5, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0)  # times as far, if that place is taken
_SHIFTS = (0.0, -0.5, 0.5, -1.0, 1.0)  # of a piece's label, in shares of the room beside it

_Measure = Callable[[Label], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Written:
    """The labels of a cloth, and what had no room."""

    labels: tuple[Label, ...]
    #: Sizes that go by their letter.
    by_letter: frozenset[str]
    #: Numbers of the cuts, and names of the pieces, that are left out.
    cuts_left_out: tuple[int, ...]
    pieces_left_out: tuple[str, ...]


def letter_of(cut_up: CutUp, name: str) -> str:
    """The letter of a size: A to Z, and then AA, AB and so on."""
    at = [size.name for size in cut_up.sizes].index(name)
    return ascii_uppercase[at] if at < 26 else "A" + ascii_uppercase[at - 26]


def written_on(cut_up: CutUp, stretches: Stretches, measure: _Measure, unit: str | None) -> Written:
    """Every label of the pieces and cuts that has room, none over another; cuts on one line have one.

    With a unit, as many numbers of cuts as have room for it stand with their measure.
    """
    measure = _kept(measure)
    numbers = _numbers(cut_up, stretches, measure, {}, ())
    named: list[Label] = []
    by_letter, pieces_left_out = set(), []
    for size in cut_up.sizes:
        pieces = [piece for piece in cut_up.pieces if piece.name == size.name]
        places = [_inside(stretches, piece) for piece in pieces]
        occupied = _occupied(numbers, measure)
        names = _alike(pieces, places, occupied, measure)
        if names is not None:
            named += names
            continue
        by_letter.add(size.name)
        letter = letter_of(cut_up, size.name)
        for piece, place in zip(pieces, places, strict=True):
            # Side by side if it can be, and else below one another.
            ways = [*_ways(f"{letter}{piece.number}", piece), *_ways(f"{letter} {piece.number}", piece)]
            label = _placed(ways, place, occupied, measure) or _placed(ways, place, Occupied(), measure)
            if label is None:
                pieces_left_out.append(piece.label)
                continue
            named.append(label)
            for number in occupied.touching(_box_of(label, measure)):
                numbers.pop(number, None)
    # What had to make way may find room farther along its cut.
    numbers = _numbers(cut_up, stretches, measure, numbers, named)
    if unit is not None:
        numbers = _with_measures(cut_up, stretches, measure, numbers, named, unit)
    return Written(
        labels=(*named, *numbers.values()),
        by_letter=frozenset(by_letter),
        cuts_left_out=tuple(line[0].number for line in cut_up.lines if line[0].number not in numbers),
        pieces_left_out=tuple(pieces_left_out),
    )


def _kept(measure: _Measure) -> _Measure:
    """The same measure, asked once only for each text."""
    known: dict[tuple[str, bool], tuple[float, float]] = {}

    def size(label: Label) -> tuple[float, float]:
        what = label.text, label.bold
        if what not in known:
            known[what] = measure(label)
        return known[what]

    return size


def _alike(
    pieces: Sequence[Placed], places: Sequence[Box], occupied: Occupied, measure: _Measure
) -> list[Label] | None:
    """The pieces of a size by their name, all set the same way; None if no way has room on all."""
    ways = [list(_ways(piece.label, piece)) for piece in pieces]
    for way in range(max(map(len, ways), default=1)):
        labels = []
        for texts, place in zip(ways, places, strict=True):
            label = _placed([texts[min(way, len(texts) - 1)]], place, occupied, measure)
            if label is None:
                break
            labels.append(label)
        else:
            return labels
    return None


def _ways(text: str, piece: Placed) -> Iterator[str]:
    """Ways to set a label: in one line, in two, a word a line; with the mark if the piece is turned."""
    words = [*text.split(" "), *([TURNED] if piece.turned else [])]
    for breaks in dict.fromkeys((len(words), len(words) - 1, len(words) - 2, 1)):
        if breaks > 0:
            yield "\n".join(filter(None, (" ".join(words[:breaks]), " ".join(words[breaks:]))))
    if len(words) > 2:
        yield "\n".join(words)


def _numbers(
    cut_up: CutUp,
    stretches: Stretches,
    measure: _Measure,
    there: Mapping[int, Label],
    others: Iterable[Label],
) -> dict[int, Label]:
    """The number of each cut where it starts, those right across first, as far as there is room.

    Those that are there already stay, and the other labels are kept clear of.
    """
    numbers = dict(there)
    occupied = _occupied(numbers, measure, others)
    for cut in sorted(cut_up.cuts, key=lambda cut: (not right_across(cut, cut_up), cut.number)):
        if cut.number in numbers:
            continue
        for label in _at_start(cut, cut_up, stretches, measure):
            box = _box_of(label, measure)
            if not occupied.touching(box):
                numbers[cut.number] = label
                occupied.add(cut.number, box)
                break
    return numbers


def _with_measures(
    cut_up: CutUp,
    stretches: Stretches,
    measure: _Measure,
    numbers: dict[int, Label],
    named: Iterable[Label],
    unit: str,
) -> dict[int, Label]:
    """The numbers, each with how far its cut is from the edge of its bit, where that has room as well."""
    occupied = _occupied(numbers, measure, named)
    told = dict(numbers)
    for cut in cut_up.cuts:
        number = numbers.get(cut.number)
        if number is None or told[cut.number] is not number:
            continue
        for label in _at_start(cut, cut_up, stretches, measure, measure_text(cut, unit)):
            box = _box_of(label, measure)
            if _has_room(box, stretches, right_across(cut, cut_up)) and not occupied.touching(box) - {
                cut.number
            }:
                told[cut.number] = label
                occupied.add(cut.number, box)
                break
    return told


def _has_room(box: Box, stretches: Stretches, in_margin: bool) -> bool:
    """Whether a label stays on the drawing and, in a margin, clear of the stretch before."""
    ends = [left + stretches.width + SELVEDGE for left in stretches.lefts if left + stretches.width < box[2]]
    left = max([0.0, *ends]) if in_margin else stretches.lefts[0]
    return left + CLEAR <= box[0] and stretches.bottom <= box[1] and box[3] <= stretches.top


def measure_text(cut: Cut, unit: str) -> str:
    """A cut's number and how far it is from the edge of its bit; a line for each where room is narrow."""
    return f"{cut.number}{': ' if cut.way == 'across' else chr(10)}{cut.at.text(unit)}"


def _at_start(
    cut: Cut, cut_up: CutUp, stretches: Stretches, measure: _Measure, text: str = ""
) -> Iterator[Label]:
    """Places for a cut's number: on its line near its start or, if it is too short for that, before it.

    That of a cut right across stands in the margin.
    """
    (x, y), (last_x, last_y) = stretches.line(cut)
    label = Label(x, y, text or str(cut.number), bold=True, small=True, on_paper=True)
    if right_across(cut, cut_up):
        in_lines = label.text.replace(": ", "\n")
        yield replace(label, x=x - SELVEDGE - 3, text=in_lines, across="right", on_paper=False)
        return
    width, height = measure(label)
    (left,) = [left for left in stretches.lefts if left <= x + 1e-6][-1:]
    inside = left + width / 2, left + stretches.width - width / 2
    if cut.way == "across":
        room = last_x - x - width
        yield from (replace(label, x=x + at, across="left") for at in _afters(room))
        if x - width - 2 >= left:
            yield replace(label, x=x - 2, across="right")
        return
    along = replace(label, x=min(max(x, inside[0]), inside[1]))
    yield from (replace(along, y=y - at, up="top") for at in _afters(y - last_y - height))
    if y + height + 2 <= stretches.top:
        yield replace(along, y=y + 2, up="bottom")


def _afters(room: float) -> tuple[float, ...]:
    """How far from the start of a cut its number may begin."""
    return tuple(at * _START for at in _FARTHER if at * _START <= room)


def _occupied(labels: Mapping[int, Label], measure: _Measure, others: Iterable[Label] = ()) -> Occupied:
    occupied = Occupied()
    for number, label in (*labels.items(), *((-1 - at, label) for at, label in enumerate(others))):
        occupied.add(number, _box_of(label, measure))
    return occupied


def _placed(texts: Iterable[str], place: Box, occupied: Occupied, measure: _Measure) -> Label | None:
    """The first of these texts that has room in a place, clear of what is taken; None if none has."""
    left, bottom, right, top = place
    for text in texts:
        label = Label((left + right) / 2, (bottom + top) / 2, text, small=True, on_paper=True)
        width, height = measure(label)
        aside, up = (right - left - width) / 2, (top - bottom - height) / 2
        if aside < 0 or up < 0:
            continue
        for dy in _SHIFTS:
            for dx in _SHIFTS:
                x, y = label.x + dx * aside, label.y + dy * up
                box = x - width / 2, y - height / 2, x + width / 2, y + height / 2
                if not occupied.touching(box):
                    return replace(label, x=x, y=y)
    return None


def _inside(stretches: Stretches, piece: Placed) -> Box:
    left, bottom, width, height = stretches.box(piece.bit)
    return left + CLEAR, bottom + CLEAR, left + width - CLEAR, bottom + height - CLEAR


def _box_of(label: Label, measure: _Measure) -> Box:
    width, height = measure(label)
    left, bottom = label.x - SHARES[label.across] * width, label.y - SHARES[label.up] * height
    return left, bottom, left + width, bottom + height
