"""The class as tables, for a notebook; pandas is brought in when a table is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hemcalc.workshop.spreadsheet import kit_rows, shopping_rows
from hemcalc.workshop.workshop import Workshop

if TYPE_CHECKING:
    import pandas as pd


def kits_table(workshop: Workshop) -> pd.DataFrame:
    """A row for each kit, under the learner's name and what she works.

    Examples
    --------
    >>> from hemcalc.workshop.example import example_workshop
    >>> kits_table(example_workshop()).loc[("Ada", "bread cloth"), "first thread drawn"]
    '8'
    """
    import pandas as pd

    return pd.DataFrame(kit_rows(workshop)).set_index(["learner", "piece"])


def shopping_table(workshop: Workshop) -> pd.DataFrame:
    """A row for each line of the shopping list; its exact Decimals add up to `Workshop.cost`."""
    import pandas as pd

    # dtype object keeps a Decimal a Decimal, and a missing number from making the others floats.
    return pd.DataFrame(shopping_rows(workshop), dtype=object).set_index("goods")
