"""The plain stitches of a hemmed edge: whip or ladder for the mitre seams, and basting.

Each function gives the path of one stitch, in the coordinates of `stitch`: x along the row
or seam, y across it, z up from the underside of the cloth.
"""

from __future__ import annotations

from hemcalc.measure.measured import measured_mm
from hemcalc.stitch.path import Measure, PathPoint, StitchPath

__all__ = ["basting_stitch", "ladder_stitch", "whip_stitch"]


def whip_stitch(apart: Measure, bite: Measure, thickness: Measure, *, thread: Measure = 0.0) -> StitchPath:
    """The path of one whip stitch over the two edges of a mitre seam, laid flat side by side.

    Straight through behind both edges, each caught by its `bite`, then slanting over them to the next
    stitch. Only one ply is caught, of this thickness, so that the seam does not show.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> round(whip_stitch("1.5 mm", "1 mm", "0.5 mm").length_mm, 2)
    5.5
    """
    step = measured_mm(apart, "apart", example="'1.5 mm'")
    reach = measured_mm(bite, "bite", size=False, example="'1 mm'")
    half = measured_mm(thread, "thread", size=False, example="'0.3 mm'") / 2
    over, under = measured_mm(thickness, "thickness", size=False) + half, -half
    return StitchPath(
        "whip stitch",
        (
            PathPoint("in", 0.0, reach, over),
            PathPoint("behind", 0.0, reach, under),
            PathPoint("behind the other side", 0.0, -reach, under),
            PathPoint("out", 0.0, -reach, over),
            PathPoint("in again", step, reach, over),
        ),
    )


def ladder_stitch(apart: Measure, thickness: Measure, *, thread: Measure = 0.0) -> StitchPath:
    """The path of two rungs of ladder stitch along a mitre seam, there and back.

    Inside one fold, straight across to the other, inside that one, and back; the thickness is that
    of the ply at each fold.

    Source
    ------
    Common practice of the trade, no published source.

    Examples
    --------
    >>> ladder_stitch("1.5 mm", "0.5 mm").length_mm
    5.0
    """
    rung = measured_mm(apart, "apart", example="'1.5 mm'")
    tau = measured_mm(thickness, "thickness", size=False)
    inside = tau + measured_mm(thread, "thread", size=False, example="'0.3 mm'") / 2
    return StitchPath(
        "ladder stitch",
        (
            PathPoint("in the first fold", 0.0, inside, tau / 2),
            PathPoint("out of the first fold", rung, inside, tau / 2),
            PathPoint("in the second fold", rung, -inside, tau / 2),
            PathPoint("out of the second fold", 2 * rung, -inside, tau / 2),
            PathPoint("back in the first fold", 2 * rung, inside, tau / 2),
        ),
    )


def basting_stitch(over: Measure, under: Measure, thickness: Measure, *, thread: Measure = 0.0) -> StitchPath:
    """The path of one basting stitch and the gap that follows it.

    So much thread is seen above, and runs below, along the line; the thickness is that of all the
    cloth that is basted through.

    Source
    ------
    Running in and out, common practice. Even stitches of 1/4 in: Handicraft for Girls,
    Idabelle McGlauflin, 1910, Basting A.

    Examples
    --------
    >>> round(basting_stitch("1/4 in", "1/4 in", "0.5 mm").length_mm, 2)
    13.7
    """
    above = measured_mm(over, "over", example="'1/4 in'")
    below = measured_mm(under, "under", example="'1/4 in'")
    half = measured_mm(thread, "thread", size=False, example="'0.3 mm'") / 2
    top = measured_mm(thickness, "thickness", size=False) + half
    return StitchPath(
        "basting",
        (
            PathPoint("out", 0.0, 0.0, top),
            PathPoint("in", above, 0.0, top),
            PathPoint("below", above, 0.0, -half),
            PathPoint("below the next", above + below, 0.0, -half),
            PathPoint("out again", above + below, 0.0, top),
        ),
    )
