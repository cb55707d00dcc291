"""What comes out of the printer is as large as it says: sheet, bars, gauge marks, mitre lines."""

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.measure.lengths import Length
from hemcalc.paper.gauge import gauge_card, gauge_marks
from hemcalc.paper.key import leader_key
from hemcalc.paper.labels import kit_labels
from hemcalc.paper.mitre import paper_mitre
from hemcalc.paper.sheet import learner_sheet
from hemcalc.paper.shopping import shopping_list
from hemcalc.paper.worksheet import worksheet
from hemcalc.paper.workshop import kit_cards
from hemcalc.piece.examples import example
from hemcalc.piece.piece import Piece
from hemcalc.sums import exercises_for_class
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.kit import Kit

NEAR = 0.01  # mm; the printer's own 0.2 mm is left to the printer
SHOP = example_workshop()
ADA, EDDA, HILDA = SHOP.kits[0], SHOP.kits[4], SHOP.kits[7]
# A4: 210 x 297 mm, ISO 216 (as in "ISO 216" (summary), 2007, table). Letter: 8 1/2 x 11 in, from memory.
SHEETS = {"A4": (210, 297), "Letter": (215.9, 279.4)}
LEAFLETS = {
    "sheet": (learner_sheet, EDDA),
    "gauge": (gauge_card, EDDA),
    "mitre": (paper_mitre, EDDA),
    "key": (leader_key, SHOP),
    "shopping": (shopping_list, SHOP),
    "labels": (kit_labels, SHOP),
    "sums": (worksheet, exercises_for_class(3, 8)),
}


@pytest.mark.parametrize("paper", SHEETS)
@pytest.mark.parametrize("name", LEAFLETS)
def test_every_page_is_the_sheet_and_has_both_bars(made, printed, name, paper):
    for number, page in enumerate(printed(made(*LEAFLETS[name], paper=paper))):
        assert page.size == pytest.approx(SHEETS[paper], abs=NEAR)
        foot = [stroke for stroke in page.strokes if stroke.points[0][1] > page.size[1] - 24]
        level = [stroke.across for stroke in foot if abs(stroke.down) < NEAR and len(stroke.points) == 2]
        if name == "sheet" and number:  # steps, of which nothing is measured
            assert not set(map(round, level)) & {100, 102}
        else:
            assert sorted(level) == pytest.approx([100, 101.6], abs=NEAR)


@pytest.mark.parametrize("paper", SHEETS)
def test_the_bars_marks_are_a_centimetre_and_half_an_inch_apart(made, printed, paper):
    (page,) = printed(made(gauge_card, ADA, paper=paper))
    bars = [s for s in page.strokes if s.points[0][1] > page.size[1] - 28 and abs(s.down) < NEAR]
    for bar, step, many in ((bars[0], 10, 11), (bars[1], 12.7, 9)):
        level = bar.points[0][1]
        marks = sorted(
            s.points[0][0] - bar.points[0][0]
            for s in page.strokes
            if abs(s.across) < NEAR and abs(s.points[0][1] - level) < NEAR
        )
        assert marks == pytest.approx([step * i for i in range(many)], abs=NEAR)


def cards_on(page):
    """The cards' outlines: left, top, right, bottom."""
    closed = [s.points for s in page.strokes if len(s.points) >= 4 and s.width > 1]
    boxes = [
        (min(x for x, _ in p), min(y for _, y in p), max(x for x, _ in p), max(y for _, y in p))
        for p in closed
    ]
    return [box for box in boxes if abs(box[3] - box[1] - 46) < NEAR]  # fmt: skip


def marks_from(page, left, level, right=999):
    """How far from a card's left end marks stand on one of its edges."""
    return sorted(
        s.points[0][0] - left
        for s in page.strokes
        if len(s.points) == 2 and abs(s.across) < NEAR and abs(s.points[0][1] - level) < NEAR and s.width > 1
        if left < s.points[0][0] < right
    )


def gauge_is_true(page, kit):
    """Each card's marks are its sides' own; one card serves all if they lie within a line's width."""
    cards = cards_on(page)
    kinds = list({(e.hem_width, e.turn_width): gauge_marks(e) for e in kit.piece.edges_in_hand}.values())
    far = max(
        abs(float(place.mm - other[datum].get(name, place).mm)) + 9 * (name not in other[datum])
        for other in kinds
        for datum, row in kinds[0].items()
        for name, place in row.items()
    )
    kinds = kinds if far >= 1.6 * 25.4 / 72 else kinds[:1]
    assert len(cards) == len(kinds)
    for (left, top, right, bottom), marks in zip(cards, kinds, strict=True):
        for level, row in ((top, marks["open line"]), (bottom, marks["cut edge"])):
            assert marks_from(page, left, level, right) == pytest.approx(
                sorted(float(place.mm) for place in row.values()), abs=NEAR
            )
        assert right - left > max(float(place.mm) for place in marks["open line"].values())


@for_each("paper", SHEETS)
@for_each("kit", SHOP.kits[::3])
def test_the_gauges_marks_are_where_the_hem_folds_and_is_cut(made, printed, kit, paper):
    (page,) = printed(made(gauge_card, kit, paper=paper))
    gauge_is_true(page, kit)


# 29 threads/in, hem 11, turn 6: 11, 22 and 28 of them from the open line; 6, 17 and 28 from the cut edge.
# 27 threads/in, hem 10, turn 5: 10, 20 and 25; 5, 15 and 25. By hand: h, 2h, 2h + t; t, t + h, t + 2h.
def test_the_bread_cloths_gauge_by_hand(made, printed):
    (page,) = printed(made(gauge_card, ADA, paper="A4"))
    for (left, top, right, bottom), pitch, out, back in zip(
        cards_on(page),
        (25.4 / 29, 25.4 / 27),
        ((11, 22, 28), (10, 20, 25)),
        ((6, 17, 28), (5, 15, 25)),
        strict=True,
    ):
        assert marks_from(page, left, top, right) == pytest.approx([n * pitch for n in out], abs=NEAR)
        assert marks_from(page, left, bottom, right) == pytest.approx([n * pitch for n in back], abs=NEAR)


