"""Every accident on pieces that are unlike: its numbers reckoned anew, and its plan made and measured."""

from __future__ import annotations

import itertools
import re
from fractions import Fraction
from math import ceil
from xml.etree import ElementTree

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.finish import ACCIDENTS, rescue
from hemcalc.finish.mishaps.cuts import LEAST_TURN
from hemcalc.finish.mishaps.told import HOLD, OVERLAP
from hemcalc.measure import Fabric, HemError
from hemcalc.piece import EXAMPLES, Piece, Sides
from hemcalc.piece.sides import SIDES
from hemcalc.stitch import piece_spacings, thread_needed

RAW = Fabric("12/cm", "9/cm", shrink_warp="10 %", shrink_weft="4 %")
#: Counts and sides that differ, unwashed and metric, tiny, fine and large, one thread drawn and five,
#: square corners, a turn of nothing.
PIECES = {
    **EXAMPLES,
    "unlike sides": Piece(RAW, (301, 199), hem="8 mm", clear=Sides(3, 9, 0, 5), handling="1 cm"),
    "tiny": Piece(Fabric("18/in", washed=True), (12, 9), hem=2, same="threads", clear=0, drawn=1),
    "fine": Piece(Fabric("60/in", washed=True), (900, 700), hem="1/2 in", clear=20, drawn=5),
    "square": Piece(Fabric("14/in", "11/in"), (90, 80), hem=8, same="threads", clear=4, corner="uncut"),
    "flat": Piece(Fabric("28/in", washed=True), (100, 80), hem="3/8 in", clear=5, turn=0),
}
EVERY = list(itertools.product(PIECES, ACCIDENTS))


def along(piece, side):
    """Threads that cross a side's own, and their pitch in hand, mm: the design, the bands and margins."""
    ends = ("top", "bottom") if side in ("left", "right") else ("left", "right")
    count = piece.fabric.down if side in ("left", "right") else piece.fabric.across
    return (
        piece.design[ends[0] == "top"],
        [piece.edges.of(end) for end in ends],
        count.over.mm / count.threads,
    )


