"""What a cloth has room for, against planning the piece with each hem and each design."""

from fractions import Fraction

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.edge.ledger import plan_edge
from hemcalc.measure.counts import Count
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.piece.fit import whole_cloth, widest_hem
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides

COUNTS = st.sampled_from(("14/in", "18/in", "20/in", "11/cm"))


@st.composite
def pieces(draw):
    """Small pieces on coarse cloth, so that every hem can be tried."""
    same = draw(st.sampled_from(("width", "threads")))
    fabric = Fabric(
        draw(COUNTS),
        draw(COUNTS),
        shrink_warp=draw(st.sampled_from((0, "8 %"))),
        shrink_weft=draw(st.sampled_from((0, "3 %"))),
        washed=draw(st.booleans()),
    )
    clear = st.integers(0, 6)
    return Piece(
        fabric,
        (draw(st.integers(4, 20)), draw(st.integers(4, 20))),
        hem=f"{draw(st.integers(5, 12))} mm" if same == "width" else draw(st.integers(4, 9)),
        clear=Sides(draw(clear), draw(clear), draw(clear), draw(clear)),
        turn=draw(st.sampled_from((None, 0, 2, "2 mm"))),
        handling=draw(st.sampled_from((0, 3, "4 mm"))),
        same=same,
    )


@st.composite
def pieces_and_cloths(draw):
    """A piece, and a cloth from somewhat too small for it to a good deal larger."""
    piece = draw(pieces())
    sizes = [length.mm + draw(st.integers(-40, 40)) for length in piece.cut_size.in_hand]
    return piece, (Length(max(sizes[0], 1)), Length(max(sizes[1], 1)))


def fits(piece, cloth):
    """Whether the size to cut, exactly, is no larger than the cloth in hand."""
    return all(need <= have for need, have in zip(piece.cut_size.in_hand, cloth, strict=True))


def planned(piece, **changes):
    """The piece so changed, or None if no such piece can be made."""
    try:
        return piece.with_changes(**changes)
    except HemError:
        return None


def every_hem(piece, cloth):
    """Threads and the asked hem of each hem that fits: all numbers of threads, or lengths 0.2 mm apart."""
    hems = range(1, 40) if piece.same == "threads" else [Length(Fraction(n, 5)) for n in range(1, 150)]
    for hem in hems:
        tried = planned(piece, hem=hem)
        if tried and fits(tried, cloth):
            yield (tried.edges.left.hem, tried.edges.top.hem), hem


@settings(max_examples=25)
@given(pieces_and_cloths())
def test_the_widest_hem_is_the_widest_of_all_that_can_be_planned(piece_and_cloth):
    piece, cloth = piece_and_cloth
    fit = piece.fits(cloth)
    tried = list(every_hem(piece, cloth))
    if fit.widest_hem_threads is None:
        assert fit.widest_hem is None
        assert not tried
        return
    hem = fit.widest_hem if piece.same == "width" else min(fit.widest_hem_threads)
    widest = piece.with_changes(hem=hem)
    assert fits(widest, cloth)
    assert (widest.edges.left.hem, widest.edges.top.hem) == fit.widest_hem_threads
    # A narrow choice of lengths may lie between two of those tried, but none is wider.
    assert all(
        one <= most for pair, _ in tried for one, most in zip(pair, fit.widest_hem_threads, strict=True)
    )
    if piece.same == "threads":
        assert max(tried)[0] == fit.widest_hem_threads
        assert fit.widest_hem == piece.edges.left.width(hem)
        return
    # She is told the narrower of the two that she gets; if that is a thread less the other way, the least.
    edges = (widest.edges.left, widest.edges.top)
    gets = min(edge.hem_width.mm for edge in edges)
    if hem.mm != gets:
        for less in (gets, hem.mm - Fraction(1, 10**6)):
            tried = planned(piece, hem=Length(less))
            assert not tried or (tried.edges.left.hem, tried.edges.top.hem) != fit.widest_hem_threads


