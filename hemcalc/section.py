"""The edge cut through: face, fold 1, back, fold 2 and turn, with the cloth's thickness.

A fold takes cloth, so fold 2 does not land just where the ledger, which knows no thickness,
puts it. `Section` follows the cloth's path and says how far off it lands, and how wide the
hem then is. Measured outward (x) from the open line's outer edge, toward the wrong side (y).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from hemcalc.bend import EVEN_SHEET, bend_length
from hemcalc.edge import Edge
from hemcalc.errors import HemError, shown
from hemcalc.lengths import Length, as_length

__all__ = ["Section", "Strip", "plan_section"]

_CHORDS = 24  # straight bits that a fold is drawn with


@dataclass(frozen=True, slots=True)
class Strip:
    """The part of the folded cloth that belongs to one band, in mm, outward along the cloth."""

    band: str
    #: Points of the side that is the right side of the cloth.
    right: tuple[tuple[float, float], ...]
    #: Points of the side that is the wrong side of the cloth.
    wrong: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Section:
    """The folded profile of an edge; made by `plan_section`.

    Fold 2 is sharp. Fold 1 goes round the turn, one thickness of cloth, and is sharp
    if there is no turn. Both are centred on their lines. All `_mm` are millimetres and
    floats, and have a `_threads` beside them.
    """

    edge: Edge
    thickness: Length
    neutral: float

    @property
    def thickness_mm(self) -> float:
        """Thickness of the cloth."""
        return float(self.thickness.mm)

    @property
    def arc_mm(self) -> float:
        """Cloth that a sharp fold takes, on its neutral line: π · neutral · thickness."""
        return bend_length(180, 0, self.thickness_mm, self.neutral)

    @property
    def fold_1_inside_mm(self) -> float:
        """Radius of the inside of fold 1: half the thickness of the turn that lies in it, or 0."""
        return self.thickness_mm / 2 if self.edge.turn else 0.0

    @property
    def fold_1_arc_mm(self) -> float:
        """Cloth that fold 1 takes, on its neutral line."""
        return bend_length(180, self.fold_1_inside_mm, self.thickness_mm, self.neutral)

    @property
    def landing_mm(self) -> float:
        """How far short of the open line's outer edge the neutral line of fold 2 stops.

        Formula: (π/2 - 1) · neutral · thickness, 0.285 thickness for an even sheet; the
        radius of fold 1 cancels out. Without a turn there is no fold 2, and the raw edge
        lands where the ledger says.
        """
        return (self.arc_mm / 2 - self.neutral * self.thickness_mm) if self.edge.turn else 0.0

    @property
    def landing_outer_mm(self) -> float:
        """How far past the open line's outer edge the outer face of fold 2 reaches.

        Formula: (1 - neutral · π/2) · thickness, 0.215 thickness for an even sheet.
        """
        return (self.thickness_mm - self.arc_mm / 2) if self.edge.turn else 0.0

    @property
    def finished_edge_mm(self) -> float:
        """From the open line's outer edge to the outer face of fold 1: what a ruler reads."""
        radius = self.fold_1_inside_mm + self.thickness_mm
        return float(self.edge.hem_width.mm) - self.fold_1_arc_mm / 2 + radius

    @property
    def finished_off_mm(self) -> float:
        """The finished edge less the hem's width in the ledger; negative if the hem is short."""
        return self.finished_edge_mm - float(self.edge.hem_width.mm)

    @property
    def arc_threads(self) -> float:
        """`arc_mm` in threads."""
        return self._threads(self.arc_mm)

    @property
    def landing_threads(self) -> float:
        """`landing_mm` in threads."""
        return self._threads(self.landing_mm)

    @property
    def landing_outer_threads(self) -> float:
        """`landing_outer_mm` in threads."""
        return self._threads(self.landing_outer_mm)

    @property
    def finished_edge_threads(self) -> float:
        """`finished_edge_mm` in threads."""
        return self._threads(self.finished_edge_mm)

    @property
    def finished_off_threads(self) -> float:
        """`finished_off_mm` in threads."""
        return self._threads(self.finished_off_mm)

    def _threads(self, mm: float) -> float:
        return mm * float(self.edge.count.per_mm)

    def profile(self, progress: float = 1.0) -> tuple[Strip, ...]:
        """The bands of the edge in section, from flat to folded.

        Parameters
        ----------
        progress : float
            0 is flat; at 1/2 the turn is folded, at 1 the hem. Without a turn the hem is
            folded all the way from 0 to 1.

        Returns
        -------
        tuple of Strip
            One a band, outward from the design; the open line, whose threads are drawn, too.
        """
        turned, hemmed = self._angles(min(max(float(progress), 0.0), 1.0))
        strips, start = [], -float(self.edge.width(self.edge.open_line).mm)
        for band in self.edge.bands:
            end = start + float(self.edge.width(band.threads).mm)
            path = [self._at(s, turned, hemmed) for s in self._stops(start, end)]
            strips.append(Strip(band.name, self._side(path, right=True), self._side(path, right=False)))
            start = end
        return tuple(strips)

    def _angles(self, progress: float) -> tuple[float, float]:
        """How far fold 2 and fold 1 are turned, radians."""
        if not self.edge.turn:
            return 0.0, math.pi * progress
        return math.pi * min(2 * progress, 1.0), math.pi * max(2 * progress - 1, 0.0)

    @cached_property
    def _bends(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Where the cloth bends, along its own length: fold 1 and fold 2, first and last mm."""
        hem = float(self.edge.hem_width.mm)
        one, two = self.fold_1_arc_mm / 2, (self.arc_mm / 2 if self.edge.turn else 0.0)
        return (hem - one, hem + one), (2 * hem - two, 2 * hem + two)

    def _stops(self, start: float, end: float) -> list[float]:
        """Places along a band at which the drawn cloth may change direction."""
        bends = [
            first + (last - first) * i / _CHORDS for first, last in self._bends for i in range(_CHORDS + 1)
        ]
        return [start, *(s for s in bends if start < s < end), end]

    def _at(self, s: float, turned: float, hemmed: float) -> tuple[float, float, float]:
        """Where the neutral line is after s mm of cloth from the open line, and its heading."""
        (a0, a1), (b0, b1) = self._bends
        x, y, heading = min(s, a0), 0.0, 0.0
        for first, last, until, angle in ((a0, a1, b0, hemmed), (b0, b1, math.inf, turned)):
            if s <= first:
                break
            x, y, heading = _round_bend(x, y, heading, min(s, last) - first, last - first, angle)
            straight = max(min(s, until) - last, 0.0)
            x, y = x + straight * math.cos(heading), y + straight * math.sin(heading)
        return x, y, heading

    def _side(
        self, path: list[tuple[float, float, float]], *, right: bool
    ) -> tuple[tuple[float, float], ...]:
        # Every fold turns toward the wrong side, so that one is inside, `neutral` away.
        away = (self.neutral - 1) * self.thickness_mm if right else self.neutral * self.thickness_mm
        return tuple((x - away * math.sin(heading), y + away * math.cos(heading)) for x, y, heading in path)


def plan_section(edge: Edge, thickness: Length | str, *, neutral: float = EVEN_SHEET) -> Section:
    """The section of an edge in a cloth of this thickness.

    Parameters
    ----------
    edge : Edge
        The edge, in threads.
    thickness : Length or str
        Thickness of the cloth.
    neutral : float
        Where the neutral line of a fold lies, as a share of the thickness from the inside.

    Raises
    ------
    HemError
        If the cloth is so thick that the hem is used up by its folds.

    Source
    ------
    Bends: Machinery's Handbook, 31st ed., Industrial Press, 2020 (per memory), p. 1421,
    formulas 32-34. Where the folds land: geometry, derived in a test.

    Examples
    --------
    >>> from hemcalc.edge import plan_edge
    >>> section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    >>> round(section.arc_mm, 3), round(section.landing_mm, 3), round(section.landing_outer_mm, 3)
    (0.785, 0.143, 0.107)
    >>> round(section.landing_threads, 2), round(section.landing_outer_threads, 2)
    (0.16, 0.12)
    """
    if not isinstance(edge, Edge):
        raise HemError(
            f"edge is {shown(edge)}, but must be an Edge; for example plan_edge('28/in', '3/8 in', clear=8).",
            "edge",
        )
    section = Section(edge, as_length(thickness, "thickness"), neutral)
    hem, turn = float(edge.hem_width.mm), float(edge.turn_width.mm)
    turn_arc = section.arc_mm if edge.turn else 0.0
    if hem < (section.fold_1_arc_mm + turn_arc) / 2 or turn < turn_arc / 2:
        raise HemError(
            f"thickness is {section.thickness}, and the folds would use up the hem of {edge.hem_width}; "
            "it must be a small part of the hem, for example '0.5 mm'.",
            "thickness",
        )
    return section


def _round_bend(
    x: float, y: float, heading: float, gone: float, whole: float, angle: float
) -> tuple[float, float, float]:
    """Follow an arc of `whole` mm that turns by `angle`, for the first `gone` mm of it."""
    after = heading + (angle * gone / whole if whole else angle)
    if not angle or not whole:
        return x + gone * math.cos(heading), y + gone * math.sin(heading), after
    radius = whole / angle
    return (
        x + radius * (math.sin(after) - math.sin(heading)),
        y - radius * (math.cos(after) - math.cos(heading)),
        after,
    )
