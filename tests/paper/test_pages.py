"""What the pages say: the piece's own numbers, whole, legible, with the cautions that belong there."""

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import cycle

import pytest
from cases import for_each
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc.bolt.buying import cut_from_bolt
from hemcalc.finish.steps import finish_steps
from hemcalc.finish.words import PRACTICE, Step
from hemcalc.measure.cautions import CAUTIONS, COMES_FIRST
from hemcalc.measure.errors import HemError
from hemcalc.measure.fabric import Fabric
from hemcalc.paper.cutting import cutting_list
from hemcalc.paper.gauge import gauge_card
from hemcalc.paper.key import leader_key
from hemcalc.paper.labels import kit_labels
from hemcalc.paper.mitre import paper_mitre
from hemcalc.paper.numbers import alike, edge_rows
from hemcalc.paper.printer import PAPERS
from hemcalc.paper.sheet import learner_sheet
from hemcalc.paper.shopping import shopping_list
from hemcalc.paper.workshop import kit_cards
from hemcalc.piece.examples import EXAMPLES
from hemcalc.piece.piece import Piece
from hemcalc.piece.sides import Sides
from hemcalc.piece.sizes import BEGINNINGS
from hemcalc.workshop import example_cupboard, example_offers, where_to_buy
from hemcalc.workshop.cutting import cut_for_class
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.kit import Kit
from hemcalc.workshop.workshop import Workshop

STEPS = tuple(
    Step(number, f"Step the {number}th", "Do this with thread and needle. " * number, "It lies flat.", mind)
    for number, mind in zip(range(1, 9), [("blade", "eyes"), ()] * 4, strict=True)
)
SHOP = {unit: example_workshop(unit) for unit in ("in", "cm", "mm")}
LAYOUTS = {unit: cut_for_class(shop) for unit, shop in SHOP.items()}
#: Pages of a learner at most, of which one is her cards.
MAX_PAGES = 6
EDDA = next(kit for kit in SHOP["in"].kits if kit.kind == "sampler")
papers = pytest.mark.parametrize("paper", PAPERS)
units = pytest.mark.parametrize("unit", SHOP)


# Each kit in each unit, and each of both on either paper.
@pytest.mark.parametrize(
    ("at", "unit", "paper"),
    [
        (at, unit, list(PAPERS)[(i + j) % 2])
        for i, at in enumerate((0, 4, 9, 11))
        for j, unit in enumerate(SHOP)
    ],
)
def test_nothing_on_a_kits_pages_is_cut_off_or_overlaps(made, troubles, at, unit, paper):
    kit = SHOP[unit].kits[at]
    for leaflet in (
        made(learner_sheet, kit, STEPS, unit=unit, paper=paper, note="An invented guild."),
        made(gauge_card, kit, unit=unit, paper=paper),
        made(paper_mitre, kit, unit=unit, paper=paper),
        made(paper_mitre, kit, unit=unit, paper=paper, scale=1),
    ):
        assert troubles(leaflet) == []


@papers
@units
def test_nothing_on_the_leaders_pages_is_cut_off_or_overlaps(troubles, unit, paper):
    shop = SHOP[unit].with_lengths({linen.name: "1 m" for linen in SHOP[unit].linens[:2]})
    for leaflet in (
        leader_key(shop, paper=paper),
        shopping_list(shop, paper=paper),
        kit_labels(shop, paper=paper),
    ):
        assert troubles(leaflet) == []


@papers
def test_the_three_questions_are_answered_on_paper(troubles, said, paper):
    asked = where_to_buy(SHOP["cm"], example_offers("cm"), rests=example_cupboard(), budget="70.00")
    shops = shopping_list(asked.workshop, asked, paper=paper)
    cuts = cutting_list(asked.workshop, asked.cutting, paper=paper)
    assert troubles(shops) == troubles(cuts) == []
    for offer in asked.offers:
        assert offer.linen.goods.shop in said(shops)
    for each in asked.cutting.rests:
        assert each.text("cm") in said(shops)
        for step in each.had.steps("cm"):
            assert step in said(cuts)


@st.composite
def pieces(draw):
    hem = draw(st.integers(1, 20))
    return Piece(
        Fabric(draw(st.sampled_from(["18/in", "12/cm", "40/in"])), draw(st.sampled_from(["20/in", "40/in"]))),
        (draw(st.integers(40, 300)), 120),
        hem=hem,
        same="threads",
        clear=Sides(*(draw(st.integers(0, 12)) for _ in range(4))),
        drawn=draw(st.integers(1, 4)),
        turn=draw(st.none() | st.integers(0, hem)),
        handling=draw(st.sampled_from([0, "1 in"])),
        corner=draw(st.sampled_from(["mitred", "untrimmed", "square", "uncut"])) if hem > 10 else "mitred",
    )


