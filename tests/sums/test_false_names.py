"""A false cause teaches a wrong lesson, and is worse than none: sheets with slips in them, simulated."""

import importlib.util
import random
import sys
from collections import Counter
from pathlib import Path

from cases import for_each

from hemcalc import HemError, check
from hemcalc.sums.slip import number_by
from hemcalc.sums.slips import PEN, SLIPS
from hemcalc.sums.sums import sums_of

spec = importlib.util.spec_from_file_location("slips", Path(__file__).parents[1] / "bench" / "slips.py")
bench = importlib.util.module_from_spec(spec)
sys.modules["slips"] = bench  # where its dataclass looks for its names
spec.loader.exec_module(bench)

SHEETS = 160


def test_there_are_fifty_kinds_and_unlisted_ones_among_them():
    assert len(bench.KINDS) >= 50
    assert sum(not bench.known(name) for name in bench.KINDS) >= 20
    pens = {pen.slip.name for pen in PEN}
    named = {part for name in bench.KINDS if bench.known(name) for part in name.split(" + ")}
    assert len(named & {*SLIPS, *pens}) >= 40


def test_hardly_a_sheet_gets_a_false_cause_and_most_get_a_true_one():
    outcomes = Counter(
        (bench.known(name), bench.outcome(name, piece, side, given))
        for name, piece, side, given in bench.sheets(SHEETS, seed=20)
    )
    every = Counter()
    for (_, outcome), sheets in outcomes.items():
        every[outcome] += sheets
    assert every["falsely named"] <= SHEETS * 0.005
    assert every["named alone"] + every["among several"] >= SHEETS * 0.15
    assert every["named alone"] + every["among several"] + every["asked about"] >= SHEETS * 0.6


@for_each("name", [name for name in bench.KINDS if name in SLIPS])
def test_the_librarys_slip_is_the_models(name):
    """Two workings that know nothing of each other give the same wrong numbers."""
    dice, alike = random.Random(name), 0
    while alike < 2:
        if done := bench.sheet(dice, name):
            piece, side, given = done
            changed = SLIPS[name].change(sums_of(piece, side))
            for number, text in given.items():
                if text.lstrip("-").isdigit():
                    assert number_by(changed, number).value == int(text), (number, given)
            alike += 1


def test_a_right_sheet_is_right():
    dice = random.Random(4)
    for _ in range(40):
        told = bench.facts(dice)
        try:
            piece = told.piece()
        except HemError:
            continue
        work = bench.Work(told, dice)
        rulers = dict.fromkeys(("cut across", "cut down"), told.unit)
        given = {name: bench.written(work.answer(name), rulers.get(name)) for name in bench.NUMBERS}
        report = check(piece, given, side=told.side)
        assert report.all_right, report
        assert report.cause.roots == ()
