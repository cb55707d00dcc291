"""The panel of the stitches: its plan, its picture, and where a bad side is said."""

import pytest
from moving import move

from hemcalc import EXAMPLES, space_stitches
from hemcalc.draw.stitch.group_rows import in_rows
from hemcalc.panels.spacing import WIDEST_CLEAR, WIDEST_DESIGN


def test_it_opens_on_a_side_with_one_off_size_group(spacing):
    assert spacing.result.spacing == space_stitches(83)
    assert spacing.result.spacing.off_size == 1


@pytest.mark.parametrize(
    ("values", "wanted"),
    [
        ({"design": 78}, space_stitches(86)),
        ({"clear_left": 6}, space_stitches(85)),
        ({"clear_right": 5}, space_stitches(84)),
        ({"group": 5}, space_stitches(83, 5)),
        ({"hand": "left"}, space_stitches(83, hand="left")),
    ],
    ids=lambda value: ", ".join(value) if isinstance(value, dict) else "",
)
def test_each_control_sets_its_own_part(spacing, values, wanted):
    move(spacing, **values)
    assert spacing.result.spacing == wanted


def test_the_length_is_that_of_the_count_and_unit(spacing):
    move(spacing, design=92, count="20/in")
    assert "100 threads, 5 in" in spacing.view.alt(spacing.result)
    move(spacing, unit="cm")
    length = spacing.result.count.width(100).text("cm")
    assert f"100 threads, {length}" in spacing.view.alt(spacing.result)


def test_what_would_make_it_divide_is_offered_and_does(spacing):
    assert spacing.result.advice == (
        "It would divide with clear 4 and 5, or a design of 76, or clear 2 and 3.",
    )
    for values in ({"clear_right": 5}, {"design": 76}, {"clear_left": 2, "clear_right": 3}):
        spacing.reset(spacing.menu.value)
        move(spacing, **values)
        assert spacing.result.spacing.off_size == 0
        assert spacing.result.advice == ()


@pytest.mark.parametrize(
    ("values", "nearest"),
    [
        ({"design": 1, "clear_left": 0, "clear_right": 0}, "for example 3"),
        ({"group": 5, "design": 3, "clear_left": 2, "clear_right": 2}, "for example 6 or 8"),
        ({"group": 6, "design": 8, "clear_left": 1, "clear_right": 0}, "for example 10, the nearest"),
    ],
    ids=["1 in fours", "7 in fives", "9 in sixes"],
)
def test_a_side_that_cannot_be_grouped_is_said_beside_the_design(spacing, values, nearest):
    with spacing.holding():
        move(spacing, **values)
    assert list(spacing.sentences) == ["design"]
    assert nearest in spacing.sentences["design"]
    assert "Not up to date" in spacing.picture.value
    move(spacing, design=12)
    assert not spacing.sentences


def test_each_side_of_the_workshops_pieces_is_an_example(spacing):
    seen = set()
    for name in spacing.examples:
        spacing.reset(name)
        for piece_name, piece in EXAMPLES.items():
            if name.split(",")[0] == piece_name:
                seen.add((piece_name, spacing.result.spacing.threads))
                assert str(spacing.result.count) in (str(piece.fabric.across), str(piece.fabric.down))
    for piece_name, piece in EXAMPLES.items():
        clear = piece.clear
        assert (piece_name, piece.design[0] + clear.left + clear.right) in seen
        assert (piece_name, piece.design[1] + clear.top + clear.bottom) in seen


@pytest.mark.parametrize("group", [2, 3, 4, 5, 6])
def test_the_longest_side_that_can_be_asked_for_has_room(spacing, group):
    a_row, room = spacing.view.scales[-1]
    for threads in range(WIDEST_DESIGN, WIDEST_DESIGN + 2 * WIDEST_CLEAR + 1):
        assert len(in_rows(space_stitches(threads, group), a_row)) <= room
