"""The picture of a cloth that is cut up, held against its layout: every piece, cut and bit left over."""

import re
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import combinations, cycle, pairwise

import numpy as np
import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.bolt.remnant import have_from_remnant
from hemcalc.draw.bolt.parts import part_of, whole
from hemcalc.draw.bolt.picture import BoltPicture, bolt_alt, draw_bolt
from hemcalc.draw.bolt.side_by_side import draw_bolts
from hemcalc.draw.bolt.stretches import lay_stretches, right_across
from hemcalc.draw.bolt.words import CLEAR, TURNED, Occupied, letter_of
from hemcalc.draw.look import LINES, TYPE
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.errors import HemError
from hemcalc.measure.lengths import Length
from hemcalc.workshop.cutting import cut_for_class
from hemcalc.workshop.example import example_workshop

SIZES = (
    ("bread cloth", "14 in", "14 in"),
    ("sampler", "11 1/8 in", "9 1/2 in"),
    ("coaster", "6 1/4 in", "6 1/4 in"),
)


LITTLE = Fraction(1, 10)  # of the usual effort: a picture asks for no layout that can't be bettered


def of_each(many):
    return [(*size, many) for size in SIZES]


SIXTY = (
    *(("runner", "40 cm", "120 cm", 12), ("napkin", "44 cm", "43 cm", 24)),
    ("coaster", "13 cm", "12 cm", 24),
)
ONE = cut_from_bolt([("bread cloth", "14 in", "14 in", 1)], "55 in", unit="1/8 yd")
REMNANT = have_from_remnant(
    "50 cm", "40 cm", [("mat", "30 cm", "20 cm"), ("coaster", "10 cm", "10 cm", 4), ("tray", "1 m", "1 m")]
)
#: How each cloth is cut up: searched for by the test that first asks.
CUT_UP = {
    "one piece": lambda: ONE,
    "12 learners": lambda: cut_from_bolt(of_each(12), "55 in", unit="1/8 yd", effort=LITTLE),
    "24 learners": lambda: cut_from_bolt(of_each(24), "55 in", unit="1/8 yd", effort=LITTLE),
    "12 learners, turned": lambda: cut_from_bolt(
        of_each(12), "55 in", unit="1/8 yd", grain="free", effort=LITTLE
    ),
    "200 pieces": lambda: cut_from_bolt(
        [*of_each(66), ("bookmark", "3 1/2 in", "8 1/2 in", 2)], "58 in", unit="1/8 yd", effort=LITTLE
    ),
    "24 mats": lambda: cut_from_bolt([("table mat", "76 cm", "50 cm", 24)], "150 cm", grain="free"),
    "60 pieces": lambda: cut_from_bolt(SIXTY, "140 cm", effort=LITTLE),
    "a remnant": lambda: REMNANT,
    "too small": lambda: have_from_remnant("5 cm", "4 cm", [("mat", "30 cm", "20 cm")]),
} | {
    f"workshop, {linen.name}": lambda linen=linen: cut_for_class(example_workshop())[linen.name]
    for linen in example_workshop().linens
}


@lru_cache
def cut_up(name):
    """A cloth, made once, by its name above."""
    return CUT_UP[name]()


@pytest.fixture
def cloth(request):
    """The cloth of that name."""
    return cut_up(request.param)


@pytest.fixture
def crowd():
    """A class of 24, of which each wants three sizes."""
    return cut_up("24 learners")


def cloths(*names):
    """For each of these cloths."""
    return pytest.mark.parametrize("cloth", names, indirect=True)


any_cloth = cloths(*(name for name in CUT_UP if name != "60 pieces"))


@lru_cache(maxsize=20)
def shown(cloth, unit="in", height=6.5, size="page"):
    """The view of a cloth, made once for all who only look at it."""
    view = BoltPicture(
        Sheet(9, height, dpi=150, size=TYPE[size]), (0.01, 0, 0.98, 1), len(cloth.pieces) + len(cloth.cuts)
    )
    view.update(cloth, unit)
    return view


