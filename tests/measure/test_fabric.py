"""The cloth: which count runs which way, and what the first wash takes off which side."""

from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.measure import Count, Fabric, HemError, Length

SHARES = st.fractions(min_value=0, max_value=Fraction(1, 2), max_denominator=200)
COUNTS = st.fractions(min_value=4, max_value=200, max_denominator=4).map(lambda n: Count(n, "1 in"))
SIZES = st.fractions(min_value=1, max_value=3000, max_denominator=8).map(Length)


# The axes


def test_warp_is_counted_across_and_weft_down():
    cloth = Fabric("28/in", "27/in")
    assert cloth.across == cloth.warp == Count("28/in")
    assert cloth.down == cloth.weft == Count("27/in")


def test_warp_shrinkage_shortens_down_and_weft_shrinkage_narrows_across():
    cloth = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
    assert cloth.shrink_down == Fraction(8, 100)
    assert cloth.shrink_across == Fraction(3, 100)


def test_a_cloth_of_one_count_has_it_both_ways():
    assert Fabric("28/in") == Fabric("28/in", "28/in") == Fabric(Count("28/in"), None, None, 0, 0, False)
    assert len({Fabric("28/in"), Fabric("28/in", "28/in")}) == 1


def test_a_cloth_cannot_be_changed():
    cloth = Fabric("28/in")
    with pytest.raises(AttributeError):
        cloth.washed = True


# The wash


# 300 across, 200 down, warp 8 %, weft 3 %: 300 / 0.97 = 309.3 and 200 / 0.92 = 217.4.
# Common practice, no published source: size / (1 - s), s of the threads that run that way.
def test_300_by_200_is_cut_309_3_by_217_4_before_the_wash():
    cloth = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
    across, down = cloth.unwashed_size(Length(300), Length(200))
    assert float(across.mm) == pytest.approx(309.3, abs=0.05)
    assert float(down.mm) == pytest.approx(217.4, abs=0.05)


@given(across=SIZES, down=SIZES, warp=SHARES, weft=SHARES)
def test_the_wash_brings_an_unwashed_size_back_to_what_was_cut_sizes(across, down, warp, weft):
    cloth = Fabric("28/in", shrink_warp=warp, shrink_weft=weft)
    wide, long = cloth.unwashed_size(across, down)
    assert wide - wide * weft == across
    assert long - long * warp == down


@given(across=COUNTS, down=COUNTS, warp=SHARES, weft=SHARES, size=SIZES, washed=st.booleans())
def test_no_thread_is_lost_in_the_wash(across, down, warp, weft, size, washed):
    cloth = Fabric(across, down, shrink_warp=warp, shrink_weft=weft, washed=washed)
    wide, long = cloth.unwashed_size(size, size)
    assert cloth.across_unwashed.threads_in(wide) == cloth.across_washed.threads_in(size)
    assert cloth.down_unwashed.threads_in(long) == cloth.down_washed.threads_in(size)


@given(across=COUNTS, down=COUNTS, warp=SHARES, weft=SHARES)
def test_a_cloth_counted_after_the_wash_is_the_cloth_counted_before_it(across, down, warp, weft):
    before = Fabric(across, down, shrink_warp=warp, shrink_weft=weft)
    after = Fabric(before.across_washed, before.down_washed, None, warp, weft, washed=True)
    assert (after.across_unwashed, after.down_unwashed) == (before.across, before.down)
    assert (after.across_washed, after.down_washed) == (after.across, after.down)
    assert (before.across_unwashed, before.down_unwashed) == (before.across, before.down)


@given(across=COUNTS, down=COUNTS, warp=SHARES, weft=SHARES, washed=st.booleans())
def test_counts_rise_in_the_wash_by_one_less_the_share(across, down, warp, weft, washed):
    cloth = Fabric(across, down, shrink_warp=warp, shrink_weft=weft, washed=washed)
    assert (
        cloth.across_unwashed.per_inch / (1 - weft) == cloth.across_washed.per_inch >= cloth.across.per_inch
    )
    assert cloth.down_unwashed.per_inch / (1 - warp) == cloth.down_washed.per_inch >= cloth.down.per_inch


@given(across=SIZES, down=SIZES)
def test_a_cloth_that_does_not_shrink_keeps_its_size_and_its_counts(across, down):
    cloth = Fabric("28/in", "27/in")
    assert cloth.unwashed_size(across, down) == (across, down)
    assert [count.per_inch for count in (cloth.across_washed, cloth.down_washed)] == [28, 27]
    # Both are read on the cloth in hand, so neither says when.
    assert [count.width(28).text("in") for count in (cloth.across_washed, cloth.across)] == ["1 in"] * 2
    # But a state is a state: whoever adds the two would be wrong on any other cloth.
    assert cloth.across_washed != cloth.across


def test_lengths_of_a_cloth_know_whether_it_is_washed_and_say_so_where_it_is_not_in_hand():
    raw = Fabric("28/in", shrink_warp="8 %")
    assert raw.down.width(28).text("in") == "1 in"
    assert raw.down_washed.width(28).text("in") == "≈ 15/16 in after the wash"
    washed = raw.in_hand(washed=True)
    assert washed.down.width(28).text("in") == "≈ 15/16 in"
    assert washed.down_unwashed.width(28).text("in") == "1 in before the wash"
    assert raw.down_washed.width(28) == washed.down.width(28) != raw.down.width(28)
    assert raw.in_hand(washed=False) is raw


