"""The checker: right answers are right in any form, and each slip is found, named or asked about."""

import re
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from cases import for_each
from hostile import any_text
from hypothesis import assume, given
from hypothesis import strategies as st

from hemcalc import Fabric, HemError, Length, Piece, Sides, check, example
from hemcalc.edge.ledger import plan_edge
from hemcalc.measure.exact import mixed_text
from hemcalc.measure.units import MILLIMETRES
from hemcalc.piece.sides import SIDES
from hemcalc.sums.diagnosis import AnswerSheet, by_accident
from hemcalc.sums.facts import NAMES
from hemcalc.sums.reading import Answer, read_answer
from hemcalc.sums.slip import number_by
from hemcalc.sums.slips import PEN, SLIPS, possible_slips
from hemcalc.sums.sums import sums_of
from hemcalc.sums.verdict import NEAR, RIGHT, ROUNDED, WRONG, judge, nearness
from hemcalc.sums.working import larger, number, size

BREAD, SAMPLER, COASTER, BOOKMARK = map(example, ("bread cloth", "sampler", "coaster", "bookmark"))
ORDER = (RIGHT, ROUNDED, NEAR, WRONG)
UNITS = ("in", "cm", "mm")
LENGTHS = [name for name in NAMES if name != "first drawn"]


@st.composite
def pieces(draw):
    share = st.sampled_from(["0", "3 %", "8 %", "5 %"])
    counts = st.sampled_from(["25/in", "28/in", "36/in", "10/cm", "12.5/cm", "27.5/in"])
    fabric = Fabric(
        draw(counts),
        draw(counts),
        shrink_warp=draw(share),
        shrink_weft=draw(share),
        washed=draw(st.booleans()),
    )
    by_width = draw(st.booleans())
    hem = draw(st.sampled_from(["3/8 in", "1/2 in", "1 cm", "8.5 mm"]) if by_width else st.integers(4, 24))
    turn = draw(st.sampled_from([None, 2, "3 mm", "1/8 in"]))
    design = (draw(st.integers(20, 400)), draw(st.integers(20, 400)))
    asked = {
        "hem": hem,
        "clear": Sides(*(draw(st.integers(0, 14)) for _ in range(4))),
        "drawn": draw(st.integers(1, 5)),
        "turn": turn,
        "handling": draw(st.sampled_from([0, 3, "1/4 in", "5 mm"])),
        "same": "width" if by_width else "threads",
    }
    try:
        return Piece(fabric, design, **asked)
    except HemError as error:  # a turn in mm may be wider than a hem in threads
        assume(error.about != "turn")
        raise


def edge_number(piece, side, name):
    """The number in threads, from the library that plans edges and pieces."""
    edge = getattr(piece.edges, side)
    way = 0 if name.endswith("across") else 1
    return {
        "first drawn": lambda: edge.first_drawn,
        "hem": lambda: edge.hem,
        "turn": lambda: edge.turn,
        "fold 1": lambda: edge.fold_1,
        "fold 2": lambda: edge.fold_2,
        "cut": lambda: edge.cut,
        "total": lambda: edge.total,
        "draw line": lambda: 2 * edge.hem + edge.turn,
        "rule": lambda: edge.rule.rule,
        "need": lambda: edge.rule.need,
        "slack": lambda: edge.rule.slack,
        "margin": lambda: edge.rule.margin,
        "finished across": lambda: piece.finished_size.threads[way],
        "finished down": lambda: piece.finished_size.threads[way],
        "cut across": lambda: piece.cut_size.threads[way],
        "cut down": lambda: piece.cut_size.threads[way],
    }[name]()


def edge_length(piece, side, name):
    """The exact length in mm, from the library that plans edges and pieces."""
    edge, in_hand = getattr(piece.edges, side), getattr(piece.edges_in_hand, side)
    way = 0 if name.endswith("across") else 1
    if name.startswith("finished"):
        return piece.finished_size.after[way].mm
    if name.startswith("cut "):
        return piece.cut_size.in_hand[way].mm
    if name in ("hem", "turn"):
        return {"hem": edge.hem_width, "turn": edge.turn_width}[name].mm
    return edge_number(piece, side, name) * in_hand.count.pitch.mm


def test_each_name_is_documented_by_check():
    assert all(f'"{name}"' in check.__doc__ for name in NAMES)


