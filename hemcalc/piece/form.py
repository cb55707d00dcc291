"""The form in which a piece is kept: all that it holds as fields, whole numbers and text.

The file is JSON (ECMA-404, RFC 8259) in UTF-8, described by the JSON Schema in
`data/piece.schema.json`, with these fields, all of which must be there unless it is said:

- ``format``: ``"hemcalc piece"``; ``version``: 2, the version of this form; 1 lacked `eye` and `through`.
- ``fabric``: ``warp`` and ``weft``, each a count as text (``"28/in"``, ``"55/2 per in"``) or, if it
  was measured, ``{"readings": ["28", "57/2"], "over": "1 in", "confidence": "19/20"}``, 19/20 if the
  last is left out; ``thickness``, a length as text or null; ``shrink_warp`` and ``shrink_weft``,
  shares as text (``"2/25"``); ``washed``, true or false.
- ``design``: two whole numbers, threads across and down; ``clear``: threads ``left``, ``right``,
  ``top`` and ``bottom``; ``drawn``: threads.
- ``hem``, ``turn``, ``handling`` and ``allowance``: a whole number is threads; a text is a length
  in the words in which it was asked for; ``{"length": "127/140 mm"}`` is one that was reckoned;
  null for `turn` and `allowance` is what is taken if nothing is said.
- ``eye``: a length in the same forms; ``same``, ``corner`` and ``through``: words, as for a `Piece`.

Numbers that need not be whole are text, so that no computer rounds them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from hemcalc.measure.counts import Count, MeasuredCount
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.exact import LONGEST_TEXT
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.readings import SURE
from hemcalc.measure.units import MILLIMETRES, UNITS
from hemcalc.measure.words import listed
from hemcalc.piece.piece import EYE, THROUGH, Piece
from hemcalc.piece.sides import Sides

#: What a file says that it is.
FORMAT = "hemcalc piece"
#: The version of the form that is written, and the newest that is read.
VERSION = 2
#: The fields of a file, by the object that they belong to.
FIELDS: Mapping[str, tuple[str, ...]] = {
    "piece": (
        *("format", "version", "fabric", "design", "hem", "clear", "drawn", "turn", "handling"),
        *("same", "corner", "allowance", "eye", "through"),
    ),
    "fabric": ("warp", "weft", "thickness", "shrink_warp", "shrink_weft", "washed"),
    "clear": ("left", "right", "top", "bottom"),
    "count": ("readings", "over", "confidence"),
    "reckoned length": ("length",),
}

_DIGITS = 700  # of a number's upper or lower part; a Length's finest has 617 below its line
_FRACTION = rf"([0-9]{{1,{_DIGITS}}})(?:/([0-9]{{1,{_DIGITS}}}))?"
_LONG_LENGTH = re.compile(rf"{_FRACTION} ({'|'.join(UNITS)})")
_LONG_COUNT = re.compile(rf"({_FRACTION}) per (.+)")


def document_of(piece: Piece) -> dict[str, Any]:
    """The piece as a document of this form; refused if it has a number of thousands of digits.

    Examples
    --------
    >>> document = document_of(Piece(Fabric("28/in"), (112, 112), hem="3/8 in", clear=4))
    >>> document["fabric"]["warp"], document["hem"], document["design"]
    ('28/in', '3/8 in', [112, 112])
    """
    cloth = piece.fabric
    return {
        "format": FORMAT,
        "version": VERSION,
        "fabric": {
            "warp": count_kept(cloth.warp),
            "weft": count_kept(cloth.weft),
            "thickness": None if cloth.thickness is None else length_kept(cloth.thickness),
            "shrink_warp": _fraction_text(cloth.shrink_warp),
            "shrink_weft": _fraction_text(cloth.shrink_weft),
            "washed": cloth.washed,
        },
        "design": list(piece.design),
        "hem": _asked_kept(piece.hem),
        "clear": {side: getattr(piece.clear, side) for side in FIELDS["clear"]},
        "drawn": int(piece.drawn),
        "turn": _asked_kept(piece.turn),
        "handling": _asked_kept(piece.handling),
        "same": piece.same,
        "corner": piece.corner,
        "allowance": _asked_kept(piece.allowance),
        "eye": _asked_kept(piece.eye),
        "through": piece.through,
    }


def piece_of(document: Any) -> Piece:
    """The piece that a document of this form describes.

    Examples
    --------
    >>> coaster = Piece(Fabric("28/in"), (112, 112), hem="3/8 in", clear=4)
    >>> piece_of(document_of(coaster)) == coaster
    True
    """
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise HemError(f'It is no piece, but must have the field "format": "{FORMAT}".', "path")
    version = document.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise HemError(f"version is {shown(version)}, but must be {VERSION}.", "version")
    if version > VERSION:
        raise HemError(
            f"It is of version {version}, from a newer hemcalc than this one, which reads {VERSION}; install "
            "the newer one to read it.",
            "version",
        )
    # A piece kept before its needle's eye and its stitch could be chosen doesn't say them.
    held = _fields(({"eye": EYE, "through": THROUGH[0]} if version == 1 else {}) | document, "piece")
    cloth = _fields(held["fabric"], "fabric")
    clear = _fields(held["clear"], "clear")
    thickness = cloth["thickness"]
    return Piece(
        Fabric(
            _count(cloth["warp"], "warp"),
            _count(cloth["weft"], "weft"),
            None if thickness is None else _length(thickness, "thickness"),
            _share(cloth["shrink_warp"], "shrink_warp"),
            _share(cloth["shrink_weft"], "shrink_weft"),
            cloth["washed"],
        ),
        held["design"],
        clear=Sides(*(clear[side] for side in FIELDS["clear"])),
        drawn=held["drawn"],
        **{name: _asked(held[name], name) for name in ("hem", "turn", "handling", "allowance", "eye")},
        same=held["same"],
        corner=held["corner"],
        through=held["through"],
    )


# Writing


def _asked_kept(asked: int | str | Length | None) -> Any:
    """Threads, the words of a length, or a reckoned length, so that each comes back as it was."""
    if isinstance(asked, Length):
        return {"length": length_kept(asked)}
    return asked if asked is None or isinstance(asked, str) else int(asked)


def count_kept(count: Count) -> Any:
    """The count as it is kept: exact text, or a measured one's readings."""
    if isinstance(count, MeasuredCount):
        readings = [_fraction_text(reading) for reading in count.readings]
        sure = _fraction_text(count.confidence)
        return {"readings": readings, "over": length_kept(count.over), "confidence": sure}
    threads, over = _fraction_text(count.threads), length_kept(count.over)
    if over in ("1 in", "1 cm", "1 mm"):
        over = over.removeprefix("1 ")
        if count.threads.denominator == 1:
            return f"{threads}/{over}"
    return f"{threads} per {over}"