def stretches_of(view, cloth):
    """Where each stretch begins and ends on the cloth, in mm, read from its drawn edges; and its box."""
    upright = [s for s in view.edges.get_segments() if s[0][0] == s[1][0]]
    # The first two of each stretch bound the cloth itself; a bolt has its selvedges after them.
    step = 4 if hasattr(cloth, "used") else 2
    boxes = [
        (upright[i][0][0], upright[i][0][1], upright[i + 1][0][0], upright[i][1][1])
        for i in range(0, len(upright), step)
    ]
    scale = (boxes[0][2] - boxes[0][0]) / float(cloth.width.mm)
    found, start = [], 0.0
    for box in boxes:
        end = start + (box[3] - box[1]) / scale
        found.append((start, end, box))
        start = end
    assert start == pytest.approx(float(cloth.length.mm))
    return scale, found


def drawn_at(where, x, y, *, above=False):
    """Where a place on the cloth, in mm, is on a picture; at a parting, above or below it."""
    scale, stretches = where
    slack = 1e-6 * stretches[-1][1]
    for start, end, (left, _, _, top) in stretches:
        if (
            start - slack <= y <= end + slack
            and not (not above and y > end - slack and end < stretches[-1][1])
            and not (above and y < start + slack and start > 0)
        ):
            return left + scale * x, top - scale * (y - start)
    raise AssertionError(y)


def boxes_in(patch):
    if not patch.get_visible():
        return []
    found = []
    for polygon in patch.get_path().to_polygons(closed_only=True):
        (x0, y0), (x1, y1) = polygon.min(axis=0), polygon.max(axis=0)
        found.append(tuple(round(float(side), 3) for side in (x0, y0, x1, y1)))
    return sorted(found)


def wanted_boxes(view, cloth, bits):
    found, where = [], stretches_of(view, cloth)
    for bit in bits:
        x, y = float(bit.x.mm), float(bit.y.mm)
        left, top = drawn_at(where, x, y)
        right, bottom = drawn_at(where, x + float(bit.across.mm), y + float(bit.down.mm), above=True)
        found.append(tuple(round(float(side), 3) for side in (left, bottom, right, top)))
    return sorted(found)


def near(boxes, wanted):
    np.testing.assert_allclose(boxes, wanted, rtol=0, atol=0.01)


@any_cloth
def test_each_piece_is_drawn_where_the_layout_says_each_size_in_its_own_look(cloth):
    view = shown(cloth)
    for at, patch in enumerate(view.sizes):
        names = [size.name for i, size in enumerate(cloth.sizes) if i % len(view.sizes) == at]
        bits = [piece.bit for piece in cloth.pieces if piece.name in names]
        near(boxes_in(patch), wanted_boxes(view, cloth, bits))
        # Four tints can be told apart; sizes beyond those differ by a pattern as well, no offcut's.
        assert bool(patch.get_hatch()) == (at >= 4)
        assert patch.get_hatch() != view.offcuts.get_hatch()


@any_cloth
def test_what_is_left_over_is_hatched_and_without_colour(cloth):
    view = shown(cloth)
    near(boxes_in(view.offcuts), wanted_boxes(view, cloth, cloth.offcuts))
    assert view.offcuts.get_hatch()
    red, green, blue, _ = view.offcuts.get_facecolor()
    assert red == green == blue


@any_cloth
def test_each_cut_is_there_once_and_one_right_across_is_heavier(cloth):
    view = shown(cloth)
    where = stretches_of(view, cloth)
    for lines, across in ((view.across, True), (view.within, False)):
        wanted = sorted(
            (
                *drawn_at(where, x0, y0, above=cut.way == "across"),
                *drawn_at(where, x1, y1, above=True),
            )
            for cut in cloth.cuts
            if (cut.way == "across" and cut.bit.across == cloth.width) == across
            for (x0, y0), (x1, y1) in [[tuple(float(d.mm) for d in end) for end in (cut.start, cut.end)]]
        )
        found = sorted(tuple(float(d) for point in line for d in point) for line in lines.get_segments())
        near(found, wanted)
    assert view.across.get_linewidth()[0] == 2 * view.within.get_linewidth()[0]
    assert LINES["cut"].dashes != LINES["cut within"].dashes