@pytest.mark.parametrize("washed", [True, False])
def test_a_count_of_another_state_than_the_cloth_in_hand_is_refused(washed):
    raw = Fabric("28/in", shrink_warp="8 %", shrink_weft="3 %")
    other = raw.across_unwashed if washed else raw.across_washed
    with pytest.raises(
        HemError, match=r"warp is a count (before|after) the wash, but the cloth in hand is one"
    ) as refused:
        Fabric(other, washed=washed)
    # What it names as an example will do.
    assert f"for example washed={not washed}, " in str(refused.value)
    assert Fabric(other, washed=not washed).warp == other


def test_a_size_before_the_wash_is_not_taken_for_one_after_it():
    raw = Fabric("28/in", shrink_warp="8 %")
    before = raw.down.width(28)
    with pytest.raises(HemError, match="don't go together"):
        raw.unwashed_size(before, before)


# What may be given


@pytest.mark.parametrize("kind", ["shrink_warp", "shrink_weft"])
def test_a_share_is_read_as_people_give_it_and_refused_if_no_cloth_loses_it(kind):
    for share in ("8 %", "2/25", 0.08, Decimal("0.08")):
        assert getattr(Fabric("28/in", **{kind: share}), kind) == Fraction(2, 25)
    with pytest.raises(HemError) as caught:
        Fabric("28/in", **{kind: "51 %"})
    assert str(caught.value) == (
        f"{kind} is '51 %', but must be a share from 0 % to 50 %; for example '15 %' or 0.15."
    )
    assert caught.value.about == kind


def test_a_share_with_a_comma_that_may_mean_thousands_is_asked_about():
    with pytest.raises(HemError, match="may mean thousands or a decimal") as caught:
        Fabric("28/in", shrink_weft="1,000 %")
    assert caught.value.about == "shrink_weft"


COUNT = "for example '28/in' or '11/cm'."
TOO = "off, it must be from 1 to 1000 threads to the inch too; for example '28/in' and '8 %'."


@for_each(
    ("cloth", "about", "words"),
    [
        ({"warp": "28"}, "warp", f"warp: The count '28' does not say to what length it goes; {COUNT}"),
        ({"weft": 27}, "weft", f"weft: A count is written as text, not as 27; {COUNT}"),
        (
            {"thickness": "0 mm"},
            "thickness",
            "thickness is 0 mm, but must be more than nothing; for example '3/8 in'.",
        ),
        ({"washed": 1}, "washed", "washed is 1, but must be True or False; for example True."),
        (
            {"warp": "1000/in", "shrink_weft": "8 %"},
            "warp",
            f"warp is 1000/in, but after the wash, which takes 8 % {TOO}",
        ),
        (
            {"weft": "1/in", "shrink_warp": "1/3", "washed": True},
            "weft",
            f"weft is 1/in, but before the wash, which takes ≈ 33.33 % {TOO}",
        ),
    ],
)
def test_a_cloth_that_cannot_be_is_told_why(cloth, about, words):
    with pytest.raises(HemError) as caught:
        Fabric(**{"warp": "28/in", **cloth})
    assert str(caught.value) == words
    assert caught.value.about == about


def test_a_size_to_wash_may_be_text_and_is_named_when_wrong():
    cloth = Fabric("28/in", shrink_weft="3 %")
    assert cloth.unwashed_size("97 cm", "1 m") == (Length(1000), Length(1000))
    with pytest.raises(HemError, match=r"^down: A length is written as text, not as 3; "):
        cloth.unwashed_size("97 cm", 3)


def test_the_notes_say_which_is_which():
    assert Fabric("28/in", "27/in", shrink_warp="8 %").notes == (
        "Warp threads are counted across the width: 28/in.",
        "Weft threads are counted down the length: 27/in.",
        "Weft threads run across: their shrinkage takes nothing off the width.",
        "Warp threads run down: their shrinkage takes 8 % off the length.",
        "The counts were taken before the first wash.",
    )
    assert Fabric("28/in", washed=True).notes[-1] == "The counts were taken after the first wash."


READINGS = st.lists(st.integers(20, 40), min_size=1, max_size=5)


@given(READINGS, st.sampled_from(("0 %", "3 %", "8 %", "1/7")), st.booleans())
def test_the_wash_keeps_a_measured_count_measured_and_its_error_the_same_share(readings, lost, washed):
    measured = Count.measured(readings, over="1 in", confidence="90 %")
    cloth = Fabric(measured, "27/in", shrink_weft=lost, washed=washed)
    for count in (cloth.across, cloth.across_washed, cloth.across_unwashed):
        assert count.error == measured.error > 0
        assert count.readings == measured.readings
    assert cloth.across_unwashed.pitch.mm * (1 - cloth.shrink_across) == cloth.across_washed.pitch.mm
    # Each way has an error of its own.
    assert cloth.down.error == cloth.down_washed.error == 0
