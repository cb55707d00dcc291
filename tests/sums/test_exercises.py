"""Practice: reproducible, on paper, one right answer each, none like another in a class."""

import re
from dataclasses import replace
from functools import cache
from itertools import chain, combinations

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import EXAMPLES, Fabric, HemError, Piece, Sides
from hemcalc.measure.units import MILLIMETRES
from hemcalc.piece.sides import SIDES
from hemcalc.sums import exercise, exercises_for_class, from_example
from hemcalc.sums.exercises import LEVELS
from hemcalc.sums.facts import NAMES, SIZES
from hemcalc.sums.sums import sums_of
from hemcalc.sums.telling import facts_told
from hemcalc.sums.working import number

SEEDS = range(120)


# A few hundred exercises that several tests look at are made once.
kept = cache(exercise)


def fields(sums):
    return sums.title, str(sums), sums.piece, sums.asked


@pytest.mark.parametrize("level", LEVELS)
def test_a_seed_gives_the_same_exercise_each_time(level):
    for seed in SEEDS[:40]:
        assert fields(exercise(seed, level)) == fields(kept(seed, level))


def test_the_exercises_of_some_seeds_are_as_they_were():
    # A regression test: a worksheet that was printed last year still has its key.
    assert exercise(7, 3).facts.startswith(
        "The linen has 20 threads to the inch across, 36 threads to the inch down. The hem finishes"
    )
    assert {name: working.text() for name, working in exercise(7, 3).key.items()} == {
        "need": "68 threads",
        "slack": "4 threads",
        "margin": "72 threads",
    }


@pytest.mark.parametrize("level", LEVELS)
def test_the_key_is_right_and_nothing_near_it_is(level):
    for seed in SEEDS[:15]:
        sums = kept(seed, level)
        assert sums.check({name: working.text() for name, working in sums.key.items()}).all_right
        for asked in sums.asked:
            working = sums.key[asked.name]
            if asked.unit == "threads":
                near = [int(working.value) + off for off in (-1, 1)]
                assert not any(sums.check({asked.name: wrong}).all_right for wrong in near)
            elif asked.name.startswith("finished"):
                exact = working.value * (1 if asked.unit == "in" else 25.4)
                assert sums.check({asked.name: f"{float(exact):.2f} {asked.unit}"}).all_right
            else:
                step = {"in": "1/8", "cm": "0.5"}[asked.unit]
                assert f"{step} {asked.unit}" in asked.text(), "the mark to round to is told"
                exact = working.value if working.exact is None else working.exact
                assert working.value - exact < {"in": 1 / 8, "cm": 1 / 2}[asked.unit]


@pytest.mark.parametrize("level", LEVELS)
def test_the_numbers_can_be_done_on_paper(level):
    for seed in SEEDS:
        sums = kept(seed, level)
        hem = getattr(sums.piece.edges, sums.side).hem
        assert 4 <= hem <= 21
        for asked in sums.asked:
            working = sums.key[asked.name]
            assert -60 <= working.value <= 700
            if asked.name == "hem":
                exact = working.value if working.exact is None else working.exact
                assert exact.denominator <= 2
            if asked.unit != "threads" and asked.name.startswith("cut ") and sums.piece.fabric.washed:
                # It lies at a mark, or less than the two threads of a stitch short of it.
                count = sums.piece.fabric.across if asked.name == "cut across" else sums.piece.fabric.down
                short = working.value - (working.value if working.exact is None else working.exact)
                assert short * MILLIMETRES[asked.unit] < 2 * count.pitch.mm
            # Of raw linen a length after the wash takes one step more.
            assert len(re.findall("[×÷]", working.words)) <= 1 + (asked.state == "after the wash")
        assert all(number % 2 == 0 for number in sums.piece.design) or level < 4
        # The margin that is asked for is the one that goes into the size.
        assert level < 4 or (sums.side == "left") == ("cut across" in sums.key)
        # A size is asked for by the ruler, and it is that of no small thing.
        cuts = [asked for asked in sums.asked if asked.name.startswith("cut ")]
        assert any(asked.unit != "threads" for asked in cuts) == (level == 4)
        assert level < 4 or not re.search("coaster|bookmark", sums.scene)


