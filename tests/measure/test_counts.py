"""Counts: given and measured, to the inch and to the centimetre, and how sure they are."""

import math
import random
import statistics
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import stdtrit
from units_elsewhere import elsewhere

from hemcalc.measure import Count, Fabric, HemError, Length, MeasuredCount
from hemcalc.measure.counts import as_count
from hemcalc.measure.readings import SURE, as_confidence, standard_uncertainty, students_t, threads_read
from hemcalc.measure.states import State

EXAMPLE = "for example '28/in' or '11/cm'."
PLAIN = "must be a plain number of threads, from 1 to 1000 to the inch"
INCH = Length("1 in")
COUNTS = st.fractions(min_value=1, max_value=1000, max_denominator=100).map(lambda n: Count(n, INCH))
LENGTHS = st.fractions(min_value=0, max_value=10**4, max_denominator=10**3).map(Length)

# What people type


@for_each(
    ("text", "per_inch"),
    [
        ("28/in", Fraction(28)),
        ("28 / inch", Fraction(28)),
        ('28/"', Fraction(28)),
        ("28 per inch", Fraction(28)),
        ("28per inch", Fraction(28)),
        ("28 threads per inch", Fraction(28)),
        ("28 THREADS PER INCH", Fraction(28)),
        ("28 threads/in", Fraction(28)),
        ("28 threads to the inch", Fraction(28)),
        ("1 thread per mm", Fraction(254, 10)),
        ("27.5/in", Fraction(55, 2)),
        ("27,5/in", Fraction(55, 2)),
        ("27 1/2 / in", Fraction(55, 2)),
        ("27½/in", Fraction(55, 2)),
        ("55/2/in", Fraction(55, 2)),
        ("56/2 in", Fraction(28)),
        ("14 per 1/2 in", Fraction(28)),
        ("14/½ in", Fraction(28)),
        ("10 1/2 per 3/8 in", Fraction(28)),
        ("11/cm", Fraction(2794, 100)),
        ("110/10cm", Fraction(2794, 100)),
        ("110 threads per 10 cm", Fraction(2794, 100)),
        ("208/10 cm", Fraction(208 * 254, 1000)),
        ("1008/yd", Fraction(28)),
    ],
)
def test_a_count_is_read_as_people_type_it(text, per_inch):
    assert Count(text).per_inch == per_inch


def test_the_threads_may_be_typed_too_and_the_ruler_said_apart():
    assert Count("28 1/2", "1 in") == Count("28.5/in") == Count(Fraction(57, 2), INCH)
    with pytest.raises(HemError, match=r"^count is '28 ells', .*; for example '28/in', or 28 over '1 in'\.$"):
        Count("28 ells", "1 in")


@for_each(
    ("count", "printed"),
    [
        (Count("28/in"), "Count(28/in)"),
        (Count("11/cm"), "Count(11/cm)"),
        (Count("11.5/cm"), "Count(11.5/cm)"),
        (Count("10 1/3 per cm"), "Count(≈ 10.33/cm)"),
        (Count("28/in").stated(State(washed=False)), "Count(28/in, before the wash)"),
        (
            Count.measured([28, 28, 29, 28], "1 in"),
            "MeasuredCount(28.25/in, within 2.09 % at a confidence of 95 %, 4 places counted)",
        ),
    ],
)
def test_a_count_prints_itself_in_a_line(count, printed):
    assert repr(count) == printed


@for_each(
    ("text", "words"),
    [
        *(
            (text, f"The count '{text}' does not say to what length it goes; {EXAMPLE}")
            for text in ("28", "28 count", "28/ell", "28/", "28 per -1/2 in", "28/in/in")
        ),
        *(
            (text, f"The count '{text}' must begin with a number of threads; {EXAMPLE}")
            for text in ("", "per inch", "-28/in", "٢٨/in")
        ),
        *((text, f"The count '{text}' {PLAIN}; {EXAMPLE}") for text in ("0/in", "28/0 in", "1001/in")),
        (
            "28/1/2 in",
            "The count '28/1/2 in' can be read in two ways, so write 'per' for one of its strokes; "
            "for example '28 per 1/2 in'.",
        ),
        (
            "1,100/m",
            "The comma in '1,100/m' may mean thousands or a decimal, so write a point or leave it out; "
            "for example '1.5' or '1500'.",
        ),
        (28, f"A count is written as text, not as 28; {EXAMPLE}"),
        (None, f"A count is written as text, not as None; {EXAMPLE}"),
    ],
)
def test_a_text_that_is_no_count_is_told_why(text, words):
    with pytest.raises(HemError) as caught:
        Count(text)
    assert str(caught.value) == words
    assert caught.value.about == "count"


