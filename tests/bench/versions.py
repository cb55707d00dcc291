"""Run the tests with the lowest and the highest versions that pyproject.toml allows, by Python.

    python tests/bench/versions.py [NAME ...] [-- ARGUMENT OF PYTEST ...]

NAME is a Python and an end of the ranges, such as ``3.11-lowest``; without one, all of `USUAL`. Each has an
environment of its own in ``.versions`` (half a gigabyte each, and what was fetched is kept there for the next
time). Warnings are errors there as everywhere. Printed is how each ended, or that its Python isn't here; what
was installed in it is written beside it.

The lowest are those of what pyproject.toml names itself, the rest the highest that go with them: so
somebody has them who installed these long ago and the rest today. uv, a fast installer (Apache-2.0 or MIT),
resolves that, which pip can't; it has an environment there too, and costs 60 MB and no line of ours.

Also there, and asleep unless called: what runs the tests in random order, or twice in one process, or counts
the lines that they run::

    versions.py 3.13-highest -- -p pytest_randomly --randomly-seed=7
    versions.py 3.13-highest -- -p pytest_repeat --count 2 --repeat-scope session tests/panels
    .versions/3.12-highest/bin/python -m coverage run --branch --source hemcalc -m pytest -m "not browser"
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

from hemcalc.launch.stages import CHECKS, TESTS

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / ".versions"
USUAL = ("3.11-lowest", "3.11-highest", "3.12-highest", "3.13-lowest", "3.13-highest", "3.14-highest")
BESIDE = ("pytest-randomly>=5,<6", "pytest-repeat>=0.9.4,<1", "coverage>=7.10,<8")
ENDS = {"lowest": "lowest-direct", "highest": "highest"}


def in_folder(folder: Path, program: str) -> str:
    """A program of an environment."""
    return str(folder / ("Scripts" if os.name == "nt" else "bin") / program)


def uv() -> str:
    """The installer, which is installed by pip the first time."""
    folder = FOLDER / "uv"
    if shutil.which(in_folder(folder, "uv")) is None:
        venv.create(folder, with_pip=True)
        asked(in_folder(folder, "python"), "-m", "pip", "install", "-q", "uv<1")
    return in_folder(folder, "uv")


def interpreter(python: str) -> str | None:
    """A Python of this version, on the path or where pyenv keeps it; None if it isn't there."""
    kept = sorted(Path.home().glob(f".pyenv/versions/{python}.*/bin/python"))
    for command in (f"python{python}", *map(str, kept)):
        say = [command, "-c", "import sys; print('%d.%d' % sys.version_info[:2])"]
        said = shutil.which(command) and subprocess.run(say, capture_output=True, text=True).stdout
        if said and said.strip() == python:
            return command
    return None


def made(name: str) -> Path | None:
    """The environment of this name, made anew; None if its Python isn't here."""
    python, _, end = name.partition("-")
    folder, command = FOLDER / name, interpreter(python)
    if command is None:
        return None
    within = ["--python", in_folder(folder, "python")]
    # The lowest that has a wheel for this Python: nobody is to need a compiler. rectpack has none at all.
    wheels = ["--only-binary", ":all:", "--no-binary", "hemcalc", "--no-binary", "rectpack"]
    asked(uv(), "venv", "-q", "--clear", "--python", command, str(folder))
    asked(uv(), "pip", "install", "-q", *within, *wheels, "--resolution", ENDS[end], "-e", ".[test]", *BESIDE)
    listed = asked(uv(), "pip", "freeze", "--exclude-editable", *within)
    (FOLDER / f"{name}.txt").write_text(listed, "utf-8")
    return folder


def asked(*words: str) -> str:
    """What a program prints that must succeed."""
    cache = os.environ | {"UV_CACHE_DIR": str(FOLDER / "cache")}
    return subprocess.run(words, cwd=ROOT, env=cache, stdout=subprocess.PIPE, text=True, check=True).stdout


def run(name: str, arguments: list[str]) -> str:
    """Run the tests in one environment, and say how they ended."""
    try:
        folder = made(name)
    except subprocess.CalledProcessError:
        return "could not be made"
    if folder is None:
        return "not run: this Python isn't here"
    # So that kernels are started with this Python, and nothing is kept outside the folder.
    places = {
        "JUPYTER_DATA_DIR": folder / "jupyter",
        "IPYTHONDIR": folder / "ipython",
        "MPLCONFIGDIR": folder,
    }
    variables = os.environ | {"HEMCALC_SETTINGS": ""} | {key: str(place) for key, place in places.items()}
    stages = [("pytest", *arguments)] if arguments else (*CHECKS.values(), *TESTS.values())
    ended = [
        subprocess.run([in_folder(folder, "python"), "-m", *words], cwd=ROOT, env=variables).returncode
        for words in stages
    ]
    return f"failed {ended}" if any(ended) else "passed"


if __name__ == "__main__":
    names, _, rest = " ".join(sys.argv[1:]).partition("-- ")
    FOLDER.mkdir(exist_ok=True)
    results = {name: run(name, rest.split()) for name in names.split() or USUAL}
    print(*(f"{name:14} {how}" for name, how in results.items()), sep="\n")
    sys.exit(any(how.startswith(("failed", "could")) for how in results.values()))