def length_kept(length: Length) -> str:
    """The length, exact, in the unit in which it is shortest to say; in mm if that is no matter."""
    said = [f"{_fraction_text(length.mm / MILLIMETRES[unit])} {unit}" for unit in reversed(UNITS)]
    return min(said, key=len)


def _fraction_text(number: Fraction) -> str:
    # Python itself refuses to print longer ones, in a sentence that would mean nothing here.
    if max(number.numerator.bit_length(), number.denominator.bit_length()) > 3 * _DIGITS:
        raise HemError(
            "This piece has a number too finely divided to be kept; for example give the count as '28/in'.",
            "piece",
        )
    return str(number)


# Reading


def _fields(held: Any, what: str, about: str = "") -> dict[str, Any]:
    """An object's fields, if they are the ones of its kind."""
    about = about or what
    known = FIELDS[what]
    if not isinstance(held, dict):
        raise HemError(f"{about} is {shown(held)}, but must be the fields {listed(known)}.", about)
    if unknown := [name for name in held if name not in known]:
        raise HemError(
            f"{about} has the field {shown(unknown[0])}, which is not known, but may have {listed(known)}.",
            about,
        )
    if missing := [name for name in known if name not in held]:
        raise HemError(f"{about} lacks the field {missing[0]}, but must have {listed(known)}.", about)
    return held


def _asked(held: Any, about: str) -> Any:
    return (
        _length(_fields(held, "reckoned length", about)["length"], about) if isinstance(held, dict) else held
    )


def _count(held: Any, about: str) -> Any:
    if isinstance(held, dict):
        # A piece kept before the confidence could be chosen doesn't say it.
        fields = _fields({"confidence": str(SURE), **held}, "count", about)
        listed = fields["readings"]
        readings = [_number(each) for each in listed] if isinstance(listed, list) else listed
        return Count.measured(readings, _length(fields["over"], "over"), fields["confidence"])
    if isinstance(held, str) and len(held) > LONGEST_TEXT and (match := _LONG_COUNT.fullmatch(held)):
        threads, _, _, over = match.groups()
        return Count(_number(threads), Length(MILLIMETRES[over]) if over in UNITS else _length(over, about))
    return held


def _length(held: Any, about: str) -> Length:
    """The length that a text says, the long fractions among them that nobody would type."""
    if isinstance(held, str) and (match := _LONG_LENGTH.fullmatch(held)):
        top, bottom, unit = match.groups()
        if int(bottom or 1):
            return Length(Fraction(int(top), int(bottom or 1)) * MILLIMETRES[unit])
    return as_length(held, about, size=False)


def _share(held: Any, about: str) -> Any:
    if not isinstance(held, str):
        raise HemError(f'{about} is {shown(held)}, but must be a share as text; for example "2/25".', about)
    return _number(held)


def _number(held: Any) -> Any:
    """A fraction as text, however long, as a number; anything else as it is, for others to judge."""
    if isinstance(held, str) and (match := re.fullmatch(_FRACTION, held)) and int(match[2] or 1):
        return Fraction(int(match[1]), int(match[2] or 1))
    return held
