"""The sums of a piece, one step a number, as a learner does them on paper.

Each number that a learner may be asked for is worked by one step from the steps before it, which
computes it and keeps how. A fact misread, a band left out or a step done otherwise makes the sums
of a slip; a number of hers put in the place of a step makes the sums that go on from it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction

from hemcalc.measure.errors import of_type, one_of
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import RULER_MARK, Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES
from hemcalc.sums.facts import FINISHED, LEDGER, LINES, NAMES, SIZES, CountedWay, before_the_wash
from hemcalc.sums.working import Working, larger, number, size


@dataclass(frozen=True, slots=True)
class Sums:
    """What the sums are done from, and how they are done. Made by `sums_of`.

    The fields from `bands` on say how; another one of them makes a slip.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> sums = sums_of(example("bread cloth"))
    >>> sums.working("total").line
    '7 + 2 + 11 + 11 + 6 = 37 threads'
    >>> replace(sums, bands=("clear", "drawn", "face", "back")).working("total").line
    '7 + 2 + 11 + 11 = 31 threads'
    >>> sums.going_on_from({"fold 2": 30}).working("total").line
    '30 + 6 = 36 threads'
    >>> sums.working("cut across", "in").line
    '(230 + 44 + 44) threads ÷ 29 threads/in ≈ 10 15/16 in, rounded up to 11 in'
    """

    side: str
    across: CountedWay
    down: CountedWay
    design: tuple[int, int]
    clears: tuple[int, int, int, int]
    drawn: int
    #: As asked for, in threads or as a length; no turn is half the hem.
    hem: Working
    turn: Working | None
    handling: Working
    #: The bands that are added up, each as often as it stands here.
    bands: tuple[str, ...] = LEDGER
    #: On how many sides of the design the margin and the hem are put, each way.
    ends: int = 2
    to_hem: Callable[[Working], Working] = Working.nearest
    to_turn: Callable[[Working], Working] = Working.up
    to_mark: Callable[[Working, Fraction], Working] = Working.up
    to_wash: Callable[[Working, CountedWay], Working] = before_the_wash
    #: The unit that is reckoned in, by the one that is written behind it.
    reckoned_in: Mapping[str, str] = field(default_factory=dict)
    #: What is written down for a number instead of its own, while the working goes on with the own.
    exchanged: Mapping[str, str] = field(default_factory=dict)
    #: What is reckoned otherwise than `RECKONINGS` has it.
    otherwise: Mapping[str, Reckoning] = field(default_factory=dict)
    #: Numbers of hers that stand in the place of a step, on her side and on those like it.
    hers: Mapping[str, int] = field(default_factory=dict)
    _done: dict[tuple[str, str], Working] = field(default_factory=dict, init=False, repr=False, compare=False)

    def working(self, name: str, unit: str = "threads") -> Working:
        """The number of this name, in threads or as a length, with its working.

        Lengths of the finished hem, its turn and the finished piece are those after the wash;
        all others are as a ruler reads them on the cloth in hand. A size to cut as a length is
        rounded up to the next mark of the ruler, 1/8 in, 0.5 cm or 1 mm.
        """
        one_of(name, tuple(NAMES), "name")
        one_of(unit, ("threads",) if name == "first drawn" else ("threads", "in", "cm", "mm"), "unit")
        name, reckoned = self.exchanged.get(name, name), self.reckoned_in.get(unit, unit)
        threads = self.step(name, self.side)
        if unit == "threads":
            return threads
        cloth = self.cloth_of(name)
        length = threads.in_length(cloth.count, cloth.per, reckoned)
        if name in FINISHED and cloth.shrinks:
            length = length * cloth.kept
        if name.startswith("cut "):
            length = self.to_mark(length, RULER_MARK[reckoned].mm / MILLIMETRES[reckoned])
        return length.called(unit)

    def step(self, name: str, side: str) -> Working:
        """A step of the working of one side; one that was done is kept."""
        key = name, side
        if key not in self._done:
            self._done[key] = (self.otherwise.get(name) or RECKONINGS[name])(self, side)
        return self._done[key]

    def plain(self, name: str, side: str) -> Working:
        """The result of a step, to go on from: hers, if she has one."""
        if name in self.hers and self._alike(name, side):
            return number(self.hers[name])
        return self.step(name, side).plain

    def going_on_from(self, hers: Mapping[str, int]) -> Sums:
        """The sums in which these numbers of hers, in threads, stand in the place of the right ones."""
        return replace(self, hers={"cut" if name == "total" else name: hers[name] for name in hers})

    def bounds(self) -> tuple[int, ...]:
        """Where the ledger's lines run, from the design: open line, folds and cut.

        After the clear band, after the drawn threads, fold 1, fold 2, cut.
        """
        clear = int(self.step("clear", self.side).value)
        return clear, clear + self.drawn, *(int(self.working(name).value) for name in LINES)

    def runs_down(self, name: str) -> bool:
        """Whether this number is counted down the cloth, and not across."""
        return name.endswith("down") if name in SIZES else self.side in ("top", "bottom")

    def cloth_of(self, name: str) -> CountedWay:
        """The cloth as it is counted for this number."""
        return self.down if self.runs_down(name) else self.across

    def cloth(self, side: str) -> CountedWay:
        """The cloth as it is counted at right angles to this side."""
        return self.down if side in ("top", "bottom") else self.across

    def clear(self, side: str) -> Working:
        """The clear threads of this side."""
        return number(self.clears[SIDES.index(side)])

    def in_threads(self, length: Working, side: str) -> Working:
        """Threads of a length that is to be left after the wash."""
        cloth = self.cloth(side)
        threads = length.in_threads(cloth.count, cloth.per)
        return self.to_wash(threads, cloth) if cloth.shrinks else threads

    def _alike(self, name: str, side: str) -> bool:
        """Whether this side has the same number as hers, as far as its facts go."""
        same_cloth = self.cloth(side) == self.cloth(self.side) or self.hem.unit == "threads"
        return same_cloth and (name in ("hem", "turn", "rule") or self.clear(side) == self.clear(self.side))


#: How a number is worked, of these sums, for a side.
Reckoning = Callable[[Sums, str], Working]


def _hem(sums: Sums, side: str) -> Working:
    return sums.hem if sums.hem.unit == "threads" else sums.to_hem(sums.in_threads(sums.hem, side))


def _turn(sums: Sums, side: str) -> Working:
    if sums.turn is None:
        return sums.to_turn(sums.plain("hem", side) / number(2))
    return sums.turn if sums.turn.unit == "threads" else sums.in_threads(sums.turn, side).nearest()


def _handling(sums: Sums, side: str) -> Working:
    if sums.handling.unit == "threads":
        return sums.handling
    cloth = sums.cloth(side)
    return sums.handling.in_threads(cloth.count, cloth.per).up()


def _first_drawn(sums: Sums, side: str) -> Working:
    return (sums.clear(side) + number(1)).called("thread")


def _clear(sums: Sums, side: str) -> Working:
    """The clear band as the ledger has it: it ends where the first drawn thread begins."""
    if "first drawn" in sums.hers:
        return number(int(sums.plain("first drawn", side).value) - 1)
    return sums.clear(side)


def band(sums: Sums, name: str, side: str) -> Working:
    """How many threads a band takes."""
    if name == "drawn":
        return number(sums.drawn)
    return sums.plain({"face": "hem", "back": "hem"}.get(name, name), side)


def _line(name: str) -> Reckoning:
    """The bands that lie within a line, added up from the last line inside it that she has."""

    def step(sums: Sums, side: str) -> Working:
        within = LEDGER[: LEDGER.index(LINES[name]) + 1]
        bands = [band for band in sums.bands if band in within]
        begun: list[Working] = []
        for inner in reversed(list(LINES)[: list(LINES).index(name)]):
            if inner in sums.hers and sums._alike(inner, side):
                inside = LEDGER[: LEDGER.index(LINES[inner]) + 1]
                bands, begun = [band for band in bands if band not in inside], [sums.plain(inner, side)]
                break
        return added([*begun, *(band(sums, each, side) for each in bands)])

    return step


def added(terms: list[Working]) -> Working:
    """The terms, added up in their order; nothing at all is 0.

    Examples
    --------
    >>> added([number(7), number(2)]).value, added([]).value
    (Fraction(9, 1), Fraction(0, 1))
    """
    first, *rest = terms or [number(0)]
    for term in rest:
        first = first + term
    return first


def _draw_line(sums: Sums, side: str) -> Working:
    return added([band(sums, each, side) for each in sums.bands if each in LEDGER[2:]])


def _rule(sums: Sums, side: str) -> Working:
    return number(4) * sums.plain("hem", side)


def _need(sums: Sums, side: str) -> Working:
    handling = sums.step("handling", side).plain
    return added([*_begun_at(sums, side), *([handling] if handling.value > 0 else [])])


def _begun_at(sums: Sums, side: str) -> list[Working]:
    """The ledger, as one number if she has it and as its bands otherwise."""
    own = "cut" in sums.hers and sums._alike("cut", side)
    return [sums.plain("cut", side) if own else sums.step("cut", side)]


def _slack(sums: Sums, side: str) -> Working:
    need = sums.plain("need", side)
    return sums.plain("rule", side) - need


def _margin(sums: Sums, side: str) -> Working:
    return larger(sums.plain("rule", side), sums.plain("need", side))


def _whole(what: str, way: int) -> Reckoning:
    """The design and what lies beyond it at its ends, across or down, whichever side is asked for."""
    sides = (("left", "right"), ("top", "bottom"))[way]

    def step(sums: Sums, side: str) -> Working:
        beyond = [sums.plain(what, end) for end in (*sides, *sides)[: sums.ends]]
        return added([number(sums.design[way]), *beyond])

    return step


#: How each number is worked, and the steps between that nobody is asked for.
RECKONINGS: Mapping[str, Reckoning] = {
    "first drawn": _first_drawn,
    "clear": _clear,
    "hem": _hem,
    "turn": _turn,
    "handling": _handling,
    "fold 1": _line("fold 1"),
    "fold 2": _line("fold 2"),
    "cut": _line("cut"),
    "total": lambda sums, side: sums.step("cut", side),
    "draw line": _draw_line,
    "rule": _rule,
    "need": _need,
    "slack": _slack,
    "margin": _margin,
    # The edge that the finished piece ends at.
    "edge": lambda sums, side: sums.plain("fold 1", side),
    "finished across": _whole("edge", 0),
    "finished down": _whole("edge", 1),
    "cut across": _whole("margin", 0),
    "cut down": _whole("margin", 1),
}


def sums_of(piece: Piece, side: str = "left") -> Sums:
    """The sums of a piece, those of one edge for the side named."""
    of_type(piece, Piece, "piece", "example('bread cloth')")
    one_of(side, SIDES, "side")
    return Sums(
        side,
        _cloth(piece.fabric, "across"),
        _cloth(piece.fabric, "down"),
        piece.design,
        (piece.clear.left, piece.clear.right, piece.clear.top, piece.clear.bottom),
        piece.drawn,
        _begun(piece.hem),
        None if piece.turn is None else _begun(piece.turn),
        _begun(piece.handling),
    )


def _begun(asked: int | str | Length) -> Working:
    return size(asked) if isinstance(asked, str | Length) else number(asked)


def _cloth(fabric: Fabric, way: str) -> CountedWay:
    count = getattr(fabric, way)
    # A count is said to the inch unless it was taken over whole millimetres.
    inches = (16 * count.over.inches).denominator == 1
    shrinks = Fraction(0) if fabric.washed else getattr(fabric, f"shrink_{way}")
    return CountedWay(count.per_inch if inches else count.per_cm, "in" if inches else "cm", shrinks)