@given(threads=st.integers(1, 1000), hundredths=st.integers(0, 99))
def test_a_count_text_with_no_sign_of_rounding_reads_back_the_same(threads, hundredths):
    count = Count(min(threads + Fraction(hundredths, 100), Fraction(1000)), INCH)
    assert "≈" not in count.text("in")
    assert Count(count.text("in")) == count


@given(count=COUNTS, unit=st.sampled_from(["in", "cm"]))
def test_a_rounded_count_says_so_and_is_off_by_half_a_hundredth_at_most(count, unit):
    exact = count.per_inch if unit == "in" else count.per_cm
    figure = Fraction(count.text(unit).removeprefix("≈ ").removesuffix(f"/{unit}"))
    assert -Fraction(1, 200) < figure - exact <= Fraction(1, 200)
    assert count.text(unit).startswith("≈ ") == (figure != exact)


@for_each(
    ("text", "unit", "printed"),
    [
        ("28/in", "in", "28/in"),
        ("28/in", "cm", "≈ 11.02/cm"),
        ("28/in", "mm", "≈ 11.02/cm"),
        ("11/cm", "in", "27.94/in"),
        ("28.125/in", "in", "≈ 28.13/in"),
        ("28.145/in", "in", "≈ 28.15/in"),
    ],
)
def test_a_count_prints_to_the_hundredth_half_up(text, unit, printed):
    assert Count(text).text(unit) == printed


@given(
    threads=st.integers(10, 200),
    over=st.sampled_from(("1 in", "1/2 in", "4 in", "1 cm", "35 mm", "10 cm")),
    # An inch is 127/5 mm: these leave or take a 127 that is none of the ruler's.
    lost=st.integers(0, 20) | st.sampled_from(("11.1", "4.75", "23.8", "17.45")),
)
def test_a_count_prints_in_the_unit_in_which_it_was_counted_whatever_the_wash_takes(threads, over, lost):
    cloth = Fabric(Count(threads, over), shrink_warp=f"{lost} %", shrink_weft=f"{lost} %")
    unit = "in" if "in" in over else "cm"
    for count in (cloth.across, cloth.down_washed, cloth.in_hand(washed=True).down_unwashed):
        assert count.unit == unit
        assert str(count) == count.text() == count.text(unit)


def test_a_count_to_an_unknown_length_is_refused():
    with pytest.raises(
        HemError, match=r"^unit is 'yd', but must be one of 'in', 'cm', 'mm'; for example 'in'\.$"
    ):
        Count("28/in").text("yd")


# Numbers of threads to a length


def test_28_to_the_inch_has_a_pitch_of_127_140ths_of_a_millimetre():
    assert Count("28/in").pitch == Length(Fraction(127, 140))


@given(COUNTS)
def test_a_count_converts_as_an_independent_library_does(count):
    reference = elsewhere(count.per_inch, "1 / inch")
    assert count.per_cm == reference.to("1 / centimeter").magnitude
    assert count.per_mm == reference.to("1 / millimeter").magnitude


@given(COUNTS)
def test_the_pitch_is_one_by_the_count(count):
    assert count.pitch.mm * count.per_mm == 1
    assert count.pitch * count.per_inch == INCH


@given(count=COUNTS, threads=st.integers(0, 10**6))
def test_a_width_counted_in_threads_holds_as_many(count, threads):
    assert count.threads_in(count.width(threads)) == threads


@given(count=COUNTS, length=LENGTHS)
def test_the_threads_of_a_length_are_as_wide(count, length):
    assert count.width(count.threads_in(length)) == length
    assert count.threads_in(length) == count.threads_in(f"{length.mm} mm")


@pytest.mark.parametrize(
    "other",
    [Count(280, "10 in"), Count(Decimal("14.0"), "0.5 in")],
    ids=str,
)
def test_counts_as_fine_are_equal_and_hash_alike(other):
    assert Count("28/in") == other
    assert hash(Count("28/in")) == hash(other)


def test_measured_counts_are_equal_if_their_readings_are_and_never_equal_a_given_one():
    count = Count.measured([28, 29, 27], over="1 in")
    same = Count.measured(["27", "29", "28"], over="25.4 mm")
    assert count == same
    assert hash(count) == hash(same)
    others = (
        Count("28/in"),
        Count.measured([28], over="1 in"),
        Count.measured([28, 28, 28], over="1 in"),
        Count.measured([56, 58, 54], over="2 in"),
        Count.measured([28, 29, 27], over="1 in", confidence="90 %"),
    )
    assert {count.per_inch for count in others} == {28}
    assert len({count, same, *others}) == 1 + len(others)
    for other in others:
        assert count != other
        assert other != count


