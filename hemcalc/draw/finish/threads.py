"""The open line under the fingers: a thread snipped, drawn out, withdrawn and darned back.

Seen from the right side at the top left corner, the raw edge above and to the left. The threads are
those of the piece's own weave; the one in hand is dark.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from hemcalc.draw.finish.scene import (
    HIGH,
    WIDE,
    Area,
    Point,
    Scene,
    Stroke,
    Thing,
    Words,
    arrow,
    curve,
    needle,
    scene,
    scissors,
)
from hemcalc.draw.weave.lens import LensShown
from hemcalc.draw.weave.strands import strands, turns
from hemcalc.piece.piece import Piece
from hemcalc.weave.crossings import ROW, Cloth
from hemcalc.weave.darning import Tail
from hemcalc.weave.open_lines import End, withdraw
from hemcalc.weave.steps import WeaveStep, steps_at
from hemcalc.weave.weave import Weave, open_line

_THICK = 0.42  # width of a thread, pitches
_CORNER, _NEXT = "top left", "top right"


class _Lens:
    """A window of the cloth, as large as the picture has room for."""

    def __init__(self, rows: range, columns: range, *, room: float = 0.0) -> None:
        self.rows, self.columns = rows, columns
        self.pitch = min((WIDE - room) / len(columns), HIGH / len(rows))
        self.left = WIDE - self.pitch * (len(columns) - 0.5)
        self.top = (HIGH + self.pitch * (len(rows) - 1)) / 2

    def at(self, column: float, row: float) -> Point:
        """Where a crossing is on the picture."""
        return self.left + (column - self.columns[0]) * self.pitch, self.top - (
            row - self.rows[0]
        ) * self.pitch

    def line(self, points: Iterable[Sequence[float]]) -> tuple[Point, ...]:
        return tuple(self.at(column, row) for column, row in points)

    def threads(
        self, cloth: Cloth, tails: Collection[Tail] = (), dark: int | None = None
    ) -> list[Area | Stroke]:
        """The cloth's threads over the holes between them, those of one row dark."""
        (x0, y0), (x1, y1) = (
            self.at(lines[at] + half, rows[at] + half)
            for lines, rows, at, half in (
                (self.columns, self.rows, 0, -0.5),
                (self.columns, self.rows, -1, 0.5),
            )
        )
        found: dict[str, list[tuple[Point, ...]]] = {}
        for strand in (*strands(cloth, self.rows, self.columns, tails), *turns(cloth, tails)):
            held = strand.direction == ROW and all(row == dark for _, row in strand.points)
            look = strand.direction if strand.look == "woven" else strand.look
            found.setdefault("tail" if held else look, []).append(self.line(strand.points))
        holes = Area("holes", ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
        return [holes, *(self.stroke(look, lines) for look, lines in found.items())]

    def stroke(self, look: str, lines: Iterable[tuple[Point, ...]]) -> Stroke:
        return Stroke(look, tuple(lines), _THICK * self.pitch)


def snip(piece: Piece) -> Scene:
    """The first thread lifted on a needle, and one blade under it alone."""
    weave, edge = open_line(piece), piece.edges_in_hand.top
    row, middle = weave.line("top", edge.first_drawn), piece.design[0] // 2
    lens = _Lens(range(row - 3, row + 5), range(middle - 5, middle + 6))
    cloth = weave.woven
    for corner, kept in ((_CORNER, middle - 3), (_NEXT, middle + 3)):
        end, _ = weave.ends_at(corner)
        cloth = withdraw(cloth, end, edge.first_drawn, _numbered(end, kept))
    bow = lens.line(
        [
            (middle - 2.6, row),
            *curve((middle - 2.2, row), (middle, row - 3.6), (middle + 2.2, row)),
            (middle + 2.6, row),
        ]
    )
    lower, upper = scissors(lens.at(middle + 0.4, row - 1.6), lens.at(middle + 9, row - 4.5), 14)
    return scene(
        (
            *lens.threads(cloth, dark=row),
            *needle(lens.at(middle - 0.9, row - 3.2), lens.at(middle - 1.6, row + 3.4)),
            lower,
            lens.stroke("tail", [bow]),
            upper,
            Words((1.5, HIGH - 3), "one thread"),
        )
    )


def draw_out(piece: Piece) -> Scene:
    """The first thread drawn, little by little, out over the raw edge."""
    weave, edge = open_line(piece), piece.edges_in_hand.top
    row = weave.line("top", edge.first_drawn)
    end, _ = weave.ends_at(_CORNER)
    raw = weave.cloth.columns[0]
    lens = _Lens(range(row - 3, row + 5), range(raw, raw + 9), room=9.0)
    kept = raw + 3
    cloth = withdraw(weave.woven, end, edge.first_drawn, _numbered(end, kept))
    loose = lens.line(
        [(kept + 0.5, row), *curve((kept + 1.0, row), (kept + 3.2, row), (kept + 1.0, row - 2.4))]
    )
    return scene(
        (
            *lens.threads(cloth, dark=row),
            lens.stroke("tail", [loose]),
            *needle(lens.at(kept - 0.6, row - 1.4), lens.at(kept + 2.6, row + 3.6)),
            *arrow(lens.at(raw - 0.3, row + 1.7), lens.at(raw - 1.9, row + 1.7)),
            Words((1.5, HIGH - 3), "raw edge"),
        )
    )


def withdraw_to_corner(piece: Piece) -> Scene:
    """The other threads withdrawn from their middle as far as the corner, their tails hanging."""
    weave = open_line(piece)
    steps = steps_at(weave, _CORNER)
    number = max((i for i, step in enumerate(steps, 1) if step.kind == "out"), default=1)
    shown = LensShown(weave, _CORNER, steps, number, None, "in")
    lens = _at_corner(weave, outward=4)
    tails = [list(line) for line in shown.loose]
    return scene(
        (
            *lens.threads(shown.step.cloth, shown.turned),
            lens.stroke("tail", (lens.line(line) for line in tails)),
            *_open_place(lens, shown),
        )
    )


def darn_back(piece: Piece) -> Scene:
    """A tail on its way back, outward into the empty line beside its own."""
    weave = open_line(piece)
    steps = steps_at(weave, _CORNER)
    number = _darning(steps)
    shown = LensShown(weave, _CORNER, steps, number, None, "in")
    lens = _at_corner(weave, outward=8)
    things: list[Thing] = [
        *lens.threads(shown.step.cloth, shown.turned),
        *_open_place(lens, shown),
    ]
    loose = [lens.line(line) for line in shown.loose]
    if shown.step.kind == "darn" and loose:
        # Its loose end comes first: the first tail is the one under way.
        held, *others = loose
        held = held[: len(held) // 2]
        things.append(lens.stroke("tail", [held, *others]))
        things += needle((held[-1][0] - 3.4 * lens.pitch, held[-1][1]), (held[-1][0] + 1.0, held[-1][1]))
    else:
        things.append(lens.stroke("tail", loose))
    return scene(things)


def _darning(steps: Sequence[WeaveStep]) -> int:
    """The step at which the first tail has passed some threads; the last one, if none is darned."""
    first = next((step.tail for step in steps if step.kind == "darn"), None)
    made = [i for i, step in enumerate(steps, 1) if step.kind == "darn" and step.tail is first]
    return made[min(3, len(made) - 1)] if made else len(steps) - 1


def _at_corner(weave: Weave, outward: int) -> _Lens:
    rows, _ = weave.window(_CORNER, 3, 4)
    _, columns = weave.window(_CORNER, 10 - outward, outward)
    return _Lens(rows, columns)


def _open_place(lens: _Lens, shown: LensShown) -> list[Stroke]:
    """The open square, once it is open."""
    half = 0.42
    square = ((-half, -half), (half, -half), (half, half), (-half, half), (-half, -half))
    lines = [lens.line([(column + x, row + y) for x, y in square]) for row, column in shown.opened]
    return [Stroke("hidden", tuple(lines))] if lines else []


def _numbered(end: End, line: int) -> int:
    """The other side's thread that lies in a row or column."""
    return line - end.other.design if end.other.far else 1 - line
