"""The slips that learners make in the sums of an edge, and the table of them all.

How often each is made is an estimate of ours, in three grades, with no published source.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction

from hemcalc.measure.errors import of_type
from hemcalc.piece.sides import SIDES
from hemcalc.sums.facts import LEDGER
from hemcalc.sums.piece_slips import OF_THE_PIECE
from hemcalc.sums.slip import (
    OFTEN,
    SELDOM,
    SOMETIMES,
    Slip,
    bands,
    beyond,
    done,
    draw_line,
    first_drawn,
    hem_asked,
    margin,
    rule_of,
    so,
)
from hemcalc.sums.sums import RECKONINGS, Sums
from hemcalc.sums.working import Working, number

_ALL = (
    # The ledger.
    Slip(
        "hem once",
        OFTEN,
        "the hem was counted once, not for its face and its back",
        "How often does the hem lie between the open line and the turn?",
        bands("clear", "drawn", "face", "turn"),
    ),
    Slip(
        "hem twice",
        SELDOM,
        "the hem was counted twice where it lies once",
        "How often does the hem's face lie in it, and how often the back?",
        bands("clear", "drawn", "face", "face", "back", "back", "turn"),
    ),
    Slip(
        "hem three times",
        SELDOM,
        "the hem was counted three times",
        "How often does the hem lie between the open line and the turn?",
        bands("clear", "drawn", "face", "back", "back", "turn"),
    ),
    Slip(
        "turn forgotten",
        OFTEN,
        "the turn was forgotten",
        "What lies beyond the hem's back, inside the fold?",
        bands(*LEDGER[:-1]),
    ),
    Slip(
        "turn twice",
        SELDOM,
        "the turn was counted twice",
        "How often is the cloth turned in under the hem's back?",
        bands(*LEDGER, "turn"),
    ),
    Slip(
        "drawn left out",
        OFTEN,
        "the drawn threads were left out of the ledger",
        "What becomes of the width of the threads that are drawn out?",
        bands("clear", "face", "back", "turn"),
    ),
    Slip(
        "clear forgotten",
        SOMETIMES,
        "the clear band was forgotten",
        "What lies between the design and the open line?",
        bands(*LEDGER[1:]),
    ),
    Slip(
        "clear twice",
        SELDOM,
        "the clear band was counted twice",
        "How often does the clear band lie between the design and the cut?",
        bands("clear", *LEDGER),
    ),
    Slip(
        "first drawn as the last clear",
        OFTEN,
        "the last clear thread was taken for the first one drawn",
        "Which thread comes after the last one of the clear band?",
        first_drawn(0),
    ),
    Slip(
        "one thread beyond",
        SOMETIMES,
        "the first drawn thread was counted one thread too far out",
        "Is there a thread between the last of the clear band and the first one drawn?",
        first_drawn(2),
    ),
    Slip(
        "line counted as a thread",
        SOMETIMES,
        "the line was counted as a thread of its own",
        "A fold runs between two threads: after which one?",
        beyond,
    ),
    Slip(
        "folds exchanged",
        SOMETIMES,
        "one fold was taken for the other",
        "Which of the two folds is the finished edge?",
        so(exchanged={"fold 1": "fold 2", "fold 2": "fold 1"}),
    ),
    Slip(
        "one side for all",
        SOMETIMES,
        "the clear band of one side was taken for all four",
        "Is the clear band as wide on every side?",
        lambda sums: replace(sums, clears=(sums.clears[SIDES.index(sums.side)],) * 4),
    ),
    # The hem and the turn.
    Slip(
        "hem rounded the wrong way",
        OFTEN,
        "the hem was rounded to the wrong side",
        "Which whole number of threads is nearest to the width that was asked for?",
        so(to_hem=Working.other_way),
    ),
    Slip(
        "turn rounded down",
        OFTEN,
        "the half thread of the turn was rounded down, not up",
        "Half of an odd hem has half a thread: which way does it go?",
        so(to_turn=Working.down),
    ),
    Slip(
        "turn as wide as the hem",
        OFTEN,
        "the turn was taken as wide as the hem",
        "How wide is the turn, beside the hem?",
        done(turn=lambda sums, side: sums.plain("hem", side)),
    ),
    Slip(
        "turn before rounding",
        SOMETIMES,
        "the turn was halved from the width asked for, before the hem was whole threads",
        "Which hem is halved: the width that was asked for, or its whole threads?",
        done(
            turn=lambda sums, side: (
                RECKONINGS["turn"](sums, side) if sums.turn else (hem_asked(sums, side) / number(2)).nearest()
            )
        ),
    ),
    # The line for drawing.
    Slip(
        "open line centred",
        SOMETIMES,
        "the open line was centred on its mark, which makes the hem too narrow",
        "Which edge of the open line lies two hems and the turn in from the cut edge?",
        draw_line(lambda line, drawn: line - drawn / number(2)),
    ),
    Slip(
        "drawn added to the draw line",
        SOMETIMES,
        "the drawn threads were added to the line for drawing",
        "Do the drawn threads lie between the cut edge and the hem's side of the open line?",
        draw_line(lambda line, drawn: line + drawn),
    ),
    # The margin.
    Slip(
        "rule alone",
        OFTEN,
        "the rule of four was taken although the ledger needs more",
        "Is four times the hem as much as the ledger needs?",
        margin(lambda rule, need: rule),
    ),
    Slip(
        "need taken for the margin",
        OFTEN,
        "what the ledger needs was taken although the rule of four asks for more",
        "Which is the larger, four times the hem or what the ledger needs?",
        margin(lambda rule, need: need),
    ),
    Slip(
        "smaller taken",
        SOMETIMES,
        "the smaller of rule and need was taken",
        "Which of the two is on the safe side, the larger or the smaller?",
        margin(lambda rule, need: rule if rule.value < need.value else need),
    ),
    Slip(
        "handling forgotten",
        OFTEN,
        "what handling needs was forgotten",
        "What does the ledger leave for the fingers to hold?",
        so(handling=number(0)),
    ),
    Slip(
        "sign of the slack",
        OFTEN,
        "rule and need were taken from each other the wrong way round",
        "What is left of the rule when the need is taken from it?",
        done(slack=lambda sums, side: sums.plain("need", side) - sums.plain("rule", side)),
    ),
    Slip(
        "rule of three", SELDOM, "three times the hem was taken for the rule", "How many times?", rule_of(3)
    ),
    Slip("rule of two", SELDOM, "twice the hem was taken for the rule", "How many times?", rule_of(2)),
    Slip(
        "rule before rounding",
        SOMETIMES,
        "the rule was taken from the width asked for, before the hem was whole threads",
        "Four times which hem: the width that was asked for, or its whole threads?",
        done(rule=lambda sums, side: (number(4) * hem_asked(sums, side)).nearest()),
    ),
    *OF_THE_PIECE,
)


def _worked_at(side: str) -> Slip:
    return Slip(
        f"{side} for another side",
        SOMETIMES,
        f"it was worked at the {side}, and not at the side that is asked for",
        "Which side is asked for, and is it like the one that you worked?",
        lambda sums: replace(sums, side=side),
    )


#: The slips that are looked for, by name.
SLIPS = {slip.name: slip for slip in (*_ALL, *map(_worked_at, SIDES))}


@dataclass(frozen=True, slots=True)
class Pen:
    """A slip of the pen, or in adding up: made at one number, whichever that is."""

    slip: Slip
    #: Whether it makes this number of that one.
    made: Callable[[Fraction, Fraction], bool] = field(repr=False)


def _pen(name: str, often: int, clause: str, made: Callable[[Fraction, Fraction], bool]) -> Pen:
    return Pen(Slip(name, often, clause, "Does it come out the same if you add it up once more?", so()), made)


def _reversed(right: Fraction, wrong: Fraction) -> bool:
    return wrong.denominator == 1 and right != wrong and str(abs(right)) == str(abs(wrong))[::-1]


#: Slips of the pen.
PEN = (
    _pen("out by one", SOMETIMES, "it was counted or added up one out", lambda a, b: abs(a - b) == 1),
    _pen("out by ten", SELDOM, "it was added up ten out", lambda a, b: abs(a - b) == 10),
    _pen("digits reversed", SELDOM, "the two figures changed places", _reversed),
)


def possible_slips(sums: Sums, name: str, unit: str = "threads") -> dict[str, Working]:
    """What each slip would give for a number, by the slip's name; those that change it only.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> from hemcalc.sums.sums import sums_of
    >>> slips = possible_slips(sums_of(example("bread cloth")), "rule")
    >>> {name: int(working.value) for name, working in slips.items()}
    {'hem rounded the wrong way': 40, 'rule of three': 33, 'rule of two': 22, ...}
    """
    right = of_type(sums, Sums, "sums", "sums_of(example('bread cloth'))").working(name, unit)
    results = {slip.name: slip.working(sums, name, unit) for slip in SLIPS.values()}
    return {slip: working for slip, working in results.items() if working and working.value != right.value}
