"""Which mistakes in the core would no test notice? One change at a time, sampled and tried.

    python tests/bench/mutation.py [--number 350] [--seed 1] [--at MODULE[:LINE]] [--survey]

It needs the extra `mutation`. A line of the core is drawn, and one of the changes that cosmic-ray
knows for it (a number one more or less, < for <=, and for or, + for −, a loop left out, …) or that
stand in `Exchanged` (min for max). It is tried with the tests that run the function it is in, those of
the package first and the quick before the slow, as far as the first that fails. Exits with 1 if
less than 95 % of the changes that change anything are noticed.

Which tests run which function is found once, by coverage (`--survey` finds it again), and kept in
`.venv`. hypothesis tries fewer examples than elsewhere, but always the same.

A change that makes no difference to anyone is *equivalent*: `mutation_equivalent.csv` has it with
its reason, known by its words and its function, wherever its line has moved to.

The tests are collected once, in a process that runs none of them. Each change has a child of that
process (`fork`: no Windows), in which its function is given the changed code; what is outside a function
needs everything imported anew. A child is ended when it has used far more of the processor's time than
its tests did before; how busy the machine is doesn't matter.
"""

from __future__ import annotations

import argparse
import ast
import csv
import difflib
import gc
import importlib.machinery
import importlib.util
import json
import os
import random
import resource
import sys
import tempfile
import time
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from types import CodeType, FunctionType

import coverage
import hypothesis
import pytest
from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.operators.operator import Operator
from cosmic_ray.operators.provider import OperatorProvider

ROOT = Path(__file__).resolve().parents[2]
EQUIVALENT = Path(__file__).with_name("mutation_equivalent.csv")
SURVEY = ROOT / ".venv" / "mutation.json"
#: The share of changes that must be noticed.
ENOUGH = 0.95
#: Seconds of the processor: what a change's tests may take together, by the survey; and what a child may
#: take for each of them, and besides.
MOST, PATIENCE, BESIDES = 60, 4, 30
#: Of hypothesis, in a test: enough to notice a change by.
EXAMPLES = 12

PACKAGES = [
    name.removeprefix("hemcalc.")
    for contract in tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"][
        "contracts"
    ]
    if contract["type"] == "forbidden" and "matplotlib" in contract["forbidden_modules"]
    for name in contract["source_modules"]
]
#: These start other processes, which have the code as it is.
ELSEWHERE = ("tests/sources/mutants.py", "tests/sources/test_mutants.py", "tests/test_structure.py")


class Exchanged(Operator):
    """A function called in place of its counterpart: cosmic-ray has none such."""

    PAIRS = ("min max", "any all", "floor ceil", "sin cos", "round_up round_down")
    OTHER = {a: b for pair in PAIRS for a, b in (pair.split(), pair.split()[::-1])}

    def mutation_positions(self, node):
        if node.type == "name" and node.value in self.OTHER and node.get_next_leaf().value == "(":
            yield node.start_pos, node.end_pos

    def mutate(self, node, index):
        node.value = self.OTHER[node.value]
        return node

    @classmethod
    def examples(cls):
        return ()


