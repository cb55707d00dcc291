"""What is set once: every panel follows it, no example changes it, and the file never stops anybody."""

import json
import weakref
from dataclasses import replace

import pytest
from pypdfium2 import PdfDocument

from hemcalc import HemError, Kit, example, example_workshop
from hemcalc.panels import do_button, margin_panel, my_class, my_piece, settings_panel
from hemcalc.panels.klass import MyClass
from hemcalc.panels.settings import FILE, GREYS, OWN, SETTINGS, Settings
from hemcalc.paper import kit_pages, learner_sheet

SET = {"unit": "mm", "hand": "left", "type": "projector", "colours": "in greys"}


def printed(path):
    """All that stands on the pages of a PDF."""
    return "\n".join(page.get_textpage().get_text_range() for page in PdfDocument(path))


@pytest.fixture
def file(tmp_path):
    return tmp_path / FILE


@pytest.fixture
def settings(set_once):
    """Those of this kernel; afterwards nothing is set."""
    return set_once


def test_what_is_set_is_kept_and_what_is_not_leaves_no_trace(file):
    settings = Settings(file)
    assert (settings.chosen, settings.sentence, file.exists()) == ({}, "", False)
    for name, value in SET.items():
        settings.choose(name, value)
        assert Settings(file)[name] == value
    assert Settings(file).chosen == SET
    for name, choices in SETTINGS.items():
        settings.choose(name, choices[0])
    assert json.loads(file.read_text()) == {"version": 1}


def test_two_kernels_keep_each_others_settings(file):
    one, other = Settings(file), Settings(file)
    one.choose("unit", "cm")
    other.choose("hand", "left")
    assert Settings(file).chosen == {"unit": "cm", "hand": "left"}


@pytest.mark.parametrize(
    "held",
    [
        b"",
        b"unit: cm",
        b"\xff\xfe\x00",
        b"[]",
        b"3",
        b"{}",
        b'{"version": true}',
        b'{"version": "1"}',
        b'{"version": 0}',
        b'{"version": 1, "unit": "furlong"}',
        b'{"version": 1, "unit": ["cm"]}',
        b'{"version": 1, "cloth": "in"}',
        b'{"version": 99, "ground": "dark"}',
        b"[" * 9000,
        b" " * 20_000,
        None,
    ],
)
def test_a_damaged_or_newer_file_is_said_in_a_sentence_left_alone_and_stops_nobody(file, held):
    file.mkdir() if held is None else file.write_bytes(held)
    settings = Settings(file)
    assert settings.chosen == {}
    assert 20 < len(settings.sentence) <= 400
    if held and b"99" in held:
        assert "newer" in settings.sentence
    assert settings.sentence in settings.controls.children[1].value.replace("&#x27;", "'")
    settings.choose("unit", "cm")
    assert settings["unit"] == "cm"
    assert file.is_dir() if held is None else file.read_bytes() == held


def test_a_file_that_is_damaged_meanwhile_is_left_alone_too(file):
    settings = Settings(file)
    file.write_text("mine")
    settings.choose("unit", "cm")
    assert (settings["unit"], file.read_text()) == ("cm", "mine")
    assert "delete that file" in settings.sentence


def test_a_folder_that_cannot_be_written_to_is_said_and_the_settings_hold(tmp_path):
    settings = Settings(tmp_path / "gone" / FILE)
    settings.choose("type", "projector")
    assert settings["type"] == "projector"
    assert "folder" in settings.sentence


@pytest.mark.parametrize(
    ("name", "value", "said"), [("cloth", "in", "setting is 'cloth'"), ("unit", "yd", "unit is 'yd'")]
)
def test_what_cannot_be_set_is_refused(name, value, said):
    with pytest.raises(HemError, match=said):
        Settings().choose(name, value)


def test_every_panel_follows_and_neither_an_example_nor_the_way_back_changes_it(panel, settings):
    before = panel.values
    for name, value in SET.items():
        settings.choose(name, value)
    # Linen isn't sold by the millimetre.
    wanted = {name: "cm" if "mm" not in panel.controls["unit"].widget.options else SET[name] for name in SET}
    wanted |= {"hand": "left", "type": "projector"}
    ways = [*(lambda name=name: panel.reset(name) for name in panel.examples), panel.back.click]
    ways.insert(0, lambda: None)  # as it stands
    for way in ways:
        way()
        assert {name: panel.values[name] for name in SET if name in panel.controls} == {
            name: wanted[name] for name in SET if name in panel.controls
        }
        assert not panel.sentences
        assert panel.view.sheet.type.name == "projector"
        assert GREYS in settings.controls.children[1].value
    panel.reset(next(iter(panel.examples)))
    for name in SET:
        settings.choose(name, SETTINGS[name][0])
    panel.reset(panel.menu.value)
    assert panel.values == before
    assert GREYS not in settings.controls.children[1].value


