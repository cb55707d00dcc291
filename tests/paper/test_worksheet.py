"""The worksheet on paper: size, text, black and white, a true bar, and no file overwritten."""

import re
import shutil
import subprocess
import zlib

import matplotlib
import pytest

from hemcalc import HemError, class_set, exercise
from hemcalc.paper import save_worksheet

poppler = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="poppler-utils is not installed")
SUMS = class_set(3, 8, level=3)


def text_of(path):
    done = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True, check=True)
    return done.stdout


def streams(data):
    """The drawing commands of a PDF, unpacked."""
    packed = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", data, re.DOTALL)
    opened = []
    for part in packed:
        try:
            opened.append(zlib.decompress(part))
        except zlib.error:
            continue
    return opened


@pytest.mark.parametrize(("paper", "points"), [("A4", (595.28, 841.89)), ("Letter", (612, 792))])
def test_the_page_has_the_size_of_the_paper(tmp_path, paper, points):
    data = save_worksheet(tmp_path / "sums.pdf", SUMS, paper=paper).read_bytes()
    boxes = re.findall(rb"/MediaBox \[ ?0 0 ([\d.]+) ([\d.]+) ?\]", data)
    assert boxes
    for width, height in boxes:
        assert (float(width), float(height)) == pytest.approx(points, abs=0.01)


@poppler
def test_every_sum_is_on_the_sheet_and_no_answer(tmp_path):
    words = " ".join(text_of(save_worksheet(tmp_path / "sums.pdf", SUMS)).split())
    for number, sums in enumerate(SUMS, 1):
        assert f"{number}. {sums.text.split('. ')[0]}" in words
    assert words.count("name") >= 1
    assert "invented" in words
    assert " = " not in words


@poppler
def test_the_key_has_every_working(tmp_path):
    words = " ".join(text_of(save_worksheet(tmp_path / "key.pdf", SUMS, key=True)).split())
    for sums in SUMS:
        for worked in sums.key.values():
            assert worked.line in words
    assert "key for the leader" in words


@poppler
def test_nothing_runs_off_the_page(tmp_path):
    for level in (1, 2, 3, 4):
        for paper, width in (("A4", 595.28), ("Letter", 612)):
            path = save_worksheet(tmp_path / f"{level}{paper}.pdf", class_set(9, 5, level), paper=paper)
            boxes = subprocess.run(
                ["pdftotext", "-bbox", path, "-"], capture_output=True, text=True, check=True
            )
            rights = [float(x) for x in re.findall(r'xMax="([\d.]+)"', boxes.stdout)]
            assert max(rights) <= width - 0.5 * 72


@pytest.mark.skipif(shutil.which("pdffonts") is None, reason="poppler-utils is not installed")
def test_the_text_is_text_in_a_font_that_is_embedded(tmp_path):
    path = save_worksheet(tmp_path / "sums.pdf", SUMS)
    fonts = subprocess.run(["pdffonts", path], capture_output=True, text=True, check=True).stdout.splitlines()
    assert fonts[2:]
    for line in fonts[2:]:
        assert "TrueType" in line
        assert line.split()[-5] == "yes"


def test_the_font_setting_is_left_as_it_was(tmp_path):
    before = matplotlib.rcParams["pdf.fonttype"]
    data = save_worksheet(tmp_path / "sums.pdf", SUMS).read_bytes()
    assert matplotlib.rcParams["pdf.fonttype"] == before == 3
    assert b"/Type3" not in data


def test_it_is_black_and_white(tmp_path):
    data = save_worksheet(tmp_path / "sums.pdf", SUMS).read_bytes()
    drawn = b"\n".join(streams(data))
    colours = set(re.findall(rb"([\d.]+) ([\d.]+) ([\d.]+) (?:rg|RG)\b", drawn))
    assert all(red == green == blue for red, green, blue in colours)
    # The pattern above would be blind if no colour were set at all.
    assert colours or re.search(rb"[\d.]+ [gG]\b", drawn)


def test_the_bar_is_ten_centimetres_and_three_inches_long(tmp_path):
    data = save_worksheet(tmp_path / "sums.pdf", [exercise(1)]).read_bytes()
    lines = [
        tuple(map(float, found))
        for part in streams(data)
        for found in re.findall(rb"([\d.]+) ([\d.]+) m\s+([\d.]+) ([\d.]+) l\s+S", part)
    ]
    level = [x1 - x0 for x0, y0, x1, y1 in lines if y0 == y1]
    assert any(abs(long - 72 * 10 / 2.54) < 0.01 for long in level), level
    below = sorted({x0 for x0, y0, x1, y1 in lines if x0 == x1 and abs(abs(y1 - y0) - 0.14 * 72) < 0.01})
    assert below[-1] - below[0] == pytest.approx(3 * 72, abs=0.01)


def test_a_file_that_is_there_is_not_overwritten_unasked(tmp_path):
    path = tmp_path / "sums.pdf"
    path.write_text("mine")
    with pytest.raises(HemError, match="nothing is written over unasked") as caught:
        save_worksheet(path, SUMS)
    assert caught.value.about == "path"
    assert path.read_text() == "mine"
    save_worksheet(path, SUMS, replace=True)
    assert path.read_bytes().startswith(b"%PDF")


def test_the_same_sums_give_the_same_file(tmp_path):
    one = save_worksheet(tmp_path / "one.pdf", SUMS).read_bytes()
    assert save_worksheet(tmp_path / "two.pdf", SUMS).read_bytes() == one


@pytest.mark.parametrize(
    ("call", "about"),
    [
        (lambda folder: save_worksheet(folder / "sums.txt", SUMS), "path"),
        (lambda folder: save_worksheet(7, SUMS), "path"),
        (lambda folder: save_worksheet(folder / "none" / "sums.pdf", SUMS), "path"),
        (lambda folder: save_worksheet(folder / "sums.pdf", []), "exercises"),
        (lambda folder: save_worksheet(folder / "sums.pdf", ["1 + 1"]), "exercises"),
        (lambda folder: save_worksheet(folder / "sums.pdf", SUMS, paper="A5"), "paper"),
    ],
)
def test_what_is_not_possible_gets_one_sentence_and_no_file(tmp_path, call, about):
    with pytest.raises(HemError, match="for example") as caught:
        call(tmp_path)
    assert caught.value.about == about
    assert list(tmp_path.iterdir()) == []
