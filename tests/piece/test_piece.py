"""The whole piece: threads and lengths round it, before and after the wash, and its corners."""

import cProfile
from collections import Counter
from fractions import Fraction
from itertools import product

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc import Fabric, HemError, Length, Piece, Sides, check, plan_edge
from hemcalc.corner.mitre import CORNER_KINDS, plan_corner
from hemcalc.piece.sizes import USES
from hemcalc.sums.sums import NAMES

BOTH = st.booleans()
SHARES = st.integers(0, 12).map(lambda number: Fraction(number, 100))


@st.composite
def fabrics(draw, washed=BOTH):
    counts = st.sampled_from(("20/in", "27/in", "28/in", "11/cm"))
    return Fabric(
        draw(counts),
        draw(counts),
        shrink_warp=draw(SHARES),
        shrink_weft=draw(SHARES),
        washed=draw(washed),
    )


@st.composite
def pieces(draw, washed=BOTH):
    same = draw(st.sampled_from(("width", "threads")))
    clear = st.integers(0, 12)
    return Piece(
        draw(fabrics(washed)),
        draw(st.tuples(*[st.integers(1, 400)] * 2)),
        hem=f"{draw(st.integers(4, 30))} mm" if same == "width" else draw(st.integers(3, 24)),
        clear=Sides(draw(clear), draw(clear), draw(clear), draw(clear)),
        drawn=draw(st.integers(1, 5)),
        turn=draw(st.sampled_from((None, 0, 1, "2 mm"))),
        handling=draw(st.sampled_from((0, 12, "1 cm"))),
        same=same,
    )


def span(piece, threads_of):
    """Design and two margins, each way, by adding the sides up."""
    left, right, top, bottom = (threads_of(edge) for edge in piece.edges)
    return piece.design[0] + left + right, piece.design[1] + top + bottom


# Threads round the piece


@given(pieces())
def test_sizes_are_the_design_and_what_each_side_adds(piece):
    w, h = piece.drawn, [edge.hem for edge in piece.edges]
    assert h[0] == h[1]
    assert h[2] == h[3]
    clears = list(piece.clear)
    finished = [clear + w + hem for clear, hem in zip(clears, h, strict=True)]
    need = [
        add + hem + edge.turn + edge.handling for add, hem, edge in zip(finished, h, piece.edges, strict=True)
    ]
    rule = [4 * hem for hem in h]
    for size, margins in (
        (piece.finished_size, finished),
        (piece.cloth_by_need, need),
        (piece.cloth_by_rule, rule),
        (piece.cut_size, [max(pair) for pair in zip(need, rule, strict=True)]),
    ):
        left, right, top, bottom = margins
        assert size.threads == (piece.design[0] + left + right, piece.design[1] + top + bottom)
    assert piece.trimmed_size.threads == span(piece, lambda edge: edge.cut)


@given(pieces())
def test_each_side_is_the_edge_that_its_own_count_makes(piece):
    cloth = piece.fabric
    for edge, clear, count in zip(
        piece.edges,
        piece.clear,
        (cloth.across_washed, cloth.across_washed, cloth.down_washed, cloth.down_washed),
        strict=True,
    ):
        alone = plan_edge(count, piece.hem, clear=clear, drawn=piece.drawn, turn=piece.turn)
        assert (edge.count, edge.bands, edge.notes) == (count, alone.bands, alone.notes)


@given(st.integers(1, 200), st.integers(1, 200), st.integers(1, 4), fabrics())
def test_a_charts_stitches_go_over_so_many_threads(across, down, over, fabric):
    piece = Piece.from_stitches(fabric, (across, down), over, hem="1 cm", clear=8, turn=4)
    assert piece == Piece(fabric, (across * over, down * over), hem="1 cm", clear=8, turn=4)


def test_a_chart_is_over_two_threads_unless_said():
    assert Piece.from_stitches(Fabric("28/in"), (100, 80), hem="3/8 in", clear=8).design == (200, 160)


