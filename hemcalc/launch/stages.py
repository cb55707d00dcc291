"""The tests in stages: what is checked beside them, what has failed, and what was skipped."""

from __future__ import annotations

import os
import subprocess
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from xml.etree import ElementTree

from hemcalc.launch.environment import Environment

#: What Python runs while the tests do, one after the other, by the stage's name; shown after them.
CHECKS = {
    "lint": ("ruff", "check", "."),
    "format": ("ruff", "format", "--check", "."),
    # Kept for another time, what it finds would take a third longer the first time.
    "types": ("mypy", "--strict", "--cache-dir", os.devnull, "hemcalc"),
    "notebooks": (
        *("pytest", "-p", "nbval.plugin", "-p", "tests.notebooks.forked", "--nbval"),
        "--nbval-cell-timeout=120",
        *("--nbval-sanitize-with=tests/notebooks/sanitize.cfg", "notebooks"),
    ),
}

#: What Python runs meanwhile, in as many processes as a small machine has cores. Asserts that say their
#: values would be written by each of them, for ten seconds; so what fails is run once more with such.
TESTS = {
    "tests": (
        *("pytest", "--numprocesses", "2", "--dist", "worksteal", "--assert=plain"),
        *("--ignore=tests/browser", "--ignore=tests/bench", "-m", "not browser"),
    )
}

#: What needs a browser, and minutes.
BROWSER = {"browser": ("pytest", "-m", "browser", "tests/browser")}

#: What closes every address but this machine's to all that the tests run, and notes who asks for one.
CLOSED = "tests/closed"

_Stages = Mapping[str, tuple[str, ...]]


def run_tests(environment: Environment) -> int:
    """Run all but the tests in a browser; say at the end what has failed, and what was skipped."""
    environment.prepare("test")
    browser = f"the tests in a browser, which need a Chromium: {environment.again.replace('test', 'browser')}"
    return _run(environment, CHECKS, TESTS, browser)


def run_browser_tests(environment: Environment) -> int:
    """Run the tests in a browser, likewise."""
    environment.prepare("browser")
    return _run(environment, {}, BROWSER)


def _run(environment: Environment, checks: _Stages, tests: _Stages, *skipped: str) -> int:
    """The exit code of all stages: 0 if all have passed, else 1."""
    lines: dict[str, str] = {}

    def run(name: str, words: tuple[str, ...], printed: bool) -> str:
        start, pipe = time.monotonic(), None if printed else subprocess.PIPE
        program = [str(environment.python), "-m", *words]
        if name in reports:
            reports[name].unlink(missing_ok=True)
            program.append(f"--junitxml={reports[name]}")
        ended = subprocess.run(program, cwd=environment.root, env=variables, stdout=pipe, stderr=pipe)
        verdict = "FAILED" if ended.returncode else "passed"
        lines[name] = f"  {name:<10} {verdict} {time.monotonic() - start:7.1f} s"
        return b"".join(said or b"" for said in (ended.stdout, ended.stderr)).decode("utf-8", "replace")

    with environment.variables() as variables, ThreadPoolExecutor(1) as beside:
        variables["HEMCALC_SETTINGS"] = ""  # the notebooks' outputs are saved with nothing set
        asked = Path(variables["PYTEST_DEBUG_TEMPROOT"]) / "asked-of-other-machines.txt"
        asked.unlink(missing_ok=True)
        variables |= {"PYTHONPATH": str(environment.root / CLOSED), "HEMCALC_CLOSED": str(asked)}
        variables.pop("PYTHONDONTWRITEBYTECODE", None)  # or each process would compile all of it anew
        kept = Path(variables["PYTEST_DEBUG_TEMPROOT"])
        reports = {
            name: kept / f"{name}.xml" for name, words in {**checks, **tests}.items() if words[0] == "pytest"
        }
        try:
            said = {name: beside.submit(run, name, words, False) for name, words in checks.items()}
            for name, words in tests.items():
                print(f"\n== {name}: {' '.join(words)}", flush=True)
                run(name, words, True)
                if "--assert=plain" in words and (again := _failed(reports[name])):
                    print(f"\n== {name} that failed, with their values", flush=True)
                    words = (str(environment.python), "-m", "pytest", *again[:20])
                    subprocess.run(words, cwd=environment.root, env=variables, stdout=None)
            for name, check in said.items():
                print(f"\n== {name}: {' '.join(checks[name])}\n{check.result()}", end="")
        finally:
            beside.shutdown(cancel_futures=True)
        skipped += tuple(_skipped(reports.values()))
        if asked.exists():
            print(f"\n== asked of other machines\n{asked.read_text('utf-8')}", end="")
            lines["privacy"] = "  privacy    FAILED"
    print("\n" + "\n".join(lines[name] for name in (*checks, *tests, *lines.keys() & {"privacy"})))
    failed = [name for name, line in lines.items() if "FAILED" in line]
    print(f"Failed: {', '.join(failed)}." if failed else "All passed.")
    print(f"Skipped: {'; '.join(skipped) or 'nothing'}.")
    return 1 if failed else 0


def _failed(report: Path) -> list[str]:
    """The tests that failed, by the names by which pytest runs them."""
    cases = ElementTree.parse(report).iter("testcase") if report.exists() else ()
    failed = [case for case in cases if case.find("failure") is not None]
    return [f"{case.get('classname', '').replace('.', '/')}.py::{case.get('name')}" for case in failed]


def _skipped(reports: Iterable[Path]) -> Iterator[str]:
    """The reasons for which tests were skipped, and how many by each."""
    found = [ElementTree.parse(path) for path in reports if path.exists()]
    reasons = Counter(skip.get("message") for tree in found for skip in tree.iter("skipped"))
    return (f"{number} because: {reason}" for reason, number in reasons.items())
