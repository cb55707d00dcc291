# ruff: noqa: E501 - a table of what people write, a kind a line
"""Whatever people write for a number: read as they mean it, or refused in one sentence."""

import re
from contextlib import suppress
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from cases import for_each
from hostile import any_text
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import HemError, Length
from hemcalc.sums.reading import read_answer

F = Fraction
# What is written, and what it says, by the number that was asked for and its unit.
WAYS = {
    ("total", "threads"): {
        37: (
            *(37, "37", " 37 ", "37 threads", "37 thread", "37threads", "37t", "37 t", "37t.", "37th", "37 threads."),
            *("thread 37", "Thread 37", "thread no. 37", "no. 37", "number 37", "#37", "37 THREADS", "37thr", "37 thds"),
            *("≈37", "≈ 37", "~37", "about 37", "About 37 threads", "approx. 37", "roughly 37", "around 37", "ca. 37"),
            *("= 37", "37.", "37!", "37,", "it is 37", "it's 37", "I get 37", "after 37", "after thread 37", "37?"),
            *("37 or so", "+37", "37.0", "37,0", "37.00 threads", "thirty-seven", "thirty seven", "Thirty-Seven threads"),
            *("7 + 2 + 11 + 11 + 6", "7+2+11+11+6", "7 + 2 + 2 × 11 + 6", "7+2+2*11+6", "7 + 2 + 2x11 + 6", "43 - 6"),
            *("7 + 2 + 11 + 11 + 6 = 37", "2 × (11 + 6) + 3", "43 − 6", "74/2", "74 / 2", "74 ÷ 2", "74:2", "7 plus 30"),
            *("7 + 2 + 11 + 11 + 6 threads", "20 threads + 17 threads", "4 times 9 + 1", "0037", "３７", "37 threads in all"),
            *(Fraction(37), Decimal("37"), Decimal("37.0"), np.int64(37), np.int8(37), 74 / 2, 37.0, np.float64(37), Fraction(74, 2)),
        ),
        50: ("fifty", "50t", "50th", "50 threads.", "thread 50", "≈50", "Fifty threads", "2 × 25", "100/2", "Ｆifty"),
        112: ("one hundred and twelve", "a hundred and twelve", "1 hundred and 12", "112th thread"),
        12: ("a dozen", "twelve", "12th", "dozen"),
        1: ("one", "1st", "1 thread", "a thread", "one thread"),
        0: ("0", "nought", "zero", "0 threads", 0.0),
        **{2: ("2nd",), 3: ("3rd", "3 rd")},
    },
    ("slack", "threads"): {
        -4: ("-4", "−4", "–4", "- 4", "minus 4", "-4 threads", "4 short", "short by 4", "short 4", "4 threads short", -4, -4.0),
        14: ("+14", "14", "14 to spare", "14 over", "56 - 42", "56 − 42", "+ 14"),
        -2: ("40 - 42", "40 − 42 = −2"),
    },
    ("margin", "in"): {
        (F(25, 16), "in"): ("1 and 9/16 in", "1⁹⁄₁₆ in", "1 9/16", "1-9/16 in", "1 9/16 inches", '1 9/16"', "1 & 9/16 in", "1.5625"),
        (F(3, 2), "in"): ("1½", "1½ in", "one and a half inches", "1 and a half in", "an inch and a half", "1.5 in.", "1,5 in", "1 1/2″"),
        (F(1, 2), "in"): ("half an inch", "a half inch", "½", ".5", "one half", "1/2 in", "0.5 inch"),
        (F(3, 8), "in"): ("three eighths of an inch", "3/8", "3 eighths", "three-eighths in", "3/8ths in", "⅜ in"),
        (F(36), "in"): ("1 yd", "3 ft", "1 yard"),
        (F(4), "cm"): ("4 cm", "about 4 cm", "4cm", "4 CM", "four centimetres", "4,0 cm", "4 cms"),
        (F(40), "mm"): ("40 mm", "about 40 mm", "40mm", "≈ 40 mm", "40 millimetres", "40 mm."),
        (F(7, 4), "in"): ("1 1/4 in + 1/2 in", "1 1/4 + 1/2", "one and three quarter inches", "2 in - 1/4 in"),
        (40, "threads"): ("40 threads", "40t"),
    },
    ("hem", "cm"): {
        (F(5, 2), "cm"): ("2,5 cm", "2.5", 2.5, Decimal("2.5"), F(5, 2), "2½ cm", "25/10"),
        (F(254, 10), "mm"): (Length("1 in"),),
    },
    ("cut across", "in"): {(F(14), "in"): ("14 x 14 in", "14 × 12 in", "14 in x 12 in", "14in by 12in", "14", "14″ × 12″")},
    ("cut across", "cm"): {(F(14), "in"): ("14 x 12 in", "14 in × 12"), (F(14), "cm"): ("14 x 12 cm", "14 × 12", "14 cm x 5 in")},
    ("cut down", "in"): {(F(12), "in"): ("14 x 12 in", "14 × 12 in", "14 by 12", "14 in × 12 in", "12")},
    ("cut down", "threads"): {268: ("318 x 268", "318 × 268 threads", "318 by 268", "two hundred and sixty-eight")},
}  # fmt: skip
CASES = [
    (name, unit, written, (F(meant), "threads") if isinstance(meant, int) else meant)
    for (name, unit), readings in WAYS.items()
    for meant, ways in readings.items()
    for written in ways
]


def test_there_are_enough_ways():
    assert len(CASES) >= 160


@for_each(("name", "unit", "written", "meant"), CASES)
def test_what_people_write_is_read_as_they_mean_it(name, unit, written, meant):
    answer = read_answer(name, written, unit)
    assert (answer.value, answer.unit) == meant


@for_each(
    ("written", "name"),
    [
        *((text, "total") for text in ("9 and 10", "9–10", "9-10", "9 or 10", "9 to 10", "between 9 and 10", "9, 10")),
        *((text, "total") for text in ("a bundle", "10.5", "-3", "12 furlongs", "1/0 in", "-", "9" * 90, "1,500", "?")),
        *((text, "total") for text in ("3/8", "7 + + 2", "7 threads + 2 in", "(7 + 2", "7 2", "4 ÷ 0", "none", "x", "12 12", "…")),
        *((value, "total") for value in (True, [1], object(), b"8", float("nan"), float("inf"), 8.5, 1j, {})),
        *((text, "first drawn") for text in ("1/2 in", "2 cm", "-3")),
        *((text, "cut across") for text in ("14 x", "x 14")),
        ("1/2 in short of", "margin"),
    ],
)  # fmt: skip
def test_what_can_not_be_read_gets_one_sentence_that_names_what_can(written, name):
    with pytest.raises(HemError, match="for example") as caught:
        read_answer(name, written)
    if "fraction" not in str(caught.value) and "enough for any" not in str(caught.value):
        assert re.search("thread|comma", str(caught.value))


@for_each("nothing", [None, "", "  ", "\n"])
def test_nothing_is_no_answer(nothing):
    assert read_answer("total", nothing) is None


def test_a_sum_keeps_its_terms_and_what_she_says_it_makes():
    answer = read_answer("total", "7 + 2 + 11 + 11 + 6 = 36")
    assert answer.value == 36
    assert answer.terms == (7, 2, 11, 11, 6)
    assert read_answer("total", "37").terms == ()


@given(st.one_of(any_text(max_size=90), st.text("0123456789 /+-×÷x().,in cmt½", max_size=20)))
def test_whatever_is_written_is_read_or_refused(text):
    with suppress(HemError):
        read_answer("total", text)
