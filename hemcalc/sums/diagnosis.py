"""One cause for a whole sheet: the slip that explains all its numbers, her right ones among them.

Each slip, and each two of them, is held against every number. A number that the slip would have
given speaks for it; one that it would have spoilt, and that is right, speaks against it; one that
goes on rightly from a wrong number of hers says nothing. Beside the slips stands the chance that it
was none of them, and that the numbers agree by accident. What is left over decides what is said: a
cause is named only if an accident is next to impossible; if not, she is asked; else nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

from hemcalc.measure.units import MILLIMETRES
from hemcalc.sums.facts import NAMES
from hemcalc.sums.reading import Answer
from hemcalc.sums.slip import Slip, number_by
from hemcalc.sums.slips import PEN, SLIPS
from hemcalc.sums.sums import Sums
from hemcalc.sums.verdict import WRONG, fits, nearness
from hemcalc.sums.working import Working

_LAPSE = 0.05  # the chance that a slip is not made at a number where it could have been
_SOLE = 0.3  # that of two slips only one is made at a number that both would change
_NEVER = 1e-9  # the chance of a number that neither the slip nor the right working gives
_UNKNOWN = 14.0  # how often a slip is made that is not in the table, on the scale of `Slip.often`
_ALL = 130.0  # all of them, on that scale
_SPARED = 0.92  # the chance that a slip that is not in the table leaves a number as it should be
_OTHER_TERMS = 0.02  # the chance that a sum has other terms than the working that gives its result
_MOVED_TERMS = 0.2  # the chance that its terms stand in another order
_SURE = 0.99  # from here on a cause is named
_WORTH = 0.08  # from here on a slip is worth asking about
_BARE = ("first drawn", "hem", "turn")  # what she may go on from without going on from a line


@dataclass(frozen=True, slots=True)
class Question:
    """The question that tells what is left apart."""

    said: str
    #: The number that it asks for, one that she has not given yet; empty if it asks for none.
    name: str = ""
    #: What the answer says: by the cause's name, the number that it would have given.
    tells: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Cause:
    """What lies behind the wrong numbers of a sheet."""

    #: Whether the cause is one of `slips` for certain; if not, they are only asked about.
    sure: bool
    #: What is left, the likeliest first: one slip each, or two that only together explain the sheet.
    slips: tuple[tuple[Slip, ...], ...]
    #: The wrong numbers that don't follow from other wrong ones.
    roots: tuple[str, ...]
    #: The wrong numbers that do, and those of hers that they follow from.
    follows: Mapping[str, tuple[str, ...]]
    question: Question | None = None

    @property
    def named(self) -> Slip | None:
        """The one slip that it was, if it was one and that is certain."""
        return self.slips[0][0] if self.sure and [len(slips) for slips in self.slips] == [1] else None

    @property
    def clause(self) -> str:
        """What is left, as one clause: what happened, or what else happened."""
        return ", or if ".join(" and ".join(slip.clause for slip in slips) for slips in self.slips)

    def text(self) -> str:
        """The cause in a sentence, or that there is none to name."""
        if not self.roots:
            return ""
        if not self.slips:
            return "No slip known here explains these numbers: compare the working with yours, line by line."
        if self.sure:
            return f"It comes out so if {self.clause}."
        return f"It would come out so if {self.clause}; but it may have been something else."


@dataclass(frozen=True)
class AnswerSheet:
    """The right sums beside what a learner wrote, read."""

    sums: Sums
    answers: Mapping[str, Answer]

    @cached_property
    def hers(self) -> dict[str, int]:
        """Her numbers in threads, for others to go on from."""
        return {
            name: int(answer.value)
            for name, answer in self.answers.items()
            if answer.unit == "threads" and not (name == "total" and "cut" in self.answers)
        }

    @cached_property
    def plain(self) -> Ways:
        """The working without a slip."""
        return Ways(self, self.sums)

    @cached_property
    def wrong(self) -> tuple[str, ...]:
        """Numbers that aren't right, nor as near as a ruler tells."""
        return tuple(
            name
            for name, answer in self.answers.items()
            if nearness(self.sums, name, answer, self.sums.working(name, answer.unit)) == WRONG
        )

    @cached_property
    def roots(self) -> tuple[str, ...]:
        """Wrong numbers that don't follow from other wrong ones."""
        twice = "total" if self._total_is_cut else ""
        return tuple(each for each in self.wrong if each != twice and not self.plain.give(each))

    @property
    def _total_is_cut(self) -> bool:
        """Whether her total is her cut line again: as many threads, or as long."""
        given = [self.answers[name] for name in ("cut", "total") if name in self.answers]
        alike = {(each.unit == "threads", each.value * MILLIMETRES.get(each.unit, 1)) for each in given}
        return len(given) == 2 and len(alike) == 1

    def follows(self, name: str) -> tuple[str, ...]:
        """The wrong numbers of hers that a wrong one follows from; none if it doesn't."""
        if name not in self.wrong or name in self.roots:
            return ()
        if name == "total" and self._total_is_cut:
            return ("cut",)
        answer = self.answers[name]
        wrong = {each: self.hers[each] for each in self.wrong if each in self.hers and each != name}
        for one in reversed(wrong):  # the last one before it, if that is enough
            going_on = self.sums.going_on_from({one: wrong[one]})
            if fits(self.sums, name, answer, number_by(going_on, name, answer.unit)):
                return (one,)
        return tuple(each for each in wrong if list(NAMES).index(each) < list(NAMES).index(name))


