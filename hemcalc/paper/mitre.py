"""A paper mitre: a corner with its fold lines and its trim line, to fold before touching linen."""

from __future__ import annotations

from fractions import Fraction

from hemcalc.corner.mitre import Corner
from hemcalc.draw.marks import spread
from hemcalc.measure.errors import HemError, of_type
from hemcalc.measure.exact import whole_threads
from hemcalc.paper.flow import HEADING, TEXT, Flow
from hemcalc.paper.leaflet import Leaflet
from hemcalc.paper.letters import height_of, width_of, wrapped
from hemcalc.paper.page import Page
from hemcalc.paper.printer import paper_size
from hemcalc.workshop.kit import Kit

_MAX_SCALE = 6  # times as large as the cloth; beyond it a hem of a few threads is large enough
_HIGH = 150.0  # room for the corner, mm
_NAMES = ("fold 1", "fold 2", "edge of the paper", "corner fold", "trim")
_WORK = ("this way lies the design,", "on the other side of the cloth")
_FOLDS = {
    "corner": "Fold the corner over on the corner fold.",
    "turn": "Fold the turns over on both fold 2 lines.",
    "hem": "Fold the hems over on both fold 1 lines: the two slanting edges meet in the mitre.",
}


def paper_mitre(
    kit: Kit, *, unit: str | None = None, paper: str = "A4", scale: int | None = None, note: str = ""
) -> Leaflet:
    """A corner of a kit's piece to cut out and fold.

    Words are in ``"in"``, ``"cm"`` or ``"mm"``, the paper is ``"A4"`` or ``"Letter"``; a note stands at the
    foot. The scale is 1 for true size, 2 for twice that and so on; if it is left out, the largest that fits,
    up to 6. Refused if it doesn't fit on the sheet at that size.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> paper_mitre(example_workshop().kits[0]).pages[0].alt[:69]
    'Paper mitre: bread cloth, page 1 of 1 on A4. 3 times as large as life'
    """
    of_type(kit, Kit, "kit", "Kit('Ada', example('coaster'))")
    unit = kit.piece.fabric.warp.unit_or(unit)
    title = f"Paper mitre: {kit.kind}"
    flow = Flow(paper_size(paper), title, note)
    flow.title_line(title)
    shown = set_mitre(flow, kit, unit, scale)
    flow.cautions("blade")
    return flow.leaflet(title, shown)


def set_mitre(flow: Flow, kit: Kit, unit: str, scale: int | None = None, head: str = "") -> str:
    """Set a kit's corner with how it is folded, as large as what is left of the page allows; its alt text."""
    corner = kit.piece.corners.top_left
    across, down = (edge.hem_width.text(unit) for edge in (corner.across, corner.down))
    hems = f"hem {across}" if across == down else f"hems {across} left and right, {down} top and bottom"
    steps = " ".join(f"{number}. {words}" for number, words in enumerate(_instructions(corner), 1))
    # Its words, the open line's name above it, and what is left free about them.
    above = height_of(TEXT, len(wrapped(steps, flow.room, TEXT)) + 3) + 10
    if not flow.has(above + _side(corner) + (HEADING if head else 0)):
        flow.new_page()
    if head:
        flow.heading(head)
    times = _scale(corner, scale, flow, flow.page.bottom - flow.y - above)
    size = "At true size" if times == 1 else f"{times} times as large as life"
    flow.paragraph(
        f"{size}: one corner of {kit.learner}'s {kit.kind}, {hems}. The printed side is the wrong "
        "side of the cloth, toward which every fold turns. Cut the paper out along its outer line."
    )
    flow.paragraph(steps)
    flow.gap(1 + height_of(TEXT))
    _draw(*flow.place(_side(corner) * times + 4, "The corner"), corner, times)
    return f"{size}, {hems}, with fold, corner and trim lines."


def _inward(corner: Corner) -> float:
    """Paper kept inward of the open lines' crossing, mm: enough to hold, whatever the hem."""
    return max(float(place) for place in corner.raw_corner)


def _side(corner: Corner) -> float:
    """Side of the square that holds the corner, mm."""
    return _inward(corner) + max(float(place) for place in corner.raw_corner)


