"""How the figures look: one look a band, one kind of line a meaning, two sizes of type.

Bands differ in lightness and pattern first and in colour second, so that they are told apart
in grey and by every kind of eye. The colours are those of Okabe and Ito, some lightened.
Nothing here touches matplotlib's own settings.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hemcalc.measure.errors import one_of

INK = "#1a1a1a"
PAPER = "#ffffff"


@dataclass(frozen=True, slots=True)
class BandLook:
    """Fill and pattern of a band of cloth."""

    fill: str
    hatch: str = ""

    @property
    def patch(self) -> dict[str, Any]:
        """How matplotlib is to draw a patch of it: one hatch width everywhere."""
        return {
            "facecolor": self.fill,
            "hatch": self.hatch,
            "edgecolor": INK,
            "linewidth": 0.8,
            "hatch_linewidth": 0.5,
        }


@dataclass(frozen=True, slots=True)
class LineLook:
    """Width in points and dashes of a kind of line."""

    width: float
    dashes: tuple[float, ...] = ()
    colour: str = INK

    @property
    def line(self) -> dict[str, Any]:
        """How matplotlib is to draw a line of it, or several."""
        return {
            "color": self.colour,
            "linewidth": self.width,
            "linestyle": self.style if self.dashes else "-",
        }

    @property
    def style(self) -> tuple[float, Any]:
        """The dashes as matplotlib takes them."""
        return 0.0, self.dashes or None


@dataclass(frozen=True, slots=True)
class TypeSize:
    """Sizes of type in points."""

    name: str
    text: float
    small: float


#: A band looks the same in every figure.
BANDS = {
    "design": BandLook("#8c8c8c"),
    "clear": BandLook("#e6dfcf"),
    "drawn": BandLook("#ffffff"),
    "face": BandLook("#7fb4dc"),
    "back": BandLook("#f6d9a8", "///"),
    "turn": BandLook("#3f9f83", "..."),
    "handling": BandLook("#ffffff", "---"),
}

#: The two sides of the cloth, where a figure shows them: the wrong side is patterned.
CLOTH_SIDES = {"right": BandLook("#9cc6e6"), "wrong": BandLook("#f8ecd4", "...")}

#: So many layers of cloth, light to dark; the last stands for more.
LAYERS = {
    0: BandLook("#ffffff", "oo"),
    1: BandLook("#ffffff"),
    2: BandLook("#fdf3d8", "..."),
    3: BandLook("#f6d9a8", "\\\\"),
    4: BandLook("#bcd9ec"),
    5: BandLook("#9cc6e6", "|||"),
    6: BandLook("#7fb4dc", "///"),
    7: BandLook("#5f9fd0", "xxx"),
    8: BandLook("#4a8cc0", "---"),
    9: BandLook("#3d78a8", "+++"),
    10: BandLook("#3d78a8", "OO"),
}

#: Sizes of piece on a cloth that is cut up, in turn; beyond so many they come again.
PIECES = (BandLook("#9cc6e6"), BandLook("#fdf3d8"), BandLook("#6fb09b"), BandLook("#d9d9d9"))
#: What no piece is cut from.
OFFCUT = BandLook("#ffffff", "////")

#: Wide to narrow 2 : 1; each kind of line means one thing.
LINES = {
    "edge": LineLook(1.6),
    "basted": LineLook(1.6, (3.0, 2.0)),
    "fold": LineLook(1.2, (7.0, 2.0, 1.5, 2.0)),
    "cut": LineLook(1.6, (9.0, 3.0)),
    "cut within": LineLook(0.8, (4.0, 1.5)),
    "hidden": LineLook(0.8, (2.0, 2.0)),
    "dimension": LineLook(0.8),
    "thread": LineLook(0.6, (), "#4d4d4d"),
}

#: Type for a page and for the back of a hall.
TYPE = {"page": TypeSize("page", 9.0, 8.0), "projector": TypeSize("projector", 13.0, 11.5)}


def type_size(name: str) -> TypeSize:
    """The type of a name.

    Examples
    --------
    >>> type_size("projector").text
    13.0
    """
    return TYPE[one_of(name, tuple(TYPE), "type size")]
