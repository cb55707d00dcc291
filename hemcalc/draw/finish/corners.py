"""The cloth's edge and corner under the hands: lines basted, cloth cut, trimmed, folded, sewn.

Drawn from the piece's own corner, to its proportions: across to the right and down, both outward.
Flat, the cloth is seen from the right side until it is cut; from then on from the wrong side
(dotted), toward which every fold turns.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hemcalc.corner.basting import basted_lines
from hemcalc.corner.mitre import Corner
from hemcalc.corner.plies import DrawnPly
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
    run,
    scene,
    scissors,
    threaded,
    whip,
)
from hemcalc.draw.marks import spread
from hemcalc.piece.piece import Piece

_FAR = 200.0  # mm; cloth that goes on beyond the picture
_LINE = 3.9  # height of a line of words, mm
_NAMES = 14.0  # room for the lines' names, mm


class _Corner:
    """A corner placed on the picture, shown as far out as `outward` and inward as there is room."""

    def __init__(self, corner: Corner, outward: tuple[float, float], right: float, below: float) -> None:
        self.corner = corner
        self.hems = float(corner.hems[0]), float(corner.hems[1])
        self.raw = float(corner.raw_corner[0]), float(corner.raw_corner[1])
        edges = corner.across, corner.down
        self.open = tuple(float(edge.width(edge.drawn).mm) for edge in edges)
        x, y = outward
        self.right, self.below = WIDE - right, below
        self.outward = outward
        self.scale = min((HIGH - below) / y, self.right / x) / 1.5

    def at(self, x: float, y: float) -> Point:
        return self.right - (self.outward[0] - x) * self.scale, self.below + (
            self.outward[1] - y
        ) * self.scale

    def line(self, points: Sequence[tuple[float, float]]) -> tuple[Point, ...]:
        return tuple(self.at(float(x), float(y)) for x, y in points)

    def box(self, left: float, top: float, right: float, low: float) -> tuple[Point, ...]:
        return self.line(((left, top), (right, top), (right, low), (left, low)))

    def open_lines(self) -> list[Area]:
        """The two open lines, up to where their outer edges cross."""
        width, height = self.open
        return [Area("gap", self.box(-width, -_FAR, 0, 0)), Area("gap", self.box(-_FAR, -height, 0, 0))]

    def basted(self, out: float = 0.0) -> list[tuple[str, tuple[Point, Point], tuple[Point, Point]]]:
        """The lines by name, each along both sides: the level one, then the upright one."""
        (hx, hy), (rx, ry) = self.hems, self.raw
        lines = [("fold 1", hx, hy), ("fold 2", 2 * hx, 2 * hy)]
        lines += [("cut", rx, ry)] if (rx, ry) != (2 * hx, 2 * hy) else []
        return [
            (
                name,
                (self.at(-_FAR, y), self.at(rx + out, y)),
                (self.at(x, -_FAR), self.at(x, ry + out)),
            )
            for name, x, y in lines
        ]

    def named(self, ends: Sequence[tuple[str, Point]]) -> list[Stroke | Words]:
        """Names in a column at the right, each with a leader from its line."""
        ends = sorted(ends, key=lambda end: end[1][1])
        places = spread([y for _, (_, y) in ends], [_LINE] * len(ends), 0.5, HIGH - 0.5)
        leaders = tuple((end, (self.right + 1.6, y)) for (_, end), y in zip(ends, places, strict=True))
        words = (Words((self.right + 2, y), name) for (name, _), y in zip(ends, places, strict=True))
        return [Stroke("dimension", leaders), *words]

    def plies(self, progress: float) -> Iterator[Area]:
        """The folded cloth, lowest ply first, the open lines within it."""
        base, *over = self.corner.folded(progress)
        yield self._ply(base)
        yield from self.open_lines()
        for ply in over:
            yield self._ply(ply)

    def _ply(self, ply: DrawnPly) -> Area:
        return Area("right" if ply.right_side_up else "wrong", self.line(ply.shape))

    def basted_at(self, progress: float) -> Stroke:
        """The basted fold lines as they lie at a progress."""
        lines = basted_lines(self.corner, progress)
        return Stroke("basted", tuple(self.line((line.start, line.end)) for line in lines))


def baste_lines(piece: Piece) -> Scene:
    """Fold lines and cut line basted, running out past the corner so that they cross."""
    corner = _of(piece)
    x, y = _out(corner)
    out = 0.16 * max(x, y)
    view = _Corner(corner, (x + out, y + out), _NAMES, 1.5)
    lines = view.basted(out)
    (_, (_, end), _) = lines[0]
    stitched = end[0] - 9
    upright = tuple(bit for _, _, (a, b) in lines for bit in run((a[0], HIGH + 1), b))
    level = [bit for _, (a, b), _ in lines[1:] for bit in run((-1.0, a[1]), b)]
    first = run((-1.0, end[1]), (stitched, end[1]))
    return scene(
        (
            Area("right", view.box(-_FAR, -_FAR, x + out, y + out)),
            *view.open_lines(),
            Stroke("sewing", (*upright, *level, *first)),
            *threaded((stitched + 1.5, end[1] + 0.4), (stitched + 12, end[1] + 4.5), (first[-1][1])),
            *view.named([(name, (view.right, level[1][1])) for name, level, _ in lines]),
        )
    )


def cut(piece: Piece) -> Scene:
    """The cloth cut along a line between two threads; it is the same for every piece."""
    level, tip = 16.0, (19.0, 16.0)
    lines = tuple(((2.0 * i, level + 1.0), (2.0 * i, HIGH + 1)) for i in range(24))
    lines += tuple(((-1.0, level + 1.0 + 2.0 * i), (WIDE + 1, level + 1.0 + 2.0 * i)) for i in range(10))
    return scene(
        (
            Area("right", ((-1, level), (WIDE + 1, level), (WIDE + 1, HIGH + 1), (-1, HIGH + 1))),
            Stroke("thread", lines),
            Area("offcut", ((-1, -1), (WIDE + 1, -1), (WIDE + 1, level), (-1, level))),
            Stroke("cut", ((tip, (-1.0, level)),)),
            *scissors(tip, (WIDE + 10, level - 3.0), 12),
            Words((1.0, 3.0), "along one thread"),
        )
    )


def trim(piece: Piece) -> Scene:
    """The corner's point cut off, or the oblong out of a square corner."""
    corner = _of(piece)
    view = _Corner(corner, _out(corner), 18, 8)
    x, y = view.raw
    off = [(float(a), float(b)) for a, b in corner.trim or ()]
    names = [(name, level[1]) for name, level, _ in view.basted() if name != "cut"]
    things: list[Thing] = [
        Area("wrong", view.box(-_FAR, -_FAR, x, y)),
        *view.open_lines(),
        *(Stroke("basted", (level, upright)) for name, level, upright in view.basted() if name != "cut"),
    ]
    if off:
        away = view.line([*off, (x, y)])
        things += [Area("veil", away), Area("offcut", away), Stroke("cut", (view.line(off),))]
        start, end = view.at(*off[0]), view.at(*off[1])
        tip = start[0] + 0.35 * (end[0] - start[0]), start[1] + 0.35 * (end[1] - start[1])
        long = ((start[0] - tip[0]) ** 2 + (start[1] - tip[1]) ** 2) ** 0.5 or 1.0
        way = (start[0] - tip[0]) / long, (start[1] - tip[1]) / long
        things += scissors(tip, (tip[0] + 24 * way[0], tip[1] + 24 * way[1]), 16)
        names.append(("trim", view.at(*off[-1])))
    if corner.corner_fold is not None:
        fold = view.line([(float(a), float(b)) for a, b in corner.corner_fold])
        things.append(Stroke("fold", (fold,)))
        names.append(("corner fold", fold[-1]))
    return scene((*things, *view.named(names)))


