"""The edge's ledger, its rounding in words, and the margin rule held against it."""

import decimal
from decimal import Decimal
from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.edge import Band, MarginRule, plan_edge
from hemcalc.edge.ledger import HemChoice
from hemcalc.edge.rule_tables import rule_table
from hemcalc.measure import Count, HemError, Length
from hemcalc.measure.exact import MAX_THREADS

INCH = Length("1 in")
COUNTS = st.fractions(min_value=10, max_value=60, max_denominator=8).map(lambda n: Count(n, INCH))
THREADS = st.integers(0, 300)
HEMS = st.integers(1, 300)
HEM_LENGTHS = st.fractions(min_value=2, max_value=80, max_denominator=64).map(Length)


@st.composite
def edges(draw):
    """Any edge that can be planned in threads."""
    hem = draw(HEMS)
    turn = draw(st.none() | st.integers(0, hem))
    return plan_edge(
        draw(COUNTS), hem, clear=draw(THREADS), drawn=draw(HEMS), turn=turn, handling=draw(THREADS)
    )


# The ledger


# 28 threads/in, hem 3/8 in: 10 1/2 threads, so 11; turn 5 1/2, so 6. Sum by hand: 8 + 2 + 22 + 6 = 38.
# Common practice of the trade, no published source.
def test_the_ledger_numbers_every_band_from_the_design_outward():
    edge = plan_edge("28/in", "3/8 in", clear=8)
    assert edge.bands == (
        Band("clear", 1, 8),
        Band("drawn", 9, 10),
        Band("face", 11, 21),
        Band("back", 22, 32),
        Band("turn", 33, 38),
    )
    assert (edge.fold_1, edge.fold_2, edge.cut, edge.total) == (21, 32, 38, 38)


@given(edges())
def test_the_ledger_has_no_gap_and_sums_to_the_total(edge):
    threads = [thread for band in edge.bands for thread in range(band.first, band.last + 1)]
    assert threads == list(range(1, edge.total + 1))
    assert sum(band.threads for band in edge.bands) == edge.total
    assert edge.total == edge.clear + edge.drawn + 2 * edge.hem + edge.turn


@given(edges())
def test_bands_keep_their_order_and_one_of_no_threads_is_left_out(edge):
    names = [band.name for band in edge.bands]
    assert names == [name for name in ("clear", "drawn", "face", "back", "turn") if name in names]
    assert ("clear" in names) == (edge.clear > 0)
    assert ("turn" in names) == (edge.turn > 0)
    assert {"drawn", "face", "back"} <= set(names)


@given(edges())
def test_each_line_runs_where_its_bands_meet(edge):
    band = {band.name: band for band in edge.bands}
    assert edge.first_drawn == band["drawn"].first == edge.clear + 1
    assert edge.open_line == band["drawn"].last
    assert edge.fold_1 == band["face"].last == band["back"].first - 1
    assert edge.fold_2 == band["back"].last
    assert edge.cut == edge.bands[-1].last == edge.total


@given(edges())
def test_fold_2_lands_on_the_open_line_when_the_hem_is_closed(edge):
    assert edge.fold_1 - (edge.fold_2 - edge.fold_1) == edge.open_line


@given(edges())
def test_widths_are_threads_at_the_pitch_of_the_cloth(edge):
    assert edge.hem_width == edge.count.pitch * edge.hem
    assert edge.turn_width == edge.count.pitch * edge.turn
    assert edge.draw_line == edge.hem_width * 2 + edge.turn_width


@given(count=COUNTS, hem=HEM_LENGTHS, clear=THREADS, scale=st.integers(2, 9))
def test_a_finer_cloth_and_a_hem_as_much_smaller_take_the_same_threads(count, hem, clear, scale):
    finer = Count(count.threads * scale, count.over)
    edge, small = plan_edge(count, hem, clear=clear), plan_edge(finer, hem / scale, clear=clear)
    assert edge.bands == small.bands
    assert edge.rule.slack == small.rule.slack
    assert edge.hem_width == small.hem_width * scale


