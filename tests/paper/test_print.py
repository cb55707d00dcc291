"""A leaflet as a file: its type is in it, its words can be read out, it is the same each time."""

import hashlib
import io
import re
import subprocess
import sys
from pathlib import Path

import matplotlib as mpl
import numpy as np
import pytest
from matplotlib.patches import Rectangle
from PIL import Image

import hemcalc
from hemcalc.draw.marks import Label, Labels
from hemcalc.draw.sheet import Sheet
from hemcalc.measure.errors import HemError
from hemcalc.paper.artwork import drawn
from hemcalc.paper.cutting import cutting_list
from hemcalc.paper.gauge import gauge_card
from hemcalc.paper.key import leader_key
from hemcalc.paper.labels import kit_labels
from hemcalc.paper.leaflet import Leaflet, bind
from hemcalc.paper.letters import width_of, wrapped
from hemcalc.paper.mitre import paper_mitre
from hemcalc.paper.page import Page
from hemcalc.paper.printer import PAPERS
from hemcalc.paper.sheet import learner_sheet
from hemcalc.paper.shopping import shopping_list
from hemcalc.paper.worksheet import worksheet
from hemcalc.sums import exercises_for_class
from hemcalc.workshop.cutting import cut_for_class
from hemcalc.workshop.example import example_workshop
from hemcalc.workshop.kit import Kit

SHOP = example_workshop("cm")
EDDA = SHOP.kits[4]
SUMS = exercises_for_class(3, 8)
LAYOUTS = cut_for_class(SHOP)
ALL = {
    "sheet": (learner_sheet, EDDA),
    "gauge": (gauge_card, EDDA),
    "mitre": (paper_mitre, EDDA),
    "key": (leader_key, SHOP),
    "shopping": (shopping_list, SHOP),
    "cutting": (cutting_list, SHOP, LAYOUTS),
    "labels": (kit_labels, SHOP),
    "sums": (worksheet, SUMS),
}
every_leaflet = pytest.mark.parametrize("leaflet", ALL.values(), ids=list(ALL))


@every_leaflet
def test_type_is_embedded_and_letters_are_letters(made, printed, leaflet):
    for page in printed(made(*leaflet)):
        assert page.lines
        assert {line.font for line in page.lines} <= {"DejaVuSans", "DejaVuSans-Bold"}
        assert all(line.embedded for line in page.lines)
        assert not page.images


@every_leaflet
def test_it_has_a_title_and_carries_no_date(made, read, leaflet):
    leaflet = made(*leaflet)
    about = read(leaflet.pdf()).about
    assert about["Title"] == leaflet.title
    assert about["Subject"] == "Printed at true scale on A4"
    assert about["Creator"] == "hemcalc"
    assert not about["CreationDate"]
    assert not about["ModDate"]


@every_leaflet
def test_every_number_that_is_set_can_be_read_out(made, read, leaflet, monkeypatch):
    """What the printer is told to set, and what another program reads in the PDF, is the same."""
    told = []
    monkeypatch.setattr(Page, "text", _noting(Page.text, told))
    make, *of = leaflet
    pages = make(*of)
    said = "\n".join(page.words for page in read(pages.pdf()).pages).split("\n")
    assert set(told) - {""} <= set(said)


def _noting(set_text, told):
    def text(page, x, y, words, *rest, **how):
        told.append(" ".join(words.split()))
        return set_text(page, x, y, words, *rest, **how)

    return text


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
    plain = learner_sheet(EDDA).pdf()
    drawn.cache_clear()
    with mpl.rc_context(
        {
            "savefig.bbox": "tight",
            "axes.xmargin": 0.3,
            "lines.dashed_pattern": (1, 9),
            "path.sketch": (3, 20, 5),
            "hatch.linewidth": 5,
            "figure.autolayout": True,
        }
    ):
        before = dict(mpl.rcParams)
        assert learner_sheet(EDDA).pdf() == plain
        assert dict(mpl.rcParams) == before


def test_a_file_that_is_there_is_kept_unless_asked(made, tmp_path):
    path, leaflet = tmp_path / "page.pdf", made(gauge_card, EDDA)
    path.write_bytes(b"hers")
    with pytest.raises(HemError, match="nothing is written over unasked"):
        leaflet.save(path)
    assert path.read_bytes() == b"hers"
    assert leaflet.save(path, replace=True) == path
    assert path.read_bytes() == leaflet.pdf()


@pytest.mark.parametrize("path", ["page.txt", "page", 7, "no such folder/page.pdf"])
def test_a_name_that_no_page_can_have_is_refused_and_leaves_no_file(made, tmp_path, monkeypatch, path):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(HemError, match="for example") as no:
        made(gauge_card, EDDA).save(path)
    assert no.value.about == "path"
    assert list(tmp_path.iterdir()) == []


def test_leaflets_are_bound_in_order_and_a_list_leads_to_each(made, read):
    sheets = [made(learner_sheet, EDDA), made(gauge_card, EDDA)]
    bound = bind("Edda's pages", sheets)
    file = read(bound.pdf())
    assert len(file.pages) == sum(len(sheet.pages) for sheet in sheets)
    assert file.about["Title"] == "Edda's pages"
    assert file.entries == (("Edda: sampler", 0), ("Hem gauge: sampler", len(sheets[0].pages)))


