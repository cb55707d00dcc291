"""Which mistakes in the core would no test notice? One change at a time, sampled and tried.

    python tests/bench/mutation.py [--number 350] [--seed 1] [--at MODULE[:LINE] …] [--survey]

It needs the extra `mutation`. A line of the core is drawn, and one of the changes that `changes.py` has
for it: a number one more or less, < for <=, *and* for *or*, + for −, min for max, a loop left out, …
It is tried with the tests that run the function it is in, the notebooks among them (`pages.py`), those of its
package first and the quick before the slow, as far as the first that fails. Exits with 1 if less than 95 % of
the changes that change anything are noticed.

Which tests run which function is found once, by a call put into each, and kept in `.venv`: of new tests when
they are there, of all again by `--survey`. hypothesis tries fewer examples than elsewhere, but always the
same.

A change that makes no difference to anyone is *equivalent*: `mutation_equivalent.csv` has it with
its reason, known by its words and its function, wherever its line has moved to; `*` is every other number
that may stand there.

The tests are collected once, in a process that runs none of them. Each change has a child of that
process (`fork`: no Windows), in which its function is given the changed code; what is outside a function
needs everything imported anew. A child is ended when it has used far more of the processor's time than
its tests did before; how busy the machine is doesn't matter. What writes files writes them with its change,
too: on a machine of yours, run it as somebody who may not write everywhere.
"""

from __future__ import annotations

import argparse
import ast
import builtins
import csv
import gc
import importlib.machinery
import importlib.util
import json
import os
import resource
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import cache, partial
from itertools import pairwise
from pathlib import Path
from types import CodeType, FunctionType

import hypothesis
import pytest

sys.path.insert(0, str(Path(__file__).parent))
from changes import PACKAGE, ROOT, Change, Place, sample

EQUIVALENT = Path(__file__).with_name("mutation_equivalent.csv")
SURVEY = ROOT / ".venv" / "mutation.json"
#: The share of changes that must be noticed.
ENOUGH = 0.95
#: What a child may take of the processor's time: so many times what its tests did, and so many seconds.
PATIENCE, BESIDES = 4, 30
#: Seconds: a test that takes longer is left out.
LONGEST = 12
#: Of hypothesis, in a test: enough to notice a change by.
EXAMPLES = 10
#: These start other processes, which have the code as it is, or read it.
ELSEWHERE = (
    *("tests/bench", "tests/browser", "tests/closed", "tests/launch", "tests/notebooks", "tests/send"),
    *("tests/sources/mutants.py", "tests/sources/test_mutants.py", "tests/test_structure.py"),
    *("hemcalc/launch", "hemcalc/__main__.py"),
)
#: Runs no function, but reads what is meant where an input is left out.
READS = "tests/test_usual.py"
OPTIONS = ("-W", "ignore:Module already imported", "-p", "no:cacheprovider", "-p", "no:terminal", "-s")
#: The functions that were run since it was last cleared; what is probed finds it there.
RUN: set[str] = set()
_INIT = hypothesis.settings.__init__
#: What `lru_cache` makes of a function.
_Kept = type(cache(len))


def _few_examples(self, *parent, **asked):
    """The settings of hypothesis with few examples, and no search for the least that fails."""
    asked["max_examples"] = min(asked.get("max_examples", EXAMPLES), EXAMPLES)
    asked["phases"] = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
    _INIT(self, *parent, **asked)


class _Probe(ast.NodeTransformer):
    """Puts a call into each outermost function, and lambda of a table, that says which it is."""

    def __init__(self, module: str) -> None:
        self.name = f"{module} "

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        """Go on in its methods."""
        above, self.name = self.name, f"{self.name}{node.name}."
        self.generic_visit(node)
        self.name = above
        return node

    def visit_Lambda(self, node: ast.Lambda) -> ast.AST:
        """Call it before what it gives."""
        said = ast.parse(f"(run_now.add({self.name + '<lambda>'!r}), 0)[1]", mode="eval").body
        said.value.elts[1] = node.body
        node.body = ast.fix_missing_locations(ast.copy_location(said, node.body))
        return node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        """Call it after its docstring."""
        said = ast.parse(f"run_now.add({self.name + node.name!r})").body[0]
        first = node.body[0]
        for new in ast.walk(said):
            ast.copy_location(new, first)
        node.body.insert(ast.get_docstring(node) is not None, said)
        return node


