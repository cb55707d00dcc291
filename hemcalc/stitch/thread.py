"""The thread that a piece takes: stitches, seams and basting, as a range and in needlefuls.

From the path of one stitch to the lengths to cut. What is not known (how far the thread
pulls a group in, how much is wasted) makes the range; one measured sample narrows it.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import NamedTuple

from hemcalc.measure.errors import HemError, of_type, one_of, parts_of
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length, as_length
from hemcalc.measure.measured import measured_mm, share
from hemcalc.measure.words import percent
from hemcalc.piece.piece import THROUGH, Piece
from hemcalc.piece.sides import SIDES
from hemcalc.stitch.amount import Amount, needlefuls
from hemcalc.stitch.groups import as_group
from hemcalc.stitch.path import HEM_PLIES, Measure, basting_stitch, hem_stitch, ladder_stitch, whip_stitch
from hemcalc.stitch.plan import StitchedSide, ThreadPlan
from hemcalc.stitch.spacing import space_stitches
from hemcalc.yarn.diameter import YarnDiameter

_SEAMS = ("whip", "ladder")
#: Threads of the hem that a stitch takes in; common practice, no published source.
BITE = 2


class _Case(NamedTuple):
    """One end of the range, or its middle: what is not known, taken so."""

    thickness_mm: float
    thread_mm: float
    pulled: float


#: The least, the middle and the most.
_Cases = tuple[_Case, _Case, _Case]


def usual_bite(piece: Piece) -> int:
    """Threads deep that the needle bites: `BITE`, or all of a hem that is narrower."""
    return min(BITE, *(edge.hem for edge in piece.edges))


def thread_needed(
    piece: Piece,
    group: int = 4,
    *,
    depth: int | None = None,
    thread: YarnDiameter | Measure | None = None,
    thickness: Measure | None = None,
    pulled: tuple[object, object] = ("50 %", "100 %"),
    seam: str = "whip",
    seam_over: int = 2,
    baste: tuple[Measure, Measure] = ("1/4 in", "1/4 in"),
    working: Length | str = "50 cm",
    start: Length | str = "5 cm",
    end: Length | str = "8 cm",
    waste: tuple[object, object] = ("10 %", "15 %"),
) -> ThreadPlan:
    """The thread that hem stitch, mitre seams and basting of a piece take.

    Each side's stitches × the path of one, the seams and three basted lines round, then waste, then lengths
    to cut with a start and an end each. Refused if a side can't be made of such groups, or start and end use
    up the working length.

    Parameters
    ----------
    piece : Piece
        The piece; its fabric's thickness serves if known.
    group : int
        Threads to a group, 2 to 6.
    depth : int
        Threads deep that the needle bites into the hem, 1 or more, at most the hem; the usual bite if left
        out.
    thread : YarnDiameter, Length, str or float, optional
        Thickness of the thread; taken as that of the cloth's own yarn if left out.
    thickness : Length, str or float, optional
        Thickness of the cloth, if the fabric doesn't say; taken as from a third of the pitch
        to the whole of it if neither does.
    pulled : tuple of share
        The least and the most that a group keeps of its width when the thread is pulled.
    seam : str
        ``"whip"`` or ``"ladder"``, for the mitre seams, one layer caught.
    seam_over : int
        Threads from one stitch of a seam to the next, 1 or more.
    baste : tuple of Length, str or float
        Basting thread seen above, and run below, in each stitch.
    working : Length or str
        Thread cut from the ball each time.
    start, end : Length or str
        What fastening on and off take of each length, with what the needle can't sew.
    waste : tuple of share
        The least and the most that unpicking, fraying and knots cost.

    Source
    ------
    The sum, the seams, starts and ends: common practice of the trade, no published source.
    Waste of 10 to 15 %: "Measuring actual thread consumption", apparel-engineering course
    article, n.d., example (machine seams). Working lengths of 40 to 50 cm: Encyclopedia of
    Needlework, Therese de Dillmont, Project Gutenberg 20776, The Thread. Basting of 1/4 in:
    Handicraft for Girls, Idabelle McGlauflin, 1910, Basting A. Pulling in and thickness:
    assumed by hemcalc, no source.

    Examples
    --------
    >>> from hemcalc.stitch import Sample
    >>> linen = Fabric("28/in", thickness="0.5 mm", washed=True)
    >>> coaster = Piece(linen, (104, 104), hem="3/8 in", clear=8)
    >>> plan = thread_needed(coaster)
    >>> plan.stitches, plan.needlefuls, plan.buy().text("cm")
    (120, (6, 7), '350 cm')
    >>> print(plan.sums()[4])
    A hem stitch takes 12 to 17 mm, by its path.
    >>> plan.calibrate(Sample(20, "30 cm")).needlefuls
    (6, 7)
    """
    of_type(piece, Piece, "piece", "example('coaster')")
    group, depth = as_group(group), usual_bite(piece) if depth is None else depth
    cases, assumptions = _cases(piece.fabric, thickness, thread, pulled)
    ends = as_length(start, "start", size=False) + as_length(end, "end", size=False)
    cut = as_length(working, "working")
    needlefuls(0.0, cut, ends)  # refuses a length that is all start and end
    seam_stitches, seams = _seam_amount(piece, seam, seam_over, cases)
    return ThreadPlan(
        sides=tuple(_side(piece, name, group, depth, cases) for name in SIDES),
        seam=seam,
        seam_stitches=seam_stitches,
        seams=seams,
        basting=_basting_amount(piece, baste, cases),
        working=cut,
        ends=ends,
        waste=_least_and_most(waste, "waste", ("10 %", "15 %")),
        assumptions=assumptions,
    )


def _cases(
    fabric: Fabric, thickness: object, thread: object, pulled: tuple[object, object]
) -> tuple[_Cases, tuple[str, ...]]:
    """Low, middle and high of what is not known, and a sentence for each thing assumed."""
    said = []
    thick = fabric.thickness if thickness is None else thickness
    if thick is None:
        pitch = float((fabric.across.pitch + fabric.down.pitch).mm) / 2
        taus = (pitch / 3, 2 * pitch / 3, pitch)
        said.append(
            f"The cloth's thickness is not known: taken as {taus[0]:.2f} to {taus[2]:.2f} mm, a third of "
            "the pitch to the whole of it."
        )
    else:
        taus = (measured_mm(thick, "thickness"),) * 3
    if thread is None:
        thicknesses = tuple(tau / 2 for tau in taus)
        said.append("The thread's thickness is not known: taken as half the cloth's, as its own yarn is.")
    elif isinstance(thread, YarnDiameter):
        thicknesses = (thread.diameter_mm,) * 3
    else:
        thicknesses = (measured_mm(thread, "thread", example="'0.3 mm'"),) * 3
    least, most = _least_and_most(pulled, "pulled", ("50 %", "100 %"))
    if not least:
        raise HemError(
            "pulled is 0 %, but a group keeps some width; for example ('50 %', '100 %').", "pulled"
        )
    said.append(
        f"The thread is assumed to leave each group {percent(least)} to {percent(most)} of its width."
    )
    keeps = (float(least), float(least + most) / 2, float(most))
    low, middle, high = (_Case(*known) for known in zip(taus, thicknesses, keeps, strict=True))
    return (low, middle, high), tuple(said)


def _least_and_most(value: object, about: str, example: tuple[str, str]) -> tuple[Fraction, Fraction]:
    """The two shares of a range."""
    pair = parts_of(value, about, 2, "two shares, the least and the most", example)
    least, most = (share(part, about) for part in pair)
    if least > most:
        raise HemError(
            f"{about} has {percent(least)} before {percent(most)}, but the least comes first; "
            f"for example {example}.",
            about,
        )
    return least, most


def _side(piece: Piece, name: str, group: int, depth: int, cases: _Cases) -> StitchedSide:
    """Hem stitch along one side, the mean of its groups standing for each."""
    edge = piece.edges.of(name)
    bite = whole_threads(depth, "depth", least=1, example=2)
    if bite > edge.hem:
        raise HemError(
            f"depth is {bite} threads, but the {name} hem is only {edge.hem}; for example "
            f"{min(2, edge.hem)}.",
            "depth",
        )
    across, down = piece.design
    fabric, clear = piece.fabric, piece.clear
    if name in ("top", "bottom"):
        threads, along, inward = across + clear.left + clear.right, fabric.across, fabric.down
    else:
        threads, along, inward = down + clear.top + clear.bottom, fabric.down, fabric.across
    try:
        stitches = space_stitches(threads, group).count
    except HemError as error:
        raise HemError(f"On the {name} side {error}", "group") from None
    width = float(along.width(threads).mm) / stitches
    low, middle, high = (
        hem_stitch(
            width,
            float(inward.width(bite).mm),
            case.thickness_mm,
            pulled=case.pulled * width,
            thread=case.thread_mm,
            # A turn shallower than the bite is missed by the needle.
            plies=HEM_PLIES if edge.turn >= bite else HEM_PLIES - 1,
            face=piece.through == THROUGH[1],
        )
        for case in cases
    )
    return StitchedSide(name, threads, group, stitches, (low, middle, high))


def _seam_amount(piece: Piece, seam: str, seam_over: int, cases: _Cases) -> tuple[int, Amount]:
    """Stitches in the mitre seams, and their thread."""
    one_of(seam, _SEAMS, "seam")
    over = whole_threads(seam_over, "seam_over", least=1, most=20, example=2)
    pitch = float((piece.fabric.across.pitch + piece.fabric.down.pitch).mm) / 2
    apart = over * pitch
    stitches = [math.ceil(corner.seam_mm / apart - 1e-9) for corner in piece.corners]
    if seam == "whip":
        paths = [whip_stitch(apart, pitch, case.thickness_mm, thread=case.thread_mm) for case in cases]
    else:
        paths = [ladder_stitch(apart, case.thickness_mm, thread=case.thread_mm) for case in cases]
    return sum(stitches), Amount(*(sum(stitches) * apart * path.per_mm for path in paths))


def _basting_amount(piece: Piece, baste: tuple[Measure, Measure], cases: _Cases) -> Amount:
    """Thread in the basted lines: both folds and the cut.

    At least each ends where the next side's line of its kind crosses it; at most all run right
    out to the cut lines.
    """
    pair = parts_of(baste, "baste", 2, "two lengths, over and under", ("1/4 in", "1/4 in"))
    crossing, right_out = Length(0), Length(0)
    for line in ("fold_1", "fold_2", "cut"):
        for name in SIDES:
            edge = piece.edges.of(name)
            if line == "fold_2" and edge.fold_2 == edge.cut:
                continue  # with no turn the two lines are one
            crossing += _line_length(piece, name, line)
            right_out += _line_length(piece, name, "cut")
    lengths = (float(crossing.mm), float((crossing + right_out).mm) / 2, float(right_out.mm))
    over, under = (measured_mm(part, "baste", example="('1/4 in', '1/4 in')") for part in pair)
    low, middle, high = (
        long * basting_stitch(over, under, case.thickness_mm).per_mm
        for long, case in zip(lengths, cases, strict=True)
    )
    return Amount(low, middle, high)


def _line_length(piece: Piece, name: str, ends_at: str) -> Length:
    """A line along a side, out to where the neighbouring sides' lines of that name cross it."""
    edges, (across, down) = piece.edges, piece.design
    if name in ("top", "bottom"):
        return piece.fabric.across.width(
            across + getattr(edges.left, ends_at) + getattr(edges.right, ends_at)
        )
    return piece.fabric.down.width(down + getattr(edges.top, ends_at) + getattr(edges.bottom, ends_at))
