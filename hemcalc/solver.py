"""What a solver is asked for: the prices that bound a bolt's length best, and which strips to cut.

Both are linear programmes for scipy's solver. scipy is an extra of this library, and is imported
here alone, when it is asked for; without it there are no such prices and no such choice.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hemcalc.guillotine import Block
from hemcalc.patterns import Demand, Prices

__all__ = ["best_prices", "solver_at_hand", "strips_in_whole"]

_ROUNDS = 200  # of the programme; a few dozen settle it
_FINE = 10**9  # steps of a worth
_STRIPS = 400  # to choose from


def solver_at_hand() -> bool:
    """Whether scipy is installed."""
    try:
        import scipy.optimize  # noqa: F401
    except ImportError:
        return False
    return True


def best_prices(demands: Sequence[Demand], width: int) -> Prices:
    """The prices that bound the length of all the pieces best; needs scipy.

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
    best: Prices | None = None
    for _ in range(_ROUNDS):
        answer = linprog(programme.cost, A_ub=programme.rows, b_ub=programme.limits, method="highs")
        if answer.status != 0:
            break
        worths = [[0] * len(demand.lies) for demand in demands]
        for (kind, way), column in programme.columns.items():
            worths[kind][way] = max(0, round(answer.x[column] * _FINE))
        prices = Prices(worths, demands, width)
        if best is None or prices.shortest(many) > best.shortest(many):
            best = prices
        # No pattern breaks its limit, but for what was rounded: these worths can't be bettered.
        if prices.best.worth <= _FINE + 2 * len(programme.columns):
            break
        programme.forbid(prices.best.many)
    assert best is not None
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


def strips_in_whole(
    tried: Mapping[tuple[int, ...], Block], many: Sequence[int], prices: Prices
) -> list[tuple[tuple[int, ...], Block]]:
    """Strips to cut at any rate, of those tried: each as often as the programme takes it in whole.

    The programme says how often each strip is taken for all the pieces, in the least length, as
    if a strip could be taken in part; what it takes in whole is a good beginning. Needs scipy.

    Parameters
    ----------
    tried : mapping of tuple of int to Block
        Strips, by how many pieces of each size they have.
    many : sequence of int
        How many pieces of each size are wanted; never more are taken.
    prices : Prices
        Of the pieces, by which the strips that waste least are told.
    """
    from scipy.optimize import linprog

    def waste(item: tuple[tuple[int, ...], Block]) -> tuple[int, tuple[int, ...]]:
        kinds, strip = item
        return strip.down * prices.best.worth - prices.of(kinds), kinds

    choice = sorted(tried.items(), key=waste)[:_STRIPS]
    answer = linprog(
        [float(strip.down) for _, strip in choice],
        A_ub=[[-float(kinds[kind]) for kinds, _ in choice] for kind in range(len(many))],
        b_ub=[-float(n) for n in many],
        method="highs",
    )
    if answer.status != 0:
        return []
    taken, left = [], list(many)
    for (kinds, strip), times in zip(choice, answer.x, strict=True):
        # A hair is added, for what is whole may come out a hair too small.
        n = min([int(times + 1e-6), *(had // more for had, more in zip(left, kinds, strict=True) if more)])
        taken += [(kinds, strip)] * n
        left = [had - n * more for had, more in zip(left, kinds, strict=True)]
    return taken
