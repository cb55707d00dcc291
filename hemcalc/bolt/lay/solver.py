"""What a solver is asked for: the prices that bound a bolt's length best, and which strips to cut.

Both are linear programmes for scipy's solver. scipy is an extra of this library, and is imported
here alone, when it is asked for; without it there are no such prices and no such choice.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

from hemcalc.bolt.lay.guillotine import Block
from hemcalc.bolt.lay.patterns import Demand, Prices, area_worths

__all__ = ["Shares", "best_prices", "share_strips", "solver_at_hand"]

_ROUNDS = 200  # of the programme; a few dozen settle it
_WAYS = 1_000_000  # patterns looked at, after which the best prices so far must do
_FINE = 10**9  # steps of a worth


def solver_at_hand() -> bool:
    """Whether scipy is installed."""
    try:
        import scipy.optimize  # noqa: F401
    except ImportError:
        return False
    return True


def best_prices(demands: Sequence[Demand], width: int) -> Prices:
    """The prices that bound the length of all the pieces best; needs scipy.

    No worse than the areas, which it keeps where the solver finds nothing better.

    Parameters
    ----------
    demands : sequence of Demand
        The pieces; each lie no wider than the bolt.
    width : int
        Of the bolt.

    Source
    ------
    Patterns made as they are needed: P. C. Gilmore and R. E. Gomory, "A linear programming
    approach to the cutting-stock problem", Operations Research 9, 1961 (from memory).
    """
    from scipy.optimize import linprog

    many = [demand.many for demand in demands]
    programme = _Programme(demands, width)
    best = Prices(area_worths(demands), demands, width)
    ways = 0
    for _ in range(_ROUNDS):
        answer = linprog(programme.cost, A_ub=programme.rows, b_ub=programme.limits, method="highs")
        if answer.status != 0:
            break
        worths = [[0] * len(demand.lies) for demand in demands]
        for (kind, way), column in programme.columns.items():
            worths[kind][way] = max(0, round(answer.x[column] * _FINE))
        prices = Prices(worths, demands, width)
        if prices.shortest(many) > best.shortest(many):
            best = prices
        # No pattern breaks its limit, but for what was rounded: these worths can't be bettered.
        ways += prices.ways
        if prices.most(width) <= _FINE + 2 * len(programme.columns) or ways > _WAYS:
            break
        programme.forbid(prices.best_pattern)
    return best


class _Programme:
    """Worths of the widths that make all pieces worth most while no pattern is worth more than 1.

    Its columns are a worth for each size and way of lying, then for each size what one piece is
    worth at most: its width's worth along its length, lying the cheaper way.
    """

    def __init__(self, demands: Sequence[Demand], width: int) -> None:
        places = [(kind, way) for kind, demand in enumerate(demands) for way in range(len(demand.lies))]
        self.columns = {place: column for column, place in enumerate(places)}
        self.cost = [0.0] * len(places) + [-float(demand.many) for demand in demands]
        self.rows: list[list[float]] = []
        self.limits: list[float] = []
        longest = max(lie.down for demand in demands for lie in demand.lies)
        for kind, way in places:
            row = [0.0] * len(self.cost)
            row[self.columns[kind, way]] = -demands[kind].lies[way].down / longest
            row[len(places) + kind] = 1.0
            self._add(row, 0.0)
        for kind, way in places:
            lie = demands[kind].lies[way]
            self.forbid([(kind, way, min(demands[kind].many, width // lie.across))])

    def forbid(self, pattern: Sequence[tuple[int, int, int]]) -> None:
        """Let this pattern be worth no more than 1."""
        row = [0.0] * len(self.cost)
        for kind, way, many in pattern:
            row[self.columns[kind, way]] = float(many)
        self._add(row, 1.0)

    def _add(self, row: list[float], limit: float) -> None:
        self.rows.append(row)
        self.limits.append(limit)


@dataclass(frozen=True, slots=True)
class Shares:
    """How often to cut each of some strips, were it possible to cut one in part."""

    #: How many pieces of each size a strip has, the strip, and how often it is cut.
    strips: tuple[tuple[tuple[int, ...], Block, float], ...]
    #: What a piece of each size costs in such a layout, in fine steps of length.
    worths: tuple[int, ...]
    #: Length of such a layout.
    length: float


def share_strips(
    tried: Mapping[tuple[int, ...], Block], many: Sequence[int], without: Container[tuple[int, ...]] = ()
) -> Shares | None:
    """Of the strips tried, how often each is cut for all the pieces in the least length; needs scipy.

    Parameters
    ----------
    tried : mapping of tuple of int to Block
        Strips, by how many pieces of each size they have; those with more than are wanted are
        left out.
    many : sequence of int
        How many pieces of each size are wanted.
    without : container of tuple of int
        Strips to leave out.

    Returns
    -------
    Shares or None
        None if the strips do not have all the pieces.
    """
    from scipy.optimize import linprog

    kinds = [kind for kind, n in enumerate(many) if n]
    fits = [
        (has, strip)
        for has, strip in sorted(tried.items(), key=lambda item: item[0])
        if has not in without and all(n <= most for n, most in zip(has, many, strict=True))
    ]
    if not fits:
        return None
    answer = linprog(
        [float(strip.down) for _, strip in fits],
        A_ub=[[-float(has[kind]) for has, _ in fits] for kind in kinds],
        b_ub=[-float(many[kind]) for kind in kinds],
        method="highs",
    )
    if answer.status != 0:
        return None
    worths = [0] * len(many)
    for kind, cost in zip(kinds, answer.ineqlin.marginals, strict=True):
        worths[kind] = max(0, round(-cost * 1000))
    shares = ((has, strip, round(float(x), 6)) for (has, strip), x in zip(fits, answer.x, strict=True))
    return Shares(tuple(share for share in shares if share[2]), tuple(worths), float(answer.fun))