@given(pieces())
def test_exchanging_warp_and_weft_turns_the_piece_round(piece):
    cloth = piece.fabric
    turned = Piece(
        Fabric(
            cloth.weft,
            cloth.warp,
            shrink_warp=cloth.shrink_weft,
            shrink_weft=cloth.shrink_warp,
            washed=cloth.washed,
        ),
        piece.design[::-1],
        hem=piece.hem,
        clear=Sides(piece.clear.top, piece.clear.bottom, piece.clear.left, piece.clear.right),
        drawn=piece.drawn,
        turn=piece.turn,
        handling=piece.handling,
        same=piece.same,
    )
    for one, other in ((piece.cut_size, turned.cut_size), (piece.finished_size, turned.finished_size)):
        assert one.before == other.before[::-1]
        assert one.after == other.after[::-1]
    corner, mirror = piece.corners.top_right, turned.corners.bottom_left
    assert mirror.layer_areas == corner.layer_areas
    assert mirror.legs_mm == corner.legs_mm[::-1]


# Same width, same threads


def test_the_same_width_takes_other_threads_each_way_and_the_same_threads_another_width():
    linen = Fabric("28/in", "24/in")
    width = Piece(linen, (200, 200), hem="1/2 in", clear=8)
    threads = Piece(linen, (200, 200), hem=14, clear=8, same="threads")
    assert (width.edges.left.hem, width.edges.top.hem) == (14, 12)
    assert width.edges.left.hem_width == width.edges.top.hem_width == Length("1/2 in")
    assert (threads.edges.left.hem, threads.edges.top.hem) == (14, 14)
    assert threads.edges.top.hem_width == Length("7/12 in")


@pytest.mark.parametrize(
    ("hem", "same", "words"),
    [
        (12, "width", "hem is 12, but with same='width' it must be a length, for example '3/8 in'; "),
        ("3/8 in", "threads", "hem is '3/8 in', but with same='threads' it must be a number of threads, "),
        (Length(10), "threads", "hem is '10 mm', but with same='threads' it must be a number of threads, "),
    ],
)
def test_the_other_pairing_is_refused_and_says_so(hem, same, words):
    with pytest.raises(HemError) as refused:
        Piece(Fabric("28/in"), (200, 200), hem=hem, clear=8, same=same)
    assert str(refused.value).startswith(words)
    assert refused.value.about == "hem"


# The wash


@given(pieces())
def test_the_wash_takes_its_share_and_no_thread(piece):
    cloth = piece.fabric
    for size in (piece.cut_size, piece.finished_size, piece.cloth_by_rule):
        # Weft threads run across: their shrinkage narrows the width.
        for before, after, share in zip(
            size.before, size.after, (cloth.shrink_weft, cloth.shrink_warp), strict=True
        ):
            assert after.mm == before.mm * (1 - share)
            assert (before.state.washed, after.state.washed) == (False, True)
        assert size.in_hand == (size.after if cloth.washed else size.before)


@given(pieces(st.just(False)))
def test_a_hem_asked_as_a_length_means_after_the_wash(piece):
    cloth = piece.fabric
    for edge, count, share in (
        (piece.edges.left, cloth.warp, cloth.shrink_weft),
        (piece.edges.top, cloth.weft, cloth.shrink_warp),
    ):
        assert edge.count.per_mm == count.per_mm / (1 - share)
        if piece.same == "width":
            # Within half a thread of what was asked, on the washed cloth.
            off = abs(edge.hem_width.mm - Length(piece.hem).mm)
            assert off <= edge.count.pitch.mm / 2


@given(pieces())
def test_handling_as_a_length_is_measured_in_hand_and_rounded_up(piece):
    cloth = piece.fabric
    for edge, count in zip(piece.edges, [cloth.warp] * 2 + [cloth.weft] * 2, strict=True):
        if piece.handling == "1 cm":
            assert count.width(edge.handling - 1) < Length(10) <= count.width(edge.handling)
        else:
            assert edge.handling == piece.handling


