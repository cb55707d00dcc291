"""The thread that a piece takes, against sums done again here."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.examples import example
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.stitch.path import basting_stitch
from hemcalc.stitch.plan import Sample
from hemcalc.stitch.thread import thread_needed
from hemcalc.yarn.diameter import diameter_by_volume


def piece(
    warp="28/in",
    weft=None,
    design=(224, 168),
    clear=(8, 8, 8, 8),
    hem=12,
    turn=None,
    thickness="0.5 mm",
    **cloth,
):
    fabric = Fabric(warp, weft, thickness=thickness, **cloth)
    return Piece(fabric, design, hem=hem, same="threads", clear=Sides(*clear), turn=turn)


def hem_length(pitch_along, pitch_in, threads, stitches, depth, tau, keep, thread, plies, face=False):
    """One side's hem stitches, the path measured as in test_stitch, in closed form."""
    w = pitch_along * threads / stitches
    far = w * (1 + keep) / 2 + thread / 2
    bite = pitch_in * depth + thread / 2
    each = math.hypot(far, bite + (plies - 1) * tau)
    each += 2 * (keep * w + thread) + 2 * (tau + thread)
    each += math.hypot(w - far, bite) + (plies - 1) * tau
    if face:  # down to the right side, and up through one layer more
        each += 2 * (tau + thread)
    return stitches * each


def test_the_whole_sum_done_again_for_a_bread_cloth():
    linen = piece("28/in", "27/in", clear=(8, 9, 8, 8))
    plan = thread_needed(linen, thread="0.3 mm", pulled=("60 %", "80 %"))
    x, y = 25.4 / 28, 25.4 / 27
    across, down = 224 + 8 + 9, 168 + 8 + 8
    for amount, keep in ((plan.hem.low_mm, 0.6), (plan.hem.middle_mm, 0.7), (plan.hem.high_mm, 0.8)):
        top = hem_length(x, y, across, 60, 2, 0.5, keep, 0.3, 3)
        left = hem_length(y, x, down, 46, 2, 0.5, keep, 0.3, 3)
        assert amount == pytest.approx(2 * top + 2 * left)
    assert [side.stitches for side in plan.sides] == [46, 46, 60, 60]

    pitch = (x + y) / 2
    each = 2 * (0.5 + 0.3) + 2 * pitch + math.hypot(2 * pitch, 2 * pitch)
    seams = 4 * math.ceil(math.hypot(12 * x, 12 * y) / (2 * pitch))
    assert plan.seam_stitches == seams
    assert plan.seams.middle_mm == pytest.approx(seams * each)

    rounds = sum(
        2 * x * (224 + 17 + 2 * out) + 2 * y * (168 + 16 + 2 * out) for out in (2 + 12, 2 + 24, 2 + 24 + 6)
    )
    per_mm = (12.7 + 2 * 0.5) / 12.7
    assert plan.basting.low_mm == pytest.approx(rounds * per_mm)
    right_out = 3 * (2 * x * (224 + 17 + 64) + 2 * y * (168 + 16 + 64))
    assert plan.basting.high_mm == pytest.approx(right_out * per_mm)

    assert plan.sewn.middle_mm == pytest.approx(1.125 * (plan.hem.middle_mm + plan.seams.middle_mm))
    low = math.ceil(1.10 * (plan.hem.low_mm + plan.seams.low_mm) / 370)
    high = math.ceil(1.15 * (plan.hem.high_mm + plan.seams.high_mm) / 370)
    assert plan.needlefuls == (low, high)
    assert plan.to_cut == (Length(500 * low), Length(500 * high))
    assert plan.buy("1 m") == Length(1000 * math.ceil(high / 2))


# Clear 8, drawn 2, hem 4, turn 2 round 56 × 196 threads, 28 to the inch: the lines after threads 14, 18
# and 20. Crossed by their like they are 84, 92 and 96 threads long, and 224, 232, 236; right out 96 and 236.
def test_by_hand_the_basted_lines_of_a_bookmark():
    basting = thread_needed(example("bookmark"), 4).basting
    stitch = basting_stitch("1/4 in", "1/4 in", "0.4 mm").per_mm * 25.4 / 28
    crossed, right_out = 2 * (84 + 92 + 96 + 224 + 232 + 236), 2 * 3 * (96 + 236)
    assert basting.low_mm == pytest.approx(crossed * stitch)
    assert basting.middle_mm == pytest.approx((crossed + right_out) / 2 * stitch)
    assert basting.high_mm == pytest.approx(right_out * stitch)