def numbers_on(sheet, words):
    """The numbers of lines: bold, each with its measure or without."""
    bold = [word for word in words(sheet) if word.get_fontweight() == "bold"]
    return [(int(re.match(r"\d+", word.get_text()).group()), word) for word in bold]


# Each cloth in one size of type, and the crowded ones in both.
@pytest.mark.parametrize(
    ("cloth", "size"),
    [
        *zip((name for name in CUT_UP if name != "60 pieces"), cycle(TYPE), strict=False),
        ("24 learners", "projector"),
        ("200 pieces", "projector"),
    ],
    indirect=["cloth"],
)
def test_a_line_bears_its_number_and_its_measure_where_one_of_its_cuts_starts(cloth, size, words):
    view = shown(cloth, height=8, size=size)
    numbers = numbers_on(view.sheet, words)
    _, written = view.plan(whole(cloth), "in")
    lines = {line[0].number: line for line in cloth.lines}
    assert sorted(number for number, _ in numbers) == sorted(lines.keys() - set(written.cuts_left_out))
    point, where = view.sheet.figure.dpi / 72, stretches_of(view, cloth)
    for number, word in numbers:
        near_to = []
        left, low, right, high = word.get_window_extent().extents.tolist()
        for cut in lines[number]:
            x, y = drawn_at(where, *(float(d.mm) for d in cut.start), above=cut.way == "across")
            x, y = view.axes.transData.transform((x, y))
            aside, up = max(left - x, x - right, 0) / point, max(low - y, y - high, 0) / point
            # On its line, or right beside its start.
            near_to.append(max(aside, up) <= 26 and min(aside, up) <= 2.5)
        assert any(near_to), number
        measure = re.sub(r"^\d+(: |\n)?", "", word.get_text())
        assert measure in ("", lines[number][0].at.text("in"))


def test_measures_stand_with_the_numbers_of_a_class_that_has_room(words):
    cloth = cut_from_bolt([("bread cloth", "28 cm", "25.5 cm", 13)], "140 cm")
    said = {word.get_text() for _, word in numbers_on(draw_bolt(cloth, "cm").sheet, words)}
    assert {"1\n51 cm", "2\n28 cm", "6: 25.5 cm"} <= said


@cloths("one piece", "12 learners", "24 learners", "12 learners, turned", "24 mats", "a remnant")
def test_a_class_has_room_for_every_piece_and_every_cut_in_one_picture_of_a_page(cloth, words):
    still = draw_bolt(cloth)
    assert not still.more
    assert "sheet" not in still.alt
    assert still.sheet.figure.get_size_inches()[1] < 7
    assert len(numbers_on(still.sheet, words)) == len(cloth.lines)
    assert len(labels_of_pieces(cloth, still.sheet, words)) == len(cloth.pieces)


# The sheets follow on one another; every piece is on one of them, and every line of cuts has its number.
@pytest.mark.parametrize(
    ("cloth", "size"), list(zip(("200 pieces", "60 pieces"), TYPE, strict=True)), indirect=["cloth"]
)
def test_a_long_cloth_goes_on_over_sheets_until_every_number_has_room(cloth, size, words, troubles):
    first = draw_bolt(cloth, "cm", size)
    stills = (first, *first.more)
    assert len(stills) > 1
    page = first._repr_html_()
    said, pieces, ends = [], 0, ["0 cm"]
    for number, still in enumerate(stills, 1):
        assert troubles(still.sheet) == []
        # On a wall, one strip of long runners alone needs more.
        assert still.sheet.figure.get_size_inches()[1] <= (8 if size == "page" else 12.5)
        said += [number for number, _ in numbers_on(still.sheet, words)]
        pieces += len(labels_of_pieces(cloth, still.sheet, words))
        texts = [word.get_text() for word in words(still.sheet)]
        assert not any("no room" in text for text in texts)
        (key,) = [
            text for text in texts if text.startswith(f"sheet {number} of {len(stills)}, from {ends[-1]}")
        ]
        ends.append(re.search(r" to (.*): ", key).group(1))
        assert f"heet {number} of {len(stills)}, from {ends[-2]} to {ends[-1]}: " in still.alt
        assert f'alt="{still.alt[:30]}' in page
        assert any("used" in text for text in texts) == (number == len(stills))
    # A line that goes through bits on two sheets has its number on both.
    assert sorted({*said}) == [line[0].number for line in cloth.lines]
    assert pieces == len(cloth.pieces)
    assert ends[-1] == cloth.length.text("cm")