# Cloth that will lose a fifth both ways has 24 threads to the inch now and 30 after the wash. A hem of
# 1/2 in means after it: 15 threads, which are 15 / 24 in, 15.875 mm, on the cloth that is cut.
def test_a_gauge_is_for_the_cloth_as_it_is_in_hand(printed):
    raw = Fabric("24/in", shrink_warp="20 %", shrink_weft="20 %")
    kit = Kit("Ada", Piece(raw, (80, 80), hem="1/2 in", clear=4))
    (page,) = printed(gauge_card(kit))
    ((left, top, _, _),) = cards_on(page)
    assert marks_from(page, left, top)[0] == pytest.approx(15.875, abs=NEAR)


# 28 and 28.2 threads/in, hem 8, turn 4: 7.257 and 7.206 mm, 18.143 and 18.014 mm: less than a line apart.
def test_gauges_that_nobody_could_tell_apart_are_one(printed, said):
    kit = Kit("Ada", Piece(Fabric("28/in", "28.2/in"), (80, 80), hem=8, same="threads", clear=4))
    (page,) = printed(gauge_card(kit))
    assert len(cards_on(page)) == 1
    assert "Ada, piece: all sides" in page.words
    gauge_is_true(page, kit)


@for_each("paper", SHEETS)
@for_each("kit", SHOP.kits)
def test_the_cards_are_one_page_at_true_scale(made, printed, troubles, kit, paper):
    leaflet = made(kit_cards, kit, paper=paper)
    (page,) = printed(leaflet)
    assert leaflet.pages[0].one_sided
    assert troubles(leaflet) == []
    gauge_is_true(page, kit)
    corner = kit.piece.corners.top_left
    scale = int(page.words.split(" times as large")[0][-1]) if "times as large" in page.words else 1
    assert has_line(lines_of(page, scale, corner), *(tuple(map(float, p)) for p in corner.corner_fold))


hems = st.fractions(2, 40, max_denominator=8).map(Length)


@settings(max_examples=8)
@given(hem=hems, shrink=st.sampled_from(["0 %", "8 %"]), turn=st.sampled_from([None, 0, 2]))
def test_a_gauge_is_true_for_any_hem_in_hand(printed, hem, shrink, turn):
    cloth = Fabric("30/in", "26/in", shrink_warp=shrink)
    kit = Kit("Ada", Piece(cloth, (80, 80), hem=hem, clear=4, turn=turn))
    (page,) = printed(gauge_card(kit))
    gauge_is_true(page, kit)


def lines_of(page, scale, corner):
    """Strokes of the corner in the corner's own mm, outward from the crossing of the open lines."""
    inward = max(float(place) for place in corner.raw_corner)
    side = (inward + float(corner.raw_corner[0])) * scale
    outline = next(
        s.points
        for s in page.strokes
        if len(s.points) == 5 and abs(max(x for x, _ in s.points) - s.points[0][0] - side) < NEAR
    )
    left, top = outline[0]
    return [
        [((x - left) / scale - inward, (y - top) / scale - inward) for x, y in s.points]
        for s in page.strokes
        if s.points[0][1] < page.size[1] - 28
    ]


def has_line(lines, start, end):
    return any(
        len(line) == 2
        and (line[0] == pytest.approx(start, abs=NEAR) and line[1] == pytest.approx(end, abs=NEAR))
        for line in lines
    )


@for_each("paper", SHEETS)
@for_each("scale", [1, 2])
@for_each("kit", [ADA, EDDA, HILDA])
def test_the_paper_mitres_lines_are_the_corners_own_at_scale(made, printed, kit, scale, paper):
    corner = kit.piece.corners.top_left
    (page,) = printed(made(paper_mitre, kit, scale=scale, paper=paper))
    lines = lines_of(page, scale, corner)
    right, low = (float(place) for place in corner.raw_corner)
    hx, hy = (float(hem) for hem in corner.hems)
    back = -max(right, low)
    for place in (hx, 2 * hx):
        assert has_line(lines, (place, back), (place, low))
    for place in (hy, 2 * hy):
        assert has_line(lines, (back, place), (right, place))
    assert has_line(lines, *(tuple(map(float, point)) for point in corner.corner_fold))
    assert has_line(lines, *(tuple(map(float, point)) for point in corner.trim))


def test_a_paper_mitre_is_as_large_as_fits_and_says_so(said):
    assert "3 times as large as life" in said(paper_mitre(ADA))
    assert "At true size" in said(paper_mitre(ADA, scale=1))
    assert "6 times as large as life" in said(paper_mitre(HILDA))


DEEP = Kit("Ada", example("bread cloth").with_changes(hem="4 in"), "curtain")


def test_what_does_not_fit_at_true_size_is_refused_with_how_much_fits():
    with pytest.raises(HemError, match=r"gauge card of curtain would be 3.. mm wide, but A4 has 190 mm"):
        gauge_card(DEEP)
    with pytest.raises(HemError, match="paper mitre would be 508 mm each way at true size, but A4 has"):
        paper_mitre(DEEP)
    with pytest.raises(HemError, match=r"at 4 times its size, but A4 has .* for example scale=3") as no:
        paper_mitre(ADA, scale=4)
    assert no.value.about == "scale"
