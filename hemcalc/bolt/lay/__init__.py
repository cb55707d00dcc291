"""The planning of a lay: pieces laid out on cloth so that straight cuts set every one free.

Everything here is in whole steps of one exact length and knows nothing of hems. `shortest` is the
way in for a bolt, `yields` the one for a remnant.
"""

from hemcalc.bolt.lay.shortest import Short, short_layout
from hemcalc.bolt.lay.yields import Best, Kind, best_yield

__all__ = ["Best", "Kind", "Short", "best_yield", "short_layout"]
