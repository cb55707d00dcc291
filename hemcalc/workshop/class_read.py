"""A class made of its tables, each cell read for itself, so that all that is wrong is said at once."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import partial
from typing import Any, TypeVar

from hemcalc.bolt.allowances import BoltAllowances, usual_allowances
from hemcalc.bolt.shop_unit import ShopUnit, as_shop_unit
from hemcalc.measure.errors import HemError, shown
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import share
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES, Sides
from hemcalc.piece.typed import SIZES, read_count, read_size, read_whole
from hemcalc.workshop.class_cells import Reader
from hemcalc.workshop.class_table import ClassErrors, Line, Tables
from hemcalc.workshop.goods import Goods, as_name
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.linen import Linen, fabric_for
from hemcalc.workshop.money import as_money
from hemcalc.workshop.workshop import Workshop

T = TypeVar("T")
_Design = tuple[Line, Callable[..., Piece], dict[str, Any]]

_WHOLE = re.compile(r"[0-9]{1,9}")
_PER = re.compile(r"(.+?)\s*(?:\bper\b|/)\s*(.+)")
_PLACES = 4  # of a price


def class_of(tables: Tables) -> Workshop:
    """The class that these tables say; `ClassErrors` if something is wrong, all of it at once."""
    reader = Reader(tables)
    title = tables.lines["class"][0] if tables.lines["class"] else Line(1, {})
    for line in tables.lines["class"][1:]:
        reader.wrong("class", line, "class", "is a second class, but a file has one; put it in another file.")
    currency = reader.cell(
        "class", title, "currency", lambda text: text and as_name(text, "currency", "crowns")
    )
    linens = reader.named("linen", lambda line, name: _linen(reader, line, name, currency or ""))
    goods = reader.named("goods", lambda line, name: _goods(reader, line, name, currency or ""))
    pieces = reader.named("piece", lambda line, name: _design(reader, line))
    kits = [_kit(reader, line, linens, goods, pieces) for line in tables.lines["learner"]]
    if not any(line.cells.get("spare", "").casefold() != "yes" for line in tables.lines["learner"]):
        reader.wrong("learner", title, "learner", "there is no learner yet; write one row for each piece.")
    asked = {
        "title": reader.cell("class", title, "class", lambda text: as_name(text, "class", "Linen workshop")),
        "unit": reader.cell("class", title, "ruler", str),
        "spare_needles": reader.cell("class", title, "spare needles", _whole("spare needles")),
        "note": reader.cell("class", title, "note", lambda text: text and as_name(text, "note", "Invented.")),
    }
    if not reader.problems:
        try:
            return Workshop(
                kits=tuple(kit for kit, spare in filter(None, kits) if not spare),
                linens=tuple(filter(None, linens.values())),
                goods=tuple(filter(None, goods.values())),
                spares=tuple(kit for kit, spare in filter(None, kits) if spare),
                currency=currency or "",
                **asked,  # type: ignore[arg-type]
            )
        except HemError as error:
            column = {"spare_needles": "spare needles"}.get(error.about, "class")
            reader.wrong("class", title, column, str(error))
    raise ClassErrors(sorted(reader.problems, key=lambda problem: problem.row))


def _whole(about: str) -> Callable[[str], int]:
    return partial(read_whole, about=about)


def _linen(reader: Reader, line: Line, name: str, currency: str) -> Linen | None:
    def cell(column: str, read: Callable[[str], T]) -> T | None:
        return reader.cell("linen", line, column, read)

    across = cell("count across", lambda text: read_count(text, "count across"))
    down = cell("count down", lambda text: read_count(text, "count down") if text else across)
    washed = cell("counted", str) == "washed"
    wash = cell("wash", str)
    long, broad = (cell(column, partial(_lost, column)) for column in ("length loses", "width loses"))
    thickness = cell("thickness", lambda text: as_length(text, "thickness") if text else None)
    width = cell("width", lambda text: as_length(text, "width"))
    sold_by = cell("sold by", lambda text: as_shop_unit(text, "sold by"))
    price = cell("price", lambda text: _price(text, sold_by.each if sold_by else None, currency))
    customs = usual_allowances(sold_by.ruler if sold_by else "cm")
    allow = [
        cell(column, partial(_or_usual, column, usual))
        for column, usual in (
            ("ends", customs.ends),
            ("each cut", customs.each_cut),
            ("spare", customs.spare),
        )
    ]

    def made(like: Fabric, _: str) -> Linen:
        fabric = Fabric(across or like.across, down, thickness, long or 0, broad or 0, washed)
        # As it is when it is cut; what was counted in the other state is reckoned.
        if wash and (wash == "before cutting") != washed and not (wash == "never" and washed):
            fabric = fabric_for(fabric, wash)
        shop = {name: line.cells.get(name, "") for name in ("sold as", "shop")}
        sold = Goods(name, sold_by.written if sold_by else "1 m", price, shop["sold as"], shop["shop"])
        return Linen(
            fabric,
            width or Length(1000),
            sold,
            wash or None,
            BoltAllowances(*(each or Length(0) for each in allow)),
        )

    return reader.made("linen", line, made)


def _or_usual(column: str, usual: Length, text: str) -> Length:
    return as_length(text, column, size=False) if text else usual


def _lost(column: str, text: str) -> Fraction:
    return share(text, column, most=Fraction(1, 2))


def _goods(reader: Reader, line: Line, name: str, currency: str) -> Goods | None:
    each = reader.cell("goods", line, "each", _each)
    of = each.each if isinstance(each, ShopUnit) else each
    price = reader.cell("goods", line, "price", lambda text: _price(text, of, currency))
    one = each.written if isinstance(each, ShopUnit) else of
    more = [line.cells.get(column, "") for column in ("sold as", "shop")]
    return reader.made("goods", line, lambda *_: Goods(name, 1 if one is None else one, price, *more))


def _each(text: str) -> int | ShopUnit:
    """What one of the goods holds: so many, or a length in the words for one."""
    return int(text) if _WHOLE.fullmatch(text) else as_shop_unit(text, "each")


def _price(text: str, each: Length | int | None, currency: str) -> Decimal | None:
    """The price of one unit: as it is written, or from that of a metre or a yard, if it comes out whole.

    With no unit that could be read, it is only seen whether this is a price.
    """
    for word in filter(None, (currency, currency[:-1] if currency.endswith("s") else "")):
        text = re.sub(
            rf"(?:^|(?<=[\s\d])){re.escape(word)}(?=$|[\s/])", "", text, flags=re.IGNORECASE
        ).strip()
    found = _PER.fullmatch(text)
    if not text:
        return None
    if found is None or isinstance(each, int):
        return as_money(text, "price")
    price, of = as_money(found[1], "price"), as_shop_unit(found[2], "price").each
    if each is None:
        return price
    exact = Fraction(price) * each.mm / of.mm
    for places in range(-int(price.as_tuple().exponent), _PLACES + 1):
        if (exact * 10**places).denominator == 1:
            return Decimal(int(exact * 10**places)).scaleb(-places)
    raise HemError(
        f"price is {shown(text)}, which gives no even price for the length that is sold; for example give "
        "the price of just that length, as the shop rounds it.",
        "price",
    )


def _design(reader: Reader, line: Line) -> _Design:
    """A piece's row, how a piece is made, and what is asked of it beside its cloth."""
    cell = partial(reader.cell, "piece", line)
    over = cell("over", _whole("over"))
    design = [cell(f"design {way}", _whole(f"design {way}")) for way in ("across", "down")]
    drawn = cell("drawn", _whole("drawn"))
    sizes = {name: cell(name, lambda text: read_size(text) if text else None) for name in SIZES}
    words = {name: cell(name, str) for name in ("corner", "through")}
    if all(line.cells.get(f"clear {side}", "") for side in SIDES):
        clear: int | None = 0
    else:
        clear = cell("clear", _whole("clear"))
    sides = [cell(f"clear {side}", lambda text: _whole("clear")(text) if text else clear) for side in SIDES]
    asked: dict[str, Any] = {
        name: said for name, said in (sizes | words | {"drawn": drawn}).items() if said is not None
    }
    if None not in (*design, over):
        asked["design"] = tuple((threads or 0) * (over or 0) for threads in design)
    if None not in sides:
        asked["clear"] = Sides(*sides)

    def planned(fabric: Fabric, like: str, **asked: Any) -> Piece:
        every: dict[str, Any] = {"design": (60, 60), "clear": 4, "hem": like} | asked
        return Piece(fabric, same="threads" if isinstance(every["hem"], int) else "width", **every)

    reader.made("piece", line, planned, asked)
    return line, planned, asked


