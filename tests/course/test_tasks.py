"""Short sums: right by the library, with slips that are wrong, and no short cut that serves."""

import math
import re
from collections import Counter
from fractions import Fraction
from functools import cache
from itertools import pairwise

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import Count, Fabric, HemError, Length, cut_from_bolt, plan_corner, plan_edge, space_stitches
from hemcalc.course import next_of, task
from hemcalc.course.mixing import MIXED, with_answers
from hemcalc.course.tasks import TOPICS
from hemcalc.stitch import needlefuls
from hemcalc.sums.progress import Done, Progress
from hemcalc.sums.verdict import HALF_STEP

SEEDS = range(300)
kept = cache(task)


def told(sums):
    """The numbers that are told, in their order."""
    return [Fraction(figure) for figure in re.findall(r"\d+(?:\.\d+)?", sums.text())]


def ours(sums):
    """What the library says, of the numbers told."""
    n = told(sums)
    if sums.topic == "count":
        over, first, second, third, size = n
        return Count.measured([int(first), int(second), int(third)], f"{over} in").threads_in(f"{size} in")
    if sums.topic == "spacing":
        wide, left, right, group = map(int, n)
        side = wide + left + right
        return next(more for more in range(group) if not space_stitches(side + more, group).off_size)
    if sums.topic == "corner":
        hem, turn = map(int, n[:2])
        edge = plan_edge("10/cm", hem, turn=turn, clear=4)
        corner = plan_corner(edge, edge)
        if "trimmed through" in sums.text():
            return round(corner.legs_mm[0])
        # The fold meets x + y = 2 hem; the raw edge lies at 2 hem + turn.
        raw = int(corner.raw_corner[0])
        return raw - (2 * hem - raw)
    if sums.topic == "thread":
        takes, working, start, end = n
        return needlefuls(float(takes * 10), Length(working * 10), Length((start + end) * 10))
    if sums.topic == "wash":
        loses, given = n
        fabric = Fabric("10/cm", shrink_weft=Fraction(loses, 100))
        if "is it before the wash" in sums.text():
            return fabric.unwashed_size(Length(given * 10), Length(10))[0].mm
        return given * 10 * (1 - Fraction(loses, 100))
    pieces, across, down, wide, unit = n[:5]
    mats = [("piece", f"{across} cm", f"{down} cm", int(pieces))]
    return cut_from_bolt(mats, f"{wide} cm", unit="10 cm").to_buy.cm / unit


@pytest.mark.parametrize("topic", TOPICS)
def test_the_key_is_what_the_library_says_and_can_be_done_on_paper(topic):
    for seed in SEEDS[: 40 if topic == "bolt" else 100]:
        sums = kept(topic, seed)
        right = sums.right.mm if isinstance(sums.right, Length) else sums.right
        assert right == ours(sums), sums.text()
        assert sums.working.value > 0
        assert (100 * sums.working.value).denominator == 1
        assert sums.line(1).count("…") == 1
        assert sums.check(str(float(sums.working.value))).right
        assert not re.search(r"\d\.0\b", sums.text())


@pytest.mark.parametrize("topic", TOPICS)
def test_each_slip_is_wrong_and_named(topic):
    for seed in SEEDS:
        sums = kept(topic, seed)
        for clause, working in sums.slips.items():
            given = Length(working.value * 10) if sums.of == "cm" else working.value
            if working.value >= 0 and (sums.of == "cm" or working.value.denominator == 1):
                assert sums.check(given).right is False
                assert clause in sums.check(given).text()
            if sums.of == "cm":  # a ruler tells the two apart
                assert abs(working.value - sums.working.value) * 10 > 2 * HALF_STEP


# A slip that gave the right answer would keep a kind of sum from ever being set.
@for_each(
    ("topic", "words", "least"),
    [
        ("wash", "is it before the wash", 100),
        ("wash", "is it after the wash", 100),
        ("corner", "trimmed through", 30),
    ],
)
def test_of_sums_of_two_kinds_both_are_set(topic, words, least):
    assert least < sum(words in kept(topic, seed).text() for seed in SEEDS) < len(SEEDS) - least


