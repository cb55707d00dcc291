"""How far a tail gets: its own length against the hem that it must be darned through.

A tail is half of a thread that lay between two corners. Some of it goes into the U-turn and
some to the needle's eye; the rest crosses one thread for each pitch. All is counted in pitches
of the threads that the tail crosses.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.edge.ledger import EDGE_EXAMPLE, Band, Edge
from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.exact import decimal_text, exact_number, half_up, whole_threads
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import share
from hemcalc.measure.words import percent, threads_said
from hemcalc.weave.open_lines import End

#: Pitches that a U-turn takes: half a circle one pitch wide, π/2 = 1.57, rounded up.
U_TURN = Fraction(8, 5)

#: How long an end that is only tucked under the hem is left, from the hem's edge: about 1 cm.
#: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776 (orig. c. 1886-90,
#: not seen), figs. 92-95.
TUCK = Length(10)

_MAX_PITCHES = 10**6


@dataclass(frozen=True)
class Allowances:
    """What a tail loses on its way, and how long an end is tucked.

    Parameters
    ----------
    u_turn : int, Fraction or Decimal
        Pitches that the U-turn takes, the two counts taken as alike for it.
    eye : int, Fraction, Decimal, Length or str
        What the needle's eye needs of the tail: pitches, or a length.
    crimp : int, Fraction, Decimal, float or str
        Crimp of the thread in the cloth: how much longer it is when straightened than the cloth
        it lay in, as a share: ``"8 %"``. The same for warp and weft.
    darned_crimp : int, Fraction, Decimal, float or str, optional
        Crimp at which it is darned; as in the cloth if left out, and then the crimp cancels.
    tuck : int, Length or str
        How long an end is left that is only tucked under the hem: threads, or a length.

    Source
    ------
    Common practice of the trade, no published source. Crimp is (straightened length - length in
    the cloth) / length in the cloth: ISO 7211-3, quoted from memory.

    Examples
    --------
    >>> Allowances(crimp="8 %", darned_crimp="5 %").factor
    Fraction(36, 35)
    """

    u_turn: Fraction
    eye: Fraction | Length
    crimp: Fraction
    darned_crimp: Fraction
    tuck: int | Length

    def __init__(
        self,
        u_turn: object = U_TURN,
        eye: object = 0,
        crimp: object = 0,
        darned_crimp: object = None,
        tuck: object = TUCK,
    ) -> None:
        values = {
            "u_turn": _pitches(u_turn, "u_turn"),
            "eye": _pitches_or_length(eye, "eye"),
            "crimp": share(crimp, "crimp"),
            "darned_crimp": share(crimp if darned_crimp is None else darned_crimp, "darned_crimp"),
            "tuck": _pitches_or_length(tuck, "tuck"),
        }
        for name, value in values.items():
            object.__setattr__(self, name, value)

    def __repr__(self) -> str:
        eye, tuck = (
            str(each) if isinstance(each, Length) else decimal_text(Fraction(each))
            for each in (self.eye, self.tuck)
        )
        crimp, darned = percent(self.crimp), percent(self.darned_crimp)
        turn = decimal_text(self.u_turn)
        return f"Allowances(U-turn {turn} pitches, eye {eye}, crimp {crimp}, darned {darned}, tuck {tuck})"

    @property
    def factor(self) -> Fraction:
        """What another crimp makes of a tail's span: (1 + crimp) / (1 + darned crimp)."""
        return (1 + self.crimp) / (1 + self.darned_crimp)

    def span(self, length: int, edge: Edge) -> Fraction:
        """Pitches that a tail of so many threads has left to go through this edge's hem."""
        of_type(edge, Edge, "edge", EDGE_EXAMPLE)
        length = whole_threads(length, "length", example=40)
        eye = edge.count.threads_in(self.eye) if isinstance(self.eye, Length) else self.eye
        return length * self.factor - self.u_turn - eye

    def tucked_threads(self, edge: Edge) -> int:
        """How many of this edge's threads a tucked end lies behind: no more than the face has."""
        of_type(edge, Edge, "edge", EDGE_EXAMPLE)
        exact = edge.count.threads_in(self.tuck) if isinstance(self.tuck, Length) else Fraction(self.tuck)
        return min(half_up(exact), edge.hem)