@settings(max_examples=25)
@given(pieces_and_cloths())
def test_the_way_that_binds_is_the_one_in_which_the_next_wider_hem_no_longer_fits(piece_and_cloth):
    piece, cloth = piece_and_cloth
    fit = piece.fits(cloth)
    if fit.widest_hem_threads is None:
        return
    wider = fit.widest_hem_threads[0] + 1
    if piece.same == "width":
        # The shortest length that is a thread more either way.
        edges = (piece.edges.left, piece.edges.top)
        wider = Length(
            min(
                (threads + Fraction(1, 2)) * edge.count.pitch.mm
                for threads, edge in zip(fit.widest_hem_threads, edges, strict=True)
            )
        )
    next_wider = planned(piece, hem=wider)
    over = [need > have for need, have in zip(next_wider.cut_size.in_hand, cloth, strict=True)]
    assert over == [fit.hem_limit in ("across", "both"), fit.hem_limit in ("down", "both")]


@settings(max_examples=25)
@given(pieces_and_cloths())
def test_the_largest_design_is_the_largest_of_all_that_can_be_planned(piece_and_cloth):
    piece, cloth = piece_and_cloth
    fit = piece.fits(cloth)
    room = [[n for n in range(1, 130) if fits_one_way(piece, way, n, cloth[way])] for way in (0, 1)]
    if fit.largest_design is None:
        assert not all(room)
    else:
        assert fit.largest_design == (max(room[0]), max(room[1]))
        assert piece.with_changes(design=fit.largest_design).fits(cloth).spare == (0, 0)


def fits_one_way(piece, way, threads, have):
    margins = [edge.rule.margin for edge in piece.edges]
    total = threads + sum(margins[2 * way : 2 * way + 2])
    fabric = piece.fabric
    count = (fabric.across, fabric.down)[way]
    return count.width(total) <= have


@given(pieces_and_cloths())
def test_spare_threads_are_whole_threads_of_the_cloth_less_what_the_piece_asks(piece_and_cloth):
    piece, cloth = piece_and_cloth
    fit = piece.fits(cloth)
    assert fit.fits == fits(piece, cloth)
    counts = (piece.fabric.across, piece.fabric.down)
    for has, count, length in zip(fit.cloth, counts, cloth, strict=True):
        assert count.width(has) <= length < count.width(has + 1)
    asked = piece.cut_size.threads
    assert fit.spare == (fit.cloth[0] - asked[0], fit.cloth[1] - asked[1])


@given(pieces())
def test_a_piece_fits_the_cloth_that_it_is_cut_from_and_none_a_thread_smaller(piece):
    size = piece.cut_size.in_hand
    assert piece.fits(size).fits
    assert piece.fits(size).spare == (0, 0)
    assert not piece.fits((size[0] - Length(Fraction(1, 100)), size[1])).fits


def test_a_square_cloth_is_said_with_one_length():
    coaster = Piece(Fabric("28/in"), (112, 112), hem="3/8 in", clear=4)
    assert coaster.fits("8 in") == coaster.fits(("8 in", "8 in")) == coaster.fits([Length("8 in")] * 2)


def test_a_cloth_that_is_washed_has_more_threads_to_the_inch():
    linen = Fabric("25/in", shrink_warp="20 %", shrink_weft="0 %")
    coaster = Piece(linen, (100, 100), hem="1/4 in", clear=4)
    assert coaster.fits("8 in").cloth == (200, 200)
    # Warp threads that shorten make the cloth denser down its length: 25 / 0.8 = 31.25.
    assert coaster.fits("8 in", washed=True).cloth == (200, 250)
    # Counted after the wash, 25 to the inch were 20 before it.
    washed = Piece(Fabric("25/in", shrink_warp="20 %", washed=True), (100, 100), hem="1/4 in", clear=4)
    assert washed.fits("8 in", washed=False).cloth == (200, 160)


# A turn of 6 threads needs a hem of 6 both ways, which no length gave that was asked as a whole
# number of threads across: 5.4 mm is 6 threads across but 5 down. Half a millimetre more is 6 and 6.
def test_a_hem_that_fits_between_two_threads_is_found():
    pairs = [
        (plan_edge(Count(1, pitch), 6, clear=0, turn=6),) * 2
        for pitch in (Length(Fraction(9, 10)), Length(1))
    ]
    rooms = (2 * 24, 2 * 40)
    threads, width, limit = widest_hem((pairs[0], pairs[1]), rooms, same="width", turn_is_half=False)
    assert (threads, limit) == ((6, 6), "across")
    assert width == Length(Fraction(55, 10))


