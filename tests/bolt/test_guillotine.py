"""Blocks of pieces, and the cuts that set every piece free."""

from collections import Counter
from itertools import chain

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.bolt.lay.guillotine import Block, Rect, below, beside, in_lines, lay_out, single

SIDES = st.integers(1, 9)
SINGLES = st.builds(single, st.integers(0, 3), SIDES, SIDES, st.booleans())
BLOCKS = st.recursive(
    SINGLES,
    lambda blocks: st.builds(
        lambda join, parts: join(*parts),
        st.sampled_from([beside, below]),
        st.lists(blocks, min_size=1, max_size=4),
    ),
    max_leaves=12,
)


def pieces_in(block: Block) -> list[Block]:
    return [block] if not block.parts else [piece for part in block.parts for piece in pieces_in(part)]


def replayed(across: int, down: int, cuts) -> Counter[Rect]:
    """The bits that lie on the table once each cut has gone right through a bit that lay there."""
    bits = Counter([Rect(0, 0, across, down)])
    for cut in cuts:
        bit = cut.bit
        assert bits[bit] == 1, "only a bit on the table can be cut"
        bits -= Counter([bit])
        if cut.way == "across":
            assert 0 < cut.at < bit.down
            bits[Rect(bit.x, bit.y, bit.across, cut.at)] += 1
            bits[Rect(bit.x, bit.y + cut.at, bit.across, bit.down - cut.at)] += 1
        else:
            assert cut.way == "along"
            assert 0 < cut.at < bit.across
            bits[Rect(bit.x, bit.y, cut.at, bit.down)] += 1
            bits[Rect(bit.x + cut.at, bit.y, bit.across - cut.at, bit.down)] += 1
    return bits


@given(BLOCKS)
def test_sizes_under_other_numbers_are_the_same_pieces(block):
    others = block.of_kinds([7, 5, 3, 1])
    assert [piece.kind for piece in pieces_in(others)] == [7 - 2 * piece.kind for piece in pieces_in(block)]
    assert [(p.across, p.down) for p in pieces_in(others)] == [(p.across, p.down) for p in pieces_in(block)]


@given(BLOCKS, st.integers(0, 5), st.integers(0, 5))
def test_the_cuts_leave_just_the_pieces_and_the_offcuts(block, more_across, more_down):
    across, down = block.across + more_across, block.down + more_down
    laid = lay_out(block, across, down)
    left = Counter([rect for rect, _ in laid.pieces]) + Counter(laid.offcuts)
    assert replayed(across, down, laid.cuts) == left


@given(BLOCKS, st.integers(0, 5), st.integers(0, 5))
def test_every_piece_of_the_block_lies_on_the_cloth_in_its_own_size(block, more_across, more_down):
    laid = lay_out(block, block.across + more_across, block.down + more_down)
    assert Counter(piece for _, piece in laid.pieces) == Counter(pieces_in(block))
    for rect, piece in laid.pieces:
        assert (rect.across, rect.down) == (piece.across, piece.down)
        assert rect.x + rect.across <= block.across
        assert rect.y + rect.down <= block.down


@given(BLOCKS, st.integers(0, 5), st.integers(0, 5))
def test_in_lines_each_cut_has_its_bit_and_those_right_across_the_cloth_come_first(block, across, down):
    laid = lay_out(block, block.across + across, block.down + down)
    lines = in_lines(laid.cuts)
    whole = Counter([rect for rect, _ in laid.pieces]) + Counter(laid.offcuts)
    assert replayed(block.across + across, block.down + down, chain(*lines)) == whole
    right_across = []
    for line in lines:
        first, cut = laid.cuts[0], line[0]
        side = "across" if first.way == "across" else "down"
        right_across.append(cut.way == first.way and getattr(cut.bit, side) == getattr(first.bit, side))
    assert right_across == sorted(right_across, reverse=True)
    for line in lines:
        assert len({(cut.way, cut.at, cut.place) for cut in line}) == 1


