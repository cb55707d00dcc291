"""The open line against what is published of its corner and of crimp."""

from __future__ import annotations

from fractions import Fraction

import pytest

from hemcalc.edge import plan_edge
from hemcalc.lengths import Length
from hemcalc.reach import TUCK, Allowances


# Where the drawn threads are cut at a corner: about 1 cm from the hem's edge, the loose ends
# tucked in the turning, or turned to the back and caught down.
# Source: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776 (orig. c. 1886-90,
# not seen), figs. 92-95.
def test_ends_are_tucked_for_the_published_centimetre() -> None:
    assert Length.parse("1 cm") == TUCK
    edge = plan_edge("28/in", "1 in", clear=8)
    behind = Allowances().tucked_threads(edge)
    assert edge.width(behind).mm == pytest.approx(10, abs=float(edge.count.pitch.mm) / 2)


# Jammed square plain cloth: yarn length 1.0472 and pitch 0.866 diameters a crossing, crimp 0.2092.
# A tail drawn from such cloth and darned quite straight spans its whole yarn length.
# Source: Yarn and cloth (fabric geometry, after Peirce, J. Text. Inst. 1937, T45), N. Balasubramanian,
# n.d., fabric geometry section; a secondary copy.
def test_the_crimp_factor_of_jammed_plain_cloth_is_yarn_length_over_pitch() -> None:
    length, pitch, crimp = Fraction("1.0472"), Fraction("0.866"), Fraction("0.2092")
    half_digit = float((length + Fraction("0.00005")) / (pitch - Fraction("0.0005")) - length / pitch)
    straight = Allowances(crimp=crimp, darned_crimp=0)
    assert float(straight.factor) == pytest.approx(float(length / pitch), abs=half_digit)
    assert straight.span(100, plan_edge("28/in", 16, clear=8)) == pytest.approx(
        100 * float(length / pitch) - 1.6, abs=100 * half_digit
    )
