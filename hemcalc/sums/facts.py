"""What the sums of a piece are of: the numbers that are asked for, the bands and lines, the cloth."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure.units import MILLIMETRES
from hemcalc.sums.working import Working, number

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

#: What to ask oneself about each number.
QUESTIONS = {
    "first drawn": "Which thread comes after the last one of the clear band?",
    "hem": "How many threads lie in the width that was asked for, and which whole number is nearest?",
    "turn": "How wide is the turn, beside the hem?",
    "fold 1": "Which bands of the edge lie between the design and the first fold?",
    "fold 2": "Which band of the edge lies between the two folds?",
    "cut": "Which bands of the edge lie between the design and the cut?",
    "total": "Which bands of the edge lie between the design and the cut?",
    "draw line": "Coming in from the cut edge, which bands do you cross before the open line?",
    "rule": "How many times the hem, and which hem?",
    "need": "What does the ledger need, and what do the fingers need beyond it?",
    "slack": "Which is taken from which?",
    "margin": "Which is the larger, rule or need?",
    "finished across": "At which line does the finished piece end, and on how many sides?",
    "finished down": "At which line does the finished piece end, and on how many sides?",
    "cut across": "What is added to the design, and on how many sides?",
    "cut down": "What is added to the design, and on how many sides?",
}

#: Sizes of the whole piece, which no single side has.
SIZES = ("finished across", "finished down", "cut across", "cut down")

#: Numbers that as lengths are those after the wash.
FINISHED = ("hem", "turn", "finished across", "finished down")

#: The bands of the ledger, from the design outward.
LEDGER = ("clear", "drawn", "face", "back", "turn")

#: The lines across the ledger, and the last band that lies within each.
LINES = {"fold 1": "face", "fold 2": "back", "cut": "turn"}


@dataclass(frozen=True, slots=True)
class CountedWay:
    """One way of the cloth in hand: its count, and the share of its length that the wash takes."""

    #: Threads to the inch or the centimetre.
    count: Fraction
    per: str
    #: Share that is still to be lost; 0 once the cloth is washed.
    shrinks: Fraction

    @property
    def pitch_mm(self) -> Fraction:
        """From one thread to the next."""
        return MILLIMETRES[self.per] / self.count

    @property
    def kept(self) -> Working:
        """The share of its length that the wash leaves."""
        return number(1) - Working(self.shrinks, (str(self.shrinks),))


def before_the_wash(threads: Working, cloth: CountedWay) -> Working:
    """Threads that are as many after the wash as were wanted before it shortened the cloth."""
    return threads / cloth.kept
