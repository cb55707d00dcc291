"""Figures of counts, edges, sections, corners and open lines, drawn from results and computing none."""

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
from hemcalc.draw.weave_lens import draw_weave

__all__ = [
    "Counted",
    "Still",
    "draw_corner",
    "draw_counting",
    "draw_edge",
    "draw_layers",
    "draw_open_line",
    "draw_ranges",
    "draw_rule",
    "draw_section",
    "draw_ways",
    "draw_weave",
]