def test_the_same_edge_comes_from_text_and_from_what_it_says():
    from_text = plan_edge("28/in", "3/8 in", clear=8, turn="1/4 in", handling="1 cm")
    made = plan_edge(
        Count("28/in"),
        Length("3/8 in"),
        clear=8,
        turn=Length("1/4 in"),
        handling=Length("1 cm"),
    )
    assert from_text.bands == made.bands
    assert from_text.rule == made.rule
    assert plan_edge("28/in", "1/2 in", clear=6) == plan_edge("28/in", 14, clear=6)


# The turn


@given(count=COUNTS, hem=HEMS)
def test_the_turn_is_half_the_hem_half_a_thread_going_up_unless_given(count, hem):
    turn = plan_edge(count, hem, clear=0).turn
    assert turn == Decimal(hem / 2).quantize(Decimal(1), rounding=decimal.ROUND_HALF_UP)
    assert 0 < turn <= hem


def test_no_turn_makes_fold_2_the_cut_and_is_said_to_leave_the_edge_open():
    edge = plan_edge("28/in", 11, clear=8, turn=0)
    assert edge.fold_2 == edge.cut
    assert [band.name for band in edge.bands] == ["clear", "drawn", "face", "back"]
    assert edge.notes == ("With no turn the raw edge stays open under the hem and may fray.",)


def test_a_turn_of_the_whole_hem_is_taken_as_for_sheer_cloth():
    edge = plan_edge("28/in", "3/8 in", clear=8, turn="3/8 in")
    assert edge.turn == edge.hem == 11


@pytest.mark.parametrize(
    ("hem", "turn", "words"),
    [
        (16, 17, "turn is 17 threads, but must be no wider than the hem, 16 threads; for example 8."),
        (1, 2, "turn is 2 threads, but must be no wider than the hem, 1 thread; for example 1."),
        (
            "3/8 in",
            "1/2 in",
            "turn is 14 threads, but must be no wider than the hem, 11 threads; for example 6.",
        ),
    ],
)
def test_a_turn_wider_than_the_hem_is_refused(hem, turn, words):
    with pytest.raises(HemError) as caught:
        plan_edge("28/in", hem, clear=8, turn=turn)
    assert str(caught.value) == words
    assert caught.value.about == "turn"


# Rounding


@given(count=COUNTS, hem=HEM_LENGTHS)
def test_a_hem_asked_for_as_a_length_becomes_the_nearest_thread_half_up(count, hem):
    edge = plan_edge(count, hem, clear=0)
    with decimal.localcontext(prec=50):
        threads = Decimal((hem / count.pitch).numerator) / Decimal((hem / count.pitch).denominator)
        assert edge.hem == threads.quantize(Decimal(1), rounding=decimal.ROUND_HALF_UP)


@given(count=COUNTS, hem=HEM_LENGTHS)
def test_the_neighbours_are_no_nearer_to_what_was_asked(count, hem):
    edge = plan_edge(count, hem, clear=0)
    off = {choice.threads: abs(choice.width.mm - hem.mm) for choice in edge.choices}
    assert [choice.width for choice in edge.choices] == [count.pitch * threads for threads in off]
    assert off[edge.hem] == min(off.values())


@pytest.mark.parametrize(
    ("hem", "choices"),
    [
        pytest.param(11, [(10, True), (11, False), (12, True)], id="odd"),
        pytest.param(16, [(15, False), (16, True), (17, False)], id="even"),
        pytest.param(1, [(1, False), (2, True)], id="one thread has no narrower neighbour"),
    ],
)
def test_the_choices_mark_which_hems_halve_evenly(hem, choices):
    edge = plan_edge("28/in", hem, clear=8)
    assert [(choice.threads, choice.even) for choice in edge.choices] == choices
    assert HemChoice(hem, edge.hem_width) in edge.choices


@given(count=COUNTS, handling=st.fractions(0, 100, max_denominator=64).map(Length))
def test_handling_asked_for_as_a_length_is_always_rounded_up(count, handling):
    threads = plan_edge(count, 16, clear=8, handling=handling).handling
    assert count.width(threads) >= handling
    assert threads == 0 or count.width(threads - 1) < handling


HALF = "The turn of half the hem is 5 1/2 threads, rounded up to 6."
WIDER = "The hem of 3/8 in is 10 1/2 threads, rounded to 11: it finishes 1/2 thread wider."