def test_a_stitch_through_all_the_layers_takes_more_thread():
    through = piece().with_changes(through="all layers")
    x, plan = 25.4 / 28, thread_needed(through, thread="0.3 mm")
    sides = (hem_length(x, x, n, n // 4, 2, 0.5, 1, 0.3, 3, face=True) for n in (240, 184))
    assert plan.hem.high_mm == pytest.approx(2 * sum(sides))
    assert thread_needed(piece(), thread="0.3 mm").hem.high_mm < plan.hem.high_mm


def test_ladder_and_a_hem_without_a_turn_take_other_paths():
    bare = piece(turn=0)
    plan = thread_needed(bare, seam="ladder", thread="0.3 mm")
    x = 25.4 / 28
    assert plan.hem.high_mm == pytest.approx(
        2 * hem_length(x, x, 240, 60, 2, 0.5, 1, 0.3, 2) + 2 * hem_length(x, x, 184, 46, 2, 0.5, 1, 0.3, 2)
    )
    rungs = 4 * math.ceil(math.hypot(12 * x, 12 * x) / (2 * x))
    assert plan.seams.middle_mm == pytest.approx(rungs * (2 * x + 2 * (0.5 + 0.15)))
    # Fold 2 and the cut are one line, so two are basted.
    rounds = sum(2 * x * (240 + 2 * out) + 2 * x * (184 + 2 * out) for out in (14, 26))
    assert plan.basting.low_mm == pytest.approx(rounds * (12.7 + 1) / 12.7)


def test_a_turn_shallower_than_the_bite_is_missed_by_the_needle():
    def path(turn):
        return thread_needed(piece(turn=turn), thread="0.3 mm").sides[0].paths[0].length_mm

    assert path(1) == path(0) < path(2) == path(6)


def test_the_seam_of_a_piece_is_that_of_its_corners_on_the_cloth_in_hand():
    # Corners are planned on the cloth as it is folded; scaling them once more made seams too long.
    asked = {"hem": "1/2 in", "clear": 8}
    cloth = {"thickness": "0.5 mm", "shrink_warp": "20 %", "shrink_weft": "20 %"}
    unwashed = Piece(Fabric("28/in", **cloth), (240, 184), **asked)
    # The hem is 1/2 in after the wash: 17 1/2, so 18, threads of 35/in, which lie 28/in now.
    seam = math.hypot(18, 18) * 25.4 / 28
    assert unwashed.corners.top_left.seam_mm == pytest.approx(seam)
    assert thread_needed(unwashed).seam_stitches == 4 * math.ceil(seam / (2 * 25.4 / 28))


pieces = st.builds(
    piece,
    warp=st.integers(14, 50).map("{}/in".format),
    weft=st.integers(14, 50).map("{}/in".format),
    # Ten threads and more can be made of groups of any size; shorter sides are tested apart.
    design=st.tuples(st.integers(10, 600), st.integers(10, 600)),
    clear=st.tuples(*[st.integers(0, 20)] * 4),
    hem=st.integers(3, 30),
    turn=st.sampled_from([None, 0, 3]),
    thickness=st.sampled_from([None, "0.3 mm", "0.6 mm"]),
)
groups = st.integers(2, 6)


@given(pieces, groups, st.integers(1, 3), st.sampled_from(["whip", "ladder"]))
@settings(max_examples=25)
def test_every_range_contains_its_middle(linen, group, depth, seam):
    plan = thread_needed(linen, group, depth=depth, seam=seam)
    for amount in (plan.hem, plan.seams, plan.basting, plan.per_stitch, plan.sewn):
        assert 0 < amount.low_mm <= amount.middle_mm <= amount.high_mm
    assert 0 < plan.needlefuls[0] <= plan.needlefuls[1]
    assert plan.to_cut[0] <= plan.to_cut[1] <= plan.buy()
    # What is cut does sew what is needed.
    assert plan.needlefuls[1] * float((plan.working - plan.ends).mm) >= plan.sewn.high_mm - 1e-6


@given(pieces, groups, st.integers(1, 20))
@settings(max_examples=25)
def test_a_longer_pitch_never_takes_less_thread(linen, group, coarser):
    def amounts(stand_in):
        plan = thread_needed(stand_in, group, thickness="0.5 mm")
        return [end for a in (plan.hem, plan.basting) for end in (a.low_mm, a.middle_mm, a.high_mm)]

    def with_pitch(times):
        longer = Fabric(
            f"{linen.fabric.across.per_inch / times}/in", f"{linen.fabric.down.per_inch / times}/in"
        )
        return replace(linen, fabric=longer)

    for fine, coarse in zip(
        amounts(with_pitch(1)), amounts(with_pitch(1 + Fraction(coarser, 10))), strict=True
    ):
        assert coarse >= fine


@given(pieces, groups)
@settings(max_examples=20)
def test_deeper_bites_thicker_cloth_and_more_threads_never_take_less(linen, group):
    def hem(**how):
        return thread_needed(linen, group, **{"thickness": 0.4, "thread": 0.3, **how}).hem.middle_mm

    assert hem(depth=3) >= hem(depth=2) >= hem(depth=1)
    assert hem(thickness=0.6) >= hem()
    assert hem(thread=0.5) >= hem()
    wider = replace(linen, design=(linen.design[0] + 24, linen.design[1]))
    assert thread_needed(wider, group, thickness=0.4, thread=0.3).hem.middle_mm > hem()


@given(pieces, groups, st.integers(1, 60), st.integers(20, 900))
@settings(max_examples=25)
def test_a_calibrated_plan_reproduces_its_sample(linen, group, stitches, used):
    plan = thread_needed(linen, group)
    sample = Sample(stitches, Length(used))
    corrected = plan.calibrate(sample)
    assert corrected.per_stitch.middle_mm * stitches == pytest.approx(used)
    assert corrected.hem.middle_mm == pytest.approx(corrected.stitches * used / stitches)
    low, high = corrected.hem.low_mm, corrected.hem.high_mm
    assert (low + high) / 2 == pytest.approx(corrected.hem.middle_mm)
    assert (high - low) == pytest.approx(0.1 * corrected.hem.middle_mm)
    assert (corrected.seams, corrected.basting) == (plan.seams, plan.basting)
    # Calibrating again starts from the path, not from the last sample.
    assert corrected.calibrate(sample).hem == corrected.hem


def test_a_sample_that_is_what_the_path_says_changes_nothing_but_the_range():
    plan = thread_needed(piece(), thickness="0.5 mm", thread="0.3 mm")
    exact = Length(Fraction(plan.per_stitch.middle_mm) * 20)
    same = plan.calibrate(Sample(20, exact, within="10 %"))
    assert same.factor == pytest.approx(1) == plan.factor
    assert same.hem.middle_mm == pytest.approx(plan.hem.middle_mm)
    assert same.hem.high_mm == pytest.approx(1.1 * plan.hem.middle_mm)


def test_a_sample_far_off_is_questioned_and_a_near_one_is_not():
    plan = thread_needed(piece())
    near, far = plan.calibrate(Sample(20, "32 cm")), plan.calibrate(Sample(10, "60 cm"))
    assert "Count its stitches again" not in " ".join(near.notes)
    assert "Count its stitches again" in far.notes[-1]
    assert f"{far.factor:.2f} times" in far.notes[-1]
    for times, question in ((0.45, True), (0.55, False), (1.9, False), (2.1, True)):
        sampled = plan.calibrate(Sample(100, f"{100 * times * plan.hem.middle_mm / plan.stitches:.4f} mm"))
        assert sampled.factor == pytest.approx(times)
        assert ("Count its stitches again" in sampled.notes[-1]) == question


def test_what_is_not_known_is_said_and_widens_the_range():
    unknown, known = piece(thickness=None), piece()
    guessed, measured = thread_needed(unknown), thread_needed(known, thread="0.3 mm")
    assert any("thickness is not known" in note for note in guessed.notes)
    assert any("0.30 to 0.91 mm" in note for note in guessed.notes)
    assert not any("not known" in note for note in measured.notes)
    assert any("50 % to 100 %" in note for note in measured.notes)
    assert guessed.hem.high_mm / guessed.hem.low_mm > measured.hem.high_mm / measured.hem.low_mm


def test_a_thread_not_known_is_taken_as_half_as_thick_as_the_cloth():
    assert thread_needed(piece()).hem == thread_needed(piece(), thread="0.25 mm").hem


def test_the_asked_thickness_goes_before_the_fabrics():
    assert thread_needed(piece(), thickness="0.9 mm").hem == thread_needed(piece(thickness="0.9 mm")).hem


def test_a_diameter_with_its_working_will_do_for_the_thread():
    diameter = diameter_by_volume("50 tex", fibre="cotton")
    assert (
        thread_needed(piece(), thread=diameter).hem == thread_needed(piece(), thread=diameter.diameter_mm).hem
    )


def test_a_side_that_cant_be_grouped_is_named_and_its_nearest_said():
    with pytest.raises(
        HemError, match=r"On the top side threads is 7, .* groups of 4, 5 or 6, .* 6 or 8"
    ) as e:
        thread_needed(piece(design=(1, 168), clear=(3, 3, 4, 4)), 5)
    assert e.value.about == "group"


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_the_sums_hold_the_plans_own_numbers(unit):
    plan = thread_needed(piece())
    said = " ".join(plan.sums(unit))
    small, large = ("in", "yd") if unit == "in" else ("mm", "m")
    for words in (
        "Top: 240 threads in groups of 4 make 60 stitches.",
        plan.per_stitch.text(small),
        plan.hem.text(large),
        plan.seams.text(large),
        plan.sewn.text(large),
        plan.basting.text(large),
        f"{plan.needlefuls[0]} to {plan.needlefuls[1]} lengths",
        "both folds and the cut",
        f"Each {Length('50 cm').text(unit)} sews {Length('37 cm').text(unit)}: ",
        "10 to 15 % of waste",
        "by its path",
    ):
        assert words in said
    assert "in groups of about 5 make 37 stitches." in " ".join(thread_needed(piece(), 5).sums(unit))
    assert "by the sample" in " ".join(plan.calibrate(Sample(20, "30 cm")).sums(unit))
    with pytest.raises(HemError, match="unit is 'ell'"):
        plan.sums("ell")


def test_shorter_lengths_need_more_of_them_and_lose_more():
    long, short = thread_needed(piece(), working="50 cm"), thread_needed(piece(), working="40 cm")
    assert short.needlefuls[1] > long.needlefuls[1]
    assert short.to_cut[1] >= long.to_cut[1]
    assert short.hem == long.hem
    assert thread_needed(piece(), start="0 cm", end="0 cm").ends == Length(0)


@for_each(
    ("change", "about", "says"),
    [
        ({"group": 7}, "group", "from 2 to 6; for example 4"),
        ({"group": 4.0}, "group", "whole number"),
        ({"depth": 0}, "depth", "1 or more"),
        ({"depth": 13}, "depth", "the left hem is only 12; for example 2"),
        ({"thread": "thin"}, "thread", "number"),
        ({"thickness": 0}, "thickness", "more than 0"),
        ({"pulled": "50 %"}, "pulled", "two shares"),
        ({"pulled": ("90 %", "50 %")}, "pulled", "the least comes first"),
        ({"pulled": (0, "50 %")}, "pulled", "keeps some width"),
        ({"pulled": ("50 %", "150 %")}, "pulled", "from 0 % to 100 %"),
        ({"seam": "glue"}, "seam", "'whip', 'ladder'"),
        ({"seam_over": 0}, "seam_over", "from 1 to 20"),
        ({"baste": "1/4 in"}, "baste", "two lengths"),
        ({"baste": ("1/4 in", 0)}, "baste", "more than 0"),
        ({"working": "13 cm"}, "working", "longer than its start and end, 13 cm"),
        ({"working": 50}, "working", "text"),
        ({"start": "much"}, "start", "number"),
        ({"end": None}, "end", "text"),
        ({"waste": ("10 %",)}, "waste", "two shares"),
        ({"waste": ("10 %", "often")}, "waste", "must be a share"),
    ],
)
def test_bad_input_gets_its_sentence(change, about, says):
    with pytest.raises(HemError, match=says) as caught:
        thread_needed(piece(), **change)
    assert caught.value.about == about


@for_each(
    ("stitches", "used", "within", "about"),
    [
        (0, "27 cm", "5 %", "stitches"),
        (20.0, "27 cm", "5 %", "stitches"),
        (20, "0 cm", "5 %", "used"),
        (20, 270, "5 %", "used"),
        (20, "27 cm", "60 %", "within"),
    ],
)
def test_what_is_no_sample_is_refused(stitches, used, within, about):
    with pytest.raises(HemError) as caught:
        Sample(stitches, used, within)
    assert caught.value.about == about
    with pytest.raises(HemError, match=r"sample is .* must be a Sample"):
        thread_needed(piece()).calibrate((stitches, used))