@pytest.mark.parametrize("level", LEVELS)
def test_all_that_the_sum_needs_is_told(level):
    for seed in SEEDS:
        sums = kept(seed, level)
        for asked in sums.asked:
            for figure in re.findall(r"\d+(?: \d+/\d+|/\d+|\.\d+)?", sums.key[asked.name].words):
                # Told, asked for before, worked from what is told, or a plain 1, 2 or 4.
                plain = figure in {"1", "2", "4"} or figure in washed_away(sums)
                assert figure in str(sums) or plain or worked_before(sums, figure), (str(sums), figure)


RAW = {"shrink_warp": "8 %", "shrink_weft": "9 %"}
#: What makes another piece of one that is unlike on all sides, by the sentence that tells it.
OTHERWISE = {
    "The linen has ": [{"fabric": Fabric("36/in", "26/in", **RAW)}],
    "not washed yet": [{"fabric": Fabric("28/in", "20/in", washed=True)}],
    "The hem finishes ": [{"hem": "3/4 in"}],
    " are drawn out.": [{"drawn": 4}, {"clear": Sides(1, 2, 3, 4)}],
    "The turn is ": [{"turn": 2}],
    "Handling needs ": [{"handling": 40}],
    "The design takes ": [{"design": (140, 100)}],
}


def test_a_fact_is_told_if_a_number_that_is_asked_for_hangs_on_it_and_no_other_is():
    """Whichever numbers are asked for, up to three of them; of a wide clear band the need is the margin."""
    hangs, rule = {told: set() for told in OTHERWISE}, "The rule takes "
    hangs[rule], sides_differ = set(), set()
    for wide in (0, 40):
        clear = Sides(8 + wide, 9 + wide, 10 + wide, 12 + wide)
        piece = Piece(Fabric("28/in", "20/in", **RAW), (120, 90), hem="1/2 in", clear=clear, handling=3)
        right = sums_of(piece, "top")
        once_more = replace(right, otherwise={"rule": lambda sums, side: number(1000)})
        others = [
            (told, sums_of(piece.with_changes(**how), "top"))
            for told, all_ in OTHERWISE.items()
            for how in all_
        ]
        for told, other in (*others, (rule, once_more)):
            hangs[told] |= {name for name in NAMES if other.working(name).value != right.working(name).value}
        sides_differ |= {
            name
            for name in NAMES
            if name not in SIZES and len({sums_of(piece, side).working(name).value for side in SIDES}) > 1
        }
    assert all(hangs.values())
    hangs["What differs "] = sides_differ
    for asked in chain(*(combinations(NAMES, many) for many in (1, 2, 3))):
        facts = facts_told(piece, asked, "top")
        for told, names in hangs.items():
            assert (told in facts) == bool(names & set(asked)), (asked, told)


def test_by_hand_all_that_is_told_of_a_piece():
    fabric = Fabric("28/in", "9.5/cm", washed=True)
    by_width = Piece(fabric, (120, 90), hem="1/2 in", clear=6, drawn=3, turn=4, handling="1/4 in")
    assert facts_told(by_width, tuple(NAMES), "top") == (
        "The linen has 28 threads to the inch across, 9.5 threads to the cm down. The hem finishes 1/2 in "
        "wide, to the nearest whole thread. 6 threads stay clear round the design, and 3 are drawn out. The "
        "turn is 4 threads. Handling needs 1/4 in, rounded up to threads, of the cloth in hand beyond the "
        "cut. The rule takes the hem in whole threads. The design takes 120 threads across and 90 down. What "
        "differs from side to side is asked for the top."
    )
    raw = Fabric("28/in", **RAW)
    by_threads = Piece(raw, (120, 90), hem=11, same="threads", clear=Sides(4, 2, 3, 5), handling=5)
    assert facts_told(by_threads, tuple(NAMES), "left") == (
        "The hem finishes 11 threads wide. 4 threads stay clear at the left of the design, 2 at the right, 3 "
        "at the top and 5 at the bottom, and 2 are drawn out. The turn is half the hem, a half thread "
        "rounded up. Handling needs 5 threads of the cloth in hand beyond the cut. The design takes 120 "
        "threads across and 90 down. What differs from side to side is asked for the left."
    )


def washed_away(sums):
    """What the wash takes, which is told as so many of a hundred."""
    fabric = sums.piece.fabric
    shares = () if fabric.washed else (fabric.shrink_across, fabric.shrink_down)
    return {str(share) for share in shares if f"{100 * share} %" in str(sums)}


