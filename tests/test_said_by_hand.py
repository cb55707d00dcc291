"""What things say of themselves in a line: each number worked by hand, of inputs that are unlike."""

from dataclasses import replace
from fractions import Fraction

import pytest
from cases import for_each

from hemcalc import EXAMPLES, Count, Fabric, Length, Piece, check, example, open_line, plan_edge
from hemcalc.bolt import BoltAllowances, CutSize, cut_from_bolt, have_from_remnant
from hemcalc.bolt.shop_unit import as_shop_unit
from hemcalc.books import comparisons
from hemcalc.course import agreement, check_of
from hemcalc.course.tasks import task
from hemcalc.edge.rule_tables import rule_table
from hemcalc.measure.words import threads_said
from hemcalc.piece import Sides
from hemcalc.stitch import hem_stitch, suggest_clear
from hemcalc.sums.exercises import exercise
from hemcalc.sums.progress import Done, Progress
from hemcalc.weave.ways import ways_at
from hemcalc.workshop import Rest
from hemcalc.yarn import LinearDensity, pearl_cotton, tapestry_needle

BREAD = example("bread cloth")
#: Its clear bands, and so the widths of its hems' edges, are all different.
UNLIKE = Piece(Fabric("28/in"), (60, 40), hem="1/2 in", clear=Sides(4, 5, 6, 7))
WAYS = ways_at(open_line(BREAD), "top left")
SHEET = check(BREAD, {"first drawn": 9, "total": 55, "hem": None, "turn": 6})
LAYOUT = cut_from_bolt([("mat", "70 cm", "40 cm", 2), ("bib", "20 cm", "30 cm", 1)], "140 cm", unit="10 cm")
REMNANT = have_from_remnant("40 cm", "30 cm", [("mat", "20 cm", "15 cm", None, 1)])


@pytest.mark.parametrize(
    ("thing", "said"),
    [
        # 4 + 2 + 10 + 10 + 5.
        (
            plan_edge("28/in", 10, clear=4),
            "Edge(28/in: clear 4, drawn 2, hem 10, turn 5; cut after thread 31)",
        ),
        # 4 × 4 is less than 6 + 2 + 8 + 2; the others are not.
        (rule_table("28/in", [4, 8], [2, 6]), "RuleTable(2 hems × 2 clear bands: holds in 3 of 4)"),
        # 16 × 29 less 230 + 2 × 44; 16 × 27 less 188 + 2 × 40.
        (BREAD.fits("16 in"), "Fit(fits: 146 and 164 threads to spare)"),
        (BREAD.corners, "Corners(Corner, all alike)"),
        (UNLIKE.corners, "Corners(Corner, not all alike)"),
        (open_line(BREAD).tails[0], "Tail(top 9 left, 122 threads long)"),
        # Two threads each over 11 + 11 + 6 of the left hem and 10 + 10 + 5 of the top one.
        (WAYS[0], "CornerWay(darned back: 0 gaps, 0 ends, longest float 1)"),
        (WAYS[1], "CornerWay(run right out: 106 gaps, 0 ends, longest float 3)"),
        (WAYS[2], "CornerWay(cut short and tucked: 0 gaps, 4 ends, longest float 1)"),
        # The hypotenuse of 3 and 4, four across and three times, 2 along and 1.5 up the slant.
        (hem_stitch("4 mm", "2 mm", "0.5 mm"), "StitchPath(hem stitch, 18.00 mm of thread to 4.00 mm)"),
        (LinearDensity("20 tex"), "LinearDensity(20 tex)"),
        (tapestry_needle(24), "TapestryNeedle(size 24, 0.76 mm)"),
        (pearl_cotton(8), "PearlCotton(number 8, 110 to 150 tex)"),
        (Count("11/cm"), "Count(11/cm)"),
        (Length("3/8 in"), "Length('3/8 in')"),
        (SHEET, "Report(1 of 4 right)"),
        (SHEET["total"], "Mark(total: wrong)"),
        (exercise(7, 3), "Exercise(Sum 7, level 3: need, slack, margin)"),
        (Progress((Done(1, 1, 1, 2), Done(2, 1, 2, 2))), "Progress(2 sums, 1 all right)"),
        (comparisons("mitre allowance"), "Comparisons(5 figures, 5 of them agree)"),
        (comparisons("mitre allowance")[0], "Comparison(H049: 0.25 in printed, 0.25 in ours)"),
        (comparisons("rounding").differing, "Comparisons(1 figure, 0 of them agree)"),
        (
            agreement("rows on a bolt"),
            "By hand and by hemcalc it is the same, all 24 times: one to twenty-four cloths.",
        ),
        (check_of("the uneven groups"), "Check(in threads, 4 slips known)"),
        (task("wash", 3), "Task(Wash 3, in cm)"),
        (
            BoltAllowances(),
            "BoltAllowances(Nothing is allowed for squaring the ends, for cuts or for a wash)",
        ),
        (BoltAllowances("2 cm"), "BoltAllowances(2 cm to square each of the two ends)"),
        (CutSize("mat", "12 in", "9 in", 3), "CutSize(3 of mat, 30.48 cm across × 22.86 cm down)"),
        (CutSize("mat", "12 cm", "9 cm"), "CutSize(mat, 12 cm across × 9 cm down)"),
        (LAYOUT, "Layout(buy 70 cm, 140 cm wide: 2 of mat, 1 of bib)"),
        (REMNANT, "Yield(40 cm × 30 cm: 4 of mat)"),
    ],
    ids=lambda each: each if isinstance(each, str) else type(each).__name__,
)
def test_a_thing_says_its_numbers_in_a_line(thing, said):
    assert repr(thing) == said


