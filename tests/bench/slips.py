"""How well a cause is found for a sheet of sums with a slip in it: named, asked about, or wrongly named.

    python tests/bench/slips.py [SHEETS]

It passes and fails nothing; tests/sums/test_false_names.py holds a smaller run. *Named alone* and
*among several* are right names; *not named* is a sheet that was left without one; *falsely named* is
the worst that can happen: a cause that isn't hers. *Asked amiss* counts the sheets among the not
named at which the checker asked about slips that weren't hers, without naming one.

The model is independent of the library: a working of its own, one method a step, and a slip is a
working with a step done otherwise. Kinds that the library has no name for stand among them, and
some change one number by the pen. How often each is made is invented: a third of the sheets have
one number, a third have three, a third are the whole form.
"""

from __future__ import annotations

import math
import random
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction as F
from pathlib import Path

if __name__ == "__main__":
    # As a script it is started from its own folder; it is to measure the hemcalc beside it.
    sys.path.insert(0, str(Path(__file__).parents[2]))

from hemcalc import Fabric, HemError, Piece, Sides, check
from hemcalc.sums.slips import PEN, SLIPS

KNOWN = {*SLIPS, *(pen.slip.name for pen in PEN)}

NUMBERS = (
    *("first drawn", "hem", "turn", "fold 1", "fold 2", "cut", "draw line", "rule", "need", "slack"),
    *("margin", "finished across", "finished down", "cut across", "cut down"),
)
_MM = {"in": F(254, 10), "cm": F(10)}
_MARK = {"in": F(1, 8), "cm": F(1, 2)}


@dataclass(frozen=True)
class Facts:
    """A piece, told without the library: counts and shrinkages by way, the rest by side or plain."""

    counts: dict[str, F]
    per: str
    lost: dict[str, F]
    design: dict[str, int]
    clears: dict[str, int]
    drawn: int
    hem: int | F  # threads, or a length in `per`
    by_width: bool
    turn: int | None
    handling: int | F
    handling_by_width: bool
    side: str
    unit: str | None  # sizes to cut are asked for in it; None for threads

    def piece(self) -> Piece:
        counts = {way: f"{float(count):g}/{self.per}" for way, count in self.counts.items()}
        raw = any(self.lost.values())
        fabric = Fabric(
            counts["across"],
            counts["down"],
            washed=not raw,
            shrink_weft=self.lost["across"],
            shrink_warp=self.lost["down"],
        )
        return Piece(
            fabric,
            (self.design["across"], self.design["down"]),
            hem=f"{self.hem} {self.per}" if self.by_width else self.hem,
            same="width" if self.by_width else "threads",
            clear=Sides(**self.clears),
            drawn=self.drawn,
            turn=self.turn,
            handling=f"{self.handling} {self.per}" if self.handling_by_width else self.handling,
        )


def up(number: F) -> int:
    return math.ceil(number)


def nearest(number: F) -> int:
    return math.floor(number + F(1, 2))


def way_of(side: str) -> str:
    return "across" if side in ("left", "right") else "down"


