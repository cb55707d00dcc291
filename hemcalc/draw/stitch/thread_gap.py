"""Thread and needle in the gap between two threads of the cloth, cut across and to scale."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.patches import Circle

from hemcalc.draw.look import BANDS, INK, PAPER, type_size
from hemcalc.draw.marks import Dimension, Dimensions, Label, Labels
from hemcalc.draw.sheet import Sheet, Still
from hemcalc.measure.errors import HemError, of_type
from hemcalc.yarn.gap import GapRatio

#: Things that may be laid into gaps side by side in one figure.
MAX_GAPS = 3


def draw_gap(*ratios: GapRatio, size: str = "page") -> Still:
    """Threads of the cloth a pitch apart, with a thread or needle in each gap, as a finished figure.

    The type is for a ``"page"`` or a ``"projector"``. Refused if there is none, or too many, or they are not
    of one cloth.
    """
    _check(ratios)
    sheet = Sheet(9, 3.0, dpi=150, size=type_size(size))
    pitch, yarn = ratios[0].pitch_mm, ratios[0].cloth_yarn_mm
    last = len(ratios) * pitch
    # Three pitches always, so that the same cloth has the same size in every figure.
    side = (MAX_GAPS * pitch - last) / 2
    thickest = max(yarn, *(ratio.diameter_mm for ratio in ratios))
    up = (-0.55 * thickest, 0.5 * thickest + 0.4 * pitch)
    axes = sheet.axes((0.01, 0.28, 0.98, 0.6), (-side - yarn / 2, last + side + yarn / 2), up, to_scale=True)
    looks = {
        "thread": BANDS["turn"].patch,
        "needle": {"facecolor": PAPER, "edgecolor": INK, "linewidth": 1.6},
    }
    for number in range(len(ratios) + 1):
        axes.add_patch(Circle((number * pitch, 0), yarn / 2, **BANDS["clear"].patch))
    for number, ratio in enumerate(ratios):
        axes.add_patch(Circle(((number + 0.5) * pitch, 0), ratio.diameter_mm / 2, **looks[ratio.what]))
    point = sheet.points(axes)[1]
    below = -0.5 * thickest - 6 * point
    names = [
        Label((number + 0.5) * pitch, below, _beneath(ratio), "center", "top", on_paper=True)
        for number, ratio in enumerate(ratios)
    ]
    words = sheet.axes((0.01, 0, 0.98, 1), (0, 1), (0, 1))
    Labels(sheet, words, 1).show([Label(0, 0.98, _cloth(ratios[0]), "left", "top", bold=True)])
    Labels(sheet, axes, MAX_GAPS).show(names)
    top = thickest / 2
    gap = Dimension(yarn / 2, pitch - yarn / 2, top + 12 * point, top, f"gap {ratios[0].gap_mm:.2f} mm")
    Dimensions(sheet, axes, 1).show([gap])
    return Still(sheet, gap_alt(*ratios))


def gap_alt(*ratios: GapRatio) -> str:
    """The picture in words, with its numbers."""
    _check(ratios)
    each = " ".join(
        f"The {ratio.what} of {ratio.diameter_mm:.2f} mm is {ratio.ratio:.2f} of the gap." for ratio in ratios
    )
    return f"Cut across and to scale. {_cloth(ratios[0])} {each}"


def _check(ratios: Sequence[GapRatio]) -> None:
    for ratio in ratios:
        of_type(ratio, GapRatio, "ratios", "gap_ratio('0.3 mm', '28/in', '0.4 mm')")
    if (
        not 1 <= len(ratios) <= MAX_GAPS
        or len({(ratio.pitch_mm, ratio.cloth_yarn_mm) for ratio in ratios}) > 1
    ):
        raise HemError(
            f"A figure of gaps needs one to {MAX_GAPS} threads or needles on one cloth, not these "
            f"{len(ratios)}; "
            "for example draw_gap(gap_ratio('0.3 mm', '28/in', '0.4 mm'))."
        )


def _cloth(ratio: GapRatio) -> str:
    return (
        f"Pitch {ratio.pitch_mm:.2f} mm less the cloth's own yarn of {ratio.cloth_yarn_mm:.2f} mm leaves "
        f"a gap of {ratio.gap_mm:.2f} mm."
    )


def _beneath(ratio: GapRatio) -> str:
    return f"{ratio.what}\n{ratio.diameter_mm:.2f} mm\n{ratio.ratio:.2f} of the gap"
