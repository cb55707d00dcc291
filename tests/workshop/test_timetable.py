"""The day of a class: as little prepared as will do, nothing promised that does not fit, rests kept."""

from dataclasses import replace
from datetime import datetime, timedelta
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.finish import Pace
from hemcalc.measure import HemError
from hemcalc.workshop import example_workshop, timetable
from hemcalc.workshop.timetable import OPENING, REST, STAGES

CLASS = example_workshop("cm")


def at(clock):
    return datetime.strptime(clock, "%H:%M")


def work_in(minutes):
    """Minutes of work, minute by minute: none while the class opens, none in the last of each hour after."""
    return sum((minute - OPENING) % 60 < 60 - REST for minute in range(OPENING, minutes))


@settings(max_examples=15, deadline=None)
@given(st.integers(2, 24), st.sampled_from([None, Pace(8, 20), Pace(40, 100)]))
def test_as_little_is_prepared_as_lets_slow_hands_finish(halves, pace):
    day = timetable(CLASS, halves / 2, pace)
    for kind in day.days:
        assert kind.working == pytest.approx(work_in(30 * halves))
        most = [spell.most for spell in kind.hours.spells]
        if kind.finished:
            assert sum(most[kind.steps_prepared :]) <= kind.working + 1e-9
            assert kind.left == 0
            fewer = [d for d in STAGES if list(STAGES).index(d) < list(STAGES).index(kind.prepared)]
            if fewer:  # what is prepared less would not fit
                less = timetable_with(kind, fewer[-1])
                assert sum(most[less:]) > kind.working
        else:
            assert kind.prepared == list(STAGES)[-1]
            worked = sum(most[kind.steps_prepared : kind.steps_done])
            assert worked <= kind.working < worked + most[kind.steps_done]
            assert kind.left == pytest.approx(sum(most[kind.steps_prepared :]) - kind.working)
            assert "can't be finished in the day" in kind.text()


def timetable_with(kind, stage):
    """Steps before a stage's end, from their titles."""
    titles = [spell.step.title for spell in kind.hours.spells]
    ends = {"cut": "Draw the first thread of each side", "cut and drawn": "Baste the lines"}
    return titles.index(ends[stage]) if stage in ends else 0


def test_more_hours_never_need_more_preparing():
    stages = list(STAGES)
    before = [len(stages)] * 6
    for hours in (1, 3, 5, 6.5, 8, 10, 12):
        now = [stages.index(kind.prepared) for kind in timetable(CLASS, hours).days]
        assert all(a <= b for a, b in zip(now, before, strict=True))
        before = now
    assert before[-1] == 0  # a coaster, in a long day, with nothing prepared


@pytest.mark.parametrize("hours", [3, 5, 6.5])
def test_the_clock_runs_on_without_gaps_but_for_rests_and_stops_with_the_day(hours):
    table = timetable(CLASS, hours, begins="9:30").table()
    end = at("9:30") + timedelta(hours=hours)
    for _, steps in table.groupby("piece"):
        shown = [(at(row["from"]), at(row["to"])) for _, row in steps.iterrows() if row["from"]]
        assert shown[0][0] == at("9:30") + timedelta(minutes=20)
        for (_, over), (begin, _) in pairwise(shown):
            assert timedelta(0) <= begin - over <= timedelta(minutes=REST + 5)
        assert shown[-1][1] <= end
        order = ["leader, beforehand", "class", "class, then home", "home"]
        places = [order.index(who) for who in steps["who"]]
        assert places == sorted(places)


def test_the_leaders_work_is_for_every_piece_and_spares_are_nobodys():
    day = timetable(CLASS, 5)
    bread = day.days[0]
    assert bread.learners == ("Ada", "Bea", "Cora")
    one = sum(spell.most for spell in bread.hours.spells[: bread.steps_prepared])
    assert bread.preparing[1] == pytest.approx(3 * one)
    assert "for 3 pieces" in bread.text()
    assert not any("Spare" in kind.text() for kind in day.days)


def test_a_learner_of_two_pieces_is_told_that_each_is_reckoned_alone():
    twice = replace(CLASS, kits=(*CLASS.kits, replace(CLASS.kits[-1], learner="Ada")))
    assert timetable(twice, 6).notes == ("Ada has 2 pieces: each is timed as if it were her only one.",)


def test_it_shows_itself():
    day = timetable(CLASS, 6, begins="10:00")
    assert repr(day).startswith("Timetable(6:00 hours: ")
    assert repr(day.days[0]).startswith("Day(bread cloth: ")
    rows = ElementTree.fromstring(day._repr_html_()).findall("tbody/tr")
    assert len(rows) == len(day.table()) == sum(len(kind.hours.spells) for kind in day.days)
    assert "Reckoned with slow hands" in day.text()


@for_each(
    ("asked", "said"),
    [
        ((CLASS, 0.25), "length is 0.25, but must be a number from 1 to 12; for example 5"),
        ((CLASS, "a day"), "length is 'a day'"),
        ((CLASS, 40), "length is 40"),
        ((3, 5), "workshop is 3, but must be a Workshop"),
        ((CLASS, 5, 3), "pace is 3, but must be a Pace"),
    ],
)
def test_a_day_that_can_not_be_is_refused(asked, said):
    with pytest.raises(HemError, match=said):
        timetable(*asked)


@for_each("clock", ["ten", "24:00", "9.30", 9, None])
def test_a_clock_that_is_none_is_refused(clock):
    with pytest.raises(HemError, match=r"begins is .*; for example '10:00'"):
        timetable(CLASS, 5, begins=clock)


def test_what_fills_an_hour_ends_before_the_rest_and_the_next_begins_after_it():
    # 9:30, 20 minutes to open, 50 of work; then half a minute.
    found = timetable(CLASS, 5, begins="9:30")
    day, *_ = found.days
    first, second, *_ = day.hours.spells
    spells = replace(first, most=50), replace(second, most=0.5)
    day = replace(day, hours=replace(day.hours, spells=spells), steps_prepared=0)
    table = replace(found, days=(day,)).table()
    assert table[["from", "to"]].values.tolist() == [["9:50", "10:40"], ["10:50", "10:50"]]