class Ways:
    """The ways in which changed sums, or the right ones, can give the numbers of a sheet."""

    def __init__(self, sheet: AnswerSheet, sums: Sums) -> None:
        self.sheet = sheet
        bare = {name: threads for name, threads in sheet.hers.items() if name in _BARE}
        going_on = {tuple(hers): sums.going_on_from(hers) for hers in (sheet.hers, bare) if hers}
        self._sums = (sums, *going_on.values())
        self._gives: dict[str, bool] = {}

    def working(self, name: str) -> Iterator[Working]:
        """The number by each way: from the facts alone, or going on from what she has."""
        for sums in self._sums:
            working = number_by(sums, name, self.sheet.answers[name].unit)
            if working is not None:
                yield working

    def give(self, name: str) -> bool:
        """Whether one of them gives what she wrote."""
        if name not in self._gives:
            sums, answer = self.sheet.sums, self.sheet.answers[name]
            self._gives[name] = any(fits(sums, name, answer, working) for working in self.working(name))
        return self._gives[name]

    def chance_of_terms(self, name: str) -> float:
        """How likely it is that she added up what she did, if she went one of these ways."""
        hers = self.sheet.answers[name].terms
        if not hers:
            return 1
        added = [working.terms for working in self.working(name)]
        if hers in added:
            return 1
        return _MOVED_TERMS if sorted(hers) in map(sorted, added) else _OTHER_TERMS


def diagnose(sheet: AnswerSheet, blank: tuple[str, ...] = ()) -> Cause:
    """The cause of the wrong numbers of a sheet; one of those that are still blank may be asked for."""
    follows = {name: sheet.follows(name) for name in sheet.wrong if name not in sheet.roots}
    if not sheet.roots:
        return Cause(True, (), (), follows)
    weights: dict[tuple[Slip, ...], float] = {(slip,): weight for slip, weight in _alone(sheet)}
    if max(weights.values(), default=0) < 1e-3:
        weights |= dict(_two(sheet))
    unknown = _UNKNOWN * by_accident(sheet)
    whole = unknown + sum(weights.values())
    ranked = sorted(weights, key=lambda slips: -weights[slips])
    left = tuple(slips for slips in ranked if weights[slips] / whole >= _WORTH)
    sure = False
    if not any(pen.slip in slips for slips in left for pen in PEN):  # who has only added up amiss is asked
        if left and weights[left[0]] / whole >= _SURE:
            left = left[:1]
        sure = bool(left) and sum(weights[slips] for slips in left) / whole >= _SURE
    question = None if (sure and len(left) == 1) or not left else _question(sheet, left, blank)
    return Cause(sure, left, sheet.roots, follows, question)