@given(pieces(), st.sampled_from(SIDES))
def test_the_definitions_give_what_the_plan_of_the_piece_gives(piece, side):
    sums = sums_of(piece, side)
    for name in NAMES:
        assert sums.working(name).value == edge_number(piece, side, name), name
    for name in LENGTHS:
        for unit in UNITS:
            working = sums.working(name, unit)
            exact = working.value if working.exact is None else working.exact
            assert exact * MILLIMETRES[unit] == edge_length(piece, side, name), (name, unit)
    for way, name in enumerate(("cut across", "cut down")):
        for unit in UNITS:
            to_cut = piece.cut_size.to_cut(unit)[way]
            assert sums.working(name, unit).value * MILLIMETRES[unit] == to_cut.mm


def parsed(words):
    """The value of a line's arithmetic: a reader of its own, which knows nothing of Working."""
    plain = re.sub(r"(threads?|mm|cm|in)(/(mm|cm|in))?\b", "", words)
    plain = re.sub(r"the larger of (\S+) and (\S+?)(?=[)\s]|$)", r"max(\1, \2)", plain)
    plain = re.sub(r"(?<![\d/.])(\d+) (\d+)/(\d+)", r"(F(\1) + F(\2, \3))", plain)
    plain = re.sub(r"(?<![\d/.(])(\d+)/(\d+)", r"F(\1, \2)", plain)
    plain = re.sub(r"(?<![\w.])(\d+\.\d+)", r'F("\1")', plain)
    plain = re.sub(r"(?<![\w.\"(])(\d+)(?![\w./\"])", r"F(\1)", plain)
    plain = plain.replace("−", "-").replace("×", "*").replace("÷", "/").strip()
    return Fraction(eval(plain, {"F": Fraction, "max": max}))


def printed(text):
    """A printed number with its unit, and half the step to which it is rounded."""
    sign = -1 if "−" in text else 1
    about = "≈" in text
    figure, unit = re.fullmatch(
        r"(?:≈ )?−?(?:thread )?([\d ./]*?) ?(threads?|in|cm|mm)?", text.strip()
    ).groups()
    value = sum(Fraction(part) for part in figure.split())
    half = {"in": Fraction(1, 32), "cm": Fraction(1, 200), "mm": Fraction(1, 20)}.get(unit, Fraction(1, 200))
    return sign * value, half if about else 0


@given(pieces(), st.sampled_from(SIDES))
def test_the_printed_working_reads_back_as_the_number(piece, side):
    sums = sums_of(piece, side)
    for name in NAMES:
        for unit in ("threads",) if name == "first drawn" else ("threads", *UNITS):
            working = sums.working(name, unit)
            if unit == "threads" and isinstance({"hem": piece.hem, "turn": piece.turn}.get(name), int):
                assert working.words == str(working.value), "given, and not worked"
                continue
            assert re.search("[+−×÷]|larger", working.words), "it says how, not only what"
            line = working.line.replace("≈", "= ≈", 1) if "=" not in working.line else working.line
            words, result = re.split(r" = ", line, maxsplit=1)
            first, *rounded = re.split(r", (?:to the nearest whole thread|rounded up to) ", result)
            exact = working.value if working.exact is None else working.exact
            assert parsed(words) == exact, line
            said, half = printed(first)
            assert abs(said - exact) <= half, line
            if rounded:
                said, half = printed(rounded[0])
                assert abs(said - working.value) <= half, line


def test_the_parser_of_this_test_sees_a_wrong_sum():
    assert parsed("7 + 2 + 11 + 11 + 6") == 37
    assert parsed("(224 + 56 + 56) threads ÷ 28 threads/in × 2.54 cm/in") == Fraction("30.48")
    assert parsed("3/8 in × 28 threads/in ÷ (1 − 3/100)") == Fraction(21, 2) / Fraction(97, 100)
    assert parsed("the larger of 16 and 20") == 20
    assert printed("≈ 10 5/16 in") == (Fraction(165, 16), Fraction(1, 32))
    assert printed("−4 threads") == (-4, 0)


# Right answers.


@given(pieces(), st.sampled_from(SIDES))
def test_a_right_number_of_threads_is_right_in_every_form(piece, side):
    for name in NAMES:
        right = edge_number(piece, side, name)
        for form in (
            right,
            str(right),
            f" {right} threads ",
            f"thread {right}",
            str(right).replace("-", "−"),
        ):
            mark = check(piece, {name: form}, side=side)[name]
            assert mark.verdict == "right", (name, form, mark)