def test_warp_shrinkage_shortens_and_weft_shrinkage_narrows():
    # Counted before the wash: 25 and 20 to the inch become 31.25 across and 40 down.
    linen = Fabric("25/in", "20/in", shrink_warp="50 %", shrink_weft="20 %")
    piece = Piece(linen, (100, 100), hem="0.32 in", clear=0, drawn=1, turn=0)
    assert (piece.edges.left.hem, piece.edges.top.hem) == (10, 13)
    across, down = piece.finished_size.across, piece.finished_size.down
    assert (across.threads, across.before.inches, across.after.inches) == (
        122,
        Fraction(122, 25),
        Fraction(122, 25) * Fraction(4, 5),
    )
    assert (down.threads, down.before.inches, down.after.inches) == (
        128,
        Fraction(128, 20),
        Fraction(128, 20) / 2,
    )


def test_cloth_that_is_washed_is_cut_at_its_size_after_the_wash():
    shrinks = {"shrink_warp": "8 %", "shrink_weft": "3 %"}
    bought = Piece(Fabric("28/in", **shrinks), (200, 200), hem=12, clear=8, same="threads")
    washed = Piece(Fabric("28/in", washed=True, **shrinks), (200, 200), hem=12, clear=8, same="threads")
    threads = bought.cut_size.threads
    assert threads == washed.cut_size.threads == (296, 296)
    # 296 threads at 28 to the inch, as counted: 10 4/7 in, to the next eighth 10 5/8.
    for piece in (bought, washed):
        assert [side.inches for side in piece.cut_size.to_cut("in")] == [Fraction(85, 8)] * 2
        assert [side.cm for side in piece.cut_size.to_cut("cm")] == [27, 27]
    # 10 4/7 in · 0.92 is 9.726 in down; before its wash the other was 10 4/7 / 0.97 across.
    assert bought.cut_size.down.after.inches == Fraction(74, 7) * Fraction(92, 100)
    assert washed.cut_size.across.before.inches == Fraction(74, 7) / Fraction(97, 100)


# What was rounded


def test_the_notes_say_what_was_rounded_of_hem_and_handling_each_way():
    piece = Piece(Fabric("28/in", "24/in"), (200, 200), hem="3/8 in", clear=8, turn=4, handling="1 cm")
    assert piece.notes == (
        "Across: The hem of 3/8 in is 10 1/2 threads, rounded to 11: it finishes 1/2 thread wider. "
        "Handling of 1 cm is about 11.02 threads, rounded up to 12.",
        "Down: Handling of 1 cm is about 9.45 threads, rounded up to 10.",
    )


def test_the_notes_say_that_nothing_was_rounded():
    piece = Piece(Fabric("28/in"), (200, 200), hem="1/2 in", clear=6)
    assert piece.notes == ("Across: Nothing was rounded.", "Down: Nothing was rounded.")


# Corners


@given(pieces())
def test_corners_are_those_of_the_edges_in_hand(piece):
    left, right, top, bottom = piece.edges_in_hand
    made = [(corner.across, corner.down) for corner in piece.corners]
    assert made == [(left, top), (right, top), (left, bottom), (right, bottom)]
    cloth = piece.fabric
    for edge, washed, count in zip(
        piece.edges_in_hand, piece.edges, [cloth.warp] * 2 + [cloth.weft] * 2, strict=True
    ):
        assert edge.bands == washed.bands
        assert edge.count == count


@for_each("corner", CORNER_KINDS)
def test_corners_are_made_as_asked(corner):
    piece = Piece(Fabric("28/in", "24/in"), (200, 200), hem="1/2 in", clear=Sides(8, 9, 7, 8), corner=corner)
    left, _, top, _ = piece.edges_in_hand
    assert piece.corners.top_left == plan_corner(left, top, corner=corner)
    assert [made.kind for made in piece.corners] == [corner] * 4


def test_the_allowance_is_left_at_every_corner():
    piece = Piece(Fabric("28/in"), (200, 200), hem="1 in", clear=6, turn="1/4 in", allowance="1/4 in")
    assert [corner.allowance_mm for corner in piece.corners] == pytest.approx([6.35] * 4)


# On cloth that is still to shrink by 20 % one way only, hems that finish alike are trimmed and
# folded as hems of 5 : 4, at 38.66 degrees; washed already, at 45.
def test_the_mitre_of_cloth_that_is_still_to_shrink_is_not_at_45_degrees():
    for washed, angle in ((False, 38.66), (True, 45)):
        count = "28/in" if washed else "22.4/in"
        piece = Piece(
            Fabric(count, "28/in", shrink_weft="20 %", washed=washed), (200, 200), hem="1/2 in", clear=6
        )
        assert piece.edges.left.hem_width == piece.edges.top.hem_width == Length("1/2 in")
        assert piece.corners.top_left.angle == pytest.approx(angle, abs=0.005)