def _kit(
    reader: Reader,
    line: Line,
    linens: Mapping[str, Linen | None],
    goods: Mapping[str, Goods | None],
    pieces: Mapping[str, _Design],
) -> tuple[Kit, bool] | None:
    """A learner's kit, and whether it is a spare; None if something about it is wrong."""
    cell = partial(reader.cell, "learner", line)
    learner = cell("learner", lambda text: as_name(text, "learner", "Ada"))
    kinds = {name: (name, *design) for name, design in pieces.items()}
    design = reader.one_of_the("learner", line, "piece", kinds, "the pieces")
    linen = reader.one_of_the("learner", line, "linen", linens, "the linens")
    words = {name: cell(name, str) for name in ("hand", "beginning")}
    words |= {"worked": cell("worked", lambda text: text or None)}
    for name, by_length in (("thread", True), ("basting", True), ("needle", False)):
        sold = {
            one: one
            for one, each in goods.items()
            if each is None or isinstance(each.each, Length) is by_length
        }
        what = f"the goods that are sold by {'length' if by_length else 'number'}"
        words[name] = reader.one_of_the("learner", line, name, sold, what)
    words["sharp"] = cell("sharp", lambda text: as_name(text, "sharp", "sharp needle 9"))
    numbers = {name: cell(name, _whole(name)) for name in ("group", "needles", "sharps", "pins")}
    spare = cell("spare", str) == "yes"
    made, named = None, ""
    if design is not None and linen is not None:
        _, row, plan, its = design
        made = reader.made("piece", row, lambda _, like, **asked: plan(linen.fabric, like, **asked), its)
        if sum(other is not None and other.fabric == linen.fabric for other in linens.values()) > 1:
            named = linen.name
    asked = {name: said for name, said in (words | numbers).items() if said is not None}

    def hers(fabric: Fabric, hem: str, **asked: Any) -> Kit:
        piece = made or Piece(fabric, (60, 60), hem=hem, clear=4)
        return Kit(learner or "Ada", piece, design[0] if design else "piece", linen=named, **asked)

    kit = reader.made("learner", line, hers, asked)
    return None if kit is None or made is None else (kit, spare)
