"""Whether anything is asked of another machine: the pages to send round, the stage and the lab, run for real.

    python tests/bench/privacy.py [stage] [lab] [pages]

Every address but this machine's is closed to each Python that takes part, kernels too, and who asks is
noted (`tests/closed`). Where this is root on Linux, all of it runs in a network of its own besides, which
has this machine in it and nothing else. The test command holds all tests and notebooks to the same.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from hemcalc.launch import lab, stage
from hemcalc.launch.own_pages import OWN

ROOT = Path(__file__).parents[2]
ALONE = ["unshare", "-n", "sh", "-c", 'ip link set lo up && exec "$@"', "sh"]
PATIENCE = 900  # seconds to come up, and to answer, on a machine that has other work too


def served(asked: list[str], around: dict[str, str], folder: Path, pages: list[str]) -> list[int]:
    """Start a server, get its pages, and stop it; the codes of its answers."""
    server = subprocess.Popen([sys.executable, *asked], cwd=folder, env=around)
    try:
        codes, until = [], time.monotonic() + PATIENCE
        while len(codes) < len(pages) and time.monotonic() < until:
            try:
                with urllib.request.urlopen(pages[len(codes)], timeout=PATIENCE) as page:
                    page.read()
                    codes.append(page.status)
            except OSError:
                time.sleep(0.3)
        return codes
    finally:
        server.terminate()
        server.wait()


def main() -> None:
    """Run all three; say what was noted."""
    with tempfile.TemporaryDirectory() as desk:
        noted = Path(desk, "noted")
        around = os.environ | {
            "PYTHONPATH": os.pathsep.join([str(ROOT / "tests" / "closed"), str(ROOT)]),
            "HEMCALC_CLOSED": str(noted),
            "HEMCALC_SETTINGS": "",
            "JUPYTER_RUNTIME_DIR": f"{desk}/runtime",
            "JUPYTER_CONFIG_PATH": str(ROOT / ".jupyter"),
        }
        runs = {
            "the stage": lambda: served(
                [*stage.arguments(Path(desk), 8901)],
                (told := stage.stage_variables(around)),
                Path(desk),
                [f"http://127.0.0.1:8901/?panel=margin&token={told['JUPYTER_TOKEN']}"],
            ),
            "the lab": lambda: served(
                [*lab.arguments(ROOT / "notebooks"), "--port=8902", "--IdentityProvider.token=t"],
                around,
                Path(desk),
                [f"http://127.0.0.1:8902/{page}?token=t" for page in ("lab", "api/contents", "api/kernels")],
            ),
            "the pages to send round": lambda: (
                subprocess.run(
                    [sys.executable, "-m", "hemcalc.send", f"{desk}/{OWN}"],
                    env=around,
                    stdout=subprocess.DEVNULL,
                ).returncode
            ),
        }
        words = set(sys.argv[1:]) - {"alone"}
        for name, run in runs.items():
            if words and not any(word in name for word in words):
                continue
            start = time.monotonic()
            answer = run()
            asked = noted.read_text("utf-8") if noted.exists() else ""
            said = f"{len(asked.splitlines())} attempts, {time.monotonic() - start:.0f} s"
            print(f"{name:<24} ended with {answer}: {said}\n{asked}", end="", flush=True)


if __name__ == "__main__":
    if sys.platform == "linux" and not os.geteuid() and "alone" not in sys.argv:
        os.execvp(ALONE[0], [*ALONE, sys.executable, *sys.argv, "alone"])
    main()