@pytest.mark.parametrize("same", ["width", "threads"])
def test_no_hem_is_offered_that_is_narrower_one_way_than_the_turn(same):
    # Across there is room for 8 threads at most, which is 6.4 mm: 6 threads down, less than the turn.
    pairs = [
        (plan_edge(Count(1, pitch), 9, clear=0, turn=turn),) * 2
        for pitch, turn in ((Length(Fraction(8, 10)), 4), (Length(1), 9))
    ]
    found = widest_hem((pairs[0], pairs[1]), (2 * 32, 2 * 60), same=same, turn_is_half=False)
    assert found == (None, None, "both")


@pytest.mark.parametrize(
    ("design", "cloth", "words"),
    [
        pytest.param(
            (112, 112),
            "8 in",
            "The piece fits. The widest hem for this design is 1/2 in, limited both ways alike. "
            "The largest design for this hem is 136 × 136 threads.",
            id="fits",
        ),
        pytest.param(
            (137, 140),
            "8 in",
            "The cloth is 1 thread too small across and 4 threads too small down. "
            "The widest hem for this design is ≈ 3/8 in, limited both ways alike. "
            "The largest design for this hem is 136 × 136 threads.",
            id="does not",
        ),
        pytest.param(
            (112, 112),
            "2 in",
            "The cloth is 144 threads too small across and 144 threads too small down. This design leaves "
            "room for no hem. This hem leaves room for no design.",
            id="hopeless",
        ),
    ],
)
def test_the_words_say_what_fits(design, cloth, words):
    assert Piece(Fabric("28/in"), design, hem="3/8 in", clear=4).fits(cloth).text("in") == words


def test_a_cloth_has_only_its_whole_threads():
    counts = (Count("28/in"), Count("27/in"))
    assert whole_cloth(("1 in", "1 in"), counts) == (28, 27)
    assert whole_cloth(("25.39 mm", "25.41 mm"), counts) == (27, 27)


# Handling is measured on the cloth in hand: 1 in of it is 25 threads of this cloth before the wash
# and, when the wash has taken a fifth, 31.25 after it, rounded up to 32.
def test_handling_is_measured_on_the_cloth_that_is_in_hand():
    mat = Piece(
        Fabric("25/in", shrink_weft="20 %"), (100, 100), hem=4, same="threads", clear=4, handling="1 in"
    )
    need = 4 + 2 + 8 + 2  # clear, drawn, two hems, turn; the rule asks 16, so the need is more
    raw, washed = mat.fits("8 in"), mat.fits("8 in", washed=True)
    assert raw.asked == (100 + 2 * (need + 25), 100 + 2 * (need + 25))
    # The weft runs across, so only the count across rises.
    assert washed.asked == (100 + 2 * (need + 32), 100 + 2 * (need + 25))
    assert washed.spare == (250 - 196, 200 - 182)
    assert washed.largest_design == (250 - 96, 200 - 82)
    assert mat.with_changes(fabric=mat.fabric.in_hand(washed=True)).fits("8 in") == washed


def test_the_widest_hem_is_a_length_of_the_washed_cloth():
    fit = Piece(Fabric("25/in", shrink_weft="20 %"), (100, 100), hem="1/4 in", clear=4).fits("8 in")
    assert fit.widest_hem.state.washed
    assert "after the wash, limited" in fit.text("in")


# A hem of one thread needs 4 + 2 + 1 + 1 + 1 = 9 at each edge.
@for_each(("rooms", "tighter"), [((17, 18), "across"), ((18, 17), "down"), ((17, 17), "both")])
def test_a_way_without_room_for_a_hem_of_one_thread_is_the_tighter(rooms, tighter):
    edge = plan_edge("28/in", 10, clear=4)
    found = widest_hem(((edge, edge), (edge, edge)), rooms, same="width", turn_is_half=True)
    assert found == (None, None, tighter)
