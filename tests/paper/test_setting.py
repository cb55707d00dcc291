"""How pages are set: type large enough, nothing alone at a foot, numbers whole, few pages."""

import pytest
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st

from hemcalc.paper.flow import Flow
from hemcalc.paper.gauge import gauge_card
from hemcalc.paper.key import leader_key
from hemcalc.paper.labels import kit_labels
from hemcalc.paper.letters import width_of, wrapped
from hemcalc.paper.printer import PAPERS
from hemcalc.paper.sheet import learner_sheet
from hemcalc.paper.shopping import shopping_list
from hemcalc.paper.step import fill_pages, set_step
from hemcalc.paper.workshop import workshop_pages
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.workshop import Workshop

SHOPS = {unit: example_workshop(unit) for unit in ("in", "cm")}
papers = pytest.mark.parametrize("paper", PAPERS)


@pytest.mark.parametrize(("unit", "paper"), [("in", "Letter"), ("cm", "A4")])
def test_no_type_is_too_small_and_no_heading_stands_alone_at_a_foot(printed, unit, paper):
    whole = SHOPS[unit]
    some = Workshop("Class", whole.kits[3:12:3], whole.linens, whole.goods, unit=unit, note="Invented.")
    for leaflet in workshop_pages(some, paper=paper).values():
        ends = leaflet.pages[0].bottom
        for page in printed(leaflet):
            assert min(line.points for line in page.lines) >= 8
            for head in page.lines:
                if head.points == 11:
                    assert any(head.bottom < line.top < ends for line in page.lines), head.text


def test_a_heading_goes_where_what_follows_it_goes():
    with_room = Flow(PAPERS["A4"], "Title")
    with_room.y = with_room.page.bottom - 20
    with_room.heading("A heading", followed_by=30)
    assert len(with_room.pages) == 2


@for_each("text", ["it is 6 1/2 in wide", "about ≈ 3.25 cm", "14 × 12 threads", "by 12 %"])
@given(room=st.floats(18, 60))
def test_a_number_keeps_its_fraction_its_unit_and_its_sign(text, room):
    held = {"it is 6 1/2 in wide": "6 1/2 in", "by 12 %": "12 %", "about ≈ 3.25 cm": "≈ 3.25 cm"}
    whole = held.get(text, text)
    lines = wrapped(text, room, 9)
    if width_of(whole, 9) <= room:
        assert any(whole in line for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@given(st.lists(st.floats(10, 120), min_size=1, max_size=30), st.floats(0, 200))
def test_steps_are_shared_among_the_fewest_pages_in_order(heights, first):
    shares = fill_pages(heights, first, 200)
    assert sum(shares) == len(heights)
    at, fewest, left = 0, 0, first
    for height in heights:  # as many on each page as fit
        if height > left:
            fewest, left = fewest + 1, 200
        left -= height
    assert len(shares) == fewest + 1
    for i, many in enumerate(shares):
        assert sum(heights[at : at + many]) <= (200 if i else first) + 1e-6
        at += many


def test_what_to_mind_stands_beside_the_title_and_never_on_it(printed):
    flow = Flow(PAPERS["A4"], "Title")
    steps = [
        set_step(90, f"{n}. Withdraw the others{', all of them' * n}", "So.", "It lies.", "Mind: blade, eyes")
        for n in (0, 1, 2)
    ]
    assert steps[0].height < steps[2].height
    flow.steps(steps)
    assert not _overlaps(printed(flow.leaflet("Title", ""))[0])


def _overlaps(page):
    return [
        (one.text, other.text)
        for i, one in enumerate(page.lines)
        for other in page.lines[i + 1 :]
        if min(one.right, other.right) - max(one.left, other.left) > 0.15
        and min(one.bottom, other.bottom) - max(one.top, other.top) > 0.15
    ]


@papers
def test_no_broken_line_of_the_labels_lies_on_another(made, printed, paper):
    """Two of them would look like a whole line, and the labels are cut along the broken ones."""
    for page in printed(made(kit_labels, SHOPS["in"], paper=paper)):
        lines = [s.points for s in page.strokes if s.dashed]
        assert len(lines) > 5
        assert all(len(line) == 2 for line in lines)
        for i, ((x0, y0), (x1, y1)) in enumerate(lines):
            for (u0, v0), (u1, v1) in lines[i + 1 :]:
                same_down = x0 == x1 == u0 == u1 and min(y1, v1) - max(y0, v0) > 0.1
                same_across = y0 == y1 == v0 == v1 and min(x1, u1) - max(x0, u0) > 0.1
                assert not same_down
                assert not same_across


def test_prices_and_costs_end_under_each_other(printed):
    shop = SHOPS["cm"].with_lengths({linen.name: "1 m" for linen in SHOPS["cm"].linens})
    (page,) = printed(shopping_list(shop))
    said = {str(line.cost) for line in shop.shopping}
    # Where the ink ends: a figure has less than a third of a millimetre of its own beside it.
    ends = [line.right for line in page.lines if line.text in said and line.right > 190]
    assert len(ends) >= len(shop.shopping)
    assert max(ends) - min(ends) < 0.3


def test_the_key_counts_every_learners_needles_out_and_in(made, printed):
    shop = SHOPS["in"]
    said = "\n".join(page.words for page in printed(made(leader_key, shop)))
    assert "needles out\nneedles in" in said
    for kit in shop.every_kit:
        assert f"{kit.learner}\n{kit.kind}\n{kit.hand}\n{kit.needles + kit.sharps}" in said


@pytest.mark.parametrize(
    ("leaflet", "line"),
    [
        ((learner_sheet, SHOPS["in"].kits[0]), "begun: ____"),
        ((leader_key, SHOPS["in"]), "date: ____"),
    ],
)
def test_a_sheet_has_room_for_who_and_when(made, printed, leaflet, line):
    assert line in printed(made(*leaflet))[0].words


def test_a_card_that_is_cut_out_says_whose_it_is(made, said):
    assert "Ada, bread cloth: left and right" in said(made(gauge_card, SHOPS["in"].kits[0]))
