"""Pages for the printer, at true scale: sheets with pictures, cards to cut out, keys, lists, labels."""

from hemcalc.paper.cutting import cutting_list
from hemcalc.paper.gauge import gauge_card
from hemcalc.paper.key import leader_key
from hemcalc.paper.labels import kit_labels
from hemcalc.paper.leaflet import Leaflet, bind
from hemcalc.paper.mitre import paper_mitre
from hemcalc.paper.sheet import learner_sheet
from hemcalc.paper.shopping import shopping_list
from hemcalc.paper.worksheet import worksheet
from hemcalc.paper.workshop import kit_cards, kit_pages, print_workshop, workshop_pages

__all__ = [
    "Leaflet",
    "bind",
    "cutting_list",
    "gauge_card",
    "kit_cards",
    "kit_labels",
    "kit_pages",
    "leader_key",
    "learner_sheet",
    "paper_mitre",
    "print_workshop",
    "shopping_list",
    "worksheet",
    "workshop_pages",
]