@given(pieces(), st.sampled_from(SIDES), st.sampled_from(UNITS))
def test_a_right_length_is_right_exactly_and_as_it_is_printed(piece, side, unit):
    for name in LENGTHS:
        exact = edge_length(piece, side, name)
        if exact < 0:
            continue
        length = Length(exact)
        assert check(piece, {name: length}, side=side)[name].verdict == "right", name
        if name.startswith("cut "):
            way = 0 if name.endswith("across") else 1
            text = piece.cut_size.to_cut(unit)[way].text(unit)
        else:
            text = length.text(unit)
        mark = check(piece, {name: text.removeprefix("≈ ")}, side=side)[name]
        # As printed, sixteenths of an inch can't tell the threads of fine cloth.
        assert mark.right or (mark.verdict == NEAR and unit == "in"), (name, text)


def test_a_size_to_cut_may_lie_between_the_exact_one_and_the_next_mark_but_not_below():
    coaster = example("coaster")  # cut 148 threads of 25 to the inch: 5.92 in
    verdicts = {
        text: check(coaster, {"cut across": text})["cut across"].verdict
        for text in ("5.92 in", "6 in", "5.95 in", "5.9 in", "5 7/8 in", "6 1/8 in")
    }
    assert verdicts == {
        "5.92 in": "right",
        "6 in": "right",
        "5.95 in": "right after rounding",
        "5.9 in": "wrong",
        "5 7/8 in": "wrong",
        "6 1/8 in": "wrong",
    }


def test_an_answer_of_the_wrong_kind_is_told_what_is_asked_for():
    assert (
        judge("3 in", 37).text()
        == "my answer is '3 in', but must be a whole number of threads; for example 12."
    )
    assert judge(3, Length("1 in")).text().endswith("must be a length with its unit; for example '1/2 in'.")


# 230 threads of 29 to the inch, and 44 at a side.
def test_by_hand_the_slips_of_the_whole_piece():
    made = possible_slips(sums_of(BREAD), "cut across", "threads")
    for slip, threads in (("no margin", 230), ("one side only", 274), ("four margins", 406)):
        assert made[slip].value == threads
    assert number_by(sums_of(BREAD.with_changes(turn=0)), "turn").value == 0


# The ruler: nearer is never worse.


@given(
    pieces(),
    st.sampled_from(SIDES),
    st.sampled_from([name for name in LENGTHS if not name.startswith("cut ")]),
    st.lists(st.tuples(st.sampled_from(UNITS), st.fractions(-1, 1)), min_size=2, max_size=6),
)
def test_an_answer_that_comes_closer_is_never_judged_worse(piece, side, name, tries):
    exact = edge_length(piece, side, name)
    judged = []
    for unit, off in tries:
        wrong = exact + off * 2
        if wrong > 0 <= exact:
            sums, value = sums_of(piece, side), wrong / MILLIMETRES[unit]
            answer = Answer(value, unit, "")
            judged.append((abs(off), ORDER.index(nearness(sums, name, answer, sums.working(name, unit)))))
    judged.sort()
    assert [verdict for _, verdict in judged] == sorted(verdict for _, verdict in judged)


@given(
    pieces(), st.sampled_from(SIDES), st.sampled_from(("in", "cm")), st.fractions(0, 9), st.fractions(0, 9)
)
def test_a_size_to_cut_that_comes_closer_is_never_judged_worse(piece, side, unit, one, other):
    sums = sums_of(piece, side)
    working = sums.working("cut across", unit)
    exact = working.value if working.exact is None else working.exact

    def verdict(value):
        return ORDER.index(nearness(sums, "cut across", Answer(value, unit, ""), working))

    near, far = sorted((one, other))
    assert verdict(working.value + near) <= verdict(working.value + far)
    assert verdict(max(exact - near, Fraction(0))) <= verdict(max(exact - far, Fraction(0)))


def test_the_rule_for_a_ruler_is_the_same_in_every_unit():
    # 1/32 in was refused where 1/16 in was taken; right sizes to the nearest mm were wrong.
    for text in ("9.9 mm", "10 mm", "0.4 in", "1 cm"):
        assert check(SAMPLER, {"hem": text})["hem"].right, text
    # 3/8 in is 13 1/2 threads of 36 to the inch: 13 are as near as 14.
    assert check(SAMPLER, {"hem": "3/8 in"})["hem"].verdict == "right as near as a ruler tells"
    near = check(SAMPLER, {"hem": "10.3 mm"})["hem"]
    assert near.verdict == "right as near as a ruler tells"
    assert "can you say it in threads?" in near.remark
    assert check(SAMPLER, {"hem": "11 mm"})["hem"].verdict == "wrong"


