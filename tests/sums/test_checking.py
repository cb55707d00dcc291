"""The checker: right answers are right in any form, and each slip is found, named or asked about."""

import re
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hemcalc.sums.answers import judge, read_answer
from hypothesis import assume, given
from hypothesis import strategies as st

from hemcalc import Fabric, HemError, Length, Piece, Sides, check, example
from hemcalc.edge.ledger import plan_edge
from hemcalc.measure.units import MILLIMETRES
from hemcalc.piece.sides import SIDES
from hemcalc.sums.slips import SLIPS, number_that_tells, possible_slips
from hemcalc.sums.sums import NAMES, sums_of
from hemcalc.sums.working import larger, number, size

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
        assert sums.worked(name).value == edge_number(piece, side, name), name
    for name in LENGTHS:
        for unit in UNITS:
            worked = sums.worked(name, unit)
            exact = worked.value if worked.exact is None else worked.exact
            assert exact * MILLIMETRES[unit] == edge_length(piece, side, name), (name, unit)
    for way, name in enumerate(("cut across", "cut down")):
        for unit in UNITS:
            to_cut = piece.cut_size.to_cut(unit)[way]
            assert sums.worked(name, unit).value * MILLIMETRES[unit] == to_cut.mm


def parsed(words):
    """The value of a line's arithmetic: a reader of its own, which knows nothing of Worked."""
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
            worked = sums.worked(name, unit)
            if unit == "threads" and isinstance({"hem": piece.hem, "turn": piece.turn}.get(name), int):
                assert worked.words == str(worked.value), "given, and not worked"
                continue
            assert re.search("[+−×÷]|larger", worked.words), "it says how, not only what"
            line = worked.line.replace("≈", "= ≈", 1) if "=" not in worked.line else worked.line
            words, result = re.split(r" = ", line, maxsplit=1)
            first, *rounded = re.split(r", (?:to the nearest whole thread|rounded up to) ", result)
            exact = worked.value if worked.exact is None else worked.exact
            assert parsed(words) == exact, line
            said, half = printed(first)
            assert abs(said - exact) <= half, line
            if rounded:
                said, half = printed(rounded[0])
                assert abs(said - worked.value) <= half, line


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
        assert check(piece, {name: text.removeprefix("≈ ")}, side=side)[name].right, (name, text)


def test_a_length_read_off_a_ruler_is_right_after_rounding():
    sampler = example("sampler")  # 14 threads of 36 to the inch: 9.878 mm
    assert check(sampler, {"hem": "9.9 mm"})["hem"].verdict == "right after rounding"
    assert check(sampler, {"hem": "10 mm"})["hem"].verdict == "right after rounding"
    assert check(sampler, {"hem": "3/8 in"})["hem"].verdict == "right after rounding"
    assert check(sampler, {"hem": "10.3 mm"})["hem"].verdict == "wrong"  # nearer to 15 threads


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


# Each slip: a piece and a wrong answer that only it explains.

BREAD = example("bread cloth")
SAMPLER = example("sampler")
COASTER = example("coaster")
BOOKMARK = example("bookmark")
# Hem 14, turn 7, on even cloth: what is no slip of two counts or of rounding is told from it alone.
EVEN = Piece(Fabric("28/in", washed=True), (224, 224), hem="1/2 in", clear=6)
UNWASHED = Piece(
    Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %"), (300, 200), hem="1/2 in", clear=8, drawn=3
)


@pytest.mark.parametrize(
    ("slip", "piece", "name", "answer"),
    [
        ("hem once", EVEN, "total", 6 + 2 + 14 + 7),
        ("hem twice", BREAD, "total", 7 + 2 + 4 * 11 + 6),
        ("turn forgotten", BREAD, "total", 7 + 2 + 11 + 11),
        ("drawn left out", BREAD, "total", 7 + 11 + 11 + 6),
        ("first drawn as the last clear", BREAD, "first drawn", 7),
        ("inches for centimetres", BREAD, "hem", 28),  # 9.525 mm × 29 threads/cm = 27.62
        ("one side only", BREAD, "finished across", 230 + 20),
        ("half the count", BREAD, "hem", 5),
        ("stitches for threads", BREAD, "cut across", 115 + 44 + 44),
        ("hem rounded the wrong way", COASTER.with_changes(fabric=Fabric("25/in")), "hem", 10),
        ("turn rounded down", COASTER, "turn", 4),
        ("size rounded down", COASTER, "cut across", "5 7/8 in"),
        ("warp and weft exchanged", SAMPLER, "finished down", 216 + 12 + 16 + 2 * (2 + 14)),
        ("shrinkage on the wrong side", UNWASHED, "finished across", "11 9/16 in"),
        ("wash left out", UNWASHED, "finished across", "12 1/2 in"),
        ("folds exchanged", BREAD, "total", 7 + 2 + 3 * 11 + 6),
        ("rule alone", BOOKMARK.with_changes(drawn=3), "margin", 16),
        ("open line centred", EVEN, "draw line", 2 * 14 + 7 - 1),
    ],
)
def test_a_slip_that_alone_explains_an_answer_is_named(slip, piece, name, answer):
    mark = check(piece, {name: answer})[name]
    assert mark.verdict == "wrong"
    assert [found.name for found in mark.slips] == [slip], mark
    assert SLIPS[slip].clause in mark.remark
    assert not mark.question
    assert mark.hints[0] == SLIPS[slip].question


