"""The sums of a piece, one definition a number, as a learner does them on paper.

Each number that a learner may be asked for is defined once, in steps that compute it and write
it down. How the sums are done is part of them: how often the hem is counted, which way a half
is rounded. So a slip is the same sums with one thing changed, done again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from hemcalc.measure.errors import of_type, one_of
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import RULER_MARK, Length
from hemcalc.measure.units import MILLIMETRES
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES
from hemcalc.sums.working import Worked, larger, number, size

__all__ = ["NAMES", "SIZES", "Cloth", "Sums", "sums_of"]

#: The numbers that can be asked for, in the order of the work, and what each one is.
NAMES = {
    "first drawn": "number of the first thread drawn, counted outward from the design",
    "hem": "width of the finished hem",
    "turn": "cloth turned in under the back of the hem",
    "fold 1": "from the design to the first fold, the finished edge",
    "fold 2": "from the design to the second fold",
    "cut": "from the design to the line where the cloth is cut",
    "total": "the whole ledger of one side, from the design to the cut line",
    "draw line": "from the cut edge in to the hem's side of the open line",
    "rule": "the rule of thumb, four times the hem",
    "need": "the ledger, and what handling needs beyond it",
    "slack": "what the rule has to spare; with a minus, what it is short",
    "margin": "cloth to leave on one side, the larger of rule and need",
    "finished across": "the finished piece, across",
    "finished down": "the finished piece, down",
    "cut across": "the cloth to cut, across",
    "cut down": "the cloth to cut, down",
}

#: Sizes of the whole piece, which no single side has.
SIZES = ("finished across", "finished down", "cut across", "cut down")

_FINISHED = ("hem", "turn", "finished across", "finished down")  # as lengths, after the wash


@dataclass(frozen=True, slots=True)
class Cloth:
    """One way of the cloth in hand: its count, and the share of its length that the wash takes.

    Parameters
    ----------
    count : Fraction
        Threads to the inch or the centimetre.
    per : str
        ``"in"`` or ``"cm"``.
    shrinks : Fraction
        Share that is still to be lost; 0 once the cloth is washed.
    """

    count: Fraction
    per: str
    shrinks: Fraction


@dataclass(frozen=True, slots=True)
class Sums:
    """What the sums are done from, and how they are done. Made by `sums_of`.

    The fields from `faces` on say how; changing one of them makes a slip.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> sums = sums_of(example("bread cloth"))
    >>> sums.worked("total").line
    '7 + 2 + 11 + 11 + 6 = 37 threads'
    >>> replace(sums, turns=0).worked("total").line
    '7 + 2 + 11 + 11 = 31 threads'
    >>> sums.worked("cut across", "in").line
    '(230 + 44 + 44) threads ÷ 29 threads/in ≈ 10 15/16 in, rounded up to 11 in'
    """

    side: str
    across: Cloth
    down: Cloth
    design: tuple[int, int]
    clears: tuple[int, int, int, int]
    drawn: int
    #: As asked for, in threads or as a length; no turn is half the hem.
    hem: Worked
    turn: Worked | None
    handling: Worked
    #: How often the hem's face and its back are counted.
    faces: int = 1
    backs: int = 1
    turns: int = 1
    counts_drawn: bool = True
    #: Threads from the clear band to the first one drawn.
    clear_to_drawn: int = 1
    folds_exchanged: bool = False
    centred: bool = False
    sides_counted: int = 2
    hem_to_nearest: bool = True
    half_up: bool = True
    marks_up: bool = True
    rule_alone: bool = False

    def worked(self, name: str, unit: str = "threads") -> Worked:
        """The number of this name, in threads or as a length, with its working.

        Lengths of the finished hem, its turn and the finished piece are those after the wash;
        all others are as a ruler reads them on the cloth in hand. A size to cut as a length is
        rounded up to the next mark of the ruler, 1/8 in, 0.5 cm or 1 mm.

        Raises
        ------
        HemError
            If there is no number of this name, or it can't be said in this unit.
        """
        one_of(name, tuple(NAMES), "name")
        one_of(unit, ("threads",) if name == "first drawn" else ("threads", "in", "cm", "mm"), "unit")
        threads = self._threads(name)
        if unit == "threads":
            return threads
        cloth = self.down if self.runs_down(name) else self.across
        length = threads.in_length(cloth.count, cloth.per, unit)
        if name in _FINISHED and cloth.shrinks:
            length = length * (number(1) - Worked(cloth.shrinks, (str(cloth.shrinks),)))
        if name not in ("cut across", "cut down"):
            return replace(length, unit=unit)
        mark = RULER_MARK[unit].mm / MILLIMETRES[unit]
        length = replace(length, unit=unit)
        return length.up(mark) if self.marks_up else length.down(mark)

    def bounds(self) -> tuple[int, ...]:
        """Where the ledger's lines run, from the design: open line, folds and cut.

        After the clear band, after the drawn threads, fold 1, fold 2, cut.
        """
        clear = self._clear(self.side)
        last = int(self._open_line(self.side).value)
        return clear, last, *(int(self.worked(name).value) for name in ("fold 1", "fold 2", "cut"))

    def _threads(self, name: str) -> Worked:
        side = self.side
        match name:
            case "first drawn":
                return self._first_drawn(side)
            case "hem":
                return self._hem(side)
            case "turn":
                return self._turn(side)
            case "fold 1":
                return self._second_fold(side) if self.folds_exchanged else self._first_fold(side)
            case "fold 2":
                return self._first_fold(side) if self.folds_exchanged else self._second_fold(side)
            case "cut" | "total":
                return self._cut(side)
            case "draw line":
                return self._draw_line(side)
            case "rule":
                return number(4) * self._hem(side).plain
            case "need":
                return self._need(side)
            case "slack":
                return self._threads("rule").plain - self._need(side).plain
            case "margin":
                return self._margin(side)
        way = 0 if name.endswith("across") else 1
        one, other = ("left", "right") if way == 0 else ("top", "bottom")
        of_side = self._margin if name.startswith("cut") else self._finished_edge
        total = number(self.design[way]) + of_side(one).plain
        return total + of_side(other).plain if self.sides_counted == 2 else total

    def runs_down(self, name: str) -> bool:
        """Whether this number is counted down the cloth, and not across."""
        return name.endswith("down") if name in SIZES else self.side in ("top", "bottom")

    def _cloth(self, side: str) -> Cloth:
        return self.down if side in ("top", "bottom") else self.across

    def _clear(self, side: str) -> int:
        return self.clears[SIDES.index(side)] - 1 + self.clear_to_drawn

    def _hem(self, side: str) -> Worked:
        if self.hem.unit == "threads":
            return self.hem
        threads = self._finished(self.hem, side)
        return threads.nearest() if self.hem_to_nearest else threads.other_way()

    def _turn(self, side: str) -> Worked:
        if self.turn is None:
            half = self._hem(side).plain / number(2)
            return half.up() if self.half_up else half.down()
        return self.turn if self.turn.unit == "threads" else self._finished(self.turn, side).nearest()

    def _finished(self, length: Worked, side: str) -> Worked:
        """Threads of a length that is to be left after the wash."""
        cloth = self._cloth(side)
        threads = length.in_threads(cloth.count, cloth.per)
        if not cloth.shrinks:
            return threads
        return threads / (number(1) - Worked(cloth.shrinks, (str(cloth.shrinks),)))

    def _handling(self, side: str) -> Worked:
        if self.handling.unit == "threads":
            return self.handling
        cloth = self._cloth(side)
        return self.handling.in_threads(cloth.count, cloth.per).up()

    def _first_drawn(self, side: str) -> Worked:
        clear = number(self.clears[SIDES.index(side)])
        return replace(_add(clear, number(1), self.clear_to_drawn), unit="thread")

    def _open_line(self, side: str) -> Worked:
        clear = number(self._clear(side))
        return clear + number(self.drawn) if self.counts_drawn else clear

    def _first_fold(self, side: str) -> Worked:
        return _add(self._open_line(side), self._hem(side).plain, self.faces)

    def _second_fold(self, side: str) -> Worked:
        return _add(self._first_fold(side), self._hem(side).plain, self.backs)

    def _finished_edge(self, side: str) -> Worked:
        return self._second_fold(side) if self.folds_exchanged else self._first_fold(side)

    def _cut(self, side: str) -> Worked:
        """On from the second fold; with the folds exchanged, that is a hem too far out."""
        folded = _add(self._second_fold(side), self._hem(side).plain, int(self.folds_exchanged))
        return _add(folded, self._turn(side).plain, self.turns)

    def _draw_line(self, side: str) -> Worked:
        hem = self._hem(side).plain
        in_from_cut = _add(hem, hem, self.faces + self.backs - 1 + int(self.folds_exchanged))
        line = _add(in_from_cut, self._turn(side).plain, self.turns)
        return line - number(self.drawn) / number(2) if self.centred else line

    def _need(self, side: str) -> Worked:
        handling = self._handling(side).plain
        return _add(self._cut(side), handling, int(handling.value > 0))

    def _margin(self, side: str) -> Worked:
        rule = number(4) * self._hem(side).plain
        return rule if self.rule_alone else larger(rule, self._need(side))


def sums_of(piece: Piece, side: str = "left") -> Sums:
    """The sums of a piece, those of one edge for the side named.

    Raises
    ------
    HemError
        If `piece` is not a Piece, or there is no such side.
    """
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


def _begun(asked: int | str | Length) -> Worked:
    return size(asked) if isinstance(asked, str | Length) else number(asked)


def _cloth(fabric: Fabric, way: str) -> Cloth:
    count = getattr(fabric, way)
    # A count is said to the inch unless it was taken over whole millimetres.
    inches = (16 * count.over.inches).denominator == 1
    shrinks = Fraction(0) if fabric.washed else getattr(fabric, f"shrink_{way}")
    return Cloth(count.per_inch if inches else count.per_cm, "in" if inches else "cm", shrinks)


def _add(total: Worked, more: Worked, times: int) -> Worked:
    for _ in range(times):
        total = total + more
    return total
