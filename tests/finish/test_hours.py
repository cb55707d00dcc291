"""The hours of a piece: what was counted for them, reckoned anew, and how they follow the pace."""

from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import EXAMPLES, Fabric, HemError, Piece, Sides, piece_spacings
from hemcalc.finish import Pace, finish_steps, hours
from hemcalc.finish.basted import basted as basted_in
from hemcalc.finish.basted import once_round
from hemcalc.finish.hours import CENTIMETRES, MINUTES, OUTLINE, OWN, READING, SNIPPING, Spell
from hemcalc.finish.words import MOVEMENTS
from hemcalc.piece.sizes import BEGINNINGS

RAW = Fabric("12/cm", "9/cm", shrink_warp="10 %", shrink_weft="4 %")
PIECES = {
    **EXAMPLES,
    "unlike sides": Piece(RAW, (301, 199), hem="8 mm", clear=Sides(3, 9, 0, 5), handling="1 cm"),
    "one drawn": Piece(Fabric("18/in"), (40, 30), hem=3, same="threads", clear=1, drawn=1, corner="square"),
    "tiny": Piece(Fabric("18/in", washed=True), (12, 9), hem=2, same="threads", clear=0),
    "five drawn": Piece(Fabric("60/in"), (900, 700), hem="1/2 in", clear=20, drawn=5, turn=0),
}


def of(took, movement):
    (found,) = [spell for spell in took.spells if movement in spell.step.movements]
    return found


@for_each("name", PIECES)
@for_each("beginning", BEGINNINGS)
def test_every_step_but_the_designs_own_is_timed_in_its_order(name, beginning):
    steps = finish_steps(PIECES[name], beginning=beginning)
    took = hours(PIECES[name], beginning=beginning)
    assert [spell.step.title for spell in took.spells] == [step.title for step in steps if step.title != OWN]
    # A blank cloth has that step; if it is called otherwise one day, its hours would be reckoned in.
    assert (OWN in [step.title for step in steps]) == (beginning != "stitched")
    for spell in took.spells:
        assert 0 < spell.least < spell.most
    assert took.least == pytest.approx(sum(took.table()["least, minutes"]))
    assert took.most == pytest.approx(sum(took.table()["most, minutes"]))


@for_each("name", PIECES)
def test_stitches_and_crossings_are_those_of_the_piece_at_the_pace_of_the_sample(name):
    piece = PIECES[name]
    took = hours(piece, Pace(12, 40, within="25 %"))
    stitches = sum(spacing.count for spacing in piece_spacings(piece))
    stitching = of(took, "stitch 1")
    assert stitching.counted == f"{stitches} stitches"
    # Five minutes for twelve; four fastenings of 1 to 2 minutes, and 1 to 2 to read.
    assert stitching.least == pytest.approx(stitches * 5 / 12 * 0.75 + 4 + 1)
    assert stitching.most == pytest.approx(stitches * 5 / 12 * 1.25 + 8 + 2)
    if piece.drawn > 1:
        # Each of eight tails crosses drawn - 1 + 2 hems + turn of the side that it runs into.
        crossings = 2 * sum(piece.drawn - 1 + 2 * edge.hem + edge.turn for edge in piece.edges)
        darning = of(took, "darn back")
        assert darning.counted == f"{crossings} crossings"
        assert darning.most - 2 == pytest.approx(crossings * 5 / 40 * 1.25)


@for_each("name", PIECES)
def test_what_is_basted_is_as_long_as_the_three_lines_on_the_cloth_in_hand(name):
    piece = PIECES[name]
    lines = 0.0
    for line in ("fold_1", "fold_2", "cut"):
        (across, down), out = piece.design, piece.edges.map(lambda edge, line=line: getattr(edge, line))
        for threads, count in (
            (across + out.left + out.right, piece.fabric.across),
            (down + out.top + out.bottom, piece.fabric.down),
        ):
            lines += 2 * float(threads * count.over.mm / count.threads) / 10
    basted = of(hours(piece), "baste the lines")
    assert basted.counted == f"{lines:.0f} cm"
    assert basted.least - 1 == pytest.approx(5 * lines / 80)
    assert basted.most - 2 == pytest.approx(5 * lines / 40)
    # The tiny piece is counted without a line.
    steps = finish_steps(piece, beginning="blank, to size")
    outline = sum(float(length.cm) for name, length in basted_in(piece, steps) if name in OUTLINE)
    assert of(hours(piece, beginning="blank, to size"), "baste the outline").least == pytest.approx(
        1 + 5 * outline / 80
    )