def test_the_slips_tested_above_are_all_there_are():
    (cases,) = [
        mark.args[1]
        for mark in test_a_slip_that_alone_explains_an_answer_is_named.pytestmark
        if mark.name == "parametrize"
    ]
    assert [case[0] for case in cases] == list(SLIPS)


def test_a_wrong_answer_that_no_slip_explains_is_not_guessed_at():
    mark = check(BREAD, {"total": 57})["total"]
    assert (mark.verdict, mark.slips, mark.question) == ("wrong", (), "")
    assert "no slip known here explains it" in mark.remark
    assert mark.working == "7 + 2 + 11 + 11 + 6 = 37 threads"


# Several slips.


@given(pieces(), st.sampled_from(SIDES), st.sampled_from(list(NAMES)))
def test_slips_that_coincide_are_all_named_and_the_question_tells_them_apart(piece, side, name):
    sums = sums_of(piece, side)
    gives = possible_slips(sums, name)
    for worked in gives.values():
        alike = {slip for slip, other in gives.items() if other.value == worked.value}
        mark = check(piece, {name: int(worked.value)}, side=side)[name]
        assert {slip.name for slip in mark.slips} == alike
        assert bool(mark.question) == (len(alike) > 1)
        for slip in mark.slips:
            assert slip.clause in mark.remark
        if mark.tells:
            told = dict(mark.tells)
            assert set(told) == alike
            assert len(set(told.values())) == len(alike)


def test_one_question_tells_two_slips_apart_and_is_not_asked_once_it_is_answered():
    # Half the count makes a hem of 5, a need and margins of 22 threads, so 230 + 2 · 22 = 274 to cut;
    # so does the margin on one side only, 230 + 44.
    mark = check(BREAD, {"cut across": 274})["cut across"]
    assert [slip.name for slip in mark.slips] == ["one side only", "half the count"]
    assert mark.question == "What did you get for hem, width of the finished hem?"
    assert dict(mark.tells) == {"one side only": "11 threads", "half the count": "5 threads"}
    for hem, slip in ((11, "one side only"), (5, "half the count")):
        report = check(BREAD, {"hem": hem, "cut across": 274})
        assert [found.name for found in report["cut across"].slips] == [slip]
        assert not report["cut across"].question


def test_the_question_asks_for_the_first_number_that_differs():
    # On a cloth of 36 by 34 to the inch a hem of 3/8 in is 14 threads across; with the counts
    # exchanged it is 13, and rounded down it is 13 too: but then down it is 14, and 12.
    mark = check(SAMPLER, {"hem": 13})["hem"]
    assert {slip.name for slip in mark.slips} == {"hem rounded the wrong way", "warp and weft exchanged"}
    assert mark.question == "What did you get for finished down, the finished piece, down?"
    assert number_that_tells(sums_of(SAMPLER), ["hem once", "hem once"], "total") is None
    # A turn as wide as the drawn threads: whichever is left out, the total is the same.
    square = Piece(Fabric("28/in", washed=True), (40, 40), hem=8, clear=4, drawn=4, turn=4, same="threads")
    mark = check(square, {"total": 24})["total"]
    assert {slip.name for slip in mark.slips} == {"turn forgotten", "drawn left out"}
    assert mark.question == f"What did you get for fold 1, {NAMES['fold 1']}?"


def test_slips_that_no_number_tells_apart_are_put_as_a_choice():
    # 0.5 cm is 4 threads of 8 to the cm, but 2 of 8 to the inch, and 2 of 4 to the cm.
    coarse = Piece(Fabric("8/cm", washed=True), (80, 80), hem="0.5 cm", clear=4)
    mark = check(coarse, {"hem": 2})["hem"]
    assert [slip.name for slip in mark.slips] == ["inches for centimetres", "half the count"]
    assert mark.question.startswith("Which was it: threads per inch and threads per cm were exchanged, or")
    assert mark.tells == ()


# Bad input.


