"""Panels with sliders, for a notebook: each is a function that gives one ready to be shown."""

from hemcalc.panels.bolt import bolt_panel
from hemcalc.panels.boxes import check_box, guess_box
from hemcalc.panels.button import afresh_box, do_button
from hemcalc.panels.check import check_panel
from hemcalc.panels.corner import corner_panel
from hemcalc.panels.count import count_panel
from hemcalc.panels.her_slip import her_slip_panel
from hemcalc.panels.klass import my_class
from hemcalc.panels.margin import margin_panel
from hemcalc.panels.mine import my_piece
from hemcalc.panels.practice import practice_panel
from hemcalc.panels.settings import settings_panel
from hemcalc.panels.side_by_side import side_by_side
from hemcalc.panels.spacing import spacing_panel
from hemcalc.panels.stitch import stitch_panel
from hemcalc.panels.weave import weave_panel

__all__ = [
    "afresh_box",
    "bolt_panel",
    "check_box",
    "check_panel",
    "corner_panel",
    "count_panel",
    "do_button",
    "guess_box",
    "her_slip_panel",
    "margin_panel",
    "my_class",
    "my_piece",
    "practice_panel",
    "settings_panel",
    "side_by_side",
    "spacing_panel",
    "stitch_panel",
    "weave_panel",
]