def test_a_count_is_no_number():
    assert Count("28/in") != 28
    assert Count("28/in") != "28/in"
    assert Count("28/in") != Count("28/cm")


def test_a_count_cannot_be_changed():
    count = Count("28/in")
    with pytest.raises(AttributeError):
        count.threads = Fraction(30)


@for_each(
    ("threads", "over", "words"),
    [
        (
            28.0,
            "1 in",
            "count is 28.0, but must be an exact number of ordinary size, an int, a Fraction or a Decimal; "
            "for example '28/in', or 28 over '1 in'.",
        ),
        (1, "0.001 mm", f"count is 1 over ≈ 0 mm, but {PLAIN}; {EXAMPLE}"),
        (Fraction(99, 100), "1 in", f"count is 99/100 over 25.4 mm, but {PLAIN}; {EXAMPLE}"),
        (
            28 + Fraction(1, 10**400),
            "1 in",
            f"count is a fraction of about 402 digits over 25.4 mm, but {PLAIN}; {EXAMPLE}",
        ),
        (28, "0 in", "over is 0 mm, but must be more than nothing; for example '3/8 in'."),
    ],
)
def test_threads_that_make_no_count_are_told_why(threads, over, words):
    with pytest.raises(HemError) as caught:
        Count(threads, over)
    assert str(caught.value) == words


@pytest.mark.parametrize("given_as", ["28/in", Count("28/in")], ids=["text", "Count"])
def test_a_count_may_be_text_or_a_count(given_as):
    assert as_count(given_as).per_inch == 28


def test_a_wrong_count_is_named():
    with pytest.raises(HemError) as caught:
        as_count("28", "weft")
    assert str(caught.value) == f"weft: The count '28' does not say to what length it goes; {EXAMPLE}"
    assert caught.value.about == "weft"


# Measured


def test_several_readings_give_a_mean_and_a_spread():
    count = Count.measured([112, 113, "112 1/2", Fraction(225, 2)], over="4 in")
    assert count.mean == Fraction(225, 2)
    assert count.per_inch == Fraction(225, 8)
    assert count.spread == 1
    assert count.readings == (112, 113, Fraction(225, 2), Fraction(225, 2))


@for_each(
    ("readings", "said"),
    [
        ([], "is empty, but must have one number of threads at least"),
        ("28", "is '28', but must be a list of one or more numbers of threads"),
        (28, "is 28, but must be a list of one or more numbers of threads"),
        ({28}, "is a set, but must be a list of one or more numbers of threads"),
    ],
)
def test_readings_that_are_no_list_are_told_why(readings, said):
    with pytest.raises(HemError) as caught:
        Count.measured(readings, over="1 in")
    assert str(caught.value) == f"readings {said}; for example [28, 28, 29]."
    assert caught.value.about == "readings"


@for_each("reading", [0, -1, 28.5, True, None, "28 or so", "28/in", "1,000", [28]])
def test_a_reading_that_is_no_number_of_threads_is_told_why(reading):
    with pytest.raises(
        HemError, match=r"^A reading is .*, but must be a number of threads, more than none; "
    ) as caught:
        threads_read([28, reading])
    assert caught.value.about == "readings"


@pytest.mark.parametrize(
    ("over", "words"),
    [
        ("0 in", "over is 0 mm, but must be more than nothing; for example '3/8 in'."),
        ("4", "over: The length '4' has no unit, but it needs in, cm, mm, m, ft or yd;"),
    ],
)
def test_a_ruler_of_no_length_is_refused(over, words):
    with pytest.raises(HemError) as caught:
        Count.measured([28], over=over)
    assert str(caught.value).startswith(words)
    assert caught.value.about == "over"


def test_a_measured_count_is_made_from_its_readings_only():
    with pytest.raises(HemError, match=r"^A measured count is the mean of its readings, so it is made from "):
        MeasuredCount(28, INCH, (Fraction(29),))
    with pytest.raises(HemError, match=r"^readings is empty, but must have one number of threads at least; "):
        MeasuredCount(28, INCH)


def read_with_a_ruler(dice: random.Random, length: float) -> int:
    """Lay a ruler of this many pitches down anywhere and count from mark to mark.

    Each mark is read to the nearest thread, so each end is right to half a thread.
    """
    start = dice.uniform(0, 1)
    return round(start + length) - round(start)