def test_a_picture_that_two_pages_share_is_in_the_file_once():
    one, two = learner_sheet(EDDA), learner_sheet(EDDA, note="For the other hand.")
    apart = len(one.pdf()) + len(two.pdf())
    together = bind("Both", [one, two]).pdf()
    assert together.count(b"/Subtype /Form") == one.pdf().count(b"/Subtype /Form")
    assert len(together) < 0.7 * apart


@pytest.mark.parametrize("across", ["left", "center", "right"])
@pytest.mark.parametrize("up", ["bottom", "center", "top"])
def test_a_pictures_words_and_lines_stand_where_the_picture_puts_them(printed, across, up):
    """A word of two lines and a stroke at the middle of a picture of 60 by 40 mm, laid down at 50, 100."""
    sheet = Sheet(60 / 25.4, 40 / 25.4, dpi=150)
    axes = sheet.axes((0, 0, 1, 1), (0, 60), (0, 40))
    axes.plot([30, 60], [20, 20], linewidth=1.5)
    Labels(sheet, axes, 1).show([Label(30, 20, "HHH\nHHHHHH", across, up)])
    page = Page(PAPERS["A4"], "Title")
    page.picture(50, 100, sheet)
    (page,) = printed(Leaflet("Title", [page]))
    short, long = (line for line in page.lines if set(line.text) == {"H"})
    place = {"left": long.left, "center": (long.left + long.right) / 2, "right": long.right}
    assert place[across] == pytest.approx(80, abs=0.4)
    assert {"left": short.left, "center": (short.left + short.right) / 2, "right": short.right}[
        across
    ] == pytest.approx(place[across], abs=0.1)
    # A line of this type is 1.164 of its size high, of which a capital leaves 0.2 free above and 0.24 below.
    size = 9 * 25.4 / 72
    top, bottom = short.top - 0.2 * size, long.bottom + 0.24 * size
    assert {"top": top, "center": (top + bottom) / 2, "bottom": bottom}[up] == pytest.approx(120, abs=0.3)
    (stroke,) = [stroke for stroke in page.strokes if stroke.width == 1.5]
    assert stroke.points == (pytest.approx((80, 120), abs=0.01), pytest.approx((110, 120), abs=0.01))


def test_a_patterns_dots_lie_where_matplotlib_puts_them():
    """Of an inch with dots, at 300 points of ink to the inch, on paper and on the screen."""
    sheet = Sheet(1, 1, dpi=300)
    axes = sheet.axes((0, 0, 1, 1), (0, 1), (0, 1))
    axes.add_patch(Rectangle((0, 0), 1, 1, facecolor="white", edgecolor="black", hatch="...", linewidth=0))
    page = Page(PAPERS["A4"], "Title")
    page.picture(50.8, 101.6, sheet)
    printed = Image.open(io.BytesIO(Leaflet("Title", [page]).png(dpi=300))).convert("L")
    seen = Image.open(io.BytesIO(sheet.png())).convert("L")
    printed = printed.crop((600, 1200, 600 + seen.width, 1200 + seen.height))
    dark, other = (np.asarray(each) < 128 for each in (seen, printed))
    assert 0.02 < dark.mean() < 0.2
    assert (dark & other).sum() > 0.5 * max(dark.sum(), other.sum())


def test_a_notebook_shows_every_page_with_its_numbers(made):
    leaflet = made(learner_sheet, EDDA)
    alts = re.findall(r'<img alt="([^"]*)"', leaflet._repr_html_())
    assert len(alts) == len(leaflet.pages)
    assert "cut after thread 48 left, 50 right, 47 top, 51 bottom" in alts[0]
    with pytest.raises(HemError, match="page is 9, but must be a whole number, from 1 to"):
        leaflet.png(9)


@pytest.mark.parametrize("paper", PAPERS.values(), ids=list(PAPERS))
def test_what_a_notebook_shows_is_the_page_itself(made, paper):
    """The upper bar at the foot, found in the picture by its ink, is 100 mm long there too."""
    picture = Image.open(io.BytesIO(made(gauge_card, EDDA, paper=paper.name).png(dpi=254))).convert("L")
    assert picture.size == pytest.approx((10 * paper.width, 10 * paper.height), abs=1)
    down = round(10 * (paper.height - paper.margin - paper.foot + 6))
    ink = [x for x in range(1250) if picture.getpixel((x, down)) < 128]
    assert ink[-1] - ink[0] == pytest.approx(1000, abs=2)


def test_names_are_printed_as_they_are_written(said):
    name = r"$x_1$ & Zoë_O'Hara \alpha"
    assert name in said(gauge_card(Kit(name, EDDA.piece)))


def test_a_name_that_the_type_has_no_letters_for_is_refused():
    with pytest.raises(HemError, match="can't be printed: the type has no '亜'"):
        learner_sheet(Kit("亜", EDDA.piece))


def test_lines_break_where_the_room_ends_and_lose_nothing():
    text = "fold 1 runs after thread 26 and " + "x" * 120
    lines = wrapped(text, 40, 9)
    assert all(width_of(line, 9) <= 40 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
