"""The slips that learners make in the sums of an edge and of a piece.

A slip is the sums with one thing changed. What it gives, and how it was worked, come from the
definitions that give the right number, done again on the changed sums.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from hemcalc.measure.errors import HemError, of_type
from hemcalc.sums.sums import NAMES, Cloth, Sums
from hemcalc.sums.working import Worked

__all__ = ["SLIPS", "Slip", "number_that_tells", "possible_slips"]


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip: its name, what happened as a clause, and a question that leads to it.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> from hemcalc.sums.sums import sums_of
    >>> forgotten = SLIPS["turn forgotten"]
    >>> forgotten.worked(sums_of(example("bread cloth")), "total").line
    '7 + 2 + 11 + 11 = 31 threads'
    """

    name: str
    clause: str
    question: str
    #: The same sums with one thing changed.
    change: Callable[[Sums], Sums] = field(repr=False)

    def worked(self, sums: Sums, name: str, unit: str = "threads") -> Worked | None:
        """The number that this slip gives; None if it can't be made in these sums."""
        try:
            worked = self.change(sums).worked(name, unit)
        except HemError:
            return None  # a count that no length goes to
        whole = worked.value.denominator == 1 or unit != "threads"
        possible = worked.value >= 0 or name == "slack"
        return worked if whole and possible else None


def _cloths(change: Callable[[Cloth], Cloth], sums: Sums) -> Sums:
    return replace(sums, across=change(sums.across), down=change(sums.down))


def _other_unit(cloth: Cloth) -> Cloth:
    return replace(cloth, per="cm" if cloth.per == "in" else "in")


def _half_count(cloth: Cloth) -> Cloth:
    return replace(cloth, count=cloth.count / 2)


def _counts_exchanged(sums: Sums) -> Sums:
    across, down = sums.across, sums.down
    return replace(
        sums,
        across=replace(across, count=down.count, per=down.per),
        down=replace(down, count=across.count, per=across.per),
    )


def _shrinkage_exchanged(sums: Sums) -> Sums:
    across, down = sums.across, sums.down
    return replace(
        sums,
        across=replace(across, shrinks=down.shrinks),
        down=replace(down, shrinks=across.shrinks),
    )


def _unwashed(cloth: Cloth) -> Cloth:
    return replace(cloth, shrinks=cloth.shrinks * 0)