@pytest.mark.parametrize(
    ("thing", "said"),
    [
        (
            BREAD.fits("16 in"),
            "The piece fits. The widest hem for this design is 1 in, limited across. The largest design for "
            "this hem is 376 × 352 threads.",
        ),
        (
            open_line(BREAD).tails[0],
            # Half of 230 + 7 + 7; 1 + 11 + 11 + 6 are crossed.
            "The tail of thread 9 of the top side at the left is 122 threads long and begins under. It "
            "crosses all 29 threads to the cut line, with ",
        ),
        (WAYS[0], "Darned back: the hems are whole cloth, 1 open at the corner."),
        (
            WAYS[1],
            "Run right out: 106 places of the hems lack a thread, 42 of them on the face; 0 have an end "
            "behind them, 0 a double thread.",
        ),
        (tapestry_needle(24), "tapestry needle 24, 0.76 mm (diameter from memory"),
        (pearl_cotton(8), "pearl cotton 8, 110 to 150 tex (from memory"),
        # 590.54 by 30.
        (LinearDensity("Ne 30"), "≈ 19.7 tex"),
        (
            SHEET,
            "first drawn: Not yet: thread 9 is too much; no slip known here explains it. It is 7 + 1 = "
            "thread 8.\ntotal: Not yet: 55 threads is too much; no slip known here explains it. It is 7 + "
            "2 + 11 + 11 + 6 = 37 threads.\nhem: No answer yet.\nturn: Right: 6 threads.\n1 of 4 right.",
        ),
        (
            comparisons("mitre allowance"),
            "0 figures computed from others of 0 published sources: 0 agree, 0 differ and say why.\n"
            "No evidence of a sum, and not counted: 4 read back, 1 practice.",
        ),
    ],
    ids=lambda each: each[:9] if isinstance(each, str) else type(each).__name__,
)
def test_a_thing_says_its_numbers_in_sentences(thing, said):
    assert thing.text().startswith(said)


#: 40 cm of mats, a cut, 40 cm of a mat and a bib: 80.1 cm, and 5 to spare; of 90 × 140 the pieces take 6200.
ALLOWED = cut_from_bolt(
    [("mat", "70 cm", "40 cm", 2), ("bib", "20 cm", "30 cm", 1)],
    "140 cm",
    unit="10 cm",
    allow=BoltAllowances("2 cm", "1 mm", "5 cm"),
)
#: Threads of 1 mm: 40 of the design and twice 4 × 10.
SQUARE = Piece(Fabric("10/cm", washed=True), (40, 40), hem="1 cm", clear=4)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (lambda: Rest("white", "12 in", "9 in").text(), "the rest of 12 in across × 9 in down"),
        (lambda: Rest("white", "12 in", "9 in", name="shelf").text(), "shelf, 12 in across × 9 in down"),
        (
            lambda: REMNANT.text("cm"),
            "A remnant of 40 cm across × 30 cm down yields 4 of mat; 0 % of it is left ",
        ),
        (
            lambda: have_from_remnant(
                "40 cm", "30 cm", [("mat", "20 cm", "15 cm", None, Fraction(1, 3))]
            ).text(),
            "They are worth ≈ 1.33 in all.",
        ),
        (
            lambda: have_from_remnant("4 cm", "3 cm", [("mat", "20 cm", "15 cm", None, 1)]).text("cm"),
            "A remnant of 4 cm across × 3 cm down is too small for any of these sizes.",
        ),
        (
            lambda: ALLOWED.text("cm"),
            "Buy 90 cm: the pieces take 80.1 cm of a bolt 140 cm wide, and ≈ 50.79 % of what is bought is "
            "left over. Allowed: 2 cm to square each of the two ends, 0.1 cm for each cut, 5 cm to spare. No "
            "slack after rounding up (0.9 cm): the next unit, 100 cm, is safer.",
        ),
        (lambda: ALLOWED.steps("cm")[0], "There must be 85.1 cm left at the least."),
        (lambda: SQUARE.fits("12 cm").text(), "The piece fits."),
        (lambda: SQUARE.fits(("11.9 cm", "12 cm")).text(), "The cloth is 1 thread too small across."),
        (lambda: BREAD.fits("10 in").text(), "The cloth is 28 threads too small across."),
        (
            lambda: replace(agreement("rows on a bolt"), unlike=("3 is 1 by hand and 2 by hemcalc",)).text(),
            "it is not the same: 3 is 1 by hand and 2 by hemcalc",
        ),
        # 188 + 7 + 7 are 202 threads, 2 more than groups of four: a thread more or less at each end.
        (lambda: suggest_clear(BREAD, 5)[0].text(), "Clear 7 left, 7 right, 8 top, 8 bottom: no more cloth."),
        (
            lambda: suggest_clear(BREAD, 5)[2].text(),
            "A design of 230 × 190 threads: across no more cloth, down 2 ",
        ),
    ],
)
def test_a_sentence_holds_its_numbers(text, said):
    assert said in text()


