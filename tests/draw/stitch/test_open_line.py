"""The open line with its groups, held against the `Spacing` that it shows."""

import math
from itertools import pairwise

import pytest
from cases import for_each
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from hemcalc import Count, HemError, space_stitches
from hemcalc.draw.look import BANDS, TYPE
from hemcalc.draw.sheet import Sheet
from hemcalc.draw.stitch.group_rows import Spaced, in_rows, open_line_alt
from hemcalc.draw.stitch.open_line import OFF_SIZE, OpenLineRows, draw_open_line
from hemcalc.stitch.groups import HANDS

FEW = settings(max_examples=15)
COUNT = Count("25/in")

SHEET = Sheet(9, 4.8)
ROWS = OpenLineRows(SHEET, (0.01, 0.01, 0.98, 0.98), [(48, 3), (96, 5)], advice=True)


@st.composite
def spacings(draw, hands=HANDS):
    """Any side that the panel's sliders can ask for, short ones more often."""
    threads = draw(st.integers(1, 40) | st.integers(1, 384))
    try:
        return space_stitches(threads, draw(st.integers(2, 6)), hand=draw(st.sampled_from(hands)))
    except HemError:
        assume(False)


def shown(spacing):
    """The view, which has shown other sides before, so that nothing of them may stay."""
    ROWS.update(Spaced(spacing, COUNT, "in"))
    return ROWS


def threads_of(view):
    """The points of each thread drawn."""
    xs, ys = view.threads.get_data()
    points = list(zip(map(float, xs), map(float, ys), strict=True))
    assert all(math.isnan(x) for x, _ in points[5::6])
    return [points[i : i + 5] for i in range(0, len(points), 6)]


def groups_of(view, spacing):
    """The threads drawn, group by group in the order of work, each with its row."""
    drawn, found = threads_of(view), []
    for i, row in enumerate(in_rows(spacing, view.a_row)):
        for group in row:
            found.append((i, group, drawn[: group.size]))
            drawn = drawn[group.size :]
    assert not drawn
    return found


@FEW
@given(spacing=spacings(), most=st.integers(7, 100))
def test_rows_hold_every_group_in_the_order_of_work_and_as_many_as_fit(spacing, most):
    rows = in_rows(spacing, most)
    assert [group.size for row in rows for group in row] == list(spacing.groups)
    assert [group.number for row in rows for group in row] == list(range(1, spacing.count + 1))
    for row in rows:
        before = 0
        for group in row:
            assert group.before == before
            before += group.size
        assert before <= most
    for row, following in pairwise(rows):
        assert row[-1].before + row[-1].size + following[0].size > most


@FEW
@given(spacing=spacings())
def test_every_thread_is_drawn_at_its_place_and_drawn_together_at_its_groups_stitch(spacing):
    view = shown(spacing)
    for row, group, threads in groups_of(view, spacing):
        level = view.level(row)
        places = [view.place(spacing, group.before + n + 0.5) for n in range(group.size)]
        middle = sum(places) / len(places)
        for x, thread in zip(places, threads, strict=True):
            (top, _), (inner, at_inner), (waist, at_waist), (outer, at_outer), (bottom, _) = thread
            assert (top, inner, outer, bottom) == (x, x, x, x)
            assert at_inner > at_waist > at_outer == level
            assert abs(waist - middle) == pytest.approx(0.3 * abs(x - middle))


@FEW
@given(spacing=spacings())
def test_every_group_has_one_stitch_round_its_waist_that_ends_two_threads_deep_in_the_hem(spacing):
    view = shown(spacing)
    stitches = view.stitches.get_segments()
    assert len(stitches) == spacing.count
    for (row, group, threads), stitch in zip(groups_of(view, spacing), stitches, strict=True):
        (start, waist), (end, _), (bite, depth) = stitch
        held = [thread[2][0] for thread in threads]
        assert min(start, end) < min(held) <= max(held) < max(start, end)
        assert waist == pytest.approx(threads[0][2][1])
        assert depth == pytest.approx(view.level(row) - 2)
        # It goes in where the next group begins, so that the hand's way can be seen.
        assert bite == pytest.approx(view.place(spacing, group.before + group.size))


@FEW
@given(spacing=spacings())
def test_just_the_off_size_groups_have_the_pattern_and_their_number(spacing, words):
    view = shown(spacing)
    off = [(row, group) for row, group, _ in groups_of(view, spacing) if group.size != spacing.group]
    assert len(off) == spacing.off_size
    boxes = [path.get_extents() for path in view.off_size.get_paths()]
    assert len(boxes) == len(off)
    assert view.off_size.get_hatch() == OFF_SIZE.hatch
    assert all(look.hatch != OFF_SIZE.hatch for look in BANDS.values())
    numbers = [word for word in words(SHEET) if word.get_text() == str(spacing.off_group) and word.on_paper]
    assert len(numbers) == len(off)
    for (row, group), box in zip(off, boxes, strict=True):
        ends = sorted(view.place(spacing, at) for at in (group.before, group.before + group.size))
        assert [box.x0, box.x1] == pytest.approx(ends)
        assert box.y0 < view.level(row) < box.y1
        assert any(
            ends[0] < word.get_position()[0] < ends[1] and box.y0 < word.get_position()[1] < box.y1
            for word in numbers
        )