class _Changed(importlib.machinery.SourceFileLoader):
    """Loads hemcalc with each function probed, and the source of one module changed, as if from its files."""

    def __init__(self, name: str, path: str, made: Change | None = None) -> None:
        super().__init__(name, path)
        self.made = made

    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] != "hemcalc":
            return None
        found = importlib.machinery.PathFinder.find_spec(name, path)
        loader = found and _Changed(name, found.origin, self.made)
        return found and importlib.util.spec_from_file_location(name, found.origin, loader=loader)

    def get_code(self, fullname):
        path = Path(self.path)
        module = path.relative_to(PACKAGE).as_posix()
        if self.made and self.made.place.module == module:
            return compile(self.made.source, self.path, "exec", dont_inherit=True)
        tree = _Probe(module).visit(ast.parse(path.read_text("utf-8")))
        return compile(tree, self.path, "exec", dont_inherit=True)


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for const in code.co_consts:
        if isinstance(const, CodeType):
            yield from _codes(const)


class First:
    """The first test that fails: its name goes into a file, and the process ends."""

    def __init__(self, said: Path) -> None:
        self.said = said

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """End with the first that fails."""
        if report.failed:
            self._end(report.nodeid)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """A module that can't even be loaded is noticed, too."""
        if report.failed:
            self._end(f"{report.nodeid}, which can't be loaded")

    def _end(self, said: str) -> None:
        self.said.write_text(said, "utf-8")
        os._exit(1)


