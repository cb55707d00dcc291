"""What a learner has done: a line a sum, in a file of her own that she and a leader can read.

Each line says when, which sum, how many numbers were right, and the slip if one was named. From it
comes the next sum: the slip just made at once, an older one again after a while, and a step up when
all was right.
"""

from __future__ import annotations

import os
import re
from dataclasses import dataclass

from hemcalc.measure.errors import HemError, of_type, shown
from hemcalc.measure.files import alone, file_name, read_file, write_file
from hemcalc.sums.checking import Report
from hemcalc.sums.exercises import LEVELS, Exercise, exercise
from hemcalc.sums.practice import provoking
from hemcalc.sums.slips import SLIPS

_HEAD = "hemcalc: sums that were done, the oldest first"
_LINE = re.compile(r"([A-Z][a-z]+) (-?\d+)(?:, level (\d))?: (\d+) of (\d+) right\.(?: Slip: (.+)\.)?")
_MAX_BYTES = 1_000_000  # bytes of a file that are read
_AGAIN = 3  # sums after which an older slip comes round again


@dataclass(frozen=True, slots=True)
class Done:
    """A sum that was done."""

    seed: int
    #: From 1 to 4; 0 for a short sum on another topic, which has none.
    level: int
    right: int
    asked: int
    #: The slip that was named; empty if none was.
    slip: str = ""
    #: What it was on; the sums of the ledger and the margin, by level, are ``"sum"``.
    topic: str = "sum"

    @property
    def whole(self) -> bool:
        """Whether all of it was right."""
        return self.right == self.asked

    def text(self) -> str:
        """Its line in the file."""
        slip = f" Slip: {self.slip}." if self.slip else ""
        level = f", level {self.level}" if self.level else ""
        return f"{self.topic.capitalize()} {self.seed}{level}: {self.right} of {self.asked} right.{slip}"


@dataclass(frozen=True, slots=True)
class Progress:
    """The sums that were done, the oldest first.

    Examples
    --------
    >>> done = exercise(7, level=3)
    >>> progress = Progress().with_sum(done, done.check({"need": "11 + 4 + 18 + 18 + 9"}))
    >>> print(progress.text())
    hemcalc: sums that were done, the oldest first
    Sum 7, level 3: 0 of 3 right. Slip: handling forgotten.
    >>> progress.next_sum().piece.handling > 0
    True
    """

    done: tuple[Done, ...] = ()

    def __repr__(self) -> str:
        whole = sum(each.whole for each in self.done)
        return f"Progress({len(self.done)} sums, {whole} all right)"

    def with_sum(self, sums: Exercise, report: Report) -> Progress:
        """The same with one sum more."""
        title = of_type(sums, Exercise, "sums", "exercise(7)").title
        of_type(report, Report, "report", "exercise(7).check({})")
        found = re.fullmatch(r"Sum (-?\d+), level (\d)", title)
        if not found:
            raise HemError(f"sums is {title}, but must have a seed; for example exercise(7).", "sums")
        right = sum(mark.right for mark in report)
        named = report.cause.named.name if report.cause.named else ""
        return self.with_done(Done(int(found[1]), int(found[2]), right, len(sums.asked), named))

    def with_done(self, done: Done) -> Progress:
        """The same with one more that was done."""
        return Progress((*self.done, of_type(done, Done, "done", "Done(7, 3, 2, 3)")))

    def of_topic(self, topic: str) -> Progress:
        """What was done on this topic."""
        return Progress(tuple(each for each in self.done if each.topic == topic))

    def text(self) -> str:
        """What stands in the file."""
        return "\n".join([_HEAD, *(each.text() for each in self.done)])

    def next_sum(self) -> Exercise:
        """The sum to do next: it provokes the slip just made, or now and then an older one."""
        if not self.done:
            return exercise(1, 1)
        last, seed = self.done[-1], self.done[-1].seed + 1
        slips = [each.slip for each in self.done if each.slip in SLIPS]
        due = last.slip or (slips[len(self.done) // _AGAIN % len(slips)] if slips and self._due else "")
        if due and (found := provoking(due, seed, last.level)):
            return found
        return exercise(seed, min(last.level + last.whole, max(LEVELS)))

    @property
    def _due(self) -> bool:
        return len(self.done) % _AGAIN == 0

    def save(self, path: str) -> None:
        """Write it to her file, which is added to and never written over with anything else.

        Refused if the file is there and holds other things.
        """
        with alone(path):
            there = os.path.exists(file_name(path))
            before = load_progress(path).done if there else ()
            if before != self.done[: len(before)]:
                raise HemError(
                    f"{shown(path)} has other sums in it, which would be lost, but must be the file that "
                    "this was read from; for example 'my_sums.txt'.",
                    "path",
                )
            write_file(path, self.text().encode(), replace=there)


def load_progress(path: str) -> Progress:
    """What a learner's file says that she has done; refused if `Progress` doesn't write such a line."""
    head, *lines = read_file(path, most=_MAX_BYTES).decode("utf-8", "replace").splitlines() or [""]
    found = [_LINE.fullmatch(line) for line in lines if line.strip()]
    if head != _HEAD or not all(found):
        raise HemError(
            f"{shown(path)} is not a file of sums that were done, or was changed, but must begin with "
            f"'{_HEAD}' and have a line a sum; for example 'Sum 7, level 3: 2 of 3 right.'.",
            "path",
        )
    return Progress(tuple(_done(line) for line in found if line))


def _done(line: re.Match[str]) -> Done:
    seed, level, right, asked = (int(line[i] or 0) for i in (2, 3, 4, 5))
    return Done(seed, level, right, asked, line[6] or "", line[1].lower())