def test_a_right_length_is_said_in_threads_too():
    assert check(BREAD, {"hem": "3/8 in"})["hem"].remark == "Right after rounding: ≈ 3/8 in (11 threads)."


def test_a_bare_number_is_in_the_unit_that_was_asked_for():
    units = {"cut across": "in", "cut down": "cm"}
    report = check(BREAD, {"cut across": "11", "cut down": "25.5"}, units=units)
    assert [mark.right for mark in report] == [True, True]


# Which side.


def test_the_number_of_another_side_is_told_so():
    hem = {"first drawn": 12, "hem": 14, "fold 1": 29, "fold 2": 43, "cut": 50}
    mark = check(SAMPLER, hem | {"first drawn": 14}, side="left")
    assert "it was worked at the right, and not at the side that is asked for" in mark.cause.clause


# Each slip: a piece and a sheet that only it explains.

UNWASHED = Piece(
    Fabric("28/in", "26/in", shrink_warp="8 %", shrink_weft="3 %"),
    (300, 200),
    hem="1/2 in",
    clear=Sides(8, 9, 10, 12),
    drawn=3,
    handling=5,
)
HALVES = Piece(Fabric("12.5/cm", "11/cm", washed=True), (120, 160), hem="1 cm", clear=9, handling=4)
RAW = Piece(Fabric("28/in", shrink_warp="15 %", shrink_weft="12 %"), (200, 160), hem="1 in", clear=6)
SHEETS = (UNWASHED, HALVES, RAW, SAMPLER, BREAD, BOOKMARK)


def sheet_of(slip, piece, side, units):
    """All the numbers as they come out by a slip; None if one of them can't be written down."""
    sums = slip.change(sums_of(piece, side))
    working = {name: number_by(sums, name, units.get(name, "threads")) for name in NAMES if name != "total"}
    if None in working.values():
        return None
    return {
        name: f"{number.value} threads"
        if number.unit in ("threads", "thread")
        else f"{number.value} {number.unit}"
        for name, number in working.items()
    }


def plainly(text):
    """14/5 in as it can be typed."""
    return re.sub(r"^(-?)(\d+)/(\d+)", lambda m: f"{m[1]}{mixed_text(Fraction(int(m[2]), int(m[3])))}", text)


@pytest.mark.parametrize("slip", SLIPS.values(), ids=list(SLIPS))
def test_a_slip_in_a_whole_sheet_is_found_on_one_piece_and_never_hidden_by_a_wrong_name(slip):
    outcomes = []
    for piece, side in zip(SHEETS, ("left", "bottom") * 3, strict=True):
        units = {} if side == "left" else {"cut across": "in", "cut down": "in"}
        answers = sheet_of(slip, piece, side, units)
        if answers is None:
            continue
        cause = check(piece, {name: plainly(text) for name, text in answers.items()}, side=side).cause
        if cause.roots:
            outcomes.append((cause.sure, [tuple(each.name for each in slips) for slips in cause.slips]))
    assert any((slip.name,) in left for _, left in outcomes)
    for sure, left in outcomes:
        assert not sure or (slip.name,) in left


def test_a_slip_shows_itself_in_words_alone():
    assert not any(re.search("function|0x|lambda", repr(slip)) for slip in SLIPS.values())


@pytest.mark.parametrize("pen", PEN, ids=lambda pen: pen.slip.name)
def test_a_slip_of_the_pen_is_asked_about(pen):
    wrong = {"out by one": 38, "out by ten": 47, "digits reversed": 73}[pen.slip.name]
    cause = check(BREAD, {"fold 2": 31, "cut": wrong}).cause
    assert pen.slip in [slip for slips in cause.slips for slip in slips]
    assert not cause.sure


def test_a_wrong_answer_that_no_slip_explains_is_not_guessed_at():
    report = check(BREAD, {"total": 57})
    mark = report["total"]
    assert (mark.verdict, mark.slips, mark.question) == ("wrong", (), None)
    assert "no slip known here explains it" in mark.remark
    assert mark.working == "7 + 2 + 11 + 11 + 6 = 37 threads"
    assert report.cause.text().startswith("No slip known here")


