"""Hem stitch in its movements: fastened on, round a group in three of them, and round the corner.

Seen from the wrong side, the hem toward the worker; drawn with the work going from left to right. The
places are those of the stitch's own path, in threads.
"""

from __future__ import annotations

from collections.abc import Iterator

from hemcalc.draw.finish.scene import (
    HIGH,
    WIDE,
    Area,
    Point,
    Scene,
    Stroke,
    Words,
    arrow,
    curve,
    needle,
    scene,
)
from hemcalc.measure.words import so_many
from hemcalc.piece.piece import Piece
from hemcalc.stitch.path import hem_stitch
from hemcalc.stitch.thread import usual_bite

_EDGE = 15.0  # level of the hem's edge at the open line, mm
_KEPT = 0.45  # width that a pulled group keeps


class _Row:
    """Three groups on the open line: one worked, the one in hand, one to come."""

    def __init__(self, piece: Piece, group: int) -> None:
        edge = piece.edges_in_hand.top
        self.group, self.drawn = group, edge.drawn
        self.pitch = min(WIDE / (3.1 * group), 3.7)
        # The path in threads: along the row, and into the hem.
        path = hem_stitch(float(group), float(usual_bite(piece)), 0.4, pulled=_KEPT * group)
        self.points = {point.name: (point.x_mm, point.y_mm) for point in path.points}
        self.start = (WIDE - group * self.pitch) / 2
        # Open enough for a needle to be seen in it, however few threads are drawn.
        self.open = max(self.drawn * self.pitch, 9.0)

    def at(self, x: float, y: float) -> Point:
        """A place, in threads from where the group in hand begins and from the hem's edge into the hem."""
        return self.start + x * self.pitch, _EDGE - y * self.pitch

    def point(self, name: str, groups_on: int = 0) -> Point:
        x, y = self.points[name]
        return self.at(x + groups_on * self.group, y)

    def cloth(self) -> list[Area]:
        """The open line, beyond it the wrong side of the cloth with the design."""
        top = _EDGE + self.open
        return [
            Area("wrong", ((-1, top), (WIDE + 1, top), (WIDE + 1, HIGH + 1), (-1, HIGH + 1))),
            Area("veil", ((-1, _EDGE), (WIDE + 1, _EDGE), (WIDE + 1, top), (-1, top))),
        ]

    def hem(self) -> Area:
        """The back of the hem, where the right side of the cloth shows."""
        return Area("right", ((-1, -1), (WIDE + 1, -1), (WIDE + 1, _EDGE), (-1, _EDGE)))

    def threads(self, number: int, kept: float) -> Stroke:
        """The threads of a group, counted from the one in hand, pulled together to a share of its width."""
        middle = (number + 0.5) * self.group
        waist, top = _EDGE + 1.4, _EDGE + self.open
        lines = []
        for i in range(self.group):
            x = i + 0.5 - self.group / 2
            foot, head = self.at(middle + kept * x, 0)[0], self.at(middle + x, 0)[0]
            lines.append(((foot, _EDGE), (foot, waist), (head, top)))
        return Stroke("cloth thread", tuple(lines), 0.0)

    def round_group(self, number: int) -> Stroke:
        """The thread about a group, in front of it."""
        level = _EDGE + 1.4
        near, far = (self.point(f"{side} side, over", number)[0] for side in ("near", "far"))
        return Stroke("sewing", (((near - 0.3, level), (far + 0.3, level)),))

    def bite(self, number: int) -> Stroke:
        """The thread from where it came out of the hem, over the hem's edge and the group."""
        far = self.point("far side, over", number)[0] + 0.3
        return Stroke("sewing", ((self.point("out of the hem", number), (far, _EDGE + 1.2)),))

    def worked(self, number: int) -> list[Area | Stroke]:
        """A finished stitch."""
        return [self.threads(number, _KEPT), self.round_group(number), self.bite(number)]


def fasten_on(piece: Piece, group: int) -> Scene:
    """Two tiny stitches one over the other inside the turn, and out where the first stitch begins."""
    row = _Row(piece, group)
    out = row.point("out of the hem")
    level, x = out[1] - 1.2, out[0] + 9.0
    tiny = ((x + 4.5, level), (x, level), (x + 2.4, level + 0.7), (x, level), (out[0] + 0.8, level), out)
    return scene(
        (
            *row.cloth(),
            *(row.threads(number, 1.0) for number in (-1, 0, 1)),
            row.hem(),
            Stroke("sewing hidden", (tiny,)),
            *needle((out[0] - 12.0, out[1] - 7.4), (out[0] - 3.0, out[1] - 1.5)),
            Stroke("sewing", (curve(out, (out[0] - 0.5, out[1] + 2.0), (out[0] - 3.4, out[1] - 1.8)),)),
            Words((WIDE - 1, 2.6), "inside the turn", "right"),
        )
    )


