"""The open line against what is published of its corner. Crimp is in data/, rows CG-04."""

from __future__ import annotations

import pytest

from hemcalc import Length, plan_edge
from hemcalc.weave.reach import TUCK, Allowances


# Where the drawn threads are cut at a corner: about 1 cm from the hem's edge, the loose ends
# tucked in the turning, or turned to the back and caught down.
# Source: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776 (orig. c. 1886-90,
# not seen), figs. 92-95.
def test_ends_are_tucked_for_the_published_centimetre() -> None:
    assert Length("1 cm") == TUCK
    edge = plan_edge("28/in", "1 in", clear=8)
    behind = Allowances().tucked_threads(edge)
    assert edge.width(behind).mm == pytest.approx(10, abs=float(edge.count.pitch.mm) / 2)
