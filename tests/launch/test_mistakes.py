"""First mistakes, made in a real shell of IPython: each gets one sentence, and no traceback."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from IPython.core.interactiveshell import InteractiveShell
from traitlets.config import Config

from hemcalc.launch import lab, mistakes


class Shell(InteractiveShell):  # type: ignore[misc]
    """A shell that writes down what it would show."""

    def _showtraceback(self, kind: type[BaseException], error: BaseException, lines: list[str]) -> None:
        self.seen = "\n".join(lines)


@pytest.fixture(scope="module")
def shell() -> Shell:
    # No history: it would lie in the home, in a database that stays open.
    shell = Shell(config=Config(HistoryManager={"enabled": False}))
    mistakes.load_ipython_extension(shell)
    shell.run_cell("from hemcalc import Length, judge")
    return shell


def said(shell: Shell, cell: str) -> str:
    shell.seen = ""
    shell.run_cell(cell, store_history=False)
    return shell.seen


@pytest.mark.parametrize(
    ("cell", "answer"),
    [
        ("Length(3/8 in)", 'write "3/8 in" in place of 3/8 in.'),
        ("my_answer = 1 1/2 in  # a guess", 'write "1 1/2 in" in place of 1 1/2 in.'),
        ("my_answer = 3/8in", 'write "3/8 in" in place of 3/8in.'),
        ('my_answer = 3/8"', 'write "3/8 in" in place of 3/8".'),
        ("my_answer = ½ inch", 'write "½ inch" in place of ½ inch.'),
        ("my_answer = 38,1 mm", 'write "38,1 mm" in place of 38,1 mm.'),
        ("my_answer = 12 threads", "stands alone: write 12 in place of 12 threads."),
        ("a = 1\nmy_answer = 38.1 * cm", "stands in straight quotes with its unit, such as"),
        ("Length(“3/8 in”)", "curly (“)"),
        ("Length(‘3/8 in’)", "curly (‘)"),
        ("my_guess =", "Nothing stands after the = sign; write your answer there, or: my_guess = None"),
        ("my_guess = # none yet", "or: my_guess = None"),
        ('Length("3/8 in"', "is opened and not closed"),
        ('print("thread)', "is opened and not closed"),
        ("for edge in [1]:\n  print(edge)\n    print(edge)", "begins with spaces that don't belong there"),
        ("hem clear", "Python can't read the line 'hem clear'."),
        ("judge_all(1)", "run the page from the top: choose Run, then Run All Cells."),
        ("Lenght('1 cm')", "did you mean Length?"),
        ("1 / 0", "(ZeroDivisionError: 'division by zero')"),
        ("raise ValueError", "(ValueError: no more is said)"),
        ("raise KeyboardInterrupt", "Stopped. To begin again, run the cell once more."),
        ("Length('3/8')", "The length '3/8' has no unit"),
    ],
)
def test_a_first_mistake_gets_its_sentence(shell: Shell, cell: str, answer: str) -> None:
    sentence = said(shell, cell)
    assert answer in sentence
    assert "\n" not in sentence
    assert len(sentence) <= 400
    assert "Traceback" not in sentence


@pytest.mark.parametrize("cell", ["Length('1 cm')", "2 in [2]", "my_answer = '40 mm'", "my_guess = 3 / 8"])
def test_what_is_right_is_left_alone(shell: Shell, cell: str) -> None:
    assert said(shell, cell) == ""


def test_a_traceback_can_still_be_asked_for(shell: Shell) -> None:
    said(shell, "1 / 0")
    assert isinstance(sys.last_value, ZeroDivisionError)


def test_only_the_kernels_of_the_lab_are_told(tmp_path: Path) -> None:
    """The settings that the lab's kernels read load it; to import hemcalc changes no shell."""
    variables = {"IPYTHONDIR": str(tmp_path)}
    lab.answer_in_sentences(variables)
    ask = "from ipykernel.kernelapp import IPKernelApp as App; a = App(); a.init_profile_dir(); "
    ask += "a.init_config_files(); a.load_config_file(); print(a.config.InteractiveShellApp.extensions)"
    asked = [sys.executable, "-c", ask]
    answer = subprocess.run(asked, env=os.environ | variables, capture_output=True, text=True, check=True)
    assert answer.stdout == "['hemcalc.launch.mistakes']\n"
    assert list(tmp_path.glob("profile_default/*")) == [], "any other kernel is told nothing"
    import hemcalc.panels

    own = Shell()
    assert hemcalc.panels
    assert own.custom_exceptions == ()
