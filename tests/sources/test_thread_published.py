"""Thread consumption, working lengths, basting and needles against published figures.

Beside each figure stands its source; a figure is compared to half the last digit printed.
"""

import math
from dataclasses import replace

import pytest
from cases import for_each

from hemcalc import Fabric, Length, Piece
from hemcalc.stitch import Sample, hem_stitch, thread_needed
from hemcalc.stitch.amount import Amount
from hemcalc.stitch.path import basting_stitch
from hemcalc.yarn.needle import TAPESTRY_NEEDLES


def bookmark():
    """An invented piece: a bookmark of the autumn linen workshop."""
    linen = Fabric("28/in", thickness="0.5 mm", washed=True)
    return Piece(linen, (48, 168), hem="1/4 in", clear=4)


# Source: "Sewing thread consumption guide", textile course article, n.d., Stitch type 101 (row ST-04):
# stitch length N, thickness T, S stitches to a length of 1: (3 N + 2 T) S = 3 + 2 T S. Hem stitch
# reduces to it round the group: unpulled, one ply, no depth, a thread of no thickness. Its bite into
# the hem is beyond it: twice through the cloth and on, T + T, so that a whole stitch is 3 N + 4 T.
@for_each(("length", "thickness"), [(4.0, 0.5), (2.5, 1.0), (3.63, 0.45), (1.0, 2.0)])
def test_hem_stitch_round_its_group_takes_what_chain_stitch_101_does(length, thickness):
    path = hem_stitch(length, 0, thickness, plies=1)
    per_length = 1 / length
    loop = path.between_mm("out of the hem", "far side, over again")
    assert loop * per_length == pytest.approx(3 + 2 * thickness * per_length)
    assert path.length_mm == pytest.approx(3 * length + 4 * thickness)


# Source: as above (row ST-06): factors 1.3 and 4.1 over 100 cm are 540 cm, with 15 % of waste 621 cm.
# That source prints 10 to 15 % as usual for machine seams.
def test_thread_for_a_metre_of_seam_with_waste():
    plan = thread_needed(bookmark(), waste=("10 %", "15 %"))
    metre = replace(plan, seams=Amount(0.0, 0.0, 0.0)).calibrate(Sample(plan.stitches, "540 cm", within=0))
    assert metre.hem.middle_mm == pytest.approx(1000 * (1.3 + 4.1))
    assert metre.sewn.high_mm == pytest.approx(6210, abs=5)
    assert metre.sewn.low_mm == pytest.approx(1.10 * 5400, abs=5)


# Source: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776 (orig. c.1886-90, not
# seen), The Thread (row H085): 40 to 50 cm. "How To Thread a Needle (Mississippi State University
# Extension sewing pages)", author not named, not seen, step 1 (row H086): about 20 in. Hand Sewing Lessons,
# Sarah E. Krolik (author from memory, not seen on page), c.1901 (not seen), Needles and Thread (row
# H087): an arm's length, here an invented learner's 58 cm.
@for_each("working", ["40 cm", "50 cm", "20 in", "58 cm"])
def test_the_books_working_lengths_are_inputs(working):
    plan = thread_needed(bookmark(), working=working)
    assert plan.working == Length(working)
    each = float((plan.working - plan.ends).mm)
    assert plan.needlefuls == tuple(math.ceil(mm / each) for mm in (plan.sewn.low_mm, plan.sewn.high_mm))


# Source: Handicraft for Girls, Idabelle McGlauflin, 1910, Basting A and B (rows H103, H104); School
# Needlework, Olive C. Hapgood, 1893, Basting (row H106): 1/2 in above, as little as may be below.
@for_each(
    ("over", "under", "to_the_inch"),
    [
        ("1/4 in", "1/4 in", 2),
        ("1/8 in", "3/8 in", 2),
        ("3/8 in", "1/8 in", 2),
        ("1/2 in", "1/16 in", 16 / 9),
    ],
)
def test_the_books_basting_stitches(over, under, to_the_inch):
    path = basting_stitch(over, under, "0.5 mm")
    assert 25.4 / path.advance_mm == pytest.approx(to_the_inch)
    inch = path.per_mm * 25.4
    assert inch == pytest.approx(25.4 + to_the_inch * 2 * 0.5)


# Source: as above, row H103; the same in Home and School Sewing, Frances Patton, c.1901 (not seen), II
# Basting (row H105) and Ontario Teachers' Manuals: Household Science in Rural Schools, Ontario
# Ministry/Department of Education, 1918 (from memory), Lesson II (row H108).
def test_basting_is_in_quarter_inches_unless_said():
    assert thread_needed(bookmark()).basting == thread_needed(bookmark(), baste=(6.35, 6.35)).basting
    assert thread_needed(bookmark()).basting != thread_needed(bookmark(), baste=("1/8 in", "1/8 in")).basting


# Source: Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776, Fig. 55 (row H038):
# 3 to 4 threads to a group and 3 to 4 deep; Text-Book on Domestic Art, author not shown in stored copy,
# n.d., Embroidery samplers (row HS-04): 5 to a group and 2 or 3 deep; Needle-Cult, not seen, fig. 1 (row
# H044): 3 to a group, 2 deep. Common practice of counted work, no source: 4 to a group and 2 deep.
@for_each(("group", "depth"), [(3, 3), (4, 4), (5, 2), (5, 3), (3, 2), (4, 2)])
def test_the_books_groups_and_depths_are_inputs(group, depth):
    plan = thread_needed(bookmark(), group, depth=depth)
    start = plan.sides[0].paths[0].points[0]
    assert start.y_mm == pytest.approx(depth * 25.4 / 28)
    assert plan.sides[0].paths[0].advance_mm == pytest.approx(group * 25.4 / 28, rel=0.05)


# Source: "Sewing needles (citing Tabart, Book of Trades vol. III, 1804)", web page, author not named,
# n.d., table and note 1 (row ND-05): tapestry needles 13 to 26. Size 28 is beyond it, from memory, and
# must say so.
def test_tapestry_needles_are_in_the_printed_range_or_say_that_they_are_not():
    for needle in TAPESTRY_NEEDLES:
        assert (13 <= needle.size <= 26) == ("beyond" not in needle.source)
