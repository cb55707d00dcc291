"""My piece: what is typed becomes a piece, is kept and opened as it was, and is what every panel opens on."""

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hemcalc import EXAMPLES, Fabric, HemError, Length, Piece, Sides, load_piece
from hemcalc.panels import in_hand, my_piece
from hemcalc.panels.in_hand import MINE, take_in_hand
from hemcalc.panels.mine_plan import RAW, STITCHES, WASHED, plan_mine, values_of
from hemcalc.panels.settings import in_force

from .conftest import KINDS

#: Unlike the invented ones: raw, two measured counts, four sides that differ, more than the panels hold.
HERS = Piece(
    Fabric(
        EXAMPLES["sampler"].fabric.warp.measured([112, 113, "112 1/2"], "4 in"),
        EXAMPLES["sampler"].fabric.warp.measured([105], "4 in"),
        "0.4 mm",
        "8 %",
        "3 %",
    ),
    (400, 120),
    hem="1/2 in",
    clear=Sides(20, 4, 5, 6),
    drawn=3,
)


@pytest.fixture(autouse=True)
def nothing_in_hand(tmp_path, monkeypatch):
    """Each test in a folder of its own, with empty hands before and after."""
    monkeypatch.chdir(tmp_path)
    take_in_hand(None)
    yield
    take_in_hand(None)


@pytest.fixture
def form():
    return my_piece()


def test_it_begins_with_an_invented_piece_that_is_in_nobody_s_hand(form):
    assert form.plan.kit.piece == EXAMPLES["bread cloth"]
    assert in_hand.piece_in_hand() is None
    assert "An invented example" in form.result.value


def test_what_is_typed_is_the_piece_and_all_that_follows_from_it(form):
    form.fill(
        {
            "across": "112, 113, 112 1/2 over 4 in",
            "down": "105 over 4 in",
            "cloth": RAW,
            "length loses": "8 %",
            "width loses": "3 %",
            "thickness": "0.4 mm",
            "design is": STITCHES,
            "over": "2",
            "design across": "200",
            "design down": "60",
            "hem": "1/2 in",
            "sides differ": True,
            "clear left": "20",
            "clear right": "4",
            "clear top": "5",
            "clear bottom": "6",
            "drawn": "3",
            "hand": "left",
        }
    )
    assert form.sentences == {}
    assert form.plan.kit.piece == HERS == in_hand.piece_in_hand()
    said = form.plan.text()
    kit = form.plan.kit
    assert kit.cloth_text("in") in said
    for edge in HERS.edges:
        assert f"{edge.cut} (" in said
    assert all(use.text() in said for use in kit.uses)
    assert "from right to left" in said
    assert form.plan.time.text() in said
    assert form.fields["clear left"].is_shown
    assert not form.fields["clear"].is_shown


@pytest.mark.parametrize(
    ("filled", "beside", "says"),
    [
        ({"across": "twenty-eight"}, "across", "twenty-eight"),
        ({"across": ""}, "across", "count"),
        ({"down": "28"}, "down", "does not say to what length"),
        ({"hem": "wide"}, "hem", "wide"),
        ({"hem": ""}, "hem", "hem"),
        ({"design across": "many"}, "design across", "whole number"),
        ({"design down": "0"}, "design across", "1 or more"),
        ({"clear": "-3"}, "clear", "whole number"),
        ({"sides differ": True, "clear top": "x"}, "clear top", "whole number"),
        ({"drawn": "0"}, "drawn", "drawn"),
        ({"group": "9"}, "group", "group"),
        ({"length loses": "most"}, "length loses", "share"),
        ({"width loses": "60 %"}, "width loses", "share"),
        ({"thickness": "thick"}, "thickness", "thick"),
        ({"turn": "99"}, "turn", "turn"),
        ({"handling": "x"}, "handling", "handling"),
        ({"name": ""}, "name", "learner"),
    ],
    ids=str,
)
def test_bad_input_gets_its_one_sentence_beside_its_box_and_the_rest_stays(form, filled, beside, says):
    form.fill({"called": "towel"})
    before = form.plan
    form.fill(filled)
    assert list(form.sentences) == [beside]
    assert says in form.sentences[beside]
    assert len(form.sentences[beside]) <= 400
    assert "✗" in form.result.value
    assert form.plan == before
    form.keep()
    assert form.said.wrong
    form.fill(values_of(EXAMPLES["coaster"]) | {"group": "4", "name": "Ada"})
    assert form.sentences == {}


@pytest.mark.parametrize("piece", [EXAMPLES["tray cloth"], HERS], ids=str)
def test_what_is_kept_opens_as_it_was_and_nothing_is_written_over_unasked(form, piece, tmp_path):
    form.fill(values_of(piece))
    form.file.value = "hers.json"
    form.keep()
    assert form.said.text == f"Kept in {tmp_path / 'hers.json'}."
    assert load_piece("hers.json") == piece
    form.fill({"clear": "9", "sides differ": False})
    form.keep()
    assert form.said.wrong
    assert "tick “write over it”" in form.said.text
    assert load_piece("hers.json") == piece
    form.open()
    assert form.plan.kit.piece == piece == in_hand.piece_in_hand()
    form.fill({"clear": "9", "sides differ": False})
    form.replace.value = True
    form.keep()
    assert load_piece("hers.json").clear == Sides(9, 9, 9, 9)
    assert not form.replace.value, "asked once, not for ever"
    assert "hers.json" in form.file.options


