"""Practice that follows what a learner has just done: fading help, the slip again, and another's slip.

A path goes from a worked example over lines with blanks to the bare sum. After a slip comes a sum in
which it would be made again, and in which no other slip looks like it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from hemcalc.measure.errors import HemError, of_type, one_of, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.sums.checking import Report
from hemcalc.sums.exercises import LEVELS, Asked, Exercise, exercise
from hemcalc.sums.facts import NAMES
from hemcalc.sums.slip import Slip
from hemcalc.sums.slips import SLIPS, possible_slips
from hemcalc.sums.sums import sums_of
from hemcalc.sums.working import Working

#: What stands on the sheet at each step of the path: all of the line, all but its last number, ...
STEPS_OF_FADING = ("worked", "last step blank", "two steps blank", "bare")
_TRIES = 400
_MAX_SUMS = 1000


def faded(sums: Exercise, step: int) -> dict[str, str]:
    """The lines of a sum's working with blanks, by the number: 0 has none, 1 one, 2 two, 3 only blanks.

    Examples
    --------
    >>> sums = exercise(7, level=3)
    >>> [faded(sums, step)["need"] for step in (0, 1, 2)]
    ['11 + 4 + 18 + 18 + 9 + 8 = 68 threads', '11 + 4 + 18 + 18 + 9 + 8 = … threads',
     '11 + 4 + 18 + 18 + 9 + … = … threads']
    >>> faded(sums, 3)["need"]
    ''
    """
    key = of_type(sums, Exercise, "sums", "exercise(7)").key
    step = whole_threads(step, "step", most=len(STEPS_OF_FADING) - 1, example=1, of="")
    return {name: working.faded(step) if step < 3 else "" for name, working in key.items()}


def provoking(slip: str, seed: int, level: int = 1) -> Exercise | None:
    """A sum in which this slip would show, and would not be taken for another; None if there is none.

    The seeds from `seed` on are gone through, so the same seed gives the same sum.

    Examples
    --------
    >>> sums = provoking("rule alone", 7, level=3)
    >>> sums.key["margin"].value > sums_of(sums.piece, sums.side).working("rule").value
    True
    """
    one_of(slip, tuple(SLIPS), "slip")
    for following in range(_TRIES):
        sums = exercise(seed + following, level)
        if _shows(sums, slip):
            return sums
    return None


def _shows(sums: Exercise, slip: str) -> bool:
    """Whether the sheet comes out otherwise by this slip, and by no other that is made as often."""
    right = sums_of(sums.piece, sums.side)

    def sheet(name: str) -> list[Fraction | None]:
        numbers = (SLIPS[name].working(right, asked.name, asked.unit) for asked in sums.asked)
        return [working.value if working else None for working in numbers]

    hers = sheet(slip)
    if None in hers or hers == [working.value for working in sums.key.values()]:
        return False
    rivals = (other for other in SLIPS.values() if other.name != slip and other.often >= SLIPS[slip].often)
    return all(sheet(other.name) != hers for other in rivals)


def next_sum(done: Exercise, report: Report, seed: int) -> Exercise:
    """The sum to do next: one that provokes the likeliest slip of this report, or just another.

    Without a mistake it is of the next level.

    Examples
    --------
    >>> done = exercise(7, level=3)
    >>> report = done.check({"need": "11 + 4 + 18 + 18 + 9", "slack": 12, "margin": 72})
    >>> next_sum(done, report, 8).title, report.cause.named.name
    ('Sum 8, level 3', 'handling forgotten')
    """
    of_type(done, Exercise, "done", "exercise(7)")
    of_type(report, Report, "report", "exercise(7).check({})")
    level = next((level for level, sets in LEVELS.items() if tuple(a.name for a in done.asked) in sets), 4)
    if report.all_right:
        return exercise(seed, min(level + 1, max(LEVELS)))
    for slips in report.cause.slips:
        for slip in slips:
            if slip.name in SLIPS and (found := provoking(slip.name, seed, level)):
                return found
    return exercise(seed, level)


def find_her_slip(sums: Exercise, slip: str) -> Mapping[str, Working]:
    """A sheet as an invented learner filled it in, with this slip: to be marked by the learner.

    Refused if the slip makes no difference to this sum.

    Examples
    --------
    >>> find_her_slip(exercise(7, level=3), "turn forgotten")["need"].line
    '11 + 4 + 18 + 18 + 8 = 59 threads'
    """
    of_type(sums, Exercise, "sums", "exercise(7)")
    one_of(slip, tuple(SLIPS), "slip")
    right, key = sums_of(sums.piece, sums.side), sums.key
    hers = {
        asked.name: SLIPS[slip].working(right, asked.name, asked.unit) or key[asked.name]
        for asked in sums.asked
    }
    if all(working.value == key[name].value for name, working in hers.items()):
        raise HemError(
            f"slip is {shown(slip)}, which makes no difference to this sum, but must change one of its "
            "numbers; for example 'turn forgotten' where the total is asked for.",
            "slip",
        )
    return hers


@dataclass(frozen=True, slots=True)
class Heard:
    """A wrong answer that a leader may hear, and what may lie behind it, the likeliest first."""

    answer: str
    slips: tuple[Slip, ...]

    def text(self) -> str:
        """What to think of, and what to ask."""
        clauses = ", or ".join(slip.clause for slip in self.slips)
        return f"If she says {self.answer}: perhaps {clauses}. Ask: {self.slips[0].question}"


def heard(sums: Exercise, asked: Asked, most: int = 3) -> tuple[Heard, ...]:
    """The wrong answers to a number that are likeliest to be heard, by the slips that give them.

    Examples
    --------
    >>> sums = exercise(7, level=3)
    >>> print(heard(sums, sums.asked[0])[2].text())
    If she says 50 threads: perhaps the hem was counted once, not for its face and its back. Ask: How often
    does the hem lie between the open line and the turn?
    """
    by_number = slips_by_number(of_type(sums, Exercise, "sums", "exercise(7)"))
    by_answer: dict[str, list[Slip]] = {}
    for name, working in by_number[asked].items():
        by_answer.setdefault(working.text(), []).append(SLIPS[name])
    likeliest = sorted(by_answer.items(), key=lambda each: -sum(slip.often for slip in each[1]))

    def reach(slip: Slip) -> int:
        """How many numbers of the sheet it would change: the fewer, the nearer it lies."""
        return sum(slip.name in slips for slips in by_number.values())

    return tuple(
        Heard(answer, tuple(sorted(slips, key=lambda slip: (-slip.often, reach(slip)))[:2]))
        for answer, slips in likeliest[:most]
    )


@lru_cache(maxsize=64)
def slips_by_number(sums: Exercise) -> dict[Asked, dict[str, Working]]:
    """What each slip makes of each number of a sheet, kept while its numbers are gone through."""
    right = sums_of(sums.piece, sums.side)
    return {each: possible_slips(right, each.name, each.unit) for each in sums.asked}


def told_by_several(name: str = "total", sums: int = 200) -> int:
    """Of a hundred wrong answers to a number, how many could have come from more than one slip.

    Counted are all known slips in the practice sums of level 3 with the seeds from 0, each as often as
    any other.

    Examples
    --------
    >>> told_by_several("total", 20) < told_by_several("hem", 20)
    True
    """
    one_of(name, tuple(NAMES), "name")
    sums = whole_threads(sums, "sums", least=1, most=_MAX_SUMS, example=200, of="sums")
    alike: list[int] = []
    for seed in range(sums):
        slips = possible_slips(sums_of(exercise(seed, 3).piece), name).values()
        found = Counter(working.value for working in slips)
        alike += [times for times in found.values() for _ in range(times)]
    return round(Fraction(100 * sum(times > 1 for times in alike), len(alike)))