# One number is little evidence; her working is much.


def test_one_number_alone_is_asked_about_and_not_named():
    mark = check(BREAD, {"total": 31, "fold 2": None, "draw line": None})["total"]
    assert not mark.slips
    assert "would come out if the turn was forgotten" in mark.remark
    assert "not certain" in mark.remark


@for_each(
    ("working", "slip"),
    [
        ("7 + 2 + 11 + 11", "turn forgotten"),
        ("7 + 2 + 11 + 6", "hem once"),
        ("7 + 11 + 11 + 6", "drawn left out"),
        ("2 + 11 + 11 + 6", "clear forgotten"),
        ("7 + 2 + 11 + 11 + 11", "turn as wide as the hem"),
    ],
)
def test_the_working_names_the_slip_for_certain(working, slip):
    assert check(BREAD, {"total": working}).cause.named.name == slip


def test_a_sum_that_is_added_up_wrongly_is_told_so():
    mark = check(BREAD, {"total": "7 + 2 + 11 + 11 + 6 = 36"})["total"]
    assert mark.remark == "Not yet: what you added up comes to 37, and not to 36."


# What follows from what.


def test_what_goes_on_rightly_from_a_wrong_number_is_not_wrong_again():
    answers = {"hem": 12, "fold 1": 21, "fold 2": 33, "cut": 39, "rule": 48, "cut across": 230 + 48 + 48}
    report = check(BREAD, answers)
    assert [mark.verdict for mark in report] == ["wrong", *["follows from another"] * 5]
    assert report["fold 1"].remark == "Right from your hem: mend that, and this comes right by itself."
    assert report["rule"].follows == ("hem",)
    assert report.cause.roots == ("hem",)
    assert report.summary == "0 of 6 right, 5 right from a wrong one."
    # The total is the cut line once more, and the rule is not.
    report = check(BREAD, answers | {"total": 39})
    assert (report["total"].follows, report["rule"].follows) == (("cut",), ("hem",))
    assert check(BREAD, {"hem": 12, "total": 39})["total"].follows == ("hem",)


# One clear thread too many: 9 − 1 + 2 + 11 = 21, and 8 + 2 + 11 + 11 + 6 = 38.
def test_lines_go_on_from_her_first_drawn_thread():
    report = check(BREAD, {"first drawn": 9, "fold 1": 21, "cut": 38})
    assert [mark.verdict for mark in report] == ["wrong", *["follows from another"] * 2]
    assert report["cut"].follows == ("fold 1",)
    assert report.cause.roots == ("first drawn",)


# The total and the cut line are one number: 37 threads of 29 to the inch, 1.28 in.
@for_each(
    ("cut", "total", "once"),
    [
        ("36", "36", True),
        ("25.4 mm", "1 in", True),
        ("24 cm", "24 in", False),
        ("36", "36 mm", False),
        ("37", "37 in", False),
    ],
)
def test_a_wrong_total_follows_from_the_cut_line_only_if_it_is_as_long(cut, total, once):
    report = check(BREAD, {"cut": cut, "total": total})
    assert (report["total"].verdict == "follows from another") == once
    assert ("total" in report.cause.roots) != once


# 37 threads: 36 is what a thread forgotten gives, 12 and 80 are what nothing gives.
def test_the_nearer_a_wrong_number_the_likelier_is_a_mere_accident():
    sums = sums_of(BREAD)
    sheets = [AnswerSheet(sums, {"cut": read_answer("cut", cut)}) for cut in (36, 30, 12)]
    chances = [by_accident(sheet) for sheet in sheets]
    assert chances == sorted(chances, reverse=True)
    assert len(set(chances)) == 3
    # As far off is as likely in whatever unit: 30 of 29 threads to the inch.
    for unit in UNITS:
        answer = Answer(Fraction(30, 29) * MILLIMETRES["in"] / MILLIMETRES[unit], unit, "")
        assert by_accident(AnswerSheet(sums, {"cut": answer})) == chances[1]


# 7 + 2 + 11 + 11 + 6 is 37.
def test_terms_are_the_likelier_the_more_they_are_those_of_the_working():
    chances = [
        AnswerSheet(sums_of(BREAD), {"total": read_answer("total", total)}).plain.chance_of_terms("total")
        for total in ("37", "7 + 2 + 11 + 11 + 6", "2 + 7 + 11 + 11 + 6", "30 + 7")
    ]
    assert chances[0] == chances[1] == 1
    assert 1 > chances[2] > chances[3] > 0