@any_cloth
def test_parts_have_together_all_that_is_on_the_cloth_once(cloth):
    ends = sorted(
        {Length(0), *(cut.start[1] for cut in cloth.cuts if right_across(cut, cloth)), cloth.length}
    )
    parts = [part_of(cloth, start, end).cloth for start, end in pairwise(ends)]
    for what in ("pieces", "cuts", "offcuts"):
        there = [thing for part in parts for thing in getattr(part, what)]
        assert len(there) == len(getattr(cloth, what))
        assert set(there) == set(getattr(cloth, what))


def test_two_choices_stand_side_by_side_at_one_scale_each_with_its_name_and_numbers(words, troubles):
    upright = cut_from_bolt([("table mat", "76 cm", "50 cm", 6)], "150 cm")
    turned = cut_up("24 mats")
    still = draw_bolts({"as they lie": upright, "turned": turned}, "cm")
    assert troubles(still.sheet) == []
    said = [word.get_text() for word in words(still.sheet)]
    assert {
        "as they lie",
        "turned",
        "300 cm\nused,\nno layout\nis shorter,\nto buy",
        "610 cm\nto buy",
    } <= set(said)
    assert said.count("usable width 150 cm") == 2
    assert f"As they lie: {bolt_alt(upright, 'cm')} Turned: {bolt_alt(turned, 'cm')}" in still.alt
    # Both bolts are 150 cm wide, so at one scale the lines that run right across them are equally long.
    across = [
        round(abs(line.get_segments()[0][1][0] - line.get_segments()[0][0][0]), 3)
        for axes in still.sheet.figure.axes
        for line in axes.collections
        if line.get_linewidth()[0] == LINES["cut"].width and len(line.get_segments())
    ]
    across = [long for long in across if long > 24]  # longer than the key's own sample
    assert len(across) == 2
    assert across[0] == across[1]


@for_each("cloths", [None, {"one": ONE}, dict.fromkeys("abcd", ONE), {"a": ONE, "b": "a bolt"}])
def test_other_than_two_or_three_cloths_by_name_are_refused_in_a_sentence(cloths):
    with pytest.raises(HemError, match=r"must be (two or three by their names|a Layout or a Yield)"):
        draw_bolts(cloths)


def names_of(piece, cloth):
    mark = TURNED if piece.turned else ""
    letter = f"{letter_of(cloth, piece.name)}{piece.number}{mark}"
    return {letter, f"{piece.label}{mark}".replace(" ", "")}


def labels_of_pieces(cloth, sheet, words):
    """Each piece with its label."""
    said = {
        word.get_text().replace(" ", "").replace("\n", ""): word
        for word in words(sheet)
        if word.get_fontweight() != "bold"
    }
    return {piece: said[name] for piece in cloth.pieces for name in names_of(piece, cloth) if name in said}


@any_cloth
def test_a_piece_is_named_within_itself_and_marked_if_it_is_turned(cloth, words):
    view = shown(cloth, height=12)
    labels = labels_of_pieces(cloth, view.sheet, words)
    _, written = view.plan(whole(cloth), "in")
    assert len(labels) == len(cloth.pieces) - len(written.pieces_left_out)
    for piece, word in labels.items():
        ((left, bottom, right, top),) = wanted_boxes(view, cloth, [piece.bit])
        (x0, y0), (x1, y1) = view.axes.transData.transform([(left, bottom), (right, top)])
        box = word.get_window_extent()
        assert x0 <= box.x0
        assert box.x1 <= x1
        assert y0 <= box.y0
        assert box.y1 <= y1
        assert (TURNED in word.get_text()) == piece.turned


