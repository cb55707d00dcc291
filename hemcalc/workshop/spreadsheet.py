"""The class as rows of text and exact numbers, as tables, and as a CSV file that a spreadsheet opens."""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.files import write_file
from hemcalc.piece.sizes import size_text
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.money import money_text
from hemcalc.workshop.workshop import Workshop

if TYPE_CHECKING:
    import pandas as pd


_Row = Mapping[str, str | int | Decimal | None]

#: What stands between two fields, and the decimal sign that goes with it where each is usual.
SEPARATORS = {",": ".", ";": ","}

# As RFC 4180, Y. Shafranovich, 2005, section 2, has it; either half of it in a field is quoted.
_LINE_END = "\r\n"

# A spreadsheet takes a field that begins so for a formula, whoever wrote it.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def kit_rows(workshop: Workshop) -> tuple[dict[str, str | int | Decimal | None], ...]:
    """A row for each kit, spares last: who, what, which hand, and all that is in it.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> row = kit_rows(example_workshop())[0]
    >>> row["learner"], row["piece"], row["cut across"], row["first thread drawn"]
    ('Ada', 'bread cloth', '11 in', '8')
    """
    unit = of_type(workshop, Workshop, "workshop", "example_workshop()").unit
    learners = [_kit_row(kit, unit, "", workshop.linen_of(kit).name) for kit in workshop.kits]
    return (
        *learners,
        *(_kit_row(kit, unit, "spare", workshop.linen_of(kit).name) for kit in workshop.spares),
    )


def _kit_row(kit: Kit, unit: str, spare: str, linen: str) -> dict[str, str | int | Decimal | None]:
    piece = kit.piece
    across, down = (side.text(unit) for side in kit.to_cut(unit))
    edges, counts = piece.edges, [way.text(unit) for way in (piece.fabric.across, piece.fabric.down)]
    return {
        "learner": kit.learner,
        "spare": spare,
        "piece": kit.kind,
        "linen": linen,
        "hand": kit.hand,
        "count": counts[0] if counts[0] == counts[1] else "{} across, {} down".format(*counts),
        "cloth": piece.fabric.condition,
        "cut across": across,
        "cut down": down,
        "finished": size_text(piece.finished_size.after, unit),
        "first thread drawn": edges.map(lambda edge: edge.first_drawn).text(),
        "fold 1 after": edges.map(lambda edge: edge.fold_1).text(),
        "fold 2 after": edges.map(lambda edge: edge.fold_2).text(),
        "cut after": edges.map(lambda edge: edge.cut).text(),
        "groups of": kit.group,
        "thread": kit.thread,
        "thread needed": kit.thread_text(unit),
        # Rounded up to whole 50 cm.
        "thread to have (cm)": int(kit.thread_to_have.cm),
        "basting to have (cm)": int(kit.basting_to_have.cm),
        "needle": kit.needle,
        "needles": kit.needles,
        "sharp": kit.sharp,
        "sharps": kit.sharps,
        "pins": kit.pins,
    }


def shopping_rows(workshop: Workshop) -> tuple[dict[str, str | int | Decimal | None], ...]:
    """A row for each line of the shopping list; the total is `Workshop.cost_text`.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> row = shopping_rows(example_workshop())[6]
    >>> row["goods"], row["unit"], row["cost"]
    ('pearl cotton 8, white', 'ball of 80 m', Decimal('4.20'))
    """
    of_type(workshop, Workshop, "workshop", "example_workshop()")
    return tuple(
        {
            "goods": line.goods.name,
            "shop": line.goods.shop,
            "needed": line.need_text,
            "units": line.units,
            "unit": line.goods.unit_text,
            "price": line.goods.price,
            "cost": line.cost,
            "currency": workshop.currency,
        }
        for line in workshop.shopping
    )


def csv_text(rows: Sequence[_Row], separator: str = ",") -> str:
    """The rows as CSV, a line of names first.

    Parameters
    ----------
    rows : sequence of mapping
        With the same names in each.
    separator : str
        ``","``, with a decimal point; or ``";"``, with a decimal comma, for spreadsheets of
        countries that write one.

    Examples
    --------
    >>> print(csv_text([{"goods": "=linen", "cost": Decimal("1.50")}], ";"), end="")
    goods;cost
    '=linen;1,50
    """
    point = SEPARATORS[one_of(separator, tuple(SEPARATORS), "separator")]
    if (
        not isinstance(rows, tuple | list)
        or not rows
        or not all(isinstance(row, Mapping) and row.keys() == rows[0].keys() for row in rows)
    ):
        raise HemError(f"rows is {shown(rows)}, but must be rows; for example kit_rows(workshop).", "rows")
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator=_LINE_END)
    writer.writerow([_field(name, point) for name in rows[0]])
    for row in rows:
        writer.writerow([_field(row[name], point) for name in rows[0]])
    return out.getvalue()


def save_csv(
    path: str | os.PathLike[str], rows: Sequence[_Row], *, separator: str = ",", replace: bool = False
) -> Path:
    """Save rows as a CSV file that a spreadsheet opens, in UTF-8 with its mark.

    One that is there already is written over only if `replace` is said.
    """
    write_file(path, csv_text(rows, separator).encode("utf-8-sig"), replace=replace)
    return Path(path)


def _field(value: str | int | Decimal | None, point: str) -> str:
    if value is None:
        return ""
    if isinstance(value, Decimal):
        return money_text(value).replace(".", point)
    text = str(value)
    return f"'{text}" if text.startswith(_FORMULA) else text


def kits_table(workshop: Workshop) -> pd.DataFrame:
    """A row for each kit, under the learner's name and what she works.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> kits_table(example_workshop()).loc[("Ada", "bread cloth"), "first thread drawn"]
    '8'
    """
    import pandas as pd

    return pd.DataFrame(kit_rows(workshop)).set_index(["learner", "piece"])


def shopping_table(workshop: Workshop) -> pd.DataFrame:
    """A row for each line of the shopping list; its exact Decimals add up to `Workshop.cost`."""
    import pandas as pd

    # dtype object keeps a Decimal a Decimal, and a missing number from making the others floats.
    return pd.DataFrame(shopping_rows(workshop), dtype=object).set_index("goods")
