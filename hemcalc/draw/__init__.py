"""Figures of counts, edges, sections and corners, drawn from results and computing none."""

from hemcalc.draw.counting import Counted, draw_counting
from hemcalc.draw.layer_map import draw_layers
from hemcalc.draw.mitre import draw_corner
from hemcalc.draw.profile import draw_section
from hemcalc.draw.ranges import draw_ranges
from hemcalc.draw.rule_map import draw_rule
from hemcalc.draw.ruler import draw_edge
from hemcalc.draw.sheet import Still

__all__ = [
    "Counted",
    "Still",
    "draw_corner",
    "draw_counting",
    "draw_edge",
    "draw_layers",
    "draw_ranges",
    "draw_rule",
    "draw_section",
]