# Each cloth in one size of type, the one in inches and the next in centimetres.
@pytest.mark.parametrize(
    ("cloth", "unit", "size"),
    list(
        zip((name for name in CUT_UP if name != "60 pieces"), cycle(("in", "cm")), cycle(TYPE), strict=False)
    ),
    indirect=["cloth"],
)
def test_no_word_overlaps_another_or_is_cut_off(cloth, unit, size, troubles):
    assert troubles(draw_bolt(cloth, unit, size).sheet) == []


@settings(max_examples=15)
@given(
    sizes=st.lists(
        st.tuples(st.integers(3, 40), st.integers(3, 60), st.integers(1, 14)), min_size=1, max_size=5
    ),
    width=st.integers(40, 160),
    turn=st.sampled_from(["fixed", "free"]),
    looks=st.tuples(st.sampled_from(["in", "cm", "mm"]), st.sampled_from(tuple(TYPE))),
    height=st.sampled_from([None, 3.5, 6.5]),
)
def test_any_layout_is_drawn_legibly_in_any_height(troubles, sizes, width, turn, looks, height):
    wanted = [(f"piece {chr(97 + i)}", f"{a} cm", f"{d} cm", n) for i, (a, d, n) in enumerate(sizes)]
    cloth = cut_from_bolt(wanted, f"{width} cm", grain=turn, effort=LITTLE)
    unit, size = looks
    view = shown(cloth, unit, height, size) if height else draw_bolt(cloth, unit, size)
    assert troubles(view.sheet) == []


def test_what_has_no_room_is_said(crowd, words):
    view = shown(crowd, height=5, size="projector")
    _, written = view.plan(whole(crowd), "in")
    assert written.cuts_left_out
    assert written.pieces_left_out
    said = f"{len(written.pieces_left_out)} pieces and {len(written.cuts_left_out)} cuts"
    assert f"no room to number {said}: see the list of cuts" in [
        word.get_text() for word in words(view.sheet)
    ]
    assert not any("no room" in word.get_text() for word in words(shown(ONE).sheet))


@any_cloth
def test_the_cloth_is_parted_only_at_cuts_right_across(cloth):
    stretches = lay_stretches(cloth, 0, 600, 400, 400, gap=20)
    across = {float(cut.start[1].mm) for cut in cloth.cuts if right_across(cut, cloth)}
    assert set(stretches.ends[1:-1]) <= across
    assert (stretches.ends[0], stretches.ends[-1]) == (0, float(cloth.length.mm))
    for left, bottom, wide, height in stretches.boxes:
        assert left >= 0
        assert left + wide <= 600 + 1e-6
        assert bottom >= -1e-3
        assert bottom + height == 400
    assert all(b[0] - (a[0] + a[2]) == pytest.approx(20) for a, b in pairwise(stretches.boxes))


# Every way to part the cloth, tried one by one: none lets it be drawn more than a tenth larger.
@any_cloth
def test_it_is_parted_so_that_it_is_drawn_about_as_large_as_can_be(cloth):
    stretches = lay_stretches(cloth, 0, 600, 400, 400, gap=20)
    across = sorted({float(cut.start[1].mm) for cut in cloth.cuts if right_across(cut, cloth)})
    best = 0.0
    for many in range(1, min(5, len(across) + 1) + 1):
        for breaks in combinations(across, many - 1):
            ends = (0, *breaks, float(cloth.length.mm))
            longest = max(b - a for a, b in pairwise(ends))
            best = max(best, min((600 - 20 * (many - 1)) / many / float(cloth.width.mm), 400 / longest))
    assert stretches.scale <= best * 1.0001
    assert stretches.scale >= best / 1.1001