def test_one_reading_is_off_by_0_41_of_a_thread_and_never_by_a_whole_one():
    dice = random.Random(1)
    lengths = [dice.uniform(20, 40) for _ in range(20_000)]
    errors = [read_with_a_ruler(dice, length) - length for length in lengths]
    assert statistics.pstdev(errors) == pytest.approx(standard_uncertainty([Fraction(28)]), rel=0.02)
    assert max(map(abs, errors)) < 1
    assert round(standard_uncertainty([Fraction(28)]), 2) == 0.41


@pytest.mark.parametrize("many", [2, 5, 10])
def test_the_mean_of_several_readings_is_as_sure_as_their_root(many):
    dice = random.Random(many)
    errors = []
    for _ in range(6000):
        length = dice.uniform(20, 40)
        errors.append(statistics.fmean(read_with_a_ruler(dice, length) for _ in range(many)) - length)
    assert statistics.pstdev(errors) == pytest.approx(standard_uncertainty([Fraction(28)] * many), rel=0.03)


def test_a_cloth_that_varies_more_than_the_ruler_is_judged_by_its_spread():
    readings = [20, 24, 28, 32]
    assert Count.measured(readings, over="1 in").plus_minus == pytest.approx(statistics.stdev(readings) / 2)


# Of one cloth: readings that are as unlike as 2 and 5 say nothing of it, and are refused.
READINGS = st.tuples(
    st.integers(40, 900), st.lists(st.fractions(0, 5, max_denominator=2), min_size=1, max_size=8)
).map(lambda drawn: [drawn[0] + more for more in drawn[1]])


@given(READINGS)
def test_the_mean_lies_within_the_readings_and_its_error_shrinks_with_them(readings):
    count = Count.measured(readings, over="1 in")
    assert min(readings) <= count.mean <= max(readings)
    assert count.spread == max(readings) - min(readings)
    assert count.plus_minus >= math.sqrt(1 / 6 / len(readings)) * (1 - 1e-12)


@given(threads=st.integers(2, 900), size=LENGTHS, longer=st.integers(2, 9))
def test_a_longer_ruler_makes_every_size_as_much_surer(threads, size, longer):
    short = Count.measured([threads], over="1 in")
    long = Count.measured([threads * longer], over=INCH * longer)
    assert short.per_mm == long.per_mm
    assert long.plus_minus_mm(size) == pytest.approx(short.plus_minus_mm(size) / longer)
    assert long.relative_worst == short.relative_worst / longer


@given(READINGS, LENGTHS)
def test_the_error_of_the_count_carries_into_a_size_in_proportion(readings, size):
    count = Count.measured(readings, over="1 in")
    assert count.relative == pytest.approx(count.plus_minus / float(count.mean))
    assert count.plus_minus_mm(size) == pytest.approx(float(size.mm) * count.relative)


@given(readings=READINGS, threads=st.integers(0, 500), off=st.sampled_from([-1, 1]) | st.fractions(-1, 1))
def test_no_count_a_thread_off_makes_a_size_worse_than_the_worst(readings, threads, off):
    count = Count.measured(readings, over="1 in")
    planned = count.width(threads)
    true = INCH * threads / (count.mean + off)
    gap = true - planned if true > planned else planned - true
    assert gap <= count.worst(planned)
    if off == -1:
        assert gap == count.worst(planned)


def test_a_count_of_one_thread_bounds_no_size():
    with pytest.raises(HemError) as caught:
        Count.measured([1] * 8, over="1 cm").worst("10 cm")
    assert str(caught.value) == (
        "A count of 1 over 10 mm bounds no size, so count over a longer stretch; for example over '4 in'."
    )


# What a cut allows for


CONFIDENCES = st.fractions(Fraction(1, 2), Fraction(999, 1000), max_denominator=1000)
SURE_READINGS = st.lists(st.fractions(min_value=20, max_value=40, max_denominator=2), min_size=1, max_size=8)


@given(COUNTS, st.integers(0, 10**6))
def test_a_given_count_has_no_error_and_its_sizes_stay_as_they_are(count, threads):
    assert count.error == 0
    assert count.sure_width(threads) == count.width(threads)
    assert count.sure_threads_in(count.width(threads)) == threads


@given(SURE_READINGS, CONFIDENCES)
def test_the_error_is_students_t_times_the_uncertainty_in_millionths_upward(readings, confidence):
    count = Count.measured(readings, "1 in", confidence)
    t = stdtrit(len(readings) + 3, (1 + float(confidence)) / 2)
    assert float(count.error) == pytest.approx(t * count.relative, abs=1.1e-6)
    assert (count.error * 10**6).denominator == 1
    assert count.error >= t * count.relative * (1 - 1e-9)


