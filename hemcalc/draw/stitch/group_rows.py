"""A side's groups broken into rows, and what is said of them in a picture.

Rows follow each other in the order of work, as lines of text do.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hemcalc.measure.counts import Count
from hemcalc.measure.words import so_many
from hemcalc.stitch.groups import Spacing


@dataclass(frozen=True, slots=True)
class Spaced:
    """What the picture shows: a side's groups, on cloth of this count, lengths in this unit."""

    spacing: Spacing
    count: Count
    unit: str
    #: Sentences that stand below the headline.
    advice: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Placed:
    """One group in its row: its number in the order of work, and the threads worked before it."""

    number: int
    size: int
    before: int


def in_rows(spacing: Spacing, most: int) -> list[list[Placed]]:
    """The groups in the order of work, broken into rows of at most so many threads.

    Examples
    --------
    >>> from hemcalc.stitch.spacing import space_stitches
    >>> [[group.size for group in row] for row in in_rows(space_stitches(23), 12)]
    [[4, 4, 4], [3, 4, 4]]
    """
    rows: list[list[Placed]] = [[]]
    before = 0
    for number, size in enumerate(spacing.groups, start=1):
        if before + size > most:
            rows.append([])
            before = 0
        rows[-1].append(Placed(number, size, before))
        before += size
    return rows


def headline(spaced: Spaced) -> str:
    """Threads, length and groups of the side, in a line."""
    spacing = spaced.spacing
    length = spaced.count.width(spacing.threads).text(spaced.unit)
    regular = spacing.count - spacing.off_size
    sizes = ((regular, spacing.group), (spacing.off_size, spacing.off_group))
    parts = ", ".join(f"{groups} of {size}" for groups, size in sizes if groups)
    return f"{spacing.threads} threads, {length}, in {so_many(spacing.count, 'group')}: {parts}"


def open_line_alt(spaced: Spaced) -> str:
    """The picture in words, with its numbers."""
    spacing = spaced.spacing
    length = spaced.count.width(spacing.threads).text(spaced.unit)
    if spacing.off_size:
        places = ", ".join(str(place) for place in spacing.off_places)
        which = f"is uneven: number {places}" if spacing.off_size == 1 else f"are uneven: numbers {places}"
        off = f"of which {spacing.off_size} {which}, of {spacing.off_group} threads"
    else:
        off = f"all of {spacing.group} threads"
    words = (
        f"An open line of {spacing.threads} threads, {length}, in {so_many(spacing.count, 'group')}, {off}. "
        f"{spacing.hand.capitalize()} hand: {spacing.text()}"
    )
    return " ".join((words, *spacing.notes, *spaced.advice))


def run_words(run: Sequence[Placed], noun: str) -> str:
    """Which groups a stretch holds, and of how many threads."""
    first, last, size = run[0].number, run[-1].number, run[0].size
    if first == last:
        return f"{noun.replace('groups', 'group')}{first}: {size}"
    return f"{noun}{first}–{last}: {size} each"
