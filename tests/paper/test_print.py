"""A leaflet as a file: its type is in it, its words can be read out, it is the same each time."""

import hashlib
import re
import shutil
import subprocess
import sys
from pathlib import Path

import matplotlib as mpl
import pytest

import hemcalc
from hemcalc.draw.lettering import Word
from hemcalc.measure.errors import HemError
from hemcalc.paper.gauge import gauge_card, save_gauge_card
from hemcalc.paper.key import leader_key, save_leader_key
from hemcalc.paper.labels import kit_labels, save_kit_labels
from hemcalc.paper.leaflet import bind
from hemcalc.paper.letters import wide, wrapped
from hemcalc.paper.mitre import paper_mitre, save_paper_mitre
from hemcalc.paper.sheet import learner_sheet, save_learner_sheet
from hemcalc.paper.shopping import save_shopping_list, shopping_list
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.kit import Kit

SHOP = example_workshop("cm")
EDDA = SHOP.kits[4]
ALL = {
    "sheet": (lambda: learner_sheet(EDDA, unit="cm"), lambda p, **k: save_learner_sheet(p, EDDA, **k)),
    "gauge": (lambda: gauge_card(EDDA, unit="cm"), lambda p, **k: save_gauge_card(p, EDDA, **k)),
    "mitre": (lambda: paper_mitre(EDDA, unit="cm"), lambda p, **k: save_paper_mitre(p, EDDA, **k)),
    "key": (lambda: leader_key(SHOP), lambda p, **k: save_leader_key(p, SHOP, **k)),
    "shopping": (lambda: shopping_list(SHOP), lambda p, **k: save_shopping_list(p, SHOP, **k)),
    "labels": (lambda: kit_labels(SHOP), lambda p, **k: save_kit_labels(p, SHOP, **k)),
}
every_leaflet = pytest.mark.parametrize("make", [made for made, _ in ALL.values()], ids=list(ALL))


@every_leaflet
def test_type_is_embedded_and_letters_are_letters(read, make):
    leaflet = make()
    objects = read(leaflet.pdf()).objects.values()
    fonts = [body for body in objects if b"/Type /FontDescriptor" in body]
    assert fonts
    assert all(b"/FontFile2" in font for font in fonts)
    assert not any(b"/Subtype /Type3" in body or b"/Subtype /Image" in body for body in objects)
    for page in leaflet.pages:
        assert not [word for word in page.sheet.figure.findobj(Word) if word.get_visible()]


@every_leaflet
def test_it_has_a_title_and_carries_no_date(read, make):
    leaflet = make()
    (info,) = [body for body in read(leaflet.pdf()).objects.values() if b"/Creator (hemcalc)" in body]
    assert leaflet.title.encode() in info.replace(b"\\", b"")
    assert b"Date" not in info


def test_it_is_the_same_to_the_byte_in_another_process():
    code = (
        "import hashlib; from hemcalc.workshop.example import example_workshop as e; "
        "from hemcalc.paper import learner_sheet; "
        "print(hashlib.sha256(learner_sheet(e('cm').kits[4], unit='cm').pdf()).hexdigest())"
    )
    root = Path(hemcalc.__file__).parents[1]
    ours = hashlib.sha256(learner_sheet(EDDA, unit="cm").pdf()).hexdigest()
    other = subprocess.run(
        [sys.executable, "-c", code],
        cwd=root,
        env={"PYTHONHASHSEED": "77", "PATH": "", "HOME": "/tmp"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert other.stdout.strip() == ours


def test_the_readers_own_settings_neither_change_nor_matter():
    plain = gauge_card(EDDA).pdf()
    with mpl.rc_context(
        {
            "savefig.bbox": "tight",
            "savefig.dpi": 300,
            "pdf.fonttype": 3,
            "font.family": ["serif"],
            "figure.autolayout": True,
        }
    ):
        before = dict(mpl.rcParams)
        assert gauge_card(EDDA).pdf() == plain
        assert dict(mpl.rcParams) == before


@pytest.mark.parametrize("save", [save for _, save in ALL.values()], ids=list(ALL))
def test_a_file_that_is_there_is_kept_unless_asked(tmp_path, save):
    path = tmp_path / "page.pdf"
    path.write_bytes(b"hers")
    with pytest.raises(HemError, match="nothing is written over unasked"):
        save(path)
    assert path.read_bytes() == b"hers"
    assert save(path, replace=True) == path
    assert path.read_bytes().startswith(b"%PDF")


def test_leaflets_are_bound_in_order(read):
    sheets = [learner_sheet(EDDA), gauge_card(EDDA)]
    bound = bind("Edda's pages", sheets)
    assert len(read(bound.pdf()).pages) == sum(len(sheet.pages) for sheet in sheets)
    assert bound.title == "Edda's pages"


def test_a_notebook_shows_every_page_with_its_numbers():
    html = learner_sheet(EDDA)._repr_html_()
    alts = re.findall(r'<img alt="([^"]*)"', html)
    assert len(alts) == len(learner_sheet(EDDA).pages)
    assert "cut after thread 49" in alts[0]
    with pytest.raises(HemError, match="page is 9, but must be from 1 to"):
        learner_sheet(EDDA).png(9)


def test_names_are_printed_as_they_are_written(words):
    name = r"$x_1$ & Zoë_O'Hara \alpha"
    assert name in words(learner_sheet(Kit(name, EDDA.piece)).pages[0])


def test_a_name_that_the_type_has_no_letters_for_is_refused():
    with pytest.raises(HemError, match="can't be printed: the type has no '亜'"):
        learner_sheet(Kit("亜", EDDA.piece))


def test_lines_break_where_the_room_ends_and_lose_nothing():
    text = "fold 1 runs after thread 26 and " + "x" * 120
    lines = wrapped(text, 40, 9)
    assert all(wide(line, 9) <= 40 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


# What a reader of the PDF sees, by poppler's own tools, where they are installed.
@pytest.mark.skipif(not shutil.which("pdftotext"), reason="poppler-utils is not installed")
@every_leaflet
def test_poppler_reads_the_words_and_finds_them_on_the_page(tmp_path, words, make):
    leaflet = make()
    path = leaflet.save(tmp_path / "page.pdf")
    said = subprocess.run(
        ["pdftotext", "-bbox", str(path), "-"], capture_output=True, text=True, check=True
    ).stdout
    for sheet, page in zip(said.split("<page ")[1:], leaflet.pages, strict=True):
        wide_pt, high_pt = (
            float(x) for x in re.search(r'width="([\d.]+)" height="([\d.]+)"', sheet).groups()
        )
        found = re.findall(
            r'xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', sheet
        )
        for left, top, right, bottom, word in found:
            assert 28 < float(left) < float(right) < wide_pt - 28, word
            assert 12 < float(top) < float(bottom) < high_pt - 12, word
        ours = re.findall(r"[0-9]+", words(page))
        theirs = " ".join(word for *_, word in found)
        assert sorted(re.findall(r"[0-9]+", theirs)) == sorted(ours)


@pytest.mark.skipif(not shutil.which("pdffonts"), reason="poppler-utils is not installed")
def test_poppler_finds_the_type_embedded(tmp_path):
    path = learner_sheet(EDDA).save(tmp_path / "page.pdf")
    lines = subprocess.run(["pdffonts", str(path)], capture_output=True, text=True, check=True).stdout
    for line in lines.splitlines()[2:]:
        assert line.split()[-5:-2] == ["yes", "yes", "yes"], line
