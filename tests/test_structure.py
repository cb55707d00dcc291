"""The shape of the house: one direction, a light core, small modules, documented names."""

import ast
import importlib
import inspect
import pathlib
import re
import subprocess
import sys
from functools import cached_property
from typing import TypeVar

from importlinter.cli import lint_imports

import hemcalc

PACKAGE = pathlib.Path(hemcalc.__file__).parent
LINES = 330  # "about 300", with a tenth to spare

#: What people plan with; the rest shows it, prints it or starts it.
CORE = (
    "measure",
    "edge",
    "corner",
    "piece",
    "yarn",
    "weave",
    "stitch",
    "bolt",
    "sums",
    "finish",
    "books",
    "workshop",
    "course",
)
HEAVY = ("numpy", "scipy", "matplotlib", "pandas", "ipywidgets", "IPython")

#: Every module, by its name below hemcalc: edge.ledger, draw.edge.ruler, draw.__init__.
FILES = {
    ".".join(path.relative_to(PACKAGE).with_suffix("").parts): path for path in sorted(PACKAGE.rglob("*.py"))
}
#: The modules of the core that are no front.
INNER = [name for name in FILES if name.split(".")[0] in CORE and not name.endswith("__init__")]
#: A private name of something else, in code or in a text of code: by a dot, set or imported.
LEANING = r"""\.(?<!\bself\.)(?<!\bcls\.)(_[A-Za-z]\w*)|setattr\([^()"]*"(_\w+)"|[(,] (_\w+)=|""" + (
    r"^from hemcalc.* import .*?(?<!as )\b(_\w+)|^    (_\w+),$"
)


def test_each_package_imports_only_from_the_floors_below_it():
    assert lint_imports(config_filename=str(PACKAGE.parent / "pyproject.toml"), no_cache=True) == 0


def test_each_package_says_in_a_sentence_what_it_is_for():
    for name in (name for name in FILES if name.endswith("__init__")):
        module = importlib.import_module(f"hemcalc.{name}".removesuffix(".__init__"))
        assert (inspect.getdoc(module) or "").split("\n")[0].endswith("."), name


def test_importing_the_core_pulls_in_nothing_heavy():
    """All in one process: whatever any of them brought in would still be there at the end."""
    asked = (
        "import importlib, sys, hemcalc\n"
        f"for name in {INNER}: importlib.import_module(f'hemcalc.{{name}}')\n"
        f"print([name for name in {HEAVY} if name in sys.modules])"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", asked], cwd=PACKAGE.parent, capture_output=True, text=True, check=True
    )
    assert loaded.stdout.strip() == "[]"


def test_a_module_is_short_enough_to_read_at_a_sitting():
    assert {name for name in FILES if len(FILES[name].read_text("utf-8").splitlines()) > LINES} == set()


def test_no_public_name_is_hidden_by_a_module_of_the_same_name():
    """A name brought in when asked for would be the module itself once that has been imported."""
    assert set(hemcalc.__all__) & {name.split(".")[0] for name in FILES} == set()


def test_no_test_leans_on_a_private_name():
    """What a test has to look at has a name for the house: else the test would hold how, and not what."""
    made = re.compile(r"(?:def |class |self\.|^)(_[A-Za-z]\w*[^\W_])\b", re.MULTILINE)
    private = {name for path in FILES.values() for name in made.findall(path.read_text("utf-8"))}
    for path in pathlib.Path(__file__).parent.rglob("*.py"):
        for names in re.findall(LEANING, path.read_text("utf-8"), re.MULTILINE):
            assert not {*names} & private, path


def names_of(module: str) -> list[tuple[str, object]]:
    """What a module offers: its `__all__`, or all that it makes under a name that begins with no stroke."""
    loaded, made = importlib.import_module(f"hemcalc.{module}"), []
    for line in ast.parse(FILES[module].read_text("utf-8")).body:
        named = [*getattr(line, "targets", ()), getattr(line, "target", None)]
        made += [getattr(line, "name", ""), *(getattr(name, "id", "") for name in named)]
    public = getattr(loaded, "__all__", [name for name in made if name and not name.startswith("_")])
    things = [(name, getattr(loaded, name)) for name in public]
    return [(name, thing) for name, thing in things if not isinstance(thing, TypeVar)]


def test_every_public_name_of_the_core_says_what_it_is():
    for name in INNER:
        public = names_of(name)
        assert public, f"{name} offers nothing"
        assert inspect.getdoc(importlib.import_module(f"hemcalc.{name}")), name
        for label, thing in public:
            if inspect.isclass(thing) or inspect.isroutine(thing):
                assert thing.__doc__, (name, label)
                # A dataclass without a docstring gets its signature for one.
                assert not thing.__doc__.startswith(f"{label}("), (name, label)
            else:
                # Constants can't carry a docstring; the line above says what they are.
                lines = FILES[name].read_text("utf-8").splitlines()
                (at,) = [i for i, line in enumerate(lines) if line.startswith((f"{label} =", f"{label}:"))]
                assert lines[at - 1].startswith("#:"), (name, label)


def test_every_public_method_of_the_core_says_what_it_does():
    for name in INNER:
        for label, thing in names_of(name):
            # What a protocol asks for is said by the class that has it.
            if inspect.isclass(thing) and not getattr(thing, "_is_protocol", False):
                for method, member in inspect.getmembers_static(thing):
                    public = not method.startswith("_")
                    if public and (callable(member) or isinstance(member, property | cached_property)):
                        assert inspect.getdoc(getattr(thing, method)), f"{name}: {label}.{method}"
