"""Places on a picture that are taken, looked up quickly however many there are."""

from __future__ import annotations

from collections.abc import Iterator

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
