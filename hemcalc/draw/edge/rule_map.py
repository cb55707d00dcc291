"""Where the rule of four hems is enough and where it fails, over hem and clear band."""

from __future__ import annotations

from matplotlib.collections import PatchCollection
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from hemcalc.draw.look import INK, LINES, BandLook, type_size
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.edge.ledger import EDGE_EXAMPLE, Edge
from hemcalc.edge.rule_tables import RuleTable
from hemcalc.measure.errors import HemError, of_type

_LOOKS = {True: BandLook("#eef5fa"), False: BandLook("#f6d9a8", "///")}  # holds, fails


def draw_rule(table: RuleTable, edge: Edge | None = None, size: str = "page") -> Still:
    """The table as a map, with a mark at an edge of one's own, as a finished figure.

    Each square is one hem and one clear band; the number in some of them is the threads to
    spare, or, with a minus, too few.

    The type is for a ``"page"`` or a ``"projector"``. Refused if the edge lies outside the table.
    """
    of_type(table, RuleTable, "table", "rule_table('28/in', range(1, 25), range(13))")
    if edge is not None:
        of_type(edge, Edge, "edge", EDGE_EXAMPLE)
    if edge is not None and (edge.hem not in table.hems or edge.clear not in table.clears):
        raise HemError(
            f"The edge has a hem of {edge.hem} and a clear band of {edge.clear} threads, which the table "
            f"does not hold; for example choose a hem of {table.hems[0]} to {table.hems[-1]}.",
            "edge",
        )
    sheet = Sheet(9, 4.6, dpi=150, size=type_size(size))
    hems, clears = table.hems, table.clears
    axes = sheet.axes(
        (0.13, 0.14, 0.86, 0.71), (hems[0] - 0.5, hems[-1] + 0.5), (clears[0] - 0.5, clears[-1] + 0.5)
    )
    for holds, look in _LOOKS.items():
        squares = [
            Rectangle((hem - 0.5, clear - 0.5), 1, 1)
            for clear, row in zip(clears, table.rows, strict=True)
            for hem, rule in zip(hems, row, strict=True)
            if rule.holds == holds
        ]
        drawn = look.patch | {"edgecolor": "#b0b0b0", "linewidth": 0.4, "label": str(holds)}
        axes.add_collection(PatchCollection(squares, **drawn), autolim=False)
    axes.add_line(_border(table))
    slacks = _slacks(table, edge)
    labels = Labels(sheet, axes, len(slacks) + len(hems) + len(clears) + 4)
    labels.show(
        [
            *labels.apart(slacks),
            *labels.apart(_scale_across(table, sheet.points(axes))),
            *labels.apart(_scale_up(table, sheet.points(axes))),
            *_headlines(table, sheet.points(axes)),
        ]
    )
    if edge is not None:
        # Round the cell and the number in it, whichever is larger.
        width, height = labels.size(slacks[0])
        along, up = sheet.points(axes)
        width, height = max(width + 4 * along, 1), max(height + 4 * up, 1)
        corner = edge.hem - width / 2, edge.clear - height / 2
        mark = Rectangle(corner, width, height, fill=False, clip_on=False)
        mark.set(edgecolor=INK, linewidth=2.4)
        axes.add_patch(mark)
        sheet.moving(axes, mark)
    return Still(sheet, rule_alt(table, edge))


def rule_alt(table: RuleTable, edge: Edge | None) -> str:
    """The map in words, with its numbers."""
    parts = []
    for clear in table.clears:
        hem = table.narrowest(clear)
        if clear % 4 == 0:
            parts.append(f"clear {clear}: {'no hem' if hem is None else f'hems of {hem} or more'}")
    words = f"Where four times the hem is enough, with {_facts(table)}. " + "; ".join(parts) + "."
    if edge is not None:
        slack = edge.rule.slack
        sense = "to spare" if slack >= 0 else "too few"
        words += f" Marked: hem {edge.hem}, clear {edge.clear}, {abs(slack)} {sense}."
    return words


def _headlines(table: RuleTable, point: tuple[float, float]) -> list[Label]:
    left, top = table.hems[0] - 0.5, table.clears[-1] + 0.5
    looks = "striped: four hems are too little; plain: enough"
    numbers = f"numbers: threads to spare; {_facts(table)}"
    return [
        Label(left, top + 22 * point[1], looks, "left", "bottom", bold=True),
        Label(left, top + 5 * point[1], numbers, "left", "bottom", small=True),
    ]


def _facts(table: RuleTable) -> str:
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
    return Line2D(xs, ys, **LINES["edge"].line)


def _scale_across(table: RuleTable, point: tuple[float, float]) -> list[Label]:
    hems, bottom = table.hems, table.clears[0] - 0.5 - 4 * point[1]
    return [
        *(Label(hem, bottom, str(hem), up="top", small=True) for hem in hems if hem % 2 == 0),
        Label((hems[0] + hems[-1]) / 2, bottom - 17 * point[1], "hem, threads", up="top"),
    ]


def _scale_up(table: RuleTable, point: tuple[float, float]) -> list[Label]:
    clears, left = table.clears, table.hems[0] - 0.5 - 5 * point[0]
    return [
        *(Label(left, clear, str(clear), "right", small=True) for clear in clears if clear % 2 == 0),
        Label(left - 22 * point[0], clears[-1], "clear,\nthreads", "right", "top"),
    ]


def _slacks(table: RuleTable, edge: Edge | None) -> list[Label]:
    """Threads to spare at the marked edge, and on a grid that can be read."""
    places = [(edge.hem, edge.clear)] if edge else []
    places += [(h, c) for c in table.clears for h in table.hems if h % 4 == 0 and c % 4 == 0]
    return [
        Label(hem, clear, _signed(table.at(hem, clear).slack), small=True, on_paper=True)
        for hem, clear in dict.fromkeys(places)
    ]


def _signed(number: int) -> str:
    return f"{number}".replace("-", "\N{MINUS SIGN}")
