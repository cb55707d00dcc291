"""What a person types of a piece in a box or in a spreadsheet's cell, and what stands there of it again."""

from __future__ import annotations

import re
from fractions import Fraction

from hemcalc.measure.counts import Count, MeasuredCount
from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.exact import decimal_text, mixed_text
from hemcalc.measure.lengths import Length
from hemcalc.measure.readings import SURE
from hemcalc.measure.units import UNITS
from hemcalc.piece.form import count_kept, length_kept
from hemcalc.piece.piece import Piece

#: A piece's inputs that are a size, in threads or as the words of a length.
SIZES = ("hem", "turn", "handling", "allowance", "eye")

_BETWEEN = re.compile(r"\s*(?:,\s|;|\band\b)\s*")
_THREADS = re.compile(r"(?:[0-9]{1,9})(?:\s*threads?)?", re.IGNORECASE)


def read_count(text: str, about: str = "count") -> Count:
    """A count as a shop says it, or a person's own readings with the length of her ruler.

    Examples
    --------
    >>> read_count("28/in")
    Count(28/in)
    >>> read_count("112, 113, 112 1/2 over 4 in").readings
    (Fraction(112, 1), Fraction(113, 1), Fraction(225, 2))
    """
    of_type(text, str, about, "'28/in'")
    readings, over, ruler = text.partition(" over ")
    try:
        if not over:
            return Count(text.strip())
        length, _, sure = ruler.partition(" at ")
        return Count.measured(_BETWEEN.split(readings.strip()), length.strip(), sure.strip() or SURE)
    except HemError as error:
        raise HemError(str(error), about) from None


def typed_count(count: Count) -> str:
    """The count as `read_count` reads it, exact.

    Examples
    --------
    >>> typed_count(Count("27.5/in")), typed_count(Count.measured([28, "28 1/2"], "1 in"))
    ('27.5/in', '28, 28 1/2 over 1 in')
    """
    if not isinstance(count, MeasuredCount):
        figure, over = decimal_text(count.threads), length_kept(count.over).removeprefix("1 ")
        plain = Fraction(figure) == count.threads and over in UNITS
        return f"{figure}/{over}" if plain else str(count_kept(count))
    readings = ", ".join(mixed_text(reading) for reading in count.readings)
    sure = "" if count.confidence == SURE else f" at {count.confidence}"
    return f"{readings} over {typed_length(count.over)}{sure}"


def typed_length(length: Length) -> str:
    """The length as it is typed, exact: cm and mm in decimals, where they end.

    Examples
    --------
    >>> typed_length(Length("0.4 mm")), typed_length(Length("1 1/2 in")), typed_length(Length("1/3 cm"))
    ('0.4 mm', '1 1/2 in', '1/3 cm')
    """
    figure, unit = length_kept(length).split(" ")
    exact = Fraction(figure)
    decimals = decimal_text(exact)
    if unit == "in" or Fraction(decimals) != exact:
        return f"{mixed_text(exact)} {unit}"
    return f"{decimals} {unit}"


def read_whole(text: str, about: str, *, digits: int = 9, example: int = 12) -> int:
    """A whole number, of so many digits at the most.

    Examples
    --------
    >>> read_whole("12", "over")
    12
    """
    if not (text.isascii() and text.isdecimal() and len(text) <= digits):
        raise HemError(f"{about} is {shown(text)}, but must be a whole number; for example {example}.", about)
    return int(text)


def read_size(text: str) -> int | str:
    """A size as threads if it is a whole number, with or without the word; else the words of a length.

    Examples
    --------
    >>> read_size("11"), read_size("11 threads"), read_size("3/8 in")
    (11, 11, '3/8 in')
    """
    text = of_type(text, str, "size", "'3/8 in'").strip()
    return int(re.split(r"\D", text)[0]) if _THREADS.fullmatch(text) else text


def typed_size(size: int | str | Length | None) -> str:
    """A size as `read_size` reads it, exact; empty if there is none."""
    if size is None:
        return ""
    return typed_length(size) if isinstance(size, Length) else str(size)


def typed_piece(piece: Piece) -> dict[str, str]:
    """What is typed of a piece, by its input; without cloth and clear bands, which each form has its way for.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> typed_piece(example("coaster"))["hem"]
    '3/8 in'
    """
    return {
        "design across": str(piece.design[0]),
        "design down": str(piece.design[1]),
        "drawn": str(piece.drawn),
        "corner": piece.corner,
        "through": piece.through,
        **{name: typed_size(getattr(piece, name)) for name in SIZES},
    }


def typed_share(share: Fraction) -> str:
    """A share in per cent, exact; empty of none.

    Examples
    --------
    >>> typed_share(Fraction(2, 25)), typed_share(Fraction(1, 30)), typed_share(Fraction(0))
    ('8 %', '10/3 %', '')
    """
    return f"{share * 100} %" if share else ""