class Mutation(First):
    """A plugin of pytest, in place of its loop over the tests."""

    def __init__(self, asked: argparse.Namespace, folder: Path) -> None:
        super().__init__(folder / "said")
        self.asked = asked
        self.enough = False

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """Here nothing is changed yet, and all must load."""
        if report.failed:
            raise SystemExit(f"{report.nodeid} can't be loaded: {report.longrepr}")

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Look over the tests if need be, then try the changes."""
        self.items = {item.nodeid: item for item in session.items}
        gc.unfreeze()  # what conftest.py has frozen is not seen
        self.functions = defaultdict(list)
        self.kept = [found for found in gc.get_objects() if isinstance(found, _Kept)]
        for found in gc.get_objects():
            if isinstance(found, FunctionType) and found.__code__.co_filename.startswith(f"{PACKAGE}/"):
                self.functions[found.__code__].append(found)
        gc.freeze()
        self._survey()
        self.enough = self._try_all()
        return True

    def _child(self, work: Callable[[], None], seconds: float) -> int:
        """The status of a process that does some work, in so many seconds of the processor's time."""
        sys.stdout.flush()
        self.said.unlink(missing_ok=True)
        if pid := os.fork():
            return os.waitpid(pid, 0)[1]
        try:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            resource.setrlimit(resource.RLIMIT_CPU, (int(seconds), int(seconds) + 1))
            resource.setrlimit(resource.RLIMIT_AS, (8 << 30, 8 << 30))
            for kept in self.kept:  # by what the tests called as they were loaded
                kept.cache_clear()
            work()
        except BaseException as err:
            self._end(f"{type(err).__name__}: {err}")
        os._exit(0)

    def _run(self, ids: list[str]) -> Iterator[tuple[str, float]]:
        """Run these tests, and say how long each took."""
        for item, following in pairwise([*(self.items[name] for name in ids), None]):
            start = time.process_time()
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            yield item.nodeid, round(time.process_time() - start, 3)

    def _survey(self) -> None:
        """How long each test takes, and which functions it runs; alone, or it would find what others kept.

        It goes on from what was kept, so that only new tests are looked at.
        """
        SURVEY.parent.mkdir(exist_ok=True)
        afresh = self.asked.survey or not SURVEY.exists()
        kept = {"seconds": {}, "runs": {}} if afresh else json.loads(SURVEY.read_text("utf-8"))
        self.seconds, self.runs = kept["seconds"], kept["runs"]

        def look(name: str) -> None:
            RUN.clear()
            ((_, took),) = self._run([name])
            self.said.write_text(json.dumps([took, *RUN]), "utf-8")

        new = [name for name in self.items if name not in self.seconds]
        for name in new:
            # What fails anyway, or takes too long, is left out.
            amiss = self._child(partial(look, name), LONGEST)
            self.seconds[name], *run = [0.0] if amiss else json.loads(self.said.read_text("utf-8"))
            for function in run:
                self.runs.setdefault(function, []).append(name)
            if len(self.seconds) % 200 == 0 or name == new[-1]:
                SURVEY.with_suffix(".part").write_text(json.dumps(kept), "utf-8")
                os.replace(SURVEY.with_suffix(".part"), SURVEY)

    def tests_for(self, place: Place) -> list[str]:
        """Those that run its function (its module or room, if it is in none)."""
        room = place.module.split("/")[0]

        def run(start: str) -> set[str]:
            return {test for name, tests in self.runs.items() if name.startswith(start) for test in tests}

        one = self.runs.get(f"{place.module} {place.definition}")
        known = set(one or run(f"{place.module} ") or run(f"{room}/"))
        at_home = {test for test in self.items if test.startswith((f"tests/{room}/", f"hemcalc/{room}/"))}
        reads = set() if place.within else {test for test in self.items if test.startswith(READS)}
        some = (known | reads) & self.items.keys()
        chosen, total = [], 0.0
        for test in sorted(some, key=lambda test: (test not in at_home | reads, self.seconds[test])):
            total += self.seconds[test]
            if total > self.asked.most and chosen:
                break
            chosen.append(test)
        return chosen

    def _try(self, made: Change, ids: list[str]) -> str:
        """The test that notices a change; nothing if none does."""
        path = PACKAGE / made.place.module

        def within() -> None:
            codes = {
                (code.co_qualname, code.co_firstlineno): code
                for code in _codes(compile(made.source, str(path), "exec", dont_inherit=True))
            }
            put = 0
            for code, functions in self.functions.items():
                new = codes.get((code.co_qualname, code.co_firstlineno))
                if code.co_filename == str(path) and new not in (None, code):
                    for function in functions:
                        function.__code__ = new
                        put += 1
            if put:
                list(self._run(ids))
            else:
                afresh()

        def afresh() -> None:
            for name, module in list(sys.modules.items()):
                ours = (getattr(module, "__file__", None) or "").startswith(f"{ROOT}/tests/")
                if name.split(".")[0] == "hemcalc" or (ours and name not in ("__main__", "changes")):
                    del sys.modules[name]
            sys.meta_path.insert(0, _Changed("", "", made))
            home = [test for test in ids if made.place.module.split("/")[0] == test.split("/")[1]]
            for some in (home, [test for test in ids if test not in home]):
                # What is named here pytest would load by itself, as it stands, to rewrite its asserts.
                said = [First(self.said), "pages"]
                if some and pytest.main([*OPTIONS, "--assert=plain", *some], plugins=said):
                    self._end("pytest, which could not run them")

        limit = BESIDES + PATIENCE * sum(self.seconds[test] for test in ids)
        if not self._child(within if made.place.within else afresh, limit):
            return ""
        return self.said.read_text("utf-8") if self.said.exists() else "its time, which it overran"

    def _try_all(self) -> bool:
        """Print what comes of each; whether enough are noticed."""
        with EQUIVALENT.open(encoding="utf-8", newline="") as file:
            equivalent = {tuple(row[key] for key in list(row)[:4]) for row in csv.DictReader(file)}
        survived = noticed = same = 0
        asked = self.asked
        for made in (made for at in asked.at for made in sample(asked.number, asked.seed, at)):
            if made.key in equivalent or (made.of_a_number and (*made.key[:3], "*") in equivalent):
                same += 1
                continue
            ids = self.tests_for(made.place)
            if by := self._try(made, ids):
                noticed += 1
                said = f"\n{made.text}\n    noticed by {by}" if any(asked.at) else "."
                print(said, end="", flush=True)
            else:
                survived += 1
                print(f"\n{made.text}\n    NOT NOTICED by {len(ids)} tests", flush=True)
        share = noticed / max(1, noticed + survived)
        print(
            f"{noticed + survived + same} changes: {noticed} noticed, {survived} not, {same} equivalent. "
            f"Of those that are not equivalent {share:.1%} are noticed."
        )
        return share >= ENOUGH


def main() -> int:
    """Sample, try and print; 1 if too much goes unnoticed."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--number", type=int, default=350, help="how many changes (350)")
    parser.add_argument("--seed", type=int, default=1, help="another seed draws others (1)")
    parser.add_argument("--at", nargs="*", default=[""], help="modules (edge/bend.py), lines (….py:48)")
    parser.add_argument("--most", type=float, default=30, help="seconds that a change's tests may take (30)")
    parser.add_argument("--survey", action="store_true", help="find anew which tests run which function")
    asked = parser.parse_args()
    os.chdir(ROOT)
    sys.path.insert(0, str(ROOT))
    builtins.run_now = RUN  # type: ignore[attr-defined]
    sys.meta_path.insert(0, _Changed("", ""))
    type.__setattr__(hypothesis.settings, "__init__", _few_examples)
    with tempfile.TemporaryDirectory() as folder:
        run = Mutation(asked, Path(folder))
        where = (f"--basetemp={folder}/tests", *(f"--ignore={path}" for path in ELSEWHERE))
        pytest.main([*OPTIONS, *where, "tests", "hemcalc", "notebooks"], plugins=[run, "pages"])
    return 0 if run.enough else 1


if __name__ == "__main__":
    sys.exit(main())
