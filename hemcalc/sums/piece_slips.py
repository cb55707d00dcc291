"""The slips that learners make in the sums of the whole piece and of its cloth: the rest of the table."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from hemcalc.sums.slip import (
    OFTEN,
    SELDOM,
    SOMETIMES,
    WAYS,
    Slip,
    cloths,
    design,
    done,
    exchanged,
    so,
)
from hemcalc.sums.working import Working, number

#: They follow those of the edge.
OF_THE_PIECE = (
    # The whole piece.
    Slip(
        "one side only",
        OFTEN,
        "the margin was put on one side only",
        "On how many sides of the design does cloth lie, that way?",
        so(ends=1),
    ),
    Slip("no margin", SELDOM, "nothing was added to the design", "What lies round the design?", so(ends=0)),
    Slip(
        "four margins",
        SELDOM,
        "four margins were added one way",
        "Going across the piece, how many margins do you cross?",
        so(ends=4),
    ),
    Slip(
        "finished at the second fold",
        SELDOM,
        "the second fold was taken for the finished edge",
        "Which of the two folds is the finished edge?",
        done(edge=lambda sums, side: sums.plain("fold 2", side)),
    ),
    Slip(
        "across and down exchanged",
        SOMETIMES,
        "across and down were exchanged",
        "Which of the two numbers is across, and which down?",
        so(exchanged=WAYS),
    ),
    Slip(
        "stitches for threads",
        SOMETIMES,
        "the design's stitches over two were taken for threads",
        "How many threads does a stitch over two take?",
        design(lambda threads: Fraction(threads, 2)),
    ),
    Slip(
        "threads for stitches",
        SOMETIMES,
        "the design's threads were taken for stitches over two, and doubled",
        "Is the design told in threads, or in stitches over two?",
        design(lambda threads: Fraction(2 * threads)),
    ),
    Slip(
        "size rounded down",
        OFTEN,
        "the size to cut was rounded down to a mark of the ruler, not up",
        "Is the mark on the ruler that you chose beyond the size, or short of it?",
        so(to_mark=Working.down),
    ),
    # The cloth.
    Slip(
        "inches for centimetres",
        SOMETIMES,
        "threads per inch and threads per cm were exchanged",
        "To what length does your count go, an inch or a centimetre?",
        cloths(lambda cloth: replace(cloth, per="cm" if cloth.per == "in" else "in")),
    ),
    Slip(
        "wrong unit written",
        SOMETIMES,
        "inches were written where centimetres were meant, or the other way round",
        "In which unit did you work it out, and which did you write?",
        so(reckoned_in={"in": "cm", "cm": "in"}),
    ),
    Slip(
        "half the count",
        SOMETIMES,
        "half the count was taken, as if the cloth were counted in stitches over two threads",
        "Did you count threads, or stitches over two threads?",
        cloths(lambda cloth: replace(cloth, count=cloth.count / 2)),
    ),
    Slip(
        "count rounded",
        SELDOM,
        "the count was rounded before the sum was done",
        "What was the count before you rounded it?",
        cloths(lambda cloth: replace(cloth, count=number(cloth.count).nearest().value)),
    ),
    Slip(
        "warp and weft exchanged",
        SOMETIMES,
        "warp and weft were exchanged",
        "Which count is counted across, and which down?",
        partial(exchanged, fields=("count", "per")),
    ),
    Slip(
        "shrinkage on the wrong side",
        SOMETIMES,
        "the warp's shrinkage was put on the width, and the weft's on the length",
        "Which way do the warp threads run, so which way do they shorten the cloth?",
        partial(exchanged, fields=("shrinks",)),
    ),
    Slip(
        "wash left out",
        OFTEN,
        "the wash was left out",
        "What does the first wash do to this cloth?",
        cloths(lambda cloth: replace(cloth, shrinks=Fraction(0))),
    ),
    Slip(
        "wash taken off",
        SOMETIMES,
        "what the wash takes was taken off, where more cloth is needed",
        "To be as wide after the wash, does the hem need more threads or fewer?",
        so(to_wash=lambda threads, cloth: threads * cloth.kept),
    ),
    Slip(
        "wash added on",
        SOMETIMES,
        "what the wash takes was added on, as a share of the smaller width",
        "Of which width does the wash take its share: of the one before it, or the one after?",
        so(to_wash=lambda threads, cloth: threads * (number(1) + Working(cloth.shrinks))),
    ),
)
