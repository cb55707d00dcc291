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

from hemcalc.check import Report, check
from hemcalc.errors import HemError, shown
from hemcalc.examples import example
from hemcalc.exact import round_up
from hemcalc.fabric import Fabric
from hemcalc.lengths import Length
from hemcalc.piece import Piece
from hemcalc.sums import NAMES, sums_of
from hemcalc.worked import Worked

__all__ = ["LEVELS", "Asked", "Exercise", "class_set", "exercise", "from_example"]

T = TypeVar("T")

#: What each level asks for: one step; two or three; the ledger and the rule; the whole piece.
LEVELS: Mapping[int, tuple[tuple[str, ...], ...]] = {
    1: (("first drawn",), ("turn",), ("rule",), ("hem",)),
    2: (("hem", "turn"), ("first drawn", "fold 1"), ("hem", "rule"), ("fold 1", "fold 2")),
    3: (("total", "rule", "slack"), ("fold 1", "fold 2", "cut"), ("hem", "total", "margin")),
    4: (("margin", "cut across", "cut down"), ("fold 1", "finished across", "cut across")),
}
_MOST_IN_A_SET = 60

# Counts with hems that come out at whole or half threads: paper sums.
_COUNTS = (20, 24, 28, 32, 36)
_HEMS = ("1/4 in", "3/8 in", "1/2 in")
_THINGS = ("bread cloth", "coaster", "bookmark", "sampler", "tray cloth", "napkin")
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

    @property
    def sentence(self) -> str:
        """What is asked, with what the number is."""
        wanted = "" if self.name == "first drawn" else f", in {self.unit}"
        if self.unit != "threads" and self.name.startswith("cut "):
            wanted += ", rounded up to a mark of the ruler (1/8 in)"
        return f"{self.name}{wanted}: {NAMES[self.name]}"


@dataclass(frozen=True, slots=True)
class Exercise:
    """A sum with its scenario. Made by `exercise` or `from_example`."""

    title: str
    text: str
    piece: Piece
    asked: tuple[Asked, ...]
    side: str = "left"

    @property
    def key(self) -> dict[str, Worked]:
        """The right numbers with their working, for the leader."""
        sums = sums_of(self.piece, self.side)
        return {asked.name: sums.worked(asked.name, asked.unit) for asked in self.asked}

    def check(self, answers: Mapping[str, object]) -> Report:
        """The report on a learner's answers."""
        return check(self.piece, answers, side=self.side)

    def __str__(self) -> str:
        return "\n".join([self.text, *(f"- {asked.sentence}" for asked in self.asked)])


def exercise(seed: int, level: int = 1) -> Exercise:
    """The exercise of a seed, at a level from one step to a whole piece.

    Parameters
    ----------
    seed : int
        Any whole number; the same one gives the same exercise.
    level : int
        1: one step; 2: two; 3: the ledger and the rule; 4: the cloth to cut.

    Returns
    -------
    Exercise
        Each number asked for has one right answer.

    Raises
    ------
    HemError
        If the seed is no whole number, or the level none from 1 to 4.

    Examples
    --------
    >>> sums = exercise(7, level=3)
    >>> print(sums)
    ...
    >>> sums == exercise(7, level=3)
    True
    """
    if isinstance(seed, bool) or not isinstance(seed, int):
        raise HemError(f"seed is {shown(seed)}, but must be a whole number; for example 7.", "seed")
    if isinstance(level, bool) or not isinstance(level, int) or level not in LEVELS:
        raise HemError(f"level is {shown(level)}, but must be 1, 2, 3 or 4; for example 2.", "level")
    chance = random.Random(f"hemcalc {seed} {level}")
    names = _one(chance, LEVELS[level])
    count, hem = _one(chance, _COUNTS), _one(chance, _HEMS)
    thing, clear = _one(chance, _THINGS), 2 * _one(chance, range(2, 7))
    linen = Fabric(f"{count}/in", washed=True)
    piece = Piece(linen, (count, count), hem=hem, clear=clear)
    if level == 4:
        piece = piece.with_changes(design=_design(piece, chance))
    asked = tuple(Asked(name, "in" if name == "cut across" else "threads") for name in names)
    scene = _one(chance, _SCENES).format(thing=thing)
    return Exercise(f"Sum {seed}, level {level}", _told(scene, piece, names), piece, asked)