@settings(max_examples=10)
@given(
    pieces(),
    st.text("ab $_W–é", min_size=1, max_size=58).filter(str.strip),
    st.sampled_from(["A4", "Letter"]),
)
def test_any_piece_and_any_name_fit(troubles, piece, name, paper):
    kit = Kit(name, piece, "runner " + name.strip()[:40])
    for leaflet in (
        learner_sheet(kit, STEPS[:2], paper=paper),
        gauge_card(kit, paper=paper),
        paper_mitre(kit, paper=paper),
    ):
        assert troubles(leaflet) == []


@pytest.mark.parametrize("kind", EXAMPLES)
def test_the_sheet_says_the_pieces_own_numbers(made, said, kind):
    kit = next(kit for kit in SHOP["in"].kits if kit.kind == kind)
    told, whole = (said(made(learner_sheet, kit, *of, unit="in")) for of in ([STEPS], []))
    piece = kit.piece
    assert kit.cloth_text("in").removeprefix("cut ") in told
    for side in ("left", "right", "top", "bottom"):
        edge, spacing = getattr(piece.edges, side), getattr(kit.spacings, side)
        for number in (edge.fold_1, edge.fold_2, edge.cut):
            assert f"after {number}" in told
        assert f"{edge.first_drawn} to {edge.open_line}" in told
        assert spacing.text() in whole
    for line in (*kit.uses, *kit.counted):
        assert line.text() in told
    for step in STEPS:
        assert step.title in told
        assert f"Check: {step.check}" in told
    assert told.count("Mind: blade, eyes") == 4
    assert [tool for tool in CAUTIONS if CAUTIONS[tool] in told] == ["blade", "eyes"]


def test_the_rows_follow_the_edges():
    piece = EXAMPLES["sampler"].with_changes(clear=Sides(12, 11, 12, 12), drawn=1)
    assert [sides for sides, _ in alike(piece)] == ["left", "right", "top and bottom"]
    rows = {name: cells for name, *cells in edge_rows(piece, "in")}
    assert rows["draw threads"] == ["13", "12", "13"]
    assert rows["cut after thread"] == [str(edge.cut) for _, (edge, _) in alike(piece)]


def test_the_left_hand_works_the_other_way_on_paper(made, said):
    right, left = SHOP["in"].kits[0], SHOP["in"].kits[2]
    assert (right.kind, right.hand, left.kind, left.hand) == ("bread cloth", "right", "bread cloth", "left")
    ways = "of 4, from left to right.", "of 4, from right to left."
    for kit, way in zip((right, left), ways, strict=True):
        told = said(made(learner_sheet, kit))
        assert [other in told for other in ways] == [other == way for other in ways]
    key = said(made(leader_key, SHOP["in"]))
    assert key.count("Top and bottom have 244 threads.") == 1
    assert "Left and right have 202 threads." in key
    assert "The same groups, worked the other way: Cora." in key
    assert "Cards stand at the end of the class's file: print them on one side" in key
    assert "Cora (left hand)" in key


def test_every_learner_and_spare_has_a_label_with_what_is_in_the_bag(made, printed):
    shop = SHOP["cm"]
    said = "\n".join(page.words for page in printed(made(kit_labels, shop)))
    for kit in shop.every_kit:
        assert said.count(f"{kit.learner}\n") == 1
        assert f"{kit.kind}, {kit.hand} hand" in said
        for line in (*kit.uses, *kit.counted):
            assert line.text() in " ".join(said.split())


def test_the_shopping_list_says_what_to_buy_and_what_it_is_without(said):
    shop = SHOP["cm"].with_lengths({"linen for coasters": "15.5 cm"})
    told = said(shopping_list(shop))
    for line in shop.shopping:
        assert line.text() in told
    assert shop.cost_text in told
    assert "without linen for bread cloths" in told
    assert "3 of coaster, 15.5 cm across × 15.5 cm down" in told


@pytest.mark.parametrize(
    ("leaflet", "tools"),
    [
        (lambda made, kit, shop: made(learner_sheet, kit), tuple(CAUTIONS)),
        (lambda made, kit, shop: made(gauge_card, kit), ("blade",)),
        (lambda made, kit, shop: made(paper_mitre, kit), ("blade",)),
        (lambda made, kit, shop: made(leader_key, shop), tuple(CAUTIONS)),
        (lambda made, kit, shop: made(shopping_list, shop), ("blade",)),
        (lambda made, kit, shop: made(cutting_list, shop, LAYOUTS["in"]), ("blade",)),
        (lambda made, kit, shop: made(kit_labels, shop), ("blade",)),
    ],
    ids=["sheet", "gauge", "mitre", "key", "shopping", "cutting", "labels"],
)
def test_where_a_blade_or_an_iron_comes_in_its_caution_stands_and_defers(made, said, leaflet, tools):
    told = said(leaflet(made, SHOP["in"].kits[0], SHOP["in"]))
    for tool in tools:
        assert CAUTIONS[tool] in told
    assert COMES_FIRST in told