# The design doubled: 460 and 376, with 20 and 44 on two sides, or 19 and 40. No slip makes it thread 99.
def test_a_slip_that_leaves_one_of_many_numbers_unexplained_is_not_named():
    doubled = {"finished across": 500, "finished down": 414, "cut across": 548, "cut down": 456}
    assert check(BREAD, doubled).cause.named.name == "threads for stitches"
    assert not check(BREAD, {**doubled, "first drawn": 99}).cause.slips


# The hem counted once and the drawn threads left out, but at fold line 2 the first alone: 7 + 2 + 11.
def test_of_two_slips_one_may_be_made_alone_at_a_number_that_both_would_change():
    both = {"fold 1": 18, "cut": 35, "total": 35, "need": 35, "finished across": 266, "finished down": 222}
    found = [{slip.name for slip in slips} for slips in check(BREAD, {**both, "fold 2": 20}).cause.slips]
    assert {"hem once", "drawn left out"} in found


# The face of the hem left out, and four margins in place of two: no two slips make it thread 999.
def test_two_slips_that_leave_one_of_many_numbers_unexplained_are_not_asked_about():
    lines = {"fold 2": 20, "cut": 26, "total": 26, "need": 26, "cut across": 406, "cut down": 348}
    both = {**lines, "finished across": 310, "finished down": 264}
    assert [len(slips) for slips in check(BREAD, both).cause.slips] == [2, 2]
    assert not check(BREAD, {**both, "first drawn": 999}).cause.slips


@given(
    pieces(), st.sampled_from(SIDES), st.sampled_from(("hem", "fold 1", "fold 2", "cut")), st.integers(1, 9)
)
def test_a_sheet_that_follows_from_one_wrong_number_has_that_root_alone(piece, side, name, off):
    sums = sums_of(piece, side)
    wrong = int(sums.working(name).value) + off
    later = list(NAMES)[list(NAMES).index(name) + 1 : list(NAMES).index("margin") + 1]
    hers = sums.going_on_from({name: wrong})
    answers = {name: wrong} | {
        each: int(hers.working(each).value) for each in later if each not in ("total", "turn")
    }
    report = check(piece, answers, side=side)
    assert report.cause.roots == (name,)


# What tells causes apart.


# The turn of 6 left out: 7 + 2 + 11 + 11 = 31, and 11 + 11 = 22 for the draw line, which with it is 28.
def test_a_slip_that_spared_a_number_is_asked_about_and_one_that_spared_none_is_named():
    spared, spoilt = (check(BREAD, {"fold 2": 31, "cut": 31, "draw line": line}).cause for line in (28, 22))
    assert [slip.name for slips in spared.slips for slip in slips] == ["turn forgotten"]
    assert not spared.sure
    assert spoilt.named.name == "turn forgotten"


# A hem of 14 threads is 9.878 mm; the turn of 7 left out: 11 + 2 + 14 + 14 = 41, and 28.
def test_a_number_as_near_as_a_ruler_tells_hides_no_slip_in_the_others():
    report = check(SAMPLER, {"hem": "10.3 mm", "fold 2": 41, "cut": 41, "draw line": 28})
    assert report["hem"].verdict == NEAR
    assert [slip.name for slips in report.cause.slips for slip in slips] == ["turn forgotten"]


def test_the_question_asks_for_a_number_that_she_has_and_has_not_given():
    answers = {"hem": None, "cut across": 274}
    report = check(BREAD, answers)
    assert report.cause.question.name == "hem"
    assert len(report.cause.slips) > 1
    assert report["cut across"].question.said == "What did you get for hem, width of the finished hem?"
    told = dict(report.cause.question.tells)
    assert len(set(told.values())) > 1
    answered = check(BREAD, {"hem": 5, "cut across": 274})
    assert answered.cause.question is None or answered.cause.question.name != "hem"


@given(pieces(), st.sampled_from(SIDES), st.data())
def test_no_question_asks_for_what_she_has_answered_or_does_not_have(piece, side, data):
    names = data.draw(st.lists(st.sampled_from(list(NAMES)), min_size=2, max_size=5, unique=True))
    wrong, *blank = names
    slips = possible_slips(sums_of(piece, side), wrong)
    if not slips:
        return
    working = data.draw(st.sampled_from(list(slips.values())))
    report = check(piece, {wrong: int(working.value)} | dict.fromkeys(blank), side=side)
    if report.cause.question:
        assert report.cause.question.name in ("", *blank)


