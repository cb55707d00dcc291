"""What is in a learner's bag, job by job: thread in needlefuls, every basted round, needles, pins.

Lengths of lines follow from the piece; what the thread takes on its way over and under, and how
many pins a hem wants, is common practice with no published source.
"""

from __future__ import annotations

from dataclasses import dataclass

from hemcalc.finish.basted import basted, once_round
from hemcalc.finish.words import Steps
from hemcalc.measure.lengths import Length
from hemcalc.measure.words import so_many
from hemcalc.piece.piece import Piece
from hemcalc.stitch.amount import Amount, needlefuls
from hemcalc.stitch.path import HEM_PLIES, basting_stitch, whip_stitch
from hemcalc.stitch.plan import ThreadPlan
from hemcalc.workshop.goods import long_text

#: Tools that lie ready for everybody, and are in no bag.
OF_THE_ROOM = (
    "iron and board, with a damp cloth",
    "shears for cutting out",
    "a good lamp and a magnifier",
    "a box for broken needles and pins",
)

#: Basting over and under, and overcasting from stitch to stitch and deep: long and loose.
_BASTE, _OVERCAST = ("1/4 in", "1/4 in"), ("5 mm", "4 mm")


@dataclass(frozen=True, slots=True)
class Use:
    """Thread for one job: what it is, and in how many working lengths, fewest and most."""

    job: str
    thread: str
    fewest: int
    most: int
    working: Length

    @property
    def to_have(self) -> Length:
        """The most of it, in whole working lengths."""
        return self.working * self.most

    def text(self) -> str:
        """Needlefuls first, then metres.

        Examples
        --------
        >>> Use("hem stitch", "white thread", 6, 8, Length("50 cm")).text()
        'hem stitch: 6 to 8 needlefuls of 50 cm, so 4 m of white thread'
        """
        most = so_many(self.most, "needleful")
        range_ = most if self.fewest == self.most else f"{self.fewest} to {most}"
        long = f"of {self.working.text('cm')}, so {long_text(self.to_have)}"
        return f"{self.job}: {range_} {long} of {self.thread}"


@dataclass(frozen=True, slots=True)
class Counted:
    """Needles or pins that are counted out and in: of one name, for these jobs."""

    name: str
    quantity: int
    jobs: str

    def text(self) -> str:
        """How many, and for what."""
        return f"{self.quantity} × {self.name}{f', for {self.jobs}' if self.jobs else ''}"


def uses_of(piece: Piece, plan: ThreadPlan, steps: Steps, thread: str, basting: str) -> tuple[Use, ...]:
    """The thread for each job of these steps, by the thread's own plan and every round that is basted.

    The basting thread overcasts the raw edge too.
    """
    tau = piece.fabric.thickness or piece.fabric.across.pitch
    flat = sum(length.mm for name, length in basted(piece, steps) if name != "hem held down")
    held = once_round(piece, "open_line").mm
    each = basting_stitch(*_BASTE, tau).per_mm, basting_stitch(*_BASTE, HEM_PLIES * tau).per_mm
    more = float(flat) * each[0] + float(held) * each[1]
    rounds = plan.basting + Amount(more, more, more)
    found = [
        ("hem stitch and mitre seams", thread, plan.sewn),
        ("basting (tacking), every line of it", basting, rounds),
    ]
    if any("hold the edge" in step.movements for step in steps):
        size = piece.cut_size.in_hand
        edge = 2 * float((size[0] + size[1]).mm) * whip_stitch(*_OVERCAST, tau).per_mm
        found.append(("overcasting the raw edge", basting, Amount(edge, edge, edge)))

    def cut(mm: float) -> int:
        return needlefuls(mm, plan.working, plan.ends)

    return tuple(Use(job, name, cut(of.low_mm), cut(of.high_mm), plan.working) for job, name, of in found)
