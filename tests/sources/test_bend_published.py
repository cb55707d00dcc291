"""Bends and turns of cloth as published, held against hemcalc's.

The figures themselves are rows of data/, each with a test in test_rows.py; here stands what
follows from them.
"""

import math

import pytest
from cases import for_each

from hemcalc.books import read_rows
from hemcalc.edge import bend_length, neutral_share, plan_edge, plan_section

ROWS = {row.id: row for row in read_rows()}

HALF_PI_AS_PRINTED = 1.57

# The three classes of hardness, rows FB-01: what a sharp right angle takes of the thickness, and K.
CLASSES = [
    (ROWS[f"FB-01-{name}"].inputs["sharp"], float(ROWS[f"FB-01-{name}-k"].expected))
    for name in ("soft", "middle", "hard")
]


@for_each(("per_thickness", "k"), CLASSES)
def test_a_right_angle_takes_the_published_length_for_thickness_and_radius(per_thickness, k):
    sharp = bend_length(90, 0, 1, k)
    assert sharp == pytest.approx(per_thickness, abs=0.005)
    assert bend_length(90, 1, 1, k) - sharp == pytest.approx(HALF_PI_AS_PRINTED, abs=0.005)


@for_each(("per_thickness", "k"), CLASSES)
@for_each("angle", [30, 45, 60, 120, 180])
def test_other_angles_take_their_share_of_the_right_angle(per_thickness, k, angle):
    published = (per_thickness * 0.125 + HALF_PI_AS_PRINTED * 0.375) * angle / 90
    slack = (0.005 * 0.125 + 0.005 * 0.375) * angle / 90
    assert bend_length(angle, 0.375, 0.125, k) == pytest.approx(published, abs=slack)


# A blank of a straight piece and two bends, row FB-04, of the middle class. Its bends are from memory,
# not read.
# Source: Machinery's Handbook, 31st ed., E. Oberg and others (from memory), 2020 (per memory), p. 1421,
# formulas 32-34.
def test_the_published_blank_differs_only_by_the_rounding_of_half_pi():
    row = ROWS["FB-04"]
    bends, thickness = row.inputs["bends"], row.inputs["thickness"]
    k = neutral_share(row.inputs["sharp"], 90, 0, 1)
    ours = row.inputs["straight"] + sum(bend_length(*bend, thickness, k) for bend in bends)
    # The book takes 1.57 for π/2: that makes each inch of radius 0.0008 in short.
    short = (math.pi / 2 - HALF_PI_AS_PRINTED) * sum(angle / 90 * radius for angle, radius in bends)
    assert short == pytest.approx(0.0009, abs=0.00005)
    assert ours - short == pytest.approx(float(row.expected), abs=0.0005)


# An upper collar is cut about 1/8 in larger than the under collar; it depends on the weight of the
# cloth, and the lapel's corner takes 1/8 in tapering to none, FB-07. Two plies that lie against each
# other round a turn of 180 degrees differ by π times their thickness.
# Source: Understand turn-of-cloth, J. Barlup, 2007 (print per memory), pp. 71-76, p. 4 of the web text.
@for_each("thickness", [0.3, 0.5, 0.8, 1.0])
def test_turn_of_cloth_lies_between_none_and_the_published_eighth(thickness):
    # The thicknesses are ours: fashion fabric of no stated weight (common practice, no source).
    under = bend_length(180, 0, thickness)
    upper = bend_length(180, thickness, thickness)
    eighth, sixteenth = 25.4 / 8, 25.4 / 16
    assert upper - under == pytest.approx(math.pi * thickness)
    assert 0 < upper - under <= eighth + sixteenth


def test_the_published_eighth_is_the_turn_of_a_cloth_about_a_millimetre_thick():
    thickness = 25.4 / 8 / math.pi
    assert bend_length(180, thickness, thickness) - bend_length(180, 0, thickness) == pytest.approx(25.4 / 8)
    # Such a cloth is folded here in a hem of half an inch: its fold 1 goes round one ply of the turn.
    section = plan_section(plan_edge("20/in", "1/2 in", clear=8), f"{thickness:.6f} mm")
    assert section.fold_1_arc_mm - section.arc_mm == pytest.approx(25.4 / 16, abs=0.001)
