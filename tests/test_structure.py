"""The shape of the package: one direction, a light core, small modules, documented names."""

import ast
import graphlib
import importlib
import inspect
import pathlib
import subprocess
import sys
from functools import cached_property

import pytest

import hemcalc

PACKAGE = pathlib.Path(hemcalc.__file__).parent
LINES = 330  # "about 300", with a tenth to spare

#: The core, lowest first: a module imports only what stands before it. Some are still to come.
CORE = (
    # numbers, lengths, cloth
    "errors",
    "exact",
    "finite",
    "lengths",
    "measured",
    "readings",
    "counts",
    "fabric",
    # the edge
    "margin",
    "edge",
    "rule_tables",
    # the stitch groups of a side
    "groups",
    "spacing",
    "suggest",
    # the section
    "bend",
    "cloth_path",
    "section",
    # the folded corner
    "polygon",
    "plies",
    "layers",
    "landing",
    "overhang",
    "flat_corner",
    "corner",
    "basting",
    # what to heed, wherever a step is told
    "cautions",
    # drawing threads and darning them back
    "crossings",
    "openlines",
    "reach",
    "darning",
    "weave",
    "weave_steps",
    "weave_ways",
    # yarn, needle, and the thread that a piece takes
    "yarn_systems",
    "yarn",
    "cloth_yarn",
    "diameter",
    "gap",
    "needle",
    "amount",
    "stitch",
    "plain_stitch",
    "hemmed",
    "thread_range",
    "thread_rounds",
    "thread_plan",
    "thread",
    # the whole piece
    "sizes",
    "fit",
    "side_spacings",
    # its finish, step by step
    "finish_words",
    "steps_cloth",
    "steps_open_line",
    "steps_corner",
    "steps_hem",
    "steps",
    # the piece itself
    "piece",
    "suggestions",
    # a piece kept
    "files",
    "piece_form",
    "piece_file",
    # pieces from a bolt and from a remnant
    "layplan",
    "wanted",
    "cutting",
    "bolt",
    "remnant",
    # for learners
    "answers",
    "examples",
    # the sums that they do, the slips they make, and practice
    "worked",
    "sums",
    "slips",
    "given",
    "checking",
    "exercises",
    # held against published figures
    "book_threads",
    "book_cutting",
    "book_sums",
    "published",
    "book_ranges",
    # a class
    "money",
    "goods",
    "kit",
    "workshop",
    "class_cutting",
    "spreadsheet",
    "example_class",
)
#: What stands above the core, lowest first.
ABOVE = ("tables", "draw", "paper", "panels", "environment", "launch", "__main__")
ORDER = (*CORE, "__init__", *ABOVE)
#: The one library that the core may use, an extra, and the one module that does.
EXTRA = {"layplan.solver": {"scipy"}}
HEAVY = ("numpy", "scipy", "matplotlib", "pandas", "ipywidgets", "IPython")


def module_files() -> dict[str, pathlib.Path]:
    """Every module, by its name below hemcalc: edge, draw.ruler, draw.__init__."""
    return {
        ".".join(path.relative_to(PACKAGE).with_suffix("").parts): path
        for path in sorted(PACKAGE.rglob("*.py"))
    }


def imports(name: str, source: str, known: set[str]) -> tuple[set[str], set[str]]:
    """The modules of hemcalc and the packages of others that a module imports, in functions too."""
    ours, others = set(), set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            wanted = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                here = ["hemcalc", *name.split(".")][: -node.level]
                base = ".".join([*here, base]).strip(".")
            # `from hemcalc import edge` wants the module, `from hemcalc import Edge` what the package holds.
            wanted = [f"{base}.{alias.name}" for alias in node.names]
        else:
            continue
        for dotted in wanted:
            top, _, below = dotted.partition(".")
            if top != "hemcalc":
                others.add(top)
                continue
            parts = below.split(".") if below else []
            while parts and ".".join(parts) not in known and ".".join([*parts, "__init__"]) not in known:
                parts.pop()
            found = ".".join(parts)
            ours.add(found if found in known else f"{found}.__init__".lstrip("."))
    return ours, others


FILES = module_files()
IMPORTS = {name: imports(name, path.read_text("utf-8"), set(FILES)) for name, path in FILES.items()}


def layer(name: str) -> str:
    return name.split(".")[0]


#: A package imports freely within itself, but not in a ring.
PACKAGES = {layer(name) for name in FILES if "." in name}


def faults(graph: dict[str, set[str]]) -> list[str]:
    """What in this graph goes against the order."""
    return [
        f"{name} imports {wanted}"
        for name, all_wanted in graph.items()
        for wanted in all_wanted
        if ORDER.index(layer(wanted)) > ORDER.index(layer(name))
        or (layer(wanted) == layer(name) and layer(name) not in PACKAGES)
    ]


@pytest.mark.parametrize("name", FILES)
def test_every_module_has_its_place_in_the_order(name):
    assert layer(name) in ORDER, f"give {name} its place in the order of this test"


@pytest.mark.parametrize("name", FILES)
def test_no_module_imports_one_above_it(name):
    assert faults({name: IMPORTS[name][0]}) == []


