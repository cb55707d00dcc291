"""The pages to send round: made by `hemcalc.send`, in the environment that has what it needs."""

from __future__ import annotations

import contextlib
import subprocess
from pathlib import Path

from hemcalc.launch.environment import Environment
from hemcalc.measure.errors import HemError, shown

#: The exit code of a refusal, whose sentence is the last line that the program wrote.
REFUSED = 2

_PATIENCE = 10  # seconds that an interrupted notebook has to close


def send_pages(environment: Environment, *words: str) -> int:
    """Make a folder of pages from the notebooks; then 0."""
    if len(words) != 1:
        example = environment.example("pages my_pages/to_send")
        raise HemError(f"Say in one word which folder the pages are to go into; for example: {example}")
    environment.prepare("notebooks")
    program = [str(environment.python), "-m", "hemcalc.send", str(Path(words[0]).absolute())]
    with (
        environment.variables() as variables,
        # What the kernels say of themselves is for nobody; of a failure the last line is.
        subprocess.Popen(
            program, cwd=environment.root, env=variables, stderr=subprocess.PIPE, encoding="utf-8"
        ) as process,
    ):
        try:
            _, wrong = process.communicate()
        except KeyboardInterrupt:  # the terminal told it too, and it closes its kernel
            with contextlib.suppress(subprocess.TimeoutExpired, KeyboardInterrupt):
                process.communicate(timeout=_PATIENCE)
            process.kill()
            raise
    last = (wrong.strip().splitlines() or ["nothing"])[-1]
    if process.returncode == REFUSED:
        raise HemError(last)
    if process.returncode:
        raise HemError(f"The pages could not be made, and the program said last: {shown(last)}")
    return 0
