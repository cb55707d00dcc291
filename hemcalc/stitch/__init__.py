"""The hem stitch: how a side falls into groups, the path of a stitch, and the thread it all takes."""

from hemcalc.stitch.amount import needlefuls
from hemcalc.stitch.groups import Spacing
from hemcalc.stitch.path import StitchPath, hem_stitch
from hemcalc.stitch.plan import Sample, ThreadPlan
from hemcalc.stitch.spacing import piece_spacings, rest_of_side, space_stitches
from hemcalc.stitch.suggestions import Suggestion, suggest_clear
from hemcalc.stitch.thread import thread_needed

__all__ = [
    "Sample",
    "Spacing",
    "StitchPath",
    "Suggestion",
    "ThreadPlan",
    "hem_stitch",
    "needlefuls",
    "piece_spacings",
    "rest_of_side",
    "space_stitches",
    "suggest_clear",
    "thread_needed",
]