@for_each(
    ("asked", "words"),
    [
        ({"hem": 16}, "Nothing was rounded."),
        ({"hem": "1/2 in"}, "Nothing was rounded."),
        ({"hem": 11}, HALF),
        ({"hem": 1}, "The turn of half the hem is 1/2 thread, rounded up to 1."),
        ({"hem": 11, "turn": 5}, "Nothing was rounded."),
        ({"hem": "3/8 in", "turn": 6}, WIDER),
        (
            {"hem": Length("5/16 in"), "turn": 4},
            "The hem of 5/16 in is 8 3/4 threads, rounded to 9: it finishes 1/4 thread wider.",
        ),
        (
            {"hem": Length(10), "turn": 4},
            "The hem of 10 mm is about 11.02 threads, rounded to 11: it finishes about 0.02 thread narrower.",
        ),
        (
            {"hem": " 1.2  in ", "turn": 4},
            "The hem of 1.2 in is 33.6 threads, rounded to 34: it finishes 0.4 thread wider.",
        ),
        (
            {"hem": "0.9999 in", "turn": 4},
            "The hem of 0.9999 in is about 28 threads, rounded to 28: "
            "it finishes less than 0.01 thread wider.",
        ),
        (
            {"hem": 12, "turn": "1/8 in"},
            "The turn of 1/8 in is 3 1/2 threads, rounded to 4: it finishes 1/2 thread wider.",
        ),
        (
            {"hem": 12, "turn": "0.01 in"},
            "The turn of 0.01 in is 0.28 thread, rounded to 0: it finishes 0.28 thread narrower.",
        ),
        ({"hem": 12, "handling": "1 cm"}, "Handling of 1 cm is about 11.02 threads, rounded up to 12."),
        (
            {"hem": "3/8 in", "handling": "1/3 in"},
            f"{WIDER} {HALF} Handling of 1/3 in is about 9.33 threads, rounded up to 10.",
        ),
    ],
)
def test_what_was_rounded_is_said_in_words(asked, words):
    assert plan_edge("28/in", clear=8, **asked).rounding == words


OPEN = "With no turn the raw edge stays open under the hem and may fray."
BOOKS = "The books draw 2 to 10 threads for a plain hem stitch; this edge draws"
ODD = "doesn't halve evenly for the turn;"


@for_each(
    ("asked", "notes"),
    [
        ({"hem": 16}, []),
        ({"hem": 11}, [f"A hem of 11 threads {ODD} 10 or 12 threads would."]),
        ({"hem": 1}, [f"A hem of 1 thread {ODD} 2 threads would."]),
        ({"hem": 11, "turn": 5}, []),
        ({"hem": 16, "drawn": 1}, [f"{BOOKS} 1."]),
        ({"hem": 16, "drawn": 11, "turn": 0}, [OPEN, f"{BOOKS} 11."]),
    ],
)
def test_the_notes_say_what_the_reader_should_know(asked, notes):
    assert list(plan_edge("28/in", clear=8, **asked).notes) == notes


# The margin rule


# Hem 4, clear 8, drawn 2, turn 2: rule 4 x 4 = 16, need 8 + 2 + 8 + 2 = 20.
# Common practice of the trade, no published source.
def test_the_rule_fails_for_a_narrow_hem_with_a_wide_clear_band():
    rule = plan_edge("28/in", 4, clear=8).rule
    assert (rule.rule, rule.need, rule.slack, rule.holds, rule.margin) == (16, 20, -4, False, 20)
    assert rule.rule_length.text("in") == "≈ 9/16 in"
    assert rule.slack_length == Count("28/in").width(4)


@given(edges())
def test_the_rule_is_four_hems_and_the_need_is_the_ledger_and_handling(edge):
    rule = edge.rule
    assert rule.rule == 4 * edge.hem
    assert rule.need == edge.total + edge.handling
    assert rule.slack == rule.rule - rule.need
    assert rule.holds == (rule.need <= rule.rule)
    assert rule.margin == max(rule.rule, rule.need)


