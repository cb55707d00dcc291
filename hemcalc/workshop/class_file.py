"""A class in a file that a spreadsheet opens: read, with all that is wrong at once, and written.

The class is what its leader types: learners, hands, pieces, linens, goods and prices. What is
worked out from that (lengths to buy, pieces that were turned to save cloth) is not in the file.
"""

from __future__ import annotations

import os

from hemcalc.bolt.allowances import usual_allowances
from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.files import read_file
from hemcalc.measure.lengths import Length
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES
from hemcalc.piece.typed import typed_count, typed_length, typed_piece, typed_share
from hemcalc.workshop.class_read import class_of
from hemcalc.workshop.class_table import Line, Tables, tables_of
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.goods import Goods
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.linen import Linen
from hemcalc.workshop.money import money_text
from hemcalc.workshop.spreadsheet import SEPARATORS
from hemcalc.workshop.workshop import Workshop

#: Bytes that a file may have.
LARGEST = 1_000_000
_REMARKS = {
    "class": "An invented class, to be changed into yours. A line that begins with # is not read.",
    "linen": "Price: of one length as sold, or 31.00 per metre. Counted: raw or washed.",
    "goods": "Each: a length of thread, or how many are in a packet.",
    "piece": "Hem: a width (3/8 in, 1 cm), or threads (11). All else in threads.",
    "learner": "A row for each piece that somebody works; its piece, linen and goods stand above.",
}


def read_class(source: str | os.PathLike[str]) -> Workshop:
    """The class that a CSV file has in it, or such a text itself.

    Parameters
    ----------
    source : str or Path
        The file's name; or the text, which has line breaks in it.

    Raises
    ------
    ClassErrors
        If something is wrong: `problems` has each cell with its row and column, all at once.
    HemError
        If there is no such file, or it is no text.

    Examples
    --------
    >>> read_class(class_template()) == example_workshop()
    True
    """
    if not isinstance(source, str) or "\n" not in source:
        source = text_of(read_file(source, most=LARGEST))
    return class_of(tables_of(source.removeprefix("\ufeff")))


def text_of(content: bytes) -> str:
    """The text of a spreadsheet's file, in UTF-8 or UTF-16; what would be misread is refused."""
    two_byte = content.startswith((b"\xff\xfe", b"\xfe\xff"))
    try:
        return content.decode("utf-16" if two_byte else "utf-8-sig")
    except UnicodeDecodeError:
        raise HemError(
            "The file is no text in UTF-8, so that names in it would be misread; in the spreadsheet save it "
            "once more as CSV, for example with the character set UTF-8.",
            "path",
        ) from None


def class_tables(workshop: Workshop) -> Tables:
    """The class as tables of text, as its leader would type it.

    Refused if it can't be typed: a kit has a thread plan of its own, or two pieces have one name.
    """
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    designs: dict[str, dict[str, str]] = {}
    for kit in workshop.every_kit:
        if kit.plan is not None:
            raise HemError(
                f"{kit.learner}'s kit has a thread plan of its own, which no cell can hold; for example "
                "leave the plan out, and give it to the kit once it is read.",
                "workshop",
            )
        design = _design_cells(kit.upright)
        if designs.setdefault(kit.kind, design) != design:
            raise HemError(
                f"Two unlike pieces are called {shown(kit.kind)}, but each must have a name of its own; for "
                "example 'coaster' and 'large coaster'.",
                "workshop",
            )
    title = {
        "class": workshop.title,
        "currency": workshop.currency,
        "ruler": workshop.unit,
        "spare needles": str(workshop.spare_needles),
        "note": workshop.note,
    }
    found: dict[str, list[dict[str, str]]] = {
        "class": [title],
        "linen": [_linen_cells(linen) for linen in workshop.linens],
        "goods": [_goods_cells("goods", "each", goods) for goods in workshop.goods],
        "piece": [{"piece": kind} | design for kind, design in designs.items()],
        "learner": [_kit_cells(kit, workshop.linen_of(kit).name, "no") for kit in workshop.kits]
        + [_kit_cells(kit, workshop.linen_of(kit).name, "yes") for kit in workshop.spares],
    }
    tables = Tables()
    for name, rows in found.items():
        tables.lines[name] = [Line(row, cells) for row, cells in enumerate(rows, 1)]
    return tables


def class_text(workshop: Workshop, separator: str = ",") -> str:
    """The class as the text of a CSV file that `read_class` reads back.

    Parameters
    ----------
    workshop : Workshop
        The class.
    separator : str
        ``","``, with a decimal point in prices; or ``";"``, with a decimal comma.

    Examples
    --------
    >>> print(class_text(example_workshop(), ";").splitlines()[4][:35])
    linen for bread cloths;29/in;27/in;
    """
    return class_tables(workshop).text(one_of(separator, tuple(SEPARATORS), "separator"))


def class_template(separator: str = ",") -> str:
    """The invented class as a CSV text to begin from, each table with a remark over it.

    Examples
    --------
    >>> print(class_template().splitlines()[1])
    class,currency,ruler,spare needles,note
    """
    text = class_text(example_workshop(), separator)
    for table, remark in _REMARKS.items():
        heading = f"{table}{separator}"
        at = 0 if text.startswith(heading) else text.index(f"\r\n{heading}") + 2
        quoted = f'"# {remark}"'
        text = f"{text[:at]}{quoted}\r\n{text[at:]}"
    return text


def _linen_cells(linen: Linen) -> dict[str, str]:
    fabric, allow = linen.fabric, linen.allow
    usual = usual_allowances(linen.sold_by.ruler)
    allowed = {name: getattr(allow, name.replace(" ", "_")) for name in ("ends", "each cut", "spare")}
    return _goods_cells("linen", "sold by", linen.goods) | {
        "count across": typed_count(fabric.warp),
        "count down": typed_count(fabric.weft),
        "counted": "washed" if fabric.washed else "raw",
        "wash": linen.wash,
        "length loses": typed_share(fabric.shrink_warp),
        "width loses": typed_share(fabric.shrink_weft),
        "thickness": "" if fabric.thickness is None else typed_length(fabric.thickness),
        "width": typed_length(linen.width),
        **{
            name: "" if length == getattr(usual, name.replace(" ", "_")) else typed_length(length)
            for name, length in allowed.items()
        },
    }


def _goods_cells(name: str, each: str, goods: Goods) -> dict[str, str]:
    rounded = isinstance(goods.each, Length) and goods.each_text.startswith("≈")
    return {
        name: goods.name,
        each: typed_length(goods.each) if rounded and isinstance(goods.each, Length) else goods.each_text,
        "price": "" if goods.price is None else money_text(goods.price),
        "sold as": goods.sold_as,
        "shop": goods.shop,
    }


def _design_cells(piece: Piece) -> dict[str, str]:
    clear = [str(threads) for threads in piece.clear]
    alike = len(set(clear)) == 1
    return typed_piece(piece) | {
        "clear": clear[0] if alike else "",
        **({} if alike else {f"clear {side}": threads for side, threads in zip(SIDES, clear, strict=True)}),
    }


def _kit_cells(kit: Kit, linen: str, spare: str) -> dict[str, str]:
    words = ("learner", "hand", "thread", "needle", "basting", "sharp", "beginning")
    numbers = ("group", "needles", "sharps", "pins")
    return {
        **{name: getattr(kit, name) for name in words},
        **{name: str(getattr(kit, name)) for name in numbers},
        "piece": kit.kind,
        "linen": linen,
        "worked": kit.worked or "",
        "spare": spare,
    }