@given(SURE_READINGS, st.integers(2, 4), CONFIDENCES)
def test_more_readings_of_the_same_spread_never_widen(readings, times, confidence):
    count = Count.measured(readings, "1 in", confidence)
    again = Count.measured(readings * times, "1 in", confidence)
    assert again.mean == count.mean
    assert again.error < count.error
    assert again.sure_width(300) < count.sure_width(300)
    errors = [count.error_with(places) for places in range(len(readings), len(readings) + 12)]
    assert errors == sorted(errors, reverse=True)
    with pytest.raises(HemError, match="places is 0, but must be a whole number of places, 1 or more"):
        count.error_with(0)


@given(SURE_READINGS, CONFIDENCES, CONFIDENCES)
def test_surer_is_never_narrower(readings, one, other):
    less, more = (Count.measured(readings, "1 in", sure) for sure in sorted((one, other)))
    assert less.error <= more.error
    assert less.sure_width(300) <= more.sure_width(300)


@given(SURE_READINGS, st.integers(1, 500))
def test_what_is_wide_enough_for_sure_has_its_threads_for_sure(readings, threads):
    count = Count.measured(readings, over="1 in")
    wide = count.sure_width(threads)
    assert wide > count.width(threads)
    assert count.sure_threads_in(wide) == threads
    # By the finest count that it may be, and by the coarsest.
    assert wide * (count.per_mm * (1 - count.error)) == Length(threads)


def test_a_count_that_may_be_off_by_all_of_itself_makes_no_size():
    with pytest.raises(HemError) as caught:
        Count.measured([1], over="1 cm").sure_width(100)
    assert str(caught.value) == (
        "A mean of 1 may be off by all of itself, so count over a longer stretch; for example over '4 in'."
    )


def test_a_confidence_that_is_none_is_refused_with_the_count():
    with pytest.raises(HemError, match=r"^confidence is '100 %', but must be from 50 % to 99\.9 %, "):
        Count.measured([28], over="1 in", confidence="100 %")


@pytest.mark.parametrize(("sure", "most"), [("80 %", 0.2), ("95 %", 0.05), ("99 %", 0.01)])
@pytest.mark.parametrize("many", [1, 3])
def test_a_ruler_on_even_cloth_errs_by_more_no_oftener_than_is_said(sure, most, many):
    dice = random.Random(f"{sure} {many}")
    beyond = [0, 0]
    for _ in range(2000):
        true = dice.uniform(20, 40)
        count = Count.measured([read_with_a_ruler(dice, true) for _ in range(many)], "1 in", sure)
        beyond[0] += true < count.mean * (1 - count.error)
        beyond[1] += true > count.mean * (1 + count.error)
    # Each side has half of what the confidence leaves; four deviations for the luck of the dice.
    allowed = 2000 * most / 2
    assert max(beyond) <= allowed + 4 * math.sqrt(allowed)


# Confidences, and Student's t held against another library


@given(CONFIDENCES, st.integers(1, 400))
def test_students_t_is_what_another_library_gives(confidence, freedom):
    theirs = stdtrit(freedom, (1 + float(confidence)) / 2)
    assert students_t(confidence, freedom) == pytest.approx(theirs, rel=1e-9)


@given(CONFIDENCES, CONFIDENCES, st.integers(1, 100))
def test_surer_is_wider_and_more_freedom_is_narrower(one, other, freedom):
    assert students_t(min(one, other), freedom) <= students_t(max(one, other), freedom)
    assert students_t(one, freedom + 1) < students_t(one, freedom)


@for_each("given_as", ["95 %", "95%", "0.95", 0.95, Fraction(19, 20), "19/20"])
def test_a_confidence_may_be_written_as_any_share(given_as):
    assert as_confidence(given_as) == SURE


@for_each("given_as", ["100 %", 1, "49.9 %", 0, 95, "95", "sure", None, True, -0.95])
def test_what_is_no_confidence_is_told_why(given_as):
    with pytest.raises(
        HemError, match=r"^confidence is .*, but must be from 50 % to 99\.9 %, since no"
    ) as no:
        as_confidence(given_as)
    assert no.value.about == "confidence"


@pytest.mark.parametrize(("most", "beyond"), [("1000/in", "1001/in"), ("1/in", "0.99/in")])
def test_the_counts_that_a_refusal_allows_are_taken(most, beyond):
    assert Count(most).per_inch in (1, 1000)
    with pytest.raises(HemError, match="from 1 to 1000 to the inch"):
        Count(beyond)