_CORE = OperatorProvider()
OPERATORS = [Exchanged()] + [
    _CORE[name]()
    for name in (
        *(
            f"ReplaceBinaryOperator_{pair}"
            for pair in ("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "FloorDiv_Div")
        ),
        *(f"ReplaceBinaryOperator_{pair}" for pair in ("Mod_Mul", "Pow_Mul", "BitOr_BitAnd", "BitAnd_BitOr")),
        *(f"ReplaceComparisonOperator_{pair}" for pair in ("Lt_LtE", "LtE_Lt", "Gt_GtE", "GtE_Gt")),
        *(f"ReplaceComparisonOperator_{pair}" for pair in ("Eq_NotEq", "NotEq_Eq", "Is_IsNot", "IsNot_Is")),
        "ReplaceUnaryOperator_Delete_USub",
        "ReplaceUnaryOperator_Delete_Not",
        "ReplaceAndWithOr",
        "ReplaceOrWithAnd",
        "ReplaceTrueWithFalse",
        "ReplaceFalseWithTrue",
        "ReplaceBreakWithContinue",
        "ReplaceContinueWithBreak",
        "AddNot",
        "ExceptionReplacer",
        "NumberReplacer",
        "ZeroIterationForLoop",
    )
]


@dataclass(frozen=True)
class Place:
    """Where an operator can change something: its how-manieth place in the module."""

    module: str
    line: int
    #: Of the outermost function, such as `Edge.rule`; of the class, or empty, if it is outside one.
    definition: str
    #: Whether it is run when the function is, and not when the module is loaded.
    within: bool
    operator: Operator
    occurrence: int


@dataclass(frozen=True)
class Change:
    """A place, and what stands there afterwards."""

    place: Place
    source: str = field(repr=False)
    was: str
    now: str

    @property
    def key(self) -> tuple[str, str, str, str]:
        """By which the list of equivalents knows it: no line number."""
        return self.place.module, self.place.definition, self.was, self.now

    @property
    def text(self) -> str:
        """File, line and difference."""
        where = f"hemcalc/{self.place.module}:{self.place.line} {self.place.definition}"
        return f"{where}\n    - {self.was}\n    + {self.now}"


def _where(node) -> tuple[str, bool] | None:
    """The definition that a node is in, and whether in a function's body; nothing for a type or a decorator."""
    names, within, child = [], False, node
    while (parent := child.parent) is not None:
        if parent.type == "argument" and parent.children[0].get_code().strip() == "example":
            return None  # another number would be as good an example
        if parent.type in ("tfpdef", "decorator") or (
            parent.type == "annassign" and child is parent.children[1]
        ):
            return None
        if parent.type == "funcdef":
            if child is parent.annotation:
                return None
            # What an outer function holds belongs to it.
            names, within = [parent.name.value], child is parent.children[-1]
        elif parent.type == "classdef":
            names.insert(0, parent.name.value)
        child = parent
    return ".".join(names), within


def places(module: str) -> Iterator[Place]:
    """Every change that can be made in a module."""
    nodes = [
        (node, _where(node)) for node in ast_nodes(get_ast((ROOT / "hemcalc" / module).read_text("utf-8")))
    ]
    for operator in OPERATORS:
        occurrence = 0
        for node, where in nodes:
            for (line, _), _ in operator.mutation_positions(node):
                if where is not None:
                    yield Place(module, line, *where, operator, occurrence)
                occurrence += 1


def change(place: Place) -> Change | None:
    """The change at a place, if Python can read it."""
    before = (ROOT / "hemcalc" / place.module).read_text("utf-8")
    after = mutate_code(before, place.operator, place.occurrence)
    try:
        compile(after, "", "exec")
    except (SyntaxError, SyntaxWarning):
        return None
    lines = list(difflib.unified_diff(before.splitlines(), after.splitlines(), n=0))[3:]
    was, now = ("; ".join(" ".join(line[1:].split()) for line in lines if line[0] == sign) for sign in "-+")
    return Change(place, after, was, now)


def modules() -> list[str]:
    """The core's, by their paths in hemcalc."""
    found = (path for name in PACKAGES for path in sorted((ROOT / "hemcalc" / name).rglob("*.py")))
    return [path.relative_to(ROOT / "hemcalc").as_posix() for path in found]


@cache
def by_line(module: str) -> dict[int, list[Place]]:
    """The places of a module, by their lines."""
    found: dict[int, list[Place]] = defaultdict(list)
    for place in places(module):
        found[place.line].append(place)
    return found


def sample(number: int, seed: int, at: str) -> Iterator[Change]:
    """So many changes, each on a line of its own, or all there are; in a module, or on one line, if asked."""
    only, _, line = at.partition(":")
    if line:
        yield from filter(None, map(change, by_line(only)[int(line)]))
        return
    chance = random.Random(seed)
    lines = [
        (module, line)
        for module in modules()
        if module.startswith(only)
        for line in range(1, 1 + (ROOT / "hemcalc" / module).read_text("utf-8").count("\n"))
    ]
    chance.shuffle(lines)
    for module, line in lines:
        found = by_line(module).get(line, [])
        # Drawn here, so that a line's changes hang on the seed alone, not on what other lines hold.
        made = next(
            filter(None, map(change, random.Random(f"{seed} {module} {line}").sample(found, len(found)))),
            None,
        )
        if made:
            yield made
            if not (number := number - 1):
                return


class _Changed(importlib.machinery.SourceFileLoader):
    """Loads the changed source of one module, as if from its file."""

    def __init__(self, made: Change) -> None:
        name = "hemcalc." + made.place.module.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
        super().__init__(name, str(ROOT / "hemcalc" / made.place.module))
        self.source = made.source

    def find_spec(self, name, path=None, target=None):
        return (
            importlib.util.spec_from_file_location(name, self.path, loader=self)
            if name == self.name
            else None
        )

    def get_code(self, fullname):
        return compile(self.source, self.path, "exec", dont_inherit=True)


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for const in code.co_consts:
        if isinstance(const, CodeType):
            yield from _codes(const)


class First:
    """The first test that fails: its name goes into a file, and the process ends."""

    def __init__(self, said: Path) -> None:
        self.said = said
        #: Tests that fail anyway, while those are looked for.
        self.anyway: set[str] | None = None

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """End with the first that fails."""
        if report.failed and self.anyway is not None:
            self.anyway.add(report.nodeid)
        elif report.failed:
            self.said.write_text(report.nodeid, "utf-8")
            os._exit(1)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """A module that can't even be loaded is noticed, too."""
        if report.failed:
            self.said.write_text(f"{report.nodeid} (can't be loaded)", "utf-8")
            os._exit(1)


class Mutation(First):
    """A plugin of pytest, in place of its loop over the tests."""

    def __init__(self, asked: argparse.Namespace, folder: Path) -> None:
        super().__init__(folder / "said")
        self.asked = asked
        self.enough = False

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Look over the tests if need be, then try the changes."""
        if session.testsfailed:
            raise session.Interrupted("some tests can't be loaded")
        self.items = {item.nodeid: item for item in session.items}
        gc.unfreeze()
        self.functions = defaultdict(list)
        for found in gc.get_objects():
            if isinstance(found, FunctionType) and found.__code__.co_filename.startswith(
                str(ROOT / "hemcalc")
            ):
                self.functions[found.__code__].append(found)
        gc.freeze()
        if self.asked.survey or not SURVEY.exists():
            SURVEY.parent.mkdir(exist_ok=True)
            self._child(self._survey, 3600)
        survey = json.loads(SURVEY.read_text("utf-8"))
        self.seconds, self.runs = survey["seconds"], survey["runs"]
        self.enough = self._try_all()
        return True

    def _child(self, work, seconds: float) -> int:
        """The status of a process that does some work."""
        sys.stdout.flush()
        self.said.unlink(missing_ok=True)
        if not (pid := os.fork()):
            try:
                nowhere = os.open(os.devnull, os.O_WRONLY)
                os.dup2(nowhere, 1)
                os.dup2(nowhere, 2)
                resource.setrlimit(resource.RLIMIT_CPU, (int(seconds), int(seconds) + 1))
                resource.setrlimit(resource.RLIMIT_AS, (8 << 30, 8 << 30))
                work()
            except BaseException as err:
                self.said.write_text(f"{type(err).__name__}: {err}", "utf-8")
                os._exit(1)
            os._exit(0)
        return os.waitpid(pid, 0)[1]

    def _run(self, ids: list[str]) -> None:
        items = [self.items[name] for name in ids]
        for item, following in zip(items, [*items[1:], None], strict=True):
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)

    def _survey(self) -> None:
        """How long each test takes, and which functions it runs."""
        cover = coverage.Coverage(data_file=None, config_file=False, source=[str(ROOT / "hemcalc")])
        seconds = {}
        self.anyway = set()
        items = list(self.items.values())
        cover.start()
        done = 0
        for item, following in zip(items, [*items[1:], None], strict=True):
            cover.switch_context(item.nodeid)
            done += 1
            if done % 100 == 0:
                open("/tmp/mutenv/progress", "w").write(f"{done} of {len(items)} {time.process_time():.0f}")
            start = time.process_time()
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
            seconds[item.nodeid] = round(time.process_time() - start, 3)
        cover.stop()
        runs: dict[str, set[str]] = defaultdict(set)
        for module in modules():
            path = ROOT / "hemcalc" / module
            by_line = cover.get_data().contexts_by_lineno(str(path))
            for name, first, last in _functions(ast.parse(path.read_text("utf-8"))):
                for line, tests in by_line.items():
                    if first <= line <= last:
                        runs[f"{module} {name}"].update({*tests} - {""} - self.anyway)
        kept = {"anyway": sorted(self.anyway), "seconds": seconds, "runs": {name: sorted(tests) for name, tests in runs.items()}}
        SURVEY.write_text(json.dumps(kept), "utf-8")

    def tests_for(self, place: Place) -> list[str]:
        """Those that run its function (its module, if it is in none), and those that are new."""
        one = f"{place.module} {place.definition}"
        names = (
            [one] if one in self.runs else [name for name in self.runs if name.startswith(f"{place.module} ")]
        )
        known = {test for name in names for test in self.runs[name]}
        room = place.module.split("/")[0] + "/"
        at_home = {test for test in self.items if test.startswith((f"tests/{room}", f"hemcalc/{room}"))}
        new = {test for test in self.items if test not in self.seconds} & at_home
        chosen, total = [], 0.0
        for test in sorted(
            (known | new) & set(self.items), key=lambda t: (t not in at_home, self.seconds.get(t, 1))
        ):
            total += self.seconds.get(test, 1)
            if total > MOST and chosen:
                break
            chosen.append(test)
        return chosen

    def _try(self, made: Change, ids: list[str]) -> str:
        """The test that notices a change; nothing if none does."""

        def within() -> None:
            changed = {
                (code.co_qualname, code.co_firstlineno): code
                for code in _codes(
                    compile(made.source, str(ROOT / "hemcalc" / made.place.module), "exec", dont_inherit=True)
                )
            }
            put = 0
            for code, functions in self.functions.items():
                new = changed.get((code.co_qualname, code.co_firstlineno))
                if code.co_filename.endswith(f"/hemcalc/{made.place.module}") and new not in (None, code):
                    for function in functions:
                        function.__code__ = new
                        put += 1
            if put:
                self._run(ids)
            else:
                afresh()

        def afresh() -> None:
            for name, module in list(sys.modules.items()):
                file = getattr(module, "__file__", None) or ""
                if name.split(".")[0] == "hemcalc" or (
                    file.startswith(f"{ROOT}/tests/") and name != "__main__"
                ):
                    del sys.modules[name]
            sys.meta_path.insert(0, _Changed(made))
            home = [test for test in ids if made.place.module.split("/")[0] == test.split("/")[1]]
            for some in (home, [test for test in ids if test not in home]):
                if some:
                    pytest.main([*OPTIONS, *some], plugins=[First(self.said)])

        limit = BESIDES + PATIENCE * sum(self.seconds.get(test, 1) for test in ids)
        status = self._child(within if made.place.within else afresh, limit)
        if not status:
            return ""
        return self.said.read_text("utf-8") if self.said.exists() else "ended: it took too long"

    def _try_all(self) -> bool:
        """Print what comes of each; whether enough are noticed."""
        with EQUIVALENT.open(encoding="utf-8", newline="") as file:
            equivalent = {
                (row["module"], row["definition"], row["was"], row["now"]) for row in csv.DictReader(file)
            }
        survived, noticed, same = [], 0, 0
        for made in sample(self.asked.number, self.asked.seed, self.asked.at):
            if made.key in equivalent:
                same += 1
                continue
            ids = self.tests_for(made.place)
            if by := self._try(made, ids):
                noticed += 1
                if self.asked.at:
                    print(f"{made.text}\n    noticed by {by}", flush=True)
            else:
                survived.append(made)
                print(f"{made.text}\n    NOTICED BY NONE of {len(ids)}", flush=True)
        share = noticed / max(1, noticed + len(survived))
        print(
            f"{noticed + len(survived) + same} changes: {noticed} noticed, {len(survived)} not, {same} equivalent. "
            f"Of those that are not equivalent {share:.1%} are noticed."
        )
        return share >= ENOUGH


def _functions(tree: ast.AST, above: str = "") -> Iterator[tuple[str, int, int]]:
    """The outermost functions, by name and lines of their bodies."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.FunctionDef):
            yield above + node.name, node.body[0].lineno, node.end_lineno or 0
        elif isinstance(node, ast.ClassDef):
            yield from _functions(node, f"{above}{node.name}.")


_INIT = hypothesis.settings.__init__


def _few_examples(self, *parent, **asked):
    """hypothesis's settings with few examples, and no search for the least that fails."""
    asked["max_examples"] = min(asked.get("max_examples", EXAMPLES), EXAMPLES)
    asked["phases"] = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
    _INIT(self, *parent, **asked)


OPTIONS = ("-W", "ignore:Module already imported", "-p", "no:cacheprovider", "-p", "no:terminal", "--capture=no")


def main() -> int:
    """Sample, try and print; 1 if too much goes unnoticed."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--number", type=int, default=350, help="how many changes (350)")
    parser.add_argument("--seed", type=int, default=1, help="another seed draws others (1)")
    parser.add_argument(
        "--at", default="", help="all changes of a module (edge/ledger.py) or a line (….py:120)"
    )
    parser.add_argument("--survey", action="store_true", help="find anew which tests run which function")
    asked = parser.parse_args()
    type.__setattr__(hypothesis.settings, "__init__", _few_examples)
    os.chdir(ROOT)
    sys.path.insert(0, str(ROOT))
    where = [
        path for name in PACKAGES for path in (f"tests/{name}", f"hemcalc/{name}") if Path(path).exists()
    ]
    with tempfile.TemporaryDirectory() as folder:
        run = Mutation(asked, Path(folder))
        pytest.main(
            [
                *OPTIONS,
                f"--basetemp={folder}/tests",
                *(f"--ignore={path}" for path in ELSEWHERE),
                *where,
                "tests/sources",
                *map(str, Path("tests").glob("test_*.py")),
            ],
            plugins=[run],
        )
    return 0 if run.enough else 1


if __name__ == "__main__":
    sys.exit(main())
