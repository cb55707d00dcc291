"""One call prints what a leader needs for the class, all of it or nothing."""

import re
from dataclasses import replace

import pytest

from hemcalc import HemError, example
from hemcalc.paper import bind, print_workshop, workshop_pages
from hemcalc.workshop import Kit, Workshop, cut_for_class, example_workshop

SHOP = example_workshop("cm")
TWO = Workshop("Two", SHOP.kits[10:], SHOP.linens, SHOP.goods, unit="cm", note="Invented.")
LEARNERS = ["kit_01_Klara.pdf", "kit_02_Lena.pdf"]
LEADERS = ["leader_key.pdf", "shopping_list.pdf", "cutting_list.pdf", "kit_labels.pdf"]


@pytest.fixture(scope="module")
def pages():
    return workshop_pages(TWO)


@pytest.mark.parametrize(("paper", "size"), [("A4", (210, 297)), ("Letter", (215.9, 279.4))])
def test_one_file_has_every_page_of_the_class_the_leaders_first(tmp_path, read, paper, size):
    (file,) = print_workshop(tmp_path / "autumn", TWO, paper=paper)
    assert list((tmp_path / "autumn").iterdir()) == [file]
    printed = read(file.read_bytes())
    leaflets = workshop_pages(TWO, paper=paper)
    assert list(leaflets) == [*LEADERS, *LEARNERS]
    expected = [page.title for leaflet in leaflets.values() for page in leaflet.pages]
    # Cards come last: only they are printed on one side of the paper.
    expected.sort(key=lambda title: title.startswith("Cards"))
    assert expected[-2:] == ["Cards: coaster"] * 2
    for page, title in zip(printed.pages, expected, strict=True):
        assert page.size == pytest.approx(size, abs=0.01)
        assert page.words.startswith(f"{title}\n")
    assert printed.about["Title"] == "Two"
    assert printed.about["Subject"] == f"Printed at true scale on {paper}"
    # Four leaflets of the leader's own; a sheet and a page of cards for each learner.
    assert len(printed.entries) == 4 + 2 * len(TWO.kits)


def test_each_learner_has_a_file_of_her_own_on_request(tmp_path, read, pages):
    whole, *files = print_workshop(tmp_path / "autumn", TWO, learners=True)
    assert [file.name for file in files] == LEARNERS
    assert sorted([whole, *files]) == sorted((tmp_path / "autumn").iterdir())
    for file in files:
        assert file.read_bytes() == pages[file.name].pdf()


def test_the_class_is_smaller_than_its_parts(pages):
    together = bind("Two", list(pages.values())).pdf()
    assert len(together) < 0.5 * sum(len(leaflet.pdf()) for leaflet in pages.values())


def test_the_shopping_list_is_priced_by_the_cutting_list(said, pages):
    told = said(pages["shopping_list.pdf"])
    assert TWO.with_lengths(cut_for_class(TWO)).cost_text in told
    assert "not worked out yet" not in told


def test_a_kits_pages_are_her_sheet_and_one_page_of_cards(printed, pages):
    *sheet, cards = printed(pages["kit_02_Lena.pdf"])
    assert "from right to left" in " ".join(" ".join(page.words for page in sheet).split())
    assert "Cards: coaster, Lena" in cards.words
    assert "Print this page on one side of the paper only" in cards.words
    assert "Hem gauge" in cards.words
    assert "Paper mitre" in cards.words


@pytest.mark.parametrize(("hers", "learners"), [("whole_class.pdf", False), ("kit_01_Klara.pdf", True)])
def test_nothing_is_overwritten_unasked_and_nothing_half_done(tmp_path, hers, learners):
    folder = tmp_path / "autumn"
    folder.mkdir()
    (folder / hers).write_bytes(b"hers")
    with pytest.raises(HemError, match=rf"has '{hers}' in it already, and nothing is written over"):
        print_workshop(folder, TWO, learners=learners)
    assert [each.name for each in folder.iterdir()] == [hers]
    assert (folder / hers).read_bytes() == b"hers"
    assert len(print_workshop(folder, TWO, learners=learners, replace=True)) == 1 + 2 * learners
    assert (folder / hers).read_bytes().startswith(b"%PDF")


def test_a_learners_file_is_no_hindrance_to_the_class(tmp_path):
    (tmp_path / "kit_01_Klara.pdf").write_bytes(b"hers")
    (file,) = print_workshop(tmp_path, TWO)
    assert file.name == "whole_class.pdf"
    assert (tmp_path / "kit_01_Klara.pdf").read_bytes() == b"hers"


def test_a_page_that_cannot_be_made_leaves_no_folder(tmp_path):
    width_of = Kit(
        "Ada",
        example("coaster").with_changes(hem="4 in"),
        "curtain",
        thread="pearl cotton 8, white",
        needle="tapestry needle 24",
        basting="basting thread, blue",
    )
    shop = Workshop("Wide", [width_of], SHOP.linens, SHOP.goods)
    with pytest.raises(HemError, match="gauge card of curtain would be"):
        print_workshop(tmp_path / "wide", shop)
    assert list(tmp_path.iterdir()) == []


def test_learners_names_make_names_of_files_on_any_system():
    names = ["../Ada", "Ada/Bea", "a:b*c?", "...", "Zoë O'Hara", "x" * 60]
    kits = [replace(SHOP.kits[10], learner=name) for name in names * 2]
    made = list(workshop_pages(Workshop("Many", kits, SHOP.linens, SHOP.goods)))
    assert made[:4] == LEADERS
    for number, file in enumerate(made[4:], 1):
        assert re.fullmatch(rf"kit_{number:02}_[\w-]{{1,30}}\.pdf", file)
    assert len(made) == 4 + len(kits)


@pytest.mark.parametrize(
    ("folder", "words_of_it"),
    [(3, "path is 3, but must be the name of a file"), ("no/such/place", "The folder 'place' can't be made")],
)
def test_a_folder_that_is_none_is_refused_in_a_sentence(tmp_path, monkeypatch, folder, words_of_it):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(HemError, match=words_of_it) as no:
        print_workshop(folder, TWO)
    assert "for example" in str(no.value)


def test_a_file_in_the_folders_place_is_kept(tmp_path):
    (tmp_path / "autumn").write_text("hers")
    with pytest.raises(HemError, match="The folder 'autumn' can't be made"):
        print_workshop(tmp_path / "autumn", TWO)
    assert (tmp_path / "autumn").read_text() == "hers"


def test_what_is_no_workshop_is_refused(tmp_path):
    with pytest.raises(HemError, match="workshop is 3, but must be a Workshop"):
        print_workshop(tmp_path / "autumn", 3)
