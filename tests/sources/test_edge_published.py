"""The edge against handbooks: where the thread is drawn, and what is drawn and turned.

The figures themselves are rows of data/, each with a test in test_rows.py; here stands what
must hold over whole ranges of them. Distances are compared on cloths on which they are whole
threads, so that no rounding comes between.

Left out, since hem and turning are not printed beside the distance: 1 in to the drawn threads
(School Needlework, Olive C. Hapgood, 1893, Hem-Stitch, right to left, step 1).
"""

from fractions import Fraction

import pytest
from cases import for_each

from hemcalc import Length, plan_edge
from hemcalc.books import read_rows

ROWS = read_rows()
DRAWN = [row for row in ROWS if row.function == "BOOKS_DRAW" and row.agrees]
TURNED = [row for row in ROWS if row.topic == "turning" and "turn" in row.inputs and row.published]


# The line for drawing lies twice the hem and once the turning in from the raw edge. Three say so:
# School Sewing Based on Home Problems, I. R. and M. G. Burton, c.1916 (not seen), Par. 115 Hemstitching;
# Handicraft for Girls, Idabelle McGlauflin, 1910, Hemstitching, a. Drawing the threads;
# A Sewing Course for Teachers, Mary Schenck Woolman, not seen, Nos. 46 and 47.
@for_each("drawn", [1, 2, 5, 10])
@for_each(("hem", "turn"), [(14, 7), (11, 6), (12, 12), (9, 0)])
def test_the_draw_line_lies_as_far_in_as_the_handbooks_say(hem, turn, drawn):
    edge = plan_edge("30/in", hem, clear=7, drawn=drawn, turn=turn)
    assert edge.draw_line == 2 * edge.hem_width + edge.turn_width
    # The thread drawn on that line is the outermost one drawn; outward of it lies the hem.
    assert edge.total - edge.open_line == 2 * hem + turn


# One thread is drawn on the line, then four or five more towards the body of the cloth: 5 to 6 in all
# (derived).
# Source: School Sewing Based on Home Problems, I. R. and M. G. Burton, c.1916 (not seen), Par. 115.
@pytest.mark.parametrize("more", [4, 5])
def test_further_threads_are_drawn_towards_the_body_and_leave_the_line_where_it_was(more):
    one = plan_edge("30/in", 14, clear=20, drawn=1)
    all_drawn = plan_edge("30/in", 14, clear=20 - more, drawn=1 + more)
    assert all_drawn.draw_line == one.draw_line
    assert all_drawn.open_line == one.open_line
    assert all_drawn.first_drawn == one.first_drawn - more


@for_each("row", DRAWN)
def test_what_a_book_draws_for_a_plain_hem_stitch_needs_no_note(row):
    fewest, most = map(int, row.span)
    for drawn in range(fewest, most + 1):
        assert plan_edge("28/in", 18, clear=4, drawn=drawn).notes == ()


# Open work between two hem-stitched edges draws more, row H030.
def test_open_work_is_said_to_draw_more_than_a_plain_hem_stitch():
    (row,) = (row for row in ROWS if row.id == "H030")
    fewest, most = map(int, row.span)
    for drawn in range(fewest, most + 1):
        assert plan_edge("28/in", 18, clear=4, drawn=drawn).notes == (
            f"The books draw 2 to 10 threads for a plain hem stitch; this edge draws {drawn}.",
        )


@for_each("turn", sorted({row.inputs["turn"] for row in TURNED}))
@for_each("count", ["18/in", "28/in", "11/cm", "40/in"])
def test_a_printed_first_turning_comes_out_within_half_a_thread(count, turn):
    edge = plan_edge(count, "3/4 in", clear=5, turn=turn)
    off = edge.turn_width.mm - Length(turn).mm
    assert -edge.count.pitch.mm / 2 < off <= edge.count.pitch.mm / 2
    assert edge.turn > 0


# Common practice of the trade, no published source: four hems of cloth all round, and half the hem turned.
# The two meet where three half hems are as wide as the clear and the drawn threads.
@for_each(("hem", "clear", "spare"), [(6, 9, -2), (8, 10, 0), (14, 7, 12), (24, 6, 28)])
def test_the_rule_of_four_has_this_to_spare(hem, clear, spare):
    rule = plan_edge("28/in", hem, clear=clear, drawn=2).rule
    assert rule.slack == spare == Fraction(3 * hem, 2) - clear - 2