def beside(view, words):
    """The lengths beside the cloth."""
    return {word.get_text().split("\n")[0]: word for word in words(view.sheet) if "\n" in word.get_text()}


@pytest.mark.parametrize("unit", ["in", "cm"])
def test_the_lengths_beside_it_are_those_of_the_layout_and_point_at_their_place(crowd, unit, words):
    view = shown(crowd, unit)
    said = [word.get_text() for word in words(view.sheet)]
    places = {
        f"{crowd.used.text(unit)}\nused": crowd.used,
        f"{crowd.bound.text(unit)}\nno layout\nis shorter": crowd.bound,
        f"{crowd.to_buy.text(unit)}\nto buy": crowd.to_buy,
    }
    assert set(places) <= set(said)
    assert f"usable width {crowd.width.text(unit)}" in said
    assert "warp" in said
    tips = [path.vertices[0][1] for path in view.lengths.heads.get_paths()]
    for place in places.values():
        _, y = drawn_at(stretches_of(view, crowd), 0, float(place.mm))
        assert min(abs(y - tip) for tip in tips) < 0.01


def test_lengths_that_are_the_same_are_said_once(words):
    assert ONE.proven
    said = [word.get_text() for word in words(shown(ONE).sheet)]
    assert f"{ONE.used.text('in')}\nused,\nno layout\nis shorter" in said
    whole = cut_from_bolt([("mat", "50 cm", "40 cm", 1)], "60 cm", unit="40 cm")
    said = [word.get_text() for word in words(shown(whole, "cm").sheet)]
    assert "40 cm\nused,\nno layout\nis shorter,\nto buy" in said


def test_a_length_in_a_stretch_before_is_said_all_the_same(crowd, words, troubles):
    short = replace(crowd, bound=Length(100))
    view = shown(short)
    assert len(stretches_of(view, short)[1]) > 1
    assert "≈ 3 15/16 in\nno layout\nis shorter" in [word.get_text() for word in words(view.sheet)]
    assert troubles(view.sheet) == []


def test_each_later_stretch_says_over_itself_where_it_goes_on(words):
    upright = cut_from_bolt([("table mat", "76 cm", "50 cm", 24)], "150 cm")
    view = shown(upright, "cm", height=4)
    _, stretches = stretches_of(view, upright)
    assert len(stretches) == 4
    said = {word.get_text(): word.get_position() for word in words(view.sheet)}
    for start, _, (left, _, _, top) in stretches[1:]:
        x, y = said[f"on from {start / 10:.0f} cm"]
        assert x == pytest.approx(left)
        assert y > top
    assert sum(text.startswith("on from") for text in said) == 3


def test_selvedges_are_drawn_for_a_bolt_and_not_for_a_remnant(words):
    for cloth, many in ((ONE, 4), (REMNANT, 2)):
        view = shown(cloth)
        assert len([s for s in view.edges.get_segments() if s[0][0] == s[1][0]]) == many
        said = any("selvedge" in word.get_text() for word in words(view.sheet))
        assert said == (many == 4)


def test_the_key_says_each_size_with_its_letter_where_it_goes_by_it(crowd, words):
    said = [word.get_text() for word in words(shown(crowd).sheet)]
    assert "C = coaster, 6 1/4 in × 6 1/4 in: 24" in said
    said = [word.get_text() for word in words(shown(REMNANT, "cm").sheet)]
    assert {"mat, 30 cm × 20 cm: 2", "coaster, 10 cm × 10 cm: 4", "tray, 100 cm × 100 cm: 0"} <= set(said)
    turned = [word.get_text() for word in words(shown(cut_up("24 mats"), "cm").sheet)]
    assert f"{TURNED} turned by a quarter" in turned
    assert not any(TURNED in text for text in said)


def test_letters_go_on_after_z():
    cloth = cut_from_bolt([(f"size {i}", "10 cm", "10 cm", 1) for i in range(30)], "140 cm")
    letters = [letter_of(cloth, size.name) for size in cloth.sizes]
    assert (letters[0], letters[25], letters[26], letters[29]) == ("A", "Z", "AA", "AD")
    assert len(set(letters)) == 30


