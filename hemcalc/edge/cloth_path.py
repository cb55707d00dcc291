"""The way that a strip of cloth, with its thickness, takes round the folds of a hem.

The cloth is followed outward along its neutral line, which keeps its length, round fold 1
and fold 2, each turned so far. Right and wrong side lie beside the neutral line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

#: A line of points, mm.
Points = tuple[tuple[float, float], ...]
#: Where a bend begins and ends, mm along the neutral line.
Bend = tuple[float, float]
#: A place of the neutral line: x, y, heading, and the room that there is on the right side.
_Place = tuple[float, float, float, float]

_CHORDS = 24  # straight bits that a fold is drawn with


@dataclass(frozen=True, slots=True)
class ClothPath:
    """The path of an edge's cloth, in mm from the open line's outer edge.

    Every fold turns toward the wrong side, so that the wrong side lies inside it.
    """

    fold_1: Bend
    fold_2: Bend
    thickness: float
    #: Where the neutral line lies, as a share of the thickness from the wrong side.
    neutral: float

    def sides(self, start: float, end: float, hemmed: float, turned: float) -> tuple[Points, Points]:
        """The right and the wrong side of the cloth from `start` to `end`, mm along it.

        Fold 1 and fold 2 are turned by the angles `hemmed` and `turned`, in radians.

        Examples
        --------
        >>> path = ClothPath(fold_1=(10, 12), fold_2=(20, 21), thickness=0.5, neutral=0.5)
        >>> path.sides(0, 8, hemmed=0, turned=0)
        (((0.0, -0.25), (8.0, -0.25)), ((0.0, 0.25), (8.0, 0.25)))
        """
        places = [self._place(s, hemmed, turned) for s in self._stops(start, end)]
        inner, outer = self.neutral * self.thickness, (1 - self.neutral) * self.thickness
        right = tuple(_beside(place, -min(outer, place[3])) for place in places)
        return right, tuple(_beside(place, inner) for place in places)

    @property
    def _overlaps_fold_1(self) -> float:
        """Where cloth behind fold 2, turned back, would come to lie in fold 1."""
        return self.fold_2[1] + self.fold_2[0] - self.fold_1[1]

    def _stops(self, start: float, end: float) -> list[float]:
        """Places at which the drawn cloth may change direction."""
        inside = self._overlaps_fold_1
        bends = (self.fold_1, self.fold_2, (inside, inside + (self.fold_1[1] - self.fold_1[0]) / 2))
        stops = [first + (last - first) * i / _CHORDS for first, last in bends for i in range(_CHORDS + 1)]
        return [start, *(s for s in stops if start < s < end), end]

    def _place(self, s: float, hemmed: float, turned: float) -> _Place:
        x, y, heading = float(min(s, self.fold_1[0])), 0.0, 0.0
        for (first, last), until, angle in (
            (self.fold_1, self.fold_2[0], hemmed),
            (self.fold_2, math.inf, turned),
        ):
            if s <= first:
                break
            x, y, heading = _round_bend(x, y, heading, min(s, last) - first, last - first, angle)
            straight = max(min(s, until) - last, 0.0)
            x, y = x + straight * math.cos(heading), y + straight * math.sin(heading)
        inside = s - self._overlaps_fold_1
        if hemmed and inside > 0:
            back = x - inside * math.cos(heading), y - inside * math.sin(heading)
            return self._squeezed(*back, heading, inside, hemmed)
        return x, y, heading, math.inf

    def _squeezed(self, x: float, y: float, heading: float, inside: float, hemmed: float) -> _Place:
        """A place `inside` mm into fold 1, which bends the turn along, close to the back."""
        arc = self.fold_1[1] - self.fold_1[0]
        radius = arc / hemmed - 2 * self.neutral * self.thickness
        angle = hemmed * inside / arc
        return *_round_bend(x, y, heading, radius * angle, radius * angle, -angle), radius


def _beside(place: _Place, away: float) -> tuple[float, float]:
    x, y, heading, _ = place
    return x - away * math.sin(heading), y + away * math.cos(heading)


def _round_bend(
    x: float, y: float, heading: float, gone: float, whole: float, angle: float
) -> tuple[float, float, float]:
    """Follow an arc of `whole` mm that turns by `angle`, for the first `gone` mm of it."""
    after = heading + (angle * gone / whole if whole else angle)
    # An angle too small to see would make a radius too large for a float; then all before it is flat, too.
    if abs(angle) < 1e-12 or not whole:
        return x + gone, y, after
    radius = whole / angle
    return (
        x + radius * (math.sin(after) - math.sin(heading)),
        y - radius * (math.cos(after) - math.cos(heading)),
        after,
    )
