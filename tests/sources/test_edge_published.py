"""The edge against handbooks: where the thread is drawn, where the creases fall, what is drawn.

Figures only, in inches as printed unless said; 'not seen' and 'from memory' as the project's
list of sources has them. Distances are compared on cloths on which they are whole threads, so
that no rounding comes between; exactly, since the arithmetic on printed figures is exact.

Left out, since hem and turning are not printed beside the distance: 1 in to the drawn threads
(School Needlework, Olive C. Hapgood, 1893, Hem-Stitch, right to left, step 1) and 1/2 in (The
One-Eyed Fairies (children's sewing book), Hanley, not seen, chapter XXI).
"""

from fractions import Fraction

import pytest

from hemcalc.edge import BOOKS_DRAW, plan_edge
from hemcalc.lengths import Length

DILLMONT = (
    "Encyclopedia of Needlework, Therese de Dillmont, Project Gutenberg 20776 (orig. c.1886-90, not seen)"
)
HAPGOOD = "School Needlework, Olive C. Hapgood, 1893"
WAKEMAN = (
    "Scientific Sewing and Garment Cutting, Wakeman and Heller (authors from memory, not seen on page), "
    "c.1898 (not seen)"
)

# The line for drawing lies twice the hem and once the turning in from the raw edge.
DRAW_LINE_RULES = [
    # School Sewing Based on Home Problems, I. R. and M. G. Burton, c.1916 (not seen), Par. 115 Hemstitching.
    pytest.param(2, 1, id="Burton, not seen"),
    # Handicraft for Girls, Idabelle McGlauflin, 1910, Hemstitching, a. Drawing the threads.
    pytest.param(2, 1, id="McGlauflin 1910"),
    # A Sewing Course for Teachers, Mary Schenck Woolman, not seen, Nos. 46 and 47.
    pytest.param(2, 1, id="Woolman, not seen"),
]

# Hem and turning as printed together, and the line that the rule puts by hand: 2 hems + turning (derived).
HEMS_AND_TURNINGS = [
    # HAPGOOD, To Mitre the Corners of a Hem, steps 2 and 3.
    pytest.param("1 in", "1/4 in", "2 1/4 in", id="Hapgood 1893"),
    # Handicraft for Girls, Idabelle McGlauflin, 1910, Exercise 8, practice towel.
    pytest.param("1 in", "1/4 in", "2 1/4 in", id="McGlauflin 1910"),
    # A Complete Course in Dressmaking, vol. 2, Isabel Conover (from memory), not seen, p. 6.
    pytest.param("1/8 in", "1/16 in", "5/16 in", id="Conover, not seen"),
]


@pytest.mark.parametrize(("hems", "turnings"), DRAW_LINE_RULES)
@pytest.mark.parametrize("drawn", [1, 2, 5, 10])
@pytest.mark.parametrize(("hem", "turn"), [(16, 8), (11, 6), (12, 12), (9, 0)])
def test_the_draw_line_lies_as_far_in_as_the_handbook_says(hems, turnings, hem, turn, drawn):
    edge = plan_edge("32/in", hem, clear=8, drawn=drawn, turn=turn)
    assert edge.draw_line == edge.hem_width * hems + edge.turn_width * turnings
    # The thread drawn on that line is the outermost one drawn; outward of it lies the hem.
    assert edge.total - edge.open_line == hems * hem + turnings * turn


@pytest.mark.parametrize(("hem", "turn", "line"), HEMS_AND_TURNINGS)
@pytest.mark.parametrize("count", ["32/in", "48/in"])
def test_a_printed_hem_and_turning_put_the_draw_line_here(count, hem, turn, line):
    edge = plan_edge(count, hem, clear=8, turn=turn)
    assert edge.rounding == "Nothing was rounded."
    assert edge.draw_line == Length.parse(line)


# One thread is drawn on the line, then four or five more towards the body of the cloth: 5 to 6 in all
# (derived).
# Source: School Sewing Based on Home Problems, I. R. and M. G. Burton, c.1916 (not seen), Par. 115.
@pytest.mark.parametrize("more", [4, 5])
def test_further_threads_are_drawn_towards_the_body_and_leave_the_line_where_it_was(more):
    one = plan_edge("32/in", 16, clear=20, drawn=1)
    all_drawn = plan_edge("32/in", 16, clear=20 - more, drawn=1 + more)
    assert all_drawn.draw_line == one.draw_line
    assert all_drawn.open_line == one.open_line
    assert all_drawn.first_drawn == one.first_drawn - more


# Hem 1 in, measured from the folded edge (step 3); turning 1/4 in (step 2); the creases meet 1 1/4 in from
# each raw edge (step 4, derived), which is the corner of the finished edge.
# Source: HAPGOOD, To Mitre the Corners of a Hem.
@pytest.mark.parametrize("count", ["24/in", "28/in", "32/in"])
def test_the_creases_of_the_mitred_hem_exercise_fall_as_printed(count):
    edge = plan_edge(count, "1 in", clear=8, turn="1/4 in")
    assert edge.width(edge.cut - edge.fold_2) == Length.parse("1/4 in")
    assert edge.width(edge.fold_2 - edge.fold_1) == Length.parse("1 in")
    assert edge.width(edge.cut - edge.fold_1) == Length.parse("1 1/4 in")