@FEW
@given(spacing=spacings())
def test_each_stretch_of_a_row_is_named_by_its_numbers_and_sizes(spacing, words):
    view = shown(spacing)
    texts = [word.get_text().removeprefix("groups ").removeprefix("group ") for word in words(SHEET)]
    for row in in_rows(spacing, view.a_row):
        first = row[0]
        for group, following in zip(row, [*row[1:], None], strict=True):
            if following is None or following.size != group.size:
                numbers = f"{first.number}–{group.number}" if first is not group else f"{group.number}"
                each = f"{group.size} each" if first is not group else f"{group.size}"
                assert f"{numbers}: {each}" in texts
                first = following


@FEW
@given(spacing=spacings(hands=["right"]))
def test_the_left_hand_is_the_mirror_image_and_says_so(spacing, words):
    left = space_stitches(spacing.threads, spacing.group, hand="left")

    def picture(side):
        view = shown(side)
        middle = view.a_row / 2
        sense = 1 if side.way == "left to right" else -1
        xs = [[sense * (x - middle) for x, _ in thread] for thread in threads_of(view)]
        stitches = [[sense * (x - middle) for x, _ in stitch] for stitch in view.stitches.get_segments()]
        arrow = [sense * (x - middle) for x, _ in view.arrow.get_xy()]
        texts = [word.get_text() for word in words(SHEET)]
        return xs, stitches, arrow, texts

    ours, theirs = picture(spacing), picture(left)
    for one, other in zip(ours[:2], theirs[:2], strict=True):
        assert [pytest.approx(points) for points in one] == other
    assert ours[2] == pytest.approx(theirs[2])
    assert ours[2].index(max(ours[2])) == 3  # the tip lies furthest the way that the work goes
    assert "start here: right hand, from left to right" in ours[3]
    assert "start here: left hand, from right to left" in theirs[3]


@FEW
@given(spacing=spacings())
def test_the_side_ends_in_two_corners_and_rows_between_are_broken_off(spacing):
    view = shown(spacing)
    rows = in_rows(spacing, view.a_row)
    hems = [path.get_extents() for path in view.hem.get_paths()]
    cloth = [path.get_extents() for path in view.clear.get_paths()]
    assert len(hems) == len(cloth) == len(view.open_line.get_paths()) == len(rows)
    for i, (hem, clear, row) in enumerate(zip(hems, cloth, rows, strict=True)):
        threads = row[-1].before + row[-1].size
        assert clear.width == pytest.approx(threads)
        corners = (i == 0) + (i == len(rows) - 1)
        assert hem.width == pytest.approx(threads + 3.2 * corners)
    broken = 2 * (len(rows) - 1)
    assert len(view.onward.get_paths()) == broken
    assert len(view.breaks.get_xdata()) == 3 * broken
    for head in view.onward.get_paths():
        back, tip = head.vertices[0][0], head.vertices[1][0]
        assert (tip < back) == (spacing.way == "right to left")


@settings(max_examples=20)
@given(
    spacing=spacings(),
    size=st.sampled_from(tuple(TYPE)),
    unit=st.sampled_from(("in", "cm", "mm")),
    advised=st.booleans(),
)
def test_words_stand_clear_whatever_the_side(spacing, size, unit, advised, troubles):
    SHEET.set_type(TYPE[size])
    advice = ("It would divide with clear 10 and 11, or clear 12 and 13, or a design of 352.",) * advised
    ROWS.update(Spaced(spacing, Count("11.5/cm"), unit, advice))
    found = troubles(SHEET)
    SHEET.set_type(TYPE["page"])
    assert found == []


@for_each("size", TYPE)
@for_each("threads", [3, 40, 41, 96, 97, 338, 700])
def test_words_of_a_finished_figure_stand_clear(threads, size, troubles):
    assert troubles(draw_open_line(space_stitches(threads), "25/in", size=size).sheet) == []


def test_a_short_side_is_drawn_larger():
    shown(space_stitches(83))
    assert ROWS.a_row == 48
    shown(space_stitches(300))
    assert ROWS.a_row == 96


def test_a_thread_measures_the_same_both_ways():
    for threads in (83, 300):
        view = shown(space_stitches(threads))
        along, up = SHEET.points(view.axes)
        assert along == pytest.approx(up)


def test_the_headline_and_the_alt_text_state_the_numbers(words):
    side = space_stitches(86, hand="left")
    still = draw_open_line(side, "25/in", unit="mm")
    length = COUNT.width(86).text("mm")
    assert f"86 threads, {length}, in 22 groups: 20 of 4, 2 of 3" in [
        w.get_text() for w in words(still.sheet)
    ]
    assert still.alt == (
        f"An open line of 86 threads, {length}, in 22 groups, of which 2 are uneven: numbers 6, 17, of 3 "
        f"threads. Left hand: {side.text()} 86 threads do not divide by 4, so 2 groups are "
        "of 3: no fewer will do."
    )
    assert open_line_alt(Spaced(space_stitches(4), COUNT, "in", ("Well.",))) == (
        "An open line of 4 threads, ≈ 3/16 in, in 1 group, all of 4 threads. Right hand: Work 1 group of 4, "
        "from left to right. Well."
    )


def test_a_side_that_has_no_room_is_refused_at_once():
    with pytest.raises(HemError, match="1,000,000 threads, more than the picture has room for") as refused:
        draw_open_line(space_stitches(10**6), "25/in")
    assert refused.value.about == "threads"
    with pytest.raises(HemError, match="500 threads"):
        shown(space_stitches(500))
