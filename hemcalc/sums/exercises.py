"""Sums to practise on: a scenario of the workshop, what is asked, and the key for the leader.

A seed and a level give the same exercise every time. The numbers are such as one can do on
paper. The workshop, its guild and every number here are invented.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from hemcalc.measure.errors import one_of
from hemcalc.measure.exact import round_up, whole_threads
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import RULER_MARK
from hemcalc.piece.examples import example
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES
from hemcalc.sums.checking import Report, check
from hemcalc.sums.facts import FINISHED, NAMES
from hemcalc.sums.sums import sums_of
from hemcalc.sums.telling import OF_THE_MARGIN, facts_told, side_meant
from hemcalc.sums.working import Working

T = TypeVar("T")

#: What each level asks for: one step; two or three; the ledger and the rule; the whole piece.
LEVELS: Mapping[int, tuple[tuple[str, ...], ...]] = {
    1: (("first drawn",), ("turn",), ("rule",), ("hem",)),
    2: (("hem", "turn"), ("first drawn", "fold 1"), ("hem", "rule"), ("fold 1", "fold 2")),
    3: (
        *(("total", "rule", "slack"), ("fold 1", "fold 2", "cut"), ("draw line", "total", "margin")),
        ("need", "slack", "margin"),
    ),
    4: (
        *(("margin", "cut across", "cut down"), ("fold 1", "finished across", "cut across")),
        ("need", "margin", "cut down"),
    ),
}
_WIDEST = 12  # threads of a hem beside which a clear band is no wonder that beats the rule
_LARGEST_CLASS = 40
_LARGEST_SEED = 10**12

_WORDS = {"threads": "threads", "in": "inches", "cm": "centimetres"}

# Counts with hems that come out at whole or half threads, and sizes of a design: paper sums.
_CLOTHS = (
    ("in", (20, 24, 28, 36, 40), ("1/4 in", "3/8 in", "1/2 in"), range(6, 13), 4),
    ("in", (20, 24, 28, 36, 40), ("1/4 in", "3/8 in", "1/2 in"), range(6, 13), 4),
    ("cm", (8, 10, 12, 14), ("0.5 cm", "1 cm", "1.5 cm"), range(15, 31), 2),
)
# Raw linen: threads to the inch before the wash, and what of a hundred it takes, so that after it there
# are 20, 30 or 40.
_RAW = ((18, 10), (27, 10), (36, 10), (19, 5), (38, 5))
_RAW_FROM = 3  # the level from which some of the linen is raw
_THINGS = ("bread cloth", "sampler", "tray cloth", "napkin", "coaster", "bookmark")
_LARGE = _THINGS[:4]
_SCENES = (
    "At the autumn linen workshop a {thing} is to be hemmed.",
    "A learner at the autumn linen workshop brings a {thing}.",
    "The guild's leader hems a {thing} to show the class.",
    "For the guild's autumn table a {thing} is planned.",
)


@dataclass(frozen=True, slots=True)
class Asked:
    """One number that is asked for, and in what: threads or a unit of length."""

    name: str
    unit: str = "threads"
    #: The side that is meant, where the sides differ.
    side: str = ""
    #: For which state of the cloth a length is wanted, where they differ.
    state: str = ""

    @property
    def what(self) -> str:
        """What the number is."""
        return NAMES[self.name]

    @property
    def where(self) -> str:
        """What the number is, at which side, and in which state of the cloth."""
        at = f"{self.what}, at the {self.side}" if self.side else self.what
        return f"{at}, {self.state}" if self.state else at

    def text(self) -> str:
        """What is asked, with what the number is."""
        in_unit = "" if self.name == "first drawn" else f", in {_WORDS[self.unit]}"
        if self.unit != "threads" and self.name.startswith("cut "):
            in_unit += f", rounded up to a mark of the ruler ({RULER_MARK[self.unit].text(self.unit)})"
        elif self.unit != "threads":
            in_unit += ", to the nearest 1/16 in"
        return f"{self.name}{in_unit}: {self.where}"


@dataclass(frozen=True, slots=True)
class Exercise:
    """A sum with its scenario. Made by `exercise` or `from_example`."""

    title: str
    scene: str
    #: What is needed for the numbers asked, and no more, in sentences.
    facts: str
    piece: Piece
    asked: tuple[Asked, ...]
    side: str = "left"

    def __repr__(self) -> str:
        few = len(self.asked) <= 4
        names = ", ".join(asked.name for asked in self.asked) if few else f"{len(self.asked)} numbers"
        return f"Exercise({self.title}: {names})"

    def text(self) -> str:
        """The scenario with its facts."""
        return f"{self.scene} {self.facts}"

    @property
    def key(self) -> dict[str, Working]:
        """The right numbers with their working, for the leader."""
        sums = sums_of(self.piece, self.side)
        return {asked.name: sums.working(asked.name, asked.unit) for asked in self.asked}

    def check(self, answers: Mapping[str, object]) -> Report:
        """The report on a learner's answers; a bare number is in the unit that was asked for."""
        units = {asked.name: asked.unit for asked in self.asked}
        return check(self.piece, answers, side=self.side, units=units)

    def __str__(self) -> str:
        return "\n".join([self.text(), *(f"- {asked.text()}" for asked in self.asked)])


