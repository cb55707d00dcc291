"""The edge cut through: face, fold 1, back, fold 2 and turn, with the cloth's thickness.

A fold takes cloth, so fold 2 does not land just where the ledger, which knows no thickness,
puts it. `Section` follows the cloth's path and says how far off it lands, and how wide the
hem then is. Measured outward (x) from the open line's outer edge, toward the wrong side (y).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from hemcalc.edge.bend import EVEN_SHEET, bend_length
from hemcalc.edge.cloth_path import ClothPath, Points
from hemcalc.edge.ledger import EDGE_EXAMPLE, Edge
from hemcalc.measure.errors import HemError, of_type
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import finite_number
from hemcalc.measure.words import threads_said


@dataclass(frozen=True, slots=True)
class Strip:
    """The part of the folded cloth that belongs to one band, in mm, outward along the cloth."""

    band: str
    #: Points of the side that is the right side of the cloth.
    right: Points
    #: Points of the side that is the wrong side of the cloth.
    wrong: Points


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

    def __repr__(self) -> str:
        edge, off = self.edge, self.finished_off_mm
        return (
            f"Section(hem of {threads_said(edge.hem)}, cloth {self.thickness:mm} thick: fold 2 stops "
            f"{self.landing_mm:.2f} mm short, hem {abs(off):.2f} mm {'wider' if off >= 0 else 'narrower'})"
        )

    def _repr_html_(self) -> str:
        """What the folds take and where they land, in millimetres and in threads."""
        names = {
            "cloth that a sharp fold takes": self.arc_mm,
            "fold 2, its middle: short of the open line": self.landing_mm,
            "fold 2, its outer face: past the open line": self.landing_outer_mm,
            "finished edge, from the open line": self.finished_edge_mm,
            "finished edge less the ledger's hem": self.finished_off_mm,
        }
        rows = (
            [name, f"{mm:.2f}".replace("-", "−"), f"{self._threads(mm):.2f}".replace("-", "−")]
            for name, mm in names.items()
        )
        caption = f"Hem of {threads_said(self.edge.hem)} in cloth {self.thickness:mm} thick"
        return table_html(["where the folds land", "mm", "threads"], rows, caption)

    @property
    def thickness_mm(self) -> float:
        """Thickness of the cloth."""
        return float(self.thickness.mm)

    @property
    def thickest_mm(self) -> float:
        """The thickest cloth that this hem can be folded in: no fold takes cloth of another."""
        hem, turn = float(self.edge.hem_width.mm), float(self.edge.turn_width.mm)
        each = math.pi * self.neutral / 2  # cloth that half a sharp fold takes, in thicknesses
        if not turn:
            return hem / each
        return min(hem / (math.pi / 4 + 2 * each), turn / each)

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
    def squeezed_mm(self) -> float:
        """How much of the turn lies in fold 1 itself, where there is no room for it; 0 as a rule.

        Formula: turn - hem + half the cloth that fold 1 takes, if that is more than 0.
        """
        return max(float(self.edge.turn_width.mm) - self._path.fold_1[0], 0.0)

    @property
    def notes(self) -> tuple[str, ...]:
        """What the reader should know of this section, in sentences."""
        if not self.squeezed_mm:
            return ()
        return (
            f"The turn reaches {self.squeezed_mm:.2g} mm into fold 1, where it is squeezed and adds bulk; "
            f"it would lie flat up to {self._path.fold_1[0]:.1f} mm wide.",
        )

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

        There is one a band; the open line, whose threads are drawn, has one, too.

        Parameters
        ----------
        progress : float
            0 is flat; at 1/2 the turn is folded, at 1 the hem. Without a turn the hem is
            folded all the way from 0 to 1.
        """
        turned, hemmed = self._angles(min(max(finite_number(progress, "progress"), 0.0), 1.0))
        path = self._path
        strips, start = [], -float(self.edge.width(self.edge.open_line).mm)
        for band in self.edge.bands:
            end = start + float(self.edge.width(band.threads).mm)
            strips.append(Strip(band.name, *path.sides(start, end, hemmed, turned)))
            start = end
        return tuple(strips)

    def _angles(self, progress: float) -> tuple[float, float]:
        """How far fold 2 and fold 1 are turned, radians."""
        if not self.edge.turn:
            return 0.0, math.pi * progress
        return math.pi * min(2 * progress, 1.0), math.pi * max(2 * progress - 1, 0.0)

    @property
    def _path(self) -> ClothPath:
        hem = float(self.edge.hem_width.mm)
        one, two = self.fold_1_arc_mm / 2, (self.arc_mm / 2 if self.edge.turn else 0.0)
        return ClothPath(
            (hem - one, hem + one), (2 * hem - two, 2 * hem + two), self.thickness_mm, self.neutral
        )


def plan_section(edge: Edge, thickness: Length | str, *, neutral: float = EVEN_SHEET) -> Section:
    """The section of an edge in a cloth of this thickness.

    Refused if the cloth is so thick that the hem is used up by its folds.

    Parameters
    ----------
    edge : Edge
        The edge, in threads.
    thickness : Length or str
        Thickness of the cloth.
    neutral : float
        Where the neutral line of a fold lies, as a share of the thickness from the inside.

    Source
    ------
    Bends: Machinery's Handbook, 31st ed., E. Oberg and others, 2020 (per memory), p. 1421,
    formulas 32-34. Where the folds land: geometry, derived in a test.

    Examples
    --------
    >>> from hemcalc.edge.ledger import plan_edge
    >>> section = plan_section(plan_edge("28/in", 16, clear=8), "0.5 mm")
    >>> round(section.arc_mm, 3), round(section.landing_mm, 3), round(section.landing_outer_mm, 3)
    (0.785, 0.143, 0.107)
    >>> round(section.landing_threads, 2), round(section.landing_outer_threads, 2)
    (0.16, 0.12)
    """
    of_type(edge, Edge, "edge", EDGE_EXAMPLE)
    share = finite_number(neutral, "neutral", least=0, most=1, above=True, example=EVEN_SHEET)
    section = Section(edge, as_length(thickness, "thickness"), share)
    most = section.thickest_mm
    if section.thickness_mm > most:
        raise HemError(
            f"thickness is {section.thickness}, but so narrow a hem takes a cloth of "
            f"{int(100 * most) / 100:.2f} mm at most, or its folds would use it up; "
            f"for example '{most / 2:.3f} mm'.",
            "thickness",
        )
    return section
