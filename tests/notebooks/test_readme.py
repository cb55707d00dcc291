"""What the README says and shows is so."""

from __future__ import annotations

import contextlib
import io
import re
import runpy
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from hemcalc.__main__ import COMMANDS
from hemcalc.piece.examples import EXAMPLES

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "README.md").read_text("utf-8")
SCRIPT = runpy.run_path(str(Path(__file__).with_name("save_picture.py")))
drawn, LINE, PICTURE = SCRIPT["drawn"], SCRIPT["LINE"], SCRIPT["PICTURE"]
LEAD = next(iter(EXAMPLES))
NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))


def patches(picture: Image.Image) -> np.ndarray:
    """The picture as patches of some ten pixels a side, on which versions of matplotlib agree."""
    return np.asarray(picture.convert("RGB").resize((135, 48), Image.Resampling.BOX), float)


def alike(one: Image.Image, other: Image.Image) -> bool:
    return one.size == other.size and np.abs(patches(one) - patches(other)).mean() < 1


def test_the_picture_and_its_words_are_of_the_first_example_as_it_is_drawn_today():
    picture, words = drawn(LEAD)
    saved = Image.open(PICTURE)
    assert alike(saved, picture), "tests/notebooks/save_picture.py draws it anew"
    assert LINE.findall(TEXT) == [words]
    assert saved.text["Description"] == words


@pytest.mark.parametrize("name", [name for name in EXAMPLES if name != LEAD])
def test_a_picture_of_another_piece_would_be_seen(name):
    assert not alike(Image.open(PICTURE), drawn(name)[0])


def test_a_blank_picture_would_be_seen():
    saved = Image.open(PICTURE)
    assert not alike(saved, Image.new("RGB", saved.size, "white"))


def test_the_lines_of_python_print_what_is_claimed():
    ((code, claimed),) = re.findall(r"((?:^    .+\n)+)\nprints `([^`]+)`", TEXT, re.MULTILINE)
    assert len(code.splitlines()) == 3
    with contextlib.redirect_stdout(io.StringIO()) as printed:
        exec("\n".join(line.strip() for line in code.splitlines()), {})
    assert printed.getvalue().strip() == claimed


def test_lengths_are_read_as_it_says_people_type_them():
    from hemcalc import Length

    (typed,) = re.findall(r"Lengths\s+are what people type \(([^)]+)\)", TEXT)
    assert len([Length(text.strip("`\n ")) for text in typed.split(",")]) == 3


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_every_command_that_is_named_is_one(page):
    named = re.findall(r"(?:python3|py) -m hemcalc (\w+)", (ROOT / page).read_text("utf-8"))
    assert named
    assert set(named) <= set(COMMANDS)


def test_the_readme_gives_two_commands_and_the_checks_run_the_second():
    assert re.findall(r"^    (python3 -m hemcalc \w+)$", TEXT, re.MULTILINE) == [
        "python3 -m hemcalc open",
        "python3 -m hemcalc test",
    ]
    lines = (ROOT / ".ci" / "run").read_text("utf-8").splitlines()
    done = [line.strip() for line in lines if line.strip().startswith("python3")]
    assert done == ["python3 -m hemcalc test", "python3 -m hemcalc browser"]


def test_the_table_of_notebooks_is_the_folder():
    rows = re.findall(r"^\| \[(\d\d) ([^\]]+)\]\(notebooks/([^)]+)\) \| (.+) \|$", TEXT, re.MULTILINE)
    assert [row[2] for row in rows] == [path.name for path in NOTEBOOKS]
    for number, title, file, question in rows:
        assert f"{number}_{title.lower().replace(' ', '_')}.ipynb" == file
        assert "?" in question


def test_every_link_leads_to_what_is_there():
    for target in re.findall(r"\]\(([^)]+)\)", TEXT):
        assert (ROOT / target).exists(), target


def test_the_python_that_it_asks_for_is_that_of_the_project():
    (asked,) = re.findall(r"Python (3\.\d+) or newer", TEXT)
    assert f'requires-python = ">={asked}"' in (ROOT / "pyproject.toml").read_text("utf-8")
