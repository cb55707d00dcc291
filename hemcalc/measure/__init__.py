"""What everything is measured in: threads, exact lengths, counts, the cloth, and what to heed."""

from hemcalc.measure.cautions import CAUTIONS, caution_for
from hemcalc.measure.counts import Count, MeasuredCount
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length

__all__ = [
    "CAUTIONS",
    "Count",
    "Fabric",
    "HemError",
    "Length",
    "MeasuredCount",
    "caution_for",
]
