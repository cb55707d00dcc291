"""Figures of counts, edges, sections and corners, drawn from results and computing none."""

from hemcalc.draw.answer_ruler import draw_answers
from hemcalc.draw.counting import Counted, draw_counting
from hemcalc.draw.mitre import draw_corner, draw_layers
from hemcalc.draw.profile import draw_section
from hemcalc.draw.rule_map import draw_rule
from hemcalc.draw.ruler import draw_edge
from hemcalc.draw.sheet import Still
from hemcalc.draw.worksheet import save_worksheet

__all__ = [
    "Counted",
    "Still",
    "draw_answers",
    "draw_corner",
    "draw_counting",
    "draw_edge",
    "draw_layers",
    "draw_rule",
    "draw_section",
    "save_worksheet",
]