def test_what_is_no_piece_is_answered_and_changes_nothing(form, tmp_path):
    before = form.plan
    (tmp_path / "hers.json").write_text("{", "utf-8")
    for name in ("hers.json", "nowhere.json", "", "."):
        form.file.value = name
        form.open()
        assert form.said.wrong
        assert form.plan == before


def test_sheet_and_cards_are_a_pdf_whose_place_is_said(form, tmp_path):
    form.file.value = "hers.json"
    form.fill({"hand": "left", "name": "Ada"})
    form.print()
    pdf = tmp_path / "hers.pdf"
    assert str(pdf) in form.said.text
    assert pdf.read_bytes().startswith(b"%PDF")
    pdf.write_bytes(b"hers")
    form.print()
    assert form.said.wrong
    assert pdf.read_bytes() == b"hers"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("piece", [EXAMPLES["tray cloth"], HERS], ids=str)
def test_every_panel_opens_on_the_piece_in_hand_or_says_what_it_shows_instead(kind, piece):
    take_in_hand(piece)
    panel = KINDS[kind]()
    assert panel.menu.value == next(iter(panel.examples)) == MINE
    assert panel.result is not None
    left, edge = piece.edges.left, getattr(panel.result, "edge", None)
    if edge is not None and "hem" not in str(panel.sentences):
        same = (edge.hem, edge.clear, edge.drawn) == (left.hem, left.clear, left.drawn)
        assert same == (panel.near.value == ""), panel.near.value
    panel.reset(list(panel.examples)[1])
    assert panel.near.value == ""
    assert panel.sentences == {}


def test_a_setting_puts_no_piece_in_hand(form):
    form.fill({"hem": "12"})
    take_in_hand(EXAMPLES["tray cloth"])
    in_force().choose("unit", "cm")
    assert form.plan.unit == "cm"
    assert in_hand.piece_in_hand() == EXAMPLES["tray cloth"]


@pytest.mark.parametrize("kind", KINDS)
def test_a_panel_that_is_open_offers_the_piece_once_it_is_taken_and_follows_it(kind):
    panel = KINDS[kind]()
    first = panel.menu.value
    take_in_hand(EXAMPLES["tray cloth"])
    assert panel.menu.value == first, "what she looks at is not taken from under her eyes"
    assert panel.menu.options[0] == MINE
    panel.menu.value = MINE
    shown = panel.view.alt(panel.result)
    take_in_hand(EXAMPLES["lavender bag"])
    assert panel.menu.value == MINE
    assert panel.view.alt(panel.result) != shown
    take_in_hand(None)
    assert MINE not in panel.menu.options


def test_a_piece_kept_under_the_usual_name_is_in_hand_on_every_page_of_the_folder(form, monkeypatch):
    form.fill(values_of(HERS))
    form.keep()
    monkeypatch.setattr(in_hand, "HAND", in_hand.Hand())  # as in another kernel
    assert in_hand.piece_in_hand() == HERS
    again = my_piece()
    assert again.plan.kit.piece == HERS
    assert "An invented example" not in again.result.value


@cache
def typed():
    """What the boxes say to begin with."""
    return my_piece().values


@settings(max_examples=15)
@given(
    st.sampled_from(["28/in", "27.5/in", "11/cm", "112, 113 over 4 in"]),
    st.sampled_from([WASHED, RAW]),
    st.integers(30, 90),
    st.sampled_from(["3/8 in", "1 cm", "9"]),
    st.lists(st.integers(4, 9), min_size=4, max_size=4),
    st.sampled_from(["", "4", "3 mm"]),
)
def test_any_piece_that_is_typed_is_typed_back(count, cloth, design, hem, clear, turn):
    sides = {
        f"clear {side}": str(n) for side, n in zip(("left", "right", "top", "bottom"), clear, strict=True)
    }
    values = typed() | sides
    values |= {"across": count, "down": "", "cloth": cloth, "design across": str(design)}
    values |= {"sides differ": True, "hem": hem, "turn": turn, "width loses": "3 %"}
    piece = plan_mine(values).kit.piece
    assert plan_mine(values | values_of(piece)).kit.piece == piece
    assert piece.clear == Sides(*clear)


def test_only_a_piece_is_taken_in_hand():
    with pytest.raises(HemError, match="must be a Piece"):
        take_in_hand("coaster")


def test_a_length_reckoned_elsewhere_is_typed_exactly():
    piece = EXAMPLES["coaster"].with_changes(hem=Length("1/3 cm"))
    assert values_of(piece)["hem"] == "1/3 cm"