def test_stacks_side_by_side_are_cut_in_one_go_where_their_cuts_meet():
    stack = below(single(0, 3, 2), single(0, 3, 2))
    laid = lay_out(beside(stack, stack, below(single(1, 4, 1), single(1, 4, 3))), 10, 4)
    assert [(len(line), line[0].way, line[0].at) for line in in_lines(laid.cuts)] == [
        *((1, "along", 3), (1, "along", 3)),
        *((2, "across", 2), (1, "across", 1)),
    ]


@given(SINGLES, st.integers(1, 5), st.integers(1, 5))
def test_what_is_cut_off_first_leaves_the_larger_bit_whole(piece, more_across, more_down):
    across, down = piece.across + more_across, piece.down + more_down
    largest = max(bit.across * bit.down for bit in lay_out(piece, across, down).offcuts)
    assert largest == max(more_across * down, more_down * across)


@given(BLOCKS)
def test_a_cut_adds_one_bit_so_there_are_as_many_as_bits_but_one(block):
    laid = lay_out(block, block.across + 1, block.down + 1)
    assert len(laid.cuts) == len(laid.pieces) + len(laid.offcuts) - 1


@given(BLOCKS)
def test_the_kinds_are_counted_over_all_parts(block):
    assert block.kinds == Counter(piece.kind for piece in pieces_in(block))


@given(st.lists(SINGLES, min_size=2, max_size=5))
def test_blocks_add_up_along_the_join_and_the_largest_counts_the_other_way(parts):
    row, stack = beside(*parts), below(*parts)
    assert (row.across, row.down) == (sum(p.across for p in parts), max(p.down for p in parts))
    assert (stack.across, stack.down) == (max(p.across for p in parts), sum(p.down for p in parts))


def test_a_row_of_rows_is_one_row_and_one_part_is_no_join():
    a, b, c = (single(kind, 2, 3) for kind in range(3))
    assert beside(beside(a, b), c).parts == (a, b, c)
    assert below(a, below(b, c)).parts == (a, b, c)
    assert beside(below(a, b), c).parts == (below(a, b), c)
    assert beside(a) == below(a) == a


@given(BLOCKS, st.integers(1, 7))
def test_finer_steps_change_the_numbers_and_nothing_else(block, times):
    fine = block.scaled(times)
    assert (fine.across, fine.down) == (block.across * times, block.down * times)
    assert fine.kinds == block.kinds
    coarse = lay_out(block, block.across, block.down)
    assert [cut.at for cut in lay_out(fine, fine.across, fine.down).cuts] == [
        cut.at * times for cut in coarse.cuts
    ]


@given(BLOCKS, st.lists(st.integers(0, 4), min_size=4, max_size=4))
def test_no_more_than_the_limits_stay_and_no_fewer_than_there_were(block, limits):
    kept = block.no_more_than(list(limits))
    had = block.kinds
    wanted = Counter({kind: min(had[kind], limit) for kind, limit in enumerate(limits)})
    assert (kept.kinds if kept else Counter()) == +wanted
    if kept:
        assert kept.across <= block.across
        assert kept.down <= block.down


def test_the_first_strip_is_cut_off_and_cut_up_before_the_next():
    strips = below(beside(single(0, 5, 4), single(0, 5, 4)), single(1, 10, 3))
    cuts = lay_out(strips, 10, 8).cuts
    assert [(cut.way, cut.at) for cut in cuts] == [("across", 4), ("along", 5), ("across", 3)]


def test_strips_narrower_than_the_bolt_are_trimmed_one_by_one():
    cuts = lay_out(below(single(0, 6, 4), single(1, 8, 3)), 10, 7).cuts
    assert [(cut.way, cut.at, cut.bit.down) for cut in cuts] == [
        ("across", 4, 7),
        ("along", 6, 4),
        ("along", 8, 3),
    ]


def test_a_block_larger_than_the_cloth_is_no_plan():
    with pytest.raises(ValueError, match="a block of 5 x 4 on a cloth of 4 x 9"):
        lay_out(single(0, 5, 4), 4, 9)