def slips_on_paper(sums):
    """What each slip gives, worked from the numbers told, in the order of the clauses."""
    n, up = told(sums), math.ceil
    if sums.topic == "count":
        over, first, second, third, size = n
        every = first + second + third
        return first * size / over, third * size / over, every * size / over, every / 3 * size
    if sums.topic == "spacing":
        wide, left, right, group = n
        return (wide + left + right) % group, -wide % group, -(wide + left) % group
    if sums.topic == "corner":
        hem, turn = n[:2]
        if "trimmed through" in sums.text():
            return turn, hem, 2 * (hem + turn), hem + turn
        return 2 * turn, hem + turn, 2 * hem, 2 * hem + turn
    if sums.topic == "thread":
        takes, working, start, end = n
        each = working - start - end
        return (
            up(takes / working),
            takes // each,
            up((takes + start + end) / working),
            up(takes / (working - start)),
        )
    if sums.topic == "wash":
        share, given = n[0] / 100, n[1]
        other_way = given * (1 - share) if "is it before the wash" in sums.text() else given / (1 - share)
        return given, other_way, given * (1 + share)
    pieces, across, down, wide, unit = n[:5]
    beside = wide // across
    return (
        up(pieces * across * down / wide / unit),
        up(pieces // beside * down / unit),
        up(pieces * down / unit),
        sums.working.value - 1,
    )


@pytest.mark.parametrize("topic", TOPICS)
def test_each_slip_gives_what_its_clause_says(topic):
    for seed in SEEDS[:60]:
        sums = kept(topic, seed)
        assert tuple(working.value for working in sums.slips.values()) == slips_on_paper(sums), sums.text()


SHORT_CUTS = {
    **{f"number {i + 1} of those told": lambda n, i=i: n[i % len(n)] for i in range(5)},
    "the first two added": lambda n: n[0] + n[1],
    "the first less the second": lambda n: n[0] - n[1],
    "twice the second": lambda n: 2 * n[1],
    "the first shared out by the second": lambda n: math.ceil(n[0] / n[1]),
    "all added": sum,
    "the largest": max,
}


@pytest.mark.parametrize("topic", TOPICS)
def test_no_short_cut_and_no_one_answer_is_right_in_more_than_a_quarter(topic):
    values = [sums.working.value for sums in (kept(topic, seed) for seed in SEEDS)]
    for name, answer in SHORT_CUTS.items():
        given = [answer(told(kept(topic, seed))) for seed in SEEDS]
        right = sum(one == other for one, other in zip(given, values, strict=True))
        assert right <= len(SEEDS) / 4, (name, right)
    if topic != "spacing":  # which is 1 to 4 by its kind, and so rightly guessed as often
        assert Counter(values).most_common(1)[0][1] <= len(SEEDS) / 4
    assert Counter(values).most_common(1)[0][1] <= len(SEEDS) * 0.4


@for_each("topic", TOPICS)
def test_a_length_says_for_which_state_of_the_cloth_it_is(topic):
    for seed in SEEDS[:50]:
        text = kept(topic, seed).text()
        if "wash" in text:
            assert text.count("before the wash") == 1
            assert text.count("after the wash") == 1


def practised(answer, sums=120):
    """A learner's progress, who answers each sum so."""
    progress, topics = Progress(), []
    for _ in range(sums):
        following = next_of(progress)
        topic = getattr(following, "topic", "sum")
        topics.append(topic)
        if topic == "sum":
            key = {name: working.text() for name, working in following.key.items()}
            report = following.check(key if answer(topic) else dict.fromkeys(key, "1"))
            progress = with_answers(progress, following, report)
        else:
            given = following.right if answer(topic) else 10**6
            progress = with_answers(progress, following, given)
    return progress, topics


def gaps(topics, topic):
    at = [i for i, each in enumerate(topics) if each == topic]
    return [later - earlier for earlier, later in pairwise(at)]


def test_topics_are_mixed_and_come_back_after_longer_and_longer():
    _, topics = practised(lambda topic: True)
    assert set(topics) == set(MIXED)
    assert not any(one == other for one, other in pairwise(topics))
    for topic in MIXED:
        between = gaps(topics, topic)
        assert between[0] <= between[-1]


def test_what_was_wrong_comes_back_soon_and_more_often():
    _, topics = practised(lambda topic: topic != "wash")
    assert max(gaps(topics, "wash")) <= 5
    assert topics.count("wash") > 2 * max(topics.count(topic) for topic in MIXED if topic != "wash")


def due(*history):
    """The topic that follows these, each with whether it was right."""
    return getattr(
        next_of(Progress(tuple(Done(1, 2, int(right), 1, "", topic) for topic, right in history))),
        "topic",
        "sum",
    )


# A topic comes back 2 sums after it was wrong, 4 after it was right once, 8 after twice running.
def test_by_hand_a_topic_is_due_after_two_sums_and_twice_as_long_for_each_time_it_was_right():
    begun = [("sum", True), ("count", False)]
    assert due(*begun) == "spacing"  # a new one: the sum waits for 4, and none comes twice running
    assert due(*begun, ("spacing", True)) == "count"
    # Neither the first of its sums again, nor the one after that.
    done = [
        Done(1, 2, 1, 1),
        *(Done(seed, 0, 0, 1, "", "count") for seed in (3, 8)),
        Done(2, 0, 1, 1, "", "wash"),
    ]
    assert next_of(Progress((*done, Done(3, 0, 1, 1, "", "bolt")))).title == "Count 9"
    twice = [("sum", True), ("count", True), ("spacing", True), ("corner", True), ("sum", True)]
    assert due(*twice) == "count"  # 4 ago, as it was right once
    every = [(topic, True) for topic in MIXED] * 2
    assert due(*every) == "sum"  # 7 of 8 ago, and the others less
    assert due(*every, ("sum", False), ("count", True)) == "sum"  # 2 of 2 ago; "spacing" is 7 of 8
    assert due(*every, ("sum", True), ("count", True)) == "spacing"


@given(st.lists(st.tuples(st.sampled_from(MIXED), st.booleans()), max_size=30))
def test_whatever_was_done_there_is_a_next_sum(history):
    done = tuple(
        Done(seed, 0 if topic != "sum" else 2, int(right), 1, "", topic)
        for seed, (topic, right) in enumerate(history)
    )
    following = next_of(Progress(done))
    assert following.text()
    assert not done or getattr(following, "topic", "sum") != done[-1].topic


@for_each(
    ("call", "about"),
    [
        (lambda: task("hem", 1), "topic"),
        (lambda: task("corner", "7"), "seed"),
        (lambda: next_of(None), "progress"),
        (lambda: with_answers(Progress(), "sum", 7), "done"),
    ],
)
def test_what_is_not_possible_gets_one_sentence(call, about):
    with pytest.raises(HemError, match="for example") as caught:
        call()
    assert caught.value.about == about
