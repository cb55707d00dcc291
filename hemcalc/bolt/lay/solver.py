"""What a solver is asked for: the prices that bound a bolt's length best.

That is a linear programme for scipy's solver. scipy is an extra of this library, and is imported
here alone, when it is asked for; without it there are no such prices.
"""

from __future__ import annotations

from collections.abc import Sequence

from hemcalc.bolt.lay.patterns import Demand, Prices, area_worths

_ROUNDS = 30  # of the programme, which settle it for a few sizes; of many they leave out little
_WAYS = 100_000  # patterns looked at, after which the best prices so far must do
_FINE = 10**9  # steps of a worth


def solver_at_hand() -> bool:
    """Whether scipy is installed."""
    try:
        import scipy.optimize  # noqa: F401 - asked for only to know whether it is there
    except ImportError:
        return False
    return True


def best_prices(demands: Sequence[Demand], width: int) -> Prices:
    """The prices that bound the length of all the pieces best; needs scipy.

    No worse than the areas, which it keeps where the solver finds nothing better.

    Source
    ------
    Patterns made as they are needed: P. C. Gilmore and R. E. Gomory, "A linear programming
    approach to the cutting-stock problem", Operations Research 9, 1961 (from memory).
    """
    from scipy.optimize import linprog

    quantities = [demand.quantity for demand in demands]
    programme = _Programme(demands, width)
    best = Prices(area_worths(demands), demands, width)
    ways = 0
    for _ in range(_ROUNDS):
        answer = linprog(programme.cost, A_ub=programme.rows, b_ub=programme.limits, method="highs")
        if answer.status != 0:
            break
        worths = [[0] * len(demand.poses) for demand in demands]
        for (kind, way), column in programme.columns.items():
            worths[kind][way] = max(0, round(answer.x[column] * _FINE))
        prices = Prices(worths, demands, width)
        if prices.shortest(quantities) > best.shortest(quantities):
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
        places = [(kind, way) for kind, demand in enumerate(demands) for way in range(len(demand.poses))]
        self.columns = {place: column for column, place in enumerate(places)}
        self.cost = [0.0] * len(places) + [-float(demand.quantity) for demand in demands]
        self.rows: list[list[float]] = []
        self.limits: list[float] = []
        longest = max(pose.down for demand in demands for pose in demand.poses)
        for kind, way in places:
            row = [0.0] * len(self.cost)
            row[self.columns[kind, way]] = -demands[kind].poses[way].down / longest
            row[len(places) + kind] = 1.0
            self._add(row, 0.0)
        for kind, way in places:
            pose = demands[kind].poses[way]
            self.forbid([(kind, way, min(demands[kind].quantity, width // pose.across))])

    def forbid(self, pattern: Sequence[tuple[int, int, int]]) -> None:
        """Let this pattern be worth no more than 1."""
        row = [0.0] * len(self.cost)
        for kind, way, quantity in pattern:
            row[self.columns[kind, way]] = float(quantity)
        self._add(row, 1.0)

    def _add(self, row: list[float], limit: float) -> None:
        self.rows.append(row)
        self.limits.append(limit)