@given(edges())
def test_the_rule_in_lengths_says_the_same_as_in_threads(edge):
    rule = edge.rule
    assert rule.rule_length == edge.hem_width * 4
    assert rule.need_length == edge.count.pitch * (edge.total + edge.handling)
    assert rule.margin_length == max(rule.rule_length, rule.need_length)
    longer, shorter = sorted([rule.rule_length, rule.need_length], reverse=True)
    assert rule.slack_length == longer - shorter


@given(count=COUNTS, hem=HEMS, clear=THREADS, drawn=HEMS, handling=THREADS)
def test_with_half_the_hem_turned_the_rule_holds_when_three_half_hems_cover_the_rest(
    count, hem, clear, drawn, handling
):
    edge = plan_edge(count, hem, clear=clear, drawn=drawn, handling=handling)
    assert edge.rule.holds == (Fraction(3 * hem, 2) >= clear + drawn + handling)


def test_a_rule_that_leaves_exactly_what_is_needed_holds():
    rule = plan_edge("28/in", 8, clear=10).rule
    assert (rule.rule, rule.need, rule.slack, rule.holds) == (32, 32, 0, True)
    assert not rule.slack_length


@given(edges())
def test_handling_adds_to_the_need_and_to_nothing_else(edge):
    more = plan_edge(
        edge.count,
        edge.hem,
        clear=edge.clear,
        drawn=edge.drawn,
        turn=edge.turn,
        handling=edge.handling + 5,
    )
    assert more.bands == edge.bands
    assert more.rule == MarginRule(edge.count, edge.rule.rule, edge.rule.need + 5)


# What is refused


WHOLE = "but must be a whole number of threads"
LENGTH = "or a length such as '1/2 in'; for example"
READ = "for example '3/8 in', '1 cm' or '9.5 mm'."


@for_each(
    ("about", "value", "words"),
    [
        ("hem", 0, f"hem is 0, {WHOLE}, 1 or more, {LENGTH} 16."),
        ("hem", 8.5, f"hem is 8.5, {WHOLE}, 1 or more, {LENGTH} 16."),
        ("hem", "8", f"hem: The length '8' has no unit, but it needs in, cm, mm, m, ft or yd; {READ}"),
        ("hem", "0 in", "hem is 0 mm, but must be more than nothing; for example '3/8 in'."),
        (
            "hem",
            "1/100  mm",
            "hem is 1/100 mm, less than half a thread of this cloth (28/in), but must come out at 1 thread "
            "or more; for example '3/8 in'.",
        ),
        (
            "hem",
            "10000 m",
            "hem is 10000 m, but at most 10,000,000 threads can be planned; for example '3/8 in'.",
        ),
        ("clear", "8", f"clear is '8', {WHOLE}, 0 or more; for example 8."),
        ("clear", -1, f"clear is -1, {WHOLE}, 0 or more; for example 8."),
        ("drawn", 0, f"drawn is 0, {WHOLE}, 1 or more; for example 2."),
        ("turn", True, f"turn is True, {WHOLE}, 0 or more, {LENGTH} 8."),
        ("handling", None, f"handling is None, {WHOLE}, 0 or more, {LENGTH} 8."),
        ("handling", "-1 cm", f"handling: The length '-1 cm' is negative, but it must be 0 or more; {READ}"),
        ("count", 28, "A count is written as text, not as 28; for example '28/in' or '11/cm'."),
    ],
)
def test_an_edge_that_cannot_be_planned_is_told_why(about, value, words):
    with pytest.raises(HemError) as caught:
        plan_edge(**{"count": "28/in", "hem": 16, "clear": 8, about: value})
    assert str(caught.value) == words
    assert caught.value.about == about


def test_the_widest_edge_on_the_coarsest_cloth_still_has_its_lengths():
    most = MAX_THREADS
    rule = plan_edge("1/in", most, clear=most, drawn=most, turn=most, handling=most).rule
    assert rule.need_length == INCH * (6 * most)


def test_a_table_of_the_rule_may_be_as_large_as_is_said_and_no_larger():
    assert rule_table("28/in", range(1, 1001), (8,)).at(4, 8).slack == 16 - 20
    for hems, clears in ((range(1, 1002), (8,)), ((4,), range(1001)), ((), (8,))):
        with pytest.raises(HemError, match="must have from 1 to 1000"):
            rule_table("28/in", hems, clears)