def fold_corner(piece: Piece) -> Scene:
    """The trimmed corner folded over, and where its lines land."""
    corner = _of(piece)
    folded = _after(corner, "corner")
    view = _Corner(corner, _out(corner), 3, 3)
    fold = [(float(a), float(b)) for a, b in corner.corner_fold or ()]
    trimmed = [(float(a), float(b)) for a, b in corner.trim or (corner.raw_corner,)]
    middle = [sum(axis) / len(trimmed) for axis in zip(*trimmed, strict=True)]
    landed = (0.3 * view.hems[0], 0.3 * view.hems[1])
    crossing = view.at(*view.hems)
    return scene(
        (
            *view.plies(folded),
            view.basted_at(folded),
            Stroke("hidden", (view.line([fold[0], *trimmed, fold[-1]]),)),
            *arrow(*curve(view.at(*middle), (crossing[0] + 9, crossing[1] + 3), view.at(*landed))),
            Words((1.0, 3.0), "wrong side up"),
        )
    )


def turn(piece: Piece) -> Scene:
    """The raw edge folded over on fold 2, one way and then the other."""
    corner = _of(piece)
    return _folding(corner, _after(corner, "turn across"), "turn down", "fold 2", 2.0)


def fold_hem(piece: Piece) -> Scene:
    """The hem folded over on fold 1, so that fold 2 comes to lie on the open line."""
    corner = _of(piece)
    return _folding(corner, _after(corner, "hem across"), "hem down", "fold 1", 1.0)


