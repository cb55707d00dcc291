"""One edge: its ledger of threads, the margin rule held against it, and the hem cut through."""

from hemcalc.edge.bend import bend_length, neutral_share
from hemcalc.edge.ledger import Band, Edge, plan_edge
from hemcalc.edge.margin import MarginRule
from hemcalc.edge.rule_tables import RuleTable, rule_table
from hemcalc.edge.section import Section, plan_section

__all__ = [
    "Band",
    "Edge",
    "MarginRule",
    "RuleTable",
    "Section",
    "bend_length",
    "neutral_share",
    "plan_edge",
    "plan_section",
    "rule_table",
]