@dataclass(frozen=True, slots=True)
class Reach:
    """A tail's length held against what it must cover.

    The first thread that it crosses is the other side's c + 2, whose own tail it clasps; the
    last is the one before the cut line.
    """

    #: Threads that the tail lay across before it was withdrawn.
    length: int
    #: Threads to cross from the U-turn to the cut line, and how many of them the face shows.
    covers: int
    shows: int
    #: Pitches left to darn with, after crimp, U-turn and eye; less than 0 if it can't turn.
    span: Fraction
    #: The bands, and the threads of each, that stay without the tail.
    gaps: tuple[Band, ...]

    @property
    def crossed(self) -> int:
        """Threads that the tail crosses."""
        return min(max(math.floor(self.span), 0), self.covers)

    @property
    def short(self) -> int:
        """Threads that it fails to cross; 0 if it reaches the cut line."""
        return self.covers - self.crossed

    @property
    def spare(self) -> int:
        """Whole pitches that are left over at the cut line; 0 if it falls short."""
        return max(math.floor(self.span) - self.covers, 0)

    @property
    def gap_shows(self) -> bool:
        """Whether the tail ends so early that the front of the hem shows the gap."""
        return self.crossed < self.shows

    def text(self) -> str:
        """How far it gets, in a sentence."""
        if not self.short:
            return f"It crosses all {threads_said(self.covers)} to the cut line, with {self.spare} to spare."
        first = self.gaps[0]
        place = "where it shows" if self.gap_shows else "where it does not show"
        return (
            f"It crosses {self.crossed} of {threads_said(self.covers)} and stops {self.short} short: the gap "
            f"begins in the {first.name} band, at thread {first.first}, {place}."
        )


def reach_of(end: End, turn_at: str, allowances: Allowances) -> Reach:
    """How far the tail of thread c + 2 gets at this end.

    With c', w', h', t' of the side whose hem it is darned into and N threads between the
    corners, the tail has N/2 pitches, a half thread going to the upper or left end. It must
    cross w' - 1 + 2h' + t' threads, of which the first w' - 1 + h' show on the face:

        span = N/2 · (1 + k) / (1 + k₂) - U-turn - eye

    A U-turn outside the drawn lines is w' - 1 threads further out, so that the tail is that
    much longer and has that much less to cross; at the inner edge, one thread the other way.

    Source
    ------
    Common practice of the trade, no published source; the lengths are geometry.

    Examples
    --------
    >>> from hemcalc.edge.ledger import plan_edge
    >>> from hemcalc.weave.open_lines import Side
    >>> edge = plan_edge("22/in", 9, clear=5)
    >>> end = End(Side("top", "row", 26, edge), Side("left", "column", 26, edge), half=18)
    >>> reach = reach_of(end, "line", Allowances())
    >>> reach.length, reach.span, reach.covers, reach.shows, reach.crossed
    (18, Fraction(82, 5), 24, 10, 16)
    >>> [(band.name, band.first, band.last) for band in reach.gaps]
    [('back', 23, 25), ('turn', 26, 30)]
    """
    edge = end.other.edge
    first = end.beyond_turn(turn_at)
    length = max(end.half + first - (edge.clear + 2), 0)
    covers = edge.cut - first + 1
    shows = edge.fold_1 - first + 1
    span = allowances.span(length, edge)
    whole = Reach(length, covers, shows, span, ())
    return Reach(length, covers, shows, span, _beyond(edge, first + whole.crossed))


def _beyond(edge: Edge, first: int) -> tuple[Band, ...]:
    """The bands from this thread outward, each with the threads that lie there."""
    return tuple(Band(b.name, max(b.first, first), b.last) for b in edge.bands if b.last >= first)


def _pitches(value: object, about: str) -> Fraction:
    number = exact_number(value, about)
    if not 0 <= number <= _MAX_PITCHES:
        raise HemError(
            f"{about} is {shown(value)}, but must be 0 or more pitches of the cloth, at most "
            f"{_MAX_PITCHES:,}; for example Fraction(8, 5).",
            about,
        )
    return number


def _pitches_or_length(value: object, about: str) -> Fraction | Length:
    if isinstance(value, str | Length):
        return as_length(value, about, size=False)
    return _pitches(value, about)
