"""The pages to send round: made by `hemcalc.send`, in the environment that has what it needs."""

from __future__ import annotations

import subprocess
from pathlib import Path

from hemcalc.launch.environment import Environment
from hemcalc.measure.errors import HemError


def send_pages(environment: Environment, *words: str) -> int:
    """Make a folder of pages from the notebooks; its exit code, which is 0 if they are made."""
    if len(words) != 1:
        example = environment.example("pages for_the_class")
        raise HemError(f"Say in one word which folder the pages are to go into; for example: {example}")
    environment.prepare("notebooks")
    program = [str(environment.python), "-m", "hemcalc.send", str(Path(words[0]).absolute())]
    with environment.variables() as variables:
        return subprocess.run(program, cwd=environment.root, env=variables).returncode