def _scale(corner: Corner, scale: int | None, flow: Flow, left: float) -> int:
    room = min(_HIGH, left, flow.room - 4 - max(width_of(name, TEXT) for name in _NAMES) - 10)
    most = min(int(room / _side(corner)), _MAX_SCALE)
    asked = 1 if scale is None else whole_threads(scale, "scale", least=1, most=100, example=2)
    if most < asked:
        raise HemError(
            f"The paper mitre would be {_side(corner) * asked:.0f} mm each way at "
            f"{'true size' if asked == 1 else f'{asked} times its size'}, but {flow.paper.name} has "
            f"{room:.0f} mm of room for it; for example "
            f"{f'scale={most}' if most else 'practise on a piece with a narrower hem'}.",
            "scale",
        )
    return most if scale is None else asked


def _instructions(corner: Corner) -> list[str]:
    words = []
    if corner.trim is not None:
        words.append("Cut the corner off along the trim line.")
    for kind in dict.fromkeys(fold.name.split()[0] for fold in corner.folds):
        words.append(_FOLDS[kind])
    lands = corner.trim_lands_mm
    if lands is not None and abs(lands) < 1e-9:
        words.append(
            "Look: the trimmed edge has come to touch the crossing of the open lines, "
            "and fold 2 lies on the open lines."
        )
    return words


def _draw(page: Page, x: float, y: float, corner: Corner, times: int) -> None:
    """The flat corner at scale: across to the right and down, both outward."""
    inward = _inward(corner)

    def at(point: tuple[Fraction | float, Fraction | float]) -> tuple[float, float]:
        return x + (inward + float(point[0])) * times, y + (inward + float(point[1])) * times

    right, low = (float(place) for place in corner.raw_corner)
    hx, hy = (float(hem) for hem in corner.hems)
    outline = ((-inward, -inward), (right, -inward), (right, low), (-inward, low), (-inward, -inward))
    page.line([at(point) for point in outline], "edge")
    for place in (hx, 2 * hx):
        page.line([at((place, -inward)), at((place, low))], "basted")
    for place in (hy, 2 * hy):
        page.line([at((-inward, place)), at((right, place))], "basted")
    wide_x, wide_y = (float(edge.width(edge.drawn).mm) for edge in (corner.across, corner.down))
    page.line([at((0, -inward)), at((0, 0)), at((-inward, 0))], "dimension")
    if (inward - wide_x) * times > max(width_of(words, TEXT) for words in _WORK) + 6:
        for i, words in enumerate(_WORK):
            page.text(x + 3, y + 3 + height_of(TEXT, i), words, TEXT)
    page.line([at((-wide_x, -inward)), at((-wide_x, -wide_y)), at((-inward, -wide_y))], "dimension")
    ends = {"fold 1": (right, hy), "fold 2": (right, 2 * hy), "edge of the paper": (right, low)}
    if corner.corner_fold is not None:
        page.line([at(point) for point in corner.corner_fold], "fold")
        ends["corner fold"] = _float(corner.corner_fold[-1])
    if corner.trim is not None:
        page.line([at(point) for point in corner.trim], "cut")
        ends["trim"] = _float(corner.trim[-1])
    ends["open line"] = (-wide_x / 2, -inward)
    _names(page, {name: at(end) for name, end in ends.items()}, at((right, low))[0])


def _names(page: Page, ends: dict[str, tuple[float, float]], right: float) -> None:
    """Names in a column beside the paper, each with a leader to the end of its line."""
    (x, y) = ends.pop("open line")
    page.text(x + 2, y - height_of(TEXT), "open line", TEXT)
    named = sorted(ends.items(), key=lambda end: end[1][1])
    heights = [height_of(TEXT)] * len(named)
    last = named[-1][1][1] + 8
    places = spread([end[1] for _, end in named], heights, page.top, last)
    for (name, end), place in zip(named, places, strict=True):
        page.line([end, (right + 6, place)])
        page.text(right + 7, place - height_of(TEXT) / 2, name, TEXT)


def _float(point: tuple[Fraction, Fraction]) -> tuple[float, float]:
    return float(point[0]), float(point[1])
