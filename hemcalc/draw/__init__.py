"""Figures of counts, edges, corners, open lines, movements and bolts, drawn from results, computing none."""

from hemcalc.draw.bolt.picture import draw_bolt
from hemcalc.draw.bolt.side_by_side import draw_bolts
from hemcalc.draw.corner.layer_map import draw_layers
from hemcalc.draw.corner.mitre import draw_corner
from hemcalc.draw.edge.counting import Counted, draw_counting
from hemcalc.draw.edge.profile import draw_section
from hemcalc.draw.edge.rule_map import draw_rule
from hemcalc.draw.edge.ruler import draw_edge
from hemcalc.draw.finish.counting import draw_counting_plan
from hemcalc.draw.finish.hours import draw_hours
from hemcalc.draw.finish.movements import draw_movement
from hemcalc.draw.sheet import Still
from hemcalc.draw.stitch.open_line import draw_open_line
from hemcalc.draw.stitch.path import draw_stitch
from hemcalc.draw.stitch.thread_gap import draw_gap
from hemcalc.draw.stitch.words import Stitched
from hemcalc.draw.sums.answer_ruler import draw_answers
from hemcalc.draw.sums.ranges import draw_ranges
from hemcalc.draw.weave.lens import draw_weave
from hemcalc.draw.weave.ways import draw_ways

__all__ = [
    "Counted",
    "Still",
    "Stitched",
    "draw_answers",
    "draw_bolt",
    "draw_bolts",
    "draw_corner",
    "draw_counting",
    "draw_counting_plan",
    "draw_edge",
    "draw_gap",
    "draw_hours",
    "draw_layers",
    "draw_movement",
    "draw_open_line",
    "draw_ranges",
    "draw_rule",
    "draw_section",
    "draw_stitch",
    "draw_ways",
    "draw_weave",
]
