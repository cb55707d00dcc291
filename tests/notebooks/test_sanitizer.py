"""The sanitiser hides what can't be the same in two runs, and no number.

nbval is run for real on small notebooks that pass or must fail by one printed figure.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import nbformat
from cases import for_each
from hypothesis import given
from hypothesis import strategies as st
from nbval.plugin import get_sanitize_patterns

SANITISER = Path(__file__).with_name("sanitize.cfg")
CLOSED = Path(__file__).parents[1] / "closed"
RULES = get_sanitize_patterns(SANITISER.read_text("ascii"))


def sanitised(text: str) -> str:
    for regex, replacement in RULES:
        text = re.sub(regex, replacement, text)
    return text


@for_each(
    ("one_run", "another"),
    [
        ("<function plan at 0x7f3c11aa2980>", "<function plan at 0x7faa00be1c10>"),
        ("/tmp/ipykernel_812/99182.py:1: Warning", "/tmp/ipykernel_7/40.py:1: Warning"),
        (r"C:\Temp\ipykernel_812\99182.py:1: Warning", r"D:\ipykernel_7\40.py:1: Warning"),
        ('<td id="T_1a2b3_row0_col1" >8.5</td>', '<td id="T_99f0c_row0_col1" >8.5</td>'),
        ("#T_1a2b3 th { width: 2em }", "#T_99f0c th { width: 2em }"),
        ('<clipPath id="p109e7d261c">', '<clipPath id="pcf918effd0">'),
        ('<g clip-path="url(#p109e7d261c)">', '<g clip-path="url(#pcf918effd0)">'),
        ('<use xlink:href="#m109e7d261c" x="7.2"/>', '<use xlink:href="#mcf918effd0" x="7.2"/>'),
        ('fill="url(#h109e7d261c)"', 'fill="url(#hcf918effd0)"'),
        ("<dc:date>2001-02-03T04:05:06</dc:date>", "<dc:date>2011-12-13T14:15:16</dc:date>"),
    ],
)
def test_what_differs_from_run_to_run_is_hidden(one_run: str, another: str) -> None:
    assert sanitised(one_run) == sanitised(another)


@for_each(
    ("right", "wrong"),
    [
        ('<td id="T_1a2b3_row0_col1" >8.5</td>', '<td id="T_1a2b3_row0_col1" >8.6</td>'),
        ('<use xlink:href="#m109e7d261c" x="7.2"/>', '<use xlink:href="#m109e7d261c" x="7.3"/>'),
        ('<td id="T_1a2b3_row0_col1" >', '<td id="T_1a2b3_row1_col0" >'),
        ("/tmp/ipykernel_812/99182.py:1: 8.5", "/tmp/ipykernel_812/99182.py:1: 8.6"),
        ("<Edge at 0x7f3c11aa2980> 50", "<Edge at 0x7f3c11aa2980> 51"),
        ('title="p1234567890"', 'title="p1234567891"'),
        ("0x1f", "0x2f"),
    ],
)
def test_a_figure_beside_them_is_not(right: str, wrong: str) -> None:
    assert sanitised(right) != sanitised(wrong)


@given(st.text("0123456789.,/-+eE%≈½ inchmtrads()[]:'\n"))
def test_no_text_of_numbers_and_units_is_touched(text: str) -> None:
    assert sanitised(text) == text


# A rule that was tried at every letter of a picture's text kept nbval busy for hours.
def test_a_figure_beside_the_long_text_of_a_picture_is_kept() -> None:
    picture = '<img src="data:image/png;base64,' + "iVBORw0KGgo/AAAN+" * 50_000 + '" alt="8.5">'
    assert sanitised(picture).endswith('" alt="8.5">')


def cells(printed: str, table: str) -> list[nbformat.NotebookNode]:
    """Two cells with figures and one with an address, with these outputs saved."""
    output = nbformat.v4.new_output
    saved = {
        "print('The hem is', 9.525, 'mm.')": output("stream", name="stdout", text=printed),
        "from IPython.display import HTML; HTML('<td>8.5</td>')": output(
            "execute_result", data={"text/plain": "<IPython.core.display.HTML object>", "text/html": table}
        ),
        "object()": output("execute_result", data={"text/plain": "<object at 0x7f0000000010>"}),
    }
    new = nbformat.v4.new_code_cell
    return [new(source, execution_count=1, outputs=[kept]) for source, kept in saved.items()]


def test_nbval_passes_what_is_right_and_fails_each_wrong_figure(tmp_path: Path) -> None:
    right = cells("The hem is 9.525 mm.\n", "<td>8.5</td>")
    wrong = cells("The hem is 9.526 mm.\n", "<td>8.6</td>")
    kernel = {"kernelspec": {"name": "python3", "display_name": "Python 3"}}
    nbformat.write(nbformat.v4.new_notebook(cells=right + wrong, metadata=kernel), tmp_path / "both.ipynb")
    nbval = [sys.executable, "-m", "pytest", "-rA", "--tb=no", "-p", "no:cacheprovider", "--rootdir=."]
    nbval += [
        "--disable-plugin-autoload",
        "-p",
        "nbval.plugin",
        "--nbval",
        f"--nbval-sanitize-with={SANITISER}",
        "both.ipynb",
    ]
    closed = os.environ | {"PYTHONPATH": str(CLOSED)}
    report = subprocess.run(
        nbval, cwd=tmp_path, env=closed, capture_output=True, text=True, stdin=subprocess.DEVNULL
    )
    verdicts = re.findall(r"^(PASSED|FAILED) both\.ipynb::Cell (\d)", report.stdout, re.MULTILINE)
    assert sorted(verdicts, key=lambda verdict: verdict[1]) == [
        ("PASSED", "0"),
        ("PASSED", "1"),
        ("PASSED", "2"),
        ("FAILED", "3"),
        ("FAILED", "4"),
        ("PASSED", "5"),
    ], report.stdout + report.stderr