@pytest.mark.parametrize(
    "rubbish",
    [
        "fifty",
        "10.5",
        "3/8",
        "12 furlongs",
        "-3",
        "1/0 in",
        "-",
        "9" * 90,
        8.0,
        True,
        [1],
        object(),
        "1,500",
        b"8",
    ],
)
def test_an_answer_that_cannot_be_read_gets_one_sentence(rubbish):
    mark = check(BREAD, {"total": rubbish})["total"]
    assert mark.verdict == "not read"
    assert not mark.right
    assert len(mark.remark) < 400
    assert "\n" not in mark.remark
    assert "for example" in mark.remark
    assert not re.search(r"37", mark.text()), "it does not give the answer away"


@given(st.one_of(st.text(max_size=100), st.integers(), st.floats(), st.none(), st.binary(max_size=4)))
def test_no_answer_whatever_breaks_the_checker(answer):
    for name in ("first drawn", "slack", "cut across"):
        assert check(BREAD, {name: answer})[name].remark


@pytest.mark.parametrize(
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
    assert len(str(caught.value)) < 400


def test_no_answer_yet_is_neither_right_nor_wrong():
    report = check(BREAD, {"total": None, "cut": " "})
    assert [mark.verdict for mark in report] == ["no answer", "no answer"]
    assert not report.all_right
    assert report.summary == "0 of 2 right."


def test_a_report_says_it_all_and_as_a_table_escapes_what_was_typed():
    report = check(BREAD, {"total": "<b>37</b>", "cut": 37})
    assert str(report).endswith("1 of 2 right.")
    assert repr(report) == "Report(1 of 2 right)"
    assert "<b>37" not in report._repr_html_()
    assert "&lt;b&gt;" in report._repr_html_()


# The working itself.

LARGER = larger(number(4), number(7)).in_length(Fraction(28), "in", "in")


def test_changed_sums_change_the_words_and_the_number_together():
    sums = replace(sums_of(BREAD), backs=0)
    assert sums.worked("total").line == "7 + 2 + 11 + 6 = 26 threads"


@pytest.mark.parametrize(
    ("line", "worked"),
    [
        ("9 − (2 + 3) = 4 threads", number(9) - (number(2) + number(3))),
        ("(2 + 3) × 4 = 20 threads", (number(2) + number(3)) * number(4)),
        ("12 ÷ (2 × 3) = 2 threads", number(12) / (number(2) * number(3))),
        ("1 cm ÷ 2.54 cm/in × 28 threads/in ≈ 11.02 threads", size("1 cm").in_threads(Fraction(28), "in")),
        ("(the larger of 4 and 7) threads ÷ 28 threads/in = 1/4 in", LARGER),
    ],
)
def test_brackets_stand_where_the_sum_needs_them(line, worked):
    assert worked.line == line


def test_hints_lead_before_they_tell():
    mark = check(BREAD, {"total": 31})["total"]
    assert mark.nudge == "Not yet: 31 threads is too little."
    question, working, answer = mark.hints
    assert question == "What lies beyond the hem's back, inside the fold?"
    assert working == (
        "31 threads is what comes out if the turn was forgotten. 7 + 2 + 11 + 11 + 6 = … threads"
    )
    assert answer == "7 + 2 + 11 + 11 + 6 = 37 threads"
    assert "37" not in question + working


SIXTEEN = [16, Fraction(16), Decimal("16.0"), "16", "16.0 threads", np.int64(16)]


@pytest.mark.parametrize("sixteen", SIXTEEN, ids=repr)
def test_sixteen_is_sixteen_threads_in_whatever_exact_type(sixteen):
    """What a piece is planned by and how a learner's sum is read agree on what a whole number is."""
    assert read_answer("hem", sixteen) == read_answer("hem", 16)
    if not isinstance(sixteen, str):
        assert plan_edge("32/in", sixteen, clear=sixteen) == plan_edge("32/in", 16, clear=16)
        assert read_answer("slack", -sixteen) == read_answer("slack", -16)
        assert judge(sixteen, 16).right


def test_a_float_is_refused_everywhere_and_told_why():
    why = "is 16.0, a float, which may hide a fraction, but must be a whole number of threads"
    for read in (lambda: plan_edge("32/in", 16.0, clear=8), lambda: read_answer("hem", 16.0)):
        with pytest.raises(HemError, match=re.escape(why)):
            read()
    assert why in judge(16.0, 16).text()


def test_the_right_answer_may_be_reckoned_as_a_fraction():
    assert judge(13, Fraction(26, 2), of="eighths").text() == "Right: 13 eighths."
    with pytest.raises(HemError, match="right is 'coaster', but must be threads or a Length"):
        judge(13, "coaster")
