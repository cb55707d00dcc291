"""Three ways with the drawn threads at a corner, compared on the cloth that each leaves.

They are darned back beyond the corner, or drawn right out to the raw edge, or cut short of the
corner and their ends tucked under the hem. Every number is counted on a simulated cloth.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from hemcalc.measure.errors import of_type
from hemcalc.weave.crossings import Cloth, Stretch
from hemcalc.weave.darning import darned
from hemcalc.weave.open_lines import End, drawn_out, withdraw
from hemcalc.weave.reach import Allowances
from hemcalc.weave.weave import WEAVE_EXAMPLE, Weave

#: The three ways of the corner that books and practice have.
WAYS = ("darned back", "run right out", "cut short and tucked")


@dataclass(frozen=True, slots=True)
class CornerWay:
    """What one way leaves at a corner, in both hems that meet there, out to the cut line."""

    name: str
    cloth: Cloth
    #: Places of the hems where a thread is missing, and how many of them the face shows.
    gaps: int
    gaps_on_face: int
    #: Places where an end lies behind the cloth, so that the thread is double.
    doubled: int
    #: Threads over which the two threads beside a gap lie on the same side, as one double thread.
    paired: int
    #: Pitches of the longest stretch in which a thread of the hems crosses nothing; 1 in whole cloth.
    longest_float: int
    #: Ends that stop within the hems and must be hidden there.
    ends: int
    #: Places of the corner where neither thread lies.
    open_places: int
    #: Places where the cloth is not plain weave, gaps apart.
    faults: int

    @property
    def whole(self) -> bool:
        """Whether the hems are plain weave throughout, with nothing missing and nothing double."""
        return not (self.gaps or self.doubled or self.paired or self.faults)

    def __repr__(self) -> str:
        return (
            f"CornerWay({self.name}: {self.gaps} gaps, {self.ends} ends, longest float {self.longest_float})"
        )

    def text(self) -> str:
        """What it leaves, in a sentence."""
        if self.whole:
            return (
                f"{self.name.capitalize()}: the hems are whole cloth, {self.open_places} open at the corner."
            )
        return (
            f"{self.name.capitalize()}: {self.gaps} places of the hems lack a thread, {self.gaps_on_face} of "
            f"them on the face; {self.doubled} have an end behind them, {self.paired} a double thread."
        )


def ways_at(weave: Weave, corner: str) -> tuple[CornerWay, CornerWay, CornerWay]:
    """The three ways at a corner such as "top left": darned back, run right out, cut short and tucked.

    The weave's `allowances.tuck` says how long an end is tucked.

    Source
    ------
    Ends tucked for about 1 cm: Encyclopedia of Needlework, Therese de Dillmont, Project
    Gutenberg 20776 (orig. c. 1886-90, not seen), figs. 92-95. Darning back: common practice of
    the trade, no published source.

    Examples
    --------
    >>> from hemcalc import Fabric, Piece
    >>> from hemcalc.weave.weave import open_line
    >>> piece = Piece(Fabric("28/in"), (48, 48), hem=6, same="threads", clear=8)
    >>> weave = open_line(piece)
    >>> [(way.name, way.gaps, way.longest_float, way.ends) for way in ways_at(weave, "top left")]
    [('darned back', 0, 1, 0), ('run right out', 60, 3, 0), ('cut short and tucked', 0, 1, 4)]
    """
    of_type(weave, Weave, "weave", WEAVE_EXAMPLE)
    ends = weave.ends_at(corner)
    back = drawn_out(weave.woven, ends, weave.turn_at)
    for tail in weave.tails_at(corner):
        back = darned(back, tail)
    out = short = weave.woven
    for end in ends:
        for thread in end.side.drawn:
            out = withdraw(out, end, thread, None)
            short = _tucked(short, end, thread, weave.allowances)
    first, second, third = (
        _seen(name, cloth, ends) for name, cloth in zip(WAYS, (back, out, short), strict=True)
    )
    return first, second, third


def _tucked(cloth: Cloth, end: End, thread: int, allowances: Allowances) -> Cloth:
    """The cloth with a thread out as far as the hem, its end tucked behind it."""
    hem = end.other.edge.open_line + 1
    cloth = withdraw(cloth, end, thread, hem)
    longest = end.half + end.other.edge.drawn - allowances.u_turn
    behind = min(allowances.tucked_threads(end.other.edge), math.floor(longest))
    if behind < 1:
        return cloth
    stretch = Stretch(end.tail_name(thread), *end.span(hem, hem + behind - 1), kind="tucked")
    return cloth.lay(end.side.direction, end.side.line(thread), stretch)


def _seen(name: str, cloth: Cloth, ends: tuple[End, End]) -> CornerWay:
    gaps = on_face = doubled = paired = loose = 0
    longest = 1
    for end in ends:
        edge, side = end.other.edge, end.side
        for met in range(edge.open_line + 1, edge.cut + 1):
            place = end.other.line(met)
            for thread in side.drawn:
                missing = cloth.lying(side.direction, side.line(thread), place) is None
                gaps += missing
                on_face += missing and met <= edge.fold_1
                doubled += cloth.tucked(side.direction, side.line(thread), place)
            for (inner, over), (outer, next_over) in pairwise(_across_the_line(cloth, end, met)):
                longest = max(longest, outer - inner)
                paired += outer - inner > 1 and over == next_over
        loose += _ends_in_hem(cloth, end)
    row_end, column_end = ends
    corner = (row_end.place(n, m) for n in row_end.side.drawn for m in column_end.side.drawn)
    open_places = sum(cloth.crossing(*place).open for place in corner)
    return CornerWay(
        name, cloth, gaps, on_face, doubled, paired, longest, loose, open_places, len(cloth.faults)
    )


def _across_the_line(cloth: Cloth, end: End, met: int) -> Iterator[tuple[int, str]]:
    """The crossings of a hem's thread from the clear band across the drawn lines to the hem."""
    edge = end.side.edge
    for thread in range(edge.clear, edge.open_line + 2):
        over = cloth.crossing(*end.place(thread, met)).over
        if over is not None:
            yield thread, over


def _ends_in_hem(cloth: Cloth, end: End) -> int:
    """Ends of this end's drawn threads that stop short of the cut line."""
    cut = end.other.line(end.other.edge.cut)
    stretches = (s for n in end.side.drawn for s in cloth.stretches(end.side.direction, end.side.line(n)))
    return sum(s.kind == "tucked" or (s.kind == "darned" and cut not in (s.first, s.last)) for s in stretches)
