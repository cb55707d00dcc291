"""A hem gauge card: cut out at true size, its marks say where folds and cut run.

Its upper edge is laid on the cloth with the left end on the open line, its lower edge with the
left end on the cut edge: the same lines, measured from either side.
"""

from __future__ import annotations

from hemcalc.draw.look import LINES
from hemcalc.edge.ledger import Edge
from hemcalc.measure.errors import HemError, of_type
from hemcalc.measure.lengths import Length
from hemcalc.paper.flow import TEXT, Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import height_of, width_of, wrapped
from hemcalc.paper.page import Page
from hemcalc.paper.printer import paper_size
from hemcalc.workshop.kit import Kit

_CARD = 46.0  # height, mm
_BETWEEN = 4.0
_HOW = (
    "Check the bar at the foot of this page with a ruler first. Print on card, or paste the page on some, "
    "and cut out along the outer line.",
    "Upper edge: lay the left end on the open line's outer edge; the marks then say where the hem folds and "
    "where the cloth is cut.",
    "Lower edge: lay the left end on the cut edge; the marks then say where the turn and the hem fold.",
)
_STEP = 4.6  # from one mark's words to the next, mm
_LINE = LINES["edge"].width * 25.4 / 72  # width of a mark, mm


def gauge_marks(edge: Edge) -> dict[str, dict[str, Length]]:
    """The marks of an edge's gauge: name and distance, from the open line and from the cut.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> marks = gauge_marks(example("bread cloth").edges_in_hand.left)
    >>> [(name, place.text("in")) for name, place in marks["open line"].items()]
    [('hem: fold 1', '≈ 3/8 in'), ('two hems: fold 2', '≈ 3/4 in'), ('cut', '≈ 15/16 in')]
    >>> [(name, place.text("in")) for name, place in marks["cut edge"].items()]
    [('turn: fold 2', '≈ 3/16 in'), ('turn and hem: fold 1', '≈ 9/16 in'), ('open line', '≈ 15/16 in')]
    """
    hem, turn = edge.hem, edge.turn
    out = {"hem: fold 1": hem, "two hems: fold 2": 2 * hem, "cut": 2 * hem + turn}
    back = {"turn: fold 2": turn, "turn and hem: fold 1": turn + hem, "open line": turn + 2 * hem}
    if not turn:
        del out["two hems: fold 2"], back["turn: fold 2"]
    return {
        "open line": {name: edge.width(threads) for name, threads in out.items()},
        "cut edge": {name: edge.width(threads) for name, threads in back.items()},
    }


def gauge_card(kit: Kit, *, unit: str | None = None, paper: str = "A4", note: str = "") -> Leaflet:
    """The gauge card of a kit's piece, one for each kind of side.

    Words are in ``"in"``, ``"cm"`` or ``"mm"``, the paper is ``"A4"`` or ``"Letter"``; a note stands at the
    foot. The marks are exact. Refused if a card doesn't fit on the sheet at true size.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> gauge_card(example_workshop().kits[0])
    Leaflet('Hem gauge: bread cloth', 1 page)
    """
    of_type(kit, Kit, "kit", "Kit('Ada', example('coaster'))")
    unit = kit.piece.fabric.warp.unit_or(unit)
    title = f"Hem gauge: {kit.kind}"
    flow = Flow(paper_size(paper), title, note)
    flow.title_line(f"{title}, {kit.learner}")
    shown = set_gauges(flow, kit, unit)
    flow.gap(2)
    flow.cautions("blade")
    return flow.leaflet(title, f"At true size, from the open line: {', '.join(shown)}.")


def set_gauges(flow: Flow, kit: Kit, unit: str) -> list[str]:
    """Set how a kit's cards are used, then the cards, side by side where there is room; in words."""
    for words in (
        *_HOW,
        f"Every mark is for the cloth as it is in hand now, {kit.piece.fabric.condition}.",
    ):
        flow.paragraph(words)
    cards = []
    for sides, marks in _kinds(kit):
        name = f"{kit.learner}, {kit.kind}: {sides}"
        cards.append((max(_width(marks, unit), width_of(name, TEXT, True) / 2 + 14), name, marks))
    widest = max(across for across, *_ in cards)
    if widest > flow.room:
        raise HemError(
            f"The gauge card of {kit.kind} would be {widest:.0f} mm wide, but {flow.paper.name} has "
            f"{flow.room:.0f} mm of room at true size; for example measure with a ruler.",
            "paper",
        )
    flow.gap(2)
    right, x, y = flow.left + flow.room, flow.left + flow.room, flow.y
    for across, name, marks in cards:
        if x + across > right:
            page, x, y = flow.place(_CARD + 2, "The gauge card")
        _card(page, x, y, across, name, marks, unit)
        x += across + _BETWEEN
    return [
        f"{said} {place.text(unit)} {sides}"
        for sides, marks in _kinds(kit)
        for said, place in marks["open line"].items()
    ]


def _kinds(kit: Kit) -> list[tuple[str, dict[str, dict[str, Length]]]]:
    """The gauges that a piece needs, by the names of their sides; a clear band makes no other gauge.

    Gauges whose marks lie within the width of a line of each other are one.
    """
    first, *others = kit.piece.edges_in_hand.map(gauge_marks).kinds()
    if others and all(_near(first[1], marks) for _, marks in others):
        return [("all sides", first[1])]
    return [first, *others]


def _near(one: dict[str, dict[str, Length]], other: dict[str, dict[str, Length]]) -> bool:
    return all(
        row.keys() == other[datum].keys()
        and all(abs(place.mm - other[datum][name].mm) < _LINE for name, place in row.items())
        for datum, row in one.items()
    )


def _words(name: str, place: Length, unit: str) -> str:
    return f"{name}, {place.text(unit)}"


def _width(marks: dict[str, dict[str, Length]], unit: str) -> float:
    """Width of the card: its furthest mark, and the words behind it."""
    widest = max(
        width_of(_words(name, place, unit), TEXT) for row in marks.values() for name, place in row.items()
    )
    furthest = max(float(place.mm) for row in marks.values() for place in row.values())
    return furthest + widest + 12


def _card(
    page: Page,
    x: float,
    y: float,
    across: float,
    name: str,
    marks: dict[str, dict[str, Length]],
    unit: str,
) -> None:
    page.box(x, y, across, _CARD, kind="edge")
    for (datum, row), way in zip(marks.items(), (1, -1), strict=True):
        base = y if way > 0 else y + _CARD
        beside = x + max(float(place.mm) for place in row.values()) + 4
        # The furthest mark is the shortest, so that no leader crosses a mark.
        for i, (said, place) in enumerate(reversed(list(row.items()))):
            at, level = x + float(place.mm), base + way * (3 + i * _STEP)
            page.line([(at, base), (at, level)], "edge")
            page.line([(at, level), (beside, level)])
            page.text(beside + 1, level - 2.3, _words(said, place, unit), TEXT)
        level = base + way * (3 + len(row) * _STEP)
        page.text(x + 2, level - 2.3, f"left end: {datum}", TEXT)
    lines = wrapped(name, across - 4, TEXT, True)
    for i, line in enumerate(lines):
        page.text(
            x + 2, y + _CARD / 2 + height_of(TEXT, i) - height_of(TEXT, len(lines)) / 2, line, TEXT, bold=True
        )
