"""Short sums on all that a hem asks for beside its ledger, to be met again and again, mixed.

A topic and a seed give the same sum every time: what is told, what is asked, the working, and what
each likely slip gives. The numbers are chosen so that no slip and no short cut gives the right answer.
The workshop and its numbers are invented.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from hemcalc.measure import Length
from hemcalc.measure.errors import one_of
from hemcalc.measure.exact import decimal_text, whole_threads
from hemcalc.measure.units import MILLIMETRES
from hemcalc.sums.exercises import as_seed, pick
from hemcalc.sums.verdict import Verdict, judge
from hemcalc.sums.working import Working, number

_TRIES = 500
_APART = Fraction(15, 100)  # cm between a length and what a slip gives, so that a ruler tells them apart

#: A chance to draw from, and what comes of it: what is told and asked, worked, in what, and its slips.
_Made = tuple[str, str, Working, str, Mapping[str, Working], str]


@dataclass(frozen=True, slots=True)
class Task:
    """A short sum with one answer. Made by `task`."""

    topic: str
    seed: int
    facts: str
    asked: str
    working: Working
    #: What is counted, or the unit of the length that is asked for.
    of: str
    #: What each slip gives, by a clause that follows "if".
    slips: Mapping[str, Working]
    #: What to ask oneself.
    question: str

    @property
    def title(self) -> str:
        """Its topic and seed."""
        return f"{self.topic.capitalize()} {self.seed}"

    @property
    def right(self) -> Fraction | Length:
        """The right answer."""
        return self._in_its_unit(self.working)

    def _in_its_unit(self, working: Working) -> Fraction | Length:
        return Length(working.value * MILLIMETRES[self.of]) if self.of in MILLIMETRES else working.value

    def check(self, answer: object) -> Verdict:
        """The verdict on a learner's answer; a bare number is in what was asked for."""
        slips = {clause: self._in_its_unit(working) for clause, working in self.slips.items()}
        unit = self.of if self.of in MILLIMETRES else ""
        return judge(answer, self.right, slips, of=self.of, unit=unit)  # type: ignore[arg-type]

    def named(self, answer: object) -> str:
        """The clause of the slip that gives this answer; empty if none does, or it is right."""
        said = self.check(answer).text()
        return next((clause for clause in self.slips if clause in said), "")

    def line(self, blanks: int = 0) -> str:
        """The working on one line, with so many of its last numbers left open."""
        blanks = whole_threads(blanks, "blanks", example=1, of="numbers")
        line = self.working.faded(blanks) if blanks else self.working.line
        return line if self.of == "threads" else re.sub(r"threads?$", self.of, line)

    def __repr__(self) -> str:
        return f"Task({self.title}, in {self.of})"

    def text(self) -> str:
        """What is told and asked."""
        return f"{self.facts} {self.asked}"


def task(topic: str, seed: int) -> Task:
    """The sum of this topic with this seed.

    Source
    ------
    Each is worked as the notebook of its topic works it; the sources stand there and with the functions.

    Examples
    --------
    >>> sums = task("spacing", 3)
    >>> print(sums.text())
    The design of a sampler is 103 threads wide, with 7 threads clear at the left and 7 at the right. ...
    >>> sums.line()
    '30 × 4 − (103 + 7 + 7) = 3 threads'
    """
    one_of(topic, TOPICS, "topic")
    seed = as_seed(seed)
    chance = random.Random(f"hemcalc {topic} {seed}")
    for _ in range(_TRIES):
        facts, asked, working, of, slips, question = _TOPICS[topic](chance)
        apart = _APART if of in MILLIMETRES else 0
        if all(abs(slip.value - working.value) > apart for slip in slips.values()):
            break
    return Task(topic, seed, facts, asked, working, of, slips, question)


