"""A piece kept in a file, and had back as it was.

The file is JSON (ECMA-404, RFC 8259) in UTF-8; `hemcalc.piece.form` says which fields it has,
and the JSON Schema in `data/piece.schema.json` says so to other programs. A field that is there
twice, a number that is not whole, and what is no JSON by its standard (NaN) are refused.
"""

from __future__ import annotations

import json
import os
from typing import Any, NoReturn

from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.files import file_name, read_file, write_file
from hemcalc.piece.form import document_of, piece_of
from hemcalc.piece.piece import Piece

#: Bytes that a file may have; a piece takes some 600, and 24 readings of its count 500 more.
LARGEST_FILE = 65_536


def save_piece(piece: Piece, path: str | os.PathLike[str], *, replace: bool = False) -> None:
    """Keep a piece in a file, all of it and exactly.

    The file is written whole or not at all: until it is complete, what was there stays.

    Its folder must be there; a file of this name is written over only if `replace` is said.

    Examples
    --------
    >>> import tempfile
    >>> from pathlib import Path
    >>> from hemcalc.measure.fabric import Fabric
    >>> coaster = Piece(Fabric("28/in", washed=True), (112, 112), hem="3/8 in", clear=4)
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     save_piece(coaster, Path(folder, "coaster.json"))
    ...     load_piece(Path(folder, "coaster.json")) == coaster
    True
    """
    of_type(piece, Piece, "piece", "example('coaster')")
    content = (json.dumps(document_of(piece), indent=2, ensure_ascii=False) + "\n").encode()
    if len(content) > LARGEST_FILE:
        raise HemError(
            f"This piece takes more than the {LARGEST_FILE:,} bytes that a file may have, as one does whose "
            "count has thousands of readings; for example give the count's mean, '28/in'.",
            "piece",
        )
    write_file(path, content, replace=replace)


def load_piece(path: str | os.PathLike[str]) -> Piece:
    """The piece that a file keeps.

    Refused if there is no such file, it is not of this form or of a newer version, or what it says can't be
    made.
    """
    content = read_file(path, most=LARGEST_FILE)
    name = shown(os.path.basename(file_name(path)))
    try:
        return piece_of(_parsed(content))
    except HemError as error:
        said = f"In {name}: {error}"
        raise HemError(said if len(said) <= 400 else str(error), error.about or "path") from None


def _parsed(content: bytes) -> Any:
    try:
        text = content.decode("utf-8-sig")  # some editors put a mark in front
    except UnicodeDecodeError:
        raise HemError("It is no text in UTF-8, but must be a file that save_piece wrote.", "path") from None
    try:
        return json.loads(
            text,
            object_pairs_hook=_object,
            parse_int=_whole,
            parse_float=_refuse_figure,
            parse_constant=_refuse_figure,
        )
    except HemError:
        raise
    except json.JSONDecodeError as error:
        raise HemError(
            f"It breaks off or is misspelt as JSON at line {error.lineno}, character {error.colno}, but must "
            "be a whole file as save_piece writes it; for example save the piece again.",
            "path",
        ) from None
    except RecursionError:
        raise HemError(
            "Its brackets are nested far too deep for a piece, but it must be a file that save_piece wrote.",
            "path",
        ) from None


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    fields = dict(pairs)
    if len(fields) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise HemError(f"The field {shown(twice)} is there twice, but must be there once.", "path")
    return fields


def _whole(figures: str) -> int:
    if len(figures) > 12:
        raise HemError(
            f"A number of {len(figures)} figures is too large, since all are threads; for example 16.", "path"
        )
    return int(figures)


def _refuse_figure(figure: str) -> NoReturn:
    raise HemError(
        f"The number {shown(figure)[1:-1]} is no whole one, but lengths and shares are exact, as text; for "
        'example "3/8 in" or "2/25".',
        "path",
    )
