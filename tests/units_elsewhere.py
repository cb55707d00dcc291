"""Units as an independent library has them: read from its long file once, and only if a test asks."""

from fractions import Fraction
from functools import cache
from typing import Any

import pint


@cache
def _registry() -> Any:
    return pint.UnitRegistry(non_int_type=Fraction)


def elsewhere(number: Fraction | int, unit: str) -> Any:
    """A quantity of the library's, which is exact and converts with ``to``."""
    return _registry().Quantity(number, unit)