def exercise(seed: int, level: int = 1) -> Exercise:
    """The exercise of a seed, at a level from one step to a whole piece.

    Parameters
    ----------
    seed : int
        Any whole number; the same one gives the same exercise.
    level : int
        1: one step; 2: two; 3: the ledger and the rule; 4: the cloth to cut.

    Examples
    --------
    >>> sums = exercise(7, level=3)
    >>> print(sums.facts)
    The linen has 20 threads to the inch across, 36 threads to the inch down. The hem ...
    >>> sums == exercise(7, level=3)
    True
    """
    level = whole_threads(level, "level", least=min(LEVELS), most=max(LEVELS), example=2, of="")
    return _made(as_seed(seed), level)


def as_seed(seed: object) -> int:
    """The seed of a sum: a whole number of ordinary size."""
    return whole_threads(seed, "seed", least=-_LARGEST_SEED, most=_LARGEST_SEED, example=7, of="")


def _made(seed: int, level: int) -> Exercise:
    """The exercise of this seed; whatever the seed is, as a set goes on from its own."""
    chance = random.Random(f"hemcalc {seed} {level}")
    names = pick(chance, LEVELS[level])
    unit, counts, hems, sizes, marks = pick(chance, _CLOTHS)
    across, down, hem = pick(chance, counts), pick(chance, counts), pick(chance, hems)
    if level == 1 or chance.random() < 0.4:
        down = across
    fabric = Fabric(f"{across}/{unit}", f"{down}/{unit}", washed=True)
    if unit == "in" and (raw := _raw_linen(seed, level)):
        fabric, across, down = raw
    piece = Piece(fabric, (across, down), hem=hem, clear=4)
    if names == ("turn",):
        piece = piece.with_changes(hem=piece.edges.left.hem, same="threads")
    side = "left" if across == down else pick(chance, ("left", "top"))
    if level == 4:
        side = "left" if "cut across" in names else "top"
    piece = piece.with_changes(**_ledger(chance, piece, side, names, level))
    if level == 4:
        edges = (piece.edges.left, across), (piece.edges.top, down)
        design = [
            _design(pick(chance, sizes) * count, 2 * edge.rule.margin, Fraction(count, marks))
            for edge, count in edges
        ]
        if not fabric.washed:
            # The size after the wash comes to whole inches, which a ruler can tell.
            inch, beyond = int(fabric.across_washed.per_inch), 2 * piece.edges.left.fold_1
            design[0] = (design[0] + beyond) // inch * inch - beyond
        piece = piece.with_changes(design=tuple(design))
    ruled = {"cut across"} if "cut across" in names else {"cut down"}
    if not fabric.washed:
        ruled.add("finished across")
    asked = tuple(_asked(piece, name, side, unit if name in ruled else "threads") for name in names)
    thing = pick(chance, _LARGE if level == 4 else _THINGS)
    scene = pick(chance, _SCENES).format(thing=thing)
    return Exercise(f"Sum {seed}, level {level}", scene, facts_told(piece, names, side), piece, asked, side)