@for_each("level", LEVELS)
def test_of_raw_linen_each_length_says_its_state_and_of_washed_linen_none_does(level):
    raw = 0
    for seed in SEEDS:
        sums = kept(seed, level)
        for asked in sums.asked:
            wanted = ""
            if asked.unit != "threads" and not sums.piece.fabric.washed:
                wanted = "after the wash" if asked.name.startswith("finished") else "before the wash"
            assert asked.state == wanted
            assert asked.where.endswith(wanted)
        raw += not sums.piece.fabric.washed
        if (
            not sums.piece.fabric.washed
        ):  # a sum on paper: what it loses is whole hundredths, what is left tens
            assert re.search(r"the wash takes \d+ % off its width and \d+ % off its length", sums.text())
            for count in (sums.piece.fabric.across_washed, sums.piece.fabric.down_washed):
                assert count.per_inch in (20, 30, 40)
        assert ("not washed yet" in sums.text()) == (not sums.piece.fabric.washed)
    assert raw == 0 if level < 3 else len(SEEDS) / 6 < raw < len(SEEDS) / 2


def test_a_length_is_right_in_its_own_state_of_the_cloth_and_wrong_in_the_other():
    """Washed and unwashed: the finished size is that after the wash, the size to cut that before it."""
    seen = set()
    for seed in SEEDS:
        sums = kept(seed, 4)
        if "finished across" not in sums.key:
            continue
        fabric, unit = sums.piece.fabric, "cm" if "cm" in str(sums.piece.fabric.across) else "in"
        size = sums.piece.finished_size
        after, before = size.after[0], size.before[0]
        seen.add(fabric.washed)
        said = {
            state: f"{float(length.number(unit)):.3f} {unit}"
            for state, length in (("a", after), ("b", before))
        }
        assert sums.check({"finished across": said["a"]}).all_right
        assert sums.check({"finished across": said["b"]}).all_right == fabric.washed
    assert seen == {True, False}


def worked_before(sums, figure):
    edges = [sums.piece.edges.left, sums.piece.edges.top]
    steps = [
        step
        for edge in edges
        for step in (edge.hem, edge.turn, edge.fold_1, edge.rule.rule, edge.rule.need, edge.rule.margin)
    ]
    return int(figure) in steps


@pytest.mark.parametrize("level", LEVELS)
def test_a_class_of_twenty_has_no_two_alike(level):
    for seed in range(4):
        chosen = exercises_for_class(seed, level=level)
        assert len(chosen) == 20
        assert len({(sums.facts, sums.asked) for sums in chosen}) == 20
        assert [fields(sums) for sums in chosen] == [
            fields(sums) for sums in exercises_for_class(seed, level=level)
        ]
    assert len(exercises_for_class(1, 40, level)) == 40


@for_each("name", EXAMPLES)
def test_an_example_asks_for_the_whole_piece(name):
    sums = from_example(name)
    assert sums.check({name: int(working.value) for name, working in sums.key.items()}).all_right
    assert "invented" in sums.text()


@for_each(
    ("call", "about"),
    [
        (lambda: exercise("7"), "seed"),
        (lambda: exercise(True), "seed"),
        (lambda: exercise(7, 5), "level"),
        (lambda: exercise(7, 1.0), "level"),
        (lambda: exercises_for_class(7, 41), "learners"),
        (lambda: exercises_for_class(7, 0), "learners"),
        (lambda: from_example("tablecloth"), "example"),
    ],
)
def test_what_is_not_possible_gets_one_sentence(call, about):
    with pytest.raises(HemError, match="for example") as caught:
        call()
    assert caught.value.about == about


@given(st.integers(-(10**9), 10**9), st.sampled_from(list(LEVELS)))
def test_any_seed_gives_an_exercise(seed, level):
    assert exercise(seed, level).key


@for_each("name", EXAMPLES)
@for_each("side", SIDES)
def test_a_number_that_is_another_at_another_side_is_asked_for_its_side(name, side):
    sheet = from_example(name, side)
    for asked in sheet.asked:
        values = {sums_of(sheet.piece, each).working(asked.name).value for each in SIDES}
        several = len(values) > 1 and asked.name not in SIZES
        assert asked.side == (side if several else "")