def _count(chance: random.Random) -> _Made:
    per, times = pick(chance, (2, 4)), pick(chance, (3, 5, 6))
    middle, off = pick(chance, range(40, 60)) * per // 2, pick(chance, (1, 2))
    readings = pick(chance, ((-off, -off, 2 * off), (off, off, -2 * off), (2 * off, -off, -off)))
    first, second, third = (middle + each for each in readings)
    mean = (number(first) + number(second) + number(third)) / number(3)
    slips = {
        "only the first reading was taken": number(first) * number(times),
        "only the last reading was taken": number(third) * number(times),
        "the three readings were added and not shared out": mean * number(3 * times),
        f"the {per} in were forgotten": mean * number(per * times),
    }
    facts = (
        f"A ruler of {per} in is laid on the linen in three places; {first}, {second} and {third} threads "
        "are counted."
    )
    asked = f"How many threads are {per * times} in?"
    question = "What is the mean of the three, and how often does the ruler go into the length?"
    return facts, asked, mean * number(times), "threads", slips, question


def _spacing(chance: random.Random) -> _Made:
    group, thing = pick(chance, (3, 4, 4, 5, 5)), pick(chance, ("tray cloth", "napkin", "sampler"))
    wider = pick(chance, range(1, group))
    left, right = pick(chance, range(4, 9)), pick(chance, range(4, 9))
    groups = pick(chance, range(16, 34))
    inner = groups * group - wider - left - right
    side = number(inner) + number(left) + number(right)

    def short(threads: int) -> Working:
        return number(-(-threads // group) * group - threads)

    slips = {
        "what is over was taken, and not what is missing": number(group - wider),
        "the clear bands were forgotten": short(inner),
        "one clear band was forgotten": short(inner + left),
    }
    facts = (
        f"The design of a {thing} is {inner} threads wide, with {left} threads clear at the left and {right} "
        f"at the right. It is hem stitched in groups of {group}."
    )
    asked = (
        "By how many threads must the clear band at the right grow, at the least, for all groups to be alike?"
    )
    question = "How many threads has the whole side, and which number of groups is next above it?"
    return facts, asked, number(groups) * number(group) - side, "threads", slips, question


def _corner(chance: random.Random) -> _Made:
    hem = pick(chance, range(8, 19))
    turn = pick(chance, [each for each in range(3, hem + 1) if 2 * each not in (hem, hem + 1)])
    both, whole = number(2) * number(turn), number(2) * (number(hem) + number(turn))
    facts = f"Two hems of {hem} threads with a turn of {turn} meet at a corner; the linen is even both ways."
    if chance.random() < 0.2:  # seldom, so that twice the turn is no short cut
        asked = (
            "The corner is trimmed through the crossing of the two fold 2 lines. How many threads long is "
            "what is cut off along each raw edge?"
        )
        slips = {
            "the turn was taken once": number(turn),
            "the hem was taken for it": number(hem),
            "it was measured from the crossing of the fold 1 lines": whole,
            "the hem was added to the turn": number(hem) + number(turn),
        }
        question = "How far is the crossing of the fold 2 lines from each raw edge?"
        return facts, asked, both, "threads", slips, question
    asked = (
        "The corner is folded over through the crossing of the two fold 1 lines. How many threads from the "
        "corner of the untrimmed cloth does that fold meet each raw edge?"
    )
    slips = {
        "it was measured from the crossing of the fold 2 lines": both,
        "only one way was counted": number(hem) + number(turn),
        "the turn was forgotten": number(2) * number(hem),
        "the hem was counted twice in": number(2) * number(hem) + number(turn),
    }
    question = "How far is the crossing of the fold 1 lines from each raw edge?"
    return facts, asked, whole, "threads", slips, question


def _thread(chance: random.Random) -> _Made:
    working, start, end = pick(chance, (40, 45, 50, 60)), pick(chance, (4, 5, 6)), pick(chance, (6, 8, 10))
    takes = 5 * pick(chance, range(24, 90))
    lengths = number(takes) / (number(working) - (number(start) + number(end)))
    slips = {
        "starts and ends were forgotten": (number(takes) / number(working)).up(),
        "the last, short length was left out": lengths.down(),
        "start and end were taken once, and not off each length": (
            number(takes + start + end) / number(working)
        ).up(),
        "only the start was taken off": (number(takes) / (number(working) - number(start))).up(),
    }
    facts = (
        f"The stitches of a piece take {takes} cm of thread, waste and all. Each length is {working} cm; its "
        f"start takes {start} cm and its end {end} cm."
    )
    question = "How much does each length sew, and what becomes of the rest that is shorter than that?"
    return facts, "How many lengths do you cut?", lengths.up(), "lengths", slips, question


def _wash(chance: random.Random) -> _Made:
    """Either way: what to have on the cloth in hand, or what is left of it after the wash."""
    loses = pick(chance, (5, 8, 10))
    side, how = pick(chance, (("width", "wide"), ("length", "long")))
    share = Fraction(loses, 100)
    kept = number(1) - Working(share, (f"{share}",))
    hand = pick(chance, range(4, 17)) * Fraction(25 if loses == 8 else 20) / 2
    after = hand * kept.value
    facts = f"Raw linen is not washed yet; the wash takes {loses} % off its {side}."
    if chance.random() < 0.5:
        size = decimal_text(after)
        asked = f"A cloth is to be {size} cm {how} after the wash. How {how} is it before the wash?"
        right = _cm(after) / kept
        slips = {
            "the wash was left out": _cm(after),
            "the cloth was made smaller, where it must be larger before the wash": _cm(after) * kept,
            "the share was taken of what is left after the wash": _cm(after * (1 + share)),
        }
    else:
        asked = (
            f"A cloth is cut {decimal_text(hand)} cm {how} before the wash. How {how} is it after the wash?"
        )
        right = _cm(hand) * kept
        slips = {
            "the wash was left out": _cm(hand),
            "the cloth was made larger, where the wash makes it smaller": _cm(hand) / kept,
            "what the wash takes was added": _cm(hand * (1 + share)),
        }
    question = "Of which length does the wash take its share: the one before it, or the one after it?"
    return facts, asked, right, "cm", slips, question


def _bolt(chance: random.Random) -> _Made:
    width, across = pick(chance, (90, 120, 140, 150)), pick(chance, range(22, 47))
    down, pieces = pick(chance, range(18, 40)), pick(chance, range(7, 25))
    beside = width // across
    rows = (number(pieces) / number(beside)).up()
    length = number(int(rows.value)) * number(down) / number(10)
    slips = {
        "the area was shared out, as if cloth could be cut like dough": (
            number(pieces * across * down) / number(10 * width)
        ).up(),
        "the last row, which isn't full, was left out": (
            number(pieces // beside) * number(down) / number(10)
        ).up(),
        "each piece got a row of its own": (number(pieces) * number(down) / number(10)).up(),
        "the length was rounded down to what the shop sells": length.down(),
    }
    facts = (
        f"{pieces} pieces, each {across} cm across and {down} cm down, are cut from linen {width} cm wide. "
        "The shop sells it by 10 cm. They are not turned, and nothing is allowed for cuts."
    )
    asked = "How many units of 10 cm do you buy?"
    question = "How many lie side by side, how many rows is that, and how long are the rows together?"
    return facts, asked, length.up(), "units of 10 cm", slips, question


def _cm(value: Fraction) -> Working:
    return Working(Fraction(value), (f"{decimal_text(Fraction(value))} cm",), "cm")


_TOPICS: Mapping[str, Callable[[random.Random], _Made]] = {
    "count": _count,
    "spacing": _spacing,
    "corner": _corner,
    "wash": _wash,
    "thread": _thread,
    "bolt": _bolt,
}

#: What there are short sums on, in the order of the course.
TOPICS = tuple(_TOPICS)