def _alone(sheet: AnswerSheet) -> Iterator[tuple[Slip, float]]:
    """Each slip that alone gives every wrong number, and how likely it is with all of them."""
    order = (*sheet.roots, *(name for name in sheet.answers if name not in sheet.roots))
    for slip in SLIPS.values():
        ways, weight = Ways(sheet, slip.change(sheet.sums)), float(slip.often)
        for name in order:
            weight *= _chance(sheet, name, ways)
            if weight < 1e-6:
                break
        else:
            yield slip, weight
    if len(sheet.roots) == 1 and sheet.answers[name := sheet.roots[0]].unit == "threads":
        for pen in PEN:
            if any(
                pen.made(working.value, sheet.answers[name].value) for working in sheet.plain.working(name)
            ):
                yield pen.slip, pen.slip.often / len(sheet.answers) * sheet.plain.chance_of_terms(name)


def _chance(sheet: AnswerSheet, name: str, ways: Ways) -> float:
    """The chance of what she wrote for a number, if she made a slip."""
    if ways.give(name):
        return ways.chance_of_terms(name)
    return _NEVER if name in sheet.roots else _LAPSE


def _two(sheet: AnswerSheet) -> Iterator[tuple[tuple[Slip, ...], float]]:
    """Every two slips that together give all the wrong numbers, each at least one of them."""
    changed = {slip.name: Ways(sheet, slip.change(sheet.sums)) for slip in SLIPS.values()}
    some = [slip for slip in SLIPS.values() if any(changed[slip.name].give(name) for name in sheet.roots)]
    for one, other in combinations(some, 2):
        weight = one.often * other.often / _ALL
        both = Ways(sheet, other.change(one.change(sheet.sums)))
        for name in (*sheet.roots, *(name for name in sheet.answers if name not in sheet.roots)):
            if both.give(name):
                continue
            by_one = changed[one.name].give(name) or changed[other.name].give(name)
            weight *= _SOLE if by_one else _NEVER if name in sheet.roots else _LAPSE
            if weight < 1e-6:
                break
        else:
            yield (one, other), weight


def by_accident(sheet: AnswerSheet) -> float:
    """The chance of the wrong numbers, if nothing in the table made them: the nearer the likelier."""
    chance = _SPARED ** (len(sheet.answers) - len(sheet.roots))
    for name in sheet.roots:
        answer = sheet.answers[name]
        off = min(abs(working.value - answer.value) for working in sheet.plain.working(name))
        if answer.unit != "threads":
            off = off * MILLIMETRES[answer.unit] / sheet.sums.cloth_of(name).pitch_mm
        chance *= max(1 / (6 + 2 * float(off)), 0.01)
        chance *= sheet.plain.chance_of_terms(name)
    return chance


def _question(sheet: AnswerSheet, left: tuple[tuple[Slip, ...], ...], blank: tuple[str, ...]) -> Question:
    """The question that tells most of what is left apart, by a number that she has not given yet."""
    changed = {" and ".join(slip.name for slip in slips): _changed(sheet.sums, slips) for slips in left}
    best: tuple[int, str, dict[str, Working]] = (1, "", {})
    for name in blank:
        values = {cause: number_by(sums, name) for cause, sums in changed.items()}
        told = {cause: working for cause, working in values.items() if working is not None}
        apart = len({working.value for working in told.values()})
        if len(told) == len(left) and apart > best[0]:
            best = apart, name, told
    if best[1]:
        tells = tuple((cause, working.text()) for cause, working in best[2].items())
        return Question(f"What did you get for {best[1]}, {NAMES[best[1]]}?", best[1], tells)
    if len(left) == 1:
        return Question(left[0][0].question)
    clauses = ", or ".join(" and ".join(slip.clause for slip in slips) for slips in left)
    return Question(f"Which was it: {clauses}?")


def _changed(sums: Sums, slips: tuple[Slip, ...]) -> Sums:
    for slip in slips:
        sums = slip.change(sums)
    return sums
