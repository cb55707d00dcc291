"""A kit says what its piece says, and refuses what can't be made."""

import pytest

from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.examples import EXAMPLES, example
from hemcalc.piece.piece import Piece
from hemcalc.stitch.plan import Sample
from hemcalc.stitch.spacing import piece_spacings
from hemcalc.stitch.thread import thread_needed
from hemcalc.workshop.kit import Kit


@pytest.mark.parametrize("kind", EXAMPLES)
@pytest.mark.parametrize("hand", ["right", "left"])
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
    assert kit.basting_to_have == plan.buy_basting()


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


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"piece": 3}, "piece is 3, but must be a Piece"),
        ({"learner": ""}, "learner is ''"),
        ({"learner": "Ada\x1b"}, "learner is 'Ada"),
        ({"hand": "both"}, "hand is 'both'"),
        ({"group": 7}, "group is 7"),
        ({"needles": 0}, "needles is 0, but must be a whole number of needles, from 1 to 20; for example 1."),
        ({"plan": Length(3)}, "plan is a Length"),
        ({"thread": 12}, "thread is 12"),
        ({"piece": Piece(Fabric("28/in"), (1, 1), hem=2, same="threads", clear=0)}, "open line at the top"),
    ],
)
def test_a_kit_that_cannot_be_is_refused_in_a_sentence(given, words):
    with pytest.raises(HemError, match=words) as no:
        Kit(**{"learner": "Ada", "piece": example("coaster"), **given})
    assert "for example" in str(no.value)
    assert len(str(no.value)) <= 400


def test_a_hem_of_one_thread_is_bitten_one_thread_deep():
    piece = Piece(Fabric("18/in"), (40, 40), hem=1, same="threads", clear=0)
    assert Kit("Ada", piece).thread_to_have == thread_needed(piece, depth=1).buy()