def test_no_panel_has_a_control_of_its_own_for_what_is_set(all_panels, settings):
    for panel in all_panels.values():
        rows = [control.row for name, control in panel.controls.items() if name in SETTINGS]
        assert rows
        assert not set(rows) & set(panel.widget.children)
        assert panel.widget.children[-1].children == (settings.controls,)


def test_the_lists_set_and_show_what_is_set(settings):
    unit = settings.menus["unit"]
    assert settings_panel() is settings.controls
    unit.value = "cm"
    assert settings["unit"] == "cm"
    settings.choose("unit", OWN)
    assert unit.value == OWN


def test_a_panel_that_is_gone_is_followed_no_more(settings):
    class Reader:
        told = 0

        def hear(self):
            Reader.told += 1

    reader = Reader()
    settings.follow(reader.hear)
    settings.choose("hand", "left")
    gone = weakref.ref(reader)
    del reader
    settings.choose("hand", "right")
    assert (gone(), Reader.told) == (None, 1)


def test_a_panel_made_later_opens_as_set(settings):
    settings.choose("unit", "cm")
    panel = margin_panel()
    assert panel.values["unit"] == "cm"
    assert panel.result.unit == "cm"


def test_a_panel_that_was_let_go_follows_no_more_and_leaves_the_settings_to_the_others(settings):
    gone, other = margin_panel(), margin_panel()
    gone.close()
    assert settings.controls.comm is not None
    settings.choose("unit", "mm")
    assert other.values["unit"] == "mm"
    assert settings.menus["unit"].value == "mm"


def test_my_piece_and_what_it_prints_follow_and_show_no_list_of_their_own_meanwhile(
    settings, tmp_path, monkeypatch
):
    monkeypatch.chdir(tmp_path)
    form = my_piece()
    form.fields["hand"].widget.value = "right"
    as_counted, words = form.plan.unit, form.plan.text()
    settings.choose("unit", "mm")
    settings.choose("hand", "left")
    assert (as_counted, form.plan.unit, form.plan.kit.hand) == ("in", "mm", "left")
    assert "from right to left" in form.plan.text()
    assert " mm" in form.plan.text()
    assert not {"unit", "hand"} & {name for name, field in form.fields.items() if field.is_shown}
    form.print()
    said = printed(tmp_path / "my_piece.pdf")
    assert "for the left hand" in said
    assert " mm" in said
    for name in ("unit", "hand"):
        settings.choose(name, OWN)
        assert form.fields[name].is_shown
    assert form.plan.text() == words
    assert my_piece().widget.children[-1].children == (settings.controls,)


def test_my_class_follows_in_its_unit_and_leaves_each_learner_her_hand(settings, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    MyClass.typed = None
    form = my_class()
    before, hands = form.workshop, [kit.hand for kit in form.workshop.kits]
    settings.choose("unit", "cm")
    settings.choose("hand", "left")
    assert (before.unit, form.workshop.unit) == ("in", "cm")
    assert "in cm, as set for every page" in form.status.text
    assert [kit.hand for kit in form.workshop.kits] == hands
    assert set(hands) == {"left", "right"}
    form.begin()
    assert form.tables["class"].rows[0]["ruler"].value == "cm"
    settings.choose("unit", OWN)
    assert "as set" not in form.status.text
    MyClass.typed = None


def coloured(path):
    """Whether anything on the first page of a PDF has a colour."""
    page = PdfDocument(path)[0].render(scale=0.5).to_numpy().astype(int)
    return (page.max(2) - page.min(2)).max() > 8


def test_what_a_button_prints_is_as_set_when_it_is_pressed(settings, tmp_path):
    given = []
    kit, shop, path = Kit("Ada", example("coaster"), "coaster"), example_workshop(), tmp_path / "ada.pdf"
    button = do_button("Look", lambda *each: given.extend(each), kit, shop, 7)
    pages = do_button("Save it", kit_pages, kit, file=str(path))
    button.press()
    assert given == [kit, shop, 7]
    settings.choose("unit", "mm")
    settings.choose("hand", "left")
    button.press()
    assert given[3:] == [replace(kit, hand="left"), replace(shop, unit="mm"), 7]
    pages.press()
    assert "ada.pdf" in pages.said
    said = printed(path)
    assert "for the left hand" in said
    assert " mm" in said
    pages.press()
    assert "nothing is written over unasked" in pages.said
    assert coloured(path)
    # Whatever prints does so in the colours that are set: pages, and what writes them itself.
    settings.choose("colours", "in greys")
    sheet = learner_sheet(kit)
    do_button("Save it", lambda unit: sheet, file=str(tmp_path / "sheet.pdf")).press()
    do_button("Save it", sheet.save, tmp_path / "own.pdf").press()
    assert not coloured(tmp_path / "sheet.pdf")
    assert not coloured(tmp_path / "own.pdf")
    do_button("Print", lambda greys=False: given.append(greys)).press()
    assert given[-1] is True