def stitch_1(piece: Piece, group: int) -> Scene:
    """The needle behind the group, its point against the way the work goes."""
    row = _Row(piece, group)
    far, near = row.point("far side, over")[0], row.point("near side, over")[0]
    out = row.point("out of the hem")
    level = _EDGE + 0.45 * row.open
    width = 0.5 * row.group * row.pitch
    point, eye = (near - width, level + 0.8), (far + width + 3.5, level - 0.6)
    over = curve(out, (far - 1.0, _EDGE + 1.0), (far + 2.6, _EDGE + 1.6))
    loop = curve(over[-1], (eye[0] + 7.0, _EDGE - 1.0), eye)
    return scene(
        (
            *row.cloth(),
            *needle(point, eye),
            row.threads(0, 1.0),
            row.threads(1, 1.0),
            row.hem(),
            *row.worked(-1),
            Stroke("sewing", ((*over, *loop[1:]),)),
            *arrow((near - width + 4.0, HIGH - 3.5), (near - width - 4.0, HIGH - 3.5)),
            Words((near - width + 5.5, HIGH - 3.5), "behind the group"),
        )
    )


def stitch_2(piece: Piece, group: int) -> Scene:
    """The thread drawn up round the group, which is pulled together."""
    row = _Row(piece, group)
    near = row.point("near side, over")[0]
    level = _EDGE + 1.4
    end = (near - 9.0, _EDGE + row.open + 5.0)
    return scene(
        (
            *row.cloth(),
            row.threads(1, 1.0),
            row.hem(),
            *row.worked(-1),
            Stroke("sewing", (((near - 0.3, level), end),)),
            row.threads(0, _KEPT),
            row.bite(0),
            *arrow((end[0] + 3.2, end[1] - 1.5), (end[0] + 0.5, end[1] + 3.5)),
            Words((WIDE - 1, HIGH - 3.5), "pull together", "right"),
        )
    )


def stitch_3(piece: Piece, group: int) -> Scene:
    """The needle behind the hem and up through it, where the next group begins."""
    row = _Row(piece, group)
    level = _EDGE + 1.4
    near, far = (row.point(f"{side} side, over")[0] for side in ("near", "far"))
    out, deep = row.point("out of the hem"), row.point("out of the hem again")
    eye = (deep[0] + 1.5, _EDGE + row.open - 1.0)
    point = (deep[0] - 0.9, max(deep[1] - 8.0, 0.8))
    across = curve((near - 0.3, level), (far, level - 0.4), (far + 1.2, level + 0.8))
    return scene(
        (
            *row.cloth(),
            row.threads(1, 1.0),
            *needle(point, eye),
            row.hem(),
            # Out of the hem again: what lies below the hole is in front of it.
            *_in_front(point, eye, deep[1]),
            *row.worked(-1),
            row.threads(0, _KEPT),
            row.bite(0),
            Stroke("sewing", ((*across, *curve(across[-1], (eye[0] + 7, level + 1), eye)[1:]),)),
            Stroke("dimension", (((out[0] - 1, _EDGE), (out[0] - 1, out[1])), ((out[0] - 2, out[1]), out))),
            Words((1.0, 2.6), f"{so_many(usual_bite(piece), 'thread')} deep"),
        )
    )


def corner_group(piece: Piece, group: int) -> Scene:
    """The last group of a side, the thread carried past the open square to the first of the next."""
    row = _Row(piece, group)
    p = row.pitch * 0.8
    x, top = WIDE - 15.0, _EDGE + row.open
    open_to = x - row.open
    threads, crossing = [], []
    for i in range(2 * group):
        across = open_to - 0.8 - p * (i + 0.5)
        pull = across if i >= group else open_to - 0.8 - p * (group / 2 + (i + 0.5 - group / 2) * _KEPT)
        threads.append(((pull, _EDGE), (pull, _EDGE + 1.4), (across, top)))
        up = top + 0.8 + p * (i + 0.5)
        crossing.append(((open_to, up), (x, up)))
    near, far = (
        open_to - 0.8 - p * group * (1 + _KEPT) / 2 - 0.4,
        open_to - 0.8 - p * group * (1 - _KEPT) / 2 + 0.4,
    )
    bite = (open_to - 0.8 - p * group, _EDGE - 2 * p)
    caught = (x + 2.2, _EDGE - 2.2)
    return scene(
        (
            Area("wrong", ((-1, top), (open_to, top), (open_to, HIGH + 1), (-1, HIGH + 1))),
            Stroke("cloth thread", (*threads, *crossing)),
            Area("right", ((-1, _EDGE), (x, _EDGE), (WIDE, 0), (WIDE, -1), (-1, -1))),
            Area("right", ((x, _EDGE), (x, HIGH + 1), (WIDE + 1, HIGH + 1), (WIDE + 1, -1), (WIDE, 0))),
            Stroke("sewing", (((near, _EDGE + 1.4), (far, _EDGE + 1.4)), (bite, (far, _EDGE + 1.2)))),
            Stroke("sewing", (curve((far, _EDGE + 1.4), (x - 2.0, _EDGE + 0.5), caught),)),
            *needle((x + 1.2, top + 6.0), (caught[0] + 2.5, caught[1] - 6.0)),
            *arrow((x + 8.0, _EDGE + 3.0), (x + 8.0, HIGH - 4.0)),
            Words((1.0, HIGH - 3.5), "the next side"),
        )
    )


def _in_front(point: Point, eye: Point, level: float) -> Iterator[Area | Stroke]:
    """The part of a needle that is out of the hem, below a level."""
    share = (level - point[1]) / (eye[1] - point[1])
    hole = point[0] + share * (eye[0] - point[0]), level
    half = 0.5
    yield Area("needle", (point, (hole[0] + half, hole[1]), (hole[0] - half, hole[1])))
