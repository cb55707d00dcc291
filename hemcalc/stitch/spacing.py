"""Spacing the stitches: how the threads of a side fall into groups, corner to corner.

A side has N = design + clear bands at both ends threads between its open lines, and hem
stitch takes them up a few at a time. Where the group doesn't divide them a group or two must
be off by a thread; this says how few, of which size, and where they show least.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import count

from hemcalc.measure.errors import HemError, of_type
from hemcalc.measure.exact import half_up, whole_threads
from hemcalc.measure.words import threads_said
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.stitch.groups import GROUP_SIZES, HANDS, Spacing, as_group, way_of


def space_stitches(
    threads: int, group: int = 4, *, hand: str = "right", worked: str | None = None
) -> Spacing:
    """The groups in which hem stitch takes up a side, from corner to corner.

    Groups are of `group` threads; where that doesn't divide the side some are one thread
    larger or smaller, never further off, for that shows, and never under two. Preferred, in
    this order, is the spacing

    1. with the fewest off-size groups;
    2. that is the same from both ends: only one off-size group among an even number of
       groups can't be;
    3. whose runs of regular groups are most equal. A run that ends in a corner is half of one
       that goes on round it, so it is doubled to be compared, and the two such runs weigh as
       one: the least Σ inner (r − m)² + ½ (2 first − m)² + ½ (2 last − m)², m their mean;
    4. with the smaller off-size groups, though the steps before leave no such choice;
    5. that begins with the longer run, in the order of work.

    Refused if the side can't be made of such groups, as a side of 2 in groups of 4: the sentence says the
    nearest that can.

    Parameters
    ----------
    threads : int
        Threads between the open lines at the side's two ends: design and both clear bands.
    group : int
        Threads to a group, 2 to 6.
    hand : str
        Hand that holds the needle, "right" or "left".
    worked : str, optional
        "left to right" or "right to left"; what comes naturally to the hand if left out.

    Source
    ------
    Common practice of the trade, no published source; the books say nothing of a remainder.

    Examples
    --------
    >>> space_stitches(24).groups
    (4, 4, 4, 4, 4, 4)
    >>> space_stitches(26).groups
    (4, 5, 4, 4, 5, 4)
    >>> space_stitches(7, 5)
    Traceback (most recent call last):
    hemcalc.HemError: threads is 7, which can't be made of groups of 4, 5 or 6, but must be
    a side that can; for example 6 or 8, the nearest.
    """
    threads = whole_threads(threads, "threads", least=1, example=24)
    group, way = as_group(group), (hand, way_of(hand, worked))
    if spacing := _preferred(threads, group, *way):
        return spacing
    raise HemError(f"threads is {threads}{reason_against(threads, group)}", "threads")


def reason_against(threads: int, group: int) -> str:
    """Why a side can't be made of such groups, to follow its number of threads; empty if it can.

    Examples
    --------
    >>> reason_against(2, 4)
    ", which can't be made of groups of 3, 4 or 5, but must be a side that can; for example 3, the nearest."
    """
    threads, group = whole_threads(threads, "threads", least=1, example=24), as_group(group)
    if _preferred(threads, group, HANDS[0]):
        return ""
    return (
        f", which can't be made of groups of {_sizes_in_words(group)}, but must be "
        f"a side that can; for example {_nearest_in_words(threads, group)}, the nearest."
    )


def rest_of_side(
    threads_left: int, group: int = 4, *, hand: str = "right", worked: str | None = None
) -> Spacing:
    """The groups for the last stretch before a corner, for one who is already under way.

    The threads that are left are spaced as a side of their own, in the order of work. Refused if what is left
    can't be made of such groups: the sentence says how many stitches to take out, and what to work then.

    Parameters
    ----------
    threads_left : int
        Threads from the last stitch to the open line at the corner.
    group, hand, worked
        As for `space_stitches`.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> [rest_of_side(left).groups for left in (7, 8, 9)]
    [(4, 3), (4, 4), (4, 5)]
    >>> rest_of_side(2)
    Traceback (most recent call last):
    hemcalc.HemError: threads_left is 2, which can't be made of groups of 3, 4 or 5, but the
    last group of 4 can be taken out: work 2 groups of 3, from left to right.
    """
    left = whole_threads(threads_left, "threads_left", least=1, example=9)
    group, way = as_group(group), (hand, way_of(hand, worked))
    if spacing := _preferred(left, group, *way):
        return spacing
    undone, instead = next(
        (n, spacing) for n in count(1) if (spacing := _preferred(left + n * group, group, *way))
    )
    last = f"last group of {group}" if undone == 1 else f"last {undone} groups of {group}"
    raise HemError(
        f"threads_left is {left}, which can't be made of groups of {_sizes_in_words(group)}, but the "
        f"{last} can be taken out: work {instead.order}.",
        "threads_left",
    )


def piece_spacings(
    piece: Piece, group: int = 4, hand: str = "right", worked: str | None = None
) -> Sides[Spacing]:
    """How the stitches of each of the four open lines are spaced, from corner to corner.

    Those at the top and the bottom take up the threads of the design's width and of the clear
    bands left and right; those at the left and the right the design's height with the others.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> from hemcalc import example
    >>> spacings = piece_spacings(example("sampler"))
    >>> spacings.top.threads, spacings.top.off_size, spacings.left.threads, spacings.left.off_size
    (312, 0, 244, 0)
    """
    (columns, rows), clear = of_type(piece, Piece, "piece", "example('coaster')").design, piece.clear
    across = _line_spacing("top", columns + clear.left + clear.right, group, hand, worked)
    down = _line_spacing("left side", rows + clear.top + clear.bottom, group, hand, worked)
    return Sides(left=down, right=down, top=across, bottom=across)


def _line_spacing(which: str, threads: int, group: int, hand: str, worked: str | None) -> Spacing:
    if why := reason_against(threads, group):
        raise HemError(f"The open line at the {which} has {threads_said(threads)}{why}", "design")
    return space_stitches(threads, group, hand=hand, worked=worked)


def _off_groups(group: int) -> tuple[int, ...]:
    return tuple(size for size in (group - 1, group + 1) if size >= GROUP_SIZES[0])


def _preferred(threads: int, group: int, hand: str, worked: str | None = None) -> Spacing | None:
    """The spacing to be preferred, or None if these threads can't be so spaced.

    Two candidates are enough, however long the side. With n to a group and r threads over,
    they have r groups of n + 1, or n − r of n − 1. Mixing the two kinds never pays: a smaller
    and b larger ones hold as much as |b − a| of one kind and regular groups for the rest, as
    many in all. Nor does one kind with n more of them than needed: where those fit in, the
    fewer do.
    """
    if threads % group == 0:
        return Spacing(threads, group, hand, group, (threads // group,), worked)
    kinds = []
    for off_group in _off_groups(group):
        off = threads % group if off_group > group else -threads % group
        if off * off_group <= threads:
            kinds.append((off, off_group))
    fewest = min(kinds, default=(0, 0))[0]
    candidates = [
        Spacing(
            threads, group, hand, off_group, _even_runs((threads - off * off_group) // group, off), worked
        )
        for off, off_group in kinds
        if off == fewest
    ]
    # The smaller kind stands first, and min keeps the first of equals.
    return min(candidates, key=_fault, default=None)


def _even_runs(regular: int, off: int) -> tuple[int, ...]:
    """The most equal runs of so many regular groups round 1, 2 or 3 off-size ones.

    More are never the fewest: where n − r groups of n − 1 fit in and r < n − r, the r of
    n + 1 fit in too, and the other way round; and the lesser of the two is at most n / 2.

    The first run is the whole number nearest to half the mean run, the greater of two:

    - 1 off-size group: the last run is the same, or one shorter;
    - 2: ends of e leave R − 2e between them, and the squares come to 2 (2e − R/2)²;
    - 3: ends of e leave R/2 − e twice, and the squares come to 6 (e − R/6)². Only groups of
      six take three, r = 3, and of three fives and three sevens one makes an odd number of
      groups, R even: that is symmetric, and the other, whose R is odd, can't be preferred.
    """
    first = half_up(Fraction(regular, 2 * off))
    if off == 1:
        return first, regular - first
    inner = regular - 2 * first
    return (first, inner, first) if off == 2 else (first, inner - inner // 2, inner // 2, first)


def _fault(spacing: Spacing) -> tuple[bool, Fraction]:
    """What is to be avoided, the worse first.

    A side that isn't the same from both ends, and the squares about the mean of the runs between off-size
    groups. What the two end runs weigh never decides: with 2 or 3 off-size groups their squares grow with
    those between.
    """
    mean = Fraction(sum(spacing.runs), spacing.off_size)
    return not spacing.symmetric, Fraction(sum((run - mean) ** 2 for run in spacing.runs[1:-1]))


def _sizes_in_words(group: int) -> str:
    *smaller, larger = sorted({*_off_groups(group), group})
    return f"{', '.join(str(size) for size in smaller)} or {larger}"


def _nearest_in_words(threads: int, group: int) -> str:
    near = next(sides for step in count(1) if (sides := _sides_at(step, threads, group)))
    return " or ".join(str(side) for side in near)


def _sides_at(step: int, threads: int, group: int) -> list[int]:
    sides = (threads - step, threads + step)
    return [side for side in sides if side > 0 and _preferred(side, group, HANDS[0])]
