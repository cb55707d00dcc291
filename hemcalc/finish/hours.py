"""The hours that a piece takes, step by step: counted where it can be counted, from memory elsewhere.

Stitches and darned crossings are counted and divided by the pace; what is basted, drawn, cut and
folded is measured along the piece, and its pace is from memory, as is what a corner takes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from hemcalc.finish.basted import basted, once_round
from hemcalc.finish.pace import Pace
from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import Step, Steps
from hemcalc.measure.errors import of_type
from hemcalc.measure.html import table_html
from hemcalc.measure.lengths import Length
from hemcalc.piece.piece import Piece
from hemcalc.stitch.spacing import piece_spacings
from hemcalc.stitch.thread import thread_needed
from hemcalc.weave.open_lines import ends_of
from hemcalc.weave.reach import Allowances, reach_of

if TYPE_CHECKING:
    from pandas import DataFrame

#: Minutes, or what is done in five of them: two ends.
Range = tuple[float, float]

_ROUND = 5  # minutes: no step is timed more finely than that

#: Centimetres done in five minutes, quick and slow. From memory, no source.
CENTIMETRES: Mapping[str, Range] = MappingProxyType(
    {
        "hold the edge": (30, 15),
        "baste the outline": (80, 40),
        "draw out": (60, 25),
        "withdraw to the corner": (60, 25),
        "baste the lines": (80, 40),
        "cut": (120, 50),
        "turn": (60, 30),
        "fold the hem": (40, 20),
    }
)

#: How often each is done, and the minutes that it takes, least and most. From memory, no source.
MINUTES: Mapping[str, tuple[int, Range]] = MappingProxyType(
    {
        "fold the middle": (1, (5, 10)),
        "trim the corner": (4, (1, 2)),
        "fold the corner": (4, (2, 4)),
        "fasten on": (4, (1, 2)),
        "corner group": (4, (1, 3)),
        "oversew": (4, (3, 6)),
        "finish": (1, (10, 20)),
    }
)
#: Minutes to lift and snip a thread that is to be drawn. From memory.
SNIPPING = (1.0, 2.0)
#: A step in which the hands only look, count or press, and what any step takes to be read. From memory.
LOOKING, READING = (5.0, 10.0), (1.0, 2.0)

#: Lines that are basted with the design's outline.
OUTLINE = ("centre lines", "counting lines", "outline of the design")

#: The stitching of the design is the reader's own matter, and in no sum.
OWN = "Stitch the design"


@dataclass(frozen=True, slots=True)
class Spell:
    """How long a step takes, in minutes, least and most."""

    step: Step
    least: float
    most: float
    #: What was counted for it, in words; empty where nothing was.
    counted: str

    def __repr__(self) -> str:
        return f"Spell({self.step.title}: {self.text()})"

    def text(self) -> str:
        """The minutes, as a range."""
        return _minutes_text(self.least, self.most)


@dataclass(frozen=True, slots=True)
class Hours:
    """How long a piece takes. Made by `hours`."""

    spells: tuple[Spell, ...]
    pace: Pace

    def __repr__(self) -> str:
        return f"Hours({len(self.spells)} steps, {clock_text(self.least)} to {clock_text(self.most)})"

    @property
    def least(self) -> float:
        """Minutes for all steps, by quick hands."""
        return sum(spell.least for spell in self.spells)

    @property
    def most(self) -> float:
        """Minutes for all steps, by slow hands."""
        return sum(spell.most for spell in self.spells)

    def text(self) -> str:
        """The whole time, and how it was reckoned."""
        return (
            f"{clock_text(self.least)} to {clock_text(self.most)} hours, the stitching of the design and "
            f"rests not in it. {self.pace.text()} All other paces are from memory."
        )

    def table(self) -> DataFrame:
        """A row for each step, its minutes as numbers."""
        from pandas import DataFrame

        rows = [(s.step.title, s.counted, s.least, s.most) for s in self.spells]
        columns = ["title", "counted", "least, minutes", "most, minutes"]
        numbers = [spell.step.number for spell in self.spells]
        return DataFrame(rows, columns=columns, index=numbers).rename_axis("step")

    def _repr_html_(self) -> str:
        rows = ([str(s.step.number), s.step.title, s.counted, s.text()] for s in self.spells)
        return table_html(["step", "title", "counted", "time"], rows, self.text())


def hours(
    piece: Piece,
    pace: Pace | None = None,
    *,
    group: int = 4,
    hand: str = "right",
    beginning: str = "blank, to size",
) -> Hours:
    """How long each step of `finish_steps` takes, in minutes, but for the design's own stitching.

    Refused if a side can't be made of such groups.

    Parameters
    ----------
    pace : Pace, optional
        How quickly the hand works; a range from memory if left out.
    piece, group, hand, beginning
        As for `finish_steps`.

    Source
    ------
    From memory, no published source; what is counted and measured follows from the piece.

    Examples
    --------
    >>> from hemcalc import example
    >>> coaster = hours(example("coaster"), Pace(15, 40))
    >>> [spell.counted for spell in coaster.spells if spell.step.title == "Hem stitch the sides"]
    ['84 stitches']
    """
    steps = finish_steps(piece, group=group, hand=hand, beginning=beginning)
    speed = Pace() if pace is None else of_type(pace, Pace, "pace", "Pace(15, 40)")
    sums = _sums(piece, speed, group, steps)
    return Hours(tuple(_spell(step, sums) for step in steps if step.title != OWN), speed)


def _spell(step: Step, sums: Mapping[str, tuple[Range, str]]) -> Spell:
    least, most = READING if step.movements else LOOKING
    counted = []
    for movement in step.movements:
        (low, high), said = sums[movement]
        least, most = least + low, most + high
        counted.append(said)
    return Spell(step, least, most, ", ".join(filter(None, dict.fromkeys(counted))))


def _sums(piece: Piece, pace: Pace, group: int, steps: Steps) -> Mapping[str, tuple[Range, str]]:
    """What each movement takes of minutes, and what was counted for it."""
    stitches = sum(spacing.count for spacing in piece_spacings(piece, group))
    seam = thread_needed(piece, group).seam_stitches
    ends = [end for end in ends_of(piece) if end.darns]
    crossings = sum(reach_of(end, "line", Allowances()).covers for end in ends)
    edge, inner = _round(piece, "cut"), max(piece.drawn - 1, 1)
    lines = dict(basted(piece, steps))
    centimetres = {
        "hold the edge": edge,
        "baste the outline": sum(float(lines.get(name, Length(0)).cm) for name in OUTLINE),
        "draw out": edge,
        "withdraw to the corner": inner * _round(piece, "clear"),
        "baste the lines": _round(piece, "fold_1") + _round(piece, "fold_2") + edge,
        "cut": edge,
        "turn": _round(piece, "fold_2"),
        "fold the hem": _round(piece, "open_line"),
    }
    sums = {name: _along(cm, CENTIMETRES[name]) for name, cm in centimetres.items()}
    for name, threads in (("draw out", 4), ("withdraw to the corner", 4 * inner)):
        (least, most), said = sums[name]
        snipped = least + threads * SNIPPING[0], most + threads * SNIPPING[1]
        sums[name] = snipped, f"{threads} threads, {said}"
    none = dict.fromkeys(("snip", "stitch 2", "stitch 3"), ((0.0, 0.0), ""))
    each = {name: ((times * low, times * high), "") for name, (times, (low, high)) in MINUTES.items()}
    return {
        **(none | each | sums),
        "darn back": (pace.darning(crossings), f"{crossings} crossings"),
        "stitch 1": (pace.stitching(stitches), f"{stitches} stitches"),
        "mitre seam": (pace.stitching(seam), f"{seam} seam stitches"),
    }


def _round(piece: Piece, line: str) -> float:
    """How far it is once round a line of the ledger, cm on the cloth in hand."""
    return float(once_round(piece, line).cm)


def _along(cm: float, in_five: Range) -> tuple[Range, str]:
    return (5 * cm / in_five[0], 5 * cm / in_five[1]), f"{cm:.0f} cm"


def _minutes_text(least: float, most: float) -> str:
    low, high = round(least / _ROUND) * _ROUND, -int(-most // _ROUND) * _ROUND
    if high <= _ROUND:
        return f"up to {_ROUND} min"
    return f"{high} min" if low == high else f"{max(low, _ROUND)} to {high} min"


def clock_text(minutes: float) -> str:
    """Minutes as hours and minutes, to the nearest five.

    Examples
    --------
    >>> clock_text(127), clock_text(58)
    ('2:05', '1:00')
    """
    rounded = round(minutes / _ROUND) * _ROUND
    return f"{rounded // 60}:{rounded % 60:02}"