# Two threads are drawn on a line that lies 12 threads below the last row of the pattern, printed as a count.
# Read here as 12 threads left plain. Source: WAKEMAN, Hemstitching.
def test_a_line_12_threads_below_the_pattern_draws_threads_13_and_14():
    edge = plan_edge("20/in", 8, clear=12, drawn=2)
    drawn = next(band for band in edge.bands if band.name == "drawn")
    assert (drawn.first, drawn.last) == (13, 14)


# Threads drawn for plain hem stitching, fewest and most, as printed.
THREADS_DRAWN = {
    "Clothing and Health, Helen Kinne and Anna M. Cooley, c.1916 (not seen), Lesson 8": (3, 4),
    "School Sewing Based on Home Problems, I. R. and M. G. Burton, c.1916 (not seen), Par. 115 (derived)": (
        5,
        6,
    ),
    f"{WAKEMAN}, Hemstitching": (2, 2),
    f"{HAPGOOD}, Hem-Stitch step 1": (4, 6),
    f"{DILLMONT}, Fig. 55": (2, 4),
    "Embroidery and Tapestry Weaving, Grace Christie (Mrs. Archibald Christie), 1912 printing "
    "(Project Gutenberg 20386), ch. X Drawn thread work, fig. 115": (3, 4),
    "Needle-Cult, not seen, not seen, Hemstitching fig. 1": (4, 4),
    "Educational Needlecraft, Margaret Swanson and Ann Macbeth, 1911, Hem Stitching": (5, 10),
}


def test_the_books_range_is_that_of_the_books():
    fewest = min(fewest for fewest, _ in THREADS_DRAWN.values())
    most = max(most for _, most in THREADS_DRAWN.values())
    assert (fewest, most) == BOOKS_DRAW


@pytest.mark.parametrize("source", THREADS_DRAWN, ids=lambda source: source.split(",")[0])
def test_what_a_book_draws_for_a_plain_hem_stitch_needs_no_note(source):
    for drawn in range(THREADS_DRAWN[source][0], THREADS_DRAWN[source][1] + 1):
        assert plan_edge("28/in", 16, clear=8, drawn=drawn).notes == ()


# Open work between two hem-stitched edges draws 16 to 18. Source: DILLMONT, Fig. 71.
@pytest.mark.parametrize("drawn", [16, 17, 18])
def test_open_work_of_16_to_18_threads_is_said_to_be_more_than_a_plain_hem_stitch(drawn):
    assert plan_edge("28/in", 16, clear=8, drawn=drawn).notes == (
        f"The books draw 2 to 10 threads for a plain hem stitch; this edge draws {drawn}.",
    )


# First turnings as printed: they hold as inputs, and come out within half a thread.
FIRST_TURNINGS = {
    "Text-Book on Domestic Art, Carrie Crane Ingalls, not seen, Sampler Number One (least)": "1/16 in",
    "Text-Book on Domestic Art, Carrie Crane Ingalls, not seen, Sampler Number One (most)": "1/2 in",
    f"{DILLMONT}, fig. 8 (at most)": "2 mm",
    "A Sewing Course for Teachers, Mary Schenck Woolman, not seen, No. 4 Folding a Hem (less than)": "1/8 in",
    f"{HAPGOOD}, To Mitre, step 2": "1/4 in",
}


@pytest.mark.parametrize("turn", FIRST_TURNINGS.values())
@pytest.mark.parametrize("count", ["18/in", "28/in", "11/cm", "40/in"])
def test_a_printed_first_turning_comes_out_within_half_a_thread(count, turn):
    edge = plan_edge(count, "1/2 in", clear=8, turn=turn)
    off = edge.turn_width.mm - Length.parse(turn).mm
    assert -edge.count.pitch.mm / 2 < off <= edge.count.pitch.mm / 2
    assert edge.turn > 0


# Common practice of the trade, no published source: at 32 threads/in a hem of 1/2 in is 16 threads and half
# of it is turned; clear 8 and two drawn put the first drawn thread at number 9 and the cut after thread 50;
# the rule asks 64 threads, which are 2 in.
def test_a_half_inch_hem_at_32_to_the_inch_comes_out_as_the_trade_has_it():
    edge = plan_edge("32/in", "1/2 in", clear=8, drawn=2)
    assert (edge.hem, edge.turn, edge.clear, edge.drawn) == (16, 8, 8, 2)
    assert (edge.first_drawn, edge.cut) == (9, 50)
    assert edge.rule.rule == 64
    assert edge.rule.rule_length == Length.parse("2 in")


# Common practice of the trade, no published source: four hems of cloth all round, and half the hem turned.
# The two meet where three half hems are as wide as the clear and the drawn threads.
@pytest.mark.parametrize(("hem", "clear", "spare"), [(4, 8, -4), (8, 10, 0), (16, 8, 14), (24, 8, 26)])
def test_the_rule_of_four_has_this_to_spare(hem, clear, spare):
    rule = plan_edge("28/in", hem, clear=clear, drawn=2).rule
    assert rule.slack == spare == Fraction(3 * hem, 2) - clear - 2
