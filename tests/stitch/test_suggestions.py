"""What is offered for a whole piece: pieces that really divide, and what they really cost."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import Fabric, HemError, Length, Piece, Sides, piece_spacings, space_stitches, suggest_clear
from hemcalc.stitch.suggestions import Cost

designs = st.tuples(st.integers(10, 200), st.integers(10, 200))
bands = st.builds(Sides, *[st.integers(0, 12)] * 4)
hems = st.integers(2, 12)


def a_piece(design: tuple[int, int], clear: Sides[int], hem: int, fabric: Fabric | None = None) -> Piece:
    fabric = fabric or Fabric("28/in", "26/in", washed=True)
    return Piece(fabric, design, hem=hem, same="threads", clear=clear)


@given(designs, bands, hems, st.integers(2, 6))
def test_with_every_suggestion_all_four_sides_divide(
    design: tuple[int, int], clear: Sides[int], hem: int, group: int
) -> None:
    for suggestion in suggest_clear(a_piece(design, clear, hem), group=group):
        spacings = piece_spacings(suggestion.piece, group)
        assert [spacing.off_size for spacing in spacings] == [0, 0, 0, 0]
        assert max(abs(new - old) for new, old in zip(suggestion.piece.clear, clear, strict=True)) <= 4
        assert max(abs(new - old) for new, old in zip(suggestion.piece.design, design, strict=True)) <= 3


@given(designs, bands, hems)
def test_only_design_and_clear_bands_are_changed(
    design: tuple[int, int], clear: Sides[int], hem: int
) -> None:
    piece = a_piece(design, clear, hem)
    for suggestion in suggest_clear(piece, 2):
        assert suggestion.piece.with_changes(design=design, clear=clear) == piece


@given(designs, bands, hems, st.booleans())
def test_the_cost_is_the_difference_of_two_cloths_cut(
    design: tuple[int, int], clear: Sides[int], hem: int, washed: bool
) -> None:
    fabric = Fabric("28/in", "26/in", shrink_warp="8 %", shrink_weft="3 %", washed=washed)
    piece = a_piece(design, clear, hem, fabric)
    for suggestion in suggest_clear(piece, 2):
        for way in (0, 1):
            before, after = piece.cut_size.in_hand[way].mm, suggestion.piece.cut_size.in_hand[way].mm
            cost = suggestion.cost[way]
            assert cost.length.mm == abs(after - before)
            assert (cost.threads > 0) == (after > before)
            assert (cost.threads < 0) == (after < before)
            grown = suggestion.piece.finished_size.threads[way] - piece.finished_size.threads[way]
            assert suggestion.added[way] == grown


@given(designs, bands, hems)
def test_the_nearest_stands_first_and_a_piece_that_divides_is_left_as_it_is(
    design: tuple[int, int], clear: Sides[int], hem: int
) -> None:
    piece = a_piece(design, clear, hem)
    suggestions = suggest_clear(piece)
    added = [abs(suggestion.added[0]) + abs(suggestion.added[1]) for suggestion in suggestions]
    assert added == sorted(added)
    if not any(spacing.off_size for spacing in piece_spacings(piece)):
        assert suggestions[0].piece == piece
        assert suggestions[0].text() == "As it is: no more cloth."


def test_a_wider_clear_band_costs_no_cloth_where_the_rule_has_threads_to_spare() -> None:
    # Hem 16, turn 8: the rule of four gives 64 threads a side, the ledger with clear 8 takes 50.
    deep = a_piece((322, 322), Sides(8, 8, 8, 8), 16)
    wider = suggest_clear(deep)[0]
    assert tuple(wider.piece.clear) == (9, 9, 9, 9)
    assert wider.added == (2, 2)
    assert [cost.threads for cost in wider.cost] == [0, 0]
    # Hem 4, turn 2: the rule gives 16, the ledger with clear 8 takes 20: each thread is paid for.
    narrow = a_piece((322, 322), Sides(8, 8, 8, 8), 4)
    assert [cost.threads for cost in suggest_clear(narrow)[0].cost] == [2, 2]
    assert suggest_clear(narrow)[0].cost[0].length == narrow.fabric.across_washed.width(2)


def test_each_side_is_spaced_over_the_design_and_the_bands_at_its_own_two_ends() -> None:
    piece = a_piece((60, 100), Sides(left=3, right=4, top=5, bottom=7), 6)
    spacings = piece_spacings(piece, 5, "left")
    assert spacings.top == spacings.bottom == space_stitches(60 + 3 + 4, 5, hand="left")
    assert spacings.left == spacings.right == space_stitches(100 + 5 + 7, 5, hand="left")


@pytest.mark.parametrize(
    ("design", "which"), [((2, 90), "at the top has 2 threads"), ((90, 1), "at the left side has 1 thread,")]
)
def test_a_side_that_cannot_be_grouped_is_named(design: tuple[int, int], which: str) -> None:
    with pytest.raises(HemError, match=which) as refused:
        piece_spacings(a_piece(design, Sides(0, 0, 0, 0), 6))
    assert refused.value.about == "design"
    assert "the nearest" in str(refused.value)


def test_other_bad_input_is_about_itself() -> None:
    piece = a_piece((60, 60), Sides(8, 8, 8, 8), 6)
    for call, about in (
        (lambda: piece_spacings(piece, 7), "group"),
        (lambda: piece_spacings(piece, 4, "both"), "hand"),
        (lambda: suggest_clear(piece, 13), "within"),
        (lambda: suggest_clear(piece, -1), "within"),
        (lambda: suggest_clear(piece, group=1), "group"),
        (lambda: suggest_clear(piece, over=0), "over"),
    ):
        with pytest.raises(HemError) as refused:
            call()
        assert refused.value.about == about


def test_nothing_is_offered_where_nothing_so_near_divides() -> None:
    assert suggest_clear(a_piece((61, 61), Sides(8, 8, 8, 8), 6), 0) == ()
    one_stitch_too_coarse = suggest_clear(a_piece((61, 61), Sides(0, 0, 0, 0), 6), 1, group=6, over=3)
    assert all(suggestion.piece.design == (61, 61) for suggestion in one_stitch_too_coarse)


def test_a_suggestion_says_its_change_and_its_price() -> None:
    narrow = a_piece((57, 195), Sides(8, 8, 8, 8), 4)
    said = [suggestion.text("in") for suggestion in suggest_clear(narrow)]
    assert said[0] == (
        "Clear 7 left, 8 right, 8 top, 9 bottom: across 1 thread (≈ 1/16 in) less, "
        "down 1 thread (≈ 1/16 in) more."
    )
    assert said[3].startswith("A design of 56 × 196 threads: across 1 thread (≈ 1/16 in) less, down 1")
    assert Cost(3, Length(3)).text("mm") == "3 threads (3 mm) more"