class Work:
    """A sheet worked without a slip, a method a step. What is written down is what goes on being used."""

    def __init__(self, facts: Facts, dice: random.Random) -> None:
        self.f, self.dice = facts, dice
        self.written: dict[tuple[str, str], F] = {}
        self.spoilt = ""

    # What is read off.
    def count(self, way: str) -> F:
        return self.f.counts[way]

    def per(self) -> str:
        return self.f.per

    def lost(self, way: str) -> F:
        return self.f.lost[way]

    def clear(self, side: str) -> int:
        return self.f.clears[side]

    def drawn(self, side: str) -> int:
        return self.f.drawn

    def design(self, way: str) -> int:
        return self.f.design[way]

    def threads(self, length: F, way: str) -> F:
        return length * _MM[self.f.per] / _MM[self.per()] * self.count(way)

    def washed(self, number: F, way: str) -> F:
        """Threads for what is to be left after the wash."""
        return number / (1 - self.lost(way))

    # What is worked, a side at a time.
    def round_hem(self, number: F) -> int:
        return nearest(number)

    def do_hem(self, side: str) -> F:
        if not self.f.by_width:
            return F(self.f.hem)
        way = way_of(side)
        return F(self.round_hem(self.washed(self.threads(F(self.f.hem), way), way)))

    def round_turn(self, number: F) -> int:
        return up(number)

    def do_turn(self, side: str) -> F:
        return F(self.f.turn) if self.f.turn is not None else F(self.round_turn(self.get("hem", side) / 2))

    def handling(self, side: str) -> F:
        if not self.f.handling_by_width:
            return F(self.f.handling)
        return F(up(self.threads(F(self.f.handling), way_of(side))))

    def do_first(self, side: str) -> F:
        return F(self.clear(side) + 1)

    def open(self, side: str) -> F:
        return self.get("first drawn", side) - 1 + self.drawn(side)

    def face(self, side: str) -> F:
        return self.get("hem", side)

    def back(self, side: str) -> F:
        return self.get("hem", side)

    def turned(self, side: str) -> F:
        return self.get("turn", side)

    def do_fold_1(self, side: str) -> F:
        return self.open(side) + self.face(side)

    def do_fold_2(self, side: str) -> F:
        return self.get("fold 1", side) + self.back(side)

    def do_cut(self, side: str) -> F:
        return self.get("fold 2", side) + self.turned(side)

    def do_draw_line(self, side: str) -> F:
        return self.face(side) + self.back(side) + self.turned(side)

    def do_rule(self, side: str) -> F:
        return 4 * self.get("hem", side)

    def do_need(self, side: str) -> F:
        return self.get("cut", side) + self.handling(side)

    def do_slack(self, side: str) -> F:
        return self.get("rule", side) - self.get("need", side)

    def do_margin(self, side: str) -> F:
        return max(self.get("rule", side), self.get("need", side))

    # The whole piece.
    def edge(self, side: str) -> F:
        return self.get("fold 1", side)

    def margin(self, side: str) -> F:
        return self.get("margin", side)

    def ends(self, what: Callable[[str], F], way: str) -> F:
        one, other = ("left", "right") if way == "across" else ("top", "bottom")
        return what(one) + what(other)

    def do_finished(self, way: str) -> F:
        return self.design(way) + self.ends(self.edge, way)

    def do_size(self, way: str) -> F:
        return self.design(way) + self.ends(self.margin, way)

    def length(self, threads: F, way: str) -> F:
        return threads / self.count(way) * _MM[self.per()] / _MM[self.f.unit or self.f.per]

    def to_mark(self, number: F) -> F:
        mark = _MARK[self.f.unit or "in"]
        return up(number / mark) * mark

    # Writing it down.
    def pen(self, name: str, number: F) -> F:
        return number

    def get(self, name: str, side: str) -> F:
        if (name, side) not in self.written:
            step = {"first drawn": "first"}.get(name, name).replace(" ", "_")
            self.written[name, side] = self.pen(name, getattr(self, f"do_{step}")(side))
        return self.written[name, side]

    def answer(self, name: str) -> F:
        """What is written for a number of the sheet."""
        if name in ("finished across", "finished down"):
            return self.pen(name, self.do_finished(name.removeprefix("finished ")))
        if not name.startswith("cut "):
            return self.get(name, self.f.side)
        way = name.removeprefix("cut ")
        size = self.pen(name, self.do_size(way))
        return size if self.f.unit is None else self.to_mark(self.length(size, way))


KINDS: dict[str, tuple[int, type[Work]]] = {}


def kind(name: str, weight: int, **steps: object) -> None:
    """A kind of slip: its name in the library if it has one there, how often it is made, what is done."""
    KINDS[name] = weight, type(name, (Work,), steps)


