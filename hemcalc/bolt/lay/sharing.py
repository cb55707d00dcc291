"""Layouts from shares: the solver shares out strips in part, and they are settled one by one.

How often each strip is cut, were it possible to cut one in part, is a good guide: what it takes in
whole is settled, or else the strip of the largest share, and the pieces that are left are shared
out again, with new strips made for them. Where that ends badly, the last choices are taken back.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from hemcalc.bolt.lay.guillotine import Block
from hemcalc.bolt.lay.solver import Shares, share_strips
from hemcalc.bolt.lay.strips import StripCutter, length_of

__all__ = ["settle_by_shares"]

_ROUNDS = 12  # of new strips before the first are settled
_ROUNDS_LATER = 3  # before further ones are
_EVERY = 2  # of the lengths that a new strip may have, for speed
_HAIR = 1e-6  # what a solver's whole number may be short of one

Has = tuple[int, ...]


def settle_by_shares(
    cutter: StripCutter, many: Sequence[int], keep: Callable[[list[Block]], int], *, shares: int, ways: int
) -> None:
    """Find layouts of all the pieces by settling strips of the largest shares.

    Parameters
    ----------
    cutter : StripCutter
        With the strips that were tried; more are made.
    many : sequence of int
        How many pieces of each size are wanted.
    keep : callable
        Takes a layout and returns the length of the shortest so far.
    shares, ways : int
        How often to share out at most, and rows to look at, before it ends.
    """
    _Sharing(cutter, keep, shares, cutter.spent + ways).settle(list(many), [], _ROUNDS)


class _Sharing:
    def __init__(
        self, cutter: StripCutter, keep: Callable[[list[Block]], int], shares: int, ways: int
    ) -> None:
        self.cutter = cutter
        self.keep = keep
        self.shares = shares
        self.ways = ways
        self.best = keep([])

    def settle(self, left: list[int], settled: list[Block], rounds: int) -> None:
        """Settle strips until none is left, then take back the last choice and try the next."""
        if not any(left):
            self.best = self.keep(settled)
            return
        taken_back: set[Has] = set()
        first = True
        while self.shares > 0 and self.cutter.spent < self.ways:
            shares = self._share(left, taken_back, rounds)
            if shares is None or length_of(settled) + shares.length > self.best - 1 + _HAIR:
                return
            if first:
                worths = [worth + 1 for worth in shares.worths]
                self.best = self.keep(settled + self.cutter.layout(left, worths))
            first = False
            taken = _in_whole(shares, left)
            choice = not taken
            if choice:
                has, strip, _ = max(shares.strips, key=lambda share: share[2])
                taken = [(has, strip)]
            after = [n - sum(has[kind] for has, _ in taken) for kind, n in enumerate(left)]
            self.settle(after, settled + [strip for _, strip in taken], _ROUNDS_LATER)
            if not choice:
                return
            taken_back.add(taken[0][0])
            rounds = 1

    def _share(self, left: Sequence[int], without: set[Has], rounds: int) -> Shares | None:
        """Shares of the strips tried, with new strips made until they no longer help."""
        length = float("inf")
        for _ in range(rounds):
            self.shares -= 1
            shares = share_strips(self.cutter.tried, left, without)
            if shares is None or shares.length > length - _HAIR * length:
                return shares
            length = shares.length
            self.cutter.strips(left, [worth + 1 for worth in shares.worths], every=_EVERY)
        return share_strips(self.cutter.tried, left, without)


def _in_whole(shares: Shares, left: Sequence[int]) -> list[tuple[Has, Block]]:
    """The strips that the shares take in whole, as often as they do and there are pieces left."""
    taken, now = [], list(left)
    for has, strip, share in shares.strips:
        times = min([int(share + _HAIR), *(n // more for n, more in zip(now, has, strict=True) if more)])
        taken += [(has, strip)] * times
        now = [n - times * more for n, more in zip(now, has, strict=True)]
    return taken
