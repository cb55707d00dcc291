# ruff: noqa: E501 - a table of short cuts, one a line
"""Practice teaches: no short cut is right too often, help fades, and the next sum meets the slip."""

from functools import cache

import pytest
from cases import for_each

from hemcalc import HemError
from hemcalc.sums.exercises import LEVELS, exercise, from_example
from hemcalc.sums.practice import faded, find_her_slip, next_sum, provoking
from hemcalc.sums.slips import SLIPS
from hemcalc.sums.sums import sums_of

SUMS = 1000  # a level, a quarter of them for each short cut
kept = cache(exercise)


def edge_of(sums):
    return getattr(sums.piece.edges, sums.side)


# Short cuts: what each would answer for the numbers that it is for.
SHORT_CUTS = {
    "four times the hem is always the margin": (("margin",), lambda e, s: 4 * e.hem, 0.4),
    "the ledger is always the margin": (("margin",), lambda e, s: e.rule.need, 0.4),
    "two threads are always drawn": (("total", "cut", "need", "fold 1"), lambda e, s: right(s) - e.drawn + 2, 0.35),
    "the turn is always half the hem": (("total", "draw line", "need"), lambda e, s: right(s) - e.turn + (e.hem + 1) // 2, 0.3),
    "nothing is drawn": (("total", "cut", "need", "fold 1"), lambda e, s: right(s) - e.drawn, 1),
    "the hem's half is rounded down": (("turn",), lambda e, s: e.hem // 2, 0.3),
    "handling needs nothing": (("need",), lambda e, s: e.cut, 0.5),
    "one count serves both ways": (("hem",), lambda e, s: s.piece.edges.left.hem, 0.15),
    "the slack is never short": (("slack",), lambda e, s: abs(right(s)), 0.3),
}  # fmt: skip


def right(sums):
    (value,) = {int(working.value) for name, working in sums.key.items() if name == sums.asking}
    return value


class Asking:
    """A sum, with one of its numbers in view."""

    def __init__(self, sums, name):
        self.key, self.piece, self.asking = sums.key, sums.piece, name


@pytest.mark.parametrize("cut", SHORT_CUTS)
def test_no_short_cut_is_right_too_often(cut):
    names, answer, least = SHORT_CUTS[cut]
    for level in LEVELS:
        tried = [
            int(answer(edge_of(sums), Asking(sums, asked.name))) != int(sums.key[asked.name].value)
            for sums in (kept(seed, level) for seed in range(SUMS // 4))
            for asked in sums.asked
            if asked.name in names and asked.unit == "threads"
        ]
        if len(tried) >= 20 and not (
            level < 3 and cut in ("two threads are always drawn", "one count serves both ways")
        ):
            assert sum(tried) / len(tried) >= least, (cut, level, sum(tried) / len(tried))


@pytest.mark.parametrize("level", LEVELS)
def test_help_fades_until_nothing_of_it_is_left(level):
    for seed in range(20):
        sums = kept(seed, level)
        for name, working in sums.key.items():
            lines = [faded(sums, step)[name] for step in range(4)]
            assert lines[0] == working.line
            assert [line.count("…") for line in lines[:3]] == [0, 1, 2]
            assert lines[1].startswith(lines[2].split("…")[0])
            assert lines[3] == ""


@pytest.mark.parametrize(
    ("slip", "level"),
    [
        *(("turn forgotten", 3), ("rule alone", 3), ("handling forgotten", 3), ("drawn left out", 2)),
        *(("need taken for the margin", 3), ("turn rounded down", 1), ("size rounded down", 4)),
        *(
            ("wash left out", 3),
            ("hem rounded the wrong way", 2),
            ("one side only", 4),
            ("first drawn as the last clear", 2),
        ),
    ],
)
def test_the_next_sum_meets_the_slip_just_made_and_tells_it_from_its_look_alikes(slip, level):
    sums = provoking(slip, 5, level)
    given = {name: SLIPS[slip].working(sums_of(sums.piece, sums.side), name, working.unit.rstrip("s").replace("thread", "threads"))
             for name, working in sums.key.items()}  # fmt: skip
    cause = sums.check(
        {name: working.text().removeprefix("≈ ") for name, working in given.items() if working}
    ).cause
    assert cause.slips[0][0].name == slip
    assert str(provoking(slip, 5, level)) == str(sums)
    assert int(sums.title.removeprefix("Sum ").partition(",")[0]) >= 5


def test_the_next_sum_is_harder_once_all_is_right():
    done = exercise(3, 2)
    right = done.check({name: working.text() for name, working in done.key.items()})
    assert next_sum(done, right, 9) == exercise(9, 3)
    done = exercise(7, 3)
    wrong = done.check({"need": "11 + 4 + 18 + 18 + 9", "slack": 4, "margin": 72})
    following = next_sum(done, wrong, 8)
    assert following.piece.handling


def test_an_invented_learners_sheet_has_her_slip_and_only_that():
    marked = 0
    for seed in range(30):
        sums = kept(seed, 3)
        if "need" not in sums.key:
            continue
        hers = find_her_slip(sums, "drawn left out")
        cause = sums.check(
            {name: int(working.value) for name, working in hers.items()} | {"need": hers["need"].words}
        ).cause
        left = [slip.name for slips in cause.slips for slip in slips]
        assert "drawn left out" in left
        marked += left == ["drawn left out"] and cause.sure
    assert marked > 3


@for_each(
    ("call", "about"),
    [
        (lambda: faded("sum", 1), "sums"),
        (lambda: faded(exercise(1), 4), "step"),
        (lambda: provoking("hem lost", 1), "slip"),
        (lambda: next_sum(exercise(1), None, 1), "report"),
        (lambda: find_her_slip(exercise(1), "one side only"), "slip"),
    ],
)
def test_what_is_not_possible_gets_one_sentence(call, about):
    with pytest.raises(HemError, match="for example") as caught:
        call()
    assert caught.value.about == about


def test_the_path_of_fading_ends_where_nothing_stands_on_the_sheet():
    assert set(faded(exercise(7, 3), 3).values()) == {""}
    with pytest.raises(HemError, match="from 0 to 3"):
        faded(exercise(7, 3), 4)


def test_after_all_the_numbers_of_a_piece_comes_a_sum_of_the_last_level():
    done = from_example("coaster")
    assert next_sum(done, done.check({"hem": 999}), 3) == exercise(3, 4)
