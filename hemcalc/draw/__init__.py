"""Figures of counts, edges, sections, corners, open lines and bolts, drawn from results, computing none."""

from hemcalc.draw.answer_ruler import draw_answers
from hemcalc.draw.bolt import draw_bolt
from hemcalc.draw.corner_ways import draw_ways
from hemcalc.draw.counting import Counted, draw_counting
from hemcalc.draw.layer_map import draw_layers
from hemcalc.draw.mitre import draw_corner
from hemcalc.draw.open_line import draw_open_line
from hemcalc.draw.profile import draw_section
from hemcalc.draw.ranges import draw_ranges
from hemcalc.draw.rule_map import draw_rule
from hemcalc.draw.ruler import draw_edge
from hemcalc.draw.sheet import Still
from hemcalc.draw.stitch_path import draw_stitch
from hemcalc.draw.stitch_words import Stitched
from hemcalc.draw.thread_gap import draw_gap
from hemcalc.draw.weave_lens import draw_weave

__all__ = [
    "Counted",
    "Still",
    "Stitched",
    "draw_answers",
    "draw_bolt",
    "draw_corner",
    "draw_counting",
    "draw_edge",
    "draw_gap",
    "draw_layers",
    "draw_open_line",
    "draw_ranges",
    "draw_rule",
    "draw_section",
    "draw_stitch",
    "draw_ways",
    "draw_weave",
]