def test_threads_are_said_in_halves_quarters_or_hundredths():
    said = {
        **{Fraction(0): "0 threads", Fraction(1): "1 thread", Fraction(8): "8 threads"},
        **{Fraction(3, 4): "3/4 thread", Fraction(5, 4): "1 1/4 threads", Fraction(7, 5): "1.4 threads"},
        **{Fraction(1, 8): "about 0.13 thread", Fraction(1, 100): "0.01 thread"},
        **{Fraction(2, 201): "less than 0.01 thread"},
    }
    assert {number: threads_said(number) for number in said} == said


@for_each(
    ("sold_by", "ruler", "length", "said"),
    [
        ("1/8 yd", "in", "58.5 in", "1 5/8 yd (58 1/2 in)"),
        ("yard", "in", "2 yd", "2 yd (72 in)"),
        ("1/8 yd", "in", "0 in", "0 yd (0 in)"),
        ("1 ft", "in", "4.5 ft", "4 1/2 ft (54 in)"),
        ("metre", "cm", "1.5 m", "1.5 m (≈ 59 1/16 in)"),
        ("10 cm", "cm", "70 cm", "70 cm (≈ 27 9/16 in)"),
        ("1 in", "in", "58.5 in", "58 1/2 in"),
    ],
)
def test_a_shop_s_unit_says_a_length_in_its_own_way_and_in_the_readers(sold_by, ruler, length, said):
    unit = as_shop_unit(sold_by)
    assert (unit.ruler, unit.beside(Length(length), "in")) == (ruler, said)


def test_a_yarn_prints_as_its_number():
    assert str(LinearDensity("Ne 30")) == "≈ 19.7 tex"


def test_a_fabric_says_what_the_wash_takes_of_which_way():
    notes = Fabric("28/in", "27/in", shrink_warp="8 %").notes
    assert "their shrinkage takes nothing off the width" in notes[2]
    assert "their shrinkage takes 8 % off the length" in notes[3]
    notes = Fabric("28/in", "27/in", shrink_weft="3 %").notes
    assert "their shrinkage takes 3 % off the width" in notes[2]
    assert "their shrinkage takes nothing off the length" in notes[3]


# Across, then down: the design with clear, drawn and hem at both its ends; then with four hems, or clear,
# drawn, two hems, turn and handling where that is more; then the threads to the inch, or of the tray cloth,
# raw, to the cm after its wash: 12 / 0.96 and 9 / 0.9.
EXAMPLES_BY_HAND = {
    "bread cloth": ((230 + 2 * 20, 188 + 2 * 19), (230 + 2 * 44, 188 + 2 * 40), (29, 27)),
    "sampler": ((288 + 27 + 29, 216 + 27 + 31), (288 + 2 * 56, 216 + 2 * 52), (36, 34)),
    "bookmark": ((56 + 2 * 14, 196 + 2 * 14), (56 + 2 * 20, 196 + 2 * 20), (28, 28)),
    "coaster": ((76 + 2 * 15, 76 + 2 * 16), (76 + 2 * 36, 76 + 2 * 40), (25, 26)),
    "tray cloth": ((300 + 2 * 21, 200 + 2 * 18), (300 + 2 * 52, 200 + 2 * 40), (Fraction(25, 2), 10)),
    "lavender bag": ((120 + 2 * 18, 144 + 2 * 18), (120 + 2 * 40, 144 + 2 * 40), (54, 52)),
}


def test_each_example_is_as_large_as_by_hand():
    assert set(EXAMPLES_BY_HAND) == set(EXAMPLES)
    for name, (finished, cut, counts) in EXAMPLES_BY_HAND.items():
        piece, unit = example(name), "cm" if name == "tray cloth" else "in"
        assert (piece.finished_size.threads, piece.cut_size.threads) == (finished, cut), name
        sides = [side.number(unit) for side in piece.finished_size.after]
        assert sides == [Fraction(threads, count) for threads, count in zip(finished, counts, strict=True)], (
            name
        )
