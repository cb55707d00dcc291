"""The sums of the notebooks: right, able to differ, and with slips that are wrong answers."""

from dataclasses import replace
from math import ceil

import pytest
from cases import for_each

from hemcalc import HemError, Length
from hemcalc.course import agreement, check_of, listed
from hemcalc.course.by_hand import RANGES
from hemcalc.course.checks import CHECKS
from hemcalc.sums import exercise, judge


@pytest.mark.parametrize("name", RANGES)
def test_by_hand_and_by_hemcalc_agree_over_the_whole_range_and_one_difference_is_told(name):
    held, cases = agreement(name), tuple(RANGES[name].cases)
    assert (held.unlike, held.tried) == ((), len(cases))
    assert f"all {held.tried:,} times" in held.text()
    odd = cases[-1]
    other = replace(
        RANGES[name],
        cases=cases[-3:],
        by_hand=lambda *case: 10**6 if case == odd else RANGES[name].by_hand(*case),
    ).held()
    assert len(other.unlike) == 1
    if isinstance(RANGES[name].ours(*odd), float):  # a thousandth is a difference, too
        near = replace(RANGES[name], cases=[odd], by_hand=lambda *case: RANGES[name].by_hand(*case) + 0.001)
        assert len(near.held().unlike) == 1
    assert "it is not the same: " + ", ".join(map(str, odd)) + " is 1000000 by hand" in other.text()


#: Ranges whose ends are said in words, or in tenths.
ENDS = {"eighths of an inch": [(1, 16)], "rows on a bolt": [(1, 24)], "the thread of a stitch": [(2, 9)]}


@pytest.mark.parametrize("name", RANGES)
def test_a_range_goes_from_end_to_end_as_it_is_said(name):
    for axis in zip(*RANGES[name].cases, strict=True):
        if len(set(axis)) > 3 and all(isinstance(each, int) for each in axis):
            ends = min(axis), max(axis)
            assert f"{ends[0]} to {ends[1]}" in RANGES[name].over or ends in ENDS[name]


def test_the_sums_by_hand_hold_for_many_cases():
    assert sum(len(tuple(each.cases)) for each in RANGES.values()) > 2500


@for_each("name", CHECKS)
def test_each_slip_of_a_check_is_a_wrong_answer_and_is_named(name):
    check = check_of(name)
    assert check.slips
    for clause, value in check.slips.items():
        verdict = judge(value, check.right, check.slips, of=check.of)
        assert verdict.right is False
        assert clause in verdict.text()
    assert judge(check.right, check.right, check.slips, of=check.of).right


#: Each sum on paper: what is right, then what each slip gives, in the order in which the slips stand.
ON_PAPER = {
    "an inch and a half": (25.4 * 1.5, 25 * 1.5, 25.4 / 2, 25.4),
    "threads over ten inches": (56 * 5, 56 * 10, 55 * 5, 57 * 5, (55 + 56 + 57) * 5),
    # Clear 4, drawn 2, twice the hem of 9, a turn of 5.
    "where the coaster is cut": (
        4 + 2 + 18 + 5,
        4 + 2 + 18,
        4 + 2 + 9 + 5,
        4 + 18 + 5,
        4 + 2 + 18 + 4,
        4 * 9,
    ),
    # A turn of 6 under a hem of 12: the crossing of the fold 2 lines is 6 from both raw edges.
    "the leg that is cut off": (2 * 6, 6, 2 * (6 + 12), 2 * 6 + 12),
    "threads that a tail must cross": (1 + 18 + 5, 18 + 5, 2 + 18 + 5, 1 + 18, 1 + 9 + 5, 1 + 9),
    # 22 = 2 of 5 and 2 of 6, or 2 of 5 and 3 of 4.
    "the uneven groups": (6, 22 % 5, 5 + 2, 4, 5),
    # 3 m by lengths of 50 cm, 13 cm of them for start and end, 5 cm of that for the start (cm).
    "thread to cut": (
        *(50 * ceil(300 / 37), 50 * ceil(300 / 50), 50 * ceil(313 / 50), 50 * (300 // 37)),
        50 * ceil(300 / 45),
    ),
    # 140 cm hold 5 cloths 11 in wide; 16 cloths lie in 4 rows of 10 in, the last with a single one.
    "units of linen": (
        *(ceil(4 * 25.4 / 10), ceil(16 * 27.94 * 25.4 / 140 / 10), 4 * 25.4 // 10, ceil(3 * 25.4 / 10)),
        ceil(16 * 25.4 / 10),
    ),
    "what she left out": (29 - 27, 5, 27),
    # A hem of 6 eighths, a turn of one.
    "the line for drawing": (2 * 6 + 1, 6 + 1, 2 * 6, 2 * 6 + 2, 3 * 6 + 1),
    "a wider clear band": (6 + 2 + 18 + 5, 4 + 2 + 18 + 5, 4 + 6 + 2 + 18 + 5, 6 + 2 + 18, 6 + 2 + 9 + 5),
    # The top of the bread cloth, 7 + 2 + 20 + 5 = 34, cut after thread 32.
    "the turn that is left": (5 - 2, 5, 5 + 2, 5 - 1, 2),
}


@pytest.mark.parametrize("name", CHECKS)
def test_a_check_and_its_slips_are_what_comes_out_on_paper(name):
    check = check_of(name)
    given = (check.right, *check.slips.values())
    figures = [float(getattr(value, check.unit) if check.unit else value) for value in given]
    assert figures == pytest.approx(ON_PAPER[name])


def test_things_are_listed_a_line_each_as_they_say_themselves():
    sums = exercise(7, level=3)
    assert listed(sums.key).splitlines()[0] == f"need: {sums.key['need'].line}"
    assert listed([Length("1/2 in"), "and so on", 7], most=2) == "12.7 mm\nand so on"
    assert listed([Length("1/2 in")], "in") == "1/2 in"
    with pytest.raises(HemError, match=r"must be a list of things; for example"):
        listed("Warp threads")