@for_each("name", PIECES)
def test_threads_drawn_are_snipped_one_by_one_and_drawn_round_the_piece(name):
    piece, took = PIECES[name], hours(PIECES[name])
    others = max(piece.drawn - 1, 1)  # a single thread is withdrawn to the corner, too
    for movement, line, threads in (("draw out", "cut", 1), ("withdraw to the corner", "clear", others)):
        if movement == "draw out" and piece.drawn == 1:
            continue
        spell, far = of(took, movement), threads * float(once_round(piece, line).cm)
        assert spell.counted == f"{4 * threads} threads, {far:.0f} cm"
        for minutes, snip, reading, in_five in zip(
            (spell.least, spell.most), SNIPPING, READING, CENTIMETRES[movement], strict=True
        ):
            assert minutes == pytest.approx(reading + 4 * threads * snip + 5 * far / in_five)


# Bookmark, 28 threads to the inch both ways: a design of 2 in by 7 in, a counting line every 10 threads;
# clear 8, drawn 2, hem 4, turn 2, so 20 to each side of it are cut: 96 by 236 threads.
def test_by_hand_the_lines_basted_beside_those_of_the_hem():
    bookmark = EXAMPLES["bookmark"]
    lines = dict(basted_in(bookmark, finish_steps(bookmark)))
    pitch = Fraction(1, 28)
    assert {name: length.inches for name, length in lines.items()} == {
        "centre lines": (96 + 236) * pitch,
        # 28 and 98 threads to either side of the middle: 2 lines and 9 beside each half of them.
        "counting lines": 4 * 7 + 18 * 2,
        "outline of the design": 2 * (2 + 7),
        "check before the snip": 2 * (72 + 212) * pitch,
        "hem held down": 2 * (76 + 216) * pitch,
    }
    assert list(dict(basted_in(bookmark, finish_steps(bookmark, beginning="stitched")))) == list(lines)[3:]


# In fives, the least to the nearest and the most upward.
@pytest.mark.parametrize(
    ("least", "most", "said"),
    [
        (12, 18, "10 to 20 min"),
        (13, 15, "15 min"),
        (1, 4, "up to 5 min"),
        (0.5, 5.1, "5 to 10 min"),
        (61, 100, "60 to 100 min"),
    ],
)
def test_a_step_is_timed_in_fives(least, most, said):
    assert Spell(finish_steps(EXAMPLES["coaster"])[0], least, most, "").text() == said


def test_a_tray_cloths_stitching_alone_takes_more_than_two_hours_of_slow_hands():
    assert of(hours(EXAMPLES["tray cloth"]), "stitch 1").most > 120


@given(st.integers(1, 1000), st.integers(1, 1000))
def test_twice_the_pace_is_half_the_time_and_nothing_else(stitches, crossings):
    once, twice = Pace(stitches, crossings), Pace(min(2 * stitches, 1000), crossings)
    assert twice.darning(240) == once.darning(240)
    if twice.stitches == 2 * stitches:
        assert twice.stitching(240) == pytest.approx([minutes / 2 for minutes in once.stitching(240)])


def test_without_a_sample_the_range_says_that_it_is_from_memory():
    assert "from memory" in Pace().text()
    assert "the crossings from memory" in Pace(15).text()
    assert "from one sample" in Pace(15, 40).text()
    assert "from memory" in hours(EXAMPLES["coaster"], Pace(15, 40)).text()
    assert Pace().stitching(20) == (5, 10)
    assert Pace().darning(60) == (5, 10)


def test_every_movement_is_timed_and_none_twice():
    timed = {*CENTIMETRES, *MINUTES, "snip", "stitch 1", "stitch 2", "stitch 3", "darn back", "mitre seam"}
    assert timed == set(MOVEMENTS)
    assert not set(CENTIMETRES) & set(MINUTES)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (
            {"stitches": 0},
            "stitches is 0, but must be a whole number of stitches, from 1 to 1000; for example 15",
        ),
        ({"crossings": 2.5}, "crossings is 2.5"),
        ({"within": "80 %"}, "within is '80 %'"),
    ],
)
def test_a_pace_that_can_not_be_is_refused(given, said):
    with pytest.raises(HemError, match=said):
        Pace(**given)


def test_no_pace_is_refused_for_a_pace():
    with pytest.raises(HemError, match=r"pace is 3, but must be a Pace; for example Pace\(15, 40\)"):
        hours(EXAMPLES["coaster"], 3)