# By hand: at 28 threads/in a 1/2 in hem is 14 threads, a turn of half that 7; clear 6 with two drawn puts
# the first drawn thread at number 7 and the cut after thread 43; the rule asks 56 threads, 2 in. Finished
# it is 224 + 2 (6 + 2 + 14) = 268 threads by 212.
def test_a_piece_with_a_half_inch_hem():
    piece = Piece(Fabric("28/in"), (224, 168), hem="1/2 in", clear=6)
    for edge in piece.edges:
        assert (edge.hem, edge.turn, edge.first_drawn, edge.cut) == (14, 7, 7, 43)
        assert edge.rule.rule_length == Length("2 in")
    assert piece.cut_size.threads == piece.cloth_by_rule.threads == (336, 280)
    assert piece.cut_size.in_hand == (Length("12 in"), Length("10 in"))
    assert [size.inches for size in piece.finished_size.in_hand] == [Fraction(268, 28), Fraction(212, 28)]
    assert all(corner.trim_lands_mm == 0 for corner in piece.corners)


# Where the rule of four fails, the ledger's need is cut: hem 4, clear 8 asks 16 but needs 20.
def test_a_narrow_hem_with_a_wide_clear_band_is_cut_by_need():
    piece = Piece(Fabric("28/in"), (100, 100), hem=4, clear=8, same="threads")
    assert piece.cloth_by_rule.threads == (132, 132)
    assert piece.cut_size.threads == piece.cloth_by_need.threads == (140, 140)


# Changing and comparing


@given(pieces(), st.integers(1, 300))
def test_a_changed_piece_is_as_if_made_so(piece, threads):
    changed = piece.with_changes(design=(threads, piece.design[1]))
    assert changed.design == (threads, piece.design[1])
    assert changed.with_changes(design=piece.design) == piece
    assert hash(changed.with_changes(design=piece.design)) == hash(piece)


@for_each(("same", "corner"), list(product(("width", "threads"), CORNER_KINDS)))
def test_whatever_can_be_made_can_be_looked_at(same, corner):
    piece = Piece(
        Fabric("28/in", "27/in", shrink_warp="8 %", shrink_weft="3 %"),
        (1, 1),
        hem=16 if same == "threads" else "1/2 in",
        clear=0,
        turn=0,
        same=same,
        corner=corner,
    )
    for size in (piece.cut_size, piece.cloth_by_rule, piece.cloth_by_need, piece.finished_size):
        assert size.text("cm").startswith(USES[size.use])
    for made in piece.corners:
        assert made.layer_areas
        assert len(made.landings) in (0, 6)
        assert made.overhang.reach_mm >= 0
        assert made.folded(0.5)
    assert piece.fits("10 in").text("cm")
    assert piece.notes


def test_what_is_asked_for_is_read_once():
    """However many edges are planned of it, and numbers worked from it."""
    cloth = Fabric("29/in", "27/in", shrink_warp="5 %")
    asked = {"hem": "3/8 in", "turn": "1/8 in", "handling": "1/4 in"}
    made = calls(lambda: Piece(cloth, (230, 188), clear=Sides(7, 8, 9, 10), **asked))
    assert made["millimetres_read"] == len(asked) + 1  # the needle's eye, too
    assert made["plan_edge"] == 2  # across and down, with a clear band for each side
    piece = Piece(cloth, (230, 188), clear=7, **asked)
    answers = dict.fromkeys(NAMES, 31)
    checked = calls(lambda: check(piece, answers))
    assert checked["millimetres_read"] == len(asked)
    assert not checked["plan_edge"]


def calls(of):
    """How often the functions that read and plan are called."""
    profile = cProfile.Profile()
    profile.runcall(of)
    profile.create_stats()
    counted = Counter()
    for (_, _, name), (_, times, *_) in profile.stats.items():
        counted[name] += times
    return counted
