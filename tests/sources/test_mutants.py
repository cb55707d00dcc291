"""A thread more or fewer in any formula of the ledger makes a published figure fail."""

import re
import subprocess
import sys
from pathlib import Path

SCRIPT = Path(__file__).with_name("mutants.py")


def test_every_changed_formula_is_caught_by_a_row():
    run = subprocess.run([sys.executable, SCRIPT], capture_output=True, text=True, timeout=300)
    assert run.returncode == 0, run.stdout + run.stderr
    changes, computed, others, unseen = map(int, re.findall(r"\d+", run.stdout.splitlines()[-1]))
    assert changes == computed + others
    assert unseen == 0
    assert computed > others