def test_thirty_sizes_with_long_names_have_room(troubles):
    sizes = [
        (f"{'very long name of a piece '[: 24 + i % 8]} {i}", "15 cm", f"{9 + i} cm", 2) for i in range(30)
    ]
    cloth = cut_from_bolt(sizes, "140 cm", effort=LITTLE)
    for size in TYPE:
        assert troubles(draw_bolt(cloth, "cm", size).sheet) == []


@any_cloth
@pytest.mark.parametrize("unit", ["in", "cm"])
def test_the_words_for_those_who_do_not_see_it_state_the_layouts_numbers(cloth, unit):
    alt = bolt_alt(cloth, unit)
    assert alt.startswith(cloth.text(unit))
    for name, many in cloth.counts.items():
        assert f"{many} of {name}" in alt
    across = sum(cut.way == "across" and cut.bit.across == cloth.width for cut in cloth.cuts)
    assert f"{len(cloth.lines)} line" in alt
    assert f"{across} of them right across" in alt
    assert f"{len(cloth.offcuts)} bit" in alt
    turned = sum(piece.turned for piece in cloth.pieces)
    assert (f", {turned} of all turned" in alt) == bool(turned)


def test_one_line_is_not_said_to_be_lines():
    cloth = cut_from_bolt([("mat", "60 cm", "40 cm", 1)], "60 cm", unit="50 cm")
    alt = bolt_alt(cloth, "cm")
    assert draw_bolt(cloth, "cm").alt == alt
    assert "; 1 line to cut, 1 of them right across; 1 bit left over." in alt


def test_one_scale_both_ways():
    view = shown(ONE)
    (x0, y0), (x1, y1) = view.axes.transData.transform([(0, 0), (1, 1)])
    assert x1 - x0 == pytest.approx(y1 - y0)
    ((left, bottom, right, top),) = boxes_in(view.sizes[0])
    assert right - left == pytest.approx(top - bottom, abs=0.01)


def test_a_view_is_updated_and_never_added_to(crowd):
    view = BoltPicture(Sheet(9, 6.5), (0.01, 0, 0.98, 1), len(crowd.pieces) + len(crowd.cuts))
    census = None
    for cloth in (crowd, ONE, REMNANT, crowd):
        view.update(cloth, "in")
        assert census in (None, len(view.sheet.figure.findobj()))
        census = len(view.sheet.figure.findobj())


@for_each(
    ("given", "about", "words_of_it"),
    [
        (("a bolt",), "cut_up", r"The cloth to draw is 'a bolt', but must be a Layout or a Yield"),
        ((None,), "cut_up", r"The cloth to draw is None"),
        ((ONE, "ell"), "unit", r"unit is 'ell', but must be one of"),
        ((ONE, "in", "poster"), "type size", r"type size is 'poster', but must be one of"),
    ],
)
def test_what_cannot_be_drawn_is_refused_in_a_sentence(given, about, words_of_it):
    with pytest.raises(HemError, match=words_of_it) as no:
        draw_bolt(*given)
    assert no.value.about == about
    assert "for example" in str(no.value) or "one of" in str(no.value)


boxes = st.tuples(*[st.floats(-200, 200)] * 2, *[st.floats(0, 120)] * 2).map(
    lambda box: (box[0], box[1], box[0] + box[2], box[1] + box[3])
)


@given(st.lists(boxes, max_size=12), boxes)
def test_taken_places_are_found_as_if_each_were_looked_at(there, box):
    taken = Occupied()
    for number, other in enumerate(there):
        taken.add(number, other)
    wanted = {
        number
        for number, (left, bottom, right, top) in enumerate(there)
        if box[0] < right + CLEAR
        and left < box[2] + CLEAR
        and box[1] < top + CLEAR
        and bottom < box[3] + CLEAR
    }
    assert taken.touching(box) == wanted