def least_inches(mm):
    """A length that is at least so much, in eighths of an inch as the ruler has them."""
    eighths = -(-mm * 8 // Fraction(127, 5))
    whole, part = divmod(Fraction(eighths, 8), 1)
    return " ".join(str(n) for n in (whole, part) if n)


@for_each(("name", "accident"), EVERY)
def test_each_accident_says_all_that_it_should_on_every_side(name, accident):
    piece, unit = PIECES[name], "cm" if PIECES[name].fabric is RAW or PIECES[name].drawn == 5 else "in"
    for side in SIDES:
        told = rescue(piece, accident, side=side, unit=unit, hand="left")
        text = told.text()
        for part in ("How to see it: ", "What it costs: ", "Step 1: ", "The plan: ", "Stop and ask: "):
            assert re.search(rf"^{part}.+\.$", text, re.MULTILINE), part
        assert "no published source" in text
        assert told.cost.startswith("no thread lost" if not told.threads else f"{told.threads} thread")
        assert [step.number for step in told.steps] == list(range(1, len(told.steps) + 1))
        assert not re.search(r"plies|\b1 threads|\b1 groups|[a-z]=|None|  ", text), text
        if unit == "cm":
            assert not re.search(r"\d in\b(?! \(5 cm\))", text), text
        for tool, words in (
            ("blade", r"\bsnip|\b[Cc]ut off|[Tt]rim "),
            ("needle", "needle|[Bb]aste"),
            ("iron", "[Pp]ress "),
        ):
            for step in told.steps:
                if (
                    re.search(words, step.task)
                    and "Never" not in step.task
                    and step.title != "Lift the two cut ends back"
                ):
                    assert tool in step.mind or step.title in LATER, (step.title, tool)
        ElementTree.fromstring(told._repr_html_())


#: Steps that speak of a tool for later or of somebody else's use of it.
LATER = {
    "Try to get it out",
    "Weave the new thread in",
    "Stop, and count again",
    "Stop the fraying",
    "Leave it dry",
}


@for_each("name", PIECES)
@for_each("side", SIDES)
def test_a_cut_thread_is_mended_over_forty_crossings_along_its_own_way(name, side):
    piece = PIECES[name]
    design, ends, pitch = along(piece, side)
    told = rescue(piece, "wrong thread cut", side=side)
    beside = min(OVERLAP, (design + sum(edge.rule.margin for edge in ends)) // 4)
    assert told.replacement.mm == 4 * beside * pitch + 2 * HOLD.mm
    assert (
        told.cost
        == f"no thread lost; a new thread of the cloth at least {least_inches(told.replacement.mm)} in long."
    )
    assert told.plan is None


@for_each("name", PIECES)
@for_each("side", SIDES)
def test_a_thread_drawn_is_the_first_of_the_new_plan_or_is_woven_in_from_edge_to_edge(name, side):
    piece = PIECES[name]
    design, ends, pitch = along(piece, side)
    edge = piece.edges.of(side)
    for at in (*range(edge.clear, 0, -3), *range(edge.open_line + 1, edge.cut + 1, 4)):
        told = rescue(piece, "wrong thread drawn", side=side, at=at)
        whole = design + sum(end.rule.margin for end in ends)
        assert told.replacement.mm == whole * pitch + 2 * HOLD.mm
        assert told.threads == 1
        beyond = max(at - 1 + edge.drawn + 2 * edge.hem + edge.turn + edge.handling, 4 * edge.hem)
        if told.plan is None:
            assert beyond > edge.rule.margin or _no_groups(piece, side, at)
            continue
        new = told.plan.edges.of(side)
        assert (new.first_drawn, new.hem, new.turn) == (at, edge.hem, edge.turn)
        assert new.rule.need <= edge.rule.margin
        assert all(told.plan.edges.of(s) == piece.edges.of(s) for s in SIDES if s != side)
        assert f"{new.cut}" in told.change


def _no_groups(piece, side, at):
    clear = Sides(*(at - 1 if name == side else piece.clear.of(name) for name in SIDES))
    try:
        piece_spacings(piece.with_changes(clear=clear))
    except HemError:
        return True
    return False


# 8 + 1 + 1 threads are two groups of 5; 9 are no groups of 5 to 7, but of 4 and 5.
def test_by_hand_a_line_that_leaves_no_groups_is_not_begun():
    narrow = Piece(Fabric("18/in"), (8, 12), hem=2, same="threads", clear=1, handling=9)
    plans = [rescue(narrow, "wrong thread drawn", at=1, group=group).plan for group in (6, 4)]
    assert [plan is None for plan in plans] == [True, False]


# Clear to thread 7, drawn 8 and 9, face to 20, back to 31, turn to 37.
def test_by_hand_each_thread_is_told_by_its_band():
    for at, band in (
        (1, "clear"),
        (7, "clear"),
        (10, "face"),
        (20, "face"),
        (21, "back"),
        (32, "turn"),
        (37, "turn"),
    ):
        assert (
            f"it is thread {at}, in the {band} band"
            in rescue(PIECES["bread cloth"], "wrong thread cut", at=at).sign
        )


def test_by_hand_the_bread_cloths_left_side_moves_in_by_a_thread_and_takes_the_groups_with_it():
    told = rescue(PIECES["bread cloth"], "wrong thread drawn", at=7)
    # 6 clear, 2 drawn, 11 + 11 and 6; the top has 230 + 6 + 7 = 243 threads: 60 groups of 4 and one of 3.
    assert told.plan.edges.left.cut == 6 + 2 + 11 + 11 + 6
    assert "now have 243 threads" in told.text()
    assert "in place of 244" in told.text()
    assert "The top and bottom now" in told.text()


# Thread 8 alone was to be drawn, clear 7; thread 9 is, and the piece grows by the thread between.
def test_by_hand_a_thread_drawn_too_far_out_makes_the_piece_a_thread_larger():
    one = PIECES["bread cloth"].with_changes(drawn=1)
    told = rescue(one, "wrong thread drawn", side="left", at=9)
    assert told.plan.clear.left == 8
    assert "finishes 1 thread larger that way" in told.text()
    assert "finishes 1 thread smaller that way" in rescue(one, "wrong thread drawn", side="left", at=7).text()


def test_by_hand_the_open_line_may_begin_as_far_out_as_the_cloth_holds_the_hem():
    # 44 threads were cut: 14 + 2 + 11 + 11 + 6 = 44, and one more is too many.
    bread = PIECES["bread cloth"]
    assert rescue(bread, "wrong thread drawn", at=15).plan.edges.left.cut == 44
    assert rescue(bread, "wrong thread drawn", at=16).plan is None


@pytest.mark.parametrize("name", PIECES)
def test_what_is_left_beyond_the_design_holds_the_new_plan_on_every_side(name):
    piece = PIECES[name]
    for side in SIDES:
        old = piece.edges.of(side)
        for at in range(old.cut - 1, 0, -max(1, old.cut // 16)):
            told = rescue(piece, "cut too far", side=side, at=at)
            assert told.threads == old.cut - at
            plan = told.plan
            for accident in ("stain at the cut", "fraying at the cut"):
                assert rescue(piece, accident, side=side, at=at).plan == plan
            if piece.same == "threads" and (plan is None or plan.edges.of(side).hem < old.hem):
                # Two hems, as wide as they can be, and in them what can be folded both ways.
                least = [(min(LEAST_TURN.mm, e.turn_width.mm), e.count.pitch.mm) for e in piece.edges_in_hand]
                fold = max(ceil(turn / pitch) for turn, pitch in least)
                widest = min((at - old.open_line - fold) // 2, old.hem - 1)
                assert plan is None if widest < max(fold, 1) else plan.edges.of(side).hem == widest
            if plan is None:
                assert "No double hem that can be folded fits" in told.change
                assert told.stop.startswith("Now: stop")
                # Nothing that is a thread narrower is offered either, further in.
                assert at == 1 or rescue(piece, "cut too far", side=side, at=at - 1).plan is None
                continue
            assert plan.edges.of(side).cut <= at
            for name_of_side in SIDES:
                new, was = plan.edges.of(name_of_side), piece.edges.of(name_of_side)
                assert new.cut <= was.cut
                assert (new.clear, new.drawn) == (was.clear, was.drawn)
                wide = plan.edges_in_hand.of(name_of_side).turn_width.mm
                assert wide >= min(LEAST_TURN.mm, piece.edges_in_hand.of(name_of_side).turn_width.mm)
            assert str(plan.edges.of(side).cut) in told.text()


def test_a_thread_too_far_costs_the_turn_first_and_then_the_hem():
    bread = PIECES["bread cloth"]
    turns = [rescue(bread, "cut too far", at=at).plan for at in (36, 34)]
    # 37 - 36: turn 5 in place of 6; at 34 three threads of 29/in are 2.6 mm still. Hem as it was.
    assert [(plan.edges.left.turn, plan.edges.left.hem) for plan in turns] == [(5, 11), (3, 11)]
    # A turn of two would be 1.75 mm; a hem of 10 leaves 33 - 7 - 2 - 20 = 4 for the turn.
    hem = rescue(bread, "cut too far", at=33).plan.edges.left
    assert (hem.hem, hem.turn, hem.cut) == (10, 4, 33)
    # A turn of half of 9, upward, is 5; 31 - 9 - 18 leaves 4.
    hem = rescue(bread, "cut too far", at=31).plan.edges.left
    assert (hem.hem, hem.turn, hem.cut) == (9, 4, 31)


# On 10 threads to the cm: 4 clear, 2 drawn, 8 and 8, a turn of 4. Two of them are 2 mm, which can be folded;
# with one thread the hem is 7, and 23 - 6 - 14 leave 3 for the turn.
def test_by_hand_a_turn_of_just_two_millimetres_is_folded():
    metric = Piece(Fabric("10/cm", washed=True), (60, 60), hem=8, same="threads", clear=4)
    for at, hem, turn in ((24, 8, 2), (23, 7, 3)):
        plan = rescue(metric, "cut too far", at=at).plan.edges.left
        assert (plan.hem, plan.turn, plan.cut) == (hem, turn, at)


# 2 threads make no group of 3 to 5; with the last group of 4 they are two of 3.
def test_by_hand_a_group_is_taken_out_where_what_is_left_makes_none():
    told = rescue(PIECES["bread cloth"], "groups don't come out", at=2).text()
    assert "2 groups of 3" in told
    assert "That is 6 threads in all" in told
    assert "out of 1 group with a blunt needle" in told
    # Of 5 threads 3 are in a group already, and 2 make none: the one group is taken out, and all are one.
    narrow = Piece(Fabric("18/in"), (5, 12), hem=2, same="threads", clear=0)
    told = rescue(narrow, "groups don't come out", side="top", at=2).text()
    assert "out of 1 group with a blunt needle" in told
    assert "That is 5 threads in all" in told


def test_a_stain_beyond_the_cut_line_costs_nothing():
    for at in (37, 40):  # the cut line runs after thread 37
        told = rescue(PIECES["bread cloth"], "stain at the cut", at=at)
        assert (told.threads, told.plan) == (0, None)
        assert "what is spoilt comes away with the offcut" in told.text()


# Of the bread cloth's left side: clear 7, drawn 2, fold 1 after 20, fold 2 after 31, cut 37, margin 44.
# 188 + 7 + 7 = 202 threads of it lie between the open lines, 48 groups of 4 and 2 of 5; its tails cross
# 1 + 10 + 10 + 5 = 26 of the top. The first thread, the last, and the one that is meant if none is said.
CAN_HAPPEN = {
    "wrong thread cut": (1, 37, 10),
    "wrong thread drawn": (1, 37, 7),
    "tail broke": (0, 25, 13),
    "tail too short": (0, 26, 26),
    "fold misplaced": (1, 37, 21),
    "hem off": (10, 30, 21),
    "cut too far": (1, 36, 36),
    "stain at the cut": (1, 44, 35),
    "fraying at the cut": (1, 44, 35),
    "group miscounted": (1, 50, 2),
    "groups don't come out": (1, 202, 2),
}


def test_the_first_and_the_last_thread_that_can_have_an_accident_are_taken_and_no_others():
    about_none = {"corner gapes", "corner too bulky"}
    assert set(CAN_HAPPEN) | about_none == set(ACCIDENTS)
    for accident, (first, last, usual) in CAN_HAPPEN.items():
        said = rescue(PIECES["bread cloth"], accident).text()
        assert said == rescue(PIECES["bread cloth"], accident, at=usual).text(), accident
        for at in (first, last):
            assert rescue(PIECES["bread cloth"], accident, at=at).steps, (accident, at)
        for at in (first - 1, last + 1):
            with pytest.raises(HemError, match=f"from {first} to {last}"):
                rescue(PIECES["bread cloth"], accident, at=at)


def test_a_corner_that_gapes_is_a_mitre_or_the_open_end_of_a_hem():
    for name, piece in PIECES.items():
        sign = rescue(piece, "corner gapes").sign
        assert ("edges of the mitre don't meet" in sign) == (piece.corner in ("mitred", "untrimmed")), name
        assert ("open end of the hem looks out" in sign) == (piece.corner in ("square", "uncut")), name


@pytest.mark.parametrize("name", ["bread cloth", "unlike sides", "flat"])
def test_stitches_worked_again_take_whole_needlefuls_and_not_one_too_many(name):
    piece = PIECES[name]
    whole = piece_spacings(piece, 4).left.count
    needs = thread_needed(piece, 4)
    sews = needs.working.mm - needs.ends.mm
    for back in (1, whole):
        cut = rescue(piece, "group miscounted", at=back).replacement.mm / needs.working.mm
        assert cut.denominator == 1
        assert (cut - 1) * sews < back * needs.per_stitch.high_mm <= cut * sews


@for_each("name", [name for name in PIECES if PIECES[name].drawn > 1])
@for_each("accident", ["tail broke", "tail too short"])
def test_a_tail_is_pieced_by_what_it_lacks_and_a_stretch_beside_it(name, accident):
    piece = PIECES[name]
    for side in SIDES:
        _, ends, pitch = along(piece, side)
        covers = {2 * end.hem + end.turn + end.drawn - 1 for end in ends}
        for at in range(0, min(covers), 3):
            told = rescue(piece, accident, side=side, at=at)
            assert told.replacement.mm in {
                (most - at + min(at, OVERLAP)) * pitch + 2 * HOLD.mm for most in covers
            }


def test_by_hand_a_new_thread_goes_on_alone_for_what_the_tail_has_not_crossed():
    # 1 + 10 + 10 + 5 = 26 of the bread cloth's top, 8 of them crossed.
    told = rescue(PIECES["bread cloth"], "tail broke", at=8).text()
    assert "beside the last 8 crossings of the tail" in told
    assert "go on alone for the 18 crossings up to the cut line" in told


# Of the bread cloth's top a tail crosses 1 drawn thread and 10 of the face, which show, then 15 behind.
def test_by_hand_a_gap_shows_up_to_the_first_fold():
    for at, seen in (
        (10, "16 at its end stay open, where it shows"),
        (11, "15 at its end stay open, where the hem"),
    ):
        assert seen in rescue(PIECES["bread cloth"], "tail too short", at=at).sign


@pytest.mark.parametrize("accident", ["tail broke", "tail too short"])
def test_with_one_thread_drawn_no_tail_is_darned(accident):
    told = rescue(PIECES["tiny"], accident)
    assert told.replacement is None
    assert "no tail is darned back" in told.sign


@given(st.sampled_from(sorted(PIECES)), st.sampled_from(SIDES), st.integers(1, 60), st.integers(3, 6))
def test_groups_come_out_whatever_was_left(name, side, left, group):
    piece = PIECES[name]
    try:
        whole = piece_spacings(piece, group).of(side)
        told = rescue(piece, "groups don't come out", side=side, at=left, group=group)
    except HemError:
        return
    worked = re.findall(r"(\d+) (?:groups? )?of (\d+)", told.steps[-1].task)
    threads = sum(int(many) * int(size) for many, size in worked)
    assert (threads - left) % group == 0 or threads == whole.threads
    assert threads >= left
    assert all(abs(int(size) - group) <= 1 for _, size in worked)
    assert told.sewing


@for_each("name", PIECES)
def test_a_fold_one_thread_out_moves_the_hems_edge_by_two(name):
    for side in SIDES:
        edge = PIECES[name].edges.of(side)
        for off in (-1, 1):
            told = rescue(PIECES[name], "hem off", side=side, at=edge.fold_1 + off)
            assert f"{edge.hem + off} thread" in told.sign
            assert f"{edge.hem - off} behind" in told.sign
            assert ("short of" if off > 0 else "over") in told.sign
            assert "2 threads" in told.sign


def test_a_crease_is_told_from_the_nearer_fold_line_by_its_number():
    # Of the bread cloth's left side fold line 1 runs after thread 20, fold line 2 after 31.
    for at, said in (
        (21, "after thread 21, and fold line 1 after thread 20: 1 thread"),
        (30, "after thread 30, and fold line 2 after thread 31: 1 thread"),
        (25, "after thread 25, and fold line 1 after thread 20: 5 threads"),
        (37, "after thread 37, and fold line 2 after thread 31: 6 threads"),
    ):
        told = rescue(PIECES["bread cloth"], "fold misplaced", at=at)
        assert said in told.sign
        assert ("too far out" if at in (21, 25, 37) else "too far in") in told.sign
        assert f"Find fold line {1 if at < 26 else 2} again" in told.text()


def test_unwashed_linen_is_not_damped():
    for accident in ("fold misplaced", "hem off", "stain at the cut"):
        washed = rescue(PIECES["bread cloth"], accident).text()
        raw = rescue(PIECES["tray cloth"], accident).text()
        assert re.search("[Dd]amp the crease|damp cloth", washed)
        assert re.search("don't (damp it|wet one place)", raw)
        assert not re.search("Damp the crease|press a clean damp", raw)


def test_a_bulky_corner_that_kept_its_cloth_gets_another_plan():
    told = rescue(PIECES["square"], "corner too bulky")
    assert told.plan.corner == "square"
    assert rescue(PIECES["coaster"], "corner too bulky").plan is None
    assert "It should lie in 4 layers" in rescue(PIECES["bookmark"], "corner too bulky").sign
    for name, piece in PIECES.items():
        text = rescue(piece, "corner too bulky").text()
        assert ("cut its point off straight across" in text) == (name != "square"), name
        assert ("under layer's oblong away" in text) == (name == "square"), name
    # Two turns that are pressed first lie in the corner's fold: more layers. Where nothing is turned in, or
    # the corner is square, the order makes none.
    for name, piece in PIECES.items():
        most = re.search(
            r"before the corner it lies in (?:\d to )?(\d) layers", rescue(piece, "corner too bulky").sign
        )
        assert (most and int(most[1]) > 4) == (None if name in ("square", "flat") else True), name


@for_each(
    ("asked", "said"),
    [
        (
            {"accident": "coffee"},
            r"accident is 'coffee', but must be one of 'wrong thread cut', .*; for example",
        ),
        (
            {"accident": "cut too far", "at": 37},
            "at is 37, but must be a whole number of threads, from 1 to 36",
        ),
        ({"accident": "wrong thread cut", "at": 9}, "at is 9, but threads 8 and 9 were to be drawn"),
        ({"accident": "fold misplaced", "at": 20}, "at is 20, but a fold line of the left side runs after"),
        ({"accident": "hem off", "at": 20}, "at is 20, but fold line 1 of the left side runs after"),
        ({"accident": "corner gapes", "at": 3}, "at is said, but 'corner gapes' is about no one thread"),
        ({"accident": "cut too far", "side": "front"}, "side is 'front'"),
        ({"accident": "cut too far", "unit": "ell"}, "unit is 'ell'"),
        ({"accident": "group miscounted", "group": 9}, "group is 9"),
        ({"accident": "group miscounted", "hand": "both"}, "hand is 'both'"),
    ],
)
def test_what_can_not_have_happened_is_refused_in_a_sentence(asked, said):
    with pytest.raises(HemError, match=said) as no:
        rescue(PIECES["bread cloth"], **asked)
    assert "for example" in str(no.value)
