"""The commands under fault, each caused: a real venv and a real pip, in a small checkout of its own.

    python tests/bench/launching.py

What is installed is a stand-in of one file, built by a backend in the checkout, so that the internet is
asked for nothing; the checkout is in a folder whose name no shell likes. Each line says the fault, the
exit code, the seconds, and the last line that was said. None may be a traceback, and no process may be
left. Where this is root on Linux, the internet is taken away and `ensurepip` hidden by a namespace.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
PROJECT = """\
[build-system]
requires = []
build-backend = "backend"
backend-path = ["."]
[project]
name = "hemcalc"
version = "0.1"
[project.optional-dependencies]
notebooks = [{needs}]
"""
BACKEND = """\
import zipfile
META = "Metadata-Version: 2.1\\nName: hemcalc\\nVersion: 0.1\\nProvides-Extra: notebooks\\n"
META += "Requires-Dist: linen; extra == 'notebooks'\\n" if "linen" in open("pyproject.toml").read() else ""
def build_editable(folder, *_):
    with zipfile.ZipFile(f"{folder}/hemcalc-0.1-py3-none-any.whl", "w") as wheel:
        wheel.writestr("jupyterlab/__main__.py", "print('The lab is open.')")
        wheel.writestr("hemcalc-0.1.dist-info/METADATA", META)
        wheel.writestr("hemcalc-0.1.dist-info/WHEEL", "Wheel-Version: 1.0\\nTag: py3-none-any\\n")
        wheel.writestr("hemcalc-0.1.dist-info/RECORD", "")
    return "hemcalc-0.1-py3-none-any.whl"
"""
# Not the lab, but all before it: so every line ends by itself.
PREPARE = """\
import sys
from pathlib import Path
from hemcalc import __main__
__main__.COMMANDS["open"] = ("", lambda env: env.prepare("notebooks") or print("Installed.") or 0, "")
sys.exit(__main__.main(["open"], Path("hemcalc").resolve()))
"""
PLAIN = {"PIP_NO_INDEX": "1"}
OFFLINE = {"PIP_INDEX_URL": "http://127.0.0.1:9/simple", "PIP_RETRIES": "1", "PIP_NO_INDEX": "0"}


class Checkout:
    """A small checkout, and the command in it."""

    def __init__(self, root: Path, needs: str = "") -> None:
        self.root = root
        shutil.copytree(ROOT / "hemcalc", root / "hemcalc", ignore=shutil.ignore_patterns("__pycache__"))
        (root / "backend.py").write_text(BACKEND)
        (root / "pyproject.toml").write_text(PROJECT.format(needs=needs))

    def start(self, *around: str, **variables: str) -> subprocess.Popen[str]:
        """The command begun, behind what is put around it."""
        told = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
        return subprocess.Popen(
            [*around, sys.executable, "-c", PREPARE],
            cwd=self.root,
            env=told | PLAIN | variables,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            start_new_session=True,
        )

    def say(self, fault: str, *around: str, **variables: str) -> None:
        """The line of a run that ends by itself."""
        start = time.monotonic()
        self.ended(fault, self.start(*around, **variables), start)

    def ended(self, fault: str, running: subprocess.Popen[str], start: float) -> None:
        """The line of a run."""
        said = running.communicate()[0]
        left = subprocess.run(
            ["pgrep", "-g", str(running.pid)], capture_output=True, text=True
        ).stdout.split()
        wrong = " TRACEBACK" * ("Traceback" in said) + f" LEFT {left}" * bool(left)
        seconds, last = time.monotonic() - start, (said.strip().splitlines() or ["nothing"])[-1]
        print(f"{fault:<34} {running.returncode:>4} {seconds:5.1f} s {last}{wrong}", flush=True)

    def stopped(self, fault: str, after: float, number: int) -> None:
        """The line of a run that all of its window is told to stop after so many seconds."""
        start, running = time.monotonic(), self.start()
        time.sleep(after)
        os.killpg(running.pid, number)
        self.ended(f"{fault} after {after:.2f} s", running, start)


def main() -> None:
    """The table."""
    chance = random.Random(3)
    with tempfile.TemporaryDirectory() as desk:
        here = Checkout(Path(desk, "linen [100 %] wörk & 'shop' $HOME 刺绣 🧵"))
        venv = here.root / ".venv"
        python = venv / "bin" / "python"
        here.say("new")
        here.say("again")
        for part in (
            "bin",
            "pyvenv.cfg",
            "lib",
            "lib/*/site-packages/pip",
            "lib/*/site-packages/*.dist-info",
        ):
            for path in venv.glob(part):
                shutil.rmtree(path) if path.is_dir() else path.unlink()
            here.say(f"without {part}")
        python.unlink()
        python.symlink_to(Path(desk, "gone"))
        here.say("its Python gone")
        for number, fault in ((signal.SIGKILL, "killed"), (signal.SIGINT, "Ctrl-C")):
            for _ in range(6):
                shutil.rmtree(venv, ignore_errors=True)
                here.stopped(fault, chance.uniform(0.1, 9), number)
            here.say(f"begun again after {fault}")
        shutil.rmtree(venv)
        start, first = time.monotonic(), here.start()
        time.sleep(2)
        here.say("a second window")
        here.ended("the first window", first, start)
        link = Path(desk, "a link")
        link.symlink_to(here.root)
        moved = here.root
        here.root = link
        here.say("by a link")
        here.root = moved.rename(Path(desk, "moved"))
        here.say("moved")
        shutil.rmtree(here.root / ".venv")
        if sys.platform == "linux" and not os.geteuid():
            import ensurepip

            hide = f'mount -t tmpfs none "{Path(ensurepip.__file__).parent}" && exec "$@"'
            here.say("no ensurepip", "unshare", "-m", "sh", "-c", hide, "sh")
            (here.root / ".venv").mkdir()
            small = 'mount -t tmpfs -o size=2m none .venv && exec "$@"'
            here.say("a full disk", "unshare", "-m", "sh", "-c", small, "sh")
        wants = Checkout(Path(desk, "wants"), needs='"linen"')
        wants.say("an index that does not answer", **OFFLINE)
        if sys.platform == "linux" and not os.geteuid():
            wants.say("no network", "unshare", "-n", PIP_NO_INDEX="0", PIP_RETRIES="1")
        colon = Checkout(Path(desk, "autumn: linen"))
        colon.say("a colon in the path")


if __name__ == "__main__":
    main()
