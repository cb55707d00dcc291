"""The sums with which each notebook lets a learner check herself: the right answer, and likely slips.

They stand here and not in the page, where the key would be read before the answer is written. What is
right is computed by what the notebook teaches, each time; what a slip gives is written by hand.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from statistics import mean

from hemcalc.bolt import cut_from_bolt
from hemcalc.corner import plan_corner
from hemcalc.edge import plan_edge
from hemcalc.finish import rescue
from hemcalc.measure import Count, Length
from hemcalc.measure.errors import one_of
from hemcalc.piece import example
from hemcalc.stitch import needlefuls, rest_of_side
from hemcalc.weave import open_line


@dataclass(frozen=True, slots=True)
class Check:
    """A sum that a notebook asks for. Made by `check_of`."""

    right: int | Fraction | Length
    #: What each slip gives, by a clause that follows "if".
    slips: Mapping[str, int | Length]
    #: What is counted, or the unit that a bare number is in.
    of: str = "threads"
    unit: str = ""

    def __repr__(self) -> str:
        return f"Check(in {self.unit or self.of}, {len(self.slips)} slips known)"


def _inch_and_a_half() -> Check:
    slips = {
        "an inch is taken as 25 mm": Length("37.5 mm"),
        "only the half inch is counted": Length("12.7 mm"),
        "only the whole inch is counted": Length("25.4 mm"),
    }
    return Check(Length("1 1/2 in"), slips, unit="mm")


def _threads_over_ten_inches() -> Check:
    readings = (55, 56, 57)
    slips = {
        "the 2 in are forgotten": 560,
        "only the first reading is taken": 275,
        "only the last reading is taken": 285,
        "the three readings are added and not shared out": 840,
    }
    return Check(Count.measured(readings, over="2 in").threads_in("10 in"), slips)


def _coaster_cut() -> Check:
    slips = {
        "the turn is forgotten": 24,
        "the hem is counted once": 20,
        "the drawn threads are left out": 27,
        "the half thread of the turn is rounded down": 28,
        "four times the hem is taken": 36,
    }
    return Check(plan_edge("25/in", 9, clear=4).cut, slips)


def _cut_off_leg() -> Check:
    twelve = plan_edge("28/in", 12, clear=6)
    leg_mm = mean(plan_corner(twelve, twelve).legs_mm)
    slips = {
        "only the turn is taken, and not twice": 6,
        "it is measured from the crossing of the fold 1 lines": 36,
        "the hem is added": 24,
    }
    return Check(round(leg_mm / float(twelve.count.pitch.mm)), slips)


def _tail_to_cross() -> Check:
    reach = open_line(example("coaster")).tails[0].reach
    slips = {
        "the other side's second drawn thread is left out": 23,
        "both drawn threads are counted": 25,
        "the turn is forgotten": 19,
        "the hem is counted once": 15,
        "only what shows on the face is counted": 10,
    }
    return Check(reach.covers, slips)  # type: ignore[union-attr]  # a tail that is darned


def _uneven_group() -> Check:
    slips = {
        "the two that are left over make a group of their own": 2,
        "one group takes both that are left over": 7,
        "smaller groups are taken, though that needs three of them": 4,
        "no group is changed": 5,
    }
    return Check(rest_of_side(22, 5).off_group, slips)


def _thread_to_cut() -> Check:
    working, ends = Length("50 cm"), Length("13 cm")
    slips = {
        "starts and ends are forgotten": Length("3 m"),
        "start and end are taken once, and not of each length": Length("3.5 m"),
        "the last, short length is not cut": Length("4 m"),
        "only the start is taken off each length": Length("3.5 m"),
    }
    return Check(needlefuls(3000.0, working, ends) * working, slips, unit="cm")


def _units_of_linen() -> Check:
    sixteen = cut_from_bolt([("bread cloth", "11 in", "10 in", 16)], "140 cm", unit="10 cm")
    slips = {
        "the area is shared out, as if cloth could be cut like dough": 9,
        "the length is rounded down to the shop's unit": 10,
        "the last row, which isn't full, is left out": 8,
        "each cloth gets a row of its own": 41,
    }
    return Check(sixteen.to_buy.cm / 10, slips, of="units of 10 cm")


def _what_she_left_out() -> Check:
    left_out = plan_edge("25/in", 9, clear=4).cut - 27
    slips = {"the whole turn is taken for the slip": 5, "her number is taken for the answer": 27}
    return Check(left_out, slips)


def _draw_line_in_eighths() -> Check:
    slips = {
        "the hem is counted once": 7,
        "the fold is forgotten": 12,
        "the fold is counted twice": 14,
        "the hem is counted three times": 19,
    }
    edge = plan_edge("24/in", "3/4 in", turn="1/8 in", clear=5)
    return Check(8 * edge.draw_line.inches, slips, of="eighths")


def _wider_clear_band() -> Check:
    slips = {
        "the old clear band is taken": 29,
        "the wider band is added to the old one": 35,
        "the turn is forgotten": 26,
        "the hem is counted once": 22,
    }
    return Check(example("coaster").with_changes(clear=6).edges.left.cut, slips)


def _turn_that_is_left() -> Check:
    slips = {
        "nothing is taken off the turn": 5,
        "what was lost is added to the turn": 7,
        "one thread is taken off, where two are lost": 4,
        "the two lost threads are taken for the turn": 2,
    }
    plan = rescue(example("bread cloth"), "cut too far", side="top", at=32).plan
    return Check(plan.edges.top.turn, slips)  # type: ignore[union-attr]  # this accident has one


#: The sum of each notebook, by what is asked for.
CHECKS: Mapping[str, Callable[[], Check]] = {
    "an inch and a half": _inch_and_a_half,
    "threads over ten inches": _threads_over_ten_inches,
    "where the coaster is cut": _coaster_cut,
    "the leg that is cut off": _cut_off_leg,
    "threads that a tail must cross": _tail_to_cross,
    "the uneven groups": _uneven_group,
    "thread to cut": _thread_to_cut,
    "units of linen": _units_of_linen,
    "what she left out": _what_she_left_out,
    "the line for drawing": _draw_line_in_eighths,
    "a wider clear band": _wider_clear_band,
    "the turn that is left": _turn_that_is_left,
}


def check_of(name: str) -> Check:
    """The sum that a notebook asks for by this name.

    Examples
    --------
    >>> check_of("the uneven groups")
    Check(in threads, 4 slips known)
    """
    return CHECKS[one_of(name, tuple(CHECKS), "name")]()
