"""A class made of its tables, each cell read for itself, so that all that is wrong is said at once."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import partial
from typing import Any, TypeVar

from hemcalc.bolt.allowances import BoltAllowances, usual_allowances
from hemcalc.bolt.shop_unit import as_shop_unit
from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import share
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES, Sides
from hemcalc.piece.typed import SIZES, read_count, read_size, read_whole
from hemcalc.workshop.class_table import TABLES, ClassErrors, Line, Problem, Tables
from hemcalc.workshop.goods import Goods, as_name
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.linen import Linen, fabric_for
from hemcalc.workshop.money import as_money
from hemcalc.workshop.workshop import Workshop

T = TypeVar("T")

_WHOLE = re.compile(r"[0-9]{1,9}")
_PER = re.compile(r"(.+?)\s*(?:\bper\b|/)\s*(.+)")
_PLACES = 4  # of a price


class _Reader:
    """Reads cells one by one, and keeps what is wrong with each."""

    def __init__(self, tables: Tables) -> None:
        self.tables = tables
        self.problems = list(tables.problems)

    def wrong(self, table: str, line: Line, column: str, sentence: str) -> None:
        problem = Problem(table, line.row, column, sentence)
        if not any((known.row, known.column) == (problem.row, column) for known in self.problems):
            self.problems.append(problem)

    def named(self, table: str) -> dict[str, Line]:
        """The lines of a table by their names, each once."""
        found: dict[str, Line] = {}
        for line in self.tables.lines[table]:
            name = self.cell(table, line, table, lambda text: as_name(text, table, _EXAMPLES[table]))
            if name in found:
                again = (
                    f"{shown(name)} stands in row {found[name].row} already, but each must have its own name."
                )
                self.wrong(table, line, table, again)
            elif name is not None:
                found[name] = line
        return found

    def cell(self, table: str, line: Line, column: str, read: Callable[[str], T]) -> T | None:
        """What a cell says, the usual if it is empty; None if that is wrong, which is kept."""
        about = next(each for each in TABLES[table] if each.name == column)
        text = line.cells.get(column, "") or about.usual
        try:
            if not text and about.needed:
                raise HemError(f"is empty, but must have {about.hint}.")
            if about.choices and text:
                text = one_of(text.casefold(), about.choices, column)
            return read(text)
        except HemError as error:
            self.wrong(table, line, column, str(error))
            return None

    def one_of_the(self, table: str, line: Line, column: str, known: Mapping[str, T], what: str) -> T | None:
        """The thing that a cell names, in whatever case."""
        by_name = {name.casefold(): thing for name, thing in known.items()}

        def found(text: str) -> T:
            if text in known:
                return known[text]
            if text.casefold() not in by_name:
                some = ", ".join(shown(name) for name in list(known)[:4]) or "none yet"
                raise HemError(f"{shown(text)} is none of {what}; for example one of {some}.", column)
            return by_name[text.casefold()]

        return self.cell(table, line, column, found)


_EXAMPLES = {"linen": "white linen", "goods": "pearl cotton 8", "piece": "coaster"}
#: What the library calls an input, and under which heading it stands here.
_HEADINGS = {
    "warp": "count across",
    "weft": "count down",
    "shrink_warp": "length loses",
    "shrink_weft": "width loses",
    "design": "design across",
    "stitches": "design across",
}


def class_of(tables: Tables) -> Workshop:
    """The class that these tables say.

    Raises
    ------
    ClassErrors
        If something is wrong, all of it at once.
    """
    reader = _Reader(tables)
    title = tables.lines["class"][0] if tables.lines["class"] else Line(1, {})
    for line in tables.lines["class"][1:]:
        reader.wrong("class", line, "class", "is a second class, but a file has one; put it in another file.")
    currency = reader.cell(
        "class", title, "currency", lambda text: text and as_name(text, "currency", "crowns")
    )
    linens = {
        name: _linen(reader, line, name, currency or "") for name, line in reader.named("linen").items()
    }
    goods = {name: _goods(reader, line, name, currency or "") for name, line in reader.named("goods").items()}
    pieces = {name: (line, _design(reader, line)) for name, line in reader.named("piece").items()}
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


def _made(reader: _Reader, table: str, line: Line, make: Callable[[], T]) -> T | None:
    """What is made of cells that are right one by one; what is wrong with them together is kept."""
    if any(problem.row == line.row for problem in reader.problems):
        return None
    try:
        return make()
    except HemError as error:
        about = _HEADINGS.get(error.about, error.about)
        names = [column.name for column in TABLES[table]]
        reader.wrong(table, line, about if about in names else names[0], str(error))
        return None


def _linen(reader: _Reader, line: Line, name: str, currency: str) -> Linen | None:
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

    def made() -> Linen:
        assert across is not None
        assert width is not None
        assert sold_by is not None
        fabric = Fabric(across, down, thickness, long, broad, washed)
        # As it is when it is cut; what was counted in the other state is reckoned.
        if wash and (wash == "before cutting") != washed and not (wash == "never" and washed):
            fabric = fabric_for(fabric, wash)
        shop = {name: line.cells.get(name, "") for name in ("sold as", "shop")}
        sold = Goods(name, sold_by.written, price, shop["sold as"], shop["shop"])
        return Linen(fabric, width, sold, wash or None, BoltAllowances(*allow))

    return _made(reader, "linen", line, made)


def _or_usual(column: str, usual: Length, text: str) -> Length:
    return as_length(text, column, size=False) if text else usual


def _lost(column: str, text: str) -> Fraction:
    return share(text, column, most=Fraction(1, 2))


def _goods(reader: _Reader, line: Line, name: str, currency: str) -> Goods | None:
    each = reader.cell("goods", line, "each", lambda text: int(text) if _WHOLE.fullmatch(text) else text)
    of = None if isinstance(each, int) else each
    price = reader.cell(
        "goods",
        line,
        "price",
        lambda text: _price(text, as_shop_unit(of, "each").each if of else None, currency),
    )
    return _made(
        reader,
        "goods",
        line,
        lambda: Goods(name, each or 0, price, line.cells.get("sold as", ""), line.cells.get("shop", "")),
    )


def _price(text: str, each: Length | None, currency: str) -> Decimal | None:
    """The price of one unit: as it is written, or from that of a metre or a yard, if it comes out whole."""
    for word in filter(None, (currency, currency[:-1] if currency.endswith("s") else "")):
        text = re.sub(
            rf"(?:^|(?<=[\s\d])){re.escape(word)}(?=$|[\s/])", "", text, flags=re.IGNORECASE
        ).strip()
    found = _PER.fullmatch(text)
    if not text:
        return None
    if found is None or each is None:
        return as_money(text, "price")
    price, of = as_money(found[1], "price"), as_shop_unit(found[2], "price").each
    exact = Fraction(price) * each.mm / of.mm
    for places in range(-int(price.as_tuple().exponent), _PLACES + 1):
        if (exact * 10**places).denominator == 1:
            return Decimal(int(exact * 10**places)).scaleb(-places)
    raise HemError(
        f"price is {shown(text)}, which gives no even price for the length that is sold; for example give "
        "the price of just that length, as the shop rounds it.",
        "price",
    )


def _design(reader: _Reader, line: Line) -> dict[str, Any] | None:
    """What a piece is made of beside its cloth."""
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
    if any(problem.row == line.row for problem in reader.problems):
        return None
    across, down = ((threads or 0) * (over or 0) for threads in design)
    same = "threads" if isinstance(sizes["hem"], int) else "width"
    asked = {"design": (across, down), "clear": Sides(*sides), "drawn": drawn, "same": same}
    return asked | sizes | words


def _kit(
    reader: _Reader,
    line: Line,
    linens: Mapping[str, Linen | None],
    goods: Mapping[str, Goods | None],
    pieces: Mapping[str, tuple[Line, dict[str, Any] | None]],
) -> tuple[Kit, bool] | None:
    """A learner's kit, and whether it is a spare; None if something about it is wrong."""
    cell = partial(reader.cell, "learner", line)
    learner = cell("learner", lambda text: as_name(text, "learner", "Ada"))
    piece = reader.one_of_the(
        "learner", line, "piece", {name: (name, *made) for name, made in pieces.items()}, "the pieces"
    )
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
    if linen is None or piece is None:
        return None  # said already, where it is wrong
    kind, row, design = piece
    if design is None:
        return None
    made = _made(reader, "piece", row, lambda: Piece(linen.fabric, **design))
    if made is None:
        return None
    alike = sum(other is not None and other.fabric == linen.fabric for other in linens.values())
    named = linen.name if alike > 1 else ""
    kit = _made(
        reader,
        "learner",
        line,
        lambda: Kit(learner or "", made, kind, linen=named, **words, **numbers),  # type: ignore[arg-type]
    )
    return None if kit is None else (kit, spare)