def class_set(seed: int, many: int = 20, level: int = 1) -> tuple[Exercise, ...]:
    """Exercises for a class, no two alike.

    Parameters
    ----------
    seed : int
        Any whole number; the same one gives the same set.
    many : int
        How many, from 1 to 60.
    level : int
        As for `exercise`.

    Raises
    ------
    HemError
        If the seed, the number or the level is not possible.

    Examples
    --------
    >>> len({str(sums) for sums in class_set(3, level=2)})
    20
    """
    if isinstance(many, bool) or not isinstance(many, int) or not 1 <= many <= _MOST_IN_A_SET:
        raise HemError(
            f"many is {shown(many)}, but must be a whole number from 1 to {_MOST_IN_A_SET}; for example 20.",
            "many",
        )
    first = exercise(seed, level)
    chosen = {_sum(first): first}
    following = 0
    while len(chosen) < many:
        following += 1
        another = exercise(1000 * seed + following, level)
        chosen.setdefault(_sum(another), another)
    return tuple(chosen.values())


def from_example(name: str, side: str = "left") -> Exercise:
    """All the numbers of one of the workshop's pieces, as an exercise.

    Examples
    --------
    >>> [asked.name for asked in from_example("coaster").asked][:3]
    ['first drawn', 'hem', 'turn']
    """
    piece = example(name)
    names = ("first drawn", "hem", "turn", "fold 1", "fold 2", "cut", "rule", "need", "margin")
    sizes = ("finished across", "finished down", "cut across", "cut down")
    asked = tuple(Asked(number) for number in (*names, *sizes))
    scene = f"The {name} of the autumn linen workshop (invented)."
    return Exercise(f"The {name}", _told(scene, piece, (*names, *sizes)), piece, asked, side)


def _one(chance: random.Random, offers: Sequence[T]) -> T:
    """One of several: by random() alone, which gives the same numbers in every Python."""
    return offers[int(chance.random() * len(offers))]


def _design(piece: Piece, chance: random.Random) -> tuple[int, int]:
    """A design of some inches whose cloth is cut at a mark of the ruler, or close above one."""
    count = int(piece.fabric.across.per_inch)
    margins = 2 * piece.edges.left.rule.margin
    quarter = Fraction(count, 4)  # threads; whole, since the counts are divided by 4
    wide, long = (_one(chance, range(4, 13)) for _ in range(2))
    # The chart counts stitches over two, so a design has an even number of threads.
    return tuple(  # type: ignore[return-value]
        _even(int(round_up(Fraction(inches * count + margins), quarter)) - margins) for inches in (wide, long)
    )


def _even(threads: int) -> int:
    return threads + threads % 2


def _sum(asked: Exercise) -> tuple[object, ...]:
    """What makes two exercises alike: the numbers, whatever the piece is called."""
    return asked.piece, asked.asked


def _told(scene: str, piece: Piece, names: Sequence[str]) -> str:
    """The scenario, with what is needed for the numbers asked, and no more."""
    fabric, edge = piece.fabric, piece.edges.left
    even = fabric.across == fabric.down
    count = f"{fabric.across}" if even else f"{fabric.across} across and {fabric.down} down"
    told = [scene, f"The linen has {count.replace('/in', ' threads to the inch')}."]
    hem = piece.hem if isinstance(piece.hem, str | Length) else f"{piece.hem} threads"
    if tuple(names) == ("turn",):
        hem = f"{edge.hem} threads"
        told.pop()
    if tuple(names) != ("first drawn",):
        told.append(f"The hem finishes {hem} wide, to the nearest whole thread.")
    told.append(f"{edge.clear} threads stay clear round the design, and {edge.drawn} are drawn out.")
    told.append("The turn is half the hem, a half thread counted as a whole one.")
    if any(name.endswith(("across", "down")) for name in names):
        told.append(f"The design takes {piece.design[0]} threads across and {piece.design[1]} down.")
    return " ".join(told)