def _raw_linen(seed: int, level: int) -> tuple[Fabric, int, int] | None:
    """Linen that is not washed yet, with its counts, for some of the sums; None for the others."""
    chance = random.Random(f"hemcalc raw {seed} {level}")
    if level < _RAW_FROM or chance.random() > 0.4:
        return None
    (across, off_width), (down, off_length) = pick(chance, _RAW), pick(chance, _RAW)
    off = Fraction(off_width, 100), Fraction(off_length, 100)
    return Fabric(f"{across}/in", f"{down}/in", shrink_weft=off[0], shrink_warp=off[1]), across, down


def _asked(piece: Piece, name: str, side: str, unit: str) -> Asked:
    """What is asked; of raw linen a length says for which state of the cloth it is."""
    state = ("after" if name in FINISHED else "before") + " the wash"
    raw = unit != "threads" and not piece.fabric.washed
    return Asked(name, unit, side_meant(piece, name, side), state if raw else "")


def _ledger(
    chance: random.Random, piece: Piece, side: str, names: Sequence[str], level: int
) -> dict[str, object]:
    """Bands at random, such that no short cut is right too often: neither rule nor need always wins."""
    hem = getattr(piece.edges, side).hem
    drawn = pick(chance, (2, 2, 3, 4))
    # Half the hem, or as much as the cloth wants: a few threads, or as wide as the hem.
    turn = pick(chance, (None, None, 2, 3, hem)) if level > 2 else None
    turn = None if turn is not None and turn > min(edge.hem for edge in piece.edges) else turn
    handling = pick(chance, (0, 3, 5, 8)) if OF_THE_MARGIN & set(names) else 0
    clear = pick(chance, range(4, 13))
    if OF_THE_MARGIN & set(names):
        even = (
            2 * hem - (hem + 1) // 2 - drawn - handling if turn is None else 2 * hem - turn - drawn - handling
        )
        if chance.random() < 0.5 and hem <= _WIDEST:
            clear = max(4, even + pick(chance, range(1, 6)))
        elif even > 4:
            clear = min(clear, even)
    return {"clear": clear, "drawn": drawn, "turn": turn, "handling": handling}


def exercises_for_class(seed: int, learners: int = 20, level: int = 1) -> tuple[Exercise, ...]:
    """An exercise for each learner of a class, 1 to 40 of them, no two alike; the same set for the same seed.

    Examples
    --------
    >>> len({str(sums) for sums in exercises_for_class(3, level=2)})
    20
    """
    learners = whole_threads(learners, "learners", least=1, most=_LARGEST_CLASS, example=20, of="learners")
    first = exercise(seed, level)
    chosen = {_sum(first): first}
    following = 0
    while len(chosen) < learners:
        following += 1
        another = _made(1000 * as_seed(seed) + following, int(level))
        chosen.setdefault(_sum(another), another)
    return tuple(chosen.values())


def from_example(name: str, side: str = "left") -> Exercise:
    """All the numbers of one of the workshop's pieces, as an exercise.

    Examples
    --------
    >>> [asked.name for asked in from_example("coaster").asked][:3]
    ['first drawn', 'hem', 'turn']
    """
    piece, side = example(name), one_of(side, SIDES, "side")
    names = ("first drawn", "hem", "turn", "fold 1", "fold 2", "cut", "rule", "need", "margin")
    sizes = ("finished across", "finished down", "cut across", "cut down")
    asked = tuple(Asked(number, side=side_meant(piece, number, side)) for number in (*names, *sizes))
    scene = f"The {name} of the autumn linen workshop (invented)."
    return Exercise(f"The {name}", scene, facts_told(piece, (*names, *sizes), side), piece, asked, side)


def pick(chance: random.Random, choices: Sequence[T]) -> T:
    """One of several: by random() alone, which gives the same numbers in every Python."""
    return choices[int(chance.random() * len(choices))]


def _design(about: int, margins: int, mark: Fraction) -> int:
    """A design of an even number of threads whose cloth is cut at a mark of the ruler, or just short of one.

    The chart counts stitches over two, so its threads are even.
    """
    threads = int(round_up(Fraction(about + margins), mark)) - margins
    return threads - threads % 2


def _sum(asked: Exercise) -> tuple[object, ...]:
    """What makes two exercises alike: facts and numbers asked, whatever the piece is called."""
    return asked.facts, asked.asked
