"""Where the rule of four hems is enough and where it fails, over hem and clear band."""

from __future__ import annotations

from matplotlib.collections import PatchCollection
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import INK, LINES, type_size
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.edge import Edge
from hemcalc.errors import HemError
from hemcalc.rule_table import RuleTable

__all__ = ["draw_rule", "rule_alt"]

_FAILS = ("#f6d9a8", "///")
_HOLDS = ("#eef5fa", "")


def draw_rule(table: RuleTable, edge: Edge | None = None, size: str = "page") -> Still:
    """The table as a map, with a mark at an edge of one's own, as a finished figure.

    Each square is one hem and one clear band; the number in some of them is the threads to
    spare, or, with a minus, too few.

    Parameters
    ----------
    table : RuleTable
        From `hemcalc.rule_table.rule_table`.
    edge : Edge, optional
        The edge to mark.
    size : str
        Type for a ``"page"`` or a ``"projector"``.

    Raises
    ------
    HemError
        If the edge lies outside the table.
    """
    if edge is not None and (edge.hem not in table.hems or edge.clear not in table.clears):
        raise HemError(
            f"The edge has a hem of {edge.hem} and a clear band of {edge.clear} threads, which the table "
            f"does not hold; for example choose a hem of {table.hems[0]} to {table.hems[-1]}.",
            "edge",
        )
    sheet = Sheet(9, 4.6, dpi=150, size=type_size(size))
    last_hem, last_clear = table.hems[-1], table.clears[-1]
    first_hem, first_clear = table.hems[0], table.clears[0]
    axes = sheet.axes(
        (0.0, 0.02, 0.98, 0.97), (first_hem - 4.5, last_hem + 0.6), (first_clear - 3.6, last_clear + 2.6)
    )
    for holds, (fill, hatch) in ((True, _HOLDS), (False, _FAILS)):
        squares = [
            Rectangle((hem - 0.5, clear - 0.5), 1, 1)
            for clear, row in zip(table.clears, table.rows, strict=True)
            for hem, rule in zip(table.hems, row, strict=True)
            if rule.holds == holds
        ]
        patches = PatchCollection(squares, facecolor=fill, edgecolor="#b0b0b0", linewidth=0.4)
        patches.set_hatch(hatch)
        patches.set_hatch_linewidth(0.5)
        axes.add_collection(patches, autolim=False)
    axes.add_line(_border(table))
    labels = [
        *_scales(table),
        *_slacks(table, edge),
        Label(first_hem - 0.5, last_clear + 1.6, _headline(table), "left", bold=True),
    ]
    if edge is not None:
        axes.add_patch(
            Rectangle(
                (edge.hem - 0.5, edge.clear - 0.5), 1, 1, facecolor="none", edgecolor=INK, linewidth=2.4
            )
        )
    Labels(sheet, axes, len(labels)).show(labels)
    return Still(sheet, rule_alt(table, edge))


def rule_alt(table: RuleTable, edge: Edge | None) -> str:
    """The map in words, with its numbers."""
    parts = []
    for clear in table.clears:
        hem = table.narrowest(clear)
        if clear % 4 == 0:
            parts.append(f"clear {clear}: {'no hem' if hem is None else f'hems of {hem} or more'}")
    words = f"Where four times the hem is enough, with {_given(table)}. " + "; ".join(parts) + "."
    if edge is not None:
        slack = edge.rule.slack
        sense = "to spare" if slack >= 0 else "too few"
        words += f" Marked: hem {edge.hem}, clear {edge.clear}, {abs(slack)} {sense}."
    return words


def _headline(table: RuleTable) -> str:
    return f"striped: four hems are too little; plain: enough ({_given(table)})"


def _given(table: RuleTable) -> str:
    return f"{table.drawn} drawn, turn half the hem, {table.handling} for handling"


def _border(table: RuleTable) -> Line2D:
    """The line between failing and holding."""
    xs: list[float] = []
    ys: list[float] = []
    for clear in table.clears:
        hem = table.narrowest(clear)
        at = (table.hems[-1] + 0.5) if hem is None else hem - 0.5
        xs += [at, at]
        ys += [clear - 0.5, clear + 0.5]
    look = LINES["edge"]
    return Line2D(xs, ys, color=look.colour, linewidth=look.width)


def _scales(table: RuleTable) -> list[Label]:
    left, bottom = table.hems[0], table.clears[0]
    hems = [Label(hem, bottom - 1.2, str(hem), small=True) for hem in table.hems if hem % 2 == 0]
    clears = [Label(left - 1.3, clear, str(clear), small=True) for clear in table.clears if clear % 2 == 0]
    middle = (table.hems[0] + table.hems[-1]) / 2
    return [
        *hems,
        *clears,
        Label(middle, bottom - 2.6, "hem, threads"),
        Label(left - 2.2, table.clears[-1], "clear,\nthreads", "right", "top"),
    ]


def _slacks(table: RuleTable, edge: Edge | None) -> list[Label]:
    """Threads to spare on a grid that can be read, and at the marked edge."""
    marked = (edge.hem, edge.clear) if edge else None
    return [
        Label(hem, clear, f"{rule.slack}".replace("-", "\N{MINUS SIGN}"), small=True, on_paper=not rule.holds)
        for clear, row in zip(table.clears, table.rows, strict=True)
        for hem, rule in zip(table.hems, row, strict=True)
        if (hem % 4 == 0 and clear % 4 == 0) or (hem, clear) == marked
    ]