def _folding(corner: Corner, done: float, under_way: str, name: str, hems: float) -> Scene:
    end = _after(corner, under_way)
    progress = done + 0.68 * (end - done)
    view = _Corner(corner, _out(corner), 3, 3)
    fold_y = hems * view.hems[1]
    moving = [ply for ply in corner.folded(progress) if ply.moving]
    top = min((y for ply in moving for _, y in ply.shape), default=fold_y)
    beside = -0.55 * view.raw[0]
    start, fold, tip = (
        view.at(beside, y) for y in (min(2 * fold_y, view.raw[1]), fold_y, top - 0.1 * view.raw[1])
    )
    return scene(
        (
            *view.plies(progress),
            *(() if hems == 1 else (view.basted_at(progress),)),
            *arrow(*curve((start[0], max(start[1], 1.0)), (fold[0] - 9, fold[1]), tip)),
            Words((WIDE - 1, 3.0), name, "right"),
            Words((1.0, HIGH - 3), "wrong side up"),
        )
    )


def mitre_seam(piece: Piece) -> Scene:
    """The mitre sewn from the corner of the finished edge to the open square."""
    corner = _of(piece)
    view = _Corner(corner, _hems_out(corner), 2, 2)
    outer, inner = view.at(*view.hems), view.at(0, 0)
    half = (outer[0] + 0.55 * (inner[0] - outer[0]), outer[1] + 0.55 * (inner[1] - outer[1]))
    return scene(
        (
            *view.plies(1.0),
            Stroke("edge", ((outer, inner),)),
            Stroke("sewing", tuple(whip(outer, half, 1.1, 1.9))),
            *threaded((half[0] - 4.5, half[1] - 0.5), (half[0] + 6.5, half[1] + 2.0), half),
            Words((1.0, HIGH - 3), "open square"),
            *arrow((13.0, HIGH - 5), (inner[0] - 2.0, inner[1] + 1.6)),
        )
    )


def oversew(piece: Piece) -> Scene:
    """The end of a square corner sewn together, or the edge of a mitred one's open square."""
    corner = _of(piece)
    view = _Corner(corner, _hems_out(corner), 5, 2)
    if corner.is_mitred:
        width, height = view.open
        start, end = view.at(0, -height), view.at(0, 0)
        done = [*whip(start, end, 1.0, 1.7), *whip(view.at(-width, 0), view.at(-0.3 * width, 0), 1.0, 1.7)]
        half, words = view.at(-0.3 * width, 0), "open square"
    else:
        start, end = view.at(*view.hems), view.at(view.hems[0], 0)
        half, words = (start[0], (start[1] + end[1]) / 2), "wrong side up"
        done = whip(start, half, 1.1, 1.9)
    return scene(
        (
            *view.plies(1.0),
            Stroke("sewing", tuple(done)),
            *threaded((half[0] - 5.5, half[1] + 0.5), (half[0] + 5.5, half[1] + 3.5), half),
            Words((1.0, HIGH - 3), words),
        )
    )


def _of(piece: Piece) -> Corner:
    """The corner that is drawn; hems opposite each other are alike, and so all four corners are."""
    return piece.corners.bottom_right


def _after(corner: Corner, name: str) -> float:
    """Progress at which a fold has just been made."""
    names = [fold.name for fold in corner.folds]
    return (names.index(name) + 1) / len(names)


def _out(corner: Corner) -> tuple[float, float]:
    """How far out the flat cloth goes, mm."""
    return float(corner.raw_corner[0]), float(corner.raw_corner[1])


def _hems_out(corner: Corner) -> tuple[float, float]:
    """How far out a finished hem is shown, mm: a little past its edge."""
    return 1.15 * float(corner.hems[0]), 1.15 * float(corner.hems[1])
