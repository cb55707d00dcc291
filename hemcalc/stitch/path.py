"""The path of one stitch through the cloth, point by named point, in three dimensions.

The thread that a stitch takes is the length of its path: a polyline through points that a
figure can draw: hem stitch, whip or ladder stitch for the mitre seams, and basting.

x runs along the row, the way the work goes; y from the design outward, into the hem; z up
towards the worker from the underside of the cloth. The thread's middle runs half its own
thickness outside the cloth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from hemcalc.measure.errors import HemError, one_of, shown, true_or_false
from hemcalc.measure.exact import whole_threads
from hemcalc.measure.lengths import Length
from hemcalc.measure.measured import measured_mm

#: Layers of a hem: face, back and turn.
HEM_PLIES = 3

#: A measured length: a Length, the text of one, or a number of millimetres.
Measure = Length | str | float


@dataclass(frozen=True, slots=True)
class PathPoint:
    """A point that the thread passes, mm."""

    name: str
    x_mm: float
    y_mm: float
    z_mm: float


@dataclass(frozen=True, slots=True)
class StitchPath:
    """The path of one stitch, from where it begins to where the next one does.

    Made by the functions of this module.
    """

    stitch: str
    points: tuple[PathPoint, ...]

    def __repr__(self) -> str:
        return f"StitchPath({self.stitch}, {self.length_mm:.2f} mm of thread to {self.advance_mm:.2f} mm)"

    @property
    def legs_mm(self) -> tuple[float, ...]:
        """Length of each straight piece, in order."""
        return tuple(_apart(a, b) for a, b in zip(self.points, self.points[1:], strict=False))

    def text(self) -> str:
        """Each piece with the point that it runs to, a line each, and the whole."""
        legs = zip(self.legs_mm, self.points[1:], strict=True)
        return "\n".join(
            [*(f"{leg:.2f} mm to: {end.name}" for leg, end in legs), f"in all {self.length_mm:.2f} mm"]
        )

    @property
    def length_mm(self) -> float:
        """Thread in the stitch."""
        return sum(self.legs_mm)

    @property
    def advance_mm(self) -> float:
        """How far the row is on at the end of the stitch."""
        return abs(self.points[-1].x_mm - self.points[0].x_mm)

    @property
    def per_mm(self) -> float:
        """Thread to a millimetre of the row."""
        return self.length_mm / self.advance_mm

    def between_mm(self, first: str, last: str) -> float:
        """Thread from one named point to another.

        Refused if the path has no such points, or in the other order.
        """
        names = [point.name for point in self.points]
        start, end = (names.index(one_of(name, names, "a point of the path")) for name in (first, last))
        if end < start:
            raise HemError(f"The thread passes {shown(last)} before {shown(first)}; ask the other way round.")
        return sum(self.legs_mm[start:end])

    @property
    def mirrored(self) -> StitchPath:
        """The same stitch worked the other way along the row."""
        return replace(self, points=tuple(replace(point, x_mm=-point.x_mm) for point in self.points))


def hem_stitch(
    group: Measure,
    depth: Measure,
    thickness: Measure,
    *,
    pulled: Measure | None = None,
    thread: Measure = 0.0,
    plies: int = HEM_PLIES,
    face: bool = True,
) -> StitchPath:
    """The path of one hem stitch.

    Out of the hem and over its fold, across the group of threads at the open line, round it, and over it
    again; then along behind and up through the fold, `depth` deep. The thread lies the shortest way that the
    cloth lets it. Refused if the group is pulled wider than it lies.

    Parameters
    ----------
    group : Length, str or float
        Width of the group as the cloth lies: its threads × pitch.
    depth : Length, str or float
        How deep in the hem the needle bites: its threads × pitch, 0 or more.
    thickness : Length, str or float
        Thickness of one layer of cloth, and of the group.
    pulled : Length, str or float, optional
        Width that the pulled thread leaves the group; as the cloth lies if left out.
    thread : Length, str or float
        Thickness of the thread; 0 for the bare geometry.
    plies : int
        Layers of the hem: 3 in a hem with a turn, 2 without, 1 for practice on an edge without one.
    face : bool
        Whether the bite goes through the face too; if not, the needle comes up between it and the
        other layers, of which there must be one.

    Source
    ------
    Order of the steps and depth: common practice of the trade, no published source. Round the
    group alone, unpulled and with a thread of no thickness, it is surface plus two passages,
    3 N + 2 T, as machine stitch type 101: "Sewing thread consumption guide", textile course
    article, n.d., Stitch type 101.

    Examples
    --------
    >>> stitch = hem_stitch("4 mm", "2 mm", "0.5 mm", pulled="3 mm")
    >>> round(stitch.length_mm, 2), stitch.advance_mm
    (15.67, 4.0)
    >>> [point.name for point in stitch.points][:4]
    ['out of the hem', 'over the fold', 'far side, over', 'far side, behind']
    """
    width = measured_mm(group, "group", example="'3.6 mm'")
    bite = measured_mm(depth, "depth", size=False, example="'1.8 mm'")
    tau = measured_mm(thickness, "thickness", size=False)
    half = measured_mm(thread, "thread", size=False, example="'0.3 mm'") / 2
    true_or_false(face, "face")
    layers = whole_threads(plies, "plies", least=1 if face else 2, most=9, example=3)
    narrow = width if pulled is None else measured_mm(pulled, "pulled", example="'2.5 mm'")
    if narrow > width:
        raise HemError(
            f"pulled is {narrow:.3g} mm, but must be no wider than the group as it lies, {width:.3g} mm; "
            f"for example '{0.75 * width:.2f} mm'.",
            "pulled",
        )
    near, far = (width - narrow) / 2 - half, (width + narrow) / 2 + half
    hem, over, under = layers * tau + half, tau + half, -half
    line = -half  # the thread lies in the open line, against the hem's edge
    # Over the hem's top and down its edge, flattened into one plane, the shortest way is straight.
    along, down = bite - line, hem - over
    at_fold = far * along / (along + down) if along + down else 0.0
    if face:
        onward = (
            PathPoint("far side, behind again", far, line, under),
            PathPoint("behind the hem", width, bite, under),
        )
    else:
        # Straight on from beside the group, under the hem's edge and along upon its face.
        at_edge = far - (width - far) * line / along if along else far
        onward = (
            PathPoint("under the fold", at_edge, 0.0, over),
            PathPoint("within the hem", width, bite, over),
        )
    return StitchPath(
        "hem stitch",
        (
            PathPoint("out of the hem", 0.0, bite, hem),
            PathPoint("over the fold", at_fold, line, hem),
            PathPoint("far side, over", far, line, over),
            PathPoint("far side, behind", far, line, under),
            PathPoint("near side, behind", near, line, under),
            PathPoint("near side, over", near, line, over),
            PathPoint("far side, over again", far, line, over),
            *onward,
            PathPoint("out of the hem again", width, bite, hem),
        ),
    )


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


def _apart(a: PathPoint, b: PathPoint) -> float:
    return math.dist((a.x_mm, a.y_mm, a.z_mm), (b.x_mm, b.y_mm, b.z_mm))
