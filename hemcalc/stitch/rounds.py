"""Thread of the seams and of the basting: what goes round the piece besides the hem stitch."""

from __future__ import annotations

import math

from hemcalc.measure.errors import HemError, one_of, shown
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length
from hemcalc.measure.measured import measured_mm
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import SIDES
from hemcalc.stitch.amount import Amount
from hemcalc.stitch.path import Measure
from hemcalc.stitch.plain import basting_stitch, ladder_stitch, whip_stitch
from hemcalc.stitch.ranges import Cases

__all__ = ["SEAMS", "basting_amount", "seam_amount"]

#: Stitches that a mitre seam may be sewn with.
SEAMS = ("whip", "ladder")


def seam_amount(piece: Piece, seam: str, seam_over: int, cases: Cases) -> tuple[int, Amount]:
    """Stitches in the mitre seams, and their thread.

    Raises
    ------
    HemError
        If the stitch is neither whip nor ladder, or `seam_over` no number of threads.
    """
    one_of(seam, SEAMS, "seam")
    over = whole_threads(seam_over, "seam_over", least=1, most=20, example=2)
    pitch = float((piece.fabric.across.pitch + piece.fabric.down.pitch).mm) / 2
    apart = over * pitch
    stitches = [math.ceil(corner.seam_mm / apart - 1e-9) for corner in piece.corners]
    if seam == "whip":
        paths = [whip_stitch(apart, pitch, case.thickness_mm, thread=case.thread_mm) for case in cases]
    else:
        paths = [ladder_stitch(apart, case.thickness_mm, thread=case.thread_mm) for case in cases]
    return sum(stitches), Amount(*(sum(stitches) * apart * path.per_mm for path in paths))


def basting_amount(piece: Piece, baste: tuple[Measure, Measure], cases: Cases) -> Amount:
    """Thread in the basted lines: both folds and the cut.

    At least each ends where the next side's line of its kind crosses it; at most all run right
    out to the cut lines.

    Raises
    ------
    HemError
        If the stitch is no two lengths.
    """
    if not isinstance(baste, tuple | list) or len(baste) != 2:
        raise HemError(
            f"baste is {shown(baste)}, but must be two lengths, over and under; "
            "for example ('1/4 in', '1/4 in').",
            "baste",
        )
    crossing, right_out = Length(0), Length(0)
    for line in ("fold_1", "fold_2", "cut"):
        for name in SIDES:
            edge = piece.edges.of(name)
            if line == "fold_2" and edge.fold_2 == edge.cut:
                continue  # with no turn the two lines are one
            crossing += _line_length(piece, name, line)
            right_out += _line_length(piece, name, "cut")
    lengths = (float(crossing.mm), float((crossing + right_out).mm) / 2, float(right_out.mm))
    over, under = (measured_mm(part, "baste", example="('1/4 in', '1/4 in')") for part in baste)
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
