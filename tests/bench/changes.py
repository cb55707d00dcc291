"""The small changes that a line of the core may suffer, made by cosmic-ray and drawn by a seed."""

from __future__ import annotations

import difflib
import random
import re
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from types import MappingProxyType

from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.operators.number_replacer import NumberReplacer
from cosmic_ray.operators.operator import Operator
from cosmic_ray.operators.provider import OperatorProvider

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "hemcalc"
_CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
#: The core: what draws nothing.
ROOMS = [
    name.removeprefix("hemcalc.")
    for contract in _CONTRACTS
    if "matplotlib" in contract.get("forbidden_modules", ())
    for name in contract["source_modules"]
]


class Exchanged(Operator):
    """A function called in place of its counterpart: cosmic-ray has none such."""

    PAIRS = (("min", "max"), ("any", "all"), ("floor", "ceil"), ("sin", "cos"), ("round_up", "round_down"))
    OTHER = MappingProxyType(dict(PAIRS) | {b: a for a, b in PAIRS})

    def mutation_positions(self, node):
        """Where such a function is called."""
        if node.type == "name" and node.value in self.OTHER and node.get_next_leaf().value == "(":
            yield node.start_pos, node.end_pos

    def mutate(self, node, index):
        """Call the other."""
        node.value = self.OTHER[node.value]
        return node

    @classmethod
    def examples(cls):
        """None: cosmic-ray tests its own operators by them."""
        return ()


_NAMES = """
    ReplaceBinaryOperator_: Add_Sub Sub_Add Mul_Div Div_Mul FloorDiv_Div Mod_Mul Pow_Mul
    ReplaceBinaryOperator_: BitOr_BitAnd BitAnd_BitOr
    ReplaceComparisonOperator_: Lt_LtE LtE_Lt Gt_GtE GtE_Gt Eq_NotEq NotEq_Eq Is_IsNot IsNot_Is
    ReplaceUnaryOperator_: Delete_USub Delete_Not
    Replace: AndWithOr OrWithAnd TrueWithFalse FalseWithTrue BreakWithContinue ContinueWithBreak
    : AddNot ExceptionReplacer NumberReplacer ZeroIterationForLoop
"""
_LINES = (line.strip().split(":") for line in _NAMES.strip().splitlines())
OPERATORS = (
    Exchanged(),
    *(OperatorProvider()[kind + name]() for kind, names in _LINES for name in names.split()),
)


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
    def of_a_number(self) -> bool:
        """Whether it puts another number there."""
        return isinstance(self.place.operator, NumberReplacer)

    @property
    def text(self) -> str:
        """File, line and difference."""
        where = f"hemcalc/{self.place.module}:{self.place.line} {self.place.definition}"
        return f"{where}\n    - {self.was}\n    + {self.now}"


def _where(node) -> tuple[str, bool] | None:
    """The definition that a node is in, and whether in its body; None where no change could matter."""
    if node.type == "operator" and node.parent.type in ("param", "parameters"):
        return None  # which arguments have names
    if node.type == "if_stmt" and node.children[1].get_code().strip() == "TYPE_CHECKING":
        return None  # names that nothing asks for when it runs
    names, within, child = [], False, node
    while (parent := child.parent) is not None:
        if parent.type in ("argument", "param") and re.match(r"\s*(example|strict)\b", parent.get_code()):
            # Another number would be as good an example in a refusal; and that two lists are of one
            # length is not made so by saying it to `zip`.
            return None
        if parent.type in ("tfpdef", "decorator") or (
            parent.type == "annassign" and child is parent.children[1]
        ):
            return None  # a type, or how a dataclass is kept
        if parent.type == "funcdef":
            if child is parent.annotation:
                return None
            # What an outer function holds belongs to it.
            names, within = [parent.name.value], child is parent.children[-1]
        elif parent.type == "classdef":
            names.insert(0, parent.name.value)
        child = parent
    return ".".join(names), within


@cache
def _by_line(module: str) -> dict[int, list[Place]]:
    """Every change that can be made in a module, by its line."""
    nodes = [(node, _where(node)) for node in ast_nodes(get_ast((PACKAGE / module).read_text("utf-8")))]
    found: dict[int, list[Place]] = defaultdict(list)
    for operator in OPERATORS:
        occurrence = 0
        for node, where in nodes:
            for (line, _), _ in operator.mutation_positions(node):
                if where is not None:
                    found[line].append(Place(module, line, *where, operator, occurrence))
                occurrence += 1
    return found


def _change(place: Place) -> Change | None:
    """The change at a place, if Python can read it."""
    before = (PACKAGE / place.module).read_text("utf-8")
    after = mutate_code(before, place.operator, place.occurrence)
    try:
        compile(after, "", "exec")
    except SyntaxError:
        return None
    lines = list(difflib.unified_diff(before.splitlines(), after.splitlines(), n=0))[3:]
    was, now = ("; ".join(" ".join(line[1:].split()) for line in lines if line[0] == sign) for sign in "-+")
    return Change(place, after, was, now)


def modules() -> list[str]:
    """The core's, by their paths in hemcalc."""
    found = (path for room in ROOMS for path in sorted((PACKAGE / room).rglob("*.py")))
    return [path.relative_to(PACKAGE).as_posix() for path in found]


def sample(number: int, seed: int, at: str) -> Iterator[Change]:
    """So many changes, each on a line of its own; of one module, or all of one line, if asked."""
    only, _, line = at.partition(":")
    if line:
        yield from filter(None, map(_change, _by_line(only)[int(line)]))
        return
    lines = [
        (module, line)
        for module in modules()
        if module.startswith(only)
        for line in range(1, 1 + (PACKAGE / module).read_text("utf-8").count("\n"))
    ]
    random.Random(seed).shuffle(lines)
    for module, line in lines:
        found = _by_line(module).get(line, [])
        # Drawn here, so that which change a line suffers doesn't hang on other lines.
        drawn = random.Random(f"{seed} {module} {line}").sample(found, len(found))
        if made := next(filter(None, map(_change, drawn)), None):
            yield made
            if not (number := number - 1):
                return