def test_two_slips_are_found_where_no_one_explains_the_sheet():
    # The last clear thread for the first drawn, and the slack the wrong way round; neither makes 99.
    answers = {"first drawn": 7, "hem": 11, "turn": 6, "rule": 44, "need": 37, "slack": -7, "margin": 44}
    assert not check(BREAD, answers | {"draw line": 99}).cause.slips
    cause = check(BREAD, answers).cause
    assert ("first drawn as the last clear", "sign of the slack") in [
        tuple(slip.name for slip in slips) for slips in cause.slips
    ]


# Bad input.


def test_an_answer_that_cannot_be_read_gets_one_sentence_that_does_not_give_the_answer_away():
    mark = check(BREAD, {"total": "a bundle"})["total"]
    assert mark.verdict == "not read"
    assert not mark.right
    assert "for example" in mark.remark
    assert "37" not in mark.text()


def test_a_cloth_whose_count_rounds_to_nothing_is_marked_too():
    canvas = Piece(Fabric("0.4/cm", "0.45/cm", washed=True), (60, 60), hem="20 cm", clear=4)
    assert check(canvas, {"hem": 8, "cut across": "50 in"})["hem"].right


@given(st.one_of(any_text(max_size=100), st.integers(), st.floats(), st.none(), st.binary(max_size=4)))
def test_no_answer_whatever_breaks_the_checker(answer):
    for name in ("first drawn", "slack", "cut across"):
        assert check(BREAD, {name: answer})[name].remark


@for_each(
    ("call", "about"),
    [
        (lambda: check("bread cloth", {}), "piece"),
        (lambda: check(BREAD, [37]), "answers"),
        (lambda: check(BREAD, {"totl": 37}), "name"),
        (lambda: check(BREAD, {7: 37}), "name"),
        (lambda: check(BREAD, {"total": 37}, side="west"), "side"),
    ],
)
def test_a_wrong_question_gets_one_sentence(call, about):
    with pytest.raises(HemError) as caught:
        call()
    assert caught.value.about == about


def test_no_answer_yet_is_neither_right_nor_wrong():
    report = check(BREAD, {"total": None, "cut": " "})
    assert [mark.verdict for mark in report] == ["no answer", "no answer"]
    assert not report.all_right
    assert report.summary == "0 of 2 right."


def test_a_report_says_it_all_and_as_a_table_escapes_what_was_typed():
    report = check(BREAD, {"total": "<b>37</b>", "cut": 37})
    assert str(report).endswith("1 of 2 right.")
    assert report.table().loc["cut", "verdict"] == "right"
    assert repr(report) == "Report(1 of 2 right)"
    assert "<b>37" not in report._repr_html_()
    assert "&lt;b&gt;" in report._repr_html_()


# The working itself.


def test_sums_that_were_worked_are_those_that_were_not():
    worked = sums_of(BREAD)
    assert worked.working("total").value == 37
    assert worked == sums_of(BREAD)


def test_nothing_and_less_than_nothing_are_numbers_too():
    assert sums_of(BREAD.with_changes(handling="0 mm")).working("need").value == 37
    assert [read_answer("slack", slack).text for slack in (-1, 0, 1)] == [
        "−1 thread",
        "0 threads",
        "1 thread",
    ]


# The second fold lies further out than the first: 33, and a turn of 6.
def test_lines_go_on_from_the_last_that_she_has():
    hers = sums_of(BREAD).going_on_from({"fold 1": 21, "fold 2": 33})
    assert hers.working("cut").line == "33 + 6 = 39 threads"


@given(st.fractions(0, 900), st.sampled_from([Fraction(1), Fraction(1, 8), Fraction(1, 2)]))
def test_a_number_is_rounded_to_the_marks_on_either_side_of_it(value, mark):
    exact = number(value)
    down, up = exact.down(mark).value, exact.up(mark).value
    assert down <= value <= up
    assert up - down == (0 if down == value else mark)
    assert (down / mark).denominator == 1
    near, other = exact.nearest().value, exact.other_way().value
    assert {near, other} == {exact.down().value, exact.up().value} or near == value == other - 1
    assert abs(near - value) <= abs(other - value)


