"""The panel of the bolt: its plan, its picture, its list of cuts, and what it offers in each unit."""

import html
import re
from itertools import takewhile

import pytest
from moving import move

from hemcalc import EXAMPLES, Length, cut_from_bolt
from hemcalc.panels.bolt import MAX_LEARNERS, SOLD_BY, WIDTHS
from hemcalc.workshop import cut_size_of


def sizes(many, *names, unit="cm"):
    """What is laid on one bolt is of one linen, the first one's."""
    linen = EXAMPLES[names[0]].fabric
    pieces = {name: EXAMPLES[name].with_changes(fabric=linen) for name in names}
    return [cut_size_of(name, piece, many, unit) for name, piece in pieces.items()]


def listed(panel):
    """The lines of the list below the picture."""
    (inside,) = re.findall(r"<div[^>]*>(.*)</div>", panel.lines.value, re.DOTALL)
    return [html.unescape(line) for line in inside.split("<br>")]


def test_it_opens_on_bread_cloths_for_twelve(bolt):
    assert bolt.result.layout == cut_from_bolt(sizes(12, "bread cloth"), "140 cm", unit="10 cm")
    assert bolt.result.unit == "cm"


# Two samplers of 28.5 cm lie beside each other on 60 cm: twelve take six rows of 24 cm, 144 cm.
def test_what_it_says_is_what_comes_out_by_hand(bolt):
    move(bolt, pieces="a sampler", width="60 cm")
    assert [side.cm for side in EXAMPLES["sampler"].cut_size.to_cut("cm")] == [28.5, 24]
    assert bolt.result.layout.used == Length("144 cm")
    assert bolt.result.layout.to_buy == Length("150 cm")
    move(bolt, sold_by="100 cm")
    assert bolt.result.layout.to_buy == Length("200 cm")


@pytest.mark.parametrize(
    ("values", "of", "how"),
    [
        ({"learners": 5}, (5, "bread cloth"), {}),
        ({"pieces": "a coaster"}, (12, "coaster"), {}),
        ({"pieces": "bread cloth, coaster"}, (12, "bread cloth", "coaster"), {}),
        ({"width": "90 cm"}, (12, "bread cloth"), {"width": "90 cm"}),
        ({"sold_by": "100 cm"}, (12, "bread cloth"), {"unit": "100 cm"}),
        ({"pieces": "a bookmark", "turn": True}, (12, "bookmark"), {"grain": "free"}),
        ({"unit": "in"}, (12, "bread cloth"), {"width": "54 in", "unit": "1/8 yd"}),
    ],
    ids=lambda value: ", ".join(map(str, value)),
)
def test_each_control_sets_its_own_part_and_picture_words_and_list_follow(bolt, values, of, how, alt_of):
    wanted = cut_from_bolt(sizes(*of, unit=values.get("unit", "cm")), **{"width": "140 cm"} | how)
    before = bolt.picture.value, bolt.words.value, bolt.lines.value
    move(bolt, **values)
    assert bolt.result.layout == wanted
    alt = html.unescape(alt_of(bolt.picture.value))
    assert alt.startswith(wanted.text(bolt.result.unit))
    assert html.escape(alt) in bolt.words.value
    after = bolt.picture.value, bolt.words.value, bolt.lines.value
    # A coarser unit of the shop changes what is bought, and so the first bit that is cut.
    assert all(one != other for one, other in zip(before, after, strict=True))
    bolt.reset(bolt.menu.value)
    assert (bolt.picture.value, bolt.words.value, bolt.lines.value) == before


def test_the_list_tells_every_cut(quick_bolt):
    bolt = quick_bolt
    for name in bolt.examples:
        bolt.reset(name)
        layout, unit = bolt.result.layout, bolt.result.unit
        assert tuple(listed(bolt)) == layout.steps(unit)
        assert bolt.lines in bolt.widget.children
        assert 'tabindex="0"' in bolt.lines.value  # it scrolls, by the keyboard, too


def test_only_the_panel_of_the_bolt_has_a_list(all_panels):
    for name, panel in all_panels.items():
        assert (panel.lines in panel.widget.children) == (name == "bolt")


def test_the_list_says_no_cut_of_a_layout_that_could_not_be_made(bolt, monkeypatch):
    from hemcalc.measure.errors import HemError

    def refuse(values):
        raise HemError("width is too small; for example 90 cm.", "width")

    before = bolt.lines.value
    monkeypatch.setattr(bolt, "plan", refuse)
    move(bolt, learners=3)
    assert bolt.sentences == {"learners": "width is too small; for example 90 cm."}
    assert before
    assert not bolt.lines.value
    assert "still the last picture" in bolt.picture.value


@pytest.mark.parametrize("unit", WIDTHS)
def test_the_widest_piece_fits_the_narrowest_bolt_and_offers_are_exact(unit):
    widest = max(side.mm for piece in EXAMPLES.values() for side in piece.cut_size.to_cut(unit))
    widths = [Length(width) for width in WIDTHS[unit]]
    assert widest <= widths[0].mm
    assert widths == sorted(set(widths))
    assert [Length(each) for each in SOLD_BY[unit]] == sorted({Length(e) for e in SOLD_BY[unit]})


@pytest.mark.parametrize(
    ("turn", "width", "size"),
    [
        (False, "60 cm", "projector"),
        (True, "75 cm", "page"),
        (False, "140 cm", "page"),
        (True, "300 cm", "projector"),
    ],
)
def test_the_largest_class_has_room_and_is_legible(quick_bolt, set_once, turn, width, size):
    bolt = quick_bolt
    with bolt.holding():
        move(bolt, learners=MAX_LEARNERS, pieces="bread cloth, sampler, coaster", turn=turn, width=width)
        set_once.choose("type", size)
    assert len(bolt.result.layout.pieces) == 3 * MAX_LEARNERS
    assert not bolt.sentences
    words = [w for w in bolt.view.sheet.figure.findobj(lambda a: hasattr(a, "on_paper")) if w.get_visible()]
    boxes = sorted(word.get_window_extent().extents.tolist() for word in words)
    wide, high = bolt.view.sheet.figure.bbox.size
    for i, (x0, y0, x1, y1) in enumerate(boxes, 1):
        assert min(x0, y0) >= -1
        assert x1 <= wide + 1
        assert y1 <= high + 1
        for left, low, right, top in takewhile(lambda box, x=x1: box[0] < x, boxes[i:]):
            assert min(min(x1, right) - left, min(y1, top) - max(y0, low)) <= 1


def test_a_change_of_unit_goes_to_the_nearest_offer_and_back(bolt):
    move(bolt, unit="in")
    assert bolt.values["width"] == "54 in"
    assert bolt.values["sold by"] == "1/8 yd"
    move(bolt, unit="cm")
    assert bolt.values["width"] == "135 cm"
    assert bolt.values["sold by"] == "10 cm"


def test_turning_never_costs_more(bolt):
    for pieces in ("a sampler", "a bookmark", "bread cloth, sampler, coaster"):
        with bolt.holding():
            move(bolt, pieces=pieces, turn=False)
        fixed = bolt.result.layout.used
        move(bolt, turn=True)
        assert bolt.result.layout.used <= fixed
