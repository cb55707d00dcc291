"""Pages for the printer, at true scale: sheets, gauge cards, paper mitres, keys, lists and labels."""

from hemcalc.paper.cutting import cutting_list, save_cutting_list
from hemcalc.paper.gauge import gauge_card, save_gauge_card
from hemcalc.paper.key import leader_key, save_leader_key
from hemcalc.paper.labels import kit_labels, save_kit_labels
from hemcalc.paper.leaflet import Leaflet, bind
from hemcalc.paper.mitre import paper_mitre, save_paper_mitre
from hemcalc.paper.sheet import learner_sheet, save_learner_sheet
from hemcalc.paper.shopping import save_shopping_list, shopping_list
from hemcalc.paper.worksheet import save_worksheet
from hemcalc.paper.workshop import print_workshop, workshop_pages

__all__ = [
    "Leaflet",
    "bind",
    "cutting_list",
    "gauge_card",
    "kit_labels",
    "leader_key",
    "learner_sheet",
    "paper_mitre",
    "print_workshop",
    "save_cutting_list",
    "save_gauge_card",
    "save_kit_labels",
    "save_leader_key",
    "save_learner_sheet",
    "save_paper_mitre",
    "save_shopping_list",
    "save_worksheet",
    "shopping_list",
    "workshop_pages",
]
