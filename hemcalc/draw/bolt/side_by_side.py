"""Cloths that are cut up side by side, at one scale, so that a reader sees what a choice saves."""

from __future__ import annotations

import math
from collections.abc import Mapping

from hemcalc.bolt.layout import Layout
from hemcalc.bolt.remnant import Yield
from hemcalc.draw.bolt.parts import whole
from hemcalc.draw.bolt.picture import WIDE, BoltPicture, as_cloth, bolt_alt
from hemcalc.draw.look import type_size
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.units import UNITS

_MAX_CLOTHS = 3
_GUTTER = 0.2  # inches between two


def draw_bolts(cloths: Mapping[str, Layout | Yield], unit: str = "in", size: str = "page") -> Still:
    """Two or three bolts or remnants side by side at one scale, each under its name.

    Each is from `cut_from_bolt` or `have_from_remnant`. Lengths are in ``"in"``, ``"cm"`` or ``"mm"``, and
    its type is for a ``"page"`` or a ``"projector"``.

    Examples
    --------
    >>> from hemcalc.bolt.buying import cut_from_bolt
    >>> ways = {turn: cut_from_bolt([("mat", "50 cm", "70 cm", 4)], "140 cm", grain=turn)
    ...         for turn in ("fixed", "free")}
    >>> draw_bolts(ways, "cm").alt[:70]
    'Side by side. Fixed: Buy 140 cm: the pieces take 140 cm of a bolt 140 '
    """
    if not isinstance(cloths, Mapping) or not 2 <= len(cloths) <= _MAX_CLOTHS:
        raise HemError(
            f"The cloths to draw are {shown(cloths)}, but must be two or three by their names; "
            "for example {'upright': one_layout, 'turned': another}.",
            "cloths",
        )
    one_of(unit, UNITS, "unit")
    looks, parts = type_size(size), {str(name): whole(as_cloth(cloth)) for name, cloth in cloths.items()}
    width, head = WIDE / len(parts) - _GUTTER, 2 * looks.text / 72
    trial = BoltPicture(Sheet(width, 1, dpi=150, size=looks), (0, 0, 1, 1), 0)
    height = max(trial.least(part, unit) for part in parts.values())
    trial.height, up = 72 * height, height / (height + head)
    scale = min((trial.placed(part, unit).scale for part in parts.values()), default=math.inf)
    sheet = Sheet(WIDE, height + head, dpi=150, size=looks)
    for at, (name, part) in enumerate(parts.items()):
        left = (at + _GUTTER / 2 / (width + _GUTTER)) / len(parts)
        strip = sheet.axes((left, up, width / WIDE, 1 - up), (0, 72 * width), (0, 72 * head))
        Labels(sheet, strip, 1).show([Label(0, 36 * head, name, "left", bold=True)])
        picture = BoltPicture(
            sheet, (left, 0, width / WIDE, up), len(part.cloth.pieces) + len(part.cloth.cuts)
        )
        picture.show(part, unit, scale)
    said = (f"{name[:1].upper()}{name[1:]}: {bolt_alt(cloth, unit)}" for name, cloth in cloths.items())
    return Still(sheet, f"Side by side. {' '.join(said)}")