def spoilt(change: Callable[[random.Random, F], F]) -> Callable[[Work, str, F], F]:
    """One number, whichever is written down first with some luck, comes out otherwise."""

    def pen(work: Work, name: str, number: F) -> F:
        if work.spoilt == name and not any(key[0] == name for key in work.written):
            return change(work.dice, number)
        return number

    return pen


OFTEN, SOMETIMES, SELDOM, UNTOLD = 6, 3, 1, 2
GUESSES = (-9, -7, -5, -4, -3, -2, 2, 3, 4, 5, 7, 8, 9)
ENDS = {"across": ("left", "right"), "down": ("top", "bottom")}
other = {"across": "down", "down": "across"}
kind("hem once", OFTEN, back=lambda w, s: 0)
kind("turn forgotten", OFTEN, turned=lambda w, s: 0)
kind("drawn left out", OFTEN, drawn=lambda w, s: 0)
kind("first drawn as the last clear", OFTEN, do_first=lambda w, s: F(w.clear(s)))
kind("hem rounded the wrong way", OFTEN, round_hem=lambda w, n: up(n) if nearest(n) < n else math.floor(n))
kind("turn rounded down", OFTEN, round_turn=lambda w, n: math.floor(n))
kind("rule alone", OFTEN, do_margin=lambda w, s: w.get("rule", s))
kind("one side only", OFTEN, ends=lambda w, what, way: what("left" if way == "across" else "top"))
kind("turn as wide as the hem", OFTEN, do_turn=lambda w, s: w.get("hem", s))
kind("handling forgotten", OFTEN, handling=lambda w, s: F(0))
kind("sign of the slack", OFTEN, do_slack=lambda w, s: w.get("need", s) - w.get("rule", s))
kind("need taken for the margin", OFTEN, do_margin=lambda w, s: w.get("need", s))
kind(
    "folds exchanged",
    SOMETIMES,
    answer=lambda w, n: Work.answer(w, {"fold 1": "fold 2", "fold 2": "fold 1"}.get(n, n)),
)
kind("warp and weft exchanged", SOMETIMES, count=lambda w, way: w.f.counts[other[way]])
kind("shrinkage on the wrong side", SOMETIMES, lost=lambda w, way: w.f.lost[other[way]])
kind("wash left out", OFTEN, lost=lambda w, way: F(0))
kind("wash taken off", SOMETIMES, washed=lambda w, n, way: n * (1 - w.lost(way)))
kind("wash added on", SOMETIMES, washed=lambda w, n, way: n * (1 + w.lost(way)))
kind("size rounded down", OFTEN, to_mark=lambda w, n: n // _MARK[w.f.unit] * _MARK[w.f.unit])
kind("inches for centimetres", SOMETIMES, per=lambda w: "cm" if w.f.per == "in" else "in")
kind("half the count", SOMETIMES, count=lambda w, way: w.f.counts[way] / 2)
kind("stitches for threads", SOMETIMES, design=lambda w, way: w.f.design[way] // 2)
kind("threads for stitches", SOMETIMES, design=lambda w, way: w.f.design[way] * 2)
kind("hem twice", SELDOM, face=lambda w, s: 2 * w.get("hem", s), back=lambda w, s: 2 * w.get("hem", s))
kind("open line centred", SOMETIMES, do_draw_line=lambda w, s: Work.do_draw_line(w, s) - F(w.f.drawn, 2))
kind("clear forgotten", SOMETIMES, open=lambda w, s: F(w.drawn(s)))
kind("clear twice", SELDOM, open=lambda w, s: Work.open(w, s) + w.clear(s))
kind("smaller taken", SOMETIMES, do_margin=lambda w, s: min(w.get("rule", s), w.get("need", s)))
kind(
    "across and down exchanged",
    SOMETIMES,
    answer=lambda w, n: Work.answer(
        w, n.replace("across", "*").replace("down", "across").replace("*", "down")
    ),
)
kind("one thread beyond", SOMETIMES, do_first=lambda w, s: F(w.clear(s) + 2))
kind(
    "line counted as a thread",
    SOMETIMES,
    answer=lambda w, n: Work.answer(w, n) + (n in ("fold 1", "fold 2", "cut")),
)
kind("rule of three", SELDOM, do_rule=lambda w, s: 3 * w.get("hem", s))
kind("drawn added to the draw line", SOMETIMES, do_draw_line=lambda w, s: Work.do_draw_line(w, s) + w.f.drawn)
kind("finished at the second fold", SELDOM, edge=lambda w, s: w.get("fold 2", s))
kind("no margin", SELDOM, ends=lambda w, what, way: F(0))
kind("four margins", SELDOM, ends=lambda w, what, way: 2 * Work.ends(w, what, way))
kind(
    "rule before rounding",
    SOMETIMES,
    do_rule=lambda w, s: (
        F(nearest(4 * w.washed(w.threads(F(w.f.hem), way_of(s)), way_of(s))))
        if w.f.by_width
        else Work.do_rule(w, s)
    ),
)
kind(
    "turn before rounding",
    SOMETIMES,
    do_turn=lambda w, s: (
        F(nearest(w.washed(w.threads(F(w.f.hem), way_of(s)), way_of(s)) / 2))
        if w.f.by_width and w.f.turn is None
        else Work.do_turn(w, s)
    ),
)
kind("count rounded", SELDOM, count=lambda w, way: F(nearest(w.f.counts[way])))
kind(
    "wrong unit written",
    SOMETIMES,
    length=lambda w, n, way: Work.length(w, n, way) * (F(254, 100) if w.f.unit == "in" else F(100, 254)),
)
kind(
    "digits reversed", SELDOM, pen=spoilt(lambda d, n: F(int(str(abs(int(n)))[::-1])) * (-1 if n < 0 else 1))
)
kind("out by one", SOMETIMES, pen=spoilt(lambda d, n: n + d.choice((-1, 1))))
kind("out by ten", SELDOM, pen=spoilt(lambda d, n: n + d.choice((-10, 10))))
for each in ("left", "right", "top", "bottom"):
    kind(
        f"{each} for another side",
        SELDOM,
        __init__=lambda w, f, d, each=each: Work.__init__(w, replace(f, side=each), d),
    )
kind("one side for all", SOMETIMES, clear=lambda w, s: w.f.clears[w.f.side])
# Kinds that the library is not told of.
kind(
    "? hem and turn exchanged in the ledger",
    UNTOLD,
    face=lambda w, s: w.get("turn", s),
    turned=lambda w, s: w.get("hem", s),
)
kind("? a third of the hem turned", UNTOLD, do_turn=lambda w, s: F(up(w.get("hem", s) / 3)))
kind("? rule of five", UNTOLD, do_rule=lambda w, s: 5 * w.get("hem", s))
kind("? rule of the turn too", UNTOLD, do_rule=lambda w, s: 4 * w.get("hem", s) + w.get("turn", s))
kind("? drawn counted at both edges", UNTOLD, drawn=lambda w, s: 2 * w.f.drawn)
kind("? one thread drawn", UNTOLD, drawn=lambda w, s: 1)
kind("? hem plus its turn as the face", UNTOLD, face=lambda w, s: w.get("hem", s) + w.get("turn", s))
kind("? a guess", SOMETIMES, pen=spoilt(lambda d, n: F(max(1, int(n) + d.choice(GUESSES)))))
kind("? two digits read amiss", UNTOLD, pen=spoilt(lambda d, n: n + d.choice((-60, -30, -3, 3, 30, 60))))
kind("? handling twice", UNTOLD, do_need=lambda w, s: w.get("cut", s) + 2 * w.handling(s))
kind("? the wider end twice", UNTOLD, ends=lambda w, what, way: 2 * max(what(s) for s in ENDS[way]))
kind("? count read two too many", UNTOLD, count=lambda w, way: w.f.counts[way] + 2)
kind("? wash of both ways added", UNTOLD, lost=lambda w, way: w.f.lost["across"] + w.f.lost["down"])
kind("? the fold takes a thread", UNTOLD, do_fold_2=lambda w, s: w.get("fold 1", s) + 1 + w.back(s))
kind("? turned twice and a thread", UNTOLD, turned=lambda w, s: 2 * w.get("turn", s) + 1)
kind("? handling added to the rule", UNTOLD, do_rule=lambda w, s: Work.do_rule(w, s) + w.handling(s))
kind("? rule and need added", UNTOLD, do_margin=lambda w, s: w.get("rule", s) + w.get("need", s))
kind("? slack of the margin", UNTOLD, do_slack=lambda w, s: w.get("margin", s) - w.get("need", s))
kind("? three ends", UNTOLD, ends=lambda w, what, way: Work.ends(w, what, way) + what(ENDS[way][0]))
kind("? design a thread short", UNTOLD, design=lambda w, way: w.f.design[way] - 1)
kind("? half the drawn counted", UNTOLD, drawn=lambda w, s: w.f.drawn // 2)
kind("? clear a thread wider each side", UNTOLD, do_finished=lambda w, way: Work.do_finished(w, way) + 2)
kind("? mark beyond the next", UNTOLD, to_mark=lambda w, n: Work.to_mark(w, n) + _MARK[w.f.unit or "in"])
kind("? draw line from the design", UNTOLD, do_draw_line=lambda w, s: w.open(s))
kind("? folds both a turn short", UNTOLD, do_fold_1=lambda w, s: Work.do_fold_1(w, s) - w.get("turn", s))
# Two slips in one sheet.
kind("turn forgotten + drawn left out", SOMETIMES, turned=lambda w, s: 0, drawn=lambda w, s: 0)
kind("hem once + handling forgotten", SOMETIMES, back=lambda w, s: 0, handling=lambda w, s: F(0))
kind(
    "first drawn as the last clear + turn rounded down",
    SELDOM,
    do_first=lambda w, s: F(w.clear(s)),
    round_turn=lambda w, n: math.floor(n),
)
kind(
    "hem rounded the wrong way + sign of the slack",
    SOMETIMES,
    round_hem=KINDS["hem rounded the wrong way"][1].round_hem,
    do_slack=lambda w, s: w.get("need", s) - w.get("rule", s),
)


def facts(dice: random.Random) -> Facts:
    """A piece at random: inches or cm, two counts or one, washed or not, four sides alike or not."""
    per = dice.choice(("in", "in", "cm"))
    counts = [F(n) for n in ((20, 22, 25, 27, 28, 29, 32, 36, 40) if per == "in" else (8, 9, 10, 11, 12, 14))]
    if dice.random() < 0.1:
        counts = [count + F(1, 2) for count in counts]
    one = dice.choice(counts)
    two = one if dice.random() < 0.4 else dice.choice(counts)
    raw = dice.random() < 0.4
    shares = [F(n, 100) for n in (2, 3, 4, 5, 6, 8, 10)]
    by_width = dice.random() < 0.6
    hems = ("1/4", "3/8", "1/2", "5/8") if per == "in" else ("1/2", "1", "3/2")
    clear = [dice.randint(3, 14) for _ in range(4)] if dice.random() < 0.4 else [dice.randint(3, 14)] * 4
    handled = dice.random()
    return Facts(
        {"across": one, "down": two},
        per,
        {way: dice.choice(shares) if raw else F(0) for way in ("across", "down")},
        {way: 2 * dice.randint(20, 160) for way in ("across", "down")},
        dict(zip(("left", "right", "top", "bottom"), clear, strict=True)),
        dice.choice((2, 2, 2, 3, 4)),
        F(dice.choice(hems)) if by_width else dice.randint(4, 20),
        by_width,
        None if dice.random() < 0.8 else dice.randint(1, 4),
        (F(1, 4) if handled < 0.25 else dice.randint(2, 9)) if handled < 0.6 else 0,
        handled < 0.25,
        dice.choice(("left", "right", "top", "bottom")),
        dice.choice((None, None, per)),
    )


def written(number: F, unit: str | None) -> str:
    """A number as it is written on a sheet."""
    if unit is None:
        return str(int(number))
    whole, part = divmod(number, 1)
    return f"{float(number):g} cm" if unit == "cm" else f"{whole} {part} in" if part else f"{whole} in"


def sheet(dice: random.Random, name: str) -> tuple[Piece, str, dict[str, str]] | None:
    """A sheet with a slip of this kind in it; None if it makes no difference or can't be written down."""
    told = facts(dice)
    names = tuple(sorted(dice.sample(NUMBERS, dice.choice((1, 3, len(NUMBERS)))), key=NUMBERS.index))
    spoilt, luck = dice.choice(names), dice.random()

    def handed_in(made: type[Work]) -> dict[str, str] | None:
        work = made(told, random.Random(luck))
        work.spoilt = spoilt
        numbers = {each: work.answer(each) for each in names}
        ruled = {each for each in names if each.startswith("cut ") and told.unit}
        if any(n.denominator != 1 and each not in ruled for each, n in numbers.items()):
            return None
        if any(n < 0 and each != "slack" for each, n in numbers.items()):
            return None
        return {each: written(n, told.unit if each in ruled else None) for each, n in numbers.items()}

    given = handed_in(KINDS[name][1])
    # Of two slips each must make a difference, or it is a sheet with one.
    fewer = [Work, *(KINDS[each][1] for each in name.split(" + ") if each != name)]
    if given is None or any(handed_in(each) == given for each in fewer):
        return None
    try:
        return told.piece(), told.side, given
    except HemError:
        return None


def sheets(many: int, seed: int) -> Iterator[tuple[str, Piece, str, dict[str, str]]]:
    """So many sheets, each with the kind of its slip."""
    dice = random.Random(f"slips {seed}")
    names, weights = list(KINDS), [weight for weight, _ in KINDS.values()]
    made = 0
    while made < many:
        (name,) = dice.choices(names, weights)
        for _ in range(200):
            if done := sheet(dice, name):
                made += 1
                yield name, *done
                break


def known(name: str) -> bool:
    """Whether the library knows this slip, or each of these two."""
    return set(name.split(" + ")) <= KNOWN


OUTCOMES = ("named alone", "among several", "asked about", "not named", "falsely named", "asked amiss")


def outcome(name: str, piece: Piece, side: str, given: dict[str, str]) -> str:
    """What became of a sheet."""
    cause = check(piece, given, side=side).cause
    left = [{slip.name for slip in slips} for slips in cause.slips]
    hers = set(name.split(" + ")) in left
    if not left:
        return "not named"
    if not cause.sure:
        return "asked about" if hers else "asked amiss"
    if not hers:
        return "falsely named"
    return "named alone" if len(left) == 1 else "among several"


def table(many: int, seed: int = 1) -> dict[tuple[str, str], Counter[str]]:
    """Outcomes by the kind of sheet and by whether the library knows the slip."""
    counted: dict[tuple[str, str], Counter[str]] = {}
    for name, piece, side, given in sheets(many, seed):
        size = {1: "one number", 3: "three numbers"}.get(len(given), "the whole form")
        told = "known" if known(name) else "unknown"
        counted.setdefault((size, told), Counter())[outcome(name, piece, side, given)] += 1
    return counted


def main(many: int) -> None:
    counted = table(many)
    total: Counter[str] = Counter()
    print(f"{len(KINDS)} kinds of slips, {sum(map(known, KINDS))} of them known; {many} sheets")
    print(f"{'sheet':16}{'slip':10}{'sheets':>8}" + "".join(f"{name:>16}" for name in OUTCOMES))
    for (size, told), row in [*sorted(counted.items()), (("all", ""), total)]:
        total += row if size != "all" else Counter()
        sheets_ = sum(row.values())
        shares = "".join(f"{100 * row[name] / sheets_:15.1f}%" for name in OUTCOMES)
        print(f"{size:16}{told:10}{sheets_:8}{shares}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 6000)