def test_the_sheet_tells_the_pieces_own_steps_in_the_learners_hand(made, said):
    kit = SHOP["cm"].kits[2]
    assert kit.hand == "left"
    told = said(made(learner_sheet, kit, unit="cm"))
    steps = finish_steps(kit.piece, group=kit.group, hand="left", unit="cm")
    assert len(steps) > 10
    for number, step in enumerate(steps, 1):
        mind = f" Mind: {', '.join(step.mind)}" if step.mind else ""
        assert f"{number}. {step.title}{mind}" in told
        assert step.task.replace(f" {PRACTICE}", "") in told
        assert f"Check: {step.check}" in told
    for tool in {tool for step in steps for tool in step.mind}:
        assert told.count(CAUTIONS[tool]) == 1


@pytest.mark.parametrize(("at", "paper"), list(zip((0, 4, 8, 9), cycle(PAPERS), strict=False)))
def test_a_learners_pages_are_few_and_full_and_their_steps_large(made, printed, at, paper):
    """Every page is more than half full; steps are set in 10.5 points, and their checks in bold."""
    kit = SHOP["cm"].kits[at]
    steps = finish_steps(kit.piece, group=kit.group, hand=kit.hand, unit="cm")
    sheet = made(learner_sheet, kit, unit="cm", paper=paper)
    pages = printed(sheet)
    assert len(pages) + len(made(kit_cards, kit, unit="cm", paper=paper).pages) <= MAX_PAGES
    for number, (page, drawn) in enumerate(zip(pages, sheet.pages, strict=True), 1):
        low = max(line.bottom for line in page.lines if line.bottom < drawn.bottom + 1)
        assert low > (drawn.top + drawn.bottom) / 2, f"page {number} is half empty"
    lines = [line for page in pages for line in page.lines]
    checks = [line for line in lines if line.text == "Check:"]
    assert len(checks) == len(steps)
    assert {(line.font, line.points) for line in checks} == {("DejaVuSans-Bold", 10.5)}
    for step in steps:
        words = " ".join(step.task.split()[:3])
        assert any(line.text.startswith(words) and line.points >= 10.5 for line in lines), step.title


@pytest.mark.parametrize("beginning", BEGINNINGS)
@pytest.mark.parametrize("kind", EXAMPLES)
def test_a_learners_pages_are_few_from_each_beginning(kind, beginning):
    # Each on the paper of its unit's countries.
    for unit, paper in (("in", "Letter"), ("cm", "A4")):
        kit = replace(next(kit for kit in SHOP[unit].kits if kit.kind == kind), beginning=beginning)
        pages = (*learner_sheet(kit, paper=paper).pages, *kit_cards(kit, paper=paper).pages)
        assert len(pages) <= MAX_PAGES


def test_cloth_that_stays_large_is_not_to_be_cut_yet(said):
    for beginning in BEGINNINGS:
        told = said(learner_sheet(replace(EDDA, beginning=beginning), STEPS[:1]))
        assert ("don't cut it yet" in told) == (beginning != "blank, to size")


def test_each_movement_of_the_steps_has_its_picture_once(made, printed):
    """By the picture's own size, that of a frame of 45 by 30 mm; the blank cloth's is larger."""
    kit = SHOP["in"].kits[0]
    steps = finish_steps(kit.piece, group=kit.group, hand=kit.hand)
    frames = [
        stroke
        for page in printed(made(learner_sheet, kit))
        for stroke in page.strokes
        if len(stroke.points) == 5 and stroke.width == pytest.approx(1.2, abs=0.01)
    ]
    sizes = [
        tuple(max(p[i] for p in frame.points) - min(p[i] for p in frame.points) for i in (0, 1))
        for frame in frames
    ]
    named = {name for step in steps for name in step.movements}
    assert len(named) > 15
    small = [size for size in sizes if size == pytest.approx((45, 30), abs=0.01)]
    assert len(small) == len(named) - 1
    assert sum(size == pytest.approx((66, 46), abs=0.01) for size in sizes) == 1


def test_the_cutting_list_tells_every_cut_and_what_to_buy(made, said, troubles):
    leaflet = made(cutting_list, SHOP["cm"], LAYOUTS["cm"])
    told = said(leaflet)
    for layout in LAYOUTS["cm"].values():
        for sentence in (layout.text("cm"), *layout.steps("cm")):
            assert sentence in told
    assert troubles(leaflet) == []


