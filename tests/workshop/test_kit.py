"""A kit says what its piece says, and refuses what can't be made."""

import re
from fractions import Fraction

import pytest
from cases import for_each

from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.examples import EXAMPLES, example
from hemcalc.piece.piece import Piece
from hemcalc.stitch.plan import Sample
from hemcalc.stitch.spacing import piece_spacings
from hemcalc.stitch.thread import thread_needed
from hemcalc.workshop.kit import Kit


@for_each("kind", EXAMPLES)
@for_each("hand", ["right", "left"])
def test_every_number_is_the_pieces_own(kind, hand):
    piece = example(kind)
    kit = Kit("Ada", piece, kind, hand=hand)
    plan = thread_needed(piece, 4)
    assert kit.to_cut("cm") == piece.cut_size.to_cut("cm")
    assert kit.spacings == piece_spacings(piece, 4, hand)
    assert kit.thread_range == plan.to_cut
    least, most = kit.thread_range
    assert least <= most <= kit.thread_to_have
    assert kit.thread_to_have == plan.buy()
    assert kit.basting_to_have.mm > plan.basting.high_mm


# Cut in hand: an unwashed cloth that will lose 8 % down its length is cut longer. 156 threads at
# 26/in after the wash would be 6 in; the cloth in hand has 26/in now, and so 6 in now.
def test_cloth_is_cut_as_it_is_in_hand():
    raw = Fabric("25/in", "26/in", shrink_warp="8 %", shrink_weft="3 %")
    piece = Piece(raw, (76, 76), hem=10, same="threads", clear=4)
    kit = Kit("Ada", piece)
    across, down = piece.cut_size.threads
    assert kit.to_cut("mm")[0] == raw.across.width(across).rounded_up("1 mm")
    assert kit.to_cut("mm")[1] == raw.down.width(down).rounded_up("1 mm")
    assert kit.to_cut("mm")[1].mm > piece.cut_size.after[1].mm


def test_a_plan_corrected_by_a_sample_is_taken_instead():
    piece = example("coaster")
    corrected = thread_needed(piece).calibrate(Sample(20, "80 cm"))
    assert Kit("Ada", piece, plan=corrected).thread_to_have == corrected.buy()
    assert corrected.buy() > Kit("Ada", piece).thread_to_have


def test_a_range_of_one_length_is_said_once():
    kit = Kit("Ada", example("coaster"))
    least, most = kit.thread_range
    assert kit.thread_text() == f"{float(least.mm) / 1000:g} m to {float(most.mm) / 1000:g} m"
    assert " yd to ≈ " in kit.thread_text("in")


@for_each(
    ("given", "words"),
    [
        ({"piece": 3}, "piece is 3, but must be a Piece"),
        ({"learner": ""}, "learner is ''"),
        ({"learner": "Ada\x1b"}, "learner is 'Ada"),
        ({"hand": "both"}, "hand is 'both'"),
        ({"group": 7}, "group is 7"),
        ({"needles": 0}, "needles is 0, but must be a whole number of needles, from 1 to 20; for example 1."),
        ({"pins": 500}, "pins is 500, but must be a whole number of pins, from 0 to 200"),
        ({"sharp": ""}, "sharp is ''"),
        ({"plan": Length(3)}, "plan is a Length"),
        ({"thread": 12}, "thread is 12"),
        ({"piece": Piece(Fabric("28/in"), (1, 1), hem=2, same="threads", clear=0)}, "open line at the top"),
    ],
)
def test_a_kit_that_cannot_be_is_refused_in_a_sentence(given, words):
    with pytest.raises(HemError, match=words) as no:
        Kit(**{"learner": "Ada", "piece": example("coaster"), **given})
    assert "for example" in str(no.value)


def test_a_hem_of_one_thread_is_bitten_one_thread_deep():
    piece = Piece(Fabric("18/in"), (40, 40), hem=1, same="threads", clear=0)
    assert Kit("Ada", piece).thread_to_have == thread_needed(piece, depth=1).buy()


@for_each("kind", EXAMPLES)
def test_the_basting_in_the_bag_is_enough_for_every_line_that_the_steps_baste(kind):
    piece = example(kind)
    cloth, (across, down), out = piece.fabric, piece.design, piece.edges

    def once_round(line):
        a, b, c, d = (getattr(edge, line) if line else 0 for edge in out)
        return 2 * (cloth.across.width(across + a + b).mm + cloth.down.width(down + c + d).mm)

    # Every tenth thread from the middle, both ways; the middle itself is one of the two centre lines.
    lines = [sum(1 for n in range(1, size) if (n - (size + 1) // 2) % 10 == 0) - 1 for size in (across, down)]
    size = [length.mm for length in piece.cut_size.in_hand]
    counting = lines[0] * cloth.down.width(down).mm + lines[1] * cloth.across.width(across).mm
    sewn = sum(map(once_round, ("", "clear", "open_line", "fold_1", "fold_2", "cut"))) + sum(size) + counting
    kit = Kit("Ada", piece, kind)
    hem, basting, overcasting = kit.uses
    plan = thread_needed(piece)
    # Over and under takes a little more than the line, and at most a fifth; each needleful loses its ends.
    sews = (plan.working - plan.ends).mm
    assert sewn <= basting.most * sews <= Fraction(6, 5) * sewn + sews * 2 + Fraction(plan.basting.high_mm)
    # Long and loose stitches over the edge take at least twice its length.
    assert overcasting.most * sews >= 2 * 2 * sum(size)
    assert (hem.fewest, hem.most) == plan.needlefuls
    assert kit.basting_to_have >= basting.to_have + overcasting.to_have
    assert kit.basting_to_have - basting.to_have - overcasting.to_have < Length("50 cm")


def test_a_long_piece_takes_as_much_overcasting_whichever_way_it_lies():
    lying = [
        Kit("Ada", Piece(Fabric("28/in"), design, hem="3/8 in", clear=8)) for design in ((60, 410), (410, 60))
    ]
    one, other = (kit.uses[2] for kit in lying)
    assert one == other
    assert one.most > Kit("Ada", Piece(Fabric("28/in"), (60, 60), hem="3/8 in", clear=8)).uses[2].most


def test_a_design_that_is_stitched_already_needs_no_lines_to_count_by():
    blank, stitched = (Kit("Ada", example("sampler"), beginning=b) for b in ("blank, to size", "stitched"))
    assert stitched.basting_to_have.mm < blank.basting_to_have.mm / 2


def test_thread_is_said_in_needlefuls_first_then_in_metres_and_never_in_yards():
    for use in Kit("Ada", example("coaster")).uses:
        assert re.fullmatch(
            r"[a-z, ()]+: (\d+ to )?\d+ needlefuls? of 50 cm, so [\d.]+ m of [a-z ]+", use.text()
        )


def test_needles_and_pins_are_counted_by_job():
    kit = Kit("Ada", example("coaster"), needle="tapestry needle 24", sharps=2, pins=0)
    assert [(each.name, each.quantity) for each in kit.counted] == [
        ("tapestry needle 24", 1),
        ("sharp needle", 2),
    ]
    assert "hem stitch" in kit.counted[0].jobs
    assert "mitres" in kit.counted[1].jobs
