"""The sums of the notebooks: right, able to differ, and with slips that are wrong answers."""

from dataclasses import replace

import pytest

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
    assert "it is not the same: " + ", ".join(map(str, odd)) + " is 1000000 by hand" in other.text()


def test_the_sums_by_hand_hold_for_many_cases():
    assert sum(len(tuple(each.cases)) for each in RANGES.values()) > 2500


@pytest.mark.parametrize("name", CHECKS)
def test_each_slip_of_a_check_is_a_wrong_answer_and_is_named(name):
    check = check_of(name)
    assert check.slips
    for clause, value in check.slips.items():
        verdict = judge(value, check.right, check.slips, of=check.of)
        assert verdict.right is False
        assert clause in verdict.text()
    assert judge(check.right, check.right, check.slips, of=check.of).right


def test_things_are_listed_a_line_each_as_they_say_themselves():
    sums = exercise(7, level=3)
    assert listed(sums.key).splitlines()[0] == f"need: {sums.key['need'].line}"
    assert listed([Length("1/2 in"), "and so on", 7], most=2) == "12.7 mm\nand so on"
    assert listed([Length("1/2 in")], "in") == "1/2 in"
    with pytest.raises(HemError, match=r"must be a list of things; for example"):
        listed("Warp threads")