def test_no_modules_import_one_another_in_a_ring():
    graph = {name: ours - {name} for name, (ours, _) in IMPORTS.items()}
    graphlib.TopologicalSorter(graph).prepare()


@pytest.mark.parametrize("name", [name for name in FILES if layer(name) in (*CORE, "__init__")])
def test_the_core_imports_only_the_standard_library_and_one_extra(name):
    assert IMPORTS[name][1] <= sys.stdlib_module_names | EXTRA.get(name, set())


# The checks above, checked: on imports that they must see, and on ones that they must refuse.
@pytest.mark.parametrize(
    ("source", "ours", "others"),
    [
        ("import hemcalc.edge", {"edge"}, set()),
        ("import hemcalc", {"__init__"}, set()),
        ("from hemcalc.edge import plan_edge", {"edge"}, set()),
        ("from hemcalc import edge", {"edge"}, set()),
        ("from hemcalc import plan_edge", {"__init__"}, set()),
        ("from .edge import plan_edge", {"edge"}, set()),
        ("from . import edge", {"edge"}, set()),
        ("def late():\n    from hemcalc.edge import plan_edge\n    import numpy.linalg", {"edge"}, {"numpy"}),
        ("import math, matplotlib.pyplot as plt", set(), {"math", "matplotlib"}),
    ],
)
def test_an_import_is_seen_however_it_is_written(source, ours, others):
    assert imports("counts", source, {"__init__", "edge", "counts"}) == (ours, others)


def test_a_relative_import_is_seen_from_within_a_package():
    known = {"__init__", "edge", "draw.__init__", "draw.ruler"}
    assert imports("draw.ruler", "from ..edge import Edge\nfrom . import style", known) == (
        {"edge", "draw.__init__"},
        set(),
    )


@pytest.mark.parametrize(
    ("name", "wanted"),
    [("counts", "edge"), ("counts", "__init__"), ("edge", "draw.ruler"), ("draw.ruler", "panels.margin")],
)
def test_an_import_from_above_is_a_fault(name, wanted):
    assert faults({name: {wanted}}) == [f"{name} imports {wanted}"]
    assert faults({wanted: {name}}) == []


def heavy_with(*modules: str) -> list[str]:
    """What heavy packages come with these modules, imported one after the other in a process of their own."""
    asked = f"import sys, {', '.join(modules)}; print(*(name for name in {HEAVY} if name in sys.modules))"
    loaded = subprocess.run(
        [sys.executable, "-c", asked], cwd=PACKAGE.parent, capture_output=True, text=True, check=True
    )
    return loaded.stdout.split()


def test_importing_the_core_pulls_in_nothing_heavy():
    core = [f"hemcalc.{name.removesuffix('.__init__')}" for name in FILES if layer(name) in CORE]
    assert len(core) > 70
    assert heavy_with("hemcalc", *core) == []
    assert "matplotlib" in heavy_with("hemcalc", "hemcalc.draw"), "it would be seen"


@pytest.mark.parametrize("name", FILES)
def test_a_module_is_short_enough_to_read_at_a_sitting(name):
    assert len(FILES[name].read_text("utf-8").splitlines()) <= LINES


def test_no_public_name_is_hidden_by_a_module_of_the_same_name():
    """A name brought in when asked for would be the module itself once that has been imported."""
    assert set(hemcalc.__all__) & {name.split(".")[0] for name in FILES} == set()


def names_of(module: str) -> list[tuple[str, object]]:
    loaded = importlib.import_module("hemcalc" if module == "__init__" else f"hemcalc.{module}")
    return [(name, getattr(loaded, name)) for name in getattr(loaded, "__all__", ())]


@pytest.mark.parametrize("name", [name for name in FILES if layer(name) in CORE])
def test_every_public_name_of_the_core_says_what_it_is(name):
    public = names_of(name)
    assert public, "a module says in __all__ what it offers"
    assert inspect.getdoc(importlib.import_module(f"hemcalc.{name}"))
    for label, thing in public:
        if inspect.isclass(thing) or inspect.isroutine(thing):
            assert thing.__doc__, label
            # A dataclass without a docstring gets its signature for one.
            assert not thing.__doc__.startswith(f"{label}("), label
        else:
            # Constants can't carry a docstring; the line above says what they are.
            lines = FILES[name].read_text("utf-8").splitlines()
            (at,) = [i for i, line in enumerate(lines) if line.startswith((f"{label} =", f"{label}:"))]
            assert lines[at - 1].startswith("#:"), label


@pytest.mark.parametrize("name", [name for name in FILES if layer(name) in CORE])
def test_every_public_method_of_the_core_says_what_it_does(name):
    for label, thing in names_of(name):
        # What a protocol asks for is said by the class that has it.
        if inspect.isclass(thing) and not getattr(thing, "_is_protocol", False):
            for method, member in inspect.getmembers_static(thing):
                public = not method.startswith("_")
                if public and (callable(member) or isinstance(member, property | cached_property)):
                    assert inspect.getdoc(getattr(thing, method)), f"{label}.{method}"
