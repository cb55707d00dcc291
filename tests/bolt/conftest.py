"""Greedy layouts of another hand, by a packing library: the best of all its ways with straight cuts."""

import pytest
import rectpack
import rectpack.guillotine

#: How it chooses a place, and how it parts what is left.
_WAYS = [
    getattr(rectpack.guillotine, f"Guillotine{place}{part}")
    for place in ("Baf", "Blsf", "Bssf")
    for part in ("Las", "Sas", "Llas", "Slas")
]
_ORDERS = (rectpack.SORT_AREA, rectpack.SORT_SSIDE, rectpack.SORT_LSIDE)


@pytest.fixture(scope="session")
def greedy():
    """What `most_area` says, for the tests of remnants."""
    return most_area


def most_area(across, down, pieces, turn):
    """The most area of pieces, each across and down, that it lays on one cloth."""
    return max((sum(a * d for a, d in laid) for laid in _layouts(across, down, pieces, turn)), default=0)


def shortest(across, pieces, turn):
    """The shortest length of a bolt on which it lays all the pieces, by halves, for the benchmark."""
    low, high = 1, sum(max(piece) for piece in pieces)
    while high - low > 1:
        middle = (low + high) // 2
        if any(len(laid) == len(pieces) for laid in _layouts(across, middle, pieces, turn)):
            high = middle
        else:
            low = middle
    return high


def _layouts(across, down, pieces, turn):
    for way in _WAYS:
        for order in _ORDERS:
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline, pack_algo=way, sort_algo=order, rotation=turn
            )
            for piece in pieces:
                packer.add_rect(*piece)
            packer.add_bin(across, down)
            packer.pack()
            yield [(a, d) for _, _, _, a, d, _ in packer.rect_list()]
