"""A class: its kits, its linen on the bolt, its shopping, its day, and what it costs."""

from hemcalc.workshop.class_file import class_template, class_text, read_class
from hemcalc.workshop.cutting import cut_for_class, washed_class
from hemcalc.workshop.example import example_cupboard, example_offers, example_workshop
from hemcalc.workshop.goods import Goods
from hemcalc.workshop.kit import Kit, cut_size_of
from hemcalc.workshop.linen import WASHES, Linen
from hemcalc.workshop.offers import Offer, WhereToBuy, where_to_buy
from hemcalc.workshop.rests import Cutting, FromRest, Rest
from hemcalc.workshop.spreadsheet import (
    csv_text,
    kit_rows,
    kits_table,
    save_csv,
    shopping_rows,
    shopping_table,
)
from hemcalc.workshop.timetable import Day, Timetable, timetable
from hemcalc.workshop.workshop import Workshop

__all__ = [
    "WASHES",
    "Cutting",
    "Day",
    "FromRest",
    "Goods",
    "Kit",
    "Linen",
    "Offer",
    "Rest",
    "Timetable",
    "WhereToBuy",
    "Workshop",
    "class_template",
    "class_text",
    "csv_text",
    "cut_for_class",
    "cut_size_of",
    "example_cupboard",
    "example_offers",
    "example_workshop",
    "kit_rows",
    "kits_table",
    "read_class",
    "save_csv",
    "shopping_rows",
    "shopping_table",
    "timetable",
    "washed_class",
    "where_to_buy",
]