def test_changed_sums_change_the_words_and_the_number_together():
    sums = replace(sums_of(BREAD), bands=("clear", "drawn", "face", "turn"))
    assert sums.working("total").line == "7 + 2 + 11 + 6 = 26 threads"


@for_each(
    ("line", "working"),
    [
        ("9 − (2 + 3) = 4 threads", lambda: number(9) - (number(2) + number(3))),
        ("(2 + 3) × 4 = 20 threads", lambda: (number(2) + number(3)) * number(4)),
        ("12 ÷ (2 × 3) = 2 threads", lambda: number(12) / (number(2) * number(3))),
        (
            "1 cm ÷ 2.54 cm/in × 28 threads/in ≈ 11.02 threads",
            lambda: size("1 cm").in_threads(Fraction(28), "in"),
        ),
        (
            "(the larger of 4 and 7) threads ÷ 28 threads/in = 1/4 in",
            lambda: larger(number(4), number(7)).in_length(Fraction(28), "in", "in"),
        ),
    ],
)
def test_brackets_stand_where_the_sum_needs_them(line, working):
    assert working().line == line


def test_hints_lead_before_they_tell():
    mark = check(BREAD, {"total": 31, "draw line": 22})["total"]
    assert mark.nudge == "Not yet: 31 threads is too little."
    # Of what is right, left out or can't be read there is no side that it is off to.
    for answer in (37, None, "many"):
        other = check(BREAD, {"total": answer})["total"]
        assert other.nudge == other.remark
    question, step, working, answer = mark.hints
    assert question == "What lies beyond the hem's back, inside the fold?"
    assert step == "31 threads is what comes out if the turn was forgotten."
    assert working == "… + … + … + … + … = … threads"
    assert answer == "7 + 2 + 11 + 11 + 6 = 37 threads"
    assert "37" not in question + step + working


@for_each("name", NAMES)
def test_each_number_has_a_question_of_its_own_that_begins_as_a_sentence_does(name):
    ask, step, blank, _ = check(BREAD, {name: None})[name].hints
    assert re.fullmatch(r"[A-Z].*\?", ask)
    assert step == f"It is {NAMES[name]}."
    assert not re.search(r"\d", blank)


def test_what_is_taken_from_as_much_leaves_nothing_and_from_less_is_two_numbers():
    assert read_answer("turn", "11 - 11").value == 0
    with pytest.raises(HemError, match="one number and not two"):
        read_answer("turn", "11 - 12")


SIXTEEN = [16, Fraction(16), Decimal("16.0"), "16", "16.0 threads", np.int64(16)]


@for_each("sixteen", SIXTEEN)
def test_sixteen_is_sixteen_threads_in_whatever_exact_type(sixteen):
    """What a piece is planned by and how a learner's sum is read agree on what a whole number is."""
    assert read_answer("hem", sixteen) == read_answer("hem", 16)
    if not isinstance(sixteen, str):
        assert plan_edge("32/in", sixteen, clear=sixteen) == plan_edge("32/in", 16, clear=16)
        assert read_answer("slack", -sixteen) == read_answer("slack", -16)
        assert judge(sixteen, 16).right


def test_a_plan_refuses_a_float_but_a_learners_sum_in_python_is_the_number_it_is():
    why = "is 16.0, a float, which may hide a fraction, but must be a whole number of threads"
    with pytest.raises(HemError, match=re.escape(why)):
        plan_edge("32/in", 16.0, clear=8)
    assert judge(32 / 2, 16).right
    assert check(BREAD, {"hem": 22 / 2})["hem"].right


@for_each(
    ("answer", "right", "said"),
    [
        (38, 37, "38 threads is too many"),
        (36, 37, "36 threads is too few"),
        (1, 2, "1 thread is too few"),
        (0, 2, "0 threads is too few"),
        ("3 in", Length("2 in"), "3 in is too long"),
        ("1 3/8 in", Length("2 in"), "1 3/8 in is too short"),
        ("27.5 mm", Length("2 in"), "27.5 mm is too short"),
    ],
)
def test_a_wrong_answer_is_said_as_it_was_written_and_to_which_side_it_is_off(answer, right, said):
    assert judge(answer, right).text().startswith(f"Not yet: {said}.")


def test_the_right_answer_may_be_reckoned_as_a_fraction():
    assert judge(13, Fraction(26, 2), of="eighths").text() == "Right: 13 eighths."
    with pytest.raises(HemError, match="right is 'coaster', but must be threads or a Length"):
        judge(13, "coaster")