@cache
def cut_up(which):
    """The example's layouts in a unit; or those of a class of 24 with three sizes on a linen, and of 48."""
    if which in LAYOUTS:
        return LAYOUTS[which]
    sizes = (
        ("bread cloth", "11 in", "10 in"),
        ("sampler", "11 1/8 in", "9 1/2 in"),
        ("coaster", "6 in", "6 in"),
    )
    return {
        name: cut_from_bolt([(*size, many) for size in sizes], "55 in", grain=grain, effort=Fraction(1, 10))
        for name, many, grain in (("linen for a class", 24, "free"), ("linen for a guild", 48, "fixed"))
    }


@pytest.mark.parametrize(
    ("which", "unit", "paper"),
    [
        *((unit, unit, paper) for unit, paper in zip(LAYOUTS, cycle(PAPERS), strict=False)),
        ("large", "in", "A4"),
        ("large", "cm", "Letter"),
    ],
)
def test_nothing_on_the_cutting_list_is_cut_off_or_overlaps(made, printed, troubles, which, unit, paper):
    leaflet = made(cutting_list, SHOP[unit], cut_up(which), paper=paper)
    assert any("usable width" in page.words for page in printed(leaflet))
    assert troubles(leaflet) == []
    size = leaflet.pages[0].paper
    for page in printed(leaflet):
        for stroke in page.strokes:
            for x, y in stroke.points:
                assert size.margin - 0.5 <= x <= size.width - size.margin + 0.5
                assert size.margin - 0.5 <= y <= size.height - size.margin + 0.5


@pytest.mark.parametrize("which", ["cm", "large"])
def test_each_linen_has_its_picture_between_its_name_and_its_cuts(made, printed, which):
    layouts = cut_up(which)
    pages = printed(made(cutting_list, SHOP["cm"], layouts))
    lines = sorted((number, line.top, line.text) for number, page in enumerate(pages) for line in page.lines)
    pictures = [place for *place, text in lines if text.startswith("usable width")]
    first_cuts = [place for *place, text in lines if text.startswith("Cut 1: ")]
    for (name, layout), cut in zip(layouts.items(), first_cuts, strict=True):
        (head,) = [place for *place, text in lines if re.fullmatch(rf"{name}(, .*\b1 of \d+.*)?", text)]
        # A long one goes on over several sheets.
        picture = next(place for place in pictures if place > head)
        assert head < picture < cut
        assert head[0] == picture[0]
        words = pages[picture[0]].words
        assert f"usable width {layout.width.text('cm')}" in words
        sheets = "\n".join(page.words for page in pages[picture[0] : cut[0] + 1])
        assert layout.to_buy.text("cm") + "\nto buy" in sheets


def test_invented_data_say_so_on_every_page(made, printed):
    for make in (leader_key, shopping_list, kit_labels):
        for page in printed(made(make, SHOP["in"])):
            assert "An invented guild" in page.words


def test_one_label_is_enough_and_five_hundred_take_more_pages():
    shop = SHOP["in"]
    one = Workshop("One", shop.kits[:1], shop.linens, shop.goods)
    assert len(kit_labels(one).pages) == 1
    many = Workshop("Many", shop.kits * 3, shop.linens, shop.goods)
    assert len(kit_labels(many).pages) > 3


@for_each(
    ("make", "words_of_it"),
    [
        (lambda: cutting_list(SHOP["in"], {"linen": 3}), "layouts is a dict, but must have a Layout"),
        (lambda: learner_sheet("Ada"), "kit is 'Ada', but must be a Kit"),
        (lambda: leader_key(3), "workshop is 3, but must be a Workshop"),
        (lambda: learner_sheet(SHOP["in"].kits[0], paper="A5"), "paper is 'A5', but must be one of 'A4'"),
        (lambda: gauge_card(SHOP["in"].kits[0], unit="ell"), "unit is 'ell'"),
        (lambda: paper_mitre(SHOP["in"].kits[0], scale=0), "scale is 0"),
        (
            lambda: learner_sheet(SHOP["in"].kits[0], [replace(STEPS[0], mind=("hoop",))]),
            "mind is 'hoop', but must be one of 'blade'",
        ),
        (
            lambda: learner_sheet(SHOP["in"].kits[0], [replace(STEPS[0], task="so " * 4000)]),
            "'1. Step the 1th' would be",
        ),
    ],
)
def test_what_makes_no_page_is_refused_in_a_sentence(make, words_of_it):
    with pytest.raises(HemError, match=words_of_it) as no:
        make()
    assert "for example" in str(no.value)
