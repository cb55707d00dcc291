"""What the boxes of *My piece* ask for: a kit, and what follows from it in words and as a table."""

from __future__ import annotations

import html
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from hemcalc.finish import Hours, hours
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.html import table_html
from hemcalc.paper.numbers import edge_rows, groups_said, notes_of
from hemcalc.piece.piece import EYE, Piece
from hemcalc.piece.sides import SIDES, Sides
from hemcalc.piece.typed import (
    read_count,
    read_size,
    read_whole,
    typed_count,
    typed_length,
    typed_piece,
    typed_share,
)
from hemcalc.workshop.kit import Kit

THREADS, STITCHES = "in threads", "in stitches"
RAW, WASHED = "not washed yet", "washed"
OWN_UNIT = "as it was counted"


@dataclass(frozen=True, slots=True)
class MinePlan:
    """What the panel shows."""

    kit: Kit
    time: Hours
    unit: str

    def text(self) -> str:
        """The piece in words: cloth, edge, groups, thread and time."""
        piece, unit = self.kit.piece, self.unit
        lines = [
            f"Cloth: {self.kit.cloth_text(unit)}; {piece.finished_size.text(unit)}.",
            *(f"{cells[0].capitalize()}: {self._cells(cells)}." for cells in edge_rows(piece, unit)[1:]),
            *self.below(),
        ]
        return "\n".join(lines)

    def _cells(self, cells: list[str]) -> str:
        names = edge_rows(self.kit.piece, self.unit)[0][1:]
        return "; ".join(
            f"{cell} ({name})" if len(names) > 1 else cell
            for name, cell in zip(names, cells[1:], strict=True)
        )

    def below(self) -> list[str]:
        """What stands below the table: groups, thread, time, and what to know."""
        thread = [use.text() for use in self.kit.uses]
        return [
            *groups_said(self.kit),
            f"Thread: {'; '.join(thread)}.",
            f"Time: {self.time.text()}",
            *notes_of(self.kit.piece),
        ]

    def html(self) -> str:
        """The same, its edge as a table."""
        unit = self.unit
        head, *rows = edge_rows(self.kit.piece, unit)
        size = self.kit.cloth_text(unit)
        lines = [f"<p><b>{html.escape(size[:1].upper() + size[1:])}</b><br>"]
        lines.append(f"{html.escape(self.kit.piece.finished_size.text(unit))}</p>")
        lines.append(table_html(head, rows, "The edge, side by side"))
        lines += [f"<p>{html.escape(line)}</p>" for line in self.below()]
        return "".join(lines)


def plan_mine(values: Mapping[str, Any]) -> MinePlan:
    """The kit that the boxes' values ask for."""
    across = read_count(values["across"], "across")
    fabric = Fabric(
        across,
        read_count(values["down"], "down") if values["down"] else across,
        values["thickness"] or None,
        values["length loses"] or 0,
        values["width loses"] or 0,
        values["cloth"] == WASHED,
    )
    over = 1 if values["design is"] == THREADS else _whole(values, "over")
    clear = [_whole(values, f"clear {side}" if values["sides differ"] else "clear") for side in SIDES]
    hem = read_size(values["hem"])
    sizes = {name: read_size(values[name]) if values[name] else None for name in ("turn", "allowance")}
    piece = Piece.from_stitches(
        fabric,
        (_whole(values, "design across"), _whole(values, "design down")),
        over,
        hem=hem,
        same="threads" if isinstance(hem, int) else "width",
        clear=Sides(*clear),
        drawn=_whole(values, "drawn"),
        handling=read_size(values["handling"] or "0"),
        corner=values["corner"],
        eye=values["eye"] or EYE,
        through=values["through"],
        **sizes,
    )
    kit = Kit(values["name"], piece, values["called"], hand=values["hand"], group=_whole(values, "group"))
    unit = fabric.warp.unit_or(None if values["unit"] == OWN_UNIT else values["unit"])
    return MinePlan(kit, hours(piece, group=kit.group), unit)


def _whole(values: Mapping[str, Any], name: str) -> int:
    return read_whole(values[name], name, digits=6, example=7)


def values_of(piece: Piece) -> dict[str, Any]:
    """What the boxes say of a piece; whoever works it is not in it."""
    cloth, clear = piece.fabric, piece.clear
    return typed_piece(piece) | {
        "across": typed_count(cloth.warp),
        "down": "" if cloth.weft == cloth.warp else typed_count(cloth.weft),
        "cloth": WASHED if cloth.washed else RAW,
        "length loses": typed_share(cloth.shrink_warp),
        "width loses": typed_share(cloth.shrink_weft),
        "thickness": "" if cloth.thickness is None else typed_length(cloth.thickness),
        "design is": THREADS,
        "over": "2",
        "sides differ": len(set(clear)) > 1,
        "clear": str(clear.left),
        **{f"clear {side}": str(threads) for side, threads in zip(SIDES, clear, strict=True)},
    }