def _stitches(sums: Sums) -> Sums:
    across, down = sums.design
    return sums if across % 2 or down % 2 else replace(sums, design=(across // 2, down // 2))


def _fields(**changes: object) -> Callable[[Sums], Sums]:
    return lambda sums: replace(sums, **changes)  # type: ignore[arg-type]


_ALL = (
    Slip(
        "hem once",
        "the hem was counted once, not for its face and its back",
        "How often does the hem lie between the open line and the turn?",
        _fields(backs=0),
    ),
    Slip(
        "hem twice",
        "the hem was counted twice where it lies once",
        "How often does the hem's face lie in it, and how often the back?",
        _fields(faces=2, backs=2),
    ),
    Slip(
        "turn forgotten",
        "the turn was forgotten",
        "What lies beyond the hem's back, inside the fold?",
        _fields(turns=0),
    ),
    Slip(
        "drawn left out",
        "the drawn threads were left out of the ledger",
        "What becomes of the width of the threads that are drawn out?",
        _fields(counts_drawn=False),
    ),
    Slip(
        "first drawn as the last clear",
        "the last clear thread was taken for the first one drawn",
        "Which thread comes after the last one of the clear band?",
        _fields(clear_to_drawn=0),
    ),
    Slip(
        "inches for centimetres",
        "threads per inch and threads per cm were exchanged",
        "To what length does your count go, an inch or a centimetre?",
        partial(_cloths, _other_unit),
    ),
    Slip(
        "one side only",
        "the margin was put on one side only",
        "On how many sides of the design does cloth lie, that way?",
        _fields(sides_counted=1),
    ),
    Slip(
        "half the count",
        "half the count was taken, as if the cloth were counted in stitches over two threads",
        "Did you count threads, or stitches over two threads?",
        partial(_cloths, _half_count),
    ),
    Slip(
        "stitches for threads",
        "the design's stitches over two were taken for threads",
        "How many threads does a stitch over two take?",
        _stitches,
    ),
    Slip(
        "hem rounded the wrong way",
        "the hem was rounded to the wrong side",
        "Which whole number of threads is nearest to the width that was asked for?",
        _fields(hem_to_nearest=False),
    ),
    Slip(
        "turn rounded down",
        "the half thread of the turn was rounded down, not up",
        "Half of an odd hem has half a thread: which way does it go?",
        _fields(half_up=False),
    ),
    Slip(
        "size rounded down",
        "the size to cut was rounded down to a mark of the ruler, not up",
        "Is the mark on the ruler that you chose beyond the size, or short of it?",
        _fields(marks_up=False),
    ),
    Slip(
        "warp and weft exchanged",
        "warp and weft were exchanged",
        "Which count is counted across, and which down?",
        _counts_exchanged,
    ),
    Slip(
        "shrinkage on the wrong side",
        "the warp's shrinkage was put on the width, and the weft's on the length",
        "Which way do the warp threads run, so which way do they shorten the cloth?",
        _shrinkage_exchanged,
    ),
    Slip(
        "wash left out",
        "the wash was left out",
        "What does the first wash do to this cloth?",
        partial(_cloths, _unwashed),
    ),
    Slip(
        "folds exchanged",
        "one fold was taken for the other",
        "Which of the two folds is the finished edge?",
        _fields(folds_exchanged=True),
    ),
    Slip(
        "rule alone",
        "the rule of four was taken although the ledger needs more",
        "Is four times the hem as much as the ledger needs?",
        _fields(rule_alone=True),
    ),
    Slip(
        "open line centred",
        "the open line was centred on its mark, which makes the hem too narrow",
        "Which edge of the open line lies two hems and the turn in from the cut edge?",
        _fields(centred=True),
    ),
)

#: The slips that are looked for, by name.
SLIPS = {slip.name: slip for slip in _ALL}


def possible_slips(sums: Sums, name: str, unit: str = "threads") -> dict[str, Worked]:
    """What each slip would give for a number, by the slip's name; those that change it only.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> from hemcalc.sums.sums import sums_of
    >>> slips = possible_slips(sums_of(example("bread cloth")), "rule")
    >>> {name: int(worked.value) for name, worked in slips.items()}
    {'inches for centimetres': 112, 'half the count': 20, 'hem rounded the wrong way': 40, ...}
    """
    right = of_type(sums, Sums, "sums", "sums_of(example('bread cloth'))").worked(name, unit)
    found = {}
    for slip in _ALL:
        worked = slip.worked(sums, name, unit)
        if worked is not None and worked.value != right.value:
            found[slip.name] = worked
    return found


def number_that_tells(sums: Sums, slips: Sequence[str], asked: str) -> tuple[str, dict[str, Worked]] | None:
    """A number that comes out otherwise by each of these slips, so that asking for it tells.

    Parameters
    ----------
    sums : Sums
        The right sums.
    slips : sequence of str
        Names of the slips that can't be told apart by `asked`.
    asked : str
        The number that they give alike.

    Returns
    -------
    tuple or None
        The number's name, and what it is by each slip; None if there is no such number.

    Examples
    --------
    >>> from hemcalc.piece.examples import example
    >>> from hemcalc.sums.sums import sums_of
    >>> sums = sums_of(example("bread cloth"))
    >>> name, values = number_that_tells(sums, ["hem once", "folds exchanged"], "fold 2")
    >>> name, [worked.text() for worked in values.values()]
    ('fold 1', ['20 threads', '31 threads'])
    """
    for name in NAMES:
        if name == asked:
            continue
        values = {slip: SLIPS[slip].worked(sums, name) for slip in slips}
        told = {slip: worked for slip, worked in values.items() if worked is not None}
        if len(told) == len(slips) == len({worked.value for worked in told.values()}):
            return name, told
    return None
